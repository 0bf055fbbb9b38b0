/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/plain.h"

static const double none = (double)NAN;

typedef enum spt_status (*load_function)(const struct spt_bearing *, double, double,
                                         struct spt_equivalent_load *, struct spt_notes *);
static const load_function both[] = {spt_load_equivalent, spt_load_static};

static struct spt_equivalent_load dynamic(const struct spt_bearing *bearing, double radial_n,
                                          double axial_n, struct spt_notes *notes)
{
    struct spt_equivalent_load load;
    *notes = (struct spt_notes){0};
    cr_assert_eq(spt_load_equivalent(bearing, radial_n, axial_n, &load, notes), SPT_OK);
    return load;
}

static void expect_note(const struct spt_notes *notes, enum spt_flag flag, double value,
                        double limit)
{
    for (int i = 0; i < notes->count; i++)
        if (notes->list[i].flag == flag) {
            cr_expect(near(notes->list[i].value, value, 1e-12, 0), "%s: value %g",
                      spt_flag_code(flag), notes->list[i].value);
            cr_expect(near(notes->list[i].limit, limit, 1e-12, 0), "%s: limit %g",
                      spt_flag_code(flag), notes->list[i].limit);
            return;
        }
    cr_expect(false, "%s not raised", spt_flag_code(flag));
}

Test(load, bad_input_is_refused)
{
    struct spt_bearing good = plain_bearing(SPT_TAPERED_ROLLER), bad[9];
    good.contact_angle_rad = 13 * DEG;
    for (int i = 0; i < 9; i++)
        bad[i] = good;
    bad[0].type = SPT_BEARING_TYPE_COUNT;
    bad[1].limit_ratio = 0.0;
    bad[2].axial_factor = -1.0;
    bad[3].radial_factor = 1.01;
    bad[4].radial_factor = -0.1;
    bad[5].f0 = 0.0;
    bad[6].static_axial_factor = -0.1;
    bad[7].axial_factor = (double)INFINITY;
    bad[8].type = (enum spt_bearing_type) - 1;
    const double loads[] = {-1.0, none, (double)INFINITY};
    struct spt_equivalent_load load;
    for (int f = 0; f < 2; f++) {
        for (int i = 0; i < 9; i++) {
            cr_expect_eq(both[f](&bad[i], 1000, 500, &load, NULL), SPT_BAD_ARGUMENT, "case %d", i);
            cr_expect(isnan(load.load_n));
        }
        for (int i = 0; i < 3; i++) {
            cr_expect_eq(both[f](&good, loads[i], 500, &load, NULL), SPT_BAD_ARGUMENT);
            cr_expect_eq(both[f](&good, 1000, loads[i], &load, NULL), SPT_BAD_ARGUMENT);
            cr_expect(isnan(load.load_n));
        }
    }
}

/* what a type needs and does not know: no value, unless the load needs no factor */
Test(load, missing_data_give_no_value_but_for_pure_loads)
{
    static const struct {
        enum spt_bearing_type type;
        double angle_deg;
    } rows[] = {
        {SPT_DEEP_GROOVE_BALL, 0},           {SPT_ANGULAR_CONTACT_BALL, (double)NAN},
        {SPT_ANGULAR_CONTACT_BALL, 17},      {SPT_ANGULAR_CONTACT_BALL, 14},
        {SPT_ANGULAR_CONTACT_BALL, 45.1},    {SPT_ANGULAR_CONTACT_BALL, 15},
        {SPT_SELF_ALIGNING_BALL, 0},         {SPT_TAPERED_ROLLER, (double)NAN},
        {SPT_SPHERICAL_ROLLER, (double)NAN}, {SPT_THRUST_BALL, (double)NAN},
        {SPT_THRUST_ROLLER, (double)NAN},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_bearing bearing = plain_bearing(rows[i].type);
        bearing.contact_angle_rad = rows[i].angle_deg * DEG;
        struct spt_equivalent_load load;
        cr_expect_eq(spt_load_equivalent(&bearing, 1000, 900, &load, NULL), SPT_NOT_APPLICABLE,
                     "row %zu", i);
        cr_expect(isnan(load.load_n));
        bool thrust = spt_bearing_is_thrust(rows[i].type);
        for (int f = 0; f < 2; f++) {
            cr_expect_eq(both[f](&bearing, thrust ? 0 : 1234, thrust ? 1234 : 0, &load, NULL),
                         SPT_OK, "row %zu", i);
            cr_expect_eq(load.load_n, 1234.0, "row %zu", i);
        }
    }
    const enum spt_bearing_type types[] = {SPT_TAPERED_ROLLER, SPT_ANGULAR_CONTACT_BALL,
                                           SPT_THRUST_ROLLER};
    for (int i = 0; i < 3; i++) {
        struct spt_bearing bearing = plain_bearing(types[i]);
        struct spt_equivalent_load load;
        cr_expect_eq(spt_load_static(&bearing, 1000, 900, &load, NULL), SPT_NOT_APPLICABLE);
        cr_expect(isnan(load.load_n));
    }
}

