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

/* A sudden, permanent change: from `at_h` on, another case applies. */
struct spt_event {
    const char *name;
    double at_h;         /* running hours, >= 0; events are in rising order */
    double grease_age_h; /* age of the grease after the event; NaN: the grease continues to age */
    bool new_bearing;    /* new bearings are put in: their damage is 0 and their raceways are clean;
                            the grease is as grease_age_h says */
};

/* A linear change between two times that is permanent afterwards; each part may be absent. */
struct spt_drift {
    const char *name;
    double from_h, to_h;                 /* running hours, from <= to */
    double water_from_ppm, water_to_ppm; /* NaN: no part; lower bound for every phase */
    int class_from, class_to;  /* enum spt_cleanliness, -1: no part; each class in turn for an equal
                                  fraction of the time */
    double load_from, load_to; /* factor on every load; NaN: no part */
    double rise_from_k, rise_to_k; /* added to every temperature; NaN: no part */
};

/* Maintenance of the machine, and the events and drifts during its service. */
struct spt_service {
    double regrease_every_h; /* > 0; NaN: never; renews the grease; first at spt_regreasing_first of
                                its initial age */
    double oil_change_every_h; /* > 0; NaN: never; drifts of water and cleanliness depend on the age
                                  of the oil, so they restart at each change */
    double until_h;            /* horizon of the calculation, > 0; NaN: 1e6 h */
    bool new_gearbox;          /* the first oil change comes early */
    int event_count, drift_count;
    struct spt_event events[SPT_EVENTS_MAX];
    struct spt_drift drifts[SPT_DRIFTS_MAX];
    /* cases[event_count * skipped + i] is the case after event i if event `skipped` never happens;
     * with skipped = event_count no event is left out. NULL where there is no event. */
    const struct spt_case *cases;
    /* the grease is renewed at the start, whatever its stated age */
    bool renewed_at_start;
};

/* The first place that raises a note, and how many others raise it in the same state. */
struct spt_note_place {
    int bearing;
    const char *phase; /* NULL: all of them */
    int more;          /* later phases of this bearing */
    unsigned others;   /* bit 1 << bearing of each other bearing that raises it as well */
};

/* A set of notes with their places: `places[i]` belongs to `notes.list[i]`. */
struct spt_placed_notes {
    struct spt_notes notes;
    struct spt_note_place places[SPT_FLAG_COUNT];
};

/* An interval of time between two marks (start, events, ends of drifts). */
struct spt_stage {
    double from_h, to_h;
    bool renewed;                   /* an event puts in new bearings at its start: damage 0 */
    double damage;                  /* accumulated in it */
    double start_life_h;            /* life if the state at its start were permanent; NaN: none */
    double end_life_h;              /* the same for the state just before its end */
    struct spt_placed_notes placed; /* flags of the phases in these two states, each once with its
                                       first value; for the last stage also those just after
                                       `stopped_h`. Flags of assumed inputs come from spt_assess. */
    struct spt_notes start_notes;   /* those of them that are raised at its start already */
};

/* An event or a drift, and its effect on the life. */
struct spt_influence_result {
    const char *name;
    double at_h;
    double damage_at;      /* damage before it; NaN where the life ends earlier */
    double life_without_h; /* life without this event or drift; NaN where none can be stated;
                              INFINITY beyond the horizon */
};

struct spt_timeline {
    double life_h; /* lower bound, by which a target is judged: dents stay in the raceways; time at
                      which damage reaches 1; INFINITY: not until the horizon; NaN: see stopped_h */
    double hours_run; /* before the first hour: what counts from new is the sum; 0: new */
    double until_h;
    double stopped_h;     /* time from which no life can be stated (no film left, or a temperature
                             outside the models); NaN: not before life_h */
    double damage_at_end; /* at life_h, stopped_h or until_h; of bearings that have run before the
                             spent share of the remaining life, as all damage here */
    struct spt_dent_bounds dents;
    double undisturbed_h;         /* life without any event or drift */
    double undisturbed_stopped_h; /* stopped_h for undisturbed_h; the next member has the flags just
                                     after it */
    struct spt_notes undisturbed_notes;
    int stage_count, worst_stage;
    struct spt_stage stages[SPT_STAGES_MAX];
    int influence_count; /* events, then drifts */
    struct spt_influence_result influences[SPT_EVENTS_MAX + SPT_DRIFTS_MAX];
};

