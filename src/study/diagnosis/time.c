/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/statistics.h"
#include "study/diagnosis/weighing.h"

/* our choice, no source */
#define DEVIATIONS 4.0
#define STEP 0.01
#define STEPS 800
#define LEAST_CHANCE 0.001
#define DOUBT 0.5 /* a factor of 2.3 at 90 % */
#define EARLY_MEDIAN_H 150.0
#define EARLY_DEVIATION 2.0
#define ANY_LIVES 10.0

/* The chance without a doubt of the life. */
static double plain_chance(double life_h, double t_h, double last_sound_h)
{
    const struct spt_life_law law = spt_survival_iso_law(life_h);
    double now = 1, then = 1;
    if (isnan(last_sound_h)) {
        double log_density = -INFINITY;
        spt_survival_log_density(&law, t_h, &log_density);
        return t_h * exp(log_density);
    }
    spt_survival_fatigue(&law, t_h, &now);
    spt_survival_fatigue(&law, last_sound_h, &then);
    return then - now;
}

enum spt_status spt_diagnosis_time(double life_h, double doubt, double t_h, double last_sound_h,
                                   double *chance)
{
    double sum = 0, weights = 0;
    *chance = (double)NAN;
    if (!(life_h > 0) || isinf(life_h) || !(doubt >= 0) || isinf(doubt) || !(t_h > 0) ||
        isinf(t_h) || last_sound_h < 0 || last_sound_h > t_h)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i <= STEPS; i++) {
        const double z = -DEVIATIONS + STEP * i;
        const double weight = exp(-z * z / 2) * (i == 0 || i == STEPS ? 0.5 : 1);
        sum += weight * plain_chance(life_h * exp(doubt * z), t_h, last_sound_h);
        weights += weight;
    }
    *chance = sum / weights;
    return SPT_OK;
}

static double normal_share(double z)
{
    return erfc(-z / sqrt(2)) / 2;
}

static double early_chance(double t_h, double last_sound_h)
{
    const double z = log(t_h / EARLY_MEDIAN_H) / EARLY_DEVIATION;
    if (isnan(last_sound_h))
        return exp(-z * z / 2) / (EARLY_DEVIATION * sqrt(2 * acos(-1)));
    return normal_share(z) - normal_share(log(last_sound_h / EARLY_MEDIAN_H) / EARLY_DEVIATION);
}

/* Even in ln t from 1 h to `end_h`. */
static double any_chance(double end_h, double t_h, double last_sound_h)
{
    const double span = log(fmax(end_h, exp(1)));
    if (isnan(last_sound_h))
        return t_h >= 1 && t_h <= end_h ? 1 / span : 0;
    return (log(fmin(fmax(t_h, 1), end_h)) - log(fmin(fmax(last_sound_h, 1), end_h))) / span;
}

static bool is_life(double life_h)
{
    return life_h > 0 && !isinf(life_h);
}

static double chance_of(const struct spt_diagnosis_case *one, int cause, double fatigue_h,
                        double doubt)
{
    const enum spt_cause_time time = one->table->causes[cause].time;
    double chance = 0, life_h = time == SPT_CAUSE_TIME_FATIGUE ? fatigue_h : one->life_h[cause];
    if (time == SPT_CAUSE_TIME_EARLY)
        return early_chance(one->hours, one->last_sound_h);
    if ((time == SPT_CAUSE_TIME_FATIGUE || time == SPT_CAUSE_TIME_LIFE) && is_life(life_h)) {
        spt_diagnosis_time(life_h, doubt, one->hours, one->last_sound_h, &chance);
        return chance;
    }
    return any_chance(ANY_LIVES * fatigue_h, one->hours, one->last_sound_h);
}

static int find_fatigue(const struct spt_diagnosis_table *table)
{
    int c = 0;
    while (table->causes[c].time != SPT_CAUSE_TIME_FATIGUE)
        c++;
    return c;
}

bool spt_weighing_times(struct spt_weighing *weighing)
{
    const struct spt_diagnosis_case *one = weighing->one;
    const int causes = weighing->table->cause_count;
    const double doubt = isnan(one->doubt) ? DOUBT : one->doubt;
    for (int c = 0; c < causes; c++)
        weighing->log_time[c] = 0;
    if (isnan(one->hours) || !one->life_h)
        return false;
    const double fatigue_h = one->life_h[find_fatigue(weighing->table)];
    if (!is_life(fatigue_h))
        return false;
    for (int c = 0; c < causes; c++)
        weighing->log_time[c] = log(fmax(chance_of(one, c, fatigue_h, doubt), LEAST_CHANCE));
    return true;
}
