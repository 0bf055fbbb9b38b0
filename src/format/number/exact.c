/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/number/exact.h"

/* 800 digits are 2658 bits; 10^1200 needs 2787 bits for 5^1200, plus at most 1200 bits for 2^1200
 * and 64 bits. */
#define LIMBS 200

/* A natural number, least significant limb first; `count` limbs are used. */
struct natural {
    int count;
    uint32_t limbs[LIMBS];
};

static void multiply_add(struct natural *n, uint32_t factor, uint32_t term)
{
    uint64_t carry = term;
    for (int i = 0; i < n->count; i++) {
        carry += (uint64_t)n->limbs[i] * factor;
        n->limbs[i] = (uint32_t)carry;
        carry >>= 32;
    }
    if (carry)
        n->limbs[n->count++] = (uint32_t)carry;
}

static void multiply_by_power_of_5(struct natural *n, int exponent)
{
    const uint32_t fifth[] = {1, 5, 25, 125, 625, 3125, 15625, 78125};
    for (; exponent >= 8; exponent -= 8)
        multiply_add(n, 390625, 0);
    multiply_add(n, fifth[exponent], 0);
}

static void shift_left(struct natural *n, int bits)
{
    int whole = bits / 32;
    if (n->count == 0)
        return;
    multiply_add(n, (uint32_t)1 << (bits % 32), 0);
    for (int i = n->count - 1; i >= 0; i--)
        n->limbs[i + whole] = n->limbs[i];
    for (int i = 0; i < whole; i++)
        n->limbs[i] = 0;
    n->count += whole;
}

static int compare(const struct natural *a, const struct natural *b)
{
    if (a->count != b->count)
        return a->count < b->count ? -1 : 1;
    for (int i = a->count - 1; i >= 0; i--)
        if (a->limbs[i] != b->limbs[i])
            return a->limbs[i] < b->limbs[i] ? -1 : 1;
    return 0;
}

int spt_exact_compare(const struct spt_decimal *decimal, uint64_t significand, int power)
{
    struct natural left = {0, {0}};
    struct natural right = {0, {0}};
    for (int i = 0; i < decimal->count; i++)
        multiply_add(&left, 10, (uint32_t)(decimal->digits[i] - '0'));
    right.limbs[0] = (uint32_t)significand;
    right.limbs[1] = (uint32_t)(significand >> 32);
    right.count = right.limbs[1] ? 2 : right.limbs[0] ? 1 : 0;
    if (decimal->exponent >= 0)
        multiply_by_power_of_5(&left, decimal->exponent);
    else
        multiply_by_power_of_5(&right, -decimal->exponent);
    int twos = decimal->exponent - power;
    if (twos >= 0)
        shift_left(&left, twos);
    else
        shift_left(&right, -twos);
    return compare(&left, &right);
}
