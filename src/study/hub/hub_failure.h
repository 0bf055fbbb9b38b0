/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_HUB_HUB_FAILURE_H
#define STUDY_HUB_HUB_FAILURE_H

#include "spalltime/ask.h"

/* The failure to start from: out of memory, before any step. */
struct spt_hub_failure spt_hub_failure_start(void);

/* Writes why a hub has no answer, with the phase and the setting. Result: the failure's status. */
enum spt_status spt_hub_failure_say(const struct spt_hub_failure *failure,
                                    const struct spt_case *question, struct spt_error *error);

#endif
