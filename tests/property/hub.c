/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"
#include "spalltime/life.h"
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "model/hub/hub_balance.h"
#include "model/hub/hub_lives.h"
#include "support/hub_example.h"
#include "support/hub_plain.h"
#include "support/near.h"

static double choose_log(unsigned long long *seed, double low, double high)
{
    return exp(random_between(seed, log(low), log(high)));
}

static void vary_row(unsigned long long *seed, double scale, struct spt_hub_row *row)
{
    struct spt_geometry *g = &row->geometry;
    g->element_diameter_mm *= scale;
    g->element_length_mm *= scale;
    g->pitch_diameter_mm *= scale;
    g->contact_angle_rad = random_between(seed, 0.17, 0.49);
    row->position_mm *= scale;
    row->phase_rad = random_between(seed, 0, 1);
    if (random_between(seed, 0, 1) < 0.5) {
        row->misalignment_x_rad = random_between(seed, -2.8e-3, 2.8e-3);
        row->misalignment_y_rad = random_between(seed, -2.8e-3, 2.8e-3);
    }
}

/* Another hub, load and setting each time: 40 to 240 % of the example's size, both mountings,
 * either ring turning, 1 N to 1 MN with side forces both ways, -0.2 to +1 mm. */
struct hub_case {
    struct spt_hub hub;
    struct spt_hub_load load;
    double setting_mm;
};
static struct hub_case choose_case(unsigned long long *seed)
{
    struct hub_case c = {.hub = example_hub()};
    double scale = random_between(seed, 0.4, 2.4);
    vary_row(seed, scale, &c.hub.rows[0]);
    vary_row(seed, scale, &c.hub.rows[1]);
    if (random_between(seed, 0, 1) < 0.5)
        c.hub.mounting = SPT_HUB_FACE_TO_FACE;
    if (random_between(seed, 0, 1) < 0.5)
        c.hub.turning = SPT_HUB_INNER_TURNS;
    double radial = choose_log(seed, 1, 1e6);
    struct spt_hub_wheel wheel = {.radial_n = radial,
                                  .offset_mm = random_between(seed, -30, 30) * scale,
                                  .side_n = radial * random_between(seed, -1, 1),
                                  .rolling_radius_mm = 500 * scale};
    c.load = spt_hub_wheel_load(&wheel);
    c.load.force_x_n = radial * random_between(seed, -0.3, 0.3);
    c.setting_mm = random_between(seed, -0.2, 1);
    return c;
}

/* L10r of a pair. */
static double both_rows(const struct spt_hub_result *result)
{
    const double lives[2] = {result->life[0].l10r_mrev, result->life[1].l10r_mrev};
    return spt_survival_series(lives, 2, SPT_BASIC_RELIABILITY);
}

/* Loads far beyond any rating included. The status says why a case has no answer; all have one. */
Test(hub_property, five_thousand_random_cases_are_solved_or_refused_with_a_reason)
{
    unsigned long long seed = 2385;
    int solved = 0, count = 5000;
    for (int i = 0; i < count; i++) {
        struct hub_case c = choose_case(&seed);
        struct spt_hub_model model = example_model(&c.hub);
        struct spt_hub_solution s;
        enum spt_status status = spt_hub_solve(&model, c.setting_mm, &c.load, NULL, &s);
        if (status != SPT_OK) {
            cr_expect_eq(status, SPT_NOT_APPLICABLE, "case %d: %s, residual %g, setting %g", i,
                         spt_status_text(status), s.residual_n, c.setting_mm);
            continue;
        }
        solved++;
        struct spt_hub_reaction r;
        spt_hub_reaction(&model, c.setting_mm, &s.position, &r);
        double sign = c.hub.turning == SPT_HUB_OUTER_TURNS ? -1 : 1;
        double scale = hypot(c.load.force_y_n, c.load.moment_x_nmm / model.length_mm);
        cr_expect(near(r.force_n[0], -sign * c.load.force_x_n, 0, 1e-7 * scale), "case %d", i);
        cr_expect(near(r.force_n[1], -sign * c.load.force_y_n, 0, 1e-7 * scale), "case %d", i);
        cr_expect(near(r.force_n[2], -sign * c.load.force_z_n, 0, 1e-7 * scale), "case %d", i);
        cr_expect(
            near(r.moment_nmm[0], -sign * c.load.moment_x_nmm, 0, 1e-7 * scale * model.length_mm),
            "case %d", i);
    }
    cr_expect_eq(solved, count, "%d of %d solved", solved, count);
}

/* The same, a third of them their own mirror image. */
static struct hub_case choose_odd_case(unsigned long long *seed)
{
    struct hub_case c = choose_case(seed);
    bool mirrored = random_between(seed, 0, 1) < 0.33;
    for (int row = 0; row < 2; row++) {
        struct spt_hub_row *r = &c.hub.rows[row];
        r->geometry.elements = 9 + (int)random_between(seed, 0, 27);
        if (!mirrored)
            continue;
        r->phase_rad = -0.5 * 3.14159265358979323846;
        r->misalignment_y_rad = 0;
        c.load.force_x_n = 0;
    }
    c.hub.laminae = 30 + (int)random_between(seed, 0, 40);
    c.hub.profile_factor = random_between(seed, 0, 2);
    c.hub.edge_function = random_between(seed, 0, 1) < 0.7;
    c.hub.tilt_locked = random_between(seed, 0, 1) < 0.1;
    if (random_between(seed, 0, 1) < 0.1)
        c.setting_mm = random_between(seed, -1, 3);
    return c;
}

