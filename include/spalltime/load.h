/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_LOAD_H
#define SPT_LOAD_H

#include "spalltime/bearing.h"
#include "spalltime/flag.h"
#include "spalltime/status.h"

/* An equivalent load and the factors that made it. Unused factors are NaN. */
struct spt_equivalent_load {
    double relative_axial_load; /* f0 Fa/C0 or Fa/C0 where a table was entered; else NaN */
    double ratio;               /* Fa/Fr; infinity where Fr = 0 < Fa; NaN where both are 0 */
    double limit_ratio;         /* e */
    double radial_factor;       /* X */
    double axial_factor;        /* Y */
    double load_n;              /* P or P0 */
};

/* Dynamic equivalent load P.
 * In:     bearing; radial and axial load in N (>= 0, finite).
 * Flags:  SPT_FLAG_AXIAL_NOT_RATED, SPT_FLAG_RADIAL_NOT_RATED, SPT_FLAG_AXIAL_RANGE,
 *         SPT_FLAG_F0_ASSUMED are added to `notes`.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where neither factors nor a contact angle are known.
 * Source: ISO 281:2007 tables 3, 5, 8, 10 (X, Y; table numbers and most values from memory), or the
 *         bearing's own factors where given. P is never below Fr for radial bearings. */
enum spt_status spt_load_equivalent(const struct spt_bearing *bearing, double radial_n,
                                    double axial_n, struct spt_equivalent_load *result,
                                    struct spt_notes *notes);

/* Static equivalent load P0 (ISO 76:2006); never below Fr for radial bearings. As above. */
enum spt_status spt_load_static(const struct spt_bearing *bearing, double radial_n, double axial_n,
                                struct spt_equivalent_load *result, struct spt_notes *notes);

/* Guide value of the static safety factor for normal running: 1 ball, 1.5 roller, 4 thrust
 * spherical is not distinguished. Source: ISO 76:2006 guide values (from memory). */
double spt_load_static_guide(enum spt_bearing_type type);

/* Usual least load against skidding, as a share of C: 0.01 ball, 0.02 roller
 * (common practice, no source). */
double spt_load_least_share(enum spt_bearing_type type);

#endif
