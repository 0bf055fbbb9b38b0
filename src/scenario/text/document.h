/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_DOCUMENT_H
#define SCENARIO_TEXT_DOCUMENT_H

#include "scenario/text/diagnostics.h"
#include "spalltime/arena.h"

#define SPT_DOCUMENT_BYTES_MAX (1024 * 1024)
#define SPT_DOCUMENT_DEPTH_MAX 32
#define SPT_DOCUMENT_NODES_MAX 100000 /* counted with aliases expanded */

enum spt_node_kind { SPT_NODE_SCALAR, SPT_NODE_SEQUENCE, SPT_NODE_MAPPING };

/* A node of a YAML document with its position. Everything is in the arena that it was read into. */
struct spt_node {
    enum spt_node_kind kind;
    struct spt_mark mark;
    bool quoted;             /* scalar in quotes or a block */
    const char *text;        /* scalar, NUL-terminated */
    size_t length;           /* scalar, bytes */
    int count;               /* sequence or mapping */
    struct spt_node **items; /* sequence: members; mapping: values */
    struct spt_node **keys;  /* mapping: scalars */
    int weight;              /* number of nodes below and including this one, aliases expanded */
};

/* Reads one YAML document.
 * In:     a source (UTF-8, a byte-order mark is skipped), the arena for the nodes.
 * Result: the root node; NULL with at least one diagnostic when there is none.
 * Errors: not UTF-8 or a control character, too large, too deep, bad YAML, empty, a second
 * document, a repeated key, a key that is not a scalar, a tag, an alias cycle, an alias bomb. */
struct spt_node *spt_document_read(const struct spt_source *source, struct spt_arena *arena,
                                   struct spt_diagnostics *diags);

/* The value under a key of a mapping, or NULL (also for NULL and for other kinds of node). */
const struct spt_node *spt_node_find(const struct spt_node *mapping, const char *key);

/* Position of the value under a key, or of the mapping where the key is absent. */
struct spt_mark spt_node_mark(const struct spt_node *mapping, const char *key);

/* Merges the mapping `over` into a copy of `base`: mappings are merged member by member, sequences
 * of mappings by their names, which stand under one of the keys `names` (a NULL-terminated list,
 * may be NULL), anything else is replaced. The inputs are not changed; NULL when memory is
 * exhausted. Members named in `skip` (a NULL-terminated list, may be NULL) are left out of the top
 * level. */
struct spt_node *spt_node_merge(const struct spt_node *base, const struct spt_node *over,
                                const char *const *names, const char *const *skip,
                                struct spt_arena *arena);

#endif
