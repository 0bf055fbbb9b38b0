/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/course/damage_path.h"

#include <math.h>

#include "spalltime/life.h"
#include "study/life/check.h"

#define ENOUGH 8.0         /* damage at which the path may end: less than 9 % survive then */
#define FIRST 0.01         /* time of the first point, relative to the scale */
#define LONGEST_STEP 0.05  /* relative to the time */
#define SHORTEST_STEP 0.01 /* likewise; shorter periods have a negligible effect */
#define STEPS_IN_PERIOD 16
#define SAME_PART 1e-6 /* of a part: round-off */
#define PERIODS 20     /* averaged for the steady rate after the last point */

/* The time from which on the service is periodic or constant. */
static double quiet_from_h(const struct spt_service *service)
{
    double last_h = 0;
    for (int i = 0; i < service->event_count; i++)
        last_h = fmax(last_h, service->events[i].at_h);
    for (int i = 0; i < service->drift_count; i++) {
        const struct spt_drift *drift = &service->drifts[i];
        bool strains = !isnan(drift->load_from) || !isnan(drift->rise_from_k);
        if (strains || !(service->oil_change_every_h > 0))
            last_h = fmax(last_h, drift->to_h);
    }
    return last_h;
}

/* The longer of the two periods; NaN if there is none. */
static double period_of(const struct spt_service *service)
{
    double regrease_h = service->regrease_every_h > 0 ? service->regrease_every_h : (double)NAN;
    double change_h = service->oil_change_every_h > 0 ? service->oil_change_every_h : (double)NAN;
    return fmax(regrease_h, change_h);
}

/* Time of the next change of state of the service that is no renewal; the path has a point there.
 */
static double next_mark(const struct spt_service *service, double t_h)
{
    double next_h = (double)INFINITY;
    for (int i = 0; i < service->event_count; i++)
        if (service->events[i].at_h > t_h)
            next_h = fmin(next_h, service->events[i].at_h);
    for (int i = 0; i < service->drift_count; i++) {
        if (service->drifts[i].from_h > t_h)
            next_h = fmin(next_h, service->drifts[i].from_h);
        if (service->drifts[i].to_h > t_h)
            next_h = fmin(next_h, service->drifts[i].to_h);
    }
    return next_h;
}

/* What a path follows. */
struct course {
    const struct spt_case *question;
    const struct spt_service *service;
    const struct spt_timeline_workspace *workspace;
    enum spt_run_dents dents;
};

/* A time at which the longer of the two periods begins. */
static double first_renewal(const struct course *course)
{
    struct spt_run_budget budget = spt_run_budget();
    const struct spt_run run =
        spt_run_start(course->question, course->service, course->workspace, &budget);
    const bool greased = course->service->regrease_every_h >= period_of(course->service);
    return greased ? spt_run_regreasing_at(&run, 1) : 0;
}

/* The time after `t_h`. Where steps are no shorter than a part of a period it is a whole number of
 * parts from `origin_h` on: parts of one period are those of the next. */
static double next_time(double t_h, double period_h, double origin_h)
{
    const double part_h = period_h / STEPS_IN_PERIOD;
    if (!(part_h < LONGEST_STEP * t_h))
        return t_h + LONGEST_STEP * t_h;
    const double parts = (t_h + fmax(part_h, SHORTEST_STEP * t_h) - origin_h) / part_h;
    return origin_h + ceil(parts - SAME_PART) * part_h;
}

/* Fills in the rising times of the points after the first one at 0 h; three elements are reserved
 * for the end. */
static int place_points(const struct course *course, double scale_h, double quiet_h,
                        double *times_h)
{
    const struct spt_service *service = course->service;
    double t_h = FIRST * scale_h, period_h = period_of(service);
    double past_h = isnan(period_h) ? 0 : 3 * period_h;
    const double origin_h = first_renewal(course);
    int count = 0;
    while (count < SPT_PATH_POINTS - 4 && (t_h < quiet_h + past_h || t_h < 2 * ENOUGH * scale_h)) {
        times_h[count++] = t_h;
        t_h = fmin(next_time(t_h, period_h, origin_h), next_mark(service, t_h));
    }
    return count;
}

/* As spt_timeline_rows. */
static enum spt_status find_rows(const struct course *course, const double *times_h, int count,
                                 double enough, double (*damage)[SPT_BEARINGS_MAX], int *reached,
                                 double *stopped_h)
{
    struct spt_run_budget budget = spt_run_budget();
    *reached = 0;
    *stopped_h = (double)INFINITY;
    if (spt_check_service(course->question, course->service) || spt_check_times(times_h, count))
        return SPT_BAD_ARGUMENT;
    struct spt_run run =
        spt_run_start(course->question, course->service, course->workspace, &budget);
    run.dents = course->dents;
    return spt_run_rows(&run, times_h, count, enough, damage, reached, stopped_h);
}

/* Damage continues at the mean rate of some periods, from a time at which the service has become
 * periodic. */
