/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/field_data.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "support/near.h"

static bool read_bytes(const char *text, size_t length, struct spt_field_data *data,
                       struct spt_diagnostics *diags)
{
    char empty[1] = "";
    char bytes[4096];
    cr_assert_lt(length, sizeof bytes);
    memcpy(bytes, text, length);
    FILE *in = fmemopen(length ? bytes : empty, length ? length : 1, "rb");
    if (!length)
        getc(in);
    *diags = (struct spt_diagnostics){0};
    bool fine = spt_field_data_read(in, "f.csv", data, diags);
    fclose(in);
    return fine;
}

static bool read_text(const char *text, struct spt_field_data *data, struct spt_diagnostics *diags)
{
    return read_bytes(text, strlen(text), data, diags);
}

Test(field_data, reads_columns_in_any_order_and_any_unit)
{
    struct spt_field_data data;
    struct spt_diagnostics diags;
    cr_assert(read_text("state,remark,count,distance [miles]\nfailed,\"a, \"\"b\"\"\",3,1000\n"
                        "0,,1,250.5\n",
                        &data, &diags));
    cr_expect_eq(data.rows, 2);
    cr_expect_eq(data.bearings, 4);
    cr_expect_eq(data.dimension, SPT_DISTANCE);
    /* a mile is 1.609344 km */
    cr_expect(near(data.times[0], 1609.344, 1e-12, 0), "%.17g", data.times[0]);
    cr_expect(near(data.times[1], 403.140672, 1e-12, 0), "%.17g", data.times[1]);
    cr_expect(data.failed[0] && !data.failed[1]);
    cr_expect(data.counts[0] == 3 && data.counts[1] == 1);
    spt_field_data_free(&data);
}

Test(field_data, line_ends_marks_quotes_blanks_and_remarks_make_no_difference)
{
    static const char *const texts[] = {
        "time [h],state\n1250.5,failed\n300,running\n",
        "time [h],state\n1250.5,failed\n300,running",
        "time [h],state\r\n1250.5,failed\r\n300,running\r\n",
        "time [h],state\r1250.5,failed\r300,running\r",
        "\xEF\xBB\xBFtime [h],state\n1250.5,failed\n300,running\n",
        "\"time [h]\",\"state\"\n\"1250.5\",\"failed\"\n\"300\" ,running\n",
        "# lives\n\n  time [ h ] , state \n# more\n 1250.5 , 1 \n\n300,0\n\n",
        "time [min],state\n75030,failed\n18000,running\n",
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct spt_field_data data;
        struct spt_diagnostics diags;
        cr_assert(read_text(texts[i], &data, &diags), "text %zu: %s", i, diags.list[0].text);
        cr_expect_eq(data.rows, 2, "text %zu", i);
        cr_expect(near(data.times[0], 1250.5, 1e-12, 0), "text %zu: %.17g", i, data.times[0]);
        cr_expect(near(data.times[1], 300, 1e-12, 0), "text %zu", i);
        cr_expect(data.failed[0] && !data.failed[1], "text %zu", i);
        spt_field_data_free(&data);
    }
}

Test(field_data, capital_letters_make_no_difference)
{
    struct spt_field_data data;
    struct spt_diagnostics diags;
    cr_assert(
        read_text("Distance [KM],STATE,Count\n137.5,Failed,2\n219,RUNNING,3\n", &data, &diags));
    cr_expect_eq(data.dimension, SPT_DISTANCE);
    cr_assert_eq(data.rows, 2);
    cr_expect(data.failed[0] && !data.failed[1]);
    cr_expect_eq(data.times[0], 137.5);
    cr_expect_eq(data.bearings, 5);
    spt_field_data_free(&data);
}

struct mistake {
    const char *text;
    int line, column;
    const char *words;
};

