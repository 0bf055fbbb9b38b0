/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_UNCERTAINTY_H
#define SPT_UNCERTAINTY_H

#include <stdint.h>

#include "spalltime/assess.h"
#include "spalltime/setting.h"
#include "spalltime/statistics.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What inputs that are not known exactly leave of the certainty of a life. */

#define SPT_UNCERTAIN_SAMPLES_MIN 100
#define SPT_UNCERTAIN_SAMPLES_MAX 1000000
#define SPT_UNCERTAIN_SAMPLES_USUAL 100000
#define SPT_UNCERTAIN_THREADS_MAX 64
#define SPT_UNCERTAIN_SHARE_SAMPLES 8192 /* for the shares of the variance */
#define SPT_UNCERTAIN_FACTOR_MIN 0.01    /* least factor; a sample below is held there, counted */

/* Each input moves all phases (and bearings) alike. */
enum spt_uncertain {
    SPT_UNCERTAIN_LOAD,        /* factor on every load */
    SPT_UNCERTAIN_SPEED,       /* factor on every speed */
    SPT_UNCERTAIN_TEMPERATURE, /* K on every temperature (on the ambient of an estimate); the sum is
                                  held inside -60 to 300 degC */
    SPT_UNCERTAIN_WATER,       /* factor on the water content */
    SPT_UNCERTAIN_CLEANLINESS, /* classes instead of `class_stated` */
    SPT_UNCERTAIN_RATING,      /* factor on C, C0 and C_u */
    SPT_UNCERTAIN_END_PLAY, /* of a hub: mm on the mounted setting; a lognormal one is the setting
                               itself, its median the stated end play */
    SPT_UNCERTAIN_COUNT
};

/* "load", "speed", ...; never NULL. */
const char *spt_uncertain_name(enum spt_uncertain input);

struct spt_uncertainty {
    struct spt_random_input inputs[SPT_UNCERTAIN_COUNT]; /* SPT_RANDOM_FIXED: known exactly */
    enum spt_cleanliness class_first;                    /* class 0 of the cleanliness input */
    enum spt_cleanliness class_stated; /* phases with this class get the drawn one; others, and
                                          those with a given e_C, keep theirs */
    uint64_t seed;
    int samples; /* SPT_UNCERTAIN_SAMPLES_MIN to .._MAX */
};

/* Caller's memory. */
struct spt_uncertainty_room {
    int threads;                      /* 1 to SPT_UNCERTAIN_THREADS_MAX */
    struct spt_phase *phases;         /* threads * spt_case_phase_count(question) */
    struct spt_phase_result *results; /* the same number */
    double *design; /* SPT_UNCERTAIN_COUNT * samples; with shares at least 2 * SPT_UNCERTAIN_COUNT *
                       SPT_UNCERTAIN_SHARE_SAMPLES */
    double *lives;  /* (1 + bearing_count) * samples */
    double *scratch; /* (2 + bearing_count) * samples, for fewer than 2 bearings 4 * samples; keeps
                        the strata of the result */
    double *shares;  /* 3 * SPT_UNCERTAIN_SHARE_SAMPLES; NULL: no shares of the variance */
    /* For a hub whose end play or load is spread; NULL: its setting factors stay as they are in
     * the case, and its end play has to be known exactly. */
    const struct spt_hub_room *hub_rooms; /* one for each thread */
    double *setting_table;                /* spt_uncertainty_table_length(question) */
};

/* How a hub's setting factors were found for samples that differ in end play or load. The factor of
 * each phase and row comes out of a table over the setting (divided by load^0.9, by which the
 * deflection of a line contact grows: Q = c delta^(10/9), ISO 16281, from memory; where the load is
 * spread too) and the load factor: cubic along the first, Chebyshev along the logarithm of the
 * second. The nodes are doubled until samples worked out from the table agree with the same samples
 * solved directly to SPT_UNCERTAIN_SETTING_ALLOWED. Samples outside the table, or beside a node
 * without an answer, are solved directly. */
