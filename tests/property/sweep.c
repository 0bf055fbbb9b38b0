/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The engine of `sweep` against spt_assess on the same case, row by row: 1e-12 of the value. The
 * cases are laid over the scenario here once more, by hand. All numbers are ours. */
#include "spalltime/sweep.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "spalltime/history.h"
#include "support/beet.h"
#include "support/near.h"

#define ROWS 300
#define BEARING_FIELDS SPT_SWEEP_SETTING /* the first of a hub */
#define NEAR 1e-12

static struct spt_sweep_block block;
static double inputs[SPT_SWEEP_FIELD_COUNT][SPT_SWEEP_BLOCK];

/* The same numbers on every machine. */
static double draw(double low, double high)
{
    static unsigned long long state = 88172645463325252ULL;
    return random_between(&state, low, high);
}

static double draw_field(enum spt_sweep_field field, const struct spt_case *question)
{
    static const int grades[] = {32, 68, 150, 460};
    int classes = spt_cleanliness_count(question->lubricant.kind);
    switch (field) {
    case SPT_SWEEP_SPEED:
        return draw(0, 1) < 0.05 ? 0 : exp(draw(log(2.0), log(20000.0)));
    case SPT_SWEEP_RADIAL_LOAD:
    case SPT_SWEEP_EQUIVALENT_LOAD:
        return draw(0, 1) < 0.05 ? 0 : draw(500, 90000);
    case SPT_SWEEP_AXIAL_LOAD:
        return draw(0, 9000);
    case SPT_SWEEP_LOAD_FACTOR:
        return draw(0.2, 2);
    case SPT_SWEEP_TEMPERATURE:
        return draw(-60, 300);
    case SPT_SWEEP_WATER:
        return draw(0, 2000);
    case SPT_SWEEP_GREASE_AGE:
        return draw(0, 1) < 0.2 ? 0 : draw(0, 20000);
    case SPT_SWEEP_VISCOSITY_40:
        return draw(3, 900);
    case SPT_SWEEP_GRADE:
        return grades[(int)draw(0, 3.999)];
    case SPT_SWEEP_CLEANLINESS:
        return (int)spt_cleanliness_first(question->lubricant.kind) + (int)draw(0, classes - 0.001);
    case SPT_SWEEP_CONTAMINATION:
        return draw(0, 1);
    case SPT_SWEEP_RATING_FACTOR:
        return draw(0.5, 2);
    case SPT_SWEEP_RELIABILITY:
        return draw(90, 99.9);
    case SPT_SWEEP_SETTING: /* of a hub: sweep_hub.c */
    case SPT_SWEEP_WHEEL_LOAD:
    case SPT_SWEEP_SIDE_FORCE:
    case SPT_SWEEP_SIDE_SHARE:
    case SPT_SWEEP_ROAD_SPEED:
    case SPT_SWEEP_POWER: /* of a machine: sweep_machine.c */
    case SPT_SWEEP_TORQUE:
    case SPT_SWEEP_PAYLOAD: /* of a vehicle: vehicle.c */
    case SPT_SWEEP_FIELD_COUNT:
        break;
    }
    return (double)NAN;
}

static void set_phase(struct spt_phase *phase, enum spt_sweep_field field, double value)
{
    if (field == SPT_SWEEP_SPEED)
        phase->speed_rpm = value;
    if (field == SPT_SWEEP_RADIAL_LOAD)
        phase->radial_load_n = value;
    if (field == SPT_SWEEP_AXIAL_LOAD)
        phase->axial_load_n = value;
    if (field == SPT_SWEEP_EQUIVALENT_LOAD)
        phase->equivalent_load_n = value;
    if (field == SPT_SWEEP_TEMPERATURE)
        phase->temperature_c = value;
    if (field == SPT_SWEEP_WATER)
        phase->condition.water_ppm = value;
    if (field == SPT_SWEEP_GREASE_AGE)
        phase->condition.grease_age_h = value;
    if (field == SPT_SWEEP_CONTAMINATION || field == SPT_SWEEP_CLEANLINESS)
        phase->condition.contamination_factor =
            field == SPT_SWEEP_CONTAMINATION ? value : (double)NAN;
    if (field == SPT_SWEEP_CLEANLINESS)
        phase->condition.cleanliness = (enum spt_cleanliness)value;
}

