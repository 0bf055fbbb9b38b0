/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/worst_state.h"

#include <math.h>
#include <string.h>

#include "spalltime/lubricant.h"
#include "spalltime/verdict.h"
#include "study/course/run.h"
#include "study/life/assess_notes.h"
#include "study/service/schedule_oil.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)
#define BEFORE (1 - 1e-9)  /* just before a time */
#define RUNNING_SHARE 0.1  /* of the running time: less is a cold start; a rule of this tool */
#define SHORTER (1 - 1e-6) /* than the interval of the condition as stated, beyond round-off */

/* Events and drifts change the state linearly between marks, so that its worst is at a mark, or
 * just before one. */
struct ahead {
    const struct spt_schedule_inputs *in;
    struct spt_schedule *out;
    struct spt_run run;
    double end_h;
    enum spt_status status;
};

/* ---- water ---- */

/* Temperature of the coldest running phase with a part of the running time of any weight. */
static double find_running_c(const struct spt_bearing_result *bearing)
{
    double running = 0, coldest_c = NONE;
    for (int i = 0; i < bearing->phase_count; i++)
        if (bearing->phases[i].phase->speed_rpm > 0)
            running += bearing->phases[i].phase->time_share;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *result = &bearing->phases[i];
        if (result->phase->speed_rpm > 0 && result->phase->time_share >= RUNNING_SHARE * running)
            coldest_c = fmin(coldest_c, result->temperature_c); /* fmin ignores a NaN */
    }
    return coldest_c;
}

/* Water over what is dissolved at a temperature; 0 where that is not known. */
static double saturate(const struct spt_case *question, double water_ppm, double temperature_c)
{
    double dissolved_ppm;
    return spt_water_saturation(question->lubricant.solubility, fmax(temperature_c, 0),
                                &dissolved_ppm)
               ? 0
               : water_ppm / dissolved_ppm;
}

void spt_water_state_add(const struct spt_case *question, const struct spt_bearing_result *bearing,
                         struct spt_water_state *water)
{
    const double running_c = find_running_c(bearing);
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *result = &bearing->phases[i];
        const struct spt_condition *state = &result->phase->condition;
        if (state->water_assumed) {
            if ((int)result->surroundings.moisture > water->unstated_moisture)
                water->unstated_moisture = (int)result->surroundings.moisture;
            continue;
        }
        water->cold = fmax(water->cold, saturate(question, state->water_ppm, state->coldest_c));
        water->running = fmax(water->running, saturate(question, state->water_ppm, running_c));
        water->ppm = fmax(water->ppm, state->water_ppm);
    }
}

static void take_water(struct spt_worst_state *worst, const struct spt_water_state *water,
                       double at_h)
{
    struct spt_water_state *to = &worst->water;
    if (water->cold > to->cold || water->running > to->running || water->ppm > to->ppm ||
        water->unstated_moisture > to->unstated_moisture)
        worst->water_at_h = at_h;
    to->cold = fmax(to->cold, water->cold);
    to->running = fmax(to->running, water->running);
    to->ppm = fmax(to->ppm, water->ppm);
    if (water->unstated_moisture > to->unstated_moisture)
        to->unstated_moisture = water->unstated_moisture;
}

/* ---- flags ---- */

/* The age of the grease is that of the plan, which its risk and its interval speak of. */
static bool is_of_age(enum spt_flag flag)
{
    return flag == SPT_FLAG_GREASE_OVERDUE || flag == SPT_FLAG_GREASE_EXHAUSTED;
}

static void take_notes(struct spt_worst_state *worst, const struct spt_notes *notes, double at_h)
{
    for (int i = 0; i < notes->count; i++) {
        const struct spt_note *note = &notes->list[i];
        if (spt_verdict_rule_of(note->flag).grade == SPT_GRADE_ABSENT || is_of_age(note->flag) ||
            spt_notes_has(&worst->notes, note->flag))
            continue;
        worst->noted_h[worst->notes.count] = at_h;
        spt_notes_add(&worst->notes, note->flag, note->value, note->limit);
    }
}

