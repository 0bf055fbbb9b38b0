/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/units.h"
#include "base/table.h"
#include "platform/platform.h"

#include <ctype.h>
#include <gsl/gsl_const_mksa.h>
#include <gsl/gsl_math.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* One unit: value in program units = number * factor + offset. */
struct unit {
    const char *name;
    double factor;
    double offset;
    bool alias; /* another spelling: accepted, not listed */
    /* values in this unit are often thousands and rarely have three decimals: "20.000 h" may mean
     * 20 thousand, with a point as thousands separator (our choice of units) */
    bool thousands;
};

#define MM_PER_INCH (GSL_CONST_MKSA_INCH * 1e3)
#define MM2_S_PER_STOKES (GSL_CONST_MKSA_STOKES * 1e6)
#define HOURS_PER_DAY (GSL_CONST_MKSA_DAY / GSL_CONST_MKSA_HOUR)
#define KELVIN_AT_ZERO_C 273.15
#define CELSIUS_PER_FAHRENHEIT (5.0 / 9.0)

static const struct unit forces[] = {{"N", 1, 0, false, true},
                                     {"kN", 1e3, 0, false, false},
                                     {"MN", 1e6, 0, false, false},
                                     {"lbf", GSL_CONST_MKSA_POUND_FORCE, 0, false, true},
                                     {"kgf", GSL_CONST_MKSA_GRAM_FORCE * 1e3, 0, false, false},
                                     {"lb", GSL_CONST_MKSA_POUND_FORCE, 0, true, true},
                                     {"lbs", GSL_CONST_MKSA_POUND_FORCE, 0, true, true},
                                     {NULL, 0, 0, false, false}};
static const struct unit lengths[] = {{"mm", 1, 0, false, false},
                                      {"um", 1e-3, 0, false, false},
                                      {"cm", 10, 0, false, false},
                                      {"m", 1e3, 0, false, false},
                                      {"in", MM_PER_INCH, 0, false, false},
                                      {"µm", 1e-3, 0, true, false},
                                      {"μm", 1e-3, 0, true, false},
                                      {"inch", MM_PER_INCH, 0, true, false},
                                      {NULL, 0, 0, false, false}};
static const struct unit temperatures[] = {
    {"degC", 1, 0, false, false},
    {"degF", CELSIUS_PER_FAHRENHEIT, -32 * CELSIUS_PER_FAHRENHEIT, false, false},
    {"K", 1, -KELVIN_AT_ZERO_C, false, false},
    {"°C", 1, 0, true, false},
    {"C", 1, 0, true, false},
    {"°F", CELSIUS_PER_FAHRENHEIT, -32 * CELSIUS_PER_FAHRENHEIT, true, false},
    {"F", CELSIUS_PER_FAHRENHEIT, -32 * CELSIUS_PER_FAHRENHEIT, true, false},
    {NULL, 0, 0, false, false}};
static const struct unit temperature_differences[] = {
    {"K", 1, 0, false, false},
    {"degF", CELSIUS_PER_FAHRENHEIT, 0, false, false},
    {"degC", 1, 0, true, false},
    {"°C", 1, 0, true, false},
    {NULL, 0, 0, false, false}};
static const struct unit viscosities[] = {{"mm2/s", 1, 0, false, false},
                                          {"cSt", MM2_S_PER_STOKES / 100, 0, false, false},
                                          {"mm²/s", 1, 0, true, false},
                                          {"mm^2/s", 1, 0, true, false},
                                          {NULL, 0, 0, false, false}};
static const struct unit densities[] = {
    {"g/cm3", 1, 0, false, false}, {"kg/m3", 1e-3, 0, false, false}, {"kg/l", 1, 0, false, false},
    {"g/cm³", 1, 0, true, false},  {"kg/m³", 1e-3, 0, true, false},  {NULL, 0, 0, false, false}};
static const struct unit contents[] = {{"ppm", 1, 0, false, true},
                                       {"%", 1e4, 0, false, false},
                                       {"mg/kg", 1, 0, true, true},
                                       {NULL, 0, 0, false, false}};
static const struct unit shares[] = {{"%", 0.01, 0, false, false}, {NULL, 0, 0, false, false}};
static const struct unit durations[] = {
    {"h", 1, 0, false, true},
    {"min", GSL_CONST_MKSA_MINUTE / GSL_CONST_MKSA_HOUR, 0, false, false},
    {"s", 1 / GSL_CONST_MKSA_HOUR, 0, false, false},
    {"hours", 1, 0, true, true},
    {"hour", 1, 0, true, true},
    {NULL, 0, 0, false, false}};
