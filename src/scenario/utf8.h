/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_UTF8_H
#define SCENARIO_UTF8_H

#include <stddef.h>

/* Why `text` is not plain UTF-8 text (a bad byte sequence, a control character other than tab and
 * line ends), with the place counted from 1; NULL where it is. */
const char *spt_utf8_problem(const char *text, size_t length, int *line, int *column);

/* Bytes of the well-formed character at `text` (1 to 4), or 0 where there is none. */
size_t spt_utf8_size(const char *text, size_t length);

#endif
