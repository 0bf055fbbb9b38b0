/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The end play of a hub as an input that is not known exactly. */
#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "spalltime/assess.h"
#include "spalltime/uncertainty.h"
#include "support/hub_scenario.h"
#include "support/near.h"

#define THREADS 3
#define PHASES 2
#define SAMPLES 100000

/* A hub and everything its samples need. */
struct bench {
    struct hub_scenario hub;
    struct spt_uncertainty_workspace workspace;
    struct spt_hub_workspace hub_workspaces[THREADS];
    struct spt_uncertainty spread;
    struct spt_uncertainty_result result;
};

static struct spt_phase phases[2 * PHASES * THREADS];
static struct spt_phase_result results[2 * PHASES * THREADS];
static double design[2 * SPT_UNCERTAIN_COUNT * SAMPLES], lives[3 * SAMPLES], scratch[4 * SAMPLES],
    shares[3 * SPT_UNCERTAIN_SHARE_SAMPLES];

static void take_hub_workspace(struct hub_scenario *hub, struct spt_hub_workspace *workspace)
{
    struct spt_arena *arena = &hub->scenario.arena;
    workspace->buffer_length = hub->workspace.buffer_length;
    workspace->buffer =
        spt_arena_allocate(arena, workspace->buffer_length * sizeof *workspace->buffer);
    workspace->cases = spt_arena_allocate(arena, PHASES * sizeof *workspace->cases);
    workspace->reference_mrev =
        spt_arena_allocate(arena, PHASES * sizeof *workspace->reference_mrev);
    workspace->factors = spt_arena_allocate(arena, PHASES * sizeof *workspace->factors);
    workspace->phases = spt_arena_allocate(arena, 2 * (size_t)PHASES * sizeof *workspace->phases);
    workspace->results = spt_arena_allocate(arena, PHASES * sizeof *workspace->results);
}

static void begin(struct bench *bench, const char *setting)
{
    char lines[1024];
    cr_assert_lt(snprintf(lines, sizeof lines, HUB_SCENARIO_PLACES "  %s\n", setting), 1024);
    memset(bench, 0, sizeof *bench);
    hub_scenario_read(&bench->hub, lines, NULL);
    hub_scenario_assess_uncured(&bench->hub);
    for (int i = 0; i < THREADS; i++)
        take_hub_workspace(&bench->hub, &bench->hub_workspaces[i]);
    bench->workspace = (struct spt_uncertainty_workspace){
        .threads = 2,
        .phases = phases,
        .results = results,
        .design = design,
        .lives = lives,
        .scratch = scratch,
        .hub_workspaces = bench->hub_workspaces,
        .setting_table =
            spt_arena_allocate(&bench->hub.scenario.arena,
                               spt_uncertainty_table_length(&bench->hub.settled) * sizeof(double)),
    };
    bench->spread = (struct spt_uncertainty){.seed = 2385, .samples = 300};
}

static struct spt_random_input normal(double centre, double deviation)
{
    return (struct spt_random_input){
        .spread = SPT_RANDOM_NORMAL, .centre = centre, .deviation = deviation};
}

static struct spt_random_input uniform(double low, double high)
{
    return (struct spt_random_input){.spread = SPT_RANDOM_UNIFORM, .low = low, .high = high};
}

static void run(struct bench *bench)
{
    cr_assert_eq(
        spt_uncertainty(&bench->hub.settled, &bench->spread, &bench->workspace, &bench->result),
        SPT_OK);
}

/* The life of a case whose hub is set anew and whose loads and temperatures are changed: settled
 * and assessed from the start, without any table. */
static double life_of_changed(struct bench *bench, double play_mm, double load, double rise_k)
{
    static struct spt_phase changed_phases[2 * PHASES];
    static struct spt_hub_wheel wheels[PHASES];
    struct spt_case question = bench->hub.scenario.base.question, settled;
    struct spt_hub_case hub = *question.hub;
    struct spt_hub_bench tried;
    double life_h;
    hub.setting_value += play_mm;
    if (hub.setting_value < 0) {
        hub.setting_kind = SPT_HUB_SET_PRELOAD;
        hub.setting_value = -hub.setting_value;
    }
    hub.wheels = wheels;
    for (int i = 0; i < PHASES; i++) {
        wheels[i] = question.hub->wheels[i];
        wheels[i].radial_n *= load;
        wheels[i].side_n *= load;
    }
    for (int row = 0; row < 2; row++) {
        struct spt_phase *to = &changed_phases[row * PHASES];
        for (int i = 0; i < PHASES; i++) {
            to[i] = question.bearings[row].phases[i];
            to[i].radial_load_n *= load;
            to[i].axial_load_n *= load;
            to[i].equivalent_load_n *= load;
            to[i].temperature_c += rise_k;
        }
        question.bearings[row].phases = to;
    }
    question.hub = &hub;
    if (spt_hub_settle(&question, &bench->hub.workspace, false, &tried, &settled, NULL))
        return (double)NAN;
    cr_assert_eq(spt_case_life(&settled, bench->hub.results, &life_h), SPT_OK);
    return life_h;
}

