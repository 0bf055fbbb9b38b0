/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef REPORT_SCHEMA_H
#define REPORT_SCHEMA_H

#include "report/json.h"
#include "report/text.h"

/* The scenario format out of its field tables: as a JSON Schema (draft-07, for editors) and as a
 * list of keys for people. */
void spt_schema_json(FILE *out);
void spt_schema_text(const struct spt_text *text);

#endif
