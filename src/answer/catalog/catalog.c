/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/catalog.h"

#include <math.h>
#include <string.h>

#include "answer/life/life.h"
#include "format/csv.h"
#include "scenario/build/build.h"
#include "words/words.h"

#define ATTRIBUTES_MAX 16

/* One value of an entry: a number with its unit, or a text. */
struct attribute {
    const char *key;
    double number; /* NaN for a text */
    const char *text;
};

/* The attributes of an entry, used by every format. */
struct listing {
    int count;
    struct attribute attributes[ATTRIBUTES_MAX];
};

static void add_number(struct listing *listing, const char *key, double number)
{
    if (!isnan(number) && listing->count < ATTRIBUTES_MAX)
        listing->attributes[listing->count++] = (struct attribute){key, number, NULL};
}

static void add_text(struct listing *listing, const char *key, const char *text)
{
    if (text && listing->count < ATTRIBUTES_MAX)
        listing->attributes[listing->count++] = (struct attribute){key, (double)NAN, text};
}

static void list_bearing(struct spt_build *build, const struct spt_node *node,
                         struct listing *listing)
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
                           struct listing *listing)
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
                           struct listing *listing)
{
    struct raw_condition raw;
    spt_section_read(&spt_section_condition, node, &raw, build->diags);
    add_text(listing, "cleanliness", raw.cleanliness);
    add_number(listing, "contamination_factor", raw.contamination_factor);
    add_number(listing, "water_ppm", raw.water_ppm);
    add_number(listing, "grease_age_h", raw.grease_age_h);
}

static bool list_entry(struct spt_arena *arena, const struct spt_catalog_entry *entry,
                       struct listing *listing, struct spt_diagnostics *diags)
{
    struct spt_diagnostics own = {0};
    struct spt_build build = {.arena = arena, .diags = &own};
    *listing = (struct listing){0};
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

static void write_heading(const struct spt_text *text, enum spt_catalog_kind kind)
{
    static const char *const headings[] = {
        "BEARINGS                  type                  d x D x B mm   C kN C0 kN Cu kN",
        "LUBRICANTS                kind               nu40   nu100   VI  EP",
        "CONDITIONS                cleanliness     water ppm  grease age h"};
    spt_text_heading(text, headings[kind]);
}

static double number_of(const struct listing *listing, const char *key)
{
    for (int i = 0; i < listing->count; i++)
        if (!strcmp(listing->attributes[i].key, key))
            return listing->attributes[i].number;
    return (double)NAN;
}

static const char *text_of(const struct listing *listing, const char *key)
{
    for (int i = 0; i < listing->count; i++)
        if (!strcmp(listing->attributes[i].key, key) && listing->attributes[i].text)
            return listing->attributes[i].text;
    return "";
}

static void write_row(const struct spt_text *text, const struct spt_catalog_entry *entry,
                      const struct listing *listing)
{
    char a[SPT_HOURS_LENGTH], b[SPT_HOURS_LENGTH], size[48];
    spt_text_fit(text, entry->name, 25);
    fputc(' ', text->out);
    if (entry->kind == SPT_CATALOG_BEARINGS) {
        spt_text_fit(text, text_of(listing, "type"), 19);
        snprintf(size, sizeof size, "%.4g x %.4g x %.4g", number_of(listing, "bore_mm"),
                 number_of(listing, "outside_diameter_mm"), number_of(listing, "width_mm"));
        fprintf(text->out, "%15s", size);
        static const char *const ratings[] = {"dynamic_load_rating_n", "static_load_rating_n",
                                              "fatigue_load_limit_n"};
        for (int i = 0; i < 3; i++)
            fprintf(text->out, "%*s", i ? 6 : 7,
                    spt_text_cell(number_of(listing, ratings[i]) / 1e3, a));
        fputc('\n', text->out);
    } else if (entry->kind == SPT_CATALOG_LUBRICANTS) {
        spt_text_fit(text, text_of(listing, "kind"), 16);
        fprintf(text->out, " %6.4g %7.3g %4.0f  %s\n", number_of(listing, "viscosity_40_mm2_s"),
                number_of(listing, "viscosity_100_mm2_s"), number_of(listing, "viscosity_index"),
                text_of(listing, "ep_additive"));
    } else {
        spt_text_fit(text, text_of(listing, "cleanliness"), 15);
        fprintf(text->out, " %9s %13s\n", spt_text_number(number_of(listing, "water_ppm"), a),
                spt_text_number(number_of(listing, "grease_age_h"), b));
    }
}

static void write_whole(const struct spt_text *text, const struct spt_catalog_entry *entry,
                        const struct listing *listing)
{
    fprintf(text->out, "%s\n", entry->name);
    for (int i = 0; i < listing->count; i++) {
        const struct attribute *attribute = &listing->attributes[i];
        char mark[40];
        snprintf(mark, sizeof mark, "  %-22s ", attribute->key);
        if (attribute->text)
            spt_text_wrap(text, mark, attribute->text);
        else
            spt_text_wrapf(text, mark, "%.6g", attribute->number);
    }
}

void spt_catalog_text(const struct spt_text *text, const struct spt_catalog *catalog,
                      const struct spt_catalog_question *question, struct spt_diagnostics *diags)
{
    struct spt_arena arena = {0};
    struct listing listing;
    for (int kind = 0; kind < SPT_CATALOG_KIND_COUNT; kind++) {
        bool headed = question->name != NULL;
        for (int i = 0; i < catalog->count; i++) {
            const struct spt_catalog_entry *entry = &catalog->entries[i];
            if ((int)entry->kind != kind || !is_asked(question, entry) ||
                !list_entry(&arena, entry, &listing, diags))
                continue;
            if (!headed)
                write_heading(text, entry->kind);
            headed = true;
            if (question->name)
                write_whole(text, entry, &listing);
            else
                write_row(text, entry, &listing);
        }
    }
    spt_arena_free(&arena);
}

static void write_object(struct spt_json *json, const struct spt_catalog_entry *entry,
                         const struct listing *listing)
{
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "kind", spt_catalog_kind_name(entry->kind));
    spt_json_text(json, "name", entry->name);
    for (int i = 0; i < listing->count; i++)
        if (listing->attributes[i].text)
            spt_json_text(json, listing->attributes[i].key, listing->attributes[i].text);
        else
            spt_json_number(json, listing->attributes[i].key, listing->attributes[i].number);
    spt_json_close(json, '}');
}