static const struct mistake mistakes[] = {
    {"", 1, 1, "there is nothing in it"},
    {"# only a remark\n", 1, 1, "there is nothing in it"},
    {"time [h],state\n", 2, 1, "no row below"},
    {"tme [h],state\n1,1\n", 1, 1, "did you mean `time`"},
    {"TMI [h],state\n1,1\n", 1, 1, "`TMI` is not a column of field data; did you mean `time`"},
    {"Time,state\n1,1\n", 1, 1, "`time` has no unit"},
    {"Time [h],Time [H],state\n1,1,1\n", 1, 10, "two columns `Time`"},
    {"time [h],state\n1,FAILD\n", 2, 3, "`FAILD` is no state; did you mean `failed`"},
    {"time [h],state,colour\n1,1,red\n", 1, 16, "is not a column"},
    {"time [h];state\n1;1\n", 1, 1, "divided by commas"},
    {"time,state\n1,1\n", 1, 1, "has no unit"},
    {"time [km],state\n1,1\n", 1, 1, "does not belong here"},
    {"time h],state\n1,1\n", 1, 1, "is not a column"},
    {"time [h,state\n1,1\n", 1, 1, "in brackets"},
    {"time [h] x,state\n1,1\n", 1, 1, "in brackets"},
    {"time [h],state [h]\n1,1\n", 1, 10, "takes no unit"},
    {"time [h],state,state\n1,1,1\n", 1, 16, "two columns"},
    {"time [h],distance [km],state\n1,1,1\n", 1, 10, "keep one"},
    {"state,count\n1,1\n", 1, 1, "lacks `time [h]`"},
    {"time [h],count\n1,1\n", 1, 1, "lacks `state`"},
    {"time [h],state\n1\n", 2, 1, "1 cell, the header has 2"},
    {"time [h],state\n1,1,1\n", 2, 1, "3 cells, the header has 2"},
    {"time [h],state\nsoon,1\n", 2, 1, "is not a number"},
    {"time [h],state\n,1\n", 2, 1, "is not a number"},
    {"time [h],state\n1 h,1\n", 2, 1, "stands in the header"},
    {"time [h],state\n\"1,5\",1\n", 2, 1, "has a comma"},
    {"time [h],state\nnan,1\n", 2, 1, "is not a number"},
    {"time [h],state\n-2.5,1\n", 2, 1, "more than 0"},
    {"time [h],state\n0,1\n", 2, 1, "more than 0"},
    {"time [h],state\n2e12,1\n", 2, 1, "no more than 1e12"},
    {"time [h],state\n1,faild\n", 2, 3, "did you mean `failed`"},
    {"time [h],state\n1,2\n", 2, 3, "is no state"},
    {"time [h],state,count\n1,1,0\n", 2, 5, "whole number"},
    {"time [h],state,count\n1,1,2.5\n", 2, 5, "whole number"},
    {"time [h],state,count\n1,1,1000000\n2,1,1\n", 3, 1, "more than 1000000 bearings"},
    {"time [h],state\n1,\"1\n", 2, 3, "not closed"},
    {"time [h],state\n1,\"1\"x\n", 2, 6, "closing quote"},
    {"time [h],state\n1,\x01\n", 2, 4, "control character"},
    {"time [h],state\n1,1\n2,\xC3\xA4,\n", 3, 1, "3 cells"},
    {"\xEF\xBB\xBF\xC3\xA4,state\n1,1\n", 1, 1, "is not a column"},
    {"\xC3\xA4,state [h]\n1,1\n", 1, 3, "takes no unit"},
    {"time [h],state\n1,found\n", 2, 3, "found failed (at a look)"},
    {"time [h],state\n1,found faild\n", 2, 3, "did you mean `found failed`"},
    {"time [h],state,last god [h]\n1,1,\n", 1, 16, "did you mean `last good`"},
    {"time [h],state,last good\n1,1,\n", 1, 16, "`last good` has no unit"},
    {"time [h],state,last good [kN]\n1,1,\n", 1, 16, "does not belong here"},
    {"time [h],state,last good [km]\n1,1,\n", 1, 16, "should be a time, as the column `time` is"},
    {"known_from [h],state,distance [km]\n1,1,2\n", 1, 1, "should be a distance, as the column"},
    {"time [h],state,last good [h]\n900,found failed,900\n", 2, 18, "not before it was found"},
    {"time [h],state,last good [h]\n900,found failed,1200\n", 2, 18, "not before it was found"},
    {"time [h],state,last good [h]\n900,failed,800\n", 2, 12, "`failed` means just then"},
    {"time [h],state,last good [h]\n900,running,800\n", 2, 13, "a running bearing was good"},
    {"time [h],state,last good [h]\n900,found failed,-1\n", 2, 18, "0 or more"},
    {"time [h],state,last good [h]\n900,found failed,soon\n", 2, 18, "is not a number"},
    {"time [h],state,known from [h]\n900,failed,900\n", 2, 12, "had failed already"},
    {"time [h],state,known from [h]\n900,running,1200\n", 2, 13, "had run to its end already"},
    {"time [h],state,known from [h]\n900,running,-3\n", 2, 13, "0 or more"},
    {"time [h],state,known from [h],last good [h]\n900,found failed,500,300\n", 2, 22,
     "before it was known"},
    {"time [h],state,mode\n900,failed,\n", 2, 12, "`mode` is empty"},
    {"time [h],state,mode\n900,running,spall\n", 2, 13, "a running bearing has no mode"},
    {"time [h],state,mode\n1,1,a\n1,1,b\n1,1,c\n1,1,d\n1,1,e\n1,1,f\n1,1,g\n1,1,h\n1,1,i\n1,1,j\n"
     "1,1,k\n1,1,l\n1,1,m\n1,1,n\n1,1,o\n1,1,p\n1,1,q\n1,1,r\n1,1,s\n1,1,t\n1,1,u\n",
     22, 5, "more than 20 modes"},
};

static bool is_said(const struct spt_diagnostics *diags, const struct mistake *mistake)
{
    for (int i = 0; i < diags->count; i++)
        if (diags->list[i].mark.line == mistake->line &&
            diags->list[i].mark.column == mistake->column &&
            strstr(diags->list[i].text, mistake->words))
            return true;
    return false;
}

