/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/guide.h"
#include "words/table.h"

#include <stddef.h>
#include <string.h>
#include <strings.h>

#define NAMES_MAX 128

/* An entry as written in the file. */
struct raw_damage {
    const struct spt_node *at;
    const char *iso_name, *clause, *source;
    int group, kind, quantified, goes_back, setting_side;
    const struct spt_node *parts[SPT_GUIDE_PART_COUNT];
    const struct spt_node *model_causes, *flags;
};

static const char *const part_names[] = {"names",  "words",     "looks",        "places", "causes",
                                         "checks", "model_can", "model_cannot", "back"};
SPT_ONE_EACH(part_names, SPT_GUIDE_PART_COUNT);
SPT_LOCAL_WORDS(group_words, 6, "rolling contact fatigue", "wear", "corrosion",
                "electrical erosion", "plastic deformation", "cracking and fracture");
SPT_LOCAL_WORDS(kind_words, 2, "mode", "pattern");
SPT_LOCAL_WORDS(quantified_words, SPT_QUANTIFIED_COUNT, "no", "partly", "yes");
SPT_LOCAL_WORDS(return_words, SPT_RETURN_COUNT, "no", "after inspection");

#define NEEDED(k, what, member)                                                                    \
    .key = k, .kind = what, .required = true, .offset = offsetof(struct raw_damage, member),       \
    .dimension = SPT_NO_DIMENSION, .other_dimension = SPT_NO_DIMENSION
#define TEXT(k, member, ex, text)                                                                  \
    {                                                                                              \
        NEEDED(k, SPT_FIELD_TEXT, member), .example = ex, .help = text                             \
    }
#define CHOICE(k, member, choices, ex, text)                                                       \
    {                                                                                              \
        NEEDED(k, SPT_FIELD_CHOICE, member), .words = &choices, .example = ex, .help = text        \
    }
#define LINES(k, part, ex, text)                                                                   \
    {                                                                                              \
        NEEDED(k, SPT_FIELD_LINES, parts[part]), .example = ex, .help = text                       \
    }
#define WORDS(k, member, choices, ex, text)                                                        \
    {                                                                                              \
        NEEDED(k, SPT_FIELD_LINES, member), .words = &choices, .or_none = true, .example = ex,     \
                                            .help = text                                           \
    }

static const struct spt_field damage_fields[] = {
    TEXT("iso_name", iso_name, "False brinelling", "name in ISO 15243:2017"),
    TEXT("clause", clause, "5.3.3.3", "its clause there"),
    CHOICE("group", group, group_words, "corrosion", "its group there"),
    CHOICE("kind", kind, kind_words, "mode", "a mode of the standard or a pattern of the trade"),
    LINES("words", SPT_GUIDE_WORDS, "[standstill marks]", "what people call it, for the search"),
    LINES("looks", SPT_GUIDE_LOOKS, "[dull hollows]", "what it looks like"),
    LINES("places", SPT_GUIDE_PLACES, "[bottom of the cup]", "where it shows first"),
    LINES("causes", SPT_GUIDE_CAUSES, "[vibration at rest]", "usual causes"),
    LINES("checks", SPT_GUIDE_CHECKS, "[how it was carried]", "what to check next"),
    CHOICE("quantified", quantified, quantified_words, "partly", "whether the model rates it"),
    LINES("model_can", SPT_GUIDE_MODEL_CAN, "[flags a standstill]", "what the model can say"),
    LINES("model_cannot", SPT_GUIDE_MODEL_CANNOT, "[how deep it wears]", "what it cannot say"),
    WORDS("model_causes", model_causes, spt_cause_words, "[none]", "causes of lost life behind it"),
    {.key = "setting_side",
     .kind = SPT_FIELD_CHOICE,
     .offset = offsetof(struct raw_damage, setting_side),
     .dimension = SPT_NO_DIMENSION,
     .other_dimension = SPT_NO_DIMENSION,
     .words = &spt_setting_side_words,
     .example = "preload",
     .help = "of the cause setting: the way in which it errs; either where absent"},
    WORDS("flags", flags, spt_flag_words, "[none]", "flags of an answer that speak of it"),
    CHOICE("goes_back", goes_back, return_words, "no", "whether the bearing may go back"),
    LINES("back", SPT_GUIDE_BACK, "[discard it]", "when it may, and when not"),
    TEXT("source", source, "common practice, no source", "where the entry comes from"),
};
static const struct spt_section section_damage = {
    "the damage entry", "one mode of the damage guide", damage_fields,
    (int)(sizeof damage_fields / sizeof *damage_fields), sizeof(struct raw_damage)};