/* False where no oil has this viscosity and index: a row that must be refused. */
static bool set_oil(struct spt_lubricant *oil, double nu40)
{
    return !spt_viscosity_100_from_index(nu40, oil->viscosity_index, &oil->viscosity_100_mm2_s) &&
           !spt_viscosity_line(40, nu40, 100, oil->viscosity_100_mm2_s, &oil->line);
}

static bool lay_over(struct beet *beet, const bool *swept, int row)
{
    bool made = true;
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++) {
        double value = inputs[f][row];
        for (int j = 0; swept[f] && j < BEET_PHASES; j++)
            set_phase(&beet->phases[j], (enum spt_sweep_field)f, value);
        if (swept[f] && f == SPT_SWEEP_RATING_FACTOR)
            beet->question.bearings[0].bearing.dynamic_load_rating_n *= value;
        if (swept[f] && f == SPT_SWEEP_RELIABILITY)
            beet->question.reliability_percent = value;
        if (swept[f] && f == SPT_SWEEP_VISCOSITY_40)
            made = set_oil(&beet->question.lubricant, value);
        for (int g = 0; swept[f] && f == SPT_SWEEP_GRADE && g < SPT_VISCOSITY_GRADE_COUNT; g++)
            if (spt_viscosity_grade(g)->number == (int)value)
                made = set_oil(&beet->question.lubricant, spt_viscosity_grade(g)->nu40_mm2_s);
    }
    for (int j = 0; swept[SPT_SWEEP_LOAD_FACTOR] && j < BEET_PHASES; j++) {
        double factor = inputs[SPT_SWEEP_LOAD_FACTOR][row];
        beet->phases[j].radial_load_n *= factor;
        beet->phases[j].axial_load_n *= factor;
        beet->phases[j].equivalent_load_n *= factor;
    }
    return made;
}

static void expect_near(double got, double want, enum spt_sweep_value value, int row,
                        const char *what)
{
    bool same = isnan(want) ? isnan(got) : isinf(want) ? isinf(got) : near(got, want, NEAR, 0);
    cr_expect(same, "%s, row %d, value %d: %.17g for %.17g", what, row, (int)value, got, want);
}

/* True where `life` says the flag anywhere. */
static bool life_tells(const struct spt_assessment *assessment, enum spt_flag flag)
{
    const struct spt_bearing_result *bearing = &assessment->bearings[0];
    bool told = spt_notes_has(&assessment->notes, flag) || spt_notes_has(&bearing->notes, flag);
    for (int j = 0; j < bearing->phase_count; j++)
        told = told || spt_notes_has(&bearing->phases[j].notes, flag);
    return told;
}

static unsigned long long flags_seen;

static void expect_flags(const struct spt_assessment *assessment, int row, const char *what)
{
    for (int f = 0; f < SPT_FLAG_COUNT; f++) {
        enum spt_flag flag = (enum spt_flag)f;
        if (!spt_sweep_reports(flag))
            continue;
        bool got = block.flags[row] & SPT_SWEEP_FLAG_BIT(f);
        cr_expect_eq(got, life_tells(assessment, flag), "%s, row %d: %s", what, row,
                     spt_flag_code(flag));
    }
    flags_seen |= block.flags[row];
}

