/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_UTF8_H
#define BASE_UTF8_H

#include <stddef.h>

/* Why `text` is not plain UTF-8 text (a bad byte sequence, a control character other than tab and
 * line ends, one that turns the direction of text), with the place counted from 1; NULL where it
 * is. A byte-order mark is the caller's to skip. */
const char *spt_utf8_problem(const char *text, size_t length, int *line, int *column);

/* Why `text` is not plain text of one line: what it holds, as words for a message ("a control
 * character"), a tab and each kind of line end too; NULL where it is. */
const char *spt_utf8_line_problem(const char *text, size_t length);

/* Puts `?` for each control character and each byte that is no UTF-8, so that a message which
 * quotes a file does nothing to a terminal. */
void spt_utf8_tame(char *text);

/* The same for bytes of a length, but for tabs and line feeds. */
void spt_utf8_tame_lines(char *text, size_t length);

/* Bytes of the well-formed character at `text` (1 to 4), or 0 where there is none. */
size_t spt_utf8_size(const char *text, size_t length);

/* Bytes of the byte-order mark at the start of `text`: 3 or 0. */
size_t spt_utf8_mark_size(const char *text, size_t length);

/* Bytes of the line end at `text` as YAML 1.1 counts lines (LF, CR LF, CR, NEL, LS, PS), else 0. */
size_t spt_utf8_line_end_size(const char *text, size_t length);

#endif
