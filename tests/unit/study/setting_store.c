/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/hub/setting_store.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/hub_example.h"
#include "support/hub_scenario.h"
#include "support/near.h"

#define FOUR_PHASES                                                                                \
    "  - {phase: road, time: 80 %, speed: 558 rpm, wheel_load: 13 kN, temperature: 65 degC}\n"     \
    "  - {phase: outside, time: 6 %, speed: 349 rpm, wheel_load: 15 kN, side_share: -15 %,\n"      \
    "     temperature: 60 degC}\n"                                                                 \
    "  - {phase: inside, time: 6 %, speed: 349 rpm, wheel_load: 11 kN, side_share: 15 %,\n"        \
    "     temperature: 60 degC}\n"                                                                 \
    "  - {phase: track, time: 8 %, speed: 105 rpm, wheel_load: 14 kN, side_force: 1 kN,\n"         \
    "     temperature: 40 degC}\n"
#define SCATTER HUB_SCENARIO_PLACES "  end_play: 0.05 mm\n  setting_scatter: 0.02 mm\n"

static struct hub_scenario test;
static struct spt_hub_curve curve;
static struct spt_setting_store store;

static void draw_curve(const char *hub)
{
    struct spt_hub_failure failure;
    hub_scenario_read(&test, hub, FOUR_PHASES);
    hub_scenario_assess_uncured(&test);
    cr_assert_eq(spt_hub_curve(&test.bench, &test.assessment, &curve, &failure), SPT_OK);
}

/* The gate of speed: counts, which no machine changes. 4 phases with 4 positions of the cages make
 * 16 load distributions at a setting, 12 where one position is the mirror image of another. */
Test(setting_store, a_curve_takes_few_load_distributions_and_few_passes_in_each)
{
    static const struct {
        const char *what, *hub;
        long most;
    } rows[] = {
        {"mirrored", SCATTER, 2700},
        {"tilted", SCATTER "  inboard_misalignment: {about_x: 1 mrad, about_y: 0.7 mrad}\n", 4200},
        {"any aim", SCATTER "  preload_allowed: yes\n", 7800},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        draw_curve(rows[i].hub);
        double passes = (double)curve.study.passes / (double)curve.study.solves;
        cr_expect(curve.study.solves > 1000 && curve.study.solves <= rows[i].most, "%s: %ld",
                  rows[i].what, curve.study.solves);
        cr_expect_lt(passes, 3.2, "%s: %g passes", rows[i].what, passes);
        hub_scenario_free(&test);
    }
}

/* Without the searches that only the curve shows. */
Test(setting_store, the_best_alone_takes_a_scan_and_a_search)
{
    hub_scenario_read(&test, SCATTER, FOUR_PHASES);
    hub_scenario_assess_uncured(&test);
    cr_assert_eq(spt_hub_bench_rate(&test.bench), SPT_OK);
    struct spt_setting_duty duty = spt_hub_bench_duty(&test.bench);
    const struct spt_setting_terms terms = {&test.bench.model, &duty, NULL};
    const struct spt_setting_inputs question = {-0.15, 0.5, 0.05, 0.02, false, 0};
    struct spt_setting_study best, study;
    spt_setting_store_begin(&store, &terms);
    cr_assert_eq(spt_setting_best_of(&store, &question, &best), SPT_OK);
    cr_expect_leq(best.solves, 12 * 110, "%ld", best.solves);
    cr_expect_lt((double)best.passes / (double)best.solves, 3.3);
    cr_assert_eq(spt_setting_study(&test.bench.model, &duty, &question, &study), SPT_OK);
    cr_expect(near(best.best.setting_mm, study.best.setting_mm, 0, 1e-7));
    cr_expect(isnan(best.aim_mm) && isnan(best.advised.life_mrev), "nothing else is found");
    hub_scenario_free(&test);
}

