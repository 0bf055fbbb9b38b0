/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_ASK_H
#define SPT_ASK_H

#include "spalltime/arena.h"
#include "spalltime/assess.h"
#include "spalltime/fit.h"
#include "spalltime/reach.h"
#include "spalltime/service.h"
#include "spalltime/setting.h"
#include "spalltime/sweep.h"
#include "spalltime/uncertainty.h"

#ifdef __cplusplus
extern "C" {
#endif

/* One function a question: each takes a case as a scenario states it and an arena, does all that
 * the question needs (a hub is set and its load distribution solved first) and gives the answer.
 * What an answer points to lives in the arena and in the case; free the arena when the answer is no
 * longer needed, also after a failure. Several threads may ask at a time, each with an arena of its
 * own. `error` is filled where there is no answer, and left alone otherwise. No pointer may be NULL
 * but those that say so. */

/* Why there is no answer. */
struct spt_error {
    enum spt_status status;
    bool of_case;      /* the case as stated has no answer; else memory or a method failed */
    const char *place; /* what the text speaks of, such as the title of the case; NULL: nothing in
                          particular. Borrowed from the case */
    char text[400];    /* for people, without a line end */
};

/* Fills an error with the sentence of a status. Result: the status. */
enum spt_status spt_error_set(struct spt_error *error, enum spt_status status, const char *place);

/* Fills an error with words in the manner of printf. Result: the status. */
enum spt_status spt_error_say(struct spt_error *error, enum spt_status status, bool of_case,
                              const char *place, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* What a duty cycle leaves of the bearings, with the load distribution of a hub in it.
 * Status: as spt_assess, spt_hub_settle and spt_hub_answer; SPT_NO_MEMORY. */
enum spt_status spt_ask_life(const struct spt_case *question, struct spt_arena *arena,
                             struct spt_assessment *assessment, struct spt_error *error);

/* True where a target is set and the life is shorter or cannot be stated. */
bool spt_ask_life_misses(const struct spt_assessment *assessment);

/* Its life alone, in h, of a settled case; NaN where it has none.
 * Status: as spt_case_life. */
enum spt_status spt_ask_life_h(const struct spt_case *settled, struct spt_arena *arena,
                               double *life_h, struct spt_error *error);

/* How the life of a hub depends on its setting.
 * Status: SPT_NOT_APPLICABLE for a case without a hub; as spt_hub_settle and spt_hub_curve. */
enum spt_status spt_ask_setting(const struct spt_case *question, struct spt_arena *arena,
                                struct spt_hub_curve *curve, struct spt_error *error);

/* A case with the setting factors of its hub put into its phases, and the bench that they come
 * from; without a hub the case alone, and `has_bench` false. What most other studies start from. */
struct spt_settled {
    struct spt_case question;
    struct spt_hub_bench bench;
    bool has_bench;
};

/* Settles a case; `with_cure`: as spt_hub_settle. The answer is in the arena, NULL on failure. */
struct spt_settled *spt_ask_settled(const struct spt_case *question, bool with_cure,
                                    struct spt_arena *arena, struct spt_error *error);

/* Damage at some times, for the curve. */
struct spt_damage_curve {
    int count;
    const double *times_h;
    const double *damage;
};

/* A case followed through its service. */
struct spt_service_life {
    struct spt_case question; /* settled, as are the cases of the service */
    struct spt_service service;
    struct spt_timeline timeline;
    struct spt_damage_curve curve; /* to the end of the life, to where none can be stated, or to the
                                      horizon */
    double stated_h; /* life in the condition as stated, without the service; NaN: none */
    const struct spt_uncertainty_result *spread; /* band of that life, put here by the caller; else
                                                    NULL */
};

/* Follows a case through a service.
 * Status: as spt_timeline. */
enum spt_status spt_ask_timeline(const struct spt_case *question, const struct spt_service *service,
                                 struct spt_arena *arena, struct spt_service_life *life,
                                 struct spt_error *error);

/* True where a target is set and the life followed falls short of it, or ends without a life. A
 * life beyond the horizon counts to there. */
bool spt_ask_timeline_misses(const struct spt_service_life *life);

/* What a plan is made of. */
struct spt_plan_question {
    const struct spt_case *question;
    const struct spt_service *service; /* NULL: none */
    struct spt_service_limits limits;
    struct spt_replacement_costs costs; /* NaN: not stated */
    double floor; /* of the life law, as a share of L10: SPT_WEIBULL_FLOOR or 0 */
};

/* What has to be done, and when.
 * Status: as spt_schedule. */
enum spt_status spt_ask_schedule(const struct spt_plan_question *asked, struct spt_arena *arena,
                                 struct spt_schedule *schedule, struct spt_error *error);

/* Which single change reaches a life of target_h (above 0).
 * Status: as spt_reach. */
enum spt_status spt_ask_reach(const struct spt_case *question, double target_h,
                              struct spt_arena *arena, struct spt_reach *reach,
                              struct spt_error *error);

/* How a band is drawn. */
struct spt_spread_question {
    const struct spt_case *question; /* settled: spt_ask_settled or the case of an assessment */
    struct spt_uncertainty uncertainty;
    bool shares; /* shares of the variance too */
    int threads; /* 1 to SPT_UNCERTAIN_THREADS_MAX; 0: one for each processor. The answer is the
                    same for any number */
};

/* How sure the life of a settled case is.
 * Status: as spt_uncertainty. */
enum spt_status spt_ask_spread(const struct spt_spread_question *asked, struct spt_arena *arena,
                               struct spt_uncertainty_result *result, struct spt_error *error);

/* What field data are asked. */
struct spt_field_question {
    struct spt_fit_inputs inputs; /* its data as observed; the rank method is chosen here */
    const int
        *modes; /* the mode of failure of each row, 0 to mode_count - 1, or below 0; NULL: none */
    int mode_count;
    int mode; /* the one that counts: failures by others are bearings that ran until then; below 0:
                 all */
};

struct spt_field_answer {
    struct spt_fit_inputs inputs; /* with the data as they were counted */
    struct spt_fit fit;
    const struct spt_rank_point *points; /* of a probability plot */
    const struct spt_fit_candidate *candidates;
    int other_modes;             /* failures by other modes than the one that counts */
    const struct spt_fit *modes; /* each mode by itself, without points and candidates, where all
                                    count and there are several; else NULL */
};

/* A Weibull law through lives from the field.
 * Status: as spt_fit. */
enum spt_status spt_ask_fit(const struct spt_field_question *asked, struct spt_arena *arena,
                            struct spt_field_answer *answer, struct spt_error *error);

/* Rows of a sweep: swept fields, and what is wanted of each row. */
struct spt_rows_question {
    const struct spt_case
        *question; /* as a scenario states it; a hub is set and solved in each row */
    int field_count;
    const enum spt_sweep_field *fields;
    const double *const *columns; /* one array of row_count numbers for each field */
    long row_count;
    int value_count;
    const int *values; /* enum spt_sweep_value, or spt_sweep_row_value of a row of a hub */
};

/* Works out every row: the values in results[value][row], NaN where there is none, and why in
 * status[row] (enum spt_sweep_status).
 * Status: SPT_BAD_ARGUMENT where the fields do not go together (see spt_sweep_plan_make); those of
 *         spt_sweep_hub_start. */
enum spt_status spt_ask_rows(const struct spt_rows_question *asked, struct spt_arena *arena,
                             double *const *results, unsigned char *status,
                             struct spt_error *error);

/* The samples that each of `among` cases gets of a number meant for one, of the same draw. */
#define SPT_BAND_SAMPLES_MIN 2000
int spt_ask_band_samples(int samples, int among, bool hub);

#ifdef __cplusplus
}
#endif

#endif
