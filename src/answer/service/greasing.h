/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_GREASING_H
#define ANSWER_SERVICE_GREASING_H

#include "format/json.h"
#include "format/page/page.h"
#include "spalltime/assess.h"

/* The greasing of the machine in one sentence, the same in every answer; nothing without grease. */
void spt_greasing_page(struct spt_page *page, const struct spt_greasing *greasing);

/* An object `greasing` with the raw interval and the one that is kept; null numbers without. */
void spt_greasing_json(struct spt_json *json, const struct spt_greasing *greasing);

#endif
