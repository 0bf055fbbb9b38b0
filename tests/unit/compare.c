/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of `compare` on lives that are put together by hand. */
#include "report/compare.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#define CASES_MAX 4
#define BAR_WIDTH 46

static const double none = (double)NAN;
static struct spt_compared cases[CASES_MAX];
static struct spt_bearing_case parts[CASES_MAX][2];
static struct spt_phase_result results[CASES_MAX][2];
static struct spt_phase phase = {.name = "only phase"};

static void set_case(int i, const char *name, double life_h)
{
    struct spt_assessment *assessment = &cases[i].assessment;
    memset(&cases[i], 0, sizeof cases[i]);
    cases[i].name = name;
    assessment->bearing_count = 1;
    assessment->modified_rating_life_h = life_h;
    for (int b = 0; b < 2; b++) {
        struct spt_bearing_result *bearing = &assessment->bearings[b];
        parts[i][b].bearing.name = b ? "outboard" : "inboard";
        results[i][b].phase = &phase;
        bearing->bearing_case = &parts[i][b];
        bearing->phases = &results[i][b];
        bearing->phase_count = 1;
        bearing->worst_phase = isfinite(life_h) ? 0 : -1;
        bearing->modified_rating_life_h = life_h;
    }
}

/* The text answer; from malloc. */
static char *write_text(int count)
{
    static char *said; /* static, for the compiler takes the stream for its owner */
    static size_t length;
    const struct spt_text text = {open_memstream(&said, &length), false};
    spt_compare_text(&text, cases, count);
    fclose(text.out);
    return said;
}

/* Marks of the bar of a case: its second line that starts with the name. -1 where there is none. */
static int bar_of(const char *said, const char *name)
{
    const char *scale = strstr(said, "LOG SCALE");
    const char *line = scale ? strstr(scale, name) : NULL;
    return line ? (int)strspn(line + 34, "#") : -1;
}

static void expect_scale(const char *said, const char *left, const char *right)
{
    char line[120];
    snprintf(line, sizeof line, "%33s %-23s%23s\n", "", left, right);
    cr_expect(strstr(said, line), "no scale from %s to %s in\n%s", left, right, said);
}

Test(compare, bars_span_the_decades_around_the_lives)
{
    static const struct {
        double lives_h[3];
        const char *left, *right;
        int bars[3];
    } rows[] = {
        {{2000, 2e4, 2e5}, "1 000", "1 000 000", {5, 20, 35}},
        {{1000, 1000, 1000}, "1 000", "10 000", {1, 1, 1}}, /* the very edge of a decade */
        {{1000, 10000, 3162.2776601683795}, "1 000", "10 000", {1, BAR_WIDTH, BAR_WIDTH / 2}},
        {{0.5, 5, 50}, "0.1", "100", {11, 26, 41}},
        {{700, 700, 7000}, "100", "10 000", {19, 19, 42}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        static const char *const names[] = {"first", "second", "third"};
        for (int j = 0; j < 3; j++)
            set_case(j, names[j], rows[i].lives_h[j]);
        char *said = write_text(3);
        expect_scale(said, rows[i].left, rows[i].right);
        for (int j = 0; j < 3; j++)
            cr_expect_eq(bar_of(said, names[j]), rows[i].bars[j], "row %zu, %s: %d", i, names[j],
                         bar_of(said, names[j]));
        free(said);
    }
}

Test(compare, one_case_has_a_ratio_of_1_and_a_bar)
{
    set_case(0, "alone", 23850);
    char *said = write_text(1);
    cr_expect(strstr(said, "alone                                23 900   1.00 "), "%s", said);
    expect_scale(said, "10 000", "100 000");
    cr_expect_eq(bar_of(said, "alone"), (int)round(log10(2.385) * BAR_WIDTH));
    free(said);
}

Test(compare, lives_without_end_or_value_are_said_in_words)
{
    set_case(0, "base", 500);
    set_case(1, "resting", (double)INFINITY);
    set_case(2, "dry", none);
    char *said = write_text(3);
    cr_expect(strstr(said, "resting                            no limit    inf "), "%s", said);
    cr_expect(strstr(said, "dry                                    none      - "), "%s", said);
    cr_expect_eq(bar_of(said, "resting"), BAR_WIDTH);
    cr_expect_eq(bar_of(said, "dry"), 0);
    cr_expect(strstr(said, "dry                               no life can be stated"), "%s", said);
    free(said);
}

Test(compare, without_any_finite_life_there_is_no_scale)
{
    set_case(0, "dry", none);
    set_case(1, "resting", (double)INFINITY);
    char *said = write_text(2);
    cr_expect(!strstr(said, "LOG SCALE"));
    free(said);
}

/* kappa tells which bearing's phase is shown. */
static double shown_kappa(double first_h, double second_h)
{
    set_case(0, "hub", none);
    cases[0].assessment.bearing_count = 2;
    cases[0].assessment.bearings[0].modified_rating_life_h = first_h;
    cases[0].assessment.bearings[1].modified_rating_life_h = second_h;
    results[0][0].effective_viscosity_ratio = 0.25;
    results[0][1].effective_viscosity_ratio = 0.75;
    char *said = write_text(1);
    const char *line = strstr(said, "\nhub ");
    cr_assert(line);
    double kappa = atof(line + 1 + 33 + 10 + 7);
    free(said);
    return kappa;
}

Test(compare, film_is_that_of_the_weaker_bearing)
{
    cr_expect_eq(shown_kappa(2000, 3000), 0.25);
    cr_expect_eq(shown_kappa(3000, 2000), 0.75);
    cr_expect_eq(shown_kappa(none, 2000), 0.25); /* one without a life is the weaker */
    cr_expect_eq(shown_kappa(2000, none), 0.75);
    cr_expect_eq(shown_kappa((double)INFINITY, 2000), 0.75);
}