Test(setting_store, a_setting_is_solved_once_for_both_lives)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    const struct spt_setting_case one = {.load = example_load(0.1),
                                         .time_share = 1,
                                         .speed_rpm = 420,
                                         .lubrication = {{0.4, 1.3}, {0.3, 1.7}},
                                         .life_factor = {0.7, 1.3}};
    struct spt_setting_case other = one;
    other.life_factor[0] = 2.1;
    const struct spt_setting_duty basic = {.cases = &one, .count = 1, .cage_positions = 4};
    const struct spt_setting_duty modified = {
        .cases = &other, .count = 1, .modified = true, .cage_positions = 4};
    const struct spt_setting_terms terms = {&model, &basic, &modified};
    struct spt_setting_point point, wanted;
    spt_setting_store_begin(&store, &terms);
    for (int i = 0; i < 3; i++) {
        cr_assert_eq(spt_setting_store_find(&store, 0.0317, &point), SPT_OK);
        cr_assert_eq(spt_setting_life(&model, &basic, 0.0317, NULL, &wanted, NULL), SPT_OK);
        cr_expect(near(point.life_mrev, wanted.life_mrev, 1e-11, 0));
        cr_assert_eq(spt_setting_store_find_reference(&store, 0.0317, &point), SPT_OK);
        cr_assert_eq(spt_setting_life(&model, &modified, 0.0317, NULL, &wanted, NULL), SPT_OK);
        cr_expect(near(point.row_mrev[0], wanted.row_mrev[0], 1e-11, 0));
        cr_expect(near(point.row_mrev[1], wanted.row_mrev[1], 1e-11, 0));
    }
    cr_expect_eq(spt_setting_store_solves(&store), 4, "no row stands on the line of the load");
    cr_assert_eq(spt_setting_store_find(&store, 0.0317 + 1e-9, &point), SPT_OK);
    cr_expect_eq(spt_setting_store_solves(&store), 8, "another setting");
    cr_expect_eq(spt_setting_store_find(&store, 11, &point), SPT_BAD_ARGUMENT);
    cr_expect(isnan(point.life_mrev));
}

/* More settings than there is room for: the first is solved again, to the same. */
Test(setting_store, what_is_forgotten_is_solved_again)
{
    struct spt_hub hub = example_hub();
    hub.rows[0].geometry.elements = hub.rows[1].geometry.elements = 5;
    struct spt_hub_model model = example_model(&hub);
    const struct spt_setting_case one = {
        .load = example_load(0), .time_share = 1, .speed_rpm = 420, .life_factor = {1, 1}};
    const struct spt_setting_duty duty = {.cases = &one, .count = 1};
    const struct spt_setting_terms terms = {&model, &duty, NULL};
    struct spt_setting_point first, again;
    spt_setting_store_begin(&store, &terms);
    cr_assert_eq(spt_setting_store_find(&store, 0, &first), SPT_OK);
    for (int i = 1; i <= SPT_SETTING_STORE_MAX; i++)
        cr_assert_eq(spt_setting_store_find(&store, i * 1e-4, &again), SPT_OK);
    cr_assert_eq(spt_setting_store_find(&store, 0, &again), SPT_OK);
    cr_expect_eq(spt_setting_store_solves(&store), SPT_SETTING_STORE_MAX + 2);
    cr_expect(near(again.life_mrev, first.life_mrev, 1e-11, 0));
}

/* Damage averaged over the cages, the slow way: each place turned by itself, all rollers, lives
 * from the solution that is checked contact by contact. */
static void average_slowly(struct spt_hub_model *model, const struct spt_hub_load *load,
                           int positions, double setting_mm, double row_mrev[2])
{
    const struct spt_hub hub = model->hub;
    double damage[2] = {0, 0};
    for (int i = 0; i < positions; i++) {
        struct spt_hub_solution solution;
        model->hub = hub;
        spt_hub_turn_cage(model, (double)i / positions);
        cr_assert_eq(spt_hub_solve(model, setting_mm, load, NULL, &solution), SPT_OK);
        for (int row = 0; row < 2; row++) {
            struct spt_hub_life life;
            cr_assert_eq(spt_hub_life_short(model, &solution, row, NULL, &life), SPT_OK);
            damage[row] += 1 / life.l10r_mrev / positions;
        }
    }
    model->hub = hub;
    spt_hub_turn_cage(model, 0);
    for (int row = 0; row < 2; row++)
        row_mrev[row] = 1 / damage[row];
}

