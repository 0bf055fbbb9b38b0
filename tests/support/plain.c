/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/plain.h"

#include <math.h>

struct spt_bearing plain_bearing(enum spt_bearing_type type)
{
    const double none = (double)NAN;
    return (struct spt_bearing){
        .name = "",
        .type = type,
        .bore_mm = none,
        .outside_diameter_mm = none,
        .width_mm = none,
        .pitch_diameter_mm = none,
        .dynamic_load_rating_n = none,
        .static_load_rating_n = none,
        .fatigue_load_limit_n = none,
        .rows = 0,
        .contact_angle_rad = none,
        .limit_ratio = none,
        .radial_factor = none,
        .axial_factor = none,
        .static_axial_factor = none,
        .f0 = none,
        .rib_diameter_mm = none,
    };
}

struct spt_geometry plain_geometry(double gamma, double angle_deg)
{
    double flat = angle_deg >= 90.0 ? 1.0 : cos(angle_deg * DEG);
    return (struct spt_geometry){
        .elements = 12,
        .rows = 0,
        .element_diameter_mm = 100.0 * gamma / flat,
        .element_length_mm = 10.0,
        .contact_angle_rad = angle_deg * DEG,
        .pitch_diameter_mm = 100.0,
        .inner_groove_ratio = (double)NAN,
        .outer_groove_ratio = (double)NAN,
    };
}

struct spt_case plain_case(const char *title)
{
    const double none = (double)NAN;
    return (struct spt_case){
        .title = title,
        .bearing_count = 1,
        .reliability_percent = 90,
        .target_life_h = none,
        .reference_load_n = none,
        .yearly_use_h = none,
        .age_limit_h = none,
    };
}
