/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>
#include <math.h>

#include "spalltime/bearing.h"

#define LEAST_LENGTH 0.25 /* of L_we over the width of a row; outside the estimate is refused */
#define LARGEST_LENGTH 0.85
#define LARGEST_SLENDERNESS 2.6 /* L_we over D_we */

/* Share of the height between bore and outside that an element fills, and of the pitch circle. */
struct envelope {
    double height, filling;
};

/* All 0 for types that are not estimated. */
static const struct envelope envelopes[] = {
    [SPT_DEEP_GROOVE_BALL] = {0.63, 0},  [SPT_CYLINDRICAL_ROLLER] = {0.50, 0.80},
    [SPT_TAPERED_ROLLER] = {0.45, 0.90}, [SPT_SPHERICAL_ROLLER] = {0.55, 0.84},
    [SPT_BEARING_TYPE_COUNT] = {0, 0},
};

static enum spt_status count_balls(const struct spt_bearing *bearing, struct spt_geometry *g)
{
    double f0 = bearing->f0;
    g->elements = 8; /* f0 does not depend on their number */
    if (!(f0 > 0) && spt_rating_f0(bearing->type, g, &f0))
        return SPT_NOT_APPLICABLE;
    double count =
        round(bearing->static_load_rating_n / (f0 * g->rows * gsl_pow_2(g->element_diameter_mm)));
    if (!(count >= 5 && count <= 40))
        return SPT_NOT_APPLICABLE;
    g->elements = (int)count;
    return SPT_OK;
}

static enum spt_status fill_rollers(const struct spt_bearing *bearing, double filling,
                                    struct spt_geometry *g)
{
    double row_mm = bearing->width_mm / g->rows, d_mm = g->element_diameter_mm;
    double cosine = cos(g->contact_angle_rad), gamma = d_mm * cosine / g->pitch_diameter_mm;
    g->elements = (int)floor(filling * M_PI * g->pitch_diameter_mm / d_mm);
    g->element_length_mm =
        bearing->static_load_rating_n / (44 * (1 - gamma) * g->rows * g->elements * d_mm * cosine);
    bool sound = g->element_length_mm >= LEAST_LENGTH * row_mm &&
                 g->element_length_mm <= LARGEST_LENGTH * row_mm &&
                 g->element_length_mm <= LARGEST_SLENDERNESS * d_mm;
    return sound ? SPT_OK : SPT_NOT_APPLICABLE;
}

enum spt_status spt_bearing_insides(const struct spt_bearing *bearing,
                                    struct spt_geometry *geometry)
{
    const struct envelope e = (int)bearing->type >= 0 && bearing->type < SPT_BEARING_TYPE_COUNT
                                  ? envelopes[bearing->type]
                                  : (struct envelope){0, 0};
    double height_mm = (bearing->outside_diameter_mm - bearing->bore_mm) / 2;
    double angle_rad = spt_bearing_angle(bearing);
    *geometry = bearing->geometry;
    if (bearing->has_geometry)
        return SPT_OK;
    *geometry = (struct spt_geometry){
        .rows = spt_bearing_rows(bearing->type, bearing->rows),
        .contact_angle_rad = angle_rad,
        .pitch_diameter_mm = bearing->pitch_diameter_mm,
        .inner_groove_ratio = (double)NAN,
        .outer_groove_ratio = (double)NAN,
    };
    if (!(e.height > 0) || isnan(angle_rad) || !(height_mm > 0) ||
        !(bearing->static_load_rating_n > 0))
        return SPT_NOT_APPLICABLE;
    geometry->element_diameter_mm = e.height * height_mm;
    enum spt_status status = bearing->type == SPT_DEEP_GROOVE_BALL
                                 ? count_balls(bearing, geometry)
                                 : fill_rollers(bearing, e.filling, geometry);
    if (status)
        geometry->elements = 0;
    return status;
}
