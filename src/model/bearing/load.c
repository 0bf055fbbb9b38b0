/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/table.h"
#include "model/bearing/bearing_type.h"

#include <math.h>
#include <stdbool.h>

#define DEGREES_PER_RADIAN 57.29577951308232
#define ANGLE_TOLERANCE_DEG 1e-6
#define COUNT_OF(array) ((int)(sizeof(array) / sizeof(array)[0]))

/* Radial bearings: X = 1, Y = y_below where Fa/Fr <= e; x, y above. Factors that the type does not
 * use are NaN. */
struct factors {
    double e;
    double x_below, y_below;
    double x, y;
    double relative;                   /* relative axial load used to look up a table */
    double relative_min, relative_max; /* ends of that table */
    bool f0_assumed;
};

/* Factors that depend on the relative axial load. ISO 281:2007 table 3; Y of the deep groove
 * ball bearings also in three textbooks, everything else from memory. */
struct relative_row {
    double with_f0;    /* radial contact f0 Fa/C0r, angular contact f0 i Fa/C0r */
    double without_f0; /* relative axial load without f0 */
    double e;
    double y;              /* single row */
    double y_double_below; /* two rows, Fa/Fr <= e */
    double y_double;
};
static const struct relative_row deep_groove_rows[] = {
    {0.172, 0.014, 0.19, 2.30, 0.0, 2.30}, {0.345, 0.028, 0.22, 1.99, 0.0, 1.99},
    {0.689, 0.056, 0.26, 1.71, 0.0, 1.71}, {1.03, 0.084, 0.28, 1.55, 0.0, 1.55},
    {1.38, 0.11, 0.30, 1.45, 0.0, 1.45},   {2.07, 0.17, 0.34, 1.31, 0.0, 1.31},
    {3.45, 0.28, 0.38, 1.15, 0.0, 1.15},   {5.17, 0.42, 0.42, 1.04, 0.0, 1.04},
    {6.89, 0.56, 0.44, 1.00, 0.0, 1.00},
};
static const struct relative_row angular_15_rows[] = {
    {0.178, 0.015, 0.38, 1.47, 1.65, 2.39}, {0.357, 0.029, 0.40, 1.40, 1.57, 2.28},
    {0.714, 0.058, 0.43, 1.30, 1.46, 2.11}, {1.07, 0.087, 0.46, 1.23, 1.38, 2.00},
    {1.43, 0.12, 0.47, 1.19, 1.34, 1.93},   {2.14, 0.17, 0.50, 1.12, 1.26, 1.82},
    {3.57, 0.29, 0.55, 1.02, 1.14, 1.66},   {5.35, 0.44, 0.56, 1.00, 1.12, 1.63},
    {7.14, 0.58, 0.56, 1.00, 1.12, 1.63},
};

/* Angular contact ball bearings by contact angle. ISO 281:2007 table 3, from memory. */
static const struct {
    double angle_deg;
    double e;
    double x, y;
    double y_double_below, x_double, y_double;
} angular_rows[] = {
    {20.0, 0.57, 0.43, 1.00, 1.09, 0.70, 1.63}, {25.0, 0.68, 0.41, 0.87, 0.92, 0.67, 1.41},
    {30.0, 0.80, 0.39, 0.76, 0.78, 0.63, 1.24}, {35.0, 0.95, 0.37, 0.66, 0.66, 0.60, 1.07},
    {40.0, 1.14, 0.35, 0.57, 0.55, 0.57, 0.93}, {45.0, 1.34, 0.33, 0.50, 0.47, 0.54, 0.81},
};

/* Y0 of a single row of angular contact balls. ISO 76:2006 table 2, from memory. */
static const struct {
    double angle_deg;
    double y0;
} angular_static_rows[] = {
    {15.0, 0.46}, {20.0, 0.42}, {25.0, 0.38}, {30.0, 0.33},
    {35.0, 0.29}, {40.0, 0.26}, {45.0, 0.22},
};

/* Types whose factors follow the cotangent of the contact angle: e = 1.5 tan alpha, x fixed,
 * y = y_per_cot cot alpha. ISO 281:2007 tables 3 and 8, from memory. */
struct cotangent_row {
    double x;
    double y_below_per_cot;
    double y_per_cot;
};
static const struct cotangent_row single_row = {0.4, 0.0, 0.4};
static const struct cotangent_row double_self_aligning_row = {0.65, 0.42, 0.65};
static const struct cotangent_row double_roller_row = {0.67, 0.45, 0.67};

