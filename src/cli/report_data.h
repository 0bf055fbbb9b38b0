/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_REPORT_DATA_H
#define CLI_REPORT_DATA_H

#include "chart/chart.h"
#include "cli/input.h"

/* Works out what a report shows: all of it where `chart` is NULL, else what this chart needs of the
 * case with this index. What has no answer is left out after a message; only the failures of the
 * system end the report. All of it lives in the input's arena. Result: an exit status. */
int spt_cli_report_data(const struct spt_options *options, const struct spt_chart *chart,
                        int picked, struct spt_input *input, struct spt_report *report);

#endif
