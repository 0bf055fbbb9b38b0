/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_GUIDE_SEARCH_H
#define SCENARIO_CATALOG_GUIDE_SEARCH_H

#include "scenario/catalog/guide.h"

#define SPT_QUERY_WORDS_MAX 24
#define SPT_QUERY_WORD_LENGTH 32
#define SPT_HITS_MAX 5

/* The words of a question that are looked for, small words left out. */
struct spt_guide_query {
    int count;
    char words[SPT_QUERY_WORDS_MAX][SPT_QUERY_WORD_LENGTH];
};

/* A mode that answers to some of the words. */
struct spt_guide_hit {
    const struct spt_guide_entry *entry;
    double score;
    int found_count;
    bool found[SPT_QUERY_WORDS_MAX];
    enum spt_guide_part parts[SPT_QUERY_WORDS_MAX]; /* the weightiest part that has the word */
    enum spt_guide_part line_part;
    const char *line; /* the line with most of the words */
};

/* Cuts a question into words: letters and digits, small letters, without "the", "on", ... Words
 * past SPT_QUERY_WORDS_MAX are left out. */
void spt_guide_query_read(const char *text, struct spt_guide_query *query);

/* The modes that fit a question best, the best first.
 * In:     the guide; the query; room for SPT_HITS_MAX hits.
 * Result: how many hits; modes of equal score stand in the order of the guide.
 * Rule:   two words match where they are the same without their ending, or where one of at least
 *         four letters starts the other. A word counts where its weightiest part has it (names 5,
 *         words 4, looks 3, places and causes 2, checks 1), times ln(1 + modes / modes that have
 *         it). A name or a line of `words` that is wholly in the question gives its words once
 *         more. The sum is taken times the share of the words that were found; hits below a fifth
 *         of the best are left out. Source: our own. */
int spt_guide_search(const struct spt_guide *guide, const struct spt_guide_query *query,
                     struct spt_guide_hit *hits);

/* True where the two words match by the rule above; small letters. */
bool spt_guide_words_match(const char *a, const char *b);

#endif
