/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scenario/build/build.h"
#include "scenario/catalog/sheet.h"
#include "support/near.h"

#define HEAD "name,type,d [mm],D [mm],T [mm],C [kN],C0 [kN],e,Y,Y0,a [mm]\n"
#define ROW "one,tapered roller,60,110,29.75,150,176,0.40,1.5,0.82,24\n"

/* A list in memory with what was read from it. */
struct list {
    struct spt_source source;
    struct spt_arena arena;
    struct spt_sheet sheet;
    struct spt_diagnostics diags;
    bool fine;
};

static struct list *read_list(const char *text, size_t length)
{
    struct list *list = calloc(1, sizeof *list);
    list->source = (struct spt_source){"list.csv", text, length};
    list->fine = spt_sheet_read(&list->source, &list->arena, &list->sheet, &list->diags);
    return list;
}

static void free_list(struct list *list)
{
    spt_arena_free(&list->arena);
    free(list);
}

static void build_row(struct list *list, int row, struct spt_bearing *bearing)
{
    struct spt_build build = {.arena = &list->arena, .diags = &list->diags};
    spt_build_bearing(&build, list->sheet.rows[row].node, "the row", bearing);
}

Test(sheet, columns_by_symbol_become_the_bearing_that_a_scenario_would_state)
{
    static const struct {
        const char *what, *text;
    } rows[] = {
        {"commas", HEAD ROW},
        {"a byte-order mark", "\xef\xbb\xbf" HEAD ROW},
        {"another order, round brackets, CR LF, a remark and an empty line",
         "# from the trade\r\n\r\nC0 (kN),name,D (mm),d (mm),B (mm),T (mm),type,Y,Y0,e,a (mm),C (N)\r\n"
         "176,one,110,60,28,29.75,tapered roller,1.5,0.82,0.40,24,150000\r\n"},
        {"semicolons and decimal commas",
         "name;type;d [mm];D [mm];T [mm];C [kN];C0 [kN];e;Y;Y0;a [mm]\n"
         "one;tapered roller;60;110;29,75;150,0;176;0,40;1,5;0,82;24,0\n"},
        {"tabs", "name\ttype\td [mm]\tD [mm]\tT [mm]\tC [kN]\tC0 [kN]\te\tY\tY0\ta [mm]\n"
                 "one\ttapered roller\t60\t110\t29,75\t150\t176\t0,40\t1,5\t0,82\t24\n"},
        {"keys, and units in the cells",
         "name,type,bore,outside diameter,width,dynamic-load-rating,static_load_rating,e,Y,Y0,"
         "load_centre\none,tapered roller,6 cm,110 mm,29.75 mm,150 kN,176 kN,0.40,1.5,0.82,24 mm\n"},
        {"a load centre from the inner ring",
         "name,type,d [mm],D [mm],T [mm],C [kN],C0 [kN],e,Y,Y0,a [mm],a_from\n"
         "one,tapered roller,60,110,29.75,150,176,0.40,1.5,0.82,-5.75,inner\n"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct list *list = read_list(rows[i].text, strlen(rows[i].text));
        struct spt_bearing b;
        cr_assert(list->fine && list->sheet.count == 1, "%s: %s", rows[i].what,
                  list->diags.list[0].text);
        build_row(list, 0, &b);
        cr_assert(!list->diags.count, "%s: %s", rows[i].what, list->diags.list[0].text);
        cr_expect_str_eq(b.name, "one", "%s", rows[i].what);
        cr_expect(near(b.bore_mm, 60, 1e-12, 0) && near(b.outside_diameter_mm, 110, 1e-12, 0) &&
                      near(b.width_mm, 29.75, 1e-12, 0),
                  "%s", rows[i].what);
        cr_expect(near(b.dynamic_load_rating_n, 150e3, 1e-12, 0) &&
                      near(b.static_load_rating_n, 176e3, 1e-12, 0) &&
                      near(b.limit_ratio, 0.4, 1e-12, 0) && near(b.axial_factor, 1.5, 1e-12, 0) &&
                      near(b.static_axial_factor, 0.82, 1e-12, 0) &&
                      near(b.load_centre_mm, 24, 1e-12, 0),
                  "%s", rows[i].what);
        free_list(list);
    }
}

Test(sheet, every_mistake_is_said_at_its_cell)
{
    static const struct {
        const char *text;
        int line, column;
        const char *words;
    } rows[] = {
        {"", 1, 1, "the list is empty"},
        {HEAD, 1, 1, "but no bearing"},
        {"name,type\na,b\n", 1, 1, "lacks a column `bore`"},
        {"name,type,d [mm],D [mm],T [mm],C [kg]\n", 1, 32, "kg a mass: write kgf"},
        {"name,type,d [mm],D [mm],T [mm],C [mm]\n", 1, 32, "unit that does not belong here"},
        {"name,type,d [mm],D [mm],T [mm],Cx [kN]\n", 1, 32, "did you mean `C`"},
        {"name,type,d [mm],D [mm],T [mm],sealing\n", 1, 32, "not a column of a bearing list"},
        {"name,name\n", 1, 6, "two columns `name`"},
        {"name,d [mm\n", 1, 6, "the unit should end the name"},
        {"name,e [mm]\n", 1, 6, "`e` takes no unit"},
        {"name,type,d,D,T,C,C0\na,tapered roller,60,110,29.75,150,176\n", 2, 18,
         "`d` has no unit; add one in brackets"},
        {HEAD ROW ROW, 3, 1, "`one` stands in line 2 already"},
        {HEAD ",tapered roller,60,110,29.75,150,176,0.40,1.5,0.82,24\n", 2, 1, "has no name"},
        {HEAD "a,tapered roller,60,110,29,75,150,176,0.40,1.5,0.82,24\n", 2, 53, "has 12 cells"},
        {HEAD "a,\"tapered\n", 2, 3, "not closed"},
        {"name,type,d [mm],D [mm],T [mm],C [kN],Cr [kN],C0 [kN]\n"
         "a,tapered roller,60,110,29.75,150,150,176\n",
         2, 35, "stated twice"},
        {HEAD "\xff\xfe,tapered roller,60,110,29.75,150,176,0.40,1.5,0.82,24\n", 2, 1, "UTF-8"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct list *list = read_list(rows[i].text, strlen(rows[i].text));
        cr_assert(!list->fine && list->diags.count > 0, "%s", rows[i].text);
        const struct spt_diagnostic *first = &list->diags.list[0];
        cr_expect(strstr(first->text, rows[i].words) && first->mark.line == rows[i].line &&
                      first->mark.column == rows[i].column,
                  "%s\n%d:%d: %s", rows[i].text, first->mark.line, first->mark.column, first->text);
        free_list(list);
    }
}

Test(sheet, a_zero_byte_and_a_value_of_a_row_are_said_at_their_place)
{
    struct list *list = read_list(HEAD "a\0b", sizeof HEAD + 2);
    struct spt_bearing bearing;
    cr_expect(!list->fine && strstr(list->diags.list[0].text, "0x00"), "%s",
              list->diags.list[0].text);
    free_list(list);
    static const char text[] = HEAD "a,tapered roller,60,110,29.75,150,0.1,0.40,1.5,0.82,24\n";
    list = read_list(text, strlen(text));
    cr_assert(list->fine);
    build_row(list, 0, &bearing);
    cr_assert_eq(list->diags.count, 1);
    cr_expect(list->diags.list[0].mark.line == 2 && list->diags.list[0].mark.column == 31 &&
                  strstr(list->diags.list[0].text, "check the units"),
              "%d:%d %s", list->diags.list[0].mark.line, list->diags.list[0].mark.column,
              list->diags.list[0].text);
    free_list(list);
}

/* A list with this many rows. */
static char *make_rows(int count, size_t *length)
{
    char *text = NULL;
    FILE *out = open_memstream(&text, length);
    fputs(HEAD, out);
    for (int i = 0; i < count; i++)
        fprintf(out, "n%d,tapered roller,60,110,29.75,150,176,0.40,1.5,0.82,24\n", i);
    fclose(out);
    return text;
}

Test(sheet, lists_as_long_as_the_limit_are_read_and_longer_ones_refused)
{
    size_t length;
    char *text = make_rows(SPT_SHEET_ROWS_MAX, &length);
    struct list *list = read_list(text, length);
    cr_expect(list->fine && list->sheet.count == SPT_SHEET_ROWS_MAX, "%s",
              list->diags.list[0].text);
    free_list(list);
    free(text);
    text = make_rows(SPT_SHEET_ROWS_MAX + 1, &length);
    list = read_list(text, length);
    cr_expect(!list->fine && strstr(list->diags.list[0].text, "split it"), "%s",
              list->diags.list[0].text);
    free_list(list);
    free(text);
}
