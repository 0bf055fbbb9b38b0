/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_COURSE_RUN_H
#define STUDY_COURSE_RUN_H

#include <stdint.h>

#include "spalltime/assess.h"
#include "spalltime/service.h"

#define SPT_RUN_PIECES_MAX 40000 /* intervals that one result may integrate */
#define SPT_RUN_SPANS 64         /* of a period, that are kept */
#define SPT_RUN_SAME_TIME 1e-12  /* relative tolerance within which two times are equal */
#define SPT_RUN_WHOLE (-1)       /* no event or drift is left out */
#define SPT_RUN_QUIET (-2)       /* all are left out */

#define SPT_RUN_DIRT_LEVELS 6 /* no class of a drift, then each class of a way of lubricating */

/* What becomes of the dents of dirt that is gone: they stay (the bound that counts), cleaning cures
 * them, or half of their effect on ln L is cured. */
enum spt_run_dents { SPT_RUN_DENTS_STAY, SPT_RUN_DENTS_CURED, SPT_RUN_DENTS_HALF };

/* The damage of one bearing over a part of a period: where nothing but renewals changes the state,
 * the same part comes again in each period. */
struct spt_run_span {
    int bearing;
    uint64_t state; /* case, dents, and which drifts are over */
    double age_h, to_age_h, clock_h;
    double damage;
};

/* Shared by all runs of one result: what bounds the computing time, and what saves it. */
struct spt_run_budget {
    int pieces_left, span_count;
    struct spt_run_span spans[SPT_RUN_SPANS]; /* the last ones */
};

/* State of an integration over time. */
struct spt_run {
    const struct spt_case *question;
    const struct spt_service *service;
    const struct spt_timeline_workspace *workspace;
    int skipped; /* index of the event or drift (events first) left out, or one of the two above */
    struct spt_run_budget *budget;
    double time_h;
    double damage[SPT_BEARINGS_MAX];
    bool stopped; /* no life from time_h on */
    enum spt_status status;
    enum spt_run_dents dents;
    int renewals_seen;         /* events that have been looked at for a new bearing */
    bool is_new;               /* a new bearing was put in: nothing before the first hour counts */
    struct spt_remaining past; /* of the first case; hours_run 0: new */
    double factor;             /* a1, where it is not new */
    uint64_t ranges;           /* of the formulas at the moment last looked at */
    double replaced[SPT_BEARINGS_MAX]; /* damage of the bearings taken out */
    /* Running hours since the first hour or the last new bearing, by the case (after event i, last
     * the first case) and the cleanest class of the drifts: the dirt that has ruled. */
    double ruled_h[SPT_EVENTS_MAX + 1][SPT_RUN_DIRT_LEVELS];
};

/* The state at a time (run_state.c). A stretch is the time between two jumps of the state. */

/* True where the event or drift is left out of the run. */
bool spt_run_skips(const struct spt_run *run, int influence);

/* True where a time is reached, within round-off. */
bool spt_run_has_come(double at_h, double time_h);

/* Renewals done by a time; 0 where there are none (`every_h` NaN). */
double spt_run_renewals(double every_h, double time_h);

/* Time of the last oil change; 0 where there was none. */
double spt_run_clock_start(const struct spt_run *run, double time_h);

/* Age of the oil, on which drifts of water and dirt run. */
double spt_run_clock(const struct spt_run *run, double time_h);

/* Age of the grease at the first hour: `age_h` as stated, unless an event before it (but the one
 * left out, see spt_run.skipped) leaves another. */
double spt_run_age_at_start(const struct spt_service *service, int skipped, double age_h);

/* Regreasings done by a time, and when the n-th is (spt_regreasing_first; n from 1). */
double spt_run_regreasings(const struct spt_run *run, double time_h);
double spt_run_regreasing_at(const struct spt_run *run, double n);

/* Age of the grease at a time inside the stretch that starts at `start_h`: since the last
 * regreasing, or since an event that states the age of the grease it leaves. */
