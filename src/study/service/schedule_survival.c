/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/schedule_survival.h"

#include <math.h>
#include <stddef.h>

#include "model/numeric.h"
#include "study/course/damage_path.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)

struct spt_survival_system spt_schedule_fatigue(const struct spt_schedule *out)
{
    return (struct spt_survival_system){out->fatigue_count, out->fatigue, 0, NULL};
}

struct spt_survival_system spt_schedule_grease(const struct spt_schedule *out)
{
    return (struct spt_survival_system){0, NULL, out->grease_count, out->grease};
}

bool spt_schedule_wears(const struct spt_schedule *out)
{
    return out->followed ? spt_damage_path_wears(&out->path) : out->fatigue_count > 0;
}

/* ln of the share that survives from one damage to another. */
static double log_between(const struct spt_life_law *law, double from, double to)
{
    double before, after;
    if (spt_survival_log_fatigue(law, from, &before) || spt_survival_log_fatigue(law, to, &after))
        return NONE;
    return after - before;
}

/* ln of the survival of one bearing by the damage path: of each of those that were in its place. */
static double log_by_path(const struct spt_schedule *out, int bearing, double t_h)
{
    const struct spt_damage_path *path = &out->path;
    const struct spt_life_law law = {out->fatigue_factor, SPT_WEIBULL_SLOPE, out->floor};
    double sum = 0, start = 0, before = out->remaining.spent[bearing];
    for (int i = 0; i < path->reset_count && path->resets_h[i] < t_h; i++) {
        const double then = spt_damage_path_at(path, bearing, path->resets_h[i]);
        sum += log_between(&law, before, before + then - start);
        start = then;
        before = 0;
    }
    return sum + log_between(&law, before,
                             before + fmax(spt_damage_path_at(path, bearing, t_h) - start, 0));
}

/* ln of the survival of one bearing by fatigue; its life must be known. */
static double log_fatigue_of(const struct spt_schedule *out, int bearing, double t_h)
{
    const struct spt_life_law law = {out->bearings[bearing].l10_h * out->fatigue_factor,
                                     SPT_WEIBULL_SLOPE, out->floor};
    if (out->followed)
        return log_by_path(out, bearing, t_h);
    const double before_h = out->remaining.spent[bearing] * law.l10 / out->fatigue_factor;
    return isinf(law.l10) ? 0 : log_between(&law, before_h, before_h + t_h);
}

double spt_schedule_log_fatigue(const struct spt_schedule *out, int bearing, double t_h)
{
    double sum = 0;
    if (out->followed && t_h > out->path.stopped_h)
        return -NEVER;
    for (int i = 0; i < out->bearing_count; i++)
        if (bearing == SPT_SCHEDULE_ALL || bearing == i)
            sum += log_fatigue_of(out, i, t_h);
    return sum;
}

double spt_schedule_log_grease(const struct spt_schedule *out, int bearing, double t_h)
{
    double sum = 0, part;
    for (int i = 0; i < out->bearing_count; i++) {
        const struct spt_grease_plan plan = {out->bearings[i].interval_h,
                                             out->bearings[i].renewed_h};
        if ((bearing == SPT_SCHEDULE_ALL || bearing == i) && isfinite(plan.interval_h))
            sum += spt_regreasing_survival(&plan, t_h, &part) ? NONE : log(part);
    }
    return sum;
}

/* The survival that a life is sought for. */
struct aim {
    const struct spt_schedule *out;
    int bearing; /* SPT_SCHEDULE_ALL: the machine */
    bool greases;
    double log_survival;
};

static double miss_aim(double t_h, void *context)
{
    const struct aim *aim = context;
    double sum = spt_schedule_log_fatigue(aim->out, aim->bearing, t_h);
    if (aim->greases)
        sum += spt_schedule_log_grease(aim->out, aim->bearing, t_h);
    return fmax(sum, -700) - aim->log_survival; /* finite where the share underflows */
}

enum spt_status spt_schedule_life(const struct spt_schedule *out, int bearing, bool greases,
                                  double survival, double *life_h)
{
    struct aim aim = {out, bearing, greases, log(survival)};
    gsl_function function = {miss_aim, &aim};
    double high_h = 1;
    while (high_h < SPT_SURVIVAL_LIFE_MAX_H && miss_aim(high_h, &aim) > 0)
        high_h *= 2;
    *life_h = NONE;
    if (out->followed && isfinite(out->path.stopped_h) && miss_aim(out->path.stopped_h, &aim) > 0) {
        *life_h = out->path.stopped_h; /* more than this share survive until the damage path ends */
        return SPT_OK;
    }
    if (high_h >= SPT_SURVIVAL_LIFE_MAX_H) {
        *life_h = NEVER; /* this share never fails, or later than any machine runs */
        return SPT_OK;
    }
    return spt_numeric_root(&function, 0,
                            out->followed ? fmin(high_h, out->path.stopped_h) : high_h, life_h);
}

/* Survival of the machine, by fatigue alone or with the greases. */
struct share {
    const struct spt_schedule *schedule;
    bool greases;
};

static enum spt_status find_share(const void *context, double survival, double *life_h)
{
    const struct share *share = context;
    return spt_schedule_life(share->schedule, SPT_SCHEDULE_ALL, share->greases, survival, life_h);
}

enum spt_status spt_schedule_lives(struct spt_schedule *out, bool stated_known)
{
    const struct spt_survival_system fatigue = spt_schedule_fatigue(out);
    const struct spt_survival_system grease = spt_schedule_grease(out);
    const struct share alone = {out, false}, both = {out, true};
    enum spt_status status = SPT_OK;
    if (out->fatigue_count && stated_known)
        status = spt_survival_lives(&fatigue, &out->stated_fatigue_lives);
    if (!status && spt_schedule_wears(out) && out->life_known)
        status = spt_survival_usual_lives(find_share, &alone, &out->fatigue_lives);
    if (!status && out->grease_count)
        status = spt_survival_lives(&grease, &out->grease_lives);
    if (!status && out->life_known && (spt_schedule_wears(out) || out->grease_count))
        status = spt_survival_usual_lives(find_share, &both, &out->combined_lives);
    return status;
}

enum spt_status spt_schedule_survival(const struct spt_schedule *schedule, double t_h,
                                      struct spt_schedule_point *point)
{
    const struct spt_survival_system fatigue = spt_schedule_fatigue(schedule),
                                     grease = spt_schedule_grease(schedule);
    enum spt_status status = SPT_OK;
    *point = (struct spt_schedule_point){t_h, 1, 1, NONE};
    if ((schedule->followed || schedule->remaining.hours_run > 0) && (!(t_h >= 0) || isinf(t_h)))
        status = SPT_BAD_ARGUMENT;
    else if (schedule->followed || schedule->remaining.hours_run > 0)
        point->fatigue = exp(spt_schedule_log_fatigue(schedule, SPT_SCHEDULE_ALL, t_h));
    else if (schedule->fatigue_count)
        status = spt_survival_of_system(&fatigue, t_h, &point->fatigue);
    if (!status && schedule->grease_count)
        status = spt_survival_of_system(&grease, t_h, &point->grease);
    if (!status)
        point->combined = point->fatigue * point->grease;
    return status;
}
