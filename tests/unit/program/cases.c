/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep/cases.h"

#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

/* RFC 4180, section 2, rules 5 to 7: line breaks, commas and doubled quotes inside quotes. */
Test(cases, a_record_ends_at_the_line_end_outside_quotes)
{
    static const struct {
        const char *text;
        size_t length;
        unsigned lines;
    } rows[] = {
        {"1,2\n3\n", 4, 1},
        {"\"a\nb\",2\r\n3\n", 9, 2},
        {"x, \"a\n\"\"\n\",2\n3\n", 13, 3},
        {"5\" pipe,2\n\",\n", 10, 1},     /* a quote inside an unquoted cell opens nothing */
        {"# \"\n\"\n", 4, 1},             /* a remark */
        {"\"a\"\"\",\"b\n\"\n\n", 11, 2}, /* the quote that closes is not one of two */
        {"\"never,1\n2,3\n", 9, 1},       /* never closed: its line alone */
        {"\"a\nb\"", 5, 2},               /* the end of the text ends it */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        unsigned lines;
        size_t all = strlen(rows[i].text);
        cr_expect_eq(spt_cases_record(rows[i].text, all, false, &lines), rows[i].length, "%s",
                     rows[i].text);
        cr_expect_eq(lines, rows[i].lines, "%s", rows[i].text);
        /* with more to come the answer is the same or not known yet */
        for (size_t seen = 0; seen < all; seen++) {
            size_t got = spt_cases_record(rows[i].text, seen, true, &lines);
            cr_expect(!got || got == rows[i].length, "%s: %zu of %zu bytes", rows[i].text, got,
                      seen);
        }
    }
}

/* A quote that is closed too far away does not wait for it. */
Test(cases, a_record_has_a_longest_length)
{
    size_t length = SPT_CASES_RECORD_MAX + 100;
    char *text = malloc(length);
    unsigned lines;
    cr_assert(text);
    memset(text, '\n', length);
    memcpy(text, "\"a,1\n", 5);
    text[length - 2] = '"';
    cr_expect_eq(spt_cases_record(text, length, true, &lines), 5);
    cr_expect_eq(spt_cases_record(text, length, false, &lines), 5);
    text[SPT_CASES_RECORD_MAX - 2] = '"';
    cr_expect_eq(spt_cases_record(text, length, true, &lines), SPT_CASES_RECORD_MAX);
    cr_expect_eq(spt_cases_record(text, 200, true, &lines), 0);
    memset(text, 'x', length);
    cr_expect_eq(spt_cases_record(text, length, true, &lines), 0);
    free(text);
}
