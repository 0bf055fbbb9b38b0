/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What status.h promises for arrays that go with a count: NULL with a count above 0, and NULL as a
 * memory for results, is refused. */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/spalltime.h"
#include "support/case_example.h"
#include "support/schedule_case.h"

#define REFUSED(call) cr_expect_eq((call), SPT_BAD_ARGUMENT, "%s", #call)

static const double some[] = {0.4, 0.6};

Test(null_array, duties_and_loads)
{
    double x, y, many[2];
    struct spt_bearing bearing = {.type = SPT_CYLINDRICAL_ROLLER};
    REFUSED(spt_damage_life(NULL, some, 2, &x));
    REFUSED(spt_damage_life(some, NULL, 2, &x));
    cr_expect(isnan(x));
    REFUSED(spt_damage_shares(NULL, some, 2, many));
    REFUSED(spt_damage_shares(some, NULL, 2, many));
    REFUSED(spt_damage_shares(some, some, 2, NULL));
    REFUSED(spt_damage_mean(NULL, some, some, 2, 3, &x, &y));
    REFUSED(spt_damage_mean(some, NULL, some, 2, 3, &x, &y));
    REFUSED(spt_damage_mean(some, some, NULL, 2, 3, &x, &y));
    spt_load_equivalent_many(&bearing, NULL, some, 2, many);
    cr_expect(isnan(many[0]) && isnan(many[1]));
    spt_load_equivalent_many(&bearing, some, NULL, 2, many);
    cr_expect(isnan(many[0]) && isnan(many[1]));
    spt_load_equivalent_many(&bearing, some, some, 2, NULL);
    cr_expect(isnan(spt_life_system(NULL, 2, 1.5)));
    cr_expect(isnan(spt_survival_series(NULL, 2, 90)));
    cr_expect(isnan(spt_survival_series(NULL, 1, 90)));
}

Test(null_array, survival_and_random_numbers)
{
    const struct spt_life_law law = spt_survival_iso_law(1000);
    const struct spt_grease_plan plan = {1000, 500};
    const struct spt_survival_system no_laws = {1, NULL, 1, &plan}, no_plans = {1, &law, 1, NULL};
    struct spt_random_share share;
    double x, work[4];
    REFUSED(spt_survival_of_system(&no_laws, 100, &x));
    REFUSED(spt_survival_of_system(&no_plans, 100, &x));
    REFUSED(spt_survival_life(&no_laws, 0.9, &x));
    REFUSED(spt_random_rank_correlation(NULL, some, 2, work, &x));
    REFUSED(spt_random_rank_correlation(some, NULL, 2, work, &x));
    REFUSED(spt_random_rank_correlation(some, some, 2, NULL, &x));
    REFUSED(spt_random_variance_share(NULL, some, some, 2, &share));
    REFUSED(spt_random_variance_share(some, NULL, some, 2, &share));
    REFUSED(spt_random_variance_share(some, some, NULL, 2, &share));
}

Test(null_array, lives_from_the_field)
{
    static const double times[] = {100, 200, 300};
    const struct spt_weibull_data none = {3, NULL, NULL, NULL, NULL, NULL},
                                  data = {3, times, NULL, NULL, NULL, NULL};
    const struct spt_life_law law = spt_survival_iso_law(1000);
    const struct spt_weibull w = {1.5, 1000};
    const struct spt_fit_inputs in = {.data = data,
                                      .confidence = 0.9,
                                      .assumed_slope = 1.5,
                                      .estimated_l10 = (double)NAN,
                                      .candidate_count = 1};
    struct spt_weibull_fit ml;
    struct spt_weibull_assumed assumed;
    struct spt_fit_candidate candidate;
    struct spt_rank_line line;
    struct spt_fit fit;
    double x;
    int a, b;
    REFUSED(spt_weibull_count(&none, &a, &b));
    REFUSED(spt_weibull_log_likelihood(&none, &w, &x));
    REFUSED(spt_weibull_fit(&none, &ml));
    REFUSED(spt_weibull_assumed_slope(&none, 1.5, 0.9, &assumed));
    REFUSED(spt_fit(&in, &(struct spt_fit_workspace){NULL, 0, NULL, 0}, &fit));
    REFUSED(spt_fit_weigh(&data, NULL, 1, &candidate, &a));
    REFUSED(spt_fit_weigh(&data, &law, 1, NULL, &a));
    REFUSED(spt_rank_points(&data, SPT_RANK_EXACT, NULL, 3, &a));
    REFUSED(spt_rank_regression(NULL, 3, SPT_RANK_LIFE_ON_RANK, &line));
}

