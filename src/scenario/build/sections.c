/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/build/sections.h"

#include <gsl/gsl_math.h>

#include "scenario/build/section_fields.h"
#include "spalltime/bearing.h"
#include "spalltime/hub.h"
#include "spalltime/lubricant.h"
#include "words/words.h"

#define S struct raw_geometry
static const struct spt_field geometry_fields[] = {
    INTEGER("elements", elements, 3, 1000, "19", "rollers or balls in one row, Z"),
    INTEGER("rows", rows, 1, 8, "1",
            "rows, i; where absent 2 of spherical roller and self-aligning ball, else 1"),
    ABOVE("element_diameter", element_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "12 mm",
          "roller or ball diameter, D_we or D_w"),
    ABOVE("element_length", element_length_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "20 mm",
          "effective roller length, L_we"),
    QUANTITY(
        "contact_angle", contact_angle_rad, SPT_ANGLE, 0, M_PI_2 + 1e-9, "15 deg",
        "nominal contact angle, alpha; 0 deg of deep groove, cylindrical and needle where absent"),
    ABOVE("pitch_diameter", pitch_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "85 mm",
          "D_pw; the bearing's where absent"),
    QUANTITY("inner_groove_ratio", inner_groove_ratio, SPT_NO_DIMENSION, SPT_GROOVE_RATIO_MIN,
             SPT_GROOVE_RATIO_MAX, "0.52", "groove radius over ball diameter, inner ring"),
    QUANTITY("outer_groove_ratio", outer_groove_ratio, SPT_NO_DIMENSION, SPT_GROOVE_RATIO_MIN,
             SPT_GROOVE_RATIO_MAX, "0.53", "groove radius over ball diameter, outer ring"),
};
static const struct spt_section section_geometry = {
    "`geometry`", "inside geometry, from which the ratings are computed", geometry_fields,
    COUNT(geometry_fields), sizeof(S)};
#undef S

#define S struct raw_axial_factors
static const struct spt_field axial_factor_fields[] = {
    ABOVE("e", limit_ratio, SPT_NO_DIMENSION, 0, 10, "0.40", "limit of Fa/Fr"),
    QUANTITY("X", radial_factor, SPT_NO_DIMENSION, 0, 10, "0.4", "radial factor above e"),
    ABOVE("Y1", low_axial_factor, SPT_NO_DIMENSION, 0, 20, "1.0",
          "two rows: axial factor up to e; from e, X and Y where absent"),
    ABOVE("Y", axial_factor, SPT_NO_DIMENSION, 0, 20, "1.5",
          "axial factor above e; Y2 of two rows"),
    QUANTITY("Y0", static_axial_factor, SPT_NO_DIMENSION, 0, 20, "0.82", "static axial factor"),
};
static const struct spt_section section_axial_factors = {
    "`axial_factors`", "factors of the equivalent load", axial_factor_fields,
    COUNT(axial_factor_fields), sizeof(S)};
#undef S

