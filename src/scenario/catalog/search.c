/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/search.h"

#include <math.h>
#include <string.h>

#define FLOOR 0.5
#define FLOOR_OF_REST 0.7 /* a word beside others has to fit well by itself */
#define FLOOR_OF_BEST 0.7
#define KEPT 5  /* hits of one part of what was asked */
#define PARTS 4 /* of what was asked, each of what the ones before left over */

/* Puts a hit in the order of scores, after hits of equal score; a better one of the same owner
 * takes the place of the other. */
static void insert_hit(struct spt_search_hit *hits, int *count, const struct spt_search_hit *hit)
{
    int at = 0;
    for (int i = 0; i < *count; i++)
        if (hits[i].owner == hit->owner) {
            if (hits[i].score >= hit->score)
                return;
            memmove(&hits[i], &hits[i + 1], (size_t)(--*count - i) * sizeof *hits);
            break;
        }
    while (at < *count && hits[at].score >= hit->score)
        at++;
    if (at == KEPT)
        return;
    if (*count < KEPT)
        ++*count;
    memmove(&hits[at + 1], &hits[at], (size_t)(*count - 1 - at) * sizeof *hits);
    hits[at] = *hit;
}

/* The hits of one kind of phrase. */
static int find_hits(const struct spt_causes *causes, const struct spt_query *query,
                     enum spt_phrase_kind kind, struct spt_search_hit *hits)
{
    int count = 0;
    for (int i = 0; i < causes->phrase_count; i++) {
        const struct spt_owned_phrase *one = &causes->phrases[i];
        struct spt_phrase_match match;
        if (one->kind != kind)
            continue;
        spt_phrase_match(&causes->vocabulary, &one->phrase, query, &match);
        struct spt_search_hit hit = {one->owner, match.score, 0, match.absent, one->text, {false}};
        memcpy(hit.found, match.found, sizeof hit.found);
        if (hit.score >= (query->is_rest ? FLOOR_OF_REST : FLOOR) &&
            !(hit.absent && kind == SPT_PHRASE_OF_MODE))
            insert_hit(hits, &count, &hit);
    }
    return count;
}

static int keep_best(const struct spt_search_hit *hits, int count)
{
    while (count > 0 && hits[count - 1].score < FLOOR_OF_BEST * hits[0].score)
        count--;
    return count;
}

/* Adds the modes that a finding shows. */
static void add_shown(const struct spt_causes *causes, const struct spt_search_hit *found,
                      struct spt_search_result *result)
{
    const struct spt_diagnosis_finding *finding = &causes->table.findings[found->owner];
    for (int s = 0; s < finding->sign_count && !found->absent; s++) {
        struct spt_search_hit hit = *found;
        hit.owner = finding->signs[s].mode;
        hit.text = finding->name;
        hit.score *= spt_likelihood_value(finding->signs[s].likelihood);
        if (hit.score >= FLOOR)
            insert_hit(result->modes, &result->mode_count, &hit);
    }
}

/* Takes the words that the owner of a hit has in any of its phrases from those that are left. */
static void take_words(const struct spt_causes *causes, const struct spt_query *query,
                       enum spt_phrase_kind kind, int owner, bool *left_over)
{
    for (int i = 0; i < causes->phrase_count; i++) {
        struct spt_phrase_match match;
        if (causes->phrases[i].kind != kind || causes->phrases[i].owner != owner)
            continue;
        spt_phrase_match(&causes->vocabulary, &causes->phrases[i].phrase, query, &match);
        for (int word = 0; word < query->count; word++)
            left_over[word] = left_over[word] && !match.found[word];
    }
}

/* Takes the words of the findings, and of the question of a group, from those that are left. */
static void take_found(const struct spt_causes *causes, const struct spt_query *query,
                       const struct spt_search_result *result, bool *left_over)
{
    for (int i = 0; i < result->finding_count; i++)
        take_words(causes, query, SPT_PHRASE_OF_FINDING, result->findings[i].owner, left_over);
    if (result->group >= 0)
        take_words(causes, query, SPT_PHRASE_OF_GROUP, result->group, left_over);
}

static void take_modes(const struct spt_causes *causes, const struct spt_query *query,
                       const struct spt_search_result *result, bool *left_over)
{
    for (int i = 0; i < result->mode_count; i++)
        take_words(causes, query, SPT_PHRASE_OF_MODE, result->modes[i].owner, left_over);
}

/* Makes a part of its own of each finding that fits words which the best one has in no phrase:
 * "rough and loose" says two things. */
static void tell_parts(const struct spt_causes *causes, const struct spt_query *query,
                       struct spt_search_result *result)
{
    bool other[SPT_QUERY_WORDS_MAX];
    for (int word = 0; word < query->count; word++)
        other[word] = true;
    if (result->finding_count)
        take_words(causes, query, SPT_PHRASE_OF_FINDING, result->findings[0].owner, other);
    for (int i = 1; i < result->finding_count; i++)
        for (int word = 0; word < query->count; word++)
            if (other[word] && result->findings[i].found[word])
                result->findings[i].part = 1;
}

