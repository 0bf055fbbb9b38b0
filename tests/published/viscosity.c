/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/viscosity.h"
#include "support/near.h"

Test(viscosity_published, line_and_value_of_a_public_worksheet)
{
    /* Public ASTM D341 worksheet, 32 mm2/s at 40 degC, 5.4 at 100: A 9.5259, B 3.7449, 8.5 at 80.
     * It adds 273 where we add 273.15, so A and B differ in the third decimal. */
    struct spt_walther line;
    double nu;
    cr_assert_eq(spt_viscosity_line(40.0, 32.0, 100.0, 5.4, &line), SPT_OK);
    cr_expect(near(line.a, 9.5259, 0.0, 0.006), "A %.5f", line.a);
    cr_expect(near(line.b, 3.7449, 0.0, 0.002), "B %.5f", line.b);
    cr_assert_eq(spt_viscosity_at(&line, 80.0, &nu), SPT_OK);
    cr_expect(near(nu, 8.5, 0.0, 0.05), "nu(80) %.4f", nu);
}

Test(viscosity_published, index_basis_meets_astm_d2270_table_1)
{
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
        cr_expect(near(l, rows[i].l, 0.0011, 0.0), "ASTM D2270 table 1, Y %g: L %.5g want %g",
                  rows[i].nu100, l, rows[i].l);
        cr_expect(near(h, rows[i].h, 0.0011, 0.0), "ASTM D2270 table 1, Y %g: H %.5g want %g",
                  rows[i].nu100, h, rows[i].h);
    }
}

Test(viscosity_published, index_above_70_meets_the_formula_of_astm_d2270)
{
    /* ASTM D2270 clause 5: L = 0.8353 Y^2 + 14.67 Y - 216, H = 0.1684 Y^2 + 11.85 Y - 97 */
    double l, h;
    cr_assert_eq(spt_viscosity_index_basis(85.0, &l, &h), SPT_OK);
    cr_expect(near(l, 0.8353 * 85.0 * 85.0 + 14.67 * 85.0 - 216.0, 2e-4, 0.0), "L %.4f", l);
    cr_expect(near(h, 0.1684 * 85.0 * 85.0 + 11.85 * 85.0 - 97.0, 2e-4, 0.0), "H %.4f", h);
}

Test(viscosity_published, quadratics_meet_the_example_of_astm_d2270_x2_5)
{
    double l, h;
    cr_assert_eq(spt_viscosity_index_basis(8.860, &l, &h), SPT_OK);
    cr_expect(near(l, 119.9588, 0.0, 0.00006), "L %.5f", l);
    cr_expect(near(h, 69.4765, 0.0, 0.00006), "H %.5f", h);
}

Test(viscosity_published, index_meets_worked_examples_of_astm_d2270)
{
    static const struct {
        double nu40, nu100, index, tolerance;
        const char *source;
    } rows[] = {
        {73.30, 8.86, 92.43, 0.006, "clause 5"},
        {22.83, 5.05, 156.37, 0.25, "clause 6; table instead of quadratics"},
        {53.47, 7.80, 111.0, 0.5, "clause 6, rounded to a whole number"},
        {73.50, 8.860, 92.0, 0.5, "X2.5, rounded to a whole number"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double index;
        cr_assert_eq(spt_viscosity_index(rows[i].nu40, rows[i].nu100, &index), SPT_OK);
        cr_expect(near(index, rows[i].index, 0.0, rows[i].tolerance),
                  "ASTM D2270 %s: %g, %g gives %.3f want %g", rows[i].source, rows[i].nu40,
                  rows[i].nu100, index, rows[i].index);
    }
}

Test(viscosity_published, grades_are_those_of_iso_3448)
{
    /* ISO 3448:1992, twenty grades; limits +-10 %: VG 46 41.4 to 50.6, VG 7 6.12 to 7.48, VG 2 1.98
     * to 2.42, VG 320 288 to 352. */
    static const struct spt_viscosity_grade rows[SPT_VISCOSITY_GRADE_COUNT] = {
        {2, 2.2},   {3, 3.2},   {5, 4.6},     {7, 6.8},     {10, 10},     {15, 15},    {22, 22},
        {32, 32},   {46, 46},   {68, 68},     {100, 100},   {150, 150},   {220, 220},  {320, 320},
        {460, 460}, {680, 680}, {1000, 1000}, {1500, 1500}, {2200, 2200}, {3200, 3200}};
    for (int i = 0; i < SPT_VISCOSITY_GRADE_COUNT; i++) {
        const struct spt_viscosity_grade *grade = spt_viscosity_grade(i);
        cr_assert_not_null(grade);
        cr_expect_eq(grade->number, rows[i].number, "grade %d is VG %d", i, grade->number);
        cr_expect(near(grade->nu40_mm2_s, rows[i].nu40_mm2_s, 1e-12, 0.0), "VG %d", grade->number);
    }
    cr_expect(near(0.9 * spt_viscosity_grade(3)->nu40_mm2_s, 6.12, 0.0, 0.005));
    cr_expect(near(1.1 * spt_viscosity_grade(0)->nu40_mm2_s, 2.42, 0.0, 0.005));
}