static bool is_load(double value)
{
    return isfinite(value) && value >= 0.0;
}

static bool is_positive(double value)
{
    return isfinite(value) && value > 0.0;
}

static bool is_given(double value)
{
    return !isnan(value);
}

static double interpolate(double low, double high, double part)
{
    return low + part * (high - low);
}

static int count_rows(const struct spt_bearing *bearing)
{
    return spt_bearing_rows(bearing->type, bearing->rows);
}

static bool has_two_rows(const struct spt_bearing *bearing)
{
    return count_rows(bearing) >= 2;
}

static const struct cotangent_row *find_cotangent_row(const struct spt_bearing *bearing)
{
    if (!has_two_rows(bearing))
        return &single_row;
    return bearing->type == SPT_SELF_ALIGNING_BALL ? &double_self_aligning_row : &double_roller_row;
}

/* cot alpha from the given Y, else the given e, else the contact angle; else NaN. */
static double find_cotangent(const struct spt_bearing *bearing)
{
    if (is_given(bearing->axial_factor))
        return bearing->axial_factor / find_cotangent_row(bearing)->y_per_cot;
    if (is_given(bearing->limit_ratio))
        return 1.5 / bearing->limit_ratio;
    if (is_positive(bearing->contact_angle_rad))
        return 1.0 / tan(bearing->contact_angle_rad);
    return (double)NAN;
}

static enum spt_status look_up_cotangent(const struct spt_bearing *bearing, struct factors *f)
{
    const struct cotangent_row *row = find_cotangent_row(bearing);
    double cot = find_cotangent(bearing);
    if (isnan(cot))
        return SPT_NOT_APPLICABLE;
    f->e = 1.5 / cot;
    f->y_below = row->y_below_per_cot * cot;
    f->x = row->x;
    f->y = row->y_per_cot * cot;
    return SPT_OK;
}

/* P is continuous at Fa/Fr = e. For a single row this means X + Y e = 1, so that e follows from Y
 * or Y from e; for two rows 1 + Y1 e = X + Y e. Result: false where too few factors are given. */
static bool complete_given(const struct spt_bearing *bearing, double x, bool two_rows,
                           struct factors *f)
{
    double e = bearing->limit_ratio, y = bearing->axial_factor;
    bool enough = two_rows ? is_given(e) && is_given(y) : is_given(e) || is_given(y);
    if (!is_given(x) || !enough)
        return false;
    f->x = x;
    f->e = is_given(e) ? e : (1.0 - x) / y;
    f->y = is_given(y) ? y : (1.0 - x) / e;
    if (two_rows)
        f->y_below = fmax(y - (1.0 - x) / e, 0.0);
    return true;
}

static double find_abscissa(const struct relative_row *row, bool has_f0)
{
    return has_f0 ? row->with_f0 : row->without_f0;
}

static enum spt_status look_up_relative(const struct spt_bearing *bearing, double axial_n,
                                        const struct relative_row *rows, int count,
                                        struct factors *f)
{
    if (!is_positive(bearing->static_load_rating_n))
        return SPT_NOT_APPLICABLE;
    const enum spt_load_rule rule = spt_bearing_type_data(bearing->type)->load_rule;
    bool has_f0 = is_given(bearing->f0);
    f->f0_assumed = !has_f0;
    f->relative = (has_f0 ? bearing->f0 : 1.0) * axial_n / bearing->static_load_rating_n;
    if (rule == SPT_LOAD_ANGULAR_CONTACT)
        f->relative *=
            count_rows(bearing); /* no factor i for radial contact: C0r is that of all rows */
    f->relative_min = find_abscissa(&rows[0], has_f0);
    f->relative_max = find_abscissa(&rows[count - 1], has_f0);
    double held = fmin(fmax(f->relative, f->relative_min), f->relative_max);
    int i = 1;
    while (held > find_abscissa(&rows[i], has_f0))
        i++;
    const struct relative_row *a = &rows[i - 1], *b = &rows[i];
    double start = find_abscissa(a, has_f0);
    double part = (held - start) / (find_abscissa(b, has_f0) - start);
    bool two = has_two_rows(bearing);
    f->e = interpolate(a->e, b->e, part);
    f->y_below = two ? interpolate(a->y_double_below, b->y_double_below, part) : 0.0;
    f->y = two ? interpolate(a->y_double, b->y_double, part) : interpolate(a->y, b->y, part);
    return SPT_OK;
}

