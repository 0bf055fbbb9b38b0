/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SETTING_H
#define SPT_SETTING_H

#include <stdbool.h>

#include "spalltime/assess.h"
#include "spalltime/hub.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- setting ------------------------------------------------------------------------------- */

/* How the life of a hub under a duty cycle depends on its setting: end play (> 0) or preload (< 0).
 * Life means fatigue of rigid rings; see hub.h for what is left out. */

#define SPT_SETTING_CASES_MAX 64
#define SPT_SETTING_CAGE_MAX 16      /* cage positions */
#define SPT_SETTING_SCAN_MM 0.01     /* step of the coarse scan */
#define SPT_SETTING_RANGE_MAX_MM 5.0 /* highest less lowest setting of a study */
#define SPT_SETTING_KEPT 0.8         /* share of the best life that the good range keeps */
#define SPT_SETTING_MARGIN 2 /* deviations that an aim stays above the least setting; ours */
#define SPT_SETTING_NODES 17 /* of the scatter, half a deviation apart, to +-4 deviations */

/* One phase of the duty. */
struct spt_setting_case {
    struct spt_hub_load load;
    double time_share; /* >= 0; all together 1 within 1e-6 */
    double speed_rpm;  /* >= 0 */
    struct spt_hub_lubrication lubrication[2];
    double
        life_factor[2]; /* further factors on the life of each row (a1, water); > 0, 1 for none */
};

struct spt_setting_duty {
    const struct spt_setting_case *cases;
    int count;          /* 1 to SPT_SETTING_CASES_MAX */
    bool modified;      /* modified instead of basic reference life */
    int cage_positions; /* damage averaged over so many, up to _CAGE_MAX, within a roller pitch; 0
                           or 1: no average. 2 to 4 take the ripple out where the load zone is
                           narrow */
    double reliability_percent; /* 90 to 99.95, that of the lives with their factors: the two rows
                                 are put together by spt_survival_series; 0: reference lives
                                 alone, by slope 9/8 as in hub.h */
};

/* Positions of the last setting, one per case, to start the next from. Zero-initialise. */
struct spt_setting_trail {
    bool known[SPT_SETTING_CASES_MAX];
    struct spt_hub_position positions[SPT_SETTING_CASES_MAX];
};

/* Lives of the whole duty at one setting. INFINITY for what carries nothing. */
struct spt_setting_point {
    double setting_mm;
    double row_mrev[2];
    double life_mrev; /* both rows */
    double row_h[2];
    double life_h;
    double relative; /* of the best life of the study; NaN outside one */
};

/* Lives at one setting: Miner per row over the revolutions, then both rows by the slope.
 * In:     trail: a warm start that is brought up to date, or NULL.
 * Result: point; failed_case the number of the case that has no answer, else -1 (may be NULL).
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where nothing turns or a modified life has no value;
 *         those of spt_hub_solve except SPT_FREE: an idle case does no damage. All NaN then. */
enum spt_status spt_setting_life(const struct spt_hub_model *model,
                                 const struct spt_setting_duty *duty, double setting_mm,
                                 struct spt_setting_trail *trail, struct spt_setting_point *point,
                                 int *failed_case);

/* Lives at `count` settings (2 or more) evenly from lowest to highest, both included.
 * Status: as above, of the first setting that fails; the points from there on are NaN. */
enum spt_status spt_setting_curve(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty, double lowest_mm,
                                  double highest_mm, int count, struct spt_setting_point *points);

enum spt_setting_cliff {
    SPT_SETTING_CLIFF_NONE,    /* the good range has no end on either side of what was searched */
    SPT_SETTING_CLIFF_PRELOAD, /* life is lost sooner towards preload */
    SPT_SETTING_CLIFF_PLAY
};

struct spt_setting_question {
    double lowest_mm; /* searched range; at most SPT_SETTING_RANGE_MAX_MM wide */
    double highest_mm;
    double setting_mm; /* the setting asked about */
    double scatter_mm; /* standard deviation of the settings made in a workshop, 0 to 1 */
    bool limited;      /* what is advised stays at or above least_mm; else anywhere in the range */
    double least_mm;   /* the trade's range: no preload below it, cold or running */
};

