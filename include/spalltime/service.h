/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SERVICE_H
#define SPT_SERVICE_H

#include "spalltime/assess.h"
#include "spalltime/statistics.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- timeline ------------------------------------------------------------------------------ */

#define SPT_EVENTS_MAX 16
#define SPT_DRIFTS_MAX 16
#define SPT_STAGES_MAX (SPT_EVENTS_MAX + 2 * SPT_DRIFTS_MAX + 1)

/* Something that happens at once and stays: from `at_h` on, another case holds. */
struct spt_event {
    const char *name;
    double at_h;         /* running hours, >= 0; events are in rising order */
    double grease_age_h; /* of the grease it leaves in the bearing; NaN: it goes on ageing */
};

/* Something that changes steadily between two times and then stays; each part may be absent. */
struct spt_drift {
    const char *name;
    double from_h, to_h;                 /* running hours, from <= to */
    double water_from_ppm, water_to_ppm; /* NaN: no part; lays a floor under every phase */
    int class_from, class_to;      /* enum spt_cleanliness, -1: no part; each class in turn for
                                    * an equal part of the time */
    double load_from, load_to;     /* factor on every load; NaN: no part */
    double rise_from_k, rise_to_k; /* on every temperature; NaN: no part */
};

/* How the machine is looked after and what befalls it. */
struct spt_service {
    double regrease_every_h;   /* > 0; NaN: never; renews the grease, for the first time as
                                * spt_regreasing_first says of its age at the start */
    double oil_change_every_h; /* > 0; NaN: never; drifts of water and cleanliness run on the age of
                                * the oil, so they start again at each */
    double until_h;            /* where to stop looking, > 0; NaN: 1e6 h */
    int event_count, drift_count;
    struct spt_event events[SPT_EVENTS_MAX];
    struct spt_drift drifts[SPT_DRIFTS_MAX];
    /* cases[(event_count) * skipped + i] holds after event i when event `skipped` never happens;
     * row `event_count` is with all of them. NULL where there is no event. */
    const struct spt_case *cases;
    /* the grease is renewed before the first hour, whatever its stated age */
    bool renewed_at_start;
};

/* Where a note is raised first, and how many others raise it in the same state. */
struct spt_note_place {
    int bearing;
    const char *phase; /* NULL: all of them */
    int more;          /* later phases of this bearing */
    unsigned others;   /* bit 1 << bearing of each other bearing that raises it as well */
};

/* A set of notes with their places, `places[i]` being that of `notes.list[i]`. */
struct spt_placed_notes {
    struct spt_notes notes;
    struct spt_note_place places[SPT_FLAG_COUNT];
};

/* A stretch between two marks (start, events, drift ends). */
struct spt_stage {
    double from_h, to_h;
    double damage;                  /* spent in it */
    double start_life_h;            /* life that the state at its start would give; NaN: none */
    double end_life_h;              /* the same just before its end */
    struct spt_placed_notes placed; /* flags of the phases in these two states, each once, first
                                     * value; of the last stage also those just past `stopped_h`.
                                     * What was assumed about the inputs is in spt_assess. */
    struct spt_notes start_notes;   /* those of them that hold at its start already */
};

/* An event or a drift, and what it cost. */
struct spt_influence_result {
    const char *name;
    double at_h;
    double damage_at;      /* spent before it; NaN where the life ends before */
    double life_without_h; /* NaN where none can be stated; INFINITY beyond the horizon */
};

struct spt_timeline {
    double life_h; /* damage reaches 1; INFINITY: not by `until`; NaN: see stopped_h */
    double until_h;
    double stopped_h;     /* from here on no life can be stated (film gone, or a temperature outside
                           * the models); NaN: never before life_h */
    double damage_at_end; /* at life_h, stopped_h or until_h */
    double undisturbed_h; /* without any event or drift */
    double undisturbed_stopped_h; /* as stopped_h of that; its flags just past it are the next */
    struct spt_notes undisturbed_notes;
    int stage_count, worst_stage;
    struct spt_stage stages[SPT_STAGES_MAX];
    int influence_count; /* events, then drifts */
    struct spt_influence_result influences[SPT_EVENTS_MAX + SPT_DRIFTS_MAX];
};

