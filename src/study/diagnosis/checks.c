/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Which question left would tell most: expected fall of the entropy of the causes, in bits. */
#include <math.h>
#include <string.h>

#include "base/table.h"
#include "study/diagnosis/weighing.h"

#define LEAST_GAIN_BIT 0.02 /* our choice */

/* effort of a look, in looks that cost nothing but a question: judgement of practice, no source */
static const double efforts[] = {1, 3, 10};
SPT_ONE_EACH(efforts, SPT_EFFORT_COUNT);

struct questioning {
    const struct spt_weighing *weighing;
    const struct spt_diagnosis *result;
    struct spt_diagnosis_evidence *list; /* the evidence, and a piece to try */
    int count;
};

static double entropy_bit(const double *posterior, int count)
{
    double sum = 0;
    for (int c = 0; c < count; c++)
        sum -= posterior[c] > 0 ? posterior[c] * log2(posterior[c]) : 0;
    return sum;
}

/* Entropy after an answer that has this share under each cause; fills the outcome. */
static double try_outcome(struct questioning *asking, int group, const double *share, int others,
                          struct spt_diagnosis_outcome *outcome)
{
    const struct spt_weighing *weighing = asking->weighing;
    double likelihood[SPT_DIAGNOSIS_CAUSES_MAX], posterior[SPT_DIAGNOSIS_CAUSES_MAX];
    struct spt_diagnosis_evidence *piece = &asking->list[asking->count];
    outcome->probability = 0;
    for (int c = 0; c < weighing->table->cause_count; c++)
        outcome->probability += asking->result->posterior[c] * share[c];
    spt_weighing_likelihood(weighing, share, spt_weighing_sure(weighing, group, 1), others,
                            likelihood);
    *piece = (struct spt_diagnosis_evidence){.group = group,
                                             .log_likelihood = likelihood,
                                             .spread = spt_weighing_spread(weighing, likelihood)};
    spt_weighing_posterior(weighing, asking->list, asking->count + 1, -1, posterior);
    outcome->first = spt_weighing_first(weighing, posterior, -1);
    outcome->posterior = posterior[outcome->first];
    return entropy_bit(posterior, weighing->table->cause_count);
}

/* Adds an outcome of a question to its gain. */
static void add_outcome(struct questioning *asking, struct spt_diagnosis_check *check, int finding,
                        const double *share, int others)
{
    struct spt_diagnosis_outcome *outcome = &check->outcomes[check->outcome_count++];
    outcome->finding = finding;
    const double after = try_outcome(asking, check->group, share, others, outcome);
    check->gain_bit -= outcome->probability * after;
}

/* Adds one answer of the question, and takes its share from that of none. */
static void add_finding(struct questioning *asking, struct spt_diagnosis_check *check, int finding,
                        int others, double *none)
{
    double share[SPT_DIAGNOSIS_CAUSES_MAX];
    spt_weighing_share(asking->weighing, finding, share);
    add_outcome(asking, check, finding, share, others);
    for (int c = 0; c < asking->weighing->table->cause_count; c++)
        none[c] -= share[c];
}

static int count_group(const struct spt_diagnosis_table *table, int group)
{
    int count = 0;
    for (int f = 0; f < table->finding_count; f++)
        count += table->findings[f].group == group;
    return count;
}

/* The gain of a question: of a finding alone, or of the group of this one. */
static void weigh_question(struct questioning *asking, int finding,
                           struct spt_diagnosis_check *check)
{
    const struct spt_diagnosis_table *table = asking->weighing->table;
    const int group = table->findings[finding].group;
    const bool one = table->groups[group].one;
    double none[SPT_DIAGNOSIS_CAUSES_MAX];
    const int others = one ? count_group(table, group) : 1;
    *check = (struct spt_diagnosis_check){
        .group = group, .finding = one ? -1 : finding, .effort = table->findings[finding].effort};
    check->gain_bit = entropy_bit(asking->result->posterior, table->cause_count);
    for (int c = 0; c < table->cause_count; c++)
        none[c] = 1;
    for (int f = 0; f < table->finding_count; f++)
        if (one ? table->findings[f].group == group : f == finding)
            add_finding(asking, check, f, others, none);
    add_outcome(asking, check, -1, none, 1);
    check->gain_bit = fmax(check->gain_bit, 0);
}

/* True where the question of a finding was answered, or is that of an earlier finding. */
static bool is_settled(const struct spt_weighing *weighing, int finding)
{
    const struct spt_diagnosis_table *table = weighing->table;
    const int group = table->findings[finding].group;
    const bool one = table->groups[group].one;
    for (int i = 0; i < weighing->one->answer_count; i++) {
        const int answered = weighing->one->answers[i].finding;
        if (answered == finding || (one && table->findings[answered].group == group))
            return true;
    }
    for (int f = 0; one && f < finding; f++)
        if (table->findings[f].group == group)
            return true;
    return false;
}

static double worth(const struct spt_weighing *weighing, const struct spt_diagnosis_check *check)
{
    const bool easy = check->effort == SPT_EFFORT_OPEN && weighing->one->on_bench;
    return check->gain_bit / efforts[easy ? SPT_EFFORT_ASK : check->effort];
}

/* Puts a check among the best, before others of lower worth. */
static void keep_check(const struct spt_weighing *weighing, struct spt_diagnosis *result,
                       const struct spt_diagnosis_check *check)
{
    int at = result->check_count;
    while (at > 0 && worth(weighing, check) > worth(weighing, &result->checks[at - 1]))
        at--;
    if (at == SPT_DIAGNOSIS_CHECKS)
        return;
    if (result->check_count < SPT_DIAGNOSIS_CHECKS)
        result->check_count++;
    memmove(&result->checks[at + 1], &result->checks[at],
            (size_t)(result->check_count - 1 - at) * sizeof *result->checks);
    result->checks[at] = *check;
}

void spt_weighing_checks(const struct spt_weighing *weighing, struct spt_diagnosis *result)
{
    struct questioning asking = {weighing, result, result->evidence, result->evidence_count};
    for (int f = 0; f < weighing->table->finding_count; f++) {
        struct spt_diagnosis_check check;
        if (is_settled(weighing, f))
            continue;
        weigh_question(&asking, f, &check);
        if (check.gain_bit >= LEAST_GAIN_BIT)
            keep_check(weighing, result, &check);
    }
}
