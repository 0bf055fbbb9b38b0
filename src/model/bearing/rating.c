/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <gsl/gsl_math.h>
#include <math.h>

#include "model/bearing/bearing_type.h"
#include "model/numeric.h"

#define ANGLE_TOLERANCE_RAD 1e-9
#define RIGHT_ANGLE_RAD M_PI_2
#define DIVIDING_ANGLE_RAD M_PI_4 /* radial bearings up to here, thrust bearings from here */
#define BALL_SIZE_BREAK_MM 25.4
#define MODULUS_MPA 207000.0
#define POISSON 0.3

static bool is_positive(double value)
{
    return isfinite(value) && value > 0.0;
}

static int count_rows(enum spt_bearing_type type, const struct spt_geometry *geometry)
{
    return spt_bearing_rows(type, geometry->rows);
}

static bool is_square(const struct spt_geometry *geometry)
{
    return geometry->contact_angle_rad > RIGHT_ANGLE_RAD - ANGLE_TOLERANCE_RAD;
}

/* gamma as it enters the curvatures of the raceways: 0 where the raceways are flat. */
static double find_curvature_gamma(const struct spt_geometry *geometry)
{
    if (is_square(geometry))
        return 0.0;
    return geometry->element_diameter_mm * cos(geometry->contact_angle_rad) /
           geometry->pitch_diameter_mm;
}

/* gamma as used to look up the tables. */
static double find_gamma(const struct spt_geometry *geometry)
{
    return is_square(geometry) ? geometry->element_diameter_mm / geometry->pitch_diameter_mm
                               : find_curvature_gamma(geometry);
}

bool spt_rating_angle_suits(enum spt_bearing_type type, double contact_angle_rad)
{
    double angle = contact_angle_rad;
    if (spt_bearing_is_thrust(type))
        return angle >= DIVIDING_ANGLE_RAD - ANGLE_TOLERANCE_RAD &&
               angle <= RIGHT_ANGLE_RAD + ANGLE_TOLERANCE_RAD;
    return angle >= 0.0 && angle <= DIVIDING_ANGLE_RAD + ANGLE_TOLERANCE_RAD;
}

static bool groove_is_valid(double ratio)
{
    return isnan(ratio) || (ratio >= SPT_GROOVE_RATIO_MIN && ratio <= SPT_GROOVE_RATIO_MAX);
}

static bool geometry_is_valid(enum spt_bearing_type type, const struct spt_geometry *geometry)
{
    if (!spt_bearing_is_type(type) || geometry->elements < 3 || geometry->elements > 1000 ||
        count_rows(type, geometry) < 1 || !is_positive(geometry->element_diameter_mm) ||
        !is_positive(geometry->pitch_diameter_mm) ||
        !spt_rating_angle_suits(type, geometry->contact_angle_rad))
        return false;
    double gamma = find_gamma(geometry);
    if (spt_bearing_is_ball(type))
        return gamma < 0.5 && groove_is_valid(geometry->inner_groove_ratio) &&
               groove_is_valid(geometry->outer_groove_ratio);
    return gamma < 0.4 && is_positive(geometry->element_length_mm);
}

struct grooves {
    double inner;
    double outer;
};

/* The groove ratios of `geometry`, or `usual` where they are NaN. The outer raceway of a
 * self-aligning ball bearing is a sphere about the centre of the bearing. */
static struct grooves find_grooves(enum spt_bearing_type type, const struct spt_geometry *geometry,
                                   struct grooves usual)
{
    struct grooves grooves = {geometry->inner_groove_ratio, geometry->outer_groove_ratio};
    if (isnan(grooves.inner))
        grooves.inner = usual.inner;
    if (type == SPT_SELF_ALIGNING_BALL)
        grooves.outer = 0.5 * (1.0 / find_curvature_gamma(geometry) + 1.0);
    else if (isnan(grooves.outer))
        grooves.outer = usual.outer;
    return grooves;
}

/* The groove ratios for which the f_c tables of ISO 281 were computed. */
static struct grooves find_dynamic_grooves(enum spt_bearing_type type,
                                           const struct spt_geometry *geometry)
{
    struct grooves usual = {0.52, 0.52};
    if (type == SPT_SELF_ALIGNING_BALL)
        usual.inner = 0.53;
    if (type == SPT_THRUST_BALL)
        usual = (struct grooves){0.535, 0.535};
    return find_grooves(type, geometry, usual);
}

