/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_TIMELINE_H
#define ANSWER_SERVICE_TIMELINE_H

#include "format/page/page.h"
#include "spalltime/ask.h"

/* A service life as a page: the life, the effect of each event, the stages, the flags at the first
 * stage that raises them, where `explain` the calculation. The CSV is the curve of damage. */
void spt_timeline_page(struct spt_page *page, const struct spt_service_life *life, bool explain);

/* The same as members of an object that the caller has opened, with the rows of the page. */
void spt_timeline_json(struct spt_json *json, const struct spt_page *page,
                       const struct spt_service_life *life, bool explain);

#endif