struct spt_setting_study {
    struct spt_setting_point best;
    bool best_at_limit;               /* the best lies at an end of the searched range */
    struct spt_setting_point advised; /* the best that is not below least_mm, the same as `best`
                                         where nothing limits it; all NaN where the searched range
                                         ends below least_mm */
    struct spt_setting_point asked;
    struct spt_setting_point zero;
    struct spt_setting_point play_low;  /* SPT_HUB_PLAY_LOW_MM */
    struct spt_setting_point play_high; /* SPT_HUB_PLAY_HIGH_MM */
    double kept_from_mm;                /* range that keeps SPT_SETTING_KEPT of the best life */
    double kept_to_mm;
    bool kept_from_open; /* the range goes on beyond what was searched */
    bool kept_to_open;
    enum spt_setting_cliff cliff;
    double preload_best_n;  /* of the unloaded pair at the best setting */
    double preload_asked_n; /* and at the one asked about */
    double expected_mrev;   /* mean life over the scatter about the setting asked about */
    double aim_mm;          /* setting to aim at: highest mean life over the scatter, but at least
                               SPT_SETTING_MARGIN deviations above least_mm, so that about 2 % of
                               the settings made lie below that */
    double aim_mrev;        /* that mean life */
    bool aim_limited;       /* the highest mean life lies below that */
    int failed_case;        /* -1, or the case that has no answer, at failed_mm */
    double failed_mm;
};

/* The whole question.
 * Method: scan in SPT_SETTING_SCAN_MM, then the minimum of -ln L by Brent; ends of the good range
 *         by bisection to 1e-6 mm; mean life by the trapezoidal rule on SPT_SETTING_NODES nodes of
 *         a normal distribution, weights scaled to a sum of 1 (0.006 % of the settings lie beyond);
 *         the aim by Brent within three deviations below and five above the best. aim_mm is NaN
 *         where no maximum lies there. Where the study is limited, `advised` is searched like the
 *         best, from least_mm on, and the aim is moved up where it is too low.
 * Status: as spt_setting_life; SPT_FREE where no case carries any load. All NaN then. */
enum spt_status spt_setting_study(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty,
                                  const struct spt_setting_question *question,
                                  struct spt_setting_study *study);

/* ---- hub bench ----------------------------------------------------------------------------- */

/* A hub case on the test bench: how its load distribution and its setting enter the lives of its
 * two rows.
 *
 * The life of a row in a phase stays that of the handbook method (ISO 281 with the induced-thrust
 * rule), multiplied by the setting factor: L10r at the setting over L10r of the same phase and row
 * at the reference, which is no end play with aligned rings, where about half the rollers carry as
 * ISO 281 takes for granted. L10r is the reference life of hub.h, averaged over positions of the
 * cages. It is a ratio, so that the offset between the two methods drops out, and it is not limited
 * on either side.
 *
 * "Cured" is the setting with the longest life of the whole duty, rings aligned, within the trade's
 * range: preloaded neither cold nor running, unless the case allows preload, because heat and
 * run-away of preload are in no life here (common practice, no source). A hub that lasts longer by
 * this count as it is set keeps its setting, and the cure only aligns its rings.
 *
 * Settings: "mounted" is what the workshop sets, cold; the running setting is that plus the change
 * by temperature. Play is above 0, preload below. */

#define SPT_HUB_CAGE_POSITIONS 4 /* that lives are averaged over; ours */

/* What was being worked out when it failed. */
enum spt_hub_step {
    SPT_HUB_STEP_START,     /* memory, numbers of the case */
    SPT_HUB_STEP_FORCE,     /* the setting of a stated preload force */
    SPT_HUB_STEP_REFERENCE, /* lives with no end play when running, rings aligned */
    SPT_HUB_STEP_LIVES,     /* lives of the phases, by which settings are judged */
    SPT_HUB_STEP_SETTING    /* the load distribution at a setting */
};

/* Why a hub has no answer. */
struct spt_hub_failure {
    enum spt_status status;
    enum spt_hub_step step;
    const char *phase; /* NULL: none in particular */
    double mounted_mm; /* NaN: before any setting was tried */
};

