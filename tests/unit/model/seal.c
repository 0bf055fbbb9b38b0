/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/seal.h"

#include <criterion/criterion.h>
#include <math.h>

static struct spt_sealing sealed(int seal, int place, int wet)
{
    return (struct spt_sealing){true, seal, -1, place, wet, (double)NAN, (double)NAN, false};
}

/* Rules of this tool: class index s + q, at least 1 where the bearing is opened. */
Test(seal, class_is_that_of_the_place_moved_by_the_seal)
{
    static const struct {
        int seal, place;
        bool for_life;
        int class_index;
    } rows[] = {
        {SPT_SEAL_ONE_LIP, SPT_PLACE_DUSTY_FIELD, false, 1},
        {SPT_SEAL_ONE_LIP, SPT_PLACE_QUARRY, false, 2},
        {SPT_SEAL_TORN, SPT_PLACE_MUD, false, 4},
        {SPT_SEAL_CASSETTE, SPT_PLACE_SLURRY, false, 1},
        {SPT_SEAL_FACE, SPT_PLACE_CLEAN_ROOM, false, 1},
        {SPT_SEAL_FACE, SPT_PLACE_CLEAN_ROOM, true, 0},
        {-1, SPT_PLACE_WORKSHOP, false, 2}, /* no seal stated: none */
        {SPT_SEAL_FACE, -1, false, -1},     /* the place alone says what comes in */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_sealing sealing = sealed(rows[i].seal, rows[i].place, -1);
        sealing.greased_for_life = rows[i].for_life;
        cr_expect_eq(spt_seal_inflow(&sealing).class_index, rows[i].class_index, "row %zu", i);
    }
}

Test(seal, moisture_is_that_of_the_place_moved_by_the_seal)
{
    static const struct {
        int seal, place, wet, moisture;
        double ppm;
    } rows[] = {
        {SPT_SEAL_ONE_LIP, SPT_PLACE_ROAD, SPT_WET_RAIN, 2, 400},
        {SPT_SEAL_TWO_LIPS, SPT_PLACE_ROAD, SPT_WET_OUTDOORS, 0, 100},
        {SPT_SEAL_LABYRINTH, SPT_PLACE_MUD, SPT_WET_HOSE, 3, 5000}, /* no help against a jet */
        {SPT_SEAL_LABYRINTH, SPT_PLACE_MUD, SPT_WET_RAIN, 1, 200},
        {SPT_SEAL_CASSETTE, SPT_PLACE_MUD, SPT_WET_IMMERSION, 1, 200},
        {SPT_SEAL_ONE_LIP, SPT_PLACE_MUD, -1, 3, 5000}, /* mud is hosed off */
        {SPT_SEAL_SHIELD, SPT_PLACE_CLEAN_ROOM, -1, 0, 100},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_sealing sealing = sealed(rows[i].seal, rows[i].place, rows[i].wet);
        const struct spt_inflow inflow = spt_seal_inflow(&sealing);
        cr_expect_eq(inflow.moisture, rows[i].moisture, "row %zu", i);
        cr_expect_eq(inflow.water_ppm, rows[i].ppm, "row %zu", i);
    }
}

Test(seal, a_lip_past_its_time_counts_as_one_step_less)
{
    struct spt_sealing sealing = sealed(SPT_SEAL_ONE_LIP, SPT_PLACE_ROAD, SPT_WET_DRY);
    sealing.age_years = 3;
    cr_expect_not(spt_seal_inflow(&sealing).worn);
    sealing.age_years = 3.01;
    cr_expect(spt_seal_inflow(&sealing).worn);
    cr_expect_eq(spt_seal_inflow(&sealing).class_index, 2);
    sealing.age_years = 2.5;
    sealing.place = SPT_PLACE_SAND; /* two abrasive seasons are enough */
    cr_expect(spt_seal_inflow(&sealing).worn);
    sealing.age_years = (double)NAN;
    sealing.age_h = 10001;
    cr_expect(spt_seal_inflow(&sealing).worn);
    sealing.seal = SPT_SEAL_CASSETTE;
    cr_expect_not(spt_seal_inflow(&sealing).worn);
}

Test(seal, the_worse_of_seal_and_breather_counts)
{
    struct spt_sealing sealing = sealed(SPT_SEAL_TWO_LIPS, SPT_PLACE_DUSTY_PLANT, SPT_WET_DRY);
    cr_expect_eq(spt_seal_inflow(&sealing).class_index, 1);
    sealing.breather = SPT_BREATHER_OPEN;
    cr_expect_eq(spt_seal_inflow(&sealing).class_index, 2);
    sealing.breather = SPT_BREATHER_COUNT;
    cr_expect_eq(spt_seal_inflow(&sealing).class_index, -1);
}