static enum spt_status find_end(const struct course *course, double reliability_factor,
                                struct spt_damage_path *path)
{
    double period_h = period_of(course->service), last_h = path->times_h[path->count - 1];
    double quiet_h = fmax(quiet_from_h(course->service), last_h);
    double times_h[2] = {quiet_h, quiet_h + (isnan(period_h) ? quiet_h : PERIODS * period_h)};
    double damage[2][SPT_BEARINGS_MAX] = {{0}};
    int reached = 0;
    enum spt_status status =
        find_rows(course, times_h, 2, (double)INFINITY, damage, &reached, &path->stopped_h);
    for (int b = 0; b < SPT_BEARINGS_MAX && reached == 2; b++)
        path->end_rate_1_h[b] =
            reliability_factor * (damage[1][b] - damage[0][b]) / (times_h[1] - times_h[0]);
    for (int i = 0; i < reached && i < 2; i++) {
        if (!(times_h[i] > last_h))
            continue;
        path->times_h[path->count] = last_h = times_h[i];
        for (int b = 0; b < SPT_BEARINGS_MAX; b++)
            path->damage[path->count][b] = reliability_factor * damage[i][b];
        path->count++;
    }
    return status;
}

/* Adds a last point just before the end of the life. */
static enum spt_status add_stop(const struct course *course, double reliability_factor,
                                struct spt_damage_path *path)
{
    double time_h = path->stopped_h * (1 - 1e-6), damage[1][SPT_BEARINGS_MAX] = {{0}}, ignored;
    int reached = 0;
    if (!(time_h > path->times_h[path->count - 1]))
        return SPT_OK;
    enum spt_status status =
        find_rows(course, &time_h, 1, (double)INFINITY, damage, &reached, &ignored);
    if (!reached)
        return status;
    path->times_h[path->count] = time_h;
    for (int b = 0; b < SPT_BEARINGS_MAX; b++)
        path->damage[path->count][b] = reliability_factor * damage[0][b];
    path->count++;
    return status;
}

/* The times at which events put in new bearings. */
static void find_resets(const struct spt_service *service, struct spt_damage_path *path)
{
    for (int i = 0; i < service->event_count; i++)
        if (service->events[i].new_bearing)
            path->resets_h[path->reset_count++] = service->events[i].at_h;
}

static enum spt_status follow(const struct course *course, double scale_h,
                              struct spt_damage_path *path)
{
    double factor;
    int reached;
    enum spt_status status =
        spt_life_reliability_factor(course->question->reliability_percent, &factor);
    if (status)
        return status;
    int count = place_points(course, scale_h, quiet_from_h(course->service), path->times_h + 1);
    status = find_rows(course, path->times_h + 1, count, ENOUGH / factor, path->damage + 1,
                       &reached, &path->stopped_h);
    path->count += reached;
    for (int i = 1; i < path->count; i++)
        for (int b = 0; b < SPT_BEARINGS_MAX; b++)
            path->damage[i][b] *=
                factor; /* in terms of L10 instead of the life at the stated reliability */
    if (!status && isinf(path->stopped_h))
        status = find_end(course, factor, path);
    if (!status && isfinite(path->stopped_h))
        status = add_stop(course, factor, path);
    return status;
}

enum spt_status spt_damage_path(const struct spt_case *question, const struct spt_service *service,
                                const struct spt_timeline_workspace *workspace,
                                enum spt_run_dents dents, double scale_h,
                                struct spt_damage_path *path)
{
    const struct course course = {question, service, workspace, dents};
    *path = (struct spt_damage_path){.count = 1, .stopped_h = (double)INFINITY};
    find_resets(service, path);
    return follow(&course, scale_h, path);
}

bool spt_damage_path_ceases(const struct spt_damage_path *path)
{
    for (int b = 0; b < SPT_BEARINGS_MAX; b++)
        if (path->end_rate_1_h[b] > 0)
            return false;
    return isinf(path->stopped_h);
}

bool spt_damage_path_wears(const struct spt_damage_path *path)
{
    const double *last = path->damage[path->count - 1];
    for (int b = 0; b < SPT_BEARINGS_MAX; b++)
        if (last[b] > 0)
            return true;
    return !spt_damage_path_ceases(path);
}

/* Steffen's slope at a point, limited to keep the interpolation monotonic. GSL has the method too,
 * but its splines live on the heap; a path is a plain struct that its owner makes and drops. */
static double slope_at(const struct spt_damage_path *path, int b, int i)
{
    const double *t = path->times_h;
    if (i == 0 || i == path->count - 1) {
        int j = i == 0 ? 0 : i - 1;
        return (path->damage[j + 1][b] - path->damage[j][b]) / (t[j + 1] - t[j]);
    }
    double before_h = t[i] - t[i - 1], after_h = t[i + 1] - t[i];
    double before = (path->damage[i][b] - path->damage[i - 1][b]) / before_h;
    double after = (path->damage[i + 1][b] - path->damage[i][b]) / after_h;
    double middle = (before * after_h + after * before_h) / (before_h + after_h);
    return fmin(middle, 2 * fmin(before, after));
}

double spt_damage_path_at(const struct spt_damage_path *path, int bearing, double t_h)
{
    int low = 0, high = path->count - 1;
    if (t_h >= path->times_h[high])
        return path->damage[high][bearing] +
               path->end_rate_1_h[bearing] * (t_h - path->times_h[high]);
    while (high - low > 1) {
        int middle = (low + high) / 2;
        *(path->times_h[middle] <= t_h ? &low : &high) = middle;
    }
    double width_h = path->times_h[high] - path->times_h[low];
    double x = (t_h - path->times_h[low]) / width_h;
    double from = path->damage[low][bearing], rise = path->damage[high][bearing] - from;
    double start = slope_at(path, bearing, low) * width_h;
    double end = slope_at(path, bearing, high) * width_h;
    return from + x * (start + x * (3 * rise - 2 * start - end + x * (start + end - 2 * rise)));
}
