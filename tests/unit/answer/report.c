/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The small writers under the reports: sentences, JSON, CSV, wrapped text and numbers. */
#include <criterion/criterion.h>
#include <locale.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "format/csv.h"
#include "format/json.h"
#include "format/text.h"
#include "sentence/sentence.h"
#include "spalltime/verdict.h"
#include "support/json_text.h"
#include "sweep/row_layout.h"

/* A stream in memory, and its text when it is closed. */
struct memory {
    FILE *out;
    char *text;
    size_t length;
};

static struct memory *open_memory(struct memory *memory)
{
    *memory = (struct memory){0};
    memory->out = open_memstream(&memory->text, &memory->length);
    return memory;
}

static void expect_text(struct memory *memory, const char *want, const char *what)
{
    fclose(memory->out);
    cr_expect_str_eq(memory->text, want, "%s\n--- is\n%s\n--- should be\n%s", what, memory->text,
                     want);
    free(memory->text);
}

Test(sentence, every_flag_has_one_that_ends_with_a_full_stop_and_holds_no_mark)
{
    static const double numbers[] = {0.0123456, 2.385, 41.25, 123456.7, 1234567890.0};
    for (int flag = 0; flag < SPT_FLAG_COUNT; flag++)
        for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
            char text[SPT_SENTENCE_LENGTH];
            const struct spt_note note = {(enum spt_flag)flag, numbers[i], numbers[i]};
            spt_sentence(&note, text, sizeof text);
            size_t length = strlen(text);
            const char *code = spt_flag_code((enum spt_flag)flag);
            cr_assert_gt(length, 20, "%s", code);
            cr_expect_eq(text[length - 1], '.', "%s: %s", code, text);
            cr_expect(text[0] >= '0' && text[0] <= 'Z', "%s: %s", code, text);
            cr_expect(!strpbrk(text, "{}"), "%s: %s", code, text);
            cr_expect(!strstr(text, "nan") && !strstr(text, "  "), "%s: %s", code, text);
        }
}

