/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <math.h>
#include <stdbool.h>

#include "base/quotient.h"

static bool shares_are_valid(const double *shares, int n)
{
    double sum = 0.0;
    if (!shares)
        return false;
    for (int i = 0; i < n; i++) {
        if (!(shares[i] >= 0.0))
            return false;
        sum += shares[i];
    }
    return n > 0 && fabs(sum - 1.0) <= SPT_SHARE_TOLERANCE;
}

/* sum q_i/L_i, in 1/h; a phase without time causes no damage, whatever its life. */
static enum spt_status find_damage_rate(const double *shares, const double *lives_h, int n,
                                        double *rate)
{
    if (!shares_are_valid(shares, n) || !lives_h)
        return SPT_BAD_ARGUMENT;
    enum spt_status status = SPT_OK;
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        if (shares[i] == 0.0)
            continue;
        if (lives_h[i] <= 0.0)
            return SPT_BAD_ARGUMENT;
        if (isnan(lives_h[i]))
            status = SPT_NOT_APPLICABLE;
        sum += shares[i] / lives_h[i];
    }
    *rate = sum;
    return status;
}

enum spt_status spt_damage_life(const double *shares, const double *lives_h, int n, double *life_h)
{
    *life_h = (double)NAN;
    double rate = 0.0;
    enum spt_status status = find_damage_rate(shares, lives_h, n, &rate);
    if (status == SPT_OK)
        *life_h = spt_quotient(1.0, rate);
    return status;
}

enum spt_status spt_damage_shares(const double *shares, const double *lives_h, int n,
                                  double *damage)
{
    if (!damage)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < n; i++)
        damage[i] = (double)NAN;
    double rate = 0.0;
    enum spt_status status = find_damage_rate(shares, lives_h, n, &rate);
    if (status != SPT_OK)
        return status;
    if (rate == 0.0)
        return SPT_NOT_APPLICABLE;
    for (int i = 0; i < n; i++)
        damage[i] = shares[i] > 0.0 ? shares[i] / lives_h[i] / rate : 0.0;
    return SPT_OK;
}

static bool is_load(double value)
{
    return isfinite(value) && value >= 0.0;
}

enum spt_status spt_damage_mean(const double *shares, const double *speeds_rpm,
                                const double *loads_n, int n, double exponent,
                                double *mean_speed_rpm, double *mean_load_n)
{
    *mean_speed_rpm = *mean_load_n = (double)NAN;
    if (!shares_are_valid(shares, n) || !speeds_rpm || !loads_n || !isfinite(exponent) ||
        exponent <= 0.0)
        return SPT_BAD_ARGUMENT;
    double speed = 0.0, most = 0.0;
    for (int i = 0; i < n; i++) {
        if (!is_load(speeds_rpm[i]) || !is_load(loads_n[i]))
            return SPT_BAD_ARGUMENT;
        speed += shares[i] * speeds_rpm[i];
        most = fmax(most, loads_n[i]);
    }
    /* relative to the largest load, so that no power overflows */
    double sum = 0.0;
    for (int i = 0; i < n && most > 0.0; i++)
        sum += shares[i] * speeds_rpm[i] * pow(loads_n[i] / most, exponent);
    *mean_speed_rpm = speed;
    *mean_load_n = speed > 0.0 ? most * pow(sum / speed, 1.0 / exponent) : 0.0;
    return SPT_OK;
}
