/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_TIMELINE_H
#define SPT_TIMELINE_H

#include "spalltime/assess.h"

#ifdef __cplusplus
extern "C" {
#endif

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
    const char *phase; /* NULL: all of them, and both rows, as of the setting of a hub */
    int more;          /* later phases of this bearing */
    bool other_too;    /* the other bearing raises it as well */
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

#ifdef __cplusplus
}
#endif

#endif
