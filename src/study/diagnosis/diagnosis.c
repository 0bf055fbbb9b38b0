/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "study/diagnosis/weighing.h"

#define CASES_OF_JUDGEMENT 20.0 /* our choice */
#define PAIR_SHARE 0.3          /* of the rarer cause: judgement of practice, no source */

enum spt_status spt_diagnosis_prior(const struct spt_diagnosis_table *table,
                                    enum spt_machine_group machine, const double *counts,
                                    double *prior)
{
    double sum = CASES_OF_JUDGEMENT;
    for (int c = 0; c < table->cause_count; c++) {
        if (counts && (!(counts[c] >= 0) || isinf(counts[c])))
            return SPT_BAD_ARGUMENT;
        sum += counts ? counts[c] : 0;
    }
    for (int c = 0; c < table->cause_count; c++)
        prior[c] = (CASES_OF_JUDGEMENT * table->causes[c].per_100[machine] / 100 +
                    (counts ? counts[c] : 0)) /
                   sum;
    return SPT_OK;
}

/* Index of the only cause with this time; -1 where there is none or more than one. */
static int find_only(const struct spt_diagnosis_table *table, enum spt_cause_time time)
{
    int found = -1, count = 0;
    for (int c = 0; c < table->cause_count; c++)
        if (table->causes[c].time == time) {
            found = c;
            count++;
        }
    return count == 1 ? found : -1;
}

static bool is_sound_table(const struct spt_diagnosis_table *table)
{
    if (!table || table->cause_count < 3 || table->cause_count > SPT_DIAGNOSIS_CAUSES_MAX ||
        table->finding_count < 0 || table->finding_count > SPT_DIAGNOSIS_FINDINGS_MAX ||
        table->group_count < 0 || table->group_count > SPT_DIAGNOSIS_GROUPS_MAX ||
        table->mode_count < 0 || table->mode_count > SPT_DIAGNOSIS_MODES_MAX || !table->causes ||
        (table->finding_count && (!table->findings || !table->groups)))
        return false;
    return find_only(table, SPT_CAUSE_TIME_FATIGUE) >= 0 &&
           find_only(table, SPT_CAUSE_TIME_OTHER) >= 0;
}

static bool is_sound_answer(const struct spt_diagnosis_case *one, int at)
{
    const struct spt_diagnosis_answer *answer = &one->answers[at];
    const struct spt_diagnosis_table *table = one->table;
    if (answer->finding < 0 || answer->finding >= table->finding_count ||
        !(answer->sure > 0.5 && answer->sure <= 1))
        return false;
    const int group = table->findings[answer->finding].group;
    for (int i = 0; i < at; i++) {
        const struct spt_diagnosis_answer *before = &one->answers[i];
        if (before->finding == answer->finding ||
            (before->seen && answer->seen && table->groups[group].one &&
             table->findings[before->finding].group == group))
            return false;
    }
    return true;
}

static bool is_sound_case(const struct spt_diagnosis_case *one)
{
    if (one->answer_count < 0 || one->answer_count > SPT_DIAGNOSIS_FINDINGS_MAX ||
        (one->answer_count && !one->answers) || one->machine < 0 ||
        one->machine >= SPT_MACHINE_COUNT || (!isnan(one->hours) && !(one->hours > 0)) ||
        isinf(one->hours) || one->last_sound_h < 0 || one->last_sound_h >= one->hours ||
        one->doubt < 0 || isinf(one->doubt))
        return false;
    for (int i = 0; i < one->answer_count; i++)
        if (!is_sound_answer(one, i))
            return false;
    return true;
}

/* Priors without what is ruled out; the share of what is left stays as it was. */
static enum spt_status fill_prior(struct spt_weighing *weighing)
{
    const struct spt_diagnosis_case *one = weighing->one;
    double sum = 0;
    enum spt_status status =
        spt_diagnosis_prior(weighing->table, one->machine, one->counts, weighing->prior);
    for (int c = 0; !status && c < weighing->table->cause_count; c++) {
        if (one->ruled_out && one->ruled_out[c])
            weighing->prior[c] = 0;
        sum += weighing->prior[c];
    }
    if (!status && !(sum > 0))
        return SPT_BAD_ARGUMENT;
    for (int c = 0; !status && c < weighing->table->cause_count; c++)
        weighing->prior[c] /= sum;
    return status;
}

static const double *keep(struct spt_arena *arena, const double *values, int count)
{
    double *kept = spt_arena_allocate(arena, (size_t)count * sizeof *kept);
    for (int i = 0; kept && i < count; i++)
        kept[i] = values[i];
    return kept;
}

static const int *sort_causes(struct spt_arena *arena, const double *posterior, int count)
{
    int *order = spt_arena_allocate(arena, (size_t)count * sizeof *order);
    for (int c = 0; order && c < count; c++) {
        int at = c;
        for (; at > 0 && posterior[c] > posterior[order[at - 1]]; at--)
            order[at] = order[at - 1];
        order[at] = c;
    }
    return order;
}

