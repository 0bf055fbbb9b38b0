/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_HTML_TABLE_H
#define FORMAT_HTML_TABLE_H

#include <stdio.h>

/* Writes tables of an HTML page; texts are escaped. A table is inside a region that scrolls
 * separately on a narrow screen. */

/* `heads` is terminated by NULL; a head that starts with "#" is that of a column of numbers. */
void spt_table_open(FILE *out, const char *caption, const char *const *heads);
void spt_table_close(FILE *out);

/* Starts a row with its first cell, the row header. */
void spt_table_row(FILE *out, const char *name);
void spt_table_row_end(FILE *out);

void spt_table_text(FILE *out, const char *text);
void spt_table_number(FILE *out, const char *number);

/* The same, formatted as by printf. */
void spt_table_numberf(FILE *out, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* Writes a complete row of a name and one text. */
void spt_table_pair(FILE *out, const char *name, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

#endif
