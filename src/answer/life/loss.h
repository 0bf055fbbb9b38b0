/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_LOSS_H
#define ANSWER_LIFE_LOSS_H

#include "format/page/page.h"
#include "spalltime/assess.h"

/* The split of the lost life of a bearing among its causes: the best single remedy first on a page,
 * with what each cure means where `with_cures`; as member "loss" of a JSON object. */
void spt_page_loss(struct spt_page *page, const struct spt_bearing_result *bearing,
                   bool with_cures);
void spt_life_loss_json(struct spt_json *json, const struct spt_loss *loss);

#endif
