/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/numeric.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_integration.h>
#include <gsl/gsl_min.h>
#include <gsl/gsl_roots.h>
#include <math.h>

enum { STATE_DOUBLES = 32, ITERATIONS = 300, SUBINTERVALS = 96 };

enum spt_status spt_numeric_root(const gsl_function *function, double low, double high,
                                 double *root)
{
    double state[STATE_DOUBLES];
    gsl_root_fsolver solver = {.type = gsl_root_fsolver_brent, .state = state};
    gsl_function copy = *function;

    *root = (double)NAN;
    if (solver.type->size > sizeof state)
        return SPT_NO_ROOM;
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

enum spt_status spt_numeric_minimum(const gsl_function *function, double low, double guess,
                                    double high, double *minimum)
{
    double state[STATE_DOUBLES];
    gsl_min_fminimizer solver = {.type = gsl_min_fminimizer_brent, .state = state};
    gsl_function copy = *function;

    *minimum = (double)NAN;
    if (solver.type->size > sizeof state)
        return SPT_NO_ROOM;
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

enum spt_status spt_numeric_integral(const gsl_function *function, double low, double high,
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
    int answer = gsl_integration_qag(function, low, high, 0.0, 1e-12, SUBINTERVALS,
                                     GSL_INTEG_GAUSS21, &space, value, &error);

    /* GSL_EROUND: rounding keeps it from reaching 1e-12; good enough where 1e-9 is met */
    if (answer == GSL_SUCCESS || (answer == GSL_EROUND && error <= 1e-9 * fabs(*value)))
        return SPT_OK;
    *value = (double)NAN;
    return SPT_NOT_CONVERGED;
}
