/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/reach.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "support/case_example.h"
#include "support/near.h"

static const double none = (double)NAN;
static struct example_case made;
static struct spt_phase phases[4];
static struct spt_phase_result results[4];
static const struct spt_reach_workspace workspace = {phases, results, NULL};

static const enum spt_lever continuous[] = {SPT_LEVER_WATER, SPT_LEVER_TEMPERATURE, SPT_LEVER_LOAD,
                                            SPT_LEVER_REGREASING, SPT_LEVER_RATING};
#define CONTINUOUS (sizeof continuous / sizeof *continuous)

/* The cases that every test of a lever runs on. */
enum { SCENARIOS = 6 };
static const char *make_scenario(int i)
{
    static const char *const names[SCENARIOS] = {"oil bath",       "grease",
                                                 "circulating",    "two bearings, grease",
                                                 "estimated heat", "two bearings, given e_C"};
    static const enum spt_lubrication kinds[SCENARIOS] = {
        SPT_LUBRICATION_OIL_BATH, SPT_LUBRICATION_GREASE, SPT_LUBRICATION_CIRCULATING,
        SPT_LUBRICATION_GREASE,   SPT_LUBRICATION_GREASE, SPT_LUBRICATION_OIL_BATH};
    example_make(&made, kinds[i], i == 3 || i == 5 ? 2 : 1);
    for (int b = 0; b < made.question.bearing_count; b++)
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            struct spt_phase *phase = &made.phases[b][j];
            if (i == 4)
                phase->temperature_c = none;
            if (i == 5)
                phase->condition.contamination_factor = 0.3;
            if (kinds[i] == SPT_LUBRICATION_GREASE)
                phase->condition.grease_age_h = 900;
            phase->condition.water_ppm = j ? 400 : 250;
        }
    return names[i];
}

static int grade_index(int number)
{
    int i = 0;
    while (spt_viscosity_grade(i)->number != number)
        i++;
    return i;
}

/* What a lever does, written out apart from the study. */
static void pull(struct example_case *changed, enum spt_lever lever, double value, bool relaxing)
{
    for (int b = 0; b < changed->question.bearing_count; b++) {
        struct spt_bearing *bearing = &changed->question.bearings[b].bearing;
        if (lever == SPT_LEVER_RATING) {
            bearing->dynamic_load_rating_n *= value;
            bearing->static_load_rating_n *= value;
            bearing->fatigue_load_limit_n *= value;
        }
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            struct spt_phase *phase = &changed->phases[b][j];
            double *quantity = lever == SPT_LEVER_WATER ? &phase->condition.water_ppm
                                                        : &phase->condition.grease_age_h;
            if (lever == SPT_LEVER_WATER || lever == SPT_LEVER_REGREASING)
                *quantity = relaxing ? fmax(*quantity, value) : fmin(*quantity, value);
            if (lever == SPT_LEVER_LOAD) {
                phase->radial_load_n *= value;
                phase->axial_load_n *= value;
            }
            if (lever == SPT_LEVER_TEMPERATURE)
                *(isnan(phase->temperature_c) ? &phase->ambient_c : &phase->temperature_c) += value;
            int class = (int)phase->condition.cleanliness;
            if (lever == SPT_LEVER_CLEANLINESS)
                phase->condition.cleanliness =
                    (enum spt_cleanliness)(relaxing ? fmax(class, value) : fmin(class, value));
        }
    }
    if (lever == SPT_LEVER_GRADE)
        example_set_oil(&changed->question, spt_viscosity_grade((int)value)->nu40_mm2_s, 95);
}

/* Life with a lever at a value; -1 where there is none, so that it can be compared. */
static double life_with(enum spt_lever lever, double value, bool relaxing)
{
    static struct example_case changed;
    example_copy(&made, &changed);
    pull(&changed, lever, value, relaxing);
    double life_h = example_life(&changed.question);
    return isnan(life_h) ? -1 : life_h;
}

static struct spt_reach ask(double target_h)
{
    struct spt_reach reach;
    cr_assert_eq(spt_reach(&made.question, target_h, &workspace, &reach), SPT_OK);
    return reach;
}

