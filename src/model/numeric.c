/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/numeric.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_linalg.h>
#include <gsl/gsl_min.h>
#include <gsl/gsl_roots.h>
#include <gsl/gsl_sf_ellint.h>
#include <gsl/gsl_sf_gamma.h>
#include <math.h>

#include "platform/platform.h"

enum { STATE_DOUBLES = 32, ITERATIONS = 300, SUBINTERVALS = 96, HALVINGS = 60, PARTS = 2000 };

/* GSL's default error handler aborts the process; here errors become a status. The caller's handler
 * is restored when the last thread leaves. */
static struct spt_lock lock = SPT_LOCK_FREE;
static gsl_error_handler_t *callers_handler;
static int inside;

static void enter(void)
{
    spt_lock_take(&lock);
    if (!inside++)
        callers_handler = gsl_set_error_handler_off();
    spt_lock_give(&lock);
}

static void leave(void)
{
    spt_lock_take(&lock);
    if (!--inside)
        gsl_set_error_handler(callers_handler);
    spt_lock_give(&lock);
}

static enum spt_status find_root(const gsl_function *function, double low, double high,
                                 double *root)
{
    double state[STATE_DOUBLES];
    gsl_root_fsolver solver = {.type = gsl_root_fsolver_brent, .state = state};
    gsl_function copy = *function;

    *root = (double)NAN;
    if (solver.type->size > sizeof state)
        return SPT_TOO_SMALL;
    if (gsl_root_fsolver_set(&solver, &copy, low, high) != GSL_SUCCESS)
        return SPT_NOT_CONVERGED;
    for (int i = 0; i < ITERATIONS; i++) {
        if (gsl_root_fsolver_iterate(&solver) != GSL_SUCCESS)
            return SPT_NOT_CONVERGED;
        if (gsl_root_test_interval(solver.x_lower, solver.x_upper, 1e-14, 1e-13) == GSL_SUCCESS) {
            *root = solver.root;
            return SPT_OK;
        }
    }
    return SPT_NOT_CONVERGED;
}

static enum spt_status find_minimum(const gsl_function *function, double low, double guess,
                                    double high, double *minimum)
{
    double state[STATE_DOUBLES];
    gsl_min_fminimizer solver = {.type = gsl_min_fminimizer_brent, .state = state};
    gsl_function copy = *function;

    *minimum = (double)NAN;
    if (solver.type->size > sizeof state)
        return SPT_TOO_SMALL;
    if (gsl_min_fminimizer_set(&solver, &copy, guess, low, high) != GSL_SUCCESS)
        return SPT_NOT_CONVERGED;
    for (int i = 0; i < ITERATIONS; i++) {
        if (gsl_min_fminimizer_iterate(&solver) != GSL_SUCCESS)
            return SPT_NOT_CONVERGED;
        if (gsl_min_test_interval(solver.x_lower, solver.x_upper, 0.0, 1e-7) == GSL_SUCCESS) {
            *minimum = solver.x_minimum;
            return SPT_OK;
        }
    }
    return SPT_NOT_CONVERGED;
}

/* Halves [low, high] until the error of each part is below `tolerance` (absolute), so that only the
 * parts around a jump become small. `*parts_left` becomes negative where it or the depth is
 * exhausted. */
static double integrate_by_halving(const gsl_function *function, double low, double high,
                                   double tolerance, int depth, int *parts_left)
{
    double error, unused, unused_too;
    double value = 0;
    gsl_integration_qk21(function, low, high, &value, &error, &unused, &unused_too);
    if (error <= tolerance)
        return value;
    double middle = low + (high - low) / 2;
    *parts_left = depth > 0 ? *parts_left - 1 : -1;
    if (*parts_left < 0)
        return value;
    return integrate_by_halving(function, low, middle, tolerance, depth - 1, parts_left) +
           integrate_by_halving(function, middle, high, tolerance, depth - 1, parts_left);
}

