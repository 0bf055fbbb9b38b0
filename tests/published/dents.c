/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>

#include "spalltime/life.h"
#include "spalltime/lubricant.h"
#include "support/near.h"

/* a_ISO of radial roller bearings by class, C_u/P 0.5, D_pw 85 mm: ISO 281:2007 equations with the
 * constants of Annex A, worked out apart from this program (regression figures, no outside
 * authority). */
Test(dents_published, a_iso_of_the_classes_that_dents_keep)
{
    static const struct {
        enum spt_cleanliness cleanliness;
        double kappa, a_iso;
    } rows[] = {
        {SPT_CLEANLINESS_GREASE_HIGH, 1, 1.3753},
        {SPT_CLEANLINESS_GREASE_NORMAL, 1, .60819},
        {SPT_CLEANLINESS_GREASE_SLIGHT, 1, .29938},
        {SPT_CLEANLINESS_GREASE_SEVERE, 1, .21877},
        {SPT_CLEANLINESS_GREASE_VERY_SEVERE, 1, .13618},
        {SPT_CLEANLINESS_GREASE_HIGH, 2, 2.3616},
        {SPT_CLEANLINESS_GREASE_NORMAL, 2, 1.4434},
        {SPT_CLEANLINESS_GREASE_SLIGHT, 2, .49097},
        {SPT_CLEANLINESS_GREASE_SEVERE, 2, .30867},
        {SPT_CLEANLINESS_GREASE_VERY_SEVERE, 2, .15520},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double e_c;
        struct spt_life_factor factor;
        cr_assert_eq(spt_cleanliness_factor(rows[i].cleanliness, rows[i].kappa, 85, &e_c), SPT_OK);
        const struct spt_life_factor_inputs in = {.type = SPT_TAPERED_ROLLER,
                                                  .contamination_factor = e_c,
                                                  .fatigue_load_limit_n = 500,
                                                  .equivalent_load_n = 1000,
                                                  .viscosity_ratio = rows[i].kappa};
        cr_assert_eq(spt_life_factor(&in, &factor), SPT_OK);
        cr_expect(near(factor.a_iso, rows[i].a_iso, 1e-4, 0), "class %d, kappa %g: %.6g",
                  (int)rows[i].cleanliness, rows[i].kappa, factor.a_iso);
    }
}
