/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_BALL_CONTACT_H
#define SPT_BALL_CONTACT_H

#include "spalltime/bearing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Stiffness of a ball between its raceways, Q = c_p d^(3/2). */
struct spt_ball_contact {
    double inner_ratio; /* chi, axes of the contact ellipse */
    double outer_ratio;
    double stiffness_n_mm_1_5; /* c_p */
};

/* In:     geometry of a ball bearing (bearing.h), alpha 0 to 1.2 rad, groove ratios above 0.5.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: Hertz; form of ISO/TS 16281:2008 4.3 (from memory); E 207 GPa, nu 0.3. */
enum spt_status spt_ball_contact(const struct spt_geometry *geometry,
                                 struct spt_ball_contact *contact);

/* Basic reference rating life in million revolutions of one ball row from its ball loads.
 * In:     geometry; C_r in N (> 0); `loads_n` of all Z balls (>= 0). The inner ring turns.
 * Result: INFINITY where nothing is loaded.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: ISO/TS 16281:2008 (from memory). */
enum spt_status spt_ball_life(const struct spt_geometry *geometry, double dynamic_load_rating_n,
                              const double *loads_n, double *l10r_mrev);

#ifdef __cplusplus
}
#endif

#endif
