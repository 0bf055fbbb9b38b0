/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_INPUTS_H
#define ANSWER_LIFE_INPUTS_H

#include "format/page/page.h"
#include "spalltime/assess.h"

/* The inputs of a case as they were understood, as tables in the units of the program: each
 * bearing, the lubricant, the hub, what is asked, duty and condition of each phase. */
void spt_page_inputs(struct spt_page *page, const struct spt_assessment *assessment);

#endif
