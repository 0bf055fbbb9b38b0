/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/build/symbols.h"

#include <string.h>

#include "scenario/build/sections.h"

#define FACTORS "axial_factors"
#define INSIDES "geometry"

/* Symbols of ISO 281, ISO 76 and ISO 15241, and the other spellings that sheets use (common
 * practice, no source). */
static const struct spt_symbol symbols[] = {
    {"d", NULL, "bore"},
    {"D", NULL, "outside_diameter"},
    {"T", NULL, "width"},
    {"B", NULL, "width"},
    {"W", NULL, "width"},
    {"H", NULL, "width"},
    {"C", NULL, "dynamic_load_rating"},
    {"Cr", NULL, "dynamic_load_rating"},
    {"C_r", NULL, "dynamic_load_rating"},
    {"Ca", NULL, "dynamic_load_rating"},
    {"C0", NULL, "static_load_rating"},
    {"C_0", NULL, "static_load_rating"},
    {"Co", NULL, "static_load_rating"},
    {"C0r", NULL, "static_load_rating"},
    {"Cor", NULL, "static_load_rating"},
    {"C0a", NULL, "static_load_rating"},
    {"Cu", NULL, "fatigue_load_limit"},
    {"C_u", NULL, "fatigue_load_limit"},
    {"Pu", NULL, "fatigue_load_limit"},
    {"P_u", NULL, "fatigue_load_limit"},
    {"a", NULL, "load_centre"},
    {"a_from", NULL, "load_centre_from"},
    {"alpha", NULL, "contact_angle"},
    {"i", NULL, "rows"},
    {"Dpw", NULL, "pitch_diameter"},
    {"D_pw", NULL, "pitch_diameter"},
    {"n_max", NULL, "speed_limit"},
    {"m", NULL, "mass"},
    {"e", FACTORS, "e"},
    {"X", FACTORS, "X"},
    {"Y", FACTORS, "Y"},
    {"Y1", FACTORS, "Y1"},
    {"Y2", FACTORS, "Y"},
    {"Y0", FACTORS, "Y0"},
    {"Yo", FACTORS, "Y0"},
    {"Y_0", FACTORS, "Y0"},
    {"Z", INSIDES, "elements"},
    {"Dw", INSIDES, "element_diameter"},
    {"Dwe", INSIDES, "element_diameter"},
    {"D_w", INSIDES, "element_diameter"},
    {"D_we", INSIDES, "element_diameter"},
    {"Lw", INSIDES, "element_length"},
    {"Lwe", INSIDES, "element_length"},
    {"L_we", INSIDES, "element_length"},
};

const struct spt_symbol *spt_symbol_at(int i)
{
    return i >= 0 && i < (int)(sizeof symbols / sizeof *symbols) ? &symbols[i] : NULL;
}

const struct spt_symbol *spt_symbol_find(const char *text)
{
    for (int i = 0; spt_symbol_at(i); i++)
        if (!strcmp(symbols[i].text, text))
            return &symbols[i];
    return NULL;
}

const struct spt_section *spt_symbol_section(const char *inside)
{
    const struct spt_field *field = inside ? spt_section_find(&spt_section_bearing, inside) : NULL;
    return field ? field->section : &spt_section_bearing;
}

/* What a bearing is rewritten with. */
struct spelling {
    struct spt_arena *arena;
    struct spt_diagnostics *diags;
    struct spt_node *into;
};

static struct spt_node *copy_key(struct spelling *s, const struct spt_node *key, const char *text)
{
    struct spt_node *copy = spt_arena_allocate(s->arena, sizeof *copy);
    if (!copy)
        return NULL;
    *copy = *key;
    copy->text = text;
    copy->length = strlen(text);
    return copy;
}

/* An empty mapping at the place of `at`, with room for `room` members. */
static struct spt_node *make_mapping(struct spelling *s, const struct spt_node *at, size_t room)
{
    struct spt_node *mapping = spt_arena_allocate(s->arena, sizeof *mapping);
    if (!mapping)
        return NULL;
    *mapping = (struct spt_node){.kind = SPT_NODE_MAPPING, .mark = at->mark, .weight = 1};
    mapping->keys = spt_arena_allocate(s->arena, room * sizeof *mapping->keys);
    mapping->items = spt_arena_allocate(s->arena, room * sizeof *mapping->items);
    return mapping->keys && mapping->items ? mapping : NULL;
}

