/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_GUIDE_SEARCH_H
#define SCENARIO_CATALOG_GUIDE_SEARCH_H

#include "scenario/catalog/guide.h"

#define SPT_QUERY_WORDS_MAX 24
#define SPT_QUERY_WORD_LENGTH 32
#define SPT_HITS_MAX 5

/* The words of a query, without stop words. */
struct spt_guide_query {
    int count;
    char words[SPT_QUERY_WORDS_MAX][SPT_QUERY_WORD_LENGTH];
};

/* A mode that matches some of the words. */
struct spt_guide_hit {
    const struct spt_guide_entry *entry;
    double score;
    int found_count;
    bool found[SPT_QUERY_WORDS_MAX];
    /* the part with the highest weight that has the word */
    enum spt_guide_part parts[SPT_QUERY_WORDS_MAX];
    enum spt_guide_part line_part;
    const char *line; /* the line with most of the words */
};

/* Splits a query into words of letters and digits in lower case, without stop words ("the", "on",
 * ...). Words beyond SPT_QUERY_WORDS_MAX are ignored. */
void spt_guide_query_read(const char *text, struct spt_guide_query *query);

/* The modes that match a query best, the best first.
 * In:     the guide; the query; buffer for SPT_HITS_MAX hits.
 * Result: number of hits; modes of equal score are in the order of the guide.
 * Rule:   two words match where they are the same without their ending, or where one of at least
 *         four letters is the beginning of the other. A word scores the highest weight of the parts
 *         that have it (names 5, words 4, looks 3, places and causes 2, checks 1), times ln(1 +
 *         modes / modes that have it). A name or a line of `words` that is completely in the query
 *         scores its words again. The sum is multiplied by the fraction of the words that were
 *         found; hits below a fifth of the best are left out.
 * Source: our own. */
int spt_guide_search(const struct spt_guide *guide, const struct spt_guide_query *query,
                     struct spt_guide_hit *hits);

/* True where the two lower-case words match by the rule above. */
bool spt_guide_words_match(const char *a, const char *b);

#endif
