/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/csv.h"

#include <math.h>
#include <string.h>

static void start_cell(struct spt_csv *csv)
{
    if (csv->started)
        fputc(',', csv->out);
    csv->started = true;
}

void spt_csv_text(struct spt_csv *csv, const char *text)
{
    start_cell(csv);
    bool formula = *text && strchr("=+-@\t\r", *text);
    bool quoted = formula || strpbrk(text, ",\"\n\r");
    if (!quoted) {
        fputs(text, csv->out);
        return;
    }
    fputs(formula ? "\"'" : "\"", csv->out);
    for (; *text; text++) {
        if (*text == '"')
            fputc('"', csv->out);
        fputc(*text, csv->out);
    }
    fputc('"', csv->out);
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
