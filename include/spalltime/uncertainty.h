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

/* Uncertainty of a life whose inputs are not known exactly. */

#define SPT_UNCERTAIN_SAMPLES_MIN 100
#define SPT_UNCERTAIN_SAMPLES_MAX 1000000
#define SPT_UNCERTAIN_SAMPLES_USUAL 100000
#define SPT_UNCERTAIN_THREADS_MAX 64
#define SPT_UNCERTAIN_SHARE_SAMPLES 8192 /* for the shares of the variance */
/* lower bound of a factor; smaller samples are set to it and counted */
#define SPT_UNCERTAIN_FACTOR_MIN 0.01

/* An uncertain input changes all phases (and bearings) alike. */
enum spt_uncertain {
    SPT_UNCERTAIN_LOAD,        /* factor on every load */
    SPT_UNCERTAIN_SPEED,       /* factor on every speed */
    SPT_UNCERTAIN_TEMPERATURE, /* K added to every temperature (to the ambient where it is
                                  estimated); the sum is limited to -60 to 300 degC */
    SPT_UNCERTAIN_WATER,       /* factor on the water content */
    SPT_UNCERTAIN_CLEANLINESS, /* classes instead of `class_stated` */
    SPT_UNCERTAIN_RATING,      /* factor on C, C0 and C_u */
    SPT_UNCERTAIN_END_PLAY,    /* hub: mm added to the mounted setting; a lognormal input is the
                                  setting itself, with the stated end play as median */
    SPT_UNCERTAIN_COUNT
};

/* "load", "speed", ...; never NULL. */
const char *spt_uncertain_name(enum spt_uncertain input);

struct spt_uncertainty {
    struct spt_random_input inputs[SPT_UNCERTAIN_COUNT]; /* SPT_RANDOM_FIXED: known exactly */
    enum spt_cleanliness class_first;                    /* class 0 of the cleanliness input */
    enum spt_cleanliness class_stated; /* phases with this class are given the sampled one; others,
                                          and those with a given e_C, keep theirs */
    uint64_t seed;
    int samples; /* SPT_UNCERTAIN_SAMPLES_MIN to .._MAX */
};

/* Workspace (memory of the caller). */
struct spt_uncertainty_workspace {
    int threads;                      /* 1 to SPT_UNCERTAIN_THREADS_MAX */
    struct spt_phase *phases;         /* threads * spt_case_phase_count(question) */
    struct spt_phase_result *results; /* the same number */
    double *design; /* SPT_UNCERTAIN_COUNT * samples; with shares at least 2 * SPT_UNCERTAIN_COUNT *
                       SPT_UNCERTAIN_SHARE_SAMPLES */
    double *lives;  /* (1 + bearing_count) * samples */
    double *scratch; /* (2 + bearing_count) * samples, for fewer than 2 bearings 4 * samples; keeps
                        the strata of the result */
    double *shares;  /* 3 * SPT_UNCERTAIN_SHARE_SAMPLES; NULL: no shares of the variance */
    /* For a hub whose end play or load is uncertain; NULL: its setting factors stay as in the case,
     * and its end play must be SPT_RANDOM_FIXED. */
    const struct spt_hub_workspace *hub_workspaces; /* one for each thread */
    double *setting_table;                          /* spt_uncertainty_table_length(question) */
};

/* Setting factors of a hub for samples that differ in end play or load. The factor of each phase
 * and row is interpolated in a table over the setting and the load factor: cubic in the setting,
 * Chebyshev in the logarithm of the load factor. Where the load is uncertain too, the setting is
 * divided by load^0.9, because the deflection of a line contact grows like that (Q = c
 * delta^(10/9), ISO 16281, from memory). The number of nodes is doubled until samples from the
 * table agree with the same samples solved directly to SPT_UNCERTAIN_SETTING_ALLOWED. Samples
 * outside the table, or next to a node without an answer, are solved directly. */
