/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The small pieces under the scenario reader: UTF-8, the arena, the nearest word. */
#include <criterion/criterion.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "base/utf8.h"
#include "scenario/text/fields.h"
#include "spalltime/arena.h"

/* Table 3-7 of the Unicode standard, its edges and what lies just outside. */
Test(utf8, sequences_are_those_of_the_unicode_table)
{
    static const struct {
        const char *bytes;
        size_t want;
    } rows[] = {
        {"a", 1},
        {"\x7F", 1},
        {"\x80", 0},
        {"\xBF", 0},
        {"\xC1\xBF", 0}, /* overlong */
        {"\xC2\x80", 2},
        {"\xDF\xBF", 2},
        {"\xDF", 0}, /* cut short */
        {"\xDF\xC0", 0},
        {"\xE0\x9F\xBF", 0}, /* overlong */
        {"\xE0\xA0\x80", 3},
        {"\xED\x9F\xBF", 3},
        {"\xED\xA0\x80", 0}, /* surrogate */
        {"\xEF\xBF\xBF", 3},
        {"\xEF\xBF", 0},
        {"\xF0\x8F\xBF\xBF", 0}, /* overlong */
        {"\xF0\x90\x80\x80", 4},
        {"\xF4\x8F\xBF\xBF", 4},
        {"\xF4\x90\x80\x80", 0}, /* above U+10FFFF */
        {"\xF5\x80\x80\x80", 0},
        {"\xFF", 0},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        cr_expect_eq(spt_utf8_size(rows[i].bytes, strlen(rows[i].bytes)), rows[i].want, "row %zu",
                     i);
    cr_expect_eq(spt_utf8_size("a", 0), 0);
}

Test(utf8, the_first_problem_has_its_line_and_column_in_characters)
{
    static const struct {
        const char *text;
        int line, column; /* 0: sound */
    } rows[] = {
        {"", 0, 0},
        {"plain\ttext\r\nnext", 0, 0},
        {"Mühle\n°\n", 0, 0},
        {"a\001", 1, 2},
        {"é\x7F", 1, 2},
        {"one\r\ntwo\n\x80", 3, 1},
        {"one\rtwo\x1B", 2, 4},
        {"a\xC2\x85"
         "b\x01",
         2, 2}, /* NEL ends a line */
        {"a\xE2\x80\xA8"
         "b\xFF",
         2, 2},             /* LS ends a line */
        {"\xC2\x9F", 1, 1}, /* second set of controls */
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        int line = 0, column = 0;
        const char *problem = spt_utf8_problem(rows[i].text, strlen(rows[i].text), &line, &column);
        cr_expect_eq(problem != NULL, rows[i].line > 0, "row %zu", i);
        if (problem)
            cr_expect(line == rows[i].line && column == rows[i].column, "row %zu: %d:%d", i, line,
                      column);
    }
}

Test(utf8, the_mark_and_the_line_ends_have_their_sizes)
{
    cr_expect_eq(spt_utf8_mark_size("\xEF\xBB\xBFx", 4), 3);
    cr_expect_eq(spt_utf8_mark_size("\xEF\xBB", 2), 0);
    cr_expect_eq(spt_utf8_mark_size("x", 1), 0);
    cr_expect_eq(spt_utf8_line_end_size("\r\n", 2), 2);
    cr_expect_eq(spt_utf8_line_end_size("\r\n", 1), 1);
    cr_expect_eq(spt_utf8_line_end_size("\n", 1), 1);
    cr_expect_eq(spt_utf8_line_end_size("\xE2\x80\xA9", 3), 3);
    cr_expect_eq(spt_utf8_line_end_size("\xE2\x80\xA9", 2), 0);
    cr_expect_eq(spt_utf8_line_end_size("n", 1), 0);
}

Test(arena, pieces_are_zeroed_aligned_and_apart)
{
    struct spt_arena arena = {0};
    unsigned char *last = NULL;
    for (size_t size = 1; size < 40000; size = size * 3 + 1) {
        unsigned char *piece = spt_arena_allocate(&arena, size);
        cr_assert(piece);
        cr_expect_eq((uintptr_t)piece % _Alignof(max_align_t), 0, "%zu", size);
        for (size_t i = 0; i < size; i++)
            cr_assert_eq(piece[i], 0, "%zu", size);
        memset(piece, 0xA5, size);
        cr_expect(!last || *last == 0xA5);
        last = piece;
    }
    const char *text = spt_arena_text(&arena, "spall\0time", 10);
    cr_expect_eq(memcmp(text, "spall\0time", 11), 0);
    cr_expect_str_eq(spt_arena_text(&arena, NULL, 0), "");
    cr_expect_null(spt_arena_allocate(&arena, SIZE_MAX));
    spt_arena_free(&arena);
    cr_expect_null(arena.blocks);
    cr_expect(spt_arena_allocate(&arena, 8), "an arena may be used again");
    spt_arena_free(&arena);
}

static void *refuse(size_t size)
{
    (void)size;
    return NULL;
}

Test(arena, gives_nothing_when_memory_is_out)
{
    struct spt_arena arena = {0};
    spt_arena_allocate_with(refuse);
    cr_expect_null(spt_arena_allocate(&arena, 1));
    cr_expect_null(spt_arena_text(&arena, "x", 1));
    spt_arena_allocate_with(NULL);
    cr_expect(spt_arena_allocate(&arena, 1));
    spt_arena_free(&arena);
}

Test(nearest, is_the_word_with_the_fewest_changes_if_they_are_few)
{
    static const char *const words[] = {"radial_load", "axial_load", "speed", "time"};
    static const struct {
        const char *text, *want;
    } rows[] = {
        {"axial_lod", "axial_load"},
        {"RADIAL_LOAD", "radial_load"},
        {"sped", "speed"},
        {"tme", "time"},
        {"spede", "speed"},
        {"load", NULL},
        {"temperature", NULL},
        {"", NULL},
        {"x", NULL},
        {"aradial_load", "radial_load"},
        {"rad", "radial_load"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const char *got = spt_nearest(rows[i].text, words, 4);
        cr_expect(got == rows[i].want || (got && rows[i].want && !strcmp(got, rows[i].want)),
                  "%s: %s", rows[i].text, got ? got : "none");
    }
    char longest[200];
    memset(longest, 'a', sizeof longest - 1);
    longest[sizeof longest - 1] = 0;
    cr_expect_null(spt_nearest(longest, words, 4));
    cr_expect_null(spt_nearest("time", words, 0));
}
