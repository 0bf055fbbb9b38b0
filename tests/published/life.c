/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/life.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/published.h"

#define COUNT(rows) (sizeof(rows) / sizeof(rows)[0])
#define BALL SPT_DEEP_GROOVE_BALL
#define ROLLER SPT_TAPERED_ROLLER

static double basic(enum spt_bearing_type type, double c, double p)
{
    double l10;
    cr_assert_eq(spt_life_basic(type, c, p, &l10), SPT_OK);
    return l10;
}

static double hours(double mrev, double rpm)
{
    double h;
    cr_assert_eq(spt_life_hours(mrev, rpm, &h), SPT_OK);
    return h;
}

Test(life, a1_meets_every_entry_of_iso_281_table_12)
{
    static const char source[] =
        "ISO 281:2007 table 12, from memory; 0.64 at 95 % also as quoted in a university tutorial.";
    static const struct {
        double percent, a1, tolerance;
    } rows[] = {
        {90, 1, 0},
        {95, 0.64, 0.005},
        {96, 0.55, 0.005},
        {97, 0.47, 0.005},
        {98, 0.37, 0.005},
        {99, 0.25, 0.005},
        {99.2, 0.22, 0.005},
        {99.4, 0.19, 0.005},
        {99.6, 0.16, 0.005},
        {99.8, 0.12, 0.005},
        {99.9, 0.093, 0.0005},
        {99.92, 0.087, 0.0005},
        {99.94, 0.08, 0.0005},
        {99.95, 0.077, 0.0005},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        double a1;
        cr_assert_eq(spt_life_reliability_factor(rows[i].percent, &a1), SPT_OK);
        cr_expect(
            agrees(source, named("a1, %g %%", rows[i].percent), rows[i].a1, a1, rows[i].tolerance));
    }
}

Test(life, basic_life_in_hours_meets_textbooks)
{
    static const struct {
        const char *source;
        enum spt_bearing_type type;
        double c, p, rpm, hours, tolerance;
    } rows[] = {
        {"Jindal, Machine Design, ex. 18-4", BALL, 41000, 20000, 720, 199.424, 0.0005},
        {"Wentzell, Machine Design, ex. 20.1", BALL, 5050, 2400, 1750, 88.73, 0.005},
        {"Wentzell, ex. 20.2 (21 Mrev)", BALL, 6621.42, 2400, 1750, 200.0, 0.0015},
        {"Faires, prob. 601", BALL, 29900, 2770, 1500, 14000, 30},
        {"Faires, prob. 601, the other way round", BALL, 30614, 2770, 1500, 15000, 1.5},
        {"Shigley ex. 11-4 (from memory)", BALL, 7900, 890.8, 720, 16150, 50},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        double got = hours(basic(rows[i].type, rows[i].c, rows[i].p), rows[i].rpm);
        cr_expect(agrees(rows[i].source, "L10 in h", rows[i].hours, got, rows[i].tolerance));
    }
}

Test(life, basic_life_in_million_revolutions_meets_textbooks)
{
    static const struct {
        const char *source;
        enum spt_bearing_type type;
        double c, p, mrev, tolerance;
    } rows[] = {
        {"tutorial TS5-3: 2.0 kN at 90 Mrev", BALL, 8.962809493, 2.0, 90, 1e-7},
        {"Jindal 18-2, V = 1", BALL, 5590, 1450, 57.3, 0.05},
        {"Jindal 18-2, V = 1.2", BALL, 5590, 1590, 43.46, 0.005},
        {"Wentzell 20.4", BALL, 3350, 1095, 28.634662, 1e-6},
        {"Faires, prob. 601", BALL, 29900, 2770, 1258, 0.6},
        {"Norton, combined load (from memory)", BALL, 21200, 2675, 500, 5},
        {"Shigley prob. 11-43, lower row: inputs read, answer from memory", ROLLER, 35.4, 30,
         1.7333, 0.01},
        {"Shigley prob. 11-43, upper row: inputs read, answer from memory", ROLLER, 17.0, 14.4,
         1.7333, 0.02},
        {"tutorial TS5-8, 20 to 30 kN as 25.07358 kN", ROLLER, 28.6, 25.07358, 1.55059703, 3e-6},
        {"tutorial TS5-8", ROLLER, 36.9, 25.07358, 3.62549012, 6e-6},
        {"tutorial TS5-8", ROLLER, 44.6, 25.07358, 6.81912054, 1e-5},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        double got = basic(rows[i].type, rows[i].c, rows[i].p);
        cr_expect(agrees(rows[i].source, "L10 in million revolutions", rows[i].mrev, got,
                         rows[i].tolerance));
    }
}