#define S struct raw_bearing
static const struct spt_field bearing_fields[] = {
    TEXT("catalog", catalog, "roller 60-110", "catalog entry that this one starts from"),
    TEXT("name", name, "inner row", "name in the reports"),
    TEXT("source", source, "drawing 12", "where the data come from"),
    CHOICE("type", type, &spt_bearing_type_words, "tapered roller", "type of bearing"),
    ABOVE("bore", bore_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "60 mm", "bore diameter, d"),
    ABOVE("outside_diameter", outside_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "110 mm",
          "outside diameter, D"),
    ABOVE("width", width_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "29.75 mm",
          "width B; assembled width T of a tapered bearing; height of a thrust bearing"),
    ABOVE("pitch_diameter", pitch_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "85 mm",
          "D_pw; (d + D)/2 where absent, and said so"),
    ABOVE("rib_diameter", rib_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "84 mm",
          "large rib of a tapered inner ring; D_pw where absent"),
    ABOVE("dynamic_load_rating", dynamic_load_rating_n, SPT_FORCE, 0, FORCE_MAX_N, "150 kN",
          "C; from `geometry` where absent"),
    ABOVE("static_load_rating", static_load_rating_n, SPT_FORCE, 0, FORCE_MAX_N, "176 kN",
          "C0; from `geometry` where absent"),
    ABOVE("fatigue_load_limit", fatigue_load_limit_n, SPT_FORCE, 0, FORCE_MAX_N, "21.5 kN",
          "C_u; from C0 where absent, and said so"),
    INTEGER(
        "rows", rows, 1, 8, "1",
        "rows of rolling elements; where absent 2 of spherical roller and self-aligning ball, else "
        "1"),
    QUANTITY("contact_angle", contact_angle_rad, SPT_ANGLE, 0, M_PI_2 + 1e-9, "15 deg",
             "nominal contact angle"),
    ABOVE("f0", f0, SPT_NO_DIMENSION, 0, 70, "13.8", "ball bearings: factor of ISO 76"),
    SECTION("axial_factors", axial_factors, &section_axial_factors,
            "given factors e, X, Y1, Y, Y0; they win over the tables"),
    CHOICE("turning", turning, &spt_hub_turning_words, "outer",
           "ring that turns under a load that stands still: outer for a wheel; inner where absent; "
           "a hub states it for both rows"),
    SECTION("geometry", geometry, &section_geometry, "inside geometry"),
    QUANTITY("load_centre", load_centre_mm, SPT_LENGTH, -LENGTH_MAX_MM, LENGTH_MAX_MM, "22 mm",
             "tapered and angular contact: where the load line meets the axis, a, from the back "
             "face of the outer ring"),
    CHOICE("load_centre_from", load_centre_from, &spt_hub_turning_words, "outer",
           "ring from whose back face `load_centre` counts: outer, or inner as inch sheets have it "
           "(below 0 is inside the bearing); outer where absent"),
    ABOVE("speed_limit", speed_limit_rpm, SPT_ROTATION, 0, 1e6, "5600 rpm",
          "speed that the sheet allows; flagged above it"),
    ABOVE("mass", mass_kg, SPT_MASS, 0, 1e5, "0.9 kg", "for `choose`"),
    QUANTITY("price", price, SPT_NO_DIMENSION, 0, 1e9, "41.50", "in any currency, for `choose`"),
    CHOICE("clearance", clearance, &spt_clearance_words, "group 3",
           "deep groove, cylindrical, spherical: class of radial clearance (ISO 5753-1), for the "
           "clearance at work"),
    CHOICE("shaft_fit", shaft_fit, &spt_shaft_fit_words, "k5",
           "tolerance of the shaft seat; the ring is taken as free on it where absent"),
    CHOICE("housing_fit", housing_fit, &spt_housing_fit_words, "H7",
           "the same of the housing seat"),
    QUANTITY("temperature_difference", temperature_difference_k, SPT_TEMPERATURE_DIFFERENCE, -200,
             200, "10 K", "with `clearance`: inner ring warmer than the outer one when running"),
    ABOVE("shaft_bore", shaft_bore_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "20 mm",
          "with `clearance`: bore of a hollow shaft; solid where absent"),
    ABOVE("housing_outside", housing_outside_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "160 mm",
          "with `clearance`: outside diameter of the housing; heavy where absent"),
    INTEGER("stock", stock, 0, 1000000, "4", "pieces at hand, for `choose`"),
};
const struct spt_section spt_section_bearing = {"`bearing`",
                                                "one bearing, or the name of a catalog entry",
                                                bearing_fields, COUNT(bearing_fields), sizeof(S)};
#undef S

#define S struct raw_misalignment
static const struct spt_field misalignment_fields[] = {
    QUANTITY("about_x", about_x_rad, SPT_ANGLE, -TILT_MAX_RAD, TILT_MAX_RAD, "1 mrad",
             "about the level axis across: tilts the ring in the plane of the wheel load"),
    QUANTITY("about_y", about_y_rad, SPT_ANGLE, -TILT_MAX_RAD, TILT_MAX_RAD, "1 mrad",
             "about the upright axis"),
};
static const struct spt_section section_misalignment = {
    "the misalignment", "tilt of an inner ring on its seat", misalignment_fields,
    COUNT(misalignment_fields), sizeof(S)};
#undef S

