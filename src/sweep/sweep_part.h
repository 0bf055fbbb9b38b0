/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_SWEEP_PART_H
#define SWEEP_SWEEP_PART_H

#include "base/checksum.h"
#include "file/place.h"
#include "sweep/sweep_state.h"

/* One file that grows beside its final name, locked by the run that writes it. */
struct sweep_part {
    struct spt_call *call;
    bool captured;    /* in the place of the standard output of a call from another program */
    const char *path; /* final name; NULL: standard output or a device, written directly */
    const char *shown;
    char beside[SPT_PATH_LENGTH];
    int descriptor;           /* -1: none */
    unsigned long long size;  /* when it was opened */
    size_t head;              /* bytes of its head, which is written anew by every run */
    struct spt_checksum kept; /* of what stands behind the head */
};

/* True for a path that is standard output or a device. */
bool spt_sweep_is_direct(const char *path);

/* Opens the part of `path` and takes its lock; what stands in it stays. Result: an exit status,
 * with a message. */
int spt_sweep_part_open(struct sweep_part *part, const char *path);

/* Counts the marks, from the first, up to which the part holds what was written, and takes up its
 * checksum after each of them into sums[]. `of_rejects` says whose bytes and checksum count. */
int spt_sweep_part_verify(struct sweep_part *part, const struct sweep_state *state, bool of_rejects,
                          struct spt_checksum *sums);

/* Cuts it to `bytes` and goes to its end. False with errno. */
bool spt_sweep_part_cut(struct sweep_part *part, unsigned long long bytes);

/* Writes the head at the start. False with errno. */
bool spt_sweep_part_head(struct sweep_part *part, const char *bytes, size_t length);

/* Renames it to its final name. Result: an exit status, with a message. */
int spt_sweep_part_finish(struct sweep_part *part);

/* True for one that was opened and holds nothing yet. */
bool spt_sweep_part_is_empty(const struct sweep_part *part);

/* Closes it; one that holds nothing is removed. */
void spt_sweep_part_drop(struct sweep_part *part);

/* Result: SPT_EXIT_SYSTEM, with a message that tells errno. */
int spt_sweep_complain(struct spt_call *call, const char *what, const char *path);

#endif
