/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Findings as evidence: their likelihood under each cause. All of it is our choice. */
#include <math.h>

#include "base/table.h"
#include "study/diagnosis/weighing.h"

/* judgement of practice, no source */
static const double levels[] = {0.01, 0.05, 0.25, 0.6, 0.9};
SPT_ONE_EACH(levels, SPT_LIKELIHOOD_COUNT);

#define NONE_OF_THESE 0.01 /* least room beside the answers of one group */

double spt_likelihood_value(enum spt_likelihood likelihood)
{
    return (int)likelihood >= 0 && likelihood < SPT_LIKELIHOOD_COUNT ? levels[likelihood]
                                                                     : (double)NAN;
}

static double level_of(const struct spt_diagnosis_table *table, int finding, int cause)
{
    return spt_likelihood_value(table->findings[finding].of_cause[cause]);
}

/* Sum of the levels of a group whose findings exclude each other. */
static double sum_levels(const struct spt_diagnosis_table *table, int group, int cause)
{
    double sum = 0;
    for (int i = 0; i < table->finding_count; i++)
        sum += table->findings[i].group == group ? level_of(table, i, cause) : 0;
    return sum;
}

/* Mean over the causes but the other, by their priors; 1 where none is left. */
static double mean_of(const struct spt_weighing *weighing, const double *values)
{
    double sum = 0, weights = 0;
    for (int c = 0; c < weighing->table->cause_count; c++)
        if (c != weighing->other) {
            sum += weighing->prior[c] * values[c];
            weights += weighing->prior[c];
        }
    return weights > 0 ? sum / weights : 1;
}

void spt_weighing_share(const struct spt_weighing *weighing, int finding, double *share)
{
    const struct spt_diagnosis_table *table = weighing->table;
    const int group = table->findings[finding].group;
    for (int c = 0; c < table->cause_count; c++) {
        share[c] = level_of(table, finding, c);
        if (table->groups[group].one)
            share[c] /= fmax(1, sum_levels(table, group, c) + NONE_OF_THESE);
    }
    share[weighing->other] = mean_of(weighing, share);
}

void spt_weighing_likelihood(const struct spt_weighing *weighing, const double *share, double sure,
                             int others, double *log_likelihood)
{
    for (int c = 0; c < weighing->table->cause_count; c++)
        log_likelihood[c] = sure * share[c] + (1 - sure) * (1 - share[c]) / others;
    log_likelihood[weighing->other] = mean_of(weighing, log_likelihood);
    for (int c = 0; c < weighing->table->cause_count; c++)
        log_likelihood[c] = log(log_likelihood[c]);
}

double spt_weighing_spread(const struct spt_weighing *weighing, const double *log_likelihood)
{
    double least = INFINITY, most = -INFINITY;
    for (int c = 0; c < weighing->table->cause_count; c++)
        if (c != weighing->other) {
            least = fmin(least, log_likelihood[c]);
            most = fmax(most, log_likelihood[c]);
        }
    return most > least ? most - least : 0;
}

double spt_weighing_sure(const struct spt_weighing *weighing, int group, double stated)
{
    return weighing->one->destroyed && weighing->table->groups[group].hidden
               ? fmin(stated, SPT_DIAGNOSIS_HARDLY)
               : stated;
}

static int count_findings(const struct spt_diagnosis_table *table, int group)
{
    int count = 0;
    for (int i = 0; i < table->finding_count; i++)
        count += table->findings[i].group == group;
    return count;
}

/* Fills one piece from its findings. Result: false when memory is out. */
static bool fill_piece(const struct spt_weighing *weighing, struct spt_arena *arena,
                       struct spt_diagnosis_evidence *piece)
{
    const struct spt_diagnosis_table *table = weighing->table;
    double share[SPT_DIAGNOSIS_CAUSES_MAX], one[SPT_DIAGNOSIS_CAUSES_MAX];
    double *likelihood = spt_arena_allocate(arena, (size_t)table->cause_count * sizeof *likelihood);
    if (!likelihood)
        return false;
    for (int c = 0; c < table->cause_count; c++)
        share[c] = piece->seen ? 0 : 1;
    for (int i = 0; i < piece->finding_count; i++) {
        spt_weighing_share(weighing, piece->findings[i], one);
        for (int c = 0; c < table->cause_count; c++)
            share[c] += piece->seen ? one[c] : -one[c];
    }
    const bool among = piece->seen && table->groups[piece->group].one;
    spt_weighing_likelihood(weighing, share, piece->sure,
                            among ? count_findings(table, piece->group) : 1, likelihood);
    piece->log_likelihood = likelihood;
    piece->spread = spt_weighing_spread(weighing, likelihood);
    return true;
}

/* True where a finding of the group was seen. */
static bool is_answered(const struct spt_diagnosis_case *one, int group)
{
    for (int i = 0; i < one->answer_count; i++)
        if (one->answers[i].seen && one->table->findings[one->answers[i].finding].group == group)
            return true;
    return false;
}

/* The piece of the absences of a group that excludes, where there is one already. */
static struct spt_diagnosis_evidence *find_absences(struct spt_diagnosis_evidence *list, int count,
                                                    int group)
{
    for (int i = 0; i < count; i++)
        if (list[i].group == group && !list[i].seen)
            return &list[i];
    return NULL;
}

/* Adds the answer to the piece that it belongs to. Result: the count of pieces. */
static int add_answer(const struct spt_weighing *weighing,
                      const struct spt_diagnosis_answer *answer,
                      struct spt_diagnosis_evidence *list, int count)
{
    const int group = weighing->table->findings[answer->finding].group;
    const bool one = weighing->table->groups[group].one;
    const double sure = spt_weighing_sure(weighing, group, answer->sure);
    struct spt_diagnosis_evidence *piece = NULL;
    if (one && !answer->seen && is_answered(weighing->one, group))
        return count; /* what was seen says it already */
    if (one && !answer->seen)
        piece = find_absences(list, count, group);
    if (!piece) {
        piece = &list[count++];
        *piece =
            (struct spt_diagnosis_evidence){.group = group, .seen = answer->seen, .sure = sure};
    }
    piece->sure = fmin(piece->sure, sure);
    piece->findings[piece->finding_count++] = answer->finding;
    return count;
}

int spt_weighing_collect(const struct spt_weighing *weighing, struct spt_arena *arena,
                         struct spt_diagnosis_evidence **evidence)
{
    const struct spt_diagnosis_case *one = weighing->one;
    int count = 0;
    struct spt_diagnosis_evidence *list =
        spt_arena_allocate(arena, (size_t)(one->answer_count + 1) * sizeof *list);
    *evidence = list;
    if (!list)
        return -1;
    for (int i = 0; i < one->answer_count; i++)
        count = add_answer(weighing, &one->answers[i], list, count);
    for (int i = 0; i < count; i++)
        if (!fill_piece(weighing, arena, &list[i]))
            return -1;
    return count;
}