/* Workspace (memory of the caller): `phases` and `results` each for the largest
 * spt_case_phase_count of the case and of the cases after events. */
struct spt_timeline_workspace {
    struct spt_phase *phases;
    struct spt_phase_result *results;
};

/* Calculates the damage of a case over its service life.
 * Damage is the integral of dt/L(state(t)), integrated numerically between the times at which the
 * state jumps; two bearings are combined by spt_survival_series with the lives 1/D. Grease ages
 * with running time from its stated age (the oldest of the phases) and is renewed by each
 * regreasing, first when its age equals the interval; dirt that has ruled for SPT_DENTS_AFTER_H of
 * running in sum stays as dents until an event puts in a new bearing: each phase has the e_C of its
 * own class or of the dirtiest before, with the kappa of the moment; its wear follows from the
 * present surroundings, which is conservative after a change for the worse. Status:
 * SPT_BAD_ARGUMENT for a number that the models reject, or a service outside the ranges above (also
 * infinite periods and times); SPT_NOT_CONVERGED where an integral fails or more than 40 000
 * intervals between renewals would have to be integrated (equal periods without a drift count
 * once). Source: Palmgren-Miner as an integral; the life models as cited in their headers. */
enum spt_status spt_timeline(const struct spt_case *question, const struct spt_service *service,
                             const struct spt_timeline_workspace *workspace,
                             struct spt_timeline *timeline);

/* Damage at `count` increasing times in h (>= 0); NaN from the time at which no life can be stated.
 * Status: as spt_timeline; SPT_BAD_ARGUMENT for times that do not increase. */
enum spt_status spt_timeline_curve(const struct spt_case *question,
                                   const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace,
                                   const double *times_h, int count, double *damage);

/* Damage of each bearing separately (with that of the bearings that events have taken out) at
 * `count` increasing times in h, from the lives at the reliability of the case. Ends after the
 * first time at which one bearing has `enough` damage, or before the first time at which no life
 * can be stated. Result: the damage at the first `*reached` times; `*stopped_h`: time from which no
 * life can be stated, else INFINITY. Status: as spt_timeline. */
enum spt_status spt_timeline_rows(const struct spt_case *question,
                                  const struct spt_service *service,
                                  const struct spt_timeline_workspace *workspace,
                                  const double *times_h, int count, double enough,
                                  double (*damage)[SPT_BEARINGS_MAX], int *reached,
                                  double *stopped_h);

/* ---- schedule ------------------------------------------------------------------------------ */

/* A maintenance schedule: the tasks, their intervals, and what determines each interval. */

#define SPT_SCHEDULE_TASKS_MAX (SPT_BEARINGS_MAX + 4)

/* Longest plan: beyond it other causes (seals, corrosion, the machine itself) end the service
 * first. A rule of this tool. */
#define SPT_SCHEDULE_YEARS_MAX 100

/* Later than this of use, without yearly hours than so many hours, fatigue asks for no replacement:
 * other causes come first. A rule of this tool. */
#define SPT_SCHEDULE_FAR_YEARS 30
#define SPT_SCHEDULE_FAR_H 2e5

#define SPT_SCHEDULE_OPEN_YEARS 10 /* length of a calendar without an end of its own; ours */

/* A replacement that is due later than a visit by at most this fraction of its age is done then. A
 * rule of this tool. */
#define SPT_SCHEDULE_REPLACE_WITHIN 0.02

/* Shorter intervals of repacking, fresh oil or inspection (about a working week) are not kept in
 * practice. Common practice, no source. */
#define SPT_SCHEDULE_PRACTICAL_H 50
/* calendar days: intervals below 50 h are practical where they are at least this long */
#define SPT_SCHEDULE_WEEK_DAYS 7

enum spt_task {
    SPT_TASK_REGREASE,
    SPT_TASK_REPACK,        /* grease cleaned out and renewed as a whole */
    SPT_TASK_OIL_CHANGE,    /* oil bath */
    SPT_TASK_OIL_OR_FILTER, /* circulating oil: change or clean it */
    SPT_TASK_INSPECT,
    SPT_TASK_READY, /* before a season: look, drain, sample */
    SPT_TASK_REPLACE,
    SPT_TASK_COUNT
};

