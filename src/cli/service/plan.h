/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_SERVICE_PLAN_H
#define CLI_SERVICE_PLAN_H

#include "answer/service/schedule.h"
#include "cli/input.h"

/* The plan of one scenario and what its answer needs; the report points into the rest. */
struct spt_cli_plan {
    struct spt_assessment assessment;
    struct spt_judgement judgement;
    struct spt_maintenance plan;
    struct spt_schedule_report report;
};

/* Makes the plan of a scenario that was read from `path`.
 * Result: SPT_EXIT_DONE, or another exit status with the messages printed. */
int spt_cli_plan_make(const struct spt_options *options, const char *path, struct spt_input *input,
                      struct spt_cli_plan *made);

#endif
