/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

#include "answer/catalog/guide.h"
#include "cli/answer.h"
#include "cli/command.h"

/* What to write: the inquiry, else the search result `answer`, else the entry, else the whole list
 * of the guide; a pointer that is not used is NULL. */
struct request {
    const struct spt_guide *guide;
    const struct spt_guide_entry *entry;
    const struct spt_guide_answer *answer;
    const struct spt_guide_inquiry *inquiry;
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    const struct request *request = answer;
    (void)options;
    if (request->inquiry)
        spt_guide_inquiry_page(page, request->inquiry);
    else if (request->answer)
        spt_guide_answer_page(page, request->answer);
    else if (request->entry)
        spt_guide_entry_page(page, request->entry);
    else
        spt_guide_list_page(page, request->guide);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    const struct request *request = answer;
    (void)options;
    if (request->inquiry)
        spt_guide_inquiry_json(json, page, request->inquiry);
    else if (request->answer)
        spt_guide_answer_json(json, request->answer);
    else if (request->entry)
        spt_guide_entry_json(json, request->entry);
    else
        spt_guide_list_json(json, request->guide);
}

static int reply(const struct spt_options *options, struct spt_arena *arena,
                 const struct request *request)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    const char *title = request->entry ? request->entry->name : NULL;
    return spt_cli_answer(options, &forms, arena, spt_cli_title(options, title, "Damage modes"),
                          request, SPT_EXIT_DONE);
}

static int refuse(struct spt_call *call, const struct spt_guide *guide, const char *asked)
{
    const char *near = spt_guide_nearest(guide, asked);
    if (near)
        spt_say(call, "spalltime damage: no mode is called `%s`; did you mean `%s`?\n", asked,
                near);
    else
        spt_say(call,
                "spalltime damage: nothing in the guide fits `%s`; say colour, shape and place in "
                "other words, or look through the list of `spalltime damage`\n",
                asked);
    return SPT_EXIT_BAD_INPUT;
}

/* With a scenario one mode must be named: lists the modes that match the words. */
static int refuse_mode(struct spt_call *call, const struct spt_guide *guide, const char *asked)
{
    struct spt_guide_query query;
    struct spt_guide_hit hits[SPT_HITS_MAX];
    spt_guide_query_read(asked, &query);
    int count = spt_guide_search(guide, &query, hits);
    if (count < 2 && (!count || spt_guide_nearest(guide, asked)))
        return refuse(call, guide, asked);
    spt_say(call,
            "spalltime damage: `%s` is not the name of one mode; name one that it "
            "fits:",
            asked);
    for (int i = 0; i < count; i++)
        spt_say(call, "%s `%s`", i ? "," : "", hits[i].entry->name);
    spt_say(call, "\n");
    return SPT_EXIT_BAD_INPUT;
}

static bool ends_in(const char *word, const char *end)
{
    size_t length = strlen(word), tail = strlen(end);
    return length > tail && !strcmp(word + length - tail, end);
}

/* True if the only word is a scenario file, which means that the mode is missing. */
static bool lacks_mode(struct spt_call *call, const char *asked)
{
    struct stat about;
    bool file = strchr(asked, '/') && !stat(asked, &about) && S_ISREG(about.st_mode);
    if (file || !strcmp(asked, "-") || ends_in(asked, ".yaml") || ends_in(asked, ".yml"))
        spt_say(call,
                "spalltime damage: `%s` is a scenario; write the mode before it, such as "
                "`spalltime damage \"surface fatigue\" %s`\n",
                asked, asked);
    else if (!asked[strspn(asked, " ")])
        spt_say(call, "spalltime damage: the words are empty; say what is to be seen, such as "
                      "`spalltime damage \"brown stains\"`\n");
    else
        return false;
    return true;
}

static int look_for(const struct spt_options *options, struct spt_guide *guide)
{
    struct spt_guide_answer answer = {.asked = options->arguments[0]};
    spt_guide_query_read(answer.asked, &answer.query);
    answer.count = spt_guide_search(guide, &answer.query, answer.hits);
    if (!answer.count)
        return refuse(options->call, guide, answer.asked);
    return reply(options, &guide->arena, &(struct request){.guide = guide, .answer = &answer});
}

