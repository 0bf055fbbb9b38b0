/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/grease_case.h"
#include "support/near.h"

Test(grease_property, interval_falls_with_speed_size_and_heat)
{
    static const struct spt_surroundings mild = GREASE_MILD;
    unsigned long long seed = 5;
    for (int i = 0; i < 500; i++) {
        double bore = random_between(&seed, 20.0, 200.0);
        double speed = random_between(&seed, 10.0, 1000.0);
        double t = random_between(&seed, 70.0, 150.0);
        enum spt_bearing_type type =
            (enum spt_bearing_type)(int)random_between(&seed, 0, SPT_BEARING_TYPE_COUNT);
        struct spt_grease_interval here, faster, larger, hotter;
        cr_assert_eq(grease_interval_of(type, bore, speed, t, &mild, &here), SPT_OK);
        cr_assert_eq(grease_interval_of(type, bore, 1.02 * speed, t, &mild, &faster), SPT_OK);
        cr_assert_eq(grease_interval_of(type, 1.02 * bore, speed, t, &mild, &larger), SPT_OK);
        cr_assert_eq(grease_interval_of(type, bore, speed, t + 1.0, &mild, &hotter), SPT_OK);
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

/* One step harsher in one input, all else equal, never makes the interval longer. */
static void harden(struct spt_grease_inputs *in, int which)
{
    switch (which) {
    case 0:
        in->speed_rpm *= 1.03;
        break;
    case 1:
        in->temperature_c += 2.5;
        break;
    case 2:
        in->load_share *= 1.07;
        break;
    case 3:
        in->around.dust += in->around.dust < SPT_DUST_HEAVY_ABRASIVE;
        break;
    case 4:
        in->around.moisture += in->around.moisture < SPT_MOISTURE_SPLASH;
        break;
    case 5:
        in->around.vibration += in->around.vibration < SPT_VIBRATION_HIGH;
        break;
    case 6:
        in->around.shaft += in->around.shaft < SPT_SHAFT_VERTICAL;
        break;
    default:
        in->outer_turns = true;
        break;
    }
}

Test(grease_property, what_is_harsher_never_lengthens_the_interval)
{
    unsigned long long seed = 17;
    for (int i = 0; i < 4000; i++) {
        struct spt_grease_inputs in = {
            .type = (enum spt_bearing_type)(int)random_between(&seed, 0, SPT_BEARING_TYPE_COUNT),
            .bore_mm = random_between(&seed, 20.0, 400.0),
            .outer_turns = random_between(&seed, 0, 1) > 0.5,
            .speed_rpm = random_between(&seed, 10.0, 3000.0),
            .load_share = random_between(&seed, 0.0, 0.5),
            .temperature_c = random_between(&seed, -20.0, 140.0),
            .around = {(enum spt_dust)(int)random_between(&seed, 0, SPT_DUST_COUNT),
                       (enum spt_moisture)(int)random_between(&seed, 0, SPT_MOISTURE_COUNT),
                       (enum spt_vibration)(int)random_between(&seed, 0, SPT_VIBRATION_COUNT),
                       (enum spt_shaft)(int)random_between(&seed, 0, SPT_SHAFT_COUNT)}};
        in.outside_diameter_mm = in.bore_mm * random_between(&seed, 1.2, 2.2);
        struct spt_grease_interval before, after;
        if (spt_grease_interval(&in, &before))
            continue; /* too fast for an interval */
        for (int which = 0; which < 8; which++) {
            struct spt_grease_inputs harsher = in;
            harden(&harsher, which);
            if (!spt_grease_interval(&harsher, &after))
                cr_expect(after.interval_h <= before.interval_h, "case %d, input %d: %g above %g",
                          i, which, after.interval_h, before.interval_h);
        }
    }
}

Test(grease_property, a_kept_interval_is_never_longer_and_more_than_half)
{
    unsigned long long seed = 18;
    for (int i = 0; i < 2000; i++) {
        double raw_h = random_between(&seed, 8.0, 29000.0);
        double kept_h = spt_regreasing_kept_h(raw_h);
        double raw_days = random_between(&seed, 1.0, 3600.0);
        double kept_days = spt_regreasing_kept_days(raw_days);
        cr_expect(kept_h <= raw_h && kept_h > raw_h / 2, "%g h: %g", raw_h, kept_h);
        cr_expect(kept_days <= raw_days && kept_days > raw_days / 2 * 0.999, "%g days: %g",
                  raw_days, kept_days);
    }
}
