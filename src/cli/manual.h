/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_MANUAL_H
#define CLI_MANUAL_H

#include <stdio.h>

/* Files of an installation besides the program, generated from the tables of commands and options.
 */
void spt_manual_page(FILE *out); /* roff, section 1 */
void spt_manual_bash(FILE *out); /* completion for bash */
void spt_manual_zsh(FILE *out);  /* completion for zsh */

#endif