Test(field_data, each_mistake_is_named_with_its_place)
{
    for (size_t i = 0; i < sizeof mistakes / sizeof *mistakes; i++) {
        const struct mistake *mistake = &mistakes[i];
        struct spt_field_data data;
        struct spt_diagnostics diags;
        cr_expect_not(read_text(mistake->text, &data, &diags), "%s", mistake->text);
        cr_expect(is_said(&diags, mistake), "case %zu (%s): not said at %d:%d; said: %d:%d %s", i,
                  mistake->words, mistake->line, mistake->column, diags.list[0].mark.line,
                  diags.list[0].mark.column, diags.list[0].text);
        spt_field_data_free(&data);
    }
}

Test(field_data, limits_on_cells_rows_and_columns_hold)
{
    struct spt_field_data data;
    struct spt_diagnostics diags;
    char text[600] = "time [h],state,remark\n1,1,";
    memset(text + strlen(text), 'x', 200);
    cr_expect(read_text(text, &data, &diags));
    spt_field_data_free(&data);
    strcat(text, "x");
    cr_expect_not(read_text(text, &data, &diags));
    cr_expect(strstr(diags.list[0].text, "longer than 200 bytes"), "%s", diags.list[0].text);
    spt_field_data_free(&data);
    for (int i = 0; i < 49; i++)
        memcpy(text + 2 * i, i < 48 ? "a," : "a\n", 3);
    cr_expect_not(read_text(text, &data, &diags));
    cr_expect(strstr(diags.list[0].text, "more than 48 cells"), "%s", diags.list[0].text);
    spt_field_data_free(&data);
    cr_expect_not(read_bytes("time [h],state\n1,\0", 18, &data, &diags));
    cr_expect(strstr(diags.list[0].text, "0x00"), "%s", diags.list[0].text);
    spt_field_data_free(&data);
}

/* 100 001 rows through a pipe of their own, so that nothing has to hold them. */
Test(field_data, a_row_beyond_the_limit_is_refused)
{
    for (int extra = 0; extra < 2; extra++) {
        FILE *file = tmpfile();
        struct spt_field_data data;
        struct spt_diagnostics diags = {0};
        cr_assert(file);
        fputs("time [h],state\n", file);
        for (int i = 0; i < SPT_FIELD_ROWS_MAX + extra; i++)
            fprintf(file, "%d,%d\n", 1 + i, i % 2);
        rewind(file);
        cr_expect_eq(spt_field_data_read(file, "f.csv", &data, &diags), !extra);
        cr_expect_eq(data.rows, SPT_FIELD_ROWS_MAX);
        if (extra)
            cr_expect_eq(diags.list[0].mark.line, SPT_FIELD_ROWS_MAX + 2);
        spt_field_data_free(&data);
        fclose(file);
    }
}

static int left_to_give;
static void *give_some(size_t size)
{
    return left_to_give-- > 0 ? malloc(size) : NULL;
}

Test(field_data, running_out_of_memory_is_said_and_leaks_nothing)
{
    for (int n = 0; n < 10; n++) {
        struct spt_field_data data;
        struct spt_diagnostics diags;
        left_to_give = n;
        spt_arena_allocate_with(give_some);
        bool fine = read_text("time [h],state,mode\n1,1,spall\n2,0,\n", &data, &diags);
        spt_arena_allocate_with(NULL);
        cr_expect(fine == (n >= 7), "%d", n);
        cr_expect_eq(diags.out_of_memory, !fine, "%d", n);
        spt_field_data_free(&data);
    }
}

Test(field_data, intervals_late_records_and_modes_are_read)
{
    struct spt_field_data data;
    struct spt_diagnostics diags;
    cr_assert(read_text("Mode,time [h],State,last_good [min],Known From [h],count\n"
                        "spalled cage,900,Found Failed,,,2\n"
                        "Spall,1200,found failed,48000,500,1\n"
                        "spall,1100.5,failed,,0,1\n"
                        ",1300,running,,700,3\n",
                        &data, &diags),
              "%s", diags.list[0].text);
    static const double last_good[] = {0, 800, (double)NAN, (double)NAN};
    static const double known_from[] = {0, 500, 0, 700};
    static const int modes[] = {0, 1, 1, -1};
    cr_assert_eq(data.rows, 4);
    for (int i = 0; i < 4; i++) {
        cr_expect(isnan(last_good[i]) ? isnan(data.last_good[i])
                                      : near(data.last_good[i], last_good[i], 1e-12, 0),
                  "%d: %g", i, data.last_good[i]);
        cr_expect(near(data.known_from[i], known_from[i], 1e-12, 0), "%d", i);
        cr_expect_eq(data.modes[i], modes[i], "%d", i);
        cr_expect_eq(data.failed[i], i < 3, "%d", i);
    }
    cr_assert_eq(data.mode_count, 2);
    cr_expect_str_eq(data.mode_names[0], "spalled cage");
    cr_expect_str_eq(data.mode_names[1], "Spall");
    spt_field_data_free(&data);
}
