/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_SPREAD_DRIVERS_H
#define ANSWER_FIELD_SPREAD_DRIVERS_H

#include "format/page/page.h"
#include "spalltime/uncertainty.h"

/* The section of the uncertain inputs, the strongest first, with the table "inputs". */
void spt_spread_page_drivers(struct spt_page *page, const struct spt_case *question,
                             const struct spt_uncertainty_result *result);

/* The member "inputs" from that table, in the order of the inputs. */
void spt_spread_json_drivers(struct spt_json *json, const struct spt_table *table);

#endif
