/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ends of what the hub model accepts, and constants that only a value worked by hand sees. */
#include <criterion/criterion.h>
#include <math.h>
#include <stddef.h>

#include "spalltime/hub.h"
#include "spalltime/life.h"
#include "spalltime/lubricant.h"
#include "support/hub_example.h"
#include "support/near.h"

#define PI 3.14159265358979323846

static bool is_accepted(const struct spt_hub *hub)
{
    return spt_hub_workspace_length(hub) > 0;
}

#define ROW(number, member) offsetof(struct spt_hub, rows[number].member)

/* hub.h states each of these ranges. */
Test(hub_edges, numbers_are_accepted_up_to_the_end_of_their_range)
{
    static const struct {
        char what[32];
        size_t place;
        double last, beyond;
    } rows[] = {
        {"steepest angle", ROW(0, geometry.contact_angle_rad), 1.2, 1.205},
        {"flattest angle", ROW(0, geometry.contact_angle_rad), 0.01, 0.00995},
        {"thickest roller", ROW(0, geometry.element_diameter_mm), 0.3999 * 105, 0.401 * 105},
        {"farthest row", ROW(1, position_mm), 1e5, 1.005e5},
        {"farthest row inboard", ROW(0, position_mm), -1e5, -1.005e5},
        {"largest pitch circle", ROW(0, geometry.pitch_diameter_mm), 1e5, 1.005e5},
        {"misaligned about x", ROW(0, misalignment_x_rad), 0.1, 0.1005},
        {"misaligned about y", ROW(1, misalignment_y_rad), -0.1, -0.1005},
        {"profile", offsetof(struct spt_hub, profile_factor), 10, 10.05},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_hub hub = example_hub();
        double *number = (double *)(void *)((char *)&hub + rows[i].place);
        *number = rows[i].last;
        cr_expect(is_accepted(&hub), "%s %g", rows[i].what, *number);
        *number = rows[i].beyond;
        cr_expect_not(is_accepted(&hub), "%s %g", rows[i].what, *number);
    }
}

Test(hub_edges, a_row_has_three_to_a_thousand_rollers)
{
    static const struct {
        int rollers;
        bool accepted;
    } rows[] = {{2, false}, {3, true}, {1000, true}, {1001, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_hub hub = example_hub();
        hub.rows[0].geometry.elements = rows[i].rollers;
        cr_expect_eq(is_accepted(&hub), rows[i].accepted, "%d rollers", rows[i].rollers);
    }
}

Test(hub_edges, warming_is_accepted_up_to_the_end_of_its_range)
{
    static const struct {
        double expansion, difference;
        enum spt_status status;
    } rows[] = {{1e-3, 1000, SPT_OK},
                {1e-3, -1000, SPT_OK},
                {1.005e-3, 10, SPT_BAD_ARGUMENT},
                {1e-5, 1005, SPT_BAD_ARGUMENT}};
    struct spt_hub hub = example_hub();
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double change;
        cr_expect_eq(spt_hub_thermal_setting(&hub, rows[i].expansion, rows[i].difference, &change),
                     rows[i].status, "%g/K, %g K", rows[i].expansion, rows[i].difference);
    }
}

/* A roller has a cosine, a sine and a load, and in each of four places a cosine and a sine again; a
 * lamina its x, its profile, two sums and two scales, laminae rounded up to a multiple of 16; a row
 * one number, and two for each place. */
Test(hub_edges, the_workspace_is_as_long_as_its_parts)
{
    struct spt_hub hub = example_hub();
    const size_t rollers = (3 + 4 * 2) * (23 + 20), numbers = 2 * (1 + 4 * 2);
    hub.laminae = 41;
    cr_expect_eq(spt_hub_workspace_length(&hub), rollers + numbers + 2 * 6 * 48);
    hub.laminae = 48;
    cr_expect_eq(spt_hub_workspace_length(&hub), rollers + numbers + 2 * 6 * 48);
    hub.laminae = 49;
    cr_expect_eq(spt_hub_workspace_length(&hub), rollers + numbers + 2 * 6 * 64);
}

