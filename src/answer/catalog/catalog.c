/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/catalog.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "scenario/build/build.h"
#include "words/words.h"

static void add_number(struct spt_catalog_listing *listing, const char *key, double number)
{
    if (!isnan(number) && listing->count < SPT_ATTRIBUTES_MAX)
        listing->attributes[listing->count++] = (struct spt_attribute){key, number, NULL};
}

static void add_text(struct spt_catalog_listing *listing, const char *key, const char *text)
{
    if (text && listing->count < SPT_ATTRIBUTES_MAX)
        listing->attributes[listing->count++] = (struct spt_attribute){key, (double)NAN, text};
}

static void list_bearing(struct spt_build *build, const struct spt_node *node,
                         struct spt_catalog_listing *listing)
{
    struct spt_bearing bearing;
    spt_build_bearing(build, node, spt_section_bearing.name, &bearing);
    if (spt_diagnostics_any(build->diags))
        return;
    add_text(listing, "type", spt_bearing_type_name(bearing.type));
    add_number(listing, "bore_mm", bearing.bore_mm);
    add_number(listing, "outside_diameter_mm", bearing.outside_diameter_mm);
    add_number(listing, "width_mm", bearing.width_mm);
    add_number(listing, "pitch_diameter_mm", bearing.pitch_diameter_mm);
    add_number(listing, "dynamic_load_rating_n", bearing.dynamic_load_rating_n);
    add_number(listing, "static_load_rating_n", bearing.static_load_rating_n);
    add_number(listing, "fatigue_load_limit_n", bearing.fatigue_load_limit_n);
}

static void list_lubricant(struct spt_build *build, const struct spt_node *node,
                           struct spt_catalog_listing *listing)
{
    struct spt_lubricant oil;
    spt_build_lubricant(build, node, &oil);
    if (spt_diagnostics_any(build->diags))
        return;
    add_text(listing, "kind", spt_word(&spt_lubrication_words, (int)oil.kind));
    add_number(listing, "viscosity_40_mm2_s", oil.viscosity_40_mm2_s);
    add_number(listing, "viscosity_100_mm2_s", oil.viscosity_100_mm2_s);
    add_number(listing, "viscosity_index", oil.viscosity_index);
    add_number(listing, "density_g_cm3", oil.density_g_cm3);
    add_text(listing, "ep_additive", oil.ep_additive ? "yes" : "no");
}

/* Lists only what a condition states, because it may leave its cleanliness to the scenario. */
static void list_condition(struct spt_build *build, const struct spt_node *node,
                           struct spt_catalog_listing *listing)
{
    struct raw_condition raw;
    spt_section_read(&spt_section_condition, node, &raw, build->diags);
    add_text(listing, "cleanliness", raw.cleanliness);
    add_number(listing, "contamination_factor", raw.contamination_factor);
    add_number(listing, "water_ppm", raw.water_ppm);
    add_number(listing, "grease_age_h", raw.grease_age_h);
}

static bool list_entry(struct spt_arena *arena, const struct spt_catalog_entry *entry,
                       struct spt_catalog_listing *listing, struct spt_diagnostics *diags)
{
    struct spt_diagnostics own = {0};
    struct spt_build build = {.arena = arena, .diags = &own};
    *listing = (struct spt_catalog_listing){.entry = entry};
    switch (entry->kind) {
    case SPT_CATALOG_BEARINGS:
        list_bearing(&build, entry->node, listing);
        break;
    case SPT_CATALOG_LUBRICANTS:
        list_lubricant(&build, entry->node, listing);
        break;
    case SPT_CATALOG_CONDITIONS:
        list_condition(&build, entry->node, listing);
        break;
    case SPT_CATALOG_KIND_COUNT:
        break;
    }
    const struct spt_node *source = spt_node_find(entry->node, "source");
    add_text(listing, "source", source ? source->text : NULL);
    diags->out_of_memory = diags->out_of_memory || own.out_of_memory;
    for (int i = 0; i < own.count; i++)
        spt_diagnostics_add(diags, own.list[i].mark, "%s", own.list[i].text);
    return !spt_diagnostics_any(&own);
}

static bool is_asked(const struct spt_catalog_question *question,
                     const struct spt_catalog_entry *entry)
{
    if (!question->all_kinds && entry->kind != question->kind)
        return false;
    return !question->name || !strcmp(question->name, entry->name);
}

