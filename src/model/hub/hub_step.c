/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_step.h"

#include <float.h>
#include <math.h>

double spt_hub_norm(const double v[N])
{
    double sum = 0;
    for (int i = 0; i < N; i++)
        sum += v[i] * v[i];
    return sqrt(sum);
}

/* Lower factor of H + damping I; false where a pivot is lost to round-off. */
static bool decompose(double h[N][N], double damping, double factor[N][N])
{
    for (int j = 0; j < N; j++) {
        double pivot = h[j][j] + damping;
        double floor = 1e-13 * pivot;
        for (int k = 0; k < j; k++)
            pivot -= factor[j][k] * factor[j][k];
        if (!(pivot > floor) || pivot < DBL_MIN)
            return false;
        factor[j][j] = sqrt(pivot);
        for (int i = j + 1; i < N; i++) {
            double sum = h[i][j];
            for (int k = 0; k < j; k++)
                sum -= factor[i][k] * factor[j][k];
            factor[i][j] = sum / factor[j][j];
        }
    }
    return true;
}

static void solve_lower(double factor[N][N], const double right[N], double out[N])
{
    for (int i = 0; i < N; i++) {
        double sum = right[i];
        for (int k = 0; k < i; k++)
            sum -= factor[i][k] * out[k];
        out[i] = sum / factor[i][i];
    }
}

static void solve_upper(double factor[N][N], const double right[N], double out[N])
{
    for (int i = N - 1; i >= 0; i--) {
        double sum = right[i];
        for (int k = i + 1; k < N; k++)
            sum -= factor[k][i] * out[k];
        out[i] = sum / factor[i][i];
    }
}

/* Step of the longest allowed length along the negative gradient. */
static void follow_gradient(const double gradient[N], double longest, double step[N])
{
    double scale = longest / fmax(spt_hub_norm(gradient), DBL_MIN);
    for (int i = 0; i < N; i++)
        step[i] = -scale * gradient[i];
}

void spt_hub_step(double h[N][N], const double gradient[N], double longest, double step[N])
{
    double factor[N][N] = {{0}}, half[N], opposite[N];
    /* H is positive semidefinite, so |p| <= |g|/damping: more damping than this is never needed */
    double ceiling = spt_hub_norm(gradient) / longest, damping = 0;
    for (int i = 0; i < N; i++)
        opposite[i] = -gradient[i];
    for (int tries = 0; tries < 40 && damping < ceiling; tries++) {
        if (!decompose(h, damping, factor)) {
            damping = fmax(10 * damping, 1e-8 * ceiling);
            continue;
        }
        solve_lower(factor, opposite, half);
        solve_upper(factor, half, step);
        double length = spt_hub_norm(step);
        if (length <= 1.1 * longest)
            return;
        /* Newton's step on 1/|p(mu)| = 1/longest (More and Sorensen 1983) */
        solve_lower(factor, step, half);
        double slope = length / spt_hub_norm(half);
        damping += slope * slope * (length - longest) / longest;
    }
    if (damping < ceiling || !decompose(h, ceiling, factor)) {
        follow_gradient(gradient, longest, step);
        return;
    }
    solve_lower(factor, opposite, half);
    solve_upper(factor, half, step);
}

bool spt_hub_is_definite(double h[N][N])
{
    double factor[N][N] = {{0}}, trace = 0;
    for (int i = 0; i < N; i++)
        trace += h[i][i];
    return trace > 0 && decompose(h, -1e-9 * trace, factor);
}
