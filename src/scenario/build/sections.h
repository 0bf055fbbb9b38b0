/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_BUILD_SECTIONS_H
#define SCENARIO_BUILD_SECTIONS_H

#include "scenario/text/fields.h"
#include "spalltime/sweep.h"

/* The sections of a scenario as written, before cross-checks. Members have the names of the keys;
 * fields.h defines the values of absent ones. */

struct raw_geometry {
    const struct spt_node *at;
    int elements, rows;
    double element_diameter_mm, element_length_mm, contact_angle_rad, pitch_diameter_mm;
    double inner_groove_ratio, outer_groove_ratio;
};

struct raw_axial_factors {
    const struct spt_node *at;
    double limit_ratio, radial_factor, low_axial_factor, axial_factor, static_axial_factor;
};

struct raw_bearing {
    const struct spt_node *at;
    const char *catalog, *name, *source;
    int type, rows, turning;
    double bore_mm, outside_diameter_mm, width_mm, pitch_diameter_mm, rib_diameter_mm;
    double dynamic_load_rating_n, static_load_rating_n, fatigue_load_limit_n;
    double contact_angle_rad, f0;
    double load_centre_mm, speed_limit_rpm, mass_kg, price;
    int load_centre_from, stock;
    int clearance, shaft_fit, housing_fit;
    double temperature_difference_k, shaft_bore_mm, housing_outside_mm;
    struct raw_axial_factors axial_factors;
    struct raw_geometry geometry;
};

struct raw_lubricant {
    const struct spt_node *at;
    const char *catalog, *name, *source;
    int kind;
    const char *grade;
    double viscosity_40_mm2_s, viscosity_100_mm2_s, viscosity_index, density_g_cm3;
    int ep_additive, water_solubility, base_oil, oil_life, sampled, greased_for_life;
};

struct raw_filter {
    const struct spt_node *at;
    int place;
    double ingress_per_min, flow_ml_min, beta, beta_size_mm, bypass_share, volume_ml;
};

struct raw_condition {
    const struct spt_node *at;
    const char *catalog, *name, *source;
    const char *cleanliness;
    double contamination_factor, water_ppm, grease_age_h, coldest_c;
    int dust, moisture, vibration, shaft, indoors;
    int seal, breather, surroundings, wet;
    struct spt_amount seal_age;
    struct raw_filter filter;
};

struct raw_phase {
    const struct spt_node *at;
    const char *phase;
    struct spt_amount time;
    double speed_rpm, radial_load_n, axial_load_n, equivalent_load_n;
    double road_speed_km_h, wheel_load_n, side_force_n, side_share;
    double power_w, torque_nm, belt_speed_km_h;
    struct spt_amount distance;
    const char *without;
    double payload_kg, radius_mm, bank, braking_g, own_brakes, drag_n, surface_factor;
    int bend;
    int turns;
    const struct spt_node *parts;
    struct spt_amount temperature;
    double ambient_c, extra_heat_w;
    struct spt_amount cooling;
    const struct spt_node *condition;
};

struct raw_misalignment {
    const struct spt_node *at;
    double about_x_rad, about_y_rad;
};

struct raw_setting_range {
    const struct spt_node *at;
    double lowest_mm, highest_mm;
};

struct raw_hub {
    const struct spt_node *at;
    const struct spt_node *inboard, *outboard;
    double inboard_position_mm, outboard_position_mm, rolling_radius_mm;
    double inboard_shoulder_mm, outboard_shoulder_mm;
    int mounting, turning, laminae, preload_allowed;
    double end_play_mm, preload_mm, preload_force_n;
    double temperature_difference_k, setting_scatter_mm;
    struct raw_setting_range setting_range;
    struct raw_misalignment inboard_misalignment, outboard_misalignment;
};

struct raw_season {
    const struct spt_node *at;
    int from, months;
};

struct raw_support {
    const struct spt_node *at;
    const char *support;
    const struct spt_node *bearing, *condition;
    double at_mm, load_centre_mm, warmer_k, stiffness_n_mm, seat_up_mm, seat_across_mm;
    int takes_thrust;
};

struct raw_piece {
    const struct spt_node *at;
    double to_mm, diameter_mm, bore_mm;
};

/* A part of a shaft; which of these members it may have depends on its kind. */
struct raw_part {
    const struct spt_node *at;
    /* one of these: the name, under its kind */
    const char *gear, *bevel_gear, *worm, *worm_wheel, *belt, *chain, *drum, *coupling, *impeller,
        *drive, *crank, *weight, *force;
    double at_mm, power_share;
    int role, takes_the_rest;
    int teeth, hand, double_helical, inside_teeth, large_end, tensioner, thrust_towards;
    double pitch_diameter_mm, normal_module_mm, pressure_rad, helix_rad, cone_rad, face_width_mm;
    double lead_rad, mate_towards_rad, efficiency, machine_factor, tooth_factor, friction;
    const char *mate;
    double pulley_diameter_mm, other_pulley_mm, centre_distance_mm, towards_rad;
    double tight_rad, slack_rad, wrap_rad, groove_rad, pull_factor, pretension_n, slack_pull_n;
    double pitch_mm, diameter_mm, start_factor, reaction_share;
    double mass_kg, balance_m_s, unbalance_g_mm, thrust_n;
    double arm_mm, arm_towards_rad, radius_mm, pull_n;
};

struct raw_shaft {
    const struct spt_node *at;
    const char *shaft;
    int turns, mounting, position, own_weight;
    double starts_at_mm;
    const struct spt_node *supports, *carries, *sections;
};