static void expect_round_trip(const char *name, double target_h, const struct spt_reach *reach,
                              enum spt_lever lever, int *reached)
{
    const struct spt_lever_result *result = &reach->levers[lever];
    bool relaxing = reach->reached_already;
    double life_h = life_with(lever, result->value, relaxing);
    const char *what = spt_lever_name(lever);
    cr_expect(near(life_h, result->life_h, 1e-12, 0), "%s, %s: %.9g, said %.9g", name, what, life_h,
              result->life_h);
    if (result->outcome == SPT_LEVER_CANNOT) {
        cr_expect_lt(life_h, target_h, "%s, %s", name, what);
        cr_expect(!relaxing, "%s, %s", name, what);
        return;
    }
    cr_expect_geq(life_h, target_h, "%s, %s %.9g", name, what, result->value);
    if (result->outcome != SPT_LEVER_REACHES)
        return;
    (*reached)++;
    if (near(life_h, target_h, 1e-6, 0))
        return;
    /* at a step of the surroundings, which are inferred: a little farther it is too short */
    const double farther = result->value + 1e-6 * result->value;
    cr_expect(lever == SPT_LEVER_WATER && life_with(lever, farther, relaxing) < target_h,
              "%s, %s %.9g: %.12g of %.12g", name, what, result->value, life_h, target_h);
}

Test(reach, continuous_values_give_the_target_when_put_in)
{
    static const double shares[] = {0.3, 0.77, 0.999, 1.001, 1.2, 3, 40};
    int reached = 0, reached_relaxing = 0;
    for (int i = 0; i < SCENARIOS; i++)
        for (size_t j = 0; j < sizeof shares / sizeof *shares; j++) {
            const char *name = make_scenario(i);
            double target_h = shares[j] * example_life(&made.question);
            struct spt_reach reach = ask(target_h);
            cr_expect_eq(reach.reached_already, shares[j] < 1);
            cr_expect(near(reach.present_life_h * shares[j], target_h, 1e-12, 0));
            for (size_t k = 0; k < CONTINUOUS; k++)
                if (reach.levers[continuous[k]].outcome != SPT_LEVER_NOT_HERE)
                    expect_round_trip(name, target_h, &reach, continuous[k],
                                      shares[j] < 1 ? &reached_relaxing : &reached);
        }
    cr_expect_gt(reached, 50);
    cr_expect_gt(reached_relaxing, 50);
}

/* 400 values over the range that the lever has: nothing beats what it calls its best, and no laxer
 * value reaches where it names a limit. */
Test(reach, no_value_of_a_scan_is_better_than_the_answer)
{
    static const double shares[] = {0.6, 1.3, 30};
    for (int i = 0; i < SCENARIOS; i++)
        for (size_t j = 0; j < 3; j++)
            for (size_t k = 0; k < CONTINUOUS; k++) {
                const char *name = make_scenario(i);
                double target_h = shares[j] * example_life(&made.question);
                struct spt_reach reach = ask(target_h);
                const struct spt_lever_result *result = &reach.levers[continuous[k]];
                if (result->outcome == SPT_LEVER_NOT_HERE)
                    continue;
                bool relaxing = reach.reached_already;
                for (int step = 0; step <= 400; step++) {
                    double part = step / 400.0;
                    double value = result->best + part * (result->worst - result->best);
                    double life_h = life_with(continuous[k], value, relaxing);
                    bool laxer = fabs(value - result->best) >
                                 fabs(result->value - result->best) + 1e-6 * fabs(result->value);
                    if (result->outcome == SPT_LEVER_CANNOT)
                        cr_expect_leq(life_h, result->life_h * (1 + 1e-9), "%s, %s at %g", name,
                                      spt_lever_name(continuous[k]), value);
                    else if (laxer)
                        cr_expect_lt(life_h, target_h, "%s, %s at %g", name,
                                     spt_lever_name(continuous[k]), value);
                }
            }
}

