/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/published.h"

Test(cleanliness_published, scale_numbers_of_iso_4406)
{
    static const char source[] =
        "ISO 4406:2017 table 1: \"more than ... up to and including ...\" particles per mL.";
    static const double up_to[] = {0.01, 0.02, 0.04, 0.08, 0.16, 0.32, 0.64, 1.3,   2.5,  5,
                                   10,   20,   40,   80,   160,  320,  640,  1300,  2500, 5000,
                                   1e4,  2e4,  4e4,  8e4,  16e4, 32e4, 64e4, 1.3e6, 2.5e6};
    for (int i = 0; i < 29; i++) {
        cr_expect(agrees(source, named("number of %g particles per mL", up_to[i]), i,
                         spt_iso4406_number(up_to[i]), 0));
        cr_expect(agrees(source, named("number above %g particles per mL", up_to[i]), i + 1,
                         spt_iso4406_number(1.001 * up_to[i]), 0));
    }
    cr_expect(agrees(source, "number of 0.0 particles per mL", 0, spt_iso4406_number(0.0), 0));
    cr_expect(agrees(source, "number of 641.0 particles per mL", 17, spt_iso4406_number(641.0), 0));
    cr_expect(agrees(source, "number of 75.0 particles per mL", 13, spt_iso4406_number(75.0), 0));
    cr_expect(agrees(source, "number of 2.0 particles per mL", 8, spt_iso4406_number(2.0), 0));
    cr_expect_eq(spt_iso4406_number(-1.0), -1);
    cr_expect_eq(spt_iso4406_number((double)NAN), -1);
}

/* ISO 281:2007 table 13, guide ranges of e_C for kappa about 1 and more, D_pw below and from 100
 * mm: high 0.8-0.6 / 0.9-0.8, normal 0.6-0.5 / 0.8-0.6, slight-typical 0.5-0.1 / 0.6-0.2, severe
 * 0.1-0, very severe 0. The ranges were read, the assignment of kappa is ours: one kappa in 1 to 4
 * has to fall inside. */
Test(cleanliness_published, factor_reaches_the_guide_ranges_of_iso_281)
{
    static const struct {
        enum spt_cleanliness condition;
        double pitch, low, high;
    } rows[] = {
        {SPT_CLEANLINESS_GREASE_HIGH, 60, 0.6, 0.8},
        {SPT_CLEANLINESS_GREASE_HIGH, 150, 0.8, 0.9},
        {SPT_CLEANLINESS_GREASE_NORMAL, 60, 0.5, 0.6},
        {SPT_CLEANLINESS_GREASE_NORMAL, 150, 0.6, 0.8},
        {SPT_CLEANLINESS_GREASE_SLIGHT, 60, 0.1, 0.5},
        {SPT_CLEANLINESS_GREASE_SLIGHT, 150, 0.2, 0.6},
        {SPT_CLEANLINESS_GREASE_SEVERE, 60, 0.0, 0.1},
        {SPT_CLEANLINESS_GREASE_SEVERE, 150, 0.0, 0.1},
        {SPT_CLEANLINESS_GREASE_VERY_SEVERE, 60, 0.0, 0.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double middle = (rows[i].low + rows[i].high) / 2, nearest = (double)INFINITY;
        for (double kappa = 1.0; kappa <= 4.0; kappa += 0.1) {
            double e_c;
            cr_assert_eq(spt_cleanliness_factor(rows[i].condition, kappa, rows[i].pitch, &e_c),
                         SPT_OK);
            if (fabs(e_c - middle) < fabs(nearest - middle))
                nearest = e_c;
        }
        const char *what = named("e_C, %s at %g mm, some kappa of 1 to 4",
                                 spt_cleanliness_name(rows[i].condition), rows[i].pitch);
        cr_expect(lies_within("ISO 281:2007 table 13", what, rows[i].low, rows[i].high, nearest));
    }
}
