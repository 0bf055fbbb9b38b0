/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_CATALOG_H
#define SCENARIO_CATALOG_CATALOG_H

#include "file/call.h"
#include "scenario/text/document.h"

enum spt_catalog_kind {
    SPT_CATALOG_BEARINGS,
    SPT_CATALOG_LUBRICANTS,
    SPT_CATALOG_CONDITIONS,
    SPT_CATALOG_KIND_COUNT
};

struct spt_catalog_entry {
    enum spt_catalog_kind kind;
    const char *name;
    const struct spt_node *node; /* a mapping */
};

/* The `damage:` or `diagnosis:` mapping of one catalog file; spt_guide_load (guide.h) and
 * spt_causes_load (causes.h) read and check them. */
struct spt_catalog_guide {
    const struct spt_node *node;
    struct spt_catalog_guide *next;
};

/* Bearings, lubricants and conditions by name, from the *.yaml files of some folders. */
struct spt_catalog {
    struct spt_call *call; /* whose files in memory come first, and on whose list the files go; may
                              be NULL */
    struct spt_arena arena;
    struct spt_catalog_entry *entries; /* in the order of folders, files and lines */
    int count;
    int capacity;
    struct spt_catalog_guide *guides; /* in the order of folders and files */
    struct spt_catalog_guide *causes; /* the same of `diagnosis:` */
    const char *missing; /* message where no folder was found: which folders were tried and what to
                            do; else NULL */
};

/* Reads every *.yaml of the folder, in the order of their names, and adds the entries; a name from
 * an earlier folder takes precedence. Files without catalog entries (other keys) are rejected,
 * except for the damage guide and the table of causes. Result: false with diagnostics. A folder
 * that cannot be read is a diagnostic. */
bool spt_catalog_add_folder(struct spt_catalog *catalog, const char *folder,
                            struct spt_diagnostics *diags);

/* Reads one file: a list of bearings where its name ends in .csv (see sheet.h), else a catalog file
 * in YAML. A name from an earlier folder or file takes precedence. Result: false with diagnostics.
 */
bool spt_catalog_add_file(struct spt_catalog *catalog, const char *path,
                          struct spt_diagnostics *diags);

/* True for a path that names a file of bearings or a catalog file by its ending: .csv or .yaml. */
bool spt_catalog_is_file(const char *path);

/* The entry of this kind and name, or NULL. `catalog` may be NULL. */
const struct spt_catalog_entry *spt_catalog_find(const struct spt_catalog *catalog,
                                                 enum spt_catalog_kind kind, const char *name);

/* The known name most similar to `name`, or NULL. */
const char *spt_catalog_nearest(const struct spt_catalog *catalog, enum spt_catalog_kind kind,
                                const char *name);

/* "bearings", "lubricants", "conditions": the top-level keys of a catalog file. */
const char *spt_catalog_kind_name(enum spt_catalog_kind kind);

void spt_catalog_free(struct spt_catalog *catalog);

#endif