static void *allocate(struct spt_call *call, struct spt_arena *arena, size_t size)
{
    void *memory = spt_arena_allocate(arena, size);
    if (!memory)
        spt_say(call, "spalltime damage: out of memory\n");
    return memory;
}

/* Assesses one case and adds a guide case for each of its bearings. */
static int add_cases(struct spt_call *call, const struct spt_variant *variant,
                     const struct spt_guide_entry *entry, struct spt_arena *arena,
                     struct spt_guide_case *cases, int *count)
{
    struct spt_assessment *assessment = allocate(call, arena, sizeof *assessment);
    struct spt_error error;
    if (!assessment)
        return SPT_EXIT_SYSTEM;
    if (spt_ask_life(&variant->question, arena, assessment, &error))
        return spt_cli_fail(call, "damage", &error);
    for (int i = 0; i < assessment->bearing_count; i++) {
        struct spt_guide_case *one = &cases[(*count)++];
        *one = (struct spt_guide_case){.variant = variant->name,
                                       .bearing = &assessment->bearings[i],
                                       .of_case = &assessment->notes,
                                       .setting = &assessment->question->setting,
                                       .one_of_two = assessment->bearing_count > 1};
        for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
            if (!(entry->model_causes >> cause & 1u))
                continue;
            spt_suspect(assessment, i, (enum spt_cause)cause, &one->suspicions[cause]);
            spt_suspect_side(assessment, entry->setting_side, &one->suspicions[cause]);
        }
    }
    return SPT_EXIT_DONE;
}

static int inquire(const struct spt_options *options, const struct spt_guide_entry *entry)
{
    struct spt_input input;
    int status = spt_input_read(options, options->arguments[1], &input);
    if (status) {
        spt_input_free(&input);
        return status;
    }
    const struct spt_scenario *scenario = &input.scenario;
    size_t most = (size_t)(scenario->variant_count + 1) * SPT_BEARINGS_MAX;
    struct spt_guide_case *cases = allocate(options->call, &input.arena, most * sizeof *cases);
    struct spt_guide_inquiry inquiry = {entry, scenario->base.question.title, 0, cases};
    status = cases ? add_cases(options->call, &scenario->base, entry, &input.arena, cases,
                               &inquiry.count)
                   : SPT_EXIT_SYSTEM;
    for (int i = 0; !status && i < scenario->variant_count; i++)
        status = add_cases(options->call, &scenario->variants[i], entry, &input.arena, cases,
                           &inquiry.count);
    if (!status)
        status =
            reply(options, &input.arena, &(struct request){.entry = entry, .inquiry = &inquiry});
    spt_input_free(&input);
    return status;
}

static int answer(const struct spt_options *options, struct spt_guide *guide)
{
    const char *asked = options->argument_count ? options->arguments[0] : NULL;
    const struct spt_guide_entry *entry = NULL;
    if (!guide->count) {
        spt_say(
            options->call,
            "spalltime damage: no catalog folder holds a damage guide; name one with --catalog\n");
        return SPT_EXIT_BAD_INPUT;
    }
    if (options->argument_count == 2)
        entry = spt_guide_find_word(guide, asked);
    else if (asked)
        entry = spt_guide_find(guide, asked);
    if (!asked || (entry && options->argument_count == 1))
        return reply(options, &guide->arena, &(struct request){.guide = guide, .entry = entry});
    if (options->argument_count == 1)
        return lacks_mode(options->call, asked) ? SPT_EXIT_USAGE : look_for(options, guide);
    return entry ? inquire(options, entry) : refuse_mode(options->call, guide, asked);
}

int spt_command_damage(const struct spt_options *options)
{
    struct spt_catalog catalog;
    struct spt_guide guide = {0};
    struct spt_diagnostics diags = {0};
    int status = spt_input_catalogs(options, &catalog);
    if (!status)
        status = spt_input_need_catalogs(options->call, "damage", &catalog);
    if (!status && !spt_guide_load(&catalog, &guide, &diags)) {
        spt_diagnostics_print(&diags, spt_call_messages(options->call));
        status = diags.out_of_memory ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
    }
    if (!status)
        status = answer(options, &guide);
    spt_guide_free(&guide);
    spt_catalog_free(&catalog);
    return status;
}
