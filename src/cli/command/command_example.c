/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <dirent.h>
#include <errno.h>
#include <stdlib.h>
#include <string.h>

#include "answer/catalog/example.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/output.h"
#include "file/file.h"
#include "scenario/text/fields.h"

#define EXAMPLES_MAX 200
#define NAME_MAX_LENGTH 80
#define SCHEMA_LINE "# yaml-language-server:"

/* The examples that were found. */
struct shelf {
    const struct spt_options *options;
    char folder[SPT_INPUT_PATH];
    struct spt_arena arena;
    int count;
    struct spt_example list[EXAMPLES_MAX];
    bool out_of_memory;
};

struct answer {
    const struct spt_example *list;
    int count;
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_examples_page(page, answer->list, answer->count);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *what)
{
    (void)options;
    (void)what;
    spt_examples_json(json, page);
}

static int read_example(struct shelf *shelf, const char *name, struct spt_source *source)
{
    char path[SPT_INPUT_PATH + NAME_MAX_LENGTH + 8];
    snprintf(path, sizeof path, "%s/%s.yaml", shelf->folder, name);
    return spt_file_read(shelf->options->call, path, SPT_DOCUMENT_BYTES_MAX, &shelf->arena, source);
}

/* What stands behind `title:` or `case:` at the beginning of a line; "" where neither does. */
static const char *find_title(struct shelf *shelf, const char *name)
{
    static const char *const keys[] = {"\ntitle: ", "\ncase: ", "\n# "};
    struct spt_source source;
    const char *at = NULL;
    const int error = read_example(shelf, name, &source);
    shelf->out_of_memory = shelf->out_of_memory || error == ENOMEM;
    if (error)
        return "";
    for (int i = 0; !at && i < 3; i++)
        if ((at = strstr(source.text, keys[i])))
            at += strlen(keys[i]);
    const char *title = at ? spt_arena_text(&shelf->arena, at, strcspn(at, "\n")) : "";
    shelf->out_of_memory = shelf->out_of_memory || !title;
    return title ? title : "";
}

/* Adds the scenarios of a folder below that of all; `below` is "" or ends in a slash. */
static void add_folder(struct shelf *shelf, const char *below)
{
    char path[SPT_INPUT_PATH + NAME_MAX_LENGTH];
    snprintf(path, sizeof path, "%s/%s", shelf->folder, below);
    DIR *folder = opendir(path);
    shelf->out_of_memory = shelf->out_of_memory || (!folder && errno == ENOMEM);
    for (const struct dirent *entry; folder && (entry = readdir(folder));) {
        const size_t length = strlen(entry->d_name);
        char name[2 * NAME_MAX_LENGTH];
        if (length < 6 || length > NAME_MAX_LENGTH || strcmp(entry->d_name + length - 5, ".yaml") ||
            shelf->count == EXAMPLES_MAX)
            continue;
        const int used =
            snprintf(name, sizeof name, "%s%.*s", below, (int)length - 5, entry->d_name);
        const char *kept = spt_arena_text(&shelf->arena, name, (size_t)used);
        shelf->out_of_memory = shelf->out_of_memory || !kept;
        if (kept)
            shelf->list[shelf->count++] = (struct spt_example){kept, find_title(shelf, kept)};
    }
    if (folder)
        closedir(folder);
}

/* Those of a folder behind those beside it. */
static int compare(const void *one, const void *other)
{
    const char *first = ((const struct spt_example *)one)->name;
    const char *second = ((const struct spt_example *)other)->name;
    const bool below_first = strchr(first, '/'), below_second = strchr(second, '/');
    return below_first == below_second ? strcmp(first, second) : below_first ? 1 : -1;
}

static int refuse_name(const struct shelf *shelf, const char *name)
{
    const char *names[EXAMPLES_MAX];
    for (int i = 0; i < shelf->count; i++)
        names[i] = shelf->list[i].name;
    const char *near = spt_nearest(name, names, shelf->count);
    spt_say(shelf->options->call, "spalltime example: no example is called `%.60s`%s%s%s\n", name,
            near ? "; did you mean `" : "; `spalltime example` lists them", near ? near : "",
            near ? "`?" : "");
    return SPT_EXIT_USAGE;
}

/* Writes the text of an example without the line for editors, whose path holds in the source tree
 * alone. */
static int write_example(struct shelf *shelf, const char *name)
{
    struct spt_output output;
    struct spt_source source;
    int at = 0;
    while (at < shelf->count && strcmp(shelf->list[at].name, name) != 0)
        at++;
    if (at == shelf->count)
        return refuse_name(shelf, name);
    const int error = read_example(shelf, name, &source);
    if (error) {
        spt_say(shelf->options->call, "spalltime example: %s: %s\n", name, strerror(error));
        return SPT_EXIT_SYSTEM;
    }
    if (!spt_output_open(shelf->options->call, &output))
        return SPT_EXIT_SYSTEM;
    const char *text = source.text;
    if (!strncmp(text, SCHEMA_LINE, strlen(SCHEMA_LINE)))
        text += strcspn(text, "\n") + 1;
    fputs(text, output.stream);
    return spt_output_close(&output, shelf->options, SPT_EXIT_DONE);
}

static int answer(struct shelf *shelf)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    const struct spt_options *options = shelf->options;
    if (shelf->out_of_memory) {
        spt_say(options->call, "spalltime: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    if (options->argument_count)
        return write_example(shelf, options->arguments[0]);
    return spt_cli_show(options, &forms, &shelf->arena, spt_cli_title(options, NULL, "Examples"),
                        &(struct answer){shelf->list, shelf->count}, SPT_EXIT_DONE);
}

int spt_command_example(const struct spt_options *options)
{
    struct shelf shelf = {.options = options};
    if (!spt_input_own_folder("scenarios", shelf.folder)) {
        spt_say(options->call,
                "spalltime example: no folder of examples was found (looked in %s)\n",
                shelf.folder);
        return SPT_EXIT_SYSTEM;
    }
    add_folder(&shelf, "");
    add_folder(&shelf, "damaged/");
    qsort(shelf.list, (size_t)shelf.count, sizeof *shelf.list, compare);
    const int status = answer(&shelf);
    spt_arena_free(&shelf.arena);
    return status;
}
