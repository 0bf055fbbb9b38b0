/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_SERVICE_FLEET_H
#define CLI_SERVICE_FLEET_H

#include "cli/options.h"

/* `schedule` for several files, or for a crew that makes so many visits a week: the plans on one
 * calendar. Result: the exit status. */
int spt_cli_fleet(const struct spt_options *options);

#endif
