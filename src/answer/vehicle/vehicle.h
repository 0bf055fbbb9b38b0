/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_VEHICLE_VEHICLE_H
#define ANSWER_VEHICLE_VEHICLE_H

#include "answer/life/explain.h"
#include "format/json.h"
#include "format/page/page.h"
#include "spalltime/vehicle.h"

/* The wheels of a vehicle as a section of a page, with the tables "wheels_lives" and
 * "wheels_loads". */
void spt_page_vehicle(struct spt_page *page, const struct spt_assessment *assessment);

/* Writes the member "vehicle", with the rows of those tables. */
void spt_vehicle_json(struct spt_json *json, const struct spt_page *page,
                      const struct spt_assessment *assessment);

/* The steps from the masses to the loads of each wheel, then the balances. */
void spt_explain_vehicle(const struct spt_assessment *assessment, const struct spt_step_sink *sink);

#endif
