/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/numeric.h"
#include "spalltime/lubricant.h"
#include "spalltime/setting.h"

#define SAME_MM 1e-12

/* Converts a running setting of the study to the mounted setting, which a workshop sets. */
static void mount(struct spt_setting_point *point, double thermal_mm)
{
    point->setting_mm -= thermal_mm;
}

static void mount_study(struct spt_setting_study *study, double thermal_mm)
{
    mount(&study->best, thermal_mm);
    mount(&study->advised, thermal_mm);
    mount(&study->asked, thermal_mm);
    study->kept_from_mm -= thermal_mm;
    study->kept_to_mm -= thermal_mm;
    study->aim_mm -= thermal_mm;
}

static enum spt_status fail(const struct spt_hub_bench *bench, enum spt_status status,
                            int failed_case, double running_mm, struct spt_hub_failure *failure)
{
    const char *phase =
        failed_case < 0 ? NULL : bench->question->bearings[0].phases[failed_case].name;
    if (status != SPT_OK && failure != NULL)
        *failure = (struct spt_hub_failure){status, SPT_HUB_STEP_SETTING, phase,
                                            running_mm - bench->thermal_mm};
    return status;
}

static enum spt_status look(const struct spt_hub_bench *bench, double mounted_mm,
                            struct spt_hub_curve *curve, struct spt_setting_point *point,
                            struct spt_hub_failure *failure)
{
    struct spt_setting_duty duty = spt_hub_bench_duty(bench);
    int failed;
    double running_mm = mounted_mm + bench->thermal_mm;
    enum spt_status status =
        spt_setting_life(&bench->model, &duty, running_mm, NULL, point, &failed);
    point->setting_mm = mounted_mm;
    point->relative = point->life_mrev / curve->study.best.life_mrev;
    return fail(bench, status, failed, running_mm, failure);
}

static enum spt_status find_study(const struct spt_hub_bench *bench, struct spt_hub_curve *curve,
                                  struct spt_hub_failure *failure)
{
    const struct spt_hub_case *hub = bench->question->hub;
    struct spt_setting_duty duty = spt_hub_bench_duty(bench);
    struct spt_setting_study *study = &curve->study;
    const struct spt_setting_inputs inputs = {
        .lowest_mm = hub->lowest_mm + bench->thermal_mm,
        .highest_mm = hub->highest_mm + bench->thermal_mm,
        .setting_mm = bench->mounted_mm + bench->thermal_mm,
        .scatter_mm = hub->scatter_mm,
        .limited = !hub->preload_allowed,
        .least_mm = spt_hub_bench_least(bench) + bench->thermal_mm,
    };
    enum spt_status status = spt_setting_study(&bench->model, &duty, &inputs, study);
    if (status != SPT_OK)
        return fail(bench, status, study->failed_case, study->failed_mm, failure);
    mount_study(study, bench->thermal_mm);
    /* these are mounted settings, which the study would take as running ones */
    status = look(bench, 0, curve, &study->zero, failure);
    if (status == SPT_OK)
        status = look(bench, SPT_HUB_PLAY_LOW_MM, curve, &study->play_low, failure);
    if (status == SPT_OK)
        status = look(bench, SPT_HUB_PLAY_HIGH_MM, curve, &study->play_high, failure);
    return status;
}

/* Makes the duty for modified reference lives; false where a phase that turns has none. */
static bool make_reference_duty(const struct spt_hub_bench *bench,
                                const struct spt_assessment *assessment,
                                struct spt_setting_case *cases, struct spt_setting_duty *duty)
{
    *duty = spt_hub_bench_duty(bench);
    for (int i = 0; i < duty->count; i++) {
        cases[i] = duty->cases[i];
        for (int row = 0; row < 2; row++) {
            const struct spt_phase_result *result = &assessment->bearings[row].phases[i];
            cases[i].life_factor[row] = 1;
            cases[i].lubrication[row] = spt_hub_lubrication_of(result);
            if (!(cases[i].speed_rpm > 0))
                continue;
            if (!(cases[i].lubrication[row].viscosity_ratio >= SPT_KAPPA_MIN))
                return false;
            cases[i].life_factor[row] = assessment->reliability_factor * result->water_factor;
        }
    }
    duty->cases = cases;
    duty->modified = true;
    duty->reliability_percent = bench->question->reliability_percent;
    return true;
}