static enum spt_status find_integral(const gsl_function *function, double low, double high,
                                     double *value)
{
    double starts[SUBINTERVALS], ends[SUBINTERVALS], parts[SUBINTERVALS], errors[SUBINTERVALS];
    size_t order[SUBINTERVALS], level[SUBINTERVALS];
    gsl_integration_workspace space = {.limit = SUBINTERVALS,
                                       .alist = starts,
                                       .blist = ends,
                                       .rlist = parts,
                                       .elist = errors,
                                       .order = order,
                                       .level = level};
    double error = 0.0;
    int answer = gsl_integration_qag(function, low, high, 0.0, 1e-10, SUBINTERVALS,
                                     GSL_INTEG_GAUSS21, &space, value, &error);

    /* GSL_EROUND: round-off prevents 1e-10; 1e-9 is accepted. A jump, as between two ranges of a
     * formula with rounded constants, looks like round-off too. */
    if (answer == GSL_SUCCESS || (answer == GSL_EROUND && error <= 1e-9 * fabs(*value)))
        return SPT_OK;
    int parts_left = PARTS;
    *value = integrate_by_halving(function, low, high, 1e-11 * fabs(*value), HALVINGS, &parts_left);
    if (parts_left >= 0 && isfinite(*value))
        return SPT_OK;
    *value = (double)NAN;
    return SPT_NOT_CONVERGED;
}

enum spt_status spt_numeric_root(const gsl_function *function, double low, double high,
                                 double *root)
{
    enter();
    enum spt_status status = find_root(function, low, high, root);
    leave();
    return status;
}

enum spt_status spt_numeric_minimum(const gsl_function *function, double low, double guess,
                                    double high, double *minimum)
{
    enter();
    enum spt_status status = find_minimum(function, low, guess, high, minimum);
    leave();
    return status;
}

enum spt_status spt_numeric_integral(const gsl_function *function, double low, double high,
                                     double *value)
{
    enter();
    enum spt_status status = find_integral(function, low, high, value);
    leave();
    return status;
}

/* Probability of a chi-squared distribution on one side of x, minus the wanted one. */
struct quantile {
    double fraction, nu;
    bool upper;
};

static double miss_share(double x, void *context)
{
    const struct quantile *wanted = context;
    double share = wanted->upper ? gsl_cdf_chisq_Q(x, wanted->nu) : gsl_cdf_chisq_P(x, wanted->nu);
    return share - wanted->fraction;
}

enum spt_status spt_numeric_chi_squared(double fraction, bool upper, double nu, double *x)
{
    struct quantile wanted = {fraction, nu, upper};
    gsl_function function = {miss_share, &wanted};
    double low = nu, high = nu;
    *x = (double)NAN;
    enter();
    /* the probability below x increases with x, that above decreases: bracket outwards from the
     * mean */
    while ((miss_share(low, &wanted) > 0) != upper && low > 1e-300)
        low *= 0.5;
    while ((miss_share(high, &wanted) < 0) != upper && high < 1e300)
        high *= 2;
    leave();
    return spt_numeric_root(&function, low, high, x);
}

bool spt_numeric_elliptic(double modulus, double *first, double *second)
{
    gsl_sf_result k, e;
    enter();
    bool found = gsl_sf_ellint_Kcomp_e(modulus, GSL_PREC_DOUBLE, &k) == GSL_SUCCESS &&
                 gsl_sf_ellint_Ecomp_e(modulus, GSL_PREC_DOUBLE, &e) == GSL_SUCCESS;
    leave();
    *first = found ? k.val : (double)NAN;
    *second = found ? e.val : (double)NAN;
    return found;
}

double spt_numeric_log_gamma(double x)
{
    gsl_sf_result result;
    enter();
    int status = gsl_sf_lngamma_e(x, &result);
    leave();
    return status == GSL_SUCCESS ? result.val : (double)INFINITY;
}

enum spt_status spt_numeric_band_solve(double *band, int width, int n, double *x)
{
    gsl_matrix_view a = gsl_matrix_view_array(band, (size_t)n, (size_t)width);
    gsl_vector_view b = gsl_vector_view_array(x, (size_t)n);
    enter();
    int failed = gsl_linalg_cholesky_band_decomp(&a.matrix) ||
                 gsl_linalg_cholesky_band_svx(&a.matrix, &b.vector);
    leave();
    return failed ? SPT_NOT_CONVERGED : SPT_OK;
}