static const struct spt_hub_lubrication oils[2] = {{0.4, 1.3}, {0.3, 0.17}};

static enum spt_status balance(const struct spt_hub_model *model, const struct hub_case *c,
                               struct spt_hub_balance *balance)
{
    const struct spt_hub_lamina_law laws[2] = {spt_hub_lamina_law(model, 0, &oils[0]),
                                               spt_hub_lamina_law(model, 1, &oils[1])};
    const struct spt_hub_problem problem = {
        .model = model, .setting_mm = c->setting_mm, .load = &c->load, .lives = true, .laws = laws};
    return spt_hub_balance(&problem, balance);
}

static void expect_near(double got, double want, double within, int number, const char *what)
{
    cr_expect(near(got, want, within, 0), "case %d, %s: %.3g", number, what, got / want - 1);
}

/* Wide vectors, mirror images, a start from statics and lives in the last pass against the plain
 * way: the same status, the same lives to 1e-9. */
Test(hub_property, two_thousand_random_hubs_have_the_lives_of_the_plain_way)
{
    unsigned long long seed = 4711;
    int solved = 0, count = 2000;
    for (int i = 0; i < count; i++) {
        struct hub_case c = choose_odd_case(&seed);
        struct spt_hub_model model = example_model(&c.hub);
        struct spt_hub_position position;
        struct spt_hub_balance fast;
        int passes;
        enum spt_status plain =
            hub_plain_solve(&model, c.setting_mm, &c.load, NULL, &position, &passes);
        enum spt_status status = balance(&model, &c, &fast);
        cr_expect_eq(status, plain, "case %d: %d, plain %d", i, (int)status, (int)plain);
        if (status != SPT_OK || plain != SPT_OK)
            continue;
        solved++;
        for (int row = 0; row < 2; row++) {
            double basic, modified;
            hub_plain_lives(&model, c.setting_mm, &position, row, &oils[row], &basic, &modified);
            expect_near(spt_hub_life_of(fast.damage[row].basic), basic, 1e-9, i, "L10r");
            expect_near(spt_hub_life_of(fast.damage[row].modified), modified, 1e-9, i, "modified");
        }
    }
    cr_expect_gt(solved, 0.97 * count, "%d of %d solved", solved, count);
}

/* Hubs as they are built agree to 1e-12 (hub_balance.c); among these odd ones 2 in 100 differ by up
 * to 4e-12, where a row hardly carries and has the round-off of the other's roller loads. */
Test(hub_property, every_width_of_vectors_gives_the_same_lives)
{
    unsigned long long seed = 1234;
    for (int i = 0; i < 1000; i++) {
        struct hub_case c = choose_odd_case(&seed);
        struct spt_hub_model model = example_model(&c.hub), narrower = model;
        struct spt_hub_balance widest, other;
        enum spt_status status = balance(&model, &c, &widest);
        for (int lanes = 1; lanes < model.kernel->lanes; lanes *= 2) {
            narrower.kernel = spt_hub_kernel(lanes);
            if (!narrower.kernel)
                continue;
            cr_expect_eq(balance(&narrower, &c, &other), status);
            for (int row = 0; row < 2 && status == SPT_OK; row++) {
                expect_near(other.damage[row].basic, widest.damage[row].basic, 5e-12, i, "L10r");
                expect_near(other.damage[row].modified, widest.damage[row].modified, 5e-12, i,
                            "modified");
            }
        }
    }
}

Test(hub_property, energy_is_convex_between_random_positions)
{
    unsigned long long seed = 17;
    struct spt_hub hub = example_hub();
    hub.rows[0].misalignment_x_rad = 1.3e-3;
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.2);
    for (int i = 0; i < 2000; i++) {
        double p[5], q[5], r[5];
        double share = random_between(&seed, 0.01, 0.99), setting = random_between(&seed, -0.2, 1);
        struct spt_hub_energy a, b, between;
        for (int k = 0; k < 5; k++) {
            double size = k < 3 ? 0.3 : 5e-3;
            p[k] = random_between(&seed, -size, size);
            q[k] = random_between(&seed, -size, size);
            r[k] = share * p[k] + (1 - share) * q[k];
        }
        struct spt_hub_position at_p = {p[0], p[1], p[2], p[3], p[4]};
        struct spt_hub_position at_q = {q[0], q[1], q[2], q[3], q[4]};
        struct spt_hub_position at_r = {r[0], r[1], r[2], r[3], r[4]};
        spt_hub_energy(&model, setting, &load, &at_p, &a);
        spt_hub_energy(&model, setting, &load, &at_q, &b);
        spt_hub_energy(&model, setting, &load, &at_r, &between);
        double chord = share * a.energy_nmm + (1 - share) * b.energy_nmm;
        double round_off = 1e-12 * (fabs(a.energy_nmm) + fabs(b.energy_nmm) + 1);
        cr_expect_leq(between.energy_nmm, chord + round_off, "pair %d", i);
    }
}

