/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The text of `compare` on lives that are put together by hand. */
#include "answer/compare/compare.h"

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
static const struct spt_case question = {.target_life_h = (double)NAN};
static struct spt_phase phase = {.name = "only phase"};

static void set_case(int i, const char *name, double life_h)
{
    struct spt_assessment *assessment = &cases[i].assessment;
    memset(&cases[i], 0, sizeof cases[i]);
    cases[i].name = name;
    assessment->question = &question;
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

/* The text answer on some cases; from malloc. */
static char *write_text_of(const struct spt_compared *of, int count)
{
    static char *said; /* static, for the compiler takes the stream for its owner */
    static size_t length;
    const struct spt_text text = {open_memstream(&said, &length), false, 0};
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_compare_page(page, of, count, false);
    spt_page_text(page, &text, false);
    spt_arena_free(&arena);
    fclose(text.out);
    return said;
}

static char *write_text(int count)
{
    return write_text_of(cases, count);
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
    cr_expect(strstr(said, "alone                                23 900    1.00 "), "%s", said);
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
    cr_expect(strstr(said, "resting                            no limit       - "), "%s", said);
    cr_expect(strstr(said, "dry                                    none       - "), "%s", said);
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
    double kappa = atof(line + 1 + 33 + 10 + 8);
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

/* Two phases; the case's own costliest is `worst`. kappa is 1.5 in the first, 0.5 in the second. */
static struct spt_phase road = {.name = "road"}, field = {.name = "field"};
static struct spt_phase_result two_phases[CASES_MAX][2];

static void set_two_phases(int i, int worst)
{
    struct spt_bearing_result *bearing = &cases[i].assessment.bearings[0];
    memset(two_phases[i], 0, sizeof two_phases[i]);
    two_phases[i][0].phase = &road;
    two_phases[i][1].phase = &field;
    two_phases[i][0].effective_viscosity_ratio = 1.5 + i;
    two_phases[i][1].effective_viscosity_ratio = 0.5 + i;
    bearing->phases = two_phases[i];
    bearing->phase_count = 2;
    bearing->worst_phase = worst;
}

static double kappa_of(const char *said, const char *name)
{
    const char *line = strstr(said, name);
    cr_assert(line, "%s in %s", name, said);
    return atof(line + 33 + 10 + 8);
}

Test(compare, every_case_is_shown_in_the_costliest_phase_of_the_first)
{
    set_case(0, "base", 2000);
    set_case(1, "other", 1000);
    set_case(2, "elsewhere", 1000); /* has only a phase of another name */
    results[2][0].effective_viscosity_ratio = 3.25;
    set_two_phases(0, 1);
    set_two_phases(1, 0);
    char *said = write_text(3);
    cr_expect_eq(kappa_of(said, "base "), 0.5);
    cr_expect_eq(kappa_of(said, "other "), 1.5, "the second phase of the second case");
    cr_expect_eq(kappa_of(said, "elsewhere "), 3.25);
    cr_expect(strstr(said, "those of \"field\", the phase that costs the"), "%s", said);
    cr_expect(strstr(said, "a case without"), "%s", said);
    free(said);
    said = write_text(2);
    cr_expect(!strstr(said, "a case without"), "%s", said);
    free(said);
}

static int count_of(const char *said, const char *words)
{
    int count = 0;
    for (const char *at = strstr(said, words); at; at = strstr(at + 1, words))
        count++;
    return count;
}

Test(compare, flags_shared_by_all_stand_once_and_reservations_mark_the_life)
{
    set_case(0, "base", 2000);
    set_case(1, "dirty", 1000);
    set_case(2, "dirtier", 300);
    for (int i = 0; i < 3; i++)
        spt_notes_add(&cases[i].notes, SPT_FLAG_LIFE_FACTOR_CAPPED, 50, none);
    spt_notes_add(&cases[1].notes, SPT_FLAG_HEAVY_CONTAMINATION, 0.0625, 0.1);
    spt_notes_add(&cases[2].notes, SPT_FLAG_HEAVY_CONTAMINATION, 0.03125, 0.1);
    char *said = write_text(3);
    cr_expect_eq(count_of(said, "stands at its upper limit"), 1, "%s", said);
    cr_expect(strstr(said, "- every case: The life factor"), "%s", said);
    cr_expect(strstr(said, "- dirty: The contamination factor is 0.0625"), "%s", said);
    cr_expect(strstr(said, "- dirtier: The contamination factor is 0.0312"), "%s", said);
    cr_expect(strstr(said, "     2 000    1.00"), "%s", said);
    cr_expect(strstr(said, "     1 000!   0.50"), "%s", said);
    cr_expect(strstr(said, "       300!   0.15"), "%s", said);
    free(said);
}

Test(compare, cases_that_share_a_flag_are_named_together)
{
    set_case(0, "base", 2000);
    set_case(1, "wet", 1000);
    set_case(2, "wet and dirty", 300);
    for (int i = 1; i < 3; i++)
        spt_notes_add(&cases[i].notes, SPT_FLAG_WATER_EXTRAPOLATED, 600, 400);
    char *said = write_text(3);
    cr_expect(strstr(said, "- wet; wet and dirty: 600 ppm of water"), "%s", said);
    cr_expect(!strstr(said, "!:"), "an extrapolation is no reservation: %s", said);
    free(said);
    set_case(0, "alone", 2000);
    spt_notes_add(&cases[0].notes, SPT_FLAG_WATER_EXTRAPOLATED, 600, 400);
    said = write_text(1);
    cr_expect(strstr(said, "- alone: 600 ppm"), "%s", said);
    free(said);
}

Test(compare, names_of_many_cases_are_cut_to_a_number)
{
    static struct spt_compared many[12];
    static char name[200];
    memset(name, 'n', sizeof name - 1);
    set_case(0, name, 2000);
    for (int i = 0; i < 12; i++) {
        many[i] = cases[0];
        if (i)
            spt_notes_add(&many[i].notes, SPT_FLAG_NO_LOAD, none, none);
    }
    char *said = write_text_of(many, 12);
    cr_expect(strstr(said, " and 9 more: No load"), "%s", said);
    free(said);
}

Test(compare, only_causes_that_apply_are_explained)
{
    set_case(0, "base", 2000);
    char *said = write_text(1);
    cr_expect(!strstr(said, "WHAT PUT RIGHT MEANS"));
    free(said);
    cases[0].assessment.bearings[0].loss.causes[SPT_CAUSE_WATER] =
        (struct spt_cause_share){true, -0.5, 3000};
    said = write_text(1);
    cr_expect(strstr(said, "WHAT PUT RIGHT MEANS\n- water: "), "%s", said);
    cr_expect(!strstr(said, "- setting: ") && !strstr(said, "- debris: "), "%s", said);
    free(said);
}