#define S struct raw_setting_range
static const struct spt_field setting_range_fields[] = {
    NEEDED_SPAN("lowest", lowest_mm, SPT_LENGTH, -1, 1, "-0.15 mm", "preload is below 0"),
    NEEDED_SPAN("highest", highest_mm, SPT_LENGTH, -1, 1, "0.5 mm", "end play is above 0"),
};
static const struct spt_section section_setting_range = {
    "`setting_range`", "settings to search for the best one", setting_range_fields,
    COUNT(setting_range_fields), sizeof(S)};
#undef S

#define S struct raw_hub
#define HUB_ROWS                                                                                        \
    NAMED(                                                                                              \
        "inboard", inboard, true, &spt_section_bearing, "hub inboard 60-110",                           \
        "the row towards the vehicle: tapered; without inside `geometry` by the handbook alone"),       \
        NAMED(                                                                                          \
            "outboard", outboard, true, &spt_section_bearing, "hub outboard 45-85",                     \
            "the row away from the vehicle: tapered; without inside `geometry` by the handbook alone"), \
        QUANTITY("inboard_position", inboard_position_mm, SPT_LENGTH, -2000, 2000, "-25 mm",            \
                 "middle of its rollers, along the axis from the plane in which the wheel load "        \
                 "acts; away from the vehicle is above 0"),                                             \
        QUANTITY("outboard_position", outboard_position_mm, SPT_LENGTH, -2000, 2000, "60 mm",           \
                 "the same of the outboard row; it is the larger one"),                                 \
        QUANTITY(                                                                                       \
            "inboard_shoulder", inboard_shoulder_mm, SPT_LENGTH, -2000, 2000, "-20 mm",                 \
            "instead of `inboard_position`: the shoulder that its outer ring leans on, from the "       \
            "same plane; with the load centre `a` of its sheet"),                                       \
        QUANTITY("outboard_shoulder", outboard_shoulder_mm, SPT_LENGTH, -2000, 2000, "50 mm",           \
                 "the same of the outboard row")
#define HUB_SETTING                                                                                \
    CHOICE("mounting", mounting, &spt_hub_mounting_words, "back-to-back",                          \
           "back-to-back: the load lines meet the axis outside the rows, as in wheel hubs; "       \
           "face-to-face: between them; back-to-back where absent"),                               \
        CHOICE("turning", turning, &spt_hub_turning_words, "outer",                                \
               "ring that turns: outer for a hub on a spindle (where absent), inner for a shaft"), \
        QUANTITY("end_play", end_play_mm, SPT_LENGTH, 0, 1, "0.05 mm",                             \
                 "setting: axial play of the unloaded, cold pair; or one of the next two"),        \
        QUANTITY("preload", preload_mm, SPT_LENGTH, 0, 1, "0.02 mm",                               \
                 "setting: how far the rings are drawn together beyond no play"),                  \
        ABOVE("preload_force", preload_force_n, SPT_FORCE, 0, FORCE_MAX_N, "2 kN",                 \
              "setting: axial force in the unloaded, cold pair"),                                  \
        QUANTITY(                                                                                  \
            "temperature_difference", temperature_difference_k, SPT_TEMPERATURE_DIFFERENCE, -200,  \
            200, "10 K",                                                                           \
            "inner rings and spindle warmer than outer rings and hub when running; changes the "   \
            "setting; 0 K where absent"),                                                          \
        QUANTITY("setting_scatter", setting_scatter_mm, SPT_LENGTH, 0, 1, "0.02 mm",               \
                 "standard deviation of the settings that the workshop makes"),                    \
        SECTION("setting_range", setting_range, &section_setting_range,                            \
                "settings to search for the best one; -0.15 mm to 0.5 mm where absent"),           \
        YES_NO("preload_allowed", preload_allowed,                                                 \
               "the maker prescribes a preload; else no remedy is one, cold or running"),          \
        SECTION("inboard_misalignment", inboard_misalignment, &section_misalignment,               \
                "tilt of the inboard inner ring on its seat"),                                     \
        SECTION("outboard_misalignment", outboard_misalignment, &section_misalignment,             \
                "tilt of the outboard inner ring on its seat"),                                    \
        INTEGER("laminae", laminae, SPT_HUB_LAMINAE_MIN, SPT_HUB_LAMINAE_MAX, "41",                \
                "slices of a roller in the load distribution; 41 where absent")
