/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_GUIDE_H
#define ANSWER_CATALOG_GUIDE_H

#include "format/page/page.h"
#include "scenario/catalog/guide.h"
#include "scenario/catalog/search.h"
#include "spalltime/assess.h"

/* Findings and modes that fit what was asked, at least one, or a term outside the guide. */
struct spt_guide_answer {
    const char *asked;
    const struct spt_causes *causes;
    struct spt_query query;
    struct spt_search_result result;
    struct spt_diagnosis alone[SPT_HITS_MAX]; /* each finding for itself, of a wheel hub */
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

/* All modes (a row for each in CSV), one mode (each line of it), what fits words (a row for each),
 * or a mode in a scenario (each case and cause) as a page; it begins below its title, the name of
 * the mode where there is one. */
void spt_guide_list_page(struct spt_page *page, const struct spt_guide *guide);
void spt_guide_entry_page(struct spt_page *page, const struct spt_guide_entry *entry);
void spt_guide_answer_page(struct spt_page *page, const struct spt_guide_answer *answer);
void spt_guide_inquiry_page(struct spt_page *page, const struct spt_guide_inquiry *inquiry);

/* Write members into an object that the caller has opened: "modes" (the list), "mode", "asked" and
 * "found", or "mode", "title" and "cases". Keys are a contract: add, never rename. */
void spt_guide_list_json(struct spt_json *json, const struct spt_guide *guide);
void spt_guide_entry_json(struct spt_json *json, const struct spt_guide_entry *entry);
void spt_guide_answer_json(struct spt_json *json, const struct spt_guide_answer *answer);
void spt_guide_inquiry_json(struct spt_json *json, const struct spt_page *page,
                            const struct spt_guide_inquiry *inquiry);

/* Name of a finding or mode that fits. */
const char *spt_guide_hit_name(const struct spt_guide_answer *answer, bool is_mode, int at);

/* What a check asks, kept by the page, without a question mark. */
const char *spt_guide_question(struct spt_page *page, const struct spt_diagnosis_table *table,
                               const struct spt_diagnosis_check *check);

/* Shared by the formats: "debris, thin film", or "none". Returns `buffer`. */
#define SPT_GUIDE_CAUSES_LENGTH 96
const char *spt_guide_causes(unsigned causes, char *buffer);

/* "mode" of the standard, or "pattern" of the trade. */
const char *spt_guide_kind_name(const struct spt_guide_entry *entry);

/* The next flag of a case that indicates the mode, each flag once, at the first phase that raised
 * it. `*at` starts at 0; `*phase` is NULL for a flag of the whole bearing or case. NULL past the
 * last. */
const struct spt_note *spt_guide_next_note(const struct spt_guide_entry *entry,
                                           const struct spt_guide_case *one, int *at,
                                           const char **phase);

#endif
