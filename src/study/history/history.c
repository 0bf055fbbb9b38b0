/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/history.h"

#include <math.h>
#include <string.h>

#include "spalltime/assess.h"
#include "study/history/history_sum.h"

/* Cells kept for each bin that may be asked for, so that a bin and half a bin are sums of several
 * cells: the first number, or the second where the first needs more than USUAL_CELLS. */
static const int cells_for_a_bin[] = {8, 4};
#define USUAL_CELLS ((size_t)1 << 17)
#define MOST_CELLS ((size_t)1 << 18)
#define FINEST_OF_LARGEST 40 /* a cell is at least 2^-40 of the largest value: exact numbers */
#define FINEST_LEVEL (-60)

static bool is_used(const struct spt_history_terms *terms, int axis)
{
    switch (axis) {
    case SPT_HISTORY_SIDE:
        return terms->kind == SPT_HISTORY_WHEEL || terms->kind == SPT_HISTORY_ALONE;
    case SPT_HISTORY_TEMPERATURE:
        return terms->has_temperature;
    default:
        return true;
    }
}

static size_t count_cells(const struct spt_history_terms *terms, int for_a_bin)
{
    size_t cells = 1;
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        if (is_used(terms, i))
            cells *= (size_t)(for_a_bin * terms->bins[i]);
    return cells;
}

static int choose_cells(const struct spt_history_terms *terms)
{
    return count_cells(terms, cells_for_a_bin[0]) <= USUAL_CELLS ? cells_for_a_bin[0]
                                                                 : cells_for_a_bin[1];
}

static bool are_valid(const struct spt_history_terms *terms)
{
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        if (terms->bins[i] < 1 || terms->bins[i] > SPT_HISTORY_BINS_MAX)
            return false;
    if (terms->kind == SPT_HISTORY_PARTS && !terms->bearing)
        return false;
    if (terms->kind == SPT_HISTORY_WHEEL && !(terms->handbook && terms->rolling_radius_mm > 0))
        return false;
    return terms->exponent > 0 && isfinite(terms->exponent) && terms->standing_rpm >= 0 &&
           isfinite(terms->standing_rpm);
}

size_t spt_history_size(const struct spt_history_terms *terms)
{
    if (!are_valid(terms))
        return 0;
    size_t cells = count_cells(terms, choose_cells(terms));
    return cells <= MOST_CELLS ? 2 * cells * sizeof(struct spt_history_sums) : 0;
}

enum spt_status spt_history_begin(const struct spt_history_terms *terms, void *memory, size_t size,
                                  struct spt_history *history)
{
    size_t needed = spt_history_size(terms);
    memset(history, 0, sizeof *history);
    if (!needed || !memory)
        return SPT_BAD_ARGUMENT;
    if (size < needed)
        return SPT_TOO_SMALL;
    history->terms = *terms;
    history->rows = terms->kind == SPT_HISTORY_WHEEL ? 2 : 1;
    history->cell_count = count_cells(terms, choose_cells(terms));
    history->cells = memory;
    history->spare = history->cells + history->cell_count;
    memset(history->cells, 0, history->cell_count * sizeof *history->cells);
    for (int i = 0; i < SPT_HISTORY_AXES; i++) {
        history->grids[i].used = is_used(terms, i);
        history->grids[i].cells = is_used(terms, i) ? choose_cells(terms) * terms->bins[i] : 1;
        history->grids[i].level = FINEST_LEVEL;
        history->grids[i].scale = ldexp(1, -FINEST_LEVEL);
    }
    history->stillest_n = history->hardest_n = -1;
    return SPT_OK;
}

enum spt_status spt_history_equivalent(const struct spt_history_terms *terms, double load_n,
                                       double side_n, double equivalent_n[SPT_HISTORY_ROWS])
{
    equivalent_n[1] = 0;
    equivalent_n[0] = load_n;
    if (terms->kind == SPT_HISTORY_WHOLE || terms->kind == SPT_HISTORY_ALONE)
        return SPT_OK;
    if (terms->kind == SPT_HISTORY_PARTS) {
        struct spt_equivalent_load load;
        enum spt_status status = spt_load_equivalent(terms->bearing, load_n, side_n, &load, NULL);
        equivalent_n[0] = load.load_n;
        return status;
    }
    const struct spt_hub_wheel wheel = {
        .radial_n = load_n, .side_n = side_n, .rolling_radius_mm = terms->rolling_radius_mm};
    const struct spt_hub_load load = spt_hub_wheel_load(&wheel);
    struct spt_hub_handbook_result rows;
    enum spt_status status = spt_hub_handbook_reactions(terms->handbook, &load, &rows);
    equivalent_n[0] = rows.equivalent_n[0];
    equivalent_n[1] = rows.equivalent_n[1];
    return status;
}