/* What `life` says of the row, by spt_assess. */
static void expect_row(const struct beet *given, const bool *swept, int row, const char *what)
{
    struct beet beet;
    struct spt_phase_result results[BEET_PHASES];
    struct spt_assessment assessment;
    beet_prepare(&beet);
    memcpy(beet.phases, given->phases, sizeof beet.phases);
    const struct spt_phase *phases = beet.question.bearings[0].phases;
    beet.question = given->question;
    beet.question.bearings[0].phases = phases;
    if (!lay_over(&beet, swept, row)) {
        cr_expect_eq(block.status[row], SPT_SWEEP_REFUSED, "%s, row %d", what, row);
        return;
    }
    enum spt_status status = spt_assess(&beet.question, results, &assessment);
    cr_expect_eq(status != SPT_OK, block.status[row] == SPT_SWEEP_REFUSED, "%s, row %d: %s", what,
                 row, spt_status_text(status));
    if (status)
        return;
    const struct spt_bearing_result *bearing = &assessment.bearings[0];
    expect_flags(&assessment, row, what);
    expect_near(block.values[SPT_SWEEP_BASIC_RATING_LIFE_H][row], assessment.basic_rating_life_h,
                SPT_SWEEP_BASIC_RATING_LIFE_H, row, what);
    expect_near(block.values[SPT_SWEEP_MODIFIED_RATING_LIFE_H][row],
                assessment.modified_rating_life_h, SPT_SWEEP_MODIFIED_RATING_LIFE_H, row, what);
    cr_expect_eq(block.status[row] == SPT_SWEEP_OK, isfinite(assessment.modified_rating_life_h));
    cr_expect_eq(block.status[row] == SPT_SWEEP_NO_DAMAGE,
                 isinf(assessment.modified_rating_life_h));
    int first = bearing->worst_phase;
    for (int j = bearing->phase_count - 1; j >= 0; j--)
        first = isnan(results[j].modified_rating_life_h) ? j : first;
    if (first < 0)
        return;
    const struct spt_phase_result *phase = &results[first];
    cr_expect_eq(block.status[row] == SPT_SWEEP_GREASE_EXHAUSTED,
                 spt_notes_has(&phase->notes, SPT_FLAG_GREASE_EXHAUSTED), "%s, row %d", what, row);
    cr_expect_eq(block.status[row] == SPT_SWEEP_FILM_TOO_THIN,
                 spt_notes_has(&phase->notes, SPT_FLAG_FILM_TOO_THIN), "%s, row %d", what, row);
    const double values[] = {
        phase->dynamic.load_n,       phase->viscosity_ratio, phase->effective_viscosity_ratio,
        phase->contamination_factor, phase->factor.a_iso,    phase->water_factor};
    for (int v = 0; v < SPT_SWEEP_BASIC_RATING_LIFE_H; v++)
        expect_near(block.values[v][row], values[v], (enum spt_sweep_value)v, row, what);
}

static void work(const struct spt_sweep_plan *plan, const double *const *columns, int count)
{
    struct spt_arena arena = {0};
    struct spt_sweep_workspace *workspace;
    cr_assert_eq(spt_sweep_workspace_make(plan, true, &arena, &workspace), SPT_OK);
    spt_sweep_work(plan, columns, count, workspace, &block);
    spt_arena_free(&arena);
}

static void run_rows(const struct beet *beet, const bool *swept, const char *what)
{
    struct spt_sweep_plan plan;
    const double *columns[SPT_SWEEP_FIELD_COUNT];
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++) {
        columns[f] = inputs[f];
        for (int i = 0; swept[f] && i < ROWS; i++)
            inputs[f][i] = draw_field((enum spt_sweep_field)f, &beet->question);
    }
    cr_assert_eq(spt_sweep_plan_make(&beet->question, swept, NULL, &plan), SPT_OK, "%s", what);
    cr_expect(plan.kernel, "%s", what);
    work(&plan, columns, ROWS);
    for (int i = 0; i < ROWS; i++)
        expect_row(beet, swept, i, what);
}

Test(sweep, each_field_alone_is_what_spt_assess_says)
{
    struct beet beet;
    beet_prepare(&beet);
    for (int f = 0; f < BEARING_FIELDS; f++) {
        bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
        char what[40];
        swept[f] = true;
        snprintf(what, sizeof what, "field %d", f);
        run_rows(&beet, swept, what);
    }
}

