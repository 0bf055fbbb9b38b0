/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/plain.h"
#include "support/published.h"

#define ELEMENTS 700
#define LOAD_N 4450.0

static double most_of(enum spt_bearing_type type)
{
    struct spt_bearing bearing = plain_bearing(type);
    struct spt_clearance_zone zone;
    bearing.has_geometry = true;
    bearing.geometry = (struct spt_geometry){ELEMENTS, 1, 10, 9.6, 0, 65, (double)NAN, (double)NAN};
    cr_assert_eq(spt_clearance_zone(&bearing, 0, LOAD_N, &zone), SPT_OK);
    return zone.most_n * ELEMENTS / LOAD_N;
}

/* The balance of single elements at no clearance, with very many of them. */
Test(load_zone_published, single_elements_give_the_numbers_of_stribeck)
{
    static const char source[] = "Stribeck's numbers at zero clearance: Q_max = 4.37 F_r/Z for "
                                 "balls, 4.08 F_r/Z for rollers (textbooks, from memory; the "
                                 "roller number goes with n = 1.1 where 10/9 is used here, hence "
                                 "0.006)";
    cr_expect(
        agrees(source, "Q_max Z/F_r, single balls", 4.37, most_of(SPT_DEEP_GROOVE_BALL), 0.005));
    cr_expect(agrees(source, "Q_max Z/F_r, single rollers", 4.08, most_of(SPT_CYLINDRICAL_ROLLER),
                     0.006));
}
