/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>
#include <math.h>

#include "model/numeric.h"
#include "spalltime/bearing.h"
#include "spalltime/hub.h"

#define POSITIONS 4 /* of the cage over half a pitch, at the middle of equal parts; our choice */
#define FAR_APART                                                                                  \
    1e7 /* one element carries it all, or the radial load is nothing: no change beyond */
#define GROOVE 0.52              /* r/D_w of the f_c tables of ISO 281 (from memory) */
#define ROLLER_STIFFNESS 35948.0 /* c = 35948 L_we^(8/9) N/mm^(10/9), ISO 16281 (from memory) */

/* What the law of life needs of balls or rollers: ISO/TS 16281:2008 (from memory). */
struct zone_law {
    double stiffening;        /* n of Q = c d^n */
    double turning, standing; /* powers of the mean load of a ring, relative to the load */
    double life, raceway;     /* powers that join the two rings */
    double outer_share;       /* Q_ci/Q_ce: how much more the inner ring feels */
};

static double outer_share(const struct spt_geometry *g, bool ball)
{
    const double gamma = g->element_diameter_mm * cos(g->contact_angle_rad) / g->pitch_diameter_mm;
    const double ratio = (1 - gamma) / (1 + gamma);
    return ball ? 0.389 / 0.407 * 1.044 * pow(ratio, 1.72)
                : 0.364 / 0.378 * 1.038 * pow(ratio, 143.0 / 108);
}

static struct zone_law law_of(const struct spt_geometry *g, bool ball)
{
    return ball ? (struct zone_law){1.5, 3, 10.0 / 3, 0.9, 10.0 / 3, outer_share(g, true)}
                : (struct zone_law){10.0 / 9, 4, 4.5, 8.0 / 9, 4.5, outer_share(g, false)};
}

double spt_clearance_stiffness(const struct spt_bearing *bearing)
{
    struct spt_geometry g;
    struct spt_ball_contact contact;
    if (spt_bearing_insides(bearing, &g))
        return (double)NAN;
    if (!spt_bearing_is_ball(bearing->type))
        return ROLLER_STIFFNESS * pow(g.element_length_mm, 8.0 / 9);
    g.inner_groove_ratio = isnan(g.inner_groove_ratio) ? GROOVE : g.inner_groove_ratio;
    g.outer_groove_ratio = isnan(g.outer_groove_ratio) ? GROOVE : g.outer_groove_ratio;
    return spt_ball_contact(&g, &contact) ? (double)NAN : contact.stiffness_n_mm_1_5;
}

/* One row with its cage in one position, pressed by 1 in place of its radial load. Lengths are in
 * units of (F/c)^(1/n), F the radial load of the row. */
struct position {
    int elements;
    double first_rad; /* angle of the element nearest to the load line */
    double gap;       /* half the clearance */
    double stiffening;
};

/* Load of one element; `from_line` is the cosine of its angle from the load line. */
static double element_load(const struct position *p, double approach, double from_line)
{
    const double pressed = approach * from_line - p->gap;
    return pressed > 0 ? pow(pressed, p->stiffening) : 0;
}

static double angle_of(const struct position *p, int element)
{
    return p->first_rad + 2 * M_PI * element / p->elements;
}

/* The radial load that an approach of the rings makes, minus the one that presses. */
static double surplus(double approach, void *context)
{
    const struct position *p = context;
    double sum = -1;
    for (int i = 0; i < p->elements; i++) {
        const double from_line = cos(angle_of(p, i));
        sum += element_load(p, approach, from_line) * from_line;
    }
    return sum;
}

/* What the elements of a row feel in the mean over the positions of the cage. */
struct row_sums {
    double approach, most;
    double turning, standing; /* mean powers of the loads */
};

static void add_loads(const struct position *p, const struct zone_law *law, double approach,
                      struct row_sums *sums)
{
    const double part = 1.0 / (p->elements * POSITIONS);
    sums->approach += approach / POSITIONS;
    for (int i = 0; i < p->elements; i++) {
        const double load = element_load(p, approach, cos(angle_of(p, i)));
        sums->turning += load > 0 ? part * pow(load, law->turning) : 0;
        sums->standing += load > 0 ? part * pow(load, law->standing) : 0;
        sums->most = fmax(sums->most, load);
    }
}

static enum spt_status sum_positions(int elements, double gap, const struct zone_law *law,
                                     struct row_sums *sums)
{
    *sums = (struct row_sums){0};
    for (int k = 0; k < POSITIONS; k++) {
        struct position p = {elements, (k + 0.5) / POSITIONS * M_PI / elements, gap,
                             law->stiffening};
        gsl_function function = {surplus, &p};
        const double nearest = cos(p.first_rad);
        /* one element alone would carry the load here; a preloaded row is stiffer still */
        const double high = (pow(1 / nearest, 1 / law->stiffening) + fmax(gap, 0)) / nearest;
        double approach;
        enum spt_status status = spt_numeric_root(&function, 0, high * (1 + 1e-9), &approach);
        if (status)
            return status;
        add_loads(&p, law, approach, sums);
    }
    return SPT_OK;
}

/* Damage of a turn: both rings together, in any unit. */
static double damage_of(const struct row_sums *sums, const struct zone_law *law, bool outer_turns)
{
    const double inner = pow(outer_turns ? sums->standing : sums->turning,
                             law->raceway / (outer_turns ? law->standing : law->turning));
    const double outer = pow(outer_turns ? sums->turning : sums->standing,
                             law->raceway / (outer_turns ? law->turning : law->standing));
    return pow(inner + pow(law->outer_share, law->raceway) * outer, law->life);
}

enum spt_status spt_clearance_zone(const struct spt_bearing *bearing, double clearance_mm,
                                   double radial_n, struct spt_clearance_zone *zone)
{
    struct spt_geometry g;
    struct row_sums now, half;
    *zone = (struct spt_clearance_zone){(double)NAN, (double)NAN, (double)NAN, (double)NAN};
    if (!isfinite(clearance_mm) || !(radial_n > 0) || isinf(radial_n))
        return SPT_BAD_ARGUMENT;
    const double stiffness =
        bearing->seat.stiffness > 0 ? bearing->seat.stiffness : spt_clearance_stiffness(bearing);
    if (spt_bearing_insides(bearing, &g) || isnan(stiffness))
        return SPT_NOT_APPLICABLE;
    const struct zone_law law = law_of(&g, spt_bearing_is_ball(bearing->type));
    const double cosine = cos(g.contact_angle_rad), row_n = radial_n / (g.rows * cosine);
    const double unit_mm = pow(row_n / stiffness, 1 / law.stiffening) / cosine;
    const double gap = fmin(FAR_APART, fmax(-FAR_APART, clearance_mm / 2 / unit_mm));
    enum spt_status status = sum_positions(g.elements, gap, &law, &now);
    if (!status)
        status = sum_positions(g.elements, 0, &law, &half);
    if (status)
        return status;
    zone->extent = (1 - gap / now.approach) / 2;
    zone->half_deg = acos(fmax(-1, fmin(1, gap / now.approach))) * 180 / M_PI;
    zone->most_n = now.most * row_n;
    zone->factor = fmin(1, damage_of(&half, &law, bearing->outer_turns) /
                               damage_of(&now, &law, bearing->outer_turns));
    return SPT_OK;
}