Test(sweep, fields_together_are_what_spt_assess_says)
{
    static const enum spt_bearing_type types[] = {SPT_TAPERED_ROLLER, SPT_DEEP_GROOVE_BALL,
                                                  SPT_CYLINDRICAL_ROLLER, SPT_THRUST_ROLLER};
    struct beet beet;
    for (int round = 0; round < 80; round++) {
        bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
        char what[40];
        beet_prepare(&beet);
        beet.question.bearings[0].bearing.type = types[round / 2 % 4];
        for (int f = 0; f < BEARING_FIELDS; f++)
            swept[f] = draw(0, 1) < 0.5;
        swept[SPT_SWEEP_GRADE] = swept[SPT_SWEEP_GRADE] && !swept[SPT_SWEEP_VISCOSITY_40];
        swept[SPT_SWEEP_CONTAMINATION] =
            swept[SPT_SWEEP_CONTAMINATION] && !swept[SPT_SWEEP_CLEANLINESS];
        if (swept[SPT_SWEEP_RADIAL_LOAD] || swept[SPT_SWEEP_AXIAL_LOAD])
            swept[SPT_SWEEP_EQUIVALENT_LOAD] = false;
        beet.question.lubricant.ep_additive = round % 3 == 0;
        if (round % 4 == 1)
            beet.question.lubricant.density_g_cm3 = 0.95;
        if (round % 5 == 4) {
            beet.question.lubricant.kind = SPT_LUBRICATION_OIL_BATH;
            swept[SPT_SWEEP_GREASE_AGE] = false;
            for (int j = 0; j < BEET_PHASES; j++)
                beet.phases[j].condition.cleanliness =
                    spt_cleanliness_first(SPT_LUBRICATION_OIL_BATH);
        }
        beet.question.target_life_h = 15000;
        beet.question.age_limit_h = 20 * 8766.0;
        beet.question.yearly_use_h = 900;
        snprintf(what, sizeof what, "round %d", round);
        run_rows(&beet, swept, what);
    }
    static const enum spt_flag met[] = {
        SPT_FLAG_OVERLOAD,     SPT_FLAG_STATIC_SAFETY, SPT_FLAG_HEAVY_CONTAMINATION,
        SPT_FLAG_ABOVE_STATIC, SPT_FLAG_GREASE_HOT,    SPT_FLAG_WATER_SATURATED,
        SPT_FLAG_GREASE_SPEED, SPT_FLAG_RIB_SPEED,     SPT_FLAG_GREASE_OVERDUE,
        SPT_FLAG_CALENDAR_AGE, SPT_FLAG_LIGHT_LOAD,    SPT_FLAG_MISSED_TARGET,
        SPT_FLAG_STANDSTILL,   SPT_FLAG_NO_LOAD,       SPT_FLAG_GREASE_NO_INTERVAL,
        SPT_FLAG_OIL_SPEED,    SPT_FLAG_OIL_SLUGGISH,
    };
    for (size_t i = 0; i < sizeof met / sizeof *met; i++)
        cr_expect(flags_seen & SPT_SWEEP_FLAG_BIT(met[i]), "no row had %s", spt_flag_code(met[i]));
}

Test(sweep, flags_are_worked_out_only_where_they_are_wanted)
{
    struct beet beet;
    struct spt_sweep_plan plan;
    const double *columns[SPT_SWEEP_FIELD_COUNT];
    bool swept[SPT_SWEEP_FIELD_COUNT] = {false}, wanted[SPT_SWEEP_VALUE_COUNT] = {false};
    swept[SPT_SWEEP_WATER] = wanted[SPT_SWEEP_MODIFIED_RATING_LIFE_H] = true;
    beet_prepare(&beet);
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        columns[f] = inputs[f];
    inputs[SPT_SWEEP_WATER][0] = 2385; /* beyond the tests, and free water */
    for (int round = 0; round < 2; round++) {
        cr_assert_eq(spt_sweep_plan_make(&beet.question, swept, wanted, &plan), SPT_OK);
        cr_expect_not(plan.flagged);
        plan.flagged = round == 1;
        work(&plan, columns, 1);
        cr_expect_eq(block.flags[0] & SPT_SWEEP_FLAG_BIT(SPT_FLAG_WATER_SATURATED),
                     round ? SPT_SWEEP_FLAG_BIT(SPT_FLAG_WATER_SATURATED) : 0);
    }
}

