/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/status.h"

#include <criterion/criterion.h>
#include <ctype.h>
#include <string.h>

Test(flag, notes_keep_their_order_and_the_first_value)
{
    struct spt_notes notes = {0};
    spt_notes_add(&notes, SPT_FLAG_WATER_FLOOR, 2.5, 7.5);
    spt_notes_add(&notes, SPT_FLAG_OVERLOAD, 12.0, 11.0);
    spt_notes_add(&notes, SPT_FLAG_WATER_FLOOR, 99.0, 98.0);
    cr_assert_eq(notes.count, 2);
    cr_expect_eq(notes.list[0].flag, SPT_FLAG_WATER_FLOOR);
    cr_expect_eq(notes.list[0].value, 2.5);
    cr_expect_eq(notes.list[0].limit, 7.5);
    cr_expect_eq(notes.list[1].flag, SPT_FLAG_OVERLOAD);
    cr_expect_eq(notes.list[1].value, 12.0);
    cr_expect_eq(notes.list[1].limit, 11.0);
}

Test(flag, a_set_has_what_was_added_and_nothing_else)
{
    struct spt_notes notes = {0};
    cr_expect_not(spt_notes_has(&notes, SPT_FLAG_OVERLOAD));
    spt_notes_add(&notes, SPT_FLAG_CODE_ROUNDED, 1.5, 2.5);
    cr_expect(spt_notes_has(&notes, SPT_FLAG_CODE_ROUNDED));
    cr_expect_not(spt_notes_has(&notes, SPT_FLAG_OVERLOAD));
}

Test(flag, a_set_holds_every_flag_at_once)
{
    struct spt_notes notes = {0};
    for (int round = 0; round < 2; round++)
        for (int i = 0; i < SPT_FLAG_COUNT; i++)
            spt_notes_add(&notes, (enum spt_flag)i, i, round);
    cr_expect_eq(notes.count, (int)SPT_FLAG_COUNT);
    for (int i = 0; i < SPT_FLAG_COUNT; i++)
        cr_expect(spt_notes_has(&notes, (enum spt_flag)i));
}

Test(flag, unknown_flags_and_a_missing_set_are_ignored)
{
    struct spt_notes notes = {0};
    spt_notes_add(&notes, SPT_FLAG_COUNT, 1.0, 2.0);
    spt_notes_add(&notes, (enum spt_flag) - 1, 1.0, 2.0);
    cr_expect_eq(notes.count, 0);
    spt_notes_add(NULL, SPT_FLAG_OVERLOAD, 1.0, 2.0);
    cr_expect_not(spt_notes_has(NULL, SPT_FLAG_OVERLOAD));
}

Test(flag, codes_are_distinct_lower_case_names)
{
    for (int i = 0; i < SPT_FLAG_COUNT; i++) {
        const char *code = spt_flag_code((enum spt_flag)i);
        cr_assert_not_null(code, "flag %d", i);
        cr_expect_gt(strlen(code), 3u, "flag %d", i);
        for (const char *c = code; *c; c++)
            cr_expect(islower((unsigned char)*c) || isdigit((unsigned char)*c) || *c == '_', "%s",
                      code);
        for (int j = 0; j < i; j++)
            cr_expect_str_neq(code, spt_flag_code((enum spt_flag)j));
    }
    cr_expect_str_eq(spt_flag_code(SPT_FLAG_FILM_TOO_THIN), "film_too_thin");
    cr_expect_str_eq(spt_flag_code(SPT_FLAG_MISSED_TARGET), "missed_target");
    cr_expect_str_eq(spt_flag_code(SPT_FLAG_COUNT), "unknown");
}
