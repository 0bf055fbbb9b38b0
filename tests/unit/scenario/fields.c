/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/fields.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "scenario/build/sections.h"
#include "spalltime/bearing.h"
#include "support/near.h"

static const struct spt_node *parse(const char *text, struct spt_arena *arena,
                                    struct spt_diagnostics *diags)
{
    static struct spt_source source;
    source = (struct spt_source){"t", text, strlen(text)};
    return spt_document_read(&source, arena, diags);
}

static void read_phase(const char *text, struct raw_phase *raw, struct spt_diagnostics *diags)
{
    struct spt_arena arena = {0};
    *diags = (struct spt_diagnostics){0};
    spt_section_read(&spt_section_phase, parse(text, &arena, diags), raw, diags);
    spt_arena_free(&arena);
}

Test(fields, an_absent_member_has_the_value_its_kind_names)
{
    struct raw_phase raw;
    struct spt_diagnostics diags;
    read_phase("{phase: a, time: 100 %, temperature: estimate}", &raw, &diags);
    cr_expect_eq(diags.count, 0, "%s", diags.list[0].text);
    cr_expect(raw.temperature.word == 0 && isnan(raw.temperature.value));
    cr_expect_eq(raw.time.dimension, SPT_SHARE);
    cr_expect(near(raw.time.value, 1, 1e-15, 0));
    cr_expect(isnan(raw.speed_rpm) && isnan(raw.cooling.value) && raw.cooling.word == -1);
    cr_expect_null(raw.condition);
    struct raw_lubricant oil;
    memset(&oil, 0x5A, sizeof oil);
    spt_section_clear(&spt_section_lubricant, &oil);
    cr_expect(!oil.at && !oil.name && oil.kind == -1 && oil.ep_additive == -1);
    cr_expect(isnan(oil.density_g_cm3));
    struct raw_bearing bearing;
    memset(&bearing, 0x5A, sizeof bearing);
    spt_section_clear(&spt_section_bearing, &bearing);
    cr_expect(!bearing.geometry.at && bearing.geometry.elements == -1 && bearing.rows == -1);
    cr_expect(isnan(bearing.axial_factors.limit_ratio));
}

Test(fields, an_amount_tells_which_of_its_dimensions_was_written)
{
    struct raw_phase raw;
    struct spt_diagnostics diags;
    read_phase("{phase: a, time: 90 min, temperature: 158 degF}", &raw, &diags);
    cr_expect_eq(diags.count, 0);
    cr_expect_eq(raw.time.dimension, SPT_DURATION);
    cr_expect(near(raw.time.value, 1.5, 1e-14, 0));
    cr_expect(near(raw.temperature.value, 70, 1e-14, 0), "%.17g", raw.temperature.value);
    read_phase("{phase: a, time: 101 %, temperature: 70 degC}", &raw, &diags);
    cr_expect_eq(diags.count, 1);
    cr_expect(isnan(raw.time.value));
}

/* A limit itself is inside unless the table says that it is not. */
Test(fields, limits_are_inside_but_for_those_above_the_least)
{
    struct spt_arena arena = {0};
    const struct spt_section *sections[] = {&spt_section_bearing,   &spt_section_lubricant,
                                            &spt_section_condition, &spt_section_phase,
                                            &spt_section_scenario,  &spt_section_variant};
    int tried = 0;
    for (size_t s = 0; s < sizeof sections / sizeof *sections; s++)
        for (int i = 0; i < sections[s]->count; i++) {
            const struct spt_field *field = &sections[s]->fields[i];
            if (field->kind != SPT_FIELD_QUANTITY || field->dimension == SPT_ANGLE)
                continue;
            const struct {
                double number;
                bool inside;
            } rows[] = {{field->min, !field->above_min},
                        {field->max, true},
                        {field->max * 1.001, false},
                        {field->min - 0.001, false}};
            for (int k = 0; k < 4; k++) {
                char text[120];
                double into[400];
                struct spt_diagnostics diags = {0};
                double scale = field->dimension == SPT_SHARE ? 100 : 1;
                snprintf(text, sizeof text, "{%s: %.17g %s}", field->key, rows[k].number * scale,
                         spt_dimension_unit(field->dimension));
                cr_assert_leq(sections[s]->size, sizeof into);
                const struct spt_node *node = parse(text, &arena, &diags);
                struct spt_section one = {"it", "", field, 1, sections[s]->size};
                struct spt_field optional = *field;
                optional.required = false;
                one.fields = &optional;
                spt_section_read(&one, node, into, &diags);
                cr_expect_eq(diags.count, rows[k].inside ? 0 : 1, "%s: %s", text,
                             diags.count ? diags.list[0].text : "accepted");
                tried++;
            }
        }
    cr_expect_gt(tried, 100);
    spt_arena_free(&arena);
}

