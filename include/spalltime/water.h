/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_WATER_H
#define SPT_WATER_H

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SPT_WATER_REFERENCE_PPM 100.0 /* no credit below */
#define SPT_WATER_TESTED_PPM 400.0    /* wettest of the tests, which ran from 25 to 400 ppm */
#define SPT_WATER_EXPONENT 0.6
#define SPT_WATER_FLOOR (1.0 / 11.0)

/* How much water an oil can dissolve. */
enum spt_solubility { SPT_SOLUBILITY_PLAIN, SPT_SOLUBILITY_ADDITIVATED, SPT_SOLUBILITY_COUNT };

/* Water factor a_w on the life: 1 up to 100 ppm, else (100/X)^0.6, not below 1/11.
 * In:     water in ppm by mass (0 to 1e6).
 * Source: R. E. Cantley, ASLE Trans. 20(3) (1977) 244-248 for the exponent (tapered rollers, 25 to
 *         400 ppm, one oil); floor from the bearing chapter of the US Navy mechanical reliability
 *         handbook (from memory). ISO 281 itself has no water term: a model, not a standard.
 * Status: SPT_BAD_ARGUMENT outside the range, NaN. The caller flags extrapolation and floor. */
enum spt_status spt_water_factor(double water_ppm, double *a_w);

/* Saturation in ppm at a temperature in degC (-40 to 200): log10 S = A - B/T_K.
 * Source: plain: transformer-type mineral oil, A 7.0895, B 1567 (from memory, meets a published
 *         table); additivated: A 6.65036, B 1189.46 (a moisture-sensor manual's example oil).
 * Status: SPT_BAD_ARGUMENT outside the range, NaN. */
enum spt_status spt_water_saturation(enum spt_solubility kind, double temperature_c, double *ppm);

#ifdef __cplusplus
}
#endif

#endif