/* What determines an interval. */
enum spt_governor {
    SPT_GOVERNOR_GREASE_LIFE,  /* relubrication interval of the duty, 1/t = sum q_i/t_i */
    SPT_GOVERNOR_OWN,          /* the shorter interval that the service states */
    SPT_GOVERNOR_TOO_OFTEN,    /* grease: an interval that nobody keeps, so none is planned */
    SPT_GOVERNOR_WATER,        /* a drift of water reaches its limit */
    SPT_GOVERNOR_CLEANLINESS,  /* a drift of contamination passes its limit */
    SPT_GOVERNOR_LIMIT_PASSED, /* a limit is exceeded from the start, even with fresh oil: no
                                  interval helps */
    SPT_GOVERNOR_GREASE_AGE,   /* grease ages at standstill: spt_greasing.months come first */
    SPT_GOVERNOR_LIFE_99,      /* the fatigue life that 99 % reach */
    SPT_GOVERNOR_YEAR,         /* once a year (common practice, no source) */
    SPT_GOVERNOR_FATIGUE,      /* fatigue life at the target reliability */
    SPT_GOVERNOR_FATIGUE_FAR,  /* the same so far away that it asks for no replacement, see
                                  spt_schedule_is_far: the age is there, and no plan goes by it */
    SPT_GOVERNOR_AGE_LIMIT,    /* calendar age stated as the limit */
    SPT_GOVERNOR_SEASON,       /* once before each season (common practice, no source) */
    SPT_GOVERNOR_COSTS,        /* the cheapest age, where that is sooner */
    SPT_GOVERNOR_NO_LIFE,      /* no life can be stated, so there is no interval */
    SPT_GOVERNOR_LIFE_ENDS,    /* with the drifts no life can be stated from then on */
    SPT_GOVERNOR_NO_INTERVAL,  /* grease: speed and bore outside the formula, or it never turns */
    SPT_GOVERNOR_STATED,       /* no drift reaches a limit, so the stated interval is used */
    SPT_GOVERNOR_NO_WEAR,      /* the duty causes no damage */
    SPT_GOVERNOR_OIL_LIFE,     /* the oil's own life at its temperatures */
    SPT_GOVERNOR_OIL_AGE,      /* spt_oil_change.months come first */
    SPT_GOVERNOR_OIL_DIRT,     /* without a filter the ingress brings it to its limit */
    SPT_GOVERNOR_LIFE_GREASE,  /* greased for life: the grease ends */
    SPT_GOVERNOR_LIFE_AGE,     /* greased for life: ten years */
    SPT_GOVERNOR_COUNT
};

struct spt_schedule_task {
    enum spt_task task;
    int bearing;    /* index; -1: all bearings of the machine */
    double every_h; /* > 0, rounded down (spt_regreasing_kept_h); NaN: no interval, see governor */
    enum spt_governor governor;
    double quantity_g; /* total quantity of grease to add; NaN: not for this task, or not known */
    double spent_h; /* part of the first interval that has passed at the start, for instance age of
                       the present grease; >= every_h: overdue */
    double kept_h; /* running hours from one visit to the next: own_h, or fewer so that the visit is
                      one of those of the other tasks (spt_visits_align) */
    double raw_h;  /* before it was rounded down */
    double every_days; /* the same in calendar time, rounded down; NaN: no yearly hours */
    double own_h;      /* the first of every_h and every_days, in running hours */
};

/* Running hours from the start until a task is due for the first time; 0: overdue, NaN: never. An
 * inspection is due at once where no life can be stated. */
double spt_schedule_first_h(const struct spt_schedule_task *task);
bool spt_schedule_is_overdue(const struct spt_schedule_task *task);

/* Limits at which the oil or grease is changed. */
struct spt_service_limits {
    double water_ppm; /* NaN: no limit */
    int cleanliness;  /* enum spt_cleanliness, dirtiest class allowed; -1: no limit */
};

struct spt_schedule_inputs {
    const struct spt_case *question;
    /* NULL: none stated; time of its drifts counts from fresh oil */
    const struct spt_service *service;
    struct spt_service_limits limits;
    struct spt_replacement_costs costs; /* NaN: not stated */
    double floor; /* least life over L10, 0 <= floor < 1: SPT_WEIBULL_FLOOR, or 0 for the
                     two-parameter form */
    /* Workspace for following the drifts and events of the service; NULL: lives in the condition as
     * stated. */
    const struct spt_timeline_workspace *timeline_workspace;
    /* greasing, life, replacement and grease risk alone, which take little time: no `path`, no
     * survival, no policies */
    bool outline;
};

