/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

/* Constants of ISO 281:2007 Annex A from memory, evaluated by us: no published authority for these
 * numbers. Columns: D_pw 60 with kappa 0.5, 1, 2; D_pw 150 with kappa 1, 3; D_pw 800 with kappa 1.
 */
Test(cleanliness, factor_of_all_14_conditions)
{
    static const double at[6][2] = {{60, 0.5}, {60, 1}, {60, 2}, {150, 1}, {150, 3}, {800, 1}};
    static const double want[SPT_CLEANLINESS_COUNT][6] = {
        {0.4385, 0.7025, 0.8553, 0.8934, 0.8934, 0.9390},
        {0.1909, 0.3059, 0.4901, 0.5520, 0.8120, 0.8924},
        {0.0996, 0.1596, 0.2557, 0.3139, 0.6625, 0.8241},
        {0.0517, 0.0828, 0.1327, 0.1904, 0.4020, 0.6386},
        {0.4236, 0.6787, 0.8264, 0.8721, 0.8721, 0.9268},
        {0.1211, 0.1940, 0.3108, 0.3558, 0.7511, 0.8771},
        {0.0452, 0.0725, 0.1161, 0.1435, 0.3029, 0.4309},
        {0.0183, 0.0293, 0.0470, 0.0716, 0.1510, 0.2488},
        {0.0001, 0.0002, 0.0003, 0.0172, 0.0364, 0.0942},
        {0.4236, 0.6787, 0.8264, 0.8721, 0.8721, 0.9268},
        {0.1816, 0.2910, 0.4662, 0.5338, 0.7853, 0.8771},
        {0.0544, 0.0872, 0.1396, 0.1796, 0.3791, 0.5730},
        {0.0218, 0.0350, 0.0560, 0.0903, 0.1906, 0.3241},
        {0.0, 0.0, 0.0, 0.0229, 0.0483, 0.1372},
    };
    for (int i = 0; i < SPT_CLEANLINESS_COUNT; i++)
        for (int k = 0; k < 6; k++) {
            double e_c;
            cr_assert_eq(spt_cleanliness_factor((enum spt_cleanliness)i, at[k][1], at[k][0], &e_c),
                         SPT_OK);
            cr_expect(
                near(e_c, want[i][k], 0.0, 5.1e-5),
                "ISO 281 Annex A from memory: condition %d, D_pw %g, kappa %g: %.6f want %.4f", i,
                at[k][0], at[k][1], e_c, want[i][k]);
        }
}

/* ISO 281:2007 Annex A, from memory. */
Test(cleanliness, slight_contamination_has_another_constant_from_500_mm_on)
{
    cr_expect_eq(spt_cleanliness_constants(SPT_CLEANLINESS_GREASE_SLIGHT, 499.9).b, 1.887);
    cr_expect_eq(spt_cleanliness_constants(SPT_CLEANLINESS_GREASE_SLIGHT, 500.0).b, 1.677);
    cr_expect_eq(spt_cleanliness_constants(SPT_CLEANLINESS_GREASE_SEVERE, 500.0).b, 2.662);
    struct spt_cleanliness_constants none = spt_cleanliness_constants(SPT_CLEANLINESS_COUNT, 60.0);
    cr_expect(isnan(none.b) && isnan(none.c));
}

