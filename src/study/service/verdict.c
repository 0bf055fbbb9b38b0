/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/verdict.h"

#include <math.h>
#include <string.h>

#include "base/table.h"
#include "study/service/worst_state.h"

/* Rules of this tool. */
#define RISK_MUCH 0.05      /* of the machines in a year */
#define WATER_NEAR 0.5      /* of the saturation: common practice keeps below it */
#define WATER_SOAKED 5000.0 /* ppm in grease: the floor of the water factor */

struct spt_verdict_rule spt_verdict_rule_of(enum spt_flag flag)
{
    static const struct spt_verdict_rule rules[SPT_FLAG_COUNT] = {
        /* the others say nothing of a part: remarks, or numbers that the life has in it */
        [SPT_FLAG_GREASE_OVERDUE] = {SPT_CONCERN_GREASING, SPT_GRADE_CAUTION},
        [SPT_FLAG_GREASE_EXHAUSTED] = {SPT_CONCERN_GREASING, SPT_GRADE_CAUTION},
        [SPT_FLAG_GREASE_SPEED] = {SPT_CONCERN_GREASING, SPT_GRADE_CAUTION},
        [SPT_FLAG_GREASE_HOT] = {SPT_CONCERN_GREASING, SPT_GRADE_CAUTION},
        [SPT_FLAG_GREASE_NO_INTERVAL] = {SPT_CONCERN_GREASING, SPT_GRADE_CAUTION},
        [SPT_FLAG_GREASE_LOAD] = {SPT_CONCERN_GREASING, SPT_GRADE_NOTE},
        [SPT_FLAG_OIL_WARM] = {SPT_CONCERN_OIL_HEAT, SPT_GRADE_NOTE},
        [SPT_FLAG_OIL_HOT] = {SPT_CONCERN_OIL_HEAT, SPT_GRADE_CAUTION},
        [SPT_FLAG_OIL_PEAK] = {SPT_CONCERN_OIL_HEAT, SPT_GRADE_UNFIT},
        [SPT_FLAG_OVERLOAD] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_ABOVE_STATIC] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_AXIAL_NOT_RATED] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_STATIC_SAFETY] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_HEAVY_CONTAMINATION] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_OIL_SPEED] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_OIL_SLUGGISH] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_RIB_SPEED] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_PRELOAD] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_PRELOAD_CURE] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_END_PLAY] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_TIGHT_WARM] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_INNER_CREEPS] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_OUTER_CREEPS] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SPEED_LIMIT] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SLOPE_FAR] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_FILM_THIN] = {SPT_CONCERN_LIMITS, SPT_GRADE_CAUTION},
        [SPT_FLAG_CALENDAR_AGE] = {SPT_CONCERN_LIMITS, SPT_GRADE_NOTE},
        [SPT_FLAG_DUST_CONTRADICTED] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_WET_CONTRADICTED] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SHEET_RATING] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SHEET_RATINGS] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SHEET_FACTORS] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SHEET_FATIGUE_LIMIT] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SHEET_LOAD_CENTRE] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_CLASS_UNKNOWN] = {SPT_CONCERN_INPUTS, SPT_GRADE_UNFIT},
        [SPT_FLAG_SEAL_CONTRADICTED] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_FILTER_HOLDS] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_FILTER_OVERWHELMED] = {SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION},
        [SPT_FLAG_SEALS_TRUSTED] = {SPT_CONCERN_INPUTS, SPT_GRADE_NOTE},
    };
    return rules[flag];
}

/* What the parts are judged from. */
struct facts {
    const struct spt_assessment *assessment;
    const struct spt_judgement *known; /* what stands in the judgement already */
};

static const struct spt_concern_verdict met = {SPT_GRADE_MET, SPT_FLAG_COUNT, (double)NAN};
static const struct spt_concern_verdict absent = {SPT_GRADE_ABSENT, SPT_FLAG_COUNT, (double)NAN};

