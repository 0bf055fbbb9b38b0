/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The grid of chain_numpy.py: its lives, and its rows as CSV. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "bench/bench.h"
#include "format/number/number.h"

#define SPEEDS 10
#define TEMPERATURES 10
#define CONDITIONS 5
#define WATERS 10
#define LOADS 200
_Static_assert(GRID == SPEEDS * TEMPERATURES * CONDITIONS * WATERS * LOADS, "axes of the grid");
#define MANY_TEMPERATURES (TEMPERATURES * WATERS) /* of the grid without a water axis */

static double axis_speed[SPEEDS], axis_temperature[MANY_TEMPERATURES], axis_condition[CONDITIONS],
    axis_water[WATERS], axis_load[LOADS];

static struct spt_batch_grid make_grid(void)
{
    for (int i = 0; i < SPEEDS; i++)
        axis_speed[i] = 50.0 * pow(1.3, i);
    for (int i = 0; i < MANY_TEMPERATURES; i++)
        axis_temperature[i] = 30.0 + 8.0 * (i % TEMPERATURES) + 0.75 * (i / TEMPERATURES);
    for (int i = 0; i < CONDITIONS; i++)
        axis_condition[i] = 9.0 + i;
    for (int i = 0; i < WATERS; i++)
        axis_water[i] = 50.0 * pow(1.5, i);
    for (int i = 0; i < LOADS; i++)
        axis_load[i] = 5000.0 * pow(1.015, i);
    struct spt_batch_grid grid = {.batch = make_batch(0), .count = 5};
    grid.axes[0] = (struct spt_batch_axis){SPT_BATCH_SPEED_RPM, axis_speed, SPEEDS};
    grid.axes[1] = (struct spt_batch_axis){SPT_BATCH_TEMPERATURE_C, axis_temperature, TEMPERATURES};
    grid.axes[2] = (struct spt_batch_axis){SPT_BATCH_CONDITION, axis_condition, CONDITIONS};
    grid.axes[3] = (struct spt_batch_axis){SPT_BATCH_WATER_PPM, axis_water, WATERS};
    grid.axes[4] = (struct spt_batch_axis){SPT_BATCH_EQUIVALENT_LOAD_N, axis_load, LOADS};
    return grid;
}

double time_grid(void)
{
    struct spt_batch_grid grid = make_grid();
    struct spt_batch_results results = {.modified_rating_life_h = grid_life};
    double start = now();
    spt_batch_grid_rows(&grid, 0, GRID / LOADS, &results);
    return (now() - start) / GRID * 1e9;
}

/* Without the water axis no value can be reused: one power of a_ISO for each point. */
double time_dry_grid(void)
{
    struct spt_batch_grid grid = make_grid();
    struct spt_batch_results results = {.modified_rating_life_h = grid_life};
    grid.count = 4;
    grid.axes[3] = grid.axes[4];
    grid.axes[1].count = MANY_TEMPERATURES;
    double start = now();
    spt_batch_grid_rows(&grid, 0, GRID / LOADS, &results);
    return (now() - start) / GRID * 1e9;
}

/* A value, then a comma: text worked out once for each value of an axis. */
#define CELL 16 /* no number with its comma is longer */
struct cell {
    char text[SPT_NUMBER_SIZE + 1];
    size_t length;
};

static struct cell make_cell(double value)
{
    struct cell cell;
    char *end = spt_number_write(cell.text, value);
    *end++ = ',';
    cell.length = (size_t)(end - cell.text);
    return cell;
}

static char *put_cell(char *to, const struct cell *cell)
{
    memcpy(to, cell->text, CELL);
    return to + cell->length;
}

/* Values of the four outer axes of row r, as text. */
static size_t write_outer(char *to, int r)
{
    struct cell cells[] = {make_cell(axis_speed[r / (WATERS * CONDITIONS * TEMPERATURES)]),
                           make_cell(axis_temperature[r / (WATERS * CONDITIONS) % TEMPERATURES]),
                           make_cell(axis_condition[r / WATERS % CONDITIONS]),
                           make_cell(axis_water[r % WATERS])};
    char *at = to;
    for (int i = 0; i < 4; i++)
        at = put_cell(at, &cells[i]);
    return (size_t)(at - to);
}

/* The whole table as text into `path`. */
static double write_csv(const char *path)
{
    static char buffer[LOADS * 128];
    static char stream[1 << 18];
    char outer[5 * (SPT_NUMBER_SIZE + 1)];
    struct cell loads[LOADS];
    double start = now();
    struct spt_batch_grid grid = make_grid();
    struct spt_batch_results results = {.viscosity_ratio = grid_kappa,
                                        .basic_rating_life_h = grid_l10h,
                                        .modified_rating_life_h = grid_life};
    FILE *file = fopen(path, "wb");
    if (!file)
        return (double)NAN;
    setvbuf(file, stream, _IOFBF, sizeof stream);
    spt_batch_grid_rows(&grid, 0, GRID / LOADS, &results);
    for (int i = 0; i < LOADS; i++)
        loads[i] = make_cell(axis_load[i]);
    for (int r = 0; r < GRID / LOADS; r++) {
        size_t length = write_outer(outer, r);
        struct cell kappa = make_cell(grid_kappa[r * LOADS]);
        char *to = buffer;
        for (int i = 0; i < LOADS; i++) {
            memcpy(to, outer, length);
            to = put_cell(to + length, &loads[i]);
            to = put_cell(to, &kappa);
            to = spt_number_write(to, grid_l10h[r * LOADS + i]);
            *to++ = ',';
            to = spt_number_write(to, grid_life[r * LOADS + i]);
            *to++ = '\n';
        }
        fwrite(buffer, 1, (size_t)(to - buffer), file);
    }
    fclose(file);
    return (now() - start) / GRID * 1e9;
}

double time_csv(void)
{
    char path[512];
    make_path(path, "grid.csv");
    remove(path); /* or the time to empty it would count */
    return write_csv(path);
}

double time_csv_nowhere(void)
{
    return write_csv("/dev/null");
}