Test(load, cylindrical_and_needle_carry_the_radial_load_only)
{
    const enum spt_bearing_type types[] = {SPT_CYLINDRICAL_ROLLER, SPT_NEEDLE_ROLLER};
    for (int i = 0; i < 2; i++)
        for (int f = 0; f < 2; f++) {
            struct spt_bearing bearing = plain_bearing(types[i]);
            struct spt_equivalent_load load;
            struct spt_notes notes = {0};
            cr_assert_eq(both[f](&bearing, 2385, 0, &load, &notes), SPT_OK);
            cr_expect_eq(notes.count, 0);
            cr_assert_eq(both[f](&bearing, 2385, 120, &load, &notes), SPT_OK);
            cr_expect_eq(load.load_n, 2385.0);
            cr_expect(isnan(load.axial_factor));
            expect_note(&notes, SPT_FLAG_AXIAL_NOT_RATED, 120, 0);
        }
}

Test(load, a_cylindrical_bearing_with_its_own_factors_is_rated_axially)
{
    struct spt_bearing bearing = plain_bearing(SPT_CYLINDRICAL_ROLLER);
    bearing.limit_ratio = 0.2;
    bearing.radial_factor = 0.92;
    bearing.axial_factor = 0.6;
    struct spt_notes notes;
    cr_expect(near(dynamic(&bearing, 1000, 300, &notes).load_n, 0.92 * 1000 + 0.6 * 300, 1e-13, 0));
    cr_expect_eq(notes.count, 0);
    cr_expect_eq(dynamic(&bearing, 1000, 150, &notes).load_n, 1000.0);
}

Test(load, a_90_degree_thrust_bearing_carries_the_axial_load_only)
{
    const enum spt_bearing_type types[] = {SPT_THRUST_BALL, SPT_THRUST_ROLLER};
    for (int i = 0; i < 2; i++)
        for (int f = 0; f < 2; f++) {
            struct spt_bearing bearing = plain_bearing(types[i]);
            bearing.contact_angle_rad = 90 * DEG;
            struct spt_equivalent_load load;
            struct spt_notes notes = {0};
            cr_assert_eq(both[f](&bearing, 0, 2385, &load, &notes), SPT_OK);
            cr_expect_eq(notes.count, 0);
            cr_assert_eq(both[f](&bearing, 120, 2385, &load, &notes), SPT_OK);
            cr_expect_eq(load.load_n, 2385.0);
            cr_expect_eq(load.axial_factor, 1.0);
            cr_expect(isnan(load.radial_factor));
            expect_note(&notes, SPT_FLAG_RADIAL_NOT_RATED, 120, 0);
        }
}

Test(load, too_much_radial_load_on_a_thrust_bearing_is_flagged)
{
    struct spt_bearing bearing = plain_bearing(SPT_THRUST_BALL);
    bearing.contact_angle_rad = 60 * DEG;
    struct spt_notes notes;
    double limit_n = 1000 / (1.25 * tan(60 * DEG));
    dynamic(&bearing, 0.99 * limit_n, 1000, &notes);
    cr_expect_eq(notes.count, 0);
    dynamic(&bearing, 1.01 * limit_n, 1000, &notes);
    expect_note(&notes, SPT_FLAG_RADIAL_NOT_RATED, 1.01 * limit_n, limit_n);
    struct spt_equivalent_load load;
    limit_n = 0.67 * 1000 / tan(60 * DEG);
    notes = (struct spt_notes){0};
    cr_assert_eq(spt_load_static(&bearing, 0.99 * limit_n, 1000, &load, &notes), SPT_OK);
    cr_expect_eq(notes.count, 0);
    cr_assert_eq(spt_load_static(&bearing, 1.01 * limit_n, 1000, &load, &notes), SPT_OK);
    expect_note(&notes, SPT_FLAG_RADIAL_NOT_RATED, 1.01 * limit_n, limit_n);
}

