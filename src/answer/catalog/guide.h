/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_GUIDE_H
#define ANSWER_CATALOG_GUIDE_H

#include "format/json.h"
#include "format/text.h"
#include "scenario/catalog/guide.h"
#include "scenario/catalog/guide_search.h"
#include "spalltime/assess.h"

/* The modes found by a query in words. */
struct spt_guide_answer {
    const char *asked;
    struct spt_guide_query query;
    int count;
    struct spt_guide_hit hits[SPT_HITS_MAX];
};

/* Loss of life of one bearing, of a scenario or variant, by the causes of a mode. */
struct spt_guide_case {
    const char *variant; /* NULL: the scenario as stated */
    const struct spt_bearing_result *bearing;
    const struct spt_notes *of_case;                  /* flags of the whole case; NULL: none */
    const struct spt_case_setting *setting;           /* of a hub; NULL: none */
    bool one_of_two;                                  /* the hub has another bearing */
    struct spt_suspicion suspicions[SPT_CAUSE_COUNT]; /* set for the causes of the mode */
};
struct spt_guide_inquiry {
    const struct spt_guide_entry *entry;
    const char *title;
    int count;
    const struct spt_guide_case *cases;
};

/* Write all modes, one mode, the found modes, or a mode in a scenario; the caller adds the
 * cautions. */
void spt_guide_list_text(const struct spt_text *text, const struct spt_guide *guide);
void spt_guide_entry_text(const struct spt_text *text, const struct spt_guide_entry *entry);
void spt_guide_answer_text(const struct spt_text *text, const struct spt_guide_answer *answer);
void spt_guide_inquiry_text(const struct spt_text *text, const struct spt_guide_inquiry *inquiry);

/* Write members into an object that the caller has opened: "modes" (the list), "mode", "asked" and
 * "found", or "mode", "title" and "cases". Keys are a contract: add, never rename. */
void spt_guide_list_json(struct spt_json *json, const struct spt_guide *guide);
void spt_guide_entry_json(struct spt_json *json, const struct spt_guide_entry *entry);
void spt_guide_answer_json(struct spt_json *json, const struct spt_guide_answer *answer);
void spt_guide_inquiry_json(struct spt_json *json, const struct spt_guide_inquiry *inquiry);

/* Write complete CSV texts: a row for each mode; for each line of a mode; for each found mode; for
 * each case and cause. */
void spt_guide_list_csv(FILE *out, const struct spt_guide *guide);
void spt_guide_entry_csv(FILE *out, const struct spt_guide_entry *entry);
void spt_guide_answer_csv(FILE *out, const struct spt_guide_answer *answer);
void spt_guide_inquiry_csv(FILE *out, const struct spt_guide_inquiry *inquiry);

/* Shared by the formats: "debris, thin film", or "none". Returns `buffer`. */
#define SPT_GUIDE_CAUSES_LENGTH 96
const char *spt_guide_causes(unsigned causes, char *buffer);

/* The next flag of a case that indicates the mode, each flag once, at the first phase that raised
 * it. `*at` starts at 0; `*phase` is NULL for a flag of the whole bearing or case. NULL past the
 * last. */
const struct spt_note *spt_guide_next_note(const struct spt_guide_entry *entry,
                                           const struct spt_guide_case *one, int *at,
                                           const char **phase);

#endif
