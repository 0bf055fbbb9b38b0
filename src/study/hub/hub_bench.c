/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "base/quotient.h"
#include "spalltime/assess.h"
#include "study/hub/cage_damage.h"
#include "study/hub/setting_store.h"

_Static_assert(SPT_HUB_PHASES_MAX <= SPT_SETTING_CASES_MAX, "every phase is a case of a setting");

static int count_phases(const struct spt_case *question)
{
    return question->bearings[0].phase_count;
}

static const struct spt_phase *phase_of(const struct spt_hub_bench *bench, int row, int phase)
{
    return &bench->question->bearings[row].phases[phase];
}

/* Stores the reason of a failure. Result: the status. */
static enum spt_status fail(struct spt_hub_failure *failure, enum spt_status status,
                            enum spt_hub_step step, const char *phase, double mounted_mm)
{
    if (status != SPT_OK && failure != NULL)
        *failure = (struct spt_hub_failure){status, step, phase, mounted_mm};
    return status;
}

#define TRAIL_LENGTH ((sizeof(struct spt_hub_trail) + sizeof(double) - 1) / sizeof(double))

/* Two models, and the balances of each phase at its reference. */
size_t spt_hub_bench_workspace_length(const struct spt_case *question)
{
    return 2 * spt_hub_workspace_length(&question->hub->hub) +
           (size_t)count_phases(question) * TRAIL_LENGTH;
}

static enum spt_status prepare(struct spt_hub_bench *bench)
{
    const struct spt_hub_workspace *workspace = bench->workspace;
    struct spt_hub hub = bench->question->hub->hub;
    size_t half = spt_hub_workspace_length(&hub);
    if (half == 0)
        return SPT_BAD_ARGUMENT;
    if (workspace->buffer_length < spt_hub_bench_workspace_length(bench->question))
        return SPT_TOO_SMALL;
    bench->references = (struct spt_hub_trail *)(void *)(workspace->buffer + 2 * half);
    enum spt_status status = spt_hub_prepare(&hub, workspace->buffer, half, &bench->model);
    for (int i = 0; i < 2; i++)
        hub.rows[i].misalignment_x_rad = hub.rows[i].misalignment_y_rad = 0;
    if (status == SPT_OK)
        status = spt_hub_prepare(&hub, workspace->buffer + half, half, &bench->aligned);
    return status;
}

/* Finds the mounted setting that the case states and its change by temperature. */
static enum spt_status find_setting(struct spt_hub_bench *bench)
{
    const struct spt_hub_case *hub = bench->question->hub;
    enum spt_status status = spt_hub_thermal_setting(
        &hub->hub, SPT_HUB_STEEL_EXPANSION_K, hub->temperature_difference_k, &bench->thermal_mm);
    bench->thermal_mm += 0.0; /* turns -0 into 0 */
    bench->mounted_mm =
        hub->setting_kind == SPT_HUB_SET_END_PLAY ? hub->setting_value : -hub->setting_value;
    if (status == SPT_OK && hub->setting_kind == SPT_HUB_SET_PRELOAD_FORCE)
        status = spt_hub_preload_setting(&bench->model, hub->setting_value, &bench->mounted_mm);
    return status;
}

static struct spt_hub_load scale_load(struct spt_hub_load load, double factor)
{
    return (struct spt_hub_load){load.force_x_n * factor, load.force_y_n * factor,
                                 load.force_z_n * factor, load.moment_x_nmm * factor,
                                 load.moment_y_nmm * factor};
}

static void fill_cases(struct spt_hub_bench *bench, double factor)
{
    for (int i = 0; i < count_phases(bench->question); i++) {
        const struct spt_phase *phase = phase_of(bench, 0, i);
        bench->workspace->cases[i] = (struct spt_setting_case){
            .load = scale_load(spt_hub_wheel_load(&bench->question->hub->wheels[i]), factor),
            .time_share = phase->time_share,
            .speed_rpm = phase->speed_rpm,
            .lubrication = {{(double)NAN, (double)NAN}, {(double)NAN, (double)NAN}},
            .life_factor = {1, 1},
        };
    }
}

/* L10r of both rows of one phase, averaged over the cages. */
static enum spt_status find_phase_life(const struct spt_hub_bench *bench,
                                       const struct spt_hub_model *model, int phase,
                                       double running_mm, struct spt_hub_trail *trail,
                                       double row_mrev[2])
{
    struct spt_cage_damage damage;
    const struct spt_cage_question question = {.model = model,
                                               .positions = SPT_HUB_CAGE_POSITIONS,
                                               .setting_mm = running_mm,
                                               .load = &bench->workspace->cases[phase].load};
    enum spt_status status = spt_cage_damage(&question, trail, &damage);
    for (int row = 0; row < 2; row++)
        row_mrev[row] = status == SPT_OK ? spt_quotient(1, damage.basic[row]) : (double)NAN;
    return status;
}

