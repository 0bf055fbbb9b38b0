/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/number/number.h"

#include <criterion/criterion.h>
#include <float.h>
#include <locale.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/left_out.h"

static void expect_text(double value, const char *want)
{
    char text[SPT_NUMBER_SIZE + 1];
    *spt_number_write(text, value) = '\0';
    cr_expect_str_eq(text, want, "%a: %s for %s", value, text, want);
}

static void expect_as_printf(double value)
{
    char want[32];
    snprintf(want, sizeof want, "%.6g", value);
    expect_text(value, want);
}

Test(number, special_values_are_written)
{
    expect_text(0.0, "0");
    expect_text(-0.0, "-0");
    expect_text((double)INFINITY, "inf");
    expect_text(-(double)INFINITY, "-inf");
    expect_text((double)NAN, "nan");
    expect_text(-(double)NAN, "nan");
}

Test(number, exact_ties_go_to_even)
{
    expect_text(123456.5, "123456");
    expect_text(123457.5, "123458");
    expect_text(1234565.0, "1.23456e+06");
    expect_text(1234575.0, "1.23458e+06");
    expect_text(999999.5, "1e+06");
    expect_text(0.5 + 0x1p-20, "0.500001"); /* 0.50000095367431640625 */
    expect_text(100000.5, "100000");
    expect_text(1.0000005e22, "1e+22"); /* the double lies below the tie */
}

/* All of it is checked against printf itself: tests run in the C locale. */
Test(number, edges_of_the_formats_are_written_as_printf_does)
{
    const double values[] = {1e-4,
                             9.99999e-5,
                             9.999995e-5,
                             99999.95,
                             999999.0,
                             999999.4999,
                             1e6,
                             100000.0,
                             10.0,
                             1.0,
                             0.1,
                             0.2,
                             0.3,
                             1.0 / 3.0,
                             2.0 / 3.0,
                             DBL_MAX,
                             DBL_MIN,
                             DBL_TRUE_MIN,
                             DBL_MIN - DBL_TRUE_MIN,
                             DBL_EPSILON,
                             2.385};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        expect_as_printf(values[i]);
        expect_as_printf(-values[i]);
        expect_as_printf(nextafter(values[i], 0.0));
        expect_as_printf(nextafter(values[i], (double)INFINITY));
    }
    for (int e = -330; e <= 308; e++) {
        char text[16];
        snprintf(text, sizeof text, "1e%d", e);
        double power = strtod(text, NULL);
        expect_as_printf(power);
        expect_as_printf(nextafter(power, 0.0));
        expect_as_printf(nextafter(power, (double)INFINITY));
    }
    for (int e = -1074; e <= 1023; e++)
        expect_as_printf(ldexp(1.0, e));
}

static void expect_read(const char *text, size_t used)
{
    double got;
    char *stop;
    double want = strtod(text, &stop);
    const char *after = spt_number_read(text, text + strlen(text), &got);
    cr_expect_eq(after, text + used, "%s: stops at %td for %zu", text,
                 after ? after - text : (ptrdiff_t)-1, used);
    cr_expect_eq((size_t)(stop - text), used, "%s: strtod stops at %td", text, stop - text);
    cr_expect(memcmp(&got, &want, sizeof got) == 0, "%s: %a for %a", text, got, want);
}

Test(number, plain_numbers_are_read_as_strtod_does)
{
    static const char *const texts[] = {
        "0",
        "-0",
        "+0",
        "0.0e99999999999999999999",
        "1",
        "-12.5",
        "2.385",
        "1e22",
        "1e23",
        "9007199254740993",
        "9007199254740992.9999999",
        "123456789012345678",
        "0.12345678901234567",
        "1.7976931348623157e308",
        "1.7976931348623158e308",
        "1.7976931348623159e308",
        "1e309",
        "-1e400",
        "1e99999999999999999999",
        "1e-99999999999999999999",
        "2.2250738585072011e-308",
        "2.2250738585072014e-308",
        "4.9406564584124654e-324",
        "2.4703282292062327e-324",
        "2.4703282292062328e-324",
        "2.47032822920623272088e-324",
        "1e-400",
        ".5",
        "5.",
        "5.e1",
        "00000000000000000000000000012.5",
        "0.00000000000000000000000000000000000000000000001",
        "100000000000000000000000000000000000000000000000",
        "179769313486231580793728971405303415079934132710037826936173778980444968292764750946649017"
        "977"
        "587207096330286416692887910946555547851940402630657488671505820681908902000708383676273854"
        "8458"
        "177115317644757302700698555713669596228429148198608349364752927190741684443655107043427115"
        "5969"
        "9508093042880177904174497791",
    };
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++)
        expect_read(texts[i], strlen(texts[i]));
}

