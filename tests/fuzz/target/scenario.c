/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A scenario file of any bytes: refused with a place and a reason, or every answer stands. */
#include "fuzz/fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    fuzz_scenario((const char *)data, size);
    return 0;
}