static const struct spt_field hub_fields[] = {
    HUB_ROWS,
    NEEDED("rolling_radius", rolling_radius_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "480 mm",
           "height of the axis above the road: lever of the side force, and speed from a road "
           "speed"),
    HUB_SETTING,
};
const struct spt_section spt_section_hub = {"`hub`", "two tapered rows of a wheel hub", hub_fields,
                                            COUNT(hub_fields), sizeof(S)};
/* of a vehicle, whose tyre states the radius */
static const struct spt_field wheel_hub_fields[] = {HUB_ROWS, HUB_SETTING};
const struct spt_section spt_section_wheel_hub = {
    "`hub`", "two tapered rows of each hub of a vehicle", wheel_hub_fields, COUNT(wheel_hub_fields),
    sizeof(S)};
#undef S

#define S struct raw_lubricant
static const struct spt_field lubricant_fields[] = {
    TEXT("catalog", catalog, "hub grease 150", "catalog entry that this one starts from"),
    TEXT("name", name, "hub grease", "name in the reports"),
    TEXT("source", source, "data sheet 7", "where the data come from"),
    CHOICE("kind", kind, &spt_lubrication_words, "grease", "way of lubricating"),
    TEXT("grade", grade, "VG 150", "ISO 3448 viscosity grade"),
    QUANTITY("viscosity_40", viscosity_40_mm2_s, SPT_VISCOSITY, 2.5, 5000, "150 mm2/s",
             "(base) oil viscosity at 40 degC"),
    QUANTITY("viscosity_100", viscosity_100_mm2_s, SPT_VISCOSITY, 2, 500, "14.5 mm2/s",
             "(base) oil viscosity at 100 degC"),
    QUANTITY("viscosity_index", viscosity_index, SPT_NO_DIMENSION, -50, 400, "95",
             "viscosity index; 95 where nothing else says, and said so"),
    QUANTITY("density", density_g_cm3, SPT_DENSITY, 0.6, 1.5, "0.89 g/cm3",
             "density of the oil; no correction where absent"),
    YES_NO("ep_additive", ep_additive, "extreme-pressure additive proven effective"),
    CHOICE("water_solubility", water_solubility, &spt_solubility_words, "plain",
           "how much water the oil dissolves: plain for turbine and white oils; additivated where "
           "absent"),
    CHOICE("base_oil", base_oil, &spt_base_oil_words, "PAO",
           "oil: what bears the heat, for its limits: mineral (where absent), PAO, other"),
    CHOICE(
        "oil_life", oil_life, &spt_oil_life_words, "gear",
        "mineral oil: what it withstands for its own life: plain, gear, hydraulic, turbine; gear "
        "where absent, circulating oil hydraulic"),
    YES_NO("sampled", sampled, "oil: samples are taken and decide on its change"),
    YES_NO("greased_for_life", greased_for_life,
           "grease: sealed and filled by the maker of the bearing, it cannot be regreased"),
};
const struct spt_section spt_section_lubricant = {
    "`lubricant`", "the lubricant, or the name of a catalog entry", lubricant_fields,
    COUNT(lubricant_fields), sizeof(S)};
#undef S

#define S struct raw_filter
static const struct spt_field filter_fields[] = {
    CHOICE("place", place, &spt_filter_place_words, "full flow",
           "full flow (where absent), off-line, strainer, none"),
    QUANTITY("ingress", ingress_per_min, SPT_NO_DIMENSION, 0, 1e15, "100000000",
             "particles over 6 um that come in, a minute"),
    ABOVE("flow", flow_ml_min, SPT_FLOW, 0, 1e9, "40 l/min", "through the filter"),
    QUANTITY("beta", beta, SPT_NO_DIMENSION, 1, 1e6, "200",
             "particles before over particles behind it, ISO 16889"),
    ABOVE("beta_size", beta_size_mm, SPT_LENGTH, 0, 1, "6 um", "the size that `beta` is for"),
    QUANTITY("bypass", bypass_share, SPT_SHARE, 0, 1, "10 %",
             "share of the flow that goes round it; 0 where absent"),
    ABOVE("volume", volume_ml, SPT_VOLUME, 0, 1e12, "100 l", "oil in the system"),
};
static const struct spt_section section_filter = {
    "`filter`", "filter and dirt that comes in, for the cleanliness of oil", filter_fields,
    COUNT(filter_fields), sizeof(S)};
