/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/sections.h"

#include <gsl/gsl_math.h>
#include <stddef.h>

#include "spalltime/hub.h"

/* One line for each key. `S` is the struct of the section while its table is written. */
#define MEMBER(member) .offset = offsetof(S, member)
#define NO_OTHER .other_dimension = SPT_NO_DIMENSION
#define QUANTITY(k, member, dim, lo, hi, ex, text)                                                 \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, MEMBER(member), .dimension = dim, NO_OTHER,          \
        .min = lo, .max = hi, .example = ex, .help = text                                          \
    }
#define ABOVE(k, member, dim, lo, hi, ex, text)                                                    \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, MEMBER(member), .dimension = dim, NO_OTHER,          \
        .min = lo, .max = hi, .above_min = true, .example = ex, .help = text                       \
    }
#define NEEDED(k, member, dim, lo, hi, ex, text)                                                   \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, .required = true, MEMBER(member), .dimension = dim,  \
        NO_OTHER, .min = lo, .max = hi, .above_min = true, .example = ex, .help = text             \
    }
#define NEEDED_SPAN(k, member, dim, lo, hi, ex, text)                                              \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_QUANTITY, .required = true, MEMBER(member), .dimension = dim,  \
        NO_OTHER, .min = lo, .max = hi, .example = ex, .help = text                                \
    }
#define AMOUNT(k, member, dim, dim2, w, lo, hi, need, ex, text)                                    \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_AMOUNT, .required = need, MEMBER(member), .dimension = dim,    \
        .other_dimension = dim2, .word = w, .min = lo, .max = hi, .example = ex, .help = text      \
    }
#define INTEGER(k, member, lo, hi, ex, text)                                                       \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_INTEGER, MEMBER(member), .dimension = SPT_NO_DIMENSION,        \
        NO_OTHER, .min = lo, .max = hi, .example = ex, .help = text                                \
    }
#define TEXT(k, member, ex, text)                                                                  \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_TEXT, MEMBER(member), .example = ex, .help = text              \
    }
#define NEEDED_TEXT(k, member, ex, text)                                                           \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_TEXT, .required = true, MEMBER(member), .example = ex,         \
        .help = text                                                                               \
    }
#define CHOICE(k, member, words, ex, text)                                                         \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_CHOICE, MEMBER(member), .choices = words, .example = ex,       \
        .help = text                                                                               \
    }
#define YES_NO(k, member, text)                                                                    \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_YES_NO, MEMBER(member), .example = "yes", .help = text         \
    }
#define SECTION(k, member, sub, text)                                                              \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_SECTION, MEMBER(member), .section = sub, .help = text          \
    }
#define NAMED(k, member, need, sub, ex, text)                                                      \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_NAMED, .required = need, MEMBER(member), .section = sub,       \
        .example = ex, .help = text                                                                \
    }
#define LINES(k, member, ex, text)                                                                 \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_LINES, MEMBER(member), .example = ex, .help = text             \
    }
#define LIST(k, member, need, sub, ex, text)                                                       \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_LIST, .required = need, MEMBER(member), .section = sub,        \
        .example = ex, .help = text                                                                \
    }
#define MAPPING(k, member, sub, ex, text)                                                          \
    {                                                                                              \
        .key = k, .kind = SPT_FIELD_MAPPING, MEMBER(member), .section = sub, .example = ex,        \
        .help = text                                                                               \
    }
#define COUNT(table) (int)(sizeof(table) / sizeof *(table))

#define FORCE_MAX_N 1e9
#define LENGTH_MAX_MM 1e4
#define LIFE_MAX_H 1e9
#define TILT_MAX_RAD 0.1

static const char *const bearing_type_words[] = {"deep groove ball",   "angular contact ball",
                                                 "self-aligning ball", "cylindrical roller",
                                                 "tapered roller",     "spherical roller",
                                                 "needle roller",      "thrust ball",
                                                 "thrust roller",      NULL};
static const char *const mounting_words[] = {"back-to-back", "face-to-face", NULL};
static const char *const turning_words[] = {"outer", "inner", NULL};
static const char *const lubrication_words[] = {"grease", "oil bath", "circulating oil", NULL};
static const char *const solubility_words[] = {"plain", "additivated", NULL};
static const char *const dust_words[] = {"light", "heavy", "light abrasive", "heavy abrasive",
                                         NULL};
static const char *const moisture_words[] = {"dry", "humid", "condensation", "splash", NULL};
static const char *const vibration_words[] = {"low", "medium", "high", NULL};
static const char *const shaft_words[] = {"horizontal", "inclined", "vertical", NULL};