/* The textbooks' reliability: x_B = x0 + (theta - x0) y^(1/b), y = ln(1/R) or 1 - R. It is not the
 * a1 of ISO 281, and no part of the library; the rating C that the book prints for the life x_D is
 * checked through the library's load-life law. */
struct weibull {
    double x0, theta, b;
    bool one_minus_r; /* the book puts 1 - R for ln(1/R) */
};
static const struct weibull usual = {0.02, 4.459, 1.483, false};

static double find_life_share(const struct weibull *w, double r)
{
    double y = w->one_minus_r ? 1.0 - r : log(1.0 / r);
    return w->x0 + (w->theta - w->x0) * pow(y, 1.0 / w->b);
}

Test(life, rating_needed_at_a_reliability_meets_textbooks)
{
    static const struct weibull ninety = {1.0, 1.0, 1.0, false}; /* x_B = 1 as the book has it */
    static const struct weibull two = {0.0, 4.48, 1.5, false};
    static const struct weibull two_short = {0.0, 4.48, 1.5, true};
    static const struct weibull usual_short = {0.02, 4.459, 1.483, true};
    static const struct weibull a1_95 = {0.64, 0.64, 1.0, false};
    static const struct {
        const char *source;
        enum spt_bearing_type type;
        const struct weibull *weibull;
        double f, x_d, r, c, tolerance;
    } rows[] = {
        {"Shigley 10e 11-1", BALL, &usual, 3.0, 525, 0.90, 24.3, 0.05},
        {"Shigley 10e 11-2, printed with x_B = 1", BALL, &ninety, 1015, 1248, 0.90, 10930, 10},
        {"Shigley 10e 11-3", ROLLER, &usual, 13.92, 1248, 0.90, 118, 0.5},
        {"Shigley 10e 11-5, ball", BALL, &usual, 1015, 1248, 0.95, 12822, 3},
        {"Shigley 10e 11-5, roller", ROLLER, &usual, 13.92, 1248, 0.95, 136.5, 0.06},
        {"Shigley 10e 11-6", ROLLER, &usual, 20, 456, 0.95, 145, 0.5},
        {"Shigley 8e 11-1", BALL, &usual, 2.278, 540, 0.90, 18.59, 0.02},
        {"Shigley 8e 11-2", BALL, &usual, 854, 1440, 0.90, 9665, 1},
        {"Shigley 8e 11-3, printed with x_B = 1", ROLLER, &ninety, 10.279, 1440, 0.90, 91.1, 0.06},
        {"tutorial TS5-2", BALL, &two, 3.3, 12, 0.96, 9.329073697, 1e-8},
        {"tutorial TS5-2, 1 - R", BALL, &two_short, 3.3, 12, 0.96, 9.371339808, 1e-8},
        {"Shigley ex. 11-3: inputs read, answer from memory, 1 - R", BALL, &usual_short, 495.6, 540,
         0.99, 6696, 1},
        {"tutorial TS5-5", BALL, &usual, 9.294, 300, 0.95, 73.00171, 1e-5},
        {"tutorial TS5-4, ball", BALL, &a1_95, 1.4 * 725 * 4.448, 1248, 0.95, 56403.886, 1e-3},
        {"tutorial TS5-4, roller", ROLLER, &a1_95, 1.4 * 2235 * 4.448, 1248, 0.95, 135076.788,
         1e-2},
        {"Shigley ex. 11-8 (from memory), 1 - R", ROLLER, &two_short, 4651, 8.0 / 3.0,
         0.99498743710662, 11486, 8},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        double wanted = rows[i].x_d / find_life_share(rows[i].weibull, rows[i].r);
        double least = basic(rows[i].type, rows[i].c - rows[i].tolerance, rows[i].f);
        double most = basic(rows[i].type, rows[i].c + rows[i].tolerance, rows[i].f);
        cr_expect(lies_within(rows[i].source, named("L10 in Mrev with C %g as printed", rows[i].c),
                              least, most, wanted));
    }
}

