/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/schedule_oil.h"

#include <math.h>

#include "study/service/schedule_grease.h"
#include "study/visit/visits.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)
#define MONTH_DAYS 30.5 /* so that a cap of whole months is a step of the days kept */
#define DIRTIER 2       /* scale numbers above its target at which oil is changed (practice) */
#define FIRST_MONTHS 1  /* of a new gear unit (common practice) */

void spt_oil_change_begin(const struct spt_case *question, struct spt_oil_change *change)
{
    const bool oil = question->lubricant.kind != SPT_LUBRICATION_GREASE;
    *change = (struct spt_oil_change){.life_h = oil ? NEVER : NONE,
                                      .hottest_c = NONE,
                                      .fill_h = NEVER,
                                      .every_h = NONE,
                                      .every_days = NONE,
                                      .kept_h = NONE};
}

/* 1/t = sum q_i/t_i; all bearings stand in the same oil, and the one that spends it fastest
 * counts. */
void spt_oil_change_add(const struct spt_case *question, const struct spt_bearing_result *bearing,
                        struct spt_oil_change *change)
{
    const struct spt_oil oil = spt_case_oil(question);
    double rate_per_h = 0;
    if (question->lubricant.kind == SPT_LUBRICATION_GREASE)
        return;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *result = &bearing->phases[i];
        double life_h;
        if (!(result->phase->speed_rpm > 0) || !(result->phase->time_share > 0))
            continue;
        if (spt_oil_life(&oil, result->temperature_c, &life_h))
            life_h = NONE;
        rate_per_h += result->phase->time_share / life_h;
        change->hottest_c = fmax(change->hottest_c, result->temperature_c);
    }
    if (isnan(rate_per_h) || !(1 / rate_per_h >= change->life_h))
        change->life_h = 1 / rate_per_h;
}

static bool is_dusty_or_wet(const struct spt_condition *state)
{
    const struct spt_sealing *sealing = &state->sealing;
    return (sealing->stated &&
            (sealing->place >= (int)SPT_PLACE_ROAD || sealing->wet >= (int)SPT_WET_OUTDOORS)) ||
           state->surroundings.dust >= SPT_DUST_LIGHT_ABRASIVE ||
           state->surroundings.moisture >= SPT_MOISTURE_CONDENSATION;
}

/* The calendar of one state of the oil. */
static int months_of(const struct spt_case *question, const struct spt_condition *state)
{
    const int breather = state->sealing.stated ? state->sealing.breather : -1;
    const bool shut = breather == SPT_BREATHER_CLOSED || breather == SPT_BREATHER_DRYING;
    if (question->lubricant.sampled &&
        (shut || question->lubricant.base_oil != SPT_BASE_OIL_MINERAL))
        return 24;
    if (breather == SPT_BREATHER_OPEN || (!shut && is_dusty_or_wet(state)))
        return 6;
    return 12;
}

static int find_months(const struct spt_case *question)
{
    int months = 24;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const int here = months_of(question, &question->bearings[i].phases[j].condition);
            months = here < months ? here : months;
        }
    return months;
}

/* First number over 6 um of a class of oil: 13, 15, ... */
static int number_of(int class)
{
    const enum spt_cleanliness condition = (enum spt_cleanliness) class;
    return 13 + 2 * (class - (int)spt_cleanliness_first(spt_cleanliness_kind(condition)));
}

/* Without a filter the oil fills with dirt, to the limit of the service or two numbers above its
 * class. */
static double find_fill(const struct spt_schedule_inputs *in)
{
    const struct spt_condition *state = &in->question->bearings[0].phases[0].condition;
    const int from = number_of((int)state->cleanliness);
    const int limit = in->limits.cleanliness;
    double hours;
    if (!state->filtered || state->filter.place != SPT_FILTER_NONE ||
        !isnan(state->contamination_factor))
        return NEVER;
    return spt_filter_fill_time(&state->filter, from,
                                limit >= 0 ? number_of(limit) : from + DIRTIER, &hours)
               ? NEVER
               : hours;
}

