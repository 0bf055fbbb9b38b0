/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <math.h>

#include "model/numeric.h"

static bool is_law(const struct spt_life_law *law)
{
    return isfinite(law->l10) && law->l10 > 0.0 && isfinite(law->slope) && law->slope > 0.0 &&
           law->floor >= 0.0 && law->floor < 1.0;
}

struct spt_life_law spt_survival_iso_law(double l10)
{
    return (struct spt_life_law){l10, SPT_WEIBULL_SLOPE, SPT_WEIBULL_FLOOR};
}

/* ln R <= 0; kept as a logarithm so that products do not underflow */
static double find_log_fatigue(const struct spt_life_law *law, double t)
{
    double excess = (t / law->l10 - law->floor) / (1.0 - law->floor);
    return excess > 0.0 ? log1p(-0.1) * pow(excess, law->slope) : 0.0;
}

enum spt_status spt_survival_fatigue(const struct spt_life_law *law, double t, double *survival)
{
    *survival = (double)NAN;
    if (!is_law(law) || isnan(t) || t < 0.0)
        return SPT_BAD_ARGUMENT;
    *survival = exp(find_log_fatigue(law, t));
    return SPT_OK;
}

enum spt_status spt_survival_log_fatigue(const struct spt_life_law *law, double t,
                                         double *log_survival)
{
    *log_survival = (double)NAN;
    if (!is_law(law) || isnan(t) || t < 0.0)
        return SPT_BAD_ARGUMENT;
    *log_survival = find_log_fatigue(law, t);
    return SPT_OK;
}

enum spt_status spt_survival_quantile(const struct spt_life_law *law, double survival, double *t)
{
    *t = (double)NAN;
    if (!is_law(law) || !(survival > 0.0) || !(survival < 1.0))
        return SPT_BAD_ARGUMENT;
    double excess = pow(log(survival) / log1p(-0.1), 1.0 / law->slope);
    *t = law->l10 * ((1.0 - law->floor) * excess + law->floor);
    return SPT_OK;
}

enum spt_status spt_survival_log_density(const struct spt_life_law *law, double t,
                                         double *log_density)
{
    *log_density = (double)NAN;
    if (!is_law(law) || !isfinite(t) || t <= 0.0)
        return SPT_BAD_ARGUMENT;
    double excess = (t / law->l10 - law->floor) / (1.0 - law->floor);
    if (excess <= 0.0) {
        *log_density = -(double)INFINITY;
        return SPT_OK;
    }
    double log_hazard = log(-log1p(-0.1) * law->slope / (law->l10 * (1.0 - law->floor))) +
                        (law->slope - 1.0) * log(excess);
    *log_density = log_hazard + find_log_fatigue(law, t);
    return SPT_OK;
}

static bool is_system(const struct spt_survival_system *system)
{
    if (system->fatigue_count < 0 || system->grease_count < 0 ||
        (system->fatigue_count == 0 && system->grease_count == 0) ||
        (system->fatigue_count > 0 && !system->fatigue) ||
        (system->grease_count > 0 && !system->grease))
        return false;
    for (int i = 0; i < system->fatigue_count; i++)
        if (!is_law(&system->fatigue[i]))
            return false;
    for (int i = 0; i < system->grease_count; i++)
        if (!isfinite(system->grease[i].interval_h) || system->grease[i].interval_h <= 0.0 ||
            !(system->grease[i].period_h > 0.0))
            return false;
    return true;
}

/* of a checked system, from -inf to 0 */
static double find_log_survival(const struct spt_survival_system *system, double t_h)
{
    double sum = 0.0;
    for (int i = 0; i < system->fatigue_count; i++)
        sum += find_log_fatigue(&system->fatigue[i], t_h);
    for (int i = 0; i < system->grease_count; i++) {
        double survival;
        if (spt_regreasing_survival(&system->grease[i], t_h, &survival) == SPT_OK)
            sum += log(survival);
    }
    return sum;
}

enum spt_status spt_survival_of_system(const struct spt_survival_system *system, double t_h,
                                       double *survival)
{
    *survival = (double)NAN;
    if (!is_system(system) || !isfinite(t_h) || t_h < 0.0)
        return SPT_BAD_ARGUMENT;
    *survival = exp(find_log_survival(system, t_h));
    return SPT_OK;
}

struct target {
    const struct spt_survival_system *system;
    double log_survival;
};

