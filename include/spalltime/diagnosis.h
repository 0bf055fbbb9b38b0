/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_DIAGNOSIS_H
#define SPT_DIAGNOSIS_H

#include <stdbool.h>

#include "spalltime/arena.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Why a bearing failed: findings on a damaged bearing weighed against a table of causes. Source of
 * every number of such a table, of the levels, thresholds and laws of causes below: judgement of
 * practice, no source. The arithmetic is our choice unless a function says otherwise. */

#define SPT_DIAGNOSIS_CAUSES_MAX 64
#define SPT_DIAGNOSIS_FINDINGS_MAX 160
#define SPT_DIAGNOSIS_GROUPS_MAX 64
#define SPT_DIAGNOSIS_MODES_MAX 64
#define SPT_DIAGNOSIS_ANSWERS_MAX 12 /* findings that exclude each other in one group */
#define SPT_DIAGNOSIS_CHECKS 3

/* ---- the table of causes and findings ----------------------------------------------------- */

/* How likely a finding is: 0.01 (people misread a mark oftener than once in a hundred), 0.05, 0.25,
 * 0.6, 0.9. */
enum spt_likelihood {
    SPT_LIKELIHOOD_NEVER,
    SPT_LIKELIHOOD_RARELY,
    SPT_LIKELIHOOD_SOMETIMES,
    SPT_LIKELIHOOD_OFTEN,
    SPT_LIKELIHOOD_NEARLY_ALWAYS,
    SPT_LIKELIHOOD_COUNT
};

/* When a cause strikes. */
enum spt_cause_time {
    SPT_CAUSE_TIME_FATIGUE, /* rolling fatigue of the case as stated */
    SPT_CAUSE_TIME_LIFE,    /* rolling fatigue with the cause at work, where its life is known */
    SPT_CAUSE_TIME_EARLY,   /* ln t normal, median 150 h, standard deviation 2 */
    SPT_CAUSE_TIME_ANY,     /* even in ln t from 1 h to 10 lives of the case as stated */
    SPT_CAUSE_TIME_OTHER,   /* the cause that is none of the list; as any */
    SPT_CAUSE_TIME_COUNT
};

/* What it takes to look: ask; open and wash; measure or a laboratory. */
enum spt_effort { SPT_EFFORT_ASK, SPT_EFFORT_OPEN, SPT_EFFORT_MEASURE, SPT_EFFORT_COUNT };

/* Whose bearings the shares of causes are about. */
enum spt_machine_group { SPT_MACHINE_HUB, SPT_MACHINE_PLANT, SPT_MACHINE_COUNT };

/* What a finding alone says about further use. */
enum spt_finding_back {
    SPT_FINDING_BACK_OPEN, /* nothing */
    SPT_FINDING_BACK_INSPECTED,
    SPT_FINDING_BACK_NO,
    SPT_FINDING_BACK_COUNT
};

struct spt_diagnosis_cause {
    const char *name;
    const char *means;   /* NULL: its name says it */
    const char *prevent; /* what keeps the next bearing from it */
    double per_100[SPT_MACHINE_COUNT];
    enum spt_cause_time time;
};

struct spt_diagnosis_group {
    const char *name;
    const char *question; /* of findings that exclude each other; else NULL */
    bool one;             /* its findings exclude each other */
    bool hidden;          /* by the end of a bearing that was run to destruction */
};

/* How likely a finding is where a mode of damage is there; 0.05 without it. */
struct spt_diagnosis_sign {
    int mode;
    enum spt_likelihood likelihood;
};

struct spt_diagnosis_finding {
    const char *name;
    const char *remark; /* what it tells beside the cause; NULL: nothing */
    int group;
    enum spt_effort effort;
    enum spt_finding_back back;
    bool stops; /* a wheel bearing is out of service as soon as it is seen */
    const enum spt_likelihood *of_cause; /* one for each cause; that of OTHER is not read */
    int sign_count;
    const struct spt_diagnosis_sign *signs;
};

/* Exactly one cause has the time FATIGUE and one OTHER; the shares of each machine sum to 100. */
struct spt_diagnosis_table {
    int cause_count, group_count, finding_count, mode_count;
    const struct spt_diagnosis_cause *causes;
    const struct spt_diagnosis_group *groups;
    const struct spt_diagnosis_finding *findings;
    const char *const *modes;
};

/* Probability of a level, 0.01 to 0.9; NaN for no level. */
double spt_likelihood_value(enum spt_likelihood likelihood);

/* ---- one case ----------------------------------------------------------------------------- */

