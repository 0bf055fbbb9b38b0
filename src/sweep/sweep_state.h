/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_SWEEP_STATE_H
#define SWEEP_SWEEP_STATE_H

#include "sweep/sweep.h"

#define SWEEP_MARKS_MAX 64

/* The file beside a partial output that says how far the run came: places up to which everything
 * was written, each with checksums of it, so that a resumed run can tell sound rows from damaged
 * ones and go back to the last place that is sound. */
struct sweep_state {
    uint64_t question;
    int count;
    struct sweep_progress marks[SWEEP_MARKS_MAX]; /* in the order of the run */
};

/* Adds a place; of many, every second one is forgotten. */
void spt_sweep_state_mark(struct sweep_state *state, const struct sweep_progress *at);

/* Written to `path` with this ending, put onto the disk and renamed, so that there is always a
 * whole one. False with errno. */
#define SWEEP_STATE_FRESH ".new"
bool spt_sweep_state_write(const struct sweep_state *state, const char *path);

/* False where it is not there, cannot be read, or is not as it was written. */
bool spt_sweep_state_read(const char *path, struct sweep_state *state);

/* False where something stands at `path` that no sweep wrote as a state, and that must not be
 * replaced or removed. */
bool spt_sweep_state_is_own(const char *path);

/* Flushes a file to the disk, so that after a power cut the state counts no missing bytes. */
bool spt_sweep_sync(int descriptor);

/* All of the bytes; false with errno. */
bool spt_sweep_write_all(int descriptor, const char *bytes, size_t length);

#endif
