/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_SPREAD_H
#define ANSWER_FIELD_SPREAD_H

#include "format/csv.h"
#include "format/json.h"
#include "format/page/page.h"
#include "sentence/band.h"
#include "spalltime/uncertainty.h"

/* The result of `spread` as a page; `stated_h` is the life with the inputs as stated. The CSV is
 * both distributions: the percentiles 1 to 99 % of rated life and time to spall. */
void spt_spread_page(struct spt_page *page, const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result);

/* The same as members of an object that the caller has opened, with the rows of the page. */
void spt_spread_json(struct spt_json *json, const struct spt_page *page,
                     const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result);

/* Writes the band: as a paragraph, with the share of preloaded samples if any; as a member
 * "band". */
void spt_band_page(struct spt_page *page, const struct spt_uncertainty_result *result);
void spt_band_json(struct spt_json *json, const struct spt_band *band);

/* Writes a sentence for each uncertain input that does not change some phases, because these have
 * values of their own; `who` (or NULL) is put before it. */
void spt_spread_unmoved_page(struct spt_page *page, const char *who,
                             const struct spt_case *question,
                             const struct spt_uncertainty_result *result);

#endif
