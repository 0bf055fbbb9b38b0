/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_DISPATCH_H
#define CLI_DISPATCH_H

#include "file/call.h"

/* Runs a command line: the command, then its options and files, without the name of the program.
 * Result: the exit status. */
int spt_dispatch(struct spt_call *call, int count, char *const *words);

#endif
