/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <math.h>

enum spt_status spt_regreasing_survival(const struct spt_grease_plan *plan, double t_h,
                                        double *survival)
{
    double t_f = plan->interval_h;
    double whole = 0.0;
    double rest = t_h;

    *survival = (double)NAN;
    if (!isfinite(t_f) || t_f <= 0.0 || !(plan->period_h > 0.0) || !isfinite(t_h) || t_h < 0.0)
        return SPT_BAD_ARGUMENT;
    if (isfinite(plan->period_h)) {
        whole = floor(t_h / plan->period_h);
        rest = fmax(0.0, t_h - whole * plan->period_h);
    }
    double exponent = pow(rest / t_f, SPT_GREASE_SLOPE);
    if (whole > 0.0)
        exponent += whole * pow(plan->period_h / t_f, SPT_GREASE_SLOPE);
    *survival = exp(-SPT_GREASE_HAZARD * exponent);
    return SPT_OK;
}

enum spt_status spt_regreasing_risk(const struct spt_grease_plan *plan, double hours, double *share)
{
    *share = (double)NAN;
    if (!(plan->interval_h > 0.0) || isinf(plan->interval_h) || !(plan->period_h > 0.0) ||
        !(hours >= 0.0) || isinf(hours))
        return SPT_BAD_ARGUMENT;
    const double period_h = isinf(plan->period_h) ? hours : plan->period_h;
    const double periods = isinf(plan->period_h) ? 1.0 : hours / period_h;
    *share =
        -expm1(-SPT_GREASE_HAZARD * periods * pow(period_h / plan->interval_h, SPT_GREASE_SLOPE));
    return SPT_OK;
}

enum spt_status spt_regreasing_period_for(const struct spt_grease_group *group, double hours,
                                          double share, double *period_h)
{
    double sum = 0.0, shortest_h = (double)INFINITY;
    *period_h = (double)NAN;
    if (!group->intervals_h || group->count < 1 || group->units < 1 || !(hours > 0.0) ||
        isinf(hours) || !(share > 0.0) || !(share < 1.0))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < group->count; i++) {
        const double interval_h = group->intervals_h[i];
        if (!(interval_h > 0.0) || isinf(interval_h))
            return SPT_BAD_ARGUMENT;
        shortest_h = fmin(shortest_h, interval_h);
        sum += group->units * pow(interval_h, -SPT_GREASE_SLOPE);
    }
    *period_h = fmin(shortest_h, pow(-log1p(-share) / (SPT_GREASE_HAZARD * hours * sum),
                                     1.0 / (SPT_GREASE_SLOPE - 1.0)));
    return SPT_OK;
}

/* The largest of `count` rising steps that does not exceed a value, within round-off. */
static double step_down(const double *steps, int count, double value)
{
    double kept = (double)NAN;
    for (int i = 0; i < count && steps[i] <= value * (1.0 + 1e-12); i++)
        kept = steps[i];
    return kept;
}
#define COUNT(array) (int)(sizeof(array) / sizeof *(array))

double spt_regreasing_kept_h(double raw_h)
{
    static const double steps[] = {8,    10,   16,   20,   25,   40,   50,   60,   80,  100,
                                   125,  150,  200,  250,  300,  400,  500,  600,  800, 1000,
                                   1250, 1500, 2000, 2500, 3000, 4000, 5000, 6000, 8000};
    double decade = 1;
    while (raw_h / decade >= 1e4 && isfinite(raw_h))
        decade *= 10; /* the steps from 1000 on return in each decade */
    return isfinite(raw_h) ? decade * step_down(steps, COUNT(steps), raw_h / decade) : (double)NAN;
}

double spt_regreasing_kept_days(double raw_days)
{
    static const double steps[] = {1,  2,   3,   4,   7,   14,  28,   42,  61,
                                   91, 122, 183, 365, 548, 730, 1095, 1826};
    return step_down(steps, COUNT(steps), raw_days);
}

#define FIRST_MONTHS_DAYS 61 /* from here on the days kept are whole months */

double spt_regreasing_days_exact(double kept_days)
{
    const double month_days = SPT_YEAR_H / 24 / 12;
    return kept_days < FIRST_MONTHS_DAYS ? kept_days : month_days * round(kept_days / month_days);
}

int spt_regreasing_months(const struct spt_surroundings *around, bool vehicle_hub)
{
    static const int months[] = {24, 12, 6, 3};
    int level =
        (int)around->dust > (int)around->moisture ? (int)around->dust : (int)around->moisture;
    if (level < 0 || level >= COUNT(months))
        return 0;
    return vehicle_hub && months[level] > 12 ? 12 : months[level];
}

double spt_regreasing_first(double interval_h, double age_h)
{
    return fmax(interval_h - age_h, 0.0);
}