Test(reach, ends_of_the_ranges_are_the_stated_ones)
{
    make_scenario(1);
    double life_h = example_life(&made.question);
    struct spt_reach up = ask(2 * life_h), down = ask(life_h / 2);
    static const struct {
        enum spt_lever lever;
        double best, worst, best_slipping, worst_slipping;
    } rows[] = {
        {SPT_LEVER_WATER, 100, 400, 250, 400},
        {SPT_LEVER_TEMPERATURE, -50, 0, 0, 100},
        {SPT_LEVER_REGREASING, 0, 900, 900, 1e6},
        {SPT_LEVER_GRADE, 19, 0, 19, 0},
        {SPT_LEVER_CLEANLINESS, SPT_CLEANLINESS_GREASE_HIGH, SPT_CLEANLINESS_GREASE_NORMAL,
         SPT_CLEANLINESS_GREASE_HIGH, SPT_CLEANLINESS_GREASE_VERY_SEVERE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_lever_result *better = &up.levers[rows[i].lever];
        const struct spt_lever_result *worse = &down.levers[rows[i].lever];
        const char *name = spt_lever_name(rows[i].lever);
        cr_expect_eq(better->best, rows[i].best, "%s %g", name, better->best);
        cr_expect_eq(better->worst, rows[i].worst, "%s %g", name, better->worst);
        cr_expect_eq(worse->best, rows[i].best_slipping, "%s %g", name, worse->best);
        cr_expect_eq(worse->worst, rows[i].worst_slipping, "%s %g", name, worse->worst);
        cr_expect(
            near(better->best_life_h, life_with(rows[i].lever, rows[i].best, false), 1e-12, 0),
            "%s", name);
    }
}

Test(reach, classes_are_as_dirty_as_they_may_be)
{
    int reached = 0;
    for (int i = 0; i < 5; i++)
        for (double share = 0.05; share < 8; share *= 1.6) {
            const char *name = make_scenario(i);
            for (int j = 0; j < EXAMPLE_PHASES; j++) /* one phase dirtier than the other */
                made.phases[0][j].condition.cleanliness =
                    (enum spt_cleanliness)((int)made.phases[0][j].condition.cleanliness + 1 + j);
            double target_h = share * example_life(&made.question);
            struct spt_reach reach = ask(target_h);
            const struct spt_lever_result *result = &reach.levers[SPT_LEVER_CLEANLINESS];
            bool relaxing = reach.reached_already;
            int first = (int)spt_cleanliness_first(made.question.lubricant.kind);
            int last = first + spt_cleanliness_count(made.question.lubricant.kind) - 1;
            double life_h = life_with(SPT_LEVER_CLEANLINESS, result->value, relaxing);
            cr_expect(near(result->life_h, life_h, 1e-12, 0), "%s", name);
            cr_expect_eq((int)result->present, made.question.bearing_count == 2 && relaxing
                                                   ? first + 1
                                                   : first + (relaxing ? 2 : 3));
            if (result->outcome == SPT_LEVER_CANNOT) {
                cr_expect_eq((int)result->value, first);
                cr_expect_lt(life_h, target_h);
                continue;
            }
            cr_expect_geq(life_h, target_h, "%s x %g", name, share);
            cr_expect_eq(result->outcome == SPT_LEVER_ALWAYS, relaxing && result->value == last);
            if (result->outcome == SPT_LEVER_ALWAYS)
                continue;
            reached++;
            cr_expect_lt(life_with(SPT_LEVER_CLEANLINESS, result->value + 1, relaxing), target_h,
                         "%s x %g", name, share);
        }
    cr_expect_gt(reached, 15);
}

/* Ours: the grade steps from 150 mm2/s, each assessed on its own. */
Test(reach, grades_are_the_first_that_reaches_and_the_last_that_does)
{
    int reached = 0, limits = 0;
    for (int i = 0; i < SCENARIOS; i++)
        for (double share = 0.05; share < 60; share *= 1.6) {
            const char *name = make_scenario(i);
            double target_h = share * example_life(&made.question);
            struct spt_reach reach = ask(target_h);
            const struct spt_lever_result *result = &reach.levers[SPT_LEVER_GRADE];
            int step = reach.reached_already ? 1 : -1; /* to the grade that should not reach */
            cr_expect_eq(spt_viscosity_grade((int)result->present)->number, 150);
            cr_expect(reach.present_grade_fits);
            double life_h = life_with(SPT_LEVER_GRADE, result->value, false);
            cr_expect(near(result->life_h, life_h, 1e-12, 0), "%s", name);
            if (result->outcome == SPT_LEVER_CANNOT) {
                for (int grade = grade_index(150); grade < SPT_VISCOSITY_GRADE_COUNT; grade++)
                    cr_expect_leq(life_with(SPT_LEVER_GRADE, grade, false), life_h, "%s", name);
                continue;
            }
            cr_expect_geq(life_h, target_h, "%s x %g", name, share);
            double next_h =
                result->value >= 1 ? life_with(SPT_LEVER_GRADE, result->value - 1, false) : -1;
            cr_expect_lt(next_h, target_h, "%s x %g", name, share);
            *(step > 0 ? &limits : &reached) += 1;
        }
    cr_expect_gt(reached, 5);
    cr_expect_gt(limits, 15);
}

/* 180 mm2/s is of no grade; the nearest, VG 150, is thinner and must not stand for it. */
Test(reach, an_oil_of_no_grade_is_not_taken_for_the_nearest_one)
{
    make_scenario(0);
    example_set_oil(&made.question, 180, 95);
    double life_h = example_life(&made.question);
    struct spt_reach reach = ask(life_h * 0.999);
    const struct spt_lever_result *result = &reach.levers[SPT_LEVER_GRADE];
    cr_expect(!reach.present_grade_fits);
    cr_expect_eq(reach.present_viscosity_40_mm2_s, 180);
    cr_expect_eq(spt_viscosity_grade((int)result->value)->number, 220);
    cr_expect_geq(result->life_h, life_h);
    reach = ask(life_h * 1.001);
    cr_expect_eq(spt_viscosity_grade((int)reach.levers[SPT_LEVER_GRADE].value)->number, 220);
}

/* ISO 3448: a grade reaches 10 % to both sides of its middle. */
Test(reach, a_grade_reaches_ten_percent_to_both_sides)
{
    static const struct {
        double viscosity_40;
        bool fits;
        int thicker;
    } rows[] = {{150, true, 220},    {135.1, true, 220},  {164.9, true, 220}, {134.5, false, 150},
                {165.5, false, 220}, {197.9, false, 220}, {198.1, true, 320}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        make_scenario(0);
        example_set_oil(&made.question, rows[i].viscosity_40, 95);
        struct spt_reach reach = ask(1.0001 * example_life(&made.question));
        cr_expect_eq(reach.present_grade_fits, rows[i].fits, "%g", rows[i].viscosity_40);
        cr_expect_eq(spt_viscosity_grade((int)reach.levers[SPT_LEVER_GRADE].value)->number,
                     rows[i].thicker, "%g", rows[i].viscosity_40);
    }
}

Test(reach, the_thickest_oil_has_no_thicker_grade)
{
    make_scenario(0);
    example_set_oil(&made.question, 3300, 95);
    double life_h = example_life(&made.question);
    struct spt_reach reach = ask(1.5 * life_h);
    cr_expect_eq(reach.levers[SPT_LEVER_GRADE].outcome, SPT_LEVER_CANNOT);
    cr_expect(near(reach.levers[SPT_LEVER_GRADE].life_h, life_h, 1e-12, 0));
}

/* A pair with fewer steps does not reach, nor does one of as many that lasts longer. */
Test(reach, the_pair_takes_the_fewest_steps)
{
    int found = 0, impossible = 0;
    for (int i = 0; i < 4; i++)
        for (double share = 2; share < 20000; share *= 1.4) {
            make_scenario(i);
            for (int j = 0; j < EXAMPLE_PHASES; j++)
                made.phases[0][j].condition.cleanliness =
                    (enum spt_cleanliness)((int)made.phases[0][j].condition.cleanliness + 2);
            example_set_oil(&made.question, 32, 95);
            double target_h = share * example_life(&made.question);
            struct spt_reach reach = ask(target_h);
            if (reach.levers[SPT_LEVER_CLEANLINESS].outcome == SPT_LEVER_REACHES ||
                reach.levers[SPT_LEVER_GRADE].outcome == SPT_LEVER_REACHES) {
                cr_expect(!reach.pair_found);
                continue;
            }
            int class = (int)reach.levers[SPT_LEVER_CLEANLINESS].present, grade = grade_index(32);
            int first = (int)spt_cleanliness_first(made.question.lubricant.kind), fewest = 99;
            double longest_h = 0;
            for (int cleaner = 1; class - cleaner >= first; cleaner++)
                for (int thicker = 1; grade + thicker < SPT_VISCOSITY_GRADE_COUNT; thicker++) {
                    static struct example_case changed;
                    example_copy(&made, &changed);
                    pull(&changed, SPT_LEVER_CLEANLINESS, class - cleaner, false);
                    pull(&changed, SPT_LEVER_GRADE, grade + thicker, false);
                    double life_h = example_life(&changed.question);
                    int steps = cleaner + thicker;
                    if (!(life_h >= target_h) || steps > fewest ||
                        (steps == fewest && life_h < longest_h))
                        continue;
                    fewest = steps;
                    longest_h = life_h;
                }
            cr_expect_eq(reach.pair_found, fewest < 99);
            *(reach.pair_found ? &found : &impossible) += 1;
            if (!reach.pair_found)
                continue;
            cr_expect_eq(class - reach.pair_cleanliness + reach.pair_grade - grade, fewest);
            cr_expect(near(reach.pair_life_h, longest_h, 1e-12, 0));
        }
    cr_expect_gt(found, 5);
    cr_expect_gt(impossible, 0);
}

/* One cleaner class and one thicker grade are all there is, and both are needed. */
Test(reach, a_pair_of_one_step_each_is_found)
{
    static struct example_case changed;
    make_scenario(0);
    example_set_oil(&made.question, 2200, 95);
    for (int j = 0; j < EXAMPLE_PHASES; j++) {
        made.phases[0][j].temperature_c = 120;
        made.phases[0][j].speed_rpm = 20;
    }
    example_copy(&made, &changed);
    pull(&changed, SPT_LEVER_CLEANLINESS, SPT_CLEANLINESS_BATH_13_10, false);
    pull(&changed, SPT_LEVER_GRADE, grade_index(3200), false);
    double both_h = example_life(&changed.question);
    struct spt_reach reach = ask(0.999 * both_h);
    cr_expect_eq(reach.levers[SPT_LEVER_CLEANLINESS].outcome, SPT_LEVER_CANNOT);
    cr_expect_eq(reach.levers[SPT_LEVER_GRADE].outcome, SPT_LEVER_CANNOT);
    cr_expect(reach.pair_found);
    cr_expect_eq(reach.pair_cleanliness, (int)SPT_CLEANLINESS_BATH_13_10);
    cr_expect_eq(reach.pair_grade, grade_index(3200));
    cr_expect(near(reach.pair_life_h, both_h, 1e-12, 0));
}

Test(reach, exhausted_grease_gets_an_age_at_which_it_lasts)
{
    make_scenario(1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].condition.grease_age_h = 4e5;
    cr_assert(isnan(example_life(&made.question)));
    double fresh_h = life_with(SPT_LEVER_REGREASING, 0, false);
    struct spt_reach reach = ask(0.8 * fresh_h);
    const struct spt_lever_result *result = &reach.levers[SPT_LEVER_REGREASING];
    cr_expect(isnan(reach.present_life_h));
    cr_expect(!reach.reached_already);
    cr_expect_eq(result->outcome, SPT_LEVER_REACHES);
    cr_expect(near(life_with(SPT_LEVER_REGREASING, result->value, false), 0.8 * fresh_h, 1e-6, 0));
    cr_expect_eq(reach.levers[SPT_LEVER_WATER].outcome, SPT_LEVER_CANNOT);
    cr_expect(isnan(reach.levers[SPT_LEVER_WATER].life_h));
    /* a target so low that any film does: the value is the age at which the film goes */
    reach = ask(1e-3 * fresh_h);
    result = &reach.levers[SPT_LEVER_REGREASING];
    cr_expect_eq(result->outcome, SPT_LEVER_REACHES);
    cr_expect_gt(life_with(SPT_LEVER_REGREASING, result->value, false), 1e-3 * fresh_h);
    cr_expect_eq(life_with(SPT_LEVER_REGREASING, result->value * (1 + 1e-6), false), -1);
}

Test(reach, a_thin_film_is_cured_by_grade_or_temperature)
{
    make_scenario(0);
    example_set_oil(&made.question, 22, 95);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].temperature_c = 120;
    cr_assert(isnan(example_life(&made.question)));
    struct spt_reach reach = ask(500);
    cr_expect_eq(reach.levers[SPT_LEVER_LOAD].outcome, SPT_LEVER_CANNOT);
    cr_expect_eq(reach.levers[SPT_LEVER_RATING].outcome, SPT_LEVER_CANNOT);
    const struct spt_lever_result *grade = &reach.levers[SPT_LEVER_GRADE];
    cr_expect_eq(grade->outcome, SPT_LEVER_REACHES);
    cr_expect_geq(life_with(SPT_LEVER_GRADE, grade->value, false), 500);
    cr_expect_lt(life_with(SPT_LEVER_GRADE, grade->value - 1, false), 500);
}