Test(sentence, odd_shares_of_a_loss_have_a_footnote)
{
    static const struct {
        double debris, setting;
        const char *want; /* what it begins with; NULL: none */
    } rows[] = {
        {-1, -0.5, NULL},
        {-1, 0.0002, NULL}, /* written as 0.0 % */
        {-1, 0.1, "Shares below 0 or above 100 %: the setting is put right for both rows"},
        {-0.1, 0.3, "The shares are of what this row would lose"},
        {0.1, (double)NAN, NULL},
        {0, 0.3, "The shares are of what this row would lose"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_loss loss = {0};
        loss.causes[SPT_CAUSE_DEBRIS] = (struct spt_cause_share){true, rows[i].debris, 1};
        loss.causes[SPT_CAUSE_SETTING] = (struct spt_cause_share){true, rows[i].setting, 1};
        const char *footnote = spt_share_footnote(&loss);
        cr_expect_eq(footnote == NULL, rows[i].want == NULL, "row %zu", i);
        if (footnote && rows[i].want)
            cr_expect(!strncmp(footnote, rows[i].want, strlen(rows[i].want)), "%s", footnote);
    }
}

Test(sentence, preload_is_told_with_the_one_fact_about_it)
{
    static const enum spt_flag flags[] = {SPT_FLAG_PRELOAD, SPT_FLAG_PRELOAD_CURE};
    cr_expect(strstr(spt_preload_practice(), "None of that heat is in this life."));
    for (int i = 0; i < 2; i++) {
        char text[SPT_SENTENCE_LENGTH];
        const struct spt_note note = {flags[i], 0.08, (double)NAN};
        spt_sentence(&note, text, sizeof text);
        cr_expect(strstr(text, "0.08 mm") && strstr(text, spt_preload_practice()), "%s", text);
        cr_expect(spt_reservation(flags[i]));
    }
}

/* The best setting of a hub is not looked for in a sweep. */
Test(report, a_sweep_tells_every_flag_that_puts_a_life_in_doubt)
{
    size_t length = 0;
    for (int f = 0; f < SPT_FLAG_COUNT; f++) {
        enum spt_flag flag = (enum spt_flag)f;
        /* doubts about the inputs are the same in every row */
        if (spt_reservation(flag) && flag != SPT_FLAG_PRELOAD_CURE &&
            spt_verdict_rule_of(flag).part != SPT_CONCERN_INPUTS)
            cr_expect(spt_sweep_reports(flag), "%s", spt_flag_code(flag));
        length += spt_sweep_reports(flag) ? strlen(spt_flag_code(flag)) + 1 : 0;
    }
    cr_expect_lt(length, SPT_SWEEP_WARNINGS_SIZE - 2);
}

Test(sentence, an_age_limit_is_told_as_a_time_of_the_calendar)
{
    static const struct {
        struct spt_note note;
        const char *want;
    } rows[] = {
        {{SPT_FLAG_CALENDAR_AGE, 2453.1, 20.0 / 12},
         "At this use the life is 2 450 years, beyond the calendar age of 20 months: age decides, "
         "not fatigue."},
        {{SPT_FLAG_CALENDAR_AGE, (double)INFINITY, 1 / 365.25},
         "At this use fatigue sets no limit: the calendar age of 1 day decides."},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[SPT_SENTENCE_LENGTH];
        spt_sentence(&rows[i].note, text, sizeof text);
        cr_expect_str_eq(text, rows[i].want, "%s", text);
    }
}

Test(sentence, hours_just_below_a_thousand_are_no_power_of_ten)
{
    char text[SPT_SENTENCE_LENGTH];
    spt_sentence(&(struct spt_note){SPT_FLAG_GREASE_OVERDUE, 999.9999, 219.6}, text, sizeof text);
    cr_expect(strstr(text, "has run 1 000 h, past its interval of about 220 h"), "%s", text);
}

Test(text, a_ratio_that_is_next_to_nothing_is_no_power_of_ten)
{
    char buffer[SPT_HOURS_LENGTH];
    cr_expect_str_eq(spt_text_ratio(7.14e-5, buffer), "<0.001");
    cr_expect_str_eq(spt_text_ratio(0.000501, buffer), "0.0005");
    cr_expect_str_eq(spt_text_ratio(0, buffer), "0");
}

Test(sentence, tells_the_value_and_the_limit_in_their_units)
{
    static const struct {
        struct spt_note note;
        const char *want;
    } rows[] = {
        {{SPT_FLAG_FATIGUE_LIMIT_ASSUMED, 21463.4, (double)NAN},
         "No fatigue load limit was given: 21.5 kN is taken from the static rating by the "
         "simplified rule."},
        {{SPT_FLAG_MISSED_TARGET, 15234.4, 20000},
         "The life of 15 200 h in the condition as stated misses the target of 20 000 h."},
        {{SPT_FLAG_GREASE_OVERDUE, 1500, 870.4},
         "The grease has run 1 500 h, past its interval of about 870 h: regrease. A life that is "
         "given holds for a bearing whose grease still works; from here on a growing share have "
         "none that does."},
        {{SPT_FLAG_CODE_ROUNDED, SPT_CLEANLINESS_BATH_17_14, (double)NAN},
         "The standard does not list this cleanliness code: it is read as the next dirtier class, "
         "-/17/14."},
        {{SPT_FLAG_HOT_RATING, 163.5, 150},
         "At 164 degC (above 150) the steel loses hardness and "
         "the rating is reduced."},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[SPT_SENTENCE_LENGTH];
        spt_sentence(&rows[i].note, text, sizeof text);
        cr_expect_str_eq(text, rows[i].want, "%s", text);
    }
    char tight[12];
    spt_sentence(&rows[0].note, tight, sizeof tight);
    cr_expect_eq(strlen(tight), sizeof tight - 1, "cut to the capacity, with its NUL");
}

Test(sentence, cautions_end_with_null)
{
    int count = 0;
    for (; spt_caution(count); count++)
        cr_expect_eq(spt_caution(count)[strlen(spt_caution(count)) - 1], '.');
    cr_expect_eq(count, 4);
    cr_expect_null(spt_caution(-1));
}

Test(json, commas_brackets_and_indentation_are_in_place)
{
    struct memory memory;
    struct spt_json json = spt_json_begin(open_memory(&memory)->out);
    spt_json_open(&json, NULL, '{');
    spt_json_text(&json, "a", "x");
    spt_json_open(&json, "list", '[');
    spt_json_number(&json, NULL, 1);
    spt_json_bool(&json, NULL, true);
    spt_json_close(&json, ']');
    spt_json_open(&json, "none", '{');
    spt_json_close(&json, '}');
    spt_json_text(&json, "null", NULL);
    spt_json_close(&json, '}');
    expect_text(&memory,
                "{\n  \"a\": \"x\",\n  \"list\": [\n    1,\n    true\n  ],\n  \"none\": {},\n"
                "  \"null\": null\n}\n",
                "object");
}

Test(json, texts_are_escaped)
{
    struct memory memory;
    struct spt_json json = spt_json_begin(open_memory(&memory)->out);
    spt_json_text(&json, NULL, "a\"b\\c\n\t\x01\x7F/ü€");
    expect_text(&memory, "\"a\\\"b\\\\c\\u000a\\u0009\\u0001\\u007f/ü€\"", "escapes");
    static const char hostile[] = "a\"\0\xff\xe2\x82/€";
    char put[64] = "";
    *spt_json_put(put, hostile, sizeof hostile - 1) = 0;
    cr_expect_str_eq(put, "\"a\\\"\\u0000\\ufffd\\ufffd\\ufffd/€\"", "in memory");
}

Test(json, numbers_read_back_as_the_same_double)
{
    static const double numbers[] = {0,     -0.0,   1,       0.1,     1.0 / 3,           2.385e-300,
                                     1e308, 5e-324, 12345.6, -2.5e17, 4503599627370497.5};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        struct memory memory;
        struct spt_json json = spt_json_begin(open_memory(&memory)->out);
        spt_json_number(&json, NULL, numbers[i]);
        fclose(memory.out);
        cr_expect_eq(strtod(memory.text, NULL), numbers[i], "%s", memory.text);
        cr_expect(json_skip(memory.text) && !*json_skip(memory.text), "%s", memory.text);
        free(memory.text);
    }
    static const struct {
        double number;
        const char *want;
    } rows[] = {{0.1, "0.1"},
                {(double)INFINITY, "null"},
                {-(double)INFINITY, "null"},
                {(double)NAN, "null"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct memory memory;
        struct spt_json json = spt_json_begin(open_memory(&memory)->out);
        spt_json_number(&json, NULL, rows[i].number);
        expect_text(&memory, rows[i].want, "number");
    }
}

/* The reader that the tests of whole commands rely on. */
Test(json, the_reader_of_the_tests_refuses_what_is_no_json)
{
    static const char *const bad[] = {"{",       "[1,]",      "{\"a\":}", "{\"a\" 1}", "{a: 1}",
                                      "[1 2]",   "01",        "1.",       "-",         "\"a",
                                      "\"\\x\"", "nan",       "+1",       "{,}",       "\"a\nb\"",
                                      "[1",      "\"\\u12\"", ".5",       "1e"};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        const char *end = json_skip(bad[i]);
        cr_expect(!end || *end, "%s", bad[i]);
    }
    const char *text = "{\"ab\": [1, {\"b\": null}], \"b\": \"\\u00e9\", \"c\": {}}";
    cr_expect_eq(*json_skip(text), 0);
    cr_expect_eq(*json_find(text, "b"), '"');
    cr_expect_eq(*json_item(json_find(text, "ab"), 0), '1');
    cr_expect_eq(*json_find(json_item(json_find(text, "ab"), 1), "b"), 'n');
    cr_expect_null(json_find(text, "a"));
    cr_expect_null(json_item(json_find(text, "ab"), 2));
    cr_expect_null(json_find(json_find(text, "c"), "x"));
}

