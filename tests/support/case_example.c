/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/case_example.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/assess.h"
#include "support/plain.h"

static const double none = (double)NAN;

static struct spt_bearing make_tapered(double rating_n)
{
    struct spt_bearing bearing = plain_bearing(SPT_TAPERED_ROLLER);
    bearing.bore_mm = 60;
    bearing.outside_diameter_mm = 110;
    bearing.width_mm = 29.75;
    bearing.pitch_diameter_mm = 85;
    bearing.dynamic_load_rating_n = rating_n;
    bearing.static_load_rating_n = 1.2 * rating_n;
    bearing.fatigue_load_limit_n = 0.15 * rating_n;
    bearing.contact_angle_rad = 15 * DEG;
    bearing.limit_ratio = 0.4;
    bearing.radial_factor = 0.4;
    bearing.axial_factor = 1.5;
    bearing.static_axial_factor = 0.82;
    return bearing;
}

static struct spt_phase make_phase(const char *name, double share, double speed_rpm,
                                   double radial_n, double axial_n, double temperature_c)
{
    return (struct spt_phase){
        .name = name,
        .time_share = share,
        .speed_rpm = speed_rpm,
        .radial_load_n = radial_n,
        .axial_load_n = axial_n,
        .equivalent_load_n = none,
        .temperature_c = temperature_c,
        .ambient_c = 20,
        .cooling_factor = 1,
        .setting_factor = 1,
        .cured_setting_factor = 1,
        .condition = {.contamination_factor = none, .water_ppm = 200},
    };
}

void example_set_oil(struct spt_case *question, double viscosity_40_mm2_s, double index)
{
    struct spt_lubricant *oil = &question->lubricant;
    oil->viscosity_40_mm2_s = viscosity_40_mm2_s;
    oil->viscosity_index = index;
    cr_assert_eq(spt_viscosity_100_from_index(viscosity_40_mm2_s, index, &oil->viscosity_100_mm2_s),
                 SPT_OK);
    cr_assert_eq(
        spt_viscosity_line(40, viscosity_40_mm2_s, 100, oil->viscosity_100_mm2_s, &oil->line),
        SPT_OK);
}

static void make_case(struct example_case *made, enum spt_lubrication kind, int bearings)
{
    made->question = (struct spt_case){
        .title = "example",
        .lubricant = {.name = "oil",
                      .kind = kind,
                      .density_g_cm3 = none,
                      .solubility = SPT_SOLUBILITY_ADDITIVATED},
        .bearing_count = bearings,
        .reliability_percent = 90,
        .target_life_h = none,
        .reference_load_n = none,
        .yearly_use_h = none,
        .age_limit_h = none,
    };
    example_set_oil(&made->question, 150, 95);
    for (int i = 0; i < bearings; i++)
        made->question.bearings[i] =
            (struct spt_bearing_case){make_tapered(i ? 110e3 : 130e3), made->phases[i], 0};
}

void example_make(struct example_case *made, enum spt_lubrication kind, int bearings)
{
    make_case(made, kind, bearings);
    for (int i = 0; i < bearings; i++) {
        double scale = i ? 0.85 : 1;
        made->phases[i][0] = make_phase("road", 0.6, 420, 15e3 * scale, 3e3, 65);
        made->phases[i][1] = make_phase("field", 0.4, 90, 17e3 * scale, 6e3, 50);
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            struct spt_condition *state = &made->phases[i][j].condition;
            state->cleanliness =
                (enum spt_cleanliness)((int)spt_cleanliness_first(kind) + 1); /* second cleanest */
            state->grease_age_h = kind == SPT_LUBRICATION_GREASE ? 900 : 0;
        }
        made->question.bearings[i].phase_count = EXAMPLE_PHASES;
    }
}

void example_make_basic(struct example_case *made, double rating_n, double load_n, double speed_rpm)
{
    make_case(made, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_bearing *bearing = &made->question.bearings[0].bearing;
    *bearing = make_tapered(rating_n);
    bearing->type = SPT_DEEP_GROOVE_BALL;
    made->phases[0][0] = make_phase("all", 1, speed_rpm, 0, 0, 60);
    made->phases[0][0].equivalent_load_n = load_n;
    made->phases[0][0].condition = (struct spt_condition){.contamination_factor = 0};
    made->question.bearings[0].phase_count = 1;
}

void example_copy(const struct example_case *from, struct example_case *to)
{
    *to = *from;
    for (int i = 0; i < to->question.bearing_count; i++)
        to->question.bearings[i].phases = to->phases[i];
}

double example_life(const struct spt_case *question)
{
    struct spt_phase_result results[EXAMPLE_PHASES];
    double life_h = none;
    cr_assert_eq(spt_case_life(question, results, &life_h), SPT_OK);
    return life_h;
}
