/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_SWEEP_PART_H
#define SWEEP_SWEEP_PART_H

#include "base/checksum.h"
#include "file/place.h"
#include "sweep/sweep_state.h"

/* A file that grows under a temporary name beside its final one, locked by the run that writes it.
 */
struct sweep_part {
    struct spt_call *call;
    bool captured;    /* replaces the standard output of a call from another program */
    const char *path; /* final name; NULL: standard output or a device, written directly */
    const char *shown;
    char beside[SPT_PATH_LENGTH];
    int descriptor;           /* -1: none */
    unsigned long long size;  /* when it was opened */
    size_t head;              /* bytes of its head, which is written anew by every run */
    struct spt_checksum kept; /* of the bytes after the head */
};

/* True for a path that is standard output or a device. */
bool spt_sweep_is_direct(const char *path);

/* Opens the part of `path` and locks it; its content is unchanged.
 * Result: an exit status, with a message. */
int spt_sweep_part_open(struct sweep_part *part, const char *path);

/* Counts the marks, from the first, up to which the part has the bytes that were written, and
 * stores the checksum after each of them in sums[]. `of_rejects` selects the bytes and checksum of
 * the rejects. */
int spt_sweep_part_verify(struct sweep_part *part, const struct sweep_state *state, bool of_rejects,
                          struct spt_checksum *sums);

/* Truncates it to `bytes` and moves to its end. False with errno. */
bool spt_sweep_part_cut(struct sweep_part *part, unsigned long long bytes);

/* Writes the head at the start. False with errno. */
bool spt_sweep_part_head(struct sweep_part *part, const char *bytes, size_t length);

/* Renames it to its final name.
 * Result: an exit status, with a message. */
int spt_sweep_part_finish(struct sweep_part *part);

/* True for a part that is open and still empty. */
bool spt_sweep_part_is_empty(const struct sweep_part *part);

/* Closes it; an empty part is removed. */
void spt_sweep_part_drop(struct sweep_part *part);

/* Result: SPT_EXIT_SYSTEM, with a message that contains the text of errno. */
int spt_sweep_complain(struct spt_call *call, const char *what, const char *path);

#endif
