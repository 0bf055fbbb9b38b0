/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_MESSAGE_H
#define CLI_MESSAGE_H

#include <stdio.h>

#include "spalltime/ask.h"

/* Where messages for people go: standard error, or the memory of a caller of spt_run_json. */
FILE *spt_messages(void);
void spt_messages_to(FILE *stream); /* NULL: standard error again */

/* Tells why a question has no answer. Result: the exit status. */
int spt_cli_fail(const char *command, const struct spt_error *error);

#endif
