/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_balance.h"

#include <criterion/criterion.h>
#include <math.h>

#include "model/hub/hub_lives.h"
#include "support/hub_example.h"
#include "support/near.h"

/* The example hub with a roller of each row on the line of a wheel load, as scenarios have it. */
static struct spt_hub straight_hub(void)
{
    struct spt_hub hub = example_hub();
    for (int row = 0; row < 2; row++)
        hub.rows[row].phase_rad = -0.5 * 3.14159265358979323846;
    return hub;
}

static const struct spt_hub_lubrication oils[2] = {{0.4, 1.3}, {0.3, 0.17}};

/* Solves with both lives of both rows. */
static struct spt_hub_balance solve(const struct spt_hub_model *model, double setting_mm,
                                    const struct spt_hub_load *load, const double *start_mm)
{
    const struct spt_hub_lamina_law laws[2] = {spt_hub_lamina_law(model, 0, &oils[0]),
                                               spt_hub_lamina_law(model, 1, &oils[1])};
    const struct spt_hub_problem problem = {.model = model,
                                            .setting_mm = setting_mm,
                                            .load = load,
                                            .start_mm = start_mm,
                                            .lives = true,
                                            .laws = laws};
    struct spt_hub_balance balance;
    cr_assert_eq(spt_hub_balance(&problem, &balance), SPT_OK);
    return balance;
}

static void expect_same_lives(const struct spt_hub_balance *a, const struct spt_hub_balance *b,
                              double within, const char *what)
{
    for (int row = 0; row < 2; row++) {
        cr_expect(near(a->damage[row].basic, b->damage[row].basic, within, 0), "%s: %.3g", what,
                  a->damage[row].basic / b->damage[row].basic - 1);
        cr_expect(near(a->damage[row].modified, b->damage[row].modified, within, 0), "%s: %.3g",
                  what, a->damage[row].modified / b->damage[row].modified - 1);
    }
}

Test(hub_balance, every_width_of_vectors_gives_the_same_lives)
{
    unsigned long long seed = 71;
    for (int i = 0; i < 200; i++) {
        struct spt_hub hub = straight_hub();
        hub.laminae = 30 + i % 41;
        hub.rows[1].misalignment_x_rad = random_between(&seed, -1e-3, 1e-3);
        struct spt_hub_model model = example_model(&hub);
        struct spt_hub_load load = example_load(random_between(&seed, -0.3, 0.3));
        load.force_x_n = i % 2 ? 700 : 0;
        double setting_mm = random_between(&seed, -0.15, 0.5);
        struct spt_hub_balance widest = solve(&model, setting_mm, &load, NULL);
        for (int lanes = 1; lanes < model.kernel->lanes; lanes *= 2) {
            struct spt_hub_model narrower = model;
            narrower.kernel = spt_hub_kernel(lanes);
            if (!narrower.kernel)
                continue;
            cr_expect_eq(narrower.kernel->lanes, lanes);
            struct spt_hub_balance other = solve(&narrower, setting_mm, &load, NULL);
            expect_same_lives(&other, &widest, 1e-12, "width");
        }
    }
}

/* The lives that come with the balance are those of the published function, which sums anew. */
Test(hub_balance, lives_of_the_last_pass_are_those_of_the_solution)
{
    struct spt_hub hub = straight_hub();
    struct spt_hub_model model = example_model(&hub);
    for (double setting_mm = -0.11; setting_mm < 0.5; setting_mm += 0.0713) {
        struct spt_hub_load load = example_load(0.21);
        struct spt_hub_balance balance = solve(&model, setting_mm, &load, NULL);
        struct spt_hub_solution solution;
        cr_assert_eq(spt_hub_solve(&model, setting_mm, &load, NULL, &solution), SPT_OK);
        for (int row = 0; row < 2; row++) {
            struct spt_hub_life life;
            cr_assert_eq(spt_hub_life_short(&model, &solution, row, &oils[row], &life), SPT_OK);
            cr_expect(near(spt_hub_life_of(balance.damage[row].basic), life.l10r_mrev, 1e-12, 0));
            cr_expect(
                near(spt_hub_life_of(balance.damage[row].modified), life.modified_mrev, 1e-12, 0));
        }
    }
}