/* What each piece adds between the first two causes, and what is first without it. */
static void explain_pieces(const struct spt_weighing *weighing, struct spt_diagnosis *result)
{
    const int first = result->order[0], second = result->order[1];
    double weights[SPT_DIAGNOSIS_FINDINGS_MAX + 1], without[SPT_DIAGNOSIS_CAUSES_MAX];
    const double now = result->posterior[first];
    spt_weighing_weights(result->evidence, result->evidence_count, -1, weights);
    result->moved_most = -1;
    for (int i = 0; i < result->evidence_count; i++) {
        struct spt_diagnosis_evidence *piece = &result->evidence[i];
        piece->weight = weights[i];
        piece->log_odds =
            weights[i] * (piece->log_likelihood[first] - piece->log_likelihood[second]);
        spt_weighing_posterior(weighing, result->evidence, result->evidence_count, i, without);
        piece->first_without = spt_weighing_first(weighing, without, -1);
        piece->posterior_without = without[first];
        piece->factor = now / (1 - now) / (without[first] / (1 - without[first]));
        if (piece->factor > 1 &&
            (result->moved_most < 0 || piece->factor > result->evidence[result->moved_most].factor))
            result->moved_most = i;
    }
}

/* The two best causes at work together, against the first alone, where two are possible. Time says
 * nothing here: that of the first stands on both sides. */
static void weigh_pair(const struct spt_weighing *weighing, struct spt_diagnosis *result)
{
    double weights[SPT_DIAGNOSIS_FINDINGS_MAX + 1], sum;
    int best[2], found = 0;
    result->pair[0] = result->pair[1] = -1;
    result->pair_factor = (double)NAN;
    for (int i = 0; found < 2 && i < weighing->table->cause_count; i++)
        if (result->order[i] != weighing->other && weighing->prior[result->order[i]] > 0)
            best[found++] = result->order[i];
    if (found < 2)
        return;
    const double *prior = weighing->prior;
    spt_weighing_weights(result->evidence, result->evidence_count, -1, weights);
    sum = log(PAIR_SHARE * fmin(prior[best[0]], prior[best[1]]) / prior[best[0]]);
    for (int i = 0; i < result->evidence_count; i++) {
        const double *likelihood = result->evidence[i].log_likelihood;
        sum += weights[i] * (fmax(likelihood[best[0]], likelihood[best[1]]) - likelihood[best[0]]);
    }
    result->pair[0] = best[0];
    result->pair[1] = best[1];
    result->pair_factor = exp(sum);
}

static void tell_fatigue(const struct spt_weighing *weighing, struct spt_diagnosis *result)
{
    const struct spt_diagnosis_case *one = weighing->one;
    result->fatigue_share = result->fatigue_share_smeared = (double)NAN;
    if (!result->timed)
        return;
    const double life_h = one->life_h[find_only(weighing->table, SPT_CAUSE_TIME_FATIGUE)];
    spt_diagnosis_time(life_h, 0, one->hours, 0, &result->fatigue_share);
    spt_diagnosis_time(life_h, isnan(one->doubt) ? 0.5 : one->doubt, one->hours, 0,
                       &result->fatigue_share_smeared);
}

/* Arrays of the result. Result: false when memory is out. */
static bool fill_arrays(const struct spt_weighing *weighing, struct spt_arena *arena,
                        struct spt_diagnosis *result)
{
    const struct spt_diagnosis_table *table = weighing->table;
    const int causes = table->cause_count;
    double judged[SPT_DIAGNOSIS_CAUSES_MAX], posterior[SPT_DIAGNOSIS_CAUSES_MAX];
    double time[SPT_DIAGNOSIS_CAUSES_MAX], modes[SPT_DIAGNOSIS_MODES_MAX];
    spt_weighing_posterior(weighing, result->evidence, result->evidence_count, -1, posterior);
    spt_weighing_modes(weighing, modes);
    for (int c = 0; c < causes; c++) {
        judged[c] = table->causes[c].per_100[weighing->one->machine] / 100;
        time[c] = exp(weighing->log_time[c]);
    }
    result->judged = keep(arena, judged, causes);
    result->prior = keep(arena, weighing->prior, causes);
    result->posterior = keep(arena, posterior, causes);
    result->time = keep(arena, time, causes);
    result->modes = keep(arena, modes, table->mode_count);
    result->order = result->posterior ? sort_causes(arena, posterior, causes) : NULL;
    return result->judged && result->prior && result->posterior && result->time && result->modes &&
           result->order;
}

enum spt_status spt_diagnose(const struct spt_diagnosis_case *one, struct spt_arena *arena,
                             struct spt_diagnosis *result)
{
    struct spt_weighing weighing = {.one = one, .table = one->table};
    *result = (struct spt_diagnosis){0};
    if (!is_sound_table(one->table) || !is_sound_case(one))
        return SPT_BAD_ARGUMENT;
    weighing.other = find_only(one->table, SPT_CAUSE_TIME_OTHER);
    enum spt_status status = fill_prior(&weighing);
    if (status)
        return status;
    result->timed = spt_weighing_times(&weighing);
    result->evidence_count = spt_weighing_collect(&weighing, arena, &result->evidence);
    if (result->evidence_count < 0 || !fill_arrays(&weighing, arena, result))
        return SPT_NO_MEMORY;
    explain_pieces(&weighing, result);
    weigh_pair(&weighing, result);
    tell_fatigue(&weighing, result);
    spt_weighing_checks(&weighing, result);
    result->verdict = spt_weighing_verdict(&weighing, result);
    return SPT_OK;
}
