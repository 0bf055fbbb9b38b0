/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/run.h"

#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/dispatch.h"
#include "format/gather.h"
#include "format/json.h"
#include "platform/platform.h"

static bool is_sound(const struct spt_run_request *request)
{
    bool sound = request && request->word_count >= 0 && request->file_count >= 0 &&
                 (!request->word_count || request->words) &&
                 (!request->file_count || request->files);
    for (int i = 0; sound && i < request->word_count; i++)
        sound = request->words[i] != NULL;
    for (int i = 0; sound && i < request->file_count; i++)
        sound = request->files[i].name && request->files[i].text;
    return sound;
}

/* A copy of the array of words, since commands may keep pointers into it. */
static char **copy_words(const struct spt_run_request *request)
{
    char **words = calloc((size_t)request->word_count + 1, sizeof *words);
    for (int i = 0; words && i < request->word_count; i++)
        words[i] = (char *)(uintptr_t)request->words[i];
    return words;
}

static struct spt_file_text *copy_files(const struct spt_run_request *request)
{
    struct spt_file_text *files = calloc((size_t)request->file_count + 1, sizeof *files);
    for (int i = 0; files && i < request->file_count; i++)
        files[i] = (struct spt_file_text){request->files[i].name, request->files[i].text,
                                          request->files[i].length};
    return files;
}

/* Runs the command in the C locale, so that numbers have a decimal point whatever the locale of the
 * calling thread. */
static int dispatch(struct spt_call *call, const struct spt_run_request *request)
{
    char **words = copy_words(request);
    struct spt_file_text *files = copy_files(request);
    struct spt_numerals numerals;
    int status = SPT_EXIT_SYSTEM;
    if (words && files && spt_numerals_enter(&numerals)) {
        call->texts = files;
        call->text_count = request->file_count;
        status = spt_dispatch(call, request->word_count, words);
        spt_numerals_leave(&numerals);
    }
    free(files);
    free(words);
    return status;
}

int spt_run(const struct spt_run_request *request, struct spt_run_answer *answer)
{
    struct spt_gather messages;
    if (!answer)
        return SPT_EXIT_USAGE;
    *answer = (struct spt_run_answer){.exit_status = SPT_EXIT_USAGE};
    if (!is_sound(request))
        return SPT_EXIT_USAGE;
    answer->exit_status = SPT_EXIT_SYSTEM;
    if (!spt_gather_open(&messages))
        return SPT_EXIT_SYSTEM;
    struct spt_call call = {
        .messages = messages.stream, .captured = true, .fragment = request->fragment};
    answer->exit_status = dispatch(&call, request);
    spt_call_end(&call);
    answer->messages = spt_gather_close(&messages);
    answer->body = call.body;
    answer->body_length = call.body_length;
    return answer->exit_status;
}

void spt_run_answer_free(struct spt_run_answer *answer)
{
    if (!answer)
        return;
    free(answer->body);
    free(answer->messages);
    *answer = (struct spt_run_answer){0};
}

/* The answer with "exit_status" put in before its last brace, or the error object. */
static char *make_json(const struct spt_run_answer *answer)
{
    struct spt_gather gathered;
    if (!spt_gather_open(&gathered))
        return NULL;
    FILE *out = gathered.stream;
    size_t end = answer->body_length;
    while (end > 0 && answer->body[end - 1] != '}')
        end--;
    if (answer->body && end > 1) {
        fwrite(answer->body, 1, end - 2, out); /* up to the line end before the brace */
        fprintf(out, ",\n  \"exit_status\": %d\n}\n", answer->exit_status);
    } else {
        struct spt_json json = spt_json_begin(out);
        spt_json_open(&json, NULL, '{');
        spt_json_number(&json, "exit_status", answer->exit_status);
        spt_json_text(&json, "error", answer->messages ? answer->messages : "out of memory");
        spt_json_close(&json, '}');
    }
    return spt_gather_close(&gathered);
}

/* The answer as it is, taken out of the struct, or the messages. */
static char *take_text(struct spt_run_answer *answer)
{
    char **text = answer->body_length ? &answer->body : &answer->messages;
    char *taken = *text;
    *text = NULL;
    return taken;
}

/* True for a command whose only input is one text and that writes in every format. */
static bool answers_text(const struct spt_command *command)
{
    return command && command->takes & (SPT_TAKES_FORMAT | SPT_TAKES_PLAN) && command->least == 1;
}

/* Makes an error answer that lists the commands there are. */
static void refuse(const char *name, struct spt_run_answer *answer)
{
    struct spt_gather messages;
    answer->exit_status = SPT_EXIT_USAGE;
    if (!spt_gather_open(&messages))
        return;
    fprintf(messages.stream,
            "spalltime: `%s` is no command that answers one text; these are:", name);
    for (int i = 0; i < spt_command_count; i++)
        if (answers_text(&spt_command_table[i]))
            fprintf(messages.stream, " %s", spt_command_table[i].name);
    fputc('\n', messages.stream);
    answer->messages = spt_gather_close(&messages);
}

char *spt_run_text(const char *command, const char *format, const char *text, size_t length,
                   const char *catalog_folder, int *exit_status)
{
    const char *name = command ? command : "", *form = format ? format : "";
    const char *const words[] = {name, "--format", form, "-", "--catalog", catalog_folder};
    const struct spt_run_file file = {"-", text ? text : "", text ? length : 0};
    const struct spt_run_request request = {words, catalog_folder ? 6 : 4, &file, 1, 0};
    struct spt_run_answer answer = {0};
    if (answers_text(spt_command_find(name)))
        spt_run(&request, &answer);
    else
        refuse(name, &answer);
    if (exit_status)
        *exit_status = answer.exit_status;
    char *made = strcmp(form, "json") ? take_text(&answer) : make_json(&answer);
    spt_run_answer_free(&answer);
    return made;
}

void spt_free(char *text)
{
    free(text);
}
