/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_errno.h>
#include <gsl/gsl_qrng.h>
#include <math.h>

#include "spalltime/statistics.h"

enum { ROUNDS = 10, SOBOL_STATE_DOUBLES = 1024, SHIFT_STREAM = 0x53 };

void spt_random_philox(const uint32_t counter[4], const uint32_t key[2], uint32_t words[4])
{
    uint32_t x0 = counter[0], x1 = counter[1], x2 = counter[2], x3 = counter[3];
    uint32_t k0 = key[0], k1 = key[1];

    for (int round = 0; round < ROUNDS; round++) {
        uint64_t even = (uint64_t)0xD2511F53U * x0;
        uint64_t odd = (uint64_t)0xCD9E8D57U * x2;
        x0 = (uint32_t)(odd >> 32) ^ x1 ^ k0;
        x1 = (uint32_t)odd;
        x2 = (uint32_t)(even >> 32) ^ x3 ^ k1;
        x3 = (uint32_t)even;
        k0 += 0x9E3779B9U;
        k1 += 0xBB67AE85U;
    }
    words[0] = x0;
    words[1] = x1;
    words[2] = x2;
    words[3] = x3;
}

/* `stream` separates the shifts of Sobol designs from other random numbers of the same seed */
static double draw(uint64_t seed, uint64_t sample, uint32_t dimension, uint32_t stream)
{
    const uint32_t counter[4] = {(uint32_t)sample, (uint32_t)(sample >> 32), dimension, stream};
    const uint32_t key[2] = {(uint32_t)seed, (uint32_t)(seed >> 32)};
    uint32_t words[4];

    spt_random_philox(counter, key, words);
    uint64_t bits = ((uint64_t)words[0] << 32 | words[1]) >> 12;
    return ((double)bits + 0.5) * 0x1p-52; /* the middle of its cell: never 0 or 1 */
}

double spt_random_uniform(uint64_t seed, uint64_t sample, uint32_t dimension)
{
    return draw(seed, sample, dimension, 0);
}

enum spt_status spt_random_sobol(uint64_t seed, int samples, int dimensions, double *design,
                                 long capacity)
{
    double state[SOBOL_STATE_DOUBLES];
    double shift[SPT_RANDOM_SOBOL_DIMENSIONS_MAX];
    gsl_qrng sequence = {.type = gsl_qrng_sobol, .state = state};

    if (samples < 1 || dimensions < 1 || dimensions > SPT_RANDOM_SOBOL_DIMENSIONS_MAX)
        return SPT_BAD_ARGUMENT;
    sequence.dimension = (unsigned)dimensions;
    sequence.state_size = sequence.type->state_size(sequence.dimension);
    if (sequence.state_size > sizeof state || capacity / dimensions < samples)
        return SPT_TOO_SMALL;
    gsl_qrng_init(&sequence);
    for (int d = 0; d < dimensions; d++)
        shift[d] = draw(seed, 0, (uint32_t)d, SHIFT_STREAM);
    for (int i = 0; i < samples; i++) {
        double *row = design + (long)i * dimensions;
        if (gsl_qrng_get(&sequence, row) != GSL_SUCCESS)
            return SPT_NOT_CONVERGED;
        for (int d = 0; d < dimensions; d++) {
            double moved = row[d] + shift[d];
            if (moved >= 1.0)
                moved -= 1.0;
            row[d] = fmax(moved, 0x1p-53); /* the quantile at 0 may be infinite */
        }
    }
    return SPT_OK;
}
