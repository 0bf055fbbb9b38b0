/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_LEFT_OUT_H
#define TESTS_LEFT_OUT_H

#include <criterion/criterion.h>

/* Ends a test that cannot be made here and says why: in Criterion's log, and as a line of the file
 * that SPT_LEFT_OUT names, which `make test` prints at its end. */
#define leave_out(reason)                                                                          \
    do {                                                                                           \
        left_out_note(reason);                                                                     \
        cr_skip_test("%s", reason);                                                                \
    } while (0)
void left_out_note(const char *reason);

/* The command of a python3 that has the modules ("jsonschema, yaml"); leaves the test out where
 * none here has them, saying which Debian packages bring them. */
const char *python_with(const char *modules, const char *packages);

#endif
