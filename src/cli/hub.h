/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_HUB_H
#define CLI_HUB_H

#include "scenario/arena.h"
#include "spalltime/hub_bench.h"

/* Puts the setting factors of a case with a hub into its phases; a case without is copied and
 * `bench` left alone. Room and results live in the arena, so bench and case do as well.
 * Result: SPT_EXIT_DONE, or another exit status with a message on standard error. */
int spt_cli_settle(const struct spt_case *question, struct spt_arena *arena, bool with_cure,
                   struct spt_hub_bench *bench, struct spt_case *settled);

/* What a bench of this case works in, out of the arena; false when memory is out. */
bool spt_cli_hub_room(const struct spt_case *question, struct spt_arena *arena,
                      struct spt_hub_room *room);

/* The load distribution of an assessed case with a hub, put into the assessment. As above. */
int spt_cli_distribute(const struct spt_hub_bench *bench, struct spt_arena *arena,
                       struct spt_assessment *assessment);

/* Life against the setting, of a settled case with its bench. As above. */
int spt_cli_hub_curve(struct spt_hub_bench *bench, const struct spt_case *settled,
                      struct spt_arena *arena, struct spt_hub_curve *curve);

/* Says why there is no answer, with the phase and the setting; gives the exit status. */
int spt_cli_hub_fails(const struct spt_case *question, const struct spt_hub_failure *failure);

#endif
