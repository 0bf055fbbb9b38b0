/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/course/run.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stddef.h>

#include "model/numeric.h"

#define HALVINGS 24  /* leave 6e-8 of a stretch: a jump of the rate by 1 % is then off by 1e-9 */
#define KINKS_MAX 16 /* of one stretch */

/* Integrand for GSL: damage rate of one bearing. */
struct rate_context {
    struct spt_run *run;
    int bearing;
    double no_life_h; /* earliest evaluated time without a life; NaN: none */
};

static double rate_at(struct spt_run *run, int bearing, double time_h)
{
    return spt_run_rate(run, bearing, time_h, NULL);
}

static double rate_for_gsl(double time_h, void *context)
{
    struct rate_context *rate = context;
    double value = rate_at(rate->run, rate->bearing, time_h);
    if (!isnan(value))
        return value;
    if (!(rate->no_life_h <= time_h))
        rate->no_life_h = time_h;
    return 0;
}

/* True where nothing changes inside the stretch that starts now. */
static bool is_steady(const struct spt_run *run)
{
    const struct spt_service *service = run->service;
    if (run->question->lubricant.kind == SPT_LUBRICATION_GREASE)
        return false;
    for (int i = 0; i < service->drift_count; i++)
        if (!spt_run_skips(run, service->event_count + i) &&
            (spt_run_clock(run, run->time_h) < service->drifts[i].to_h ||
             run->time_h < service->drifts[i].to_h))
            return false;
    return true;
}

/* The rate and the ranges of its formulas at a moment. */
struct moment {
    double time_h, rate_1_h;
    uint64_t ranges;
};

static struct moment look(struct rate_context *context, double time_h)
{
    const double rate_1_h = rate_for_gsl(time_h, context);
    return (struct moment){time_h, rate_1_h, context->run->ranges};
}

/* Narrows the place between two moments at which the ranges change first. */
static void narrow(struct rate_context *context, struct moment *before, struct moment *after)
{
    for (int i = 0; i < HALVINGS; i++) {
        const double middle_h = before->time_h + (after->time_h - before->time_h) / 2;
        const struct moment middle = look(context, middle_h);
        *(middle.ranges == before->ranges ? before : after) = middle;
    }
}

static enum spt_status add_piece(struct rate_context *context, double from_h, double to_h,
                                 double *sum)
{
    gsl_function function = {rate_for_gsl, context};
    double value = 0;
    if (!(to_h > from_h))
        return SPT_OK;
    enum spt_status status = spt_numeric_integral(&function, from_h, to_h, &value);
    *sum += value;
    return status;
}

/* An integral over a kink takes many points, so that it is taken piece by piece between kinks.
 * Those that the two ends do not show are left to the integration. */
static enum spt_status spend_pieces(struct rate_context *context, struct moment end, double to_h,
                                    double *sum)
{
    struct moment start = look(context, context->run->time_h);
    enum spt_status status = SPT_OK;
    for (int i = 0; i < KINKS_MAX && !status && start.ranges != end.ranges; i++) {
        struct moment before = start, after = end;
        narrow(context, &before, &after);
        status = add_piece(context, start.time_h, before.time_h, sum);
        *sum += (before.rate_1_h + after.rate_1_h) / 2 * (after.time_h - before.time_h);
        start = after;
    }
    return status ? status : add_piece(context, start.time_h, to_h, sum);
}

/* Damage from now to `to_h` of a bearing whose state changes on the way. */
static double integrate(struct spt_run *run, int bearing, double to_h, double *no_life_h)
{
    struct rate_context context = {run, bearing, (double)NAN};
    double value = 0;
    const struct moment end = look(&context, to_h * (1 - SPT_RUN_SAME_TIME));
    *no_life_h = context.no_life_h;
    if (!isnan(*no_life_h))
        return 0;
    enum spt_status status = spend_pieces(&context, end, to_h, &value);
    *no_life_h = context.no_life_h;
    if (status && isnan(*no_life_h) && !run->status)
        run->status = status;
    return value;
}

/* The span from now to `to_h`. Result: false where more than the age of grease and oil tells it
 * from one that has been integrated before. */
static bool describe(const struct spt_run *run, int bearing, double to_h, struct spt_run_span *span)
{
    const struct spt_service *service = run->service;
    if (!spt_run_has_come(to_h, spt_run_quiet_until(run)))
        return false;
    *span = (struct spt_run_span){.bearing = bearing,
                                  .state = spt_run_dents_state(run, bearing),
                                  .age_h = spt_run_grease_age(run, run->time_h, run->time_h)};
    span->to_age_h = span->age_h + (to_h - run->time_h);
    span->clock_h = service->drift_count ? spt_run_clock(run, run->time_h) : 0;
    for (int i = 0; i < service->drift_count; i++)
        span->state =
            3 * span->state + (spt_run_skips(run, service->event_count + i)
                                   ? 2
                                   : spt_run_has_come(service->drifts[i].to_h, run->time_h));
    return true;
}

static bool is_same(const struct spt_run_span *one, const struct spt_run_span *other, double time_h)
{
    const double close_h = SPT_RUN_SAME_TIME * time_h;
    return one->bearing == other->bearing && one->state == other->state &&
           fabs(one->age_h - other->age_h) <= close_h &&
           fabs(one->to_age_h - other->to_age_h) <= close_h &&
           fabs(one->clock_h - other->clock_h) <= close_h;
}

static const struct spt_run_span *find_span(const struct spt_run *run,
                                            const struct spt_run_span *span)
{
    const struct spt_run_budget *budget = run->budget;
    const int kept = budget->span_count < SPT_RUN_SPANS ? budget->span_count : SPT_RUN_SPANS;
    for (int i = 0; i < kept; i++)
        if (is_same(&budget->spans[i], span, run->time_h))
            return &budget->spans[i];
    return NULL;
}

static double spend(struct spt_run *run, int bearing, double to_h, double *no_life_h)
{
    struct spt_run_span span;
    const bool known = describe(run, bearing, to_h, &span);
    const struct spt_run_span *before = known ? find_span(run, &span) : NULL;
    *no_life_h = (double)NAN;
    if (before)
        return before->damage;
    span.damage = integrate(run, bearing, to_h, no_life_h);
    if (known && isnan(*no_life_h) && !run->status)
        run->budget->spans[run->budget->span_count++ % SPT_RUN_SPANS] = span;
    return span.damage;
}

double spt_run_spend(struct spt_run *run, int bearing, double to_h, double *no_life_h)
{
    *no_life_h = (double)NAN;
    if (to_h <= run->time_h)
        return 0;
    if (!is_steady(run))
        return spend(run, bearing, to_h, no_life_h);
    const double value = rate_at(run, bearing, run->time_h) * (to_h - run->time_h);
    if (isnan(value))
        *no_life_h = to_h;
    return value;
}
