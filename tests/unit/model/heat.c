/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

static struct spt_bearing get_bearing(enum spt_bearing_type type, double bore, double outside,
                                      double width)
{
    return (struct spt_bearing){.type = type,
                                .bore_mm = bore,
                                .outside_diameter_mm = outside,
                                .width_mm = width,
                                .static_load_rating_n = 90e3};
}

static struct spt_heat_inputs get_inputs(const struct spt_bearing *bearing, double nu40,
                                         double nu100)
{
    struct spt_heat_inputs in = {.bearing = bearing,
                                 .lubrication = SPT_LUBRICATION_GREASE,
                                 .speed_rpm = 1500.0,
                                 .equivalent_load_n = 5000.0,
                                 .ambient_c = 20.0,
                                 .cooling_factor = 1.0};
    cr_assert_eq(spt_viscosity_line(40.0, nu40, 100.0, nu100, &in.oil), SPT_OK);
    return in;
}

/* Palmgren's friction torques, constants after Harris from memory; the numbers are our own
 * recomputation: d_m 70, 1500 r/min, 30 mm2/s, f0 6, f1 0.0004, 5000 N. */
Test(heat, friction_of_the_palmgren_check)
{
    struct spt_bearing bearing = get_bearing(SPT_TAPERED_ROLLER, 50.0, 90.0, 21.75);
    struct spt_heat_inputs in = get_inputs(&bearing, 150.0, 14.544);
    struct spt_heat_balance got;
    cr_assert_eq(spt_heat_friction(&in, 30.0, &got), SPT_OK);
    cr_expect(near(got.oil_torque_nmm, 260.4, 0.0, 0.051), "ours: M0 %.3f", got.oil_torque_nmm);
    cr_expect(near(got.load_torque_nmm, 140.0, 0.0, 0.051), "ours: M1 %.3f", got.load_torque_nmm);
    cr_expect(near(got.heat_w, 62.9, 0.0, 0.051), "ours: Q %.3f", got.heat_w);
    /* slow and thin: below nu n = 2000 the oil torque does not depend on either */
    in.speed_rpm = 60.0;
    cr_assert_eq(spt_heat_friction(&in, 30.0, &got), SPT_OK);
    cr_expect(near(got.oil_torque_nmm, 6.0 * 160e-7 * 343000.0, 1e-12, 0.0));
    /* nu n = 1995 and 2005, on either side of the change */
    cr_assert_eq(spt_heat_friction(&in, 1995.0 / 60.0, &got), SPT_OK);
    cr_expect(near(got.oil_torque_nmm, 32.928, 0.0, 5.1e-4), "%.4f", got.oil_torque_nmm);
    cr_assert_eq(spt_heat_friction(&in, 2005.0 / 60.0, &got), SPT_OK);
    cr_expect(near(got.oil_torque_nmm, 32.723, 0.0, 5.1e-4), "%.4f", got.oil_torque_nmm);
}

/* f0 and f1 of Harris, Rolling Bearing Analysis (from memory; middle of a span). nu n = 45 000 and
 * d_m = 70 as above, so M0 = f0 43.395; P/C0 = 1/18. */
Test(heat, friction_factors_by_type_and_way_of_lubricating)
{
    static const struct {
        double grease, bath, circulating, f1;
    } rows[SPT_BEARING_TYPE_COUNT] = {
        {1.35, 2, 4, 0.000102}, {2, 3.3, 6.6, 0.000385}, {1.75, 1.75, 3.5, 0.0000944},
        {.8, 3.1, 3.1, 0.0003}, {6, 6, 8, 0.0004},       {5.25, 5.25, 10.5, 0.00045},
        {12, 12, 24, 0.0005},   {5.5, 1.5, 3, 0.000308}, {9, 3.5, 8, 0.0015},
    };
    static const double load_ratio = 5000.0 / 90e3;
    for (int i = 0; i < SPT_BEARING_TYPE_COUNT; i++) {
        struct spt_bearing bearing = get_bearing((enum spt_bearing_type)i, 50.0, 90.0, 21.75);
        struct spt_heat_inputs in = get_inputs(&bearing, 150.0, 14.544);
        const double f0[] = {rows[i].grease, rows[i].bath, rows[i].circulating};
        struct spt_heat_balance got;
        for (int k = SPT_LUBRICATION_GREASE; k <= SPT_LUBRICATION_CIRCULATING; k++) {
            in.lubrication = (enum spt_lubrication)k;
            cr_assert_eq(spt_heat_friction(&in, 30.0, &got), SPT_OK);
            cr_expect(near(got.oil_torque_nmm, f0[k] * 43.395, 2e-4, 0.0), "type %d way %d: %.3f",
                      i, k, got.oil_torque_nmm);
        }
        cr_expect(near(got.load_torque_nmm, rows[i].f1 * 5000.0 * 70.0, 4e-3, 0.0),
                  "type %d: f1 %.7f", i, got.load_torque_nmm / 350e3);
    }
    cr_expect(near(0.0005 * pow(load_ratio, 0.55), 0.000102, 4e-3, 0.0));
}