/* Caller's memory; n is the number of phases of one row. */
struct spt_hub_room {
    double *workspace;
    size_t workspace_length;          /* spt_hub_bench_workspace(question) */
    struct spt_setting_case *cases;   /* n */
    double (*reference_mrev)[2];      /* n */
    double (*factors)[2];             /* n */
    struct spt_phase *phases;         /* 2 n */
    struct spt_phase_result *results; /* n, scratch */
};

struct spt_hub_bench {
    const struct spt_case *question;
    const struct spt_hub_room *room;
    struct spt_hub_model model;
    struct spt_hub_model aligned; /* the same hub with aligned rings */
    double mounted_mm;
    double thermal_mm; /* change of the setting by temperature */
    bool rated;        /* spt_hub_bench_rate has given the duty its life factors */
    bool modified;     /* they make modified lives; else basic ones */
    double cured_mm;   /* set by spt_hub_settle, the best of the trade's range; NaN: none */
    bool cure_keeps;   /* the setting as it is lasts longer, so the cure leaves it */
};

/* Doubles that the workspace of a hub case needs. */
size_t spt_hub_bench_workspace(const struct spt_case *question);

/* Prepares the models, the setting that the case states and the reference lives.
 * In:     a case with a hub; its question and room have to outlive the bench.
 * Status: SPT_BAD_ARGUMENT; those of spt_hub_solve and spt_hub_preload_setting, with the failure
 *         filled (which may be NULL). */
enum spt_status spt_hub_bench_set(const struct spt_case *question, const struct spt_hub_room *room,
                                  struct spt_hub_bench *bench, struct spt_hub_failure *failure);

/* Multiplies every wheel load by a factor (> 0) from now on; the reference lives follow. Life
 * factors of spt_hub_bench_rate are lost. The factor counts from the case, not from the last call.
 * Status: SPT_BAD_ARGUMENT; as spt_hub_bench_set. */
enum spt_status spt_hub_bench_load(struct spt_hub_bench *bench, double factor,
                                   struct spt_hub_failure *failure);

/* Setting factors of each phase and row at a mounted setting, rings as stated or aligned; 1 for a
 * phase that does not turn. */
enum spt_status spt_hub_bench_factors(const struct spt_hub_bench *bench, bool aligned,
                                      double mounted_mm, double (*factors)[2],
                                      struct spt_hub_failure *failure);

/* The case with the factors of a mounted setting in its phases, cured ones the same.
 * In:     phases: room for the phases of both rows, which the case then borrows. */
enum spt_status spt_hub_bench_case(const struct spt_hub_bench *bench, double mounted_mm,
                                   struct spt_phase *phases, struct spt_case *changed,
                                   struct spt_hub_failure *failure);

/* kappa and e_C of a row in a phase, for the load distribution; none where one has no value. */
struct spt_hub_lubrication spt_hub_lubrication_of(const struct spt_phase_result *result);

/* Sets the life factors of the duty so that the lives of setting.h become those that spt_assess
 * gives with the setting factors; where a phase has no modified life, basic lives are taken for
 * all.
 * Status: SPT_NOT_APPLICABLE where nothing turns, or a phase that turns has no finite life. */
enum spt_status spt_hub_bench_rate(struct spt_hub_bench *bench);

/* The duty for setting.h: lives of the two rows combine as in spt_assess. */
struct spt_setting_duty spt_hub_bench_duty(const struct spt_hub_bench *bench);

/* The least mounted setting at which the rows are preloaded neither cold nor running: where the
 * trade's range starts. Range: 0 or more, in mm. */
double spt_hub_bench_least(const struct spt_hub_bench *bench);

/* The least mounted setting that is advised: so far above that one that a stated scatter leaves
 * about 2 % preloaded, as the aim of setting.h does. Where the searched range ends before, no
 * setting in it keeps the scatter off preload: then it is that one. */
double spt_hub_bench_least_advised(const struct spt_hub_bench *bench);

/* Preload in mm at a mounted setting that temperature changes by thermal_mm, cold or running,
 * whichever is more; 0 for less than SPT_HUB_PRELOAD_LEAST_MM. */
double spt_hub_preload(double mounted_mm, double thermal_mm);

/* The same of a bench. */
double spt_hub_bench_preload(const struct spt_hub_bench *bench, double mounted_mm);

