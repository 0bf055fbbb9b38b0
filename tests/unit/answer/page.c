/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A table of a page as text, CSV, JSON and HTML. */
#include <criterion/criterion.h>
#include <math.h>
#include <stddef.h>
#include <stdlib.h>
#include <string.h>

#include "format/page/page.h"

struct row {
    const char *name, *mark;
    double life_h, value;
    const char *life_words, *value_words;
};

static const struct row rows[] = {
    {"first", "!", 2384, 1.25, NULL, NULL},
    {"second", "", 2385.5, (double)NAN, "too long", "normal"},
    {"third", "", (double)NAN, 3, NULL, NULL},
};

static const struct spt_column columns[] = {
    {.head = "name",
     .key = "name",
     .kind = SPT_WORDS,
     .width = 8,
     .at = offsetof(struct row, name)},
    {.head = "", .kind = SPT_MARK, .width = 1, .at = offsetof(struct row, mark)},
    {.head = "life h",
     .key = "life_h",
     .kind = SPT_HOURS,
     .width = 9,
     .gap = 1,
     .at = offsetof(struct row, life_h),
     .instead = offsetof(struct row, life_words)},
    {.key = "value",
     .kind = SPT_NUMBER,
     .at = offsetof(struct row, value),
     .instead = offsetof(struct row, value_words)},
};

static struct spt_arena arena;
static char *written;
static size_t length;

static struct spt_page *make_page(void)
{
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_page_table(
        page, "rows",
        &(struct spt_table){SPT_TABLE_OF(columns, rows, 3), .left_out = 1, .is_data = true});
    cr_assert(spt_page_is_whole(page));
    return page;
}

static void expect(FILE *out, const char *want)
{
    fclose(out);
    cr_expect_str_eq(written, want);
    free(written);
    spt_arena_free(&arena);
}

Test(page, text_leaves_rows_out_and_has_words_in_the_place_of_a_number)
{
    FILE *out = open_memstream(&written, &length);
    spt_page_text(make_page(), &(struct spt_text){out, false, 0}, false);
    expect(out, "name         life h\n"
                "first   !     2 380\n"
                "second     too long\n");
}

Test(page, csv_has_every_row_and_words_in_place_of_a_number_that_is_not_known)
{
    FILE *out = open_memstream(&written, &length);
    spt_page_csv(make_page(), out);
    expect(out, "name,life_h,value\n"
                "first,2384,1.25\n"
                "second,2385.5,normal\n"
                "third,,3\n");
}

Test(page, json_has_the_members_of_csv)
{
    FILE *out = open_memstream(&written, &length);
    struct spt_json json = spt_json_begin(out);
    spt_json_open(&json, NULL, '{');
    spt_table_json_row(spt_page_find(make_page(), "rows"), 1, &json);
    spt_json_close(&json, '}');
    expect(out, "{\n"
                "  \"name\": \"second\",\n"
                "  \"life_h\": 2385.5,\n"
                "  \"value\": null\n"
                "}\n");
}

Test(page, html_sets_a_mark_apart_from_its_cell)
{
    FILE *out = open_memstream(&written, &length);
    cr_assert(spt_page_fragment(make_page(), out, false));
    fflush(out);
    cr_expect(strstr(written, "<th scope=\"row\">first !</th>"), "%s", written);
    cr_expect(strstr(written, "<td class=\"n\">too long</td>"), "%s", written);
    cr_expect_not(strstr(written, "third"), "%s", written);
    fclose(out);
    free(written);
    spt_arena_free(&arena);
}

/* An answer is a fold that print opens; a working stays as the reader left it. */
Test(page, an_answer_is_a_fold_of_its_own_kind_and_a_box_can_be_ticked)
{
    struct spt_page *page = spt_page_new(&arena, "a page");
    spt_page_open_as(page, SPT_SECTION_ANSWER, "The answer");
    spt_page_say(page, SPT_BODY, "[ ] ", "look at the seal");
    spt_page_close(page);
    spt_page_open_as(page, SPT_SECTION_FOLDED, "Every step");
    spt_page_say(page, SPT_BODY, "", "a step");
    spt_page_close(page);
    FILE *out = open_memstream(&written, &length);
    cr_assert(spt_page_html(page, out, false));
    fclose(out);
    cr_expect(strstr(written, "<details class=\"answer\">\n<summary>The answer</summary>"));
    cr_expect(strstr(written, "<details class=\"working\">\n<summary>Every step</summary>"));
    cr_expect(
        strstr(written, "<span class=\"box\" role=\"img\" aria-label=\"to tick\"></span> look at"));
    cr_expect(strstr(written, ".answer::details-content{content-visibility:visible"));
    free(written);
    spt_arena_free(&arena);
}
