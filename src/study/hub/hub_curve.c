/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/numeric.h"
#include "spalltime/lubricant.h"
#include "study/hub/setting_store.h"

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

/* Work on one curve. */
struct work {
    const struct spt_hub_bench *bench;
    struct spt_hub_curve *curve;
    struct spt_setting_store store;
};

static enum spt_status look(struct work *work, double mounted_mm, struct spt_setting_point *point,
                            struct spt_hub_failure *failure)
{
    double running_mm = mounted_mm + work->bench->thermal_mm;
    enum spt_status status = spt_setting_store_find(&work->store, running_mm, point);
    point->setting_mm = mounted_mm;
    return fail(work->bench, status, work->store.failed_case, running_mm, failure);
}

static enum spt_status compare(struct work *work, double mounted_mm,
                               struct spt_setting_point *point, struct spt_hub_failure *failure)
{
    enum spt_status status = look(work, mounted_mm, point, failure);
    point->relative = point->life_mrev / work->curve->study.best.life_mrev;
    return status;
}

static enum spt_status find_study(struct work *work, struct spt_hub_failure *failure)
{
    const struct spt_hub_bench *bench = work->bench;
    const struct spt_hub_case *hub = bench->question->hub;
    struct spt_setting_study *study = &work->curve->study;
    const struct spt_setting_inputs question = {
        .lowest_mm = hub->lowest_mm + bench->thermal_mm,
        .highest_mm = hub->highest_mm + bench->thermal_mm,
        .setting_mm = bench->mounted_mm + bench->thermal_mm,
        .scatter_mm = hub->scatter_mm,
        .limited = !hub->preload_allowed,
        .least_mm = spt_hub_bench_least(bench) + bench->thermal_mm,
    };
    enum spt_status status = spt_setting_study_of(&work->store, &question, study);
    if (status != SPT_OK)
        return fail(bench, status, study->failed_case, study->failed_mm, failure);
    mount_study(study, bench->thermal_mm);
    /* these are mounted settings, which the study would take as running ones */
    status = compare(work, 0, &study->zero, failure);
    if (status == SPT_OK)
        status = compare(work, SPT_HUB_PLAY_LOW_MM, &study->play_low, failure);
    if (status == SPT_OK)
        status = compare(work, SPT_HUB_PLAY_HIGH_MM, &study->play_high, failure);
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

/* Modified reference life at a mounted setting; NaN where there is none. */
static double find_reference(struct work *work, double mounted_mm)
{
    struct spt_setting_point point;
    if (!work->store.terms.reference)
        return (double)NAN;
    spt_setting_store_find_reference(&work->store, mounted_mm + work->bench->thermal_mm, &point);
    return point.life_h;
}

/* Objective function -ln L; 0, as for a life of 1 h, where there is no life. */
static double rate_reference(double mounted_mm, void *work)
{
    double life_h = find_reference(work, mounted_mm);
    return life_h > 0 && isfinite(life_h) ? -log(life_h) : 0;
}

/* Refines the maximum between the neighbours of the best point; unchanged where these do not
 * bracket it. */
static void refine(struct work *work, int best)
{
    struct spt_hub_curve *curve = work->curve;
    gsl_function function = {rate_reference, work};
    double found;
    if (!isnan(curve->reference_h[best - 1]) && !isnan(curve->reference_h[best + 1]) &&
        spt_numeric_minimum(&function, curve->points[best - 1].setting_mm,
                            curve->points[best].setting_mm, curve->points[best + 1].setting_mm,
                            &found) == SPT_OK)
        curve->reference_best_mm = found;
}

static void find_references(struct work *work)
{
    struct spt_hub_curve *curve = work->curve;
    double longest_h = 0;
    int best = -1;
    curve->reference_best_mm = (double)NAN;
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++) {
        double mounted_mm = curve->points[i].setting_mm;
        curve->reference_h[i] = find_reference(work, mounted_mm);
        if (curve->reference_h[i] > longest_h) {
            longest_h = curve->reference_h[i];
            curve->reference_best_mm = mounted_mm;
            best = i;
        }
    }
    if (best > 0 && best < SPT_HUB_CURVE_POINTS - 1)
        refine(work, best);
}

/* Mounted setting of a point of the curve; a setting of zero is exactly 0, without round-off. */
static double place_point(const struct spt_hub_case *hub, int i)
{
    double share = (double)i / (SPT_HUB_CURVE_POINTS - 1);
    double mounted_mm = hub->lowest_mm + share * (hub->highest_mm - hub->lowest_mm);
    return fabs(mounted_mm) < SAME_MM ? 0 : mounted_mm;
}

/* The curve comes first: scan and means of the study find most of their settings in it. Before it
 * the setting as it is, which is the one to name where none has an answer. */
static enum spt_status draw(struct work *work, struct spt_hub_failure *failure)
{
    struct spt_hub_curve *curve = work->curve;
    enum spt_status status = look(work, work->bench->mounted_mm, &curve->points[0], failure);
    for (int i = 0; i < SPT_HUB_CURVE_POINTS && status == SPT_OK; i++)
        status = look(work, place_point(curve->hub, i), &curve->points[i], failure);
    if (status == SPT_OK)
        status = find_study(work, failure);
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++)
        curve->points[i].relative = curve->points[i].life_mrev / curve->study.best.life_mrev;
    if (status == SPT_OK)
        find_references(work);
    curve->study.solves = spt_setting_store_solves(&work->store);
    curve->study.passes = spt_setting_store_passes(&work->store);
    return status;
}

enum spt_status spt_hub_curve(struct spt_hub_bench *bench, const struct spt_assessment *assessment,
                              struct spt_hub_curve *curve, struct spt_hub_failure *failure)
{
    struct spt_setting_case cases[SPT_HUB_PHASES_MAX];
    struct spt_setting_duty duty, reference;
    struct work work;
    enum spt_status status = spt_hub_bench_rate(bench);
    if (status != SPT_OK) {
        if (failure != NULL)
            *failure = (struct spt_hub_failure){status, SPT_HUB_STEP_LIVES, NULL, (double)NAN};
        return status;
    }
    *curve = (struct spt_hub_curve){
        .hub = bench->question->hub,
        .thermal_mm = bench->thermal_mm,
        .least_mm = spt_hub_bench_least(bench),
        .modified = bench->modified,
    };
    duty = spt_hub_bench_duty(bench);
    bool known = make_reference_duty(bench, assessment, cases, &reference);
    const struct spt_setting_terms terms = {&bench->model, &duty, known ? &reference : NULL};
    work.bench = bench;
    work.curve = curve;
    spt_setting_store_begin(&work.store, &terms);
    return draw(&work, failure);
}