Test(load, deep_groove_table_ends_are_flagged_where_they_matter)
{
    struct spt_bearing bearing = plain_bearing(SPT_DEEP_GROOVE_BALL);
    bearing.static_load_rating_n = 10000;
    bearing.f0 = 13.2;
    struct spt_notes notes;
    struct spt_equivalent_load load = dynamic(&bearing, 4000, 5400, &notes);
    cr_expect_eq(load.axial_factor, 1.0);
    cr_expect_eq(load.limit_ratio, 0.44);
    cr_expect(near(load.relative_axial_load, 13.2 * 0.54, 1e-13, 0));
    expect_note(&notes, SPT_FLAG_AXIAL_RANGE, 13.2 * 0.54, 6.89);
    load = dynamic(&bearing, 50, 100, &notes); /* below the table, Y used */
    cr_expect_eq(load.axial_factor, 2.30);
    expect_note(&notes, SPT_FLAG_AXIAL_RANGE, 13.2 * 0.01, 0.172);
    load = dynamic(&bearing, 4000, 100, &notes); /* below the table, Y not used */
    cr_expect_eq(notes.count, 0);
    cr_expect_eq(load.load_n, 4000.0);
    dynamic(&bearing, 4000, 2000, &notes);
    cr_expect_eq(notes.count, 0);
}

Test(load, every_table_is_flagged_at_its_own_ends)
{
    static const struct {
        enum spt_bearing_type type;
        double f0, low, high;
    } rows[] = {
        {SPT_DEEP_GROOVE_BALL, 13.2, 0.172, 6.89},
        {SPT_DEEP_GROOVE_BALL, (double)NAN, 0.014, 0.56},
        {SPT_ANGULAR_CONTACT_BALL, 13.2, 0.178, 7.14},
        {SPT_ANGULAR_CONTACT_BALL, (double)NAN, 0.015, 0.58},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_bearing bearing = plain_bearing(rows[i].type);
        bearing.contact_angle_rad = 15 * DEG;
        bearing.static_load_rating_n = 10000;
        bearing.f0 = rows[i].f0;
        double unit_n = 1e4 / (isnan(rows[i].f0) ? 1.0 : rows[i].f0);
        struct spt_notes notes;
        dynamic(&bearing, 1, 0.999 * rows[i].low * unit_n, &notes);
        expect_note(&notes, SPT_FLAG_AXIAL_RANGE, 0.999 * rows[i].low, rows[i].low);
        dynamic(&bearing, 1, 1.001 * rows[i].low * unit_n, &notes);
        cr_expect_not(spt_notes_has(&notes, SPT_FLAG_AXIAL_RANGE));
        dynamic(&bearing, 1, 0.999 * rows[i].high * unit_n, &notes);
        cr_expect_not(spt_notes_has(&notes, SPT_FLAG_AXIAL_RANGE));
        dynamic(&bearing, 1, 1.001 * rows[i].high * unit_n, &notes);
        expect_note(&notes, SPT_FLAG_AXIAL_RANGE, 1.001 * rows[i].high, rows[i].high);
    }
}

Test(load, static_angular_contact_factors_end_at_15_and_45_degrees)
{
    const double angles[] = {14.9, 45.1};
    for (int i = 0; i < 2; i++) {
        struct spt_bearing bearing = plain_bearing(SPT_ANGULAR_CONTACT_BALL);
        struct spt_equivalent_load load;
        bearing.contact_angle_rad = angles[i] * DEG;
        cr_expect_eq(spt_load_static(&bearing, 1000, 900, &load, NULL), SPT_NOT_APPLICABLE);
        cr_expect(isnan(load.load_n));
    }
}

