/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_CHECKSUM_H
#define BASE_CHECKSUM_H

#include <stddef.h>
#include <stdint.h>

#define SPT_CHECKSUM_LANES 4
#define SPT_CHECKSUM_STRIPE (SPT_CHECKSUM_LANES * sizeof(uint64_t))

/* A checksum of bytes as they come, however they are cut: FNV-1a (from memory) taken over 64-bit
 * words in four lanes side by side, which is our choice; no single changed word can leave it as it
 * was. It finds damage, not malice. */
struct spt_checksum {
    uint64_t lanes[SPT_CHECKSUM_LANES];
    unsigned long long length;
    size_t held; /* bytes that do not fill a stripe yet */
    unsigned char stripe[SPT_CHECKSUM_STRIPE];
};

void spt_checksum_begin(struct spt_checksum *sum);
/* `bytes` may be NULL where `length` is 0. */
void spt_checksum_add(struct spt_checksum *sum, const void *bytes, size_t length);
/* Of all that was added so far; more may follow. */
uint64_t spt_checksum_value(const struct spt_checksum *sum);

#endif
