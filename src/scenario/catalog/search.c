/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/search.h"

#include <math.h>
#include <string.h>

#define FLOOR 0.5
#define FLOOR_OF_BEST 0.7

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
    if (at == SPT_HITS_MAX)
        return;
    if (*count < SPT_HITS_MAX)
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
        struct spt_search_hit hit = {one->owner, match.score, match.absent, one->text, {false}};
        memcpy(hit.found, match.found, sizeof hit.found);
        if (hit.score >= FLOOR && !(hit.absent && kind == SPT_PHRASE_OF_MODE))
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

static void mark_left_over(const struct spt_causes *causes, const struct spt_query *query,
                           struct spt_search_result *result)
{
    for (int word = 0; word < query->count; word++)
        result->left_over[word] = true;
    for (int i = 0; i < result->finding_count; i++)
        take_words(causes, query, SPT_PHRASE_OF_FINDING, result->findings[i].owner,
                   result->left_over);
    for (int i = 0; i < result->mode_count; i++)
        take_words(causes, query, SPT_PHRASE_OF_MODE, result->modes[i].owner, result->left_over);
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

void spt_search(const struct spt_causes *causes, const struct spt_query *query,
                struct spt_search_result *result)
{
    *result = (struct spt_search_result){0};
    result->finding_count = find_hits(causes, query, SPT_PHRASE_OF_FINDING, result->findings);
    result->mode_count = find_hits(causes, query, SPT_PHRASE_OF_MODE, result->modes);
    result->finding_count = keep_best(result->findings, result->finding_count);
    for (int i = 0; i < result->finding_count; i++)
        add_shown(causes, &result->findings[i], result);
    result->mode_count = keep_best(result->modes, result->mode_count);
    mark_left_over(causes, query, result);
    find_outside(causes, query, result);
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
