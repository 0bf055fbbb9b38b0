/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "cli/assess.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/message.h"
#include "cli/output.h"
#include "report/compare.h"
#include "report/explain.h"
#include "report/life.h"

/* All the inputs and the cases in them. */
struct comparison {
    struct spt_input inputs[SPT_ARGUMENTS_MAX];
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

static int assess_one(struct comparison *all, int *at, const struct spt_variant *variant)
{
    struct spt_compared *compared = &all->cases[(*at)++];
    compared->name = variant->name ? variant->name : variant->question.title;
    compared->note = variant->note;
    return spt_cli_assess(&variant->question, &all->arena, &compared->assessment);
}

static int assess_all(struct comparison *all)
{
    int at = 0;
    all->cases = spt_arena_take(&all->arena, (size_t)all->count * sizeof *all->cases);
    for (int i = 0; all->cases && i < all->input_count; i++) {
        const struct spt_scenario *scenario = &all->inputs[i].scenario;
        int status = assess_one(all, &at, &scenario->base);
        for (int j = 0; j < scenario->variant_count && !status; j++)
            status = assess_one(all, &at, &scenario->variants[j]);
        if (status)
            return status;
    }
    if (!all->cases)
        fputs("spalltime: out of memory\n", spt_messages());
    return all->cases ? SPT_EXIT_DONE : SPT_EXIT_SYSTEM;
}

static bool any_misses(const struct comparison *all)
{
    for (int i = 0; i < all->count; i++) {
        const struct spt_assessment *assessment = &all->cases[i].assessment;
        double target_h = assessment->question->target_life_h;
        if (!isnan(target_h) && !(assessment->modified_rating_life_h >= target_h))
            return true;
    }
    return false;
}

static void write_json(FILE *out, const struct spt_options *options, const struct comparison *all)
{
    struct spt_json json = spt_json_begin(out);
    spt_json_open(&json, NULL, '{');
    spt_json_tool(&json);
    spt_compare_json(&json, all->cases, all->count);
    if (options->explain) {
        spt_json_open(&json, "workings", '[');
        for (int i = 0; i < all->count; i++) {
            spt_json_open(&json, NULL, '{');
            spt_json_text(&json, "name", all->cases[i].name);
            spt_explain_json(&json, &all->cases[i].assessment);
            spt_json_close(&json, '}');
        }
        spt_json_close(&json, ']');
    }
    spt_json_close(&json, '}');
}

static void write_text(const struct spt_output *output, const struct spt_options *options,
                       const struct comparison *all)
{
    struct spt_text text = spt_output_text(output, options);
    spt_compare_text(&text, all->cases, all->count);
    for (int i = 0; options->explain && i < all->count; i++) {
        spt_text_heading(&text, all->cases[i].name);
        spt_explain_text(&text, &all->cases[i].assessment);
    }
    if (!options->quiet)
        spt_text_cautions(&text);
}

static int answer(const struct spt_options *options, const struct comparison *all)
{
    struct spt_output output;
    if (!spt_output_open(&output))
        return SPT_EXIT_SYSTEM;
    if (options->format == SPT_FORMAT_JSON)
        write_json(output.stream, options, all);
    else if (options->format == SPT_FORMAT_CSV)
        spt_compare_csv(output.stream, all->cases, all->count);
    else
        write_text(&output, options, all);
    return spt_output_close(&output, options,
                            any_misses(all) ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

int spt_command_compare(const struct spt_options *options)
{
    static struct comparison all; /* large: kept off the stack, used once */
    memset(&all, 0, sizeof all);
    int status = read_inputs(options, &all);
    if (!status)
        status = assess_all(&all);
    if (!status)
        status = answer(options, &all);
    for (int i = 0; i < all.input_count; i++)
        spt_input_free(&all.inputs[i]);
    spt_arena_free(&all.arena);
    return status;
}
