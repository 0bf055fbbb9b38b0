/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_DIAGNOSTICS_H
#define SCENARIO_TEXT_DIAGNOSTICS_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

#include "base/source.h"

/* A position in a source; line and column count from 1, columns in characters. */
struct spt_mark {
    const struct spt_source *source;
    int line;
    int column;
};

#define SPT_DIAGNOSTICS_MAX 20
#define SPT_DIAGNOSTIC_LENGTH 360

struct spt_diagnostic {
    struct spt_mark mark; /* line 0: the message is about the file as a whole */
    char text[SPT_DIAGNOSTIC_LENGTH];
};

/* The error messages, sorted by position; the first SPT_DIAGNOSTICS_MAX are kept and the rest
 * counted. Zero-initialise. The sources must outlive it. */
struct spt_diagnostics {
    int count;
    int dropped;
    int raised; /* number of messages including repeated ones: shows whether a step failed */
    bool out_of_memory; /* set instead of a message when memory is exhausted */
    struct spt_diagnostic list[SPT_DIAGNOSTICS_MAX];
};

/* Adds a message, formatted as by printf, that tells what was found, what was expected and what to
 * do. */
void spt_diagnostics_add(struct spt_diagnostics *diags, struct spt_mark mark, const char *format,
                         ...) __attribute__((format(printf, 3, 4)));

bool spt_diagnostics_any(const struct spt_diagnostics *diags);

/* Writes each message as `file:line:column: text` with the line itself and a caret under the
 * column. */
void spt_diagnostics_print(const struct spt_diagnostics *diags, FILE *out);

#endif
