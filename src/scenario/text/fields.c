/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/fields.h"
#include "base/utf8.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define TEXT_MAX 200
#define KEYS_MAX 64
#define CHOICES_MAX 100
#define WORDS_LENGTH 240

static void *member_of(void *into, const struct spt_field *field)
{
    return (char *)into + field->offset;
}

static void clear_member(const struct spt_field *field, void *into)
{
    void *member = member_of(into, field);
    switch (field->kind) {
    case SPT_FIELD_QUANTITY:
        *(double *)member = (double)NAN;
        break;
    case SPT_FIELD_AMOUNT:
        *(struct spt_amount *)member = (struct spt_amount){(double)NAN, SPT_NO_DIMENSION, -1};
        break;
    case SPT_FIELD_INTEGER:
    case SPT_FIELD_CHOICE:
    case SPT_FIELD_YES_NO:
        *(int *)member = -1;
        break;
    case SPT_FIELD_TEXT:
        *(const char **)member = NULL;
        break;
    case SPT_FIELD_SECTION:
        spt_section_clear(field->section, member);
        break;
    case SPT_FIELD_NAMED:
    case SPT_FIELD_MAPPING:
    case SPT_FIELD_LIST:
    case SPT_FIELD_LINES:
        *(const struct spt_node **)member = NULL;
        break;
    }
}

void spt_section_clear(const struct spt_section *section, void *into)
{
    *(const struct spt_node **)into = NULL;
    for (int i = 0; i < section->count; i++)
        clear_member(&section->fields[i], into);
}

/* Writes "one of: a, b, c" to a buffer, shortened with dots where it is too long. */
static const char *join_words(const char *const *words, int count, char *buffer, size_t size)
{
    size_t used = 0;
    buffer[0] = 0;
    for (int i = 0; i < count; i++) {
        size_t length = strlen(words[i]);
        if (used + length + 8 > size) {
            memcpy(buffer + used, ", ...", 6);
            break;
        }
        if (i) {
            memcpy(buffer + used, ", ", 2);
            used += 2;
        }
        memcpy(buffer + used, words[i], length + 1);
        used += length;
    }
    return buffer;
}

/* Lists the keys of a section. Result: their number, at most KEYS_MAX. */
static int collect_keys(const struct spt_section *section, const char **keys)
{
    int count = section->count < KEYS_MAX ? section->count : KEYS_MAX;
    for (int i = 0; i < count; i++)
        keys[i] = section->fields[i].key;
    return count;
}

static const char *join_keys(const struct spt_section *section, char *buffer, size_t size)
{
    const char *keys[KEYS_MAX];
    return join_words(keys, collect_keys(section, keys), buffer, size);
}

/* "; or write `a` or `b`" where words are allowed instead of a number; else an empty text. */
static const char *offer_words(const struct spt_field *field, char *buffer, size_t size)
{
    size_t used = 0;
    *buffer = 0;
    for (int i = 0; field->kind == SPT_FIELD_AMOUNT && field->words && i < field->words->count; i++)
        if (used < size)
            used += (size_t)snprintf(buffer + used, size - used, "%s`%s`",
                                     i ? " or " : "; or write ", field->words->list[i]);
    return buffer;
}

/* "150 kg": a number and a unit of mass. */
static bool spells_mass(const char *text)
{
    size_t length = strlen(text);
    const char *unit = length > 1 ? text + length - 2 : text;
    double number;
    char bare[64];
    snprintf(bare, sizeof bare, "%.*s", (int)(unit - text), text);
    for (size_t i = strlen(bare); i && bare[i - 1] == ' ';)
        bare[--i] = 0;
    return !strcmp(unit, "kg") && !spt_quantity_read(bare, SPT_NO_DIMENSION, &number);
}

static void report_unit(const struct spt_field *field, const struct spt_node *node, bool missing,
                        struct spt_diagnostics *diags)
{
    bool two = field->kind == SPT_FIELD_AMOUNT && field->other_dimension != SPT_NO_DIMENSION;
    char list[2 * WORDS_LENGTH], words[WORDS_LENGTH];
    snprintf(list, sizeof list, "%s%s%s%s", SPT_UNITS_OF(field->dimension), two ? ", " : "",
             two ? SPT_UNITS_OF(field->other_dimension) : "",
             offer_words(field, words, sizeof words));
    if (field->dimension == SPT_NO_DIMENSION)
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` should be a bare number without a unit, such as %s",
                            field->key, node->text, field->example);
    else if (!missing && field->dimension == SPT_FORCE && spells_mass(node->text))
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` is a mass, and a force belongs here: write kgf (the "
                            "weight of a kg), N or kN",
                            field->key, node->text);
    else if (missing)
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` has no unit; add one of: %s (such as %s)", field->key,
                            node->text, list, field->example);
    else
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` has a unit that does not belong here; accepted: %s (such "
                            "as %s)",
                            field->key, node->text, list, field->example);
}