#undef S

#define S struct raw_condition
static const struct spt_field condition_fields[] = {
    TEXT("catalog", catalog, "washed down daily", "catalog entry that this one starts from"),
    TEXT("name", name, "after the wash", "name in the reports"),
    TEXT("source", source, "lab report 3", "where the data come from"),
    TEXT("cleanliness", cleanliness, "normal",
         "grease: high, normal, slight, severe, very severe; oil: an ISO 4406 code"),
    QUANTITY("contamination_factor", contamination_factor, SPT_NO_DIMENSION, 0, 1, "0.4",
             "e_C, instead of a cleanliness"),
    QUANTITY("water", water_ppm, SPT_CONTENT, 0, 1e6, "100 ppm", "water in the oil, by mass"),
    QUANTITY("grease_age", grease_age_h, SPT_DURATION, 0, LIFE_MAX_H, "1500 h",
             "running hours since the last greasing, the same in all phases of a duty"),
    CHOICE("dust", dust, &spt_dust_words, "light", "dust around the bearing"),
    CHOICE("moisture", moisture, &spt_moisture_words, "dry", "moisture around the bearing"),
    CHOICE("vibration", vibration, &spt_vibration_words, "low", "vibration of the housing"),
    CHOICE("shaft", shaft, &spt_shaft_words, "horizontal", "position of the shaft"),
    QUANTITY("coldest", coldest_c, SPT_TEMPERATURE, SPT_COLDEST_C, SPT_HOTTEST_AMBIENT_C, "5 degC",
             "coldest standstill, where water falls out of the oil; 0 degC where absent, 10 degC "
             "`indoors`"),
    YES_NO("indoors", indoors, "the machine stands under a heated roof"),
    CHOICE("seal", seal, &spt_seal_words, "one lip",
           "what keeps dirt out: none, torn, shield, gap, felt, one lip, two lips, labyrinth, "
           "cassette, face"),
    AMOUNT("seal_age", seal_age, SPT_CALENDAR, SPT_DURATION, NULL, 0, LIFE_MAX_H, false, "2 years",
           "age of the seal, calendar or running hours"),
    CHOICE("breather", breather, &spt_breather_words, "filter", "oil: how the housing breathes"),
    CHOICE("surroundings", surroundings, &spt_place_words, "dusty field",
           "where it works; with the seal it says the cleanliness where none is stated"),
    CHOICE("wet", wet, &spt_wet_words, "rain",
           "water there; with the seal it says the moisture where none is stated"),
    SECTION("filter", filter, &section_filter, "oil: its filter and the dirt that comes in"),
};
const struct spt_section spt_section_condition = {
    "`condition`", "the state the lubricant is in, or the name of a catalog entry",
    condition_fields, COUNT(condition_fields), sizeof(S)};
#undef S

/* Names and shares are read from the part that it changes. */
#define S struct raw_part
static const struct spt_field phase_part_fields[] = {
    PART_NAMES,
    QUANTITY("power_share", power_share, SPT_SHARE, 0, 1, "60 %", "its share in this phase"),
};
const struct spt_section spt_section_phase_part = {
    "the part of a phase", "a part of the machine that works otherwise in a phase",
    phase_part_fields, COUNT(phase_part_fields), sizeof(S)};
#undef S

