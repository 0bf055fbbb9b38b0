/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_step.h"

#include <float.h>
#include <math.h>

double spt_hub_norm(const double *v, int count)
{
    double sum = 0;
    for (int i = 0; i < count; i++)
        sum += v[i] * v[i];
    return sqrt(sum);
}

/* Lower factor of a matrix; of its diagonal the reciprocals, because divisions are slow. */
struct factor {
    int count;
    double below[N][N];
    double reciprocal[N];
};

/* Factor of H + damping I; false where a pivot is lost to round-off. */
static bool decompose(const struct spt_hub_system *system, double damping, struct factor *factor)
{
    int n = factor->count = system->count;
    for (int j = 0; j < n; j++) {
        double pivot = system->hessian[j][j] + damping;
        double floor = 1e-13 * pivot;
        for (int k = 0; k < j; k++)
            pivot -= factor->below[j][k] * factor->below[j][k];
        if (!(pivot > floor) || pivot < DBL_MIN)
            return false;
        factor->reciprocal[j] = 1 / sqrt(pivot);
        for (int i = j + 1; i < n; i++) {
            double sum = system->hessian[i][j];
            for (int k = 0; k < j; k++)
                sum -= factor->below[i][k] * factor->below[j][k];
            factor->below[i][j] = sum * factor->reciprocal[j];
        }
    }
    return true;
}

static void solve_lower(const struct factor *factor, const double right[N], double out[N])
{
    for (int i = 0; i < factor->count; i++) {
        double sum = right[i];
        for (int k = 0; k < i; k++)
            sum -= factor->below[i][k] * out[k];
        out[i] = sum * factor->reciprocal[i];
    }
}

static void solve_upper(const struct factor *factor, const double right[N], double out[N])
{
    for (int i = factor->count - 1; i >= 0; i--) {
        double sum = right[i];
        for (int k = i + 1; k < factor->count; k++)
            sum -= factor->below[k][i] * out[k];
        out[i] = sum * factor->reciprocal[i];
    }
}

/* Step of the longest allowed length along the negative gradient. */
static void follow_gradient(const struct spt_hub_system *system, double longest, double step[N])
{
    double scale = longest / fmax(spt_hub_norm(system->gradient, system->count), DBL_MIN);
    for (int i = 0; i < system->count; i++)
        step[i] = -scale * system->gradient[i];
}

void spt_hub_step(const struct spt_hub_system *system, double longest, double step[N])
{
    struct factor factor;
    double half[N], opposite[N];
    int n = system->count;
    /* H is positive semidefinite, so |p| <= |g|/damping: more damping than this is never needed */
    double ceiling = spt_hub_norm(system->gradient, n) / longest, damping = 0;
    for (int i = 0; i < n; i++)
        opposite[i] = -system->gradient[i];
    for (int tries = 0; tries < 40 && damping < ceiling; tries++) {
        if (!decompose(system, damping, &factor)) {
            damping = fmax(10 * damping, 1e-8 * ceiling);
            continue;
        }
        solve_lower(&factor, opposite, half);
        solve_upper(&factor, half, step);
        double length = spt_hub_norm(step, n);
        if (length <= 1.1 * longest)
            return;
        /* Newton's step on 1/|p(mu)| = 1/longest (More and Sorensen 1983) */
        solve_lower(&factor, step, half);
        double slope = length / spt_hub_norm(half, n);
        damping += slope * slope * (length - longest) / longest;
    }
    if (damping < ceiling || !decompose(system, ceiling, &factor)) {
        follow_gradient(system, longest, step);
        return;
    }
    solve_lower(&factor, opposite, half);
    solve_upper(&factor, half, step);
}

bool spt_hub_divide(const struct spt_hub_system *system, const double right[N], double v[N])
{
    struct factor factor;
    double half[N] = {0};
    if (!decompose(system, 0, &factor))
        return false;
    solve_lower(&factor, right, half);
    solve_upper(&factor, half, v);
    return true;
}

bool spt_hub_is_definite(const struct spt_hub_system *system)
{
    struct factor factor;
    double trace = 0;
    for (int i = 0; i < system->count; i++)
        trace += system->hessian[i][i];
    return trace > 0 && decompose(system, -1e-9 * trace, &factor);
}