double spt_run_grease_age(const struct spt_run *run, double start_h, double time_h);

/* The changes by the service at a time inside the stretch that starts at `start_h`. */
struct spt_adjustment spt_run_adjustment(const struct spt_run *run, double start_h, double time_h);

/* The case that holds from `time_h` on, and its index: that of an event, or SPT_EVENTS_MAX for the
 * first case. */
const struct spt_case *spt_run_case(const struct spt_run *run, double time_h);
int spt_run_case_index(const struct spt_run *run, double time_h);
const struct spt_case *spt_run_case_at(const struct spt_run *run, int index);

/* Memory of dirt (run_dents.c). */

/* Puts in the new bearings of events that have come by now. */
void spt_run_renew(struct spt_run *run);

/* Counts the dirt of the stretch from now to `to_h`. */
void spt_run_rule(struct spt_run *run, double to_h);

/* Writes the dents of the dirt so far into the phases of one bearing of the case that holds now,
 * or, where the dents are cured, clears them. */
void spt_run_lay_dents(const struct spt_run *run, int bearing, struct spt_case *changed,
                       struct spt_phase *phases);

/* True where the dirt so far makes the same dents in both. */
bool spt_run_same_dents(const struct spt_run *run, const struct spt_run *other);

/* A number that differs, but for chance, where the case that holds now or its dents differ. */
uint64_t spt_run_dents_state(const struct spt_run *run, int bearing);

/* True where dirt may go again under a service, or has gone before the first hour. */
bool spt_run_may_clean_up(const struct spt_case *question, const struct spt_service *service);

/* Names the dirtiest class that has ruled long enough in a phase that turns, with its hours. */
void spt_run_name_dirt(const struct spt_run *run, struct spt_dent_bounds *dents);

/* Integration over time (run.c). */

/* The time from now on at which something other than a renewal changes the state; now where a drift
 * is under way. Drifts of water and dirt start again with each oil change: these repeat themselves.
 */
double spt_run_quiet_until(const struct spt_run *run);

/* A whole budget. */
struct spt_run_budget spt_run_budget(void);

/* A failure to weigh the past is in the status of the run. */
struct spt_run spt_run_start(const struct spt_case *question, const struct spt_service *service,
                             const struct spt_timeline_workspace *workspace,
                             struct spt_run_budget *budget);

/* The rate of damage at a moment (run_rate.c) and over a stretch (run_spend.c). */

/* Adds a note with its place. Result: -1, or where its flag is there already the index of that, and
 * nothing is added. */
int spt_run_place_note(struct spt_placed_notes *placed, const struct spt_note *note,
                       const struct spt_note_place *place);

/* 1/L of one bearing at a moment of the current stretch; NaN where there is no life. Its flags are
 * added to `placed`, which may be NULL. */
double spt_run_rate(struct spt_run *run, int bearing, double time_h,
                    struct spt_placed_notes *placed);

/* Damage of one bearing from now to `to_h`, inside one stretch. `*no_life_h` is a moment at which
 * there is no life (the earliest that was met), NaN where there is one throughout. */
double spt_run_spend(struct spt_run *run, int bearing, double to_h, double *no_life_h);

/* Damage of all bearings together: 1 at the end of their life, which of bearings that have run
 * before is the remaining one. */
double spt_run_damage(const struct spt_run *run);

/* Advances to a time, whatever the damage. */
void spt_run_advance(struct spt_run *run, double to_h);

/* spt_timeline_rows with the dents as said. Bearings that events take out count with those that
 * replace them. */
enum spt_status spt_run_rows(struct spt_run *start, const double *times_h, int count, double enough,
                             double (*damage)[SPT_BEARINGS_MAX], int *reached, double *stopped_h);

/* Life of a whole run: INFINITY beyond the horizon, NaN where it stops. */
double spt_run_life(struct spt_run *run, double until_h);

#endif
