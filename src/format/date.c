/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/date.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define YEAR_MAX 9999

static bool is_leap(int year)
{
    return (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
}

static int days_in_month(int year, int month)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && is_leap(year));
}

bool spt_date_read(const char *text, struct spt_date *date)
{
    *date = (struct spt_date){0, 0, 0};
    if (strlen(text) != 10 || text[4] != '-' || text[7] != '-')
        return false;
    for (int i = 0; i < 10; i++) {
        if (i == 4 || i == 7)
            continue;
        if (text[i] < '0' || text[i] > '9')
            return false;
        int *part = i < 4 ? &date->year : i < 7 ? &date->month : &date->day;
        *part = 10 * *part + (text[i] - '0');
    }
    return date->year >= 1 && date->month >= 1 && date->month <= 12 && date->day >= 1 &&
           date->day <= days_in_month(date->year, date->month);
}

/* Days before 1 January of a year. */
static long days_before(int year)
{
    long past = year - 1;
    return 365 * past + past / 4 - past / 100 + past / 400;
}

bool spt_date_after(const struct spt_date *start, double days, struct spt_date *date)
{
    *date = *start;
    if (!(days >= 0) || days > 366.0 * YEAR_MAX)
        return false;
    long left = days_before(start->year) + start->day - 1 + (long)floor(days);
    for (int month = 1; month < start->month; month++)
        left += days_in_month(start->year, month);
    if (left >= days_before(YEAR_MAX + 1))
        return false;
    int year = start->year;
    while (days_before(year + 1) <= left)
        year++;
    left -= days_before(year);
    int month = 1;
    for (; left >= days_in_month(year, month); month++)
        left -= days_in_month(year, month);
    *date = (struct spt_date){year, month, (int)left + 1};
    return true;
}

const char *spt_date_text(const struct spt_date *date, bool basic, char *buffer)
{
    const char *dash = basic ? "" : "-";
    snprintf(buffer, SPT_DATE_LENGTH, "%04d%s%02d%s%02d", date->year % 10000, dash,
             date->month % 100, dash, date->day % 100);
    return buffer;
}

int spt_date_day(const struct spt_date *date)
{
    int day = date->day - 1;
    for (int month = 1; month < date->month; month++)
        day += days_in_month(date->year, month);
    return day;
}
