/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_SEARCH_H
#define SCENARIO_CATALOG_SEARCH_H

#include "scenario/catalog/causes.h"

#define SPT_HITS_MAX SPT_DIAGNOSIS_ANSWERS_MAX

/* A finding, mode or outside term that fits what was asked. */
struct spt_search_hit {
    int owner;
    double score;
    int part;         /* above 0: it fits words that the best does not have */
    bool absent;      /* what was asked says that it is not there */
    const char *text; /* the phrase that fits best, or the finding that shows a mode */
    bool found[SPT_QUERY_WORDS_MAX];
};

struct spt_search_result {
    int finding_count, mode_count;
    struct spt_search_hit findings[SPT_HITS_MAX], modes[SPT_HITS_MAX];
    int group; /* whose answers the findings are, because the words name its question and no answer;
                  -1: none */
    const char *outside;                 /* a term outside the guide; NULL: none */
    bool left_over[SPT_QUERY_WORDS_MAX]; /* words of the query that no hit has */
};

/* Findings and modes that fit what was asked, the best first: those with a score of at least 0.5
 * and 0.7 of the best, at most five (spt_phrase_match). The words that are left over are searched
 * again by themselves, with a score of at least 0.7. Where the words name the question of a group
 * and no answer ("dents"), all answers of the group are found. A mode fits by its own words, or by
 * a finding that fits, times how likely the finding is with it. Source: our own. */
void spt_search(const struct spt_causes *causes, const struct spt_query *query,
                struct spt_search_result *result);

/* Place of a finding among those that fit its own phrase: 0 is first, -1 where it is not there. */
int spt_search_place(const struct spt_causes *causes, const struct spt_query *query, int finding);

#endif