Test(load, a_table_without_f0_is_flagged)
{
    struct spt_bearing bearing = plain_bearing(SPT_DEEP_GROOVE_BALL);
    bearing.static_load_rating_n = 10000;
    struct spt_notes notes;
    struct spt_equivalent_load load = dynamic(&bearing, 1000, 2385, &notes);
    cr_expect(near(load.relative_axial_load, 0.2385, 1e-13, 0));
    cr_assert_eq(notes.count, 1);
    cr_expect_eq(notes.list[0].flag, SPT_FLAG_F0_ASSUMED);
    cr_expect(near(notes.list[0].value, 0.2385, 1e-13, 0));
    dynamic(&bearing, 1000, 0, &notes);
    cr_expect_eq(notes.count, 0);
    bearing.axial_factor = 1.37;
    load = dynamic(&bearing, 1000, 2385, &notes);
    cr_expect_eq(notes.count, 0);
    cr_expect(isnan(load.relative_axial_load));
}

Test(load, factors_between_table_rows_are_interpolated)
{
    struct spt_bearing bearing = plain_bearing(SPT_DEEP_GROOVE_BALL);
    bearing.static_load_rating_n = 10000;
    bearing.f0 = 10.0;
    struct spt_notes notes;
    struct spt_equivalent_load load = dynamic(&bearing, 1000, 2760, &notes); /* half way to 3.45 */
    cr_expect(near(load.axial_factor, 1.23, 1e-12, 0));
    cr_expect(near(load.limit_ratio, 0.36, 1e-12, 0));
    bearing = plain_bearing(SPT_ANGULAR_CONTACT_BALL);
    bearing.contact_angle_rad = 32 * DEG;
    load = dynamic(&bearing, 1000, 2385, &notes);
    cr_expect(near(load.radial_factor, 0.382, 1e-12, 0));
    cr_expect(near(load.axial_factor, 0.72, 1e-12, 0));
    cr_expect(near(load.limit_ratio, 0.86, 1e-12, 0));
    bearing.rows = 2;
    load = dynamic(&bearing, 1000, 2385, &notes);
    cr_expect(near(load.radial_factor, 0.618, 1e-12, 0));
    cr_expect(near(load.axial_factor, 1.172, 1e-12, 0));
    load = dynamic(&bearing, 1000, 238.5, &notes);
    cr_expect(near(load.axial_factor, 0.732, 1e-12, 0));
    bearing.rows = 1;
    bearing.contact_angle_rad = 17 * DEG;
    cr_assert_eq(spt_load_static(&bearing, 1000, 2385, &load, NULL), SPT_OK);
    cr_expect(near(load.axial_factor, 0.444, 1e-12, 0));
}

/* The branches of P meet at e: X + Y e = 1. */
Test(load, one_of_e_and_y_gives_the_other)
{
    struct spt_bearing bearing = plain_bearing(SPT_DEEP_GROOVE_BALL);
    struct spt_notes notes;
    bearing.radial_factor = 0.43;
    bearing.axial_factor = 1.71;
    cr_expect(near(dynamic(&bearing, 1000, 2385, &notes).limit_ratio, 0.57 / 1.71, 1e-13, 0));
    bearing.axial_factor = (double)NAN;
    bearing.limit_ratio = 0.31;
    cr_expect(near(dynamic(&bearing, 1000, 2385, &notes).axial_factor, 0.57 / 0.31, 1e-13, 0));
}

Test(load, given_factors_win)
{
    const enum spt_bearing_type types[] = {SPT_DEEP_GROOVE_BALL, SPT_ANGULAR_CONTACT_BALL,
                                           SPT_SELF_ALIGNING_BALL, SPT_TAPERED_ROLLER,
                                           SPT_SPHERICAL_ROLLER};
    for (int i = 0; i < 5; i++) {
        struct spt_bearing bearing = plain_bearing(types[i]);
        bearing.contact_angle_rad = 25 * DEG;
        bearing.static_load_rating_n = 1e4;
        bearing.limit_ratio = 0.31;
        bearing.radial_factor = 0.43;
        bearing.axial_factor = 1.71;
        bearing.static_axial_factor = 1.13;
        struct spt_notes notes;
        struct spt_equivalent_load load = dynamic(&bearing, 1000, 2385, &notes);
        cr_expect_eq(load.limit_ratio, 0.31);
        cr_expect_eq(load.radial_factor, 0.43);
        cr_expect_eq(load.axial_factor, 1.71);
        cr_expect(near(load.load_n, 430 + 1.71 * 2385, 1e-13, 0));
        cr_expect_eq(dynamic(&bearing, 1000, 309, &notes).radial_factor, 1.0);
        cr_expect_eq(dynamic(&bearing, 1000, 311, &notes).radial_factor, 0.43);
        cr_assert_eq(spt_load_static(&bearing, 1000, 2385, &load, NULL), SPT_OK);
        cr_expect_eq(load.axial_factor, 1.13);
    }
}

