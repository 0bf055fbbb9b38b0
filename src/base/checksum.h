/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_CHECKSUM_H
#define BASE_CHECKSUM_H

#include <stddef.h>
#include <stdint.h>

#define SPT_CHECKSUM_LANES 4
#define SPT_CHECKSUM_STRIPE (SPT_CHECKSUM_LANES * sizeof(uint64_t))

/* A checksum of a stream of bytes, independent of how it is divided into blocks: FNV-1a (from
 * memory), applied to 64-bit words in four parallel lanes (our choice). A change of a single word
 * always changes it. It detects damage, not deliberate changes. */
struct spt_checksum {
    uint64_t lanes[SPT_CHECKSUM_LANES];
    unsigned long long length;
    size_t held; /* number of bytes that do not fill a stripe yet */
    unsigned char stripe[SPT_CHECKSUM_STRIPE];
};

void spt_checksum_begin(struct spt_checksum *sum);
/* `bytes` may be NULL where `length` is 0. */
void spt_checksum_add(struct spt_checksum *sum, const void *bytes, size_t length);
/* The checksum of all bytes added so far; more may be added. */
uint64_t spt_checksum_value(const struct spt_checksum *sum);

#endif