Test(setting_store, mirrored_cages_give_the_average_of_all)
{
    static const int positions[] = {1, 2, 3, 4, 5, 8};
    struct spt_hub hub = example_hub();
    for (int row = 0; row < 2; row++)
        hub.rows[row].phase_rad = -0.5 * 3.14159265358979323846;
    struct spt_hub_model model = example_model(&hub);
    for (size_t i = 0; i < sizeof positions / sizeof *positions; i++)
        for (int across = 0; across < 2; across++) {
            struct spt_setting_case one = {.load = example_load(0.07),
                                           .time_share = 1,
                                           .speed_rpm = 420,
                                           .life_factor = {1, 1}};
            one.load.force_x_n = across ? 2385 : 0;
            const struct spt_setting_duty duty = {
                .cases = &one, .count = 1, .cage_positions = positions[i]};
            const struct spt_setting_terms terms = {&model, &duty, NULL};
            struct spt_setting_point point;
            double wanted[2];
            average_slowly(&model, &one.load, positions[i], 0.31, wanted);
            spt_setting_store_begin(&store, &terms);
            cr_assert_eq(spt_setting_store_find(&store, 0.31, &point), SPT_OK);
            for (int row = 0; row < 2; row++)
                cr_expect(near(point.row_mrev[row], wanted[row], 1e-10, 0), "%d positions: %g",
                          positions[i], point.row_mrev[row] / wanted[row] - 1);
            cr_expect_eq(spt_setting_store_solves(&store),
                         across ? positions[i] : positions[i] / 2 + 1);
        }
}

static double mean_life(const struct spt_hub_model *model, const struct spt_setting_duty *duty,
                        double setting_mm, double scatter_mm)
{
    double life = 0, weights = 0;
    for (int i = -8; i <= 8; i++) {
        struct spt_setting_point point;
        double t = 0.5 * i, weight = exp(-0.5 * t * t);
        cr_assert_eq(spt_setting_life(model, duty, setting_mm + t * scatter_mm, NULL, &point, NULL),
                     SPT_OK);
        life += weight * point.life_mrev;
        weights += weight;
    }
    return life / weights;
}

/* The aim is found on an interpolant and finished on solved means: a millionth of a millimetre to
 * either side the mean life, solved from nothing, is shorter. Ends of the kept range likewise. */
Test(setting_store, aim_and_ends_are_exact)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    const struct spt_setting_case one = {
        .load = example_load(0), .time_share = 1, .speed_rpm = 420, .life_factor = {1, 1}};
    const struct spt_setting_duty duty = {.cases = &one, .count = 1};
    for (double scatter_mm = 0.003; scatter_mm < 0.2; scatter_mm *= 3.7) {
        const struct spt_setting_inputs question = {-0.2, 0.45, 0.05, scatter_mm, false, 0};
        struct spt_setting_study s;
        struct spt_setting_point end;
        cr_assert_eq(spt_setting_study(&model, &duty, &question, &s), SPT_OK);
        double here = mean_life(&model, &duty, s.aim_mm, scatter_mm);
        cr_expect(near(here, s.aim_mrev, 1e-11, 0));
        for (int side = -1; side <= 1; side += 2)
            cr_expect_lt(mean_life(&model, &duty, s.aim_mm + side * 1e-6, scatter_mm), here,
                         "scatter %g mm, side %d", scatter_mm, side);
        const double ends[2] = {s.kept_from_mm, s.kept_to_mm};
        for (int i = 0; i < 2; i++) {
            cr_assert_eq(spt_setting_life(&model, &duty, ends[i], NULL, &end, NULL), SPT_OK);
            cr_expect(near(end.life_mrev, SPT_SETTING_KEPT * s.best.life_mrev, 1e-9, 0));
        }
    }
}
