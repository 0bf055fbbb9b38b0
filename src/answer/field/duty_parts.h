/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_DUTY_PARTS_H
#define ANSWER_FIELD_DUTY_PARTS_H

#include "answer/field/duty.h"

/* Parts of a binned duty: its page, its section of a scenario. */

/* Writes the name of the phase of a bin to SPT_DUTY_NAME bytes. Result: `name`. */
#define SPT_DUTY_NAME 64
const char *spt_duty_name_phase(const struct spt_duty_report *report,
                                const struct spt_history_bin *bin, char *name);

/* True where some phase has a load from the side. */
bool spt_duty_has_side(const struct spt_duty_report *report);

/* True where the history has the speed of the vehicle. */
bool spt_duty_is_on_road(const struct spt_duty_report *report);

/* Unit of the speed: "km/h" or "rpm". */
const char *spt_duty_speed_unit(const struct spt_duty_report *report);

/* The phases as table: "phases" for text, HTML and CSV, "members" for JSON. */
void spt_duty_page_phases(struct spt_page *page, const struct spt_duty_report *report);

#endif
