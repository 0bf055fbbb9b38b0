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
 * Life is the fatigue life with rigid rings; hub.h lists what is not modelled. */

#define SPT_SETTING_CASES_MAX 64
#define SPT_SETTING_CAGE_MAX 16      /* cage positions */
#define SPT_SETTING_SCAN_MM 0.01     /* step of the coarse scan */
#define SPT_SETTING_RANGE_MAX_MM 5.0 /* width of the searched range of a study */
#define SPT_SETTING_KEPT 0.8 /* fraction of the best life that is kept in the whole good range */
/* standard deviations by which a recommended aim stays above least_mm; ours */
#define SPT_SETTING_MARGIN 2
/* nodes of the integral over the scatter, half a standard deviation apart, to +-4 of them */
#define SPT_SETTING_NODES 17

/* One phase of the duty. */
struct spt_setting_case {
    struct spt_hub_load load;
    double time_share; /* >= 0; all together 1 within 1e-6 */
    double speed_rpm;  /* >= 0 */
    struct spt_hub_lubrication lubrication[2];
    double life_factor[2]; /* other factors on the life of each row (a1, water); > 0, 1: none */
};

struct spt_setting_duty {
    const struct spt_setting_case *cases;
    int count;          /* 1 to SPT_SETTING_CASES_MAX */
    bool modified;      /* modified instead of basic reference life */
    int cage_positions; /* number of cage positions within a roller pitch over which damage is
                           averaged, up to _CAGE_MAX; 0 or 1: no average. 2 to 4 remove the ripple
                           where the load zone is narrow */
    double reliability_percent; /* 90 to 99.95, reliability of the lives with their factors: the two
                                   rows are combined by spt_survival_series; 0: 90, that
                                   of the reference lives */
};

/* What was found at the last setting, for each case, as initial guess for the next.
 * Zero-initialise. */
struct spt_setting_trail {
    struct spt_hub_trail cases[SPT_SETTING_CASES_MAX];
};

/* Lives of the whole duty at one setting; INFINITY without load. */
struct spt_setting_point {
    double setting_mm;
    double row_mrev[2];
    double life_mrev; /* both rows */
    double row_h[2];
    double life_h;
    double relative; /* over the best life of the study; NaN outside a study */
};

/* Lives at one setting: Palmgren-Miner for each row over the revolutions, then both rows combined
 * (see reliability_percent).
 * In:     trail: initial guesses, which are updated, or NULL.
 * Result: point; failed_case (may be NULL): index of the case that has no answer, else -1.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where nothing turns or a modified life has no value;
 *         those of spt_hub_solve except SPT_FREE: an idle case does no damage. All NaN then. */
enum spt_status spt_setting_life(const struct spt_hub_model *model,
                                 const struct spt_setting_duty *duty, double setting_mm,
                                 struct spt_setting_trail *trail, struct spt_setting_point *point,
                                 int *failed_case);

/* Lives at `count` (2 or more) evenly spaced settings from lowest to highest, both included.
 * Status: as above, of the first setting that fails; the points from that one on are NaN. */
enum spt_status spt_setting_curve(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty, double lowest_mm,
                                  double highest_mm, int count, struct spt_setting_point *points);

enum spt_setting_cliff {
    SPT_SETTING_CLIFF_NONE,    /* the good range ends on neither side of the searched range */
    SPT_SETTING_CLIFF_PRELOAD, /* life falls off sooner towards preload */
    SPT_SETTING_CLIFF_PLAY
};

struct spt_setting_inputs {
    double lowest_mm; /* searched range; at most SPT_SETTING_RANGE_MAX_MM wide */
    double highest_mm;
    double setting_mm; /* the setting that is evaluated */
    double scatter_mm; /* standard deviation of the settings obtained in a workshop, 0 to 1 */
    /* the recommended setting stays at or above least_mm; else anywhere in the range */
    bool limited;
    double least_mm; /* lower bound of the usual range: at and above it there is no preload, cold or
                        running */
};