Test(hub_property, mirrored_load_mirrors_the_answer)
{
    struct spt_hub hub = example_hub();
    for (int i = 0; i < 2; i++)
        hub.rows[i].phase_rad = -0.5 * 3.14159265358979323846; /* symmetric about the y-z plane */
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {4385, 31700, 5230, -2.1e6, 3.7e5}, mirrored = load;
    mirrored.force_x_n = -load.force_x_n;
    mirrored.moment_y_nmm = -load.moment_y_nmm;
    struct spt_hub_solution a, b;
    for (double setting = -0.12; setting < 0.5; setting += 0.0711) {
        cr_assert_eq(spt_hub_solve(&model, setting, &load, NULL, &a), SPT_OK);
        cr_assert_eq(spt_hub_solve(&model, setting, &mirrored, NULL, &b), SPT_OK);
        cr_expect(near(a.position.x_mm, -b.position.x_mm, 0, 1e-10));
        cr_expect(near(a.position.y_mm, b.position.y_mm, 0, 1e-10));
        cr_expect(near(a.position.z_mm, b.position.z_mm, 0, 1e-10));
        cr_expect(near(a.position.tilt_x_rad, b.position.tilt_x_rad, 0, 1e-12));
        cr_expect(near(a.position.tilt_y_rad, -b.position.tilt_y_rad, 0, 1e-12));
        cr_expect(near(a.axial_n[0], b.axial_n[0], 1e-8, 0));
    }
}

/* Swapping the rows about z = 0 with the side force turned round swaps the rows' answers. */
Test(hub_property, hub_turned_end_for_end_swaps_the_rows)
{
    struct spt_hub hub = example_hub(), turned = hub;
    turned.rows[0] = hub.rows[1];
    turned.rows[1] = hub.rows[0];
    turned.rows[0].position_mm = -62;
    turned.rows[1].position_mm = 33;
    struct spt_hub_load load = example_load(0.2385), opposite = load;
    opposite.force_z_n = -load.force_z_n;
    opposite.moment_x_nmm = -load.moment_x_nmm;
    struct spt_hub_result a, b;
    struct spt_hub_model model = example_model(&hub);
    cr_assert_eq(spt_hub_assess(&model, 0.0711, &load, NULL, &a), SPT_OK);
    model = example_model(&turned);
    cr_assert_eq(spt_hub_assess(&model, 0.0711, &opposite, NULL, &b), SPT_OK);
    for (int i = 0; i < 2; i++) {
        cr_expect(near(a.life[i].l10r_mrev, b.life[1 - i].l10r_mrev, 1e-7, 0));
        cr_expect(near(a.contact[i].zone_deg, b.contact[1 - i].zone_deg, 1e-6, 0));
    }
}

Test(hub_property, warm_start_gives_the_cold_answer)
{
    unsigned long long seed = 99;
    for (int i = 0; i < 300; i++) {
        struct hub_case c = choose_case(&seed);
        struct spt_hub_model model = example_model(&c.hub);
        struct spt_hub_solution near_by, cold, warm;
        cr_assert_eq(spt_hub_solve(&model, c.setting_mm + 0.05, &c.load, NULL, &near_by), SPT_OK);
        cr_assert_eq(spt_hub_solve(&model, c.setting_mm, &c.load, NULL, &cold), SPT_OK);
        cr_assert_eq(spt_hub_solve(&model, c.setting_mm, &c.load, &near_by.position, &warm),
                     SPT_OK);
        for (int row = 0; row < 2; row++) {
            double scale = hypot(cold.radial_n[row], cold.axial_n[row]) + c.load.force_y_n;
            cr_expect(near(warm.radial_n[row], cold.radial_n[row], 0, 1e-6 * scale), "case %d", i);
            cr_expect(near(warm.axial_n[row], cold.axial_n[row], 0, 1e-6 * scale), "case %d", i);
        }
    }
}

/* Direction found in published work on wheel bearings: from the optimum on, more play is less life.
 */
Test(hub_property, life_falls_on_both_sides_of_a_light_preload)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0);
    struct spt_hub_result r;
    double last = HUGE_VAL;
    for (double setting = -0.04; setting < 0.5; setting += 0.0237) {
        cr_assert_eq(spt_hub_assess(&model, setting, &load, NULL, &r), SPT_OK);
        cr_expect_lt(both_rows(&r), last, "play side, %g mm", setting);
        last = both_rows(&r);
    }
    last = HUGE_VAL;
    for (double setting = -0.06; setting > -0.2; setting -= 0.0237) {
        cr_assert_eq(spt_hub_assess(&model, setting, &load, NULL, &r), SPT_OK);
        cr_expect_lt(both_rows(&r), last, "preload side, %g mm", setting);
        last = both_rows(&r);
    }
}