Test(cleanliness, conditions_stand_in_groups_with_names)
{
    cr_expect_eq(spt_cleanliness_first(SPT_LUBRICATION_CIRCULATING),
                 SPT_CLEANLINESS_CIRCULATING_13_10);
    cr_expect_eq(spt_cleanliness_first(SPT_LUBRICATION_OIL_BATH), SPT_CLEANLINESS_BATH_13_10);
    cr_expect_eq(spt_cleanliness_first(SPT_LUBRICATION_GREASE), SPT_CLEANLINESS_GREASE_HIGH);
    cr_expect_eq(spt_cleanliness_count(SPT_LUBRICATION_CIRCULATING), 4);
    cr_expect_eq(spt_cleanliness_count(SPT_LUBRICATION_OIL_BATH), 5);
    cr_expect_eq(spt_cleanliness_count(SPT_LUBRICATION_GREASE), 5);
    cr_expect_str_eq(spt_cleanliness_name(SPT_CLEANLINESS_CIRCULATING_15_12), "-/15/12");
    cr_expect_str_eq(spt_cleanliness_name(SPT_CLEANLINESS_BATH_21_18), "-/21/18");
    static const char *const names[] = {"high", "normal", "slight", "severe", "very severe"};
    for (int i = 0; i < 5; i++)
        cr_expect_str_eq(
            spt_cleanliness_name((enum spt_cleanliness)(SPT_CLEANLINESS_GREASE_HIGH + i)),
            names[i]);
    cr_expect_str_eq(spt_cleanliness_name(SPT_CLEANLINESS_COUNT), "unknown");
    cr_expect_eq(spt_cleanliness_kind(SPT_CLEANLINESS_BATH_17_14), SPT_LUBRICATION_OIL_BATH);
}

Test(cleanliness, refuses_what_is_not_positive)
{
    static const double bad[] = {0.0, -2.385, (double)NAN, (double)INFINITY};
    double e_c;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        e_c = 1.0;
        cr_expect_eq(spt_cleanliness_factor(SPT_CLEANLINESS_GREASE_NORMAL, bad[i], 60.0, &e_c),
                     SPT_BAD_ARGUMENT);
        cr_expect(isnan(e_c));
        cr_expect_eq(spt_cleanliness_factor(SPT_CLEANLINESS_GREASE_NORMAL, 1.5, bad[i], &e_c),
                     SPT_BAD_ARGUMENT);
    }
    cr_expect_eq(spt_cleanliness_factor(SPT_CLEANLINESS_COUNT, 1.5, 60.0, &e_c), SPT_BAD_ARGUMENT);
}

static enum spt_status parse(const char *text, struct spt_iso4406 *code)
{
    return spt_iso4406_parse(text, (unsigned)strlen(text), code);
}

Test(cleanliness, code_is_read_in_its_three_forms)
{
    static const struct {
        const char *text;
        int over_4, over_6, over_14;
    } rows[] = {{"-/15/12", -1, 15, 12},
                {"18/15/12", 18, 15, 12},
                {"15/12", -1, 15, 12},
                {"  9/7/0 ", 9, 7, 0},
                {"28/28/28", 28, 28, 28}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_iso4406 code;
        cr_expect_eq(parse(rows[i].text, &code), SPT_OK, "'%s'", rows[i].text);
        cr_expect(code.over_4 == rows[i].over_4 && code.over_6 == rows[i].over_6 &&
                      code.over_14 == rows[i].over_14,
                  "'%s' read as %d/%d/%d", rows[i].text, code.over_4, code.over_6, code.over_14);
    }
    struct spt_iso4406 part;
    cr_expect_eq(spt_iso4406_parse("15/129", 5, &part), SPT_OK);
    cr_expect_eq(part.over_14, 12);
}

Test(cleanliness, text_that_is_no_code_is_refused)
{
    static const char *const rows[] = {
        "",       " ",      "/",        "15",     "15/",      "/15/12",   "15/12/",  "15/12x",
        "12/15",  "-/-/12", "-/15/-",   "-/12",   "29/15/12", "18/29/12", "1/2/3/4", "9/8/7/6",
        "15 /12", "015/12", "12/15/12", "normal", "--/15/12", "+15/12",   "15.0/12", "*/15/12"};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_iso4406 code;
        cr_expect_eq(parse(rows[i], &code), SPT_BAD_ARGUMENT, "'%s'", rows[i]);
        cr_expect(code.over_4 == -1 && code.over_6 == -1 && code.over_14 == -1, "'%s'", rows[i]);
    }
    struct spt_iso4406 code;
    cr_expect_eq(spt_iso4406_parse(NULL, 0, &code), SPT_BAD_ARGUMENT);
}