/* Makes a part worse, never better. */
static void worsen(struct spt_concern_verdict *part, enum spt_grade grade, enum spt_flag flag)
{
    if (grade > part->grade)
        *part = (struct spt_concern_verdict){grade, flag, (double)NAN};
}

/* Takes what the service makes of a part where that is worse. */
static void take_worse(struct spt_concern_verdict *part, const struct spt_concern_verdict *ahead,
                       double at_h)
{
    if (ahead->grade <= part->grade)
        return;
    *part = *ahead;
    part->at_h = at_h;
}

static bool is_greased(const struct facts *facts)
{
    return facts->known->question->lubricant.kind == SPT_LUBRICATION_GREASE;
}

/* The lower bound of the life counts. */
static struct spt_concern_verdict judge_fatigue(const struct facts *facts)
{
    struct spt_concern_verdict part = met;
    if (!facts->known->has_target)
        return absent;
    if (!(facts->known->hours_run + facts->known->lower_h >= facts->known->question->target_life_h))
        part.grade = SPT_GRADE_MISSED;
    else if (facts->assessment->phase_dents.changes)
        part = (struct spt_concern_verdict){SPT_GRADE_CAUTION, SPT_FLAG_PHASE_DENTS, (double)NAN};
    return part;
}

/* Greased for life: the bearing is renewed with its grease, which must last to the target. */
static struct spt_concern_verdict judge_life_grease(const struct spt_judgement *known)
{
    struct spt_concern_verdict part = met;
    const bool ends = known->replace_governor == SPT_GOVERNOR_LIFE_GREASE ||
                      known->replace_governor == SPT_GOVERNOR_LIFE_AGE;
    if (ends && known->has_target &&
        !(known->hours_run + known->replace_h >= known->question->target_life_h))
        part.grade = SPT_GRADE_MISSED;
    return part;
}

/* The interval of the plan is that of the condition as stated; a state ahead that needs another one
 * is told with it. */
static struct spt_concern_verdict judge_greasing(const struct facts *facts)
{
    static const enum spt_grade grades[] = {
        [SPT_GREASING_NONE] = SPT_GRADE_ABSENT,
        [SPT_GREASING_KEPT] = SPT_GRADE_MET,
        [SPT_GREASING_OFTEN] = SPT_GRADE_CAUTION,
        [SPT_GREASING_CANNOT] = SPT_GRADE_UNFIT,
    };
    SPT_ONE_EACH(grades, SPT_GREASING_STATE_COUNT);
    const struct spt_judgement *known = facts->known;
    struct spt_concern_verdict part = met, ahead = met;
    if (known->question->lubricant.greased_for_life)
        return judge_life_grease(known);
    part.grade = grades[known->greasing.state];
    ahead.grade = grades[known->worst.greasing.state];
    if (known->worst.greasing.kept_h < known->regrease_h)
        worsen(&ahead, SPT_GRADE_CAUTION, SPT_FLAG_COUNT);
    if (known->worst.followed && part.grade != SPT_GRADE_ABSENT)
        take_worse(&part, &ahead, known->worst.greasing_at_h);
    return part;
}

/* By the limit of the case, else by a rule of this tool. */
static enum spt_grade grade_risk(const struct spt_grease_risk *risk, double limit)
{
    if (limit > 0)
        return risk->share <= limit ? SPT_GRADE_MET : SPT_GRADE_MISSED;
    if (risk->low > RISK_MUCH) /* even with an interval twice as long */
        return SPT_GRADE_CAUTION;
    return risk->share > RISK_MUCH ? SPT_GRADE_NOTE : SPT_GRADE_MET;
}

/* Without yearly hours it is told, not judged. */
static struct spt_concern_verdict judge_grease_risk(const struct facts *facts)
{
    const struct spt_judgement *known = facts->known;
    const double limit = known->question->grease_risk_limit;
    struct spt_concern_verdict part = met, ahead = met;
    if (isnan(known->grease_risk.share))
        return absent;
    if (!(known->question->yearly_use_h > 0)) {
        if (known->grease_risk.share > RISK_MUCH)
            part.grade = SPT_GRADE_NOTE;
        return part;
    }
    part.grade = grade_risk(&known->grease_risk, limit);
    ahead.grade = grade_risk(&known->worst.grease_risk, limit);
    if (known->worst.followed)
        take_worse(&part, &ahead, known->worst.risk_at_h);
    return part;
}

