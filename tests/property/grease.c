/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

Test(grease_property, interval_falls_with_speed_size_and_heat)
{
    static const struct spt_surroundings mild = {SPT_DUST_LIGHT, SPT_MOISTURE_DRY,
                                                 SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL};
    unsigned long long seed = 5;
    for (int i = 0; i < 500; i++) {
        double bore = random_between(&seed, 20.0, 200.0);
        double speed = random_between(&seed, 10.0, 1000.0);
        double t = random_between(&seed, 70.0, 150.0);
        enum spt_bearing_type type =
            (enum spt_bearing_type)(int)random_between(&seed, 0, SPT_BEARING_TYPE_COUNT);
        struct spt_grease_interval here, faster, larger, hotter;
        cr_assert_eq(spt_grease_interval(type, bore, speed, t, &mild, &here), SPT_OK);
        cr_assert_eq(spt_grease_interval(type, bore, 1.02 * speed, t, &mild, &faster), SPT_OK);
        cr_assert_eq(spt_grease_interval(type, 1.02 * bore, speed, t, &mild, &larger), SPT_OK);
        cr_assert_eq(spt_grease_interval(type, bore, speed, t + 1.0, &mild, &hotter), SPT_OK);
        cr_expect(faster.interval_h < here.interval_h && larger.interval_h < here.interval_h &&
                      hotter.interval_h < here.interval_h,
                  "type %d d %g n %g T %g", (int)type, bore, speed, t);
    }
}

Test(grease_property, grease_only_gets_worse)
{
    struct spt_grease_state last = {-1.0, 2.0, 2.0, 2.0};
    for (double tau = 0.0; tau < 12.0; tau += 0.0625) {
        struct spt_grease_state now;
        cr_assert_eq(spt_grease_state(tau, &now), SPT_OK);
        cr_expect(now.oil_left < last.oil_left && now.survival < last.survival, "tau %g", tau);
        cr_expect(now.film_ratio < last.film_ratio || (now.film_ratio <= 0.0 && tau > 5.99),
                  "tau %g: film %g", tau, now.film_ratio);
        cr_expect(now.film_ratio >= 0.0 && now.film_ratio <= 1.0 && now.survival >= 0.0, "tau %g",
                  tau);
        last = now;
    }
}
