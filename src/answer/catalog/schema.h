/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_SCHEMA_H
#define ANSWER_CATALOG_SCHEMA_H

#include "format/json.h"
#include "format/text.h"

/* Writes the scenario format from its field tables: as a JSON Schema (draft-07, for editors) and as
 * a readable list of keys. */
void spt_schema_json(FILE *out);
void spt_schema_text(const struct spt_text *text);

#endif
