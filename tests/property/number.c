/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/number/number.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/left_out.h"
#include "support/near.h"

static double random_bits(unsigned long long *seed)
{
    double value = random_between(seed, 0.0, 1.0);
    unsigned long long bits = 0;
    memcpy(&bits, &value, sizeof bits);
    /* two draws: the low bits of a uniform number are not random enough alone */
    bits = (*seed * 0xd1342543de82ef95ULL) ^ (bits << 20) ^ (bits >> 31);
    memcpy(&value, &bits, sizeof value);
    return value;
}

static int written_otherwise(double value)
{
    char got[SPT_NUMBER_SIZE + 1];
    char want[32];
    if (isnan(value))
        return 0;
    *spt_number_write(got, value) = '\0';
    snprintf(want, sizeof want, "%.6g", value);
    if (strcmp(got, want) == 0)
        return 0;
    cr_expect_str_eq(got, want, "%a: %s for %s", value, got, want);
    return 1;
}

/* printf of the C library, in the C locale, is the reference. */
Test(number_property, millions_of_doubles_are_written_as_printf_does)
{
    unsigned long long seed = 99;
    int wrong = 0;
    for (int i = 0; i < 1000000 && wrong < 5; i++) {
        wrong += written_otherwise(random_bits(&seed));
        wrong += written_otherwise(exp(random_between(&seed, -12.0, 16.0)));
    }
    cr_expect_eq(wrong, 0);
}

Test(number_property, ties_and_their_neighbours_are_written_as_printf_does)
{
    unsigned long long seed = 7;
    int wrong = 0;
    for (int i = 0; i < 100000 && wrong < 5; i++) {
        /* seven digits, the last a 5, at every power of ten: exact ties where 10^k is exact */
        double digits = floor(random_between(&seed, 1e5, 1e6)) * 10.0 + 5.0;
        double tie = digits * pow(10.0, floor(random_between(&seed, -320.0, 300.0)));
        double near_tie = digits / pow(10.0, floor(random_between(&seed, 0.0, 20.0)));
        double binary = digits * ldexp(1.0, (int)random_between(&seed, -10.0, 40.0));
        wrong += written_otherwise(digits) + written_otherwise(tie) + written_otherwise(binary);
        wrong += written_otherwise(near_tie);
        wrong += written_otherwise(nextafter(near_tie, 0.0));
        wrong += written_otherwise(nextafter(near_tie, (double)INFINITY));
    }
    cr_expect_eq(wrong, 0);
}

static int read_otherwise(const char *text)
{
    double got;
    double want = strtod(text, NULL);
    const char *end = text + strlen(text);
    if (spt_number_read(text, end, &got) == end && memcmp(&got, &want, sizeof got) == 0)
        return 0;
    cr_expect(false, "%s: %a for %a", text, got, want);
    return 1;
}

/* strtod of the C library is the reference, bit for bit. */
Test(number_property, numbers_of_any_length_are_read_as_strtod_does)
{
    static const int digits[] = {1, 6, 12, 15, 16, 17, 18, 19, 20, 25, 40};
    unsigned long long seed = 5;
    char text[512];
    int wrong = 0;
    for (int i = 0; i < 40000 && wrong < 5; i++)
        for (size_t k = 0; k < sizeof digits / sizeof digits[0]; k++) {
            double value = random_bits(&seed);
            double plain = exp(random_between(&seed, -25.0, 30.0));
            if (isfinite(value) && i % 8 == 0) {
                snprintf(text, sizeof text, "%.*e", digits[k] - 1, value);
                wrong += read_otherwise(text);
            }
            snprintf(text, sizeof text, "%.*g", digits[k], plain);
            wrong += read_otherwise(text);
        }
    cr_expect_eq(wrong, 0);
}

/* The middle between neighbours, written out in full, and one unit of its last digit beside it. */
Test(number_property, middles_between_doubles_are_read_as_strtod_does)
{
    unsigned long long seed = 17;
    static char text[1200];
    int wrong = 0;
    for (int i = 0; i < 1500 && wrong < 5; i++) {
        double value = exp(random_between(&seed, -30.0, 36.0));
        long double middle =
            (long double)value + (long double)(nextafter(value, 1e300) - value) / 2.0L;
        if (sizeof(long double) == sizeof(double))
            leave_out("long double holds no middle here");
        snprintf(text, sizeof text, "%.120Lg", middle);
        wrong += read_otherwise(text);
        size_t last = strlen(text) - 1;
        if (strchr(text, 'e'))
            continue;
        text[last] = (char)(text[last] > '0' ? text[last] - 1 : '1');
        wrong += read_otherwise(text);
        text[last] = '9';
        wrong += read_otherwise(text);
    }
    cr_expect_eq(wrong, 0);
}

Test(number_property, what_is_written_is_read_back_to_the_same_text)
{
    unsigned long long seed = 3;
    char first[SPT_NUMBER_SIZE + 1];
    char again[SPT_NUMBER_SIZE + 1];
    for (int i = 0; i < 200000; i++) {
        double value = random_bits(&seed);
        if (!isfinite(value))
            continue;
        char *end = spt_number_write(first, value);
        *end = '\0';
        cr_assert_eq(spt_number_read(first, end, &value), end, "%s", first);
        *spt_number_write(again, value) = '\0';
        cr_assert_str_eq(again, first);
    }
}