static const struct unit calendar_times[] = {{"days", HOURS_PER_DAY, 0, false, false},
                                             {"weeks", 7 * HOURS_PER_DAY, 0, false, false},
                                             {"months", SPT_HOURS_PER_YEAR / 12, 0, false, false},
                                             {"years", SPT_HOURS_PER_YEAR, 0, false, false},
                                             {"day", HOURS_PER_DAY, 0, true, false},
                                             {"week", 7 * HOURS_PER_DAY, 0, true, false},
                                             {"month", SPT_HOURS_PER_YEAR / 12, 0, true, false},
                                             {"year", SPT_HOURS_PER_YEAR, 0, true, false},
                                             {NULL, 0, 0, false, false}};
static const struct unit rotations[] = {
    {"rpm", 1, 0, false, true},   {"r/min", 1, 0, false, true},
    {"r/s", 60, 0, false, false}, {"rad/s", 30 / M_PI, 0, false, false},
    {"1/min", 1, 0, true, true},  {NULL, 0, 0, false, false}};
static const struct unit road_speeds[] = {{"km/h", 1, 0, false, false},
                                          {"mph", GSL_CONST_MKSA_MILE * 1e-3, 0, false, false},
                                          {"m/s", 3.6, 0, false, false},
                                          {NULL, 0, 0, false, false}};
static const struct unit distances[] = {{"km", 1, 0, false, true},
                                        {"miles", GSL_CONST_MKSA_MILE * 1e-3, 0, false, false},
                                        {"mile", GSL_CONST_MKSA_MILE * 1e-3, 0, true, false},
                                        {NULL, 0, 0, false, false}};
static const struct unit angles[] = {{"deg", M_PI / 180, 0, false, false},
                                     {"mrad", 1e-3, 0, false, false},
                                     {"rad", 1, 0, false, false},
                                     {"°", M_PI / 180, 0, true, false},
                                     {NULL, 0, 0, false, false}};
static const struct unit powers[] = {{"W", 1, 0, false, false},
                                     {"kW", 1e3, 0, false, false},
                                     {"MW", 1e6, 0, false, false},
                                     {"hp", GSL_CONST_MKSA_HORSEPOWER, 0, false, false},
                                     {NULL, 0, 0, false, false}};
static const struct unit heat_transfers[] = {
    {"W/(m2 K)", 1, 0, false, false}, {"W/(m² K)", 1, 0, true, false},
    {"W/(m2K)", 1, 0, true, false},   {"W/(m²K)", 1, 0, true, false},
    {"W/m2K", 1, 0, true, false},     {"W/m²K", 1, 0, true, false},
    {NULL, 0, 0, false, false}};
static const struct unit masses[] = {{"kg", 1, 0, false, false},
                                     {"g", 1e-3, 0, false, false},
                                     {"t", 1e3, 0, false, false},
                                     {"lb", GSL_CONST_MKSA_POUND_MASS, 0, false, false},
                                     {NULL, 0, 0, false, false}};
static const struct unit torques[] = {
    {"N m", 1, 0, false, false},
    {"kN m", 1e3, 0, false, false},
    {"N mm", 1e-3, 0, false, false},
    {"lbf ft", GSL_CONST_MKSA_POUND_FORCE * 12 * GSL_CONST_MKSA_INCH, 0, false, false},
    {"lbf in", GSL_CONST_MKSA_POUND_FORCE *GSL_CONST_MKSA_INCH, 0, false, false},
    {"Nm", 1, 0, true, false},
    {"kNm", 1e3, 0, true, false},
    {"Nmm", 1e-3, 0, true, false},
    {NULL, 0, 0, false, false}};
static const struct unit unbalances[] = {{"g mm", 1, 0, false, false},
                                         {"kg mm", 1e3, 0, false, false},
                                         {"gmm", 1, 0, true, false},
                                         {NULL, 0, 0, false, false}};
static const struct unit balance_grades[] = {{"mm/s", 1, 0, false, false},
                                             {NULL, 0, 0, false, false}};
static const struct unit stiffnesses[] = {{"N/mm", 1, 0, false, false},
                                          {"kN/mm", 1e3, 0, false, false},
                                          {"N/um", 1e3, 0, false, false},
                                          {NULL, 0, 0, false, false}};
static const struct unit accelerations[] = {
    {"g", 1, 0, false, false},
    {"m/s2", 1 / GSL_CONST_MKSA_GRAV_ACCEL, 0, false, false},
    {"m/s²", 1 / GSL_CONST_MKSA_GRAV_ACCEL, 0, true, false},
    {NULL, 0, 0, false, false}};