static enum spt_status find_references(struct spt_hub_bench *bench, struct spt_hub_failure *failure)
{
    for (int i = 0; i < count_phases(bench->question); i++) {
        double *row_mrev = bench->workspace->reference_mrev[i];
        struct spt_hub_trail *trail = &bench->references[i];
        *trail = (struct spt_hub_trail){.known = {false}};
        row_mrev[0] = row_mrev[1] = (double)NAN;
        if (!(bench->workspace->cases[i].speed_rpm > 0))
            continue;
        enum spt_status status = find_phase_life(bench, &bench->aligned, i, 0, trail, row_mrev);
        if (status == SPT_OK && !isfinite(row_mrev[0] + row_mrev[1]))
            status = SPT_NOT_APPLICABLE; /* an unloaded row has no reference life */
        if (status != SPT_OK)
            return fail(failure, status, SPT_HUB_STEP_REFERENCE, phase_of(bench, 0, i)->name,
                        -bench->thermal_mm);
    }
    return SPT_OK;
}

enum spt_status spt_hub_bench_set(const struct spt_case *question,
                                  const struct spt_hub_workspace *workspace,
                                  struct spt_hub_bench *bench, struct spt_hub_failure *failure)
{
    *bench = (struct spt_hub_bench){
        .question = question, .workspace = workspace, .cured_mm = (double)NAN};
    if (question->hub == NULL || count_phases(question) > SPT_HUB_PHASES_MAX)
        return fail(failure, SPT_BAD_ARGUMENT, SPT_HUB_STEP_START, NULL, (double)NAN);
    enum spt_status status = prepare(bench);
    if (status != SPT_OK)
        return fail(failure, status, SPT_HUB_STEP_START, NULL, (double)NAN);
    status = find_setting(bench);
    if (status != SPT_OK)
        return fail(failure, status, SPT_HUB_STEP_FORCE, NULL, (double)NAN);
    fill_cases(bench, 1);
    return find_references(bench, failure);
}

enum spt_status spt_hub_bench_load(struct spt_hub_bench *bench, double factor,
                                   struct spt_hub_failure *failure)
{
    if (!(factor > 0) || isinf(factor))
        return fail(failure, SPT_BAD_ARGUMENT, SPT_HUB_STEP_START, NULL, (double)NAN);
    bench->rated = false;
    fill_cases(bench, factor);
    return find_references(bench, failure);
}

enum spt_status spt_hub_bench_factors(const struct spt_hub_bench *bench, bool aligned,
                                      double mounted_mm, double (*factors)[2],
                                      struct spt_hub_failure *failure)
{
    const struct spt_hub_model *model = aligned ? &bench->aligned : &bench->model;
    for (int i = 0; i < count_phases(bench->question); i++) {
        /* from the reference, so that no answer depends on those before it */
        struct spt_hub_trail trail = bench->references[i];
        double row_mrev[2];
        factors[i][0] = factors[i][1] = 1;
        if (!(bench->workspace->cases[i].speed_rpm > 0))
            continue;
        enum spt_status status =
            find_phase_life(bench, model, i, mounted_mm + bench->thermal_mm, &trail, row_mrev);
        if (status != SPT_OK)
            return fail(failure, status, SPT_HUB_STEP_SETTING, phase_of(bench, 0, i)->name,
                        mounted_mm);
        for (int row = 0; row < 2; row++)
            factors[i][row] = row_mrev[row] / bench->workspace->reference_mrev[i][row];
    }
    return SPT_OK;
}

double spt_hub_bench_least(const struct spt_hub_bench *bench)
{
    return fmax(0, -bench->thermal_mm);
}

double spt_hub_bench_least_advised(const struct spt_hub_bench *bench)
{
    const struct spt_hub_case *hub = bench->question->hub;
    double advised_mm = spt_hub_bench_least(bench) + SPT_SETTING_MARGIN * hub->scatter_mm;
    return advised_mm < hub->highest_mm ? advised_mm : spt_hub_bench_least(bench);
}

