/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/ical.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "format/date.h"

typedef void writer(FILE *out, const char *name, const char *value);

static char *write_with(writer *write, const char *name, const char *value)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    write(out, name, value);
    fclose(out);
    return text;
}

static void expect(writer *write, const char *value, const char *wanted)
{
    char *text = write_with(write, "NAME", value);
    cr_expect_str_eq(text, wanted);
    free(text);
}

/* RFC 5545 section 3.3.11: backslash, semicolon, comma and line ends in TEXT. */
Test(ical, text_is_escaped_as_the_standard_says)
{
    expect(spt_ical_text, "plain", "NAME:plain\r\n");
    expect(spt_ical_text, "a,b;c\\d", "NAME:a\\,b\\;c\\\\d\r\n");
    expect(spt_ical_text, "one\ntwo\r\nthree\rfour", "NAME:one\\ntwo\\nthree\\nfour\r\n");
    expect(spt_ical_text, "a\tb\x07", "NAME:a b \r\n");
    expect(spt_ical_text, "kept: colon \"quote\"", "NAME:kept: colon \"quote\"\r\n");
    expect(spt_ical_line, "20260301", "NAME:20260301\r\n");
}

/* RFC 5545 section 3.1: no line of more than 75 octets, folded by CR LF and a blank. */
static void check_folding(const char *value)
{
    char *text = write_with(spt_ical_line, "SUMMARY", value);
    char unfolded[4096] = "";
    for (const char *at = text; *at;) {
        const char *end = strstr(at, "\r\n");
        cr_assert(end, "every line ends with CR LF");
        size_t length = (size_t)(end - at);
        cr_expect_leq(length, 75);
        cr_expect_not(memchr(at, '\n', length));
        cr_expect(at == text || *at == ' ');
        size_t skip = at == text ? 0 : 1;
        int line, column;
        cr_expect_null(spt_utf8_problem(at + skip, length - skip, &line, &column),
                       "a character is cut");
        strncat(unfolded, at + skip, length - skip);
        at = end + 2;
    }
    cr_expect(!strncmp(unfolded, "SUMMARY:", 8) && !strcmp(unfolded + 8, value));
    free(text);
}

Test(ical, lines_are_folded_at_75_octets_between_characters)
{
    char value[901] = "";
    for (int i = 0; i < 300; i++) {
        check_folding(value);
        strcat(value, i % 3 ? "x" : i % 2 ? "\xC3\xA4" : "\xE2\x82\xAC");
    }
    memset(value, 'y', 900);
    value[67] = 0; /* exactly 75 with the name: not folded */
    char *text = write_with(spt_ical_line, "SUMMARY", value);
    cr_expect_eq(strlen(text), 77);
    free(text);
}

Test(ical, a_text_beyond_the_limit_is_cut_between_characters)
{
    char value[3001] = "";
    for (int i = 0; i < 1000; i++)
        strcat(value, "\xE2\x82\xAC");
    char *text = write_with(spt_ical_text, "N", value);
    int line, column;
    cr_expect_null(spt_utf8_problem(text, strlen(text), &line, &column));
    cr_expect_gt(strlen(text), 1000);
    free(text);
}

Test(date, days_are_read_and_counted_through_leap_years)
{
    static const struct {
        const char *start;
        double days;
        const char *end; /* checked against the calendar: 2024 and 2000 are leap years, 2100 not */
    } cases[] = {
        {"2026-03-01", 0, "2026-03-01"},     {"2026-03-01", 0.99, "2026-03-01"},
        {"2024-02-28", 1, "2024-02-29"},     {"2024-02-28", 2.5, "2024-03-01"},
        {"2023-02-28", 1, "2023-03-01"},     {"2100-02-28", 1, "2100-03-01"},
        {"2000-02-28", 1, "2000-02-29"},     {"2026-12-31", 1, "2027-01-01"},
        {"2026-01-01", 365, "2027-01-01"},   {"2024-01-01", 366, "2025-01-01"},
        {"1970-01-01", 20513, "2026-03-01"}, {"2026-03-01", 36525, "2126-03-02"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct spt_date start, end;
        char text[SPT_DATE_LENGTH];
        cr_assert(spt_date_read(cases[i].start, &start), "%s", cases[i].start);
        cr_expect(spt_date_after(&start, cases[i].days, &end));
        cr_expect_str_eq(spt_date_text(&end, false, text), cases[i].end, "from %s", cases[i].start);
    }
    struct spt_date start, end;
    char text[SPT_DATE_LENGTH];
    cr_assert(spt_date_read("9999-12-30", &start));
    cr_expect(spt_date_after(&start, 1, &end));
    cr_expect_str_eq(spt_date_text(&end, true, text), "99991231");
    cr_expect_not(spt_date_after(&start, 2, &end));
    cr_expect_not(spt_date_after(&start, -1, &end));
    cr_expect_not(spt_date_after(&start, (double)NAN, &end));
}

Test(date, what_is_no_day_is_refused)
{
    static const char *const texts[] = {"",           "2026-3-1",   "2026-02-29",  "2026-13-01",
                                        "2026-00-10", "2026-01-00", "2026/01/01",  "01-01-2026",
                                        "2026-04-31", "0000-01-01", "2026-03-01 ", "2026-0a-01"};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct spt_date date;
        cr_expect_not(spt_date_read(texts[i], &date), "%s", texts[i]);
    }
}
