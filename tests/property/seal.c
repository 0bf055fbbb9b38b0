/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/seal.h"

#include <criterion/criterion.h>
#include <math.h>

static const double none = (double)NAN;

/* Places, water and seals in turn from the mildest on: what comes in never gets less. */
static void expect_no_less(const struct spt_sealing *mild, const struct spt_sealing *harsh,
                           const char *what)
{
    const struct spt_inflow less = spt_seal_inflow(mild), more = spt_seal_inflow(harsh);
    cr_expect_geq(more.class_index, less.class_index, "%s", what);
    cr_expect_geq(more.moisture, less.moisture, "%s", what);
    cr_expect(!(more.water_ppm < less.water_ppm), "%s", what);
}

Test(seal_property, harsher_never_lets_in_less)
{
    for (int seal = 0; seal < SPT_SEAL_COUNT; seal++)
        for (int place = 0; place < SPT_PLACE_COUNT; place++)
            for (int wet = 0; wet < SPT_WET_COUNT; wet++) {
                const struct spt_sealing here = {true, seal, -1, place, wet, none, none, false};
                struct spt_sealing other = here;
                if (wet + 1 < SPT_WET_COUNT) {
                    other.wet++;
                    expect_no_less(&here, &other, "wet");
                }
                other = here;
                other.age_years = 7;
                expect_no_less(&here, &other, "age");
                other = here;
                other.seal = SPT_SEAL_TORN;
                expect_no_less(&here, &other, "torn");
                other = here;
                other.greased_for_life = true;
                expect_no_less(&other, &here, "opened");
                other = here;
                other.breather = SPT_BREATHER_OPEN;
                expect_no_less(&here, &other, "breather");
            }
}

/* A key that is left out never beats its mildest word. */
Test(seal_property, leaving_out_a_key_never_beats_its_mildest_word)
{
    for (int place = 0; place < SPT_PLACE_COUNT; place++)
        for (int wet = 0; wet < SPT_WET_COUNT; wet++) {
            const struct spt_sealing best = {true, SPT_SEAL_FACE, -1,   place,
                                             wet,  none,          none, false};
            struct spt_sealing without = best;
            without.seal = -1;
            expect_no_less(&best, &without, "seal");
            for (int seal = 0; seal < SPT_SEAL_COUNT; seal++) {
                struct spt_sealing dry = best;
                dry.seal = seal;
                dry.wet = SPT_WET_DRY;
                without = dry;
                without.wet = -1;
                expect_no_less(&dry, &without, "wet");
            }
        }
}
