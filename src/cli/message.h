/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_MESSAGE_H
#define CLI_MESSAGE_H

#include <stdbool.h>
#include <stdio.h>

#include "scenario/text/units.h"
#include "spalltime/ask.h"

/* Where messages for people go: standard error, or the memory of a caller of spt_run_json. */
FILE *spt_messages(void);
void spt_messages_to(FILE *stream); /* NULL: standard error again */

/* Tells why a question has no answer. Result: the exit status. */
int spt_cli_fail(const char *command, const struct spt_error *error);

/* Says which two readings the value of an option has that spt_quantity_read found ambiguous; says
 * nothing, with false, for another. */
bool spt_message_ambiguous(const char *option, const char *value,
                           enum spt_quantity_problem problem);

#endif