static const struct unit flows[] = {
    {"l/min", 1e3, 0, false, false}, {"ml/min", 1, 0, false, false}, {NULL, 0, 0, false, false}};
static const struct unit volumes[] = {
    {"l", 1e3, 0, false, false}, {"ml", 1, 0, false, false}, {NULL, 0, 0, false, false}};
static const struct unit reliabilities[] = {{"%", 1, 0, false, false}, {NULL, 0, 0, false, false}};

static const struct {
    const struct unit *units;
    const char *name;
    const char *inside; /* unit of the program */
} dimensions[] = {
    [SPT_FORCE] = {forces, "a force", "N"},
    [SPT_LENGTH] = {lengths, "a length", "mm"},
    [SPT_TEMPERATURE] = {temperatures, "a temperature", "degC"},
    [SPT_TEMPERATURE_DIFFERENCE] = {temperature_differences, "a temperature difference", "K"},
    [SPT_VISCOSITY] = {viscosities, "a kinematic viscosity", "mm2/s"},
    [SPT_DENSITY] = {densities, "a density", "g/cm3"},
    [SPT_CONTENT] = {contents, "a content", "ppm"},
    [SPT_SHARE] = {shares, "a share", "%"},
    [SPT_DURATION] = {durations, "a running time", "h"},
    [SPT_CALENDAR] = {calendar_times, "a calendar time", "h"},
    [SPT_ROTATION] = {rotations, "a speed of rotation", "rpm"},
    [SPT_ROAD_SPEED] = {road_speeds, "a road speed", "km/h"},
    [SPT_DISTANCE] = {distances, "a distance", "km"},
    [SPT_ANGLE] = {angles, "an angle", "rad"},
    [SPT_POWER] = {powers, "a power", "W"},
    [SPT_HEAT_TRANSFER] = {heat_transfers, "a heat transfer coefficient", "W/(m2 K)"},
    [SPT_RELIABILITY] = {reliabilities, "a reliability", "%"},
    [SPT_MASS] = {masses, "a mass", "kg"},
    [SPT_TORQUE] = {torques, "a torque", "N m"},
    [SPT_UNBALANCE] = {unbalances, "an unbalance", "g mm"},
    [SPT_BALANCE_GRADE] = {balance_grades, "a balance grade", "mm/s"},
    [SPT_STIFFNESS] = {stiffnesses, "a stiffness", "N/mm"},
    [SPT_ACCELERATION] = {accelerations, "an acceleration", "g"},
    [SPT_FLOW] = {flows, "a flow", "ml/min"},
    [SPT_VOLUME] = {volumes, "a volume", "ml"},
};
SPT_ONE_EACH(dimensions, SPT_DIMENSION_COUNT);

/* Length of the number at the start of `text` in the strict syntax, 0 where there is none. */
static size_t number_length(const char *text)
{
    size_t i = text[0] == '+' || text[0] == '-';
    size_t digits = strspn(text + i, "0123456789");
    i += digits;
    if (text[i] == '.') {
        size_t decimals = strspn(text + i + 1, "0123456789");
        digits += decimals;
        i += 1 + decimals;
    }
    if (!digits)
        return 0;
    if (text[i] == 'e' || text[i] == 'E') {
        size_t sign = text[i + 1] == '+' || text[i + 1] == '-';
        size_t exponent = strspn(text + i + 1 + sign, "0123456789");
        if (exponent)
            i += 1 + sign + exponent;
    }
    return i;
}

/* strtod in the C locale, whatever locale the caller has set. */
static double to_double(const char *text)
{
    struct spt_numerals numerals;
    const bool entered = spt_numerals_enter(&numerals);
    double value = strtod(text, NULL);
    if (entered)
        spt_numerals_leave(&numerals);
    return value;
}

static bool spells_not_finite(const char *text)
{
    if (*text == '+' || *text == '-' || *text == '.')
        text++;
    char start[4] = {0};
    for (int i = 0; i < 3 && text[i]; i++)
        start[i] = (char)tolower((unsigned char)text[i]);
    return !strcmp(start, "nan") || !strcmp(start, "inf");
}

static const struct unit *find_unit(enum spt_dimension dimension, const char *name)
{
    for (const struct unit *unit = dimensions[dimension].units; unit->name; unit++)
        if (!strcmp(unit->name, name))
            return unit;
    return NULL;
}

/* True where the point may be a thousands separator: one to three digits, the first not 0, then a
 * point and exactly three digits. */
