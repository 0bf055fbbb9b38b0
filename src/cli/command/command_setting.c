/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "answer/life/setting.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/verdict.h"
#include "scenario/text/units.h"

#define LIMIT_MM 1.0 /* as in the section `hub` */

/* Reads a length from the text between `start` and `end`; NaN where it is not a length within the
 * limit. */
static double read_length(const char *start, const char *end)
{
    char word[32];
    double value_mm = (double)NAN;
    start += strspn(start, " ");
    while (end > start && end[-1] == ' ')
        end--;
    if ((size_t)(end - start) >= sizeof word)
        return (double)NAN;
    memcpy(word, start, (size_t)(end - start));
    word[end - start] = 0;
    if (spt_quantity_read(word, SPT_LENGTH, &value_mm) != SPT_QUANTITY_FINE ||
        fabs(value_mm) > LIMIT_MM)
        return (double)NAN;
    return value_mm;
}

/* Reads "-0.15 mm..0.5 mm", which replaces the range of the scenario; false with a message. */
static bool read_range(struct spt_call *call, const char *range, struct spt_hub_case *hub)
{
    const char *dots = range ? strstr(range, "..") : NULL;
    if (!range)
        return true;
    if (dots) {
        hub->lowest_mm = read_length(range, dots);
        hub->highest_mm = read_length(dots + 2, dots + strlen(dots));
    }
    if (dots && hub->lowest_mm < hub->highest_mm)
        return true;
    spt_say(call,
            "spalltime setting: write --range as two lengths within 1 mm of no play, preload below "
            "0, such as \"-0.15 mm..0.5 mm\"\n");
    return false;
}

/* Result passed to the functions that write it. */
struct answer {
    const struct spt_case *question;
    const struct spt_hub_curve *curve;
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_setting_page(page, answer->question, answer->curve);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_setting_json(json, page, answer->question, answer->curve);
}

/* A hub by its sheets is shown on estimated insides, on the end play side alone: below no play the
 * estimate is no number. */
static int use_sheets(struct spt_call *call, struct spt_input *input, struct spt_case *question,
                      struct spt_hub_case *hub)
{
    question->sheet_hub = NULL;
    for (int row = 0; row < 2; row++) {
        if (hub->hub.rows[row].geometry.elements > 0)
            continue;
        spt_input_lacks(call, &input->scenario,
                        "the insides of a row of this `hub` cannot be estimated from its sheet "
                        "(rollers too long or too short for it); state its `geometry`");
        return SPT_EXIT_BAD_INPUT;
    }
    if (hub->setting_kind != SPT_HUB_SET_END_PLAY) {
        spt_input_lacks(call, &input->scenario,
                        "a preload cannot be judged on estimated insides; state the `geometry` of "
                        "both rows, or an `end_play`");
        return SPT_EXIT_BAD_INPUT;
    }
    hub->lowest_mm = fmax(hub->lowest_mm, 0);
    if (hub->lowest_mm < hub->highest_mm)
        return SPT_EXIT_DONE;
    spt_say(call, "spalltime setting: on estimated insides the range has to reach end play\n");
    return SPT_EXIT_USAGE;
}

/* What is preloaded when running is left out on estimated insides. */
static enum spt_status ask(const struct spt_case *question, struct spt_hub_case *hub,
                           struct spt_arena *arena, struct spt_hub_curve *curve,
                           struct spt_error *error)
{
    enum spt_status status = spt_ask_setting(question, arena, curve, error);
    if (status || !hub->insides_estimated || !(curve->least_mm > hub->lowest_mm))
        return status;
    hub->lowest_mm = curve->least_mm;
    if (hub->setting_value >= hub->lowest_mm && hub->lowest_mm < hub->highest_mm)
        return spt_ask_setting(question, arena, curve, error);
    return spt_error_say(error, SPT_NOT_APPLICABLE, true, question->title,
                         "it is preloaded when running (no play is left below %.3g mm of end play "
                         "as set), which cannot be judged on estimated insides; state the "
                         "`geometry` of both rows",
                         hub->lowest_mm);
}

static bool has_hub(struct spt_call *call, const struct spt_input *input)
{
    if (input->scenario.base.question.hub || input->scenario.base.question.sheet_hub)
        return true;
    spt_input_lacks(call, &input->scenario,
                    "the scenario lacks a `hub`; only two rows that are set against each other "
                    "have a setting (see `spalltime schema`)");
    return false;
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    if (!has_hub(options->call, input))
        return SPT_EXIT_BAD_INPUT;
    struct spt_case question = input->scenario.base.question;
    struct spt_error error;
    struct spt_hub_curve *curve = spt_arena_allocate(&input->arena, sizeof *curve);
    struct spt_hub_case hub = *(question.hub ? question.hub : question.sheet_hub);
    if (!curve) {
        spt_say(options->call, "spalltime setting: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    question.hub = &hub;
    if (!read_range(options->call, options->range, &hub))
        return SPT_EXIT_USAGE;
    int status =
        hub.insides_estimated ? use_sheets(options->call, input, &question, &hub) : SPT_EXIT_DONE;
    if (status)
        return status;
    if (ask(&question, &hub, &input->arena, curve, &error))
        return spt_cli_fail(options->call, "setting", &error);
    const struct spt_judged *judged;
    status = spt_cli_verdict(options, "setting", input, NULL, NULL, &judged);
    if (status)
        return status;
    return spt_cli_judged(options, &forms, &input->arena, question.title, &judged->judgement,
                          &(struct answer){&question, curve},
                          spt_cli_verdict_status(&judged->judgement));
}

int spt_command_setting(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
