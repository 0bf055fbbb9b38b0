/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_STATISTICS_H
#define SPT_STATISTICS_H

#include <stdbool.h>
#include <stdint.h>

#include "spalltime/life.h"
#include "spalltime/lubricant.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- survival ------------------------------------------------------------------------------ */

/* Distribution of rolling fatigue lives about L10 (in any one unit of time), three-parameter
 * Weibull: R(t) = exp(-ln(1/0.9) [(t/L10 - floor)/(1 - floor)]^slope), 1 below floor L10. */
struct spt_life_law {
    double l10;   /* > 0; L_nm10 where the modified life is meant */
    double slope; /* > 0; SPT_WEIBULL_SLOPE behind a1 */
    double floor; /* least life over L10, 0 <= floor < 1; SPT_WEIBULL_FLOOR behind a1, 0 for the
                     two-parameter form */
};

/* The law behind the reliability factors a1 of ISO 281:2007 table 12: slope 1.5, floor 0.05. It is
 * also used below 90 % reliability, outside the table. Source: as spt_life_reliability_factor. */
struct spt_life_law spt_survival_iso_law(double l10);

/* Survival probability at t (>= 0), and its natural logarithm, which does not underflow. */
enum spt_status spt_survival_fatigue(const struct spt_life_law *law, double t, double *survival);
enum spt_status spt_survival_log_fatigue(const struct spt_life_law *law, double t,
                                         double *log_survival);

/* Quantile: the life that a share `survival` (1e-300 < R < 1) reaches; equals L10 a1 for R of 0.90
 * to 0.9995. */
enum spt_status spt_survival_quantile(const struct spt_life_law *law, double survival, double *t);

/* Logarithm of the probability density of failures at t (> 0), -INFINITY below the least life; with
 * ln R it gives the likelihood of field data. */
enum spt_status spt_survival_log_density(const struct spt_life_law *law, double t,
                                         double *log_density);

/* A series system of bearings and their greases: all have to survive. Times in hours. */
struct spt_survival_system {
    int fatigue_count; /* >= 0 */
    const struct spt_life_law *fatigue;
    int grease_count; /* >= 0; one of the two counts at least 1 */
    const struct spt_grease_plan *grease;
};

/* Product of the survivals at t_h (>= 0).
 * Source: product rule for independent causes (Lundberg and Palmgren 1947, from memory). */
enum spt_status spt_survival_of_system(const struct spt_survival_system *system, double t_h,
                                       double *survival);

/* Life in hours that a share `survival` (1e-300 < R < 1) of the systems reaches, by root finding.
 * Status: SPT_NOT_CONVERGED where that lies beyond SPT_SURVIVAL_LIFE_MAX_H. */
#define SPT_SURVIVAL_LIFE_MAX_H 1e100
enum spt_status spt_survival_life(const struct spt_survival_system *system, double survival,
                                  double *life_h);

/* Life of bearings in series from their lives, all at one reliability: the time at which the
 * product of their survivals, by the law behind a1, equals that reliability. Every command combines
 * the rows of a hub in this way; the life of the system need not follow the law of its parts.
 * In:     count >= 1 lives in one unit, >= 0, INFINITY allowed; a single life is returned
 *         unchanged; reliability 90 to 99.95 %, 90 for basic rating lives.
 * Result: NaN for NaN, a negative life, or a reliability out of range.
 * Source: product rule for independent causes (Lundberg and Palmgren 1947, from memory), with the
 *         law of spt_survival_iso_law. */
double spt_survival_series(const double *lives, int count, double reliability_percent);

/* Share of each of these bearings in the risk that the first of them fails before the life of all:
 * its own h_i = [(L/L_i - 0.05)/0.95]^1.5 (lives at 90 %; below 0.05 L_i none) over their sum.
 * In:     as spt_survival_series.
 * Result: `count` shares that sum to 1; all NaN where there is no life, or no end to it.
 * Source: derived from the same law. */