#define S struct raw_geometry
static const struct spt_field geometry_fields[] = {
    INTEGER("elements", elements, 3, 1000, "19", "rollers or balls in one row, Z"),
    INTEGER("rows", rows, 1, 8, "1", "rows, i; 1 where absent"),
    ABOVE("element_diameter", element_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "12 mm",
          "roller or ball diameter, D_we or D_w"),
    ABOVE("element_length", element_length_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "20 mm",
          "effective roller length, L_we"),
    QUANTITY("contact_angle", contact_angle_rad, SPT_ANGLE, 0, M_PI_2 + 1e-9, "15 deg",
             "nominal contact angle, alpha"),
    ABOVE("pitch_diameter", pitch_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "85 mm",
          "D_pw; the bearing's where absent"),
    ABOVE("inner_groove_ratio", inner_groove_ratio, SPT_NO_DIMENSION, 0.5, 1, "0.52",
          "groove radius over ball diameter, inner ring"),
    ABOVE("outer_groove_ratio", outer_groove_ratio, SPT_NO_DIMENSION, 0.5, 1, "0.53",
          "groove radius over ball diameter, outer ring"),
};
static const struct spt_section section_geometry = {
    "`geometry`", "inside geometry, from which the ratings are computed", geometry_fields,
    COUNT(geometry_fields), sizeof(S)};
#undef S

#define S struct raw_axial_factors
static const struct spt_field axial_factor_fields[] = {
    ABOVE("e", limit_ratio, SPT_NO_DIMENSION, 0, 10, "0.40", "limit of Fa/Fr"),
    QUANTITY("X", radial_factor, SPT_NO_DIMENSION, 0, 10, "0.4", "radial factor above e"),
    ABOVE("Y", axial_factor, SPT_NO_DIMENSION, 0, 20, "1.5", "axial factor above e"),
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
    CHOICE("type", type, bearing_type_words, "tapered roller", "type of bearing"),
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
    INTEGER("rows", rows, 1, 8, "1", "rows of rolling elements; 1 where absent"),
    QUANTITY("contact_angle", contact_angle_rad, SPT_ANGLE, 0, M_PI_2 + 1e-9, "15 deg",
             "nominal contact angle"),
    ABOVE("f0", f0, SPT_NO_DIMENSION, 0, 70, "13.8", "ball bearings: factor of ISO 76"),
    SECTION("axial_factors", axial_factors, &section_axial_factors,
            "given factors e, X, Y, Y0; they win over the tables"),
    SECTION("geometry", geometry, &section_geometry, "inside geometry"),
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
static const struct spt_field hub_fields[] = {
    NAMED("inboard", inboard, true, &spt_section_bearing, "hub inboard 60-110",
          "the row towards the vehicle: tapered, with inside `geometry`"),
    NAMED("outboard", outboard, true, &spt_section_bearing, "hub outboard 45-85",
          "the row away from the vehicle: tapered, with inside `geometry`"),
    NEEDED_SPAN("inboard_position", inboard_position_mm, SPT_LENGTH, -2000, 2000, "-25 mm",
                "middle of its rollers, along the axis from the plane in which the wheel load "
                "acts; away from the vehicle is above 0"),
    NEEDED_SPAN("outboard_position", outboard_position_mm, SPT_LENGTH, -2000, 2000, "60 mm",
                "the same of the outboard row; it is the larger one"),
    NEEDED("rolling_radius", rolling_radius_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "480 mm",
           "height of the axis above the road: lever of the side force, and speed from a road "
           "speed"),
    CHOICE("mounting", mounting, mounting_words, "back-to-back",
           "back-to-back: the load lines meet the axis outside the rows, as in wheel hubs; "
           "face-to-face: between them; back-to-back where absent"),
    CHOICE("turning", turning, turning_words, "outer",
           "ring that turns: outer for a hub on a spindle (where absent), inner for a shaft"),
    QUANTITY("end_play", end_play_mm, SPT_LENGTH, 0, 1, "0.05 mm",
             "setting: axial play of the unloaded, cold pair; or one of the next two"),
    QUANTITY("preload", preload_mm, SPT_LENGTH, 0, 1, "0.02 mm",
             "setting: how far the rings are drawn together beyond no play"),
    ABOVE("preload_force", preload_force_n, SPT_FORCE, 0, FORCE_MAX_N, "2 kN",
          "setting: axial force in the unloaded, cold pair"),
    QUANTITY("temperature_difference", temperature_difference_k, SPT_TEMPERATURE_DIFFERENCE, -200,
             200, "10 K",
             "inner rings and spindle warmer than outer rings and hub when running; changes the "
             "setting; 0 K where absent"),
    QUANTITY("setting_scatter", setting_scatter_mm, SPT_LENGTH, 0, 1, "0.02 mm",
             "standard deviation of the settings that the workshop makes"),
    SECTION("setting_range", setting_range, &section_setting_range,
            "settings to search for the best one; -0.15 mm to 0.5 mm where absent"),
    YES_NO("preload_allowed", preload_allowed,
           "the maker prescribes a preload; else no remedy is one, cold or running"),
    SECTION("inboard_misalignment", inboard_misalignment, &section_misalignment,
            "tilt of the inboard inner ring on its seat"),
    SECTION("outboard_misalignment", outboard_misalignment, &section_misalignment,
            "tilt of the outboard inner ring on its seat"),
    INTEGER("laminae", laminae, SPT_HUB_LAMINAE_MIN, SPT_HUB_LAMINAE_MAX, "41",
            "slices of a roller in the load distribution; 41 where absent"),
};
const struct spt_section spt_section_hub = {"`hub`", "two tapered rows of a wheel hub", hub_fields,
                                            COUNT(hub_fields), sizeof(S)};
#undef S

#define S struct raw_lubricant
static const struct spt_field lubricant_fields[] = {
    TEXT("catalog", catalog, "hub grease 150", "catalog entry that this one starts from"),
    TEXT("name", name, "hub grease", "name in the reports"),
    TEXT("source", source, "data sheet 7", "where the data come from"),
    CHOICE("kind", kind, lubrication_words, "grease", "way of lubricating"),
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
    CHOICE("water_solubility", water_solubility, solubility_words, "plain",
           "how much water the oil dissolves"),
};
const struct spt_section spt_section_lubricant = {
    "`lubricant`", "the lubricant, or the name of a catalog entry", lubricant_fields,
    COUNT(lubricant_fields), sizeof(S)};
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
             "running hours since the last greasing"),
    CHOICE("dust", dust, dust_words, "light", "dust around the bearing"),
    CHOICE("moisture", moisture, moisture_words, "dry", "moisture around the bearing"),
    CHOICE("vibration", vibration, vibration_words, "low", "vibration of the housing"),
    CHOICE("shaft", shaft, shaft_words, "horizontal", "position of the shaft"),
};
const struct spt_section spt_section_condition = {
    "`condition`", "the state the lubricant is in, or the name of a catalog entry",
    condition_fields, COUNT(condition_fields), sizeof(S)};