static void take_flags(struct spt_worst_state *worst, const struct spt_case *question,
                       const struct spt_bearing_result *bearings, double at_h)
{
    struct spt_notes setting = {0};
    spt_case_setting_notes(question, &setting);
    take_notes(worst, &setting, at_h);
    for (int b = 0; b < question->bearing_count; b++) {
        take_notes(worst, &bearings[b].notes, at_h);
        for (int i = 0; i < bearings[b].phase_count; i++)
            take_notes(worst, &bearings[b].phases[i].notes, at_h);
    }
}

/* ---- grease and oil ---- */

static void take_greasing(struct spt_worst_state *worst, const struct spt_greasing *greasing,
                          double at_h)
{
    const struct spt_greasing *before = &worst->greasing;
    const bool sooner = greasing->kept_h < before->kept_h * SHORTER ||
                        (isnan(greasing->kept_h) && !isnan(before->kept_h));
    if (greasing->state == SPT_GREASING_NONE || greasing->state < before->state ||
        (greasing->state == before->state && !sooner))
        return;
    worst->greasing = *greasing;
    worst->greasing_at_h = at_h;
}

/* Share of machines in which the grease of any unit fails, with every interval times `factor`. */
static double find_share(const struct spt_case *question, const struct spt_grease_plan *plans,
                         int count, double hours, double factor)
{
    const double units = question->units > 0 ? question->units : 1;
    double survival = 1;
    for (int i = 0; i < count; i++) {
        struct spt_grease_plan plan = plans[i];
        double share;
        plan.interval_h *= factor;
        survival *= spt_regreasing_risk(&plan, hours, &share) ? NONE : 1 - share;
    }
    return 1 - pow(survival, units);
}

struct spt_grease_risk spt_schedule_grease_risk(const struct spt_case *question,
                                                const struct spt_grease_plan *plans, int count)
{
    const double year_h = question->yearly_use_h;
    const double hours = year_h > 0 ? year_h : SPT_GREASE_RISK_H;
    if (!count)
        return (struct spt_grease_risk){hours, NONE, NONE, NONE, NONE};
    return (struct spt_grease_risk){hours, find_share(question, plans, count, hours, 1),
                                    find_share(question, plans, count, hours, 2),
                                    find_share(question, plans, count, hours, 0.5), NONE};
}

/* The risk if the grease is renewed as planned, but wears as in this state. */
static void take_risk(struct ahead *ahead, const struct spt_bearing_result *bearings, double at_h)
{
    const struct spt_schedule *out = ahead->out;
    struct spt_worst_state *worst = &ahead->out->worst;
    struct spt_grease_plan plans[SPT_BEARINGS_MAX];
    int count = 0;
    for (int b = 0; b < out->bearing_count; b++)
        if (isfinite(out->bearings[b].interval_h) && isfinite(bearings[b].grease_interval_h))
            plans[count++] =
                (struct spt_grease_plan){bearings[b].grease_interval_h, out->bearings[b].renewed_h};
    const struct spt_grease_risk risk = spt_schedule_grease_risk(out->question, plans, count);
    if (!(risk.share > worst->grease_risk.share) && !isnan(worst->grease_risk.share))
        return;
    worst->grease_risk = risk;
    worst->risk_at_h = at_h;
}

static void take_oil(struct ahead *ahead, const struct spt_case *question,
                     const struct spt_bearing_result *bearings, double at_h)
{
    struct spt_worst_state *worst = &ahead->out->worst;
    struct spt_schedule_inputs in = *ahead->in;
    struct spt_oil_change change;
    in.question = question;
    spt_oil_change_begin(question, &change);
    for (int b = 0; b < question->bearing_count; b++)
        spt_oil_change_add(question, &bearings[b], &change);
    spt_oil_change_end(&in, &change);
    if (question->lubricant.kind == SPT_LUBRICATION_GREASE ||
        !(change.kept_h < worst->oil_kept_h * SHORTER))
        return;
    worst->oil_kept_h = change.kept_h;
    worst->oil_at_h = at_h;
}

/* ---- moments ---- */

