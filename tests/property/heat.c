/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

Test(heat_property, balance_closes_and_moves_the_right_way)
{
    unsigned long long seed = 13;
    for (int i = 0; i < 300; i++) {
        struct spt_bearing bearing = {
            .type = (enum spt_bearing_type)(int)random_between(&seed, 0, SPT_BEARING_TYPE_COUNT),
            .bore_mm = random_between(&seed, 20.0, 150.0),
            .width_mm = random_between(&seed, 15.0, 60.0),
            .static_load_rating_n = 200e3};
        bearing.outside_diameter_mm = bearing.bore_mm * random_between(&seed, 1.5, 2.2);
        struct spt_heat_inputs in = {.bearing = &bearing,
                                     .speed_rpm = random_between(&seed, 10.0, 1000.0),
                                     .equivalent_load_n = random_between(&seed, 0.0, 20e3),
                                     .ambient_c = random_between(&seed, 0.0, 60.0),
                                     .extra_heat_w = random_between(&seed, 0.0, 50.0),
                                     .cooling_factor = 1.0};
        struct spt_heat_balance here, loaded, cooled, thicker;
        cr_assert_eq(spt_viscosity_line(40.0, 150.0, 100.0, 14.5, &in.oil), SPT_OK);
        if (spt_heat_temperature(&in, &here) != SPT_OK)
            continue;
        double away = here.conductance_w_k * (here.temperature_c - in.ambient_c);
        /* 1 %: where nu n crosses 2000, Palmgren's two branches do not quite meet */
        cr_expect(near(here.heat_w + in.extra_heat_w, away, 0.01, 1e-6), "case %d", i);
        in.equivalent_load_n += 1000.0;
        cr_expect(spt_heat_temperature(&in, &loaded) != SPT_OK ||
                      loaded.temperature_c > here.temperature_c,
                  "load, case %d", i);
        in.equivalent_load_n -= 1000.0;
        in.cooling_factor = 1.5;
        cr_assert_eq(spt_heat_temperature(&in, &cooled), SPT_OK);
        cr_expect(cooled.temperature_c < here.temperature_c, "cooling, case %d", i);
        in.cooling_factor = 1.0;
        cr_assert_eq(spt_viscosity_line(40.0, 220.0, 100.0, 18.7, &in.oil), SPT_OK);
        cr_expect(spt_heat_temperature(&in, &thicker) != SPT_OK ||
                      thicker.temperature_c > 0.999 * here.temperature_c,
                  "oil, case %d", i);
    }
}