#define S struct raw_phase
static const struct spt_field phase_fields[] = {
    NEEDED_TEXT("phase", phase, "road, loaded", "name of the phase"),
    AMOUNT("time", time, SPT_SHARE, SPT_DURATION, NULL, 0, 1e9, false, "60 %",
           "share of the time, or hours; all phases alike, shares sum to 100 %; needed"),
    QUANTITY("speed", speed_rpm, SPT_ROTATION, 0, 1e6, "420 rpm", "speed of rotation"),
    QUANTITY("radial_load", radial_load_n, SPT_FORCE, 0, FORCE_MAX_N, "15 kN", "radial load, Fr"),
    QUANTITY("axial_load", axial_load_n, SPT_FORCE, 0, FORCE_MAX_N, "2 kN", "axial load, Fa"),
    QUANTITY("equivalent_load", equivalent_load_n, SPT_FORCE, 0, FORCE_MAX_N, "16 kN",
             "P, instead of the two loads"),
    QUANTITY("road_speed", road_speed_km_h, SPT_ROAD_SPEED, 0, 1e4, "80 km/h",
             "hub or trailer: instead of `speed`, turned into it by the `rolling_radius`"),
    QUANTITY("wheel_load", wheel_load_n, SPT_FORCE, 0, FORCE_MAX_N, "45 kN",
             "hub: load of the wheel, straight up"),
    QUANTITY("side_force", side_force_n, SPT_FORCE, -FORCE_MAX_N, FORCE_MAX_N, "9 kN",
             "hub: force of the road along the axis; above 0 it pulls the hub away from the "
             "vehicle"),
    QUANTITY("side_share", side_share, SPT_SHARE, -1, 1, "20 %",
             "hub: the same as a share of the wheel load, with its sign"),
    QUANTITY("power", power_w, SPT_POWER, -1e9, 1e9, "11 kW",
             "machine: power through the shaft that the duty is about; below 0 driver and driven "
             "change places"),
    QUANTITY("torque", torque_nm, SPT_TORQUE, -1e9, 1e9, "340 N m",
             "machine: the same as a torque"),
    ABOVE("belt_speed", belt_speed_km_h, SPT_ROAD_SPEED, 0, 1e4, "1.6 m/s",
          "machine: instead of `speed`, turned into it by the diameter of the drum or pulley"),
    CHOICE("turns", turns, &spt_ways_words, "backwards",
           "machine: all shafts turn the other way in this phase; forwards where absent"),
    LIST("parts", parts, false, &spt_section_phase_part, "a list of parts",
         "machine: power shares that differ in this phase, such as [{belt: planer, power_share: 0 "
         "%}]"),
    AMOUNT("distance", distance, SPT_SHARE, SPT_DISTANCE, NULL, 0, 1e9, false, "40 %",
           "trailer: instead of `time`, share of the distance, or km; all phases alike"),
    TEXT("without", without, "load", "trailer: name of the mass that is not there, empty return"),
    QUANTITY("payload", payload_kg, SPT_MASS, 0, 1e6, "4 t",
             "trailer: in place of the last of its `masses`, half loaded"),
    CHOICE("bend", bend, &spt_sides_words, "left",
           "trailer: a bend or roundabout to this side, with its `radius`; straight where absent"),
    ABOVE("radius", radius_mm, SPT_LENGTH, 0, 1e8, "60 m", "trailer: of the bend"),
    QUANTITY("bank", bank, SPT_SHARE, -0.5, 0.5, "3 %",
             "trailer: slope of the road down to the middle of the bend; 0 % where absent"),
    QUANTITY("braking", braking_g, SPT_ACCELERATION, 0, 1.5, "0.3 g", "trailer: deceleration"),
    QUANTITY("own_brakes", own_brakes, SPT_SHARE, 0, 1, "100 %",
             "trailer: share of the braking of its weight that its own wheels give, the eye the "
             "rest; 100 % where absent"),
    QUANTITY("drag", drag_n, SPT_FORCE, 0, FORCE_MAX_N, "2 kN",
             "trailer: steady pull that its wheels need, on soft ground"),
    QUANTITY("surface_factor", surface_factor, SPT_NO_DIMENSION, 1, 3, "1.2",
             "trailer: shocks on the forces of the wheels: smooth road 1 to 1.1, worn 1.1 to 1.2, "
             "gravel or field track 1.2 to 1.4, off the road 1.4 to 1.8 (common practice, no "
             "source); 1 where absent"),
    AMOUNT("temperature", temperature, SPT_TEMPERATURE, SPT_NO_DIMENSION, &spt_estimate_words,
           SPT_COLDEST_C, SPT_HOTTEST_C, true, "70 degC",
           "of the bearing; `estimate` for a heat balance"),
    QUANTITY("ambient", ambient_c, SPT_TEMPERATURE, SPT_COLDEST_C, SPT_HOTTEST_AMBIENT_C, "20 degC",
             "air around the housing, for `estimate`"),
    QUANTITY("extra_heat", extra_heat_w, SPT_POWER, 0, 1e6, "40 W",
             "heat from brakes or seals, for `estimate`"),
    AMOUNT("cooling", cooling, SPT_HEAT_TRANSFER, SPT_NO_DIMENSION, &spt_air_words, 2, 200, false,
           "20 W/(m2 K)",
           "air round the housing, for `estimate`: still air (10 W/(m2 K)), draught (20, as ISO "
           "15312 is taken; where absent), wind (33)"),
    NAMED("condition", condition, false, &spt_section_condition, "{water: 400 ppm}",
          "what differs from the scenario's condition in this phase"),
};
const struct spt_section spt_section_phase = {"the phase", "one phase of the duty cycle",
                                              phase_fields, COUNT(phase_fields), sizeof(S)};
