/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/units.h"

#include <criterion/criterion.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/near.h"

static double read(const char *text, enum spt_dimension dimension)
{
    double value;
    enum spt_quantity_problem problem = spt_quantity_read(text, dimension, &value);
    cr_expect_eq(problem, SPT_QUANTITY_FINE, "%s: problem %d", text, (int)problem);
    return value;
}

/* Constants of NIST SP 811 (2008), appendix B, from memory; those marked exact are definitions. */
Test(units, inch_and_pound_units_are_those_of_nist_sp_811)
{
    static const struct {
        const char *text;
        enum spt_dimension dimension;
        double want, relative;
    } rows[] = {
        {"1 in", SPT_LENGTH, 25.4, 1e-15}, /* exact */
        {"1 lbf", SPT_FORCE, 4.4482216152605,
         5e-13}, /* 0.45359237 kg x 9.80665, exact; GSL keeps 12 digits */
        {"1 kgf", SPT_FORCE, 9.80665, 1e-15},        /* exact */
        {"1 cSt", SPT_VISCOSITY, 1.0, 1e-15},        /* exact */
        {"1 mph", SPT_ROAD_SPEED, 1.609344, 1e-15},  /* exact */
        {"1 miles", SPT_DISTANCE, 1.609344, 1e-15},  /* exact */
        {"212 degF", SPT_TEMPERATURE, 100.0, 1e-15}, /* (F - 32)/1.8 */
        {"-40 degF", SPT_TEMPERATURE, -40.0, 1e-15},
        {"9 degF", SPT_TEMPERATURE_DIFFERENCE, 5.0, 1e-15},
        {"1 deg", SPT_ANGLE, 0.017453292519943295, 1e-15}, /* pi/180 */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double got = read(rows[i].text, rows[i].dimension);
        cr_expect(near(got, rows[i].want, rows[i].relative, 1e-13), "%s: %.17g, not %.17g",
                  rows[i].text, got, rows[i].want);
    }
}

/* Decimal multiples and other definitions of the SI brochure. */
Test(units, metric_units_and_times_are_exact_multiples)
{
    static const struct {
        const char *text;
        enum spt_dimension dimension;
        double want;
    } rows[] = {
        {"2.385 kN", SPT_FORCE, 2385},          {"0.002385 MN", SPT_FORCE, 2385},
        {"2385 um", SPT_LENGTH, 2.385},         {"2385 µm", SPT_LENGTH, 2.385},
        {"2385 μm", SPT_LENGTH, 2.385},         {"0.2385 cm", SPT_LENGTH, 2.385},
        {"2.385 m", SPT_LENGTH, 2385},          {"296.535 K", SPT_TEMPERATURE, 23.385},
        {"23.385 °C", SPT_TEMPERATURE, 23.385}, {"2385 kg/m3", SPT_DENSITY, 2.385},
        {"0.0002385 %", SPT_CONTENT, 2.385},    {"23.85 %", SPT_SHARE, 0.2385},
        {"98.5 %", SPT_RELIABILITY, 98.5},      {"143.1 min", SPT_DURATION, 2.385},
        {"8586 s", SPT_DURATION, 2.385},        {"2 days", SPT_CALENDAR, 48},
        {"1 week", SPT_CALENDAR, 168},          {"12 months", SPT_CALENDAR, 8766},
        {"1 year", SPT_CALENDAR, 8766},         {"2.5 r/s", SPT_ROTATION, 150},
        {"10 m/s", SPT_ROAD_SPEED, 36},         {"0.25 kW", SPT_POWER, 250},
        {"33 W/(m2 K)", SPT_HEAT_TRANSFER, 33}, {"33W/m²K", SPT_HEAT_TRANSFER, 33},
        {"23.85 mrad", SPT_ANGLE, 0.02385},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double got = read(rows[i].text, rows[i].dimension);
        cr_expect(near(got, rows[i].want, 1e-13, 0), "%s: %.17g", rows[i].text, got);
    }
    cr_expect(near(read("31.41592653589793 rad/s", SPT_ROTATION), 300, 1e-14, 0));
}

Test(units, every_unit_reads_back_in_proportion)
{
    for (int d = 0; d < SPT_DIMENSION_COUNT; d++)
        for (int i = 0; spt_unit_name((enum spt_dimension)d, i); i++) {
            const char *name = spt_unit_name((enum spt_dimension)d, i);
            char text[3][40];
            double value[3];
            static const double numbers[] = {0, 1, 2.385};
            for (int k = 0; k < 3; k++) {
                snprintf(text[k], sizeof text[k], "%.17g %s", numbers[k], name);
                value[k] = read(text[k], (enum spt_dimension)d);
            }
            double slope = value[1] - value[0];
            cr_expect_gt(slope, 0, "%s", name);
            cr_expect(near(value[2], value[0] + 2.385 * slope, 1e-12, 0), "%s", name);
            cr_expect_neq(spt_unit_dimension(name), SPT_NO_DIMENSION, "%s", name);
            /* without the blank too, but for a unit that starts with a digit */
            if (strcspn(name, "0123456789") == 0)
                continue;
            snprintf(text[0], sizeof text[0], "2.3850%s", name);
            cr_expect_eq(read(text[0], (enum spt_dimension)d), value[2], "%s", text[0]);
        }
}

