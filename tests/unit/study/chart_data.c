/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/curve/chart_data.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "spalltime/lubricant.h"
#include "support/case_example.h"
#include "support/near.h"

static struct spt_lubricant make_oil(double nu40, double index)
{
    struct spt_lubricant oil = {.name = "oil",
                                .kind = SPT_LUBRICATION_OIL_BATH,
                                .viscosity_40_mm2_s = nu40,
                                .viscosity_index = index,
                                .density_g_cm3 = (double)NAN};
    cr_assert_not(spt_viscosity_100_from_index(nu40, index, &oil.viscosity_100_mm2_s));
    cr_assert_not(spt_viscosity_line(40, nu40, 100, oil.viscosity_100_mm2_s, &oil.line));
    return oil;
}

Test(chart_data, the_neighbours_of_an_oil_are_the_next_grades_on_both_sides)
{
    static const struct {
        double nu40;
        int grades[SPT_FILM_CURVES_MAX]; /* 0 the oil; ISO 3448:1992 */
    } rows[] = {
        {150, {68, 100, 0, 220, 320}},
        {155, {68, 100, 0, 220, 320}},    /* still within the 10 % of VG 150 */
        {125, {68, 100, 0, 150, 220}},    /* between two grades */
        {165.1, {100, 150, 0, 220, 320}}, /* just beyond the 10 % */
        {134.9, {68, 100, 0, 150, 220}},
        {46, {22, 32, 0, 68, 100}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_lubricant oil = make_oil(rows[i].nu40, 95);
        struct spt_film_curves film;
        cr_assert_not(spt_film_curves(&oil, 20, 100, &film));
        cr_assert_eq(film.curve_count, SPT_FILM_CURVES_MAX);
        for (int k = 0; k < SPT_FILM_CURVES_MAX; k++)
            cr_expect_eq(film.curves[k].grade, rows[i].grades[k], "%g: curve %d is VG %d",
                         rows[i].nu40, k, film.curves[k].grade);
    }
}

Test(chart_data, curves_meet_the_model_at_every_point)
{
    struct spt_lubricant oil = make_oil(150, 95);
    struct spt_film_curves film;
    double nu;
    cr_assert_not(spt_film_curves(&oil, 20, 110, &film));
    cr_expect_eq(film.temperature_c[0], 20);
    cr_expect_eq(film.temperature_c[SPT_FILM_POINTS - 1], 110);
    for (int i = 0; i < SPT_FILM_POINTS; i++) {
        cr_assert_not(spt_viscosity_at(&oil.line, film.temperature_c[i], &nu));
        cr_expect_eq(film.curves[2].viscosity_mm2_s[i], nu);
        for (int k = 1; k < film.curve_count; k++)
            cr_expect_gt(film.curves[k].viscosity_mm2_s[i], film.curves[k - 1].viscosity_mm2_s[i],
                         "thicker oils lie higher");
    }
    /* at 40 degC each curve has the viscosity of its grade */
    cr_assert_not(spt_film_curves(&oil, 40, 100, &film));
    for (int k = 0; k < film.curve_count; k++)
        cr_expect(near(film.curves[k].viscosity_mm2_s[0], film.curves[k].nu40_mm2_s, 1e-9, 0));
    /* and at 100 degC what its index says */
    for (int k = 0; k < film.curve_count; k++) {
        cr_assert_not(spt_viscosity_100_from_index(film.curves[k].nu40_mm2_s, 95, &nu));
        cr_expect(near(film.curves[k].viscosity_mm2_s[SPT_FILM_POINTS - 1], nu, 1e-9, 0));
    }
}

/* From 20 K below the coolest phase to 30 K above the hottest, in whole tens. */
Test(chart_data, the_temperatures_reach_past_those_of_the_phases)
{
    static const struct {
        double cool, hot, low, high;
    } rows[] = {{40.1, 70.1, 20, 110}, {39.9, 69.9, 10, 100}, {-265, 35, -270, 70}};
    struct example_case made;
    struct spt_phase_result phases[EXAMPLE_PHASES];
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_bearing_result bearing = {.bearing_case = &made.question.bearings[0],
                                             .phases = phases,
                                             .phase_count = EXAMPLE_PHASES,
                                             .worst_phase = 1};
        struct spt_film_curves film;
        for (int k = 0; k < EXAMPLE_PHASES; k++)
            phases[k] = (struct spt_phase_result){.phase = &made.phases[0][k],
                                                  .temperature_c = k ? rows[i].cool : rows[i].hot};
        cr_assert_not(spt_film_curves_of(&made.question, &bearing, &film));
        cr_expect_eq(film.temperature_c[0], rows[i].low, "row %zu: %g", i, film.temperature_c[0]);
        cr_expect_eq(film.temperature_c[SPT_FILM_POINTS - 1], rows[i].high, "row %zu: %g", i,
                     film.temperature_c[SPT_FILM_POINTS - 1]);
    }
}

Test(chart_data, what_has_no_curve_is_refused_or_left_out)
{
    struct spt_lubricant oil = make_oil(150, 95), thin = make_oil(8, 95);
    struct spt_film_curves film;
    cr_expect_eq(spt_film_curves(&oil, 100, 20, &film), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_film_curves(&oil, -274, 100, &film), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_film_curves(&oil, 20, 1000.5, &film), SPT_BAD_ARGUMENT);
    cr_expect_eq(film.curve_count, 0);
    cr_expect_eq(spt_film_curves(&oil, -273, 1000, &film), SPT_OK);
    cr_assert_not(spt_film_curves(&thin, 20, 60, &film));
    cr_expect_lt(film.curve_count, SPT_FILM_CURVES_MAX, "VG 5 has no oil of this index");
    cr_expect_eq(film.curves[film.curve_count - 1].grade, 15);
}

Test(chart_data, contours_are_where_the_life_factor_has_their_value)
{
    static const enum spt_bearing_type types[] = {SPT_DEEP_GROOVE_BALL, SPT_TAPERED_ROLLER};
    static const double round[SPT_CONTOUR_COUNT] = {0.2, 0.5, 1, 2, 5, 10, 20, 30, 50};
    for (int t = 0; t < 2; t++) {
        struct spt_contours map;
        int solved = 0;
        spt_contours(types[t], &map);
        cr_expect_eq(map.viscosity_ratio[0], 0.1);
        cr_expect_eq(map.viscosity_ratio[SPT_CONTOUR_POINTS - 1], 4);
        for (int k = 0; k < SPT_CONTOUR_COUNT; k++) {
            cr_expect_eq(map.contours[k].a_iso, round[k]);
            for (int i = 1; i < SPT_CONTOUR_POINTS; i++) {
                double kappa = map.viscosity_ratio[i], x = map.contours[k].x[i];
                double a = spt_life_factor_value(t == 0, kappa, x);
                if (isnan(x))
                    continue;
                solved++;
                cr_assert(near(a, map.contours[k].a_iso, 1e-9, 0), "kappa %g x %g: %.12g", kappa, x,
                          a);
                cr_assert(!(x > map.contours[k].x[i - 1]), "a thicker film needs less of x");
                cr_assert(!k || x > map.contours[k - 1].x[i], "more life needs more of x");
            }
        }
        cr_expect_gt(solved, 150);
    }
}

Test(chart_data, a_value_that_is_never_reached_has_no_contour)
{
    struct spt_contours map;
    spt_contours(SPT_CYLINDRICAL_ROLLER, &map);
    /* rollers at kappa 0.1 keep a_ISO 0.1 whatever x is */
    for (int k = 0; k < SPT_CONTOUR_COUNT; k++)
        cr_expect(isnan(map.contours[k].x[0]));
}
