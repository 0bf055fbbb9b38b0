/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times the batch kernel and the writers beside plain NumPy and the scalar model.
 * Usage: bench DIRECTORY PYTHON SCRIPT; PYTHON empty: NumPy is left out.
 * Every figure is the best of several runs taken in turn; judge by the ratios. */
#define _DEFAULT_SOURCE /* madvise */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <time.h>

#include "bench/bench.h"

#define ROUNDS 3
#define RUNS 7

double *speed, *load, *temperature, *condition, *water;
double *life, *scalar_life, *numpy_life;
double *grid_life, *grid_kappa, *grid_l10h;
const double c_n = 250e3, c_u_n = 31e3;
struct spt_walther line;
const char *directory, *python, *script;

double now(void)
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

struct spt_batch make_batch(size_t stride)
{
    struct spt_batch batch = {.type = SPT_TAPERED_ROLLER,
                              .pitch_diameter_mm = PITCH_MM,
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

void make_path(char *path, const char *name)
{
    snprintf(path, 512, "%s/%s", directory, name);
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
    {"machine, a bearing in a phase", time_machine, RUNS, 1e9},
    {"machine by five equations", time_machine_equations, RUNS, 1e9},
    {"candidate chosen", time_choose, RUNS, 1e9},
    {"candidate by `life`", time_choose_plainly, 1, 1e9},
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
    const long double pitch = (long double)PITCH_MM;
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
    print_ratio("five equations / machine, which shares the thrust too",
                best_of(time_machine_equations) / best_of(time_machine), "no goal");
    print_ratio("`life` of each candidate / candidate chosen",
                best_of(time_choose_plainly) / best_of(time_choose), "no goal");
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
    free_number_text();
    /* the arrays live as long as the program */
    return 0;
}