/* What was looked for: `seen` or looked for and not there. `sure` is the chance that this is read
 * right: 1, 0.8 (fairly), 0.6 (hardly); more than 0.5, at most 1. */
struct spt_diagnosis_answer {
    int finding;
    bool seen;
    double sure;
};

struct spt_diagnosis_case {
    const struct spt_diagnosis_table *table;
    enum spt_machine_group machine;
    const double *counts;  /* confirmed cases of a shop for each cause, >= 0; NULL: none */
    const bool *ruled_out; /* for each cause; NULL: none */
    int answer_count;      /* each finding at most once, one seen in a group that excludes */
    const struct spt_diagnosis_answer *answers;
    bool destroyed; /* run to destruction: answers in hidden groups count hardly at most */
    bool on_bench;  /* opened and washed: looking costs as little as asking */
    double hours, last_sound_h; /* running hours at removal, and when last seen sound; NaN: not
                                   stated */
    const double *life_h;       /* for each cause, life in h at 90 % reliability with it at work;
                                   NaN: not known; NULL: no times are weighed */
    double doubt;               /* standard deviation of ln of these lives, >= 0; NaN: 0.5 */
};

/* How sure the answer is; the order is that in which they are tried. */
enum spt_diagnosis_verdict {
    SPT_DIAGNOSIS_UNTOLD, /* another cause leads, or the first is below 0.4, or fewer than two
                             findings tell causes apart, or the findings raise the odds of the first
                             less than 3 times over its prior, or all causes are ruled out */
    SPT_DIAGNOSIS_TWO,    /* two causes at once fit better than the first alone */
    SPT_DIAGNOSIS_CLEAR,  /* 0.8 and 5 times the second, and first without any single finding */
    SPT_DIAGNOSIS_LIKELY, /* 0.5 and twice the second */
    SPT_DIAGNOSIS_OPEN,
    SPT_DIAGNOSIS_VERDICT_COUNT
};

/* Why it cannot be told. */
enum spt_untold {
    SPT_UNTOLD_NOT, /* it can */
    SPT_UNTOLD_OTHER,
    SPT_UNTOLD_LOW,
    SPT_UNTOLD_FEW,
    SPT_UNTOLD_PRIOR,
    SPT_UNTOLD_RULED_OUT, /* all causes of the list were */
    SPT_UNTOLD_COUNT
};

/* One piece of evidence: a finding, or all that were looked for and not seen in a group whose
 * findings exclude each other. */
struct spt_diagnosis_evidence {
    int group;
    int finding_count;
    int findings[SPT_DIAGNOSIS_ANSWERS_MAX];
    bool seen;
    double sure;                  /* after `destroyed` */
    const double *log_likelihood; /* for each cause */
    double spread; /* largest less smallest of these, without the cause that is none of the list */
    double weight; /* 1, less where others of its group repeat it; times the 0.8 of all */
    double log_odds;          /* what it adds to ln(first / second) */
    int first_without;        /* first cause without it */
    double posterior_without; /* of the first cause of the case, without it */
    double factor;            /* odds of the first cause with it over those without it */
};

struct spt_diagnosis_outcome {
    int finding; /* -1: none of these, or not seen */
    double probability;
    int first; /* cause that leads then */
    double posterior;
};

struct spt_diagnosis_check {
    int group, finding; /* the finding of a group whose findings stand alone; else -1 */
    enum spt_effort effort;
    double gain_bit;
    int outcome_count;
    struct spt_diagnosis_outcome outcomes[SPT_DIAGNOSIS_ANSWERS_MAX + 1];
};

/* Arrays are in the arena, one value for each cause or mode. */
struct spt_diagnosis {
    enum spt_diagnosis_verdict verdict;
    enum spt_untold untold;
    const double *judged; /* shares of the table, 0 to 1 */
    const double *prior;  /* with the counts of the shop, without what is ruled out */
    const double *posterior;
    const double
        *time; /* chance by time, per unit of ln t or since last seen sound; 1: not weighed */
    const int *order; /* causes, the most probable first */
    int evidence_count;
    struct spt_diagnosis_evidence *evidence;
    int moved_most; /* evidence without which the odds of the first fall most; -1: none */
    bool timed;     /* times were weighed */
    double fatigue_share, fatigue_share_smeared; /* of bearings with nothing wrong, spalled by then;
                                                    NaN: no time or life */
    int pair[2]; /* the two best causes that are not ruled out, without the cause that is none of
                    the list; -1: there are no two */
    double pair_factor;  /* NaN: there are no two */
    const double *modes; /* probability of each mode */
    int check_count;
    struct spt_diagnosis_check checks[SPT_DIAGNOSIS_CHECKS];
};

