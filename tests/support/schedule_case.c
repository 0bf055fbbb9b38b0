/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/schedule_case.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/plain.h"

struct spt_phase schedule_phase;
struct spt_phase_result schedule_results[2];

struct spt_case schedule_case(enum spt_lubrication kind)
{
    struct spt_case question = plain_case("bench");
    question.yearly_use_h = 2385;
    schedule_phase = (struct spt_phase){
        .name = "run",
        .time_share = 1,
        .speed_rpm = 1237,
        .radial_load_n = 2900,
        .equivalent_load_n = (double)NAN,
        .temperature_c = 61,
        .setting_factor = 1,
        .cured_setting_factor = 1,
        .condition = {.cleanliness = spt_cleanliness_first(kind),
                      .contamination_factor = (double)NAN,
                      .water_ppm = 100},
    };
    if (kind == SPT_LUBRICATION_GREASE)
        schedule_phase.condition.cleanliness = SPT_CLEANLINESS_GREASE_NORMAL;
    question.bearings[0] =
        (struct spt_bearing_case){plain_bearing(SPT_DEEP_GROOVE_BALL), &schedule_phase, 1};
    struct spt_bearing *bearing = &question.bearings[0].bearing;
    bearing->bore_mm = 40;
    bearing->outside_diameter_mm = 80;
    bearing->width_mm = 18;
    bearing->pitch_diameter_mm = 60;
    bearing->dynamic_load_rating_n = 29500;
    bearing->static_load_rating_n = 18000;
    bearing->fatigue_load_limit_n = 820;
    question.lubricant = (struct spt_lubricant){
        .kind = kind, .density_g_cm3 = (double)NAN, .solubility = SPT_SOLUBILITY_ADDITIVATED};
    cr_assert_eq(spt_viscosity_line(40, 105, 100, 11.3, &question.lubricant.line), SPT_OK);
    return question;
}

struct spt_schedule_inputs schedule_inputs(const struct spt_case *question)
{
    return (struct spt_schedule_inputs){
        .question = question,
        .limits = {(double)NAN, -1},
        .costs = {(double)NAN, (double)NAN},
        .floor = SPT_WEIBULL_FLOOR,
    };
}

double schedule_grease_h(const struct spt_schedule_inputs *inputs)
{
    struct spt_schedule plan;
    cr_assert_eq(spt_schedule(inputs, schedule_results, &plan), SPT_OK);
    return plan.bearings[0].interval_h;
}

const struct spt_schedule_task *schedule_task(const struct spt_schedule *schedule,
                                              enum spt_task task)
{
    for (int i = 0; i < schedule->task_count; i++)
        if (schedule->tasks[i].task == task)
            return &schedule->tasks[i];
    return NULL;
}

struct spt_service schedule_drift_service(double from_h, double to_h)
{
    const double none = (double)NAN;
    struct spt_service service = {
        .regrease_every_h = none, .oil_change_every_h = none, .until_h = none, .drift_count = 1};
    service.drifts[0] = (struct spt_drift){.name = "d",
                                           .from_h = from_h,
                                           .to_h = to_h,
                                           .water_from_ppm = none,
                                           .water_to_ppm = none,
                                           .class_from = -1,
                                           .class_to = -1,
                                           .load_from = none,
                                           .load_to = none,
                                           .rise_from_k = none,
                                           .rise_to_k = none};
    return service;
}
