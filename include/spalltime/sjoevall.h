/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SJOEVALL_H
#define SPT_SJOEVALL_H

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Load distribution integrals of one row with very many rolling elements and rigid, parallel rings:
 * F_r = Z Q_max cos a J_r, F_a = Z Q_max sin a J_a. */
struct spt_sjoevall {
    double radial; /* J_r */
    double axial;  /* J_a */
};

/* In:     load zone parameter epsilon (> 0 to 1e6; 0.5: half the elements loaded), exponent n of
 *         Q = c d^n (1 to 3; 3/2 point contact, 10/9 line contact; the textbook tables of line
 *         contact were made with 1.1).
 * Result: J_r, J_a = 1/(2 pi) integral [1 - (1 - cos p)/(2 epsilon)]^n (cos p or 1) dp over the
 *         loaded arc, to 1e-12.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: Sjoevall 1933, as in Harris, Rolling Bearing Analysis. */
enum spt_status spt_sjoevall(double epsilon, double exponent, struct spt_sjoevall *integrals);

#ifdef __cplusplus
}
#endif

#endif
