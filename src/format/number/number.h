/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_NUMBER_NUMBER_H
#define FORMAT_NUMBER_NUMBER_H

/* Conversion between numbers and text, fast and independent of the locale. */

/* Buffer size that spt_number_write needs. The longest number, "-1.23457e-308", is shorter: bytes
 * of the buffer after a number may be overwritten. */
#define SPT_NUMBER_SIZE 24

/* Writes a number with six significant digits, byte for byte as printf("%.6g") in the C locale; NaN
 * is always "nan", whatever its sign. Not NUL-terminated; see SPT_NUMBER_SIZE. Result: the position
 * after the last character. */
char *spt_number_write(char *to, double value);

/* Parses the number that begins at `from` and ends before `end` at the latest:
 * [+|-] digits [. [digits]] [e|E [+|-] digits] or [+|-] . digits [exponent]
 * with no spaces, no hexadecimal, no "inf" or "nan". Correctly rounded (ties to even), as strtod in
 * the C locale; infinite beyond the largest double, also as strtod. Result: the position after the
 * number; NULL, and *value NaN, where there is no number. An "e" without digits is not part of the
 * number. */
const char *spt_number_read(const char *from, const char *end, double *value);

#endif