static int compare_numbers(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* The lives of the same samples by brute force, in order. */
static void solve_all(struct bench *bench, double *solved)
{
    static const enum spt_uncertain inputs[] = {SPT_UNCERTAIN_LOAD, SPT_UNCERTAIN_TEMPERATURE,
                                                SPT_UNCERTAIN_END_PLAY};
    int count = bench->spread.samples, used = 0;
    for (int i = 0; i < 3; i++)
        used += bench->spread.inputs[inputs[i]].spread != SPT_RANDOM_FIXED;
    double *points = malloc((size_t)(count * used) * sizeof *points);
    cr_assert(points);
    cr_assert_eq(spt_random_sobol(bench->spread.seed, count, used, points, (long)count * used),
                 SPT_OK);
    for (int i = 0; i < count; i++) {
        double values[3] = {1, 0, 0};
        for (int j = 0, column = 0; j < 3; j++)
            if (bench->spread.inputs[inputs[j]].spread != SPT_RANDOM_FIXED)
                cr_assert_eq(spt_random_value(&bench->spread.inputs[inputs[j]],
                                              points[i * used + column++], &values[j]),
                             SPT_OK);
        if (bench->spread.inputs[SPT_UNCERTAIN_END_PLAY].spread == SPT_RANDOM_LOGNORMAL)
            values[2] -= bench->spread.inputs[SPT_UNCERTAIN_END_PLAY].centre;
        solved[i] = life_of_changed(bench, values[2], values[0], values[1]);
    }
    free(points);
    qsort(solved, (size_t)count, sizeof *solved, compare_numbers);
}

Test(uncertainty_hub, the_table_gives_the_lives_of_direct_solves)
{
    static const struct {
        const char *what;
        struct spt_random_input play, load, rise;
    } cases[] = {
        {"play alone", {.spread = SPT_RANDOM_NORMAL, .deviation = 0.02}, {0}, {0}},
        {"tight to loose", {.spread = SPT_RANDOM_UNIFORM, .low = -0.13, .high = 0.25}, {0}, {0}},
        {"play and load",
         {.spread = SPT_RANDOM_TRIANGULAR, .low = -0.06, .centre = 0.01, .high = 0.09},
         {.spread = SPT_RANDOM_NORMAL, .centre = 1, .deviation = 0.1},
         {.spread = SPT_RANDOM_UNIFORM, .low = -6, .high = 6}},
        {"load alone", {0}, {.spread = SPT_RANDOM_UNIFORM, .low = 0.8, .high = 1.3}, {0}},
        {"lognormal play",
         {.spread = SPT_RANDOM_LOGNORMAL, .centre = 0.05, .deviation = 0.6},
         {.spread = SPT_RANDOM_LOGNORMAL, .centre = 1, .deviation = 0.08},
         {0}},
    };
    static double solved[300];
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct bench bench;
        begin(&bench, "end_play: 0.05 mm");
        bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = cases[i].play;
        bench.spread.inputs[SPT_UNCERTAIN_LOAD] = cases[i].load;
        bench.spread.inputs[SPT_UNCERTAIN_TEMPERATURE] = cases[i].rise;
        run(&bench);
        solve_all(&bench, solved);
        double worst = 0;
        for (int j = 0; j < bench.spread.samples; j++)
            worst = fmax(worst, fabs(bench.result.sorted_lives[j] / solved[j] - 1));
        /* the bound of the table holds for the 48 samples it checks; allow twice that for others */
        cr_expect(worst < 2 * SPT_UNCERTAIN_SETTING_ALLOWED, "%s: %g", cases[i].what, worst);
        cr_expect(bench.result.setting.varies && bench.result.setting.error > 0 &&
                      bench.result.setting.error <= SPT_UNCERTAIN_SETTING_ALLOWED,
                  "%s: %g", cases[i].what, bench.result.setting.error);
        cr_expect_eq(bench.result.setting.checked, SPT_UNCERTAIN_SETTING_CHECKS);
        cr_expect_eq(bench.result.setting.unsettled, 0);
        hub_scenario_free(&bench.hub);
    }
}

