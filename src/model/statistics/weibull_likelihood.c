/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <limits.h>
#include <math.h>

#include "model/statistics/weibull_data.h"
#include "spalltime/statistics.h"

/* exponents are limited to this, far beyond any maximum, so that root finders get finite values */
static const double exponent_most = 600.0;
static const double below_all =
    -1e250; /* below it a log-likelihood results from limited exponents */

static bool is_row(const struct spt_weibull_data *data, int i)
{
    double t = data->times[i], from = spt_weibull_row_from(data, i);
    if (!isfinite(t) || t <= 0.0 || !(from >= 0.0) || !(from < t) ||
        (data->counts && data->counts[i] < 1))
        return false;
    return !spt_weibull_row_found(data, i) || (data->last_good[i] >= 0.0 && data->last_good[i] < t);
}

enum spt_status spt_weibull_count(const struct spt_weibull_data *data, int *failures, int *censored)
{
    long long counted[2] = {0, 0};

    *failures = *censored = 0;
    if (data->n < 1 || !data->times)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < data->n; i++) {
        if (!is_row(data, i))
            return SPT_BAD_ARGUMENT;
        counted[spt_weibull_row_failed(data, i)] += data->counts ? data->counts[i] : 1;
    }
    if (counted[0] + counted[1] > INT_MAX)
        return SPT_BAD_ARGUMENT;
    *censored = (int)counted[0];
    *failures = (int)counted[1];
    return SPT_OK;
}

bool spt_weibull_has_found(const struct spt_weibull_data *data)
{
    for (int i = 0; data->last_good && i < data->n; i++)
        if (spt_weibull_row_found(data, i))
            return true;
    return false;
}

bool spt_weibull_has_entries(const struct spt_weibull_data *data)
{
    for (int i = 0; data->known_from && i < data->n; i++)
        if (data->known_from[i] > 0.0)
            return true;
    return false;
}

/* z(to) - z(from) and its derivatives by the shape, over z(to); `from` may be -INFINITY (new) */
struct growth {
    double none, one, two;
};

static struct growth find_growth(double shape, double from, double to)
{
    double share = exp(shape * (from - to)); /* z(from)/z(to) */
    struct growth g = {-expm1(shape * (from - to)), to, to * to};
    if (share > 0.0) {
        g.one -= share * from;
        g.two -= share * from * from;
    }
    return g;
}

static double find_z(double shape, double offset, double x)
{
    return exp(fmin(offset + shape * x, exponent_most));
}

/* ln R(to) - ln R(from) = z(from) - z(to) */
static void add_sound(struct spt_weibull_sum *sum, double count, double shape, double offset,
                      const double ends[2])
{
    double z = count * find_z(shape, offset, ends[1]);
    struct growth g = find_growth(shape, ends[0], ends[1]);
    sum->value -= z * g.none;
    sum->exposure += z * g.none;
    sum->by_offset -= z * g.none;
    sum->by_shape -= z * g.one;
    sum->offset_offset -= z * g.none;
    sum->offset_shape -= z * g.one;
    sum->shape_shape -= z * g.two;
}

/* ln f(t) - ln R(t) */
static void add_failure(struct spt_weibull_sum *sum, double count, double shape, double offset,
                        double x)
{
    sum->value += count * (log(shape) + offset + shape * x);
    sum->by_offset += count;
    sum->by_shape += count * (1.0 / shape + x);
    sum->shape_shape -= count / (shape * shape);
}

/* ln [1 - R(to)/R(from)] = ln [1 - exp(-d)] with d = z(to) - z(from); its derivative by ln d is
 * d/(exp(d) - 1), which stays finite where d underflows */
static void add_found(struct spt_weibull_sum *sum, double count, double shape, double offset,
                      const double ends[2])
{
    struct growth g = find_growth(shape, ends[0], ends[1]);
    double d = find_z(shape, offset, ends[1]) * g.none;
    double slope = d < 1e-300 ? 1.0 : d / expm1(d);
    double one = g.one / g.none, two = g.two / g.none;
    double value = d > 0.7 ? log1p(-exp(-d)) : log(-expm1(-d));
    if (d < 1e-10)
        value = offset + shape * ends[1] + log(g.none);
    sum->value += count * value;
    sum->by_offset += count * slope;
    sum->by_shape += count * slope * one;
    sum->offset_offset += count * slope * (1.0 - slope - d);
    sum->offset_shape += count * slope * (1.0 - slope - d) * one;
    sum->shape_shape += count * slope * (two - (slope + d) * one * one);
}

struct spt_weibull_sum spt_weibull_add_up(const struct spt_weibull_data *data, double shape,
                                          double offset, double reference)
{
    struct spt_weibull_sum sum = {0};
    for (int i = 0; i < data->n; i++) {
        double count = spt_weibull_row_count(data, i);
        double from = log(spt_weibull_row_from(data, i)) - reference;
        double sound = log(spt_weibull_row_sound(data, i)) - reference;
        double log_time = log(data->times[i]);
        if (sound > from)
            add_sound(&sum, count, shape, offset, (const double[]){from, sound});
        if (spt_weibull_row_found(data, i)) {
            add_found(&sum, count, shape, offset, (const double[]){sound, log_time - reference});
        } else if (spt_weibull_row_failed(data, i)) {
            add_failure(&sum, count, shape, offset, log_time - reference);
            sum.value -= count * log_time;
        }
    }
    return sum;
}

enum spt_status spt_weibull_log_likelihood(const struct spt_weibull_data *data,
                                           const struct spt_weibull *weibull,
                                           double *log_likelihood)
{
    int failures, censored;

    *log_likelihood = (double)NAN;
    if (!isfinite(weibull->shape) || weibull->shape <= 0.0 || !isfinite(weibull->scale) ||
        weibull->scale <= 0.0)
        return SPT_BAD_ARGUMENT;
    if (spt_weibull_count(data, &failures, &censored) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    double value = spt_weibull_add_up(data, weibull->shape, 0.0, log(weibull->scale)).value;
    /* -INFINITY is a valid result: the data are impossible under this distribution */
    *log_likelihood = value > below_all ? value : -(double)INFINITY;
    return SPT_OK;
}
