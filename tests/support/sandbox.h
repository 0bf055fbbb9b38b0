/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_SANDBOX_H
#define TESTS_SANDBOX_H

/* A copy of the built program in its own installation tree with the catalogs of tests/cli/catalog,
 * and an empty scratch folder. The path of the scratch folder has the same length wherever the
 * source tree is, so that sentences that contain it are wrapped equally. */
struct sandbox {
    char root[1024]; /* absolute */
    char work[32];   /* absolute, of constant length; contains the scratch folder */
};

/* Result of a command. */
struct sandbox_run {
    int status; /* exit status; -1 where a signal ended it */
    char *out;
    char *err;
};

void sandbox_make(struct sandbox *sandbox);
void sandbox_remove(const struct sandbox *sandbox);

/* Runs a shell command that calls `spalltime` from the top of the source tree, with $SCRATCH an
 * empty folder. In the outputs, which are from malloc, the path of that folder is SCRATCH and the
 * version VERSION. */
void sandbox_run(const struct sandbox *sandbox, const char *command, struct sandbox_run *got);

#endif