void spt_oil_change_end(const struct spt_schedule_inputs *in, struct spt_oil_change *change)
{
    const struct spt_case *question = in->question;
    const double year_h = question->yearly_use_h;
    if (question->lubricant.kind == SPT_LUBRICATION_GREASE)
        return;
    change->months = find_months(question);
    change->fill_h = find_fill(in);
    const double raw_h = fmin(change->life_h, change->fill_h);
    const double cap_h = SPT_YEAR_H * change->months / 12;
    change->every_h = isnan(raw_h) ? NONE : spt_regreasing_kept_h(fmin(raw_h, cap_h));
    change->kept_h = change->every_h;
    change->calendar = cap_h < raw_h;
    if (!(year_h > 0) || isnan(change->every_h))
        return;
    const double days = raw_h / year_h * SPT_DAYS_PER_YEAR;
    change->every_days = spt_regreasing_kept_days(fmin(days, MONTH_DAYS * change->months));
    change->kept_h = fmin(change->every_h, spt_regreasing_days_exact(change->every_days) /
                                               SPT_DAYS_PER_YEAR * year_h);
    change->calendar = MONTH_DAYS * change->months < days;
}

/* The task that renews the lubricant. */
static enum spt_task find_renewal(enum spt_lubrication kind)
{
    const enum spt_lubrication like = spt_lubrication_like(kind);
    if (like == SPT_LUBRICATION_GREASE)
        return SPT_TASK_REPACK;
    return like == SPT_LUBRICATION_OIL_BATH ? SPT_TASK_OIL_CHANGE : SPT_TASK_OIL_OR_FILTER;
}

static enum spt_governor name_reason(const struct spt_oil_change *change)
{
    if (isnan(change->life_h))
        return SPT_GOVERNOR_NO_LIFE;
    if (change->calendar)
        return SPT_GOVERNOR_OIL_AGE;
    return change->fill_h < change->life_h ? SPT_GOVERNOR_OIL_DIRT : SPT_GOVERNOR_OIL_LIFE;
}

/* The first change of a new gear unit, as if part of the first interval had passed. */
static void hasten_first(const struct spt_schedule_inputs *in, struct spt_schedule_task *task)
{
    const double year_h = in->question->yearly_use_h;
    double first_h = SPT_OIL_FIRST_H;
    if (!in->service || !in->service->new_gearbox)
        return;
    if (year_h > 0)
        first_h = fmin(first_h, year_h * FIRST_MONTHS / 12);
    if (task->own_h > first_h)
        task->spent_h = task->own_h - first_h;
}

double spt_schedule_plan_oil(const struct spt_schedule_inputs *in, struct spt_schedule *out)
{
    const bool greased = in->question->lubricant.kind == SPT_LUBRICATION_GREASE;
    const double stated_h = in->service ? in->service->oil_change_every_h : NONE;
    enum spt_governor governor;
    double every_h = spt_schedule_limit_time(in->question, in->service, &in->limits, &governor);
    bool own = false; /* the life of the oil itself, rounded already */
    if (stated_h > 0 && (isinf(every_h) || (every_h > 0 && stated_h < every_h))) {
        every_h = stated_h;
        governor = SPT_GOVERNOR_STATED;
    }
    if (greased && (isinf(every_h) || in->question->lubricant.greased_for_life))
        return NEVER; /* regreasing keeps it fresh, or nothing can */
    if (!greased && every_h > 0 && !(out->oil.kept_h >= every_h)) {
        every_h = out->oil.every_h;
        own = true;
        governor = name_reason(&out->oil);
    }
    struct spt_schedule_task *task =
        spt_schedule_add(out, find_renewal(in->question->lubricant.kind), -1,
                         every_h > 0 && isfinite(every_h) ? every_h : NONE, governor);
    if (own) {
        task->own_h = task->kept_h = out->oil.kept_h;
        task->every_days = out->oil.every_days;
        if (governor == SPT_GOVERNOR_OIL_LIFE)
            task->raw_h = out->oil.life_h;
    }
    hasten_first(in, task);
    return spt_visits_has(out, task) ? task->own_h : NEVER;
}
