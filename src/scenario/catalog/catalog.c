/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/catalog/catalog.h"

#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "base/table.h"
#include "file/file.h"
#include "scenario/build/symbols.h"
#include "scenario/catalog/sheet.h"
#include "scenario/text/fields.h"

#define PATH_LENGTH 4096
#define FILES_MAX 256
#define NAMES_MAX 512

static const char *const kind_names[] = {"bearings", "lubricants", "conditions"};
SPT_ONE_EACH(kind_names, SPT_CATALOG_KIND_COUNT);

const char *spt_catalog_kind_name(enum spt_catalog_kind kind)
{
    return kind_names[kind];
}

const struct spt_catalog_entry *spt_catalog_find(const struct spt_catalog *catalog,
                                                 enum spt_catalog_kind kind, const char *name)
{
    for (int i = 0; catalog && i < catalog->count; i++)
        if (catalog->entries[i].kind == kind && !strcmp(catalog->entries[i].name, name))
            return &catalog->entries[i];
    return NULL;
}

const char *spt_catalog_nearest(const struct spt_catalog *catalog, enum spt_catalog_kind kind,
                                const char *name)
{
    const char *names[NAMES_MAX];
    int count = 0;
    for (int i = 0; catalog && i < catalog->count && count < NAMES_MAX; i++)
        if (catalog->entries[i].kind == kind)
            names[count++] = catalog->entries[i].name;
    return spt_nearest(name, names, count);
}

/* Adds an entry, whose name is known to be new. */
static bool append_entry(struct spt_catalog *catalog, struct spt_catalog_entry entry,
                         struct spt_diagnostics *diags)
{
    if (catalog->count == catalog->capacity) {
        int capacity = catalog->capacity ? 2 * catalog->capacity : 64;
        struct spt_catalog_entry *larger = spt_allocate((size_t)capacity * sizeof *larger);
        if (!larger) {
            diags->out_of_memory = true;
            return false;
        }
        if (catalog->count)
            memcpy(larger, catalog->entries, (size_t)catalog->count * sizeof *larger);
        free(catalog->entries);
        catalog->entries = larger;
        catalog->capacity = capacity;
    }
    catalog->entries[catalog->count++] = entry;
    return true;
}

static bool add_entry(struct spt_catalog *catalog, struct spt_catalog_entry entry,
                      struct spt_diagnostics *diags)
{
    return spt_catalog_find(catalog, entry.kind, entry.name) || append_entry(catalog, entry, diags);
}

static bool add_group(struct spt_catalog *catalog, enum spt_catalog_kind kind,
                      const struct spt_node *group, struct spt_diagnostics *diags)
{
    if (group->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(diags, group->mark, "`%s` should be a mapping from names to entries",
                            kind_names[kind]);
        return false;
    }
    for (int i = 0; i < group->count; i++) {
        struct spt_node *entry = group->items[i];
        if (kind == SPT_CATALOG_BEARINGS && entry->kind == SPT_NODE_MAPPING)
            spt_symbols_spell_out(entry, &catalog->arena, diags);
        if (entry->kind != SPT_NODE_MAPPING || !spt_node_find(entry, "source"))
            spt_diagnostics_add(diags, entry->mark,
                                "the entry `%.60s` should be a mapping with a `source:` that says "
                                "where it comes from",
                                group->keys[i]->text);
        else if (!add_entry(catalog, (struct spt_catalog_entry){kind, group->keys[i]->text, entry},
                            diags))
            return false;
    }
    return true;
}

/* Adds a mapping at the end of its list. */
static void add_guide(struct spt_catalog *catalog, struct spt_catalog_guide **last,
                      const struct spt_node *node, struct spt_diagnostics *diags)
{
    struct spt_catalog_guide *guide = spt_arena_allocate(&catalog->arena, sizeof *guide);
    if (!guide) {
        diags->out_of_memory = true;
        return;
    }
    while (*last)
        last = &(*last)->next;
    guide->node = node;
    *last = guide;
}

static void add_document(struct spt_catalog *catalog, const struct spt_node *root,
                         struct spt_diagnostics *diags)
{
    if (root->kind != SPT_NODE_MAPPING)
        spt_diagnostics_add(diags, root->mark,
                            "a catalog file is a mapping with the keys `bearings`, `lubricants` or "
                            "`conditions`");
    for (int i = 0; root->kind == SPT_NODE_MAPPING && i < root->count; i++) {
        const char *key = root->keys[i]->text;
        int kind = 0;
        while (kind < SPT_CATALOG_KIND_COUNT && strcmp(key, kind_names[kind]) != 0)
            kind++;
        if (kind < SPT_CATALOG_KIND_COUNT)
            add_group(catalog, (enum spt_catalog_kind)kind, root->items[i], diags);
        else if (!strcmp(key, "damage"))
            add_guide(catalog, &catalog->guides, root->items[i], diags);
        else if (!strcmp(key, "diagnosis"))
            add_guide(catalog, &catalog->causes, root->items[i], diags);
        else
            spt_diagnostics_add(diags, root->keys[i]->mark,
                                "a catalog file has the keys `bearings`, `lubricants`, "
                                "`conditions`, `damage` or `diagnosis`, not `%.60s`",
                                key);
    }
}

/* The names of a list differ among themselves, so that only earlier entries are looked through. */
static void add_rows(struct spt_catalog *catalog, const struct spt_sheet *sheet,
                     struct spt_diagnostics *diags)
{
    const struct spt_catalog before = *catalog;
    for (int i = 0; i < sheet->count; i++) {
        const struct spt_sheet_row *row = &sheet->rows[i];
        if (!spt_catalog_find(&before, SPT_CATALOG_BEARINGS, row->name) &&
            !append_entry(catalog,
                          (struct spt_catalog_entry){SPT_CATALOG_BEARINGS, row->name, row->node},
                          diags))
            return;
    }
}