/* RFC 4180 for the quotes; a leading = + - @ or tab would be run by a spreadsheet. */
Test(csv, texts_are_quoted_and_formulas_disarmed)
{
    static const struct {
        const char *text, *want;
    } rows[] = {
        {"plain text", "plain text"},
        {"", ""},
        {"a,b", "\"a,b\""},
        {"say \"no\"", "\"say \"\"no\"\"\""},
        {"two\nlines", "\"two\nlines\""},
        {"=1+1", "\"'=1+1\""},
        {"+1", "\"'+1\""},
        {"-/15/12", "\"'-/15/12\""},
        {"@x", "\"'@x\""},
        {"\tx", "\"'\tx\""},
        {"=\"x\"", "\"'=\"\"x\"\"\""},
        {"a=1", "a=1"},
        {"Mühle", "Mühle"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct memory memory;
        struct spt_csv csv = {open_memory(&memory)->out, false};
        spt_csv_text(&csv, rows[i].text);
        expect_text(&memory, rows[i].want, rows[i].text);
        char put[64] = "";
        *spt_csv_put(put, rows[i].text, strlen(rows[i].text)) = 0;
        cr_expect_str_eq(put, rows[i].want, "in memory");
    }
}

Test(csv, cells_and_rows_are_divided)
{
    struct memory memory;
    struct spt_csv csv = {open_memory(&memory)->out, false};
    spt_csv_text(&csv, "");
    spt_csv_number(&csv, 1.0 / 3);
    spt_csv_number(&csv, (double)NAN);
    spt_csv_number(&csv, -(double)INFINITY);
    spt_csv_end(&csv);
    spt_csv_number(&csv, (double)INFINITY);
    spt_csv_number(&csv, 1e-12);
    spt_csv_end(&csv);
    expect_text(&memory, ",0.3333333333,,-inf\ninf,1e-12\n", "rows");
}

static void expect_wrapped(const char *mark, const char *words, const char *want)
{
    struct memory memory;
    const struct spt_text text = {open_memory(&memory)->out, false, 0};
    spt_text_wrap(&text, mark, words);
    expect_text(&memory, want, words);
}

#define TEN "ten chars "
#define EIGHTY "0123456789012345678901234567890123456789012345678901234567890123456789012345678x"

Test(text, is_wrapped_to_80_columns)
{
    expect_wrapped("", "short", "short\n");
    expect_wrapped("- ", "", "- \n");
    expect_wrapped("", EIGHTY, EIGHTY "\n");
    expect_wrapped("", EIGHTY " y", EIGHTY "\ny\n");
    expect_wrapped("- ", TEN TEN TEN TEN TEN TEN TEN TEN "end",
                   "- " TEN TEN TEN TEN TEN TEN TEN "ten\n  chars end\n");
    expect_wrapped("", "a   b", "a b\n");
    /* characters, not bytes: 80 two-byte characters fit */
    char wide[161], want[200];
    for (int i = 0; i < 80; i++)
        memcpy(wide + 2 * i, "ü", 2);
    wide[160] = 0;
    snprintf(want, sizeof want, "%s\n", wide);
    expect_wrapped("", wide, want);
    snprintf(want, sizeof want, "a\n%s\nb\n", wide);
    char words[200];
    snprintf(words, sizeof words, "a %s b", wide);
    expect_wrapped("", words, want);
    expect_wrapped("",
                   EIGHTY "overlong "
                          "y",
                   EIGHTY "\noverlong y\n");
    expect_wrapped("  ", EIGHTY,
                   "  012345678901234567890123456789012345678901234567890123456789"
                   "012345678901234567\n  8x\n");
}

Test(text, a_fitted_cell_has_its_width_in_characters)
{
    static const struct {
        const char *words, *want;
    } rows[] = {{"ab", "ab  "},   {"abcd", "abcd"},  {"abcde", "a~de"},
                {"üöäß", "üöäß"}, {"üöäßé", "ü~ßé"}, {"", "    "}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct memory memory;
        const struct spt_text text = {open_memory(&memory)->out, false, 0};
        spt_text_fit(&text, rows[i].words, 4);
        expect_text(&memory, rows[i].want, rows[i].words);
    }
}

Test(text, hours_have_three_digits_in_groups_of_three)
{
    static const struct {
        double hours;
        const char *want, *life;
    } rows[] = {
        {0, "0", "0 h"},
        {0.0000213, "2e-05", "2e-05 h"},
        {0.0123456, "0.0123", "0.0123 h"},
        {2.385, "2.38", "2.38 h"},
        {99.94, "99.9", "99.9 h"},
        {99.97, "100", "100 h"},
        {870.4, "870", "870 h"},
        {999.96, "1 000", "1 000 h"},
        {12344.9, "12 300", "12 300 h"},
        {999950, "1 000 000", "1 000 000 h"},
        {1.2345e7, "over 1e7", "over 1e7 h"},
        {(double)INFINITY, "no limit", "no limit"},
        {(double)NAN, "none", "none"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char buffer[SPT_HOURS_LENGTH];
        cr_expect_str_eq(spt_text_hours(rows[i].hours, buffer), rows[i].want, "%g: %s",
                         rows[i].hours, buffer);
        cr_expect_str_eq(spt_text_life(rows[i].hours, buffer), rows[i].life, "%g: %s",
                         rows[i].hours, buffer);
    }
}

Test(text, a_cell_is_never_wider_than_five_characters)
{
    static const struct {
        double number;
        const char *want;
    } rows[] = {
        {0, "0"},           {1e-9, "1e-09"},   {2.385e-4, "2e-04"}, {1e-200, "1e-99"},
        {0.00174, "0.002"}, {0.0964, "0.096"}, {0.99949, "0.999"},  {0.9996, "1"},
        {2.385, "2.38"},    {99.94, "99.9"},   {99.96, "100"},      {1500, "1500"},
        {99999.4, "99999"}, {123456, "1e+05"}, {(double)NAN, "-"},  {(double)INFINITY, "inf"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char buffer[SPT_HOURS_LENGTH];
        cr_expect_str_eq(spt_text_cell(rows[i].number, buffer), rows[i].want, "%g: %s",
                         rows[i].number, buffer);
    }
    for (double number = 1e-12; number < 1e12; number *= 1.013) {
        char buffer[SPT_HOURS_LENGTH];
        cr_expect_leq(strlen(spt_text_cell(number, buffer)), 5, "%g: %s", number, buffer);
    }
}

Test(text, ratios_numbers_and_bars)
{
    char buffer[SPT_HOURS_LENGTH];
    cr_expect_str_eq(spt_text_ratio(1.0234, buffer), "1.02");
    cr_expect_str_eq(spt_text_ratio(9.996, buffer), "10");
    cr_expect_str_eq(spt_text_ratio(29.14, buffer), "29.1");
    cr_expect_str_eq(spt_text_ratio((double)NAN, buffer), "-");
    cr_expect_str_eq(spt_text_number(2385.4, buffer), "2385");
    cr_expect_str_eq(spt_text_number(0.012345, buffer), "0.0123");
    cr_expect_str_eq(spt_text_number((double)NAN, buffer), "-");
    static const struct {
        double length, full;
        const char *want;
    } bars[] = {{5, 10, "#####"},     {10, 10, "##########"}, {0.01, 10, "#"},
                {0, 10, ""},          {20, 10, "##########"}, {1, 0, "#"},
                {(double)NAN, 10, ""}};
    for (size_t i = 0; i < sizeof bars / sizeof *bars; i++) {
        struct memory memory;
        const struct spt_text text = {open_memory(&memory)->out, false, 0};
        spt_text_bar(&text, bars[i].length, bars[i].full, 10);
        expect_text(&memory, bars[i].want, "bar");
    }
}

Test(text, colour_is_bold_around_headings_alone)
{
    struct memory memory;
    struct spt_text text = {open_memory(&memory)->out, true, 0};
    spt_text_heading(&text, "FLAGS");
    text.color = false;
    spt_text_heading(&text, "FLAGS");
    expect_text(&memory, "\n\033[1mFLAGS\033[0m\n\nFLAGS\n", "heading");
}

/* a caution about light loads is told, but it does not put a life in doubt */
Test(report, light_loads_are_no_reservation)
{
    cr_expect_null(spt_reservation(SPT_FLAG_LIGHT_LOAD));
    cr_expect_not_null(spt_reservation(SPT_FLAG_OVERLOAD));
    cr_expect_null(spt_reservation(SPT_FLAG_COUNT));
}
