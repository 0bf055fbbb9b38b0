/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_HEAT_H
#define SPT_HEAT_H

#include "spalltime/bearing.h"
#include "spalltime/cleanliness.h"
#include "spalltime/status.h"
#include "spalltime/viscosity.h"

struct spt_heat_inputs {
    const struct spt_bearing *bearing; /* needs bore, outside diameter and width */
    enum spt_lubrication lubrication;
    struct spt_walther oil;
    double speed_rpm;         /* >= 0 */
    double equivalent_load_n; /* >= 0 */
    double ambient_c;         /* -60 to 150 */
    double extra_heat_w;      /* brakes, seals; >= 0 */
    double cooling_factor;    /* 0.5 poor, 1 as ISO 15312, 2.5 forced; 0.1 to 10 */
};
struct spt_heat_balance {
    double temperature_c;
    double viscosity_mm2_s;
    double oil_torque_nmm;  /* M0 */
    double load_torque_nmm; /* M1 */
    double heat_w;
    double conductance_w_k;
};

/* Steady bearing temperature from friction and cooling, by a bracketing root of GSL.
 * Source: friction M0 + M1 after Palmgren (1957) as used by ISO 15312; cooling surface and
 *         reference heat flow of ISO 15312:2018 (from memory). Good to 10 to 15 K at best: a
 * measured temperature always wins. Status: SPT_BAD_ARGUMENT; SPT_NOT_CONVERGED where no balance
 * below 300 degC exists. */
enum spt_status spt_heat_temperature(const struct spt_heat_inputs *in,
                                     struct spt_heat_balance *out);

#endif