/* Upper limit of a field: that of a phase's time is for hours; a share is at most 1. */
static double upper_limit(const struct spt_field *field, enum spt_dimension dimension)
{
    return dimension == SPT_SHARE ? fmin(field->max, 1) : field->max;
}

/* True for dimensions in which a sign gives the direction. */
static bool has_direction(enum spt_dimension dimension)
{
    return dimension == SPT_FORCE || dimension == SPT_ROTATION || dimension == SPT_ROAD_SPEED;
}

static void report_range(const struct spt_field *field, const struct spt_node *node,
                         enum spt_dimension dimension, struct spt_diagnostics *diags)
{
    struct spt_unit unit; /* unit in which the value was written */
    spt_quantity_unit(node->text, dimension, &unit);
    spt_diagnostics_add(diags, node->mark,
                        "`%s: %.60s` is out of range; it must be %s %.6g to %.6g%s%s%s", field->key,
                        node->text, field->above_min ? "more than" : "from",
                        (field->min - unit.offset) / unit.factor,
                        (upper_limit(field, dimension) - unit.offset) / unit.factor,
                        *unit.name ? " " : "", unit.name,
                        has_direction(dimension) && field->min >= 0 && *node->text == '-'
                            ? "; write the amount, its direction does not count here"
                            : "");
}

static bool in_range(const struct spt_field *field, enum spt_dimension dimension, double value)
{
    return value <= upper_limit(field, dimension) &&
           (field->above_min ? value > field->min : value >= field->min);
}

static bool is_scalar(const struct spt_field *field, const struct spt_node *node,
                      struct spt_diagnostics *diags)
{
    if (node->kind != SPT_NODE_SCALAR)
        spt_diagnostics_add(diags, node->mark,
                            "`%s` should be one value (such as %s), not a list or mapping",
                            field->key, field->example ? field->example : "a text");
    else if (!node->length)
        spt_diagnostics_add(diags, node->mark, "`%s` is empty; write a value (such as %s)",
                            field->key, field->example ? field->example : "a text");
    return node->kind == SPT_NODE_SCALAR && node->length > 0;
}

/* Reads a number of one dimension; NaN with a diagnostic where it is not a number. */
static double read_number(const struct spt_field *field, const struct spt_node *node,
                          enum spt_dimension dimension, struct spt_diagnostics *diags)
{
    double value = (double)NAN;
    char thousands[SPT_READING_LENGTH], decimals[SPT_READING_LENGTH];
    char words[WORDS_LENGTH];
    switch (spt_quantity_read(node->text, dimension, &value)) {
    case SPT_QUANTITY_FINE:
        if (in_range(field, dimension, value))
            return value;
        report_range(field, node, dimension, diags);
        break;
    case SPT_QUANTITY_NO_NUMBER:
        spt_diagnostics_add(diags, node->mark, "`%s: %.60s` should be a number%s, such as %s%s",
                            field->key, node->text,
                            dimension == SPT_NO_DIMENSION ? "" : " with a unit", field->example,
                            offer_words(field, words, sizeof words));
        break;
    case SPT_QUANTITY_NOT_FINITE:
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` is not a finite number; write one such as %s", field->key,
                            node->text, field->example);
        break;
    case SPT_QUANTITY_COMMA:
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` has a comma; write a decimal point, and no mark between "
                            "thousands, such as %s",
                            field->key, node->text, field->example);
        break;
    case SPT_QUANTITY_BLANK:
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` has a blank between digits; write one number without a "
                            "blank in it, such as %s",
                            field->key, node->text, field->example);
        break;
    case SPT_QUANTITY_NO_UNIT:
        report_unit(field, node, true, diags);
        break;
    case SPT_QUANTITY_WRONG_UNIT:
        report_unit(field, node, false, diags);
        break;
    case SPT_QUANTITY_AMBIGUOUS:
        spt_quantity_readings(node->text, thousands, decimals);
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` can be read in two ways; write %s or %s", field->key,
                            node->text, thousands, decimals);
        break;
    }
    return (double)NAN;
}

static struct spt_amount read_amount(const struct spt_field *field, const struct spt_node *node,
                                     struct spt_diagnostics *diags)
{
    struct spt_amount amount = {(double)NAN, SPT_NO_DIMENSION, -1};
    amount.word = field->words ? spt_word_find(field->words, node->text) : -1;
    if (amount.word >= 0)
        return amount;
    double ignored;
    amount.dimension = field->dimension;
    enum spt_quantity_problem other =
        field->other_dimension == SPT_NO_DIMENSION
            ? SPT_QUANTITY_WRONG_UNIT
            : spt_quantity_read(node->text, field->other_dimension, &ignored);
    if (other == SPT_QUANTITY_FINE || other == SPT_QUANTITY_AMBIGUOUS)
        amount.dimension = field->other_dimension;
    amount.value = read_number(field, node, amount.dimension, diags);
    return amount;
}