double spt_hub_preload(double mounted_mm, double thermal_mm)
{
    double preload_mm = -fmin(mounted_mm, mounted_mm + thermal_mm);
    return preload_mm < SPT_HUB_PRELOAD_LEAST_MM ? 0 : preload_mm;
}

double spt_hub_bench_preload(const struct spt_hub_bench *bench, double mounted_mm)
{
    return spt_hub_preload(mounted_mm, bench->thermal_mm);
}

enum spt_status spt_hub_bench_case(const struct spt_hub_bench *bench, double mounted_mm,
                                   struct spt_phase *phases, struct spt_case *changed,
                                   struct spt_hub_failure *failure)
{
    int count = count_phases(bench->question);
    double(*factors)[2] = bench->workspace->factors;
    *changed = *bench->question;
    changed->setting = (struct spt_case_setting){
        .end_play_mm = mounted_mm, .preload_mm = spt_hub_bench_preload(bench, mounted_mm)};
    enum spt_status status = spt_hub_bench_factors(bench, false, mounted_mm, factors, failure);
    if (status != SPT_OK)
        return status;
    for (int row = 0; row < 2; row++, phases += count) {
        for (int i = 0; i < count; i++) {
            phases[i] = *phase_of(bench, row, i);
            phases[i].setting_factor = phases[i].cured_setting_factor = factors[i][row];
        }
        changed->bearings[row].phases = phases;
    }
    return SPT_OK;
}

/* Writes the cured factors to the phases of the workspace, which spt_hub_bench_case has filled. */
static void put_cured(const struct spt_hub_bench *bench)
{
    int count = count_phases(bench->question);
    for (int row = 0; row < 2; row++)
        for (int i = 0; i < count; i++)
            bench->workspace->phases[row * count + i].cured_setting_factor =
                bench->workspace->factors[i][row];
}

struct spt_hub_lubrication spt_hub_lubrication_of(const struct spt_phase_result *result)
{
    struct spt_hub_lubrication lubrication = {result->contamination_factor,
                                              result->effective_viscosity_ratio};
    if (isnan(lubrication.contamination_factor) || isnan(lubrication.viscosity_ratio))
        lubrication = (struct spt_hub_lubrication){(double)NAN, (double)NAN};
    return lubrication;
}

/* Life factors of one row out of its phases' lives; false where a phase lacks one. */
static bool rate_row(struct spt_hub_bench *bench, int row, bool modified)
{
    const struct spt_phase_result *results = bench->workspace->results;
    bool turns = false;
    for (int i = 0; i < count_phases(bench->question); i++) {
        struct spt_setting_case *c = &bench->workspace->cases[i];
        if (!(c->speed_rpm > 0))
            continue;
        double life_h =
            modified ? results[i].modified_rating_life_h : results[i].basic_rating_life_h;
        c->life_factor[row] =
            life_h * 60 * c->speed_rpm / 1e6 / bench->workspace->reference_mrev[i][row];
        if (!(c->life_factor[row] > 0) || isinf(c->life_factor[row]))
            return false;
        turns = turns || c->time_share > 0;
    }
    return turns;
}

enum spt_status spt_hub_bench_rate(struct spt_hub_bench *bench)
{
    for (int modified = 1; modified >= 0 && !bench->rated; modified--) {
        bench->rated = bench->modified = modified;
        bench->rated = true;
        for (int row = 0; row < 2 && bench->rated; row++) {
            struct spt_bearing_result result;
            enum spt_status status =
                spt_assess_bearing(bench->question, row, 0, bench->workspace->results, &result);
            if (status != SPT_OK)
                return status;
            bench->rated = rate_row(bench, row, modified);
        }
    }
    return bench->rated ? SPT_OK : SPT_NOT_APPLICABLE;
}

struct spt_setting_duty spt_hub_bench_duty(const struct spt_hub_bench *bench)
{
    return (struct spt_setting_duty){
        .cases = bench->workspace->cases,
        .count = count_phases(bench->question),
        .cage_positions = SPT_HUB_CAGE_POSITIONS,
        .reliability_percent =
            bench->modified ? bench->question->reliability_percent : SPT_BASIC_RELIABILITY,
    };
}

