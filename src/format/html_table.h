/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_HTML_TABLE_H
#define FORMAT_HTML_TABLE_H

#include <stdio.h>

/* Tables of an HTML page under way; texts are escaped. A table stands in a region that scrolls by
 * itself on a narrow screen. */

/* `heads` ends with NULL; a head that starts with "#" belongs to a column of numbers. */
void spt_table_open(FILE *out, const char *caption, const char *const *heads);
void spt_table_close(FILE *out);

/* A row that is named by its first cell. */
void spt_table_row(FILE *out, const char *name);
void spt_table_row_end(FILE *out);

void spt_table_text(FILE *out, const char *text);
void spt_table_number(FILE *out, const char *number);

/* The same in the words of printf. */
void spt_table_numberf(FILE *out, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* A whole row of a name and one text. */
void spt_table_pair(FILE *out, const char *name, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