/* The modified reference life as a function of the setting. */
struct reference {
    const struct spt_hub_bench *bench;
    const struct spt_setting_duty *duty;
    struct spt_setting_trail *trail;
};

/* Objective function -ln L; 0, as for a life of 1 h, where there is no life. */
static double rate_reference(double mounted_mm, void *context)
{
    const struct reference *reference = context;
    struct spt_setting_point point;
    if (spt_setting_life(&reference->bench->model, reference->duty,
                         mounted_mm + reference->bench->thermal_mm, reference->trail, &point,
                         NULL) != SPT_OK ||
        !(point.life_h > 0) || !isfinite(point.life_h))
        return 0;
    return -log(point.life_h);
}

/* Refines the maximum between the neighbours of the best point; unchanged where these do not
 * bracket it. */
static void refine(struct reference *reference, struct spt_hub_curve *curve, int best)
{
    gsl_function function = {rate_reference, reference};
    double found;
    if (!isnan(curve->reference_h[best - 1]) && !isnan(curve->reference_h[best + 1]) &&
        spt_numeric_minimum(&function, curve->points[best - 1].setting_mm,
                            curve->points[best].setting_mm, curve->points[best + 1].setting_mm,
                            &found) == SPT_OK)
        curve->reference_best_mm = found;
}

static void find_references(const struct spt_hub_bench *bench,
                            const struct spt_assessment *assessment, struct spt_hub_curve *curve)
{
    struct spt_setting_case cases[SPT_HUB_PHASES_MAX];
    struct spt_setting_duty duty;
    struct spt_setting_trail trail = {.known = {false}};
    bool known = make_reference_duty(bench, assessment, cases, &duty);
    double longest_h = 0;
    int best = -1;
    curve->reference_best_mm = (double)NAN;
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++) {
        struct spt_setting_point point;
        double mounted_mm = curve->points[i].setting_mm;
        curve->reference_h[i] = (double)NAN;
        if (!known || spt_setting_life(&bench->model, &duty, mounted_mm + bench->thermal_mm, &trail,
                                       &point, NULL) != SPT_OK)
            continue;
        curve->reference_h[i] = point.life_h;
        if (point.life_h > longest_h) {
            longest_h = point.life_h;
            curve->reference_best_mm = mounted_mm;
            best = i;
        }
    }
    struct reference reference = {bench, &duty, &trail};
    if (best > 0 && best < SPT_HUB_CURVE_POINTS - 1)
        refine(&reference, curve, best);
}

/* Mounted setting of a point of the curve; a setting of zero is exactly 0, without round-off. */
static double place_point(const struct spt_hub_case *hub, int i)
{
    double share = (double)i / (SPT_HUB_CURVE_POINTS - 1);
    double mounted_mm = hub->lowest_mm + share * (hub->highest_mm - hub->lowest_mm);
    return fabs(mounted_mm) < SAME_MM ? 0 : mounted_mm;
}

enum spt_status spt_hub_curve(struct spt_hub_bench *bench, const struct spt_assessment *assessment,
                              struct spt_hub_curve *curve, struct spt_hub_failure *failure)
{
    const struct spt_hub_case *hub = bench->question->hub;
    enum spt_status status = spt_hub_bench_rate(bench);
    if (status != SPT_OK) {
        if (failure != NULL)
            *failure = (struct spt_hub_failure){status, SPT_HUB_STEP_LIVES, NULL, (double)NAN};
        return status;
    }
    *curve = (struct spt_hub_curve){
        .hub = hub,
        .thermal_mm = bench->thermal_mm,
        .least_mm = spt_hub_bench_least(bench),
        .modified = bench->modified,
    };
    status = find_study(bench, curve, failure);
    for (int i = 0; i < SPT_HUB_CURVE_POINTS && status == SPT_OK; i++) {
        status = look(bench, place_point(hub, i), curve, &curve->points[i], failure);
    }
    if (status == SPT_OK)
        find_references(bench, assessment, curve);
    return status;
}
