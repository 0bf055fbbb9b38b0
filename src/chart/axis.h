/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_AXIS_H
#define CHART_AXIS_H

#include <stdbool.h>

#define SPT_TICKS_MAX 128
#define SPT_TICK_LABEL_LENGTH 40

struct spt_tick {
    double value;
    bool major; /* drawn stronger; its label has priority over its neighbours' */
    char label[SPT_TICK_LABEL_LENGTH]; /* "" where there are enough labels */
};

/* A scale from values to positions in the chart, with its ticks in ascending order. */
struct spt_axis {
    bool log;
    double low, high;  /* its ends, rounded outwards to ticks */
    double start, end; /* positions of these ends; set by the caller, 0 to 1 initially */
    int tick_count;
    struct spt_tick ticks[SPT_TICKS_MAX];
};

/* A linear axis over low to high (either order, any sign) with about `wanted` (2 to 20) steps of 1,
 * 2, 2.5 or 5 times a power of ten. A range too narrow for the number format is widened about its
 * middle. Result: false, the axis from 0 to 1, where a number is not finite or beyond 1e300. */
bool spt_axis_linear(struct spt_axis *axis, double low, double high, int wanted);

/* A logarithmic axis over low to high (either order, 1e-300 to 1e300). Ends at 1, 2 or 5 times a
 * power of ten, at powers of ten from four decades on; the powers of ten are major, 2 to 9 times
 * them minor, of which 2 and 5 have labels; over many decades only powers of ten, and only some.
 * Result: false, the axis from 1 to 10, where a number is out of range. */
bool spt_axis_log(struct spt_axis *axis, double low, double high);

/* Position of a value; NaN where it has none (NaN, or <= 0 on a log axis). Not limited to the ends:
 * see spt_axis_holds. */
double spt_axis_at(const struct spt_axis *axis, double value);

/* True where the value is between the ends (with a small tolerance). */
bool spt_axis_holds(const struct spt_axis *axis, double value);

/* Formats a number with `decimals` decimals (negative: to tens, hundreds, ...), digits grouped in
 * threes with no-break spaces from 1 000 on, a proper minus sign; as in 2*10^7 with superscript
 * digits from 1e7 on and below 1e-4. Result: `label`, of SPT_TICK_LABEL_LENGTH bytes. */
const char *spt_axis_label(double value, int decimals, char *label);

#endif