const char *spt_guide_quantified_name(enum spt_guide_quantified quantified)
{
    return spt_word(&quantified_words, (int)quantified);
}

const char *spt_guide_side_name(enum spt_setting_side side)
{
    return spt_word(&spt_setting_side_words, (int)side);
}

const char *spt_guide_return_name(enum spt_guide_return goes_back)
{
    return spt_word(&return_words, (int)goes_back);
}

const char *spt_guide_part_name(enum spt_guide_part part)
{
    return part_names[part];
}

static struct spt_lines copy_lines(struct spt_arena *arena, const struct spt_node *node,
                                   struct spt_diagnostics *diags)
{
    const char **lines = spt_arena_allocate(arena, (size_t)node->count * sizeof *lines);
    if (!lines) {
        diags->out_of_memory = true;
        return (struct spt_lines){0, NULL};
    }
    for (int i = 0; i < node->count; i++)
        lines[i] = node->items[i]->text;
    return (struct spt_lines){node->count, lines};
}

static struct spt_lines copy_names(struct spt_arena *arena, const struct spt_guide_entry *entry,
                                   struct spt_diagnostics *diags)
{
    const char **lines = spt_arena_allocate(arena, 2 * sizeof *lines);
    if (!lines) {
        diags->out_of_memory = true;
        return (struct spt_lines){0, NULL};
    }
    lines[0] = entry->name;
    lines[1] = entry->iso_name;
    return (struct spt_lines){2, lines};
}

/* True for the list "none"; reports "none" in a list with other members. */
static bool says_none(const struct spt_node *list, struct spt_diagnostics *diags)
{
    for (int i = 0; i < list->count; i++) {
        if (strcmp(list->items[i]->text, "none") != 0)
            continue;
        if (list->count > 1)
            spt_diagnostics_add(diags, list->items[i]->mark,
                                "`none` stands alone; take it out of the list, or the others");
        return true;
    }
    return false;
}

static unsigned read_causes(const struct spt_node *list, struct spt_diagnostics *diags)
{
    unsigned set = 0;
    if (says_none(list, diags))
        return 0;
    for (int i = 0; i < list->count; i++)
        for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
            if (!strcmp(list->items[i]->text, spt_cause_name((enum spt_cause)cause)))
                set |= 1u << cause;
    return set;
}

static void read_flags(struct spt_arena *arena, const struct spt_node *list,
                       struct spt_guide_entry *entry, struct spt_diagnostics *diags)
{
    if (says_none(list, diags))
        return;
    enum spt_flag *flags = spt_arena_allocate(arena, (size_t)list->count * sizeof *flags);
    if (!flags) {
        diags->out_of_memory = true;
        return;
    }
    for (int i = 0; i < list->count; i++)
        for (int flag = 0; flag < SPT_FLAG_COUNT; flag++)
            if (!strcmp(list->items[i]->text, spt_flag_code((enum spt_flag)flag)))
                flags[entry->flag_count++] = (enum spt_flag)flag;
    entry->flags = flags;
}

/* False where something is wrong or missing, which was reported, perhaps at an earlier alias. */
static bool is_complete(const struct raw_damage *raw)
{
    for (int part = SPT_GUIDE_WORDS; part < SPT_GUIDE_PART_COUNT; part++)
        if (!raw->parts[part])
            return false;
    return raw->iso_name && raw->clause && raw->source && raw->model_causes && raw->flags &&
           raw->group >= 0 && raw->kind >= 0 && raw->quantified >= 0 && raw->goes_back >= 0;
}