/* Every table: keys apart, help and example there, the example itself accepted. */
static void check_table(const struct spt_section *section)
{
    struct spt_arena arena = {0};
    for (int i = 0; i < section->count; i++) {
        const struct spt_field *field = &section->fields[i];
        for (int j = 0; j < i; j++)
            cr_expect_str_neq(field->key, section->fields[j].key);
        cr_expect(field->help && *field->help, "%s", field->key);
        cr_expect_lt(field->offset, section->size, "%s", field->key);
        if (field->kind >= SPT_FIELD_SECTION) {
            cr_expect(field->section || field->kind == SPT_FIELD_LINES, "%s", field->key);
            if (field->kind == SPT_FIELD_SECTION)
                check_table(field->section);
            continue;
        }
        char text[200];
        double into[400];
        struct spt_diagnostics diags = {0};
        struct spt_field optional = *field;
        optional.required = false;
        const struct spt_section one = {"it", "", &optional, 1, section->size};
        cr_assert(field->example && section->size <= sizeof into, "%s", field->key);
        snprintf(text, sizeof text, "%s: %s\n", field->key, field->example);
        spt_section_read(&one, parse(text, &arena, &diags), into, &diags);
        cr_expect_eq(diags.count, 0, "%s%s", text, diags.list[0].text);
    }
    spt_arena_free(&arena);
}

Test(fields, every_example_of_the_tables_is_accepted)
{
    check_table(&spt_section_scenario);
    check_table(&spt_section_bearing);
    check_table(&spt_section_lubricant);
    check_table(&spt_section_condition);
    check_table(&spt_section_phase);
    check_table(&spt_section_variant);
}

static const struct spt_field *find(const struct spt_section *section, const char *key)
{
    for (int i = 0; i < section->count; i++)
        if (!strcmp(section->fields[i].key, key))
            return &section->fields[i];
    return NULL;
}

/* The index of a word becomes the enumerator, so order and spelling have to agree. */
Test(fields, the_words_of_bearing_types_are_the_names_of_the_types)
{
    const struct spt_words *words = find(&spt_section_bearing, "type")->words;
    for (int i = 0; i < words->count; i++)
        cr_expect_str_eq(words->list[i], spt_bearing_type_name((enum spt_bearing_type)i));
    cr_expect_eq(words->count, (int)SPT_BEARING_TYPE_COUNT);
}

Test(fields, yes_and_no_have_three_spellings_each)
{
    static const struct {
        const char *text;
        int want;
    } rows[] = {{"{kind: grease, ep_additive: yes}", 1},  {"{kind: grease, ep_additive: no}", 0},
                {"{kind: grease, ep_additive: true}", 1}, {"{kind: grease, ep_additive: false}", 0},
                {"{kind: grease, ep_additive: on}", 1},   {"{kind: grease, ep_additive: off}", 0},
                {"{kind: grease, ep_additive: Yes}", -1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_arena arena = {0};
        struct spt_diagnostics diags = {0};
        struct raw_lubricant raw;
        spt_section_read(&spt_section_lubricant, parse(rows[i].text, &arena, &diags), &raw, &diags);
        cr_expect_eq(raw.ep_additive, rows[i].want, "%s", rows[i].text);
        cr_expect_eq(diags.count, rows[i].want < 0, "%s", rows[i].text);
        spt_arena_free(&arena);
    }
}
