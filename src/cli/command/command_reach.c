/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "answer/service/reach.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "cli/verdict.h"
#include "scenario/text/fields.h"
#include "scenario/text/readings.h"
#include "scenario/text/units.h"

/* Index of the lever named by --lever; -1: all; -2 with a message: unknown. */
static int find_lever(struct spt_call *call, const char *name)
{
    const char *names[SPT_LEVER_COUNT];
    if (!name)
        return -1;
    for (int i = 0; i < SPT_LEVER_COUNT; i++) {
        names[i] = spt_lever_name((enum spt_lever)i);
        if (!strcmp(name, names[i]))
            return i;
    }
    const char *near = spt_nearest(name, names, SPT_LEVER_COUNT);
    spt_say(call, "spalltime reach: there is no lever `%s`; ", name);
    if (near)
        spt_say(call, "did you mean `%s`? ", near);
    spt_say(call, "levers:");
    for (int i = 0; i < SPT_LEVER_COUNT; i++)
        spt_say(call, " %s", names[i]);
    spt_say(call, "\n");
    return -2;
}

/* Finds the target: that of --life, or the scenario's. Result: an exit status, with a message on
 * failure. */
static int find_target(const struct spt_options *options, const struct spt_scenario *scenario,
                       double *target_h)
{
    *target_h = scenario->base.question.target_life_h;
    enum spt_quantity_problem problem =
        options->life ? spt_quantity_read(options->life, SPT_DURATION, target_h)
                      : SPT_QUANTITY_FINE;
    if (spt_say_readings(options->call, "--life", options->life, problem))
        return SPT_EXIT_USAGE;
    if (options->life && (problem || !(*target_h > 0))) {
        spt_say(options->call,
                "spalltime reach: --life `%s` should be a time above 0 with a unit, such as "
                "20000h\n",
                options->life);
        return SPT_EXIT_USAGE;
    }
    if (isnan(*target_h))
        spt_input_lacks(options->call, scenario,
                        "the scenario lacks `target_life`; add it, such as `target_life: "
                        "20000 h`, or give --life 20000h");
    return isnan(*target_h) ? SPT_EXIT_BAD_INPUT : SPT_EXIT_DONE;
}

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    spt_reach_page(page, answer, options->explain);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    (void)page;
    spt_reach_json(json, answer, options->explain);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    const struct spt_case *question = &input->scenario.base.question;
    struct spt_reach reach;
    struct spt_assessment assessment;
    struct spt_error error;
    int only = find_lever(options->call, options->lever);
    if (only < -1)
        return SPT_EXIT_USAGE;
    double target_h;
    int exit_status = find_target(options, &input->scenario, &target_h);
    if (exit_status)
        return exit_status;
    const struct spt_settled *settled = spt_ask_settled(question, false, &input->arena, &error);
    if (!settled || spt_ask_reach(question, target_h, &input->arena, &reach, &error) ||
        spt_ask_life(question, &input->arena, &assessment, &error))
        return spt_cli_fail(options->call, "reach", &error);
    struct spt_reached answer = {&settled->question, &assessment, &reach, only, NULL, NAN};
    exit_status = spt_cli_band(options, "reach", input, &settled->question, 1, &answer.spread);
    if (exit_status)
        return exit_status;
    const struct spt_judged *judged;
    struct spt_plan_inputs asked = spt_scenario_plan(&input->scenario, SPT_WEIBULL_FLOOR);
    struct spt_case aimed = *question;
    aimed.target_life_h = target_h;
    asked.question = &aimed;
    exit_status = spt_cli_verdict(options, "reach", input, &asked, NULL, &judged);
    if (exit_status)
        return exit_status;
    answer.plan_life_h = judged->judgement.hours_run + judged->judgement.life_h;
    return spt_cli_judged(options, &forms, &input->arena, settled->question.title,
                          &judged->judgement, &answer, spt_cli_verdict_status(&judged->judgement));
}

int spt_command_reach(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
