/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/checksum.h"

#include <criterion/criterion.h>
#include <string.h>

#define LENGTH 203

static void fill(unsigned char *bytes)
{
    for (int i = 0; i < LENGTH; i++)
        bytes[i] = (unsigned char)(i * 37 + 11);
}

static uint64_t sum_in_pieces(const unsigned char *bytes, size_t length, size_t piece)
{
    struct spt_checksum sum;
    spt_checksum_begin(&sum);
    spt_checksum_add(&sum, NULL, 0);
    for (size_t at = 0; at < length; at += piece)
        spt_checksum_add(&sum, bytes + at, length - at < piece ? length - at : piece);
    return spt_checksum_value(&sum);
}

Test(checksum, does_not_depend_on_how_the_bytes_are_cut)
{
    unsigned char bytes[LENGTH];
    fill(bytes);
    for (size_t length = 0; length <= LENGTH; length += 29)
        for (size_t piece = 1; piece <= LENGTH; piece++)
            cr_expect_eq(sum_in_pieces(bytes, length, piece), sum_in_pieces(bytes, length, LENGTH),
                         "%zu bytes in pieces of %zu", length, piece);
}

Test(checksum, tells_one_changed_byte_and_one_more_or_less)
{
    unsigned char bytes[LENGTH];
    fill(bytes);
    uint64_t whole = sum_in_pieces(bytes, LENGTH, LENGTH);
    for (size_t at = 0; at < LENGTH; at++) {
        for (int bit = 0; bit < 8; bit++) {
            bytes[at] ^= (unsigned char)(1 << bit);
            cr_expect_neq(sum_in_pieces(bytes, LENGTH, 31), whole, "byte %zu, bit %d", at, bit);
            bytes[at] ^= (unsigned char)(1 << bit);
        }
        cr_expect_neq(sum_in_pieces(bytes, at, LENGTH), whole, "%zu bytes", at);
    }
}

Test(checksum, tells_zeros_from_fewer_zeros)
{
    unsigned char zeros[LENGTH] = {0};
    for (size_t length = 1; length <= LENGTH; length++)
        cr_expect_neq(sum_in_pieces(zeros, length, LENGTH),
                      sum_in_pieces(zeros, length - 1, LENGTH), "%zu", length);
}
