/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

Test(film_property, reference_viscosity_falls_with_speed_and_size)
{
    unsigned long long seed = 11;
    for (int i = 0; i < 500; i++) {
        double n = random_between(&seed, 5.0, 6000.0);
        double pitch = random_between(&seed, 20.0, 900.0);
        double here, faster, larger;
        cr_assert_eq(spt_film_reference_viscosity(n, pitch, &here), SPT_OK);
        cr_assert_eq(spt_film_reference_viscosity(1.01 * n, pitch, &faster), SPT_OK);
        cr_assert_eq(spt_film_reference_viscosity(n, 1.01 * pitch, &larger), SPT_OK);
        cr_expect(faster < here && larger < here, "n %g D_pw %g", n, pitch);
    }
}

Test(film_property, step_at_1000_rpm_is_the_one_of_the_standard)
{
    /* ISO 281:2007: 45000 1000^-0.83 against 4500 1000^-0.5, 2.3 %, for any size */
    for (double pitch = 20.0; pitch < 900.0; pitch *= 1.7) {
        double below, at;
        cr_assert_eq(spt_film_reference_viscosity(1000.0 * (1 - 1e-12), pitch, &below), SPT_OK);
        cr_assert_eq(spt_film_reference_viscosity(1000.0, pitch, &at), SPT_OK);
        cr_expect(near(below / at, 1.0233, 0.0, 5e-5), "%.6f", below / at);
    }
}

Test(film_property, thinner_film_lowers_the_effective_ratio)
{
    double last = -1.0;
    for (double phi = 0.0; phi <= 1.0; phi += 0.03125) {
        double got;
        cr_assert_eq(spt_film_effective_ratio(2.385, phi, &got), SPT_OK);
        cr_expect(got > last && got <= 2.385, "phi %g", phi);
        last = got;
    }
}