static int read_integer(const struct spt_field *field, const struct spt_node *node,
                        struct spt_diagnostics *diags)
{
    double value = (double)NAN;
    if (spt_quantity_read(node->text, SPT_NO_DIMENSION, &value) != SPT_QUANTITY_FINE ||
        value != floor(value)) {
        spt_diagnostics_add(diags, node->mark, "`%s: %.60s` should be a whole number, such as %s",
                            field->key, node->text, field->example);
        return -1;
    }
    if (in_range(field, SPT_NO_DIMENSION, value))
        return (int)value;
    report_range(field, node, SPT_NO_DIMENSION, diags);
    return -1;
}

/* Lists the allowed words, "none" first where that is allowed; a long list is truncated. Result:
 * their number. */
static int collect_choices(const struct spt_words *words, bool or_none, const char **choices)
{
    int count = 0;
    if (or_none)
        choices[count++] = "none";
    for (int i = 0; i < words->count && count < CHOICES_MAX; i++)
        choices[count++] = words->list[i];
    return count;
}

static void report_choice(const struct spt_field *field, const struct spt_words *words,
                          const struct spt_node *node, struct spt_diagnostics *diags)
{
    const char *choices[CHOICES_MAX];
    char list[WORDS_LENGTH];
    int count = collect_choices(words, field->or_none, choices);
    join_words(choices, count, list, sizeof list);
    const char *near = spt_nearest(node->text, choices, count);
    if (near)
        spt_diagnostics_add(diags, node->mark,
                            "`%s: %.60s` is not known; did you mean `%s`? (one of: %s)", field->key,
                            node->text, near, list);
    else
        spt_diagnostics_add(diags, node->mark, "`%s: %.60s` is not known; write one of: %s",
                            field->key, node->text, list);
}

/* Index of the word; -1 with a diagnostic where it is not in the list. */
static int read_choice(const struct spt_field *field, const struct spt_words *words,
                       const struct spt_node *node, struct spt_diagnostics *diags)
{
    int found = spt_word_find(words, node->text);
    if (found < 0)
        report_choice(field, words, node, diags);
    return found;
}

static bool is_choice(const struct spt_field *field, const struct spt_node *node,
                      struct spt_diagnostics *diags)
{
    return (field->or_none && !strcmp(node->text, "none")) ||
           read_choice(field, field->words, node, diags) >= 0;
}

static int read_yes_no(const struct spt_field *field, const struct spt_node *node,
                       struct spt_diagnostics *diags)
{
    static const char *const list[] = {"yes", "no", "true", "false", "on", "off"};
    static const struct spt_words known = {list, 6}, told = {list, 2};
    int found = spt_word_find(&known, node->text);
    if (found < 0)
        report_choice(field, &told, node, diags);
    return found < 0 ? -1 : found % 2 == 0;
}

static const char *read_text(const struct spt_field *field, const struct spt_node *node,
                             struct spt_diagnostics *diags)
{
    if (node->length > TEXT_MAX)
        spt_diagnostics_add(diags, node->mark, "`%s` is %zu bytes long; %d are enough", field->key,
                            node->length, TEXT_MAX);
    else if (spt_utf8_line_problem(node->text, node->length))
        spt_diagnostics_add(diags, node->mark, "`%s` should stand on one line, without tabs",
                            field->key);
    else
        return node->text;
    return NULL;
}

static bool is_section(const struct spt_field *field, const struct spt_node *node,
                       struct spt_diagnostics *diags)
{
    char list[WORDS_LENGTH];
    if (node->kind != SPT_NODE_MAPPING)
        spt_diagnostics_add(diags, node->mark,
                            "`%s` should be a mapping of keys and values; its keys are: %s",
                            field->key, join_keys(field->section, list, sizeof list));
    return node->kind == SPT_NODE_MAPPING;
}

static bool is_list(const struct spt_field *field, const struct spt_node *node,
                    struct spt_diagnostics *diags)
{
    if (node->kind == SPT_NODE_SEQUENCE && node->count > 0)
        return true;
    spt_diagnostics_add(diags, node->mark,
                        "`%s` should be a list with one `- ` for each entry, and not empty",
                        field->key);
    return false;
}

