/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/guide_search.h"
#include "base/table.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#define SHORTEST_STEM 3
#define SHORTEST_START 4
#define SMALLEST_SHARE 0.2

static const double part_weights[] = {
    [SPT_GUIDE_NAMES] = 5,     [SPT_GUIDE_WORDS] = 4,        [SPT_GUIDE_LOOKS] = 3,
    [SPT_GUIDE_PLACES] = 2,    [SPT_GUIDE_CAUSES] = 2,       [SPT_GUIDE_CHECKS] = 1,
    [SPT_GUIDE_MODEL_CAN] = 0, [SPT_GUIDE_MODEL_CANNOT] = 0, [SPT_GUIDE_BACK] = 0,
};
SPT_ONE_EACH(part_weights, SPT_GUIDE_PART_COUNT);

static bool is_small(const char *word)
{
    static const char *const small[] = {
        "a",   "all",  "an",   "and",  "are",   "as",    "at",    "be",   "been", "but",
        "by",  "for",  "from", "got",  "had",   "has",   "have",  "i",    "in",   "into",
        "is",  "it",   "its",  "my",   "no",    "not",   "of",    "on",   "one",  "or",
        "our", "so",   "some", "that", "the",   "them",  "there", "they", "this", "to",
        "was", "were", "what", "when", "which", "while", "with"};
    for (size_t i = 0; i < sizeof small / sizeof *small; i++)
        if (!strcmp(word, small[i]))
            return true;
    return false;
}

/* Reads the next word of a text in lower case, truncated to the buffer; false at the end. */
static bool next_word(const char **at, char *word)
{
    size_t length = 0;
    while (**at && !isalnum((unsigned char)**at) && !((unsigned char)**at & 0x80))
        ++*at;
    for (; isalnum((unsigned char)**at) || ((unsigned char)**at & 0x80); ++*at)
        if (length + 1 < SPT_QUERY_WORD_LENGTH)
            word[length++] = (char)tolower((unsigned char)**at);
    word[length] = 0;
    return length > 0;
}

void spt_guide_query_read(const char *text, struct spt_guide_query *query)
{
    char word[SPT_QUERY_WORD_LENGTH];
    *query = (struct spt_guide_query){0};
    while (query->count < SPT_QUERY_WORDS_MAX && next_word(&text, word)) {
        bool known = is_small(word);
        for (int i = 0; i < query->count && !known; i++)
            known = !strcmp(query->words[i], word);
        if (!known)
            memcpy(query->words[query->count++], word, sizeof word);
    }
}

/* Length of a word without its ending: "rusty" and "rusts" give that of "rust", "pitted" 3. */
static size_t stem_length(const char *word)
{
    static const char *const endings[] = {"ing", "ed", "es", "s", "y", "e"};
    size_t length = strlen(word);
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++) {
        size_t tail = strlen(endings[i]);
        if (length >= tail + SHORTEST_STEM && !strcmp(word + length - tail, endings[i])) {
            length -= tail;
            break;
        }
    }
    if (length > SHORTEST_STEM && word[length - 1] == word[length - 2])
        length--;
    return length;
}

static bool starts(const char *whole, const char *start)
{
    size_t length = strlen(start);
    return length >= SHORTEST_START && !strncmp(whole, start, length);
}

bool spt_guide_words_match(const char *a, const char *b)
{
    size_t stem = stem_length(a);
    bool same_stem = stem == stem_length(b) && !strncmp(a, b, stem);
    return same_stem || starts(a, b) || starts(b, a);
}

static bool line_has(const char *line, const char *asked)
{
    char word[SPT_QUERY_WORD_LENGTH];
    while (next_word(&line, word))
        if (spt_guide_words_match(word, asked))
            return true;
    return false;
}

/* The part of an entry with the highest weight that has the word; SPT_GUIDE_PART_COUNT where none
 * has. */
static enum spt_guide_part find_part(const struct spt_guide_entry *entry, const char *asked)
{
    for (int part = 0; part < SPT_GUIDE_PART_COUNT; part++)
        for (int i = 0; part_weights[part] > 0 && i < entry->parts[part].count; i++)
            if (line_has(entry->parts[part].lines[i], asked))
                return (enum spt_guide_part)part;
    return SPT_GUIDE_PART_COUNT;
}

