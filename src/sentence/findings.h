/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_FINDINGS_H
#define SENTENCE_FINDINGS_H

#include "spalltime/assess.h"

/* Gets sentences one by one; `who` names the bearing or the phase, NULL for the whole. */
struct spt_finding_sink {
    void (*say)(void *context, const char *who, const char *sentence);
    void *context;
};

/* One sentence in the words of printf, at most 1199 bytes of it. */
__attribute__((format(printf, 3, 4))) void
spt_finding_say(const struct spt_finding_sink *sink, const char *who, const char *format, ...);

/* The answer in sentences: life against target, then of each bearing the costliest phase, the
 * costliest cause (the largest share of the loss) and the best single remedy (the largest gain).
 */
void spt_findings_verdict(const struct spt_assessment *assessment,
                          const struct spt_finding_sink *sink);

/* What may end the life before fatigue does or leaves the figure in doubt, in a few words into
 * SPT_RESERVATIONS_LENGTH bytes: "wear may end it first; it may skid"; false where nothing. */
#define SPT_RESERVATIONS_LENGTH 400
bool spt_findings_reservations(const struct spt_assessment *assessment, const bool *left_out,
                               char *words);

/* What joins the reservations to a verdict: "But" after a life, "Besides," after none. */
const char *spt_findings_joint(double life_h);

/* The sentence of each flag of the assessment, its bearings and its phases; a flag that several
 * phases raise is said once, at the first of them, with their number, and one that both rows of a
 * hub raise in the same words once for both. */
void spt_findings_flags(const struct spt_assessment *assessment,
                        const struct spt_finding_sink *sink);

/* Every flag of the assessment, its bearings and its phases once, with its first value, in the
 * order in which they are said. */
void spt_findings_collect(const struct spt_assessment *assessment, struct spt_notes *notes);

#endif
