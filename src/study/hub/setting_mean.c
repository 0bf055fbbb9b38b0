/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/hub/setting_mean.h"

#include <math.h>

#include "model/numeric.h"

/* The mean life is searched on a polynomial through ln L at evenly spaced settings, most of which
 * the curve has already. It misses the maximum by some 1e-5 mm: ln L has a fine structure, as
 * laminae come to bear one by one. So the end of the search is on solved means, each of which takes
 * SPT_SETTING_NODES settings. */

#define SPACING_MM 0.005 /* of the settings, at most, or */
#define SPACINGS 8       /* that many in a standard deviation */
#define PLACES_MAX 192
#define STENCIL 6       /* nodes of a polynomial */
#define APART_MM 5e-7   /* from the setting whose slope two means give */
#define SETTLED_MM 3e-7 /* change of the search that its last step may make */
#define TRIES 16

/* ln L at first_mm + i step_mm. */
struct grid {
    struct spt_setting_mean *mean;
    double first_mm, step_mm;
    int count;
    bool failed;
    bool known[PLACES_MAX];
    double logarithms[PLACES_MAX];
};

/* Mean over the nodes of a normal distribution. Every other time it begins at the upper end, near
 * the settings that were solved last. */
static double integrate(struct spt_setting_mean *mean, double setting_mm,
                        double (*find)(double, void *), void *context)
{
    double sum = 0, weights = 0, way = mean->downwards ? -0.5 : 0.5;
    mean->downwards = !mean->downwards;
    for (int i = 0; i < SPT_SETTING_NODES; i++) {
        double t = way * (i - SPT_SETTING_NODES / 2);
        double weight = exp(-0.5 * t * t);
        sum += weight * find(setting_mm + t * mean->inputs->scatter_mm, context);
        weights += weight;
    }
    return sum / weights;
}

static double find_life(double setting_mm, void *context)
{
    struct spt_setting_mean *mean = context;
    struct spt_setting_point point;
    if (mean->status != SPT_OK)
        return (double)NAN;
    mean->status = spt_setting_store_find(mean->store, setting_mm, &point);
    if (mean->status != SPT_OK)
        mean->failed_mm = setting_mm;
    return point.life_mrev;
}

double spt_setting_mean(struct spt_setting_mean *mean, double setting_mm)
{
    return mean->inputs->scatter_mm == 0 ? find_life(setting_mm, mean)
                                         : integrate(mean, setting_mm, find_life, mean);
}

/* Objective function -ln L; 0 after a failure, which ends the search. */
static double rate_solved(double setting_mm, void *mean)
{
    double life = spt_setting_mean(mean, setting_mm);
    return isfinite(life) && life > 0 ? -log(life) : 0.0;
}

/* Places for settings from lowest to highest. Their spacing divides that of the curve, or is a
 * multiple of it, so that they share settings; false where there are too many. */
static bool lay_grid(struct spt_setting_mean *mean, double lowest_mm, double highest_mm,
                     struct grid *grid)
{
    const struct spt_setting_inputs *q = mean->inputs;
    double most_mm = fmax(SPACING_MM, q->scatter_mm / SPACINGS);
    double curve_mm = (q->highest_mm - q->lowest_mm) / (SPT_HUB_CURVE_POINTS - 1);
    double step_mm = curve_mm > most_mm ? curve_mm / ceil(curve_mm / most_mm - 1e-9)
                                        : curve_mm * floor(most_mm / curve_mm + 1e-9);
    double first = floor((lowest_mm - q->lowest_mm) / step_mm) - STENCIL / 2;
    double last = ceil((highest_mm - q->lowest_mm) / step_mm) + STENCIL / 2;
    grid->mean = mean;
    grid->first_mm = q->lowest_mm + first * step_mm;
    grid->step_mm = step_mm;
    grid->failed = false;
    if (!(last - first < PLACES_MAX))
        return false;
    grid->count = (int)(last - first) + 1;
    for (int i = 0; i < grid->count; i++)
        grid->known[i] = false;
    return true;
}

static double read_place(struct grid *grid, int i)
{
    struct spt_setting_point point;
    if (grid->known[i])
        return grid->logarithms[i];
    enum spt_status status =
        spt_setting_store_find(grid->mean->store, grid->first_mm + i * grid->step_mm, &point);
    grid->failed =
        grid->failed || status != SPT_OK || !(point.life_mrev > 0) || isinf(point.life_mrev);
    grid->known[i] = true;
    grid->logarithms[i] = grid->failed ? 0 : log(point.life_mrev);
    return grid->logarithms[i];
}

