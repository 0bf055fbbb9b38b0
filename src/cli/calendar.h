/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_CALENDAR_H
#define CLI_CALENDAR_H

#include "format/ical.h"
#include "scenario/text/diagnostics.h"
#include "spalltime/arena.h"

#define SPT_CALENDAR_BYTES_MAX (4 << 20)

/* Reads the events of an iCalendar text (RFC 5545), whose folded lines are joined; everything else
 * is ignored.
 * Result: false with diagnostics where it is not a calendar or not complete, an event lacks UID or
 *         DTSTART, or a SEQUENCE is not a number; `*events` is in the arena. */
bool spt_calendar_read(const struct spt_source *source, struct spt_arena *arena,
                       struct spt_ical_event **events, int *count, struct spt_diagnostics *diags);

#endif