static enum spt_status look_up_deep_groove(const struct spt_bearing *bearing, double axial_n,
                                           struct factors *f)
{
    f->x = is_given(bearing->radial_factor) ? bearing->radial_factor : 0.56;
    if (complete_given(bearing, f->x, false, f))
        return SPT_OK;
    return look_up_relative(bearing, axial_n, deep_groove_rows, COUNT_OF(deep_groove_rows), f);
}

/* 20 to 45 degrees, interpolated linearly between the table rows. */
static void look_up_angle(const struct spt_bearing *bearing, double angle_deg, struct factors *f)
{
    int i = 1;
    while (i < COUNT_OF(angular_rows) - 1 && angle_deg > angular_rows[i].angle_deg)
        i++;
    double part = (angle_deg - angular_rows[i - 1].angle_deg) /
                  (angular_rows[i].angle_deg - angular_rows[i - 1].angle_deg);
    f->e = interpolate(angular_rows[i - 1].e, angular_rows[i].e, part);
    if (has_two_rows(bearing)) {
        f->y_below =
            interpolate(angular_rows[i - 1].y_double_below, angular_rows[i].y_double_below, part);
        f->x = interpolate(angular_rows[i - 1].x_double, angular_rows[i].x_double, part);
        f->y = interpolate(angular_rows[i - 1].y_double, angular_rows[i].y_double, part);
    } else {
        f->x = interpolate(angular_rows[i - 1].x, angular_rows[i].x, part);
        f->y = interpolate(angular_rows[i - 1].y, angular_rows[i].y, part);
    }
}

static enum spt_status look_up_angular(const struct spt_bearing *bearing, double axial_n,
                                       struct factors *f)
{
    if (complete_given(bearing, bearing->radial_factor, has_two_rows(bearing), f))
        return SPT_OK;
    double angle_deg = bearing->contact_angle_rad * DEGREES_PER_RADIAN;
    if (fabs(angle_deg - 15.0) <= ANGLE_TOLERANCE_DEG) {
        f->x = has_two_rows(bearing) ? 0.72 : 0.44;
        return look_up_relative(bearing, axial_n, angular_15_rows, COUNT_OF(angular_15_rows), f);
    }
    if (!(angle_deg >= 20.0 - ANGLE_TOLERANCE_DEG && angle_deg <= 45.0 + ANGLE_TOLERANCE_DEG))
        return SPT_NOT_APPLICABLE;
    look_up_angle(bearing, angle_deg, f);
    return SPT_OK;
}

static bool is_square(const struct spt_bearing *bearing)
{
    return bearing->contact_angle_rad * DEGREES_PER_RADIAN >= 90.0 - ANGLE_TOLERANCE_DEG;
}

/* ISO 281:2007 tables 5 and 10, from memory. */
static enum spt_status look_up_thrust(const struct spt_bearing *bearing, struct factors *f)
{
    f->x_below = f->x = bearing->radial_factor;
    f->y_below = f->y = 1.0;
    if (is_square(bearing))
        return SPT_OK;
    if (!is_positive(bearing->contact_angle_rad))
        return is_given(f->x) ? SPT_OK : SPT_NOT_APPLICABLE;
    double t = tan(bearing->contact_angle_rad), s = sin(bearing->contact_angle_rad);
    if (spt_bearing_is_ball(bearing->type)) {
        f->e = 1.25 * t;
        f->x_below = 20.0 / 13.0 * t * (1.0 - s / 3.0);
        f->y_below = 10.0 / 13.0 * (1.0 - s / 3.0);
        f->x = 1.25 * t * (1.0 - 2.0 * s / 3.0);
    } else {
        f->e = 1.5 * t;
        f->x_below = 1.5 * t;
        f->y_below = 0.67;
        f->x = t;
    }
    return SPT_OK;
}

static enum spt_status look_up_factors(const struct spt_bearing *bearing, double axial_n,
                                       struct factors *f)
{
    switch (spt_bearing_type_data(bearing->type)->load_rule) {
    case SPT_LOAD_DEEP_GROOVE:
        return look_up_deep_groove(bearing, axial_n, f);
    case SPT_LOAD_ANGULAR_CONTACT:
        return look_up_angular(bearing, axial_n, f);
    case SPT_LOAD_COTANGENT:
        return look_up_cotangent(bearing, f);
    case SPT_LOAD_RADIAL_ONLY:
        f->x = 1.0;
        return SPT_OK;
    case SPT_LOAD_THRUST:
        return look_up_thrust(bearing, f);
    }
    return SPT_BAD_ARGUMENT;
}