#define SPT_PATH_POINTS 1024

/* Damage of each bearing over time by its L10, from 0 at 0 h: D = integral of dt/L10(state(t)), the
 * argument of the law of fatigue lives, S(t) = S(t/L10 = D); of the bearing then in place and of
 * those that events took out before it together. Interpolated by a monotone cubic
 * (Steffen, Astron. Astrophys. 239 (1990) 443); beyond the last point at a constant rate, the mean
 * rate since the service has become periodic. */
struct spt_damage_path {
    int count;
    double times_h[SPT_PATH_POINTS];
    double damage[SPT_PATH_POINTS][SPT_BEARINGS_MAX];
    double end_rate_1_h[SPT_BEARINGS_MAX];
    double stopped_h; /* no life can be stated from here on: survival is 0; INFINITY: never */
    int reset_count;  /* times at which events put in new bearings */
    double resets_h[SPT_EVENTS_MAX];
};

/* One replacement policy, and its yearly result for the fleet; NaN where not known. */
struct spt_schedule_policy {
    struct spt_replacement plan;
    struct spt_replacement_year year; /* costs NaN without stated costs */
};

struct spt_bearing_schedule {
    double l10_h;      /* modified life at 90 %; INFINITY: no damage */
    double interval_h; /* grease_interval_h; NaN: oil, or no interval at this speed and bore */
    double regrease_h; /* regreasing in the plan, see struct spt_schedule; NaN as above */
    double quantity_g;
    /* for this bearing alone, by the rules of the machine; NaN: none */
    double renewed_h; /* as renewed_h of the plan */
    double inspect_h; /* fatigue life that 99 % reach */
    double replace_h; /* age at which fatigue reaches the target reliability */
    enum spt_governor replace_governor;
};

/* Survival probabilities at t_h (>= 0, finite): fatigue, grease, both; 1 where a cause is
 * absent. */
struct spt_schedule_point {
    double t_h, fatigue, grease, combined;
};

/* First oil change of a new gearbox. Common practice, no source. */
#define SPT_OIL_FIRST_H 500

/* The change of oil by its own life. Rules of this tool. */
struct spt_oil_change {
    double life_h;     /* 1/t = sum q_i/t_i over the phases that turn, see spt_oil_life; INFINITY:
                          nothing turns; NaN: grease */
    double hottest_c;  /* phase that turns */
    int months;        /* at the latest: 6 open breather, dust or wet, 12 usual, 24 closed or drying
                          breather or synthetic oil, both sampled; 0: grease */
    double fill_h;     /* without a filter: until the ingress brings the oil to its limit, or two
                          numbers above its class; INFINITY: not so */
    double every_h;    /* rounded down, see spt_regreasing_kept_h; NaN: none can be kept */
    double every_days; /* the same in calendar time; NaN: no yearly hours */
    double kept_h;     /* running hours between two changes: the shorter of both */
    bool calendar;     /* the months set every_h */
};

#define SPT_GREASED_FOR_LIFE_YEARS 10 /* at most, unless an age is stated; a rule of this tool */

/* Tasks beside greasing, oil and replacement. */
enum spt_care {
    SPT_CARE_END_PLAY,
    SPT_CARE_LOOK,
    SPT_CARE_OPEN,
    SPT_CARE_PURGE_SEAL,
    SPT_CARE_SAMPLE,
    SPT_CARE_BREATHER,
    SPT_CARE_FILTER,
    SPT_CARE_TURN,
    SPT_CARE_LAY_UP,
    SPT_CARE_FREE_WATER,
    SPT_CARE_COUNT
};

/* One of them; it is due at whichever comes first. */
struct spt_care_task {
    enum spt_care care;
    double first_h;    /* running hours; NaN: as later */
    double every_h;    /* running hours; NaN: the calendar alone, or by occasion */
    int months;        /* 0: by occasion */
    double every_days; /* the months, or the hours at the yearly use rounded down as a workshop
                          keeps it (spt_regreasing_kept_days) where that is sooner and there is no
                          season; NaN: by occasion, or hours alone without yearly use */
};

#define SPT_GREASE_RISK_H 1000 /* without yearly hours */

/* Share of machines in which the grease of any of their units fails within a year of use, or within
 * SPT_GREASE_RISK_H without yearly hours, given that all work at its start. `low` and `high`: the
 * same with twice and with half the relubrication interval. NaN: no grease with an interval.
 * `within_h`: the interval that keeps to grease_risk_limit of the case (spt_regreasing_period_for);
 * NaN: no limit, or nobody greases it. The plan does not go by it. */
