/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_SETTING_PLOT_H
#define ANSWER_LIFE_SETTING_PLOT_H

#include "format/text.h"

/* Draws the life against the setting with characters and tells what its marks mean; the subject is
 * a struct spt_figure with a curve of settings. */
void spt_setting_plot(const struct spt_text *text, const void *subject);

#endif