static void apply_given(const struct spt_bearing *bearing, struct factors *f)
{
    if (is_given(bearing->limit_ratio))
        f->e = bearing->limit_ratio;
    if (is_given(bearing->radial_factor))
        f->x = bearing->radial_factor;
    if (is_given(bearing->axial_factor))
        f->y = bearing->axial_factor;
    if (has_two_rows(bearing) && bearing->low_axial_factor > 0)
        f->y_below = bearing->low_axial_factor;
}

static double find_ratio(double radial_n, double axial_n)
{
    if (radial_n == 0.0)
        return axial_n > 0.0 ? (double)INFINITY : (double)NAN;
    return axial_n / radial_n;
}

/* X Fr + Y Fa, where a NaN (unused) factor counts as 0. */
static double sum_load(double x, double radial_n, double y, double axial_n)
{
    return (is_given(x) ? x * radial_n : 0.0) + (is_given(y) ? y * axial_n : 0.0);
}

static bool factors_are_valid(const struct spt_bearing *bearing)
{
    return (isnan(bearing->limit_ratio) || is_positive(bearing->limit_ratio)) &&
           (isnan(bearing->axial_factor) || is_positive(bearing->axial_factor)) &&
           (isnan(bearing->radial_factor) || is_load(bearing->radial_factor)) &&
           (spt_bearing_is_thrust(bearing->type) || !(bearing->radial_factor > 1.0)) &&
           (isnan(bearing->static_axial_factor) || is_load(bearing->static_axial_factor)) &&
           (isnan(bearing->f0) || is_positive(bearing->f0));
}

static bool input_is_valid(const struct spt_bearing *bearing, double radial_n, double axial_n)
{
    return count_rows(bearing) > 0 && is_load(radial_n) && is_load(axial_n) &&
           factors_are_valid(bearing);
}

static void clear_result(double radial_n, double axial_n, struct spt_equivalent_load *result)
{
    const double none = (double)NAN;
    *result = (struct spt_equivalent_load){none, none, none, none, none, none};
    if (is_load(radial_n) && is_load(axial_n))
        result->ratio = find_ratio(radial_n, axial_n);
}

static void note_table(const struct factors *f, bool above, struct spt_notes *notes)
{
    if (isnan(f->relative))
        return;
    if (f->f0_assumed && f->relative > 0.0)
        spt_notes_add(notes, SPT_FLAG_F0_ASSUMED, f->relative, (double)NAN);
    if (f->relative > f->relative_max)
        spt_notes_add(notes, SPT_FLAG_AXIAL_RANGE, f->relative, f->relative_max);
    else if (f->relative < f->relative_min && above)
        spt_notes_add(notes, SPT_FLAG_AXIAL_RANGE, f->relative, f->relative_min);
}

/* Raises the flags for loads that the rating does not cover, in N. */
static void note_scope(const struct spt_bearing *bearing, double radial_n, double axial_n,
                       double radial_limit_n, bool axial_is_rated, struct spt_notes *notes)
{
    if (spt_bearing_is_thrust(bearing->type)) {
        if (radial_n > radial_limit_n)
            spt_notes_add(notes, SPT_FLAG_RADIAL_NOT_RATED, radial_n, radial_limit_n);
    } else if (!axial_is_rated && axial_n > 0.0) {
        spt_notes_add(notes, SPT_FLAG_AXIAL_NOT_RATED, axial_n, 0.0);
    }
}

static enum spt_status find_factors(const struct spt_bearing *bearing, double axial_n,
                                    struct factors *f)
{
    const double none = (double)NAN;
    *f = (struct factors){none, 1.0, 0.0, none, none, none, none, none, false};
    enum spt_status status = look_up_factors(bearing, axial_n, f);
    apply_given(bearing, f);
    return status;
}

/* True where Fa/Fr > e in a radial bearing. */
static bool is_above(const struct factors *f, double ratio, double axial_n)
{
    return axial_n != 0.0 && (ratio > f->e || isnan(f->e));
}