Test(sweep, the_hardest_sample_of_a_history_goes_with_the_loads)
{
    struct beet beet;
    struct spt_sweep_plan plan;
    const double *columns[SPT_SWEEP_FIELD_COUNT];
    struct spt_history_summary history = {.resting_n = {30000, 0}};
    beet_prepare(&beet);
    for (int j = 0; j < BEET_PHASES; j++) {
        beet.phases[j].radial_load_n = 2385;
        beet.phases[j].axial_load_n = 0;
    }
    beet.question.history = &history;
    history.resting_n[0] = beet.question.bearings[0].bearing.static_load_rating_n / 2;
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        columns[f] = inputs[f];
    for (int replaced = 0; replaced < 2; replaced++) {
        bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
        swept[SPT_SWEEP_LOAD_FACTOR] = true;
        swept[SPT_SWEEP_RADIAL_LOAD] = replaced;
        inputs[SPT_SWEEP_LOAD_FACTOR][0] = 0.9; /* s0 2.2 */
        inputs[SPT_SWEEP_LOAD_FACTOR][1] = 4;   /* s0 0.5 */
        inputs[SPT_SWEEP_RADIAL_LOAD][0] = inputs[SPT_SWEEP_RADIAL_LOAD][1] = 2385;
        cr_assert_eq(spt_sweep_plan_make(&beet.question, swept, NULL, &plan), SPT_OK);
        work(&plan, columns, 2);
        unsigned long long bit = SPT_SWEEP_FLAG_BIT(SPT_FLAG_STATIC_SAFETY);
        cr_expect_eq(block.flags[0] & bit, 0);
        cr_expect_eq(block.flags[1] & bit, replaced ? 0 : bit);
    }
}

Test(sweep, a_case_the_kernel_cannot_take_goes_row_by_row)
{
    struct beet beet;
    struct spt_sweep_plan plan;
    const double *columns[SPT_SWEEP_FIELD_COUNT];
    bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
    swept[SPT_SWEEP_LOAD_FACTOR] = swept[SPT_SWEEP_WATER] = true;
    beet_prepare(&beet);
    beet.phases[1].temperature_c = (double)NAN; /* an estimate */
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++) {
        columns[f] = inputs[f];
        for (int i = 0; i < 40; i++)
            inputs[f][i] = draw_field((enum spt_sweep_field)f, &beet.question);
    }
    cr_assert_eq(spt_sweep_plan_make(&beet.question, swept, NULL, &plan), SPT_OK);
    cr_expect_not(plan.kernel);
    work(&plan, columns, 40);
    for (int i = 0; i < 40; i++)
        expect_row(&beet, swept, i, "estimate");
}

Test(sweep, fields_that_exclude_each_other_are_refused)
{
    static const enum spt_sweep_field pairs[][2] = {
        {SPT_SWEEP_VISCOSITY_40, SPT_SWEEP_GRADE},
        {SPT_SWEEP_CLEANLINESS, SPT_SWEEP_CONTAMINATION},
        {SPT_SWEEP_EQUIVALENT_LOAD, SPT_SWEEP_AXIAL_LOAD}};
    struct beet beet;
    struct spt_sweep_plan plan;
    beet_prepare(&beet);
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
        swept[pairs[i][0]] = true;
        cr_expect_eq(spt_sweep_plan_make(&beet.question, swept, NULL, &plan), SPT_OK);
        swept[pairs[i][1]] = true;
        cr_expect_eq(spt_sweep_plan_make(&beet.question, swept, NULL, &plan), SPT_BAD_ARGUMENT);
    }
}

Test(sweep, the_rows_of_a_grid_are_counted_or_refused)
{
    static const double values[] = {1, 2, 3};
    struct spt_sweep sweep = {.count = 2,
                              .axes = {{SPT_SWEEP_WATER, values, 2}, {SPT_SWEEP_SPEED, values, 3}}};
    cr_expect_eq(spt_sweep_rows(&sweep), 6);
    cr_expect_eq(spt_sweep_index(&sweep, 0, 4), 1);
    cr_expect_eq(spt_sweep_index(&sweep, 1, 4), 1);
    sweep.axes[0].count = sweep.axes[1].count = 40000000; /* 1.6e15 */
    cr_expect_eq(spt_sweep_rows(&sweep), 0);
    sweep.axes[0].count = sweep.axes[1].count = (size_t)-1;
    cr_expect_eq(spt_sweep_rows(&sweep), 0);
    cr_expect_eq(spt_sweep_rows(&(struct spt_sweep){0}), 0);
}
