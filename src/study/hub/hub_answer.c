/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/assess.h"
#include "spalltime/setting.h"

/* Million revolutions to hours; NaN where the phase does not turn. */
static double to_hours(double life_mrev, double speed_rpm)
{
    double life_h = (double)NAN;
    if (isnan(life_mrev) || spt_life_hours(life_mrev, speed_rpm, &life_h) != SPT_OK)
        return (double)NAN;
    return life_h;
}

static double find_handbook_life(const struct spt_phase_result *result, double a1)
{
    if (isinf(result->basic_rating_life_h))
        return result->basic_rating_life_h;
    return a1 * result->factor.a_iso * result->water_factor * result->basic_rating_life_h;
}

static void fill_row(const struct spt_hub_result *distribution, int row,
                     const struct spt_phase_result *result, double a1,
                     struct spt_hub_row_answer *answer)
{
    const struct spt_hub_life *life = &distribution->life[row];
    double rpm = result->phase->speed_rpm;
    *answer = (struct spt_hub_row_answer){
        .contact = distribution->contact[row],
        .radial_n = distribution->solution.radial_n[row],
        .axial_n = distribution->solution.axial_n[row],
        .l10r_h = to_hours(life->l10r_mrev, rpm),
        .relative_factor = life->relative_factor,
        .relative_life_h = to_hours(life->relative_life_mrev, rpm),
        .modified_reference_h = a1 * result->water_factor * to_hours(life->modified_mrev, rpm),
        .setting_factor = result->phase->setting_factor,
        .handbook_life_h = find_handbook_life(result, a1),
    };
}

static enum spt_status fill_phase(const struct spt_hub_bench *bench,
                                  const struct spt_assessment *assessment, int phase,
                                  struct spt_hub_phase_answer *answer)
{
    const struct spt_phase_result *results[2] = {&assessment->bearings[0].phases[phase],
                                                 &assessment->bearings[1].phases[phase]};
    const struct spt_hub_lubrication lubrication[2] = {spt_hub_lubrication_of(results[0]),
                                                       spt_hub_lubrication_of(results[1])};
    const struct spt_hub_case *hub = bench->question->hub;
    const struct spt_hub_load *load = &bench->workspace->cases[phase].load;
    struct spt_hub_result distribution = {.laminae = 0};
    answer->phase = results[0]->phase->name;
    answer->wheel = hub->wheels[phase];
    enum spt_status status = spt_hub_handbook_reactions(&hub->handbook, load, &answer->handbook);
    if (status == SPT_OK)
        status = spt_hub_assess(&bench->model, bench->mounted_mm + bench->thermal_mm, load,
                                lubrication, &distribution);
    if (status == SPT_FREE)
        distribution.solution = (struct spt_hub_solution){.residual_n = 0};
    else if (status != SPT_OK)
        return status;
    answer->solution = distribution.solution;
    for (int row = 0; row < 2; row++)
        fill_row(&distribution, row, results[row], assessment->reliability_factor,
                 &answer->rows[row]);
    return SPT_OK;
}

/* L10r of the whole duty, without any life factor. */
static enum spt_status find_reference_life(const struct spt_hub_bench *bench, double *life_h)
{
    struct spt_setting_case cases[SPT_HUB_PHASES_MAX];
    struct spt_setting_duty duty = spt_hub_bench_duty(bench);
    struct spt_setting_point point;
    for (int i = 0; i < duty.count; i++) {
        cases[i] = duty.cases[i];
        cases[i].life_factor[0] = cases[i].life_factor[1] = 1;
    }
    duty.cases = cases;
    enum spt_status status = spt_setting_life(
        &bench->model, &duty, bench->mounted_mm + bench->thermal_mm, NULL, &point, NULL);
    *life_h = point.life_h;
    return status == SPT_NOT_APPLICABLE ? SPT_OK : status; /* nothing turns: no life */
}

enum spt_status spt_hub_answer(const struct spt_hub_bench *bench,
                               const struct spt_assessment *assessment,
                               struct spt_hub_phase_answer *phases, struct spt_hub_answer *answer,
                               struct spt_hub_failure *failure)
{
    *answer = (struct spt_hub_answer){
        .hub = bench->question->hub,
        .mounted_mm = bench->mounted_mm,
        .thermal_mm = bench->thermal_mm,
        .setting_mm = bench->mounted_mm + bench->thermal_mm,
        .best_mm = bench->cured_mm,
        .cure_keeps = bench->cure_keeps,
        .phase_count = bench->question->bearings[0].phase_count,
        .phases = phases,
    };
    enum spt_status status =
        spt_hub_preload_force(&bench->model, answer->setting_mm, &answer->preload_n);
    if (status == SPT_OK)
        status = find_reference_life(bench, &answer->reference_life_h);
    if (status == SPT_OK)
        status =
            spt_case_life(bench->question, bench->workspace->results, &answer->handbook_life_h);
    const char *phase = NULL;
    for (int i = 0; status == SPT_OK && i < answer->phase_count; i++) {
        phase = bench->question->bearings[0].phases[i].name;
        status = fill_phase(bench, assessment, i, &phases[i]);
    }
    if (status != SPT_OK && failure != NULL)
        *failure = (struct spt_hub_failure){status, SPT_HUB_STEP_SETTING, phase, bench->mounted_mm};
    return status;
}
