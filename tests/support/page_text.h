/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_PAGE_TEXT_H
#define TESTS_PAGE_TEXT_H

/* What a reader sees of HTML pages one after the other: without style and script; the texts of
 * blocks and cells stand on lines of their own, no-break spaces are blanks. From malloc. */
char *page_text(const char *html);

#endif
