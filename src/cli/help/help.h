/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_HELP_H
#define CLI_HELP_H

#include "cli/command.h"
#include "manual/manual.h"

/* What `help` shows: the list of commands and topics for NULL, else a text of the manual; a command
 * has its usage and its options in it. */
void spt_help_page(struct spt_page *page, const struct spt_manual_text *text);

/* The same as a man page. Result: false when memory is out. */
bool spt_help_man(struct spt_arena *arena, const struct spt_manual_text *text, FILE *out);

#endif
