/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "scenario/build/build.h"

/* The keys of a support or a hub under which the name of a catalog entry may stand. */
static const struct {
    const char *key;
    enum spt_catalog_kind kind;
} named[] = {{"bearing", SPT_CATALOG_BEARINGS},
             {"lubricant", SPT_CATALOG_LUBRICANTS},
             {"condition", SPT_CATALOG_CONDITIONS},
             {"inboard", SPT_CATALOG_BEARINGS},
             {"outboard", SPT_CATALOG_BEARINGS}};

static struct spt_node *resolve(struct spt_build *build, const struct spt_node *node);

/* The value of a key: an entry in place of its name; an unknown name has been reported and stays.
 */
static struct spt_node *resolve_member(struct spt_build *build, const char *key,
                                       const struct spt_node *node)
{
    for (size_t i = 0; i < sizeof named / sizeof *named; i++) {
        if (strcmp(named[i].key, key) != 0)
            continue;
        const struct spt_node *entry = spt_build_resolve(build, named[i].kind, node);
        const struct spt_node *name = spt_node_find(node, "catalog");
        struct spt_node *copy = spt_arena_allocate(build->arena, sizeof *copy);
        if (copy)
            *copy = *(entry ? entry : name ? name : node);
        return copy;
    }
    return resolve(build, node);
}

/* A copy of a node in which all names of entries are replaced. */
static struct spt_node *resolve(struct spt_build *build, const struct spt_node *node)
{
    struct spt_node *copy = spt_arena_allocate(build->arena, sizeof *copy);
    if (!copy)
        return NULL;
    *copy = *node;
    if (node->kind == SPT_NODE_SCALAR || !node->count)
        return copy;
    copy->items = spt_arena_allocate(build->arena, (size_t)node->count * sizeof *copy->items);
    if (!copy->items)
        return NULL;
    for (int i = 0; i < node->count; i++) {
        const char *key = node->kind == SPT_NODE_MAPPING ? node->keys[i]->text : "";
        copy->items[i] = resolve_member(build, key, node->items[i]);
        if (!copy->items[i])
            return NULL;
    }
    return copy;
}

void spt_build_resolve_machine(struct spt_build *build, struct spt_node *root)
{
    for (int i = 0; i < root->count; i++) {
        if (strcmp(root->keys[i]->text, "machine") != 0)
            continue;
        struct spt_node *machine = resolve(build, root->items[i]);
        if (machine)
            root->items[i] = machine;
        else
            build->diags->out_of_memory = true;
    }
}
