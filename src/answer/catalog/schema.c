/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/schema.h"

#include <math.h>
#include <string.h>

#include "scenario/build/sections.h"
#include "scenario/build/symbols.h"
#include "scenario/case_file.h"

#define PATTERN_LENGTH 800
#define TEXT_LENGTH 200 /* the limit of the reader */
#define SIGN_PATTERN "[-+]?"
#define PLUS_PATTERN "[+]?"
#define NUMBER_PATTERN "([0-9]+\\.?[0-9]*|\\.[0-9]+)([eE][-+]?[0-9]+)?"

/* `whole`: every required key must be present; a change (variant, event) needs only the keys that
 * identify its parts. */
static void write_section(struct spt_json *json, const struct spt_section *section, bool whole);

static size_t append(char *pattern, size_t used, const char *text)
{
    int added = snprintf(pattern + used, PATTERN_LENGTH - used, "%s", text);
    return used + (added > 0 ? (size_t)added : 0);
}

/* Appends the unit names of a dimension as alternatives of a regular expression, escaping the few
 * special characters. */
static size_t append_units(char *pattern, size_t used, enum spt_dimension dimension)
{
    for (int i = 0; spt_unit_name(dimension, i); i++) {
        if (used && pattern[used - 1] != '(')
            used = append(pattern, used, "|");
        for (const char *at = spt_unit_name(dimension, i); *at; at++) {
            char one[3] = {*at, 0, 0};
            if (strchr("^()", *at)) {
                one[0] = '\\';
                one[1] = *at;
            }
            used = append(pattern, used, one);
        }
    }
    return used;
}

static void write_limits(struct spt_json *json, const struct spt_field *field)
{
    spt_json_number(json, field->above_min ? "exclusiveMinimum" : "minimum", field->min);
    spt_json_number(json, "maximum", field->max);
}

/* False where a value below 0 is rejected in any unit: only temperature units have different zero
 * points. */
static bool may_be_negative(const struct spt_field *field)
{
    return field->min < 0 || field->dimension == SPT_TEMPERATURE;
}

static void write_quantity(struct spt_json *json, const struct spt_field *field)
{
    char pattern[PATTERN_LENGTH] = "";
    if (field->dimension == SPT_NO_DIMENSION) {
        spt_json_text(json, "type", "number");
        write_limits(json, field);
        return;
    }
    size_t used = append(pattern, 0, "^");
    for (int i = 0; field->kind == SPT_FIELD_AMOUNT && field->words && i < field->words->count;
         i++) {
        used = append(pattern, used, field->words->list[i]);
        used = append(pattern, used, "$|^");
    }
    used = append(pattern, used, may_be_negative(field) ? SIGN_PATTERN : PLUS_PATTERN);
    used = append(pattern, used, NUMBER_PATTERN " *(");
    used = append_units(pattern, used, field->dimension);
    if (field->kind == SPT_FIELD_AMOUNT && field->other_dimension != SPT_NO_DIMENSION)
        used = append_units(pattern, used, field->other_dimension);
    append(pattern, used, ")$");
    spt_json_text(json, "type", "string");
    spt_json_text(json, "pattern", pattern);
}

/* A text that looks like a number is a number to YAML ("name: 6205"). */
static void write_text(struct spt_json *json)
{
    spt_json_open(json, "type", '[');
    spt_json_text(json, NULL, "string");
    spt_json_text(json, NULL, "number");
    spt_json_close(json, ']');
    spt_json_number(json, "minLength", 1);
    spt_json_number(json, "maxLength", TEXT_LENGTH);
}

/* Editors read YAML 1.2, where yes and no are words; others read 1.1, where they are booleans. */
static void write_yes_no(struct spt_json *json)
{
    static const char *const words[] = {"yes", "no", "on", "off"};
    spt_json_open(json, "enum", '[');
    spt_json_bool(json, NULL, true);
    spt_json_bool(json, NULL, false);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        spt_json_text(json, NULL, words[i]);
    spt_json_close(json, ']');
}

