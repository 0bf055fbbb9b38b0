/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/cost.h"
#include "study/ask/ask_workspace.h"
#include "study/life/greasing.h"

/* True where free water is found in any phase at the coldest standstill. */
static bool rusts(const struct spt_case *question)
{
    double free_ppm;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++)
            if (spt_condition_is_wet_cold(question, &question->bearings[i].phases[j].condition,
                                          &free_ppm))
                return true;
    return false;
}

static void tell_life(const struct spt_schedule *schedule, struct spt_cost_result *result)
{
    result->l10_h = schedule->fatigue_lives.l10_h;
    if (isnan(result->l10_h) && schedule->life_known)
        result->l10_h = (double)INFINITY;
    result->interval_h = schedule->greasing.interval_h;
    result->replace_h = schedule->replace_h;
    result->rusts = rusts(schedule->question);
}

/* One case, with the service as far as it holds for any. */
static enum spt_status pay(const struct spt_cost_inputs *asked, struct spt_arena *arena,
                           struct spt_cost_result *result, struct spt_error *error)
{
    struct spt_plan_inputs inputs = asked->plan;
    struct spt_service *service = spt_arena_allocate(arena, sizeof *service);
    struct spt_maintenance *plan = spt_arena_allocate(arena, sizeof *plan);
    if (!service || !plan)
        return spt_error_set(error, SPT_NO_MEMORY, NULL);
    inputs.uncertainty = NULL;
    if (inputs.service) {
        *service = *inputs.service;
        service->event_count = 0;
        service->cases = NULL;
        inputs.service = service;
    }
    enum spt_status status = spt_ask_schedule(&inputs, arena, plan, error);
    if (status)
        return status;
    tell_life(&plan->schedule, result);
    status = spt_cost_plan(&plan->schedule, &asked->costs, &result->money);
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}

enum spt_status spt_ask_costs(const struct spt_cost_inputs *cases, int count,
                              struct spt_arena *arena, struct spt_cost_result *results,
                              struct spt_error *error)
{
    for (int i = 0; i < count; i++) {
        results[i] = (struct spt_cost_result){.payback_years = (double)NAN};
        enum spt_status status = pay(&cases[i], arena, &results[i], error);
        if (status)
            return status;
        spt_cost_compare(&results[0], &cases[i].costs, cases[i].plan.question->units, &results[i]);
    }
    return SPT_OK;
}
