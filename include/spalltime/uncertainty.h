/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_UNCERTAINTY_H
#define SPT_UNCERTAINTY_H

#include <stdint.h>

#include "spalltime/assess.h"
#include "spalltime/random_input.h"
#include "spalltime/survival.h"

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
    double *scratch; /* 4 * samples */
    double *shares;  /* 3 * SPT_UNCERTAIN_SHARE_SAMPLES; NULL: no shares of the variance */
};

/* 5, 50 and 95 % of a life; NaN where so many samples have none. */
struct spt_band {
    double p5_h, p50_h, p95_h;
};

/* How much one input moves the life of the system. */
struct spt_driver {
    bool spread;                   /* not known exactly */
    double rank_correlation;       /* Spearman, -1 to 1; NaN where the life does not vary */
    struct spt_random_share share; /* of the variance of ln(life); NaN where not asked for, or where
                                      a sample has no finite life */
};

struct spt_uncertainty_result {
    int samples;
    uint64_t seed;
    struct spt_band system; /* rated life at the stated reliability */
    struct spt_band bearings[SPT_BEARINGS_MAX];
    double share_without_life; /* samples that no life can be stated for */
    double share_at_target;    /* samples that reach the target life; NaN without one */
    int held;                  /* samples in which a factor was held at its least value */
    struct spt_survival_lives time_to_spall; /* scatter of inputs and of fatigue together */
    struct spt_driver drivers[SPT_UNCERTAIN_COUNT];
    double reliability_factor;  /* a1, from rated lives to L10 */
    const double *sorted_lives; /* of the system, in the room; those without a life first, as 0 */
};

/* Draws the samples and sums them up.
 * Method: a Sobol design shifted by the seed; each sample is a whole assessment. The result is the
 *         same for any number of threads. Percentiles are order statistics, interpolated.
 *         Rank correlations from the first 16 384 samples. Time to spall: the survival law behind
 *         a1, averaged over 1000 evenly spaced order statistics of the system life; a sample
 *         without a life counts as failed at once.
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

#endif
