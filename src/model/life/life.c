/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/life.h"

#include <math.h>

#include "model/bearing/bearing_type.h"
#include "model/constants.h"
#include "spalltime/lubricant.h"

#define RELIABILITY_MIN 90.0
#define RELIABILITY_MAX 99.95

/* ISO 281:2007, equations (31) to (36) */
static const struct spt_aiso_family ball_family = SPT_AISO_BALL;
static const struct spt_aiso_family roller_family = SPT_AISO_ROLLER;

static bool is_positive(double value)
{
    return isfinite(value) && value > 0.0;
}

double spt_life_exponent(enum spt_bearing_type type)
{
    if (!spt_bearing_is_type(type))
        return (double)NAN;
    return spt_bearing_is_ball(type) ? 3.0 : 10.0 / 3.0;
}

enum spt_status spt_life_basic(enum spt_bearing_type type, double dynamic_load_rating_n,
                               double equivalent_load_n, double *l10_mrev)
{
    *l10_mrev = (double)NAN;
    if (!spt_bearing_is_type(type) || !is_positive(dynamic_load_rating_n) ||
        !is_positive(equivalent_load_n))
        return SPT_BAD_ARGUMENT;
    *l10_mrev = pow(dynamic_load_rating_n / equivalent_load_n, spt_life_exponent(type));
    return SPT_OK;
}

enum spt_status spt_life_hours(double life_mrev, double speed_rpm, double *life_h)
{
    *life_h = (double)NAN;
    if (isnan(life_mrev) || life_mrev < 0.0 || !is_positive(speed_rpm))
        return SPT_BAD_ARGUMENT;
    *life_h = life_mrev * SPT_MREV / (SPT_MINUTES_PER_HOUR * speed_rpm);
    return SPT_OK;
}

enum spt_status spt_life_reliability_factor(double reliability_percent, double *a1)
{
    *a1 = (double)NAN;
    if (!(reliability_percent >= RELIABILITY_MIN && reliability_percent <= RELIABILITY_MAX))
        return SPT_BAD_ARGUMENT;
    /* exactly 1 at 90 %, without the round-off of the quotient of logarithms */
    if (reliability_percent == RELIABILITY_MIN) {
        *a1 = 1.0;
        return SPT_OK;
    }
    double ratio = log(100.0 / reliability_percent) / log(100.0 / RELIABILITY_MIN);
    *a1 = (1.0 - SPT_WEIBULL_FLOOR) * pow(ratio, 1.0 / SPT_WEIBULL_SLOPE) + SPT_WEIBULL_FLOOR;
    return SPT_OK;
}

/* A(kappa) of balls, B(kappa) of rollers. */
static double find_film_term(const struct spt_aiso_family *family, double kappa)
{
    if (kappa < SPT_AISO_KAPPA_THIN)
        return family->coefficient_thin / pow(kappa, SPT_AISO_EXPONENT_THIN);
    if (kappa < SPT_AISO_KAPPA_FULL)
        return family->coefficient / pow(kappa, SPT_AISO_EXPONENT_MIXED);
    return family->coefficient / pow(kappa, SPT_AISO_EXPONENT_FULL);
}

static double find_bracket(const struct spt_aiso_family *family, double kappa, double x)
{
    double a = find_film_term(family, kappa);
    /* at kappa 0.1 the difference is 0 except for the rounding of the constants: set negative
     * values to 0 */
    return 1.0 - pow(fmax(family->limit - a, 0.0), family->outer) * pow(x, family->inner);
}

static double find_factor(const struct spt_aiso_family *family, double bracket)
{
    if (bracket <= 0.0)
        return SPT_LIFE_FACTOR_MAX;
    return fmin(SPT_AISO_SCALE * pow(bracket, family->power), SPT_LIFE_FACTOR_MAX);
}

double spt_life_factor_value(bool ball, double kappa, double x)
{
    const struct spt_aiso_family *family = ball ? &ball_family : &roller_family;
    return find_factor(family, find_bracket(family, kappa, x));
}

static double find_divisor(enum spt_bearing_type type)
{
    if (!spt_bearing_is_thrust(type))
        return 1.0;
    return spt_bearing_is_ball(type) ? SPT_AISO_THRUST_BALL_DIVISOR
                                     : SPT_AISO_THRUST_ROLLER_DIVISOR;
}

static bool factor_inputs_are_valid(const struct spt_life_factor_inputs *in)
{
    return spt_bearing_is_type(in->type) && in->contamination_factor >= 0.0 &&
           in->contamination_factor <= 1.0 && is_positive(in->fatigue_load_limit_n) &&
           is_positive(in->equivalent_load_n) && is_positive(in->viscosity_ratio);
}

/* Fills `out` with a_ISO at `kappa` and out->x. */
static void fill_factor(const struct spt_aiso_family *family, double kappa,
                        struct spt_life_factor *out)
{
    out->viscosity_ratio = kappa;
    out->film_term = find_film_term(family, kappa);
    out->bracket = find_bracket(family, kappa, out->x);
    out->a_iso = find_factor(family, out->bracket);
    out->capped = out->a_iso >= SPT_LIFE_FACTOR_MAX;
}

/* The EP rule of ISO 281:2007: kappa = 1 in place of a smaller kappa; a_ISO is at most 3 and never
 * less than that of the actual kappa, which `out` holds on entry. x keeps the e_C of the actual
 * kappa: whether the standard also evaluates e_C at kappa = 1 could not be checked, and this is the
 * conservative reading. */
static void apply_ep_rule(const struct spt_aiso_family *family, struct spt_life_factor *out)
{
    struct spt_life_factor ep = *out;
    fill_factor(family, 1.0, &ep);
    ep.capped = ep.a_iso >= SPT_LIFE_FACTOR_EP_MAX;
    ep.a_iso = fmin(ep.a_iso, SPT_LIFE_FACTOR_EP_MAX);
    ep.ep_applied = true;
    if (ep.a_iso > out->a_iso)
        *out = ep;
}

enum spt_status spt_life_factor(const struct spt_life_factor_inputs *in,
                                struct spt_life_factor *out)
{
    *out = (struct spt_life_factor){(double)NAN, (double)NAN, (double)NAN, (double)NAN,
                                    (double)NAN, false,       false};
    if (!factor_inputs_are_valid(in))
        return SPT_BAD_ARGUMENT;
    if (in->viscosity_ratio < SPT_KAPPA_MIN)
        return SPT_NOT_APPLICABLE;
    const struct spt_aiso_family *family =
        spt_bearing_is_ball(in->type) ? &ball_family : &roller_family;
    out->x = in->contamination_factor * in->fatigue_load_limit_n / in->equivalent_load_n /
             find_divisor(in->type);
    fill_factor(family, fmin(in->viscosity_ratio, SPT_KAPPA_MAX), out);
    if (in->ep_additive && in->viscosity_ratio < 1.0 &&
        in->contamination_factor >= SPT_EP_CLEANLINESS_MIN)
        apply_ep_rule(family, out);
    return SPT_OK;
}

double spt_life_system(const double *lives, int n, double slope)
{
    if (n < 1 || !lives || !is_positive(slope))
        return (double)NAN;
    double least = (double)INFINITY;
    for (int i = 0; i < n; i++) {
        if (isnan(lives[i]) || lives[i] < 0.0)
            return (double)NAN;
        least = fmin(least, lives[i]);
    }
    if (isinf(least) || least == 0.0)
        return least;
    /* relative to the least life, so that no power overflows */
    double sum = 0.0;
    for (int i = 0; i < n; i++)
        sum += pow(lives[i] / least, -slope);
    return least * pow(sum, -1.0 / slope);
}
