/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_NUMBER_EXACT_H
#define FORMAT_NUMBER_EXACT_H

#include <stdint.h>

/* A decimal number: digits (characters '0' to '9', at most SPT_DECIMAL_DIGITS) times 10^exponent.
 */
#define SPT_DECIMAL_DIGITS 800
struct spt_decimal {
    const char *digits;
    int count;
    int exponent; /* -1200 to 400 */
};

/* Compares decimal with significand * 2^power (power -1200 to 1024), without rounding.
 * Result: < 0, 0 or > 0 as the decimal is less, equal or greater. */
int spt_exact_compare(const struct spt_decimal *decimal, uint64_t significand, int power);

#endif