/* An oil that is too stiff at -60 degC for a life to be stated: thinner, or warmer. */
static double make_stiff(void)
{
    make_scenario(0);
    example_set_oil(&made.question, 460, 95);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].temperature_c = -60;
    cr_assert(isnan(example_life(&made.question)));
    double warm_h = life_with(SPT_LEVER_TEMPERATURE, 40, false);
    cr_assert_gt(warm_h, 0);
    return warm_h;
}

Test(reach, a_stiff_oil_is_cured_by_a_thinner_grade_or_warming)
{
    double warm_h = make_stiff();
    struct spt_reach reach = ask(0.5 * warm_h);
    const struct spt_lever_result *grade = &reach.levers[SPT_LEVER_GRADE];
    cr_expect_eq(grade->outcome, SPT_LEVER_REACHES);
    cr_expect_lt(grade->value, grade->present);
    cr_expect_geq(life_with(SPT_LEVER_GRADE, grade->value, false), 0.5 * warm_h);
    cr_expect_lt(life_with(SPT_LEVER_GRADE, grade->value + 1, false), 0.5 * warm_h);
    const struct spt_lever_result *warming = &reach.levers[SPT_LEVER_TEMPERATURE];
    cr_expect_eq(warming->outcome, SPT_LEVER_REACHES);
    cr_expect_geq(life_with(SPT_LEVER_TEMPERATURE, warming->value, false), 0.5 * warm_h);
    cr_expect_eq(life_with(SPT_LEVER_TEMPERATURE, warming->value - 1e-6, false), -1);
}