/* True for a list of which each member is a valid text, or one of the words of the field. */
static bool are_lines(const struct spt_field *field, const struct spt_node *node,
                      struct spt_diagnostics *diags)
{
    bool sound = is_list(field, node, diags);
    for (int i = 0; sound && i < node->count; i++) {
        const struct spt_node *line = node->items[i];
        sound =
            is_scalar(field, line, diags) &&
            (field->words ? is_choice(field, line, diags) : read_text(field, line, diags) != NULL);
    }
    return sound;
}

static bool is_name_or_section(const struct spt_field *field, const struct spt_node *node,
                               struct spt_diagnostics *diags)
{
    if (node->kind == SPT_NODE_MAPPING || (node->kind == SPT_NODE_SCALAR && node->length > 0))
        return true;
    spt_diagnostics_add(diags, node->mark,
                        "`%s` should be a mapping, or the name of a catalog entry "
                        "(`spalltime catalog` lists them)",
                        field->key);
    return false;
}

static void read_member(const struct spt_field *field, const struct spt_node *node, void *into,
                        struct spt_diagnostics *diags)
{
    void *member = member_of(into, field);
    bool one_value = field->kind < SPT_FIELD_SECTION;
    if (one_value && !is_scalar(field, node, diags))
        return;
    switch (field->kind) {
    case SPT_FIELD_QUANTITY:
        *(double *)member = read_number(field, node, field->dimension, diags);
        break;
    case SPT_FIELD_AMOUNT:
        *(struct spt_amount *)member = read_amount(field, node, diags);
        break;
    case SPT_FIELD_INTEGER:
        *(int *)member = read_integer(field, node, diags);
        break;
    case SPT_FIELD_TEXT:
        *(const char **)member = read_text(field, node, diags);
        break;
    case SPT_FIELD_CHOICE:
        *(int *)member = read_choice(field, field->words, node, diags);
        break;
    case SPT_FIELD_YES_NO:
        *(int *)member = read_yes_no(field, node, diags);
        break;
    case SPT_FIELD_SECTION:
        if (is_section(field, node, diags))
            spt_section_read(field->section, node, member, diags);
        break;
    case SPT_FIELD_NAMED:
        if (is_name_or_section(field, node, diags))
            *(const struct spt_node **)member = node;
        break;
    case SPT_FIELD_MAPPING:
        if (is_section(field, node, diags))
            *(const struct spt_node **)member = node;
        break;
    case SPT_FIELD_LIST:
        if (is_list(field, node, diags))
            *(const struct spt_node **)member = node;
        break;
    case SPT_FIELD_LINES:
        if (are_lines(field, node, diags))
            *(const struct spt_node **)member = node;
        break;
    }
}

const struct spt_field *spt_section_find(const struct spt_section *section, const char *key)
{
    for (int i = 0; i < section->count; i++)
        if (!strcmp(section->fields[i].key, key))
            return &section->fields[i];
    return NULL;
}

static void report_unknown_key(const struct spt_section *section, const struct spt_node *key,
                               struct spt_diagnostics *diags)
{
    const char *keys[KEYS_MAX];
    char list[WORDS_LENGTH];
    int count = collect_keys(section, keys);
    const char *near = spt_nearest(key->text, keys, count);
    if (near)
        spt_diagnostics_add(diags, key->mark, "`%.60s` is not a key of %s; did you mean `%s`?",
                            key->text, section->name, near);
    else
        spt_diagnostics_add(diags, key->mark, "`%.60s` is not a key of %s; its keys are: %s",
                            key->text, section->name, join_keys(section, list, sizeof list));
}

static void report_missing(const struct spt_section *section, const struct spt_field *field,
                           const struct spt_node *mapping, struct spt_diagnostics *diags)
{
    if (field->kind == SPT_FIELD_LIST)
        spt_diagnostics_add(diags, mapping->mark, "%s lacks `%s`; add %s", section->name,
                            field->key, field->example);
    else
        spt_diagnostics_add(diags, mapping->mark, "%s lacks `%s`; add it, such as `%s: %s`",
                            section->name, field->key, field->key, field->example);
}

void spt_section_read(const struct spt_section *section, const struct spt_node *mapping, void *into,
                      struct spt_diagnostics *diags)
{
    spt_section_clear(section, into);
    *(const struct spt_node **)into = mapping;
    for (int i = 0; i < mapping->count; i++) {
        const struct spt_field *field = spt_section_find(section, mapping->keys[i]->text);
        if (field)
            read_member(field, mapping->items[i], into, diags);
        else
            report_unknown_key(section, mapping->keys[i], diags);
    }
    for (int i = 0; i < section->count; i++)
        if (section->fields[i].required && !spt_node_find(mapping, section->fields[i].key))
            report_missing(section, &section->fields[i], mapping, diags);
}
