/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/beet.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/plain.h"

static struct spt_phase make_phase(const char *name, double share, double speed_rpm, double load_n,
                                   double temperature_c)
{
    return (struct spt_phase){
        .name = name,
        .time_share = share,
        .speed_rpm = speed_rpm,
        .radial_load_n = load_n,
        .axial_load_n = load_n / 5,
        .equivalent_load_n = (double)NAN,
        .temperature_c = temperature_c,
        .ambient_c = 20,
        .cooling_factor = 1,
        .setting_factor = 1,
        .cured_setting_factor = 1,
        .condition = {.cleanliness = SPT_CLEANLINESS_GREASE_NORMAL,
                      .contamination_factor = (double)NAN,
                      .water_ppm = 180,
                      .grease_age_h = 1200},
    };
}

void beet_prepare(struct beet *beet)
{
    struct spt_bearing bearing = plain_bearing(SPT_TAPERED_ROLLER);
    bearing.name = "inner row";
    bearing.bore_mm = 60;
    bearing.outside_diameter_mm = 110;
    bearing.width_mm = 29.75;
    bearing.pitch_diameter_mm = 85;
    bearing.dynamic_load_rating_n = 126.5e3;
    bearing.static_load_rating_n = 167.4e3;
    bearing.fatigue_load_limit_n = 20.4e3;
    bearing.limit_ratio = 0.40;
    bearing.axial_factor = 1.5;
    bearing.static_axial_factor = 0.82;
    beet->phases[0] = make_phase("road", 0.45, 420, 21e3, 70);
    beet->phases[1] = make_phase("field", 0.2, 90, 24e3, 45);
    beet->phases[2] = make_phase("empty", 0.35, 480, 7e3, 60);
    beet->question = (struct spt_case){
        .title = "beet",
        .lubricant = {.name = "grease",
                      .kind = SPT_LUBRICATION_GREASE,
                      .viscosity_40_mm2_s = 150,
                      .viscosity_100_mm2_s = 14.5,
                      .viscosity_index = 95,
                      .density_g_cm3 = (double)NAN},
        .bearing_count = 1,
        .bearings = {{bearing, beet->phases, BEET_PHASES}},
        .reliability_percent = 90,
        .target_life_h = (double)NAN,
        .reference_load_n = 18e3,
        .yearly_use_h = (double)NAN,
        .age_limit_h = (double)NAN,
    };
    cr_assert_eq(spt_viscosity_line(40, 150, 100, 14.5, &beet->question.lubricant.line), SPT_OK);
}

double beet_life_h(const struct beet *beet)
{
    struct spt_phase_result phases[BEET_PHASES];
    struct spt_bearing_result result;
    cr_assert_eq(spt_assess_bearing(&beet->question, 0, 0, phases, &result), SPT_OK);
    return result.modified_rating_life_h;
}
