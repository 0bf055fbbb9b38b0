/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/build/section_fields.h"
#include "scenario/build/sections.h"
#include "spalltime/lubricant.h"

/* The axes of a sweep. */

#define S struct raw_axis
static const struct spt_words spacing_words = {(const char *const[]){"even", "log"}, 2};
/* `from` is the first field: it also defines unit and range of every value of the axis */
#define AXIS(axis, dim, step_dim, lo, hi, ex, ex2, ex3)                                            \
    static const struct spt_field axis##_axis_fields[] = {                                         \
        QUANTITY("from", from, dim, lo, hi, ex, "first value"),                                    \
        QUANTITY("to", to, dim, lo, hi, ex2, "last value"),                                        \
        ABOVE("step", step, step_dim, 0, hi, ex3, "distance of the values, or state `steps`"),     \
        INTEGER("steps", steps, 1, 1000000, "10", "number of values, both ends counted"),          \
        CHOICE("spacing", spacing, &spacing_words, "log", "of `steps`; even where absent"),        \
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
AXIS(temperature, SPT_TEMPERATURE, SPT_TEMPERATURE_DIFFERENCE, SPT_COLDEST_C, SPT_HOTTEST_C,
     "40 degC", "110 degC", "5 K");
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
AXIS(power, SPT_POWER, SPT_POWER, -1e9, 1e9, "5 kW", "20 kW", "1 kW");
AXIS(torque, SPT_TORQUE, SPT_TORQUE, -1e9, 1e9, "100 N m", "400 N m", "50 N m");
AXIS(payload, SPT_MASS, SPT_MASS, 0, 1e6, "2 t", "10 t", "1 t");
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
static const struct spt_words combine_words = {(const char *const[]){"grid", "zip"}, 2};
#define SWEPT(axis, field, text)                                                                   \
    [field + 1] = SECTION(#axis, axes[field], &section_##axis##_axis, text)
static const struct spt_field sweep_fields[] = {
    [0] = CHOICE("combine", combine, &combine_words, "grid",
                 "grid: every value with every other, the last axis fastest; zip: first with "
                 "first, second with second"),
    SWEPT(speed, SPT_SWEEP_SPEED,
          "in every phase; of a machine that of the shaft that the duty is about, at its power"),
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
    SWEPT(road_speed, SPT_SWEEP_ROAD_SPEED,
          "of a hub or a trailer, in every phase, instead of its speed"),
    SWEPT(power, SPT_SWEEP_POWER, "of a machine, in every phase"),
    SWEPT(torque, SPT_SWEEP_TORQUE, "of a machine, in every phase, instead of its power"),
    SWEPT(payload, SPT_SWEEP_PAYLOAD,
          "of a trailer: the last of its `masses`, in every phase that has it"),
};
const struct spt_section spt_section_sweep = {
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