/* Water that is not stated is never found to be too much; only the surroundings speak. */
static struct spt_concern_verdict grade_water(const struct facts *facts,
                                              const struct spt_water_state *water)
{
    struct spt_concern_verdict part = met;
    if (water->cold > WATER_NEAR * SPT_WATER_FINDING)
        worsen(&part, SPT_GRADE_NOTE, SPT_FLAG_WATER_COLD);
    if (is_greased(facts) && water->unstated_moisture == (int)SPT_MOISTURE_CONDENSATION)
        worsen(&part, SPT_GRADE_NOTE, SPT_FLAG_WATER_ASSUMED);
    if (water->cold > SPT_WATER_FINDING)
        worsen(&part, SPT_GRADE_CAUTION, SPT_FLAG_WATER_COLD);
    if (is_greased(facts) && water->unstated_moisture > (int)SPT_MOISTURE_CONDENSATION)
        worsen(&part, SPT_GRADE_CAUTION, SPT_FLAG_WATER_ASSUMED);
    if (water->running > 1) {
        part.grade = is_greased(facts) ? SPT_GRADE_CAUTION : SPT_GRADE_UNFIT;
        part.flag = SPT_FLAG_WATER_SATURATED;
    }
    if (is_greased(facts) && water->ppm > WATER_SOAKED)
        worsen(&part, SPT_GRADE_MISSED, SPT_FLAG_WATER_FLOOR);
    return part;
}

static struct spt_concern_verdict judge_water(const struct facts *facts)
{
    const struct spt_worst_state *worst = &facts->known->worst;
    struct spt_water_state stated = {.unstated_moisture = 0};
    for (int b = 0; b < facts->assessment->bearing_count; b++)
        spt_water_state_add(facts->known->question, &facts->assessment->bearings[b], &stated);
    struct spt_concern_verdict part = grade_water(facts, &stated);
    const struct spt_concern_verdict ahead = grade_water(facts, &worst->water);
    if (worst->followed)
        take_worse(&part, &ahead, worst->water_at_h);
    return part;
}

/* The oil change of the plan is that of the condition as stated, as the greasing is. */
static struct spt_concern_verdict judge_oil_heat(const struct facts *facts)
{
    const struct spt_judgement *known = facts->known;
    struct spt_concern_verdict part = met, ahead = met;
    if (is_greased(facts))
        return absent;
    ahead.grade = SPT_GRADE_CAUTION;
    if (known->worst.followed && known->worst.oil_kept_h < known->oil_change_h)
        take_worse(&part, &ahead, known->worst.oil_at_h);
    return part;
}

static struct spt_concern_verdict judge_by_flags(const struct facts *facts)
{
    (void)facts;
    return met;
}

/* One row a part: how it is judged, before the flags of the part make it worse. */
static struct spt_concern_verdict (*const judges[])(const struct facts *facts) = {
    [SPT_CONCERN_FATIGUE] = judge_fatigue,         [SPT_CONCERN_GREASING] = judge_greasing,
    [SPT_CONCERN_GREASE_RISK] = judge_grease_risk, [SPT_CONCERN_WATER] = judge_water,
    [SPT_CONCERN_OIL_HEAT] = judge_oil_heat,       [SPT_CONCERN_LIMITS] = judge_by_flags,
    [SPT_CONCERN_INPUTS] = judge_by_flags,
};
SPT_ONE_EACH(judges, SPT_CONCERN_COUNT);

