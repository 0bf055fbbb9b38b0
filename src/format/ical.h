/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_ICAL_H
#define FORMAT_ICAL_H

#include <stdio.h>

#define SPT_ICAL_LINE_MAX 2400 /* length in bytes of a content line before folding */

#define SPT_ICAL_SEQUENCE_MAX 2147483647L /* largest INTEGER, RFC 5545, section 3.3.8 */

/* An event of a calendar written earlier. */
struct spt_ical_event {
    const char *uid;
    const char *start_name; /* "DTSTART;VALUE=DATE" */
    const char *start;
    const char *summary; /* as in that calendar, escaped; NULL: none */
    long sequence;
};

/* Writes one content line of an iCalendar text (RFC 5545), "NAME:value", folded so that no line
 * exceeds 75 bytes without its CR LF, never inside a UTF-8 character. Truncated at
 * SPT_ICAL_LINE_MAX. */
void spt_ical_line(FILE *out, const char *name, const char *value);

/* The same for a value of type TEXT: backslash, comma, semicolon and line ends are escaped, other
 * control characters become blanks. */
void spt_ical_text(FILE *out, const char *name, const char *text);

#endif