/* The mounted setting with the longest life within the searched range, of which only what is not
 * below least_mm counts where the case does not allow preload; rings aligned or as stated. The
 * bench must have been rated. Result: NaN with SPT_OK where that leaves nothing of the searched
 * range. */
enum spt_status spt_hub_bench_best(const struct spt_hub_bench *bench, bool aligned, double least_mm,
                                   double *best_mm, struct spt_hub_failure *failure);

/* ---- life against the setting --------------------------------------------------------------- */

#define SPT_HUB_CURVE_POINTS 131

/* The answer of `setting`. Every setting in it is a mounted one, also those inside `study` and
 * `points`; lives are those that spt_assess gives with the setting factors. */
struct spt_hub_curve {
    const struct spt_hub_case *hub;
    double thermal_mm;
    double least_mm; /* where the trade's range starts: spt_hub_bench_least */
    bool modified;   /* lives are modified ones; else basic, because a phase has no modified life */
    struct spt_setting_study study;
    struct spt_setting_point points[SPT_HUB_CURVE_POINTS]; /* evenly over the searched range */
    double reference_h[SPT_HUB_CURVE_POINTS]; /* modified reference life of the duty (a_ISO in each
                                                 lamina); NaN where there is none */
    double reference_best_mm;                 /* mounted setting of the longest such life, sought
                                               * between the points as well; NaN: none */
};

/* In:     a case with a hub, its bench and its assessment, for the lubrication of each phase.
 * Status: as spt_setting_study and spt_hub_bench_rate, with the failure filled. */
enum spt_status spt_hub_curve(struct spt_hub_bench *bench, const struct spt_assessment *assessment,
                              struct spt_hub_curve *curve, struct spt_hub_failure *failure);

/* ---- the case ------------------------------------------------------------------------------- */

/* A case ready for spt_assess and the other studies: setting factors in its phases, the cured ones
 * too where `with_cure` (else the same, so that the cause "setting" does not apply). A case without
 * a hub is copied. The bench stays usable. */
enum spt_status spt_hub_settle(const struct spt_case *question, const struct spt_hub_room *room,
                               bool with_cure, struct spt_hub_bench *bench,
                               struct spt_case *settled, struct spt_hub_failure *failure);

/* One row in one phase. Lives in h at the speed of the phase; NaN where it does not turn. */
struct spt_hub_row_answer {
    struct spt_hub_contact contact;
    double radial_n; /* reaction in the load distribution */
    double axial_n;
    double l10r_h;               /* basic reference rating life */
    double relative_factor;      /* K */
    double relative_life_h;      /* K times the ISO 281 life at P = Fr */
    double modified_reference_h; /* a1 and water counted, a_ISO in each lamina; NaN: none */
    double setting_factor;
    double handbook_life_h; /* modified rating life without the setting factor */
};

struct spt_hub_phase_answer {
    const char *phase;
    struct spt_hub_wheel wheel;
    struct spt_hub_handbook_result handbook;
    struct spt_hub_solution solution;
    struct spt_hub_row_answer rows[2];
};

/* The load distribution of every phase, one roller of each row on the line of the wheel load. */
struct spt_hub_answer {
    const struct spt_hub_case *hub;
    double mounted_mm, thermal_mm, setting_mm;
    double preload_n; /* of the unloaded pair at the running setting */
    double best_mm;   /* best mounted setting of the trade's range, rings aligned; NaN: none */
    bool cure_keeps;  /* the setting as it is lasts longer, so the cure leaves it */
    double handbook_life_h;  /* of the system, without setting factors */
    double reference_life_h; /* L10r of the duty and both rows */
    int phase_count;
    struct spt_hub_phase_answer *phases; /* caller's memory */
};

/* In:     a settled case, its bench and assessment; phases: room for the phases of one row.
 * Status: as spt_hub_assess, with the failure filled. */
enum spt_status spt_hub_answer(const struct spt_hub_bench *bench,
                               const struct spt_assessment *assessment,
                               struct spt_hub_phase_answer *phases, struct spt_hub_answer *answer,
                               struct spt_hub_failure *failure);

#ifdef __cplusplus
}
#endif

#endif
