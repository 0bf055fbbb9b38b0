/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/setting.h"

#include <math.h>

#include "model/numeric.h"

/* State of a running study; the first failure ends it. */
struct work {
    const struct spt_hub_model *model;
    const struct spt_setting_duty *duty;
    const struct spt_setting_inputs *inputs;
    struct spt_setting_study *study;
    struct spt_setting_trail trail;
    enum spt_status status;
};

static struct spt_setting_point look(struct work *work, double setting_mm)
{
    struct spt_setting_point point;
    int failed;
    enum spt_status status =
        spt_setting_life(work->model, work->duty, setting_mm, &work->trail, &point, &failed);
    if (status != SPT_OK && work->status == SPT_OK) {
        work->status = status;
        work->study->failed_case = failed;
        work->study->failed_mm = setting_mm;
    }
    return point;
}

/* Objective function -ln L; 0 after a failure, which ends the study. */
static double rate(double setting_mm, void *work)
{
    double life = look(work, setting_mm).life_mrev;
    return isfinite(life) && life > 0 ? -log(life) : 0.0;
}

/* Mean life over settings that are normally distributed about `setting_mm`. */
static double average(struct work *work, double setting_mm)
{
    double life = 0, weights = 0, deviation = work->inputs->scatter_mm;
    if (deviation == 0)
        return look(work, setting_mm).life_mrev;
    for (int i = 0; i < SPT_SETTING_NODES && work->status == SPT_OK; i++) {
        double t = 0.5 * (i - SPT_SETTING_NODES / 2);
        double weight = exp(-0.5 * t * t);
        life += weight * look(work, setting_mm + t * deviation).life_mrev;
        weights += weight;
    }
    return life / weights;
}

static double rate_average(double setting_mm, void *work)
{
    double life = average(work, setting_mm);
    return isfinite(life) && life > 0 ? -log(life) : 0.0;
}

/* Minimum of a function with a value at `middle` below both ends; NaN where there is none. */
static double minimise(struct work *work, double (*rating)(double, void *), double low,
                       double middle, double high)
{
    gsl_function function = {rating, work};
    double found;
    if (work->status != SPT_OK ||
        spt_numeric_minimum(&function, low, middle, high, &found) != SPT_OK)
        return (double)NAN;
    return found;
}

static int count_steps(const struct spt_setting_inputs *q)
{
    return (int)fmax(1, ceil((q->highest_mm - q->lowest_mm) / SPT_SETTING_SCAN_MM - 1e-9));
}

static double place(const struct spt_setting_inputs *q, int step, int steps)
{
    return q->lowest_mm + (q->highest_mm - q->lowest_mm) * step / steps;
}

/* Searches a range for the longest life. Result: true where it lies at an end of the range. */
static bool search(struct work *work, const struct spt_setting_inputs *range,
                   struct spt_setting_point *longest)
{
    int steps = count_steps(range), best = 0;
    for (int i = 0; i <= steps && work->status == SPT_OK; i++) {
        struct spt_setting_point point = look(work, place(range, i, steps));
        if (i == 0 || point.life_mrev > longest->life_mrev) {
            *longest = point;
            best = i;
        }
    }
    if (best == 0 || best == steps || work->status != SPT_OK)
        return true;
    double found = minimise(work, rate, place(range, best - 1, steps), longest->setting_mm,
                            place(range, best + 1, steps));
    /* two equal lives give no bracket: then the best point of the scan is kept */
    struct spt_setting_point point = isnan(found) ? *longest : look(work, found);
    if (point.life_mrev > longest->life_mrev)
        *longest = point;
    return false;
}

static void find_best(struct work *work)
{
    work->study->best_at_limit = search(work, work->inputs, &work->study->best);
}

/* The advised setting: the best one, or the best within the usual range of the trade. */
static void find_advised(struct work *work)
{
    struct spt_setting_study *study = work->study;
    struct spt_setting_inputs range = *work->inputs;
    if (!range.limited || study->best.setting_mm >= range.least_mm) {
        study->advised = study->best;
        return;
    }
    range.lowest_mm = fmax(range.lowest_mm, range.least_mm);
    if (range.lowest_mm < range.highest_mm)
        search(work, &range, &study->advised);
}

/* The setting on one side of the best (way +1 or -1) where the life falls below the share
 * SPT_SETTING_KEPT of the best life. */
static double find_end(struct work *work, double way, double limit, bool *open)
{
    double least = SPT_SETTING_KEPT * work->study->best.life_mrev;
    double kept = work->study->best.setting_mm, lost = kept;
    *open = false;
    do {
        if (lost == limit) {
            *open = true;
            return limit;
        }
        kept = lost;
        lost = kept + way * SPT_SETTING_SCAN_MM;
        if (way * lost >= way * limit)
            lost = limit;
    } while (look(work, lost).life_mrev >= least && work->status == SPT_OK);
    while (fabs(lost - kept) > 1e-6 && work->status == SPT_OK) {
        double middle = 0.5 * (kept + lost);
        *(look(work, middle).life_mrev >= least ? &kept : &lost) = middle;
    }
    return kept;
}

static void find_kept_range(struct work *work)
{
    struct spt_setting_study *s = work->study;
    s->kept_from_mm = find_end(work, -1, work->inputs->lowest_mm, &s->kept_from_open);
    s->kept_to_mm = find_end(work, 1, work->inputs->highest_mm, &s->kept_to_open);
    double below = s->kept_from_open ? HUGE_VAL : s->best.setting_mm - s->kept_from_mm;
    double above = s->kept_to_open ? HUGE_VAL : s->kept_to_mm - s->best.setting_mm;
    s->cliff = SPT_SETTING_CLIFF_NONE;
    if (below < above)
        s->cliff = SPT_SETTING_CLIFF_PRELOAD;
    else if (above < below)
        s->cliff = SPT_SETTING_CLIFF_PLAY;
}