struct spt_grease_risk {
    double hours;
    double share, low, high;
    double within_h;
};

/* Water of the worst phase, as shares of what is dissolved; a phase whose water is not stated
 * counts by its moisture alone. */
struct spt_water_state {
    double cold;    /* at the coldest standstill */
    double running; /* in the coldest running phase with a tenth of the running time */
    double ppm;
    int unstated_moisture; /* enum spt_moisture, the harshest of phases with no water stated */
};

/* The worst that events and drifts bring until the life under the plan ends, or the horizon of the
 * service; of each part by itself, with the running hours at which it is reached. What the plan
 * does is that of the condition as stated. */
struct spt_worst_state {
    bool followed; /* the service has events or drifts; else all this is the state as stated */
    struct spt_water_state water;
    double water_at_h;
    struct spt_notes
        notes; /* flags that weigh in the verdict, each once; not of the grease's age */
    double noted_h[SPT_FLAG_COUNT]; /* of each of them */
    struct spt_greasing greasing;
    double greasing_at_h;
    struct spt_grease_risk grease_risk; /* with the renewals of the plan; `within_h` is NaN */
    double risk_at_h;
    double oil_kept_h; /* between two oil changes; NaN: grease */
    double oil_at_h;
};

struct spt_schedule {
    const struct spt_case *question;
    int bearing_count;
    struct spt_bearing_schedule bearings[SPT_BEARINGS_MAX];
    bool life_known; /* every bearing has a life */
    int fatigue_count, grease_count;
    struct spt_life_law fatigue[SPT_BEARINGS_MAX];
    struct spt_grease_plan grease[SPT_BEARINGS_MAX];
    struct spt_survival_lives fatigue_lives, grease_lives, combined_lives; /* NaN: none */
    /* The life under this plan at the target reliability: with the drifts and events of the service
     * and the renewals of the plan; INFINITY: no limit, NaN: none can be stated. */
    double life_h;
    double cured_h;  /* the same if cleaning cured all dents: the upper bound beside it */
    double steady_h; /* the same without drifts and events */
    bool life_stops; /* no life can be stated from life_h on */
    /* the life under the renewals that the service states in place of those of the plan; `life_h`
     * without a service */
    double stated_renewals_h;
    bool stated_renewals_stop; /* no life can be stated from then on */
    double replace_h;          /* age of replacement; NaN: none */
    enum spt_governor replace_governor;
    double reliable_h;                        /* the age of replacement without regard to costs */
    double survival_fatigue;                  /* survival at that age */
    double survival_grease;                   /* 1 without grease */
    struct spt_schedule_point at_target_life; /* NaN: no target, or no life is known */
    struct spt_grease_risk grease_risk;       /* beside the replacement, which does not renew it */
    double age_limit_h;           /* calendar age limit in running hours; INFINITY: none */
    struct spt_greasing greasing; /* by spt_case_greasing */
    struct spt_oil_change oil;
    struct spt_worst_state worst;
    double grease_life_h; /* greased for life: age at which the greases reach the target
                             reliability; NaN: not so */
    int care_count;
    struct spt_care_task care[SPT_CARE_COUNT];
    double regrease_h; /* running hours between two regreasings of all bearings at one visit: kept_h
                          of `greasing`, or a shorter interval of the service; NaN: none */
    double grease_age_h; /* age of the oldest grease at the start */
    double renewed_h;    /* interval at which the greases are renewed: by regreasing or repacking,
                            whichever comes first and is practical; INFINITY: never; NaN as above */
    double stated_regrease_h;   /* regreasing interval of the service; NaN: none */
    double stated_oil_change_h; /* the same of the oil */
    bool repacking_renews;      /* repacking comes before a regreasing and replaces it */
    bool costs_known;           /* stated */
    struct spt_replacement_costs costs;
    bool optimum_found; /* false although costs are known: no finite age is cheaper than running to
                           failure */
    struct spt_schedule_policy run_to_failure, at_target, at_optimum;
    double visit_h; /* running hours from one visit to the next, of which every other interval is a
                       multiple; NaN: no visits */
    int task_count;
    struct spt_schedule_task tasks[SPT_SCHEDULE_TASKS_MAX];
    /* True where lives, inspection, replacement and failures include the drifts and events of the
     * service, or the renewals of the grease, by `path`; `fatigue` and each l10_h are
     * still those of the condition as stated. */
    bool followed;
    bool service_followed; /* the service has drifts or events; else only the age of the grease
                              changes */
    bool follow_failed; /* too many renewals to follow: `followed` is false, lives are those of the
                           condition as stated */
    double floor;       /* of the inputs */
    /* factor on every fatigue life; 1 except inside spt_schedule_intervals */
    double fatigue_factor;
    struct spt_damage_path path;
    /* interval of grease renewal in `path`, from this plan; NaN: none */
    double followed_regrease_h;
    double followed_change_h;
    bool followed_renewed;        /* the grease is renewed at the start of it */
    struct spt_dent_bounds dents; /* beside life_h, for comparison alone */
    /* of bearings that have run before: all ages and dates here then count from now, the target
     * from new, survival is that of those which still run; yearly costs and failures are those of
     * new bearings, which come after them */
    struct spt_remaining remaining;
    struct spt_survival_lives stated_fatigue_lives; /* of the condition as stated; NaN: none */
};

