/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_AXIS_H
#define CHART_AXIS_H

#include <stdbool.h>

#define SPT_TICKS_MAX 128
#define SPT_TICK_LABEL_LENGTH 40

struct spt_tick {
    double value;
    bool major;                        /* drawn strong, its label wins over its neighbours' */
    char label[SPT_TICK_LABEL_LENGTH]; /* "" where a label would only crowd the axis */
};

/* A scale from values to places on the paper, with its ticks in rising order. */
struct spt_axis {
    bool log;
    double low, high;  /* its ends, rounded outwards to ticks */
    double start, end; /* where these ends lie; set by the caller, 0 to 1 at first */
    int tick_count;
    struct spt_tick ticks[SPT_TICKS_MAX];
};

/* A linear axis over low to high (either order, any sign) with about `wanted` (2 to 20) steps of
 * 1, 2, 2.5 or 5 times a power of ten. A range too narrow for the number format is widened around
 * its middle. Result: false, the axis from 0 to 1, where a number is not finite or beyond 1e300. */
bool spt_axis_linear(struct spt_axis *axis, double low, double high, int wanted);

/* A logarithmic axis over low to high (either order, 1e-300 to 1e300). Ends at 1, 2 or 5 times a
 * power of ten, at powers of ten from four decades on; the powers of ten are major, 2 to 9 times
 * them minor, of which 2 and 5 have labels; over many decades only powers of ten, and only some.
 * Result: false, the axis from 1 to 10, where a number is out of range. */
bool spt_axis_log(struct spt_axis *axis, double low, double high);

/* Where a value lies; NaN for one that has no place on the axis' scale (NaN, or <= 0 on a log
 * axis). Not limited to the ends: see spt_axis_holds. */
double spt_axis_at(const struct spt_axis *axis, double value);

/* True where the value lies between the ends (with a hair of tolerance). */
bool spt_axis_holds(const struct spt_axis *axis, double value);

/* A number to `decimals` decimals (negative: to tens, hundreds, ...), digits in threes with
 * no-break spaces from 1 000 on, a true minus sign; powers of ten as in 2*10^7 with raised digits
 * from 1e7 on and below 1e-4. Result: `label`, of SPT_TICK_LABEL_LENGTH bytes. */
const char *spt_axis_label(double value, int decimals, char *label);

#endif