#undef S

#define S struct raw_phase
static const struct spt_field phase_fields[] = {
    NEEDED_TEXT("phase", phase, "road, loaded", "name of the phase"),
    AMOUNT("time", time, SPT_SHARE, SPT_DURATION, NULL, 0, 1e9, true, "60 %",
           "share of the time, or hours; all phases alike, shares sum to 100 %"),
    QUANTITY("speed", speed_rpm, SPT_ROTATION, 0, 1e6, "420 rpm", "speed of rotation"),
    QUANTITY("radial_load", radial_load_n, SPT_FORCE, 0, FORCE_MAX_N, "15 kN", "radial load, Fr"),
    QUANTITY("axial_load", axial_load_n, SPT_FORCE, 0, FORCE_MAX_N, "2 kN", "axial load, Fa"),
    QUANTITY("equivalent_load", equivalent_load_n, SPT_FORCE, 0, FORCE_MAX_N, "16 kN",
             "P, instead of the two loads"),
    QUANTITY("road_speed", road_speed_km_h, SPT_ROAD_SPEED, 0, 1e4, "80 km/h",
             "hub: instead of `speed`, turned into it by the `rolling_radius`"),
    QUANTITY("wheel_load", wheel_load_n, SPT_FORCE, 0, FORCE_MAX_N, "45 kN",
             "hub: load of the wheel, straight up"),
    QUANTITY("side_force", side_force_n, SPT_FORCE, -FORCE_MAX_N, FORCE_MAX_N, "9 kN",
             "hub: force of the road along the axis; above 0 it pulls the hub away from the "
             "vehicle"),
    QUANTITY("side_share", side_share, SPT_SHARE, -1, 1, "20 %",
             "hub: the same as a share of the wheel load, with its sign"),
    AMOUNT("temperature", temperature, SPT_TEMPERATURE, SPT_NO_DIMENSION, "estimate", -60, 300,
           true, "70 degC", "of the bearing; `estimate` for a heat balance"),
    QUANTITY("ambient", ambient_c, SPT_TEMPERATURE, -60, 150, "20 degC",
             "air around the housing, for `estimate`"),
    QUANTITY("extra_heat", extra_heat_w, SPT_POWER, 0, 1e6, "40 W",
             "heat from brakes or seals, for `estimate`"),
    QUANTITY("cooling", cooling_factor, SPT_NO_DIMENSION, 0.1, 10, "1",
             "0.5 poor, 1 as ISO 15312, 2.5 forced; for `estimate`"),
    NAMED("condition", condition, false, &spt_section_condition, "{water: 400 ppm}",
          "what differs from the scenario's condition in this phase"),
};
const struct spt_section spt_section_phase = {"the phase", "one phase of the duty cycle",
                                              phase_fields, COUNT(phase_fields), sizeof(S)};
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
};
static const struct spt_section section_usage = {"`usage`", "how the machine is used", usage_fields,
                                                 COUNT(usage_fields), sizeof(S)};
