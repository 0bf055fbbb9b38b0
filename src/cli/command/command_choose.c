/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "answer/choose/choose.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "scenario/build/build.h"
#include "scenario/text/units.h"

/* The bearings to choose from, built. */
struct list {
    struct spt_catalog own; /* of --from; the scenario borrows from that of the input */
    struct spt_bearing *bearings;
    const char **sources;
    int count;
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    (void)options;
    spt_choose_page(page, answer);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    (void)options;
    spt_choose_json(json, page, answer);
}

/* Builds the entries that are bearings. */
static bool build_list(struct spt_input *input, const struct spt_catalog *catalog,
                       struct list *list, struct spt_diagnostics *diags)
{
    const int count = catalog->count;
    struct spt_build build = {.arena = &input->arena, .diags = diags};
    list->bearings =
        spt_arena_allocate(&input->arena, ((size_t)count + 1) * sizeof *list->bearings);
    list->sources = spt_arena_allocate(&input->arena, ((size_t)count + 1) * sizeof *list->sources);
    list->count = 0;
    if (!list->bearings || !list->sources) {
        diags->out_of_memory = true;
        return false;
    }
    for (int i = 0; i < count; i++) {
        const struct spt_catalog_entry *entry = &catalog->entries[i];
        if (entry->kind != SPT_CATALOG_BEARINGS)
            continue;
        const struct spt_node *source = spt_node_find(entry->node, "source");
        struct spt_bearing *bearing = &list->bearings[list->count];
        spt_build_bearing(&build, entry->node, spt_section_bearing.name, bearing);
        bearing->name = entry->name;
        list->sources[list->count++] = source ? source->text : NULL;
    }
    return !spt_diagnostics_any(diags) && !diags->out_of_memory;
}

/* All bearings of the catalogs, or those of --from alone. */
static int read_list(const struct spt_options *options, struct spt_input *input, struct list *list)
{
    struct spt_diagnostics diags = {0};
    list->own.call = options->call;
    if (options->from)
        spt_catalog_add_file(&list->own, options->from, &diags);
    if (!spt_diagnostics_any(&diags) && !diags.out_of_memory)
        build_list(input, options->from ? &list->own : &input->catalog, list, &diags);
    spt_diagnostics_print(&diags, spt_call_messages(options->call));
    if (diags.out_of_memory)
        return SPT_EXIT_SYSTEM;
    if (!spt_diagnostics_any(&diags) && !list->count)
        spt_say(options->call, "spalltime choose: there is no bearing to choose from; name a list "
                               "with --from LIST.csv\n");
    return spt_diagnostics_any(&diags) || !list->count ? SPT_EXIT_BAD_INPUT : SPT_EXIT_DONE;
}

static bool read_margin(const struct spt_options *options, double *margin)
{
    *margin = SPT_CHOOSE_MARGIN;
    if (!options->margin)
        return true;
    if (!spt_quantity_read(options->margin, SPT_NO_DIMENSION, margin) && *margin >= 0.1 &&
        *margin <= 100)
        return true;
    spt_say(options->call,
            "spalltime choose: write --margin as a number from 0.1 to 100, such as 1.3\n");
    return false;
}

static int choose(const struct spt_options *options, struct spt_input *input, struct list *list)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    struct spt_choosing choosing;
    struct spt_error error;
    double margin;
    const struct spt_case *question = &input->scenario.base.question;
    if (!read_margin(options, &margin))
        return SPT_EXIT_USAGE;
    int status = read_list(options, input, list);
    if (status)
        return status;
    if (spt_ask_choose(question, list->bearings, list->count, margin, &input->arena, &choosing,
                       &error))
        return spt_cli_fail(options->call, "choose", &error);
    const struct spt_choose_answer answer = {
        &choosing, options->from ? options->from : "the catalog", list->sources};
    return spt_cli_answer(options, &forms, &input->arena, question->title, &answer,
                          choosing.passing ? SPT_EXIT_DONE : SPT_EXIT_TARGET_MISSED);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    struct list list = {.count = 0};
    int status = choose(options, input, &list);
    spt_catalog_free(&list.own);
    return status;
}

int spt_command_choose(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