Test(reach, a_stiff_oil_that_cannot_be_cured_shows_the_best_of_it)
{
    double warm_h = make_stiff();
    struct spt_reach reach = ask(1e6 * warm_h);
    const struct spt_lever_result *levers = reach.levers;
    for (int i = 0; i < 2; i++) {
        enum spt_lever lever = i ? SPT_LEVER_TEMPERATURE : SPT_LEVER_GRADE;
        cr_expect_eq(levers[lever].outcome, SPT_LEVER_CANNOT);
        cr_expect(
            near(life_with(lever, levers[lever].value, false), levers[lever].life_h, 1e-12, 0));
    }
    for (int grade = grade_index(10); grade < SPT_VISCOSITY_GRADE_COUNT; grade++)
        cr_expect_leq(life_with(SPT_LEVER_GRADE, grade, false), levers[SPT_LEVER_GRADE].life_h);
    for (double rise_k = 0.25; rise_k < 100; rise_k += 0.25)
        cr_expect_leq(life_with(SPT_LEVER_TEMPERATURE, rise_k, false),
                      levers[SPT_LEVER_TEMPERATURE].life_h * (1 + 1e-12), "%g K", rise_k);
}

/* Up to 10 % above its middle an oil is of a grade (ISO 3448), which is no thinner one then. */
Test(reach, a_thinner_grade_is_one_that_the_oil_is_not_already_of)
{
    static const struct {
        double share;
        int want;
    } rows[] = {{1.105, 220}, {1.095, 150}};
    for (size_t i = 0; i < 2; i++) {
        make_scenario(0);
        example_set_oil(&made.question, rows[i].share * 220, 95);
        double stiff_c = -100, fine_c = -20; /* of VG 220 */
        while (fine_c - stiff_c > 1e-9) {
            double middle_c = (fine_c + stiff_c) / 2;
            for (int j = 0; j < EXAMPLE_PHASES; j++)
                made.phases[0][j].temperature_c = middle_c;
            *(life_with(SPT_LEVER_GRADE, grade_index(220), false) > 0 ? &fine_c : &stiff_c) =
                middle_c;
        }
        for (int j = 0; j < EXAMPLE_PHASES; j++)
            made.phases[0][j].temperature_c = fine_c;
        cr_assert(isnan(example_life(&made.question)));
        struct spt_reach reach = ask(1);
        cr_expect_eq((int)reach.levers[SPT_LEVER_GRADE].value, grade_index(rows[i].want), "%d",
                     rows[i].want);
    }
}