enum spt_status spt_load_equivalent(const struct spt_bearing *bearing, double radial_n,
                                    double axial_n, struct spt_equivalent_load *result,
                                    struct spt_notes *notes)
{
    clear_result(radial_n, axial_n, result);
    if (!input_is_valid(bearing, radial_n, axial_n))
        return SPT_BAD_ARGUMENT;
    struct factors f;
    enum spt_status status = find_factors(bearing, axial_n, &f);
    /* a pure radial (thrust: pure axial) load needs no factors */
    bool thrust = spt_bearing_is_thrust(bearing->type);
    if (status != SPT_OK && !(thrust ? radial_n == 0.0 : axial_n == 0.0))
        return status;
    bool above = thrust ? !(result->ratio <= f.e) : is_above(&f, result->ratio, axial_n);
    result->relative_axial_load = f.relative;
    result->limit_ratio = f.e;
    result->radial_factor = above ? f.x : f.x_below;
    result->axial_factor = above ? f.y : f.y_below;
    result->load_n = sum_load(result->radial_factor, radial_n, result->axial_factor, axial_n);
    if (!thrust)
        result->load_n = fmax(result->load_n, radial_n);
    note_table(&f, above, notes);
    note_scope(bearing, radial_n, axial_n, is_given(f.e) ? axial_n / f.e : 0.0, is_given(f.y),
               notes);
    return SPT_OK;
}

void spt_load_equivalent_many(const struct spt_bearing *bearing, const double *radial_n,
                              const double *axial_n, int count, double *load_n)
{
    struct factors f;
    enum spt_status status = SPT_OK;
    double found_for = (double)NAN; /* axial load for which the factors were found */
    if (!load_n)
        return;
    bool valid = radial_n && axial_n && input_is_valid(bearing, 0.0, 0.0) &&
                 !spt_bearing_is_thrust(bearing->type);
    const enum spt_load_rule rule =
        valid ? spt_bearing_type_data(bearing->type)->load_rule : SPT_LOAD_THRUST;
    bool fixed = rule != SPT_LOAD_DEEP_GROOVE && rule != SPT_LOAD_ANGULAR_CONTACT;
    for (int i = 0; i < count; i++) {
        load_n[i] = (double)NAN;
        if (!valid || !is_load(radial_n[i]) || !is_load(axial_n[i]))
            continue;
        double radial = radial_n[i], axial = axial_n[i];
        if (isnan(found_for) || (!fixed && axial != found_for)) {
            status = find_factors(bearing, axial, &f);
            found_for = axial;
        }
        if (status != SPT_OK && axial != 0.0)
            continue;
        bool above = is_above(&f, find_ratio(radial, axial), axial);
        double load = sum_load(above ? f.x : f.x_below, radial, above ? f.y : f.y_below, axial);
        load_n[i] = load > radial ? load : radial;
    }
}

/* Y0 of a single row of angular contact balls, 15 to 45 degrees; else NaN. */
static double find_angular_static(double angle_deg)
{
    const int count = COUNT_OF(angular_static_rows);
    if (!(angle_deg >= 15.0 - ANGLE_TOLERANCE_DEG && angle_deg <= 45.0 + ANGLE_TOLERANCE_DEG))
        return (double)NAN;
    int i = 1;
    while (i < count - 1 && angle_deg > angular_static_rows[i].angle_deg)
        i++;
    double part = (angle_deg - angular_static_rows[i - 1].angle_deg) /
                  (angular_static_rows[i].angle_deg - angular_static_rows[i - 1].angle_deg);
    return interpolate(angular_static_rows[i - 1].y0, angular_static_rows[i].y0, part);
}

/* X0 and Y0 of the type, NaN where unknown. ISO 76:2006 tables 2 and 4; deep groove also in the
 * textbooks, the rest from memory. */
static void look_up_static(const struct spt_bearing *bearing, double *x0, double *y0)
{
    double rows = has_two_rows(bearing) ? 2.0 : 1.0;
    *x0 = 0.5 * rows;
    *y0 = (double)NAN;
    switch (spt_bearing_type_data(bearing->type)->load_rule) {
    case SPT_LOAD_DEEP_GROOVE:
        *x0 = 0.6;
        *y0 = 0.5;
        break;
    case SPT_LOAD_ANGULAR_CONTACT:
        *y0 = rows * find_angular_static(bearing->contact_angle_rad * DEGREES_PER_RADIAN);
        break;
    case SPT_LOAD_COTANGENT:
        *y0 = rows * 0.22 * find_cotangent(bearing);
        break;
    case SPT_LOAD_RADIAL_ONLY:
        *x0 = 1.0;
        break;
    case SPT_LOAD_THRUST:
        *x0 = is_square(bearing) ? (double)NAN : 2.3 * tan(bearing->contact_angle_rad);
        *y0 = 1.0;
        break;
    }
    if (is_given(bearing->static_axial_factor))
        *y0 = bearing->static_axial_factor;
}