/* A term outside the guide that fits better than all in it takes their place. */
static void find_outside(const struct spt_causes *causes, const struct spt_query *query,
                         struct spt_search_result *result)
{
    struct spt_search_hit hits[SPT_HITS_MAX];
    const int count = find_hits(causes, query, SPT_PHRASE_OUTSIDE, hits);
    const double best = fmax(result->finding_count ? result->findings[0].score : 0,
                             result->mode_count ? result->modes[0].score : 0);
    if (!count || hits[0].score < best)
        return;
    result->outside = hits[0].text;
    result->finding_count = result->mode_count = 0;
    for (int word = 0; word < query->count; word++)
        result->left_over[word] = !hits[0].found[word];
}

/* Where the words name the question of a group and no finding better: all its answers, in the order
 * of the table, equally well. */
static void find_group(const struct spt_causes *causes, const struct spt_query *query,
                       struct spt_search_result *result)
{
    struct spt_search_hit hits[SPT_HITS_MAX];
    const struct spt_diagnosis_table *table = &causes->table;
    const int count = find_hits(causes, query, SPT_PHRASE_OF_GROUP, hits);
    if (!count || (result->finding_count && result->findings[0].score >= hits[0].score))
        return;
    result->group = hits[0].owner;
    result->finding_count = 0;
    for (int f = 0; f < table->finding_count && result->finding_count < SPT_HITS_MAX; f++)
        if (table->findings[f].group == result->group) {
            struct spt_search_hit *hit = &result->findings[result->finding_count++];
            *hit = hits[0];
            hit->owner = f;
        }
}

/* Findings and modes of one part of what was asked. */
static void search_part(const struct spt_causes *causes, const struct spt_query *query,
                        struct spt_search_result *result)
{
    *result = (struct spt_search_result){.group = -1};
    result->finding_count = find_hits(causes, query, SPT_PHRASE_OF_FINDING, result->findings);
    result->mode_count = find_hits(causes, query, SPT_PHRASE_OF_MODE, result->modes);
    result->finding_count = keep_best(result->findings, result->finding_count);
    tell_parts(causes, query, result);
    find_group(causes, query, result);
    for (int i = 0; result->group < 0 && i < result->finding_count; i++)
        add_shown(causes, &result->findings[i], result);
    result->mode_count = keep_best(result->modes, result->mode_count);
}

/* The words of a query that are left over; `places` tells where each stood. */
static struct spt_query take_rest(const struct spt_query *query, const bool *left_over, int *places)
{
    struct spt_query rest = {.is_rest = true};
    for (int word = 0; word < query->count; word++) {
        if (!left_over[word])
            continue;
        places[rest.count] = word;
        rest.words[rest.count] = query->words[word];
        rest.denied[rest.count] = query->denied[word];
        memcpy(rest.written[rest.count++], query->written[word], sizeof rest.written[0]);
    }
    return rest;
}

/* Adds hits of another part, which is a share of the words that were asked, whose owners are not
 * there yet. */
static void add_hits(struct spt_search_hit *hits, int *count, const struct spt_search_hit *added,
                     int added_count, int part, double share)
{
    for (int i = 0; i < added_count && *count < SPT_HITS_MAX; i++) {
        bool known = false;
        for (int k = 0; k < *count; k++)
            known = known || hits[k].owner == added[i].owner;
        if (known)
            continue;
        hits[*count] = added[i];
        hits[*count].score *= 0.5 + 0.5 * share;
        hits[(*count)++].part = part;
    }
}

/* Searches the words that no finding has by themselves, where there is a finding; else those that
 * no mode has. Result: false where nothing more is found. */
static bool search_rest(const struct spt_causes *causes, const struct spt_query *query, int part,
                        bool *unfound, struct spt_search_result *result)
{
    int places[SPT_QUERY_WORDS_MAX];
    bool left[SPT_QUERY_WORDS_MAX];
    struct spt_search_result more;
    const struct spt_query rest = take_rest(query, unfound, places);
    if (!rest.count)
        return false;
    const double share = (double)rest.count / query->count;
    search_part(causes, &rest, &more);
    if (!more.finding_count)
        return false;
    add_hits(result->findings, &result->finding_count, more.findings, more.finding_count, part,
             share);
    add_hits(result->modes, &result->mode_count, more.modes, more.mode_count, part, share);
    if (result->group < 0)
        result->group = more.group;
    for (int word = 0; word < rest.count; word++)
        left[word] = true;
    take_found(causes, &rest, &more, left);
    for (int word = 0; word < rest.count; word++)
        unfound[places[word]] = left[word];
    return true;
}

void spt_search(const struct spt_causes *causes, const struct spt_query *query,
                struct spt_search_result *result)
{
    bool unfound[SPT_QUERY_WORDS_MAX] = {false};
    search_part(causes, query, result);
    for (int word = 0; word < query->count; word++)
        unfound[word] = true;
    take_found(causes, query, result, unfound);
    if (!result->finding_count)
        take_modes(causes, query, result, unfound);
    memcpy(result->left_over, unfound, sizeof unfound);
    find_outside(causes, query, result);
    if (result->outside || !(result->finding_count || result->mode_count))
        return;
    for (int part = 1; part < PARTS && search_rest(causes, query, part, unfound, result);)
        part++;
    memcpy(result->left_over, unfound, sizeof unfound);
    take_modes(causes, query, result, result->left_over);
}

int spt_search_place(const struct spt_causes *causes, const struct spt_query *query, int finding)
{
    struct spt_search_hit hits[SPT_HITS_MAX];
    const int count = find_hits(causes, query, SPT_PHRASE_OF_FINDING, hits);
    for (int i = 0; i < count; i++)
        if (hits[i].owner == finding)
            return i;
    return -1;
}
