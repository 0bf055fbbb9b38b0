/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_FILM_H
#define SPT_FILM_H

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SPT_KAPPA_MIN 0.1 /* below: ISO 281 gives no a_ISO (9.3.3.3, from memory) */
#define SPT_KAPPA_MAX 4.0 /* above: 4 is used */

/* Reference viscosity nu_1 in mm2/s, the viscosity a clean bearing needs for kappa = 1.
 * In:     speed in r/min (> 0), pitch diameter D_pw in mm (> 0).
 * Source: ISO 281:2007, equations (28), (29) (numbers from memory); the 2.3 % step at
 *         1000 r/min is the standard's own: the second branch holds from 1000 on.
 * Status (all functions here): SPT_BAD_ARGUMENT outside the stated range, NaN. */
enum spt_status spt_film_reference_viscosity(double speed_rpm, double pitch_diameter_mm,
                                             double *nu1_mm2_s);

/* Factor on kappa for an oil of another density than 0.89 g/cm3 (0.6 to 1.5): (rho/0.89)^0.83.
 * Source: ISO 281:2007, 9.3.3.3, exponent from memory. */
enum spt_status spt_film_density_factor(double density_g_cm3, double *factor);

/* Viscosity ratio kappa = nu/nu_1 times the density factor (1 where none is wanted).
 * In:     all three > 0. Not limited: the caller flags values outside 0.1 to 4. */
enum spt_status spt_film_viscosity_ratio(double nu_mm2_s, double nu1_mm2_s, double density_factor,
                                         double *kappa);

/* Effective viscosity ratio of a film thinned to `film_ratio` (0 to 1) of its full height:
 * kappa (> 0) * film_ratio^1.3, 0 for no film, the relation kappa = Lambda^1.3 of ISO
 * 281:2007 9.3.3.3 read backwards.
 */
enum spt_status spt_film_effective_ratio(double kappa, double film_ratio, double *effective);

#ifdef __cplusplus
}
#endif

#endif
