/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <gsl/gsl_cdf.h>
#include <math.h>
#include <stdbool.h>

static bool are_weights(const double *weights, int count)
{
    double sum = 0.0;
    if (count < 1 || !weights)
        return false;
    for (int i = 0; i < count; i++) {
        if (!(weights[i] >= 0.0))
            return false;
        sum += weights[i];
    }
    return isfinite(sum) && sum > 0.0;
}

enum spt_status spt_random_check(const struct spt_random_input *input)
{
    double c = input->centre;
    bool spread = isfinite(input->deviation) && input->deviation > 0.0;
    bool range = isfinite(input->low) && isfinite(input->high) && input->low < input->high &&
                 isfinite(input->high - input->low);
    bool good = false;

    switch (input->spread) {
    case SPT_RANDOM_FIXED:
        good = isfinite(c);
        break;
    case SPT_RANDOM_NORMAL:
        good = isfinite(c) && spread;
        break;
    case SPT_RANDOM_LOGNORMAL:
        good = isfinite(c) && c > 0.0 && spread;
        break;
    case SPT_RANDOM_TRIANGULAR:
        good = range && c >= input->low && c <= input->high;
        break;
    case SPT_RANDOM_UNIFORM:
        good = range;
        break;
    case SPT_RANDOM_CLASSES:
        good = are_weights(input->class_weights, input->class_count);
        break;
    default:
        break;
    }
    return good ? SPT_OK : SPT_BAD_ARGUMENT;
}

static double invert_triangle(double low, double peak, double high, double u)
{
    double width = high - low;
    if (u * width < peak - low)
        return low + sqrt(u * width * (peak - low));
    return high - sqrt((1.0 - u) * width * (high - peak));
}

static double find_class(const double *weights, int count, double u)
{
    double sum = 0.0;
    double passed = 0.0;
    int last = 0;
    for (int i = 0; i < count; i++)
        sum += weights[i];
    for (int i = 0; i < count; i++) {
        passed += weights[i];
        if (u * sum < passed)
            return i;
        if (weights[i] > 0.0)
            last = i;
    }
    return last; /* reached only by round-off */
}

enum spt_status spt_random_value(const struct spt_random_input *input, double u, double *value)
{
    double result = (double)NAN;

    *value = (double)NAN;
    if (!(u > 0.0) || !(u < 1.0) || spt_random_check(input) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    switch (input->spread) {
    case SPT_RANDOM_FIXED:
        result = input->centre;
        break;
    case SPT_RANDOM_NORMAL:
        result = input->centre + gsl_cdf_gaussian_Pinv(u, input->deviation);
        break;
    case SPT_RANDOM_LOGNORMAL:
        result = gsl_cdf_lognormal_Pinv(u, log(input->centre), input->deviation);
        break;
    case SPT_RANDOM_TRIANGULAR:
        result = invert_triangle(input->low, input->centre, input->high, u);
        break;
    case SPT_RANDOM_UNIFORM:
        result = gsl_cdf_flat_Pinv(u, input->low, input->high);
        break;
    case SPT_RANDOM_CLASSES:
        result = find_class(input->class_weights, input->class_count, u);
        break;
    default:
        break;
    }
    if (!isfinite(result))
        return SPT_NOT_APPLICABLE;
    *value = result;
    return SPT_OK;
}
