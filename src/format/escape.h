/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_ESCAPE_H
#define FORMAT_ESCAPE_H

#include <stdio.h>

/* Writes any text, titles and notes of strangers among them, so that HTML and XML take it for plain
 * text, between tags as well as between the quotes of an attribute. Markup characters become
 * references. What XML 1.0 forbids (bytes that are not UTF-8, control characters other than tab
 * and line ends, U+FFFE, U+FFFF) and the controls that reverse the direction of the text around
 * them (U+202A to U+202E, U+2066 to U+2069) each become U+FFFD. NULL writes nothing. */
void spt_escape(FILE *out, const char *text);

#endif