/* Calculates the plan.
 * In:     a case; `results`: buffer for the phases of one bearing.
 * Rules:  regreasing of all bearings at one visit, as struct spt_greasing says, or at the interval
 *         that the service states where that is shorter; the first time is earlier by the age of
 *         the present grease, which the survival does not include;
 *         oil change when the first drift reaches a limit, else as stated in the service;
 *         inspection at the fatigue life that 99 % reach, at least once a year where yearly hours
 *         are stated (a rule of this tool), without an interval where no life can be stated;
 *         replacement at the age at which fatigue reaches the target reliability, at most the
 *         age limit, and where costs are stated at most the cheapest age (Barlow and Hunter, Oper.
 *         Res. 8 (1960) 90, from memory), in which failures of the grease count as a steady rate:
 *         the more of them there are, the later it is. With grease, or drifts or events in the
 * service (and a timeline_workspace), fatigue follows from the damage done while the grease ages,
 * with regreasing and oil changes of this plan (as stated where it has none); the regreasing period
 * itself still follows from the condition as stated except for the age of the grease: what is
 * renewed has the same plan whatever its age is now. Where no life can be stated from some time on,
 * survival is 0 from then on and that time is an upper limit of the replacement age. A task without
 * an interval is in the plan too, with NaN and a governor that gives the reason. Failures of the
 * grease are a yearly risk beside it: a new bearing has the same grease, so they never shorten its
 * age. For the optimum age and the failures in a year the failure rate of the grease is replaced by
 * its mean between two regreasings, so that the survival is smooth. Status: SPT_BAD_ARGUMENT,
 * SPT_NOT_CONVERGED. Quantities without a value are NaN, see each governor. Source: as cited in the
 * model headers; the rules are ours. */
enum spt_status spt_schedule(const struct spt_schedule_inputs *inputs,
                             struct spt_phase_result *results, struct spt_schedule *schedule);

/* A service with the renewals of a plan in place of its own: the one that `life_h` follows. */
struct spt_service spt_schedule_service(const struct spt_schedule *schedule,
                                        const struct spt_service *stated);

/* Inspection and replacement of a plan if every fatigue life were `factor` (> 0) times as long, for
 * the ends of a band. With the drifts of a service the damage is assumed to scale likewise.
 * Regreasing and oil changes do not change. NaN where the plan has no interval, INFINITY where
 * there is no damage.
 * Status: SPT_BAD_ARGUMENT, SPT_NOT_CONVERGED. */
struct spt_schedule_intervals {
    double inspect_h, replace_h;
};
enum spt_status spt_schedule_intervals(const struct spt_schedule *schedule, double factor,
                                       struct spt_schedule_intervals *intervals);

/* Running hours with fresh oil until the first drift reaches a limit, and the governor for it;
 * INFINITY where none does, 0 with SPT_GOVERNOR_LIMIT_PASSED where a limit is exceeded at the
 * start. */
double spt_schedule_limit_time(const struct spt_case *question, const struct spt_service *service,
                               const struct spt_service_limits *limits,
                               enum spt_governor *governor);

enum spt_status spt_schedule_survival(const struct spt_schedule *schedule, double t_h,
                                      struct spt_schedule_point *point);

