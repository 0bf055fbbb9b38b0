/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/diagnosis/weighing.h"

/* judgement of practice, no source: over-confidence does more harm than an open answer */
#define LEAST_FIRST 0.4
#define TELLING_SPREAD 0.7
#define TELLING_FINDINGS 2
#define LEAST_RISE 3.0
#define CLEAR_FIRST 0.8
#define CLEAR_AHEAD 5.0
#define LIKELY_FIRST 0.5
#define LIKELY_AHEAD 2.0

static double odds_of(double share)
{
    return share / (1 - share);
}

/* True where every cause of the list was ruled out. */
static bool is_ruled_out(const struct spt_weighing *weighing)
{
    for (int c = 0; c < weighing->table->cause_count; c++)
        if (c != weighing->other && weighing->prior[c] > 0)
            return false;
    return true;
}

static enum spt_untold find_untold(const struct spt_weighing *weighing,
                                   const struct spt_diagnosis *result)
{
    const int first = result->order[0];
    const double now = result->posterior[first], before = result->prior[first];
    int telling = 0;
    for (int i = 0; i < result->evidence_count; i++)
        telling += result->evidence[i].spread > TELLING_SPREAD;
    if (is_ruled_out(weighing))
        return SPT_UNTOLD_RULED_OUT;
    if (first == weighing->other)
        return SPT_UNTOLD_OTHER;
    if (now < LEAST_FIRST)
        return SPT_UNTOLD_LOW;
    if (telling < TELLING_FINDINGS)
        return SPT_UNTOLD_FEW;
    return odds_of(now) >= LEAST_RISE * odds_of(before) ? SPT_UNTOLD_NOT : SPT_UNTOLD_PRIOR;
}

/* True where the first cause is first without any single piece of evidence. */
static bool holds_alone(const struct spt_diagnosis *result)
{
    for (int i = 0; i < result->evidence_count; i++)
        if (result->evidence[i].first_without != result->order[0])
            return false;
    return true;
}

enum spt_diagnosis_verdict spt_weighing_verdict(const struct spt_weighing *weighing,
                                                struct spt_diagnosis *result)
{
    const double first = result->posterior[result->order[0]];
    const double second = result->posterior[result->order[1]];
    result->untold = find_untold(weighing, result);
    if (result->untold)
        return SPT_DIAGNOSIS_UNTOLD;
    if (result->pair_factor > 1)
        return SPT_DIAGNOSIS_TWO;
    if (first >= CLEAR_FIRST && first >= CLEAR_AHEAD * second && holds_alone(result))
        return SPT_DIAGNOSIS_CLEAR;
    return first >= LIKELY_FIRST && first >= LIKELY_AHEAD * second ? SPT_DIAGNOSIS_LIKELY
                                                                   : SPT_DIAGNOSIS_OPEN;
}