static double miss_target(double t_h, void *context)
{
    const struct target *target = context;
    /* the floor keeps ln R finite where R underflows, far from any root */
    return fmax(find_log_survival(target->system, t_h), -700.0) - target->log_survival;
}

enum spt_status spt_survival_life(const struct spt_survival_system *system, double survival,
                                  double *life_h)
{
    struct target target = {system, log(survival)};
    gsl_function function = {miss_target, &target};
    double low = 1.0;
    double high = 1.0;

    *life_h = (double)NAN;
    if (!is_system(system) || !(survival > 1e-300) || !(survival < 1.0))
        return SPT_BAD_ARGUMENT;
    while (miss_target(low, &target) < 0.0 && low > 1e-12)
        low *= 0.5;
    while (miss_target(high, &target) > 0.0 && high < SPT_SURVIVAL_LIFE_MAX_H)
        high *= 2.0;
    if (low == high) {
        *life_h = low;
        return SPT_OK;
    }
    return spt_numeric_root(&function, low, high, life_h);
}

/* The root y of sum max(0, a1 y x_i - first)^e = (a1 - first)^e with x_i the least life over life
 * i. The sum is convex and exceeds the right side at y = 1, so that Newton's method from there
 * decreases to the root without passing it. */
static double find_series(const double *lives, int count, double least, double a1)
{
    const double e = SPT_WEIBULL_SLOPE, first = SPT_WEIBULL_FLOOR;
    double y = 1.0;
    for (int round = 0; round < 100; round++) {
        double sum = -pow(a1 - first, e), slope = 0.0;
        for (int i = 0; i < count; i++) {
            double x = least / lives[i], excess = fmax(a1 * y * x - first, 0.0);
            double power = pow(excess, e - 1.0);
            sum += excess * power;
            slope += e * a1 * x * power;
        }
        double next = y - sum / slope;
        if (!(next < y * (1.0 - 1e-16)))
            break;
        y = next;
    }
    return y;
}

double spt_survival_series(const double *lives, int count, double reliability_percent)
{
    double a1, least = (double)INFINITY;
    if (count < 1 || !lives)
        return (double)NAN;
    if (count == 1)
        return lives[0];
    if (spt_life_reliability_factor(reliability_percent, &a1) != SPT_OK)
        return (double)NAN;
    for (int i = 0; i < count; i++) {
        if (isnan(lives[i]) || lives[i] < 0.0)
            return (double)NAN;
        least = fmin(least, lives[i]);
    }
    if (isinf(least) || least == 0.0)
        return least;
    return least * find_series(lives, count, least, a1);
}

void spt_survival_shares(const double *lives, int count, double reliability_percent, double *shares)
{
    double life = spt_survival_series(lives, count, reliability_percent), a1 = 1, sum = 0;
    bool known = isfinite(life) && life > 0 &&
                 spt_life_reliability_factor(reliability_percent, &a1) == SPT_OK;
    for (int i = 0; i < count; i++) {
        double part = known ? a1 * life / lives[i] - SPT_WEIBULL_FLOOR : (double)NAN;
        shares[i] = known ? pow(fmax(part, 0), SPT_WEIBULL_SLOPE) : (double)NAN;
        sum += shares[i];
    }
    for (int i = 0; known && i < count; i++)
        shares[i] /= sum;
}

enum spt_status spt_survival_usual_lives(enum spt_status (*find)(const void *context,
                                                                 double survival, double *life_h),
                                         const void *context, struct spt_survival_lives *lives)
{
    static const struct spt_survival_lives none = {(double)NAN, (double)NAN, (double)NAN,
                                                   (double)NAN};
    struct spt_survival_lives found = none;
    const struct {
        double survival;
        double *life_h;
    } wanted[] = {
        {0.50, &found.l50_h}, {0.90, &found.l10_h}, {0.95, &found.l5_h}, {0.99, &found.l1_h}};
    enum spt_status status = SPT_OK;
    for (int i = 0; i < (int)(sizeof wanted / sizeof *wanted) && !status; i++)
        status = find(context, wanted[i].survival, wanted[i].life_h);
    *lives = status ? none : found;
    return status;
}

static enum spt_status find_system_life(const void *context, double survival, double *life_h)
{
    return spt_survival_life(context, survival, life_h);
}

enum spt_status spt_survival_lives(const struct spt_survival_system *system,
                                   struct spt_survival_lives *lives)
{
    return spt_survival_usual_lives(find_system_life, system, lives);
}
