/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/curve/chart_data.h"

#include <math.h>
#include <string.h>

#include "base/table.h"
#include "spalltime/lubricant.h"

#define SAME_GRADE 0.1 /* ISO 3448: a grade reaches 10 % to each side of its mid-point */
#define BELOW_COOLEST_K 20
#define ABOVE_HOTTEST_K 30
#define LOWEST_C (-270.0)
#define X_LOW 1e-6
#define X_HIGH 1e6

static double viscosity_at(const struct spt_walther *line, double temperature_c)
{
    double nu;
    return spt_viscosity_at(line, temperature_c, &nu) ? (double)NAN : nu;
}

static void add_curve(struct spt_film_curves *result, const struct spt_walther *line, int grade,
                      double nu40_mm2_s)
{
    struct spt_film_curve *curve = &result->curves[result->curve_count++];
    curve->grade = grade;
    curve->nu40_mm2_s = nu40_mm2_s;
    for (int i = 0; i < SPT_FILM_POINTS; i++)
        curve->viscosity_mm2_s[i] = viscosity_at(line, result->temperature_c[i]);
}

static void add_grade(struct spt_film_curves *result, const struct spt_viscosity_grade *grade,
                      double index)
{
    double nu100;
    struct spt_walther line;
    if (!grade || spt_viscosity_100_from_index(grade->nu40_mm2_s, index, &nu100) ||
        spt_viscosity_line(40, grade->nu40_mm2_s, 100, nu100, &line))
        return;
    add_curve(result, &line, grade->number, grade->nu40_mm2_s);
}

/* Index of the first grade whose lower limit is above the oil; below, of the last grade whose upper
 * limit is below it. */
static int find_thicker(double nu40_mm2_s)
{
    int i = 0;
    while (i < SPT_VISCOSITY_GRADE_COUNT &&
           spt_viscosity_grade(i)->nu40_mm2_s * (1 - SAME_GRADE) <= nu40_mm2_s)
        i++;
    return i;
}

static int find_thinner(double nu40_mm2_s)
{
    int i = SPT_VISCOSITY_GRADE_COUNT - 1;
    while (i >= 0 && spt_viscosity_grade(i)->nu40_mm2_s * (1 + SAME_GRADE) >= nu40_mm2_s)
        i--;
    return i;
}

enum spt_status spt_film_curves(const struct spt_lubricant *oil, double low_c, double high_c,
                                struct spt_film_curves *result)
{
    memset(result, 0, sizeof *result);
    if (!(low_c > -273.15 && low_c < high_c && high_c <= 1000))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < SPT_FILM_POINTS; i++)
        result->temperature_c[i] = low_c + (high_c - low_c) * i / (SPT_FILM_POINTS - 1);
    double nu40 = oil->viscosity_40_mm2_s;
    int thinner = find_thinner(nu40), thicker = find_thicker(nu40);
    for (int i = SPT_FILM_NEIGHBOURS - 1; i >= 0; i--)
        add_grade(result, spt_viscosity_grade(thinner - i), oil->viscosity_index);
    add_curve(result, &oil->line, 0, nu40);
    for (int i = 0; i < SPT_FILM_NEIGHBOURS; i++)
        add_grade(result, spt_viscosity_grade(thicker + i), oil->viscosity_index);
    return SPT_OK;
}

enum spt_status spt_film_curves_of(const struct spt_case *question,
                                   const struct spt_bearing_result *bearing,
                                   struct spt_film_curves *result)
{
    double low_c = (double)INFINITY, high_c = -(double)INFINITY;
    memset(result, 0, sizeof *result);
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *phase = &bearing->phases[i];
        if (!(phase->phase->speed_rpm > 0) || !isfinite(phase->temperature_c))
            continue;
        low_c = fmin(low_c, phase->temperature_c);
        high_c = fmax(high_c, phase->temperature_c);
    }
    if (!(low_c <= high_c))
        return SPT_NOT_APPLICABLE;
    low_c = fmax(10 * floor((low_c - BELOW_COOLEST_K) / 10), LOWEST_C);
    high_c = 10 * ceil((high_c + ABOVE_HOTTEST_K) / 10);
    return spt_film_curves(&question->lubricant, low_c, high_c, result);
}

/* a_ISO never falls with x, so bisection of ln x finds where it reaches the value. */
static double solve_x(bool ball, double kappa, double a_iso)
{
    double low = log(X_LOW), high = log(X_HIGH);
    if (spt_life_factor_value(ball, kappa, X_HIGH) < a_iso)
        return (double)NAN;
    for (int i = 0; i < 60; i++) {
        double middle = 0.5 * (low + high);
        if (spt_life_factor_value(ball, kappa, exp(middle)) < a_iso)
            low = middle;
        else
            high = middle;
    }
    return exp(high);
}

void spt_contours(enum spt_bearing_type type, struct spt_contours *result)
{
    static const double values[] = {0.2, 0.5, 1, 2, 5, 10, 20, 30, 50};
    SPT_ONE_EACH(values, SPT_CONTOUR_COUNT);
    bool ball = spt_bearing_is_ball(type);
    for (int i = 0; i < SPT_CONTOUR_POINTS; i++)
        result->viscosity_ratio[i] = SPT_KAPPA_MIN * pow(SPT_KAPPA_MAX / SPT_KAPPA_MIN,
                                                         (double)i / (SPT_CONTOUR_POINTS - 1));
    result->viscosity_ratio[SPT_CONTOUR_POINTS - 1] = SPT_KAPPA_MAX;
    for (int k = 0; k < SPT_CONTOUR_COUNT; k++) {
        result->contours[k].a_iso = values[k];
        for (int i = 0; i < SPT_CONTOUR_POINTS; i++)
            result->contours[k].x[i] = solve_x(ball, result->viscosity_ratio[i], values[k]);
    }
}