/* Caller's memory: phases and results each for as many phases (spt_case_phase_count) as the case
 * has or any of the cases after an event, which may bring a longer duty. */
struct spt_timeline_room {
    struct spt_phase *phases;
    struct spt_phase_result *results;
};

/* Follows a case through its service life.
 * Damage is the integral of dt/L(state(t)), integrated by GSL between the times at which the state
 * jumps; two bearings combine as lives 1/D by spt_survival_series. Grease ages with running time
 * from its stated age (the oldest of the phases) and is renewed by each regreasing, the first
 * when it has that interval's age; its wear is
 * judged by the surroundings of the moment, which is cautious after a change for the worse. Status:
 * SPT_BAD_ARGUMENT for a number the models refuse, or a service outside the ranges above (infinite
 * periods and times too); SPT_NOT_CONVERGED where an integral fails or
 * more than 40 000 stretches between renewals would have to be integrated; like periods without a
 * drift count once. Source: Palmgren-Miner read as an integral; the life models as cited in their
 * headers. */
enum spt_status spt_timeline(const struct spt_case *question, const struct spt_service *service,
                             const struct spt_timeline_room *room, struct spt_timeline *timeline);

/* Damage at `count` rising times in h (>= 0); NaN from where the film is gone.
 * Status: as spt_timeline, also for times that do not rise. */
enum spt_status spt_timeline_curve(const struct spt_case *question,
                                   const struct spt_service *service,
                                   const struct spt_timeline_room *room, const double *times_h,
                                   int count, double *damage);

/* Damage of each bearing by itself at `count` rising times in h, by the lives at the reliability of
 * the case. Ends early, with `*reached` fewer times, after the first at which one bearing has
 * `enough` damage, and before the first at which no life can be stated any more; that moment is
 * `*stopped_h`, else INFINITY. Status: as spt_timeline. */
enum spt_status spt_timeline_rows(const struct spt_case *question,
                                  const struct spt_service *service,
                                  const struct spt_timeline_room *room, const double *times_h,
                                  int count, double enough, double (*damage)[SPT_BEARINGS_MAX],
                                  int *reached, double *stopped_h);

/* ---- schedule ------------------------------------------------------------------------------ */

/* What has to be done to a machine, how often, and what sets that interval. */

#define SPT_SCHEDULE_TASKS_MAX (SPT_BEARINGS_MAX + 3)

/* Nothing is planned further ahead: other ends (seals, corrosion, the machine itself) come first. A
 * rule of this tool. */
#define SPT_SCHEDULE_YEARS_MAX 100

/* Grease ages standing still as well: a longer interval gets a caution. Common practice, no source.
 */
#define SPT_SCHEDULE_GREASE_YEARS 3
#define SPT_SCHEDULE_OPEN_YEARS 10 /* of a calendar that nothing ends; ours */

/* A task that is due within this share of its interval after another is done at the same visit. A
 * rule of this tool. */
#define SPT_SCHEDULE_VISIT_WITHIN 0.15
#define SPT_SCHEDULE_REPLACE_WITHIN 0.02 /* the same for the replacement, which costs more */

/* Whoever regreases or inspects by hand does not keep shorter intervals, about a week of work.
 * Common practice, no source. */
#define SPT_SCHEDULE_PRACTICAL_H 50
#define SPT_SCHEDULE_WEEK_DAYS                                                                     \
    7 /* of the calendar: less than 50 h can be kept where that is less */

/* The greases of all bearings together are to reach the target reliability to this power, so that
 * fatigue may take the other half of the failures it allows. A rule of this tool. */
#define SPT_SCHEDULE_GREASE_SHARE 0.5

enum spt_task {
    SPT_TASK_REGREASE,
    SPT_TASK_REPACK,        /* grease cleaned out and renewed as a whole */
    SPT_TASK_OIL_CHANGE,    /* oil bath */
    SPT_TASK_OIL_OR_FILTER, /* circulating oil: change or clean it */
    SPT_TASK_INSPECT,
    SPT_TASK_REPLACE,
    SPT_TASK_COUNT
};

