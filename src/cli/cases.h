/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_CASES_H
#define CLI_CASES_H

#include "report/sweep.h"
#include "scenario/build.h"

/* Load cases as lines of a CSV text. The first line names swept fields, in any order, each with its
 * unit in brackets: radial_load [kN],speed [rpm],cleanliness; one more may be `label`, any text
 * that names the case. Cells are divided by commas and may be in quotes, a quote in them doubled;
 * lines end with LF or CR LF; empty lines and lines that start with # are skipped, as is a
 * byte-order mark. */

struct spt_cases_head {
    enum spt_lubrication kind;
    int label; /* cell of a line with its label, from 0; -1: none */
    int count; /* of the other cells */
    enum spt_sweep_field fields[SPT_SWEEP_FIELD_COUNT];
    struct spt_unit units[SPT_SWEEP_FIELD_COUNT];
};

/* True for a line that holds nothing: empty, blanks, or a remark. */
bool spt_cases_is_blank(const char *line, size_t length);

/* Reads the head line (without its end). `source` has the whole text of the line for messages,
 * `number` is its line number there.
 * Result: true, or false with diagnostics at their columns. */
bool spt_cases_head(const struct spt_source *source, int number, const struct spt_case *question,
                    struct spt_cases_head *head, struct spt_diagnostics *diags);

#define SPT_CASES_PROBLEM 240

struct spt_cases_label {
    char text[SPT_SWEEP_LABEL_MAX];
    size_t length;
};

/* Reads one line into values[f][at] for the fields of the head, and its label, empty without one.
 * Result: 0, or the column of what is wrong, counted in characters from 1, with words for it. */
int spt_cases_row(const struct spt_cases_head *head, const char *line, size_t length,
                  double *const *values, size_t at, struct spt_cases_label *label, char *problem);

#endif