/* ---- the grid: cell widths are powers of two, so the order of samples does not matter ---------
 */

/* The smallest level (log2 of the cell width) at which the range of values seen fits the cells, but
 * no lower than the present one. */
static int find_level(const struct spt_history_grid *grid)
{
    double largest = fmax(fabs(grid->least), fabs(grid->most));
    int level = largest > 0 ? ilogb(largest) - FINEST_OF_LARGEST : FINEST_LEVEL;
    level = level > FINEST_LEVEL ? level : FINEST_LEVEL;
    level = level > grid->level ? level : grid->level;
    while (floor(ldexp(grid->most, -level)) - floor(ldexp(grid->least, -level)) >= grid->cells)
        level++;
    return level;
}

/* Index of a cell in the arrays of its axis: its number modulo the number of cells, which is unique
 * within the range. */
static int wrap(double number, int cells)
{
    double rest = fmod(number, cells);
    return (int)(rest < 0 ? rest + cells : rest);
}

/* The number of the cell at a place, where the range of numbers begins at `first`. */
static double unwrap(int place, double first, int cells)
{
    int gone = place - wrap(first, cells);
    return first + (gone < 0 ? gone + cells : gone);
}

void spt_history_sums_add(struct spt_history_sums *to, const struct spt_history_sums *from)
{
    to->samples += from->samples;
    spt_history_sum_join(&to->time_h, &from->time_h);
    spt_history_sum_join(&to->revolutions, &from->revolutions);
    spt_history_sum_join(&to->temperature, &from->temperature);
    spt_history_sum_join(&to->load, &from->load);
    spt_history_sum_join(&to->side, &from->side);
    for (int row = 0; row < SPT_HISTORY_ROWS; row++)
        spt_history_sum_join(&to->damage[row], &from->damage[row]);
}

/* Moves every cell from its place in the grids `before` to that in the present grids. */
static void move_cells(struct spt_history *history, const struct spt_history_grid *before)
{
    memset(history->spare, 0, history->cell_count * sizeof *history->spare);
    for (size_t i = 0; i < history->cell_count; i++) {
        if (!history->cells[i].samples)
            continue;
        size_t rest = i, place = 0, stride = 1;
        for (int axis = 0; axis < SPT_HISTORY_AXES; axis++) {
            const struct spt_history_grid *old = &before[axis], *now = &history->grids[axis];
            double number = unwrap((int)(rest % (size_t)old->cells), floor(old->least * old->scale),
                                   old->cells);
            number = floor(ldexp(number, old->level - now->level));
            rest /= (size_t)old->cells;
            place += stride * (size_t)(now->used ? wrap(number, now->cells) : 0);
            stride *= (size_t)now->cells;
        }
        spt_history_sums_add(&history->spare[place], &history->cells[i]);
    }
    struct spt_history_sums *cells = history->spare;
    history->spare = history->cells;
    history->cells = cells;
}

/* Widens the grids to hold the values of a sample. */
static void widen(struct spt_history *history, const double *values)
{
    struct spt_history_grid before[SPT_HISTORY_AXES];
    bool coarser = false;
    memcpy(before, history->grids, sizeof before);
    for (int i = 0; i < SPT_HISTORY_AXES; i++) {
        struct spt_history_grid *grid = &history->grids[i];
        if (!grid->used || (grid->any && values[i] >= grid->least && values[i] <= grid->most))
            continue;
        grid->least = grid->any ? fmin(grid->least, values[i]) : values[i];
        grid->most = grid->any ? fmax(grid->most, values[i]) : values[i];
        grid->any = true;
        int level = find_level(grid);
        coarser = coarser || level > grid->level;
        grid->level = level;
        grid->scale = ldexp(1, -level);
    }
    if (coarser && history->total.samples)
        move_cells(history, before);
}

static struct spt_history_sums *find_cell(struct spt_history *history, const double *values)
{
    size_t place = 0, stride = 1;
    for (int i = 0; i < SPT_HISTORY_AXES; i++) {
        const struct spt_history_grid *grid = &history->grids[i];
        if (grid->used)
            place += stride * (size_t)wrap(floor(values[i] * grid->scale), grid->cells);
        stride *= (size_t)grid->cells;
    }
    return &history->cells[place];
}

/* ---- samples ------------------------------------------------------------------------------------
 */

