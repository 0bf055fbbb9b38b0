/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <math.h>

#include "model/numeric.h"

static bool is_positive(double x)
{
    return isfinite(x) && x > 0.0;
}

static bool is_weibull(const struct spt_weibull *w)
{
    return is_positive(w->shape) && is_positive(w->scale);
}

enum spt_status spt_weibull_from_l10(double l10, double shape, struct spt_weibull *weibull)
{
    *weibull = (struct spt_weibull){(double)NAN, (double)NAN};
    if (!is_positive(l10) || !is_positive(shape))
        return SPT_BAD_ARGUMENT;
    double scale = l10 * pow(-log1p(-0.1), -1.0 / shape);
    if (!is_positive(scale))
        return SPT_NOT_APPLICABLE;
    *weibull = (struct spt_weibull){shape, scale};
    return SPT_OK;
}

enum spt_status spt_weibull_survival(const struct spt_weibull *weibull, double t, double *survival)
{
    *survival = (double)NAN;
    if (!is_weibull(weibull) || isnan(t) || t < 0.0)
        return SPT_BAD_ARGUMENT;
    *survival = exp(-pow(t / weibull->scale, weibull->shape));
    return SPT_OK;
}

enum spt_status spt_weibull_quantile(const struct spt_weibull *weibull, double failed_fraction,
                                     double *time)
{
    *time = (double)NAN;
    if (!is_weibull(weibull) || !(failed_fraction > 0.0) || !(failed_fraction < 1.0))
        return SPT_BAD_ARGUMENT;
    *time = weibull->scale * pow(-log1p(-failed_fraction), 1.0 / weibull->shape);
    return SPT_OK;
}

enum spt_status spt_weibull_remaining(const struct spt_weibull *weibull, double age,
                                      double survival, double *time)
{
    *time = (double)NAN;
    if (!is_weibull(weibull) || !isfinite(age) || age < 0.0 || !(survival > 0.0) ||
        !(survival < 1.0))
        return SPT_BAD_ARGUMENT;
    const double spent = pow(age / weibull->scale, weibull->shape);
    if (spent > 0.0) /* age (1 + ln(1/R)/spent)^(1/shape) - age, which keeps its digits */
        *time = age * expm1(log1p(-log(survival) / spent) / weibull->shape);
    else
        *time = weibull->scale * pow(-log(survival), 1.0 / weibull->shape) - age;
    return SPT_OK;
}

enum spt_status spt_weibull_mean(const struct spt_weibull *weibull, double *mean)
{
    *mean = (double)NAN;
    if (!is_weibull(weibull))
        return SPT_BAD_ARGUMENT;
    double value = weibull->scale * exp(spt_numeric_log_gamma(1.0 + 1.0 / weibull->shape));
    if (!isfinite(value))
        return SPT_NOT_APPLICABLE;
    *mean = value;
    return SPT_OK;
}

/* variance/mean^2 = Gamma(1+2/b)/Gamma(1+1/b)^2 - 1, by expm1 to avoid cancellation at large
 * shapes */
enum spt_status spt_weibull_deviation(const struct spt_weibull *weibull, double *deviation)
{
    double mean;
    enum spt_status status = spt_weibull_mean(weibull, &mean);

    *deviation = (double)NAN;
    if (status != SPT_OK)
        return status;
    double x = 1.0 / weibull->shape;
    double value =
        mean *
        sqrt(expm1(spt_numeric_log_gamma(1.0 + 2.0 * x) - 2.0 * spt_numeric_log_gamma(1.0 + x)));
    if (!isfinite(value))
        return SPT_NOT_APPLICABLE;
    *deviation = value;
    return SPT_OK;
}