/* Lists of equivalent codes: ISO 281:2007 Annex A, from memory; the rounding is ours. */
Test(cleanliness, code_finds_its_condition)
{
    static const struct {
        enum spt_lubrication kind;
        const char *code;
        enum spt_cleanliness want;
        bool rounded;
    } rows[] = {
        {SPT_LUBRICATION_CIRCULATING, "-/13/10", SPT_CLEANLINESS_CIRCULATING_13_10, false},
        {SPT_LUBRICATION_CIRCULATING, "-/12/10", SPT_CLEANLINESS_CIRCULATING_13_10, false},
        {SPT_LUBRICATION_CIRCULATING, "-/11/9", SPT_CLEANLINESS_CIRCULATING_13_10, false},
        {SPT_LUBRICATION_CIRCULATING, "-/12/9", SPT_CLEANLINESS_CIRCULATING_13_10, false},
        {SPT_LUBRICATION_CIRCULATING, "-/9/7", SPT_CLEANLINESS_CIRCULATING_13_10, true},
        {SPT_LUBRICATION_CIRCULATING, "17/15/12", SPT_CLEANLINESS_CIRCULATING_15_12, false},
        {SPT_LUBRICATION_CIRCULATING, "-/14/12", SPT_CLEANLINESS_CIRCULATING_15_12, false},
        {SPT_LUBRICATION_CIRCULATING, "-/16/12", SPT_CLEANLINESS_CIRCULATING_15_12, false},
        {SPT_LUBRICATION_CIRCULATING, "-/16/13", SPT_CLEANLINESS_CIRCULATING_15_12, false},
        {SPT_LUBRICATION_CIRCULATING, "-/14/10", SPT_CLEANLINESS_CIRCULATING_15_12, true},
        {SPT_LUBRICATION_CIRCULATING, "-/15/13", SPT_CLEANLINESS_CIRCULATING_15_12, true},
        {SPT_LUBRICATION_CIRCULATING, "-/17/14", SPT_CLEANLINESS_CIRCULATING_17_14, false},
        {SPT_LUBRICATION_CIRCULATING, "-/18/14", SPT_CLEANLINESS_CIRCULATING_17_14, false},
        {SPT_LUBRICATION_CIRCULATING, "-/18/15", SPT_CLEANLINESS_CIRCULATING_17_14, false},
        {SPT_LUBRICATION_CIRCULATING, "-/19/15", SPT_CLEANLINESS_CIRCULATING_17_14, false},
        {SPT_LUBRICATION_CIRCULATING, "-/19/16", SPT_CLEANLINESS_CIRCULATING_19_16, false},
        {SPT_LUBRICATION_CIRCULATING, "-/20/17", SPT_CLEANLINESS_CIRCULATING_19_16, false},
        {SPT_LUBRICATION_CIRCULATING, "-/21/18", SPT_CLEANLINESS_CIRCULATING_19_16, false},
        {SPT_LUBRICATION_CIRCULATING, "-/22/18", SPT_CLEANLINESS_CIRCULATING_19_16, false},
        {SPT_LUBRICATION_OIL_BATH, "-/13/10", SPT_CLEANLINESS_BATH_13_10, false},
        {SPT_LUBRICATION_OIL_BATH, "-/15/12", SPT_CLEANLINESS_BATH_15_12, false},
        {SPT_LUBRICATION_OIL_BATH, "-/17/14", SPT_CLEANLINESS_BATH_17_14, false},
        {SPT_LUBRICATION_OIL_BATH, "-/19/16", SPT_CLEANLINESS_BATH_19_16, false},
        {SPT_LUBRICATION_OIL_BATH, "-/11/9", SPT_CLEANLINESS_BATH_13_10, false},
        {SPT_LUBRICATION_OIL_BATH, "-/12/10", SPT_CLEANLINESS_BATH_13_10, false},
        {SPT_LUBRICATION_OIL_BATH, "15/12/9", SPT_CLEANLINESS_BATH_13_10, false},
        {SPT_LUBRICATION_OIL_BATH, "-/11/8", SPT_CLEANLINESS_BATH_13_10, true},
        {SPT_LUBRICATION_OIL_BATH, "-/14/12", SPT_CLEANLINESS_BATH_15_12, false},
        {SPT_LUBRICATION_OIL_BATH, "-/16/12", SPT_CLEANLINESS_BATH_15_12, false},
        {SPT_LUBRICATION_OIL_BATH, "18/16/13", SPT_CLEANLINESS_BATH_15_12, false},
        {SPT_LUBRICATION_OIL_BATH, "-/17/13", SPT_CLEANLINESS_BATH_17_14, true},
        {SPT_LUBRICATION_OIL_BATH, "-/18/14", SPT_CLEANLINESS_BATH_17_14, false},
        {SPT_LUBRICATION_OIL_BATH, "-/18/15", SPT_CLEANLINESS_BATH_17_14, false},
        {SPT_LUBRICATION_OIL_BATH, "-/19/15", SPT_CLEANLINESS_BATH_17_14, false},
        {SPT_LUBRICATION_OIL_BATH, "-/18/16", SPT_CLEANLINESS_BATH_19_16, false},
        {SPT_LUBRICATION_OIL_BATH, "-/20/16", SPT_CLEANLINESS_BATH_19_16, true},
        {SPT_LUBRICATION_OIL_BATH, "-/20/17", SPT_CLEANLINESS_BATH_19_16, false},
        {SPT_LUBRICATION_OIL_BATH, "-/21/17", SPT_CLEANLINESS_BATH_19_16, false},
        {SPT_LUBRICATION_OIL_BATH, "-/22/17", SPT_CLEANLINESS_BATH_21_18, true},
        {SPT_LUBRICATION_OIL_BATH, "24/21/18", SPT_CLEANLINESS_BATH_21_18, false},
        {SPT_LUBRICATION_OIL_BATH, "-/21/19", SPT_CLEANLINESS_BATH_21_18, false},
        {SPT_LUBRICATION_OIL_BATH, "-/22/19", SPT_CLEANLINESS_BATH_21_18, false},
        {SPT_LUBRICATION_OIL_BATH, "-/23/19", SPT_CLEANLINESS_BATH_21_18, false},
        {SPT_LUBRICATION_OIL_BATH, "-/22/18", SPT_CLEANLINESS_BATH_21_18, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_iso4406 code;
        enum spt_cleanliness got;
        bool rounded;
        cr_assert_eq(parse(rows[i].code, &code), SPT_OK);
        cr_expect_eq(spt_cleanliness_from_code(rows[i].kind, &code, &got, &rounded), SPT_OK);
        cr_expect(got == rows[i].want && rounded == rows[i].rounded, "%s: condition %d rounded %d",
                  rows[i].code, (int)got, (int)rounded);
    }
}

Test(cleanliness, code_without_a_condition_is_refused)
{
    enum spt_cleanliness got;
    bool rounded;
    struct spt_iso4406 code = {-1, 23, 18};
    cr_expect_eq(spt_cleanliness_from_code(SPT_LUBRICATION_CIRCULATING, &code, &got, &rounded),
                 SPT_NOT_APPLICABLE);
    cr_expect_eq(got, SPT_CLEANLINESS_COUNT);
    code = (struct spt_iso4406){-1, 23, 20};
    cr_expect_eq(spt_cleanliness_from_code(SPT_LUBRICATION_OIL_BATH, &code, &got, &rounded),
                 SPT_NOT_APPLICABLE);
    code = (struct spt_iso4406){-1, 13, 10};
    cr_expect_eq(spt_cleanliness_from_code(SPT_LUBRICATION_GREASE, &code, &got, &rounded),
                 SPT_NOT_APPLICABLE);
    code = (struct spt_iso4406){-1, -1, 10};
    cr_expect_eq(spt_cleanliness_from_code(SPT_LUBRICATION_OIL_BATH, &code, &got, &rounded),
                 SPT_BAD_ARGUMENT);
    code = (struct spt_iso4406){-1, 10, 13};
    cr_expect_eq(spt_cleanliness_from_code(SPT_LUBRICATION_OIL_BATH, &code, &got, &rounded),
                 SPT_BAD_ARGUMENT);
}