#undef S

#define DUTY LIST("duty", duty, true, &spt_section_phase, "a list of phases", "the duty cycle")
#define CHANGED_HUB(text) MAPPING("hub", hub, &spt_section_hub, "a mapping", text)
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
        ABOVE("reference_load", reference_load_n, SPT_FORCE, 0, FORCE_MAX_N, "15 kN",              \
              "equivalent load above which a phase counts as overloaded")

#define S struct raw_variant
static const struct spt_field variant_fields[] = {
    NEEDED_TEXT("name", name, "debris past a worn seal", "name of the variant"),
    TEXT("note", note, "what happened", "a remark for the reports"),
    NAMED("bearing", bearing, false, &spt_section_bearing, "roller 60-110", "what differs"),
    CHANGED_HUB("what differs, such as {end_play: 0.25 mm}"),
    NAMED("lubricant", lubricant, false, &spt_section_lubricant, "hub grease 150", "what differs"),
    NAMED("condition", condition, false, &spt_section_condition, "{cleanliness: severe}",
          "what differs"),
    LIST("duty", duty, false, &spt_section_phase, "a list of phases",
         "phases that differ, found by their name; or a whole new duty"),
    SHARED_FIELDS,
};
const struct spt_section spt_section_variant = {
    "the variant", "a change of the scenario; states only what differs", variant_fields,
    COUNT(variant_fields), sizeof(S)};
#undef S

#define S struct raw_span
static const struct spt_field water_span_fields[] = {
    NEEDED_SPAN("start", start, SPT_CONTENT, 0, 1e6, "100 ppm", "at the start of the drift"),
    NEEDED_SPAN("end", end, SPT_CONTENT, 0, 1e6, "600 ppm", "at its end"),
};
static const struct spt_section section_water_span = {
    "`water`", "water of the drift", water_span_fields, COUNT(water_span_fields), sizeof(S)};
static const struct spt_field load_span_fields[] = {
    NEEDED_SPAN("start", start, SPT_NO_DIMENSION, 0, 100, "1", "factor at the start"),
    NEEDED_SPAN("end", end, SPT_NO_DIMENSION, 0, 100, "1.2", "factor at the end"),
};
static const struct spt_section section_load_span = {
    "`load_factor`", "factor on every load", load_span_fields, COUNT(load_span_fields), sizeof(S)};
static const struct spt_field rise_span_fields[] = {
    NEEDED_SPAN("start", start, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "0 K", "at the start"),
    NEEDED_SPAN("end", end, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "15 K", "at the end"),
};
static const struct spt_section section_rise_span = {"`temperature_rise`",
                                                     "rise of every temperature", rise_span_fields,
                                                     COUNT(rise_span_fields), sizeof(S)};
#undef S

#define S struct raw_class_span
static const struct spt_field class_span_fields[] = {
    NEEDED_TEXT("start", start, "normal", "cleanliness at the start of the drift"),
    NEEDED_TEXT("end", end, "severe", "cleanliness at its end; the classes between in turn"),
};
static const struct spt_section section_class_span = {"`cleanliness`", "classes of the drift",
                                                      class_span_fields, COUNT(class_span_fields),
                                                      sizeof(S)};
#undef S

