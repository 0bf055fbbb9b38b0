/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_COMPLETION_H
#define CLI_COMPLETION_H

#include <stdio.h>

/* Completion of commands, options and files for a shell, from the tables of commands and options.
 */
void spt_completion_bash(FILE *out);
void spt_completion_zsh(FILE *out);

#endif
