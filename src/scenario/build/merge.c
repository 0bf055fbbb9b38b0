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
    {"bearing", "machine"},
    {"hub", "machine"},
    {"machine", "bearing"},
    {"machine", "hub"},
    {"power", "torque"},
    {"torque", "power"},
    {"speed", "belt_speed"},
    {"belt_speed", "speed"},
    {"pull_factor", "pretension"},
    {"pretension", "pull_factor"},
    {"balance_grade", "unbalance"},
    {"unbalance", "balance_grade"},
    {"time", "distance"},
    {"distance", "time"},
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

static const struct spt_node *find_by_name(const struct spt_node *sequence,
                                           const char *const *names, const struct spt_node *wanted)
{
    const struct spt_node *name = NULL;
    for (; names && *names && !name; names++)
        name = spt_node_find(wanted, *names);
    for (int i = 0; name && name->text && i < sequence->count; i++) {
        const struct spt_node *other = spt_node_find(sequence->items[i], names[-1]);
        if (other && other->text && !strcmp(other->text, name->text))
            return sequence->items[i];
    }
    return NULL;
}

/* True where each member of `over` is a mapping that a member of `base` has the name of. */
static bool merges_by_name(const struct spt_node *base, const struct spt_node *over,
                           const char *const *names)
{
    if (!names || base->kind != SPT_NODE_SEQUENCE || over->kind != SPT_NODE_SEQUENCE)
        return false;
    for (int i = 0; i < over->count; i++)
        if (!find_by_name(base, names, over->items[i]))
            return false;
    return over->count > 0;
}

static struct spt_node *merge_value(const struct spt_node *base, const struct spt_node *over,
                                    const char *const *names, struct spt_arena *arena);

static struct spt_node *merge_sequence(const struct spt_node *base, const struct spt_node *over,
                                       const char *const *names, struct spt_arena *arena)
{
    struct spt_node *merged = spt_arena_allocate(arena, sizeof *merged);
    struct spt_node **items = spt_arena_allocate(arena, (size_t)base->count * sizeof *items);
    if (!merged || !items)
        return NULL;
    *merged = *base;
    merged->items = items;
    for (int i = 0; i < base->count; i++) {
        const struct spt_node *change = find_by_name(over, names, base->items[i]);
        items[i] = change ? merge_value(base->items[i], change, names, arena) : base->items[i];
        if (!items[i])
            return NULL;
    }
    return merged;
}

static struct spt_node *merge_value(const struct spt_node *base, const struct spt_node *over,
                                    const char *const *names, struct spt_arena *arena)
{
    if (base->kind == SPT_NODE_MAPPING && over->kind == SPT_NODE_MAPPING)
        return spt_node_merge(base, over, names, NULL, arena);
    if (merges_by_name(base, over, names))
        return merge_sequence(base, over, names, arena);
    struct spt_node *copy = spt_arena_allocate(arena, sizeof *copy);
    if (copy)
        *copy = *over;
    return copy;
}

/* Adds a member to a mapping being built, merged with the member of the same key if any. */
static bool put(struct spt_node *merged, struct spt_node *key, struct spt_node *value,
                const char *const *names, struct spt_arena *arena)
{
    for (int i = 0; i < merged->count; i++)
        if (!strcmp(merged->keys[i]->text, key->text)) {
            merged->keys[i] = key;
            merged->items[i] = merge_value(merged->items[i], value, names, arena);
            return merged->items[i] != NULL;
        }
    merged->keys[merged->count] = key;
    merged->items[merged->count++] = value;
    return true;
}

struct spt_node *spt_node_merge(const struct spt_node *base, const struct spt_node *over,
                                const char *const *names, const char *const *skip,
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
                !put(merged, parts[part]->keys[i], parts[part]->items[i], names, arena))
                return NULL;
    return merged;
}