Test(uncertainty_hub, a_tiny_spread_gives_the_life_as_stated)
{
    static const char *const settings[] = {"end_play: 0.05 mm", "preload: 0.013 mm",
                                           "preload_force: 3.1 kN"};
    for (size_t i = 0; i < sizeof settings / sizeof *settings; i++) {
        struct bench bench;
        begin(&bench, settings[i]);
        bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = uniform(-1e-9, 1e-9);
        bench.spread.inputs[SPT_UNCERTAIN_LOAD] = normal(1, 1e-10);
        run(&bench);
        double life_h = bench.hub.assessment.modified_rating_life_h;
        cr_expect(near(bench.result.system.p5_h, life_h, 1e-6, 0), "%s", settings[i]);
        cr_expect(near(bench.result.system.p95_h, life_h, 1e-6, 0), "%s", settings[i]);
        hub_scenario_free(&bench.hub);
    }
}

Test(uncertainty_hub, any_number_of_threads_gives_the_same_bits)
{
    static double first[3 * 4000];
    struct spt_uncertainty_result one;
    struct bench bench;
    begin(&bench, "end_play: 0.05 mm");
    bench.spread.samples = 4000;
    bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = normal(0, 0.03);
    bench.spread.inputs[SPT_UNCERTAIN_LOAD] = normal(1, 0.07);
    bench.workspace.shares = shares;
    for (int threads = 1; threads <= THREADS; threads++) {
        bench.workspace.threads = threads;
        run(&bench);
        if (threads == 1) {
            one = bench.result;
            memcpy(first, lives, sizeof first);
        }
        cr_expect_eq(memcmp(first, lives, sizeof first), 0, "%d threads", threads);
        cr_expect_eq(memcmp(&one, &bench.result, sizeof one), 0, "%d threads", threads);
    }
    cr_expect_gt(one.setting.direct, 0, "the tails of a normal spread lie outside the table");
    hub_scenario_free(&bench.hub);
}

/* With heavy preload the life falls by a factor of ten within 0.05 mm; a percent of load does not
 * compare. */
Test(uncertainty_hub, end_play_ranks_first_where_it_dominates)
{
    struct bench bench;
    begin(&bench, "preload: 0.1 mm");
    bench.spread.samples = 4000;
    bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = uniform(-0.03, 0.03);
    bench.spread.inputs[SPT_UNCERTAIN_LOAD] = normal(1, 0.01);
    bench.spread.inputs[SPT_UNCERTAIN_TEMPERATURE] = normal(0, 1);
    bench.workspace.shares = shares;
    run(&bench);
    const struct spt_driver *play = &bench.result.drivers[SPT_UNCERTAIN_END_PLAY];
    cr_expect_gt(play->rank_correlation, 0.95, "%g", play->rank_correlation);
    cr_expect_gt(play->share.first, 0.9, "%g", play->share.first);
    cr_expect_lt(fabs(bench.result.drivers[SPT_UNCERTAIN_LOAD].rank_correlation), 0.2);
    cr_expect_lt(bench.result.drivers[SPT_UNCERTAIN_LOAD].share.total, 0.1);
    hub_scenario_free(&bench.hub);
}

/* Mounted from -0.05 to 0.15 mm: a quarter lies below 0. With the inner part warmer the running
 * setting is below 0 sooner, by what temperature takes. */
Test(uncertainty_hub, preloaded_samples_are_counted_cold_and_running)
{
    static const char *const settings[] = {"end_play: 0.05 mm",
                                           "end_play: 0.05 mm\n  temperature_difference: 12 K"};
    for (int i = 0; i < 2; i++) {
        struct bench bench;
        begin(&bench, settings[i]);
        bench.spread.samples = 2000;
        bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = uniform(-0.1, 0.1);
        run(&bench);
        double closing_mm = fmax(0, -bench.hub.bench.thermal_mm);
        cr_assert(i == 0 || closing_mm > 0.005);
        cr_expect(near(bench.result.share_preloaded, (0.05 + closing_mm) / 0.2, 0, 0.003), "%g",
                  bench.result.share_preloaded);
        bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = (struct spt_random_input){.centre = 0};
        run(&bench);
        cr_expect(isnan(bench.result.share_preloaded));
        hub_scenario_free(&bench.hub);
    }
}

/* Settings beyond what the hub model covers (10 mm) have no life and are counted, not held. */
Test(uncertainty_hub, settings_without_an_answer_are_counted)
{
    struct bench bench;
    begin(&bench, "end_play: 0.05 mm");
    bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = uniform(9.55, 10.55);
    run(&bench);
    /* uniform running settings from 9.6 to 10.6 mm: 60 % lie beyond 10 mm */
    cr_expect(near(bench.result.setting.unsettled, 0.6 * 300, 0, 4), "%d",
              bench.result.setting.unsettled);
    cr_expect(near(bench.result.share_without_life, 0.6, 0, 0.02));
    cr_expect_geq(bench.result.setting.direct, bench.result.setting.unsettled);
    hub_scenario_free(&bench.hub);
}

