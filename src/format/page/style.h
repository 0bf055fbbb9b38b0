/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_PAGE_STYLE_H
#define FORMAT_PAGE_STYLE_H

#include <stdio.h>

/* The style element of a page, for screens of any width, light, dark and print. */
void spt_page_style(FILE *out);

/* The script element: picks one of several cases, and shows the value under the pointer. A page is
 * complete without it. */
void spt_page_script(FILE *out);

#endif