static double rarity(const struct spt_guide *guide, const char *asked)
{
    int having = 0;
    for (int i = 0; i < guide->count; i++)
        having += find_part(&guide->entries[i], asked) != SPT_GUIDE_PART_COUNT;
    return having ? log(1 + (double)guide->count / having) : 0;
}

/* Finds which words of the query the line has, and whether it has no others (apart from stop
 * words). */
static double weigh_line(const char *line, const struct spt_guide_query *query,
                         const double *rarities, bool *whole)
{
    double weight = 0;
    char word[SPT_QUERY_WORD_LENGTH];
    bool seen[SPT_QUERY_WORDS_MAX] = {false};
    *whole = true;
    while (next_word(&line, word)) {
        bool asked = is_small(word);
        for (int i = 0; i < query->count; i++)
            if (spt_guide_words_match(word, query->words[i])) {
                weight += seen[i] ? 0 : rarities[i];
                seen[i] = asked = true;
            }
        *whole = *whole && asked;
    }
    return weight;
}

/* Picks the line that matches best, and adds to the score for each line of `words` that is
 * completely in the query. */
static void weigh_lines(struct spt_guide_hit *hit, const struct spt_guide_query *query,
                        const double *rarities)
{
    double most = 0, extra = 0;
    for (int part = 0; part < SPT_GUIDE_PART_COUNT; part++)
        for (int i = 0; part_weights[part] > 0 && i < hit->entry->parts[part].count; i++) {
            bool whole;
            const char *line = hit->entry->parts[part].lines[i];
            double weight = weigh_line(line, query, rarities, &whole);
            /* a pattern only belongs to the mode of that name in the standard */
            bool named = part == SPT_GUIDE_WORDS ||
                         (part == SPT_GUIDE_NAMES && (i == 0 || !hit->entry->pattern));
            if (named && whole)
                extra = fmax(extra, weight * part_weights[SPT_GUIDE_WORDS]);
            if (weight > most) {
                most = weight;
                hit->line = line;
                hit->line_part = (enum spt_guide_part)part;
            }
        }
    hit->score += extra;
}

static void weigh_entry(struct spt_guide_hit *hit, const struct spt_guide_query *query,
                        const double *rarities)
{
    for (int i = 0; i < query->count; i++) {
        enum spt_guide_part part = find_part(hit->entry, query->words[i]);
        if (part == SPT_GUIDE_PART_COUNT)
            continue;
        hit->found[i] = true;
        hit->parts[i] = part;
        hit->found_count++;
        hit->score += part_weights[part] * rarities[i];
    }
    if (!hit->found_count)
        return;
    weigh_lines(hit, query, rarities);
    hit->score *= (double)hit->found_count / query->count;
}

/* Inserts a hit in order of score, after hits of equal score. */
static void insert_hit(struct spt_guide_hit *hits, int *count, const struct spt_guide_hit *hit)
{
    int at = *count;
    while (at > 0 && hits[at - 1].score < hit->score)
        at--;
    if (at == SPT_HITS_MAX)
        return;
    if (*count < SPT_HITS_MAX)
        ++*count;
    memmove(&hits[at + 1], &hits[at], (size_t)(*count - 1 - at) * sizeof *hits);
    hits[at] = *hit;
}

int spt_guide_search(const struct spt_guide *guide, const struct spt_guide_query *query,
                     struct spt_guide_hit *hits)
{
    double rarities[SPT_QUERY_WORDS_MAX];
    int count = 0;
    for (int i = 0; i < query->count; i++)
        rarities[i] = rarity(guide, query->words[i]);
    for (int i = 0; i < guide->count; i++) {
        struct spt_guide_hit hit = {.entry = &guide->entries[i]};
        weigh_entry(&hit, query, rarities);
        if (hit.score > 0)
            insert_hit(hits, &count, &hit);
    }
    while (count > 0 && hits[count - 1].score < SMALLEST_SHARE * hits[0].score)
        count--;
    return count;
}