enum spt_status spt_hub_bench_best(const struct spt_hub_bench *bench, bool aligned, double least_mm,
                                   double *best_mm, struct spt_hub_failure *failure)
{
    const struct spt_hub_case *hub = bench->question->hub;
    struct spt_setting_duty duty = spt_hub_bench_duty(bench);
    const struct spt_setting_terms terms = {aligned ? &bench->aligned : &bench->model, &duty, NULL};
    struct spt_setting_study study;
    struct spt_setting_store store;
    double lowest_mm = hub->preload_allowed ? hub->lowest_mm : fmax(hub->lowest_mm, least_mm);
    const struct spt_setting_inputs question = {
        .lowest_mm = lowest_mm + bench->thermal_mm,
        .highest_mm = hub->highest_mm + bench->thermal_mm,
        .setting_mm = lowest_mm + bench->thermal_mm,
    };
    *best_mm = (double)NAN;
    if (!(question.lowest_mm < question.highest_mm))
        return SPT_OK;
    spt_setting_store_begin(&store, &terms);
    enum spt_status status = spt_setting_best_of(&store, &question, &study);
    *best_mm = study.best.setting_mm - bench->thermal_mm;
    if (status != SPT_OK)
        fail(failure, status, SPT_HUB_STEP_SETTING,
             study.failed_case < 0 ? NULL : phase_of(bench, 0, study.failed_case)->name,
             study.failed_mm - bench->thermal_mm);
    return status;
}

/* Life of the duty at a mounted setting, rings aligned; NaN where the setting is NaN. */
static enum spt_status find_aligned_life(const struct spt_hub_bench *bench, double mounted_mm,
                                         double *life_mrev)
{
    struct spt_setting_duty duty = spt_hub_bench_duty(bench);
    struct spt_setting_point point;
    *life_mrev = (double)NAN;
    if (isnan(mounted_mm))
        return SPT_OK;
    enum spt_status status = spt_setting_life(&bench->aligned, &duty,
                                              mounted_mm + bench->thermal_mm, NULL, &point, NULL);
    *life_mrev = point.life_mrev;
    return status;
}

/* Finds whether the present setting has a longer life than the cured one, rings aligned for
 * both. */
static enum spt_status weigh_cure(struct spt_hub_bench *bench, struct spt_hub_failure *failure)
{
    double cured_mrev, kept_mrev = (double)NAN;
    enum spt_status status = find_aligned_life(bench, bench->cured_mm, &cured_mrev);
    if (status == SPT_OK)
        status = find_aligned_life(bench, bench->mounted_mm, &kept_mrev);
    bench->cure_keeps = !(cured_mrev >= kept_mrev);
    return fail(failure, status, SPT_HUB_STEP_SETTING, NULL, bench->mounted_mm);
}

/* Fills in how the present setting differs from the cured one. */
static void fill_setting(const struct spt_hub_bench *bench, double cured_mm,
                         struct spt_case_setting *setting)
{
    setting->offset_mm = bench->mounted_mm - cured_mm;
    if (!bench->cure_keeps)
        setting->cured_preload_mm = spt_hub_bench_preload(bench, cured_mm);
    for (int i = 0; i < 2; i++) {
        const struct spt_hub_row *row = &bench->question->hub->hub.rows[i];
        if (row->misalignment_x_rad != 0 || row->misalignment_y_rad != 0)
            setting->tilted = true;
    }
}

/* Sets the cured factors, unless the duty has no finite life to be maximised. */
static enum spt_status put_cure(struct spt_hub_bench *bench, struct spt_case *settled,
                                struct spt_hub_failure *failure)
{
    enum spt_status status = spt_hub_bench_rate(bench);
    if (status == SPT_NOT_APPLICABLE)
        return SPT_OK;
    if (status == SPT_OK)
        status = spt_hub_bench_best(bench, true, spt_hub_bench_least_advised(bench),
                                    &bench->cured_mm, failure);
    if (status == SPT_OK)
        status = weigh_cure(bench, failure);
    double cured_mm = bench->cure_keeps ? bench->mounted_mm : bench->cured_mm;
    if (status == SPT_OK)
        status = spt_hub_bench_factors(bench, true, cured_mm, bench->workspace->factors, failure);
    if (status != SPT_OK)
        return status;
    put_cured(bench);
    fill_setting(bench, cured_mm, &settled->setting);
    return SPT_OK;
}

enum spt_status spt_hub_settle(const struct spt_case *question,
                               const struct spt_hub_workspace *workspace, bool with_cure,
                               struct spt_hub_bench *bench, struct spt_case *settled,
                               struct spt_hub_failure *failure)
{
    *settled = *question;
    enum spt_status status = spt_hub_bench_set(question, workspace, bench, failure);
    if (status == SPT_OK)
        status = spt_hub_bench_case(bench, bench->mounted_mm, workspace->phases, settled, failure);
    if (status == SPT_OK && with_cure)
        status = put_cure(bench, settled, failure);
    return status;
}
