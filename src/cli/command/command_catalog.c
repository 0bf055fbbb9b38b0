/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "answer/catalog/catalog.h"
#include "cli/answer.h"
#include "cli/command.h"

static bool find_kind(struct spt_call *call, const char *word, enum spt_catalog_kind *kind)
{
    for (int i = 0; i < SPT_CATALOG_KIND_COUNT; i++)
        if (!strcmp(word, spt_catalog_kind_name((enum spt_catalog_kind)i))) {
            *kind = (enum spt_catalog_kind)i;
            return true;
        }
    spt_say(call, "spalltime catalog: `%s` is none of bearings, lubricants, conditions\n", word);
    return false;
}

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    (void)options;
    spt_catalog_page(page, answer);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    (void)options;
    (void)page;
    spt_catalog_json(json, answer);
}

static int answer(const struct spt_options *options, const struct spt_catalog *catalog,
                  const struct spt_catalog_question *question)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    struct spt_catalog_answer found;
    struct spt_diagnostics diags = {0};
    struct spt_arena arena = {0};
    const char *title = question->name ? question->name : spt_cli_title(options, NULL, "Catalog");
    int status = spt_catalog_list(catalog, question, &arena, &found, &diags) ? SPT_EXIT_DONE
                                                                             : SPT_EXIT_BAD_INPUT;
    spt_diagnostics_print(&diags, spt_call_messages(options->call));
    if (diags.out_of_memory)
        status = SPT_EXIT_SYSTEM;
    else
        status = spt_cli_show(options, &forms, &arena, title, &found, status);
    spt_arena_free(&arena);
    return status;
}

int spt_command_catalog(const struct spt_options *options)
{
    struct spt_catalog catalog;
    struct spt_catalog_question question = {.all_kinds = options->argument_count == 0};
    if (options->argument_count && !find_kind(options->call, options->arguments[0], &question.kind))
        return SPT_EXIT_USAGE;
    question.name = options->argument_count > 1 ? options->arguments[1] : NULL;
    int status = spt_input_catalogs(options, &catalog);
    if (!status)
        status = spt_input_need_catalogs(options->call, "catalog", &catalog);
    if (!status && question.name && !spt_catalog_find(&catalog, question.kind, question.name)) {
        const char *near = spt_catalog_nearest(&catalog, question.kind, question.name);
        spt_say(options->call, "spalltime catalog: no entry is called `%s`%s%s%s\n", question.name,
                near ? "; did you mean `" : "", near ? near : "", near ? "`?" : "");
        status = SPT_EXIT_BAD_INPUT;
    }
    if (!status)
        status = answer(options, &catalog, &question);
    spt_catalog_free(&catalog);
    return status;
}