#define S struct raw_drift
static const struct spt_field drift_fields[] = {
    NEEDED_TEXT("drift", drift, "wash water creeping in", "name of the drift"),
    QUANTITY("from", from_h, SPT_DURATION, 0, LIFE_MAX_H, "2000 h",
             "running hours at which it starts; 0 where absent"),
    {.key = "to",
     .kind = SPT_FIELD_QUANTITY,
     .required = true,
     MEMBER(to_h),
     .dimension = SPT_DURATION,
     NO_OTHER,
     .min = 0,
     .max = LIFE_MAX_H,
     .example = "5000 h",
     .help = "running hours at which it ends and stays"},
    SECTION("water", water, &section_water_span, "water rises at least to this in every phase"),
    SECTION("cleanliness", cleanliness, &section_class_span, "the lubricant gets dirtier"),
    SECTION("load_factor", load_factor, &section_load_span, "loads grow"),
    SECTION("temperature_rise", temperature_rise, &section_rise_span, "the bearing runs hotter"),
};
const struct spt_section spt_section_drift = {"the drift", "something that changes steadily",
                                              drift_fields, COUNT(drift_fields), sizeof(S)};
#undef S

#define S struct raw_event
static const struct spt_field event_fields[] = {
    NEEDED_TEXT("event", event, "seal torn", "name of the event"),
    TEXT("note", note, "stone behind the wheel", "a remark for the reports"),
    {.key = "at",
     .kind = SPT_FIELD_QUANTITY,
     .required = true,
     MEMBER(at_h),
     .dimension = SPT_DURATION,
     NO_OTHER,
     .min = 0,
     .max = LIFE_MAX_H,
     .example = "3000 h",
     .help = "running hours at which it happens"},
    NAMED("bearing", bearing, false, &spt_section_bearing, "roller 60-110", "what differs then"),
    CHANGED_HUB("what differs then, such as {preload: 0.01 mm}"),
    NAMED("lubricant", lubricant, false, &spt_section_lubricant, "hub grease 150",
          "what differs then"),
    NAMED("condition", condition, false, &spt_section_condition, "{cleanliness: severe}",
          "what differs then; a `grease_age` is that of the grease it leaves"),
    LIST("duty", duty, false, &spt_section_phase, "a list of phases", "phases that differ then"),
};
const struct spt_section spt_section_event = {"the event", "something that happens and stays",
                                              event_fields, COUNT(event_fields), sizeof(S)};
#undef S

#define S struct raw_limits
static const struct spt_field limits_fields[] = {
    ABOVE("water", water_ppm, SPT_CONTENT, 0, 1e6, "400 ppm",
          "the lubricant is changed when a drift brings the water to this"),
    TEXT("cleanliness", cleanliness, "slight",
         "dirtiest class or code that will do; changed when a drift gets dirtier"),
};
static const struct spt_section section_limits = {"`limits`",
                                                  "what the lubricant may come to, for `schedule`",
                                                  limits_fields, COUNT(limits_fields), sizeof(S)};
#undef S

#define S struct raw_costs
static const struct spt_field costs_fields[] = {
    NEEDED("planned", planned, SPT_NO_DIMENSION, 0, 1e15, "240",
           "cost of a change at a planned age"),
    NEEDED("failure", failure, SPT_NO_DIMENSION, 0, 1e15, "2600",
           "cost of a change after a failure, with what the failure brings"),
    TEXT("currency", currency, "EUR", "word or code for the reports"),
};
static const struct spt_section section_costs = {"`costs`", "what a change costs, for `schedule`",
                                                 costs_fields, COUNT(costs_fields), sizeof(S)};
#undef S

#define S struct raw_service
static const struct spt_field service_fields[] = {
    ABOVE("regrease", regrease_h, SPT_DURATION, 0, LIFE_MAX_H, "2000 h",
          "fresh grease every so many running hours"),
    ABOVE("oil_change", oil_change_h, SPT_DURATION, 0, LIFE_MAX_H, "4000 h",
          "fresh oil every so many running hours: drifts of water and dirt start again"),
    ABOVE("until", until_h, SPT_DURATION, 0, LIFE_MAX_H, "60000 h",
          "where to stop looking; a million hours where absent"),
    LIST("events", events, false, &spt_section_event, "a list of events", "what happens"),
    LIST("drifts", drifts, false, &spt_section_drift, "a list of drifts", "what changes steadily"),
    SECTION("limits", limits, &section_limits, "what the lubricant may come to, for `schedule`"),
};
static const struct spt_section section_service = {
    "`service`", "care and mishaps over time, for `timeline`", service_fields,
    COUNT(service_fields), sizeof(S)};
#undef S