Test(load, one_known_factor_of_a_tapered_bearing_gives_the_others)
{
    struct spt_bearing by_angle = plain_bearing(SPT_TAPERED_ROLLER), by_y = by_angle,
                       by_e = by_angle;
    by_angle.contact_angle_rad = 14 * DEG;
    by_y.axial_factor = 0.4 / tan(14 * DEG);
    by_e.limit_ratio = 1.5 * tan(14 * DEG);
    const struct spt_bearing *bearings[] = {&by_angle, &by_y, &by_e};
    for (int i = 0; i < 3; i++) {
        struct spt_notes notes;
        struct spt_equivalent_load load = dynamic(bearings[i], 1000, 2385, &notes);
        cr_expect(near(load.limit_ratio, 1.5 * tan(14 * DEG), 1e-12, 0), "case %d", i);
        cr_expect(near(load.axial_factor, 0.4 / tan(14 * DEG), 1e-12, 0), "case %d", i);
        cr_expect_eq(load.radial_factor, 0.4);
        cr_assert_eq(spt_load_static(bearings[i], 1000, 2385, &load, NULL), SPT_OK);
        cr_expect(near(load.axial_factor, 0.22 / tan(14 * DEG), 1e-12, 0), "case %d", i);
    }
}

Test(load, a_given_y_outweighs_the_contact_angle)
{
    struct spt_bearing bearing = plain_bearing(SPT_TAPERED_ROLLER);
    bearing.contact_angle_rad = 14 * DEG;
    bearing.axial_factor = 1.3;
    struct spt_notes notes;
    struct spt_equivalent_load load = dynamic(&bearing, 1000, 2385, &notes);
    cr_expect_eq(load.axial_factor, 1.3);
    cr_expect(near(load.limit_ratio, 0.6 / 1.3, 1e-12, 0));
}

Test(load, given_factors_of_two_angular_rows_keep_p_continuous)
{
    struct spt_bearing bearing = plain_bearing(SPT_ANGULAR_CONTACT_BALL);
    bearing.rows = 2;
    bearing.limit_ratio = 0.86;
    bearing.radial_factor = 0.62;
    bearing.axial_factor = 1.17;
    struct spt_notes notes;
    struct spt_equivalent_load load = dynamic(&bearing, 1000, 500, &notes);
    cr_expect(near(load.axial_factor, 1.17 - 0.38 / 0.86, 1e-12, 0));
}

Test(load, a_thrust_bearing_of_unknown_angle_takes_a_given_radial_factor)
{
    struct spt_bearing bearing = plain_bearing(SPT_THRUST_ROLLER);
    bearing.radial_factor = 1.2;
    bearing.limit_ratio = 1.82;
    struct spt_notes notes;
    cr_expect(near(dynamic(&bearing, 500, 2385, &notes).load_n, 600 + 2385, 1e-13, 0));
    cr_expect_eq(notes.count, 0);
    dynamic(&bearing, 2000, 2385, &notes);
    expect_note(&notes, SPT_FLAG_RADIAL_NOT_RATED, 2000, 2385 / 1.82);
}

Test(load, ratio_says_what_the_loads_are)
{
    struct spt_bearing bearing = plain_bearing(SPT_TAPERED_ROLLER);
    bearing.contact_angle_rad = 14 * DEG;
    struct spt_notes notes;
    cr_expect(near(dynamic(&bearing, 1000, 2385, &notes).ratio, 2.385, 1e-14, 0));
    struct spt_equivalent_load load = dynamic(&bearing, 0, 2385, &notes);
    cr_expect(isinf(load.ratio));
    cr_expect(near(load.load_n, 2385 * 0.4 / tan(14 * DEG), 1e-13, 0));
    load = dynamic(&bearing, 0, 0, &notes);
    cr_expect(isnan(load.ratio));
    cr_expect_eq(load.load_n, 0.0);
}

/* Fr1 800, Fr2 1000, Ka 650 N, e .46, Y 1.3, S = Fr/(2Y): inputs of a tutorial, answers worked out
 * by us */