/* What sets an interval. */
enum spt_governor {
    SPT_GOVERNOR_GREASE_LIFE,  /* relubrication interval of the duty, 1/t = sum q_i/t_i */
    SPT_GOVERNOR_RELIABILITY,  /* the target reliability over the horizon asks for more often */
    SPT_GOVERNOR_WATER,        /* a drift of water reaches its limit */
    SPT_GOVERNOR_CLEANLINESS,  /* a drift of dirt passes its limit */
    SPT_GOVERNOR_LIMIT_PASSED, /* fresh or from the start beyond a limit: no interval helps */
    SPT_GOVERNOR_GREASE_AGE,   /* grease ages while it stands (common practice, no source) */
    SPT_GOVERNOR_LIFE_99,      /* the fatigue life that 99 % reach */
    SPT_GOVERNOR_GREASED_99,   /* the life that 99 % reach with their greases, shorter than that */
    SPT_GOVERNOR_LEAST,        /* that is below SPT_SCHEDULE_PRACTICAL_H, which it is then */
    SPT_GOVERNOR_YEAR,         /* once a year (common practice, no source) */
    SPT_GOVERNOR_FATIGUE,      /* fatigue life at the target reliability */
    SPT_GOVERNOR_GREASE,       /* grease failures take the larger part of the allowed failures */
    SPT_GOVERNOR_AGE_LIMIT,    /* calendar age stated as the limit */
    SPT_GOVERNOR_NO_LIFE,      /* no life can be stated: no interval either */
    SPT_GOVERNOR_LIFE_ENDS,    /* under the drifts no life can be stated from then on */
    SPT_GOVERNOR_NO_INTERVAL,  /* grease: speed and bore outside the formula, or it never turns */
    SPT_GOVERNOR_STATED,       /* no drift reaches a limit, so the service's own interval holds */
    SPT_GOVERNOR_NO_LIMIT,     /* oil: no limit that a drift reaches, so nothing sets an interval */
    SPT_GOVERNOR_NO_WEAR,      /* nothing in the duty tires the bearings */
    SPT_GOVERNOR_COUNT
};

struct spt_schedule_task {
    enum spt_task task;
    int bearing;    /* index; -1: the whole machine, all its bearings */
    double every_h; /* > 0; NaN where the governor allows none */
    enum spt_governor governor;
    double quantity_g; /* of grease to add, in all; NaN: not for this task, or not known */
    double spent_h;    /* used up of the first interval at the start, such as by the age of the
                          present grease; >= every_h: overdue */
};

/* Running hours from the start until a task is due for the first time; 0: overdue, NaN: never. An
 * inspection where no life can be stated is due at once. */
double spt_schedule_first_h(const struct spt_schedule_task *task);
bool spt_schedule_is_overdue(const struct spt_schedule_task *task);

/* What the oil or grease may come to before it is changed. */
struct spt_service_limits {
    double water_ppm; /* NaN: no limit */
    int cleanliness;  /* enum spt_cleanliness, dirtiest that will do; -1: no limit */
};

struct spt_schedule_inputs {
    const struct spt_case *question;
    const struct spt_service *service; /* NULL: none stated; its drifts count from fresh oil */
    struct spt_service_limits limits;
    struct spt_replacement_costs costs; /* NaN: not stated */
    double floor; /* least life over L10, 0 <= floor < 1: SPT_WEIBULL_FLOOR, or 0 for the
                     two-parameter form */
    /* To follow the drifts and events of the service; NULL: lives of the condition as stated. */
    const struct spt_timeline_room *timeline_room;
};

#define SPT_PATH_POINTS 1024

/* Damage of each bearing over time by its L10, from 0 at 0 h: D = integral of dt/L10(state(t)),
 * the age that the law of fatigue lives goes by, S(t) = S(t/L10 = D). Between the points a monotone
 * cubic (Steffen, Astron. Astrophys. 239 (1990) 443); behind the last a steady rate, the mean since
 * the service only repeats itself. */
