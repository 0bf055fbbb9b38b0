/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_READINGS_H
#define SCENARIO_TEXT_READINGS_H

#include <stdbool.h>

#include "file/call.h"
#include "scenario/text/units.h"

/* Says which two readings the value of an option has that spt_quantity_read found ambiguous; says
 * nothing, with false, for another. */
bool spt_say_readings(const struct spt_call *call, const char *option, const char *value,
                      enum spt_quantity_problem problem);

#endif
