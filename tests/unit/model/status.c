/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/status.h"

#include <criterion/criterion.h>
#include <string.h>

Test(status, every_status_has_a_sentence_of_its_own)
{
    for (int i = 0; i < SPT_STATUS_COUNT; i++)
        for (int j = 0; j < i; j++)
            cr_expect_str_neq(spt_status_text((enum spt_status)i),
                              spt_status_text((enum spt_status)j));
    cr_expect_str_eq(spt_status_text(SPT_OK), "done");
    cr_expect_str_eq(spt_status_text(SPT_STATUS_COUNT), "unknown status");
    cr_expect_str_eq(spt_status_text((enum spt_status) - 1), "unknown status");
}