#undef S

#define S struct raw_season
static const struct spt_field season_fields[] = {
    CHOICE("from", from, &spt_month_words, "April", "first month in which it runs"),
    INTEGER("months", months, 1, 12, "7", "months in which it runs; then it is laid up"),
};
static const struct spt_section section_season = {"`season`", "the months in which it runs",
                                                  season_fields, COUNT(season_fields), sizeof(S)};
#undef S

#define S struct raw_usage
static const struct spt_field usage_fields[] = {
    ABOVE("yearly", yearly_h, SPT_DURATION, 0, 8784, "1200 h", "hours of running in a year"),
    ABOVE("age_limit", age_limit_h, SPT_CALENDAR, 0, LIFE_MAX_H, "10 years",
          "calendar age at which the bearing is taken out"),
    ABOVE("distance_per_hour", distance_per_hour_km_h, SPT_ROAD_SPEED, 0, 1000, "35 km/h",
          "distance covered in an hour of running, standstill in it left out"),
    ABOVE("rolling_radius", rolling_radius_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "410 mm",
          "of the wheel, instead: the distance follows from the mean speed; a hub states its own"),
    INTEGER("fleet", fleet, 1, 1000000, "40", "machines like this one"),
    SECTION("season", season, &section_season,
            "the months in which it runs, before it is laid up; all year round where absent"),
    INTEGER("units", units, 1, 1000, "4",
            "bearings or hubs like this one in a machine; one where absent"),
};
static const struct spt_section section_usage = {"`usage`", "how the machine is used", usage_fields,
                                                 COUNT(usage_fields), sizeof(S)};
#undef S

#define S struct raw_past
static const struct spt_field past_fields[] = {
    QUANTITY("hours_run", hours_run_h, SPT_DURATION, 0, LIFE_MAX_H, "4000 h",
             "running hours of the bearing so far, without failing; 0 where absent"),
    TEXT("worst_cleanliness", worst_cleanliness, "severe",
         "dirtiest class or code that it ran in for half an hour or more: those dents stay"),
    NAMED("condition", condition, false, &spt_section_condition, "{cleanliness: severe}",
          "what differed in those hours; its dirt leaves dents too"),
};
static const struct spt_section section_past = {"`past`", "what the bearing went through before",
                                                past_fields, COUNT(past_fields), sizeof(S)};
#undef S

