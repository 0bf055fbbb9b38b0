/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_NUMBER_H
#define FORMAT_NUMBER_H

/* Numbers as text, fast and the same in every locale. */

/* Room that spt_number_write needs. The longest number, "-1.23457e-308", is shorter: what lies
 * behind a number within this room may be overwritten. */
#define SPT_NUMBER_SIZE 24

/* Writes a number with six significant digits, byte for byte what printf("%.6g") writes in the C
 * locale; NaN is always "nan", whatever its sign. No end mark; see
 * SPT_NUMBER_SIZE.
 * Result: the place after the last character. */
char *spt_number_write(char *to, double value);

/* Reads the number that begins at `from`, as far as it goes, at most up to `end`:
 *   [+|-] digits [. [digits]] [e|E [+|-] digits]   or   [+|-] . digits [exponent]
 * with no spaces, no hexadecimal, no "inf" or "nan". Correctly rounded (ties to even), as strtod in
 * the C locale; beyond the largest double it is infinite, as there.
 * Result: the place after the number; NULL, and *value NaN, where none begins. An "e" without
 *         digits is not part of the number. */
const char *spt_number_read(const char *from, const char *end, double *value);

#endif
