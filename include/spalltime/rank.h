/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_RANK_H
#define SPT_RANK_H

#include <stdbool.h>

#include "spalltime/status.h"
#include "spalltime/weibull.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How the failed share of the i-th of n lives is set. */
enum spt_rank_method {
    SPT_RANK_EXACT, /* median of the beta distribution (i, n + 1 - i) */
    SPT_RANK_BENARD /* (i - 0.3)/(n + 0.4), Benard and Bos-Levenbach 1953; within 0.0012 at n = 10
                     */
};

/* Median rank: the failed share that the i-th of n lives stands for.
 * In:     rank 1 to n, fractional after Johnson's adjustment; n >= 1. */
enum spt_status spt_rank_median(enum spt_rank_method method, double rank, int n, double *fraction);

/* One failed bearing on Weibull paper, or one time by which a share of them was found failed. */
struct spt_rank_point {
    double time;
    double rank;     /* Johnson's adjusted rank, or all bearings times the share failed by then */
    double fraction; /* median or mean rank, 0 to 1 */
    double x;        /* ln time */
    double y;        /* ln(-ln(1 - fraction)) */
    double failed;   /* 1; used while sorting */
};

/* Plotting points of the failures in order of time, one for each failed bearing (a row with count
 * 3 gives three). Censored bearings move later ranks up: rank += (N + 1 - rank)/(1 + bearings not
 * yet passed). At equal times failures come before censored bearings.
 * Where failures were only found, or bearings are known only from an age on, the share failed is
 * Turnbull's self-consistent estimate instead: one point at each time of failure to which it gives
 * a part, at the end of the interval, with the mean rank N F/(N + 1), for a rank that is not whole
 * has no median; `method` is not read then. With none known from new F counts only those
 * that reached the earliest known_from.
 * In:     `room` members of `points`, at least failures + censored, because all are sorted there.
 * Result: points[0 .. count - 1].
 * Status: SPT_BAD_ARGUMENT as spt_weibull_count, SPT_NO_ROOM; SPT_NOT_APPLICABLE: no failure.
 * Source: Johnson 1964 (from memory), as used in handbooks for suspended items; Turnbull, J. Roy.
 *         Statist. Soc. B 38 (1976) 290 (from memory); its mean rank is our choice. */
enum spt_status spt_rank_points(const struct spt_weibull_data *data, enum spt_rank_method method,
                                struct spt_rank_point *points, int room, int *count);

/* Which deviations a straight line through the points keeps small. */
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

#ifdef __cplusplus
}
#endif

#endif