static void read_entry(struct spt_guide *guide, const struct spt_node *key,
                       const struct spt_node *node, struct spt_diagnostics *diags)
{
    struct raw_damage raw;
    struct spt_guide_entry *entry = &guide->entries[guide->count];
    spt_section_read(&section_damage, node, &raw, diags);
    if (!is_complete(&raw))
        return;
    *entry = (struct spt_guide_entry){
        .name = key->text,
        .iso_name = raw.iso_name,
        .clause = raw.clause,
        .group = spt_word(&group_words, raw.group),
        .source = raw.source,
        .pattern = raw.kind == 1,
        .quantified = (enum spt_guide_quantified)raw.quantified,
        .goes_back = (enum spt_guide_return)raw.goes_back,
        .model_causes = read_causes(raw.model_causes, diags),
        .setting_side = raw.setting_side > 0 ? (enum spt_setting_side)raw.setting_side
                                             : SPT_SETTING_SIDE_EITHER,
    };
    read_flags(&guide->arena, raw.flags, entry, diags);
    entry->parts[SPT_GUIDE_NAMES] = copy_names(&guide->arena, entry, diags);
    for (int part = SPT_GUIDE_WORDS; part < SPT_GUIDE_PART_COUNT; part++)
        entry->parts[part] = copy_lines(&guide->arena, raw.parts[part], diags);
    guide->count++;
}

static bool has_name(const struct spt_guide *guide, const char *name)
{
    for (int i = 0; i < guide->count; i++)
        if (!strcasecmp(guide->entries[i].name, name))
            return true;
    return false;
}

static void read_mapping(struct spt_guide *guide, const struct spt_node *node,
                         struct spt_diagnostics *diags)
{
    if (node->kind != SPT_NODE_MAPPING || !node->count) {
        spt_diagnostics_add(diags, node->mark,
                            "`damage` should be a mapping from names of modes to entries");
        return;
    }
    for (int i = 0; i < node->count; i++) {
        const struct spt_node *key = node->keys[i], *entry = node->items[i];
        if (!key->length)
            spt_diagnostics_add(diags, key->mark, "this mode has no name; write one");
        else if (entry->kind != SPT_NODE_MAPPING)
            spt_diagnostics_add(diags, entry->mark,
                                "`%.60s` should be a mapping of keys and values", key->text);
        else if (!has_name(guide, key->text))
            read_entry(guide, key, entry, diags);
    }
}

bool spt_guide_load(const struct spt_catalog *catalog, struct spt_guide *guide,
                    struct spt_diagnostics *diags)
{
    int count = 0;
    *guide = (struct spt_guide){0};
    for (const struct spt_catalog_guide *at = catalog->guides; at; at = at->next)
        count += at->node->count;
    guide->entries =
        spt_arena_allocate(&guide->arena, (size_t)(count + 1) * sizeof *guide->entries);
    if (!guide->entries) {
        diags->out_of_memory = true;
        return false;
    }
    for (const struct spt_catalog_guide *at = catalog->guides; at; at = at->next)
        read_mapping(guide, at->node, diags);
    return !spt_diagnostics_any(diags);
}

static bool goes_by(const struct spt_guide_entry *entry, enum spt_guide_part part, const char *word)
{
    const struct spt_lines *lines = &entry->parts[part];
    for (int i = 0; i < lines->count; i++)
        if (!strcasecmp(lines->lines[i], word))
            return true;
    return false;
}

const struct spt_guide_entry *spt_guide_find(const struct spt_guide *guide, const char *name)
{
    for (int i = 0; i < guide->count; i++)
        if (!strcasecmp(guide->entries[i].name, name))
            return &guide->entries[i];
    for (int i = 0; i < guide->count; i++)
        if (!guide->entries[i].pattern && goes_by(&guide->entries[i], SPT_GUIDE_NAMES, name))
            return &guide->entries[i];
    return NULL;
}

const struct spt_guide_entry *spt_guide_find_word(const struct spt_guide *guide, const char *word)
{
    const struct spt_guide_entry *named = spt_guide_find(guide, word), *only = NULL;
    if (named)
        return named;
    for (int i = 0; i < guide->count; i++) {
        if (!goes_by(&guide->entries[i], SPT_GUIDE_WORDS, word))
            continue;
        if (only)
            return NULL;
        only = &guide->entries[i];
    }
    return only;
}

const char *spt_guide_nearest(const struct spt_guide *guide, const char *name)
{
    const char *names[NAMES_MAX];
    int count = guide->count < NAMES_MAX ? guide->count : NAMES_MAX;
    for (int i = 0; i < count; i++)
        names[i] = guide->entries[i].name;
    return spt_nearest(name, names, count);
}

void spt_guide_free(struct spt_guide *guide)
{
    spt_arena_free(&guide->arena);
    *guide = (struct spt_guide){0};
}
