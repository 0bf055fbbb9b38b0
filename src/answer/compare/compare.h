/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_COMPARE_H
#define ANSWER_COMPARE_H

#include "format/page/page.h"
#include "spalltime/assess.h"
#include "spalltime/verdict.h"

/* One of the compared scenarios and variants; the first is the base. */
struct spt_compared {
    const char *name; /* title of a scenario, name of a variant */
    const char *note; /* may be NULL */
    struct spt_assessment assessment;
    const struct spt_judgement *judgement; /* of a scenario; NULL: a variant */
    const struct spt_judgement *plan;      /* of each case, for its life; NULL: not worked out */
    struct spt_notes notes; /* all flags of the assessment, from spt_assessment_notes */
};

/* Side by side: life, ratio to the base, film and contamination, a bar on a log scale, the split of
 * the loss, what each cure means, the flags, where `explain` the calculation of each. Text, JSON
 * (`shown_phase`) and CSV (`shown_...`) show every case in the phase with most damage of the base,
 * in the bearing of the base with the shortest life; a case without a phase of that name shows its
 * own phase with most damage, as do the other members of JSON and CSV. */
/* The table of the cases alone. */
void spt_compare_table(struct spt_page *page, const struct spt_compared *cases, int count);
void spt_compare_page(struct spt_page *page, const struct spt_compared *cases, int count,
                      bool explain);
void spt_compare_json(struct spt_json *json, const struct spt_page *page,
                      const struct spt_compared *cases, int count, bool explain);

#endif
