/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/timeline.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

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

static struct spt_case make_case(void)
{
    struct spt_case question = {
        .title = "a hub",
        .lubricant = {.kind = SPT_LUBRICATION_GREASE,
                      .viscosity_40_mm2_s = 150,
                      .viscosity_index = 95,
                      .density_g_cm3 = (double)NAN},
        .bearing_count = 1,
        .reliability_percent = 90,
        .target_life_h = (double)NAN,
        .reference_load_n = (double)NAN,
        .yearly_use_h = (double)NAN,
        .age_limit_h = (double)NAN,
    };
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
    cr_assert_eq(spt_viscosity_line(40, 150, 100, 14.5, &question.lubricant.line), SPT_OK);
    question.lubricant.viscosity_100_mm2_s = 14.5;
    return question;
}

static double life_with(const struct spt_service *service)
{
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_timeline_room room = {phases, results};
    const struct spt_case question = make_case();
    static struct spt_timeline line;
    cr_assert_eq(spt_timeline(&question, service, &room, &line), SPT_OK);
    return line.life_h;
}

/* An event that changes nothing cuts the run of equal intervals in two, so that the intervals
 * before it are counted in another way than those behind it. */
Test(timeline_property, equal_intervals_counted_at_once_cost_what_they_cost_one_by_one)
{
    static const double events_h[] = {1234.5, 7001, 20000};
    const struct spt_case same[4] = {make_case(), make_case(), make_case(), make_case()};
    struct spt_service plain = {
        .regrease_every_h = 611, .oil_change_every_h = (double)NAN, .until_h = 4e5};
    double want_h = life_with(&plain);
    cr_assert(want_h > 1e3 && want_h < 4e5, "%g", want_h);
    for (int i = 0; i < 3; i++) {
        struct spt_service cut = plain;
        cut.event_count = 1;
        cut.events[0] = (struct spt_event){"nothing", events_h[i], (double)NAN};
        cut.cases = same;
        cr_expect(near(life_with(&cut), want_h, 1e-9, 0), "cut at %g h: %.9g, not %.9g",
                  events_h[i], life_with(&cut), want_h);
    }
}

/* More often greased, longer alive, and at most as long as with grease that is ever fresh. */
Test(timeline_property, shorter_intervals_never_shorten_the_life)
{
    static const double intervals_h[] = {5000, 1500, 611, 200, 37, 1, 0.01};
    double before_h = 0;
    for (int i = 0; i < 7; i++) {
        struct spt_service service = {
            .regrease_every_h = intervals_h[i], .oil_change_every_h = (double)NAN, .until_h = 4e5};
        double life_h = life_with(&service);
        cr_expect(life_h >= before_h * (1 - 1e-9), "every %g h: %g h, %g h before", intervals_h[i],
                  life_h, before_h);
        before_h = life_h;
    }
}

Test(timeline_property, too_many_stretches_are_refused)
{
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_timeline_room room = {phases, results};
    const struct spt_case question = make_case();
    static struct spt_timeline line;
    struct spt_service service = {.regrease_every_h = 0.01,
                                  .oil_change_every_h = (double)NAN,
                                  .until_h = 4e5,
                                  .drift_count = 1};
    service.drifts[0] = (struct spt_drift){
        "warming", 0, 3e5, (double)NAN, (double)NAN, -1, -1, (double)NAN, (double)NAN, 0, 9};
    cr_expect_eq(spt_timeline(&question, &service, &room, &line), SPT_NOT_CONVERGED);
}
