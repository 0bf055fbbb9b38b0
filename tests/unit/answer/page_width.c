/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Tables and sentences of a page in lines of other widths, verdicts, and what --quiet leaves. */
#include <criterion/criterion.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "format/page/page.h"

struct row {
    const char *name;
    double first, second, last;
};

static const struct row rows[] = {
    {"a name of forty-four characters, no more now", 1, 20, 300},
    {"short", 4, 50, 600},
};

#define AT(member) .at = offsetof(struct row, member)
static const struct spt_column columns[] = {
    {.head = "name", .kind = SPT_WORDS, .width = 20, AT(name)},
    {.head = "first", .kind = SPT_NUMBER, .width = 15, .gap = 1, AT(first)},
    {.head = "second", .kind = SPT_NUMBER, .width = 15, .gap = 1, AT(second)},
    {.head = "extra", .kind = SPT_NUMBER, .extra = true, .width = 15, .gap = 1, AT(last)},
};

static struct spt_arena arena;
static char *written;
static size_t length;

/* The page as text of this width; from malloc. */
static char *write_text(struct spt_page *page, int width, bool color, bool quiet)
{
    FILE *out = open_memstream(&written, &length);
    spt_page_text(page, &(struct spt_text){out, color, width}, quiet);
    fclose(out);
    spt_arena_free(&arena);
    return written;
}

static char *write_table(int width)
{
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_page_table(page, "rows", &(struct spt_table){SPT_TABLE_OF(columns, rows, 2)});
    return write_text(page, width, false, false);
}

static int longest_line(const char *text)
{
    size_t longest = 0;
    for (; *text; text += strcspn(text, "\n") + 1)
        longest = strcspn(text, "\n") > longest ? strcspn(text, "\n") : longest;
    return (int)longest;
}

Test(page_width, names_are_read_in_full_where_there_is_room)
{
    char *text = write_table(80);
    cr_expect(strstr(text, "a name of forty-four characters, no more now               1"), "%s",
              text);
    cr_expect_null(strstr(text, "extra"), "%s", text);
    cr_expect_leq(longest_line(text), 80);
    free(text);
}

Test(page_width, more_columns_appear_where_names_leave_room)
{
    char *text = write_table(110);
    cr_expect(strstr(text, "extra") && strstr(text, "300"), "%s", text);
    cr_expect_leq(longest_line(text), 110);
    free(text);
}

Test(page_width, names_give_way_in_a_narrow_line)
{
    char *text = write_table(46); /* 6 less than the columns take */
    cr_expect(strstr(text, "~"), "%s", text);
    cr_expect_leq(longest_line(text), 46, "%s", text);
    cr_expect(strstr(text, "short "), "%s", text);
    free(text);
}

Test(page_width, rows_are_stacked_where_even_short_names_do_not_fit)
{
    char *text = write_table(36);
    cr_expect_str_eq(text, "a name of forty-four characters, no\nmore now\n"
                           "    first 1; second 20\n"
                           "short\n    first 4; second 50\n");
    free(text);
}

Test(page_width, sentences_wrap_at_the_width)
{
    for (int width = 60; width <= 120; width += 20) {
        struct spt_page *page = spt_page_new(&arena, NULL);
        spt_page_say(page, SPT_BODY, "- ", "%0300d and words that follow, one after the other, %s",
                     0, "until several lines are filled with nothing that matters to anybody.");
        char *text = write_text(page, width, false, false);
        cr_expect_eq(longest_line(text), width, "%d: %s", width, text);
        free(text);
    }
}

Test(page_width, verdicts_differ_by_mark_and_by_colour)
{
    static const struct {
        enum spt_verdict verdict;
        const char *plain, *colored;
    } cases[] = {
        {SPT_MET, "[+] so\n", "\033[1;32m[+] so\n\033[0m"},
        {SPT_MISSED, "[-] so\n", "\033[1;31m[-] so\n\033[0m"},
        {SPT_DOUBTFUL, "[?] so\n", "\033[1;33m[?] so\n\033[0m"},
        {SPT_UNJUDGED, "so\n", "so\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        for (int color = 0; color < 2; color++) {
            struct spt_page *page = spt_page_new(&arena, NULL);
            spt_page_judge(page, cases[i].verdict, "so");
            char *text = write_text(page, 80, color, false);
            if (cases[i].verdict != SPT_UNJUDGED || !color)
                cr_expect_str_eq(text, color ? cases[i].colored : cases[i].plain);
            free(text);
        }
}

Test(page_width, quiet_leaves_what_changes_a_number_and_no_empty_section)
{
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_page_open(page, "Flags");
    spt_page_say(page, SPT_NOTE, "- ", "a remark");
    spt_page_say(page, SPT_CHANGES_NUMBER, "- ", "an assumption");
    spt_page_close(page);
    spt_page_open(page, "Remarks");
    spt_page_say(page, SPT_NOTE, "- ", "another");
    spt_page_close(page);
    spt_page_open(page, "Cautions");
    spt_page_say(page, SPT_CAUTION, "- ", "care");
    spt_page_close(page);
    char *text = write_text(page, 80, false, true);
    cr_expect_str_eq(text, "\nFLAGS\n- an assumption\n");
    free(text);
}