void spt_survival_shares(const double *lives, int count, double reliability_percent,
                         double *shares);

/* Lives that 50, 90, 95 and 99 % of the systems reach. */
struct spt_survival_lives {
    double l50_h;
    double l10_h;
    double l5_h;
    double l1_h;
};
enum spt_status spt_survival_lives(const struct spt_survival_system *system,
                                   struct spt_survival_lives *lives);

/* The same for any function `find` that gives the life reached by a share `survival`.
 * Status: the first failure of `find`; all lives are then NaN. */
enum spt_status spt_survival_usual_lives(enum spt_status (*find)(const void *context,
                                                                 double survival, double *life_h),
                                         const void *context, struct spt_survival_lives *lives);

/* How much longer for bearings that still run: 1 over the factor by which `added` damage may be
 * stretched until a share `survival` of those that got through `start` is left,
 * product of S(start + added/share)/S(start) = survival.
 * In:     count bearings; damage in units of L10, >= 0; floor as of spt_life_law, slope of the law
 *         behind a1; 0 < survival < 1.
 * Result: the share of the remaining life that `added` spends: 0 for none, 1 where it is over; with
 *         `added` per hour it is 1 over the remaining life in hours. NaN for a NaN or a bad
 * argument. Source: conditional reliability R(T + t)/R(T) of the textbooks (such as Abernethy, The
 * New Weibull Handbook, from memory), product rule as above. */
double spt_survival_spent(const double *start, const double *added, int count, double floor,
                          double survival);

/* ---- weibull ------------------------------------------------------------------------------- */

#define SPT_WEIBULL_SHAPE_MAX 1e4 /* a fit that exceeds it counts as having no finite shape */
/* likewise below it, with failures found by inspection or records that start late */
#define SPT_WEIBULL_SHAPE_MIN 0.05

/* Two-parameter Weibull distribution of lives, R(t) = exp(-(t/scale)^shape).
 * Times are in any one unit (hours, million revolutions, km); scale is in that unit. */
struct spt_weibull {
    double shape; /* slope, > 0 */
    double scale; /* characteristic life, 63.2 % failed, > 0 */
};

/* The distribution with a given L10 (> 0) and shape (> 0): scale = L10/ln(1/0.9)^(1/shape). */
enum spt_status spt_weibull_from_l10(double l10, double shape, struct spt_weibull *weibull);

/* Survival probability at t (>= 0), 0 to 1. */
enum spt_status spt_weibull_survival(const struct spt_weibull *weibull, double t, double *survival);

/* Quantile: time by which `failed_fraction` (0 < p < 1) has failed; 0.10 for L10. */
enum spt_status spt_weibull_quantile(const struct spt_weibull *weibull, double failed_fraction,
                                     double *time);

/* Time from the age `age` (>= 0) on until a share `survival` (0 < R < 1) of those that reached that
 * age is left: scale ((age/scale)^shape + ln(1/R))^(1/shape) - age.
 * Source: conditional reliability R(T + t)/R(T) of the textbooks (such as Abernethy, The New
 * Weibull Handbook, from memory). */
enum spt_status spt_weibull_remaining(const struct spt_weibull *weibull, double age,
                                      double survival, double *time);

/* Mean scale Gamma(1 + 1/shape) and standard deviation of the lives.
 * Status: SPT_NOT_APPLICABLE where the shape is so small that they overflow. */
enum spt_status spt_weibull_mean(const struct spt_weibull *weibull, double *mean);
enum spt_status spt_weibull_deviation(const struct spt_weibull *weibull, double *deviation);

/* Lives from the field or from a test. A row is `counts[i]` bearings that failed at times[i], or
 * that were still sound then (right censored).
 * Where an inspection finds a failure, it is only known that it happened after the last inspection
 * at which the bearing was sound, `last_good` (interval censored; 0 where it was never inspected
 * before, left censored). To count it as failed at the time it was found would make L10 too long.
 * Where records begin when a machine has run already, `known_from` is the age of its bearings at
 * that time (left truncated): bearings that failed earlier are not among the rows. */