/* The largest of base x 1 2 3 4 6 8 12 16 24 36 48 72 96 144 192 288 384 that does not exceed the
 * interval; NaN where that is shorter than the base. A rule of this tool: what is due less often
 * falls on a visit for what is due more often, so that no task drifts off the season. */
double spt_visits_multiple(double base, double interval);

/* A distance rounded down to 1 1.5 2 2.5 4 5 8 km times a power of ten; NaN below 1 km. A rule of
 * this tool. */
double spt_visits_km(double raw_km);

/* True where the interval of a task is rounded down: not for a replacement, an interval that the
 * user states, and a year, whose hours are only another way to say it. */
bool spt_visits_rounds(const struct spt_schedule_task *task);

/* True for a task that is done again and again on dates of the calendar. */
bool spt_visits_has(const struct spt_schedule *schedule, const struct spt_schedule_task *task);

/* The shortest interval of the tasks that are done again and again; NaN: there is none. */
double spt_visits_base(const struct spt_schedule *schedule);

/* Sets `visit_h`, and `kept_h` of each task to a multiple of it. `base_h` (> 0): visits of other
 * plans, of which those of this one are a multiple where they are no more frequent; NaN: its own.
 */
void spt_visits_align(struct spt_schedule *schedule, double base_h);

/* ---- season -------------------------------------------------------------------------------- */

/* True where the machine runs in a season and is laid up for the rest of the year. */
bool spt_season_has(const struct spt_case *question);

/* Greasings in a season of so many hours and months, each after `kept_h` and within the months of
 * the grease (0: no limit), evenly: the last, at its end, purges, so that the months rest in the
 * lay-up. At least 1; 0 where that is no number. A rule of this tool. */
int spt_season_greasings(double season_h, double season_months, double kept_h, int cap_months);

/* Sets where in the season a plan starts: on a day of the year (0 to 366, from 1 January). */
void spt_season_begin(struct spt_case *question, double day);

/* Days from the start until running hours are reached, those of a season evenly within its months;
 * at the end of a season, or `before` the next. */
double spt_season_days(const struct spt_case *question, double at_h, bool before);

/* One task on one date of the plan. */
struct spt_schedule_entry {
    int task;         /* index into the tasks */
    int number;       /* 1 for the first time, then 2, ... */
    int visit;        /* 1 for the first; tasks of one visit have the same `visit` and `at_h` */
    double at_h;      /* running hours from the start */
    double due_h;     /* >= at_h: when it would be due without other tasks */
    bool ends_season; /* a greasing that purges before the lay-up */
    bool before;      /* after the lay-up, before the season begins */
};

#define SPT_SCHEDULE_ENTRIES_MAX 2000

/* All dates up to the replacement (or to the target life where there is none), at most up to
 * spt_schedule_planned_h, in order of time. What is overdue is done at once; from the first date on
 * which anything else is due visits follow each other by `visit_h`, and each task is done at every
 * so many of them: earlier than necessary, never later. A replacement that is due soon after a
 * visit is done with it (SPT_SCHEDULE_REPLACE_WITHIN); the other tasks of that visit are left out,
 * and the plan ends. At a visit for repacking nothing is regreased. Tasks that are impractically
 * frequent are left out unless they are overdue now. In:     `capacity`: length of `entries`.
 * Result: number of entries; `*cut` is set where `capacity` was too small for all. */
int spt_schedule_calendar(const struct spt_schedule *schedule, struct spt_schedule_entry *entries,
                          int capacity, bool *cut);

/* True where repacking or fresh oil is due after less than SPT_SCHEDULE_PRACTICAL_H and, where
 * yearly hours are stated, more often than once a week. */
bool spt_schedule_is_impractical(const struct spt_case *question,
                                 const struct spt_schedule_task *task);

/* True for an age (h from now) that fatigue reaches later than SPT_SCHEDULE_FAR_YEARS of use. */
bool spt_schedule_is_far(const struct spt_case *question, double age_h);

/* Running hours in SPT_SCHEDULE_YEARS_MAX years; without stated yearly hours for continuous
 * running. */
double spt_schedule_planned_h(const struct spt_case *question);

/* Days from the start until running hours are reached; NaN without yearly hours. */
double spt_schedule_days(const struct spt_case *question, double at_h);
double spt_schedule_entry_days(const struct spt_case *question,
                               const struct spt_schedule_entry *entry);

#ifdef __cplusplus
}
#endif

#endif
