/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_NUMERIC_H
#define MODEL_NUMERIC_H

#include <gsl/gsl_math.h>
#include <stdbool.h>

#include "spalltime/status.h"

/* GSL's iterative solvers with their state on the stack, because the model layer has no heap.
 * Private to the library; `function` may return no NaN or infinity inside the bounds. */

/* A root between low and high, where the function changes sign (Brent), to about 1e-13 relative.
 * Status: SPT_NOT_CONVERGED where there is no change of sign or the iteration does not end. */
enum spt_status spt_numeric_root(const gsl_function *function, double low, double high,
                                 double *root);

/* The minimum between low and high, given a point `guess` lower than both ends (Brent), to about
 * 1e-7 relative (a minimum is flat, so rounding allows no more).
 * Status: SPT_NOT_CONVERGED where the guess is not lower or the iteration does not end. */
enum spt_status spt_numeric_minimum(const gsl_function *function, double low, double guess,
                                    double high, double *minimum);

/* Integral from low to high (adaptive 21-point Gauss-Kronrod), to about 1e-12 relative; to 1e-9
 * where the function jumps at a few places.
 * Status: SPT_NOT_CONVERGED. */
enum spt_status spt_numeric_integral(const gsl_function *function, double low, double high,
                                     double *value);

/* x below which a share `fraction` (0 < p < 1) of a chi-squared distribution of nu (> 0) degrees of
 * freedom lies, or above it where `upper`. GSL's own inverse gives up on a few of them (2.7: 2318
 * degrees at 97.5 %).
 * Status: SPT_NOT_CONVERGED; NaN then. */
enum spt_status spt_numeric_chi_squared(double fraction, bool upper, double nu, double *x);

/* ln Gamma(x), x > 0; infinite where that overflows. `lgamma` of the C library writes the global
 * `signgam`, which threads of a caller would race for. */
double spt_numeric_log_gamma(double x);

/* Complete elliptic integrals of the first and the second kind; false where there are none. */
bool spt_numeric_elliptic(double modulus, double *first, double *second);

#endif