/* The groove ratios for which the f_0 tables of ISO 76 were computed. For self-aligning bearings
 * the spherical outer raceway governs, so that the inner one has no effect. */
static struct grooves find_static_grooves(enum spt_bearing_type type,
                                          const struct spt_geometry *geometry)
{
    struct grooves usual = {0.52, 0.53};
    if (type == SPT_THRUST_BALL)
        usual = (struct grooves){0.54, 0.54};
    return find_grooves(type, geometry, usual);
}

/* lambda in f_c; for rollers lambda nu. Two rows of radial contact balls share a load less evenly
 * than one, and have their own column in ISO 281:2007 table 2 (from memory; explained in ISO/TR
 * 1281-1). */
static double find_reduction(enum spt_bearing_type type, int rows)
{
    bool thrust = spt_bearing_is_thrust(type);
    if (!spt_bearing_is_ball(type))
        return thrust ? 0.73 : 0.83;
    if (thrust)
        return 0.9;
    if (type == SPT_SELF_ALIGNING_BALL)
        return 1.0;
    return type == SPT_DEEP_GROOVE_BALL && rows >= 2 ? 0.90 : 0.95;
}

/* The factor of f_c from the two raceways: point contact. */
static double find_ball_fc(enum spt_bearing_type type, const struct spt_geometry *geometry)
{
    struct grooves r = find_dynamic_grooves(type, geometry);
    bool thrust = spt_bearing_is_thrust(type);
    double g = find_curvature_gamma(geometry);
    double inner = 2.0 * r.inner / (2.0 * r.inner - 1.0);
    double outer = 2.0 * r.outer / (2.0 * r.outer - 1.0);
    double raceways =
        (thrust ? 1.0 : 1.04) * pow((1.0 - g) / (1.0 + g), 1.72) * pow(inner / outer, 0.41);
    double shape = pow(inner, 0.41) * pow(find_gamma(geometry), 0.3) * pow(1.0 - g, 1.39) /
                   cbrt(1.0 + g) * pow(1.0 + pow(raceways, 10.0 / 3.0), -0.3);
    double lambda = find_reduction(type, count_rows(type, geometry));
    if (thrust)
        return 98.0665 * lambda * (1.0 - sin(geometry->contact_angle_rad) / 3.0) * shape;
    return 0.41 * 98.0665 * lambda * shape;
}

/* The same for line contact. */
static double find_roller_fc(enum spt_bearing_type type, const struct spt_geometry *geometry)
{
    bool thrust = spt_bearing_is_thrust(type);
    double g = find_curvature_gamma(geometry);
    double raceways = (thrust ? 1.0 : 1.04) * pow((1.0 - g) / (1.0 + g), 143.0 / 108.0);
    double shape = pow(find_gamma(geometry), 2.0 / 9.0) * pow(1.0 - g, 29.0 / 27.0) /
                   pow(1.0 + g, 0.25) * pow(1.0 + pow(raceways, 4.5), -2.0 / 9.0);
    double lambda = find_reduction(type, count_rows(type, geometry));
    if (thrust)
        return 551.13373 * lambda * (1.0 - 0.15 * sin(geometry->contact_angle_rad)) * shape;
    return 207.9 * lambda * shape;
}

static double find_fc(enum spt_bearing_type type, const struct spt_geometry *geometry)
{
    return spt_bearing_is_ball(type) ? find_ball_fc(type, geometry)
                                     : find_roller_fc(type, geometry);
}

enum spt_status spt_rating_fc(enum spt_bearing_type type, const struct spt_geometry *geometry,
                              double *f_c)
{
    *f_c = (double)NAN;
    if (!geometry_is_valid(type, geometry))
        return SPT_BAD_ARGUMENT;
    *f_c = find_fc(type, geometry);
    return SPT_OK;
}

double spt_rating_bm(enum spt_bearing_type type)
{
    return spt_bearing_is_type(type) ? spt_bearing_type_data(type)->bm : (double)NAN;
}

