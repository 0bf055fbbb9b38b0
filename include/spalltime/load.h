/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_LOAD_H
#define SPT_LOAD_H

#include "spalltime/bearing.h"
#include "spalltime/flag.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* An equivalent load and the factors that made it. Unused factors are NaN. */
struct spt_equivalent_load {
    double relative_axial_load; /* f0 Fa/C0 or Fa/C0 where a table was entered, times the rows of
                                   angular contact balls; else NaN */
    double ratio;               /* Fa/Fr; infinity where Fr = 0 < Fa; NaN where both are 0 */
    double limit_ratio;         /* e */
    double radial_factor;       /* X */
    double axial_factor;        /* Y */
    double load_n;              /* P or P0 */
};

/* Dynamic equivalent load P.
 * In:     bearing; radial and axial load in N (>= 0, finite). A given factor wins over the tables:
 * e and Y > 0, X from 0 to 1 (radial bearings). Where only one of e and Y is given the other
 *         follows from the continuity of P at Fa/Fr = e (single row: X + Y e = 1; tapered,
 *         spherical and self-aligning: e = 1.5 tan alpha, Y = 0.4 cot alpha). Two rows: where
 *         spt_bearing_rows counts two or more; a given Y is that for Fa/Fr > e.
 * Flags:  into `notes` (may be NULL), loads in N: SPT_FLAG_AXIAL_NOT_RATED (Fa, 0),
 *         SPT_FLAG_RADIAL_NOT_RATED (Fr, largest Fr that is rated with this Fa),
 *         SPT_FLAG_AXIAL_RANGE (relative axial load, end of the table; below the table only where
 *         Fa/Fr > e), SPT_FLAG_F0_ASSUMED (Fa/C0).
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where neither factors nor what the tables need are
 *         known: the contact angle, or C0 for deep groove and for 15 degrees angular contact; also
 *         for angular contact balls of another angle below 20 or above 45 degrees. A pure radial
 *         load on a radial bearing and a pure axial load on a thrust bearing need nothing.
 * Source: ISO 281:2007 tables 3, 5, 8, 10 (X, Y; table numbers and most values from memory), or the
 *         bearing's own factors where given. P is never below Fr for radial bearings. */
enum spt_status spt_load_equivalent(const struct spt_bearing *bearing, double radial_n,
                                    double axial_n, struct spt_equivalent_load *result,
                                    struct spt_notes *notes);

/* P of spt_load_equivalent for many loads on one radial bearing; load_n[i], in N, is NaN where that
 * does not return SPT_OK, and for thrust bearings, which need its flags. */
void spt_load_equivalent_many(const struct spt_bearing *bearing, const double *radial_n,
                              const double *axial_n, int count, double *load_n);

/* Static equivalent load P0; never below Fr for radial bearings. In, flags and status as above;
 * SPT_FLAG_RADIAL_NOT_RATED where a thrust bearing has Fr > 0.67 Fa cot alpha.
 * Source: ISO 76:2006 (X0, Y0 from memory but for deep groove), or the bearing's own Y0. */
enum spt_status spt_load_static(const struct spt_bearing *bearing, double radial_n, double axial_n,
                                struct spt_equivalent_load *result, struct spt_notes *notes);

/* Thrust in N, along the shaft, that a radial load in N makes in one row of tapered rollers or of
 * angular contact balls, and that the opposed bearing of the pair has to hold: Fr/(2 Y). Where Y
 * depends on the axial load (15 degrees), with the Y of this thrust itself.
 * Status: SPT_NOT_APPLICABLE for other types, two rows and unknown Y; SPT_BAD_ARGUMENT.
 * Source: Fr/(2 Y) as read on a technical page for tapered rollers; for angular contact balls
 * common practice, no source. */
enum spt_status spt_load_induced_thrust(const struct spt_bearing *bearing, double radial_n,
                                        double *thrust_n);

/* How a machine runs, as the guide values of the static safety tell it apart. */
enum spt_running {
    SPT_RUNNING_NORMAL,
    SPT_RUNNING_QUIET, /* smooth and free of vibration, or of high accuracy */
    SPT_RUNNING_SHOCK, /* pronounced shocks */
    SPT_RUNNING_COUNT
};

/* Its word in scenario files; never NULL, "unknown" outside the enumeration. */
const char *spt_running_name(enum spt_running running);

/* Guide value of the static safety factor: quiet, normal, shock: 2, 1, 1.5 for balls and 3, 1.5, 3
 * for rollers; 4 for spherical thrust rollers is not told apart. NaN for an unknown type or kind.
 * Source: ISO 76:2006 guide values (from memory; catalogues print the like). */
double spt_load_static_guide(enum spt_bearing_type type, enum spt_running running);

/* Usual least load against skidding, as a share of C: 0.01 ball, 0.02 roller
 * (common practice, no source). */
double spt_load_least_share(enum spt_bearing_type type);

#ifdef __cplusplus
}
#endif

#endif