static struct spt_setting_point compare(struct work *work, double setting_mm)
{
    struct spt_setting_point point = look(work, setting_mm);
    point.relative = point.life_mrev / work->study->best.life_mrev;
    return point;
}

static void compare_settings(struct work *work)
{
    struct spt_setting_study *s = work->study;
    s->best.relative = 1;
    s->advised.relative = s->advised.life_mrev / s->best.life_mrev;
    s->asked = compare(work, work->inputs->setting_mm);
    s->zero = compare(work, 0);
    s->play_low = compare(work, SPT_HUB_PLAY_LOW_MM);
    s->play_high = compare(work, SPT_HUB_PLAY_HIGH_MM);
}

static void find_preloads(struct work *work)
{
    struct spt_setting_study *s = work->study;
    if (work->status != SPT_OK || work->model->hub.row_count != 2)
        return;
    work->status = spt_hub_preload_force(work->model, s->best.setting_mm, &s->preload_best_n);
    if (work->status == SPT_OK)
        work->status =
            spt_hub_preload_force(work->model, work->inputs->setting_mm, &s->preload_asked_n);
}

/* The setting with the longest mean life, without regard to any limit. */
static double find_free_aim(struct work *work)
{
    double deviation = work->inputs->scatter_mm, best = work->study->best.setting_mm;
    if (deviation == 0)
        return best;
    /* scatter moves the maximum: search for a bracket in steps of a standard deviation */
    double middle = best, highest = 0;
    for (int i = -2; i <= 4 && work->status == SPT_OK; i++) {
        double life = average(work, best + i * deviation);
        if (life > highest) {
            highest = life;
            middle = best + i * deviation;
        }
    }
    return minimise(work, rate_average, middle - deviation, middle, middle + deviation);
}

static void find_aim(struct work *work)
{
    struct spt_setting_study *s = work->study;
    s->expected_mrev = average(work, work->inputs->setting_mm);
    s->aim_mm = find_free_aim(work);
    double lowest_mm = work->inputs->least_mm + SPT_SETTING_MARGIN * work->inputs->scatter_mm;
    s->aim_limited = work->inputs->limited && s->aim_mm < lowest_mm;
    if (s->aim_limited)
        s->aim_mm = lowest_mm;
    if (!isnan(s->aim_mm))
        s->aim_mrev = average(work, s->aim_mm);
}

static void clear(struct spt_setting_study *study)
{
    const double none = (double)NAN;
    const struct spt_setting_point empty = {none, {none, none}, none, {none, none}, none, none};
    int failed_case = study->failed_case;
    double failed_mm = study->failed_mm;
    *study = (struct spt_setting_study){
        .best = empty,
        .advised = empty,
        .asked = empty,
        .zero = empty,
        .play_low = empty,
        .play_high = empty,
        .kept_from_mm = none,
        .kept_to_mm = none,
        .preload_best_n = none,
        .preload_asked_n = none,
        .expected_mrev = none,
        .aim_mm = none,
        .aim_mrev = none,
        .failed_case = failed_case,
        .failed_mm = failed_mm,
    };
}

static bool inputs_are_valid(const struct spt_setting_inputs *q)
{
    return q->lowest_mm < q->highest_mm &&
           q->highest_mm - q->lowest_mm <= SPT_SETTING_RANGE_MAX_MM &&
           fabs(q->lowest_mm) <= SPT_HUB_SETTING_MAX_MM &&
           fabs(q->highest_mm) <= SPT_HUB_SETTING_MAX_MM &&
           fabs(q->setting_mm) <= SPT_HUB_SETTING_MAX_MM && q->scatter_mm >= 0 &&
           q->scatter_mm <= 1 && (!q->limited || fabs(q->least_mm) <= SPT_HUB_SETTING_MAX_MM);
}

/* True where some case that turns has a load. */
static bool is_loaded(const struct spt_setting_duty *duty)
{
    for (int i = 0; i < duty->count; i++) {
        const struct spt_setting_case *c = &duty->cases[i];
        const struct spt_hub_load *l = &c->load;
        bool load = l->force_x_n != 0 || l->force_y_n != 0 || l->force_z_n != 0 ||
                    l->moment_x_nmm != 0 || l->moment_y_nmm != 0;
        if (load && c->time_share * c->speed_rpm > 0)
            return true;
    }
    return false;
}

enum spt_status spt_setting_study(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty,
                                  const struct spt_setting_inputs *inputs,
                                  struct spt_setting_study *study)
{
    struct work work = {.model = model, .duty = duty, .inputs = inputs, .study = study};
    study->failed_case = -1;
    study->failed_mm = (double)NAN;
    clear(study);
    if (!inputs_are_valid(inputs))
        return SPT_BAD_ARGUMENT;
    /* computing the first point validates the duty */
    look(&work, inputs->setting_mm);
    if (work.status == SPT_OK && !is_loaded(duty))
        work.status = SPT_FREE;
    void (*const steps[])(struct work *) = {find_best,        find_advised,  find_kept_range,
                                            compare_settings, find_preloads, find_aim};
    for (size_t i = 0; i < sizeof steps / sizeof *steps && work.status == SPT_OK; i++)
        steps[i](&work);
    if (work.status != SPT_OK)
        clear(study);
    return work.status;
}