#define S struct raw_spread
static const struct spt_field factor_fields[] = {
    ABOVE("plus_minus", plus_minus, SPT_SHARE, 0, 0.99, "15 %", "anywhere within, all as likely"),
    ABOVE("low", low, SPT_NO_DIMENSION, 0, 100, "0.9", "least factor; with `high`"),
    ABOVE("peak", peak, SPT_NO_DIMENSION, 0, 100, "1", "likeliest factor: a triangle"),
    ABOVE("high", high, SPT_NO_DIMENSION, 0, 100, "1.3", "largest factor"),
    ABOVE("normal", normal, SPT_SHARE, 0, 0.3, "10 %", "standard deviation about 1"),
    ABOVE("lognormal", lognormal, SPT_SHARE, 0, 1, "40 %",
          "standard deviation of the logarithm; median 1"),
};
static const struct spt_section section_factor = {
    "the spread", "how a factor is spread: plus_minus; low, high and peak; normal; or lognormal",
    factor_fields, COUNT(factor_fields), sizeof(S)};
static const struct spt_field rise_fields[] = {
    ABOVE("plus_minus", plus_minus, SPT_TEMPERATURE_DIFFERENCE, 0, 200, "8 K",
          "anywhere within, all as likely"),
    QUANTITY("low", low, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "-5 K", "least; with `high`"),
    QUANTITY("peak", peak, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "0 K", "likeliest: a triangle"),
    QUANTITY("high", high, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "15 K", "largest"),
    ABOVE("normal", normal, SPT_TEMPERATURE_DIFFERENCE, 0, 100, "5 K", "standard deviation"),
};
static const struct spt_section section_rise = {
    "the spread", "how a temperature is spread: plus_minus; low, high and peak; or normal",
    rise_fields, COUNT(rise_fields), sizeof(S)};
static const struct spt_field play_fields[] = {
    ABOVE("plus_minus", plus_minus, SPT_LENGTH, 0, 2, "0.03 mm", "anywhere within, all as likely"),
    QUANTITY("low", low, SPT_LENGTH, -2, 2, "-0.03 mm",
             "least change of the stated setting, below 0 tighter; with `high`"),
    QUANTITY("peak", peak, SPT_LENGTH, -2, 2, "0 mm", "likeliest change: a triangle"),
    QUANTITY("high", high, SPT_LENGTH, -2, 2, "0.10 mm", "largest change"),
    ABOVE("normal", normal, SPT_LENGTH, 0, 0.5, "0.02 mm", "standard deviation"),
    ABOVE("lognormal", lognormal, SPT_SHARE, 0, 1, "40 %",
          "standard deviation of the logarithm of the end play; median as stated"),
};
static const struct spt_section section_play = {
    "the spread", "how end play is spread: plus_minus; low, high and peak; normal; or lognormal",
    play_fields, COUNT(play_fields), sizeof(S)};
#undef S

#define S struct raw_class_weight
static const struct spt_field class_weight_fields[] = {
    NEEDED_TEXT("class", class, "slight", "class or code of cleanliness"),
    NEEDED("weight", weight, SPT_SHARE, 0, 1, "30 %", "how likely; all together 100 %"),
};
const struct spt_section spt_section_class_weight = {
    "the class", "a class of cleanliness and how likely it is", class_weight_fields,
    COUNT(class_weight_fields), sizeof(S)};
#undef S

#define S struct raw_uncertainty
static const struct spt_field uncertainty_fields[] = {
    SECTION("load", load, &section_factor, "factor on every load"),
    SECTION("speed", speed, &section_factor, "factor on every speed"),
    SECTION("temperature", temperature, &section_rise, "added to every temperature"),
    SECTION("water", water, &section_factor, "factor on the water content"),
    SECTION("rating", rating, &section_factor, "factor on C, C0 and C_u"),
    SECTION("end_play", end_play, &section_play,
            "of a `hub`: added to the setting it states, below 0 tighter"),
    LIST("cleanliness", cleanliness, false, &spt_section_class_weight, "a list of classes",
         "what the scenario's class may really be; phases that state another keep theirs"),
    INTEGER("seed", seed, 0, 2000000000, "7", "start of the random numbers; 1 where absent"),
};
static const struct spt_section section_uncertainty = {
    "`uncertainty`", "how well the inputs are known, for bands of life and `spread`",
    uncertainty_fields, COUNT(uncertainty_fields), sizeof(S)};