/* Half of the rollers, counted twice, against all of them: a load across so small that it changes
 * nothing leaves the mirror image out. */
Test(hub_balance, mirror_images_change_no_life)
{
    struct spt_hub hub = straight_hub();
    struct spt_hub_model model = example_model(&hub);
    cr_assert(spt_hub_place_is_symmetric(&model, 0));
    for (double setting_mm = -0.12; setting_mm < 0.5; setting_mm += 0.0437) {
        struct spt_hub_load load = example_load(-0.17), across = load;
        across.force_x_n = 1e-12;
        cr_assert(spt_hub_load_is_symmetric(&model, &load));
        cr_assert(!spt_hub_load_is_symmetric(&model, &across));
        struct spt_hub_balance halved = solve(&model, setting_mm, &load, NULL);
        struct spt_hub_balance whole = solve(&model, setting_mm, &across, NULL);
        expect_same_lives(&halved, &whole, 1e-12, "mirror");
        cr_expect(halved.x_mm[0] == 0 && halved.x_mm[4] == 0);
    }
    hub.rows[0].misalignment_y_rad = 1e-9;
    model = example_model(&hub);
    struct spt_hub_load load = example_load(0);
    cr_expect_not(spt_hub_load_is_symmetric(&model, &load));
}

/* By hand for 4 rollers: first at the bottom two are on the line, turned by half a pitch none is;
 * turned by a quarter the image is another place. */
Test(hub_balance, rollers_are_paired_with_their_mirror_images)
{
    struct spt_hub hub = straight_hub();
    hub.rows[0].geometry.elements = 4;
    hub.rows[1].geometry.elements = 5;
    struct spt_hub_model model = example_model(&hub);
    spt_hub_place_cages(&model, 4);
    static const struct {
        int place;
        bool symmetric;
        int single[2], counted[2];
    } want[] = {{0, true, {2, 1}, {3, 3}},
                {1, false, {0, 0}, {0, 0}},
                {2, true, {0, 1}, {2, 3}},
                {3, false, {0, 0}, {0, 0}}};
    for (size_t i = 0; i < sizeof want / sizeof *want; i++) {
        cr_expect_eq(spt_hub_place_is_symmetric(&model, want[i].place), want[i].symmetric);
        for (int row = 0; row < 2; row++) {
            struct spt_hub_rollers all = spt_hub_place_row(&model, row, want[i].place, false);
            struct spt_hub_rollers half = spt_hub_place_row(&model, row, want[i].place, true);
            double x = 0, y = 0;
            cr_expect_eq(half.single, want[i].single[row], "place %d: %d", want[i].place,
                         half.single);
            cr_expect_eq(half.count, want[i].counted[row], "place %d: %d", want[i].place,
                         half.count);
            for (int j = 0; j < all.count; j++) {
                x += all.cosine[j];
                y += all.sine[j];
            }
            cr_expect(near(x, 0, 0, 1e-12) && near(y, 0, 0, 1e-12), "all around");
        }
    }
    spt_hub_turn_cage(&model, 0.13);
    cr_expect_not(spt_hub_place_is_symmetric(&model, 0));
}

/* One roller of each row straight in the load, nothing beside it: the position across is open, and
 * the one in the middle is given. */
Test(hub_balance, an_open_position_is_given_in_the_middle)
{
    struct spt_hub hub = straight_hub();
    for (int row = 0; row < 2; row++)
        hub.rows[row].geometry.elements = 4;
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {.force_y_n = 2385};
    struct spt_hub_solution s;
    cr_assert_eq(spt_hub_solve(&model, 0.9, &load, NULL, &s), SPT_OK);
    cr_expect(!s.located && s.position.x_mm == 0 && s.position.tilt_y_rad == 0);
    const struct spt_hub_position aside = {.x_mm = 0.02, .y_mm = s.position.y_mm};
    cr_assert_eq(spt_hub_solve(&model, 0.9, &load, &aside, &s), SPT_OK);
    cr_expect(s.position.x_mm == 0, "wherever the search starts");
}

