/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_LIFE_H
#define ANSWER_LIFE_LIFE_H

#include "format/csv.h"
#include "format/json.h"
#include "format/text.h"
#include "sentence/life_status.h"
#include "spalltime/assess.h"

/* Write the result of `life`: as readable text (without flags where `quiet`; the caller adds the
 * cautions), JSON for scripts (keys are a contract: add, never rename), CSV for tables (one row for
 * each phase of each bearing, then one for the bearing, at the end one for two bearings
 * together). */
void spt_life_text(const struct spt_text *text, const struct spt_assessment *assessment,
                   bool quiet);
void spt_life_csv(FILE *out, const struct spt_assessment *assessment);
/* Writes the members into an object that the caller has opened. */
void spt_life_json(struct spt_json *json, const struct spt_assessment *assessment);

/* Shared with other reports. */
/* Writes the section FLAGS; nothing where there are no flags. */
void spt_life_flags_text(const struct spt_text *text, const struct spt_assessment *assessment);
void spt_life_loss_text(const struct spt_text *text, const struct spt_bearing_result *bearing,
                        bool with_cures);
void spt_life_loss_json(struct spt_json *json, const struct spt_loss *loss);
/* Writes one cell: the codes of the notes, separated by blanks; `more` may be NULL. */
void spt_life_codes_csv(struct spt_csv *csv, const struct spt_notes *notes,
                        const struct spt_notes *more);
/* Writes the member modified_rating_life_h and the member life_status, which distinguishes the two
 * lives that are null: "rated", "unlimited" or "none". */
void spt_json_life(struct spt_json *json, double life_h);
void spt_json_notes(struct spt_json *json, const struct spt_notes *notes);
void spt_json_tool(struct spt_json *json);

#endif