/* The pair of a cleaner class and a thinner grade takes the fewest steps too. */
Test(reach, a_stiff_oil_gets_a_thinner_grade_with_a_cleaner_class)
{
    make_stiff();
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].condition.cleanliness = SPT_CLEANLINESS_BATH_19_16;
    struct spt_reach reach = ask(100);
    int class = (int)reach.levers[SPT_LEVER_CLEANLINESS].present;
    int grade = (int)reach.levers[SPT_LEVER_GRADE].value;
    struct example_case dirty;
    example_copy(&made, &dirty);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].condition.cleanliness = (enum spt_cleanliness)(class - 1);
    double clean_h = life_with(SPT_LEVER_GRADE, grade, false);
    example_copy(&dirty, &made);
    double dirty_h = life_with(SPT_LEVER_GRADE, grade, false);
    cr_assert_gt(clean_h, dirty_h);
    reach = ask(sqrt(clean_h * dirty_h));
    cr_assert(reach.pair_found);
    cr_expect_eq(reach.pair_cleanliness, class - 1);
    cr_expect_eq(reach.pair_grade, grade);
    cr_expect(near(reach.pair_life_h, clean_h, 1e-12, 0));
}

/* An oil like bitumen pours no more at 0 degC: cooling ends before that. */
Test(reach, cooling_ends_where_the_oil_is_too_stiff)
{
    make_scenario(0);
    struct spt_lubricant *oil = &made.question.lubricant;
    oil->viscosity_40_mm2_s = 50000;
    oil->viscosity_100_mm2_s = 300;
    cr_assert_eq(spt_viscosity_line(40, 50000, 100, 300, &oil->line), SPT_OK);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].temperature_c = 100;
    double life_h = example_life(&made.question);
    cr_assert_gt(life_h, 0);
    cr_assert_eq(life_with(SPT_LEVER_TEMPERATURE, -100, false), -1);
    struct spt_reach reach = ask(1.01 * life_h);
    const struct spt_lever_result *result = &reach.levers[SPT_LEVER_TEMPERATURE];
    cr_expect_eq(result->outcome, SPT_LEVER_REACHES);
    cr_expect(near(life_with(SPT_LEVER_TEMPERATURE, result->value, false), 1.01 * life_h, 1e-6, 0));
    reach = ask(1e6 * life_h);
    result = &reach.levers[SPT_LEVER_TEMPERATURE];
    cr_expect_eq(result->outcome, SPT_LEVER_CANNOT);
    cr_expect_gt(result->life_h, life_h);
    cr_expect_eq(life_with(SPT_LEVER_TEMPERATURE, result->value - 1e-6, false), -1);
}

