/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"

#include "answer/compare/compare.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/spread.h"
#include "cli/verdict.h"
#include "sentence/findings.h"

/* The inputs and all their cases. */
struct comparison {
    struct spt_input inputs[SPT_COMPARED_MAX];
    int input_count;
    struct spt_arena arena;
    struct spt_compared *cases;
    int count;
};

static int read_inputs(const struct spt_options *options, struct comparison *all)
{
    for (int i = 0; i < options->argument_count; i++) {
        int status = spt_input_read(options, options->arguments[i], &all->inputs[i]);
        all->input_count++;
        if (status)
            return status;
        all->count += 1 + all->inputs[i].scenario.variant_count;
    }
    return SPT_EXIT_DONE;
}

static int assess_one(const struct spt_options *options, struct comparison *all, int *at,
                      struct spt_input *input, const struct spt_variant *variant)
{
    struct spt_compared *compared = &all->cases[(*at)++];
    compared->name = variant->name ? variant->name : variant->question.title;
    compared->note = variant->note;
    struct spt_error error;
    if (spt_ask_life(&variant->question, &all->arena, &compared->assessment, &error))
        return spt_cli_fail(options->call, "compare", &error);
    int status = spt_cli_band(options, "compare", input, compared->assessment.question, all->count,
                              &compared->assessment.spread);
    if (!status)
        spt_assessment_notes(&compared->assessment, &compared->notes);
    return status;
}

static int assess_all(const struct spt_options *options, struct comparison *all)
{
    int at = 0;
    all->cases = spt_arena_allocate(&all->arena, (size_t)all->count * sizeof *all->cases);
    for (int i = 0; all->cases && i < all->input_count; i++) {
        struct spt_input *input = &all->inputs[i];
        const struct spt_scenario *scenario = &input->scenario;
        int status = assess_one(options, all, &at, input, &scenario->base);
        for (int j = 0; j < scenario->variant_count && !status; j++)
            status = assess_one(options, all, &at, input, &scenario->variants[j]);
        if (status)
            return status;
    }
    if (!all->cases)
        spt_say(options->call, "spalltime: out of memory\n");
    return all->cases ? SPT_EXIT_DONE : SPT_EXIT_SYSTEM;
}

/* Writes "clean (hub.yaml)" if another file has a case of that name. */
static const char *name_in_full(struct comparison *all, const char *name, const char *path)
{
    const char *slash = strrchr(path, '/');
    const char *file = !strcmp(path, "-") ? "standard input" : slash ? slash + 1 : path;
    size_t size = strlen(name) + strlen(file) + sizeof " ()";
    char *text = spt_arena_allocate(&all->arena, size);
    if (text)
        snprintf(text, size, "%s (%s)", name, file);
    return text;
}

static bool is_shared(const struct comparison *all, int i)
{
    for (int j = 0; j < all->count; j++)
        if (j != i && !strcmp(all->cases[j].name, all->cases[i].name))
            return true;
    return false;
}

/* Makes names unique that occur in several files. Within a file they are unique. */
static int qualify_names(const struct spt_options *options, struct comparison *all)
{
    const char **names = spt_arena_allocate(&all->arena, (size_t)all->count * sizeof *names);
    int at = 0;
    for (int i = 0; names && i < all->input_count; i++)
        for (int j = 0; j <= all->inputs[i].scenario.variant_count && names; j++, at++) {
            names[at] = all->cases[at].name;
            if (is_shared(all, at))
                names[at] = name_in_full(all, names[at], options->arguments[i]);
            if (!names[at])
                names = NULL;
        }
    for (int i = 0; names && i < all->count; i++)
        all->cases[i].name = names[i];
    if (!names)
        spt_say(options->call, "spalltime: out of memory\n");
    return names ? SPT_EXIT_DONE : SPT_EXIT_SYSTEM;
}

/* The plan of one case of a file. */
static int judge_one(const struct spt_options *options, struct comparison *all,
                     struct spt_input *input, const struct spt_variant *variant, int at)
{
    const struct spt_judged *judged;
    const struct spt_plan_inputs asked =
        spt_variant_plan(&input->scenario, variant, SPT_WEIBULL_FLOOR);
    int status =
        spt_cli_verdict(options, "compare", input, &asked, &all->cases[at].assessment, &judged);
    if (!status)
        all->cases[at].plan = &judged->judgement;
    return status;
}

/* Judges the base of each file; the variants are compared, not judged. */
static int judge_files(const struct spt_options *options, struct comparison *all)
{
    int status = SPT_EXIT_DONE, at = 0;
    for (int i = 0; i < all->input_count && !status; i++) {
        const struct spt_scenario *scenario = &all->inputs[i].scenario;
        const int base = at++;
        status = judge_one(options, all, &all->inputs[i], &scenario->base, base);
        all->cases[base].judgement = all->cases[base].plan;
        for (int j = 0; j < scenario->variant_count && !status; j++)
            status = judge_one(options, all, &all->inputs[i], &scenario->variants[j], at++);
    }
    return status;
}

static int worst_status(const struct comparison *all)
{
    for (int i = 0; i < all->count; i++)
        if (spt_cli_verdict_status(all->cases[i].judgement))
            return SPT_EXIT_TARGET_MISSED;
    return SPT_EXIT_DONE;
}

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    const struct comparison *all = answer;
    spt_compare_page(page, all->cases, all->count, options->explain);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    const struct comparison *all = answer;
    spt_compare_json(json, page, all->cases, all->count, options->explain);
}

static int compare(const struct spt_options *options, struct comparison *all)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    int status = read_inputs(options, all);
    if (!status)
        status = assess_all(options, all);
    if (!status)
        status = qualify_names(options, all);
    if (!status)
        status = judge_files(options, all);
    if (status)
        return status;
    const char *title = spt_cli_title(options, NULL, "Comparison of cases");
    return spt_cli_judged(options, &forms, &all->arena, title, all->cases[0].judgement, all,
                          worst_status(all));
}

int spt_command_compare(const struct spt_options *options)
{
    struct comparison *all = spt_allocate(sizeof *all); /* too large for the stack */
    if (!all) {
        spt_say(options->call, "spalltime: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    memset(all, 0, sizeof *all);
    int status = compare(options, all);
    for (int i = 0; i < all->input_count; i++)
        spt_input_free(&all->inputs[i]);
    spt_arena_free(&all->arena);
    free(all);
    return status;
}
