/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "scenario/text/document.h"

static bool is_listed(const char *const *list, const char *key)
{
    for (; list && *list; list++)
        if (!strcmp(*list, key))
            return true;
    return false;
}

/* Alternative keys for the same quantity: a change with the first key removes the second from the
 * base. */
static const char *const alternatives[][2] = {
    {"grade", "viscosity_40"},
    {"grade", "viscosity_100"},
    {"viscosity_40", "grade"},
    {"viscosity_100", "viscosity_index"},
    {"viscosity_index", "viscosity_100"},
    {"cleanliness", "contamination_factor"},
    {"contamination_factor", "cleanliness"},
    {"end_play", "preload"},
    {"end_play", "preload_force"},
    {"preload", "end_play"},
    {"preload", "preload_force"},
    {"preload_force", "end_play"},
    {"preload_force", "preload"},
    {"speed", "road_speed"},
    {"road_speed", "speed"},
    {"side_force", "side_share"},
    {"side_share", "side_force"},
    {"bearing", "hub"},
    {"hub", "bearing"},
    {"equivalent_load", "radial_load"},
    {"equivalent_load", "axial_load"},
    {"radial_load", "equivalent_load"},
};

static bool is_replaced(const struct spt_node *over, const char *key)
{
    for (size_t i = 0; i < sizeof alternatives / sizeof *alternatives; i++)
        if (!strcmp(alternatives[i][1], key) && spt_node_find(over, alternatives[i][0]) &&
            !spt_node_find(over, key))
            return true;
    return false;
}

static const struct spt_node *find_by_identity(const struct spt_node *sequence,
                                               const char *identity, const struct spt_node *wanted)
{
    const struct spt_node *name = spt_node_find(wanted, identity);
    for (int i = 0; name && name->text && i < sequence->count; i++) {
        const struct spt_node *other = spt_node_find(sequence->items[i], identity);
        if (other && other->text && !strcmp(other->text, name->text))
            return sequence->items[i];
    }
    return NULL;
}

/* True where each member of `over` is a mapping whose identity key has the same value in a member
 * of `base`. */
static bool merges_by_identity(const struct spt_node *base, const struct spt_node *over,
                               const char *identity)
{
    if (!identity || base->kind != SPT_NODE_SEQUENCE || over->kind != SPT_NODE_SEQUENCE)
        return false;
    for (int i = 0; i < over->count; i++)
        if (!find_by_identity(base, identity, over->items[i]))
            return false;
    return over->count > 0;
}

static struct spt_node *merge_value(const struct spt_node *base, const struct spt_node *over,
                                    const char *identity, struct spt_arena *arena);

static struct spt_node *merge_sequence(const struct spt_node *base, const struct spt_node *over,
                                       const char *identity, struct spt_arena *arena)
{
    struct spt_node *merged = spt_arena_allocate(arena, sizeof *merged);
    struct spt_node **items = spt_arena_allocate(arena, (size_t)base->count * sizeof *items);
    if (!merged || !items)
        return NULL;
    *merged = *base;
    merged->items = items;
    for (int i = 0; i < base->count; i++) {
        const struct spt_node *change = find_by_identity(over, identity, base->items[i]);
        items[i] = change ? merge_value(base->items[i], change, identity, arena) : base->items[i];
        if (!items[i])
            return NULL;
    }
    return merged;
}

static struct spt_node *merge_value(const struct spt_node *base, const struct spt_node *over,
                                    const char *identity, struct spt_arena *arena)
{
    if (base->kind == SPT_NODE_MAPPING && over->kind == SPT_NODE_MAPPING)
        return spt_node_merge(base, over, identity, NULL, arena);
    if (merges_by_identity(base, over, identity))
        return merge_sequence(base, over, identity, arena);
    struct spt_node *copy = spt_arena_allocate(arena, sizeof *copy);
    if (copy)
        *copy = *over;
    return copy;
}

/* Adds a member to a mapping being built, merged with the member of the same key if any. */
static bool put(struct spt_node *merged, struct spt_node *key, struct spt_node *value,
                const char *identity, struct spt_arena *arena)
{
    for (int i = 0; i < merged->count; i++)
        if (!strcmp(merged->keys[i]->text, key->text)) {
            merged->keys[i] = key;
            merged->items[i] = merge_value(merged->items[i], value, identity, arena);
            return merged->items[i] != NULL;
        }
    merged->keys[merged->count] = key;
    merged->items[merged->count++] = value;
    return true;
}

struct spt_node *spt_node_merge(const struct spt_node *base, const struct spt_node *over,
                                const char *identity, const char *const *skip,
                                struct spt_arena *arena)
{
    size_t capacity = (size_t)base->count + (size_t)over->count + 1;
    struct spt_node *merged = spt_arena_allocate(arena, sizeof *merged);
    if (!merged)
        return NULL;
    *merged = *base;
    merged->count = 0;
    merged->keys = spt_arena_allocate(arena, capacity * sizeof *merged->keys);
    merged->items = spt_arena_allocate(arena, capacity * sizeof *merged->items);
    if (!merged->keys || !merged->items)
        return NULL;
    const struct spt_node *parts[] = {base, over};
    for (int part = 0; part < 2; part++)
        for (int i = 0; i < parts[part]->count; i++)
            if (!is_listed(skip, parts[part]->keys[i]->text) &&
                !(part == 0 && is_replaced(over, base->keys[i]->text)) &&
                !put(merged, parts[part]->keys[i], parts[part]->items[i], identity, arena))
                return NULL;
    return merged;
}