/* 270 degC: 30 K more and the models end, whatever the life. */
Test(reach, warming_ends_where_the_models_do)
{
    make_scenario(0);
    example_set_oil(&made.question, 2200, 200);
    for (int j = 0; j < EXAMPLE_PHASES; j++) {
        made.phases[0][j].temperature_c = 270;
        made.phases[0][j].speed_rpm = 3000;
    }
    double life_h = example_life(&made.question);
    cr_assert_gt(life_h, 0);
    struct spt_reach reach = ask(1e-3 * life_h);
    const struct spt_lever_result *result = &reach.levers[SPT_LEVER_TEMPERATURE];
    cr_expect_eq(result->outcome, SPT_LEVER_REACHES);
    cr_expect(near(result->value, 30, 1e-9, 0), "%g", result->value);
    for (int j = 0; j < EXAMPLE_PHASES; j++) { /* the ambient of an estimate ends at 150 degC */
        made.phases[0][j].temperature_c = none;
        made.phases[0][j].ambient_c = 143;
        made.phases[0][j].speed_rpm = 400;
    }
    reach = ask(1e-3 * example_life(&made.question));
    cr_expect(near(reach.levers[SPT_LEVER_TEMPERATURE].value, 7, 1e-9, 0), "%g",
              reach.levers[SPT_LEVER_TEMPERATURE].value);
}

Test(reach, a_bearing_below_0_degc_is_not_cooled)
{
    make_scenario(0);
    made.phases[0][1].temperature_c = -5;
    struct spt_reach reach = ask(2 * example_life(&made.question));
    const struct spt_lever_result *result = &reach.levers[SPT_LEVER_TEMPERATURE];
    cr_expect_eq(result->outcome, SPT_LEVER_CANNOT);
    cr_expect(result->value == 0 && !signbit(result->value));
    cr_expect(near(result->life_h, example_life(&made.question), 1e-12, 0));
}

