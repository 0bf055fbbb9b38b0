/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "base/quotient.h"
#include "spalltime/assess.h"
#include "spalltime/statistics.h"

/* 1/L10 of each bearing of a case, in 1/h. */
static enum spt_status find_rates(const struct spt_case *question, struct spt_phase_result *results,
                                  double rates_1_h[SPT_BEARINGS_MAX])
{
    struct spt_case at_90 = *question;
    at_90.reliability_percent = SPT_BASIC_RELIABILITY;
    for (int i = 0; i < question->bearing_count; i++) {
        struct spt_bearing_result bearing;
        enum spt_status status = spt_assess_bearing(&at_90, i, 0, results, &bearing);
        if (status)
            return status;
        rates_1_h[i] = spt_quotient(1, bearing.modified_rating_life_h);
    }
    return SPT_OK;
}

/* The damage of the hours run, and the share that got so far. */
static enum spt_status look_back(const struct spt_case *question, struct spt_phase_result *results,
                                 struct spt_remaining *remaining)
{
    const struct spt_past *past = &question->past;
    enum spt_status status =
        find_rates(past->as_run ? past->as_run : question, results, remaining->spent);
    for (int i = 0; i < question->bearing_count && !status; i++) {
        const struct spt_life_law law = spt_survival_iso_law(1);
        double log_survival;
        remaining->spent[i] *= past->hours_run;
        if (spt_survival_log_fatigue(&law, remaining->spent[i], &log_survival))
            log_survival = (double)NAN;
        remaining->survival *= exp(log_survival);
    }
    return status;
}

enum spt_status spt_remaining(const struct spt_case *question, struct spt_phase_result *results,
                              struct spt_remaining *remaining)
{
    double rates_1_h[SPT_BEARINGS_MAX] = {0};
    *remaining = (struct spt_remaining){
        .hours_run = question->past.hours_run, .life_h = (double)NAN, .survival = 1};
    if (!(remaining->hours_run > 0))
        return SPT_OK;
    enum spt_status status = look_back(question, results, remaining);
    if (!status)
        status = find_rates(question, results, rates_1_h);
    if (status)
        return status;
    remaining->life_h =
        spt_quotient(1, spt_survival_spent(remaining->spent, rates_1_h, question->bearing_count,
                                           SPT_WEIBULL_FLOOR, question->reliability_percent / 100));
    return SPT_OK;
}
