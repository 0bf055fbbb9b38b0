/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_ESCAPE_H
#define FORMAT_ESCAPE_H

#include <stdio.h>

/* Writes untrusted text escaped for HTML and XML, as content and inside a quoted attribute. Markup
 * characters become references. Characters that XML 1.0 forbids (bytes that are not UTF-8, control
 * characters other than tab and line ends, U+FFFE, U+FFFF) and those that change the direction of
 * text (U+202A to U+202E, U+2066 to U+2069) each become U+FFFD. NULL writes nothing. */
void spt_escape(FILE *out, const char *text);

/* The same of the first `left` bytes. */
void spt_escape_part(FILE *out, const char *text, size_t left);

#endif