struct spt_weibull_data {
    int n;
    const double *times;      /* n, > 0 */
    const int *counts;        /* n, >= 1; NULL: one bearing per row */
    const bool *failed;       /* n; NULL: all failed */
    const double *last_good;  /* n; for failed rows 0 <= last_good < time, or NaN: failed exactly at
                                 times[i]; ignored for sound ones; NULL: all NaN */
    const double *known_from; /* n, 0 <= known_from < time; NULL: all 0 (known from new). The
                                 bearing was sound at that age, whatever last_good says */
};

/* Checks the rows and counts failed and censored bearings.
 * Status: SPT_BAD_ARGUMENT for no rows, a time that is not finite and > 0, a count below 1, or a
 *         last_good or known_from out of its range. */
enum spt_status spt_weibull_count(const struct spt_weibull_data *data, int *failures,
                                  int *censored);

/* Log-likelihood of the data: sum of ln f(t) over failures at a known time, ln [R(last_good) -
 * R(time)] over failures found by inspection, ln R(t) over sound bearings, each minus ln
 * R(known_from).
 * Source: Lawless, Statistical Models and Methods for Lifetime Data (from memory). */
enum spt_status spt_weibull_log_likelihood(const struct spt_weibull_data *data,
                                           const struct spt_weibull *weibull,
                                           double *log_likelihood);

/* A maximum-likelihood fit. Variances are of ln scale and ln shape, from the inverse of the
 * observed information at the maximum. */
struct spt_weibull_fit {
    struct spt_weibull weibull;
    int failures;
    int censored;
    double log_likelihood;
    double variance_log_scale;
    double variance_log_shape;
    double covariance; /* of ln scale and ln shape */
};

/* Maximum-likelihood fit. For a given shape the likelihood has one maximum in scale^-shape, in
 * closed form where every failure has an exact time: scale^shape = sum (t^b -
 * known_from^b)/failures. A bracketing root finder finds the zero of the derivative of that profile
 * with respect to the shape; with truncated data (known_from) the profile may have several maxima,
 * and the highest is used.
 * Status: SPT_BAD_ARGUMENT as spt_weibull_count; SPT_NOT_APPLICABLE with fewer than two failures,
 *         or where no finite shape fits best: all failures may have happened at one time with no
 *         bearing sound later (as after a single inspection), no bearing was ever seen sound, or
 *         the shape is outside SPT_WEIBULL_SHAPE_MIN to SPT_WEIBULL_SHAPE_MAX. The estimate from
 *         few failures is biased (shape too high); below three use spt_weibull_assumed_slope.
 * Source: NIST/SEMATECH e-Handbook 8.4.1.3; Lawless (from memory). */
enum spt_status spt_weibull_fit(const struct spt_weibull_data *data, struct spt_weibull_fit *fit);

/* Two-sided confidence interval of one quantity: half of 1 - confidence lies outside at each end.
 * high is INFINITY where the data give no upper bound, low 0 where they give no lower one. */
struct spt_interval {
    double low;
    double high;
};

/* The quantity whose interval is wanted. */
enum spt_weibull_quantity { SPT_WEIBULL_SHAPE, SPT_WEIBULL_SCALE, SPT_WEIBULL_LIFE };
struct spt_weibull_interval_inputs {
    enum spt_weibull_quantity quantity;
    double failed_fraction; /* SPT_WEIBULL_LIFE only: 0.10 for L10; 0 < p < 1 */
    double confidence;      /* two-sided, 0 < c < 1, for instance 0.90 */
};

/* Interval from the normal approximation to the logarithm of the quantity (Wald): fast, for many
 * failures; too narrow below about twenty. */
enum spt_status spt_weibull_wald(const struct spt_weibull_fit *fit,
                                 const struct spt_weibull_interval_inputs *inputs,
                                 struct spt_interval *interval);

