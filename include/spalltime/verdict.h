/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_VERDICT_H
#define SPT_VERDICT_H

#include "spalltime/assess.h"
#include "spalltime/service.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- stairs -------------------------------------------------------------------------------- */

/* What leads from the basic rating life to the life under a plan, step by step. */
enum spt_stair {
    SPT_STAIR_RATING,      /* basic rating life of the duty at 90 % */
    SPT_STAIR_RELIABILITY, /* a1 */
    SPT_STAIR_SETTING,     /* load distribution at the setting of a hub */
    SPT_STAIR_CLEARANCE,   /* load zone at the clearance at work */
    SPT_STAIR_FILM,        /* a_ISO: film and cleanliness, with fresh grease */
    SPT_STAIR_WATER,       /* a_w */
    SPT_STAIR_PAST,        /* hours run already: what is left of those that still run */
    SPT_STAIR_GREASE,      /* grease that ages and is renewed as planned */
    SPT_STAIR_SERVICE,     /* drifts and events of the service */
    SPT_STAIR_COUNT
};

struct spt_stair_step {
    enum spt_stair what;
    double factor; /* of the step on the life; 1 for the first; NaN where a life has no value */
    double life_h; /* after the step, of all bearings together; INFINITY, NaN as in assess.h */
};

/* The steps that the case has, in this order. The product of their factors is the last life over
 * the first, where all are finite. */
struct spt_stairs {
    int count;
    struct spt_stair_step steps[SPT_STAIR_COUNT];
};

/* Makes the steps of a case.
 * In:     a case; the plan made for it; `results`: buffer for the phases of one bearing.
 * Status: as spt_assess_bearing.
 * Source: the factors of ISO 281:2007 as cited at each model; the order of the steps is ours. */
enum spt_status spt_stairs_of(const struct spt_case *question, const struct spt_schedule *plan,
                              struct spt_phase_result *results, struct spt_stairs *stairs);

/* ---- verdict ------------------------------------------------------------------------------- */

/* What a machine is judged by. */
enum spt_concern {
    SPT_CONCERN_FATIGUE,     /* the life under the plan against the target */
    SPT_CONCERN_GREASING,    /* can the interval be kept */
    SPT_CONCERN_GREASE_RISK, /* failures of the grease in a year */
    SPT_CONCERN_WATER,       /* free water in operation and at the coldest standstill */
    SPT_CONCERN_OIL_HEAT,    /* heat of the oil itself */
    SPT_CONCERN_LIMITS,      /* what else than fatigue may end it, or the method does not cover */
    SPT_CONCERN_INPUTS,      /* what was assumed, and what contradicts itself */
    SPT_CONCERN_COUNT
};

/* From good to bad. A note changes neither the verdict nor the exit status. */
enum spt_grade {
    SPT_GRADE_ABSENT, /* the case has no such part, or nothing to judge it by */
    SPT_GRADE_MET,
    SPT_GRADE_NOTE,
    SPT_GRADE_CAUTION,
    SPT_GRADE_MISSED, /* or not shown to be met */
    SPT_GRADE_UNFIT,  /* a plan that nobody can keep, or a state that nothing bears */
    SPT_GRADE_COUNT
};

struct spt_concern_verdict {
    enum spt_grade grade;
    enum spt_flag flag; /* that decides it; SPT_FLAG_COUNT: none does */
    double at_h;        /* running hours from now at which the service makes it so; NaN: it is so as
                           stated */
};

/* What a flag of the condition as stated says of a part; ABSENT: nothing, or it is weighed with the
 * numbers of its part. */
struct spt_verdict_rule {
    enum spt_concern part;
    enum spt_grade grade;
};
struct spt_verdict_rule spt_verdict_rule_of(enum spt_flag flag);

/* A machine judged as a whole. All commands take it from here, so that any two agree. */
struct spt_judgement {
    const struct spt_case *question;
    enum spt_grade grade; /* the worst of the parts; MET where only notes are */
    bool has_target;      /* else the part of fatigue is absent */
    struct spt_concern_verdict parts[SPT_CONCERN_COUNT];
    struct spt_notes notes;       /* every flag of the condition as stated, once */
    struct spt_worst_state worst; /* what the service brings, which the parts are judged by */
    double life_h;                /* under the plan; INFINITY: no limit, NaN: none can be stated */
    double hours_run;             /* before; all lives here count from now, the target from new */
    const char *dented_phase;     /* whose dents, if they stay, miss the target; NULL: none */
    /* bounds of that life: the lower one counts, the upper one is told where it would meet */
    double lower_h, upper_h;
    bool life_stops; /* at life_h the film goes or the models end, not fatigue */
    double stated_h; /* life in the condition as stated, without the service */
    /* life under the renewals that the service states, where they are not those of the plan; NaN */
    double stated_renewals_h;
    bool stated_renewals_stop; /* no life can be stated from then on */
    double regrease_h;         /* running hours between two greasings; NaN: none */
    bool regrease_own;         /* as the service states, sooner than the interval asks for */
    double oil_change_h;       /* running hours between two changes of oil; NaN: none */
    double oil_every_h;        /* the hours alone of those, rounded down, beside the calendar: */
    double oil_every_days;     /* NaN: no yearly hours */
    struct spt_greasing greasing;
    struct spt_grease_risk grease_risk;
    double replace_h; /* NaN: none */
    enum spt_governor replace_governor;
    struct spt_stairs stairs;
};

/* Judges a machine by its parts.
 * In:     the assessment of the condition as stated; the plan for the same case (an outline is
 *         enough).
 * Result: the judgement, without `stairs`. It borrows the case of the assessment.
 * Source: thresholds as stated at each part in the source; the choice of the parts is ours. */
void spt_verdict_of(const struct spt_assessment *assessment, const struct spt_schedule *plan,
                    struct spt_judgement *judgement);

/* True where a target is missed or not shown to be met, or a plan cannot be kept. */
bool spt_verdict_fails(const struct spt_judgement *judgement);

#ifdef __cplusplus
}
#endif

#endif