Test(uncertainty_hub, end_play_without_a_hub_or_its_workspace_is_refused)
{
    struct bench bench;
    begin(&bench, "end_play: 0.05 mm");
    bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = normal(0, 0.02);
    bench.workspace.hub_workspaces = NULL;
    cr_expect_eq(
        spt_uncertainty(&bench.hub.settled, &bench.spread, &bench.workspace, &bench.result),
        SPT_BAD_ARGUMENT);
    bench.workspace.hub_workspaces = bench.hub_workspaces;
    bench.hub.settled.hub = NULL;
    cr_expect_eq(
        spt_uncertainty(&bench.hub.settled, &bench.spread, &bench.workspace, &bench.result),
        SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_uncertainty_table_length(&bench.hub.settled), 0);
    hub_scenario_free(&bench.hub);
}

/* Two rows of three-parameter lives: the share that lives on is the product of two laws, which no
 * single law at the L10 of the system gives. With nothing spread the time to spall has to be the
 * quantile of that product; found here by bisection on the formula of the law, slope 1.5 and least
 * life 0.05 L10 (ISO 281:2007, behind table 12, from memory). */
static double product_of_rows(const double *l10_h, double t_h)
{
    double exponent = 0;
    for (int i = 0; i < 2; i++)
        exponent += pow(fmax((t_h / l10_h[i] - 0.05) / 0.95, 0), 1.5);
    return exp(log(0.9) * exponent);
}

static double quantile_of_rows(const double *l10_h, double survival)
{
    double low_h = 0, high_h = 100 * fmax(l10_h[0], l10_h[1]);
    for (int i = 0; i < 200; i++) {
        double middle_h = (low_h + high_h) / 2;
        *(product_of_rows(l10_h, middle_h) > survival ? &low_h : &high_h) = middle_h;
    }
    return low_h;
}

Test(uncertainty_hub, two_rows_spall_by_the_product_of_their_survivals)
{
    struct bench bench;
    begin(&bench, "end_play: 0.05 mm");
    run(&bench);
    const double l10_h[2] = {bench.hub.assessment.bearings[0].modified_rating_life_h,
                             bench.hub.assessment.bearings[1].modified_rating_life_h};
    const struct spt_survival_lives *times = &bench.result.time_to_spall;
    cr_expect(near(times->l1_h, quantile_of_rows(l10_h, 0.99), 1e-9, 0));
    cr_expect(near(times->l5_h, quantile_of_rows(l10_h, 0.95), 1e-9, 0));
    cr_expect(near(times->l10_h, quantile_of_rows(l10_h, 0.90), 1e-9, 0));
    cr_expect(near(times->l50_h, quantile_of_rows(l10_h, 0.50), 1e-9, 0));
    /* it differs from one law at the L10 of the system */
    const struct spt_life_law law =
        spt_survival_iso_law(bench.hub.assessment.modified_rating_life_h);
    double single_h;
    cr_assert_eq(spt_survival_quantile(&law, 0.99, &single_h), SPT_OK);
    cr_expect_gt(fabs(times->l1_h / single_h - 1), 0.01, "%g", times->l1_h / single_h);
    hub_scenario_free(&bench.hub);
}

/* What a sample costs is a look into the table: the hub itself is solved a few hundred times,
 * however many samples there are. */
Test(uncertainty_hub, the_usual_samples_solve_the_hub_a_few_hundred_times)
{
    struct bench bench;
    begin(&bench, "end_play: 0.05 mm");
    bench.spread.samples = SPT_UNCERTAIN_SAMPLES_USUAL;
    bench.spread.inputs[SPT_UNCERTAIN_END_PLAY] = normal(0, 0.02);
    bench.spread.inputs[SPT_UNCERTAIN_LOAD] = normal(1, 0.08);
    bench.spread.inputs[SPT_UNCERTAIN_TEMPERATURE] = normal(0, 5);
    run(&bench);
    const struct spt_uncertain_setting *setting = &bench.result.setting;
    cr_expect_gt(setting->nodes, 0);
    cr_expect_lt(setting->nodes + setting->checked + setting->direct, 1000, "%d nodes, %d direct",
                 setting->nodes, setting->direct);
    cr_expect_lt(bench.result.system.p5_h, bench.result.system.p95_h);
    hub_scenario_free(&bench.hub);
}
