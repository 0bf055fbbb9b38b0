/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_CATALOG_H
#define ANSWER_CATALOG_CATALOG_H

#include "format/page/page.h"
#include "scenario/catalog/catalog.h"

/* What to show from a catalog: every kind, one kind, or one entry. */
struct spt_catalog_question {
    bool all_kinds;
    enum spt_catalog_kind kind;
    const char *name; /* NULL: all of the kind */
};

/* One value of an entry: a number with its unit in the key, or a text. */
struct spt_attribute {
    const char *key;
    double number; /* NaN for a text */
    const char *text;
};

/* An entry with its computed values. */
#define SPT_ATTRIBUTES_MAX 16
struct spt_catalog_listing {
    const struct spt_catalog_entry *entry;
    int count;
    struct spt_attribute attributes[SPT_ATTRIBUTES_MAX];
};

struct spt_catalog_answer {
    const struct spt_catalog_question *question;
    int count;
    struct spt_catalog_listing *listings; /* in the order of the catalog */
};

/* Works out the entries that are asked for. One with errors is left out and reported. Result: false
 * with diagnostics. */
bool spt_catalog_list(const struct spt_catalog *catalog,
                      const struct spt_catalog_question *question, struct spt_arena *arena,
                      struct spt_catalog_answer *answer, struct spt_diagnostics *diags);

/* A table for each kind, or all of one entry. The CSV has a row for each attribute. */
void spt_catalog_page(struct spt_page *page, const struct spt_catalog_answer *answer);

/* The entries as members of an object that the caller has opened. */
void spt_catalog_json(struct spt_json *json, const struct spt_catalog_answer *answer);

#endif
