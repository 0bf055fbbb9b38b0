/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_SWEEP_CASES_H
#define SWEEP_SWEEP_CASES_H

#include "sweep/cases.h"
#include "sweep/sweep.h"

/* Load cases from a CSV file or standard input, read in units of whole records. A shard of a
 * file has the records that begin in its part of the bytes after the head. */

struct sweep_cases {
    struct spt_call *call;
    const char *name; /* in messages */
    int descriptor;
    struct spt_cases_head columns;
    struct sweep_text head;  /* the head line as written, without its line end */
    bool sized;              /* a regular file */
    unsigned long long size; /* of it */
    unsigned long long rest; /* bytes of the shard; no limit where not sized */
    struct sweep_text ahead; /* buffer of what is read but not yet in a unit */
    size_t ahead_used;
    size_t unit_bytes; /* after which a unit ends */
    bool at_end;
};

/* Position of a worker in the records of a unit. */
struct sweep_case_lines {
    const char *at, *end;
    unsigned long long line;
    struct sweep_case_line {
        const char *text; /* a record without its end */
        size_t length;
        unsigned long long number; /* of its first line */
    } rows[SPT_SWEEP_BLOCK];
    struct spt_cases_label labels[SPT_SWEEP_BLOCK]; /* of the rows */
    int bad_count;
    struct sweep_bad_line {
        struct sweep_case_line line;
        int column;
        char problem[SPT_CASES_PROBLEM];
    } bad[SPT_SWEEP_BLOCK];
};

/* Opens the cases, reads the head and goes to the shard; the fields go into the layout of the run.
 * False with messages and an exit status. */
bool spt_sweep_cases_open(struct spt_sweep_run *run, struct sweep_cases *cases, int *status);
void spt_sweep_cases_close(struct sweep_cases *cases);

bool spt_sweep_cases_read_unit(struct sweep_cases *cases, struct sweep_progress *at,
                               struct sweep_unit *unit, bool *error);
/* Reads forward to where an earlier run ended; false with a message where the input differs. */
bool spt_sweep_cases_skip(struct sweep_cases *cases, const struct sweep_progress *to);
/* Part of the shard that these bytes are; NaN where it is not known. */
double spt_sweep_cases_share(const struct sweep_cases *cases, unsigned long long bytes);

void spt_sweep_cases_begin(struct sweep_case_lines *lines, const struct sweep_unit *unit);
/* The next rows, at most a block, and the bad ones among them, at most as many.
 * Result: false where there are neither. */
bool spt_sweep_cases_read(const struct sweep_cases *cases, struct sweep_case_lines *lines,
                          double (*inputs)[SPT_SWEEP_BLOCK], int *count);
/* Writes the bad rows, and those of the `count` good ones that the models refused, to the rejects
 * of the unit, in the order of their lines. False when memory is exhausted. */
bool spt_sweep_cases_reject(const struct sweep_cases *cases, const struct sweep_case_lines *lines,
                            const bool *refused, int count, struct sweep_unit *unit);

#endif