static void visit(struct ahead *ahead, double at_h)
{
    struct spt_bearing_result bearings[SPT_BEARINGS_MAX];
    struct spt_case changed;
    struct spt_water_state water = {.unstated_moisture = 0};
    struct spt_worst_state *worst = &ahead->out->worst;
    struct spt_phase_result *results = ahead->run.workspace->results;
    struct spt_adjustment change = spt_run_adjustment(&ahead->run, at_h, at_h);
    spt_adjust_case(spt_run_case(&ahead->run, at_h), &change, ahead->run.workspace->phases,
                    &changed);
    if (ahead->status || at_h > ahead->end_h || !spt_case_within_temperatures(&changed))
        return;
    for (int b = 0; !ahead->status && b < changed.bearing_count; b++) {
        ahead->status = spt_assess_bearing(&changed, b, 0, results, &bearings[b]);
        if (ahead->status)
            return;
        spt_assess_notes(&changed, b, &bearings[b]);
        spt_water_state_add(&changed, &bearings[b], &water);
        results += changed.bearings[b].phase_count;
    }
    const struct spt_greasing greasing = spt_greasing_of(&changed, bearings);
    take_water(worst, &water, at_h);
    take_flags(worst, &changed, bearings, at_h);
    take_greasing(worst, &greasing, at_h);
    take_risk(ahead, bearings, at_h);
    take_oil(ahead, &changed, bearings, at_h);
}

static void visit_both_sides(struct ahead *ahead, double at_h)
{
    if (at_h > 0)
        visit(ahead, at_h * BEFORE);
    visit(ahead, at_h);
}

/* The drifts of water and dirt begin anew with each change of oil: from a time on, the change
 * before it and the next two show all that they do until the state changes otherwise. */
static void visit_changes(struct ahead *ahead, double from_h)
{
    const struct spt_service *service = ahead->run.service;
    const double first_h = spt_run_clock_start(&ahead->run, from_h);
    if (!(service->oil_change_every_h > 0))
        return;
    for (int i = 0; i < 3; i++) {
        const double start_h = first_h + i * service->oil_change_every_h;
        visit_both_sides(ahead, start_h);
        for (int j = 0; j < service->drift_count; j++) {
            visit_both_sides(ahead, start_h + service->drifts[j].from_h);
            visit_both_sides(ahead, start_h + service->drifts[j].to_h);
        }
    }
}

static void visit_mark(struct ahead *ahead, double at_h)
{
    visit_both_sides(ahead, at_h);
    if (at_h <= ahead->end_h && ahead->run.service->drift_count)
        visit_changes(ahead, at_h);
}

static double find_end_h(const struct spt_schedule *out, const struct spt_service *service)
{
    return isnan(out->life_h) ? 0 : fmin(out->life_h, service->until_h);
}

static void clear(struct spt_schedule *out)
{
    out->worst = (struct spt_worst_state){
        .greasing = out->greasing, .grease_risk = out->grease_risk, .oil_kept_h = out->oil.kept_h};
}

enum spt_status spt_schedule_worst(const struct spt_schedule_inputs *in,
                                   const struct spt_service *service, struct spt_schedule *out)
{
    struct spt_run_budget budget = spt_run_budget();
    struct ahead ahead = {.in = in, .out = out, .end_h = find_end_h(out, service)};
    clear(out);
    if (!in->timeline_workspace || !(service->event_count + service->drift_count))
        return SPT_OK;
    out->worst.followed = true;
    ahead.run = spt_run_start(in->question, service, in->timeline_workspace, &budget);
    ahead.status = ahead.run.status;
    visit_mark(&ahead, 0);
    for (int i = 0; i < service->event_count; i++)
        visit_mark(&ahead, service->events[i].at_h);
    for (int i = 0; i < service->drift_count; i++) {
        visit_mark(&ahead, service->drifts[i].from_h);
        visit_mark(&ahead, service->drifts[i].to_h);
    }
    if (isfinite(ahead.end_h))
        visit(&ahead, ahead.end_h * BEFORE);
    return ahead.status;
}