/* (cos alpha)^exponent, times tan alpha for thrust bearings; 1 where the raceways are flat. */
static double find_angle_factor(enum spt_bearing_type type, const struct spt_geometry *geometry,
                                double exponent)
{
    if (is_square(geometry))
        return 1.0;
    double factor = pow(cos(geometry->contact_angle_rad), exponent);
    return spt_bearing_is_thrust(type) ? factor * tan(geometry->contact_angle_rad) : factor;
}

static double find_dynamic(enum spt_bearing_type type, const struct spt_geometry *geometry,
                           double f)
{
    double d = geometry->element_diameter_mm;
    int rows = count_rows(type, geometry);
    if (!spt_bearing_is_ball(type))
        return f * pow(rows * geometry->element_length_mm, 7.0 / 9.0) *
               find_angle_factor(type, geometry, 7.0 / 9.0) * pow(geometry->elements, 0.75) *
               pow(d, 29.0 / 27.0);
    double size = d <= BALL_SIZE_BREAK_MM ? pow(d, 1.8) : 3.647 * pow(d, 1.4);
    return f * pow(rows, 0.7) * find_angle_factor(type, geometry, 0.7) *
           pow(geometry->elements, 2.0 / 3.0) * size;
}

/* F(rho) of an elliptic contact with axis ratio exp(log_ratio) > 1 (Harris; Hertz 1881); *e is the
 * complete elliptic integral of the second kind. */
static bool find_curvature_difference(double log_ratio, double *difference, double *e)
{
    double first;
    double square = exp(2.0 * log_ratio);
    if (!spt_numeric_elliptic(sqrt(1.0 - 1.0 / square), &first, e))
        return false;
    *difference = ((square + 1.0) * *e - 2.0 * first) / ((square - 1.0) * *e);
    return true;
}

/* Axis ratio and complete elliptic integral of the second kind of a contact, by bisection on the
 * logarithm of the ratio. A contact with a ratio below 1.00001 counts as a circle. */
static bool find_ellipse(double difference, double *ratio, double *e)
{
    double low = 1e-5, high = log(1e4), found;
    if (!find_curvature_difference(low, &found, e))
        return false;
    if (difference <= found) {
        *ratio = 1.0;
        *e = M_PI_2;
        return true;
    }
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (!find_curvature_difference(middle, &found, e))
            return false;
        if (found < difference)
            low = middle;
        else
            high = middle;
    }
    *ratio = exp(0.5 * (low + high));
    return high < log(1e4);
}

/* Load in N of one ball of 1 mm on a raceway at the largest contact stress. Curvatures of the
 * raceway in 1/mm: along the rolling direction (> 0 convex) and of the groove (< 0). */
static bool find_contact_load(double stress_mpa, double rolling, double groove, double *load_n)
{
    double sum = 4.0 + rolling + groove;
    double ratio, e;
    if (!find_ellipse(fabs(rolling - groove) / sum, &ratio, &e))
        return false;
    double modulus = MODULUS_MPA / (1.0 - POISSON * POISSON);
    double area = 6.0 * e / (M_PI * sum * modulus);
    *load_n = gsl_pow_3(2.0 * M_PI * stress_mpa / 3.0) * area * area * ratio;
    return true;
}

/* f_0: the load of one ball of 1 mm, over 5 for radial bearings (the most loaded ball carries 5
 * Fr/Z). NaN where the contact problem has no solution. */
static double find_f0(enum spt_bearing_type type, const struct spt_geometry *geometry)
{
    struct grooves r = find_static_grooves(type, geometry);
    double stress_mpa = type == SPT_SELF_ALIGNING_BALL ? 4600.0 : 4200.0;
    double g = find_curvature_gamma(geometry);
    double inner, outer;
    if (!find_contact_load(stress_mpa, 2.0 * g / (1.0 - g), -1.0 / r.inner, &inner) ||
        !find_contact_load(stress_mpa, -2.0 * g / (1.0 + g), -1.0 / r.outer, &outer))
        return (double)NAN;
    return fmin(inner, outer) / (spt_bearing_is_thrust(type) ? 1.0 : 5.0);
}

