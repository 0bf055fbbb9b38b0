/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <stdlib.h>

#include "base/allocate.h"
#include "support/guide_file.h"

static int left;

static void *run_short(size_t size)
{
    return left-- > 0 ? malloc(size) : NULL;
}

/* Whatever request fails, the guide says so, frees cleanly and reads nothing that is not there. */
Test(guide_memory, every_failed_request_is_survived)
{
    struct guide_file file;
    guide_file_load(&file);
    int first_success = -1;
    for (int allowed = 0; allowed < 200 && first_success < 0; allowed++) {
        struct spt_diagnostics diags = {0};
        struct spt_guide guide;
        left = allowed;
        spt_arena_allocate_with(run_short);
        bool read = spt_guide_load(&file.catalog, &guide, &diags);
        spt_arena_allocate_with(NULL);
        cr_expect_eq(read, !diags.out_of_memory);
        if (read)
            first_success = allowed;
        spt_guide_free(&guide);
    }
    cr_expect_gt(first_success, 0);
    guide_file_free(&file);
}
