/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef REPORT_ICAL_H
#define REPORT_ICAL_H

#include <stdio.h>

#define SPT_ICAL_LINE_MAX 2400 /* bytes of one content line before it is folded */

/* One content line of an iCalendar text (RFC 5545), "NAME:value": folded so that no line is longer
 * than 75 bytes without its CR LF, never inside a UTF-8 character. Longer than SPT_ICAL_LINE_MAX is
 * cut. */
void spt_ical_line(FILE *out, const char *name, const char *value);

/* The same for a value of type TEXT: backslash, comma, semicolon and line ends are escaped, other
 * control characters become blanks. */
void spt_ical_text(FILE *out, const char *name, const char *text);

#endif
