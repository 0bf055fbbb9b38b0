/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_FINDINGS_H
#define SENTENCE_FINDINGS_H

#include "format/page/page.h"
#include "spalltime/assess.h"

/* Receives sentences one by one; `who` is the name of the bearing or phase, NULL for the whole
 * case. */
struct spt_finding_sink {
    void (*say)(void *context, const char *who, const char *sentence);
    void *context;
};

/* Sends one sentence, formatted as by printf, of at most 1199 bytes. */
__attribute__((format(printf, 3, 4))) void
spt_finding_say(const struct spt_finding_sink *sink, const char *who, const char *format, ...);

/* Whether the life meets its target; in doubt where something else may end it first, or the figure
 * is doubtful. */
enum spt_verdict spt_findings_judge(const struct spt_assessment *assessment);

/* The result in sentences: life and target, then for each bearing the phase with most damage, the
 * cause with the largest share of the loss, and the best single remedy (the largest gain). */
void spt_findings_verdict(const struct spt_assessment *assessment,
                          const struct spt_finding_sink *sink);

/* Reservations: causes that may end the life before fatigue or make the value doubtful, in a few
 * words into SPT_RESERVATIONS_LENGTH bytes: "wear may end it first; it may skid". Result: false
 * where there are none. */
#define SPT_RESERVATIONS_LENGTH 400
bool spt_findings_reservations(const struct spt_assessment *assessment, const bool *left_out,
                               char *words);

/* The word that joins the reservations to a verdict: "But" after a life, "Besides," after none. */
const char *spt_findings_joint(double life_h);

/* The section of the flags of the assessment, its bearings and its phases; a flag that several
 * phases raise is reported once, at the first of them, with their number; one with the same
 * sentence for all bearings is reported once for all. */
void spt_page_flags(struct spt_page *page, const struct spt_assessment *assessment);

/* The same without the section, of the flags whose effect is in the set, a mask of
 * 1u << enum spt_flag_effect. */
void spt_page_flags_of(struct spt_page *page, const struct spt_assessment *assessment,
                       unsigned effects);

/* Every flag of the assessment, its bearings and its phases once, with its first value, in the
 * order in which they are reported. */
void spt_findings_collect(const struct spt_assessment *assessment, struct spt_notes *notes);

#endif