/* Life from the polynomial through the nearest places. */
static double interpolate(double setting_mm, void *context)
{
    struct grid *grid = context;
    double place = (setting_mm - grid->first_mm) / grid->step_mm, sum = 0;
    int first = (int)floor(place) - STENCIL / 2 + 1;
    first = first < 0 ? 0 : first > grid->count - STENCIL ? grid->count - STENCIL : first;
    for (int i = 0; i < STENCIL; i++) {
        double weight = 1;
        for (int j = 0; j < STENCIL; j++)
            if (j != i)
                weight *= (place - (first + j)) / (i - j);
        sum += weight * read_place(grid, first + i);
    }
    return exp(sum);
}

static double rate_grid(double setting_mm, void *context)
{
    struct grid *grid = context;
    return -log(integrate(grid->mean, setting_mm, interpolate, grid));
}

/* Scatter moves the maximum: a bracket in steps of a standard deviation, then Brent. */
static double search(double best_mm, double deviation, double (*rate)(double, void *),
                     void *context)
{
    gsl_function function = {rate, context};
    double middle_mm = best_mm, least = HUGE_VAL, found_mm;
    for (int i = -2; i <= 4; i++) {
        double rating = rate(best_mm + i * deviation, context);
        if (rating < least) {
            least = rating;
            middle_mm = best_mm + i * deviation;
        }
    }
    return spt_numeric_minimum(&function, middle_mm - deviation, middle_mm, middle_mm + deviation,
                               &found_mm) == SPT_OK
               ? found_mm
               : (double)NAN;
}

static double find_slope(double setting_mm, void *mean)
{
    return (find_life(setting_mm + APART_MM, mean) - find_life(setting_mm - APART_MM, mean)) /
           (2 * APART_MM);
}

static double find_curvature(struct grid *grid, double setting_mm)
{
    double h = grid->step_mm / 2, sum = -2 * integrate(grid->mean, setting_mm, interpolate, grid);
    for (int side = -1; side <= 1; side += 2)
        sum += integrate(grid->mean, setting_mm + side * h, interpolate, grid);
    return sum / (h * h);
}

/* Secant method on the slope of the mean life, from the maximum of the polynomial and its
 * curvature; the slope has kinks, so that a step beyond a setting with the other sign is one to
 * that setting's chord instead. False where that does not settle. */
static bool finish(struct grid *grid, double *aim_mm)
{
    double curvature = find_curvature(grid, *aim_mm), change_mm = 0, last = 0;
    double ends_mm[2] = {-HUGE_VAL, HUGE_VAL}, slopes[2] = {0, 0}; /* rising and falling life */
    for (int i = 0; i < TRIES && grid->mean->status == SPT_OK; i++) {
        double slope = integrate(grid->mean, *aim_mm, find_slope, grid->mean), next_mm;
        if (i > 0)
            curvature = (slope - last) / change_mm;
        if (!(curvature < 0))
            return false;
        ends_mm[slope < 0] = *aim_mm;
        slopes[slope < 0] = slope;
        next_mm = *aim_mm - slope / curvature;
        if (!(next_mm > ends_mm[0] && next_mm < ends_mm[1]))
            next_mm = (ends_mm[0] * slopes[1] - ends_mm[1] * slopes[0]) / (slopes[1] - slopes[0]);
        change_mm = next_mm - *aim_mm;
        if (!(fabs(change_mm) < grid->step_mm))
            return false;
        last = slope;
        *aim_mm = next_mm;
        if (fabs(change_mm) <= SETTLED_MM)
            return true;
    }
    return false;
}

double spt_setting_mean_best(struct spt_setting_mean *mean, double best_mm, double least_mm)
{
    double deviation = mean->inputs->scatter_mm;
    struct grid grid;
    if (deviation == 0)
        return best_mm;
    /* three and five standard deviations of the search, and four of the nodes */
    if (lay_grid(mean, best_mm - 7 * deviation, best_mm + 9 * deviation, &grid)) {
        double aim_mm = search(best_mm, deviation, rate_grid, &grid);
        if (!grid.failed && aim_mm < least_mm - deviation)
            return aim_mm;
        if (!grid.failed && !isnan(aim_mm) && finish(&grid, &aim_mm))
            return aim_mm;
    }
    double aim_mm = search(best_mm, deviation, rate_solved, mean);
    return mean->status == SPT_OK ? aim_mm : (double)NAN;
}