/* ISO/TS 16281 (from memory): up to L = 2.5 D 2P = 0.0007 D ln(1/(1 - (2x/L)^2)), above that a
 * straight middle and 0.001 D over an arc that begins outside it. */
Test(hub_edges, the_profile_changes_its_form_at_two_and_a_half_diameters)
{
    struct spt_hub hub = example_hub();
    double d = hub.rows[0].geometry.element_diameter_mm;
    hub.laminae = 40;
    for (int i = 0; i < 2; i++) {
        double length = (i ? 2.51 : 2.49) * d, x = 0.4875 * length;
        hub.rows[0].geometry.element_length_mm = length;
        struct spt_hub_model model = example_model(&hub);
        double u = i ? (2 * x - 0.01 * d) / (2.5 * d) : 2 * x / length;
        double want = (i ? 0.001 : 0.0007) * d * log(1 / (1 - u * u));
        cr_expect(near(model.tables[0].x_mm[39], x, 1e-12, 0));
        cr_expect(near(model.tables[0].profile_mm[39], want, 1e-9, 0), "%g, not %g",
                  model.tables[0].profile_mm[39], want);
    }
}

/* Without e the branches of P meet at Fa/Fr = 0.6/Y; at 0.603/Y it is 0.4 Fr + 0.603 Fr. */
Test(hub_edges, the_handbook_takes_the_axial_load_from_where_the_branches_meet)
{
    const struct spt_hub_handbook pair = {
        .rows = {{-47.1, 1.5, (double)NAN, 90000}, {72.7, 1.7, (double)NAN, 70000}},
        .turning = SPT_HUB_OUTER_TURNS,
        .induced_factor = 0.5};
    const double radial[2] = {2385, 100};
    struct spt_hub_handbook_result r;
    /* Fa = S of the other row and the thrust: 0.5 * 100/1.7 + K */
    double thrust = 0.603 / 1.5 * 2385 - 50 / 1.7;
    cr_assert_eq(spt_hub_handbook_share(&pair, radial, thrust, &r), SPT_OK);
    cr_expect(near(r.axial_n[0], 0.603 / 1.5 * 2385, 1e-12, 0));
    cr_expect(near(r.equivalent_n[0], 1.003 * 2385, 1e-12, 0), "%g", r.equivalent_n[0]);
}

/* A row that is pushed straight home, without crowning: all laminae of all rollers carry the same,
 * so that the sums of the lamina method can be written down. */
static struct spt_hub make_pushed(void)
{
    struct spt_hub hub = example_hub();
    hub.row_count = 1;
    hub.profile_factor = 0;
    hub.edge_function = false;
    return hub;
}

static struct spt_hub_solution push(double travel_mm)
{
    return (struct spt_hub_solution){.position = {.z_mm = travel_mm}};
}

/* Hertz: p^2 = w E'/(2 pi R), E' = 207000/(1 - 0.3^2) MPa, 1/R = 2/(D (1 - gamma)). */
Test(hub_edges, the_pressure_is_that_of_hertz)
{
    struct spt_hub hub = make_pushed();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_solution solution = push(0.031);
    const struct spt_geometry *g = &hub.rows[0].geometry;
    struct spt_hub_contact contact;
    spt_hub_contact(&model, &solution, 0, &contact);
    double gamma = 13 * cos(15 * PI / 180) / 105, w = contact.max_roller_load_n / 22;
    double want = sqrt(w * 207000 / 0.91 / (2 * PI) * 2 / (13 * (1 - gamma)));
    cr_expect(near(g->element_length_mm, 22, 1e-15, 0));
    cr_expect(near(contact.max_pressure_mpa, want, 1e-9, 0), "%g, not %g", contact.max_pressure_mpa,
              want);
}