/* Weighs the findings of one case.
 * In:     a case as described above; an arena for the arrays of the result.
 * Result: posterior = softmax of ln prior + sum of weights times ln likelihood + ln time. Evidence
 *         of one group is weighed by sqrt(sum s^2) / sum s of the spreads s, all by 0.8: findings
 *         repeat each other. The cause that is none of the list finds each answer as likely as the
 *         others do on the mean over their priors. Times: three-parameter Weibull, slope 1.5, least
 *         life 0.05 L10, over a lognormal doubt of the life; never below 0.001.
 * Status: SPT_BAD_ARGUMENT for a table, answer, time or count outside the ranges above,
 *         SPT_NO_MEMORY.
 * Source: naive Bayes with tempered weights and Dirichlet counts, our choice. */
enum spt_status spt_diagnose(const struct spt_diagnosis_case *one, struct spt_arena *arena,
                             struct spt_diagnosis *result);

/* Shares of causes after the confirmed counts of a shop: (20 judged + n) / (20 + N).
 * In:     the table, machine, counts (>= 0; NULL: none), an array of one value for each cause.
 * Status: SPT_BAD_ARGUMENT. Source: mean of a Dirichlet law, the judgement worth 20 cases: our
 *         choice. */
enum spt_status spt_diagnosis_prior(const struct spt_diagnosis_table *table,
                                    enum spt_machine_group machine, const double *counts,
                                    double *prior);

/* Chance by the law of a life of L10 = life_h (> 0) with a lognormal doubt (standard deviation of
 * ln L, >= 0) that a bearing fails at t_h (> 0): t f(t); or, with last_sound_h (>= 0, not after
 * t_h), after it and by t_h; NaN: not stated. The share that has failed by t_h is that since 0.
 * Status: SPT_BAD_ARGUMENT. Source: law behind a1 of ISO 281; mean over -4 to 4 standard deviations
 * in steps of 0.01: our choice. */
enum spt_status spt_diagnosis_time(double life_h, double doubt, double t_h, double last_sound_h,
                                   double *chance);

/* ---- the path of a ring --------------------------------------------------------------------- */

enum spt_ring { SPT_RING_INNER, SPT_RING_OUTER, SPT_RING_COUNT };

enum spt_path_condition {
    SPT_PATH_NORMAL,
    SPT_PATH_LOOSE,
    SPT_PATH_TIGHT,
    SPT_PATH_THRUST,
    SPT_PATH_BENT,        /* shaft or axle bends under the load */
    SPT_PATH_INNER_ASKEW, /* inner ring cocked, bent shaft or spindle */
    SPT_PATH_OUTER_ASKEW, /* outer ring cocked, housing or hub out of line */
    SPT_PATH_INNER_OVAL,
    SPT_PATH_OUTER_OVAL, /* outer seat or housing pinched */
    SPT_PATH_CONDITION_COUNT
};

enum spt_path {
    SPT_PATH_ARC,        /* of 90 to 200 deg, tapering out */
    SPT_PATH_SHORT,      /* short and deep, below 90 deg */
    SPT_PATH_ROUND,      /* all round, even */
    SPT_PATH_ROUND_WIDE, /* all round, widest on the load side */
    SPT_PATH_EDGE,       /* arc heavy at one edge */
    SPT_PATH_EDGE_ROUND, /* all round at one edge */
    SPT_PATH_SLANTED,    /* all round, from one edge to the other in half a turn */
    SPT_PATH_BROAD,      /* arc, broad, both edges */
    SPT_PATH_LONG,       /* arc longer than it should be */
    SPT_PATH_TWO,        /* two opposite patches */
    SPT_PATH_COUNT
};

/* The ring to which the load stands still. In: the ring that turns; whether the load turns with it
 * (unbalance) or is fixed in space (weight, belt, gear). Result: the ring that stands under a fixed
 * load, the one that turns with a load that turns with it. Source: geometry. */
enum spt_ring spt_path_standing(enum spt_ring turning, bool load_turns);

/* The worn path of a ring in a condition. Source: geometry and trade knowledge, pictures of ISO
 * 15243 (from memory). */
enum spt_path spt_path_expected(enum spt_path_condition condition, enum spt_ring standing,
                                enum spt_ring ring);

/* Load zone parameter of a path of this arc (0 to 2 pi rad): (1 - cos(arc/2))/2. Result: NaN out of
 * that range. Source: geometry of a rigid ring. */
double spt_path_zone(double arc_rad);

#ifdef __cplusplus
}
#endif

#endif