/* Interval from the likelihood ratio: all values whose profile log-likelihood is within
 * chi-squared(confidence; 1)/2 of the maximum. `fit` is the fit of the same data.
 * Failures found at the first inspection, and truncated data, may leave a quantity without a bound:
 * 0 or INFINITY then.
 * Status: SPT_NOT_CONVERGED where a bound is beyond the range of a double. */
enum spt_status spt_weibull_ratio(const struct spt_weibull_data *data,
                                  const struct spt_weibull_fit *fit,
                                  const struct spt_weibull_interval_inputs *inputs,
                                  struct spt_interval *interval);

/* Few or no failures: the shape is assumed, not estimated, and t^shape is then exponential. Each
 * bound is one-sided at `confidence`: the true scale is above low with that confidence and,
 * separately, below high with that confidence. */
struct spt_weibull_assumed {
    double shape; /* as assumed */
    int failures;
    struct spt_interval scale; /* high is INFINITY without a failure */
    struct spt_interval l10;
    double scale_estimate; /* (sum t^b/failures)^(1/b); NaN without a failure, or where none of the
                              bearings was ever seen sound */
};

/* low = [2 sum t^b/chi2(confidence; 2r+2)]^(1/b), exact for a test stopped at a time, slightly low
 * for one stopped at a failure; high = [2 sum t^b/chi2(1-confidence; 2r)]^(1/b). A bearing found
 * failed by inspection counts in low as failed when last seen sound, in high as failed when found,
 * so that the bounds are slightly wide. known_from^b is subtracted from t^b.
 * In:     slope > 0; confidence 0 < c < 1.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where the sum overflows.
 * Source: NIST/SEMATECH e-Handbook 8.4.5.1 for the exponential case (from memory), with t^b. */
enum spt_status spt_weibull_assumed_slope(const struct spt_weibull_data *data, double slope,
                                          double confidence, struct spt_weibull_assumed *result);

/* ---- rank ---------------------------------------------------------------------------------- */

/* How the failed fraction of the i-th of n lives is estimated. */
enum spt_rank_method {
    SPT_RANK_EXACT, /* median of the beta distribution (i, n + 1 - i) */
    SPT_RANK_BENARD /* (i - 0.3)/(n + 0.4), Benard and Bos-Levenbach 1953; within 0.0012 at n = 10
                     */
};

/* Median rank: the failed fraction assigned to the i-th of n lives.
 * In:     rank 1 to n, fractional after Johnson's adjustment; n >= 1. */
enum spt_status spt_rank_median(enum spt_rank_method method, double rank, int n, double *fraction);

/* One plotting point on Weibull paper: a failed bearing, or a time by which a fraction was found
 * failed. */
struct spt_rank_point {
    double time;
    double rank; /* Johnson's adjusted rank, or all bearings times the fraction failed by then */
    double fraction; /* median or mean rank, 0 to 1 */
    double x;        /* ln time */
    double y;        /* ln(-ln(1 - fraction)) */
    double failed;   /* 1; for internal use while sorting */
};

/* Plotting points of the failures in order of time, one for each failed bearing (a row with count 3
 * gives three). Censored bearings raise the ranks after them: rank += (N + 1 - rank)/(1 + number of
 * bearings from this time on). At equal times failures come before censored bearings.
 * With interval-censored failures or truncated data the failed fraction F is Turnbull's
 * self-consistent estimate instead: one point at the end of each interval of failure to which it
 * assigns a part, with the mean rank N F/(N + 1), because a fractional rank has no median; `method`
 * is ignored then. Where no bearing is known from new, F counts only those that reached the
 * earliest known_from.
 * In:     `capacity`: length of `points`, at least failures + censored, because all are sorted
 * there. Result: points[0 .. count - 1]. Status: SPT_BAD_ARGUMENT as spt_weibull_count,
 * SPT_TOO_SMALL; SPT_NOT_APPLICABLE: no failure. Source: Johnson 1964 (from memory), as used in
 * handbooks for suspended items; Turnbull, J. Roy. Statist. Soc. B 38 (1976) 290 (from memory); its
 * mean rank is our choice. */
