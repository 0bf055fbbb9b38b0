/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_ASK_ASK_WORKSPACE_H
#define STUDY_ASK_ASK_WORKSPACE_H

#include "spalltime/ask.h"

/* Workspaces of the studies, allocated from an arena. Result: false when memory is exhausted. */

/* Workspace of the bench of a case. */
bool spt_ask_hub_workspace(const struct spt_case *question, struct spt_arena *arena,
                           struct spt_hub_workspace *workspace);

/* Workspace of a timeline; an event may have a longer duty. */
bool spt_ask_timeline_workspace(const struct spt_case *question, const struct spt_service *service,
                                struct spt_arena *arena, struct spt_timeline_workspace *workspace);

/* Makes copies of a case and of the cases after each event of its service, with the setting factors
 * of the hub if there is one. */
enum spt_status spt_ask_service_settled(const struct spt_case *question,
                                        const struct spt_service *service, struct spt_arena *arena,
                                        struct spt_case *settled, struct spt_service *serviced,
                                        struct spt_error *error);

#endif
