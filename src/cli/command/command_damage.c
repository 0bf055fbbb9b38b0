/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
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

/* Where nothing fits: the mode with a similar name, else the words that are not known. */
static int refuse(struct spt_call *call, const struct spt_guide *guide,
                  const struct spt_guide_answer *answer)
{
    const char *near = spt_guide_nearest(guide, answer->asked);
    bool first = true;
    if (near) {
        spt_say(call, "spalltime damage: no mode is called `%s`; did you mean `%s`?\n",
                answer->asked, near);
        return SPT_EXIT_BAD_INPUT;
    }
    spt_say(call, "spalltime damage: nothing in the guide fits `%s`", answer->asked);
    for (int i = 0; i < answer->query.count; i++)
        if (answer->query.words[i] < 0) {
            spt_say(call, "%s %s", first ? "; not known here:" : ",", answer->query.written[i]);
            first = false;
        }
    spt_say(call, "; say colour, shape and place in other words, or look through the list of "
                  "`spalltime damage`\n");
    return SPT_EXIT_BAD_INPUT;
}

/* With a scenario one mode must be named: lists the modes that match the words. */
static int refuse_mode(struct spt_call *call, const struct spt_guide *guide,
                       const struct spt_guide_answer *answer)
{
    const struct spt_search_result *result = &answer->result;
    if (result->mode_count < 2 && (!result->mode_count || spt_guide_nearest(guide, answer->asked)))
        return refuse(call, guide, answer);
    spt_say(call,
            "spalltime damage: `%s` is not the name of one mode; name one that it "
            "fits:",
            answer->asked);
    for (int i = 0; i < result->mode_count; i++)
        spt_say(call, "%s `%s`", i ? "," : "", spt_guide_hit_name(answer, true, i));
    spt_say(call, "\n");
    return SPT_EXIT_BAD_INPUT;
}

static bool ends_in(const char *word, const char *end)
{
    size_t length = strlen(word), tail = strlen(end);
    return length > tail && !strcmp(word + length - tail, end);
}

static bool is_scenario(const char *word)
{
    struct stat about;
    const bool file = strchr(word, '/') && !stat(word, &about) && S_ISREG(about.st_mode);
    return file || !strcmp(word, "-") || ends_in(word, ".yaml") || ends_in(word, ".yml");
}

/* True if the only word is a scenario file, which means that the mode is missing. */
static bool lacks_mode(struct spt_call *call, const char *asked)
{
    if (is_scenario(asked))
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

static void *allocate(struct spt_call *call, struct spt_arena *arena, size_t size)
{
    void *memory = spt_arena_allocate(arena, size);
    if (!memory)
        spt_say(call, "spalltime damage: out of memory\n");
    return memory;
}

/* The words of the command line up to `count` as one text. Result: NULL when memory is out. */
static const char *join_words(const struct spt_options *options, struct spt_arena *arena, int count)
{
    size_t length = 1, used = 0;
    for (int i = 0; i < count; i++)
        length += strlen(options->arguments[i]) + 1;
    char *joined = allocate(options->call, arena, length);
    for (int i = 0; joined && i < count; i++)
        used += (size_t)snprintf(joined + used, length - used, "%s%s", i ? " " : "",
                                 options->arguments[i]);
    return joined;
}

/* Each finding that fits, weighed for itself: rarely enough to tell, but it says what to ask. */
static int weigh_alone(struct spt_call *call, struct spt_guide_answer *answer,
                       struct spt_arena *arena)
{
    for (int i = 0; i < answer->result.finding_count; i++) {
        const struct spt_search_hit *hit = &answer->result.findings[i];
        const struct spt_diagnosis_answer one = {hit->owner, !hit->absent, 1};
        const struct spt_diagnosis_case alone = {.table = &answer->causes->table,
                                                 .machine = SPT_MACHINE_HUB,
                                                 .answer_count = 1,
                                                 .answers = &one,
                                                 .hours = (double)NAN,
                                                 .last_sound_h = (double)NAN,
                                                 .doubt = (double)NAN};
        if (spt_diagnose(&alone, arena, &answer->alone[i])) {
            spt_say(call, "spalltime damage: out of memory\n");
            return SPT_EXIT_SYSTEM;
        }
    }
    return SPT_EXIT_DONE;
}

static int look_for(const struct spt_options *options, const struct spt_guide *guide,
                    struct spt_causes *causes, struct spt_guide_answer *answer)
{
    const struct spt_search_result *result = &answer->result;
    if (!result->finding_count && !result->mode_count && !result->outside)
        return refuse(options->call, guide, answer);
    const int status = weigh_alone(options->call, answer, &causes->arena);
    return status ? status
                  : reply(options, &causes->arena,
                          &(struct request){.guide = guide, .answer = answer});
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
    int status = spt_input_read(options, options->arguments[options->argument_count - 1], &input);
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

/* True where the last word is a scenario: it looks like one, or a mode and a file are named. */
static bool has_scenario(const struct spt_options *options, const struct spt_guide *guide)
{
    struct stat about;
    const int count = options->argument_count;
    return count > 1 && (is_scenario(options->arguments[count - 1]) ||
                         (count == 2 && spt_guide_find_word(guide, options->arguments[0]) &&
                          !stat(options->arguments[1], &about)));
}

/* Answers words that are no name of a mode. */
static int search(const struct spt_options *options, const struct spt_catalog *catalog,
                  const struct spt_guide *guide, const char *asked, bool wants_mode)
{
    struct spt_causes causes;
    struct spt_guide_answer answer = {.asked = asked, .causes = &causes};
    struct spt_diagnostics diags = {0};
    int status;
    if (spt_causes_load(catalog, guide, &causes, &diags)) {
        spt_query_read(&causes.vocabulary, asked, &answer.query);
        spt_search(&causes, &answer.query, &answer.result);
        status = wants_mode ? refuse_mode(options->call, guide, &answer)
                            : look_for(options, guide, &causes, &answer);
    } else {
        spt_diagnostics_print(&diags, spt_call_messages(options->call));
        status = diags.out_of_memory ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
    }
    spt_causes_free(&causes);
    return status;
}

static int answer(const struct spt_options *options, const struct spt_catalog *catalog,
                  struct spt_guide *guide)
{
    if (!guide->count) {
        spt_say(
            options->call,
            "spalltime damage: no catalog folder holds a damage guide; name one with --catalog\n");
        return SPT_EXIT_BAD_INPUT;
    }
    if (!options->argument_count)
        return reply(options, &guide->arena, &(struct request){.guide = guide});
    const bool scenario = has_scenario(options, guide);
    const char *asked = join_words(options, &guide->arena, options->argument_count - scenario);
    if (!asked)
        return SPT_EXIT_SYSTEM;
    const struct spt_guide_entry *entry =
        scenario ? spt_guide_find_word(guide, asked) : spt_guide_find(guide, asked);
    if (entry)
        return scenario ? inquire(options, entry)
                        : reply(options, &guide->arena,
                                &(struct request){.guide = guide, .entry = entry});
    if (!scenario && lacks_mode(options->call, asked))
        return SPT_EXIT_USAGE;
    return search(options, catalog, guide, asked, scenario);
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
        status = answer(options, &catalog, &guide);
    spt_guide_free(&guide);
    spt_catalog_free(&catalog);
    return status;
}
