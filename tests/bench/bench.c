/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times the batch kernel and the writers beside plain NumPy and the scalar model.
 * Usage: bench DIRECTORY PYTHON SCRIPT; PYTHON empty: NumPy is left out.
 * Every figure is the best of several runs taken in turn; judge by the ratios. */
#define _DEFAULT_SOURCE /* madvise */
#include <math.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <time.h>

#include "model/aiso_power.h"
#include "model/batch_block.h"
#include "report/npy.h"
#include "report/number.h"
#include "spalltime/batch.h"
#include "spalltime/viscosity.h"
#include "support/scalar_chain.h"

#define COUNT (1 << 20)
#define ROUNDS 3
#define RUNS 7

static double *speed, *load, *temperature, *condition, *water;
static double *life, *scalar_life, *numpy_life;
static double *grid_life, *grid_kappa, *grid_l10h;
static const double c_n = 250e3, c_u_n = 31e3, pitch_mm = 110.0;
static struct spt_walther line;
static const char *directory, *python, *script;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static double random_between(double low, double high)
{
    static unsigned long long state = 7;
    unsigned long long z = (state += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    z ^= z >> 31;
    return low + (high - low) * ((double)(z >> 11) * 0x1p-53);
}

/* In huge pages where the system has them, as NumPy asks for its arrays. */
static double *make_array(int count)
{
    void *array;
    size_t bytes = (size_t)count * sizeof(double);
    if (posix_memalign(&array, (size_t)1 << 21, bytes) != 0)
        exit(1);
#ifdef MADV_HUGEPAGE
    madvise(array, bytes, MADV_HUGEPAGE);
#endif
    memset(array, 0, bytes);
    return array;
}

static void fill_points(void)
{
    double **arrays[] = {&speed,       &load,       &temperature, &condition,  &water,    &life,
                         &scalar_life, &numpy_life, &grid_life,   &grid_kappa, &grid_l10h};
    for (size_t i = 0; i < sizeof arrays / sizeof arrays[0]; i++)
        *arrays[i] = make_array(COUNT);
    for (int i = 0; i < COUNT; i++) {
        speed[i] = exp(random_between(log(20.0), log(6000.0)));
        load[i] = exp(random_between(log(5e3), log(1e5)));
        temperature[i] = random_between(20.0, 120.0);
        condition[i] = floor(random_between(9.0, 14.0));
        water[i] = exp(random_between(log(30.0), log(3000.0)));
    }
}

static struct spt_batch make_batch(size_t stride)
{
    struct spt_batch batch = {.type = SPT_TAPERED_ROLLER,
                              .pitch_diameter_mm = pitch_mm,
                              .density_factor = 1.0,
                              .reliability_factor = 1.0};
    struct spt_batch_column *columns = batch.columns;
    columns[SPT_BATCH_DYNAMIC_LOAD_RATING_N] = (struct spt_batch_column){&c_n, 0};
    columns[SPT_BATCH_FATIGUE_LOAD_LIMIT_N] = (struct spt_batch_column){&c_u_n, 0};
    columns[SPT_BATCH_LINE_A] = (struct spt_batch_column){&line.a, 0};
    columns[SPT_BATCH_LINE_B] = (struct spt_batch_column){&line.b, 0};
    columns[SPT_BATCH_SPEED_RPM] = (struct spt_batch_column){speed, stride};
    columns[SPT_BATCH_EQUIVALENT_LOAD_N] = (struct spt_batch_column){load, stride};
    columns[SPT_BATCH_TEMPERATURE_C] = (struct spt_batch_column){temperature, stride};
    columns[SPT_BATCH_CONDITION] = (struct spt_batch_column){condition, stride};
    columns[SPT_BATCH_WATER_PPM] = (struct spt_batch_column){water, stride};
    return batch;
}

/* ---- what is timed; each leaves ns a point (row, number) ----------------------------------- */

static double time_stream(void)
{
    struct spt_batch batch = make_batch(1);
    struct spt_batch_results results = {.modified_rating_life_h = life};
    double start = now();
    spt_batch_points(&batch, 0, COUNT, &results);
    return (now() - start) / COUNT * 1e9;
}

static double time_cached(void)
{
    struct spt_batch batch = make_batch(1);
    struct spt_batch_results results = {.modified_rating_life_h = life};
    double start = now();
    for (int k = 0; k < COUNT / 2048; k++)
        spt_batch_points(&batch, 0, 2048, &results);
    double spent = now() - start;
    return spent / COUNT * 1e9;
}

static void *run_half(void *argument)
{
    size_t first = *(const size_t *)argument;
    struct spt_batch batch = make_batch(1);
    struct spt_batch_results results = {.modified_rating_life_h = life + first};
    spt_batch_points(&batch, first, COUNT / 2, &results);
    return NULL;
}

static double time_two_threads(void)
{
    static size_t halves[] = {0, COUNT / 2};
    pthread_t other;
    double start = now();
    if (pthread_create(&other, NULL, run_half, &halves[1]) != 0)
        return (double)NAN;
    run_half(&halves[0]);
    pthread_join(other, NULL);
    return (now() - start) / COUNT * 1e9;
}

static double time_scalar(void)
{
    struct spt_batch batch = make_batch(1);
    double start = now();
    for (size_t i = 0; i < COUNT; i++)
        scalar_life[i] = scalar_chain(&batch, i).modified_rating_life_h;
    return (now() - start) / COUNT * 1e9;
}

static double block_in[POINTS], block_out[POINTS];

#if defined(__GNUC__)
#define KEEP_RESULT() __asm__ volatile("" ::"r"(block_in), "r"(block_out) : "memory")
#else
#define KEEP_RESULT() ((void)0)
#endif

SPT_VARIANTS
static void run_logs(void)
{
    EACH_POINT(i)
    block_out[i] = spt_vector_log2(block_in[i]);
}

SPT_VARIANTS
static void run_powers(void)
{
    EACH_POINT(i)
    block_out[i] = spt_vector_exp2(block_in[i]);
}

SPT_VARIANTS
static void run_aiso_powers(void)
{
    EACH_POINT(i)
    block_out[i] = spt_aiso_power(spt_aiso_root_roller, block_in[i]);
}

static double time_block(void (*run)(void))
{
    double start = now();
    for (int k = 0; k < 4000; k++) {
        run();
        KEEP_RESULT();
    }
    return (now() - start) / (4000.0 * POINTS) * 1e9;
}

static double time_logs(void)
{
    return time_block(run_logs);
}

static double time_powers(void)
{
    return time_block(run_powers);
}

static double time_aiso_powers(void)
{
    return time_block(run_aiso_powers);
}

/* ---- the grid: the same axes as in chain_numpy.py ------------------------------------------- */

#define SPEEDS 10
#define TEMPERATURES 10
#define CONDITIONS 5
#define WATERS 10
#define LOADS 200
#define GRID (SPEEDS * TEMPERATURES * CONDITIONS * WATERS * LOADS)
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

static double time_grid(void)
{
    struct spt_batch_grid grid = make_grid();
    struct spt_batch_results results = {.modified_rating_life_h = grid_life};
    double start = now();
    spt_batch_grid_rows(&grid, 0, GRID / LOADS, &results);
    return (now() - start) / GRID * 1e9;
}

/* Without the water axis no value can be reused: one power of a_ISO for each point. */
static double time_dry_grid(void)
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

static void make_path(char *path, const char *name)
{
    snprintf(path, 512, "%s/%s", directory, name);
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

static double time_csv(void)
{
    char path[512];
    make_path(path, "grid.csv");
    remove(path); /* or the time to empty it would count */
    return write_csv(path);
}

static double time_csv_nowhere(void)
{
    return write_csv("/dev/null");
}

static double time_number_write(void)
{
    static char text[32];
    double start = now();
    for (int i = 0; i < COUNT; i++)
        spt_number_write(text, life[i]);
    return (now() - start) / COUNT * 1e9;
}

static double time_printf(void)
{
    static char text[32];
    double start = now();
    for (int i = 0; i < COUNT / 8; i++)
        snprintf(text, sizeof text, "%.6g", life[i]);
    return (now() - start) / (COUNT / 8) * 1e9;
}

static char *number_text;
static size_t number_length;

static void make_number_text(void)
{
    number_text = malloc((size_t)COUNT * (SPT_NUMBER_SIZE + 1) + 1);
    if (!number_text)
        exit(1);
    char *to = number_text;
    for (int i = 0; i < COUNT; i++) {
        to = spt_number_write(to, load[i]);
        *to++ = ',';
    }
    *to = '\0';
    number_length = (size_t)(to - number_text);
}

static double time_number_read(void)
{
    double value;
    double sum = 0.0;
    const char *end = number_text + number_length;
    double start = now();
    for (const char *at = number_text; at && at < end; at++) {
        at = spt_number_read(at, end, &value);
        sum += value;
    }
    return sum > 0.0 ? (now() - start) / COUNT * 1e9 : (double)NAN;
}

static double time_strtod(void)
{
    double sum = 0.0;
    double start = now();
    char *next = number_text;
    for (int i = 0; i < COUNT / 4; i++, next++)
        sum += strtod(next, &next);
    return sum > 0.0 ? (now() - start) / (COUNT / 4) * 1e9 : (double)NAN;
}

/* ---- NumPy ---------------------------------------------------------------------------------- */

static double run_script(const char *environment, const char *arguments)
{
    char command[2048];
    double ns = (double)NAN;
    if (!python[0])
        return ns;
    snprintf(command, sizeof command, "%s '%s' '%s' %s", environment, python, script, arguments);
    FILE *pipe = popen(command, "r");
    if (!pipe || fscanf(pipe, "%lf", &ns) != 1)
        ns = (double)NAN;
    if (pipe)
        pclose(pipe);
    return ns;
}

static void save_points(void)
{
    static const struct spt_npy_column columns[] = {{"speed_rpm", SPT_NPY_DOUBLE},
                                                    {"equivalent_load_n", SPT_NPY_DOUBLE},
                                                    {"temperature_c", SPT_NPY_DOUBLE},
                                                    {"condition", SPT_NPY_DOUBLE},
                                                    {"water_ppm", SPT_NPY_DOUBLE}};
    const void *data[] = {speed, load, temperature, condition, water};
    char path[512];
    struct spt_npy npy;
    make_path(path, "points.npy");
    FILE *file = fopen(path, "wb");
    if (!file || spt_npy_begin(&npy, file, columns, 5, COUNT) != SPT_OK ||
        spt_npy_rows(&npy, data, COUNT) != SPT_OK || spt_npy_end(&npy) != SPT_OK ||
        fclose(file) != 0) {
        perror(path);
        exit(1);
    }
}

static double time_numpy_points(const char *environment)
{
    char arguments[1100];
    snprintf(arguments, sizeof arguments, "points '%s/points.npy' '%s/hours.bin'", directory,
             directory);
    return run_script(environment, arguments);
}

static double time_numpy(void)
{
    return time_numpy_points("");
}

static double time_numpy_without_avx512(void)
{
    return time_numpy_points("NPY_DISABLE_CPU_FEATURES='AVX512F AVX512CD AVX512_SKX AVX512_CLX "
                             "AVX512_CNL AVX512_ICL'");
}

static double time_numpy_grid(void)
{
    return run_script("", "grid");
}

static double time_numpy_dry_grid(void)
{
    return run_script("", "drygrid");
}

static double time_savetxt(void)
{
    char arguments[600];
    make_path(arguments, "savetxt.csv");
    remove(arguments);
    snprintf(arguments, sizeof arguments, "savetxt '%s/savetxt.csv'", directory);
    return run_script("", arguments);
}

/* ---- report --------------------------------------------------------------------------------- */

/* Figures in the order they are taken, round after round. */
static struct figure {
    const char *name;
    double (*take)(void);
    int runs; /* in each round */
    double best;
} figures[] = {
    {"kernel, 1 thread", time_stream, RUNS, 1e9},
    {"kernel, 1 thread, cached", time_cached, RUNS, 1e9},
    {"kernel, 2 threads", time_two_threads, RUNS, 1e9},
    {"scalar model", time_scalar, 1, 1e9},
    {"NumPy", time_numpy, 1, 1e9},
    {"NumPy without AVX-512", time_numpy_without_avx512, 1, 1e9},
    {"grid, 1 thread", time_dry_grid, RUNS, 1e9},
    {"NumPy grid, broadcast", time_numpy_dry_grid, 1, 1e9},
    {"grid with water axis, 1 thread", time_grid, RUNS, 1e9},
    {"NumPy grid with water axis", time_numpy_grid, 1, 1e9},
    {"grid to CSV file, 1 thread", time_csv, 3, 1e9},
    {"grid to CSV, /dev/null, 1 thread", time_csv_nowhere, 3, 1e9},
    {"NumPy grid to CSV file, savetxt", time_savetxt, 1, 1e9},
    {"log2 alone", time_logs, RUNS, 1e9},
    {"exp2 alone", time_powers, RUNS, 1e9},
    {"power of a_ISO alone", time_aiso_powers, RUNS, 1e9},
    {"number written", time_number_write, RUNS, 1e9},
    {"number written by snprintf", time_printf, RUNS, 1e9},
    {"number read", time_number_read, RUNS, 1e9},
    {"number read by strtod", time_strtod, RUNS, 1e9},
};
#define FIGURES (sizeof figures / sizeof figures[0])

static double best_of(double (*take)(void))
{
    for (size_t i = 0; i < FIGURES; i++)
        if (figures[i].take == take)
            return figures[i].best < 1e9 ? figures[i].best : (double)NAN;
    return (double)NAN;
}

static double max_relative_error(const double *got, const double *want, int count)
{
    double worst = 0.0;
    for (int i = 0; i < count; i++) {
        if (isnan(got[i]) != isnan(want[i]))
            return (double)INFINITY;
        if (!isnan(got[i]))
            worst = fmax(worst, fabs(got[i] / want[i] - 1.0));
    }
    return worst;
}

/* The chain of these points in long double, straight from the equations. */
static double find_reference(int i)
{
    static const double c[] = {0.0864, 0.0432, 0.0177, 0.0115, 0.00617};
    static const double b[] = {0.6796, 1.141, 1.887, 2.662, 4.06};
    int row = (int)condition[i] - 9;
    long double t = log10l((long double)temperature[i] + 273.15L);
    long double nu = powl(10.0L, powl(10.0L, (long double)line.a - (long double)line.b * t)) - 0.7L;
    const long double pitch = (long double)pitch_mm;
    const long double p = (long double)load[i];
    const long double w = (long double)water[i];
    long double n = (long double)speed[i];
    long double nu1 = n < 1000.0L ? 45000.0L * powl(n, -0.83L) : 4500.0L / sqrtl(n);
    long double kappa = nu / (nu1 / sqrtl(pitch));
    long double k = fminl(kappa, 4.0L);
    long double e_c = fminl(1.0L, (long double)c[row] * powl(k, 0.68L) * powl(pitch, 0.55L)) *
                      fmaxl(0.0L, 1.0L - (long double)b[row] / cbrtl(pitch));
    long double a = k < 0.4L   ? 1.3993L * powl(k, -0.054381L)
                    : k < 1.0L ? 1.2348L * powl(k, -0.19087L)
                               : 1.2348L * powl(k, -0.071739L);
    long double rest = 1.0L - fmaxl(1.5859L - a, 0.0L) * powl(e_c * (long double)c_u_n / p, 0.4L);
    long double a_iso = rest > 0.0L ? fminl(50.0L, 0.1L * powl(rest, -9.185L)) : 50.0L;
    long double a_w = w <= 100.0L ? 1.0L : fmaxl(1.0L / 11.0L, powl(100.0L / w, 0.6L));
    if (kappa < 0.1L)
        return (double)NAN;
    long double l10h = powl((long double)c_n / p, 10.0L / 3.0L) * 1e6L / (60.0L * n);
    return (double)(a_iso * a_w * l10h);
}

static void print_errors(void)
{
    static double reference[100000];
    char path[512];
    for (int i = 0; i < 100000; i++)
        reference[i] = find_reference(i);
    printf("\nlargest relative difference of the lives\n");
    printf("  kernel and scalar model, %d points          %.2g\n", COUNT,
           max_relative_error(life, scalar_life, COUNT));
    printf("  kernel and long double, 100000 points          %.2g\n",
           max_relative_error(life, reference, 100000));
    printf("  scalar model and long double                   %.2g\n",
           max_relative_error(scalar_life, reference, 100000));
    make_path(path, "hours.bin");
    FILE *file = python[0] ? fopen(path, "rb") : NULL;
    if (file && fread(numpy_life, sizeof(double), COUNT, file) == COUNT)
        printf("  kernel and NumPy, %d points                 %.2g\n", COUNT,
               max_relative_error(life, numpy_life, COUNT));
    if (file)
        fclose(file);
}

static void print_ratio(const char *what, double ratio, const char *goal)
{
    if (isnan(ratio))
        printf("  %-58s not measured (%s)\n", what, goal);
    else
        printf("  %-58s %6.1f  (%s)\n", what, ratio, goal);
}

static void print_ratios(void)
{
    double numpy = best_of(time_numpy);
    double without = best_of(time_numpy_without_avx512);
    double one = best_of(time_stream);
    double two = best_of(time_two_threads);
    printf("\nratios\n");
    print_ratio("NumPy / kernel, 1 thread", numpy / one, "goal 7");
    print_ratio("NumPy / kernel, 2 threads", numpy / two, "goal 14");
    print_ratio("NumPy without AVX-512 / kernel, 1 thread", without / one, "goal 9");
    print_ratio("NumPy without AVX-512 / kernel, 2 threads", without / two, "goal 18");
    print_ratio("scalar model / kernel, 1 thread", best_of(time_scalar) / one, "no goal");
    print_ratio("NumPy broadcast / grid", best_of(time_numpy_dry_grid) / best_of(time_dry_grid),
                "goal 12");
    print_ratio("NumPy broadcast / grid, with water axis",
                best_of(time_numpy_grid) / best_of(time_grid), "goal 12");
    print_ratio("NumPy savetxt / grid to CSV", best_of(time_savetxt) / best_of(time_csv),
                "goal 30");
    print_ratio("snprintf / number written", best_of(time_printf) / best_of(time_number_write),
                "no goal");
    print_ratio("strtod / number read", best_of(time_strtod) / best_of(time_number_read),
                "no goal");
}

static void print_bound(void)
{
    double log2_ns = best_of(time_logs);
    double exp2_ns = best_of(time_powers);
    double points_ns = 6.0 * log2_ns + 5.0 * exp2_ns;
    double grid_ns = best_of(time_aiso_powers);
    printf("\nbound: logarithms and powers a point at their measured throughput\n");
    printf(
        "  points  6 log2 + 5 exp2 = 11: %5.2f ns; kernel %5.2f ns cached, %3.0f %% of the bound\n",
        points_ns, best_of(time_cached), 100.0 * points_ns / best_of(time_cached));
    printf("  grid    one power of a_ISO:   %5.2f ns; kernel %5.2f ns, %3.0f %% of the bound\n",
           grid_ns, best_of(time_dry_grid), 100.0 * grid_ns / best_of(time_dry_grid));
}

int main(int argc, char **argv)
{
    if (argc != 4) {
        fprintf(stderr, "usage: bench DIRECTORY PYTHON SCRIPT\n");
        return 2;
    }
    directory = argv[1];
    python = argv[2];
    script = argv[3];
    double busy = 0.0;
    if (getloadavg(&busy, 1) == 1 && busy > 0.5)
        printf("other work keeps this machine busy (load %.1f): the figures are too high\n", busy);
    spt_viscosity_line(40.0, 220.0, 100.0, 19.0, &line);
    fill_points();
    save_points();
    make_number_text();
    for (int i = 0; i < POINTS; i++)
        block_in[i] = 0.1 + 0.01 * i;
    for (int round = 0; round < ROUNDS; round++)
        for (size_t i = 0; i < FIGURES; i++)
            for (int run = 0; run < figures[i].runs; run++)
                figures[i].best = fmin(figures[i].best, figures[i].take());
    printf("kernel variant %s, %d random points, grid of %d, best of %d rounds\n\n",
           spt_batch_variant(), COUNT, GRID, ROUNDS);
    for (size_t i = 0; i < FIGURES; i++)
        if (figures[i].best < 1e9)
            printf("  %-34s %8.2f ns\n", figures[i].name, figures[i].best);
    if (!python[0])
        printf("  NumPy is not here: its figures are left out\n");
    print_bound();
    print_ratios();
    print_errors();
    free(number_text);
    /* the arrays live as long as the program */
    return 0;
}