struct spt_setting_study {
    struct spt_setting_point best;
    bool best_at_limit; /* the best is at an end of the searched range */
    /* the best at or above least_mm; equals `best` where not limited; all NaN where the searched
     * range ends below least_mm */
    struct spt_setting_point advised;
    struct spt_setting_point asked;
    struct spt_setting_point zero;
    struct spt_setting_point play_low;  /* SPT_HUB_PLAY_LOW_MM */
    struct spt_setting_point play_high; /* SPT_HUB_PLAY_HIGH_MM */
    double kept_from_mm;                /* good range: life at least SPT_SETTING_KEPT of the best */
    double kept_to_mm;
    bool kept_from_open; /* the good range extends beyond the searched range */
    bool kept_to_open;
    enum spt_setting_cliff cliff;
    double preload_best_n;  /* of the unloaded pair at the best setting */
    double preload_asked_n; /* the same at `setting_mm` */
    double expected_mrev;   /* mean life over the scatter about `setting_mm` */
    /* setting to aim at: highest mean life over the scatter, but at least SPT_SETTING_MARGIN
     * standard deviations above least_mm, so that about 2 % of the actual settings are below that
     */
    double aim_mm;
    double aim_mrev;  /* mean life at aim_mm */
    bool aim_limited; /* the highest mean life is at a setting below aim_mm */
    int failed_case;  /* -1, or index of the case that has no answer at failed_mm */
    double failed_mm;
    long solves; /* load distributions that were solved, also for the curve around the study */
    long passes; /* over the rollers, several in a solve */
};

/* Finds everything in struct spt_setting_study.
 * Method: scan in SPT_SETTING_SCAN_MM, then the minimum of -ln L by Brent; ends of the good range
 *         by Brent's root between the places of the scan; mean life by the trapezoidal rule on
 *         SPT_SETTING_NODES nodes of a normal distribution, weights scaled to a sum of 1 (0.006 %
 *         of the settings lie beyond the nodes); the aim from three standard deviations below to
 *         five above the best: on a polynomial through ln L, then, unless it is raised anyway, to
 *         1e-6 mm where the slope of the mean life is 0.
 *         aim_mm is NaN where there is no maximum. Where the study is limited, `advised` is found
 *         like the best, but from least_mm upwards, and a lower aim is raised. No setting is solved
 *         twice.
 * Status: as spt_setting_life; SPT_FREE where no case carries any load. All NaN then. */
enum spt_status spt_setting_study(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty,
                                  const struct spt_setting_inputs *inputs,
                                  struct spt_setting_study *study);

/* ---- hub bench ----------------------------------------------------------------------------- */

/* The bench of a hub: prepared models of a hub case, which give the effect of load distribution and
 * setting on the lives of its two rows.
 *
 * The life of a row in a phase stays that of the handbook method (ISO 281 with the induced-thrust
 * rule), multiplied by the setting factor: L10r at the setting over L10r of the same phase and row
 * at the reference, which is no end play with aligned rings, where about half the rollers are
 * loaded, as ISO 281 assumes. L10r is the reference life of hub.h, averaged over positions of the
 * cages. It is a ratio, so that the difference in level between the two methods cancels. It has no
 * lower or upper limit.
 *
 * "Cured" is the setting with the longest life of the whole duty, rings aligned, within the usual
 * range: no preload, cold or running, unless the case allows preload, because heat and thermal
 * run-away by preload are not modelled (common practice, no source). Where the present setting
 * gives a longer life than that, it is kept and the cure only aligns the rings.
 *
 * Settings: "mounted" is what the workshop sets, cold; the running setting is that plus the change
 * by temperature. Play is positive, preload negative. */

#define SPT_HUB_CAGE_POSITIONS 4 /* cage positions over which lives are averaged; ours */

/* The step of the calculation that failed. */
enum spt_hub_step {
    SPT_HUB_STEP_START,     /* memory; validity of the case */
    SPT_HUB_STEP_FORCE,     /* the setting of a stated preload force */
    SPT_HUB_STEP_REFERENCE, /* reference lives: no end play when running, rings aligned */
    SPT_HUB_STEP_LIVES,     /* lives of the phases, needed to compare settings */
    SPT_HUB_STEP_SETTING    /* the load distribution at a setting */
};

/* Why a hub has no answer. */
struct spt_hub_failure {
    enum spt_status status;
    enum spt_hub_step step;
    const char *phase; /* NULL: none in particular */
    double mounted_mm; /* NaN: failed before any setting was tried */
};

