/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_BENCH_H
#define TESTS_BENCH_H

#include "spalltime/lubricant.h"
#include "spalltime/sweep.h"

/* What the parts of the bench share. Each time_... function runs once and gives ns a point (row,
 * number); NaN where it could not. */

#define COUNT (1 << 20)
#define GRID 1000000 /* points; axes in grid.c and chain_numpy.py */
#define PITCH_MM 110.0

extern double *speed, *load, *temperature, *condition, *water;
extern double *life, *scalar_life, *numpy_life;
extern double *grid_life, *grid_kappa, *grid_l10h;
extern const double c_n, c_u_n;
extern struct spt_walther line;
extern const char *directory, *python, *script;

double now(void);
struct spt_batch make_batch(size_t stride);
void make_path(char *path, const char *name); /* 512 bytes */

/* kernel.c */
double time_stream(void);
double time_cached(void);
double time_two_threads(void);
double time_scalar(void);
double time_logs(void);
double time_powers(void);
double time_aiso_powers(void);

/* grid.c */
double time_grid(void);
double time_dry_grid(void);
double time_csv(void);
double time_csv_nowhere(void);

/* numbers.c */
void make_number_text(void);
void free_number_text(void);
double time_number_write(void);
double time_printf(void);
double time_number_read(void);
double time_strtod(void);

/* machine.c */
double time_machine(void);
double time_machine_equations(void);
/* choose.c: ns for each candidate */
double time_choose(void);
double time_choose_plainly(void);

/* numpy.c */
void save_points(void);
double time_numpy(void);
double time_numpy_without_avx512(void);
double time_numpy_grid(void);
double time_numpy_dry_grid(void);
double time_savetxt(void);

#endif
