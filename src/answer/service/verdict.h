/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_VERDICT_H
#define ANSWER_SERVICE_VERDICT_H

#include "format/page/page.h"
#include "spalltime/verdict.h"

/* The head of every answer about a machine: the headline and its parts. */
void spt_verdict_page(struct spt_page *page, const struct spt_judgement *judgement);

/* The steps from the basic rating life to the life under the plan, as a section. */
void spt_stairs_page(struct spt_page *page, const struct spt_judgement *judgement);

/* The member `verdict`, with the steps. Keys are a contract: add, never rename. */
void spt_verdict_json(struct spt_json *json, const struct spt_judgement *judgement);

#endif
