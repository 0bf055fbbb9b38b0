/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_SPREAD_H
#define ANSWER_FIELD_SPREAD_H

#include "format/csv.h"
#include "format/json.h"
#include "format/text.h"
#include "sentence/band.h"
#include "spalltime/uncertainty.h"

/* The answer of `spread`; `stated_h` is the life of the scenario as it stands. */
void spt_spread_text(const struct spt_text *text, const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result);
void spt_spread_json(struct spt_json *json, const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result);
/* Both distributions: for 1 to 99 % the rated life and the time to spall below which they lie. */
void spt_spread_csv(FILE *out, const struct spt_uncertainty_result *result);

/* The band as a paragraph, with what is preloaded where there is such; a member "band" for JSON. */
void spt_band_text(const struct spt_text *text, const struct spt_uncertainty_result *result);
void spt_band_json(struct spt_json *json, const struct spt_band *band);

/* The two columns at the end of a table, empty where `band` is NULL. */
void spt_csv_band_heads(struct spt_csv *csv);
void spt_csv_band(struct spt_csv *csv, const struct spt_band *band);

/* A sentence for each spread input that leaves phases alone, because these keep something of their
 * own; `who` (or NULL) stands before it. */
void spt_spread_unmoved_text(const struct spt_text *text, const char *who,
                             const struct spt_case *question,
                             const struct spt_uncertainty_result *result);

#endif
