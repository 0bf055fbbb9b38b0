/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

/* Our own recomputation, no published authority: pins constants against slips. */
Test(viscosity, quadratics_keep_their_coefficients)
{
    static const struct {
        double nu100, l, h;
    } rows[] = {
        {2.900, 14.6320393, 11.5015255},      {4.100, 26.4994495, 20.3756751},
        {4.700, 35.1297900, 25.6335187},      {5.700, 52.6319900, 35.2820365},
        {6.700, 71.2872046, 45.3348991},      {7.350, 85.6146580, 52.3184914},
        {8.350, 108.0453740, 63.6049816},     {10.500, 160.5821975, 88.9539125},
        {13.500, 247.4044000, 128.3813425},   {16.500, 350.3856125, 172.2929525},
        {20.000, 493.0440000, 229.6060000},   {25.000, 736.4087500, 320.9562500},
        {34.000, 1285.6421600, 509.5321600},  {47.500, 2379.8734375, 849.2103125},
        {62.500, 3966.9053125, 1302.7006250}, {80.000, 6303.5860000, 1928.8210000},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double l, h;
        cr_assert_eq(spt_viscosity_index_basis(rows[i].nu100, &l, &h), SPT_OK);
        cr_expect(near(l, rows[i].l, 0.0, 2e-7), "ours: Y %g gives L %.8f", rows[i].nu100, l);
        cr_expect(near(h, rows[i].h, 0.0, 2e-7), "ours: Y %g gives H %.8f", rows[i].nu100, h);
    }
}

/* Two neighbouring rows never meet exactly: the step shows where one takes over. Ends of the rows
 * from ASTM D2270 table X2.1 (from memory, as the rows are). */
Test(viscosity, quadratics_change_where_their_rows_begin)
{
    static const double begins[] = {3.8,  4.4,  5.0,  6.4,  7.0,  7.7,  9.0, 12.0,
                                    15.0, 18.0, 22.0, 28.0, 40.0, 55.0, 70.0};
    for (size_t i = 0; i < sizeof begins / sizeof *begins; i++) {
        double l, h, l_below, h_below;
        cr_assert_eq(spt_viscosity_index_basis(begins[i], &l, &h), SPT_OK);
        cr_assert_eq(spt_viscosity_index_basis(nextafter(begins[i], 0), &l_below, &h_below),
                     SPT_OK);
        cr_expect_gt(fabs(l / l_below - 1) + fabs(h / h_below - 1), 1e-9, "at %g", begins[i]);
    }
}

/* Our own recomputation with 273.15; the public worksheet (tests/published) uses 273. */
Test(viscosity, line_uses_the_absolute_temperature)
{
    struct spt_walther line;
    cr_assert_eq(spt_viscosity_line(100.0, 5.4, 40.0, 32.0, &line), SPT_OK);
    cr_expect(near(line.a, 9.53082, 0.0, 6e-6), "ours: A %.6f", line.a);
    cr_expect(near(line.b, 3.74658, 0.0, 6e-6), "ours: B %.6f", line.b);
}

/* Our own recomputation: grade and index 95 to 100 degC to the line to the other temperatures. */
Test(viscosity, from_grade_and_index)
{
    static const struct {
        double nu40, nu100, nu20, nu50, nu70, nu90;
    } rows[] = {
        {32, 5.290, 87.8, 21.37, 11.03, 6.58},     {46, 6.644, 136.5, 29.78, 14.62, 8.39},
        {68, 8.530, 218.4, 42.63, 19.86, 10.95},   {100, 11.067, 342.7, 60.99, 27.13, 14.43},
        {150, 14.544, 549.8, 88.90, 37.67, 19.27}, {220, 18.749, 861.5, 126.8, 51.24, 25.24},
        {320, 23.952, 1340, 179.3, 69.09, 32.77},  {460, 30.340, 2054, 250.8, 92.25, 42.17},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double nu100, nu20, nu50, nu70, nu90;
        struct spt_walther line;
        cr_assert_eq(spt_viscosity_100_from_index(rows[i].nu40, 95.0, &nu100), SPT_OK);
        cr_assert_eq(spt_viscosity_line(40.0, rows[i].nu40, 100.0, nu100, &line), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, 20.0, &nu20), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, 50.0, &nu50), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, 70.0, &nu70), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, 90.0, &nu90), SPT_OK);
        cr_expect(near(nu100, rows[i].nu100, 0.0, 6e-4), "ours: VG %g: %.5f", rows[i].nu40, nu100);
        cr_expect(near(nu20, rows[i].nu20, 4e-4, 0.0), "ours: VG %g at 20: %.3f", rows[i].nu40,
                  nu20);
        cr_expect(near(nu50, rows[i].nu50, 4e-4, 0.0), "ours: VG %g at 50: %.3f", rows[i].nu40,
                  nu50);
        cr_expect(near(nu70, rows[i].nu70, 4e-4, 0.0), "ours: VG %g at 70: %.3f", rows[i].nu40,
                  nu70);
        cr_expect(near(nu90, rows[i].nu90, 8e-4, 0.0), "ours: VG %g at 90: %.3f", rows[i].nu40,
                  nu90);
    }
}

