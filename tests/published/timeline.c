/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Worked examples of variable duty, run as timelines whose loads change by events. e_C of 0 makes
 * a_ISO 0.1 at every load (ISO 281:2007, 9.3.3: 0.1 [1 - 0]^-9.3), so every time of an example is
 * a tenth of the printed one and all ratios stand. */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/case_example.h"
#include "support/near.h"

#define A_ISO 0.1
#define BLOCKS_MAX 3

struct block {
    double load_n;
    double speed_rpm;
    double hours; /* 0: to failure */
};

/* Life in h of loads in a row, each for its hours, the last to failure. */
static double life_of_blocks(double rating_n, const struct block *blocks, int count)
{
    static struct example_case made[BLOCKS_MAX];
    static struct spt_case cases[BLOCKS_MAX * BLOCKS_MAX];
    static struct spt_phase phases[1];
    static struct spt_phase_result results[1];
    struct spt_service service = {.regrease_every_h = (double)NAN,
                                  .oil_change_every_h = (double)NAN,
                                  .until_h = (double)NAN,
                                  .event_count = count - 1,
                                  .cases = cases};
    struct spt_timeline timeline;
    double at_h = 0;
    for (int i = 0; i < count; i++) {
        example_make_basic(&made[i], rating_n, blocks[i].load_n, blocks[i].speed_rpm);
        if (i)
            service.events[i - 1] = (struct spt_event){"next load", at_h, (double)NAN, false};
        at_h += A_ISO * blocks[i].hours;
    }
    for (int row = 0; row < count; row++)
        for (int i = 0; i < count - 1; i++)
            cases[(count - 1) * row + i] = made[i + 1].question;
    const struct spt_timeline_workspace workspace = {phases, results};
    cr_assert_eq(spt_timeline(&made[0].question, &service, &workspace, &timeline), SPT_OK);
    return timeline.life_h / A_ISO;
}

/* Tutorial sheet TS5-9 on rolling bearings, after Shigley, Mechanical Engineering Design: ball
 * bearing of C 20.3 kN, 18 kN for 200 000 revolutions, then 30 kN to failure: 266 630.6296 further
 * revolutions. */
Test(published_timeline, second_load_lasts_as_many_revolutions_as_printed)
{
    double speed_rpm = 235;
    const struct block blocks[] = {{18e3, speed_rpm, 200000 / (60 * speed_rpm)},
                                   {30e3, speed_rpm, 0}};
    double revolutions = life_of_blocks(20.3e3, blocks, 2) * 60 * speed_rpm - 200000;
    cr_expect(near(revolutions, 266630.6296, 0, 1e-3), "%.6f", revolutions);
}

/* Jindal, Machine Design, example 18-9, p. 512: ball bearing, 3000/4000/5000 N at 1440/1080/720
 * r/min for 1/4, 1/2, 1/4 of 10 000 h need C = 34 219 N. C is printed to 1 N, so the life of the
 * last block, which takes what is left, is good to 3 x 0.5/34 219 of 10 000 h. */
Test(published_timeline, three_blocks_in_a_row_use_up_the_wanted_life)
{
    const struct block blocks[] = {{3000, 1440, 2500}, {4000, 1080, 5000}, {5000, 720, 0}};
    double life_h = life_of_blocks(34219, blocks, 3);
    cr_expect(near(life_h, 10000, 0, 0.5), "%.4f h", life_h);
}

/* Jindal, Machine Design, example 18-10, p. 513: ball bearing of C 1430 N, P 600 N at 1440 r/min
 * for 2/3 and 303.6 N at 720 r/min for 1/3 of the time: 227.66 h. The first block is taken at the
 * printed life, so what is left for the slow second one magnifies half a unit of its last digit:
 * 0.005 (2/3) L2/L1 + 0.005 = 0.06 h. */
Test(published_timeline, two_blocks_in_a_row_meet_the_printed_life)
{
    const struct block blocks[] = {{600, 1440, 227.66 * 2 / 3}, {303.6, 720, 0}};
    double life_h = life_of_blocks(1430, blocks, 2);
    cr_expect(near(life_h, 227.66, 0, 0.06), "%.5f h", life_h);
}
