/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How the blocks of a page are laid out as text, HTML and CSV. */
#include <criterion/criterion.h>
#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "format/page/page.h"

struct row {
    const char *name;
    double low, high;
    const char *remark, *words;
};

static const struct row rows[] = {
    {"first", 1.25, 7.5, "short", NULL},
    {"second", (double)NAN, -3.75,
     "a remark that is so long that no line of a text can hold it beside the columns before it",
     "=not known"},
};

static const struct spt_column columns[] = {
    {.head = "name",
     .key = "name",
     .kind = SPT_WORDS,
     .width = 8,
     .at = offsetof(struct row, name)},
    {.head = "bounds",
     .group = true,
     .key = "low",
     .kind = SPT_FIXED,
     .digits = 2,
     .width = 6,
     .gap = 1,
     .at = offsetof(struct row, low),
     .instead = offsetof(struct row, words)},
    {.head = "",
     .key = "high",
     .kind = SPT_FIXED,
     .digits = 2,
     .width = 6,
     .gap = 1,
     .at = offsetof(struct row, high)},
    {.head = "what is said of it", .kind = SPT_WORDS, .gap = 2, .at = offsetof(struct row, remark)},
};

#define TABLE(count, ...) (&(struct spt_table){SPT_TABLE_OF(columns, rows, count), __VA_ARGS__})

enum form { TEXT, HTML, CSV };

static struct spt_arena arena;
static struct spt_page *page;

static void make(void)
{
    page = spt_page_new(&arena, NULL);
    cr_assert(page);
}

static void release(void)
{
    spt_arena_free(&arena);
}

TestSuite(page_layout, .init = make, .fini = release);

static char *render(enum form form)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    cr_assert(out);
    if (form == TEXT)
        spt_page_text(page, &(struct spt_text){out, false, 0}, false);
    else if (form == HTML)
        spt_page_fragment(page, out, false);
    else
        spt_page_csv(page, out);
    fclose(out);
    return text;
}

static void expect(enum form form, const char *want)
{
    char *text = render(form);
    cr_expect_str_eq(text, want, "it is\n%s", text);
    free(text);
}

static int count(enum form form, const char *part)
{
    int found = 0;
    char *text = render(form);
    for (const char *at = strstr(text, part); at; at = strstr(at + 1, part))
        found++;
    free(text);
    return found;
}

Test(page_layout, words_without_a_width_wrap_below_themselves)
{
    spt_page_table(page, "t", TABLE(2, .caption = NULL));
    expect(TEXT, "name            bounds  what is said of it\n"
                 "first      1.25   7.50  short\n"
                 "second   =not known  -3.75  a remark that is so long that no line of a text can\n"
                 "                            hold it beside the columns before it\n");
}

Test(page_layout, heads_stand_once_above_several_tables)
{
    spt_page_table(page, "heads", TABLE(0, .heads = SPT_HEADS_ALONE, .apart = true));
    spt_page_open(page, "One");
    spt_page_table(page, "one", TABLE(1, .heads = SPT_HEADS_ABOVE));
    spt_page_close(page);
    spt_page_open(page, "Two");
    spt_page_table(page, "two", TABLE(1, .heads = SPT_HEADS_ABOVE));
    spt_page_close(page);
    expect(TEXT, "\nname            bounds  what is said of it\n"
                 "\nONE\nfirst      1.25   7.50  short\n"
                 "\nTWO\nfirst      1.25   7.50  short\n");
    cr_expect_eq(count(HTML, "<table"), 2);
    cr_expect_eq(count(HTML, ">what is said of it</th>"), 2);
}

Test(page_layout, a_head_over_two_columns_without_a_second_line_is_one_row)
{
    spt_page_table(page, "t", TABLE(1, .caption = NULL));
    cr_expect_eq(count(HTML, "colspan=\"2\" class=\"n\">bounds</th>"), 1);
    cr_expect_eq(count(HTML, "<tr>"), 2);
}

Test(page_layout, a_section_without_a_heading_is_set_apart_by_an_empty_line)
{
    spt_page_say(page, SPT_BODY, "", "before");
    spt_page_open(page, "%s", "");
    spt_page_say(page, SPT_BODY, "", "after");
    spt_page_close(page);
    expect(TEXT, "before\n\nafter\n");
    expect(HTML, "<p>before</p>\n<section>\n<p>after</p>\n</section>\n");
}

Test(page_layout, a_label_is_whole_and_without_the_blanks_that_place_it)
{
    spt_page_say(page, SPT_BODY, "Also called:  ", "a & b");
    spt_page_say(page, SPT_BODY, "   matched: ", "c");
    spt_page_say(page, SPT_BODY, "  ", "d");
    expect(TEXT, "Also called:  a & b\n   matched: c\n  d\n");
    expect(HTML, "<p><strong>Also called:</strong> a &amp; b</p>\n"
                 "<p><strong>matched:</strong> c</p>\n<p>d</p>\n");
}

Test(page_layout, words_of_a_cell_are_written_as_they_are)
{
    static const struct row named = {"log_u `a`", 12300, 1, "C_u", NULL};
    spt_page_table(page, "t", &(struct spt_table){SPT_TABLE_OF(columns, &named, 1)});
    cr_expect_eq(count(HTML, "<th scope=\"row\">log_u `a`</th>"), 1);
    cr_expect_eq(count(HTML, ">C_u</td>"), 1);
}

Test(page_layout, csv_has_words_in_place_of_a_number_that_is_none)
{
    spt_page_table(page, "t", TABLE(2, .is_data = true));
    expect(CSV, "name,low,high\nfirst,1.25,7.5\nsecond,\"'=not known\",-3.75\n");
}
