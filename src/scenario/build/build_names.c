/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "scenario/build/build.h"

/* Makes a mapping with one member: {key: text}, with the position `mark`. */
static struct spt_node *make_pair(struct spt_arena *arena, const char *key, const char *text,
                                  struct spt_mark mark)
{
    struct spt_node *nodes = spt_arena_allocate(arena, 3 * sizeof *nodes);
    struct spt_node **links = spt_arena_allocate(arena, 2 * sizeof *links);
    if (!nodes || !links)
        return NULL;
    struct spt_node *mapping = &nodes[0];
    *mapping = (struct spt_node){.kind = SPT_NODE_MAPPING, .mark = mark, .count = 1};
    nodes[1] = (struct spt_node){.mark = mark, .text = key, .length = strlen(key)};
    nodes[2] = (struct spt_node){.mark = mark, .text = text, .length = strlen(text)};
    links[0] = &nodes[1];
    links[1] = &nodes[2];
    mapping->keys = &links[0];
    mapping->items = &links[1];
    return mapping;
}

static const struct spt_node *report_unknown(struct spt_build *build, enum spt_catalog_kind kind,
                                             const struct spt_node *name)
{
    const char *near = spt_catalog_nearest(build->catalog, kind, name->text);
    if (build->catalog && build->catalog->missing)
        spt_diagnostics_add(build->diags, name->mark, "`%.60s` names a catalog entry, but %s",
                            name->text, build->catalog->missing);
    else if (near)
        spt_diagnostics_add(build->diags, name->mark,
                            "no catalog entry is called `%.60s`; did you mean `%s`?", name->text,
                            near);
    else
        spt_diagnostics_add(build->diags, name->mark,
                            "no catalog entry is called `%.60s`; `spalltime catalog %s` lists them",
                            name->text, spt_catalog_kind_name(kind));
    return NULL;
}

/* The entry with its name as the default of the key `name`. */
static struct spt_node *named_entry(struct spt_build *build, const struct spt_catalog_entry *entry)
{
    struct spt_node *name = make_pair(build->arena, "name", entry->name, entry->node->mark);
    struct spt_node *merged =
        name ? spt_node_merge(name, entry->node, NULL, NULL, build->arena) : NULL;
    if (!merged)
        build->diags->out_of_memory = true;
    else
        merged->mark = entry->node->mark;
    return merged;
}

const struct spt_node *spt_build_resolve(struct spt_build *build, enum spt_catalog_kind kind,
                                         const struct spt_node *node)
{
    static const char *const spent[] = {"catalog", NULL};
    const struct spt_node *name =
        node->kind == SPT_NODE_SCALAR ? node : spt_node_find(node, "catalog");
    if (!name)
        return node;
    if (name->kind != SPT_NODE_SCALAR || !name->length) {
        spt_diagnostics_add(build->diags, name->mark, "`catalog` should be the name of an entry");
        return NULL;
    }
    const struct spt_catalog_entry *entry = spt_catalog_find(build->catalog, kind, name->text);
    if (!entry)
        return report_unknown(build, kind, name);
    struct spt_node *base = named_entry(build, entry);
    if (!base || name == node)
        return base;
    struct spt_node *merged = spt_node_merge(base, node, NULL, spent, build->arena);
    if (!merged) {
        build->diags->out_of_memory = true;
        return NULL;
    }
    merged->mark = node->mark;
    return merged;
}