Test(reach, levers_that_a_case_lacks_are_not_here)
{
    make_scenario(5);
    struct spt_reach reach = ask(2 * example_life(&made.question));
    cr_expect_eq(reach.levers[SPT_LEVER_CLEANLINESS].outcome, SPT_LEVER_NOT_HERE);
    cr_expect_eq(reach.levers[SPT_LEVER_REGREASING].outcome, SPT_LEVER_NOT_HERE);
    cr_expect(isnan(reach.levers[SPT_LEVER_REGREASING].value));
    cr_expect(!reach.pair_found);
    /* one phase with a class brings the lever back; the class of the others is none */
    made.phases[0][1].condition.contamination_factor = none;
    made.phases[0][1].condition.cleanliness = SPT_CLEANLINESS_BATH_17_14;
    made.phases[0][0].condition.cleanliness = SPT_CLEANLINESS_BATH_21_18;
    reach = ask(1.0001 * example_life(&made.question));
    cr_expect_eq((int)reach.levers[SPT_LEVER_CLEANLINESS].present, SPT_CLEANLINESS_BATH_17_14);
    cr_expect_eq(reach.levers[SPT_LEVER_CLEANLINESS].outcome, SPT_LEVER_REACHES);
}

Test(reach, what_a_value_raises_is_kept_with_it)
{
    make_scenario(0);
    double life_h = example_life(&made.question);
    struct spt_reach reach = ask(0.5 * life_h);
    const struct spt_lever_result *water = &reach.levers[SPT_LEVER_WATER];
    /* the tests behind the water factor end at 400 ppm, and so does the lever */
    cr_expect_eq(water->value, SPT_WATER_TESTED_PPM);
    cr_expect_eq(water->outcome, SPT_LEVER_ALWAYS);
    cr_expect(!spt_notes_has(&water->notes, SPT_FLAG_WATER_EXTRAPOLATED));
    made.phases[0][0].condition.water_ppm = 500; /* flagged now too: nothing new */
    reach = ask(0.5 * example_life(&made.question));
    cr_expect(!spt_notes_has(&reach.levers[SPT_LEVER_WATER].notes, SPT_FLAG_WATER_EXTRAPOLATED));
    cr_expect_geq(reach.levers[SPT_LEVER_WATER].worst, 400, "%g",
                  reach.levers[SPT_LEVER_WATER].worst);
}

/* The life factor of ISO 281 holds to P = C/2, and no lever asks for more. */
Test(reach, load_and_rating_slip_no_farther_than_half_the_rating)
{
    make_scenario(1);
    struct spt_reach reach = ask(1e-4 * example_life(&made.question));
    double most = (double)INFINITY;
    struct spt_bearing_result bearing;
    cr_assert_eq(spt_assess_bearing(&made.question, 0, 0, results, &bearing), SPT_OK);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        most = fmin(most, 0.5 * results[j].dynamic_load_rating_n / results[j].dynamic.load_n);
    cr_expect(near(reach.levers[SPT_LEVER_LOAD].worst, most, 1e-12, 0), "%g not %g",
              reach.levers[SPT_LEVER_LOAD].worst, most);
    cr_expect(near(reach.levers[SPT_LEVER_RATING].worst, 1 / most, 1e-12, 0));
}

/* What a lever bears on is told at its value though it is raised already. */
Test(reach, an_overload_is_told_at_the_load_that_reaches)
{
    make_scenario(0);
    made.phases[0][0].radial_load_n = 0.7 * made.question.bearings[0].bearing.dynamic_load_rating_n;
    double life_h = example_life(&made.question);
    struct spt_reach reach = ask(0.5 * life_h);
    cr_expect(spt_notes_has(&reach.levers[SPT_LEVER_LOAD].notes, SPT_FLAG_OVERLOAD));
    cr_expect(spt_notes_has(&reach.levers[SPT_LEVER_RATING].notes, SPT_FLAG_OVERLOAD));
    cr_expect(!spt_notes_has(&reach.levers[SPT_LEVER_WATER].notes, SPT_FLAG_OVERLOAD));
}

Test(reach, a_target_must_be_a_finite_time)
{
    static const double bad_h[] = {0, -1, (double)INFINITY, (double)NAN};
    make_scenario(0);
    for (size_t i = 0; i < sizeof bad_h / sizeof *bad_h; i++) {
        struct spt_reach reach;
        cr_expect_eq(spt_reach(&made.question, bad_h[i], &workspace, &reach), SPT_BAD_ARGUMENT);
    }
}

Test(reach, levers_have_names)
{
    for (int i = 0; i < SPT_LEVER_COUNT; i++)
        for (int j = 0; j < i; j++)
            cr_expect(strcmp(spt_lever_name((enum spt_lever)i), spt_lever_name((enum spt_lever)j)));
    cr_expect_str_eq(spt_lever_name(SPT_LEVER_REGREASING), "regreasing");
    cr_expect_str_eq(spt_lever_name(SPT_LEVER_COUNT), "unknown");
}
