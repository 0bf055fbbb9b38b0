/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <stdio.h>

#include "base/utf8.h"

static void expect_tamed(const char *text, const char *wanted)
{
    char copy[64];
    snprintf(copy, sizeof copy, "%s", text);
    spt_utf8_tame(copy);
    cr_expect_str_eq(copy, wanted);
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

/* What titles and labels of cases are held to. */
Test(utf8, plain_text_of_one_line_has_no_controls_and_no_kind_of_line_end)
{
    static const struct {
        const char *text, *want;
    } rows[] = {
        {"Lüfter 7, \xE2\x82\xAC \"left\"", NULL},
        {"", NULL},
        {"a\tb", "a line break or a tab"},
        {"a\nb", "a line break or a tab"},
        {"a\r", "a line break or a tab"},
        {"\xC2\x85", "a line break or a tab"},
        {"a\xE2\x80\xA8z", "a line break or a tab"},
        {"a\xE2\x80\xA9z", "a line break or a tab"},
        {"\x1B[1m", "a control character"},
        {"\x7F", "a control character"},
        {"\xC2\x9B", "a control character"},
        {"\xE2\x80\xAE", "a control character"},
        {"\xE2\x81\xA6", "a control character"},
        {"caf\xE9", "a byte that is not UTF-8"},
        {"\xE2\x82", "a byte that is not UTF-8"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *got = spt_utf8_line_problem(rows[i].text, strlen(rows[i].text));
        cr_expect(got == rows[i].want || (got && rows[i].want && !strcmp(got, rows[i].want)),
                  "row %zu: %s", i, got ? got : "none");
    }
    cr_expect_str_eq(spt_utf8_line_problem("a\0b", 3), "a control character");
}
