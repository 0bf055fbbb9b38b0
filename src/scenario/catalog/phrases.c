/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/phrases.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#define LONG_STEM 4
#define SHORT_STEM 3
#define EVERYDAY_SHARE 0.6

bool spt_vocabulary_begin(struct spt_vocabulary *vocabulary, struct spt_arena *arena)
{
    const size_t count = SPT_VOCABULARY_MAX;
    *vocabulary = (struct spt_vocabulary){
        .words = spt_arena_allocate(arena, count * sizeof *vocabulary->words),
        .meanings = spt_arena_allocate(arena, count * sizeof *vocabulary->meanings),
        .stops = spt_arena_allocate(arena, count * sizeof *vocabulary->stops),
        .everyday = spt_arena_allocate(arena, count * sizeof *vocabulary->everyday),
        .owners = spt_arena_allocate(arena, count * sizeof *vocabulary->owners),
        .rarities = spt_arena_allocate(arena, count * sizeof *vocabulary->rarities),
    };
    return vocabulary->words && vocabulary->meanings && vocabulary->stops && vocabulary->everyday &&
           vocabulary->owners && vocabulary->rarities;
}

static bool is_letter(char c)
{
    return isalpha((unsigned char)c) || ((unsigned char)c & 0x80);
}

/* Reads the next word of a text in lower case, truncated to the buffer; false at the end. */
static bool next_word(const char **at, char *word)
{
    size_t length = 0;
    while (**at && !is_letter(**at))
        ++*at;
    for (; is_letter(**at); ++*at)
        if (length + 1 < SPT_PHRASE_WORD_LENGTH)
            word[length++] = (char)tolower((unsigned char)**at);
    word[length] = 0;
    return length > 0;
}

/* Takes the ending off, and one of two equal letters that are left but for l, s and z: "pitted"
 * gives "pit", "spalling" gives "spall". */
static void take_ending(char *word)
{
    static const struct {
        const char *ending;
        size_t stays;
    } endings[] = {{"ing", LONG_STEM}, {"ed", LONG_STEM}, {"es", LONG_STEM},
                   {"s", SHORT_STEM},  {"y", LONG_STEM},  {"e", LONG_STEM}};
    size_t length = strlen(word);
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) {
        const size_t tail = strlen(endings[i].ending);
        if (length >= tail + endings[i].stays && !strcmp(word + length - tail, endings[i].ending)) {
            length -= tail;
            if (i < 2 && word[length - 1] == word[length - 2] && !strchr("lsz", word[length - 1]))
                length--;
            break;
        }
    }
    word[length] = 0;
}

static int find_word(const struct spt_vocabulary *vocabulary, const char *stem)
{
    for (int i = 0; i < vocabulary->count; i++)
        if (!strcmp(vocabulary->words[i], stem))
            return i;
    return -1;
}

int spt_vocabulary_word(struct spt_vocabulary *vocabulary, const char *word)
{
    char stem[SPT_PHRASE_WORD_LENGTH];
    const char *at = word;
    if (!next_word(&at, stem))
        return -1;
    take_ending(stem);
    int found = find_word(vocabulary, stem);
    if (found >= 0 || vocabulary->count == SPT_VOCABULARY_MAX)
        return found;
    found = vocabulary->count++;
    memcpy(vocabulary->words[found], stem, sizeof stem);
    vocabulary->meanings[found] = found;
    return found;
}

void spt_vocabulary_stops(struct spt_vocabulary *vocabulary, const struct spt_node *list)
{
    for (int i = 0; list && i < list->count; i++) {
        const int word = spt_vocabulary_word(vocabulary, list->items[i]->text);
        if (word >= 0)
            vocabulary->stops[word] = true;
    }
}

void spt_vocabulary_synonyms(struct spt_vocabulary *vocabulary, const struct spt_node *list)
{
    int first = -1;
    for (int i = 0; list && i < list->count; i++) {
        const int word = spt_vocabulary_word(vocabulary, list->items[i]->text);
        if (first < 0 && word >= 0)
            first = vocabulary->meanings[word];
        if (word >= 0)
            vocabulary->meanings[word] = first;
    }
}

void spt_vocabulary_everyday(struct spt_vocabulary *vocabulary, const struct spt_node *list)
{
    for (int i = 0; list && i < list->count; i++) {
        const int word = spt_vocabulary_word(vocabulary, list->items[i]->text);
        if (word >= 0)
            vocabulary->everyday[vocabulary->meanings[word]] = true;
    }
}

