/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CATALOG_SCHEMA_H
#define ANSWER_CATALOG_SCHEMA_H

#include "format/json.h"
#include "format/text.h"

enum spt_schema_of { SPT_SCHEMA_SCENARIO, SPT_SCHEMA_CASE, SPT_SCHEMA_COUNT };

/* Writes the format of scenarios or of damage cases from its field tables: as a JSON Schema
 * (draft-07, for editors) and as a readable list of keys. */
void spt_schema_json(FILE *out, enum spt_schema_of of);
void spt_schema_text(const struct spt_text *text, enum spt_schema_of of);

#endif
