/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_PAGE_INLINE_H
#define FORMAT_PAGE_INLINE_H

#include <stdio.h>

#define SPT_BREAKLESS "\xC2\xA0" /* a blank at which no line is broken */

/* Writes the words of a page as HTML, escaped: `code` between backticks, names of the user apart,
 * C_u with a subscript, no line break between the thousands of a number. */
void spt_page_inline(FILE *out, const char *words);

/* The same without elements, for an attribute. */
void spt_page_inline_plain(FILE *out, const char *words);

#endif