/* Workspace (memory of the caller); n is the number of phases of one row. */
struct spt_hub_workspace {
    double *buffer;                   /* of the models */
    size_t buffer_length;             /* spt_hub_bench_workspace_length(question) */
    struct spt_setting_case *cases;   /* n */
    double (*reference_mrev)[2];      /* n */
    double (*factors)[2];             /* n */
    struct spt_phase *phases;         /* 2 n */
    struct spt_phase_result *results; /* n, scratch */
};

struct spt_hub_bench {
    const struct spt_case *question;
    const struct spt_hub_workspace *workspace;
    struct spt_hub_model model;
    struct spt_hub_model aligned; /* the same hub with aligned rings */
    struct spt_hub_trail
        *references; /* of each phase at its reference: where setting factors start */
    double mounted_mm;
    double thermal_mm; /* change of the setting by temperature */
    bool rated;        /* spt_hub_bench_rate has set the life factors of the duty */
    bool modified;     /* these life factors give modified lives; else basic ones */
    double cured_mm;   /* set by spt_hub_settle: best setting of the usual range; NaN: none */
    bool cure_keeps;   /* the present setting gives a longer life, so the cure keeps it */
};

/* Number of doubles that the workspace of a hub case needs. */
size_t spt_hub_bench_workspace_length(const struct spt_case *question);

/* Prepares the models, the setting that the case states and the reference lives.
 * In:     a case with a hub; `question` and `workspace` must outlive the bench.
 * Status: SPT_BAD_ARGUMENT; those of spt_hub_solve and spt_hub_preload_setting, with `failure` (may
 *         be NULL) filled. */
enum spt_status spt_hub_bench_set(const struct spt_case *question,
                                  const struct spt_hub_workspace *workspace,
                                  struct spt_hub_bench *bench, struct spt_hub_failure *failure);

/* Scales every wheel load of the case by a factor (> 0) and recomputes the reference lives. Life
 * factors of spt_hub_bench_rate are lost. The factor is relative to the loads of the case, not to
 * the last call.
 * Status: SPT_BAD_ARGUMENT; as spt_hub_bench_set. */
enum spt_status spt_hub_bench_load(struct spt_hub_bench *bench, double factor,
                                   struct spt_hub_failure *failure);

/* Setting factors of each phase and row at a mounted setting, rings as stated or aligned; 1 for a
 * phase that does not turn. */
enum spt_status spt_hub_bench_factors(const struct spt_hub_bench *bench, bool aligned,
                                      double mounted_mm, double (*factors)[2],
                                      struct spt_hub_failure *failure);

/* The case with the setting factors of a mounted setting in its phases, also as cured factors.
 * In:     `phases`: buffer for the phases of both rows, which the case then borrows. */
enum spt_status spt_hub_bench_case(const struct spt_hub_bench *bench, double mounted_mm,
                                   struct spt_phase *phases, struct spt_case *changed,
                                   struct spt_hub_failure *failure);

/* kappa and e_C of a row in a phase, for the load distribution; both NaN where one has no value. */
struct spt_hub_lubrication spt_hub_lubrication_of(const struct spt_phase_result *result);

/* Sets the life factors of the duty so that the lives of setting.h become those that spt_assess
 * gives with the setting factors; where a phase has no modified life, basic lives are used for all.
 * Status: SPT_NOT_APPLICABLE where nothing turns, or a phase that turns has no finite life. */
enum spt_status spt_hub_bench_rate(struct spt_hub_bench *bench);

/* The duty for setting.h: lives of the two rows are combined as in spt_assess. */
struct spt_setting_duty spt_hub_bench_duty(const struct spt_hub_bench *bench);

/* The least mounted setting in mm (0 or more) without preload, cold or running: lower bound of the
 * usual range. */
double spt_hub_bench_least(const struct spt_hub_bench *bench);

/* The least mounted setting that is recommended: so far above spt_hub_bench_least that a stated
 * scatter leaves about 2 % of the hubs preloaded, as for aim_mm. Where the searched range ends
 * before that, it is spt_hub_bench_least. */
double spt_hub_bench_least_advised(const struct spt_hub_bench *bench);

