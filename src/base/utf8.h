/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_UTF8_H
#define BASE_UTF8_H

#include <stddef.h>

/* Checks for plain UTF-8 text. Result: NULL, or the reason why not (a bad byte sequence, a control
 * character other than tab and line ends, or one that changes the direction of text), with line and
 * column counted from 1. The caller skips a byte-order mark. */
const char *spt_utf8_problem(const char *text, size_t length, int *line, int *column);

/* Checks for plain text of one line. Result: NULL, or what it contains instead, as words for a
 * message ("a control character"); tabs and line ends are not allowed. */
const char *spt_utf8_line_problem(const char *text, size_t length);

/* Replaces each control character and each byte that is not UTF-8 by `?`, so that a message that
 * quotes a file is harmless to a terminal. */
void spt_utf8_tame(char *text);

/* The same for `length` bytes, except that tabs and line feeds are kept. */
void spt_utf8_tame_lines(char *text, size_t length);

/* Number of bytes of the well-formed character at `text` (1 to 4), or 0 where there is none. */
size_t spt_utf8_size(const char *text, size_t length);

/* Number of bytes of the byte-order mark at the start of `text`: 3 or 0. */
size_t spt_utf8_mark_size(const char *text, size_t length);

/* Number of bytes of the line end at `text` by the rules of YAML 1.1 (LF, CR LF, CR, NEL, LS, PS),
 * else 0. */
size_t spt_utf8_line_end_size(const char *text, size_t length);

#endif
