/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_NUMERIC_H
#define MODEL_NUMERIC_H

#include <gsl/gsl_math.h>
#include <stdbool.h>

#include "spalltime/status.h"

/* GSL's iterative solvers with their state on the stack, because the model layer does not use the
 * heap. Private to the library; `function` must be finite inside the bounds. */

/* A root between low and high, where the function changes sign (Brent), to about 1e-13 relative.
 * Status: SPT_NOT_CONVERGED where there is no change of sign or the iteration does not end. */
enum spt_status spt_numeric_root(const gsl_function *function, double low, double high,
                                 double *root);

/* The minimum between low and high, given a point `guess` with a value below those at both ends
 * (Brent), to about 1e-7 relative (a minimum is flat, so that round-off allows no more).
 * Status: SPT_NOT_CONVERGED where the guess is not lower or the iteration does not end. */
enum spt_status spt_numeric_minimum(const gsl_function *function, double low, double guess,
                                    double high, double *minimum);

/* Integral from low to high (adaptive 21-point Gauss-Kronrod), to about 1e-12 relative; to 1e-9
 * where the function jumps at a few places.
 * Status: SPT_NOT_CONVERGED. */
enum spt_status spt_numeric_integral(const gsl_function *function, double low, double high,
                                     double *value);

/* Quantile of the chi-squared distribution with nu (> 0) degrees of freedom: x with the probability
 * `fraction` (0 < p < 1) below it, or above it where `upper`. GSL's own inverse fails for a few
 * arguments (2.7: 2318 degrees of freedom at 97.5 %).
 * Status: SPT_NOT_CONVERGED; NaN then. */
enum spt_status spt_numeric_chi_squared(double fraction, bool upper, double nu, double *x);

/* ln Gamma(x), x > 0; infinite where that overflows. `lgamma` of the C library writes the global
 * `signgam`, a data race between threads of a caller. */
double spt_numeric_log_gamma(double x);

/* Complete elliptic integrals of the first and the second kind; false where they do not exist. */
bool spt_numeric_elliptic(double modulus, double *first, double *second);

/* Solves A x = b in place for a symmetric, positive definite band matrix of order n: `band` holds
 * for each column its diagonal and the `width` - 1 members below it, and is destroyed; `x` holds b.
 * Source: Cholesky decomposition of GSL. Status: SPT_NOT_CONVERGED where A is not positive. */
enum spt_status spt_numeric_band_solve(double *band, int width, int n, double *x);

#endif
