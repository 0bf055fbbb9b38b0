/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "answer/catalog/check.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "format/gather.h"
#include "scenario/case_file.h"

/* What was found of all files. */
struct answer {
    int count;
    struct spt_checked *files;
    struct spt_input *inputs; /* of each file, all 0 for one that was not kept */
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *what)
{
    const struct answer *answer = what;
    if (options->format == SPT_FORMAT_TEXT)
        spt_check_lines(page, answer->files, answer->count);
    else
        spt_check_page(page, answer->files, answer->count);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *what)
{
    (void)options;
    spt_check_json(json, page, ((const struct answer *)what)->files);
}

/* The inputs of a scenario as the models take them. The hub is not solved, so that one that cannot
 * carry its load is shown too. */
static enum spt_status understand(struct spt_input *input, struct spt_checked *file)
{
    const struct spt_case *question = &input->scenario.base.question;
    const size_t count = (size_t)spt_case_phase_count(question);
    struct spt_phase_result *phases = spt_arena_allocate(&input->arena, count * sizeof *phases);
    struct spt_assessment *assessment = spt_arena_allocate(&input->arena, sizeof *assessment);
    if (!phases || !assessment)
        return SPT_NO_MEMORY;
    file->understood = assessment;
    return spt_assess(question, phases, assessment);
}

/* JSON and CSV do not show what was understood. */
static bool is_to_understand(const struct spt_options *options)
{
    return options->explain &&
           (options->format == SPT_FORMAT_TEXT || options->format == SPT_FORMAT_HTML);
}

static int read_scenario(const struct spt_options *options, const char *path,
                         const struct spt_source *source, struct spt_input *input,
                         struct spt_checked *file)
{
    const int status = spt_input_load(options, path, source, input);
    if (!status) {
        file->phases = input->scenario.base.question.bearings[0].phase_count;
        file->variants = input->scenario.variant_count;
    }
    return status;
}

/* The input is kept where its quantities are to be shown. */
static int read_file(const struct spt_options *options, const char *path, struct spt_input *input,
                     struct spt_checked *file)
{
    struct spt_source source;
    *file = (struct spt_checked){.path = path, .messages = ""};
    int status = spt_input_open(options, path, input, &source);
    const bool cases = !status && spt_case_file_is(&source);
    if (cases)
        status = spt_cli_check_cases(options, path, &source, &file->cases);
    else if (!status)
        status = read_scenario(options, path, &source, input, file);
    if (status)
        file->result = status == SPT_EXIT_BAD_INPUT ? SPT_CHECK_MISTAKES : SPT_CHECK_NOT_READ;
    if (!status && !cases && is_to_understand(options)) {
        const enum spt_status understood = understand(input, file);
        if (!understood)
            return status;
        file->understood = NULL;
        spt_say(options->call, "spalltime check: %s: %s\n", path, spt_status_text(understood));
        status = SPT_EXIT_SYSTEM;
    }
    spt_input_free(input);
    memset(input, 0, sizeof *input);
    return status;
}

/* Reads a file and keeps what is said of it, which goes on to where messages go. */
static int read_and_keep(const struct spt_options *options, const char *path,
                         struct spt_arena *arena, struct spt_input *input, struct spt_checked *file)
{
    struct spt_gather gathered;
    FILE *messages = options->call->messages;
    *file = (struct spt_checked){.path = path};
    if (!spt_gather_open(&gathered))
        return SPT_EXIT_SYSTEM;
    options->call->messages = gathered.stream;
    const int status = read_file(options, path, input, file);
    options->call->messages = messages;
    char *said = spt_gather_close(&gathered);
    file->messages = said ? spt_arena_text(arena, said, gathered.length) : NULL;
    if (said)
        fputs(said, spt_call_messages(options->call));
    free(said);
    return file->messages ? status : SPT_EXIT_SYSTEM;
}

static int work(const struct spt_options *options, struct spt_arena *arena, struct answer *answer)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    int worst = SPT_EXIT_DONE;
    for (int i = 0; i < answer->count; i++) {
        struct spt_checked *file = &answer->files[i];
        const char *path = options->arguments[i];
        const int status = options->format == SPT_FORMAT_TEXT
                               ? read_file(options, path, &answer->inputs[i], file)
                               : read_and_keep(options, path, arena, &answer->inputs[i], file);
        worst = status > worst ? status : worst;
        if (!file->messages) {
            spt_say(options->call, "spalltime: out of memory\n");
            return SPT_EXIT_SYSTEM;
        }
    }
    const int status = spt_cli_show(
        options, &forms, arena, spt_cli_title(options, NULL, "Check of scenarios"), answer, worst);
    return status > worst ? status : worst;
}

int spt_command_check(const struct spt_options *options)
{
    struct spt_arena arena = {0};
    const size_t count = (size_t)options->argument_count;
    struct answer answer = {options->argument_count,
                            spt_arena_allocate(&arena, count * sizeof *answer.files),
                            spt_arena_allocate(&arena, count * sizeof *answer.inputs)};
    int status = SPT_EXIT_SYSTEM;
    if (answer.files && answer.inputs)
        status = work(options, &arena, &answer);
    else
        spt_say(options->call, "spalltime: out of memory\n");
    for (int i = 0; answer.inputs && i < answer.count; i++)
        spt_input_free(&answer.inputs[i]);
    spt_arena_free(&arena);
    return status;
}