/* Our own recomputation. */
Test(viscosity, nu100_of_vg_150_over_the_index)
{
    static const double rows[][2] = {{0, 10.090},   {50, 11.763},  {95, 14.544},
                                     {100, 15.022}, {130, 17.690}, {160, 20.583}};
    double nu100;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        cr_assert_eq(spt_viscosity_100_from_index(150.0, rows[i][0], &nu100), SPT_OK);
        cr_expect(near(nu100, rows[i][1], 0.0, 6e-4), "ours: index %g: %.5f", rows[i][0], nu100);
    }
    cr_assert_eq(spt_viscosity_100_from_index(32.0, 102.2, &nu100), SPT_OK);
    cr_expect(near(nu100, 5.4000, 0.0, 6e-4), "ours: VG 32, index 102.2: %.5f", nu100);
}

Test(viscosity, refuses_what_makes_no_line)
{
    static const double rows[][4] = {{40, 32, 40, 32},
                                     {40, 5.4, 100, 32},
                                     {40, 32, 100, 0.309},
                                     {-273.15, 32, 100, 5},
                                     {40, 2.1e7, 100, 5.4},
                                     {(double)NAN, 32, 100, 5.4},
                                     {40, (double)NAN, 100, 5.4},
                                     {40, 32, (double)INFINITY, 5.4}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_walther line = {1.0, 1.0};
        cr_expect_eq(spt_viscosity_line(rows[i][0], rows[i][1], rows[i][2], rows[i][3], &line),
                     SPT_BAD_ARGUMENT, "row %zu", i);
        cr_expect(isnan(line.a) && isnan(line.b), "row %zu", i);
    }
}

Test(viscosity, refuses_temperatures_and_thicknesses_outside_the_line)
{
    struct spt_walther line = {9.53082, 3.74658};
    double nu = 1.0;
    cr_expect_eq(spt_viscosity_at(&line, -273.15, &nu), SPT_BAD_ARGUMENT);
    cr_expect(isnan(nu));
    cr_expect_eq(spt_viscosity_at(&line, 1000.1, &nu), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_at(&line, (double)NAN, &nu), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_at(&line, -150.0, &nu), SPT_NOT_APPLICABLE);
    cr_expect(isnan(nu));
    line.b = -line.b;
    cr_expect_eq(spt_viscosity_at(&line, 40.0, &nu), SPT_BAD_ARGUMENT);
}

Test(viscosity, index_refuses_what_lies_outside_the_procedure)
{
    double v = 1.0, w = 1.0;
    cr_expect_eq(spt_viscosity_index(20.0, 1.99, &v), SPT_BAD_ARGUMENT);
    cr_expect(isnan(v));
    cr_expect_eq(spt_viscosity_index(5.0, 5.0, &v), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_index(9000.0, 501.0, &v), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_index((double)NAN, 5.0, &v), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_index_basis(1.9, &v, &w), SPT_BAD_ARGUMENT);
    cr_expect(isnan(v) && isnan(w));
    cr_expect_eq(spt_viscosity_100_from_index(2.4, 95.0, &v), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_100_from_index(5001.0, 95.0, &v), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_100_from_index(150.0, -51.0, &v), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_100_from_index(150.0, 401.0, &v), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_100_from_index(3.0, 0.0, &v), SPT_NOT_APPLICABLE);
    cr_expect(isnan(v));
}

Test(viscosity, there_is_no_grade_outside_the_list)
{
    cr_expect_null(spt_viscosity_grade(-1));
    cr_expect_null(spt_viscosity_grade(SPT_VISCOSITY_GRADE_COUNT));
}
