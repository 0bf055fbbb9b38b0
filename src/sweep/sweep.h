/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_SWEEP_H
#define SWEEP_SWEEP_H

#include <stdint.h>
#include <stdio.h>

#include "file/call.h"
#include "scenario/scenario.h"
#include "sweep/row_layout.h"

/* The engine of `sweep`: units of rows are read in order, computed by threads and written in the
 * order they were read, so that the output does not depend on the number of threads. */

#define SWEEP_UNIT 2048         /* rows of a unit of a grid */
#define SWEEP_TEXT (256 * 1024) /* bytes of a unit of cases */
#define SWEEP_HUB_TEXT 2048 /* likewise for a hub: some 50 rows, not 5000, as they take longer */
#define SWEEP_THREADS_MAX 256

/* Options of the command line for a sweep. */
struct spt_sweep_order {
    const char *cases; /* table of cases; NULL: the grid of the scenario */
    const char *columns;
    const char *rejects; /* file for rows that cannot be read; NULL: none */
    const char *shard;   /* "K/N"; NULL: all */
    int threads;         /* 0: one for each processor */
    bool resume;
};

/* Progress of a run: the rows and bytes that are written. Stored beside a partial output. */
struct sweep_progress {
    unsigned long long rows; /* of the source, rejected ones too */
    unsigned long long rejected;
    unsigned long long output_bytes;
    unsigned long long reject_bytes;
    unsigned long long input_bytes; /* of cases, from the start of the shard */
    unsigned long long input_lines; /* of the whole file, before this place */
    uint64_t input_hash;            /* of those bytes */
    uint64_t output_hash; /* in the state of a partial run: of the output after its head */
    uint64_t reject_hash; /* the same of the rejects */
};

/* A growing buffer of bytes. */
struct sweep_text {
    char *bytes;
    size_t length, capacity;
};
bool spt_sweep_text_need(struct sweep_text *text, size_t more);
bool spt_sweep_text_add(struct sweep_text *text, const char *bytes, size_t length);

/* A unit of rows: input read from the source, then the output for it. */
struct sweep_unit {
    unsigned long long number;
    unsigned long long first_row; /* of a grid */
    int rows;
    struct sweep_text input; /* of cases: whole records */
    unsigned long long first_line;
    struct sweep_progress after; /* of the source alone */
    struct sweep_text output;
    struct sweep_text rejects;
    struct sweep_text report;  /* messages about rejected rows */
    unsigned long long worked; /* rows computed, rejected ones too */
    unsigned long long rejected;
};

/* Everything a run needs; one for the program. */
struct spt_sweep_run {
    struct spt_call *call;
    const struct spt_sweep_order *order;
    const char *output; /* NULL: standard output */
    const struct spt_scenario *scenario;
    struct spt_sweep_plan plan;
    struct spt_sweep_layout layout;
    struct spt_sweep_cell *cells[SPT_SWEEP_FIELD_COUNT]; /* of a grid, one for each value */
    unsigned long long first_row, last_row;              /* of the shard; a grid */
    struct sweep_cases *cases;                           /* NULL: a grid */
    int threads;
    int shard, shards;           /* from 1 */
    struct sweep_file *file;     /* open, until spt_sweep_run takes it */
    struct sweep_progress start; /* where it begins: zero, or where an earlier run ended */
};

/* Computes the rows of a unit on one of the threads. False when memory is exhausted. */
struct sweep_worker; /* workspace of a thread */
struct sweep_worker *spt_sweep_worker_make(const struct spt_sweep_run *run);
/* Why a worker cannot be made: memory, or a hub whose stated setting cannot be computed. */
enum spt_status spt_sweep_worker_try(const struct spt_sweep_run *run);
void spt_sweep_worker_free(struct sweep_worker *worker);
bool spt_sweep_worker_work(struct sweep_worker *worker, struct sweep_unit *unit);

/* Reads the next unit: false at the end. Only one thread may call it at a time. `error` is set,
 * with a message, when reading fails. */
bool spt_sweep_read_unit(struct spt_sweep_run *run, struct sweep_progress *at,
                         struct sweep_unit *unit, bool *error);

/* The output and the rejects. */
struct sweep_file;
/* Opens and locks the files and finds where the run begins, which may be where an earlier one
 * ended. Does not change them.
 * Result: NULL with a message and an exit status on failure. */
struct sweep_file *spt_sweep_file_open(struct spt_sweep_run *run, int *status);
/* Prepares the files for writing and adds the size of their heads to the start of the run. Result:
 * an exit status. */
int spt_sweep_file_begin(struct sweep_file *file);
bool spt_sweep_file_write(struct sweep_file *file, const struct sweep_unit *unit,
                          struct sweep_progress *done);
/* Ends the output: that of a whole run is renamed, a partial one is kept with a message.
 * Result: an exit status. */
int spt_sweep_file_close(struct sweep_file *file, const struct sweep_progress *done, bool whole);
/* Closes the files without writing any more; NULL is allowed. */
void spt_sweep_file_drop(struct sweep_file *file);

uint64_t spt_sweep_fingerprint(const struct spt_sweep_run *run);

/* Computes and writes all units and closes the file of the run.
 * Result: an exit status. */
int spt_sweep_run(struct spt_sweep_run *run);

/* The signal that asked the run to end; 0: none. */
int spt_sweep_stopped(void);

#endif
