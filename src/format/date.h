/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_DATE_H
#define FORMAT_DATE_H

#include <stdbool.h>

/* A day of the Gregorian calendar, year 1 to 9999. */
struct spt_date {
    int year, month, day;
};

/* Reads "2026-03-01" (ISO 8601) and nothing else; false for a day that does not exist. */
bool spt_date_read(const char *text, struct spt_date *date);

/* The date `days` days later (>= 0, rounded down to whole days). Result: false beyond the year
 * 9999. */
bool spt_date_after(const struct spt_date *start, double days, struct spt_date *date);

/* Days of the year before it, 0 for 1 January. */
int spt_date_day(const struct spt_date *date);

/* "2026-03-01", or "20260301" where `basic`; returns `buffer`. */
#define SPT_DATE_LENGTH 16
const char *spt_date_text(const struct spt_date *date, bool basic, char *buffer);

#endif