struct spt_damage_path {
    int count;
    double times_h[SPT_PATH_POINTS];
    double damage[SPT_PATH_POINTS][SPT_BEARINGS_MAX];
    double end_rate_1_h[SPT_BEARINGS_MAX];
    double stopped_h; /* no life can be stated from here on: nothing survives; INFINITY: never */
};

/* One way of replacing, and what a year of the fleet brings with it; NaN where not known. */
struct spt_schedule_policy {
    struct spt_replacement plan;
    struct spt_replacement_year year; /* costs NaN without stated costs */
};

struct spt_bearing_schedule {
    double l10_h;      /* modified life at 90 %; INFINITY: no damage */
    double interval_h; /* t_f; NaN: oil, or no interval at this speed and bore */
    double needed_h;   /* regreasing of all that the target reliability asks for; NaN as above */
    double regrease_h; /* of the plan, see there; NaN as above */
    double quantity_g;
    /* of this bearing by itself, by the rules of the machine; NaN: none */
    double renewed_h; /* as that of the plan */
    double inspect_h; /* life that 99 % reach, fatigue and grease */
    double replace_h; /* age that the target reliability allows its fatigue and its grease */
    enum spt_governor replace_governor;
};

/* Shares that survive t_h (>= 0, finite): fatigue, grease, both; 1 where a cause is absent. */
struct spt_schedule_point {
    double t_h, fatigue, grease, combined;
};

struct spt_schedule {
    const struct spt_case *question;
    int bearing_count;
    struct spt_bearing_schedule bearings[SPT_BEARINGS_MAX];
    double horizon_h; /* of the regreasing: target life, else the fatigue life at the target, at
                         most spt_schedule_planned_h */
    bool life_known;  /* every bearing states a life */
    int fatigue_count, grease_count;
    struct spt_life_law fatigue[SPT_BEARINGS_MAX];
    struct spt_grease_plan grease[SPT_BEARINGS_MAX];
    struct spt_survival_lives fatigue_lives, grease_lives, combined_lives; /* NaN: none */
    double replace_h;                         /* age of replacement; NaN: none */
    double survival_fatigue;                  /* at that age */
    double survival_grease;                   /* 1 without grease */
    struct spt_schedule_point at_target_life; /* NaN: no target, or no life is known */
    bool misses_target;  /* less than the target reliability is left then, or none known */
    double age_limit_h;  /* of the calendar, in running hours; INFINITY: none */
    double regrease_h;   /* of all bearings at one visit; NaN: none has an interval */
    double grease_age_h; /* of the oldest grease at the start */
    double renewed_h;    /* what renews them: that or the repacking, whichever is sooner and can
                          * be kept; INFINITY: nothing; NaN as above */
    double stated_regrease_h; /* the service's; NaN: none */
    bool repacking_renews;    /* repacking comes sooner than a regreasing and takes its place */
    bool costs_known;         /* stated */
    bool optimum_found;       /* false with costs: no finite age is cheaper than failure */
    struct spt_schedule_policy run_to_failure, at_target, at_optimum;
    int task_count;
    struct spt_schedule_task tasks[SPT_SCHEDULE_TASKS_MAX];
    /* True where lives, inspection, replacement and failures follow the drifts and events of the
     * service, or the renewals of grease that is not fresh, by `path`; `fatigue` and each l10_h
     * stay those of the condition as stated. */
    bool followed;
    bool
        service_followed; /* the service has drifts or events; else the age of grease is followed */
    bool follow_failed;   /* too many renewals to follow: `followed` is false, lives as stated */
    double floor;         /* of the inputs */
    double fatigue_factor; /* on every fatigue life; 1 but within spt_schedule_intervals */
    struct spt_damage_path path;
    double followed_regrease_h; /* renewals on the way, as this plan has them; NaN: none */
    double followed_change_h;
    struct spt_survival_lives stated_fatigue_lives; /* of the condition as stated; NaN: none */
};