/* The slope is what a small change of the setting does; following it saves passes. */
Test(hub_balance, the_slope_leads_to_the_next_setting)
{
    struct spt_hub hub = straight_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.2);
    load.force_x_n = 900;
    const double h = 1e-6;
    struct spt_hub_balance at = solve(&model, 0.05, &load, NULL);
    struct spt_hub_balance up = solve(&model, 0.05 + h, &load, NULL);
    struct spt_hub_balance down = solve(&model, 0.05 - h, &load, NULL);
    double start_mm[SPT_HUB_UNKNOWNS];
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++) {
        cr_expect(near(at.slope[i], (up.x_mm[i] - down.x_mm[i]) / (2 * h), 1e-4, 1e-6), "%d", i);
        start_mm[i] = at.x_mm[i] + 0.005 * at.slope[i];
    }
    cr_expect_leq(solve(&model, 0.055, &load, start_mm).passes, 3);
    cr_expect_leq(solve(&model, 0.055, &load, at.x_mm).passes, 4);
}

/* From statics instead of from the middle of the play, which took 5 to 20 steps here. */
Test(hub_balance, statics_are_a_good_start)
{
    static const double settings_mm[] = {-0.1, 0, 0.05, 0.127, 0.4};
    struct spt_hub hub = straight_hub();
    struct spt_hub_model model = example_model(&hub);
    for (size_t i = 0; i < sizeof settings_mm / sizeof *settings_mm; i++)
        for (double side = -0.3; side < 0.31; side += 0.15) {
            struct spt_hub_load load = example_load(side);
            const double middle[SPT_HUB_UNKNOWNS] = {0};
            struct spt_hub_balance warm = solve(&model, settings_mm[i], &load, NULL);
            struct spt_hub_balance cold = solve(&model, settings_mm[i], &load, middle);
            cr_expect_leq(warm.passes, 12, "%g mm, side %g: %d", settings_mm[i], side, warm.passes);
            expect_same_lives(&warm, &cold, 1e-11, "start");
        }
}

/* Face to face, load centres at one place or nearly: statics says nothing there. */
Test(hub_balance, load_centres_at_one_place_are_no_start)
{
    static const double apart_mm[] = {0, 1e-12, 1e-6, 0.01, 0.3, 2};
    struct spt_hub hub = straight_hub();
    hub.mounting = SPT_HUB_FACE_TO_FACE;
    double reach_mm = (105 + 80) / 2.0 * tan(hub.rows[0].geometry.contact_angle_rad);
    for (size_t i = 0; i < sizeof apart_mm / sizeof *apart_mm; i++) {
        const double middle[SPT_HUB_UNKNOWNS] = {0};
        hub.rows[0].position_mm = 0;
        hub.rows[1].position_mm = reach_mm + apart_mm[i];
        struct spt_hub_model model = example_model(&hub);
        struct spt_hub_load load = example_load(0.1);
        struct spt_hub_balance guessed = solve(&model, 0.02, &load, NULL);
        struct spt_hub_balance cold = solve(&model, 0.02, &load, middle);
        expect_same_lives(&guessed, &cold, 1e-9, "centres");
    }
}

/* Without load the rings come free of each other, however they are tilted: contacts that vanish
 * leave a Hessian of round-off, on which no step may be taken. */
Test(hub_balance, a_hub_without_load_comes_free_of_tilted_rings)
{
    unsigned long long seed = 99;
    const struct spt_hub_load none = {0, 0, 0, 0, 0};
    for (int i = 0; i < 400; i++) {
        struct spt_hub hub = example_hub();
        for (int row = 0; row < 2; row++) {
            hub.rows[row].geometry.elements = 9 + i % 23;
            hub.rows[row].phase_rad = random_between(&seed, 0, 1);
            hub.rows[row].misalignment_x_rad = random_between(&seed, -5e-3, 5e-3);
            hub.rows[row].misalignment_y_rad = random_between(&seed, -5e-3, 5e-3);
        }
        hub.laminae = 30 + i % 40;
        struct spt_hub_model model = example_model(&hub);
        struct spt_hub_solution s;
        double setting_mm = random_between(&seed, 0.4, 2);
        enum spt_status status = spt_hub_solve(&model, setting_mm, &none, NULL, &s);
        cr_expect_eq(status, SPT_FREE, "case %d: %d, residual %g", i, (int)status, s.residual_n);
    }
}
