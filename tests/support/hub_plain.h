/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_HUB_PLAIN_H
#define TESTS_HUB_PLAIN_H

#include "spalltime/hub.h"

/* The hub model the plain way, as it was once shipped: derivatives of each roller, two laminae at a
 * time, a search from the middle of the play or the last position, forces checked contact by
 * contact after each, and lives in a pass of their own. Tests hold the fast solver against it, the
 * benchmark is a ratio to it. */

/* Status as spt_hub_solve. `start` NULL: the middle. Counts evaluations of the energy in `passes`.
 */
enum spt_status hub_plain_solve(const struct spt_hub_model *model, double setting_mm,
                                const struct spt_hub_load *load,
                                const struct spt_hub_position *start,
                                struct spt_hub_position *position, int *passes);

/* L10r of a row in million revolutions, and with a_ISO of each lamina where there is lubrication.
 */
void hub_plain_lives(const struct spt_hub_model *model, double setting_mm,
                     const struct spt_hub_position *position, int row,
                     const struct spt_hub_lubrication *lubrication, double *basic_mrev,
                     double *modified_mrev);

#endif