Test(load, opposed_tapered_rows_with_induced_thrust_stay_where_they_were)
{
    struct spt_bearing bearing = plain_bearing(SPT_TAPERED_ROLLER);
    bearing.limit_ratio = 0.46;
    bearing.axial_factor = 1.3;
    struct spt_notes notes;
    double s1 = 800 / 2.6, s2 = 1000 / 2.6;
    cr_expect(near(dynamic(&bearing, 800, s2 + 650, &notes).load_n, 1665.0, 0, 0.01));
    cr_expect(near(dynamic(&bearing, 1000, s2, &notes).load_n, 1000.0, 0, 0.01));
    cr_expect(near(dynamic(&bearing, 800, s1, &notes).load_n, 800.0, 0, 0.01));
    cr_expect(near(dynamic(&bearing, 1000, s1 + 650, &notes).load_n, 1645.0, 0, 0.01));
}

/* common practice, no source */
Test(load, least_load_is_1_percent_for_balls_and_2_for_rollers)
{
    cr_expect_eq(spt_load_least_share(SPT_THRUST_BALL), 0.01);
    cr_expect_eq(spt_load_least_share(SPT_TAPERED_ROLLER), 0.02);
    cr_expect(isnan(spt_load_least_share(SPT_BEARING_TYPE_COUNT)));
    cr_expect(isnan(spt_load_static_guide(SPT_BEARING_TYPE_COUNT, SPT_RUNNING_NORMAL)));
    cr_expect(isnan(spt_load_static_guide(SPT_TAPERED_ROLLER, SPT_RUNNING_COUNT)));
    cr_expect_str_eq(spt_running_name(SPT_RUNNING_SHOCK), "shock");
    cr_expect_str_eq(spt_running_name(SPT_RUNNING_COUNT), "unknown");
}

Test(load, one_row_of_spherical_rollers_is_refused)
{
    struct spt_bearing bearing = plain_bearing(SPT_SPHERICAL_ROLLER);
    struct spt_equivalent_load load;
    double radial_n = 1000, axial_n = 500, load_n = 0;
    bearing.contact_angle_rad = 12 * DEG;
    bearing.rows = 1;
    for (int f = 0; f < 2; f++)
        cr_expect_eq(both[f](&bearing, radial_n, axial_n, &load, NULL), SPT_BAD_ARGUMENT);
    spt_load_equivalent_many(&bearing, &radial_n, &axial_n, 1, &load_n);
    cr_expect(isnan(load_n));
}

Test(load, induced_thrust_uses_the_axial_factor_of_that_thrust)
{
    struct spt_bearing bearing = plain_bearing(SPT_ANGULAR_CONTACT_BALL);
    struct spt_notes notes;
    double thrust_n;
    bearing.contact_angle_rad = 15 * DEG;
    bearing.static_load_rating_n = 20000;
    bearing.f0 = 14.2;
    cr_assert_eq(spt_load_induced_thrust(&bearing, 2385, &thrust_n), SPT_OK);
    double y = dynamic(&bearing, 1, thrust_n, &notes).axial_factor;
    cr_expect(near(thrust_n, 2385 / (2 * y), 1e-9, 0), "%g N", thrust_n);
    cr_expect_lt(y, 1.40); /* and not that of no axial load, 1.47 */
}

Test(load, induced_thrust_is_of_one_row_at_an_angle_alone)
{
    struct spt_bearing bearing = plain_bearing(SPT_TAPERED_ROLLER);
    double thrust_n = 1;
    cr_expect_eq(spt_load_induced_thrust(&bearing, 1000, &thrust_n), SPT_NOT_APPLICABLE);
    cr_expect(isnan(thrust_n));
    bearing.contact_angle_rad = 14 * DEG;
    cr_expect_eq(spt_load_induced_thrust(&bearing, -1, &thrust_n), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_load_induced_thrust(&bearing, 1000, &thrust_n), SPT_OK);
    bearing.rows = 2;
    cr_expect_eq(spt_load_induced_thrust(&bearing, 1000, &thrust_n), SPT_NOT_APPLICABLE);
    bearing = plain_bearing(SPT_DEEP_GROOVE_BALL);
    cr_expect_eq(spt_load_induced_thrust(&bearing, 1000, &thrust_n), SPT_NOT_APPLICABLE);
}
