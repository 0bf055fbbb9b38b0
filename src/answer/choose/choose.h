/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CHOOSE_CHOOSE_H
#define ANSWER_CHOOSE_CHOOSE_H

#include "format/page/page.h"
#include "spalltime/choose.h"

/* What was chosen from, and where each bearing of it is stated. */
struct spt_choose_answer {
    const struct spt_choosing *choosing;
    const char *from;           /* the list, in words */
    const char *const *sources; /* of each candidate; NULL: not stated */
};

/* Those that pass, cheapest first, those that fail with their worst reason, and doubts about the
 * sheets. The CSV has every trial. */
void spt_choose_page(struct spt_page *page, const struct spt_choose_answer *answer);

/* The members of an object that the caller has opened, with the rows of the page. */
void spt_choose_json(struct spt_json *json, const struct spt_page *page,
                     const struct spt_choose_answer *answer);

#endif