#define GREASE_RISK_MAX 0.99 /* more is no limit */
#define DUTY LIST("duty", duty, true, &spt_section_phase, "a list of phases", "the duty cycle")
#define SHARED_FIELDS                                                                              \
    QUANTITY("reliability", reliability_percent, SPT_RELIABILITY, 90, 99.95, "90 %",               \
             "share of bearings that reach the life; 90 % where absent"),                          \
        {.key = "target_life",                                                                     \
         .kind = SPT_FIELD_AMOUNT,                                                                 \
         MEMBER(target_life),                                                                      \
         .dimension = SPT_DURATION,                                                                \
         .other_dimension = SPT_CALENDAR,                                                          \
         .min = 0,                                                                                 \
         .max = LIFE_MAX_H,                                                                        \
         .above_min = true,                                                                        \
         .example = "20000 h",                                                                     \
         .help = "life that is wanted; in calendar time with `usage`"},                            \
        ABOVE(                                                                                     \
            "grease_risk", grease_risk, SPT_SHARE, 0, GREASE_RISK_MAX, "2 %",                      \
            "grease: share of machines in which it may fail in a year; needs `usage: {yearly}`"),  \
        ABOVE("reference_load", reference_load_n, SPT_FORCE, 0, FORCE_MAX_N, "15 kN",              \
              "equivalent load above which a phase counts as overloaded"),                         \
        CHOICE("running", running, &spt_running_words, "shock",                                    \
               "how it runs, for the guide value of the static safety: quiet (2 balls, 3 "         \
               "rollers), normal (1, 1.5), shock (1.5, 3); normal where absent, and said so"),     \
        YES_NO("vehicle_hub", vehicle_hub,                                                         \
               "wheel hub of a vehicle, greased at least once a year; a `hub` whose outer ring "   \
               "turns is one"),                                                                    \
        SECTION("past", past, &section_past,                                                       \
                "what the bearing went through before; new where absent")

#define S struct raw_variant
static const struct spt_field variant_fields[] = {
    NEEDED_TEXT("name", name, "debris past a worn seal", "name of the variant"),
    TEXT("note", note, "what happened", "a remark for the reports"),
    NAMED("bearing", bearing, false, &spt_section_bearing, "roller 60-110", "what differs"),
    CHANGED_HUB("what differs, such as {end_play: 0.25 mm}"),
    MAPPING("machine", machine, &spt_section_machine, "a mapping",
            "what differs: parts and supports are found by their names"),
    NAMED("lubricant", lubricant, false, &spt_section_lubricant, "hub grease 150", "what differs"),
    NAMED("condition", condition, false, &spt_section_condition, "{cleanliness: severe}",
          "what differs"),
    LIST("duty", duty, false, &spt_section_phase, "a list of phases",
         "phases that differ, found by their name; or a whole new duty"),
    MAPPING("costs", costs, &spt_section_costs, "a mapping",
            "what differs, such as {investment: 35, investment_years: 5}"),
    SHARED_FIELDS,
};
const struct spt_section spt_section_variant = {
    "the variant", "a change of the scenario; states only what differs", variant_fields,
    COUNT(variant_fields), sizeof(S)};
#undef S

#define S struct raw_scenario
static const struct spt_field scenario_fields[] = {
    NEEDED_TEXT("title", title, "Beet trailer hub, near side", "title of the scenario"),
    TEXT("note", note, "why this was looked at", "a remark for the reports"),
    NAMED("bearing", bearing, false, &spt_section_bearing, "roller 60-110",
          "the bearing; a scenario has either this or a `hub`"),
    MAPPING("hub", hub, &spt_section_hub, "a mapping", "two tapered rows of a wheel hub"),
    MAPPING("machine", machine, &spt_section_machine, "a mapping",
            "shafts with their bearings and what they carry, or a trailer, instead of a `bearing`"),
    NAMED("lubricant", lubricant, true, &spt_section_lubricant, "hub grease 150", "the lubricant"),
    NAMED("condition", condition, true, &spt_section_condition, "{cleanliness: normal}",
          "the state the lubricant is in"),
    DUTY,
    SHARED_FIELDS,
    SECTION("usage", usage, &section_usage, "hours in a year and calendar age"),
    SECTION("service", service, &spt_section_service, "care and mishaps over time, for `timeline`"),
    SECTION("costs", costs, &spt_section_costs, "what a change costs, for `schedule`"),
    SECTION("uncertainty", uncertainty, &spt_section_uncertainty,
            "how well the inputs are known, for bands of life and `spread`"),
    SECTION("sweep", sweep, &spt_section_sweep, "axes for `sweep`, in the order they are written"),
    LIST("variants", variants, false, &spt_section_variant, "a list of variants",
         "changes to compare with the scenario"),
};
const struct spt_section spt_section_scenario = {"the scenario", "a scenario file", scenario_fields,
                                                 COUNT(scenario_fields), sizeof(S)};
#undef S