static void append(struct spt_node *mapping, struct spt_node *key, struct spt_node *item)
{
    mapping->keys[mapping->count] = key;
    mapping->items[mapping->count++] = item;
}

static struct spt_node *find_member(const struct spt_node *mapping, const char *key)
{
    for (int i = 0; i < mapping->count; i++)
        if (!strcmp(mapping->keys[i]->text, key))
            return mapping->items[i];
    return NULL;
}

/* The section of this key in the rewritten bearing, with room for all the symbols; NULL where it is
 * no mapping, which is reported when it is read. */
static struct spt_node *open_section(struct spelling *s, const struct spt_node *bearing,
                                     const struct spt_node *at, const char *name)
{
    struct spt_node *made = find_member(s->into, name);
    const struct spt_node *stated = spt_node_find(bearing, name);
    if (made || (stated && stated->kind != SPT_NODE_MAPPING))
        return made;
    size_t room = sizeof symbols / sizeof *symbols + (stated ? (size_t)stated->count : 0);
    struct spt_node *key = copy_key(s, at, name);
    made = make_mapping(s, stated ? stated : at, room);
    if (!key || !made) {
        s->diags->out_of_memory = true;
        return NULL;
    }
    for (int i = 0; stated && i < stated->count; i++)
        append(made, stated->keys[i], stated->items[i]);
    append(s->into, key, made);
    return made;
}

static void put_symbol(struct spelling *s, const struct spt_node *bearing, int member,
                       const struct spt_symbol *symbol)
{
    const struct spt_node *at = bearing->keys[member];
    if (!strcmp(symbol->text, "B") && spt_node_find(bearing, "T"))
        return; /* a tapered sheet states both; T is the assembled width */
    struct spt_node *target =
        symbol->inside ? open_section(s, bearing, at, symbol->inside) : s->into;
    if (!target)
        return;
    struct spt_node *key = copy_key(s, at, symbol->key);
    if (!key)
        s->diags->out_of_memory = true;
    else if (find_member(target, symbol->key) ||
             (!symbol->inside && spt_node_find(bearing, symbol->key)))
        spt_diagnostics_add(s->diags, at->mark,
                            "`%s` stands for `%s`, which is stated twice; keep one of them",
                            symbol->text, symbol->key);
    else
        append(target, key, bearing->items[member]);
}

/* True for a symbol that is not the key itself. */
static const struct spt_symbol *symbol_of(const struct spt_node *key)
{
    const struct spt_symbol *symbol = spt_symbol_find(key->text);
    return symbol && (symbol->inside || strcmp(symbol->text, symbol->key) != 0) ? symbol : NULL;
}

void spt_symbols_spell_out(struct spt_node *bearing, struct spt_arena *arena,
                           struct spt_diagnostics *diags)
{
    struct spelling s = {arena, diags, NULL};
    bool any = false;
    for (int i = 0; i < bearing->count; i++)
        any = any || symbol_of(bearing->keys[i]);
    if (!any)
        return;
    s.into = make_mapping(&s, bearing, (size_t)bearing->count + 2);
    if (!s.into) {
        diags->out_of_memory = true;
        return;
    }
    for (int i = 0; i < bearing->count; i++) {
        const struct spt_symbol *symbol = symbol_of(bearing->keys[i]);
        if (symbol)
            put_symbol(&s, bearing, i, symbol);
        else if (!find_member(s.into, bearing->keys[i]->text))
            append(s.into, bearing->keys[i], bearing->items[i]); /* else a section opened above */
    }
    s.into->weight = bearing->weight;
    *bearing = *s.into;
}

static bool holds_bearing(const char *key)
{
    return !strcmp(key, "bearing") || !strcmp(key, "inboard") || !strcmp(key, "outboard");
}

void spt_symbols_spell_out_all(struct spt_node *root, struct spt_arena *arena,
                               struct spt_diagnostics *diags)
{
    for (int i = 0; root->kind != SPT_NODE_SCALAR && i < root->count; i++) {
        struct spt_node *item = root->items[i];
        if (root->kind == SPT_NODE_MAPPING && item->kind == SPT_NODE_MAPPING &&
            holds_bearing(root->keys[i]->text))
            spt_symbols_spell_out(item, arena, diags);
        else
            spt_symbols_spell_out_all(item, arena, diags);
    }
}
