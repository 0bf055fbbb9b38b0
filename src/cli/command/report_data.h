/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_REPORT_DATA_H
#define CLI_REPORT_DATA_H

#include "answer/service/schedule.h"
#include "chart/chart.h"
#include "cli/input.h"

/* Computes the content of a report: everything if `chart` is NULL, else what this chart needs for
 * the case with this index. Parts without an answer are left out after a message; only failures of
 * the system end the report. Everything is in the arena of the input.
 * Result: an exit status. */
int spt_cli_report_data(const struct spt_options *options, const struct spt_chart *chart,
                        int picked, struct spt_input *input, struct spt_report *report,
                        struct spt_schedule_report *plan);

#endif