enum spt_status spt_rank_points(const struct spt_weibull_data *data, enum spt_rank_method method,
                                struct spt_rank_point *points, int capacity, int *count);

/* Which deviations the regression minimises. */
enum spt_rank_direction {
    SPT_RANK_LIFE_ON_RANK, /* x on y, deviations in life: the usual choice */
    SPT_RANK_RANK_ON_LIFE  /* y on x, deviations in rank */
};

struct spt_rank_line {
    struct spt_weibull weibull;
    double r_squared; /* of x and y, the same in both directions */
};

/* Median-rank regression: least squares through the points.
 * Status: SPT_NOT_APPLICABLE with fewer than two points or all of them at one time. */
enum spt_status spt_rank_regression(const struct spt_rank_point *points, int count,
                                    enum spt_rank_direction direction, struct spt_rank_line *line);

/* ---- replacement --------------------------------------------------------------------------- */

/* Share that survives t (>= 0), falling from 1 to 0, in any one unit of time. It may be called at
 * any t >= 0 and must not return NaN. */
typedef double (*spt_survival_function)(double t, const void *context);

/* Cost of a replacement, in any one currency. */
struct spt_replacement_costs {
    double planned; /* > 0: replaced at the planned age */
    /* replaced after failure; planned replacement pays only where it is > planned */
    double failure;
};

/* Replacement at `age`, or at failure where that comes first. */
struct spt_replacement {
    double age;            /* T, in the unit of the survival function */
    double survival;       /* share that reaches the planned age, R(T) */
    double mean_cycle;     /* mean time between replacements, integral of R from 0 to T */
    double cost_rate;      /* C(T) = (planned R + failure F)/mean_cycle, per unit of time */
    double mean_life;      /* without a plan */
    double cost_rate_none; /* without a plan, failure/mean_life */
};

/* Cost rate and the rest for a given age (> 0). Integrals end where the survival is 1e-17: a
 * survival that falls no faster than 1/t has no mean life, and the value given is truncated there.
 * Status: SPT_BAD_ARGUMENT for costs or age that are not finite and > 0, or a survival outside 0 to
 *         1; SPT_NOT_CONVERGED where an integral does not converge.
 * Source: Barlow and Proschan, Mathematical Theory of Reliability, 1965 (renewal reward). */
enum spt_status spt_replacement_at(spt_survival_function survival, const void *context,
                                   const struct spt_replacement_costs *costs, double age,
                                   struct spt_replacement *result);

/* The age with the least cost rate, searched from 1e-6 of the median life until all have failed, to
 * a relative accuracy of about 1e-7.
 * Status: as above; SPT_NOT_APPLICABLE where no age saves more than 1e-9 of the cost of running to
 *         failure (a constant or falling failure rate, or a failure that costs no more than planned
 *         replacement). The result then has the values without a plan, with age INFINITY. */
enum spt_status spt_replacement_optimum(spt_survival_function survival, const void *context,
                                        const struct spt_replacement_costs *costs,
                                        struct spt_replacement *result);

/* The same for Weibull lives, to round-off, from the first-order condition h(T) integral_0^T R -
 * F(T) = planned/(failure - planned). */
enum spt_status spt_replacement_weibull(const struct spt_weibull *weibull,
                                        const struct spt_replacement_costs *costs,
                                        struct spt_replacement *result);

/* A fleet: number of positions with such a bearing, and running time of each in a year. */
struct spt_replacement_fleet {
    double positions;     /* > 0 */
    double time_per_year; /* > 0, in the unit of the ages */
};

/* Failures, replacements and cost per year in the long run. */
struct spt_replacement_year {
    double failures;      /* with the plan, N t F(T)/mean_cycle */
    double planned;       /* planned replacements, N t R(T)/mean_cycle */
    double failures_none; /* without a plan, N t/mean_life */
    double cost;
    double cost_none;
};

