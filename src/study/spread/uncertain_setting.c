/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "study/spread/uncertain_job.h"

#define NONE ((double)NAN)
#define TAIL 2e-4        /* probability of each tail that is left to direct solves */
#define LOADS_WITHIN 8.0 /* highest load of the table over its lowest */
#define CHECKS SPT_UNCERTAIN_SETTING_CHECKS

double spt_uncertain_offset(const struct spt_random_input *input)
{
    return input->spread == SPT_RANDOM_LOGNORMAL ? input->centre : 0;
}

/* Computes setting factors directly from the load distribution. */
static bool solve_setting(struct spt_uncertain_part *part, double running_mm, double load,
                          double (*factors)[2])
{
    struct spt_uncertain_hub *hub = part->job->hub;
    struct spt_hub_bench *bench = &hub->benches[part->number];
    double *at_load = &hub->bench_loads[part->number];
    if (*at_load != load && spt_hub_bench_load(bench, load, NULL)) {
        *at_load = NONE;
        return false;
    }
    *at_load = load;
    return !spt_hub_bench_factors(bench, false, running_mm - bench->thermal_mm, factors, NULL);
}

bool spt_uncertain_find_factors(struct spt_uncertain_part *part, const double *values,
                                double (*factors)[2])
{
    const struct spt_uncertain_hub *hub = part->job->hub;
    double running_mm = hub->running_mm + values[SPT_UNCERTAIN_END_PLAY];
    double load = values[SPT_UNCERTAIN_LOAD];
    part->preloaded += spt_hub_preload(running_mm - hub->thermal_mm, hub->thermal_mm) > 0;
    if (!part->job->solve && spt_setting_table_read(&hub->table, running_mm, load, factors))
        return true;
    part->direct++;
    if (solve_setting(part, running_mm, load, factors))
        return true;
    part->unsettled++;
    return false;
}

static void *fill_nodes(void *context)
{
    struct spt_uncertain_part *part = context;
    struct spt_uncertain_hub *hub = part->job->hub;
    hub->bench_loads[part->number] = NONE; /* filling the table changes it */
    spt_setting_table_fill(&hub->table, &hub->benches[part->number], part->first, part->last);
    return NULL;
}

/* The range of a distribution; an unbounded one is cut off at the quantiles where its tails begin.
 */
static enum spt_status find_ends(const struct spt_random_input *input, double ends[2])
{
    ends[0] = input->low;
    ends[1] = input->high;
    if (input->spread != SPT_RANDOM_NORMAL && input->spread != SPT_RANDOM_LOGNORMAL)
        return SPT_OK;
    enum spt_status status = spt_random_value(input, TAIL, &ends[0]);
    return status ? status : spt_random_value(input, 1 - TAIL, &ends[1]);
}

static enum spt_status begin_table(const struct spt_uncertain_job *job,
                                   struct spt_uncertain_hub *hub)
{
    const struct spt_random_input *inputs = job->uncertainty->inputs;
    const struct spt_random_input *play = &inputs[SPT_UNCERTAIN_END_PLAY];
    double settings_mm[2] = {0, 0}, loads[2] = {1, 1};
    enum spt_status status = SPT_OK;
    if (play->spread != SPT_RANDOM_FIXED)
        status = find_ends(play, settings_mm);
    if (!status && inputs[SPT_UNCERTAIN_LOAD].spread != SPT_RANDOM_FIXED) {
        status = find_ends(&inputs[SPT_UNCERTAIN_LOAD], loads);
        loads[0] = fmax(loads[0], loads[1] / LOADS_WITHIN);
    }
    for (int i = 0; i < 2; i++)
        settings_mm[i] += hub->running_mm - spt_uncertain_offset(play);
    if (!status)
        spt_setting_table_begin(&hub->table, job->workspace->setting_table,
                                job->question->bearings[0].phase_count, settings_mm, loads);
    return status;
}

/* Largest relative difference of two sets of lives; a sample without a life in both counts as
 * equal. */
