/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_OUTPUT_H
#define CLI_OUTPUT_H

#include <stdio.h>

#include "cli/options.h"
#include "format/gather.h"
#include "format/text.h"

/* Destination of an answer. It is collected in memory and then written completely to standard
 * output, or to a file beside the output file that is renamed to it, so that an incomplete file is
 * never left. */
struct spt_output {
    FILE *stream; /* write here */
    struct spt_gather gathered;
    char *text; /* the whole of it once the stream is closed */
    size_t length;
};

/* False, with a message, when memory is exhausted. The struct must not be moved until it is closed.
 */
bool spt_output_open(struct spt_call *call, struct spt_output *output);

/* Writes what was gathered and frees it.
 * Result: `done`, or another exit status with a message: SPT_EXIT_USAGE where the output is a file
 *         that the run reads. */
int spt_output_close(struct spt_output *output, const struct spt_options *options, int done);

/* Frees what was gathered without writing it. */
void spt_output_drop(struct spt_output *output);

/* Starts a text report, in colour if the options ask for it, or by default if standard output is a
 * terminal and NO_COLOR is not set, and as wide as that terminal. */
struct spt_text spt_output_text(const struct spt_output *output, const struct spt_options *options);

#endif