/* The next word of "a, b, c", which may hold a blank; NULL past the last. */
static char *next_word(char *list)
{
    char *word = strtok(list, ",");
    return word ? word + strspn(word, " ") : NULL;
}

/* Splits "a, b, c" and checks each against the units of the dimension, and that none is left. */
Test(units, the_list_for_messages_names_each_unit_once_and_no_other_spelling)
{
    for (int d = 0; d < SPT_DIMENSION_COUNT; d++) {
        char list[SPT_UNITS_LENGTH];
        snprintf(list, sizeof list, "%s", SPT_UNITS_OF((enum spt_dimension)d));
        int at = 0;
        for (char *word = next_word(list); word; word = next_word(NULL), at++) {
            const char *name = spt_unit_name((enum spt_dimension)d, at);
            cr_expect(name && !strcmp(name, word), "%s, place %d", word, at);
        }
        /* what follows in the table is another spelling: the same value as one of the list */
        for (; spt_unit_name((enum spt_dimension)d, at); at++) {
            char text[40];
            bool same = false;
            snprintf(text, sizeof text, "2.3850 %s", spt_unit_name((enum spt_dimension)d, at));
            double value = read(text, (enum spt_dimension)d);
            snprintf(list, sizeof list, "%s", SPT_UNITS_OF((enum spt_dimension)d));
            for (char *word = next_word(list); word; word = next_word(NULL)) {
                snprintf(text, sizeof text, "2.3850 %s", word);
                same = same || near(read(text, (enum spt_dimension)d), value, 1e-15, 0);
            }
            cr_expect(same, "%s is neither listed nor another spelling",
                      spt_unit_name((enum spt_dimension)d, at));
        }
        cr_expect_eq(spt_dimension_name((enum spt_dimension)d)[0], 'a');
    }
    cr_expect_eq(spt_unit_dimension("furlong"), SPT_NO_DIMENSION);
}

/* The unit in which values are kept reads back as it is (a share is kept as 0 to 1; calendar times
 * are kept in hours, which are written for running times only). */
Test(units, the_unit_inside_the_program_has_the_factor_one)
{
    for (int d = 0; d < SPT_DIMENSION_COUNT; d++) {
        char text[40];
        if (d == SPT_CALENDAR)
            continue;
        snprintf(text, sizeof text, "2.3850 %s", spt_dimension_unit((enum spt_dimension)d));
        cr_expect(
            near(read(text, (enum spt_dimension)d), d == SPT_SHARE ? 0.02385 : 2.385, 1e-15, 0),
            "%s", text);
    }
}

/* What a limit is told in: the value itself reads back from the unit it is written in. */
Test(units, the_unit_that_a_quantity_is_written_in_is_found)
{
    static const struct {
        const char *text;
        enum spt_dimension dimension;
        const char *want;
    } rows[] = {{"60 m", SPT_LENGTH, "m"},
                {"-15kN", SPT_FORCE, "kN"},
                {"70 K", SPT_TEMPERATURE, "K"},
                {"158 degF", SPT_TEMPERATURE, "degF"},
                {"120 %", SPT_CONTENT, "%"},
                {"145 %", SPT_SHARE, "%"},
                {"420 1/min", SPT_ROTATION, "1/min"},
                {"15", SPT_FORCE, "N"},
                {"15 bar", SPT_FORCE, "N"},
                {"15", SPT_NO_DIMENSION, ""}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_unit unit;
        double value;
        spt_quantity_unit(rows[i].text, rows[i].dimension, &unit);
        cr_expect_str_eq(unit.name, rows[i].want, "%s: %s", rows[i].text, unit.name);
        if (spt_quantity_read(rows[i].text, rows[i].dimension, &value) == SPT_QUANTITY_FINE)
            cr_expect(
                near(strtod(rows[i].text, NULL), (value - unit.offset) / unit.factor, 1e-14, 0),
                "%s", rows[i].text);
    }
}

