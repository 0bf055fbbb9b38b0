/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "answer/life/explain.h"
#include "spalltime/bearing.h"
#include "support/near.h"
#include "support/plain.h"

struct found {
    char symbols[64];
    char formula[300], numbers[300]; /* of C */
    double value;
};

static void no_place(void *context, const char *bearing, const char *phase)
{
    (void)context;
    (void)bearing;
    (void)phase;
}

static void keep_step(void *context, const struct spt_step *step)
{
    struct found *found = context;
    strcat(found->symbols, step->symbol);
    strcat(found->symbols, " ");
    cr_expect(strpbrk(step->numbers, "0123456789"), "%s has no numbers: %s", step->symbol,
              step->numbers);
    if (strcmp(step->symbol, "C") != 0)
        return;
    snprintf(found->formula, sizeof found->formula, "%s", step->formula);
    snprintf(found->numbers, sizeof found->numbers, "%s", step->numbers);
    found->value = step->value;
}

static struct found explain(enum spt_bearing_type type, const struct spt_geometry *geometry)
{
    struct found found = {0};
    struct spt_rating rating;
    struct spt_bearing bearing = plain_bearing(type);
    const struct spt_step_sink sink = {no_place, keep_step, &found};
    bearing.geometry = *geometry;
    bearing.geometry.rows = spt_bearing_rows(type, geometry->rows);
    bearing.has_geometry = bearing.ratings_from_geometry = true;
    bearing.pitch_diameter_mm = geometry->pitch_diameter_mm;
    cr_assert_eq(spt_rating_from_geometry(type, geometry, &rating), SPT_OK);
    bearing.dynamic_load_rating_n = rating.dynamic_load_rating_n;
    bearing.static_load_rating_n = rating.static_load_rating_n;
    bearing.fatigue_load_limit_n = rating.fatigue_load_limit_n;
    spt_explain_ratings(&bearing, &sink);
    return found;
}

Test(explain_rating, every_rating_has_its_formula_and_its_numbers)
{
    static const struct {
        enum spt_bearing_type type;
        double gamma, angle_deg;
        const char *symbols, *formula;
    } rows[] = {
        {SPT_DEEP_GROOVE_BALL, 0.2, 0, "gamma f_c C f_0 C_0 C_u ",
         "b_m f_c (i cos alpha)^0.7 Z^(2/3) D^1.8"},
        {SPT_DEEP_GROOVE_BALL, 0.26, 0, "gamma f_c C f_0 C_0 C_u ",
         "3.647 b_m f_c (i cos alpha)^0.7 Z^(2/3) D^1.4"},
        {SPT_TAPERED_ROLLER, 0.15, 15, "gamma f_c C C_0 C_u ",
         "b_m f_c (L i cos alpha)^(7/9) Z^(3/4) D^(29/27)"},
        {SPT_THRUST_BALL, 0.1, 60, "gamma f_c C f_0 C_0 C_u ",
         "b_m f_c (i cos alpha)^0.7 tan alpha Z^(2/3) D^1.8"},
        {SPT_THRUST_ROLLER, 0.1, 90, "gamma f_c C C_0 C_u ",
         "b_m f_c (L i)^(7/9) Z^(3/4) D^(29/27)"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_geometry geometry = plain_geometry(rows[i].gamma, rows[i].angle_deg);
        struct found found = explain(rows[i].type, &geometry);
        cr_expect_str_eq(found.symbols, rows[i].symbols, "row %zu: %s", i, found.symbols);
        cr_expect_str_eq(found.formula, rows[i].formula, "row %zu: %s", i, found.formula);
    }
}

/* the numbers that are printed, put into the formula that is printed */
Test(explain_rating, the_numbers_of_a_ball_rating_give_it)
{
    struct spt_geometry geometry = plain_geometry(0.2, 0);
    double b_m, f_c, d;
    int rows, balls;
    geometry.rows = 2;
    struct found found = explain(SPT_DEEP_GROOVE_BALL, &geometry);
    cr_assert_eq(
        sscanf(found.numbers, "b_m %lf, f_c %lf, i %d, Z %d, D %lf", &b_m, &f_c, &rows, &balls, &d),
        5, "%s", found.numbers);
    double c_n = b_m * f_c * pow(rows, 0.7) * pow(balls, 2.0 / 3) * pow(d, 1.8);
    cr_expect(near(c_n, found.value, 2e-5, 0), "%g for %g", c_n, found.value);
}
