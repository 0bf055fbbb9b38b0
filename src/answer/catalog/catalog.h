/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_CATALOG_H
#define ANSWER_CATALOG_CATALOG_H

#include "format/text.h"
#include "scenario/catalog/catalog.h"

/* What to show from a catalog: every kind, one kind, or one entry. */
struct spt_catalog_question {
    bool all_kinds;
    enum spt_catalog_kind kind;
    const char *name; /* NULL: all of the kind */
};

/* Writes the entries with their computed values. An entry with errors is left out and reported. */
void spt_catalog_text(const struct spt_text *text, const struct spt_catalog *catalog,
                      const struct spt_catalog_question *question, struct spt_diagnostics *diags);
void spt_catalog_json(FILE *out, const struct spt_catalog *catalog,
                      const struct spt_catalog_question *question, struct spt_diagnostics *diags);
void spt_catalog_csv(FILE *out, const struct spt_catalog *catalog,
                     const struct spt_catalog_question *question, struct spt_diagnostics *diags);

#endif
