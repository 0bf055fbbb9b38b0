/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_SWEEP_STATE_H
#define SWEEP_SWEEP_STATE_H

#include "sweep/sweep.h"

#define SWEEP_MARKS_MAX 64

/* The file beside a partial output that records the progress of the run: positions up to which
 * everything was written, each with the checksums up to there, so that a resumed run can
 * distinguish intact rows from damaged ones and go back to the last intact position. */
struct sweep_state {
    uint64_t question;
    int count;
    struct sweep_progress marks[SWEEP_MARKS_MAX]; /* in the order of the run */
};

/* Adds a position; when there are too many, every second one is dropped. */
void spt_sweep_state_mark(struct sweep_state *state, const struct sweep_progress *at);

/* Writes it to `path` with this ending, flushes it to the disk and renames it, so that there is
 * always a complete one. False with errno. */
#define SWEEP_STATE_FRESH ".new"
bool spt_sweep_state_write(const struct sweep_state *state, const char *path);

/* False if it does not exist, cannot be read, or has changed since it was written. */
bool spt_sweep_state_read(const char *path, struct sweep_state *state);

/* False if the file at `path` is not a state written by a sweep, and so must not be replaced or
 * removed. */
bool spt_sweep_state_is_own(const char *path);

/* Flushes a file to the disk, so that after a power cut the state counts no missing bytes. */
bool spt_sweep_sync(int descriptor);

/* All of the bytes; false with errno. */
bool spt_sweep_write_all(int descriptor, const char *bytes, size_t length);

#endif