Test(life, reliability_reached_with_a_rating_meets_textbooks)
{
    static const struct {
        const char *source;
        enum spt_bearing_type type;
        double f, x_d, c, r, misprint;
    } rows[] = {
        {"Shigley 10e 11-1", BALL, 3.0, 525, 25.5, 0.920, 0},
        {"Shigley 10e 11-2", BALL, 4.52, 1248, 55.9, 0.945, 0},
        {"Shigley 10e 11-3", ROLLER, 13.92, 1248, 123, 0.917, 0},
        {"Shigley 10e 11-5, roller", ROLLER, 13.92, 1248, 138, 0.953, 0},
        /* printed 0.962: a misprint, the formula of the same solution gives 0.9695 */
        {"Shigley 10e 11-5, ball, misprint corrected", BALL, 4.52, 1248, 63.7, 0.9695, 0.962},
        {"Shigley 8e 11-1", BALL, 2.278, 540, 19.5, 0.919, 0},
        {"Shigley 8e 11-2", BALL, 3.80, 1440, 46.2, 0.927, 0},
        {"Shigley 8e 11-3", ROLLER, 10.279, 1440, 102, 0.942, 0},
    };
    for (size_t i = 0; i < COUNT(rows); i++) {
        double x = rows[i].x_d / basic(rows[i].type, rows[i].c, rows[i].f);
        double r = exp(-pow((x - usual.x0) / (usual.theta - usual.x0), usual.b));
        cr_expect(agrees(rows[i].source, "reliability", rows[i].r, r, 0.0006));
        if (rows[i].misprint > 0)
            cr_expect(is_misprinted(rows[i].source, "reliability as printed", rows[i].misprint, r,
                                    0.0006));
    }
}

Test(life, three_equal_bearings_in_series_meet_jindal)
{
    static const char source[] =
        "Jindal 18-8 p. 512: three equal bearings, the set survives 6 Mrev at 83 %, P 3 kN, "
        "Weibull slope 1.17; each survives at 0.93978 and needs C 6.337 kN.";
    double system_l10 = 6.0 * pow(log(1 / 0.9) / log(1 / 0.83), 1 / 1.17);
    const double low[] = {basic(BALL, 6.3364, 3), basic(BALL, 6.3364, 3), basic(BALL, 6.3364, 3)};
    const double high[] = {basic(BALL, 6.3376, 3), basic(BALL, 6.3376, 3), basic(BALL, 6.3376, 3)};
    double least = spt_life_system(low, 3, 1.17), most = spt_life_system(high, 3, 1.17);
    cr_expect(lies_within(source, "system L10 in Mrev with C 6.337 kN", least, most, system_l10));
    cr_expect(agrees(source, "survival of each", 0.93978, pow(0.83, 1.0 / 3.0), 5e-6));
}

Test(life, a_iso_meets_the_equations_of_iso_281)
{
    static const char source[] =
        "ISO 281:2007 equations (31) to (36) and their constants, from memory, written out "
        "once more in another form. The constants of the two lower ranges are confirmed by "
        "their continuity, see tests/property/life.c.";
    static const struct {
        double kappa, a, b;
    } rows[] = {
        {0.15, 2.2649 / 0.901976077, 1.3993 / 0.901976077},
        {0.2, 2.2649 / 0.916197943, 1.3993 / 0.916197943},
        {0.39, 2.2649 / 0.950083300, 1.3993 / 0.950083300},
        {0.5, 1.9987 / 0.876077254, 1.2348 / 0.876077254},
        {0.8, 1.9987 / 0.958302863, 1.2348 / 0.958302863},
        {2.0, 1.9987 / 1.050982757, 1.2348 / 1.050982757},
        {4.0, 1.9987 / 1.104564756, 1.2348 / 1.104564756},
    };
    for (size_t i = 0; i < COUNT(rows); i++)
        for (double x = 0.013; x < 0.1; x *= 2.1) {
            double ball = 0.1 / pow(1 - pow(2.5671 - rows[i].a, 0.83) * cbrt(x), 9.3);
            double roller = 0.1 / pow(1 - (1.5859 - rows[i].b) * pow(x, 0.4), 9.185);
            double got = spt_life_factor_value(true, rows[i].kappa, x);
            cr_expect(agrees_within(source, named("a_ISO, ball kappa %g x %g", rows[i].kappa, x),
                                    ball, got, 2e-4));
            got = spt_life_factor_value(false, rows[i].kappa, x);
            cr_expect(agrees_within(source, named("a_ISO, roller kappa %g x %g", rows[i].kappa, x),
                                    roller, got, 2e-4));
        }
}
