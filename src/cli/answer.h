/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_ANSWER_H
#define CLI_ANSWER_H

#include <stdio.h>

#include "cli/input.h"
#include "cli/options.h"
#include "format/page/page.h"
#include "spalltime/verdict.h"

/* Functions that write an answer in each format; `answer` is the one passed to spt_cli_answer. */
struct spt_answer_forms {
    /* Fills the page that is written as text, HTML and CSV. */
    void (*page)(struct spt_page *page, const struct spt_options *options, const void *answer);
    /* The members after "tool" of one object; rows that the page has come from it. */
    void (*json)(struct spt_json *json, const struct spt_options *options,
                 const struct spt_page *page, const void *answer);
    void (*ical)(FILE *out, const void *answer); /* NULL where the command has none */
    bool stairs; /* the head has the steps from the rating life to the life under the plan */
};

/* Writes an answer with the cautions in the format that the options name, completely or not at all,
 * with --explain as a sheet with head and lines to sign;
 * `title` heads text and HTML, NULL for none. Result: `done`, or SPT_EXIT_SYSTEM with a message. */
int spt_cli_answer(const struct spt_options *options, const struct spt_answer_forms *forms,
                   struct spt_arena *arena, const char *title, const void *answer, int done);

/* The same headed by the verdict on a machine. */
int spt_cli_judged(const struct spt_options *options, const struct spt_answer_forms *forms,
                   struct spt_arena *arena, const char *title,
                   const struct spt_judgement *judgement, const void *answer, int done);

/* The same without the cautions, for what is no estimate. */
int spt_cli_show(const struct spt_options *options, const struct spt_answer_forms *forms,
                 struct spt_arena *arena, const char *title, const void *answer, int done);

/* The title of an answer that may have none: text begins without one then, HTML and a calculation
 * with `name`. */
const char *spt_cli_title(const struct spt_options *options, const char *title, const char *name);

/* Reads the scenario of the first argument, calls `work` with it and frees it.
 * Result: the exit status of `work`, or of the reading. */
int spt_cli_work(const struct spt_options *options,
                 int (*work)(const struct spt_options *options, struct spt_input *input));

/* Prints why no result can be computed.
 * Result: the exit status. */
int spt_cli_fail(const struct spt_call *call, const char *command, const struct spt_error *error);

#endif
