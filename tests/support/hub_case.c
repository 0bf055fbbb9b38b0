/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hub_case.h"

#include "support/plain.h"
#include <math.h>

static const struct spt_phase phase = {
    .name = "running",
    .time_share = 1,
    .speed_rpm = 427,
    .radial_load_n = 17300,
    .equivalent_load_n = (double)NAN,
    .temperature_c = 71.3,
    .ambient_c = 20,
    .cooling_factor = 1,
    .setting_factor = 1,
    .cured_setting_factor = 1,
    .condition = {.cleanliness = SPT_CLEANLINESS_GREASE_NORMAL,
                  .contamination_factor = (double)NAN,
                  .water_ppm = 140},
};

struct spt_case hub_case(void)
{
    struct spt_case question = plain_case("a hub");
    question.lubricant = (struct spt_lubricant){.kind = SPT_LUBRICATION_GREASE,
                                                .viscosity_40_mm2_s = 150,
                                                .viscosity_index = 95,
                                                .density_g_cm3 = (double)NAN};
    question.bearings[0] = (struct spt_bearing_case){
        .bearing = {.type = SPT_TAPERED_ROLLER,
                    .bore_mm = 60,
                    .outside_diameter_mm = 110,
                    .width_mm = 29.75,
                    .pitch_diameter_mm = 85,
                    .rib_diameter_mm = (double)NAN,
                    .contact_angle_rad = 0.26,
                    .dynamic_load_rating_n = 150e3,
                    .static_load_rating_n = 176e3,
                    .fatigue_load_limit_n = 21.5e3,
                    .limit_ratio = 0.4,
                    .axial_factor = 1.5,
                    .static_axial_factor = 0.82,
                    .radial_factor = (double)NAN,
                    .f0 = (double)NAN,
                    .rows = 1},
        .phases = &phase,
        .phase_count = 1,
    };
    spt_viscosity_line(40, 150, 100, 14.5, &question.lubricant.line);
    question.lubricant.viscosity_100_mm2_s = 14.5;
    return question;
}

struct spt_case oil_case(void)
{
    static struct spt_phase wet;
    struct spt_case question = hub_case();
    wet = phase;
    wet.condition.cleanliness = SPT_CLEANLINESS_BATH_15_12;
    question.lubricant.kind = SPT_LUBRICATION_OIL_BATH;
    question.bearings[0].phases = &wet;
    return question;
}