Test(number, what_follows_a_number_is_left)
{
    expect_read("1,2", 1);
    expect_read("1.5.2", 3);
    expect_read("1e", 1);
    expect_read("1e+", 1);
    expect_read("1.e-x", 2);
    expect_read("7-3", 1);
    double value;
    const char *text = "12345";
    cr_expect_eq(spt_number_read(text, text + 3, &value), text + 3, "the end is kept");
    cr_expect_eq(value, 123.0);
    text = "0x1p3"; /* strtod reads it as hexadecimal */
    cr_expect_eq(spt_number_read(text, text + 5, &value), text + 1);
    cr_expect_eq(value, 0.0);
}

Test(number, what_is_no_number_is_refused)
{
    static const char *const texts[] = {"",    " 1",  "-",   "+",   ".",   "-.",  "e5", ".e5",
                                        "nan", "inf", "--1", "+-1", "\t1", "\n1", ",1", "- 1"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        double value = 2.385;
        cr_expect_null(spt_number_read(texts[i], texts[i] + strlen(texts[i]), &value), "%s",
                       texts[i]);
        cr_expect(isnan(value), "%s", texts[i]);
    }
}

/* Digits up to the middle between two doubles, then far behind it one more. */
Test(number, a_tie_is_broken_by_the_thousandth_digit)
{
    static char text[2000];
    for (int k = 0; k < 3; k++) {
        /* 1 + 2^-53, the middle between 1 and the next double */
        snprintf(text, sizeof text, "%.53f", 1.0 + 0x1p-52);
        memcpy(text, "1.00000000000000011102230246251565404236316680908203125", 55);
        memset(text + 55, '0', 1200);
        text[55 + 400 * (k + 1) - 1] = k == 2 ? '0' : '1';
        text[55 + 1200] = '\0';
        expect_read(text, 55 + 1200);
    }
}

/* A locale with a decimal comma, made on the spot where the machine can; else whatever is set. */
Test(number, the_locale_changes_nothing)
{
    static const char *const names[] = {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "de_DE"};
    double value;
    size_t i = 0;
    if (system("[ -d build/locale/de_DE.UTF-8 ] || { mkdir -p build/locale && "
               "localedef -i de_DE -f UTF-8 build/locale/de_DE.UTF-8; } >/dev/null 2>&1") == 0)
        setenv("LOCPATH", "build/locale", 1);
    while (i < 4 && !setlocale(LC_ALL, names[i]))
        i++;
    if (i == 4)
        leave_out(
            "no locale with a decimal comma can be made here (Debian: apt-get install locales)");
    char comma[16];
    snprintf(comma, sizeof comma, "%g", 2.5);
    cr_expect_str_eq(comma, "2,5", "the locale has a decimal comma");
    expect_text(2.5, "2.5");
    expect_text(123456.5, "123456");
    expect_text(1.5e300, "1.5e+300");
    static const char plain[] = "2.385e2";
    spt_number_read(plain, plain + sizeof plain - 1, &value);
    cr_expect_eq(value, 238.5);
    static const char hard[] = "9007199254740993.00000000000000000000000000001";
    cr_expect_eq(spt_number_read(hard, hard + sizeof hard - 1, &value), hard + sizeof hard - 1);
    cr_expect_eq(value, 9007199254740994.0);
}
