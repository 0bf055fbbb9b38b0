/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_OIL_H
#define ANSWER_SERVICE_OIL_H

#include "format/json.h"
#include "format/page/page.h"
#include "spalltime/service.h"

/* How often the oil is changed by its own life, in sentences and as an object `oil`; nothing with
 * grease, in JSON null. */
void spt_oil_page(struct spt_page *page, const struct spt_schedule *schedule);
void spt_oil_json(struct spt_json *json, const struct spt_oil_change *oil);

#endif
