/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_SETTING_H
#define ANSWER_LIFE_SETTING_H

#include "format/page/page.h"
#include "sentence/setting.h"
#include "spalltime/setting.h"

/* The life of a hub against its setting as a page: the verdict, a plot, common settings, the range
 * that keeps most of the life, the loss by scatter. The CSV is the curve. */
void spt_setting_page(struct spt_page *page, const struct spt_case *question,
                      const struct spt_hub_curve *curve);

/* The same as members of an object that the caller has opened, with the curve of the page. */
void spt_setting_json(struct spt_json *json, const struct spt_page *page,
                      const struct spt_case *question, const struct spt_hub_curve *curve);

#endif