static bool is_sound(const struct spt_history *history, const struct spt_history_sample *sample)
{
    bool warm = !history->terms.has_temperature ||
                (sample->temperature_c >= -273.15 && sample->temperature_c <= 1000);
    return sample->duration_h >= SPT_HISTORY_HOURS_MIN &&
           sample->duration_h <= SPT_HISTORY_HOURS_MAX && warm && fabs(sample->speed_rpm) <= 1e6 &&
           fabs(sample->load_n) <= SPT_HISTORY_LOAD_MAX_N &&
           fabs(sample->side_n) <= SPT_HISTORY_LOAD_MAX_N;
}

/* Whether a sample is harder than the hardest so far: it has the larger equivalent load; of equal
 * ones the larger load, then the larger side force counts, so that the order of samples does not
 * matter. */
static bool is_harder(double load_n, const struct spt_history_sample *sample, double hardest_n,
                      const struct spt_history_sample *hardest)
{
    if (load_n != hardest_n)
        return load_n > hardest_n;
    if (sample->load_n != hardest->load_n)
        return sample->load_n > hardest->load_n;
    return sample->side_n > hardest->side_n;
}

static void stand(struct spt_history *history, const struct spt_history_sample *sample,
                  double load_n)
{
    history->standing_samples++;
    spt_history_sum_add(&history->standing_h, sample->duration_h);
    spt_history_sum_add(&history->standing_revolutions,
                        sample->duration_h * 60 * sample->speed_rpm);
    if (history->terms.has_temperature)
        spt_history_sum_add(&history->standing_temperature,
                            sample->duration_h * sample->temperature_c);
    if (is_harder(load_n, sample, history->stillest_n, &history->stillest)) {
        history->stillest = *sample;
        history->stillest_n = load_n;
    }
}

static void turn(struct spt_history *history, const struct spt_history_sample *sample,
                 const double *equivalent_n)
{
    const struct spt_history_terms *terms = &history->terms;
    double revolutions = sample->duration_h * 60 * sample->speed_rpm;
    const double values[SPT_HISTORY_AXES] = {
        terms->kind == SPT_HISTORY_PARTS ? equivalent_n[0] : sample->load_n, sample->side_n,
        sample->speed_rpm, sample->temperature_c};
    struct spt_history_sums sums = {.samples = 1};
    sums.time_h.value = sample->duration_h;
    sums.revolutions.value = revolutions;
    sums.temperature.value = terms->has_temperature ? revolutions * sample->temperature_c : 0;
    sums.load.value = revolutions * pow(sample->load_n, terms->exponent);
    if (sample->side_n != 0)
        sums.side.value = revolutions * pow(fabs(sample->side_n), terms->exponent);
    for (int row = 0; row < history->rows; row++)
        sums.damage[row].value = equivalent_n[row] == sample->load_n
                                     ? sums.load.value
                                     : revolutions * pow(equivalent_n[row], terms->exponent);
    widen(history, values);
    spt_history_sums_add(find_cell(history, values), &sums);
    spt_history_sums_add(&history->total, &sums);
}

enum spt_status spt_history_add(struct spt_history *history,
                                const struct spt_history_sample *sample)
{
    struct spt_history_sample used = *sample;
    double equivalent_n[SPT_HISTORY_ROWS];
    if (!is_sound(history, sample))
        return SPT_BAD_ARGUMENT;
    used.speed_rpm = fabs(sample->speed_rpm);
    used.load_n = fabs(sample->load_n);
    if (history->terms.kind != SPT_HISTORY_WHEEL && !history->terms.signed_side)
        used.side_n = fabs(sample->side_n);
    enum spt_status status =
        spt_history_equivalent(&history->terms, used.load_n, used.side_n, equivalent_n);
    if (status)
        return status;
    history->reversed_speeds += sample->speed_rpm < 0;
    history->reversed_loads += sample->load_n < 0;
    history->reversed_sides += used.side_n != sample->side_n;
    history->reversed_samples +=
        sample->speed_rpm < 0 || sample->load_n < 0 || used.side_n != sample->side_n;
    double load_n = fmax(equivalent_n[0], equivalent_n[1]);
    if (is_harder(load_n, &used, history->hardest_n, &history->hardest)) {
        history->hardest = used;
        history->hardest_n = load_n;
    }
    if (used.speed_rpm >= SPT_HISTORY_STILL_RPM && used.speed_rpm > history->terms.standing_rpm)
        turn(history, &used, equivalent_n);
    else
        stand(history, &used, load_n);
    return SPT_OK;
}
