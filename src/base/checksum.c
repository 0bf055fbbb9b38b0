/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/checksum.h"

#include <string.h>

#define HASH_START 0xcbf29ce484222325ULL
#define HASH_PRIME 0x100000001b3ULL

/* The shift moves the high bits to the low end, where the next multiplication spreads them
 * again. */
static uint64_t mix(uint64_t hash, uint64_t word)
{
    hash = (hash ^ word) * HASH_PRIME;
    return hash ^ hash >> 29;
}

static void add_stripe(uint64_t *lanes, const unsigned char *bytes)
{
    uint64_t words[SPT_CHECKSUM_LANES];
    memcpy(words, bytes, sizeof words);
    for (int i = 0; i < SPT_CHECKSUM_LANES; i++)
        lanes[i] = mix(lanes[i], words[i]);
}

void spt_checksum_begin(struct spt_checksum *sum)
{
    uint64_t start = HASH_START; /* a different start value in each lane */
    memset(sum, 0, sizeof *sum);
    for (int i = 0; i < SPT_CHECKSUM_LANES; i++)
        sum->lanes[i] = start++;
}

void spt_checksum_add(struct spt_checksum *sum, const void *bytes, size_t length)
{
    const unsigned char *at = bytes;
    if (!length)
        return; /* `bytes` may be NULL in this case */
    sum->length += length;
    while (length && (sum->held || length < SPT_CHECKSUM_STRIPE)) {
        size_t free_bytes = SPT_CHECKSUM_STRIPE - sum->held,
               part = length < free_bytes ? length : free_bytes;
        memcpy(sum->stripe + sum->held, at, part);
        sum->held += part;
        at += part;
        length -= part;
        if (sum->held < SPT_CHECKSUM_STRIPE)
            return;
        add_stripe(sum->lanes, sum->stripe);
        sum->held = 0;
    }
    uint64_t lanes[SPT_CHECKSUM_LANES];
    memcpy(lanes, sum->lanes, sizeof lanes);
    for (; length >= SPT_CHECKSUM_STRIPE; at += SPT_CHECKSUM_STRIPE, length -= SPT_CHECKSUM_STRIPE)
        add_stripe(lanes, at);
    memcpy(sum->lanes, lanes, sizeof lanes);
    memcpy(sum->stripe, at, length);
    sum->held = length;
}

uint64_t spt_checksum_value(const struct spt_checksum *sum)
{
    uint64_t hash = mix(HASH_START, sum->length);
    for (int i = 0; i < SPT_CHECKSUM_LANES; i++)
        hash = mix(hash, sum->lanes[i]);
    for (size_t i = 0; i < sum->held; i++)
        hash = mix(hash, sum->stripe[i]);
    return hash;
}