enum spt_status spt_rating_f0(enum spt_bearing_type type, const struct spt_geometry *geometry,
                              double *f_0)
{
    *f_0 = (double)NAN;
    if (!geometry_is_valid(type, geometry) || !spt_bearing_is_ball(type))
        return SPT_BAD_ARGUMENT;
    *f_0 = find_f0(type, geometry);
    return isnan(*f_0) ? SPT_NOT_CONVERGED : SPT_OK;
}

static double find_static(enum spt_bearing_type type, const struct spt_geometry *geometry,
                          double f_0)
{
    double d = geometry->element_diameter_mm;
    double count = (double)count_rows(type, geometry) * geometry->elements;
    bool thrust = spt_bearing_is_thrust(type);
    double angle = thrust ? sin(geometry->contact_angle_rad) : cos(geometry->contact_angle_rad);
    if (spt_bearing_is_ball(type))
        return f_0 * count * d * d * angle;
    return (thrust ? 220.0 : 44.0) * (1.0 - find_curvature_gamma(geometry)) * count *
           geometry->element_length_mm * d * angle;
}

enum spt_status spt_rating_from_geometry(enum spt_bearing_type type,
                                         const struct spt_geometry *geometry,
                                         struct spt_rating *rating)
{
    const double none = (double)NAN;
    *rating = (struct spt_rating){none, none, none, none, none, none, none, none, none, none, none};
    if (!geometry_is_valid(type, geometry))
        return SPT_BAD_ARGUMENT;
    double f_0 = none;
    if (spt_bearing_is_ball(type)) {
        f_0 = find_f0(type, geometry);
        if (isnan(f_0))
            return SPT_NOT_CONVERGED;
    }
    if (spt_bearing_is_ball(type)) {
        struct grooves grooves = find_dynamic_grooves(type, geometry);
        rating->inner_groove_ratio = grooves.inner;
        rating->outer_groove_ratio = grooves.outer;
    }
    rating->f_0 = f_0;
    rating->gamma = find_gamma(geometry);
    rating->curvature_gamma = find_curvature_gamma(geometry);
    rating->reduction = find_reduction(type, count_rows(type, geometry));
    rating->b_m = spt_rating_bm(type);
    rating->f_c = find_fc(type, geometry);
    rating->dynamic_load_rating_n = find_dynamic(type, geometry, rating->b_m * rating->f_c);
    rating->static_load_rating_n = find_static(type, geometry, f_0);
    return spt_rating_fatigue_limit(type, rating->static_load_rating_n, geometry->pitch_diameter_mm,
                                    &rating->fatigue_load_limit_n);
}

enum spt_status spt_rating_fatigue_limit(enum spt_bearing_type type, double static_load_rating_n,
                                         double pitch_diameter_mm, double *c_u_n)
{
    *c_u_n = (double)NAN;
    if (!spt_bearing_is_type(type) || !is_positive(static_load_rating_n) ||
        !is_positive(pitch_diameter_mm))
        return SPT_BAD_ARGUMENT;
    bool ball = spt_bearing_is_ball(type);
    double size = fmin(100.0 / pitch_diameter_mm, 1.0);
    *c_u_n = static_load_rating_n / (ball ? 22.0 : 8.2) * pow(size, ball ? 0.5 : 0.3);
    return SPT_OK;
}

enum spt_status spt_rating_temperature_factor(double temperature_c, double *f_t)
{
    static const struct {
        double temperature_c;
        double factor;
    } rows[] = {{150.0, 1.0}, {175.0, 0.95}, {200.0, 0.9}, {250.0, 0.75}, {300.0, 0.6}};
    const int count = (int)(sizeof rows / sizeof rows[0]);
    *f_t = (double)NAN;
    if (!isfinite(temperature_c))
        return SPT_BAD_ARGUMENT;
    if (temperature_c > rows[count - 1].temperature_c)
        return SPT_NOT_APPLICABLE;
    if (temperature_c <= rows[0].temperature_c) {
        *f_t = rows[0].factor;
        return SPT_OK;
    }
    int i = 1;
    while (temperature_c > rows[i].temperature_c)
        i++;
    double part = (temperature_c - rows[i - 1].temperature_c) /
                  (rows[i].temperature_c - rows[i - 1].temperature_c);
    *f_t = rows[i - 1].factor + part * (rows[i].factor - rows[i - 1].factor);
    return SPT_OK;
}
