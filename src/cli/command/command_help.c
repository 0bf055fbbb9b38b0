/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/help/completion.h"
#include "cli/help/help.h"
#include "cli/output.h"

#define OVERVIEW_TITLE                                                                             \
    "spalltime: life of rolling bearings, and whether their lubrication is adequate"

/* Writes a file of an installation. */
static int print(const struct spt_options *options, struct spt_arena *arena,
                 const struct spt_manual_text *text)
{
    struct spt_output output;
    bool whole = true;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    if (options->print == SPT_PRINT_BASH)
        spt_completion_bash(output.stream);
    else if (options->print == SPT_PRINT_ZSH)
        spt_completion_zsh(output.stream);
    else
        whole = spt_help_man(arena, text ? text : spt_manual_find("spalltime"), output.stream);
    if (whole)
        return spt_output_close(&output, options, SPT_EXIT_DONE);
    spt_say(options->call, "spalltime: out of memory\n");
    spt_output_drop(&output);
    return SPT_EXIT_SYSTEM;
}

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    (void)options;
    spt_help_page(page, answer);
}

int spt_command_help(const struct spt_options *options)
{
    static const struct spt_answer_forms forms = {.page = fill_page};
    const char *name = options->argument_count ? options->arguments[0] : NULL;
    const struct spt_manual_text *text = name ? spt_manual_find(name) : NULL;
    struct spt_arena arena = {0};
    int status;
    if (name && !text) {
        spt_say(options->call,
                "spalltime: there is no command or topic `%s`; `spalltime help` lists them\n",
                name);
        return SPT_EXIT_USAGE;
    }
    if (options->print)
        status = print(options, &arena, text);
    else
        status = spt_cli_show(options, &forms, &arena,
                              text ? spt_manual_title(text) : OVERVIEW_TITLE, text, SPT_EXIT_DONE);
    spt_arena_free(&arena);
    return status;
}
