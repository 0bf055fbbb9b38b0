/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_RANDOM_INPUT_H
#define SPT_RANDOM_INPUT_H

#include <stdint.h>

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SPT_RANDOM_SOBOL_DIMENSIONS_MAX 40 /* what GSL's Sobol sequence offers */

/* How an input that is not known exactly is spread. */
enum spt_random_spread {
    SPT_RANDOM_FIXED,      /* always `centre` */
    SPT_RANDOM_NORMAL,     /* mean `centre`, standard deviation `deviation`; unbounded */
    SPT_RANDOM_LOGNORMAL,  /* median `centre` > 0, standard deviation of the ln `deviation` */
    SPT_RANDOM_TRIANGULAR, /* from `low` over the peak `centre` to `high` */
    SPT_RANDOM_UNIFORM,    /* from `low` to `high` */
    SPT_RANDOM_CLASSES     /* class k = 0 .. class_count - 1 with weight class_weights[k] */
};

/* Members that a spread does not name are not looked at. */
struct spt_random_input {
    enum spt_random_spread spread;
    double centre;
    double deviation; /* > 0 */
    double low;
    double high;
    int class_count;
    const double *class_weights; /* each >= 0, not all 0; need not sum to 1 */
};

/* SPT_OK where the description is complete and in range. */
enum spt_status spt_random_check(const struct spt_random_input *input);

/* Inverse of the distribution function: the value below which a share u of the inputs lies; for
 * classes the number of the class.
 * In:     0 < u < 1.
 * Status: SPT_BAD_ARGUMENT also where spt_random_check says so; SPT_NOT_APPLICABLE where the value
 *         overflows. */
enum spt_status spt_random_value(const struct spt_random_input *input, double u, double *value);

/* A number strictly between 0 and 1 that depends on nothing but its three coordinates, so sample i
 * is the same in whatever order and on however many threads it is drawn.
 * Source: Philox 4x32-10, Salmon, Moraes, Dror and Shaw, "Parallel random numbers: as easy as
 *         1, 2, 3", SC11 2011; seed is the key, (sample, dimension) the counter; 52 bits used. */
double spt_random_uniform(uint64_t seed, uint64_t sample, uint32_t dimension);

/* The generator itself: four words from a counter of four and a key of two. */
void spt_random_philox(const uint32_t counter[4], const uint32_t key[2], uint32_t words[4]);

/* A design that fills the space more evenly: Sobol points, shifted modulo 1 by numbers from
 * `seed`. design[i * dimensions + d] is in (0, 1). Row i does not depend on `samples`.
 * In:     samples >= 1; dimensions 1 to SPT_RANDOM_SOBOL_DIMENSIONS_MAX; `room` members of
 *         `design`, at least samples * dimensions.
 * Status: SPT_NO_ROOM, SPT_BAD_ARGUMENT.
 * Source: Sobol 1967 as in GSL; random shift after Cranley and Patterson 1976. */
enum spt_status spt_random_sobol(uint64_t seed, int samples, int dimensions, double *design,
                                 long room);

/* Spearman's rank correlation of n (>= 2) pairs: which input moves the result most.
 * In:     work has 2 n members.
 * Status: SPT_NOT_APPLICABLE where all x or all y are equal. */
enum spt_status spt_random_rank_correlation(const double *x, const double *y, int n, double *work,
                                            double *correlation);

/* Shares of the variance of a result that one input explains. */
struct spt_random_share {
    double first; /* by itself */
    double total; /* with all its interactions */
};

/* From n (>= 2) results each of design A, design B, and design A with the column of that input
 * taken from B. Estimates scatter, so a share can come out slightly below 0 or above 1.
 * Status: SPT_NOT_APPLICABLE where the result does not vary.
 * Source: first: Saltelli et al., Comput. Phys. Commun. 181 (2010) 259; total: Jansen 1999. */
enum spt_status spt_random_variance_share(const double *a, const double *b, const double *mixed,
                                          int n, struct spt_random_share *share);

#ifdef __cplusplus
}
#endif

#endif