void spt_catalog_json(FILE *out, const struct spt_catalog *catalog,
                      const struct spt_catalog_question *question, struct spt_diagnostics *diags)
{
    struct spt_arena arena = {0};
    struct listing listing;
    struct spt_json json = spt_json_begin(out);
    spt_json_open(&json, NULL, '{');
    spt_json_tool(&json);
    spt_json_open(&json, "entries", '[');
    for (int i = 0; i < catalog->count; i++)
        if (is_asked(question, &catalog->entries[i]) &&
            list_entry(&arena, &catalog->entries[i], &listing, diags))
            write_object(&json, &catalog->entries[i], &listing);
    spt_json_close(&json, ']');
    spt_json_close(&json, '}');
    spt_arena_free(&arena);
}

void spt_catalog_csv(FILE *out, const struct spt_catalog *catalog,
                     const struct spt_catalog_question *question, struct spt_diagnostics *diags)
{
    struct spt_arena arena = {0};
    struct listing listing;
    struct spt_csv csv = {out, false};
    static const char *const heads[] = {"kind", "name", "attribute", "value"};
    for (int i = 0; i < 4; i++)
        spt_csv_text(&csv, heads[i]);
    spt_csv_end(&csv);
    for (int i = 0; i < catalog->count; i++) {
        const struct spt_catalog_entry *entry = &catalog->entries[i];
        if (!is_asked(question, entry) || !list_entry(&arena, entry, &listing, diags))
            continue;
        for (int j = 0; j < listing.count; j++) {
            spt_csv_text(&csv, spt_catalog_kind_name(entry->kind));
            spt_csv_text(&csv, entry->name);
            spt_csv_text(&csv, listing.attributes[j].key);
            if (listing.attributes[j].text)
                spt_csv_text(&csv, listing.attributes[j].text);
            else
                spt_csv_number(&csv, listing.attributes[j].number);
            spt_csv_end(&csv);
        }
    }
    spt_arena_free(&arena);
}