#define SPT_UNCERTAIN_SETTING_CHECKS 48
#define SPT_UNCERTAIN_SETTING_ALLOWED 1e-3 /* of the life of the system; refined until below */
struct spt_uncertain_setting {
    bool varies;   /* false: the factors of the case hold in every sample */
    int nodes;     /* settings and loads in the table */
    int checked;   /* samples solved directly to check it; 0: no table was needed */
    double error;  /* largest difference of their lives, relative; INFINITY where only one way has
                      a life */
    int direct;    /* samples solved directly for good */
    int unsettled; /* samples in which the hub has no load distribution: without a life */
    int preloaded; /* samples whose rows are preloaded, cold or running */
};

/* 5, 50 and 95 % of a life; NaN where so many samples have none. */
struct spt_band {
    double p5_h, p50_h, p95_h;
};

/* Phases of a bearing that a spread input leaves alone: of a class or e_C of their own, or without
 * what it is a factor on. */
struct spt_unmoved {
    int phases;
    int first; /* index of the first; -1: none */
};

/* How much one input moves the life of the system. */
struct spt_driver {
    bool spread;                   /* not known exactly */
    double rank_correlation;       /* Spearman, -1 to 1; NaN where the life does not vary */
    struct spt_random_share share; /* of the variance of ln(life); NaN where not asked for, or where
                                      a sample has no finite life */
    struct spt_unmoved unmoved;    /* of the first bearing; none where it is known exactly */
};

struct spt_uncertainty_result {
    int samples;
    uint64_t seed;
    struct spt_band system; /* rated life at the stated reliability */
    struct spt_band bearings[SPT_BEARINGS_MAX];
    double share_without_life; /* samples that no life can be stated for */
    double share_preloaded;    /* samples whose rows are preloaded, cold or running; NaN where the
                                * setting of a hub is no input */
    double share_at_target;    /* samples that reach the target life; NaN without one */
    int held;                  /* samples in which a factor was held at its least value */
    struct spt_survival_lives time_to_spall; /* scatter of inputs and of fatigue together */
    struct spt_driver drivers[SPT_UNCERTAIN_COUNT];
    double reliability_factor;  /* a1, from rated lives to L10 */
    const double *sorted_lives; /* of the system, in the room; those without a life first, as 0 */
    struct spt_uncertain_setting setting;
    int stratum_count;                        /* samples that stand for all in the time to spall */
    const double *strata_h[SPT_BEARINGS_MAX]; /* rated lives of the rows in each, in the room */
};

/* Doubles of the setting table; 0 without a hub. */
size_t spt_uncertainty_table_length(const struct spt_case *question);

/* Draws the samples and sums them up.
 * Method: a Sobol design shifted by the seed; each sample is a whole assessment. The result is the
 *         same for any number of threads. Percentiles are order statistics, interpolated.
 *         Rank correlations from the first 16 384 samples. Time to spall: the product of the
 *         survivals of the rows, each by the law behind a1, averaged over 1000 samples that are
 *         evenly spaced by system life (with a least life in the law, two rows follow no single
 *         one); a sample without a life counts as failed at once.
 *         A hub's loads scale as a whole, its temperature difference and misalignment stay.
 * Status: SPT_BAD_ARGUMENT for a spread out of range or a case that the models refuse as stated.
 * Source: Sobol 1967, Saltelli 2010 as random_input.h cites; predictive distribution as a mixture
 *         over the inputs (general practice of Bayesian statistics). */
enum spt_status spt_uncertainty(const struct spt_case *question,
                                const struct spt_uncertainty *uncertainty,
                                const struct spt_uncertainty_room *room,
                                struct spt_uncertainty_result *result);

/* Rated life of the system below which a share p (0 < p < 1) of the samples lies; NaN where those
 * have none. */
double spt_uncertainty_quantile(const struct spt_uncertainty_result *result, double p);

/* Time by which a share p (0 < p < 1) has spalled; INFINITY where fewer ever do, NaN where more
 * have no life at all. */
enum spt_status spt_uncertainty_spall_time(const struct spt_uncertainty_result *result, double p,
                                           double *time_h);

#ifdef __cplusplus
}
#endif

#endif
