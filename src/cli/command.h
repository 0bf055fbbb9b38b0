/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_COMMAND_H
#define CLI_COMMAND_H

#include "cli/options.h"

/* One command; dispatch, help, man page and completion all come from the table in commands.c, what
 * help says from src/manual/command/NAME.md. */
struct spt_command {
    const char *name;
    const char *arguments;                         /* "FILE", "[COMMAND]" */
    const char *summary;                           /* one line */
    unsigned takes;                                /* bits of enum spt_option_bit */
    int least, most;                               /* number of arguments */
    int (*run)(const struct spt_options *options); /* gives an enum spt_exit */
};
extern const struct spt_command spt_command_table[];
extern const int spt_command_count;

const struct spt_command *spt_command_find(const char *name);

int spt_command_life(const struct spt_options *options);
int spt_command_compare(const struct spt_options *options);
int spt_command_reach(const struct spt_options *options);
int spt_command_choose(const struct spt_options *options);
int spt_command_timeline(const struct spt_options *options);
int spt_command_sweep(const struct spt_options *options);
int spt_command_report(const struct spt_options *options);
int spt_command_setting(const struct spt_options *options);
int spt_command_schedule(const struct spt_options *options);
int spt_command_spread(const struct spt_options *options);
int spt_command_fit(const struct spt_options *options);
int spt_command_duty(const struct spt_options *options);
int spt_command_check(const struct spt_options *options);
int spt_command_catalog(const struct spt_options *options);
int spt_command_damage(const struct spt_options *options);
int spt_command_example(const struct spt_options *options);
int spt_command_diagnose(const struct spt_options *options);

/* Reads a case file and all that it names, as `diagnose` does, and answers nothing. `*count` is the
 * number of its cases. Result: an exit status, messages are said. */
int spt_cli_check_cases(const struct spt_options *options, const char *path,
                        const struct spt_source *source, int *count);
int spt_command_schema(const struct spt_options *options);
int spt_command_help(const struct spt_options *options);

#endif
