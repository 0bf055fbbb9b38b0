/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_ASK_ASK_ROOM_H
#define STUDY_ASK_ASK_ROOM_H

#include "spalltime/ask.h"

/* Memory that the studies work in, out of the arena of a question. Each is false when memory is
 * out. */

/* What a bench of this case works in. */
bool spt_ask_hub_room(const struct spt_case *question, struct spt_arena *arena,
                      struct spt_hub_room *room);

/* What a run through a service works in; an event may bring a longer duty. */
bool spt_ask_service_room(const struct spt_case *question, const struct spt_service *service,
                          struct spt_arena *arena, struct spt_timeline_room *room);

/* Setting factors of a hub into a case and into the cases after each event of its service, both
 * copied first; without a hub they are copies alone. */
enum spt_status spt_ask_service_settled(const struct spt_case *question,
                                        const struct spt_service *service, struct spt_arena *arena,
                                        struct spt_case *settled, struct spt_service *serviced,
                                        struct spt_error *error);

#endif
