/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/causes_load.h"
#include "scenario/catalog/search.h"

#define ONE_WORD_OWNERS_MAX 6

static int count_lines(const struct spt_node *list)
{
    return list ? list->count : 0;
}

static int count_phrases(const struct spt_causes_loading *loading)
{
    const struct spt_causes *causes = loading->causes;
    int count = count_lines(loading->outside);
    for (int f = 0; f < causes->table.finding_count; f++)
        count += 1 + count_lines(loading->raws[f].words);
    for (int g = 0; g < causes->table.group_count; g++)
        count += count_lines(loading->group_words[g]);
    for (int m = 0; causes->guide && m < causes->guide->count; m++)
        count += 2 + causes->guide->entries[m].parts[SPT_GUIDE_WORDS].count;
    return count;
}

static void add_phrase(struct spt_causes *causes, enum spt_phrase_kind kind, int owner,
                       const char *text, struct spt_mark mark)
{
    struct spt_owned_phrase *one = &causes->phrases[causes->phrase_count];
    *one = (struct spt_owned_phrase){kind, owner, text, mark, {0}};
    spt_phrase_read(&causes->vocabulary, text, &one->phrase);
    causes->phrase_count += one->phrase.count > 0;
}

static void add_finding_phrases(struct spt_causes_loading *loading, int finding)
{
    struct spt_causes *causes = loading->causes;
    const struct spt_node *key = loading->finding_keys[finding];
    const struct spt_node *words = loading->raws[finding].words;
    const int first = causes->phrase_count;
    add_phrase(causes, SPT_PHRASE_OF_FINDING, finding, key->text, key->mark);
    for (int i = 0; words && i < words->count; i++)
        add_phrase(causes, SPT_PHRASE_OF_FINDING, finding, words->items[i]->text,
                   words->items[i]->mark);
    bool *had = spt_arena_allocate(&causes->arena, SPT_VOCABULARY_MAX);
    if (!had)
        loading->diags->out_of_memory = true;
    for (int p = first; had && p < causes->phrase_count; p++)
        for (int i = 0; i < causes->phrases[p].phrase.count; i++) {
            const int meaning = causes->phrases[p].phrase.words[i];
            causes->vocabulary.owners[meaning] += !had[meaning];
            had[meaning] = true;
        }
}

static void add_group_phrases(struct spt_causes_loading *loading, int group)
{
    const struct spt_node *words = loading->group_words[group];
    for (int i = 0; words && i < words->count; i++)
        add_phrase(loading->causes, SPT_PHRASE_OF_GROUP, group, words->items[i]->text,
                   words->items[i]->mark);
}

static void add_mode_phrases(struct spt_causes *causes, int mode)
{
    const struct spt_guide_entry *entry = &causes->guide->entries[mode];
    const struct spt_lines *words = &entry->parts[SPT_GUIDE_WORDS];
    const struct spt_mark none = {NULL, 0, 0};
    add_phrase(causes, SPT_PHRASE_OF_MODE, mode, entry->name, none);
    if (!entry->pattern) /* a pattern only belongs to the mode of that name in the standard */
        add_phrase(causes, SPT_PHRASE_OF_MODE, mode, entry->iso_name, none);
    for (int i = 0; i < words->count; i++)
        add_phrase(causes, SPT_PHRASE_OF_MODE, mode, words->lines[i], none);
}

static void add_phrases(struct spt_causes_loading *loading)
{
    struct spt_causes *causes = loading->causes;
    const struct spt_node *outside = loading->outside;
    for (int f = 0; f < causes->table.finding_count; f++)
        add_finding_phrases(loading, f);
    for (int g = 0; g < causes->table.group_count; g++)
        add_group_phrases(loading, g);
    for (int m = 0; causes->guide && m < causes->guide->count; m++)
        add_mode_phrases(causes, m);
    for (int i = 0; outside && i < outside->count; i++)
        add_phrase(causes, SPT_PHRASE_OUTSIDE, i, outside->items[i]->text, outside->items[i]->mark);
    spt_vocabulary_weigh(&causes->vocabulary, causes->table.finding_count);
}

/* True for a phrase of a finding or of the group of some. */
static bool is_of_table(const struct spt_owned_phrase *one)
{
    return one->kind == SPT_PHRASE_OF_FINDING || one->kind == SPT_PHRASE_OF_GROUP;
}

/* True where an earlier phrase of another finding or group has the same words, which is reported.
 */
static bool repeats(struct spt_causes_loading *loading, int at)
{
    const struct spt_causes *causes = loading->causes;
    const struct spt_owned_phrase *one = &causes->phrases[at];
    for (int i = 0; i < at; i++) {
        const struct spt_owned_phrase *other = &causes->phrases[i];
        if (!is_of_table(other) || (other->kind == one->kind && other->owner == one->owner) ||
            !spt_phrases_equal(&other->phrase, &one->phrase))
            continue;
        spt_diagnostics_add(
            loading->diags, one->mark,
            "`%.60s` has the same words as `%.60s` of the %s `%.60s`; take one of "
            "them out",
            one->text, other->text, other->kind == SPT_PHRASE_OF_GROUP ? "group" : "finding",
            other->kind == SPT_PHRASE_OF_GROUP ? causes->table.groups[other->owner].name
                                               : causes->table.findings[other->owner].name);
        return true;
    }
    return false;
}

static void check_phrase(struct spt_causes_loading *loading, int at)
{
    const struct spt_causes *causes = loading->causes;
    const struct spt_owned_phrase *one = &causes->phrases[at];
    struct spt_query query;
    if (!is_of_table(one) || repeats(loading, at) || one->kind == SPT_PHRASE_OF_GROUP)
        return;
    if (one->phrase.count == 1 &&
        causes->vocabulary.owners[one->phrase.words[0]] > ONE_WORD_OWNERS_MAX) {
        spt_diagnostics_add(loading->diags, one->mark,
                            "`%.60s` is one word that more than %d findings have; add a word",
                            one->text, ONE_WORD_OWNERS_MAX);
        return;
    }
    spt_query_read(&causes->vocabulary, one->text, &query);
    const int place = spt_search_place(causes, &query, one->owner);
    if (place < 0 || place > 1)
        spt_diagnostics_add(loading->diags, one->mark,
                            "the search for `%.60s` does not find the finding `%.60s` first or "
                            "second; choose other words",
                            one->text, causes->table.findings[one->owner].name);
}

static bool read_phrases(struct spt_causes_loading *loading)
{
    struct spt_causes *causes = loading->causes;
    const struct spt_node *synonyms = loading->synonyms;
    spt_vocabulary_stops(&causes->vocabulary, loading->stops);
    for (int i = 0; synonyms && i < synonyms->count; i++)
        spt_vocabulary_synonyms(&causes->vocabulary, synonyms->items[i]);
    spt_vocabulary_everyday(&causes->vocabulary, loading->everyday);
    causes->phrases = spt_arena_allocate(&causes->arena, (size_t)(count_phrases(loading) + 1) *
                                                             sizeof *causes->phrases);
    if (!causes->phrases)
        return false;
    add_phrases(loading);
    return true;
}

void spt_causes_read_phrases(struct spt_causes_loading *loading)
{
    struct spt_diagnostics *diags = loading->diags;
    if (!read_phrases(loading))
        diags->out_of_memory = true;
    for (int i = 0; !diags->out_of_memory && i < loading->causes->phrase_count; i++)
        check_phrase(loading, i);
}
