/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

Test(cleanliness_property, factor_rises_with_kappa_and_stays_within_0_and_1)
{
    unsigned long long seed = 3;
    for (int i = 0; i < 3000; i++) {
        enum spt_cleanliness condition =
            (enum spt_cleanliness)(int)random_between(&seed, 0, SPT_CLEANLINESS_COUNT);
        double kappa = random_between(&seed, 0.01, 10.0);
        double pitch = random_between(&seed, 5.0, 1200.0);
        double thin, thick;
        cr_assert_eq(spt_cleanliness_factor(condition, kappa, pitch, &thin), SPT_OK);
        cr_assert_eq(spt_cleanliness_factor(condition, 1.1 * kappa, pitch, &thick), SPT_OK);
        cr_expect(thin >= 0.0 && thick <= 1.0 && thick >= thin, "condition %d kappa %g D_pw %g",
                  (int)condition, kappa, pitch);
    }
}

Test(cleanliness_property, factor_falls_with_each_dirtier_condition)
{
    for (int kind = SPT_LUBRICATION_GREASE; kind <= SPT_LUBRICATION_CIRCULATING; kind++)
        for (double kappa = 0.1; kappa <= 4.0; kappa += 0.3)
            for (double pitch = 20.0; pitch <= 1000.0; pitch *= 1.5) {
                double last = 1.0;
                int first = (int)spt_cleanliness_first((enum spt_lubrication)kind);
                int end = first + spt_cleanliness_count((enum spt_lubrication)kind);
                for (int i = first; i < end; i++) {
                    double e_c;
                    cr_assert_eq(
                        spt_cleanliness_factor((enum spt_cleanliness)i, kappa, pitch, &e_c),
                        SPT_OK);
                    cr_expect(e_c < last || (e_c <= 0.0 && last <= 0.0),
                              "condition %d, kappa %g, D_pw %g", i, kappa, pitch);
                    last = e_c;
                }
            }
}

Test(cleanliness_property, cleaner_code_never_gets_a_dirtier_condition)
{
    for (int kind = SPT_LUBRICATION_OIL_BATH; kind <= SPT_LUBRICATION_CIRCULATING; kind++)
        for (int over_6 = 1; over_6 <= 28; over_6++)
            for (int over_14 = 1; over_14 <= over_6; over_14++) {
                struct spt_iso4406 code = {-1, over_6, over_14};
                struct spt_iso4406 fine = {-1, over_6 - (over_6 > over_14), over_14};
                struct spt_iso4406 coarse = {-1, over_6, over_14 - 1};
                enum spt_cleanliness here, cleaner, clean;
                bool rounded; /* COUNT, "dirtier than the last", is above every condition */
                (void)spt_cleanliness_from_code((enum spt_lubrication)kind, &code, &here, &rounded);
                (void)spt_cleanliness_from_code((enum spt_lubrication)kind, &fine, &cleaner,
                                                &rounded);
                (void)spt_cleanliness_from_code((enum spt_lubrication)kind, &coarse, &clean,
                                                &rounded);
                cr_expect(cleaner <= here && clean <= here, "kind %d -/%d/%d", kind, over_6,
                          over_14);
            }
}

Test(cleanliness_property, scale_number_rises_with_the_count)
{
    int last = -1;
    for (double count = 1e-3; count < 1e7; count *= 1.1) {
        int number = spt_iso4406_number(count);
        cr_expect(number >= last && number <= last + 1, "%g", count);
        last = number;
    }
    cr_expect_eq(last, 29);
}