#define SPT_UNCERTAIN_SETTING_CHECKS 48
#define SPT_UNCERTAIN_SETTING_ALLOWED 1e-3 /* relative tolerance on the life of the system */
struct spt_uncertain_setting {
    bool varies;  /* false: the factors of the case hold in every sample */
    int nodes;    /* settings and loads in the table */
    int checked;  /* samples solved directly to check it; 0: no table was needed */
    double error; /* largest relative difference of their lives; INFINITY where only one way gives a
                     life */
    int direct;   /* samples solved directly for the result */
    int unsettled; /* samples without a life, because the hub has no load distribution */
    int preloaded; /* samples whose rows are preloaded, cold or running */
};

/* Percentiles 5, 50 and 95 % of a life; NaN where so many samples have no life. */
struct spt_band {
    double p5_h, p50_h, p95_h;
};

/* Phases of a bearing that an uncertain input does not change: they have a class or e_C of their
 * own, or the quantity that it multiplies is 0. */
struct spt_unmoved {
    int phases;
    int first; /* index of the first; -1: none */
};

/* Influence of one input on the life of the system. */
struct spt_driver {
    bool spread;                   /* not known exactly */
    double rank_correlation;       /* Spearman, -1 to 1; NaN where the life does not vary */
    struct spt_random_share share; /* of the variance of ln(life); NaN where not requested, or where
                                      a sample has no finite life */
    struct spt_unmoved unmoved;    /* of the first bearing; none where it is known exactly */
};

struct spt_uncertainty_result {
    int samples;
    uint64_t seed;
    struct spt_band system; /* percentiles of the rated life at the stated reliability */
    struct spt_band bearings[SPT_BEARINGS_MAX];
    double share_without_life; /* share of samples without a life */
    double share_preloaded; /* share of samples with preload, cold or running; NaN where the setting
                               of a hub is not an input */
    double share_at_target; /* share of samples that reach the target life; NaN without a target */
    int held;               /* samples in which a factor was raised to SPT_UNCERTAIN_FACTOR_MIN */
    struct spt_survival_lives time_to_spall; /* combined scatter of inputs and of fatigue */
    struct spt_driver drivers[SPT_UNCERTAIN_COUNT];
    double reliability_factor;  /* a1, which converts rated lives to L10 */
    const double *sorted_lives; /* of the system, in the caller's memory; samples without a life
                                   first, as 0 */
    struct spt_uncertain_setting setting;
    int stratum_count; /* number of samples used for the time to spall */
    /* rated lives of the rows in each, in the caller's memory */
    const double *strata_h[SPT_BEARINGS_MAX];
};

/* Number of doubles of the setting table; 0 without a hub. */
size_t spt_uncertainty_table_length(const struct spt_case *question);

/* Draws the samples and summarises their lives.
 * Method: a Sobol design shifted by the seed; each sample is a complete assessment. The result is
 *         the same for any number of threads. Percentiles are order statistics, interpolated. Rank
 *         correlations from the first 16 384 samples. Time to spall: the product of the survivals
 *         of the rows, each by the law behind a1, averaged over 1000 samples evenly spaced in order
 *         of system life (because of the least life in the law, the product for two rows follows no
 *         single such law); a sample without a life counts as failed at once.
 * The loads of a hub are scaled by one factor; its temperature difference and misalignment are
 * fixed.
 * Status: SPT_BAD_ARGUMENT for a distribution out of range or a case that the models reject as
 *         stated.
 * Source: Sobol 1967, Saltelli 2010 as random_input.h cites; predictive distribution as a mixture
 *         over the inputs (general practice of Bayesian statistics). */
enum spt_status spt_uncertainty(const struct spt_case *question,
                                const struct spt_uncertainty *uncertainty,
                                const struct spt_uncertainty_workspace *workspace,
                                struct spt_uncertainty_result *result);

/* Quantile p (0 < p < 1) of the rated life of the system over the samples; NaN where it falls on
 * samples without a life. */
double spt_uncertainty_quantile(const struct spt_uncertainty_result *result, double p);

/* Time by which a share p (0 < p < 1) has spalled; INFINITY where fewer ever do, NaN where more
 * have no life at all. */
enum spt_status spt_uncertainty_spall_time(const struct spt_uncertainty_result *result, double p,
                                           double *time_h);

#ifdef __cplusplus
}
#endif

#endif
