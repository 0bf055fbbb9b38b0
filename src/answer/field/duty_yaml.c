/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "answer/field/duty_parts.h"
#include "answer/field/history.h"

/* Formats with the fewest digits that parse to the same double, but not with exactly three
 * decimals, which a scenario rejects as ambiguous (thousands separator). */
static const char *write_exactly(double value, char *text, size_t size)
{
    for (int digits = 6; digits <= 17; digits++) {
        snprintf(text, size, "%.*g", digits, value);
        if (strtod(text, NULL) == value)
            break;
    }
    const char *point = strchr(text, '.');
    size_t length = strlen(text);
    if (point && strspn(point + 1, "0123456789") == 3 && !point[4] && length + 1 < size)
        memcpy(text + length, "0", 2);
    return text;
}

static void write_quantity(FILE *out, const char *key, double value, const char *unit)
{
    char number[40];
    if (key && !isnan(value))
        fprintf(out, ", %s: %s %s", key, write_exactly(value, number, sizeof number), unit);
}

/* Writes the text of a YAML comment; characters that would end it become "?". */
static void write_comment(FILE *out, const char *words)
{
    fputs("# ", out);
    for (; *words; words++)
        fputc(iscntrl((unsigned char)*words) ? '?' : *words, out);
    fputc('\n', out);
}

void spt_duty_yaml(FILE *out, const struct spt_duty_report *report)
{
    char line[SPT_HISTORY_LINE], name[SPT_DUTY_NAME];
    spt_history_line(report->summary, line, sizeof line);
    write_comment(out, line);
    if (report->missing) {
        snprintf(line, sizeof line, "each phase still needs %s", report->missing);
        write_comment(out, line);
    }
    fputs("duty:\n", out);
    for (int i = 0; i < report->count; i++) {
        const struct spt_history_bin *bin = &report->bins[i];
        fprintf(out, "  - {phase: %s", spt_duty_name_phase(report, bin, name));
        write_quantity(out, "time", bin->time_h, "h");
        write_quantity(out, report->speed_key, bin->speed_rpm, spt_duty_speed_unit(report));
        write_quantity(out, report->load_key, bin->load_n, "N");
        write_quantity(out, spt_duty_has_side(report) ? report->side_key : NULL, bin->side_n, "N");
        write_quantity(out, "temperature", bin->temperature_c, "degC");
        fprintf(out, "%s}\n", report->shared);
    }
}