/* ISO 15312 reference heat flow from memory; recomputed by us. */
Test(heat, conductance_by_surface)
{
    struct spt_bearing small = get_bearing(SPT_TAPERED_ROLLER, 50.0, 90.0, 21.75);
    struct spt_bearing large = get_bearing(SPT_SPHERICAL_ROLLER, 300.0, 500.0, 47.746483);
    struct spt_bearing thrust = get_bearing(SPT_THRUST_ROLLER, 50.0, 90.0, (double)NAN);
    struct spt_bearing wide = get_bearing(SPT_THRUST_ROLLER, 300.0, 500.0, (double)NAN);
    double w;
    cr_assert_eq(spt_heat_conductance(&small, 1.0, &w), SPT_OK);
    cr_expect(near(w * 50.0, 153.1, 0.0, 0.051), "ours: A_r 9566, heat flow 153.1 W: %.3f", w * 50);
    cr_assert_eq(spt_heat_conductance(&small, 2.5, &w), SPT_OK);
    cr_expect(near(w, 7.653, 0.0, 5.1e-4), "%.4f", w);
    cr_assert_eq(spt_heat_conductance(&large, 1.0, &w), SPT_OK);
    cr_expect(near(w * 50.0 / 120e3, 0.01188, 0.0, 5.1e-6), "ours: A_r 120 000: q_r %.6f",
              w * 50.0 / 120e3);
    cr_assert_eq(spt_heat_conductance(&thrust, 1.0, &w), SPT_OK);
    cr_expect(near(w * 50.0, 0.020 * 8796.459, 1e-6, 0.0), "%.4f", w * 50.0);
    cr_assert_eq(spt_heat_conductance(&wide, 1.0, &w), SPT_OK);
    cr_expect(near(w * 50.0, 0.020 * 251327.41 * 0.772319, 2e-5, 0.0), "%.4f", w * 50.0);
}

/* Whole balances, our own recomputation by a damped fixed point. */
Test(heat, balance_of_two_bearings)
{
    struct spt_bearing bearing = get_bearing(SPT_TAPERED_ROLLER, 50.0, 90.0, 21.75);
    struct spt_heat_inputs in = get_inputs(&bearing, 150.0, 14.544);
    struct spt_heat_balance got;
    cr_assert_eq(spt_heat_temperature(&in, &got), SPT_OK);
    cr_expect(near(got.temperature_c, 52.6, 0.0, 0.051), "ours: %.3f degC", got.temperature_c);
    cr_expect(near(got.viscosity_mm2_s, 78.6, 0.0, 0.1), "ours: %.3f mm2/s", got.viscosity_mm2_s);
    cr_expect(near(got.heat_w, 99.7, 0.0, 0.1), "ours: %.3f W", got.heat_w);

    struct spt_bearing hub = get_bearing(SPT_TAPERED_ROLLER, 80.0, 140.0, 35.25);
    in = get_inputs(&hub, 220.0, 18.749);
    in.speed_rpm = 500.0;
    in.equivalent_load_n = 20000.0;
    cr_assert_eq(spt_heat_temperature(&in, &got), SPT_OK);
    cr_expect(near(got.temperature_c, 38.8, 0.0, 0.051), "ours: %.3f degC", got.temperature_c);
    cr_expect(near(got.heat_w, 147.0, 0.0, 0.51), "ours: %.3f W", got.heat_w);
}

