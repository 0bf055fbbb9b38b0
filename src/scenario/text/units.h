/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_UNITS_H
#define SCENARIO_TEXT_UNITS_H

#include <stdbool.h>
#include <stddef.h>

#include "spalltime/life.h"

/* Dimensions of quantities; the comment gives the unit used in the program. */
enum spt_dimension {
    SPT_FORCE,                  /* N */
    SPT_LENGTH,                 /* mm */
    SPT_TEMPERATURE,            /* degC */
    SPT_TEMPERATURE_DIFFERENCE, /* K */
    SPT_VISCOSITY,              /* mm2/s */
    SPT_DENSITY,                /* g/cm3 */
    SPT_CONTENT,                /* ppm by mass */
    SPT_SHARE,                  /* 1: 60 % is 0.6 */
    SPT_DURATION,               /* h of running */
    SPT_CALENDAR,               /* h of the calendar */
    SPT_ROTATION,               /* r/min */
    SPT_ROAD_SPEED,             /* km/h */
    SPT_DISTANCE,               /* km */
    SPT_ANGLE,                  /* rad */
    SPT_POWER,                  /* W */
    SPT_HEAT_TRANSFER,          /* W/(m2 K) */
    SPT_RELIABILITY,            /* percent: 90 % is 90 */
    SPT_MASS,                   /* kg */
    SPT_TORQUE,                 /* N m */
    SPT_UNBALANCE,              /* g mm */
    SPT_BALANCE_GRADE,          /* mm/s */
    SPT_STIFFNESS,              /* N/mm */
    SPT_ACCELERATION,           /* g, 9.80665 m/s2 */
    SPT_FLOW,                   /* ml/min */
    SPT_VOLUME,                 /* ml */
    SPT_DIMENSION_COUNT,
    SPT_NO_DIMENSION = SPT_DIMENSION_COUNT
};

#define SPT_HOURS_PER_YEAR (24 * SPT_DAYS_PER_YEAR)

enum spt_quantity_problem {
    SPT_QUANTITY_FINE,
    SPT_QUANTITY_NO_NUMBER,  /* does not start with a number */
    SPT_QUANTITY_NOT_FINITE, /* nan, inf, or too large for a double */
    SPT_QUANTITY_COMMA,      /* a comma instead of a decimal point or as thousands separator */
    SPT_QUANTITY_BLANK,      /* a blank between digits */
    SPT_QUANTITY_NO_UNIT,
    SPT_QUANTITY_WRONG_UNIT,
    SPT_QUANTITY_AMBIGUOUS /* "20.000 h": 20 or 20 thousand; see spt_quantity_readings */
};

/* Converts "15 kN", "0.005 in" or "158 degF" to the program's unit of a dimension. Numbers: digits
 * with an optional sign, decimal point and exponent; nothing else. In h, rpm, N, lbf, ppm and km
 * (and other spellings of these) one to three digits, the first not 0, with exactly three decimals
 * are ambiguous; a number without a unit, as in a column of a data logger, is not. SPT_NO_DIMENSION
 * requires a number without a unit. The result does not depend on the locale. */
enum spt_quantity_problem spt_quantity_read(const char *text, enum spt_dimension dimension,
                                            double *value);

#define SPT_READING_LENGTH 32

/* The two readings of an ambiguous quantity, each in an unambiguous form: "20.000 h" gives "20000
 * h" and "20.0 h". */
void spt_quantity_readings(const char *text, char *thousands, char *decimals);

/* A unit: a value inside the program is number * factor + offset. */
struct spt_unit {
    const char *name;
    double factor, offset;
};

/* The unit in which a quantity such as "15 kN" is written; that of the program where it has
 * none. */
void spt_quantity_unit(const char *text, enum spt_dimension dimension, struct spt_unit *as);

/* The accepted units of a dimension as a list for messages, without other spellings of one: "N, kN,
 * MN, lbf, kgf"; into a buffer of SPT_UNITS_LENGTH bytes, or one that ends with the block. */
#define SPT_UNITS_LENGTH 80
#define SPT_UNITS_OF(dimension) spt_units_list(dimension, (char[SPT_UNITS_LENGTH]){0})
const char *spt_units_list(enum spt_dimension dimension, char *list);

/* Spelling of unit i of a dimension, aliases included; NULL past the last. */
const char *spt_unit_name(enum spt_dimension dimension, int i);

/* Name of the dimension in messages: "a force". */
const char *spt_dimension_name(enum spt_dimension dimension);

/* The unit inside the program, as printed after a value: "N", "mm2/s", "degC". */
const char *spt_dimension_unit(enum spt_dimension dimension);

/* The first dimension that has this unit; SPT_NO_DIMENSION where none has. */
enum spt_dimension spt_unit_dimension(const char *unit);

#endif