/* Preload in mm, cold or running, whichever is greater, at a mounted setting that temperature
 * changes by thermal_mm; 0 below SPT_HUB_PRELOAD_LEAST_MM. */
double spt_hub_preload(double mounted_mm, double thermal_mm);

/* The same for the temperature change of a bench. */
double spt_hub_bench_preload(const struct spt_hub_bench *bench, double mounted_mm);

/* The mounted setting with the longest life within the searched range, at or above least_mm unless
 * the case allows preload; rings aligned or as stated. spt_hub_bench_rate must have been called.
 * Result: NaN with SPT_OK where that leaves nothing of the searched range. */
enum spt_status spt_hub_bench_best(const struct spt_hub_bench *bench, bool aligned, double least_mm,
                                   double *best_mm, struct spt_hub_failure *failure);

/* ---- life against the setting --------------------------------------------------------------- */

#define SPT_HUB_CURVE_POINTS 131

/* Life against the setting. Every setting in it is a mounted one, also those inside `study` and
 * `points`; lives are those of spt_assess with the setting factors. */
struct spt_hub_curve {
    const struct spt_hub_case *hub;
    double thermal_mm;
    double least_mm; /* lower bound of the usual range: spt_hub_bench_least */
    /* lives are modified ones; else basic ones, because a phase has no modified life */
    bool modified;
    struct spt_setting_study study;
    struct spt_setting_point points[SPT_HUB_CURVE_POINTS]; /* evenly over the searched range */
    double reference_h[SPT_HUB_CURVE_POINTS]; /* modified reference life of the duty (a_ISO in each
                                                 lamina); NaN where there is none */
    double reference_best_mm; /* mounted setting of the longest such life, also searched between the
                                 points; NaN: none */
};

/* In:     a case with a hub, its bench and its assessment, for the lubrication of each phase.
 * Status: as spt_setting_study and spt_hub_bench_rate, with `failure` filled. */
enum spt_status spt_hub_curve(struct spt_hub_bench *bench, const struct spt_assessment *assessment,
                              struct spt_hub_curve *curve, struct spt_hub_failure *failure);

/* ---- the case ------------------------------------------------------------------------------- */

/* Makes a settled case, ready for spt_assess and the other studies: setting factors in its phases,
 * the cured ones too where `with_cure` (else the same, so that the cause "setting" does not apply).
 * A case without a hub is copied. The bench can be used afterwards. */
enum spt_status spt_hub_settle(const struct spt_case *question,
                               const struct spt_hub_workspace *workspace, bool with_cure,
                               struct spt_hub_bench *bench, struct spt_case *settled,
                               struct spt_hub_failure *failure);

/* One row in one phase. Lives in h at the speed of the phase; NaN where it does not turn. */
struct spt_hub_row_answer {
    struct spt_hub_contact contact;
    double radial_n; /* reaction in the load distribution */
    double axial_n;
    double l10r_h;               /* basic reference rating life */
    double relative_factor;      /* K */
    double relative_life_h;      /* K times the ISO 281 life at P = Fr */
    double modified_reference_h; /* with a1, water factor and a_ISO in each lamina; NaN: none */
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

/* The load distribution of every phase, with one roller of each row on the line of action of the
 * wheel load. */
struct spt_hub_answer {
    const struct spt_hub_case *hub;
    double mounted_mm, thermal_mm, setting_mm;
    double preload_n;        /* of the unloaded pair at the running setting */
    double best_mm;          /* best mounted setting of the usual range, rings aligned; NaN: none */
    bool cure_keeps;         /* the present setting gives a longer life, so the cure keeps it */
    double handbook_life_h;  /* of the system, without setting factors */
    double reference_life_h; /* L10r of the system under the whole duty */
    int phase_count;
    struct spt_hub_phase_answer *phases; /* caller's memory */
};

/* In:     a settled case, its bench and assessment; `phases`: buffer for the phases of one row.
 * Status: as spt_hub_assess, with `failure` filled. */
enum spt_status spt_hub_answer(const struct spt_hub_bench *bench,
                               const struct spt_assessment *assessment,
                               struct spt_hub_phase_answer *phases, struct spt_hub_answer *answer,
                               struct spt_hub_failure *failure);

#ifdef __cplusplus
}
#endif

#endif
