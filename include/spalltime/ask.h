/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_ASK_H
#define SPT_ASK_H

#include "spalltime/arena.h"
#include "spalltime/assess.h"
#include "spalltime/cost.h"
#include "spalltime/fit.h"
#include "spalltime/reach.h"
#include "spalltime/service.h"
#include "spalltime/setting.h"
#include "spalltime/sweep.h"
#include "spalltime/uncertainty.h"
#include "spalltime/verdict.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One function for each analysis. It is given a case as a scenario states it (the `question`) and
 * an arena, does everything the analysis needs (for a hub: the setting and the load distribution
 * first) and returns the result. A result points into the arena and into the case; free the arena
 * when the result is no longer needed, also after a failure. The functions are thread-safe if each
 * thread has an arena of its own. `error` is filled on failure and otherwise left unchanged. No
 * pointer may be NULL unless its comment says so. */

/* Why there is no result. */
struct spt_error {
    enum spt_status status;
    bool of_case; /* the case as stated has no answer; false: memory ran out or a method failed */
    const char *place; /* what the text is about, such as the title of the case; NULL: nothing in
                          particular. Borrowed from the case */
    char text[400];    /* readable message without a line end */
};

/* Fills an error with the text of spt_status_text.
 * Result: the status. */
enum spt_status spt_error_set(struct spt_error *error, enum spt_status status, const char *place);

/* Fills an error with a message formatted as by printf.
 * Result: the status. */
