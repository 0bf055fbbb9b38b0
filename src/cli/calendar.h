/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_CALENDAR_H
#define CLI_CALENDAR_H

#include "format/ical.h"
#include "scenario/text/diagnostics.h"
#include "spalltime/arena.h"

#define SPT_CALENDAR_BYTES_MAX (4 << 20)

/* The events of an iCalendar text (RFC 5545), lines unfolded; what else is in it is passed over.
 * Result: false with diagnostics where it is no calendar or not a whole one, an event lacks UID or
 * DTSTART, or a SEQUENCE is none; `*events` lies in the arena. */
bool spt_calendar_read(const struct spt_source *source, struct spt_arena *arena,
                       struct spt_ical_event **events, int *count, struct spt_diagnostics *diags);

#endif