Test(units, numbers_are_read_strictly)
{
    static const struct {
        const char *text;
        enum spt_quantity_problem want;
    } rows[] = {
        {"15 N", SPT_QUANTITY_FINE},          {"+1.5e1 N", SPT_QUANTITY_FINE},
        {".5 N", SPT_QUANTITY_FINE},          {"5. N", SPT_QUANTITY_FINE},
        {"15", SPT_QUANTITY_NO_UNIT},         {"15 ", SPT_QUANTITY_NO_UNIT},
        {"", SPT_QUANTITY_NO_NUMBER},         {"N", SPT_QUANTITY_NO_NUMBER},
        {". N", SPT_QUANTITY_NO_NUMBER},      {"-", SPT_QUANTITY_NO_NUMBER},
        {" 15 N", SPT_QUANTITY_NO_NUMBER},    {"0x10 N", SPT_QUANTITY_WRONG_UNIT},
        {"1e N", SPT_QUANTITY_WRONG_UNIT},    {"15 n", SPT_QUANTITY_WRONG_UNIT},
        {"15 N ", SPT_QUANTITY_WRONG_UNIT},   {"15\tN", SPT_QUANTITY_WRONG_UNIT},
        {"1,5 N", SPT_QUANTITY_COMMA},        {"1,500 N", SPT_QUANTITY_COMMA},
        {"1 500 N", SPT_QUANTITY_BLANK},      {"1 500", SPT_QUANTITY_BLANK},
        {"1, 5 N", SPT_QUANTITY_WRONG_UNIT},  {"nan N", SPT_QUANTITY_NOT_FINITE},
        {"-Inf N", SPT_QUANTITY_NOT_FINITE},  {".NaN", SPT_QUANTITY_NOT_FINITE},
        {"1e309 N", SPT_QUANTITY_NOT_FINITE}, {"1e306 MN", SPT_QUANTITY_NOT_FINITE},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double value = 0;
        enum spt_quantity_problem got = spt_quantity_read(rows[i].text, SPT_FORCE, &value);
        cr_expect_eq(got, rows[i].want, "`%s`: %d", rows[i].text, (int)got);
        cr_expect(got == SPT_QUANTITY_FINE ? isfinite(value) : isnan(value) || isinf(value),
                  "`%s`: %g", rows[i].text, value);
    }
    double value;
    cr_expect_eq(spt_quantity_read("1.25", SPT_NO_DIMENSION, &value), SPT_QUANTITY_FINE);
    cr_expect_eq(value, 1.25);
    cr_expect_eq(spt_quantity_read("1.25 %", SPT_NO_DIMENSION, &value), SPT_QUANTITY_WRONG_UNIT);
}

Test(units, a_number_does_not_depend_on_the_locale)
{
    static const char *const names[] = {"de_DE.UTF-8", "fr_FR.UTF-8", "de_DE", "C.UTF-8"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        if (setlocale(LC_ALL, names[i]))
            cr_expect_eq(read("2.5 kN", SPT_FORCE), 2500.0, "%s", names[i]);
    setlocale(LC_ALL, "C");
}

/* "20.000 h" is 20 h to one reader and 20 thousand to another. */
Test(units, a_point_before_just_three_digits_is_ambiguous_where_thousands_are_usual)
{
    static const struct {
        const char *text;
        enum spt_dimension dimension;
        const char *thousands, *decimals;
    } rows[] = {
        {"20.000 h", SPT_DURATION, "20000 h", "20.0 h"},
        {"1.250 hours", SPT_DURATION, "1250 hours", "1.25 hours"},
        {"12.500 N", SPT_FORCE, "12500 N", "12.5 N"},
        {"-12.500N", SPT_FORCE, "-12500 N", "-12.5 N"},
        {"2.385 lbf", SPT_FORCE, "2385 lbf", "2.3850 lbf"},
        {"1.450 rpm", SPT_ROTATION, "1450 rpm", "1.45 rpm"},
        {"1.450 1/min", SPT_ROTATION, "1450 1/min", "1.45 1/min"},
        {"400.000 ppm", SPT_CONTENT, "400000 ppm", "400.0 ppm"},
        {"250.000 km", SPT_DISTANCE, "250000 km", "250.0 km"},
    };
    static const struct {
        const char *text;
        enum spt_dimension dimension;
    } clear[] = {
        {"0.127 mm", SPT_LENGTH},        {"0.005 in", SPT_LENGTH},
        {"45.755 mm2/s", SPT_VISCOSITY}, {"1234.567 N", SPT_FORCE},
        {"12.5 N", SPT_FORCE},           {"12.50 N", SPT_FORCE},
        {"12.5000 N", SPT_FORCE},        {"0.500 N", SPT_FORCE},
        {"012.500 N", SPT_FORCE},        {"12.500e0 N", SPT_FORCE},
        {".500 h", SPT_DURATION},        {"12.500 kN", SPT_FORCE},
        {"20.000 min", SPT_DURATION},    {"1.609 miles", SPT_DISTANCE},
        {"20000. h", SPT_DURATION},      {"20.000", SPT_NO_DIMENSION},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char thousands[SPT_READING_LENGTH], decimals[SPT_READING_LENGTH];
        double value;
        cr_expect_eq(spt_quantity_read(rows[i].text, rows[i].dimension, &value),
                     SPT_QUANTITY_AMBIGUOUS, "%s", rows[i].text);
        cr_expect(isnan(value), "%s", rows[i].text);
        spt_quantity_readings(rows[i].text, thousands, decimals);
        cr_expect_str_eq(thousands, rows[i].thousands);
        cr_expect_str_eq(decimals, rows[i].decimals);
        double few = read(decimals, rows[i].dimension), many = read(thousands, rows[i].dimension);
        cr_expect(near(many, 1000 * few, 1e-15, 0), "%s: %g and %g", rows[i].text, few, many);
    }
    for (size_t i = 0; i < sizeof clear / sizeof *clear; i++)
        cr_expect(isfinite(read(clear[i].text, clear[i].dimension)), "%s", clear[i].text);
}
