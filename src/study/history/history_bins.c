/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "spalltime/assess.h"
#include "spalltime/history.h"
#include "spalltime/life.h"
#include "study/history/history_sum.h"

#define SCALE_STEPS 200
#define PAIR_STEPS 40
#define PAIR_FIT 1e-13  /* relative tolerance of the equivalent loads of the rows */
#define PAIR_STRAY 0.2  /* the factors found lie within this of 1 */
#define DIFFERENCE 1e-6 /* step of the factors, for numerical derivatives */

/* Bins of an axis over the range that was seen. */
struct span {
    double low, width;
    int bins;
};

static struct span find_span(const struct spt_history_grid *grid, int bins)
{
    struct span span = {grid->least, grid->most - grid->least, bins};
    if (!grid->used || !grid->any || !(span.width > 0))
        return (struct span){grid->least, 0, 1};
    if (grid->least < 0 && grid->most > 0) {
        double reach = fmax(-grid->least, grid->most);
        span = (struct span){-reach, 2 * reach, bins + bins % 2};
    }
    span.width /= span.bins;
    return span;
}

int spt_history_bins_used(const struct spt_history *history, enum spt_history_axis axis, int bins)
{
    return find_span(&history->grids[axis], bins).bins;
}

void spt_history_edges(const struct spt_history *history, enum spt_history_axis axis, int bins,
                       int number, double *low, double *high)
{
    struct span span = find_span(&history->grids[axis], bins);
    *low = span.low + number * span.width;
    *high = span.low + (number + 1) * span.width;
}

/* The bin of a cell: the one in which its middle lies. Where zero separates two bins it separates
 * two cells too. */
static int find_bin(const struct spt_history_grid *grid, const struct span *span, int place)
{
    if (span->bins == 1)
        return 0;
    double first = floor(grid->least * grid->scale);
    double rest = fmod(first, grid->cells);
    int gone = place - (int)(rest < 0 ? rest + grid->cells : rest);
    double number = first + (gone < 0 ? gone + grid->cells : gone);
    double middle = (number + 0.5) / grid->scale;
    double bin = floor((middle - span->low) / span->width);
    return (int)fmin(fmax(bin, 0), span->bins - 1);
}

/* Lexicographic order of bin numbers, the first axis first: -1, 0 or 1. */
static int compare_places(const int *a, const int *b)
{
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        if (a[i] != b[i])
            return a[i] < b[i] ? -1 : 1;
    return 0;
}

/* The bin with these numbers in the sorted list, inserted where it is missing; NULL where the list
 * is full. */