bool spt_catalog_list(const struct spt_catalog *catalog,
                      const struct spt_catalog_question *question, struct spt_arena *arena,
                      struct spt_catalog_answer *answer, struct spt_diagnostics *diags)
{
    *answer = (struct spt_catalog_answer){.question = question};
    answer->listings = spt_arena_allocate(arena, (size_t)catalog->count * sizeof *answer->listings);
    if (!answer->listings) {
        diags->out_of_memory = true;
        return false;
    }
    for (int i = 0; i < catalog->count; i++)
        if (is_asked(question, &catalog->entries[i]) &&
            list_entry(arena, &catalog->entries[i], &answer->listings[answer->count], diags))
            answer->count++;
    return !spt_diagnostics_any(diags);
}

static double number_of(const struct spt_catalog_listing *listing, const char *key)
{
    for (int i = 0; i < listing->count; i++)
        if (!strcmp(listing->attributes[i].key, key))
            return listing->attributes[i].number;
    return (double)NAN;
}

static const char *text_of(const struct spt_catalog_listing *listing, const char *key)
{
    for (int i = 0; i < listing->count; i++)
        if (!strcmp(listing->attributes[i].key, key) && listing->attributes[i].text)
            return listing->attributes[i].text;
    return "";
}

/* An entry among others of its kind, which gives the three numbers a meaning. */
struct entry_row {
    const char *name, *what, *size, *additive;
    double numbers[3];
};

static struct entry_row make_row(struct spt_page *page, const struct spt_catalog_listing *listing)
{
    static const struct {
        const char *what, *numbers[3];
        double unit;
    } kinds[SPT_CATALOG_KIND_COUNT] = {
        [SPT_CATALOG_BEARINGS] = {"type",
                                  {"dynamic_load_rating_n", "static_load_rating_n",
                                   "fatigue_load_limit_n"},
                                  1e3},
        [SPT_CATALOG_LUBRICANTS] =
            {"kind", {"viscosity_40_mm2_s", "viscosity_100_mm2_s", "viscosity_index"}, 1},
        [SPT_CATALOG_CONDITIONS] = {"cleanliness", {"water_ppm", "grease_age_h", ""}, 1},
    };
    const enum spt_catalog_kind kind = listing->entry->kind;
    struct entry_row row = {
        .name = listing->entry->name,
        .what = text_of(listing, kinds[kind].what),
        .size = spt_page_words(page, "%.4g x %.4g x %.4g", number_of(listing, "bore_mm"),
                               number_of(listing, "outside_diameter_mm"),
                               number_of(listing, "width_mm")),
        .additive = text_of(listing, "ep_additive"),
    };
    for (int i = 0; i < 3; i++)
        row.numbers[i] = number_of(listing, kinds[kind].numbers[i]) / kinds[kind].unit;
    return row;
}

#define NAME(title)                                                                                \
    {                                                                                              \
        .head = (title), .kind = SPT_WORDS, .width = 25, .at = offsetof(struct entry_row, name)    \
    }
#define WHAT(title, wide)                                                                          \
    {                                                                                              \
        .head = (title), .kind = SPT_WORDS, .width = (wide), .gap = 1,                             \
        .at = offsetof(struct entry_row, what)                                                     \
    }
#define NUMBER(title, of, figures, wide, apart, index)                                             \
    {                                                                                              \
        .head = (title), .kind = (of), .digits = (figures), .width = (wide), .gap = (apart),       \
        .at = offsetof(struct entry_row, numbers[index])                                           \
    }

static const struct spt_column bearing_columns[] = {
    NAME("BEARINGS"),
    WHAT("type", 19),
    {.head = "d x D x B mm", .kind = SPT_DAY, .width = 15, .at = offsetof(struct entry_row, size)},
    NUMBER("C kN", SPT_CELL, 0, 6, 1, 0),
    NUMBER("C0 kN", SPT_CELL, 0, 5, 1, 1),
    NUMBER("Cu kN", SPT_CELL, 0, 5, 1, 2),
};

static const struct spt_column lubricant_columns[] = {
    NAME("LUBRICANTS"),
    WHAT("kind", 16),
    NUMBER("nu40", SPT_GENERAL, 4, 6, 1, 0),
    NUMBER("nu100", SPT_GENERAL, 3, 7, 1, 1),
    NUMBER("VI", SPT_FIXED, 0, 4, 1, 2),
    {.head = "EP",
     .kind = SPT_WORDS,
     .width = 3,
     .gap = 2,
     .at = offsetof(struct entry_row, additive)},
};

static const struct spt_column condition_columns[] = {
    NAME("CONDITIONS"),
    WHAT("cleanliness", 15),
    NUMBER("water ppm", SPT_NUMBER, 0, 9, 1, 0),
    NUMBER("grease age h", SPT_NUMBER, 0, 13, 1, 1),
};

