/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef REPORT_SPREAD_H
#define REPORT_SPREAD_H

#include "report/csv.h"
#include "report/json.h"
#include "report/text.h"
#include "spalltime/uncertainty.h"

/* The answer of `spread`; `stated_h` is the life of the scenario as it stands. */
void spt_spread_text(const struct spt_text *text, const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result);
void spt_spread_json(struct spt_json *json, const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result);
/* Both distributions: for 1 to 99 % the rated life and the time to spall below which they lie. */
void spt_spread_csv(FILE *out, const struct spt_uncertainty_result *result);

/* "Band by the section `uncertainty`: 12 300 h to 45 600 h (5 to 95 % of 100000 samples)." into
 * SPT_BAND_LENGTH bytes; as a paragraph, with the next where there is one; a member "band" for
 * JSON. */
#define SPT_BAND_LENGTH 160
const char *spt_band_words(const struct spt_band *band, int samples, char *words);
void spt_band_text(const struct spt_text *text, const struct spt_uncertainty_result *result);
void spt_band_json(struct spt_json *json, const struct spt_band *band);

/* Where rows of a hub are preloaded in some samples: what that leaves out. NULL: in none.
 * `words`: SPT_BAND_LENGTH bytes. */
const char *spt_preloaded_words(const struct spt_uncertainty_result *result, char *words);

/* The two columns at the end of a table, empty where `band` is NULL. */
void spt_csv_band_heads(struct spt_csv *csv);
void spt_csv_band(struct spt_csv *csv, const struct spt_band *band);

/* A sentence for each spread input that leaves phases alone, because these keep something of their
 * own; `who` (or NULL) stands before it. */
void spt_spread_unmoved_text(const struct spt_text *text, const char *who,
                             const struct spt_case *question,
                             const struct spt_uncertainty_result *result);

#endif