/* Writes the rule that exactly one of some keys must be present. */
static void write_one_of(struct spt_json *json, const char *const *keys)
{
    spt_json_open(json, "oneOf", '[');
    for (; *keys; keys++) {
        spt_json_open(json, NULL, '{');
        spt_json_open(json, "required", '[');
        spt_json_text(json, NULL, *keys);
        spt_json_close(json, ']');
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_words(struct spt_json *json, const struct spt_field *field)
{
    spt_json_open(json, "enum", '[');
    if (field->or_none)
        spt_json_text(json, NULL, "none");
    for (int i = 0; i < field->words->count; i++)
        spt_json_text(json, NULL, field->words->list[i]);
    spt_json_close(json, ']');
}

/* A name or a section. */
static void write_either(struct spt_json *json, const struct spt_field *field, bool whole)
{
    spt_json_open(json, "anyOf", '[');
    spt_json_open(json, NULL, '{');
    write_text(json);
    spt_json_close(json, '}');
    spt_json_open(json, NULL, '{');
    write_section(json, field->section, whole);
    spt_json_close(json, '}');
    spt_json_close(json, ']');
}

static void write_items(struct spt_json *json, const struct spt_field *field, bool whole)
{
    write_section(json, field->section, whole);
}

static void write_list(struct spt_json *json, const struct spt_field *field, bool whole)
{
    spt_json_text(json, "type", "array");
    spt_json_number(json, "minItems", 1);
    spt_json_open(json, "items", '{');
    (field->or_name ? write_either : write_items)(json, field, whole);
    spt_json_close(json, '}');
}

static void write_lines(struct spt_json *json, const struct spt_field *field)
{
    spt_json_text(json, "type", "array");
    spt_json_open(json, "items", '{');
    if (field->words)
        write_words(json, field);
    else
        write_text(json); /* a number without a unit may be written as text too */
    spt_json_close(json, '}');
}

/* `key`: that of the field, or a trade symbol for it. */
static void write_field(struct spt_json *json, const char *key, const struct spt_field *field,
                        bool whole)
{
    spt_json_open(json, key, '{');
    spt_json_text(json, "description", field->help);
    switch (field->kind) {
    case SPT_FIELD_QUANTITY:
    case SPT_FIELD_AMOUNT:
        write_quantity(json, field);
        break;
    case SPT_FIELD_INTEGER:
        spt_json_text(json, "type", "integer");
        write_limits(json, field);
        break;
    case SPT_FIELD_TEXT:
        write_text(json);
        break;
    case SPT_FIELD_CHOICE:
        write_words(json, field);
        break;
    case SPT_FIELD_YES_NO:
        write_yes_no(json);
        break;
    case SPT_FIELD_SECTION:
    case SPT_FIELD_MAPPING:
        write_section(json, field->section, whole);
        break;
    case SPT_FIELD_NAMED:
        write_either(json, field, whole);
        break;
    case SPT_FIELD_LIST:
        write_list(json, field, whole);
        break;
    case SPT_FIELD_LINES:
        write_lines(json, field);
        break;
    }
    spt_json_close(json, '}');
}

/* The trade symbols that stand for keys of a bearing. */
static void write_symbols(struct spt_json *json, bool whole)
{
    for (int i = 0; spt_symbol_at(i); i++) {
        const struct spt_symbol *symbol = spt_symbol_at(i);
        write_field(json, symbol->text,
                    spt_section_find(spt_symbol_section(symbol->inside), symbol->key), whole);
    }
}

static void write_keys(struct spt_json *json, const struct spt_section *section, bool whole)
{
    for (int i = 0; i < section->count; i++)
        write_field(json, section->fields[i].key, &section->fields[i], whole);
}

/* Names that only other files know, each with a text. */
static void write_any_names(struct spt_json *json)
{
    spt_json_text(json, "type", "object");
    spt_json_open(json, "additionalProperties", '{');
    write_text(json);
    spt_json_close(json, '}');
}

static void write_required(struct spt_json *json, const struct spt_section *section, bool whole)
{
    spt_json_open(json, "required", '[');
    for (int i = 0; i < section->count; i++)
        if (section->fields[i].required && (whole || section->fields[i].kind == SPT_FIELD_TEXT))
            spt_json_text(json, NULL, section->fields[i].key);
    spt_json_close(json, ']');
}

static void write_section(struct spt_json *json, const struct spt_section *section, bool whole)
{
    static const char *const machines[] = {"bearing", "hub", "machine", NULL};
    static const char *const settings[] = {"end_play", "preload", "preload_force", NULL};
    bool change = section == &spt_section_variant || section == &spt_section_event;
    if (!section->size) {
        write_any_names(json);
        return;
    }
    spt_json_text(json, "type", "object");
    spt_json_bool(json, "additionalProperties", false);
    spt_json_open(json, "properties", '{');
    write_keys(json, section, whole && !change);
    if (section == &spt_section_bearing)
        write_symbols(json, whole);
    spt_json_close(json, '}');
    write_required(json, section, whole);
    if (section == &spt_section_scenario)
        write_one_of(json, machines);
    if (whole && section == &spt_section_hub)
        write_one_of(json, settings);
}

/* The cases of one file, each without what they have in common. */
static void write_cases(struct spt_json *json, const struct spt_section *section)
{
    spt_json_open(json, "cases", '{');
    spt_json_text(json, "description", "cases, each laid over the keys beside this list");
    spt_json_text(json, "type", "array");
    spt_json_number(json, "minItems", 1);
    spt_json_open(json, "items", '{');
    spt_json_text(json, "type", "object");
    spt_json_bool(json, "additionalProperties", false);
    spt_json_open(json, "properties", '{');
    write_keys(json, section, true);
    spt_json_close(json, '}');
    spt_json_close(json, '}');
    spt_json_close(json, '}');
}

/* One case, or several under `cases`. */
static void write_case_file(struct spt_json *json, const struct spt_section *section)
{
    spt_json_text(json, "type", "object");
    spt_json_bool(json, "additionalProperties", false);
    spt_json_open(json, "properties", '{');
    write_keys(json, section, true);
    write_cases(json, section);
    spt_json_close(json, '}');
    spt_json_open(json, "anyOf", '[');
    spt_json_open(json, NULL, '{');
    write_required(json, section, true);
    spt_json_close(json, '}');
    spt_json_open(json, NULL, '{');
    spt_json_open(json, "required", '[');
    spt_json_text(json, NULL, "cases");
    spt_json_close(json, ']');
    spt_json_close(json, '}');
    spt_json_close(json, ']');
}

void spt_schema_json(FILE *out, enum spt_schema_of of)
{
    struct spt_json json = spt_json_begin(out);
    const bool scenario = of == SPT_SCHEMA_SCENARIO;
    spt_json_open(&json, NULL, '{');
    spt_json_text(&json, "$schema", "http://json-schema.org/draft-07/schema#");
    spt_json_text(&json, "title", scenario ? "spalltime scenario" : "spalltime damage cases");
    if (scenario)
        write_section(&json, &spt_section_scenario, true);
    else
        write_case_file(&json, &spt_section_damage_case);
    spt_json_close(&json, '}');
}

#define KIND_LENGTH 400

/* Describes what may follow the colon. */
static const char *tell_kind(const struct spt_field *field, char *kind)
{
    bool number = field->kind == SPT_FIELD_QUANTITY || field->kind == SPT_FIELD_AMOUNT;
    bool two = field->kind == SPT_FIELD_AMOUNT && field->other_dimension != SPT_NO_DIMENSION;
    int used = 0;
    kind[0] = 0;
    if (number && field->dimension != SPT_NO_DIMENSION)
        used = snprintf(kind, KIND_LENGTH, " [%s%s%s", SPT_UNITS_OF(field->dimension),
                        two ? ", " : "", two ? SPT_UNITS_OF(field->other_dimension) : "");
    for (int i = 0; used && field->words && i < field->words->count; i++)
        used +=
            snprintf(kind + used, (size_t)(KIND_LENGTH - used), ", or %s", field->words->list[i]);
    if (used)
        snprintf(kind + used, (size_t)(KIND_LENGTH - used), "]");
    int count = field->kind == SPT_FIELD_CHOICE ? field->words->count : 0;
    for (int i = 0; i < count && used < KIND_LENGTH; i++)
        used += snprintf(kind + used, (size_t)(KIND_LENGTH - used), "%s%s%s", i ? " | " : " [",
                         field->words->list[i], i + 1 < count ? "" : "]");
    return kind;
}

static void write_reference(const struct spt_text *text, const struct spt_section *section,
                            int depth)
{
    for (int i = 0; i < section->count; i++) {
        const struct spt_field *field = &section->fields[i];
        char head[40 + SPT_TEXT_WIDTH], kind[KIND_LENGTH];
        snprintf(head, sizeof head, "%*s%s:", 2 * depth, "", field->key);
        spt_text_wrapf(text, head, "%s%s", tell_kind(field, kind),
                       field->required ? "  (needed)" : "");
        char indent[40];
        snprintf(indent, sizeof indent, "%*s", 2 * depth + 6, "");
        spt_text_wrap(text, indent, field->help);
        /* a variant repeats sections that are listed already */
        bool listed = section == &spt_section_variant ||
                      (section == &spt_section_hub && field->section == &spt_section_bearing) ||
                      (section == &spt_section_phase && field->section == &spt_section_condition);
        if (field->section && !listed)
            write_reference(text, field->section, depth + 1);
    }
}

void spt_schema_text(const struct spt_text *text, enum spt_schema_of of)
{
    write_reference(
        text, of == SPT_SCHEMA_SCENARIO ? &spt_section_scenario : &spt_section_damage_case, 0);
}