#define COLUMNS(array)                                                                             \
    {                                                                                              \
        array, (int)(sizeof(array) / sizeof *(array))                                              \
    }

/* The entries of a kind as a table of their own. */
static void show_kind(struct spt_page *page, const struct spt_catalog_answer *answer,
                      enum spt_catalog_kind kind)
{
    static const struct {
        const struct spt_column *columns;
        int count;
    } kinds[SPT_CATALOG_KIND_COUNT] = {
        [SPT_CATALOG_BEARINGS] = COLUMNS(bearing_columns),
        [SPT_CATALOG_LUBRICANTS] = COLUMNS(lubricant_columns),
        [SPT_CATALOG_CONDITIONS] = COLUMNS(condition_columns),
    };
    struct entry_row *rows = spt_page_allocate(page, (size_t)answer->count * sizeof *rows);
    int count = 0;
    for (int i = 0; rows && i < answer->count; i++)
        if (answer->listings[i].entry->kind == kind)
            rows[count++] = make_row(page, &answer->listings[i]);
    spt_page_table(page, spt_catalog_kind_name(kind),
                   &(struct spt_table){.columns = kinds[kind].columns,
                                       .column_count = kinds[kind].count,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = count,
                                       .apart = true});
}

/* One entry with all that is known of it. */
static void say_entry(struct spt_page *page, const struct spt_catalog_listing *listing)
{
    for (int i = 0; i < listing->count; i++) {
        const struct spt_attribute *attribute = &listing->attributes[i];
        const char *mark = spt_page_words(page, "  %-22s ", attribute->key);
        if (attribute->text)
            spt_page_say(page, SPT_BODY, mark, "%s", spt_page_name(page, attribute->text));
        else
            spt_page_say(page, SPT_BODY, mark, "%.6g", attribute->number);
    }
}

struct attribute_row {
    const char *kind, *name, *key, *text;
    double number; /* NaN for a text */
};

static int count_attributes(const struct spt_catalog_answer *answer)
{
    int count = 0;
    for (int i = 0; i < answer->count; i++)
        count += answer->listings[i].count;
    return count;
}

/* One row for each attribute of each entry. */
static void keep_attributes(struct spt_page *page, const struct spt_catalog_answer *answer)
{
    static const struct spt_column columns[] = {
        {.key = "kind", .kind = SPT_WORDS, .at = offsetof(struct attribute_row, kind)},
        {.key = "name", .kind = SPT_WORDS, .at = offsetof(struct attribute_row, name)},
        {.key = "attribute", .kind = SPT_WORDS, .at = offsetof(struct attribute_row, key)},
        {.key = "value",
         .kind = SPT_NUMBER,
         .at = offsetof(struct attribute_row, number),
         .instead = offsetof(struct attribute_row, text)},
    };
    const int count = count_attributes(answer);
    struct attribute_row *row = spt_page_allocate(page, (size_t)count * sizeof *row);
    spt_page_table(page, "attributes",
                   &(struct spt_table){SPT_TABLE_OF(columns, row, count), .is_data = true});
    for (int i = 0; row && i < answer->count; i++)
        for (int j = 0; j < answer->listings[i].count; j++) {
            const struct spt_catalog_listing *listing = &answer->listings[i];
            const struct spt_attribute *attribute = &listing->attributes[j];
            *row++ = (struct attribute_row){spt_catalog_kind_name(listing->entry->kind),
                                            listing->entry->name, attribute->key, attribute->text,
                                            attribute->number};
        }
}

void spt_catalog_page(struct spt_page *page, const struct spt_catalog_answer *answer)
{
    for (int i = 0; answer->question->name && i < answer->count; i++)
        say_entry(page, &answer->listings[i]);
    for (int kind = 0; !answer->question->name && kind < SPT_CATALOG_KIND_COUNT; kind++)
        show_kind(page, answer, (enum spt_catalog_kind)kind);
    keep_attributes(page, answer);
}

static void write_object(struct spt_json *json, const struct spt_catalog_listing *listing)
{
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "kind", spt_catalog_kind_name(listing->entry->kind));
    spt_json_text(json, "name", listing->entry->name);
    for (int i = 0; i < listing->count; i++)
        if (listing->attributes[i].text)
            spt_json_text(json, listing->attributes[i].key, listing->attributes[i].text);
        else
            spt_json_number(json, listing->attributes[i].key, listing->attributes[i].number);
    spt_json_close(json, '}');
}

void spt_catalog_json(struct spt_json *json, const struct spt_catalog_answer *answer)
{
    spt_json_open(json, "entries", '[');
    for (int i = 0; i < answer->count; i++)
        write_object(json, &answer->listings[i]);
    spt_json_close(json, ']');
}