/* In:     a result of the functions above (also one returned with SPT_NOT_APPLICABLE). */
enum spt_status spt_replacement_yearly(const struct spt_replacement *plan,
                                       const struct spt_replacement_costs *costs,
                                       const struct spt_replacement_fleet *fleet,
                                       struct spt_replacement_year *year);

/* ---- random input -------------------------------------------------------------------------- */

#define SPT_RANDOM_SOBOL_DIMENSIONS_MAX 40 /* what GSL's Sobol sequence offers */

/* Distribution of an input that is not known exactly. */
enum spt_random_spread {
    SPT_RANDOM_FIXED,      /* always `centre` */
    SPT_RANDOM_NORMAL,     /* mean `centre`, standard deviation `deviation`; unbounded */
    SPT_RANDOM_LOGNORMAL,  /* median `centre` > 0, standard deviation of the ln `deviation` */
    SPT_RANDOM_TRIANGULAR, /* from `low` over the peak `centre` to `high` */
    SPT_RANDOM_UNIFORM,    /* from `low` to `high` */
    SPT_RANDOM_CLASSES     /* class k = 0 .. class_count - 1 with weight class_weights[k] */
};

/* Members that the kind of spread does not use are ignored. */
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

/* Quantile: the value below which a share u of the inputs lies; for classes the number of the
 * class.
 * In:     0 < u < 1.
 * Status: SPT_BAD_ARGUMENT also where spt_random_check says so; SPT_NOT_APPLICABLE where the value
 *         overflows. */
enum spt_status spt_random_value(const struct spt_random_input *input, double u, double *value);

/* A uniform random number strictly between 0 and 1 that depends only on its three arguments, so
 * that sample i is the same for any order and number of threads.
 * Source: Philox 4x32-10, Salmon, Moraes, Dror and Shaw, "Parallel random numbers: as easy as 1, 2,
 *         3", SC11 2011; seed is the key, (sample, dimension) the counter; 52 bits are used. */
double spt_random_uniform(uint64_t seed, uint64_t sample, uint32_t dimension);

/* The generator itself: four words from a counter of four and a key of two. */
void spt_random_philox(const uint32_t counter[4], const uint32_t key[2], uint32_t words[4]);

/* A low-discrepancy design: Sobol points, shifted modulo 1 by numbers from `seed`. design[i *
 * dimensions + d] is in (0, 1). Row i does not depend on `samples`.
 * In:     samples >= 1; dimensions 1 to SPT_RANDOM_SOBOL_DIMENSIONS_MAX; `capacity`: length of
 *         `design`, at least samples * dimensions.
 * Status: SPT_TOO_SMALL, SPT_BAD_ARGUMENT.
 * Source: Sobol 1967 as in GSL; random shift after Cranley and Patterson 1976. */
enum spt_status spt_random_sobol(uint64_t seed, int samples, int dimensions, double *design,
                                 long capacity);

/* Spearman's rank correlation of n (>= 2) pairs: shows which input affects the result most.
 * In:     `work` has 2 n members (workspace).
 * Status: SPT_NOT_APPLICABLE where all x or all y are equal. */
enum spt_status spt_random_rank_correlation(const double *x, const double *y, int n, double *work,
                                            double *correlation);

/* Sensitivity indices: fractions of the variance of a result explained by one input. */
struct spt_random_share {
    double first; /* by itself */
    double total; /* with all its interactions */
};

/* In:     n (>= 2) results each of design A, design B, and design A with the column of that input
 *         taken from B.
 * Result: estimates with scatter, so that an index can be slightly below 0 or above 1.
 * Status: SPT_NOT_APPLICABLE where the result does not vary.
 * Source: first: Saltelli et al., Comput. Phys. Commun. 181 (2010) 259; total: Jansen 1999. */
enum spt_status spt_random_variance_share(const double *a, const double *b, const double *mixed,
                                          int n, struct spt_random_share *share);

#ifdef __cplusplus
}
#endif

#endif
