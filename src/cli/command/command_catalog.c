/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "answer/catalog/catalog.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/output.h"

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

static int answer(const struct spt_options *options, const struct spt_catalog *catalog,
                  const struct spt_catalog_question *question)
{
    struct spt_output output;
    struct spt_diagnostics diags = {0};
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    struct spt_text text = spt_output_text(&output, options);
    if (options->format == SPT_FORMAT_JSON)
        spt_catalog_json(output.stream, catalog, question, &diags);
    else if (options->format == SPT_FORMAT_CSV)
        spt_catalog_csv(output.stream, catalog, question, &diags);
    else
        spt_catalog_text(&text, catalog, question, &diags);
    spt_diagnostics_print(&diags, spt_call_messages(options->call));
    if (diags.out_of_memory) {
        spt_output_drop(&output);
        return SPT_EXIT_SYSTEM;
    }
    return spt_output_close(&output, options,
                            spt_diagnostics_any(&diags) ? SPT_EXIT_BAD_INPUT : SPT_EXIT_DONE);
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