struct raw_trailer_mass {
    const struct spt_node *at;
    const char *name;
    double mass_kg, behind_mm, height_mm, left_mm;
};

struct raw_axle {
    const struct spt_node *at;
    const char *axle;
    double behind_mm;
};

struct raw_tyre {
    const struct spt_node *at;
    double rolling_radius_mm, loaded_radius_mm, scrub_stiffness, grip, camber_rad, offset_mm;
};

struct raw_brake {
    const struct spt_node *at;
    double disc_radius_mm, caliper_rad, disc_at_mm;
};

struct raw_trailer {
    const struct spt_node *at;
    int kind, equalised;
    const struct spt_node *masses, *axles, *hub;
    double eye_height_mm, pivot_height_mm, track_mm;
    struct raw_tyre tyre;
    struct raw_brake brake;
    const char *wheel;
};

struct raw_machine {
    const struct spt_node *at;
    const struct spt_node *shaft, *shafts, *trailer;
    const char *driven_at;
};

struct raw_usage {
    const struct spt_node *at;
    struct raw_season season;
    double yearly_h, age_limit_h, distance_per_hour_km_h, rolling_radius_mm;
    int fleet, units;
};

/* From one value to another; classes of cleanliness are texts. */
struct raw_span {
    const struct spt_node *at;
    double start, end;
};

struct raw_class_span {
    const struct spt_node *at;
    const char *start, *end;
};

struct raw_drift {
    const struct spt_node *at;
    const char *drift;
    double from_h, to_h;
    struct raw_span water, load_factor, temperature_rise;
    struct raw_class_span cleanliness;
};

struct raw_event {
    const struct spt_node *at;
    const char *event, *note;
    double at_h;
    int new_bearing;
    const struct spt_node *bearing, *hub, *machine, *lubricant, *condition, *duty;
};

struct raw_past {
    const struct spt_node *at;
    double hours_run_h;
    const char *worst_cleanliness;
    const struct spt_node *condition;
};

struct raw_limits {
    const struct spt_node *at;
    double water_ppm;
    const char *cleanliness;
};

struct raw_costs {
    const struct spt_node *at;
    double planned, failure, visit, downtime, job_h, wage, grease;
    double investment, investment_years, interest;
    const char *currency;
};

struct raw_service {
    const struct spt_node *at;
    double regrease_h, oil_change_h, until_h;
    int new_gearbox;
    const struct spt_node *events, *drifts;
    struct raw_limits limits;
};

/* Distribution of a factor (plain numbers and percentages) or of a temperature (K). */
struct raw_spread {
    const struct spt_node *at;
    double plus_minus, low, peak, high, normal, lognormal;
};

struct raw_class_weight {
    const struct spt_node *at;
    const char *class;
    double weight;
};

struct raw_uncertainty {
    const struct spt_node *at;
    int seed;
    struct raw_spread load, speed, temperature, water, rating, end_play;
    const struct spt_node *cleanliness;
};

/* One axis of a sweep; which of these members its section has depends on the field. */
struct raw_axis {
    const struct spt_node *at;
    double from, to, step;
    int steps, spacing, all;
    const struct spt_node *values;
};

struct raw_sweep {
    const struct spt_node *at;
    int combine;
    struct raw_axis axes[SPT_SWEEP_FIELD_COUNT];
};

struct raw_scenario {
    const struct spt_node *at;
    const char *title, *note;
    const struct spt_node *bearing, *hub, *machine, *lubricant, *condition, *duty, *variants;
    double reliability_percent, reference_load_n, grease_risk;
    int running, vehicle_hub;
    struct spt_amount target_life;
    struct raw_past past;
    struct raw_usage usage;
    struct raw_service service;
    struct raw_costs costs;
    struct raw_uncertainty uncertainty;
    struct raw_sweep sweep;
};

struct raw_variant {
    const struct spt_node *at;
    const char *name, *note;
    const struct spt_node *bearing, *hub, *machine, *lubricant, *condition, *duty, *costs;
    double reliability_percent, reference_load_n, grease_risk;
    int running, vehicle_hub;
    struct spt_amount target_life;
    struct raw_past past;
};

extern const struct spt_section spt_section_scenario;
extern const struct spt_section spt_section_bearing;
extern const struct spt_section spt_section_hub;
extern const struct spt_section spt_section_wheel_hub; /* `hub` without `rolling_radius` */
extern const struct spt_section spt_section_trailer;
extern const struct spt_section spt_section_trailer_mass;
extern const struct spt_section spt_section_axle;
extern const struct spt_section spt_section_machine;
extern const struct spt_section spt_section_shaft;
extern const struct spt_section spt_section_support;
extern const struct spt_section spt_section_part;
extern const struct spt_section spt_section_piece;
extern const struct spt_section spt_section_phase_part;
extern const struct spt_section spt_section_lubricant;
extern const struct spt_section spt_section_condition;
extern const struct spt_section spt_section_phase;
extern const struct spt_section spt_section_variant;
extern const struct spt_section spt_section_event;
extern const struct spt_section spt_section_drift;
extern const struct spt_section spt_section_class_weight;
extern const struct spt_section spt_section_service;
extern const struct spt_section spt_section_costs;
extern const struct spt_section spt_section_uncertainty;
extern const struct spt_section spt_section_sweep;

/* The key, unit and range of a field of a sweep; NULL where its values are words instead of
 * numbers. */
const char *spt_sweep_key(enum spt_sweep_field field);
const struct spt_field *spt_sweep_number(enum spt_sweep_field field);

#endif
