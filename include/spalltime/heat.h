/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_HEAT_H
#define SPT_HEAT_H

#include "spalltime/bearing.h"
#include "spalltime/cleanliness.h"
#include "spalltime/status.h"
#include "spalltime/viscosity.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Ends of the temperatures of a bearing, and of the ambient of an estimate: of the scenario format
 * and of the models. Rules of this tool; at 300 degC the temperature factors of the ratings end. */
#define SPT_COLDEST_C (-60.0)
#define SPT_HOTTEST_C 300.0
#define SPT_HOTTEST_AMBIENT_C 150.0

struct spt_heat_inputs {
    const struct spt_bearing *bearing; /* needs bore, outside diameter and width */
    enum spt_lubrication lubrication;
    struct spt_walther oil;
    double speed_rpm;         /* >= 0 */
    double equivalent_load_n; /* >= 0 */
    double ambient_c;         /* -60 to 150 */
    double extra_heat_w;      /* brakes, seals; >= 0 */
    double cooling_factor;    /* on the conductance of ISO 15312, 0.1 to 10: see spt_air */
};

/* The air round a housing, and what its outside then gives off by convection and radiation. */
enum spt_air { SPT_AIR_STILL, SPT_AIR_DRAUGHT, SPT_AIR_WIND, SPT_AIR_COUNT };

/* Coefficient that the conductance of ISO 15312 is taken to stand for (our choice): another one
 * over it is the cooling factor. */
#define SPT_AIR_REFERENCE_W_M2K 20.0

/* Heat transfer coefficient of the air in W/(m2 K): still 10, draught 20, wind 33; NaN outside the
 * enumeration. Rounded from a cylinder of 150 mm across a flow of 0, 2 and 5 m/s, 20 K warmer than
 * the air, with the radiation of a painted surface: 10.1, 20.8 and 33.1.
 * Source: form of Kays and Bjorklund for a cylinder in cross flow (from memory); the speeds that
 *         the words stand for are our choice. */
double spt_heat_air_w_m2k(enum spt_air air);

struct spt_heat_balance {
    double temperature_c;
    double viscosity_mm2_s;
    double oil_torque_nmm;  /* M0 */
    double load_torque_nmm; /* M1 */
    double heat_w;
    double conductance_w_k;
};

/* Friction torques and heat at a viscosity in mm2/s (> 0): fills viscosity, M0, M1 and heat_w,
 * leaves temperature and conductance NaN. M0 = f0 1e-7 (nu n)^(2/3) dm^3 (nu n >= 2000), else f0
 * 160e-7 dm^3; M1 = f1 P dm; dm = (d + D)/2 Q = 1.047e-4 n (M0 + M1), which is 2 pi/60 000 rounded
 * to four digits in the source f0 by type and way of lubricating, f1 by type; mid values where the
 * source gives a span; balls use f1 = z (P/C0)^y with P for P0, and need the static load rating.
 * Status: SPT_BAD_ARGUMENT, all members NaN.
 * Source: Palmgren (1957); Harris, Rolling Bearing Analysis, chapter on friction (from memory). */
enum spt_status spt_heat_friction(const struct spt_heat_inputs *in, double nu_mm2_s,
                                  struct spt_heat_balance *out);

/* Conductance from bearing to surroundings in W/K: q_r A_r/50 K times a cooling factor (0.1 to 10).
 * A_r = pi B (D + d), for tapered rollers B is the assembled width T; thrust pi/2 (D^2 - d^2).
 * q_r = 0.016 W/mm2, above A_r 50 000 mm2 0.016 (A_r/50 000)^-0.34; thrust 0.020 and -0.16.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: ISO 15312:2018 (from memory); the cooling factor is a model of this tool, see spt_air. */
enum spt_status spt_heat_conductance(const struct spt_bearing *bearing, double cooling_factor,
                                     double *conductance_w_k);

/* Steady bearing temperature from friction and cooling, by a bracketing root of GSL between the
 * ambient and 300 degC. At speed 0 only the extra heat counts.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where the oil is beyond D341 at the ambient
 *         (above 2e7 mm2/s); SPT_NOT_CONVERGED where no balance below 300 degC exists;
 *         SPT_NO_MEMORY. All members NaN.
 * Source: friction and cooling as above. Good to 10 to 15 K at best: a measured temperature always
 *         wins. Below 2 mm2/s the caller flags SPT_FLAG_VISCOSITY_RANGE. */
enum spt_status spt_heat_temperature(const struct spt_heat_inputs *in,
                                     struct spt_heat_balance *out);

#ifdef __cplusplus
}
#endif

#endif
