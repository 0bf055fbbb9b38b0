/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>

#include "answer/page/front.h"
#include "answer/page/report.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/command/report_data.h"
#include "cli/output.h"
#include "cli/verdict.h"
#include "scenario/text/fields.h"

#define NAMES_MAX 256 /* names to compare a misspelt one with */

static int refuse_chart(struct spt_call *call, const char *name)
{
    const char *names[NAMES_MAX];
    for (int i = 0; i < spt_chart_count; i++)
        names[i] = spt_chart_table[i].name;
    const char *near = spt_nearest(name, names, spt_chart_count);
    spt_say(call, "spalltime report: there is no chart `%s`", name);
    if (near)
        spt_say(call, "; did you mean `%s`?\n", near);
    else
        spt_say(call, "; see `spalltime help report`\n");
    return SPT_EXIT_USAGE;
}

/* Lists the variants of the scenario and suggests the name nearest to the one given. */
static int refuse_variant(struct spt_call *call, const char *name,
                          const struct spt_scenario *scenario)
{
    const char *names[NAMES_MAX];
    int count = scenario->variant_count < NAMES_MAX ? scenario->variant_count : NAMES_MAX;
    for (int i = 0; i < count; i++)
        names[i] = scenario->variants[i].name;
    const char *near = spt_nearest(name, names, count);
    spt_say(call, "spalltime report: there is no variant `%s`", name);
    if (near)
        spt_say(call, "; did you mean `%s`?", near);
    else if (count)
        spt_say(call, ".");
    spt_say(call, "%s",
            count ? " The variants are:\n" : "; the scenario has no section `variants`\n");
    for (int i = 0; i < scenario->variant_count; i++)
        spt_say(call, "  %s\n", scenario->variants[i].name);
    return SPT_EXIT_USAGE;
}

/* Finds the case that a chart is to be drawn of. Result: an exit status. */
static int pick_case(const struct spt_options *options, const struct spt_chart *chart,
                     const struct spt_scenario *scenario, int *picked)
{
    *picked = 0;
    if (!options->variant)
        return SPT_EXIT_DONE;
    if (chart->scope == SPT_CHART_OF_CASES || !strcmp(chart->name, "timeline")) {
        spt_say(options->call, "spalltime report: the chart `%s` is of %s; leave --variant out\n",
                chart->name,
                chart->scope == SPT_CHART_OF_CASES ? "the scenario and all its variants"
                                                   : "the scenario as written");
        return SPT_EXIT_USAGE;
    }
    for (int i = 0; i < scenario->variant_count && !*picked; i++)
        if (!strcmp(scenario->variants[i].name, options->variant))
            *picked = i + 1;
    return *picked ? SPT_EXIT_DONE : refuse_variant(options->call, options->variant, scenario);
}

static bool applies_somewhere(const struct spt_chart *chart, const struct spt_report *report,
                              int picked)
{
    for (int i = 0; i < report->cases[picked].assessment->bearing_count; i++)
        if (spt_chart_applies(chart, report, picked, i))
            return true;
    return false;
}

/* What the page is made from. */
struct whole {
    struct spt_report report;
    struct spt_schedule_report plan;
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    const struct whole *whole = answer;
    if (options->front)
        spt_front_page(page, &whole->report, &whole->plan);
    else
        spt_report_page(page, &whole->report, &whole->plan);
}

static int exit_status(const struct spt_report *report)
{
    return spt_cli_verdict_status(&report->judged->judgement);
}

static int answer_chart(const struct spt_options *options, const struct spt_report *report,
                        const struct spt_chart *chart, int picked)
{
    struct spt_output output;
    if (!applies_somewhere(chart, report, picked)) {
        spt_say(options->call, "spalltime report: the chart `%s` needs %s, which this %s has not\n",
                chart->name, chart->needs, picked ? "variant" : "scenario");
        return SPT_EXIT_BAD_INPUT;
    }
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    if (!spt_chart_alone(chart, report, picked, output.stream)) {
        spt_say(options->call, "spalltime: out of memory\n");
        spt_output_drop(&output);
        return SPT_EXIT_SYSTEM;
    }
    return spt_output_close(&output, options, exit_status(report));
}

static int answer(const struct spt_options *options, struct spt_input *input,
                  const struct whole *whole, const struct spt_chart *chart, int picked)
{
    static const struct spt_answer_forms forms = {.page = fill_page};
    struct spt_options html = *options;
    if (chart)
        return answer_chart(options, &whole->report, chart, picked);
    html.format = SPT_FORMAT_HTML;
    return spt_cli_answer(&html, &forms, &input->arena, whole->report.title, whole,
                          exit_status(&whole->report));
}

int spt_command_report(const struct spt_options *options)
{
    struct spt_input input;
    struct whole whole;
    int picked = 0;
    const struct spt_chart *chart = options->chart ? spt_chart_find(options->chart) : NULL;
    if (options->chart && !chart)
        return refuse_chart(options->call, options->chart);
    if (options->variant && !chart) {
        spt_say(
            options->call,
            "spalltime report: --variant names the case of a chart; the page holds them all: add "
            "--chart NAME, or leave it out\n");
        return SPT_EXIT_USAGE;
    }
    if (options->front && chart) {
        spt_say(options->call, "spalltime report: --front is a page and --chart a drawing: leave "
                               "one of them out\n");
        return SPT_EXIT_USAGE;
    }
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status)
        status = pick_case(options, chart, &input.scenario, &picked);
    if (!status)
        status = spt_cli_report_data(options, chart, picked, &input, &whole.report, &whole.plan);
    if (!status)
        status = answer(options, &input, &whole, chart, picked);
    spt_input_free(&input);
    return status;
}
