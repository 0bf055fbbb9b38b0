/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/hub/setting_mean.h"

#include <math.h>

#include "model/numeric.h"

/* State of a running study; the first failure ends it. */
struct work {
    struct spt_setting_store *store;
    const struct spt_setting_inputs *inputs;
    struct spt_setting_study *study;
    enum spt_status status;
};

static struct spt_setting_point look(struct work *work, double setting_mm)
{
    struct spt_setting_point point;
    enum spt_status status = spt_setting_store_find(work->store, setting_mm, &point);
    if (status != SPT_OK && work->status == SPT_OK) {
        work->status = status;
        work->study->failed_case = work->store->failed_case;
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

/* ln of a life over the least that counts as kept; 0 after a failure, which ends the study. */
struct end {
    struct work *work;
    double least_mrev;
};

static double rate_end(double setting_mm, void *context)
{
    struct end *end = context;
    double life = look(end->work, setting_mm).life_mrev;
    return isfinite(life) && life > 0 ? log(life / end->least_mrev) : 0.0;
}

/* The setting on one side of the best (way +1 or -1) where the life falls below the share
 * SPT_SETTING_KEPT of the best life, between the places of the scan where it first does. */
static double find_end(struct work *work, int way, bool *open)
{
    const struct spt_setting_inputs *range = work->inputs;
    struct end end = {work, SPT_SETTING_KEPT * work->study->best.life_mrev};
    gsl_function function = {rate_end, &end};
    int steps = count_steps(range), last = way > 0 ? steps : 0, step = way > 0 ? 0 : steps;
    double kept = work->study->best.setting_mm, found;
    *open = false;
    while (step != last && way * (place(range, step, steps) - kept) <= 0)
        step += way;
    while (look(work, place(range, step, steps)).life_mrev >= end.least_mrev) {
        kept = place(range, step, steps);
        *open = step == last;
        if (*open)
            return kept;
        step += way;
    }
    double lost = place(range, step, steps);
    if (work->status != SPT_OK ||
        spt_numeric_root(&function, fmin(kept, lost), fmax(kept, lost), &found) != SPT_OK)
        return kept;
    return found;
}

static void find_kept_range(struct work *work)
{
    struct spt_setting_study *s = work->study;
    s->kept_from_mm = find_end(work, -1, &s->kept_from_open);
    s->kept_to_mm = find_end(work, 1, &s->kept_to_open);
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
    if (work->status != SPT_OK || work->store->terms.model->hub.row_count != 2)
        return;
    work->status =
        spt_hub_preload_force(work->store->terms.model, s->best.setting_mm, &s->preload_best_n);
    if (work->status == SPT_OK)
        work->status = spt_hub_preload_force(work->store->terms.model, work->inputs->setting_mm,
                                             &s->preload_asked_n);
}

static void find_aim(struct work *work)
{
    const struct spt_setting_inputs *q = work->inputs;
    struct spt_setting_study *s = work->study;
    struct spt_setting_mean mean = {.store = work->store, .inputs = q};
    double lowest_mm = q->limited ? q->least_mm + SPT_SETTING_MARGIN * q->scatter_mm : -HUGE_VAL;
    s->expected_mrev = spt_setting_mean(&mean, q->setting_mm);
    s->aim_mm = spt_setting_mean_best(&mean, s->best.setting_mm, lowest_mm);
    s->aim_limited = s->aim_mm < lowest_mm;
    if (s->aim_limited)
        s->aim_mm = lowest_mm;
    if (!isnan(s->aim_mm))
        s->aim_mrev = spt_setting_mean(&mean, s->aim_mm);
    if (mean.status != SPT_OK) {
        work->status = mean.status;
        s->failed_case = work->store->failed_case;
        s->failed_mm = mean.failed_mm;
    }
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

/* Runs steps of the study one after the other. */
static enum spt_status run(struct spt_setting_store *store, const struct spt_setting_inputs *inputs,
                           void (*const steps[])(struct work *), int count,
                           struct spt_setting_study *study)
{
    struct work work = {.store = store, .inputs = inputs, .study = study};
    study->failed_case = -1;
    study->failed_mm = (double)NAN;
    clear(study);
    if (!inputs_are_valid(inputs))
        return SPT_BAD_ARGUMENT;
    /* computing the first point validates the duty */
    look(&work, inputs->setting_mm);
    if (work.status == SPT_OK && !is_loaded(store->terms.duty))
        work.status = SPT_FREE;
    for (int i = 0; i < count && work.status == SPT_OK; i++)
        steps[i](&work);
    study->solves = spt_setting_store_solves(store);
    study->passes = spt_setting_store_passes(store);
    if (work.status != SPT_OK)
        clear(study);
    return work.status;
}

enum spt_status spt_setting_study_of(struct spt_setting_store *store,
                                     const struct spt_setting_inputs *inputs,
                                     struct spt_setting_study *study)
{
    void (*const steps[])(struct work *) = {find_best,        find_advised,  find_kept_range,
                                            compare_settings, find_preloads, find_aim};
    return run(store, inputs, steps, sizeof steps / sizeof *steps, study);
}

enum spt_status spt_setting_best_of(struct spt_setting_store *store,
                                    const struct spt_setting_inputs *inputs,
                                    struct spt_setting_study *study)
{
    void (*const steps[])(struct work *) = {find_best};
    return run(store, inputs, steps, 1, study);
}

enum spt_status spt_setting_study(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty,
                                  const struct spt_setting_inputs *inputs,
                                  struct spt_setting_study *study)
{
    const struct spt_setting_terms terms = {model, duty, NULL};
    struct spt_setting_store store;
    spt_setting_store_begin(&store, &terms);
    return spt_setting_study_of(&store, inputs, study);
}
