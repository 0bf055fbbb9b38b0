/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_ICAL_H
#define FORMAT_ICAL_H

#include <stdio.h>

#define SPT_ICAL_LINE_MAX 2400 /* bytes of one content line before it is folded */

#define SPT_ICAL_SEQUENCE_MAX 2147483647L /* of an INTEGER, RFC 5545, section 3.3.8 */

/* What is known of an event of a calendar that was written before. */
struct spt_ical_event {
    const char *uid;
    const char *start_name; /* "DTSTART;VALUE=DATE" */
    const char *start;
    const char *summary; /* as it stood, escaped; NULL: none */
    long sequence;
};

/* One content line of an iCalendar text (RFC 5545), "NAME:value": folded so that no line is longer
 * than 75 bytes without its CR LF, never inside a UTF-8 character. Longer than SPT_ICAL_LINE_MAX is
 * cut. */
void spt_ical_line(FILE *out, const char *name, const char *value);

/* The same for a value of type TEXT: backslash, comma, semicolon and line ends are escaped, other
 * control characters become blanks. */
void spt_ical_text(FILE *out, const char *name, const char *text);

#endif
