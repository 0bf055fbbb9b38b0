/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_SANDBOX_H
#define TESTS_SANDBOX_H

/* A copy of the built program in an installed tree of its own, whose catalogs are
 * tests/cli/catalog, and an empty scratch folder. The path of the scratch folder is as long
 * wherever the source tree lies: sentences that name it wrap alike. */
struct sandbox {
    char root[1024]; /* absolute */
    char work[32];   /* absolute, its length always the same; holds the scratch folder */
};

/* What a command left behind. */
struct sandbox_run {
    int status; /* -1 where a signal ended it */
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