static double compare_lives(const double *lives, const double *wanted, int count)
{
    double worst = 0;
    for (int i = 0; i < count; i++) {
        bool alike = lives[i] == wanted[i] || (isnan(lives[i]) && isnan(wanted[i]));
        double apart = alike || wanted[i] == 0 ? (double)INFINITY : fabs(lives[i] / wanted[i] - 1);
        if (!alike)
            worst = fmax(worst, isnan(apart) ? (double)INFINITY : apart);
    }
    return worst;
}

/* Largest relative change of the lives of the first samples when only every second node of the
 * table is used.
 */
static double try_coarser(const struct spt_uncertain_job *check, const double *lives,
                          bool along_load)
{
    double coarser[CHECKS] = {0};
    struct spt_uncertain_job trial = *check;
    struct spt_setting_table *table = &check->hub->table, kept = *table;
    int *step = along_load ? &table->load_step : &table->setting_step;
    *step *= 2;
    trial.system_lives = coarser;
    spt_uncertain_run(&trial, NULL);
    *table = kept;
    return compare_lives(coarser, lives, check->count);
}

/* Doubles the nodes along the setting or the load, whichever matters more. */
static bool refine(const struct spt_uncertain_job *check, const double *lives)
{
    struct spt_setting_table *table = &check->hub->table;
    bool along_load =
        table->load_step && (!table->setting_step ||
                             try_coarser(check, lives, true) > try_coarser(check, lives, false));
    return spt_setting_table_refine(table, along_load) ||
           spt_setting_table_refine(table, !along_load);
}

/* Fills the table and refines it until it agrees with direct solves. */
static void check_table(const struct spt_uncertain_job *plain,
                        struct spt_uncertainty_result *result)
{
    double solved[CHECKS], lives[CHECKS];
    struct spt_uncertain_job check = *plain;
    struct spt_setting_table *table = &plain->hub->table;
    check.count = plain->count < CHECKS ? plain->count : CHECKS;
    check.bearing_lives[0] = check.bearing_lives[1] = NULL;
    check.system_lives = solved;
    check.solve = true;
    spt_uncertain_run(&check, NULL);
    check.solve = false;
    do {
        spt_uncertain_share_out(&check, spt_setting_table_count(table), fill_nodes, NULL);
        check.system_lives = lives;
        spt_uncertain_run(&check, NULL);
        result->setting.error = compare_lives(lives, solved, check.count);
    } while (result->setting.error > SPT_UNCERTAIN_SETTING_ALLOWED && refine(&check, lives));
    result->setting.checked = check.count;
    result->setting.nodes = spt_setting_table_count(table);
}

enum spt_status spt_uncertain_begin_hub(struct spt_uncertain_job *job,
                                        struct spt_uncertain_hub *hub,
                                        struct spt_uncertainty_result *result)
{
    const struct spt_random_input *inputs = job->uncertainty->inputs;
    if (!job->question->hub || !job->workspace->hub_workspaces ||
        (inputs[SPT_UNCERTAIN_END_PLAY].spread == SPT_RANDOM_FIXED &&
         inputs[SPT_UNCERTAIN_LOAD].spread == SPT_RANDOM_FIXED))
        return SPT_OK;
    for (int i = 0; i < job->workspace->threads; i++) {
        enum spt_status status = spt_hub_bench_set(
            job->question, &job->workspace->hub_workspaces[i], &hub->benches[i], NULL);
        if (status)
            return status;
        hub->bench_loads[i] = 1;
    }
    hub->thermal_mm = hub->benches[0].thermal_mm;
    hub->running_mm = hub->benches[0].mounted_mm + hub->thermal_mm;
    enum spt_status status = begin_table(job, hub);
    if (status)
        return status;
    job->hub = hub;
    result->setting.varies = true;
    check_table(job, result);
    return SPT_OK;
}

size_t spt_uncertainty_table_length(const struct spt_case *question)
{
    return question->hub ? spt_setting_table_length(question->bearings[0].phase_count) : 0;
}
