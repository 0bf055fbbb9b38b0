/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/statistics/turnbull.h"

#include <gsl/gsl_heapsort.h>
#include <math.h>
#include <stdbool.h>

#include "model/statistics/weibull_data.h"

/* Turnbull's estimate distributes the failed fraction over cells, each of which ends at a time of
 * failure, and iterates until it is self-consistent. There is no heap here, so that the members of
 * a point are used as follows until the end: for cell i time (its end), rank (its probability),
 * fraction (cumulative probability at its end), x (factor on its probability, as differences); for
 * row i y and failed (first cell, and one past the last cell, in which it may have failed). */

enum { ROUNDS = 2000 };
static const double at_rest = 1e-10; /* convergence: change of a failed fraction in one iteration */
static const double smallest_share = 1e-7; /* smallest probability of a cell that becomes a point */

static int compare_times(const void *left, const void *right)
{
    const struct spt_rank_point *a = left, *b = right;
    return (a->time > b->time) - (a->time < b->time);
}

static int fill_cells(const struct spt_weibull_data *data, struct spt_rank_point *cells)
{
    int filled = 0, count = 0;
    for (int i = 0; i < data->n; i++)
        if (spt_weibull_row_failed(data, i))
            cells[filled++].time = data->times[i];
    gsl_heapsort(cells, (size_t)filled, sizeof *cells, compare_times);
    for (int i = 0; i < filled; i++)
        if (!count || cells[i].time > cells[count - 1].time)
            cells[count++].time = cells[i].time;
    return count;
}

/* the first cell that ends after t */
static int find_cell(const struct spt_rank_point *cells, int count, double t)
{
    int low = 0, high = count;
    while (low < high) {
        int middle = low + (high - low) / 2;
        if (cells[middle].time > t)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

static void fill_rows(const struct spt_weibull_data *data, struct spt_rank_point *points, int count)
{
    for (int i = 0; i < data->n; i++) {
        double sound = spt_weibull_row_sound(data, i);
        int first = find_cell(points, count, sound), last = count;
        if (spt_weibull_row_failed(data, i)) {
            last = find_cell(points, count, data->times[i]);
            first -= last == first; /* exact time of failure: the cell that ends then */
        }
        points[i].y = first;
        points[i].failed = last;
    }
}

static void add_step(struct spt_rank_point *cells, int count, int first, int last, double weight)
{
    cells[first].x += weight;
    if (last < count)
        cells[last].x -= weight;
}

static double share_before(const struct spt_rank_point *cells, int cell)
{
    return cell > 0 ? cells[cell - 1].fraction : 0.0;
}

/* distributes one row by the present probabilities, with the similar bearings that failed before
 * they could be known (truncation); `beyond` is the part after the last cell */
static void add_row(const struct spt_weibull_data *data, struct spt_rank_point *points, int count,
                    int i, double *beyond)
{
    double bearings = spt_weibull_row_count(data, i), from = spt_weibull_row_from(data, i);
    int first = (int)points[i].y, last = (int)points[i].failed;
    bool sound = !spt_weibull_row_failed(data, i);
    double share = (sound ? 1.0 : share_before(points, last)) - share_before(points, first);
    if (share > 0.0 && first < last)
        add_step(points, count, first, last, bearings / share);
    if (share > 0.0 && sound)
        *beyond += bearings / share;
    int entry = from > 0.0 ? find_cell(points, count, from) : 0;
    double known = 1.0 - share_before(points, entry);
    if (entry > 0 && known > 0.0)
        add_step(points, count, 0, entry, bearings / known);
}

static void add_shares(struct spt_rank_point *cells, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++)
        cells[i].fraction = sum += cells[i].rank;
}

/* one iteration. Result: the largest change of a failed fraction */
static double go_round(const struct spt_weibull_data *data, struct spt_rank_point *points,
                       int count, double *rest)
{
    double beyond = 0.0, factor = 0.0, total = 0.0, sum = 0.0, change = 0.0;
    for (int i = 0; i < count; i++)
        points[i].x = 0.0;
    for (int i = 0; i < data->n; i++)
        add_row(data, points, count, i, &beyond);
    for (int i = 0; i < count; i++) {
        factor = fmax(factor + points[i].x, 0.0);
        total += points[i].rank *= factor;
    }
    *rest *= beyond;
    total += *rest;
    *rest /= total;
    for (int i = 0; i < count; i++) {
        sum += points[i].rank /= total;
        change = fmax(change, fabs(sum - points[i].fraction));
    }
    add_shares(points, count);
    return change;
}

int spt_turnbull_points(const struct spt_weibull_data *data, struct spt_rank_point *points,
                        int total)
{
    int cells = fill_cells(data, points), count = 0;
    double rest = 1.0 / (cells + 1);
    fill_rows(data, points, cells);
    for (int i = 0; i < cells; i++)
        points[i].rank = rest;
    add_shares(points, cells);
    for (int i = 0; i < ROUNDS && go_round(data, points, cells, &rest) > at_rest; i++)
        continue;
    for (int i = 0; i < cells; i++) {
        double rank = total * fmin(points[i].fraction, 1.0), mean = rank / (total + 1.0);
        if (points[i].rank > smallest_share)
            points[count++] = (struct spt_rank_point){
                points[i].time, rank, mean, log(points[i].time), log(-log1p(-mean)), 1.0};
    }
    return count;
}