static bool ends_in(const char *path, const char *ending)
{
    size_t length = strlen(path), tail = strlen(ending);
    return length > tail && !strcmp(path + length - tail, ending);
}

static void add_text(struct spt_catalog *catalog, const struct spt_source *source,
                     struct spt_diagnostics *diags)
{
    struct spt_sheet sheet;
    if (ends_in(source->name, ".csv")) {
        if (spt_sheet_read(source, &catalog->arena, &sheet, diags))
            add_rows(catalog, &sheet, diags);
        return;
    }
    const struct spt_node *root = spt_document_read(source, &catalog->arena, diags);
    if (root)
        add_document(catalog, root, diags);
}

static void add_file(struct spt_catalog *catalog, const char *path, struct spt_diagnostics *diags)
{
    struct spt_source *source = spt_arena_allocate(&catalog->arena, sizeof *source);
    if (!source) {
        diags->out_of_memory = true;
        return;
    }
    size_t most = ends_in(path, ".csv") ? SPT_SHEET_BYTES_MAX : SPT_DOCUMENT_BYTES_MAX;
    int error = spt_file_read(catalog->call, path, most, &catalog->arena, source);
    if (error == ENOMEM) {
        diags->out_of_memory = true;
        return;
    }
    if (error) {
        spt_diagnostics_add(diags, (struct spt_mark){source, 0, 0}, "cannot be read: %s",
                            strerror(error));
        return;
    }
    add_text(catalog, source, diags);
}

bool spt_catalog_is_file(const char *path)
{
    return ends_in(path, ".csv") || ends_in(path, ".yaml") || ends_in(path, ".yml");
}

bool spt_catalog_add_file(struct spt_catalog *catalog, const char *path,
                          struct spt_diagnostics *diags)
{
    add_file(catalog, path, diags);
    return !spt_diagnostics_any(diags) && !diags->out_of_memory;
}

static bool is_yaml_name(const char *name)
{
    size_t length = strlen(name);
    return name[0] != '.' && length > 5 && !strcmp(name + length - 5, ".yaml");
}

static int compare_names(const void *a, const void *b)
{
    return strcmp(*(char *const *)a, *(char *const *)b);
}

static void refuse_folder(const char *folder, struct spt_diagnostics *diags)
{
    spt_diagnostics_add(diags, (struct spt_mark){0},
                        "%.200s: the catalog folder cannot be read: %s", folder, strerror(errno));
}

/* Adds the files in memory whose names lie in this folder, in the order in which they are held.
 * Result: how many. */
static int add_held(struct spt_catalog *catalog, const char *folder, struct spt_diagnostics *diags)
{
    int count = 0;
    size_t length = strlen(folder);
    for (int i = 0; catalog->call && i < catalog->call->text_count; i++) {
        const char *name = catalog->call->texts[i].name;
        if (strncmp(name, folder, length) != 0 || name[length] != '/' ||
            !is_yaml_name(name + length + 1))
            continue;
        add_file(catalog, name, diags);
        count++;
    }
    return count;
}

static struct dirent *next_item(DIR *opened)
{
    errno = 0; /* distinguishes an error from the end of the folder */
    return readdir(opened);
}

/* Lists the names of the *.yaml files of an open folder, sorted, in the arena of the catalog; a
 * name that cannot be listed is reported. */
static int list_files(DIR *opened, const char *folder, struct spt_arena *arena, char **names,
                      struct spt_diagnostics *diags)
{
    int count = 0;
    struct dirent *item;
    for (item = next_item(opened); item; item = next_item(opened)) {
        if (!is_yaml_name(item->d_name))
            continue;
        if (count == FILES_MAX) {
            spt_diagnostics_add(diags, (struct spt_mark){0},
                                "%.200s: more than %d files in one catalog folder", folder,
                                FILES_MAX);
            break;
        }
        names[count] = spt_arena_text(arena, item->d_name, strlen(item->d_name));
        if (names[count])
            count++;
        else
            diags->out_of_memory = true;
    }
    if (!item && errno)
        refuse_folder(folder, diags);
    qsort(names, (size_t)count, sizeof *names, compare_names);
    return count;
}

bool spt_catalog_add_folder(struct spt_catalog *catalog, const char *folder,
                            struct spt_diagnostics *diags)
{
    if (add_held(catalog, folder, diags))
        return !spt_diagnostics_any(diags);
    DIR *opened = opendir(folder);
    if (!opened && errno == ENOMEM) {
        diags->out_of_memory = true;
        return false;
    }
    if (!opened) {
        refuse_folder(folder, diags);
        return false;
    }
    char *names[FILES_MAX] = {NULL};
    int count = list_files(opened, folder, &catalog->arena, names, diags);
    closedir(opened);
    for (int i = 0; i < count; i++) {
        char path[PATH_LENGTH];
        if (snprintf(path, sizeof path, "%s/%s", folder, names[i]) < (int)sizeof path)
            add_file(catalog, path, diags);
        else
            spt_diagnostics_add(diags, (struct spt_mark){0}, "%.200s...: the path is too long",
                                folder);
    }
    return !spt_diagnostics_any(diags);
}

void spt_catalog_free(struct spt_catalog *catalog)
{
    spt_arena_free(&catalog->arena);
    free(catalog->entries);
    *catalog = (struct spt_catalog){0};
}
