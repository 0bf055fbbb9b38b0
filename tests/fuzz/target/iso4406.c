/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A cleanliness code: refused whole, or numbers in range that do not rise and a class that a
 * cleaner code never makes dirtier. */
#include <stdlib.h>
#include <string.h>

#include "fuzz/fuzz.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct spt_iso4406 code;
    char *text = malloc(size ? size : 1); /* exact: a byte read past the end is seen */
    fuzz_require(text != NULL);
    memcpy(text, data, size);
    enum spt_status status = spt_iso4406_parse(text, (unsigned)size, &code);
    free(text);
    if (status) {
        fuzz_require(code.over_4 == -1 && code.over_6 == -1 && code.over_14 == -1);
        return 0;
    }
    fuzz_require(code.over_14 >= 0 && code.over_6 >= code.over_14 && code.over_6 <= 28);
    fuzz_require(code.over_4 == -1 || (code.over_4 >= code.over_6 && code.over_4 <= 28));
    for (int kind = SPT_LUBRICATION_OIL_BATH; kind <= SPT_LUBRICATION_CIRCULATING; kind++) {
        enum spt_cleanliness own, cleaner;
        bool rounded;
        struct spt_iso4406 less = code;
        less.over_14 -= less.over_14 > 0;
        status = spt_cleanliness_from_code((enum spt_lubrication)kind, &code, &own, &rounded);
        fuzz_require((status == SPT_OK) == (own != SPT_CLEANLINESS_COUNT));
        if (status)
            continue;
        fuzz_require(spt_cleanliness_kind(own) == (enum spt_lubrication)kind);
        fuzz_require(
            !spt_cleanliness_from_code((enum spt_lubrication)kind, &less, &cleaner, &rounded));
        fuzz_require(cleaner <= own);
    }
    return 0;
}