static bool is_denial(const char *word)
{
    return !strcmp(word, "no") || !strcmp(word, "not") || !strcmp(word, "without");
}

void spt_phrase_read(struct spt_vocabulary *vocabulary, const char *text, struct spt_phrase *phrase)
{
    char written[SPT_PHRASE_WORD_LENGTH];
    bool denied = false;
    *phrase = (struct spt_phrase){0};
    while (next_word(&text, written)) {
        if (is_denial(written)) {
            denied = true;
            continue;
        }
        const int word = spt_vocabulary_word(vocabulary, written);
        if (word < 0 || vocabulary->stops[word])
            continue;
        const int meaning = vocabulary->meanings[word];
        bool known = phrase->count == SPT_PHRASE_WORDS_MAX;
        for (int i = 0; i < phrase->count && !known; i++)
            known = phrase->words[i] == meaning;
        if (!known) {
            phrase->denied[phrase->count] = denied;
            phrase->words[phrase->count++] = meaning;
        }
        denied = false;
    }
}

/* True where the query has the word already: the meaning, or the same unknown word. */
static bool has_word(const struct spt_query *query, int meaning, const char *written)
{
    for (int i = 0; i < query->count; i++)
        if (meaning >= 0 ? query->words[i] == meaning
                         : query->words[i] < 0 && !strcmp(query->written[i], written))
            return true;
    return false;
}

void spt_query_read(const struct spt_vocabulary *vocabulary, const char *text,
                    struct spt_query *query)
{
    char written[SPT_PHRASE_WORD_LENGTH], stem[SPT_PHRASE_WORD_LENGTH];
    bool denied = false;
    *query = (struct spt_query){0};
    while (query->count < SPT_QUERY_WORDS_MAX && next_word(&text, written)) {
        if (is_denial(written)) {
            denied = true;
            continue;
        }
        memcpy(stem, written, sizeof stem);
        take_ending(stem);
        const int word = find_word(vocabulary, stem);
        const int meaning = word >= 0 ? vocabulary->meanings[word] : -1;
        if ((word >= 0 && vocabulary->stops[word]) || has_word(query, meaning, written))
            continue;
        memcpy(query->written[query->count], written, sizeof written);
        query->denied[query->count] = denied;
        query->words[query->count++] = meaning;
        denied = false;
    }
}

bool spt_phrases_equal(const struct spt_phrase *a, const struct spt_phrase *b)
{
    for (int i = 0; i < a->count; i++) {
        int j = 0;
        while (j < b->count && (a->words[i] != b->words[j] || a->denied[i] != b->denied[j]))
            j++;
        if (j == b->count)
            return false;
    }
    return a->count == b->count;
}

void spt_vocabulary_weigh(struct spt_vocabulary *vocabulary, int finding_count)
{
    vocabulary->rarest = log(1 + finding_count);
    for (int i = 0; i < vocabulary->count; i++) {
        const int owners = vocabulary->owners[i];
        vocabulary->rarities[i] = log(1 + (double)finding_count / (owners > 0 ? owners : 1));
    }
}

static double rarity(const struct spt_vocabulary *vocabulary, int meaning)
{
    return meaning >= 0 ? vocabulary->rarities[meaning] : vocabulary->rarest;
}

void spt_phrase_match(const struct spt_vocabulary *vocabulary, const struct spt_phrase *phrase,
                      const struct spt_query *query, struct spt_phrase_match *match)
{
    double matched = 0, of_phrase = 0, asked = 0;
    *match = (struct spt_phrase_match){0};
    for (int i = 0; i < phrase->count; i++) {
        const double weight = rarity(vocabulary, phrase->words[i]);
        of_phrase += weight;
        for (int j = 0; j < query->count; j++) {
            if (query->words[j] != phrase->words[i] || (phrase->denied[i] && !query->denied[j]))
                continue;
            matched += weight;
            match->found[j] = true;
            match->absent = match->absent || query->denied[j] != phrase->denied[i];
        }
    }
    for (int j = 0; j < query->count; j++)
        asked += rarity(vocabulary, query->words[j]);
    if (!(matched > 0))
        return;
    match->share = matched / asked;
    if (phrase->count == 1 && vocabulary->everyday[phrase->words[0]] &&
        (query->is_rest || match->share < EVERYDAY_SHARE))
        *match = (struct spt_phrase_match){0};
    else
        match->score = matched / of_phrase * (0.5 + 0.5 * match->share);
}