Test(null_array, batches)
{
    struct spt_batch_grid grid = {.count = 1};
    const struct spt_batch batch = {.type = SPT_CYLINDRICAL_ROLLER};
    const struct spt_batch_results results = {0};
    grid.axes[0] = (struct spt_batch_axis){SPT_BATCH_EQUIVALENT_LOAD_N, NULL, 2};
    REFUSED(spt_batch_points(&batch, 0, 2, &results));
    REFUSED(spt_batch_grid_rows(&grid, 0, 1, &results));
}

Test(null_array, cases_and_rooms_for_results)
{
    static struct example_case made;
    static struct spt_phase phases[4];
    static struct spt_phase_result results[4];
    const struct spt_timeline_workspace workspaces[] = {{NULL, results}, {phases, NULL}};
    const struct spt_service service = {
        .regrease_every_h = (double)NAN, .oil_change_every_h = (double)NAN, .until_h = 1000};
    static struct spt_timeline timeline;
    static struct spt_schedule plan;
    struct spt_assessment assessment;
    struct spt_bearing_result bearing;
    struct spt_loss loss;
    double x, times_h[] = {10, 20}, damage[2], rows[2][SPT_BEARINGS_MAX];
    int reached;
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 2);
    const struct spt_case *question = &made.question;
    REFUSED(spt_assess(question, NULL, &assessment));
    REFUSED(spt_assess_bearing(question, 0, 0, NULL, &bearing));
    REFUSED(spt_loss_split(question, 0, NULL, &loss));
    REFUSED(spt_case_life(question, NULL, &x));
    const struct spt_schedule_inputs inputs = schedule_inputs(question);
    REFUSED(spt_schedule(&inputs, NULL, &plan));
    for (int i = 0; i < 2; i++) {
        REFUSED(spt_timeline(question, &service, &workspaces[i], &timeline));
        REFUSED(spt_timeline_curve(question, &service, &workspaces[i], times_h, 2, damage));
        REFUSED(spt_timeline_rows(question, &service, &workspaces[i], times_h, 2, 1, rows, &reached,
                                  &x));
    }
    const struct spt_timeline_workspace workspace = {phases, results};
    REFUSED(spt_timeline_curve(question, &service, &workspace, NULL, 2, damage));
    REFUSED(spt_timeline_curve(question, &service, &workspace, times_h, 2, NULL));
    REFUSED(spt_timeline_rows(question, &service, &workspace, NULL, 2, 1, rows, &reached, &x));
    REFUSED(spt_timeline_rows(question, &service, &workspace, times_h, 2, 1, NULL, &reached, &x));
    for (int i = 0; i < 2; i++) {
        static struct spt_reach reach;
        const struct spt_reach_workspace incomplete = {workspaces[i].phases, workspaces[i].results,
                                                       NULL};
        REFUSED(spt_reach(question, 1000, &incomplete, &reach));
    }
    for (int i = 0; i < 5; i++) {
        static struct spt_uncertainty_result spread;
        static double numbers[4];
        const struct spt_uncertainty asked = {.samples = SPT_UNCERTAIN_SAMPLES_MIN};
        const struct spt_uncertainty_workspace left = {.threads = 1,
                                                       .phases = i == 0 ? NULL : phases,
                                                       .results = i == 1 ? NULL : results,
                                                       .design = i == 2 ? NULL : numbers,
                                                       .lives = i == 3 ? NULL : numbers,
                                                       .scratch = i == 4 ? NULL : numbers};
        REFUSED(spt_uncertainty(question, &asked, &left, &spread));
    }
    struct spt_case no_phases = made.question;
    no_phases.bearings[1].phases = NULL;
    REFUSED(spt_assess(&no_phases, results, &assessment));
    REFUSED(spt_case_life(&no_phases, results, &x));
    REFUSED(spt_timeline(&no_phases, &service, &workspace, &timeline));
}

Test(null_array, a_calendar_without_memory_has_no_entries)
{
    static struct spt_schedule plan;
    bool cut;
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    const struct spt_schedule_inputs inputs = schedule_inputs(&question);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_expect_eq(spt_schedule_calendar(&plan, NULL, 5, &cut), 0);
    cr_expect(cut);
}

Test(null_array, histories)
{
    static struct spt_history history;
    static struct spt_phase phases[2];
    static struct spt_phase_result results[2];
    const double ratings_n[SPT_BEARINGS_MAX] = {1000, 1000};
    const int bins[SPT_HISTORY_AXES] = {1, 1, 1};
    struct spt_history_basic basic;
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    double x;
    int count;
    history.rows = 1;
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        history.terms.bins[i] = 1;
    REFUSED(spt_history_bins(&history, bins, NULL, 3, &count));
    REFUSED(spt_history_basic_life(&history, NULL, 2, ratings_n, &basic));
    REFUSED(spt_history_modified_life(&history, &question, NULL, 2, phases, results, &x));
}
