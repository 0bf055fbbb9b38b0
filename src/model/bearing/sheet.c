/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/bearing.h"

#define FACTOR_BAND 0.04 /* of e Y: two factors rounded to two decimals */
#define SUM_BAND 0.01    /* of X + e Y, rounded alike */
#define STATIC_BAND 0.1  /* of Y0/Y: sheets print one decimal (our choice) */
#define LIMIT_BAND 0.4
#define CENTRE_BAND 0.2
#define LEAST_RATING 0.9
#define LARGEST_RATING 1.25 /* makers' own b_m lies above that of ISO 281 (common practice) */
#define LEAST_RATIO 0.4     /* of C0/C (common practice) */
#define LARGEST_RATIO 2.5

/* e Y and Y0/Y of a type whose factors follow the contact angle. */
struct proportions {
    double low_product; /* e Y1; 0: one row */
    double product;     /* e Y */
    double static_ratio;
};

static bool find_proportions(const struct spt_bearing *bearing, struct proportions *p)
{
    bool two = spt_bearing_rows(bearing->type, bearing->rows) >= 2;
    if (bearing->type == SPT_SELF_ALIGNING_BALL)
        *p = (struct proportions){1.5 * 0.42, 1.5 * 0.65, 0.44 / 0.65};
    else if (bearing->type != SPT_TAPERED_ROLLER && bearing->type != SPT_SPHERICAL_ROLLER)
        return false;
    else if (two)
        *p = (struct proportions){1.5 * 0.45, 1.5 * 0.67, 0.44 / 0.67};
    else
        *p = (struct proportions){0, 1.5 * 0.4, 0.55};
    return true;
}

static void doubt(struct spt_notes *notes, enum spt_flag flag, double value, double expected,
                  double band)
{
    if (fabs(value - expected) > band * expected) /* false where one of them is not given */
        spt_notes_add(notes, flag, value, expected);
}

static void doubt_factors(const struct spt_bearing *bearing, struct spt_notes *notes)
{
    struct proportions p;
    double e = bearing->limit_ratio, y = bearing->axial_factor, x = bearing->radial_factor;
    if (bearing->type == SPT_ANGULAR_CONTACT_BALL && bearing->rows < 2 && x > 0 &&
        fabs(x + e * y - 1) > SUM_BAND)
        spt_notes_add(notes, SPT_FLAG_SHEET_FACTORS, e * y, 1 - x);
    if (!find_proportions(bearing, &p))
        return;
    doubt(notes, SPT_FLAG_SHEET_FACTORS, e * y, p.product, FACTOR_BAND);
    if (p.low_product > 0 && bearing->low_axial_factor > 0)
        doubt(notes, SPT_FLAG_SHEET_FACTORS, e * bearing->low_axial_factor, p.low_product,
              FACTOR_BAND);
    if (bearing->static_axial_factor > 0)
        doubt(notes, SPT_FLAG_SHEET_STATIC_FACTOR, bearing->static_axial_factor / y, p.static_ratio,
              STATIC_BAND);
}

static void doubt_ratings(const struct spt_bearing *bearing, struct spt_notes *notes)
{
    struct spt_rating rating;
    double c_n = bearing->dynamic_load_rating_n, c0_n = bearing->static_load_rating_n, limit_n;
    if (!spt_bearing_is_thrust(bearing->type) &&
        (c0_n / c_n < LEAST_RATIO || c0_n / c_n > LARGEST_RATIO))
        spt_notes_add(notes, SPT_FLAG_SHEET_RATINGS, c0_n / c_n, (double)NAN);
    if (bearing->has_geometry && !bearing->ratings_from_geometry &&
        !spt_rating_from_geometry(bearing->type, &bearing->geometry, &rating)) {
        double ratio = c_n / rating.dynamic_load_rating_n;
        if (ratio < LEAST_RATING || ratio > LARGEST_RATING)
            spt_notes_add(notes, SPT_FLAG_SHEET_RATING, ratio, (double)NAN);
    }
    if (!spt_rating_fatigue_limit(bearing->type, c0_n, bearing->pitch_diameter_mm, &limit_n))
        doubt(notes, SPT_FLAG_SHEET_FATIGUE_LIMIT, bearing->fatigue_load_limit_n / limit_n, 1,
              LIMIT_BAND);
}

double spt_bearing_angle(const struct spt_bearing *bearing)
{
    struct proportions p;
    if (bearing->contact_angle_rad > 0)
        return bearing->contact_angle_rad;
    if (spt_bearing_is_radial_contact(bearing->type))
        return 0;
    if (!find_proportions(bearing, &p))
        return (double)NAN;
    double e = bearing->limit_ratio > 0 ? bearing->limit_ratio : p.product / bearing->axial_factor;
    return e > 0 ? atan(e / 1.5) : (double)NAN;
}

static double estimate_load_centre(const struct spt_bearing *bearing)
{
    double angle_rad = spt_bearing_angle(bearing);
    double half_mm = bearing->width_mm / 2;
    return isnan(angle_rad) ? half_mm : half_mm + bearing->pitch_diameter_mm / 2 * tan(angle_rad);
}

double spt_bearing_load_centre(const struct spt_bearing *bearing, bool *estimated)
{
    bool given = bearing->load_centre_mm > 0;
    if (estimated)
        *estimated = !given;
    return given ? bearing->load_centre_mm : estimate_load_centre(bearing);
}

void spt_bearing_doubts(const struct spt_bearing *bearing, struct spt_notes *notes)
{
    doubt_ratings(bearing, notes);
    doubt_factors(bearing, notes);
    if (bearing->load_centre_mm > 0 && !isnan(spt_bearing_angle(bearing)))
        doubt(notes, SPT_FLAG_SHEET_LOAD_CENTRE, bearing->load_centre_mm,
              estimate_load_centre(bearing), CENTRE_BAND);
}
