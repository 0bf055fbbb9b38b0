/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The same chain in NumPy, by chain_numpy.py. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bench/bench.h"
#include "format/number/npy.h"

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

void save_points(void)
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

double time_numpy(void)
{
    return time_numpy_points("");
}

double time_numpy_without_avx512(void)
{
    return time_numpy_points("NPY_DISABLE_CPU_FEATURES='AVX512F AVX512CD AVX512_SKX AVX512_CLX "
                             "AVX512_CNL AVX512_ICL'");
}

double time_numpy_grid(void)
{
    return run_script("", "grid");
}

double time_numpy_dry_grid(void)
{
    return run_script("", "drygrid");
}

double time_savetxt(void)
{
    char arguments[600];
    make_path(arguments, "savetxt.csv");
    remove(arguments);
    snprintf(arguments, sizeof arguments, "savetxt '%s/savetxt.csv'", directory);
    return run_script("", arguments);
}
