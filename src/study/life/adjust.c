/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <math.h>

#include "spalltime/lubricant.h"
#include "spalltime/statistics.h"

struct spt_adjustment spt_adjustment_none(void)
{
    return (struct spt_adjustment){0, (double)INFINITY, -1, -1, 0, (double)INFINITY, 1, 0};
}

static double limit(double value, double least, double most)
{
    return fmin(fmax(value, least), most);
}

static void adjust_condition(const struct spt_adjustment *change, struct spt_condition *state)
{
    if (state->water_ppm < change->least_water_ppm)
        state->water_assumed = false; /* the service states it */
    state->water_ppm = limit(state->water_ppm, change->least_water_ppm, change->most_water_ppm);
    state->grease_age_h = limit(state->grease_age_h, change->least_age_h, change->most_age_h);
    if (!isnan(state->contamination_factor))
        return;
    if (change->cleanest >= 0 && (int)state->cleanliness < change->cleanest)
        state->cleanliness = (enum spt_cleanliness)change->cleanest;
    if (change->dirtiest >= 0 && (int)state->cleanliness > change->dirtiest) {
        state->cleanliness = (enum spt_cleanliness)change->dirtiest;
        state->class_source = SPT_CLASS_STATED;
    }
}

static void adjust_phase(const struct spt_adjustment *change, struct spt_phase *phase)
{
    phase->radial_load_n *= change->load_factor;
    phase->peak_radial_n *= change->load_factor;
    phase->axial_load_n *= change->load_factor;
    phase->equivalent_load_n *= change->load_factor;
    phase->temperature_c += change->temperature_rise_k; /* NaN, an estimate, stays NaN */
    if (isnan(phase->temperature_c))
        phase->ambient_c += change->temperature_rise_k;
    adjust_condition(change, &phase->condition);
}

void spt_adjust_case(const struct spt_case *question, const struct spt_adjustment *adjustment,
                     struct spt_phase *phases, struct spt_case *adjusted)
{
    *adjusted = *question;
    for (int i = 0; i < question->bearing_count; i++) {
        int count = question->bearings[i].phase_count;
        adjusted->bearings[i].phases = phases;
        for (int j = 0; j < count; j++) {
            phases[j] = question->bearings[i].phases[j];
            adjust_phase(adjustment, &phases[j]);
        }
        phases += count;
    }
}

bool spt_case_within_temperatures(const struct spt_case *question)
{
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_phase *phase = &question->bearings[i].phases[j];
            bool estimated = isnan(phase->temperature_c);
            double temperature_c = estimated ? phase->ambient_c : phase->temperature_c;
            if (temperature_c < SPT_COLDEST_C ||
                temperature_c > (estimated ? SPT_HOTTEST_AMBIENT_C : SPT_HOTTEST_C))
                return false;
        }
    return true;
}

int spt_case_phase_count(const struct spt_case *question)
{
    int count = 0;
    for (int i = 0; i < question->bearing_count && i < SPT_BEARINGS_MAX; i++)
        count += question->bearings[i].phase_count;
    return count;
}

enum spt_status spt_case_life(const struct spt_case *question, struct spt_phase_result *results,
                              double *life_h)
{
    double lives_h[SPT_BEARINGS_MAX] = {0};
    *life_h = (double)NAN;
    for (int i = 0; i < question->bearing_count; i++) {
        struct spt_bearing_result bearing;
        enum spt_status status = spt_assess_bearing(question, i, 0, results, &bearing);
        if (status)
            return status;
        lives_h[i] = bearing.modified_rating_life_h;
    }
    *life_h = spt_survival_series(lives_h, question->bearing_count, question->reliability_percent);
    return SPT_OK;
}