Test(heat, standstill_takes_the_extra_heat_alone)
{
    struct spt_bearing bearing = get_bearing(SPT_TAPERED_ROLLER, 50.0, 90.0, 21.75);
    struct spt_heat_inputs in = get_inputs(&bearing, 150.0, 14.544);
    struct spt_heat_balance got;
    in.speed_rpm = 0.0;
    cr_assert_eq(spt_heat_temperature(&in, &got), SPT_OK);
    cr_expect(near(got.temperature_c, 20.0, 0.0, 0.0) && near(got.heat_w, 0.0, 0.0, 0.0));
    in.extra_heat_w = 30.0;
    cr_assert_eq(spt_heat_temperature(&in, &got), SPT_OK);
    cr_expect(near(got.temperature_c, 20.0 + 30.0 / got.conductance_w_k, 1e-9, 0.0));
    /* the search ends at 300 degC */
    in.extra_heat_w = 279.9 * got.conductance_w_k;
    cr_assert_eq(spt_heat_temperature(&in, &got), SPT_OK);
    cr_expect(near(got.temperature_c, 299.9, 1e-9, 0.0));
    in.extra_heat_w = 280.1 * got.conductance_w_k;
    cr_expect_eq(spt_heat_temperature(&in, &got), SPT_NOT_CONVERGED);
    cr_expect(isnan(got.temperature_c) && isnan(got.heat_w) && isnan(got.conductance_w_k));
}

Test(heat, refuses_what_lies_outside)
{
    struct spt_bearing bearing = get_bearing(SPT_DEEP_GROOVE_BALL, 50.0, 90.0, 20.0);
    const struct spt_heat_inputs good = get_inputs(&bearing, 150.0, 14.544);
    struct spt_heat_inputs rows[9];
    struct spt_heat_balance got;
    double w;
    for (int i = 0; i < 9; i++)
        rows[i] = good;
    rows[0].speed_rpm = -1.0;
    rows[1].equivalent_load_n = (double)NAN;
    rows[2].ambient_c = -60.1;
    rows[3].ambient_c = 150.1;
    rows[4].extra_heat_w = -0.1;
    rows[5].cooling_factor = 0.09;
    rows[6].lubrication = (enum spt_lubrication)3;
    rows[7].bearing = NULL;
    rows[8].oil.b = (double)NAN;
    for (int i = 0; i < 9; i++) {
        cr_expect_eq(spt_heat_temperature(&rows[i], &got), SPT_BAD_ARGUMENT, "row %d", i);
        cr_expect(isnan(got.temperature_c) && isnan(got.viscosity_mm2_s), "row %d", i);
    }
    cr_expect_eq(spt_heat_friction(&good, 0.0, &got), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_heat_conductance(&bearing, 0.1, &w), SPT_OK);
    cr_expect_eq(spt_heat_conductance(&bearing, 10.0, &w), SPT_OK);
    cr_expect_eq(spt_heat_conductance(&bearing, 10.01, &w), SPT_BAD_ARGUMENT);
    bearing.static_load_rating_n = (double)NAN;
    cr_expect_eq(spt_heat_temperature(&good, &got), SPT_BAD_ARGUMENT);
    bearing = get_bearing(SPT_TAPERED_ROLLER, 50.0, 50.0, 20.0);
    cr_expect_eq(spt_heat_conductance(&bearing, 1.0, &w), SPT_BAD_ARGUMENT);
    cr_expect(isnan(w));
    bearing = get_bearing(SPT_TAPERED_ROLLER, 50.0, 90.0, 20.0);
    struct spt_heat_inputs cold = good;
    cold.ambient_c = -60.0;
    cr_assert_eq(spt_viscosity_line(40.0, 1500.0, 100.0, 40.0, &cold.oil), SPT_OK);
    cr_expect_eq(spt_heat_temperature(&cold, &got), SPT_NOT_APPLICABLE);
}

/* Form of Kays and Bjorklund (from memory), which the coefficients were rounded from: a cylinder of
 * 150 mm across the flow, 20 K warmer than air of 40 degC, emissivity 0.85. */
Test(heat, the_coefficients_of_the_air_are_those_of_a_cylinder_across_the_flow)
{
    static const double speeds_m_s[SPT_AIR_COUNT] = {0, 2, 5};
    const double d = 0.15, k = 0.0271, nu = 1.70e-5, prandtl = 0.711;
    double radiation = 4 * 0.85 * 5.67e-8 * pow(313, 3);
    double grashof = 9.81 / 313 * 20 * pow(d, 3) / (nu * nu);
    for (int i = 0; i < SPT_AIR_COUNT; i++) {
        double reynolds = speeds_m_s[i] * d / nu;
        double h = 0.135 * k / d * cbrt((reynolds * reynolds + grashof) * prandtl) + radiation;
        cr_expect(near(spt_heat_air_w_m2k((enum spt_air)i), h, 0.05, 0), "%d: %g", i, h);
    }
    cr_expect(isnan(spt_heat_air_w_m2k(SPT_AIR_COUNT)));
    cr_expect_eq(spt_heat_air_w_m2k(SPT_AIR_DRAUGHT), SPT_AIR_REFERENCE_W_M2K);
}