/* True where the static load needs factors that are unknown. */
static bool static_is_unknown(const struct spt_bearing *bearing, double x0, double y0,
                              double radial_n, double axial_n)
{
    if (spt_bearing_is_thrust(bearing->type))
        return isnan(x0) && !is_square(bearing) && radial_n > 0.0;
    bool radial_only = spt_bearing_type_data(bearing->type)->load_rule == SPT_LOAD_RADIAL_ONLY;
    return isnan(y0) && !radial_only && axial_n > 0.0;
}

enum spt_status spt_load_static(const struct spt_bearing *bearing, double radial_n, double axial_n,
                                struct spt_equivalent_load *result, struct spt_notes *notes)
{
    clear_result(radial_n, axial_n, result);
    if (!input_is_valid(bearing, radial_n, axial_n))
        return SPT_BAD_ARGUMENT;
    double x0, y0;
    look_up_static(bearing, &x0, &y0);
    if (static_is_unknown(bearing, x0, y0, radial_n, axial_n))
        return SPT_NOT_APPLICABLE;
    bool thrust = spt_bearing_is_thrust(bearing->type);
    result->radial_factor = x0;
    result->axial_factor = y0;
    result->load_n = sum_load(x0, radial_n, y0, axial_n);
    if (!thrust)
        result->load_n = fmax(result->load_n, radial_n);
    /* ISO 76:2006 limits the thrust formula to Fr <= 0.67 Fa cot alpha (from memory) */
    double limit_n = 0.0;
    if (thrust && is_given(x0) && axial_n > 0.0)
        limit_n = bearing->contact_angle_rad > 0.0
                      ? 0.67 * axial_n / tan(bearing->contact_angle_rad)
                      : (double)INFINITY;
    note_scope(bearing, radial_n, axial_n, limit_n, is_given(y0), notes);
    return SPT_OK;
}

enum spt_status spt_load_induced_thrust(const struct spt_bearing *bearing, double radial_n,
                                        double *thrust_n)
{
    struct factors f;
    double thrust = 0.0;
    *thrust_n = (double)NAN;
    if (!input_is_valid(bearing, radial_n, 0.0))
        return SPT_BAD_ARGUMENT;
    if (!spt_bearing_type_data(bearing->type)->induces_thrust || has_two_rows(bearing))
        return SPT_NOT_APPLICABLE;
    /* Y falls with the axial load, so that the thrust increases to its fixed point; one pass where
     * Y is constant */
    for (int i = 0; i < 60; i++) {
        double before = thrust;
        if (find_factors(bearing, thrust, &f) || isnan(f.y))
            return SPT_NOT_APPLICABLE;
        thrust = radial_n / (2.0 * f.y);
        if (thrust - before <= 1e-12 * thrust)
            break;
    }
    *thrust_n = thrust;
    return SPT_OK;
}

static bool is_running(enum spt_running running)
{
    return (int)running >= 0 && running < SPT_RUNNING_COUNT;
}

double spt_load_static_guide(enum spt_bearing_type type, enum spt_running running)
{
    static const struct {
        double ball, roller;
    } guides[] = {[SPT_RUNNING_NORMAL] = {1.0, 1.5},
                  [SPT_RUNNING_QUIET] = {2.0, 3.0},
                  [SPT_RUNNING_SHOCK] = {1.5, 3.0}};
    SPT_ONE_EACH(guides, SPT_RUNNING_COUNT);
    if (!spt_bearing_is_type(type) || !is_running(running))
        return (double)NAN;
    return spt_bearing_is_ball(type) ? guides[running].ball : guides[running].roller;
}

double spt_load_least_share(enum spt_bearing_type type)
{
    if (!spt_bearing_is_type(type))
        return (double)NAN;
    return spt_bearing_is_ball(type) ? 0.01 : 0.02;
}
