/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_MACHINE_EXAMPLE_H
#define TESTS_MACHINE_EXAMPLE_H

#include <math.h>

#include "spalltime/machine.h"

#define DEG (3.14159265358979323846 / 180)

/* A part in which nothing is stated but its kind and place. */
static inline struct spt_part bare_part(enum spt_part_kind kind, double at_mm)
{
    double none = (double)NAN;
    return (struct spt_part){.name = "part",
                             .kind = kind,
                             .role = SPT_PART_ROLE_IDLE,
                             .power_share = none,
                             .at_mm = at_mm,
                             .diameter_mm = none,
                             .towards_rad = none,
                             .plus_rad = none,
                             .minus_rad = none,
                             .wrap_rad = none,
                             .groove_rad = none,
                             .pull_factor = none,
                             .pretension_n = none,
                             .balance_m_s = none,
                             .lever_mm = none,
                             .load_factor = 1,
                             .start_factor = 1};
}

/* A direction written clockwise from straight up. */
static inline double clock_rad(double deg)
{
    return (deg + 90) * DEG;
}

/* The state of a part with a torque in N m. */
static inline struct spt_part_state with_torque(double torque_nm, double spin)
{
    return (struct spt_part_state){torque_nm * 1e3, fabs(torque_nm) * 1e3, spin, 310, 0};
}

/* A single-row tapered roller bearing with Y 1.6 and e 0.375, T 27 mm. */
static inline struct spt_bearing tapered_example(void)
{
    double none = (double)NAN;
    return (struct spt_bearing){.name = "row",
                                .type = SPT_TAPERED_ROLLER,
                                .bore_mm = 50,
                                .outside_diameter_mm = 90,
                                .width_mm = 27,
                                .pitch_diameter_mm = 70,
                                .dynamic_load_rating_n = 100e3,
                                .static_load_rating_n = 120e3,
                                .fatigue_load_limit_n = 14e3,
                                .rows = 1,
                                .contact_angle_rad = none,
                                .limit_ratio = 0.375,
                                .radial_factor = none,
                                .axial_factor = 1.6,
                                .static_axial_factor = 0.9,
                                .f0 = none,
                                .rib_diameter_mm = none};
}

#endif