static bool is_ambiguous(const char *number, size_t length)
{
    size_t sign = *number == '+' || *number == '-';
    size_t before = strspn(number + sign, "0123456789");
    return before >= 1 && before <= 3 && number[sign] != '0' && number[sign + before] == '.' &&
           length == sign + before + 4 && strspn(number + sign + before + 1, "0123456789") == 3;
}

enum spt_quantity_problem spt_quantity_read(const char *text, enum spt_dimension dimension,
                                            double *value)
{
    *value = (double)NAN;
    size_t length = number_length(text);
    if (!length)
        return spells_not_finite(text) ? SPT_QUANTITY_NOT_FINITE : SPT_QUANTITY_NO_NUMBER;
    double number = to_double(text);
    if (!isfinite(number))
        return SPT_QUANTITY_NOT_FINITE;
    if (text[length] == ',' && isdigit((unsigned char)text[length + 1]))
        return SPT_QUANTITY_COMMA;
    const char *name = text + length + strspn(text + length, " ");
    /* a unit may also begin with a digit: 1/min */
    enum spt_quantity_problem wrong = name > text + length && isdigit((unsigned char)*name)
                                          ? SPT_QUANTITY_BLANK
                                          : SPT_QUANTITY_WRONG_UNIT;
    if (dimension == SPT_NO_DIMENSION) {
        *value = number;
        return *name ? wrong : SPT_QUANTITY_FINE;
    }
    if (!*name)
        return SPT_QUANTITY_NO_UNIT;
    const struct unit *unit = find_unit(dimension, name);
    if (!unit)
        return wrong;
    if (unit->thousands && is_ambiguous(text, length))
        return SPT_QUANTITY_AMBIGUOUS;
    *value = number * unit->factor + unit->offset;
    return isfinite(*value) ? SPT_QUANTITY_FINE : SPT_QUANTITY_NOT_FINITE;
}

void spt_quantity_unit(const char *text, enum spt_dimension dimension, struct spt_unit *as)
{
    *as = (struct spt_unit){spt_dimension_unit(dimension), 1, 0};
    if (dimension >= SPT_DIMENSION_COUNT)
        return;
    size_t length = number_length(text);
    const struct unit *unit = find_unit(dimension, text + length + strspn(text + length, " "));
    if (unit)
        *as = (struct spt_unit){unit->name, unit->factor, unit->offset};
}

void spt_quantity_readings(const char *text, char *thousands, char *decimals)
{
    const char *point = strchr(text, '.'), *behind = point + 1 + strspn(point + 1, "0123456789");
    int before = (int)(point - text), rest = (int)(behind - point - 1), kept = rest;
    const char *unit = behind + strspn(behind, " ");
    while (kept > 1 && point[kept] == '0')
        kept--;
    /* one zero more or less, so that there are not three decimals again */
    snprintf(thousands, SPT_READING_LENGTH, "%.*s%.*s %.12s", before, text, rest, point + 1, unit);
    snprintf(decimals, SPT_READING_LENGTH, "%.*s.%.*s%s %.12s", before, text, kept, point + 1,
             kept == rest ? "0" : "", unit);
}

const char *spt_units_list(enum spt_dimension dimension, char *list)
{
    size_t used = 0;
    snprintf(list, SPT_UNITS_LENGTH, "no unit");
    for (const struct unit *unit = dimension < SPT_DIMENSION_COUNT ? dimensions[dimension].units
                                                                   : NULL;
         unit && unit->name && used < SPT_UNITS_LENGTH; unit++)
        if (!unit->alias)
            used += (size_t)snprintf(list + used, SPT_UNITS_LENGTH - used, "%s%s", used ? ", " : "",
                                     unit->name);
    return list;
}

const char *spt_unit_name(enum spt_dimension dimension, int i)
{
    const struct unit *unit = dimensions[dimension].units;
    while (unit->name && i-- > 0)
        unit++;
    return unit->name;
}

const char *spt_dimension_name(enum spt_dimension dimension)
{
    return dimension < SPT_DIMENSION_COUNT ? dimensions[dimension].name : "a bare number";
}

const char *spt_dimension_unit(enum spt_dimension dimension)
{
    return dimension < SPT_DIMENSION_COUNT ? dimensions[dimension].inside : "";
}

enum spt_dimension spt_unit_dimension(const char *unit)
{
    for (int i = 0; i < SPT_DIMENSION_COUNT; i++)
        if (find_unit((enum spt_dimension)i, unit))
            return (enum spt_dimension)i;
    return SPT_NO_DIMENSION;
}
