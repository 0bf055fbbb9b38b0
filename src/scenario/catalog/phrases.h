/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_PHRASES_H
#define SCENARIO_CATALOG_PHRASES_H

#include "scenario/text/document.h"

#define SPT_PHRASE_WORDS_MAX 12
#define SPT_PHRASE_WORD_LENGTH 32
#define SPT_QUERY_WORDS_MAX 24
#define SPT_VOCABULARY_MAX 4096

/* Words without their endings, each synonym set as one. Text and arrays are in the arena. */
struct spt_vocabulary {
    int count;
    char (*words)[SPT_PHRASE_WORD_LENGTH];
    int *meanings;    /* of each word: the first word of its set of synonyms, or itself */
    bool *stops;      /* of each word: it counts nothing */
    bool *everyday;   /* of each meaning */
    int *owners;      /* of each meaning: findings that have it */
    double *rarities; /* of each meaning; set by spt_vocabulary_weigh */
    double rarest;    /* that of a word that a single finding has, or none */
};

/* A text as the meanings of its words; a meaning after "no", "not" or "without" is denied. */
struct spt_phrase {
    int count;
    int words[SPT_PHRASE_WORDS_MAX];
    bool denied[SPT_PHRASE_WORDS_MAX];
};

/* What was asked, or the part of it that nothing fitted yet, with the words as they were written;
 * meanings are -1 for words that no phrase has. */
struct spt_query {
    int count;
    bool is_rest; /* of a longer one */
    int words[SPT_QUERY_WORDS_MAX];
    bool denied[SPT_QUERY_WORDS_MAX];
    char written[SPT_QUERY_WORDS_MAX][SPT_PHRASE_WORD_LENGTH];
};

/* How well a phrase fits a query. */
struct spt_phrase_match {
    double score;                    /* 0 to 1 */
    double share;                    /* of what was asked, 0 to 1 */
    bool absent;                     /* what was asked denies the phrase */
    bool found[SPT_QUERY_WORDS_MAX]; /* words of the query that the phrase has */
};

/* Reserves an empty vocabulary. Result: false when memory is out. */
bool spt_vocabulary_begin(struct spt_vocabulary *vocabulary, struct spt_arena *arena);

/* The number of a word, added where it is new; -1 where there is no room. */
int spt_vocabulary_word(struct spt_vocabulary *vocabulary, const char *word);

/* Lists of the catalog: words that count nothing, one set of words that stand for each other, and
 * words that alone say little. */
void spt_vocabulary_stops(struct spt_vocabulary *vocabulary, const struct spt_node *list);
void spt_vocabulary_synonyms(struct spt_vocabulary *vocabulary, const struct spt_node *list);
void spt_vocabulary_everyday(struct spt_vocabulary *vocabulary, const struct spt_node *list);

/* Reads a phrase of the catalog, adding its words. Each meaning stands once. */
void spt_phrase_read(struct spt_vocabulary *vocabulary, const char *text,
                     struct spt_phrase *phrase);

/* Reads what was asked; words beyond SPT_QUERY_WORDS_MAX are ignored. */
void spt_query_read(const struct spt_vocabulary *vocabulary, const char *text,
                    struct spt_query *query);

/* Works out how rare each meaning is among so many findings, from `owners`. */
void spt_vocabulary_weigh(struct spt_vocabulary *vocabulary, int finding_count);

bool spt_phrases_equal(const struct spt_phrase *a, const struct spt_phrase *b);

/* The match of a phrase of the vocabulary.
 * Rule: words count where they are the same without their ending (ing, ed, es, y, e where four
 *       letters stay, s where three do), or of one set of synonyms, never by their beginning. With
 *       the rarity ln(1 + findings / findings that have the word) of each, score = (matched /
 *       phrase)(0.5 + 0.5 matched / asked). A phrase of one everyday word counts only where it has
 *       0.6 of what was asked, and never in what is left of a longer query.
 * Source: our own. */
void spt_phrase_match(const struct spt_vocabulary *vocabulary, const struct spt_phrase *phrase,
                      const struct spt_query *query, struct spt_phrase_match *match);

#endif