/* With the same load q on every lamina both rings take q^(9/2), so that the equivalent load is
 * P = 0.378 Z n cos(alpha) q [(1 + rho^(9/2))/(1 + (1.038 rho)^(9/2))]^(2/9), and the modified life
 * a_ISO(e_C C_u/P) of the basic one. */
Test(hub_edges, the_equivalent_load_of_a_lamina_is_as_by_hand)
{
    struct spt_hub hub = make_pushed();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_solution solution = push(0.031);
    struct spt_hub_lubrication oil = {.contamination_factor = 0.6, .viscosity_ratio = 1.7};
    struct spt_hub_contact contact;
    struct spt_hub_life life;
    spt_hub_contact(&model, &solution, 0, &contact);
    cr_assert_eq(spt_hub_life_short(&model, &solution, 0, &oil, &life), SPT_OK);
    double cosine = cos(15 * PI / 180), gamma = 13 * cosine / 105;
    double rho = pow((1 - gamma) / (1 + gamma), 143.0 / 108);
    double ratio = (1 + pow(rho, 4.5)) / (1 + pow(1.038 * rho, 4.5));
    double p = 0.378 * 23 * cosine * contact.max_roller_load_n * pow(ratio, 2.0 / 9);
    double a = spt_life_factor_value(false, 1.7, 0.6 * hub.rows[0].fatigue_load_limit_n / p);
    cr_expect(near(life.modified_mrev / life.l10r_mrev, a, 1e-9, 0), "%.10g, not %.10g",
              life.modified_mrev / life.l10r_mrev, a);
    cr_expect(a > 0.2 && a < 20, "the case says something: %g", a);
}

Test(hub_edges, no_load_above_1e12_n_is_taken)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {.force_x_n = 1e12};
    struct spt_hub_solution s;
    cr_expect_neq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_BAD_ARGUMENT);
    load.force_x_n = 1.001e12;
    cr_expect_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_BAD_ARGUMENT);
}

/* ISO 16281 (from memory): at least 30 laminae. */
Test(hub_edges, a_roller_has_at_least_thirty_laminae)
{
    struct spt_hub hub = example_hub();
    hub.laminae = 30;
    cr_expect(is_accepted(&hub));
    hub.laminae = 29;
    cr_expect_not(is_accepted(&hub));
}

/* SPT_HUB_SETTING_MAX_MM either way, and one double beyond. */
Test(hub_edges, a_setting_is_taken_up_to_the_largest_and_not_beyond)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.2);
    struct spt_hub_solution s;
    for (int sign = -1; sign <= 1; sign += 2) {
        double last_mm = sign * SPT_HUB_SETTING_MAX_MM;
        cr_expect_eq(spt_hub_solve(&model, last_mm, &load, NULL, &s), SPT_OK, "%g mm", last_mm);
        double beyond_mm = nextafter(last_mm, sign * (double)INFINITY);
        cr_expect_eq(spt_hub_solve(&model, beyond_mm, &load, NULL, &s), SPT_BAD_ARGUMENT);
    }
    cr_expect_eq(spt_hub_solve(&model, (double)NAN, &load, NULL, &s), SPT_BAD_ARGUMENT);
}

Test(hub_edges, each_number_of_a_start_has_to_be_finite)
{
    static const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.2);
    for (int member = 0; member < SPT_HUB_UNKNOWNS; member++)
        for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
            struct spt_hub_position start = {0.01, 0.02, 0.003, 1e-4, 2e-4};
            double *const members[SPT_HUB_UNKNOWNS] = {&start.x_mm, &start.y_mm, &start.z_mm,
                                                       &start.tilt_x_rad, &start.tilt_y_rad};
            struct spt_hub_solution s;
            cr_expect_eq(spt_hub_solve(&model, 0.05, &load, &start, &s), SPT_OK);
            *members[member] = bad[i];
            cr_expect_eq(spt_hub_solve(&model, 0.05, &load, &start, &s), SPT_BAD_ARGUMENT,
                         "member %d: %g", member, bad[i]);
        }
}

