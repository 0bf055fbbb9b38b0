/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_CASES_H
#define SWEEP_CASES_H

#include "scenario/build/build.h"
#include "sweep/row_layout.h"

/* Load cases as records of a CSV text (RFC 4180). The first line names swept fields, in any order,
 * each with its unit in brackets: radial_load [kN],speed [rpm],cleanliness; one more may be
 * `label`, any text that names the case. Cells are separated by commas and may be in quotes, a
 * quote in them doubled; records end with LF or CR LF; empty lines and lines that start with # are
 * skipped, as is a byte-order mark. A line break inside quotes does not end a record, but no cell
 * may hold one: the whole record is refused. */

#define SPT_CASES_RECORD_MAX (64 * 1024) /* bytes of a record with its end */

struct spt_cases_head {
    enum spt_lubrication kind;
    int label; /* cell of a line with its label, from 0; -1: none */
    int count; /* of the other cells */
    enum spt_sweep_field fields[SPT_SWEEP_FIELD_COUNT];
    struct spt_unit units[SPT_SWEEP_FIELD_COUNT];
};

/* Length of the first record of `text` with its line end (a blank line or a comment counts as one);
 * 0 where the text ends before that is known. `more` says that more text may follow. Where a quote
 * is not closed within SPT_CASES_RECORD_MAX bytes or before the end, its line is a record. The
 * result depends on the text alone, not on how it is divided into buffers. `*lines` counts the
 * lines of the record. */
size_t spt_cases_record(const char *text, size_t length, bool more, unsigned *lines);

/* True for a line without cells: empty, only blanks, or a comment. */
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

/* Reads one record into values[f][at] for the fields of the head, and its label, empty without one.
 * Result: 0, or the column of what is wrong, counted in characters from 1, with a message. */
int spt_cases_row(const struct spt_cases_head *head, const char *line, size_t length,
                  double *const *values, size_t at, struct spt_cases_label *label, char *problem);

/* Size of the buffer that spt_cases_put needs for a record. */
#define SPT_CASES_PUT_SIZE_MAX(length) (5 * (length) + 8)

/* Writes the cells of a record, escaped like texts of the output: in quotes where they need them,
 * with a ' before what a spreadsheet would take for a formula, and `?` for characters that no text
 * may hold. A cell with unclosed quotes is written unchanged, in quotes. `scratch` has `length`
 * bytes. Result: pointer past the last byte. */
char *spt_cases_put(const struct spt_cases_head *head, const char *line, size_t length,
                    char *scratch, char *to);

#endif
