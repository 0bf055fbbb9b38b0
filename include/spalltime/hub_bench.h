/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_HUB_BENCH_H
#define SPT_HUB_BENCH_H

#include "spalltime/assess.h"
#include "spalltime/hub_case.h"
#include "spalltime/setting.h"

#ifdef __cplusplus
extern "C" {
#endif

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
