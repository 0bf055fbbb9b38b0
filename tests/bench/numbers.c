/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Numbers written and read, beside the C library. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "bench/bench.h"
#include "format/number/number.h"

double time_number_write(void)
{
    static char text[32];
    double start = now();
    for (int i = 0; i < COUNT; i++)
        spt_number_write(text, life[i]);
    return (now() - start) / COUNT * 1e9;
}

double time_printf(void)
{
    static char text[32];
    double start = now();
    for (int i = 0; i < COUNT / 8; i++)
        snprintf(text, sizeof text, "%.6g", life[i]);
    return (now() - start) / (COUNT / 8) * 1e9;
}

static char *number_text;
static size_t number_length;

void make_number_text(void)
{
    number_text = malloc((size_t)COUNT * (SPT_NUMBER_SIZE + 1) + 1);
    if (!number_text)
        exit(1);
    char *to = number_text;
    for (int i = 0; i < COUNT; i++) {
        to = spt_number_write(to, load[i]);
        *to++ = ',';
    }
    *to = '\0';
    number_length = (size_t)(to - number_text);
}

double time_number_read(void)
{
    double value;
    double sum = 0.0;
    const char *end = number_text + number_length;
    double start = now();
    for (const char *at = number_text; at && at < end; at++) {
        at = spt_number_read(at, end, &value);
        sum += value;
    }
    return sum > 0.0 ? (now() - start) / COUNT * 1e9 : (double)NAN;
}

double time_strtod(void)
{
    double sum = 0.0;
    double start = now();
    char *next = number_text;
    for (int i = 0; i < COUNT / 4; i++, next++)
        sum += strtod(next, &next);
    return sum > 0.0 ? (now() - start) / (COUNT / 4) * 1e9 : (double)NAN;
}

void free_number_text(void)
{
    free(number_text);
}
