/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <stdio.h>

#include "base/utf8.h"

static void expect_tamed(const char *text, const char *wanted)
{
    char room[64];
    snprintf(room, sizeof room, "%s", text);
    spt_utf8_tame(room);
    cr_expect_str_eq(room, wanted);
}

Test(utf8, plain_text_of_any_alphabet_is_left_as_it_is)
{
    expect_tamed("", "");
    expect_tamed("k = 1.2, Nabe außen, \xE6\xB0\xB4, \xF0\x9F\x98\x80",
                 "k = 1.2, Nabe außen, \xE6\xB0\xB4, \xF0\x9F\x98\x80");
    expect_tamed("\xC2\xA0", "\xC2\xA0");
}

Test(utf8, controls_of_both_sets_and_bytes_that_are_none_are_shown_as_marks)
{
    expect_tamed("a\x1b[31mb\tc\r\nd\x7f", "a?[31mb?c??d?");
    expect_tamed("\xC2\x9B"
                 "5m\xC2\x85",
                 "??5m\xC2\x85");
    expect_tamed("\xFFx\xC3", "?x?");
}

Test(utf8, what_turns_the_direction_of_text_is_shown_as_marks)
{
    expect_tamed("5\xE2\x80\xAE\x30", "5???0"); /* U+202E */
    expect_tamed("\xE2\x80\xAA.\xE2\x81\xA6.\xE2\x81\xA9", "???.???.???");
    /* their neighbours are left: the marks of direction, the narrow blank, the digits raised */
    expect_tamed("\xE2\x80\x8F\xE2\x80\xAF\xE2\x81\xA5\xE2\x81\xAA\xE2\x81\xB0",
                 "\xE2\x80\x8F\xE2\x80\xAF\xE2\x81\xA5\xE2\x81\xAA\xE2\x81\xB0");
}
