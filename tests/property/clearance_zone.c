/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/plain.h"

#define BEARINGS 3000
#define ROUNDING 1e-9

/* A deep groove ball, cylindrical or spherical roller bearing of any size. */
static struct spt_bearing draw_bearing(unsigned long long *seed)
{
    static const enum spt_bearing_type types[] = {SPT_DEEP_GROOVE_BALL, SPT_CYLINDRICAL_ROLLER,
                                                  SPT_SPHERICAL_ROLLER};
    struct spt_bearing bearing = plain_bearing(types[(int)random_between(seed, 0, 2.9999)]);
    const bool spherical = bearing.type == SPT_SPHERICAL_ROLLER;
    const double pitch_mm = random_between(seed, 30, 400);
    const double diameter_mm = pitch_mm * random_between(seed, 0.08, 0.28);
    bearing.outer_turns = random_between(seed, 0, 1) < 0.5;
    bearing.has_geometry = true;
    bearing.geometry = (struct spt_geometry){
        (int)random_between(seed, 6,
                            2.9 * pitch_mm / diameter_mm > 7 ? 2.9 * pitch_mm / diameter_mm : 7),
        spherical ? 2 : 1,
        diameter_mm,
        diameter_mm * random_between(seed, 0.6, 2),
        spherical ? random_between(seed, 6, 15) * DEG : 0,
        pitch_mm,
        (double)NAN,
        (double)NAN};
    bearing.seat.stiffness = spt_clearance_stiffness(&bearing);
    return bearing;
}

static double factor_at(const struct spt_bearing *bearing, double clearance_mm, double radial_n)
{
    struct spt_clearance_zone zone;
    cr_assert_eq(spt_clearance_zone(bearing, clearance_mm, radial_n, &zone), SPT_OK);
    cr_assert(zone.factor > 0 && zone.factor <= 1, "%g mm, %g N: %g", clearance_mm, radial_n,
              zone.factor);
    return zone.factor;
}

/* Stating a clearance never lengthens a life, and at none it changes nothing: a bearing that leaves
 * the key out counts as one without clearance. */
Test(clearance_zone_property, factor_is_at_most_1_and_1_at_no_clearance)
{
    unsigned long long seed = 20260701;
    for (int i = 0; i < BEARINGS; i++) {
        const struct spt_bearing bearing = draw_bearing(&seed);
        const double radial_n = exp(random_between(&seed, log(5.0), log(3e5)));
        factor_at(&bearing, random_between(&seed, -0.03, 0.3), radial_n);
        cr_assert_eq(factor_at(&bearing, 0, radial_n), 1);
    }
}

/* The looser, the shorter; beyond the slight preload that costs nothing, the tighter, the shorter.
 */
Test(clearance_zone_property, factor_falls_on_both_sides_of_no_clearance)
{
    unsigned long long seed = 20260702;
    for (int i = 0; i < BEARINGS / 10; i++) {
        const struct spt_bearing bearing = draw_bearing(&seed);
        const double radial_n = exp(random_between(&seed, log(50.0), log(3e5)));
        for (int side = -1; side <= 1; side += 2) {
            double before = 1;
            for (double um = 0.2; um < (side < 0 ? 60 : 400); um *= 1.3) {
                const double factor = factor_at(&bearing, side * um * 1e-3, radial_n);
                cr_assert_leq(factor, before * (1 + ROUNDING), "bearing %d, %g um, %g N", i,
                              side * um, radial_n);
                before = factor;
            }
        }
    }
}

/* A heavier load widens the zone of a loose bearing, but never so much that the life grows. */
Test(clearance_zone_property, more_load_widens_the_zone_and_still_shortens_the_life)
{
    unsigned long long seed = 20260703;
    for (int i = 0; i < BEARINGS / 10; i++) {
        const struct spt_bearing bearing = draw_bearing(&seed);
        const double clearance_mm = random_between(&seed, 0.001, 0.2);
        const double power = spt_bearing_is_ball(bearing.type) ? 3 : 10.0 / 3;
        double before = 0, life = (double)INFINITY, extent = 0;
        for (double radial_n = 20; radial_n < 3e5; radial_n *= 1.5) {
            struct spt_clearance_zone zone;
            cr_assert_eq(spt_clearance_zone(&bearing, clearance_mm, radial_n, &zone), SPT_OK);
            cr_assert_geq(zone.factor, before * (1 - ROUNDING), "bearing %d, %g N", i, radial_n);
            cr_assert_geq(zone.extent, extent * (1 - ROUNDING));
            cr_assert_lt(zone.factor * pow(radial_n, -power), life, "bearing %d, %g N", i,
                         radial_n);
            before = zone.factor;
            extent = zone.extent;
            life = zone.factor * pow(radial_n, -power);
        }
    }
}