/* Works out the plan.
 * In:     a case; `results` with room for the phases of one bearing.
 * Rules:  regreasing of all bearings at one visit, at their shortest relubrication interval, or
 *         sooner where the greases that have to last the horizon (spt_regreasing_period, together
 *         the target reliability to the power SPT_SCHEDULE_GREASE_SHARE) ask for it; the first
 *         time sooner by the age of the present grease, which survival leaves out; oil change when
 *         the first drift reaches a limit, where none does as the service states; inspection at
 * the life that 99 % reach by fatigue, or with their greases, but for these not below
 * SPT_SCHEDULE_PRACTICAL_H, and at least once a year where yearly hours are stated (a rule of this
 * tool), but without an interval where no life can be stated; replacement at the age that the
 * target reliability allows to fatigue and grease together, at most the age limit. With drifts or
 * events in the service (and a timeline_room) fatigue goes by the damage they do, greased and
 * changed as this plan says (where it has none, as stated); the period of regreasing itself is
 * still set by the condition as stated. Where no life can be stated from some time on, nothing
 * survives it and it bounds the replacement. Where a task has no interval it stands in the plan all
 * the same, with NaN and a governor that says why. The governor is fatigue or grease, whichever has
 * the larger part of the failures by then. Optimum age and failures in a year see grease as a
 * steady rate, its mean between two regreasings, so that the survival is smooth. Status:
 * SPT_BAD_ARGUMENT, SPT_NOT_CONVERGED. What has no answer is NaN, see each governor. Source: as the
 * model headers cite; the rules are ours. */
enum spt_status spt_schedule(const struct spt_schedule_inputs *inputs,
                             struct spt_phase_result *results, struct spt_schedule *schedule);

/* Inspection and replacement of a plan if every fatigue life were `factor` (> 0) times as long: for
 * the ends of a band. Under the drifts of a service damage is taken to scale alike. Regreasing and
 * oil stay. NaN where the plan has no interval, INFINITY where nothing wears it out.
 * Status: SPT_BAD_ARGUMENT, SPT_NOT_CONVERGED. */
struct spt_schedule_intervals {
    double inspect_h, replace_h;
};
enum spt_status spt_schedule_intervals(const struct spt_schedule *schedule, double factor,
                                       struct spt_schedule_intervals *intervals);

/* Running hours with fresh oil until the first drift reaches a limit, and which; INFINITY where
 * none does, 0 with SPT_GOVERNOR_LIMIT_PASSED where the start is beyond a limit already. */
double spt_schedule_limit_time(const struct spt_case *question, const struct spt_service *service,
                               const struct spt_service_limits *limits,
                               enum spt_governor *governor);

enum spt_status spt_schedule_survival(const struct spt_schedule *schedule, double t_h,
                                      struct spt_schedule_point *point);

/* One task on one date of the plan. */
struct spt_schedule_entry {
    int task;     /* index into the tasks */
    int number;   /* 1: the first time */
    int visit;    /* 1: the first; tasks of one visit share it and `at_h` */
    double at_h;  /* running hours from the start */
    double due_h; /* >= at_h: when it would be due by itself */
};

#define SPT_SCHEDULE_ENTRIES_MAX 2000

/* All dates up to the replacement (or to the target life where there is none), at most as far ahead
 * as spt_schedule_planned_h, in order of time. What falls due soon after another task (see
 * SPT_SCHEDULE_VISIT_WITHIN) is done with it, and counts anew from then: sooner than it has to be,
 * never later; the replacement makes the rest of its visit needless. Repacking renews the grease,
 * so regreasing counts anew from it too. What cannot be kept in practice is left out, but for what
 * is overdue now. Result: number of entries; `*cut` is set where `room` was too small for all. */
int spt_schedule_calendar(const struct spt_schedule *schedule, struct spt_schedule_entry *entries,
                          int room, bool *cut);

/* True where regreasing, repacking or fresh oil is due sooner than after SPT_SCHEDULE_PRACTICAL_H,
 * and with yearly hours stated more often than once a week. */
bool spt_schedule_is_impractical(const struct spt_case *question,
                                 const struct spt_schedule_task *task);

/* Running hours of SPT_SCHEDULE_YEARS_MAX years; running day and night where no yearly hours are
 * stated. */
double spt_schedule_planned_h(const struct spt_case *question);

/* Days from the start until running hours are reached; NaN without yearly hours. */
double spt_schedule_days(const struct spt_case *question, double at_h);

#ifdef __cplusplus
}
#endif

#endif
