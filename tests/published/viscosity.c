/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/published.h"

Test(viscosity_published, line_and_value_of_a_public_worksheet)
{
    static const char source[] =
        "Public ASTM D341 worksheet, 32 mm2/s at 40 degC, 5.4 at 100: A 9.5259, B 3.7449, 8.5 "
        "at 80. It adds 273 where we add 273.15, so A and B differ in the third decimal.";
    struct spt_walther line;
    double nu;
    cr_assert_eq(spt_viscosity_line(40.0, 32.0, 100.0, 5.4, &line), SPT_OK);
    cr_expect(agrees(source, "A", 9.5259, line.a, 0.006));
    cr_expect(agrees(source, "B", 3.7449, line.b, 0.002));
    cr_assert_eq(spt_viscosity_at(&line, 80.0, &nu), SPT_OK);
    cr_expect(agrees(source, "nu(80)", 8.5, nu, 0.05));
}

Test(viscosity_published, index_basis_meets_astm_d2270_table_1)
{
    static const char source[] = "ASTM D2270 table 1";
    static const struct {
        double nu100, l, h;
    } rows[] = {
        {2.0, 7.994, 6.394},   {3.0, 15.49, 12.15},    {4.0, 25.32, 19.56},
        {5.0, 40.23, 28.49},   {7.0, 78.0, 48.57},     {10.0, 147.7, 82.87},
        {14.0, 263.3, 135.4},  {20.0, 493.2, 229.5},   {30.0, 1023.0, 421.7},
        {45.0, 2152.0, 780.9}, {60.0, 3676.0, 1222.0}, {70.0, 4905.0, 1558.0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double l, h;
        cr_assert_eq(spt_viscosity_index_basis(rows[i].nu100, &l, &h), SPT_OK);
        /* 0.11 %: what the quadratics of appendix X2 differ from table 1 */
        cr_expect(agrees_within(source, named("L, Y %g", rows[i].nu100), rows[i].l, l, 0.0011));
        cr_expect(agrees_within(source, named("H, Y %g", rows[i].nu100), rows[i].h, h, 0.0011));
    }
}

Test(viscosity_published, index_above_70_meets_the_formula_of_astm_d2270)
{
    static const char source[] =
        "ASTM D2270 clause 5: L = 0.8353 Y^2 + 14.67 Y - 216, H = 0.1684 Y^2 + 11.85 Y - 97";
    double l, h;
    cr_assert_eq(spt_viscosity_index_basis(85.0, &l, &h), SPT_OK);
    cr_expect(agrees_within(source, "L", 0.8353 * 85.0 * 85.0 + 14.67 * 85.0 - 216.0, l, 2e-4));
    cr_expect(agrees_within(source, "H", 0.1684 * 85.0 * 85.0 + 11.85 * 85.0 - 97.0, h, 2e-4));
}

Test(viscosity_published, quadratics_meet_the_example_of_astm_d2270_x2_5)
{
    static const char source[] = "ASTM D2270 X2.5";
    double l, h;
    cr_assert_eq(spt_viscosity_index_basis(8.860, &l, &h), SPT_OK);
    cr_expect(agrees(source, "L", 119.9588, l, 0.00006));
    cr_expect(agrees(source, "H", 69.4765, h, 0.00006));
}

Test(viscosity_published, index_meets_worked_examples_of_astm_d2270)
{
    static const struct {
        double nu40, nu100, index, tolerance;
        const char *source;
    } rows[] = {
        {73.30, 8.86, 92.43, 0.006, "ASTM D2270 clause 5"},
        {22.83, 5.05, 156.37, 0.25, "ASTM D2270 clause 6; table instead of quadratics"},
        {53.47, 7.80, 111.0, 0.5, "ASTM D2270 clause 6, rounded to a whole number"},
        {73.50, 8.860, 92.0, 0.5, "ASTM D2270 X2.5, rounded to a whole number"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double index;
        cr_assert_eq(spt_viscosity_index(rows[i].nu40, rows[i].nu100, &index), SPT_OK);
        cr_expect(agrees(rows[i].source,
                         named("index of %g and %g mm2/s", rows[i].nu40, rows[i].nu100),
                         rows[i].index, index, rows[i].tolerance));
    }
}

Test(viscosity_published, grades_are_those_of_iso_3448)
{
    static const char source[] =
        "ISO 3448:1992, twenty grades; limits +-10 %: VG 46 41.4 to 50.6, VG 7 6.12 to 7.48, "
        "VG 2 1.98 to 2.42, VG 320 288 to 352.";
    static const struct spt_viscosity_grade rows[SPT_VISCOSITY_GRADE_COUNT] = {
        {2, 2.2},   {3, 3.2},   {5, 4.6},     {7, 6.8},     {10, 10},     {15, 15},    {22, 22},
        {32, 32},   {46, 46},   {68, 68},     {100, 100},   {150, 150},   {220, 220},  {320, 320},
        {460, 460}, {680, 680}, {1000, 1000}, {1500, 1500}, {2200, 2200}, {3200, 3200}};
    for (int i = 0; i < SPT_VISCOSITY_GRADE_COUNT; i++) {
        const struct spt_viscosity_grade *grade = spt_viscosity_grade(i);
        cr_assert_not_null(grade);
        cr_expect(agrees(source, named("number of grade %d", i), rows[i].number, grade->number, 0));
        cr_expect(agrees_within(source, named("nu40_mm2_s, VG %d", grade->number),
                                rows[i].nu40_mm2_s, grade->nu40_mm2_s, 1e-12));
    }
    cr_expect(agrees(source, "lower limit of VG 7", 6.12, 0.9 * spt_viscosity_grade(3)->nu40_mm2_s,
                     0.005));
    cr_expect(agrees(source, "upper limit of VG 2", 2.42, 1.1 * spt_viscosity_grade(0)->nu40_mm2_s,
                     0.005));
}
