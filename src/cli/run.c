/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/run.h"

#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/message.h"
#include "format/gather.h"
#include "format/json.h"

/* What one run leaves behind. */
struct capture {
    char *answer; /* JSON of the command, or NULL */
    size_t answer_length;
    char *messages;
    int status;
};

/* The captured answer with "exit_status" put in before its last brace, or the error object. */
static char *make_text(const struct capture *capture)
{
    struct spt_gather gathered;
    if (!spt_gather_open(&gathered))
        return NULL;
    FILE *out = gathered.stream;
    size_t end = capture->answer_length;
    while (end > 0 && capture->answer[end - 1] != '}')
        end--;
    if (capture->answer && end > 1) {
        fwrite(capture->answer, 1, end - 2, out); /* up to the line end before the brace */
        fprintf(out, ",\n  \"exit_status\": %d\n}\n", capture->status);
    } else {
        struct spt_json json = spt_json_begin(out);
        spt_json_open(&json, NULL, '{');
        spt_json_number(&json, "exit_status", capture->status);
        spt_json_text(&json, "error", capture->messages ? capture->messages : "out of memory");
        spt_json_close(&json, '}');
    }
    return spt_gather_close(&gathered);
}

/* One that takes a text alone and answers in JSON. */
static bool answers_text(const struct spt_command *command)
{
    return command && command->takes & (SPT_TAKES_FORMAT | SPT_TAKES_PLAN) && command->least == 1;
}

static int refuse(const char *name)
{
    fprintf(spt_messages(),
            "spalltime: `%s` is no command that answers a text in JSON; these are:", name);
    for (int i = 0; i < spt_command_count; i++)
        if (answers_text(&spt_command_table[i]))
            fprintf(spt_messages(), " %s", spt_command_table[i].name);
    fputc('\n', spt_messages());
    return SPT_EXIT_USAGE;
}

static int run_command(const char *name, const struct spt_options *options)
{
    const struct spt_command *command = spt_command_find(name);
    return answers_text(command) ? command->run(options) : refuse(name);
}

/* Runs with messages and numbers as the program has them, whatever the caller's settings. */
static void run_apart(const char *command, const struct spt_options *options,
                      struct capture *capture)
{
    struct spt_gather messages;
    bool room = spt_gather_open(&messages);
    locale_t c = newlocale(LC_ALL_MASK, "C", (locale_t)0);
    locale_t before = c != (locale_t)0 ? uselocale(c) : (locale_t)0;
    spt_messages_to(messages.stream);
    /* without a locale of its own the numbers might get the caller's decimal comma */
    capture->status = room && c != (locale_t)0 ? run_command(command, options) : SPT_EXIT_SYSTEM;
    spt_messages_to(NULL);
    if (c != (locale_t)0) {
        uselocale(before);
        freelocale(c);
    }
    if (room)
        capture->messages = spt_gather_close(&messages);
}

char *spt_run_json(const char *command, const char *yaml, size_t length, const char *catalog_folder)
{
    struct capture capture = {0};
    struct spt_options options = {
        .format = SPT_FORMAT_JSON,
        .input_text = yaml ? yaml : "",
        .input_length = yaml ? length : 0,
        .answer = &capture.answer,
        .answer_length = &capture.answer_length,
        .arguments = (const char *[]){"-"},
        .argument_count = 1,
    };
    if (catalog_folder)
        options.catalogs[options.catalog_count++] = catalog_folder;
    run_apart(command ? command : "", &options, &capture);
    char *text = make_text(&capture);
    free(capture.answer);
    free(capture.messages);
    return text;
}

void spt_free(char *text)
{
    free(text);
}