#undef S
#define S struct raw_axis
static const char *const spacing_words[] = {"even", "log", NULL};
/* `from` comes first: it also holds the unit and the range of every value of the axis */
#define AXIS(axis, dim, step_dim, lo, hi, ex, ex2, ex3)                                            \
    static const struct spt_field axis##_axis_fields[] = {                                         \
        QUANTITY("from", from, dim, lo, hi, ex, "first value"),                                    \
        QUANTITY("to", to, dim, lo, hi, ex2, "last value"),                                        \
        ABOVE("step", step, step_dim, 0, hi, ex3, "distance of the values, or state `steps`"),     \
        INTEGER("steps", steps, 1, 1000000, "10", "number of values, both ends counted"),          \
        CHOICE("spacing", spacing, spacing_words, "log", "of `steps`; even where absent"),         \
        LINES("values", values, "[" ex ", " ex2 "]", "the values one by one, instead"),            \
    };                                                                                             \
    static const struct spt_section section_##axis##_axis = {"`" #axis "`", "an axis of numbers",  \
                                                             axis##_axis_fields,                   \
                                                             COUNT(axis##_axis_fields), sizeof(S)}
AXIS(speed, SPT_ROTATION, SPT_ROTATION, 0, 1e6, "100 rpm", "600 rpm", "50 rpm");
AXIS(radial_load, SPT_FORCE, SPT_FORCE, 0, FORCE_MAX_N, "5 kN", "30 kN", "1 kN");
AXIS(axial_load, SPT_FORCE, SPT_FORCE, 0, FORCE_MAX_N, "0 kN", "8 kN", "1 kN");
AXIS(equivalent_load, SPT_FORCE, SPT_FORCE, 0, FORCE_MAX_N, "5 kN", "30 kN", "1 kN");
AXIS(load_factor, SPT_NO_DIMENSION, SPT_NO_DIMENSION, 0, 100, "0.5", "2", "0.1");
AXIS(temperature, SPT_TEMPERATURE, SPT_TEMPERATURE_DIFFERENCE, -60, 300, "40 degC", "110 degC",
     "5 K");
AXIS(water, SPT_CONTENT, SPT_CONTENT, 0, 1e6, "100 ppm", "1000 ppm", "100 ppm");
AXIS(grease_age, SPT_DURATION, SPT_DURATION, 0, LIFE_MAX_H, "0 h", "4000 h", "500 h");
AXIS(viscosity_40, SPT_VISCOSITY, SPT_VISCOSITY, 2.5, 5000, "46 mm2/s", "460 mm2/s", "50 mm2/s");
AXIS(contamination_factor, SPT_NO_DIMENSION, SPT_NO_DIMENSION, 0, 1, "0.1", "0.9", "0.1");
AXIS(dynamic_load_rating_factor, SPT_NO_DIMENSION, SPT_NO_DIMENSION, 0.01, 100, "0.8", "1.5",
     "0.1");
AXIS(reliability, SPT_RELIABILITY, SPT_RELIABILITY, 90, 99.95, "90 %", "99 %", "1 %");
/* end play and preload share one axis: the limits of the two keys of `hub` */
AXIS(setting, SPT_LENGTH, SPT_LENGTH, -1, 1, "-0.05 mm", "0.2 mm", "0.01 mm");
AXIS(wheel_load, SPT_FORCE, SPT_FORCE, 0, FORCE_MAX_N, "20 kN", "50 kN", "5 kN");
AXIS(side_force, SPT_FORCE, SPT_FORCE, -FORCE_MAX_N, FORCE_MAX_N, "-5 kN", "5 kN", "1 kN");
AXIS(side_share, SPT_SHARE, SPT_SHARE, -1, 1, "-20 %", "20 %", "5 %");
AXIS(road_speed, SPT_ROAD_SPEED, SPT_ROAD_SPEED, 0, 1e4, "20 km/h", "100 km/h", "10 km/h");
#define WORD_AXIS(axis, ex, text)                                                                  \
    static const struct spt_field axis##_axis_fields[] = {                                         \
        YES_NO("all", all, text),                                                                  \
        LINES("values", values, ex, "the values one by one, instead"),                             \
    };                                                                                             \
    static const struct spt_section section_##axis##_axis = {"`" #axis "`", "an axis of words",    \
                                                             axis##_axis_fields,                   \
                                                             COUNT(axis##_axis_fields), sizeof(S)}
WORD_AXIS(grade, "[VG 68, VG 150]", "every ISO 3448 grade that an oil of this index can have");
WORD_AXIS(cleanliness, "[normal, slight]", "every class of the way of lubricating");
#undef S

#define S struct raw_sweep
static const char *const combine_words[] = {"grid", "zip", NULL};
#define SWEPT(axis, field, text)                                                                   \
    [field + 1] = SECTION(#axis, axes[field], &section_##axis##_axis, text)
static const struct spt_field sweep_fields[] = {
    [0] = CHOICE("combine", combine, combine_words, "grid",
                 "grid: every value with every other, the last axis fastest; zip: first with "
                 "first, second with second"),
    SWEPT(speed, SPT_SWEEP_SPEED, "in every phase"),
    SWEPT(radial_load, SPT_SWEEP_RADIAL_LOAD, "in every phase"),
    SWEPT(axial_load, SPT_SWEEP_AXIAL_LOAD, "in every phase"),
    SWEPT(equivalent_load, SPT_SWEEP_EQUIVALENT_LOAD,
          "in every phase, instead of its radial and axial loads"),
    SWEPT(load_factor, SPT_SWEEP_LOAD_FACTOR, "on every load, also on the axes above"),
    SWEPT(temperature, SPT_SWEEP_TEMPERATURE, "in every phase, also instead of an estimate"),
    SWEPT(water, SPT_SWEEP_WATER, "in every phase"),
    SWEPT(grease_age, SPT_SWEEP_GREASE_AGE, "in every phase"),
    SWEPT(viscosity_40, SPT_SWEEP_VISCOSITY_40, "of the oil; its viscosity index stays"),
    SWEPT(grade, SPT_SWEEP_GRADE, "of the oil; its viscosity index stays"),
    SWEPT(cleanliness, SPT_SWEEP_CLEANLINESS, "in every phase, also instead of a given e_C"),
    SWEPT(contamination_factor, SPT_SWEEP_CONTAMINATION,
          "in every phase, instead of the cleanliness"),
    SWEPT(dynamic_load_rating_factor, SPT_SWEEP_RATING_FACTOR, "on C; C_u stays"),
    SWEPT(reliability, SPT_SWEEP_RELIABILITY, "of the life"),
    SWEPT(setting, SPT_SWEEP_SETTING,
          "of a hub, as set in the workshop: end play above 0, preload below"),
    SWEPT(wheel_load, SPT_SWEEP_WHEEL_LOAD,
          "of a hub, in every phase; a side force stated as a share keeps its share"),
    SWEPT(side_force, SPT_SWEEP_SIDE_FORCE, "of a hub, in every phase; outboard above 0"),
    SWEPT(side_share, SPT_SWEEP_SIDE_SHARE,
          "of a hub, side force as a share of the wheel load, in every phase"),
    SWEPT(road_speed, SPT_SWEEP_ROAD_SPEED, "of a hub, in every phase, instead of its speed"),
};
static const struct spt_section section_sweep = {
    "`sweep`", "axes for `sweep`; a phase takes the value of an axis in place of its own",
    sweep_fields, COUNT(sweep_fields), sizeof(S)};
#undef S

const char *spt_sweep_key(enum spt_sweep_field field)
{
    return sweep_fields[field + 1].key;
}

const struct spt_field *spt_sweep_number(enum spt_sweep_field field)
{
    bool words = field == SPT_SWEEP_GRADE || field == SPT_SWEEP_CLEANLINESS;
    return words ? NULL : &sweep_fields[field + 1].section->fields[0];
}

#define S struct raw_scenario
static const struct spt_field scenario_fields[] = {
    NEEDED_TEXT("title", title, "Beet trailer hub, near side", "title of the scenario"),
    TEXT("note", note, "why this was looked at", "a remark for the reports"),
    NAMED("bearing", bearing, false, &spt_section_bearing, "roller 60-110",
          "the bearing; a scenario has either this or a `hub`"),
    MAPPING("hub", hub, &spt_section_hub, "a mapping", "two tapered rows of a wheel hub"),
    NAMED("lubricant", lubricant, true, &spt_section_lubricant, "hub grease 150", "the lubricant"),
    NAMED("condition", condition, true, &spt_section_condition, "{cleanliness: normal}",
          "the state the lubricant is in"),
    DUTY,
    SHARED_FIELDS,
    SECTION("usage", usage, &section_usage, "hours in a year and calendar age"),
    SECTION("service", service, &section_service, "care and mishaps over time, for `timeline`"),
    SECTION("costs", costs, &section_costs, "what a change costs, for `schedule`"),
    SECTION("uncertainty", uncertainty, &section_uncertainty,
            "how well the inputs are known, for bands of life and `spread`"),
    SECTION("sweep", sweep, &section_sweep, "axes for `sweep`, in the order they are written"),
    LIST("variants", variants, false, &spt_section_variant, "a list of variants",
         "changes to compare with the scenario"),
};
const struct spt_section spt_section_scenario = {"the scenario", "a scenario file", scenario_fields,
                                                 COUNT(scenario_fields), sizeof(S)};
#undef S
