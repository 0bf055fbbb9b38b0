/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_SHEET_H
#define ANSWER_LIFE_SHEET_H

#include "format/page/page.h"
#include "spalltime/assess.h"

/* What makes an answer with its calculation a sheet that can be filed. */

/* Which program wrote it; the title stands above. */
void spt_page_sheet_head(struct spt_page *page);

/* Lines to sign for who worked it out and who checked it. */
void spt_page_sheet_foot(struct spt_page *page);

/* The section of what is assumed: the inputs that were not stated, then what the method takes for
 * granted. */
void spt_page_assumptions(struct spt_page *page, const struct spt_assessment *assessment);

#endif
