/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/gather.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

Test(gather, a_long_text_comes_back_whole)
{
    struct spt_gather gather;
    cr_assert(spt_gather_open(&gather));
    for (int i = 0; i < 20000; i++)
        fprintf(gather.stream, "%05d\n", i);
    char *text = spt_gather_close(&gather);
    cr_assert_not_null(text);
    cr_expect_eq(gather.length, 120000);
    cr_expect_eq(strlen(text), 120000);
    for (int i = 0; i < 20000; i += 777)
        cr_expect_eq(atoi(text + 6 * i), i);
    free(text);
}

Test(gather, nothing_written_gives_an_empty_text)
{
    struct spt_gather gather;
    cr_assert(spt_gather_open(&gather));
    char *text = spt_gather_close(&gather);
    cr_assert_not_null(text);
    cr_expect_str_empty(text);
    free(text);
}