enum spt_status spt_error_say(struct spt_error *error, enum spt_status status, bool of_case,
                              const char *place, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* Life of the bearings under the duty cycle, for a hub with its load distribution.
 * Status: as spt_assess, spt_hub_settle and spt_hub_answer; SPT_NO_MEMORY. */
enum spt_status spt_ask_life(const struct spt_case *question, struct spt_arena *arena,
                             struct spt_assessment *assessment, struct spt_error *error);

/* Modified rating life in h of a settled case (see struct spt_settled), nothing else; NaN where it
 * has none.
 * Status: as spt_case_life. */
enum spt_status spt_ask_life_h(const struct spt_case *settled, struct spt_arena *arena,
                               double *life_h, struct spt_error *error);

/* How the life of a hub depends on its setting.
 * Status: SPT_NOT_APPLICABLE for a case without a hub; as spt_hub_settle and spt_hub_curve. */
enum spt_status spt_ask_setting(const struct spt_case *question, struct spt_arena *arena,
                                struct spt_hub_curve *curve, struct spt_error *error);

/* The mounted setting in mm (end play above 0) at which the load zone of a row has this extent in
 * one phase, by bisection over the settings that the hub searches (lowest_mm to highest_mm).
 * In:     a case with a hub as stated; row 0 or 1; a phase of it; the zone in degrees.
 * Result: NaN with SPT_OK where the zone is wider or narrower at every one of these settings.
 * Status: SPT_NOT_APPLICABLE for a case without a hub; as spt_ask_life. Source: our own. */
enum spt_status spt_ask_zone_setting(const struct spt_case *question, int row, int phase,
                                     double zone_deg, struct spt_arena *arena, double *setting_mm,
                                     struct spt_error *error);

/* A settled case: one with the setting factors of its hub put into its phases, and the bench that
 * they come from; without a hub the case alone, and `has_bench` false. Most other analyses start
 * from it. */
struct spt_settled {
    struct spt_case question;
    struct spt_hub_bench bench;
    bool has_bench;
};

/* Makes the settled case; `with_cure`: as spt_hub_settle.
 * Result: in the arena, NULL on failure. */
struct spt_settled *spt_ask_settled(const struct spt_case *question, bool with_cure,
                                    struct spt_arena *arena, struct spt_error *error);

/* Accumulated damage at `count` times, for a plot. */
struct spt_damage_curve {
    int count;
    const double *times_h;
    const double *damage;
};

/* Result of following a case over its service life. */
struct spt_service_life {
    struct spt_case question; /* a settled case, as are the cases in `service` */
    struct spt_service service;
    struct spt_timeline timeline;
    struct spt_damage_curve curve; /* up to the end of the life, the time from which no life can be
                                      stated, or the horizon */
    double stated_h; /* life in the condition as stated, without the service; NaN: none */
    struct spt_greasing greasing;       /* of the condition as stated */
    struct spt_phase_dents phase_dents; /* beside stated_h */
    /* set by the caller, else NULL: the band of stated_h, and the plan whose renewals it follows */
    const struct spt_uncertainty_result *spread;
    const struct spt_schedule *plan;
};

/* Follows a case over its service life, with events, drifts and regreasing.
 * Status: as spt_timeline. */
enum spt_status spt_ask_timeline(const struct spt_case *question, const struct spt_service *service,
                                 struct spt_arena *arena, struct spt_service_life *life,
                                 struct spt_error *error);

/* Inputs of a maintenance plan. */
struct spt_plan_inputs {
    const struct spt_case *question;
    const struct spt_service *service; /* NULL: none */
    struct spt_service_limits limits;
    struct spt_replacement_costs costs; /* NaN: not stated */
    double floor;                       /* least life over L10: SPT_WEIBULL_FLOOR or 0 */
    /* uncertain inputs, for the band of the intervals; NULL: no band. Sampled by one thread for
     * each processor */
    const struct spt_uncertainty *uncertainty;
};

/* Maintenance plan: tasks and their intervals, their dates, the survival of the bearings and the
 * band of the intervals. */
struct spt_maintenance {
    struct spt_schedule schedule;
    int entry_count;
    const struct spt_schedule_entry *entries; /* see spt_schedule_calendar */
    bool cut;                                 /* there are more dates than entries */
    /* survival from 0 h to the time that half of the machines reach by fatigue, or by grease where
     * fatigue has no such time; 0 points: neither has */
    int curve_count;
    const struct spt_schedule_point *curve;
    const struct spt_uncertainty_result *spread; /* band of the rated life; NULL: not asked for */
    /* the intervals for its 5 % and 95 % quantiles; NaN: without a band, or no life there */
    struct spt_schedule_intervals low, high;
};

/* Status: SPT_NOT_APPLICABLE where spt_case_lacks_dirt; as spt_schedule; with uncertain inputs also
 * as spt_uncertainty. */
enum spt_status spt_ask_schedule(const struct spt_plan_inputs *asked, struct spt_arena *arena,
                                 struct spt_maintenance *plan, struct spt_error *error);

/* A judgement and the outline of the plan that it rests on. */
struct spt_judged {
    struct spt_schedule plan;
    struct spt_judgement judgement;
};

/* Judges a case: its life under the plan, the greasing, water, heat, limits and inputs. It makes
 * the plan in outline only, and takes no samples. In:     the inputs of the plan, without
 * `uncertainty`; the assessment of the same case, as from spt_ask_life. Status: as spt_schedule. */
enum spt_status spt_ask_verdict(const struct spt_plan_inputs *asked,
                                const struct spt_assessment *assessment, struct spt_arena *arena,
                                struct spt_judged *judged, struct spt_error *error);

/* The same for a plan that is made already. */
enum spt_status spt_ask_plan_verdict(const struct spt_assessment *assessment,
                                     const struct spt_schedule *plan, struct spt_arena *arena,
                                     struct spt_judgement *judgement, struct spt_error *error);

/* A case whose plan is to be paid for. Of the service only its drifts and its own intervals count:
 * the cases after its events are changes of one case, so they cannot be laid on another. */
struct spt_cost_inputs {
    struct spt_plan_inputs plan; /* without a band */
    struct spt_costs costs;
};

/* Works out the plan of each case and what it costs in a year, and compares the later ones with the
 * first (spt_cost_plan, spt_cost_compare).
 * Status: as spt_schedule and spt_cost_plan. */
enum spt_status spt_ask_costs(const struct spt_cost_inputs *cases, int count,
                              struct spt_arena *arena, struct spt_cost_result *results,
                              struct spt_error *error);

/* Which single change reaches a life of target_h (above 0).
 * Status: as spt_reach. */
enum spt_status spt_ask_reach(const struct spt_case *question, double target_h,
                              struct spt_arena *arena, struct spt_reach *reach,
                              struct spt_error *error);

/* Inputs of a band, found by sampling the uncertain inputs. */
struct spt_spread_inputs {
    const struct spt_case *question; /* settled: spt_ask_settled or the case of an assessment */
    struct spt_uncertainty uncertainty;
    bool shares; /* also find the shares of the variance */
    int threads; /* 1 to SPT_UNCERTAIN_THREADS_MAX; 0: one for each processor. The answer is the
                    same for any number */
};

/* Band of the life of a settled case.
 * Status: as spt_uncertainty. */
enum spt_status spt_ask_spread(const struct spt_spread_inputs *asked, struct spt_arena *arena,
                               struct spt_uncertainty_result *result, struct spt_error *error);

/* Inputs of a fit of field data. */
struct spt_field_inputs {
    struct spt_fit_inputs inputs; /* data as observed; spt_ask_fit sets the rank method */
    const int *modes; /* mode of failure of each row, 0 to mode_count - 1, or below 0: none stated;
                         NULL: no modes */
    int mode_count;
    int mode; /* the mode to fit: bearings that failed by others count as running until then; below
                 0: all modes */
};

struct spt_field_answer {
    struct spt_fit_inputs inputs; /* with the data as used in the fit */
    struct spt_fit fit;
    const struct spt_rank_point *points; /* points of a probability plot */
    const struct spt_fit_candidate *candidates;
    int running_count;
    const struct spt_fit_running *running; /* those still running, by the fitted law */
    int other_modes;                       /* failures by other modes than the fitted one */
    const struct spt_fit *modes; /* a fit of each mode by itself, without points and candidates, if
                                    all of several modes are fitted together; else NULL */
};

/* Fits a Weibull law to lives from the field.
 * Status: as spt_fit. */
enum spt_status spt_ask_fit(const struct spt_field_inputs *asked, struct spt_arena *arena,
                            struct spt_field_answer *answer, struct spt_error *error);

/* Inputs of a sweep: the swept fields, their values in each row, and the wanted results. */
struct spt_rows_inputs {
    const struct spt_case *question; /* as a scenario states it; the setting and the load
                                        distribution of a hub are solved in each row */
    int field_count;
    const enum spt_sweep_field *fields;
    const double *const *columns; /* one array of row_count numbers for each field */
    long row_count;
    int value_count;
    const int *values; /* enum spt_sweep_value, or spt_sweep_row_value of a row of a hub */
};

/* Calculates every row.
 * Result: the values in results[value][row], NaN where there is none, and the reason in status[row]
 *         (enum spt_sweep_status).
 * Status: SPT_BAD_ARGUMENT where the fields exclude each other (see spt_sweep_plan_make); those of
 *         spt_sweep_workspace_make. */
enum spt_status spt_ask_rows(const struct spt_rows_inputs *asked, struct spt_arena *arena,
                             double *const *results, unsigned char *status,
                             struct spt_error *error);

/* Number of samples for each of `among` cases that share `samples`; a hub takes longer and gets
 * fewer. */
#define SPT_BAND_SAMPLES_MIN 2000
int spt_ask_band_samples(int samples, int among, bool hub);

#ifdef __cplusplus
}
#endif

#endif
