/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/csv.h"

#include <math.h>
#include <string.h>

static void start_cell(struct spt_csv *csv)
{
    if (csv->started)
        fputc(',', csv->out);
    csv->started = true;
}

/* The characters before a text: none, a quote, or a quote and a '. */
static const char *find_opening(const char *text, size_t length)
{
    if (length && memchr("=+-@\t\r", *text, 6))
        return "\"'";
    for (size_t i = 0; i < length; i++)
        if (memchr(",\"\n\r", text[i], 4))
            return "\"";
    return "";
}

void spt_csv_text(struct spt_csv *csv, const char *text)
{
    const char *opening = find_opening(text, strlen(text));
    start_cell(csv);
    fputs(opening, csv->out);
    for (; *text; text++) {
        if (*text == '"')
            fputc('"', csv->out);
        fputc(*text, csv->out);
    }
    if (*opening)
        fputc('"', csv->out);
}

char *spt_csv_put(char *to, const char *text, size_t length)
{
    const char *opening = find_opening(text, length);
    for (const char *at = opening; *at; at++)
        *to++ = *at;
    for (size_t i = 0; i < length; i++) {
        if (text[i] == '"')
            *to++ = '"';
        *to++ = text[i];
    }
    if (*opening)
        *to++ = '"';
    return to;
}

void spt_csv_number(struct spt_csv *csv, double number)
{
    start_cell(csv);
    if (isinf(number))
        fputs(number > 0 ? "inf" : "-inf", csv->out);
    else if (!isnan(number))
        fprintf(csv->out, "%.10g", number);
}

void spt_csv_end(struct spt_csv *csv)
{
    fputc('\n', csv->out);
    csv->started = false;
}
