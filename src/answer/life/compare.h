/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_COMPARE_H
#define ANSWER_LIFE_COMPARE_H

#include "format/json.h"
#include "format/text.h"
#include "spalltime/assess.h"

/* One scenario or variant among those that are compared; the first of all is the base. */
struct spt_compared {
    const char *name; /* title of a scenario, name of a variant */
    const char *note; /* may be NULL */
    struct spt_assessment assessment;
    struct spt_notes notes; /* all flags of the assessment, from spt_findings_collect */
};

/* Side by side: life, ratio to the base, film and contamination, a bar on a log scale, the split of
 * the loss, what each cure means, the flags (not where `quiet`). Text, JSON (`shown_phase`) and CSV
 * (`shown_...`) show every case in the phase that costs the base most, of the bearing of the base
 * that lasts least, where it has a phase of that name; other cases show their own costliest phase,
 * which the other members of JSON and CSV always do. */
void spt_compare_text(const struct spt_text *text, const struct spt_compared *cases, int count,
                      bool quiet);
void spt_compare_json(struct spt_json *json, const struct spt_compared *cases, int count);
void spt_compare_csv(FILE *out, const struct spt_compared *cases, int count);

#endif
