/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/published.h"

#include <fcntl.h>
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/near.h"

/* Appends a row with a single write, so that rows of tests that run in parallel are not mixed. */
static void add_row(const char *row)
{
    const char *path = getenv("SPT_VALIDATE");
    int file = path && *path ? open(path, O_WRONLY | O_APPEND | O_CREAT, 0666) : -1;
    if (file < 0)
        return;
    if (write(file, row, strlen(row)) != (ssize_t)strlen(row))
        perror(path);
    close(file);
}

static bool judge(const char *source, const char *what, double printed, double ours,
                  double tolerance, const char *verdict, const char *otherwise)
{
    char row[1024];
    bool holds = near(ours, printed, 0, tolerance);
    snprintf(row, sizeof row, "%s\t%s\t%.10g\t%.10g\t%.3g\t%s\n", source, what, printed, ours,
             tolerance, holds ? verdict : otherwise);
    add_row(row);
    if (!holds)
        fprintf(stderr, "%s, %s: printed %.10g, ours %.10g, tolerance %.3g\n", source, what,
                printed, ours, tolerance);
    return holds;
}

bool agrees(const char *source, const char *what, double printed, double ours, double tolerance)
{
    return judge(source, what, printed, ours, tolerance, "agrees", "DISAGREES");
}

bool agrees_within(const char *source, const char *what, double printed, double ours, double part)
{
    return agrees(source, what, printed, ours, part * fabs(printed));
}

bool lies_within(const char *source, const char *what, double low, double high, double ours)
{
    char row[1024];
    bool holds = low <= ours && ours <= high;
    snprintf(row, sizeof row, "%s\t%s\t%.10g to %.10g\t%.10g\t0\t%s\n", source, what, low, high,
             ours, holds ? "agrees" : "DISAGREES");
    add_row(row);
    return holds;
}

bool is_misprinted(const char *source, const char *what, double printed, double ours,
                   double tolerance)
{
    return !judge(source, what, printed, ours, tolerance, "NO MISPRINT", "misprint");
}

const char *named(const char *format, ...)
{
    static char texts[8][160];
    static int next;
    char *text = texts[next++ % 8];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(text, sizeof texts[0], format, arguments);
    va_end(arguments);
    return text;
}
