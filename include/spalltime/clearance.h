/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_CLEARANCE_H
#define SPT_CLEARANCE_H

#include "spalltime/bearing.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A value with the range that its tolerances leave, in mm. */
struct spt_scatter {
    double low_mm, middle_mm, high_mm;
};

/* Radial internal clearance of a seated bearing, diametral, from the shelf to work. A fit that is
 * not stated counts as a ring that is free on its seat. */
struct spt_clearance {
    struct spt_scatter shelf;          /* of the class */
    struct spt_scatter shaft, housing; /* interference after the surfaces are pressed smooth; below
                                          0: loose */
    double inner_growth_mm;            /* of the inner raceway, by the middle interference */
    double outer_shrinkage_mm;
    double heat_mm;      /* lost to the warmer inner ring */
    double pressure_mpa; /* in the joint of shaft and ring, middle */
    struct spt_scatter work;
};

/* In:     a deep groove ball, cylindrical or spherical roller bearing whose seat states a clearance
 *         class; bore over 24 to 120 mm, outside diameter over 50 to 250 mm where a housing fit is
 *         stated; steel rings and solid or hollow steel shaft, heavy steel housing unless its
 * outside diameter is stated. Result: G = G_0 - dF - dE - 11.5e-6 D_pw dT; half-ranges of class,
 * shaft, bore and housing are added as the root of their squares. Interference u d/(d + 2) of
 * ground seats (housing D/(D
 *         + 2)); raceways F = 0.8 d + 0.2 D, E = 0.2 d + 0.8 D (balls) or 0.75 and 0.25 (rollers).
 * Status: SPT_NOT_APPLICABLE for other types and sizes, or no class.
 * Source: ISO 286-2 fits, ISO 492 normal class, ISO 5753-1 clearances (all from memory: check
 * against a copy); growth of rings by Lame (derived, closed form); smoothing and raceway diameters
 *         common practice (from memory). */
enum spt_status spt_clearance_at_work(const struct spt_bearing *bearing,
                                      struct spt_clearance *clearance);

#ifdef __cplusplus
}
#endif

#endif