Test(hub_edges, a_start_at_the_answer_is_the_answer)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.2);
    struct spt_hub_solution first, again;
    cr_assert_eq(spt_hub_solve(&model, 0.05, &load, NULL, &first), SPT_OK);
    cr_assert(first.iterations > 3 && first.position.tilt_x_rad != 0);
    cr_assert_eq(spt_hub_solve(&model, 0.05, &load, &first.position, &again), SPT_OK);
    cr_expect_leq(again.iterations, 1, "%d steps", again.iterations);
}

/* 1e-9 of the norm of forces and of moments over the mean pitch radius; without moments where the
 * tilt is locked. Where preload is far larger than the load, round-off of the roller loads. */
Test(hub_edges, what_may_be_left_of_the_balance_follows_the_load)
{
    const struct spt_hub_load load = {2385, 41000, -7300, 3.1e6, 1.7e6};
    for (int locked = 0; locked < 2; locked++) {
        struct spt_hub hub = example_hub();
        struct spt_hub_solution s;
        hub.tilt_locked = locked;
        struct spt_hub_model model = example_model(&hub);
        double l0 = (105 + 80) / 4.0, moment = locked ? 0 : hypot(3.1e6, 1.7e6) / l0;
        cr_expect(near(model.length_mm, l0, 1e-12, 0));
        double norm = sqrt(2385.0 * 2385 + 41000.0 * 41000 + 7300.0 * 7300 + moment * moment);
        cr_assert_eq(spt_hub_solve(&model, 0.05, &load, NULL, &s), SPT_OK);
        cr_expect(near(s.allowed_n, 1e-9 * norm, 1e-12, 0), "%g, not %g", s.allowed_n, 1e-9 * norm);
        cr_expect_leq(s.residual_n, 10 * s.allowed_n);
    }
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    const struct spt_hub_load small = {.force_y_n = 1};
    struct spt_hub_solution s;
    struct spt_hub_reaction reaction;
    cr_assert_eq(spt_hub_solve(&model, -0.3, &small, NULL, &s), SPT_OK);
    spt_hub_reaction(&model, -0.3, &s.position, &reaction);
    cr_expect_gt(reaction.contact_n, 1e5);
    cr_expect(s.allowed_n > 1e-14 * reaction.contact_n && s.allowed_n < 1e-12 * reaction.contact_n,
              "%g of %g N", s.allowed_n, reaction.contact_n);
}

static double measure_travel(const struct spt_hub_model *model, const struct spt_hub_position *p)
{
    double tilt_mm = model->length_mm * hypot(p->tilt_x_rad, p->tilt_y_rad);
    return hypot(hypot(p->x_mm, p->y_mm), hypot(p->z_mm, tilt_mm));
}

/* The load is raised until the body has moved too far: rings that nothing could press so deep. */
Test(hub_edges, a_body_may_move_by_twenty_millimetres_and_five_settings)
{
    static const double settings_mm[] = {0, 0.8, -0.6};
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    for (size_t i = 0; i < sizeof settings_mm / sizeof *settings_mm; i++) {
        double low_n = 1e5, high_n = 1e12, travel_mm = 0;
        for (int k = 0; k < 80; k++) {
            struct spt_hub_load load = {.force_y_n = sqrt(low_n * high_n), .force_z_n = 500};
            struct spt_hub_solution s;
            enum spt_status status = spt_hub_solve(&model, settings_mm[i], &load, NULL, &s);
            cr_assert(status == SPT_OK || status == SPT_NOT_APPLICABLE, "%d", (int)status);
            if (status == SPT_OK)
                travel_mm = measure_travel(&model, &s.position);
            *(status == SPT_OK ? &low_n : &high_n) = load.force_y_n;
        }
        cr_expect(near(travel_mm, 20 + 5 * fabs(settings_mm[i]), 1e-6, 0), "%g mm: %.9g mm",
                  settings_mm[i], travel_mm);
    }
}
