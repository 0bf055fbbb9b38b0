/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_TEXT_H
#define FORMAT_TEXT_H

#include <stdbool.h>
#include <stdio.h>

#define SPT_TEXT_WIDTH 80 /* where none is known */
#define SPT_TEXT_WIDTH_MIN 60
#define SPT_TEXT_WIDTH_MAX 120

/* State of a text report being written. */
struct spt_text {
    FILE *out;
    bool color; /* bold headings and marks by ANSI sequences; the words alone are sufficient */
    int width;  /* characters of a line; 0: SPT_TEXT_WIDTH */
};

/* Writes a heading in capitals, with an empty line before it. */
void spt_text_heading(const struct spt_text *text, const char *heading);

/* Writes text wrapped to the width; the first line starts with `mark`, the others are indented by
 * the same width. A word that is wider than a line is broken. */
void spt_text_wrap(const struct spt_text *text, const char *mark, const char *words);
void spt_text_wrapf(const struct spt_text *text, const char *mark, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Goes on with a line that has `indent` characters, by which the lines below are indented too; no
 * line feed follows. */
void spt_text_wrap_from(const struct spt_text *text, int indent, const char *words);

/* A UTF-8 text of more than `width` characters with part of its middle replaced by "~", because
 * names often differ at their ends, into a buffer of SPT_CUT_LENGTH(width) bytes, whose size is
 * `size`. Result: `buffer`. */
#define SPT_CUT_LENGTH(width) (4 * (width) + 2)
const char *spt_text_cut(const char *words, int width, char *buffer, size_t size);

/* Writes it so, or padded to `width` characters, at most SPT_TEXT_WIDTH. */
void spt_text_fit(const struct spt_text *text, const char *words, int width);

int spt_text_width(const struct spt_text *text);

/* Number of characters of a UTF-8 text. */
int spt_text_length(const char *words);

/* Formats hours with three digits and a blank between thousands: "12 300", "none" for NaN, "no
 * limit" for infinity, "over 1e7" above ten million, "2e-05" below 0.001. Returns `buffer`, at
 * least SPT_HOURS_LENGTH bytes. */
#define SPT_HOURS_LENGTH 24
const char *spt_text_hours(double hours, char *buffer);

/* Formats stated hours with all their digits: "61 362". Buffer as above. */
const char *spt_text_stated(double hours, char *buffer);

/* The same with its unit where it has one: "12 340 h", "none", "no limit". */
const char *spt_text_life(double hours, char *buffer);

/* Formats with three digits and a blank between thousands, without an upper bound, for measured
 * distances and lives: "1 430 000". */
const char *spt_text_amount(double amount, char *buffer);

/* A calendar time: "4.6 years", "7.3 months", "9 weeks", "12 days", "-" for NaN. */
#define SPT_SPAN_LENGTH 32
const char *spt_text_span(double days, char *buffer);

/* A number >= 0 in at most five characters for a table: three digits, at most three decimals;
 * smaller numbers with one digit as in "2e-04" (to 1e-99); "-" for NaN, "inf" for infinity. */
const char *spt_text_cell(double number, char *buffer);

/* A number with three digits, "-" for NaN, "inf" for infinity; buffer as above. */
const char *spt_text_number(double number, char *buffer);

/* A ratio of lives: "1.02", "12.3", "-" for NaN. */
const char *spt_text_ratio(double ratio, char *buffer);

/* Writes a bar of "#" of width * length/full characters, at least one where length is above 0. */
void spt_text_bar(const struct spt_text *text, double length, double full, int width);

#endif
