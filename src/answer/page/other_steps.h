/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_PAGE_OTHER_STEPS_H
#define ANSWER_PAGE_OTHER_STEPS_H

#include "format/page/page.h"
#include "spalltime/assess.h"

/* The steps of a calculation that another has not with the same numbers and result, a section for
 * each place. */
void spt_other_steps_page(struct spt_page *page, const struct spt_assessment *known,
                          const struct spt_assessment *assessment);

#endif
