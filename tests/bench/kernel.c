/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The batch kernel on random points, the scalar model, and the functions behind the kernel. */
#include <math.h>
#include <pthread.h>

#include "model/batch/aiso_power.h"
#include "model/batch/batch_block.h"
#include "support/scalar_chain.h"

#include "bench/bench.h"

double time_stream(void)
{
    struct spt_batch batch = make_batch(1);
    struct spt_batch_results results = {.modified_rating_life_h = life};
    double start = now();
    spt_batch_points(&batch, 0, COUNT, &results);
    return (now() - start) / COUNT * 1e9;
}

double time_cached(void)
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

double time_two_threads(void)
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

double time_scalar(void)
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
    for (int i = 0; i < POINTS; i++)
        block_in[i] = 0.1 + 0.01 * i;
    double start = now();
    for (int k = 0; k < 4000; k++) {
        run();
        KEEP_RESULT();
    }
    return (now() - start) / (4000.0 * POINTS) * 1e9;
}

double time_logs(void)
{
    return time_block(run_logs);
}

double time_powers(void)
{
    return time_block(run_powers);
}

double time_aiso_powers(void)
{
    return time_block(run_aiso_powers);
}