/* The bounds of the life under the plan: the one place where they are read. */
static void find_bounds(const struct spt_schedule *plan, struct spt_judgement *judgement)
{
    judgement->hours_run = plan->remaining.hours_run;
    judgement->life_h = judgement->lower_h = plan->life_h;
    judgement->upper_h = plan->cured_h;
    judgement->life_stops = plan->life_stops;
    judgement->stated_renewals_h = plan->stated_renewals_h;
    judgement->stated_renewals_stop = plan->stated_renewals_stop;
}

static void take_oil_change(const struct spt_schedule *plan, struct spt_judgement *judgement)
{
    judgement->oil_change_h = judgement->oil_every_h = judgement->oil_every_days = (double)NAN;
    for (int i = 0; i < plan->task_count; i++) {
        const struct spt_schedule_task *task = &plan->tasks[i];
        if (task->task != SPT_TASK_OIL_CHANGE && task->task != SPT_TASK_OIL_OR_FILTER)
            continue;
        judgement->oil_change_h = task->own_h;
        judgement->oil_every_h = task->every_h;
        judgement->oil_every_days = task->every_days;
    }
}

static void take_plan(const struct spt_schedule *plan, struct spt_judgement *judgement)
{
    find_bounds(plan, judgement);
    judgement->greasing = plan->greasing;
    judgement->regrease_h = plan->regrease_h;
    judgement->regrease_own =
        plan->stated_regrease_h > 0 && !(plan->greasing.kept_h <= plan->stated_regrease_h);
    judgement->grease_risk = plan->grease_risk;
    judgement->worst = plan->worst;
    take_oil_change(plan, judgement);
    judgement->replace_h = plan->replace_h;
    judgement->replace_governor = plan->replace_governor;
}

/* The flags that the service brings, where they are worse. */
static void apply_rules_ahead(struct spt_judgement *judgement)
{
    const struct spt_worst_state *worst = &judgement->worst;
    for (int i = 0; worst->followed && i < worst->notes.count; i++) {
        const enum spt_flag flag = worst->notes.list[i].flag;
        const struct spt_verdict_rule rule = spt_verdict_rule_of(flag);
        const struct spt_concern_verdict ahead = {rule.grade, flag, (double)NAN};
        if (judgement->parts[rule.part].grade != SPT_GRADE_ABSENT)
            take_worse(&judgement->parts[rule.part], &ahead, worst->noted_h[i]);
    }
}

static void apply_rules(struct spt_judgement *judgement)
{
    for (int i = 0; i < judgement->notes.count; i++) {
        const enum spt_flag flag = judgement->notes.list[i].flag;
        const struct spt_verdict_rule rule = spt_verdict_rule_of(flag);
        struct spt_concern_verdict *part = &judgement->parts[rule.part];
        if (part->grade != SPT_GRADE_ABSENT)
            worsen(part, rule.grade, flag);
    }
}

void spt_verdict_of(const struct spt_assessment *assessment, const struct spt_schedule *plan,
                    struct spt_judgement *judgement)
{
    const struct facts facts = {assessment, judgement};
    memset(judgement, 0, sizeof *judgement);
    judgement->question = assessment->question;
    judgement->dented_phase =
        assessment->phase_dents.changes ? assessment->phase_dents.phase : NULL;
    judgement->has_target = !isnan(assessment->question->target_life_h);
    judgement->stated_h = assessment->modified_rating_life_h;
    spt_assessment_notes(assessment, &judgement->notes);
    take_plan(plan, judgement);
    for (int i = 0; i < SPT_CONCERN_COUNT; i++)
        judgement->parts[i] = judges[i](&facts);
    apply_rules(judgement);
    apply_rules_ahead(judgement);
    judgement->grade = SPT_GRADE_MET;
    for (int i = 0; i < SPT_CONCERN_COUNT; i++)
        if (judgement->parts[i].grade > SPT_GRADE_NOTE &&
            judgement->parts[i].grade > judgement->grade)
            judgement->grade = judgement->parts[i].grade;
}

bool spt_verdict_fails(const struct spt_judgement *judgement)
{
    return judgement->grade >= SPT_GRADE_MISSED;
}