static struct spt_history_bin *find_or_make(struct spt_history_bin *list, int most, int *count,
                                            const int *at)
{
    int low = 0, high = *count;
    while (low < high) {
        int middle = (low + high) / 2;
        int order = compare_places(list[middle].at, at);
        if (!order)
            return &list[middle];
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    if (*count >= most)
        return NULL;
    memmove(&list[low + 1], &list[low], (size_t)(*count - low) * sizeof *list);
    memset(&list[low], 0, sizeof *list);
    memcpy(list[low].at, at, sizeof list[low].at);
    ++*count;
    return &list[low];
}

static enum spt_status gather(const struct spt_history *history, const int *bins,
                              struct spt_history_bin *list, int most, int *count)
{
    struct span spans[SPT_HISTORY_AXES];
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        spans[i] = find_span(&history->grids[i], bins[i]);
    for (size_t c = 0; c < history->cell_count; c++) {
        if (!history->cells[c].samples)
            continue;
        int at[SPT_HISTORY_AXES];
        size_t rest = c;
        for (int i = 0; i < SPT_HISTORY_AXES; i++) {
            const struct spt_history_grid *grid = &history->grids[i];
            at[i] = find_bin(grid, &spans[i], (int)(rest % (size_t)grid->cells));
            rest /= (size_t)grid->cells;
        }
        struct spt_history_bin *bin = find_or_make(list, most, count, at);
        if (!bin)
            return SPT_TOO_SMALL;
        spt_history_sums_add(&bin->sums, &history->cells[c]);
    }
    return SPT_OK;
}

/* ---- loads that make the equivalent loads -------------------------------------------------------
 */

static double power_mean(const struct spt_history_sum *sum, double revolutions, double exponent)
{
    double mean = spt_history_sum_of(sum) / revolutions;
    return mean > 0 ? pow(mean, 1 / exponent) : 0;
}

static double sum_powers(const double *loads_n, double exponent)
{
    double sum = 0;
    for (int row = 0; row < SPT_HISTORY_ROWS; row++)
        sum += pow(loads_n[row], exponent);
    return sum;
}

/* Scales both loads by one factor, until the damage of both rows together is that of the bin. */
static enum spt_status scale_loads(const struct spt_history_terms *terms,
                                   struct spt_history_bin *bin)
{
    double wanted = sum_powers(bin->equivalent_n, terms->exponent);
    for (int i = 0; i < SCALE_STEPS; i++) {
        double made[SPT_HISTORY_ROWS];
        enum spt_status status = spt_history_equivalent(terms, bin->load_n, bin->side_n, made);
        double sum = sum_powers(made, terms->exponent);
        if (status || !(wanted > 0) || !(sum > 0) || sum == wanted)
            return status;
        double factor = pow(wanted / sum, 1 / terms->exponent);
        if (factor == 1)
            break;
        bin->load_n *= factor;
        bin->side_n *= factor;
    }
    return SPT_OK;
}

static enum spt_status find_means(const struct spt_history *history, const struct span *side,
                                  struct spt_history_bin *bin)
{
    const struct spt_history_terms *terms = &history->terms;
    double revolutions = spt_history_sum_of(&bin->sums.revolutions);
    bin->time_h = spt_history_sum_of(&bin->sums.time_h);
    bin->speed_rpm = revolutions / 60 / bin->time_h;
    bin->temperature_c = terms->has_temperature
                             ? spt_history_sum_of(&bin->sums.temperature) / revolutions
                             : (double)NAN;
    bin->load_n = power_mean(&bin->sums.load, revolutions, terms->exponent);
    bin->side_n = power_mean(&bin->sums.side, revolutions, terms->exponent);
    if (side->low + (bin->at[SPT_HISTORY_SIDE] + 0.5) * side->width < 0)
        bin->side_n = -bin->side_n;
    for (int row = 0; row < history->rows; row++)
        bin->equivalent_n[row] = power_mean(&bin->sums.damage[row], revolutions, terms->exponent);
    if (terms->kind == SPT_HISTORY_WHOLE || terms->kind == SPT_HISTORY_ALONE)
        return SPT_OK;
    return scale_loads(terms, bin);
}

/* Ratio of the mean equivalent load of each row to that of the samples, with the loads of all bins
 * times the two factors; false where a row carries nothing. */
static bool compare_rows(const struct spt_history *history, const struct spt_history_bin *list,
                         int count, const double *factors, double *ratios)
{
    double sums[SPT_HISTORY_ROWS] = {0};
    for (int i = 0; i < count; i++) {
        double made[SPT_HISTORY_ROWS];
        double revolutions = spt_history_sum_of(&list[i].sums.revolutions);
        if (spt_history_equivalent(&history->terms, factors[0] * list[i].load_n,
                                   factors[1] * list[i].side_n, made))
            return false;
        for (int row = 0; row < SPT_HISTORY_ROWS; row++)
            sums[row] += revolutions * pow(made[row], history->terms.exponent);
    }
    for (int row = 0; row < SPT_HISTORY_ROWS; row++) {
        double wanted = spt_history_sum_of(&history->total.damage[row]);
        if (!(wanted > 0 && sums[row] > 0))
            return false;
        ratios[row] = pow(sums[row] / wanted, 1 / history->terms.exponent);
    }
    return true;
}

static bool is_close(const double *factors)
{
    return fabs(factors[0] - 1) <= PAIR_STRAY && fabs(factors[1] - 1) <= PAIR_STRAY;
}

static void scale_bins(const struct spt_history *history, struct spt_history_bin *bin,
                       double load_factor, double side_factor)
{
    bin->load_n *= load_factor;
    bin->side_n *= side_factor;
    spt_history_equivalent(&history->terms, bin->load_n, bin->side_n, bin->equivalent_n);
}

/* One factor for the bins in which the first row carries more and one for the others, on both
 * loads: the equivalent loads grow by the same factor, so the damage is linear in its power. */
static bool fit_sides(const struct spt_history *history, struct spt_history_bin *list, int count)
{
    double sums[2][2] = {{0}}, factors[2], p = history->terms.exponent;
    for (int i = 0; i < count; i++) {
        double made[SPT_HISTORY_ROWS];
        double revolutions = spt_history_sum_of(&list[i].sums.revolutions);
        if (spt_history_equivalent(&history->terms, list[i].load_n, list[i].side_n, made))
            return false;
        for (int row = 0; row < 2; row++)
            sums[row][made[1] > made[0]] += revolutions * pow(made[row], p);
    }
    double first = spt_history_sum_of(&history->total.damage[0]);
    double second = spt_history_sum_of(&history->total.damage[1]);
    double determinant = sums[0][0] * sums[1][1] - sums[0][1] * sums[1][0];
    if (determinant == 0)
        return false;
    factors[0] = pow((first * sums[1][1] - second * sums[0][1]) / determinant, 1 / p);
    factors[1] = pow((second * sums[0][0] - first * sums[1][0]) / determinant, 1 / p);
    if (!is_close(factors))
        return false;
    for (int i = 0; i < count; i++) {
        double made[SPT_HISTORY_ROWS];
        spt_history_equivalent(&history->terms, list[i].load_n, list[i].side_n, made);
        double factor = factors[made[1] > made[0]];
        scale_bins(history, &list[i], factor, factor);
    }
    return true;
}

/* One factor on all wheel loads and one on all side forces (Newton), for side forces of one sign.
 */
static bool fit_forces(const struct spt_history *history, struct spt_history_bin *list, int count)
{
    double factors[2] = {1, 1};
    for (int step = 0; step < PAIR_STEPS && is_close(factors); step++) {
        double at[2], by_load[2], by_side[2];
        const double more_load[2] = {factors[0] + DIFFERENCE, factors[1]};
        const double more_side[2] = {factors[0], factors[1] + DIFFERENCE};
        if (!compare_rows(history, list, count, factors, at) ||
            !compare_rows(history, list, count, more_load, by_load) ||
            !compare_rows(history, list, count, more_side, by_side))
            return false;
        if (fabs(at[0] - 1) + fabs(at[1] - 1) <= PAIR_FIT) {
            for (int i = 0; i < count; i++)
                scale_bins(history, &list[i], factors[0], factors[1]);
            return true;
        }
        double a = (by_load[0] - at[0]) / DIFFERENCE, b = (by_side[0] - at[0]) / DIFFERENCE;
        double c = (by_load[1] - at[1]) / DIFFERENCE, d = (by_side[1] - at[1]) / DIFFERENCE;
        double determinant = a * d - b * c;
        factors[0] += (d * (1 - at[0]) - b * (1 - at[1])) / determinant;
        factors[1] += (a * (1 - at[1]) - c * (1 - at[0])) / determinant;
    }
    return false;
}

/* A bin of two rows can have the damage of both together, but seldom of each: the rows share a load
 * by straight pieces that meet at an angle. Two factors close to 1 give each row the damage of its
 * samples over the whole duty. Where there are none the bins stay as they are, and the life of
 * the bins shows the error. */
static void fit_rows(const struct spt_history *history, struct spt_history_bin *list, int count)
{
    if (!fit_sides(history, list, count))
        fit_forces(history, list, count);
}

static enum spt_status add_standing(const struct spt_history *history, struct spt_history_bin *bin)
{
    const struct spt_history_sample *stillest = &history->stillest;
    *bin = (struct spt_history_bin){.standing = true};
    bin->sums.samples = history->standing_samples;
    bin->time_h = spt_history_sum_of(&history->standing_h);
    bin->temperature_c = history->terms.has_temperature
                             ? spt_history_sum_of(&history->standing_temperature) / bin->time_h
                             : (double)NAN;
    bin->load_n = stillest->load_n;
    bin->side_n = stillest->side_n;
    return spt_history_equivalent(&history->terms, bin->load_n, bin->side_n, bin->equivalent_n);
}

enum spt_status spt_history_bins(const struct spt_history *history,
                                 const int bins[SPT_HISTORY_AXES], struct spt_history_bin *list,
                                 int most, int *count)
{
    struct span side = find_span(&history->grids[SPT_HISTORY_SIDE], bins[SPT_HISTORY_SIDE]);
    *count = 0;
    if (most > 0 && !list)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        if (bins[i] < 1 || bins[i] > 2 * history->terms.bins[i])
            return SPT_BAD_ARGUMENT;
    enum spt_status status = gather(history, bins, list, most, count);
    for (int i = 0; !status && i < *count; i++)
        status = find_means(history, &side, &list[i]);
    if (!status && history->rows > 1)
        fit_rows(history, list, *count);
    if (status || !history->standing_samples)
        return status;
    if (*count >= most)
        return SPT_TOO_SMALL;
    return add_standing(history, &list[(*count)++]);
}
