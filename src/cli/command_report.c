/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>

#include "cli/assess.h"
#include "cli/command.h"
#include "cli/hub.h"
#include "cli/input.h"
#include "cli/message.h"
#include "cli/output.h"
#include "cli/service.h"
#include "report/chart.h"
#include "report/html.h"
#include "scenario/fields.h"

/* Works out one case with the numbers its charts need. Result: an exit status. */
static int fill_case(const struct spt_variant *variant, struct spt_arena *arena,
                     struct spt_report_case *part)
{
    struct spt_assessment *assessment = spt_arena_take(arena, sizeof *assessment);
    if (!assessment) {
        fputs("spalltime: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    int status = spt_cli_assess(&variant->question, arena, assessment);
    if (status)
        return status;
    part->name = variant->name;
    part->note = variant->note;
    part->assessment = assessment;
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        /* where no film can be drawn there is no curve, and the chart does not apply */
        (void)spt_film_curves_of(&variant->question, bearing, &part->film[i]);
        spt_contours(bearing->bearing_case->bearing.type, &part->contours[i]);
    }
    return SPT_EXIT_DONE;
}

/* A chart that is left out after a message; only the system's failures end the report. */
static int leave_out(int status)
{
    return status == SPT_EXIT_SYSTEM ? status : SPT_EXIT_DONE;
}

static int fill_life(struct spt_input *input, struct spt_report *report)
{
    struct spt_service_life *life = spt_arena_take(&input->arena, sizeof *life);
    if (!life) {
        fputs("spalltime: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    int status = spt_cli_follow(&input->scenario, &input->arena, life);
    report->life = status ? NULL : life;
    return life->status == SPT_NOT_CONVERGED ? SPT_EXIT_DONE : leave_out(status);
}

static int fill_setting(struct spt_input *input, struct spt_report *report)
{
    struct spt_hub_bench bench;
    struct spt_case settled;
    struct spt_hub_curve *curve = spt_arena_take(&input->arena, sizeof *curve);
    if (!curve) {
        fputs("spalltime: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    int status =
        spt_cli_settle(&input->scenario.base.question, &input->arena, false, &bench, &settled);
    if (!status)
        status = spt_cli_hub_curve(&bench, &settled, &input->arena, curve);
    report->setting = status ? NULL : curve;
    return leave_out(status);
}

/* What the charts of the scenario as written need; all of them where `chart` is NULL. */
static int fill_base(struct spt_input *input, const struct spt_chart *chart,
                     struct spt_report *report)
{
    int status = SPT_EXIT_DONE;
    if (input->scenario.has_service && (!chart || !strcmp(chart->name, "timeline")))
        status = fill_life(input, report);
    if (!status && input->scenario.base.question.hub && (!chart || !strcmp(chart->name, "setting")))
        status = fill_setting(input, report);
    return status;
}

static int fill_report(struct spt_input *input, struct spt_report *report)
{
    const struct spt_scenario *scenario = &input->scenario;
    size_t count = 1 + (size_t)scenario->variant_count;
    struct spt_report_case *cases = spt_arena_take(&input->arena, count * sizeof *cases);
    if (!cases) {
        fputs("spalltime: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    *report = (struct spt_report){scenario->base.question.title, (int)count, cases, NULL, NULL};
    int status = fill_case(&scenario->base, &input->arena, &cases[0]);
    for (size_t i = 1; i < count && !status; i++)
        status = fill_case(&scenario->variants[i - 1], &input->arena, &cases[i]);
    return status;
}

static int refuse_chart(const char *name)
{
    const char *names[32];
    for (int i = 0; i < spt_chart_count; i++)
        names[i] = spt_chart_table[i].name;
    const char *near = spt_nearest(name, names, spt_chart_count);
    fprintf(spt_messages(), "spalltime report: there is no chart `%s`", name);
    if (near)
        fprintf(spt_messages(), "; did you mean `%s`?\n", near);
    else
        fputs("; see `spalltime help report`\n", spt_messages());
    return SPT_EXIT_USAGE;
}

static bool applies_somewhere(const struct spt_chart *chart, const struct spt_report *report)
{
    for (int i = 0; i < report->cases[0].assessment->bearing_count; i++)
        if (spt_chart_applies(chart, report, 0, i))
            return true;
    return false;
}

static int answer(const struct spt_options *options, const struct spt_report *report,
                  const struct spt_chart *chart)
{
    struct spt_output output;
    if (chart && !applies_somewhere(chart, report)) {
        fprintf(spt_messages(),
                "spalltime report: the chart `%s` needs %s, which this scenario has not\n",
                chart->name, chart->needs);
        return SPT_EXIT_BAD_INPUT;
    }
    if (!spt_output_open(&output))
        return SPT_EXIT_SYSTEM;
    bool written =
        chart ? spt_chart_alone(chart, report, 0, output.stream) : spt_html(report, output.stream);
    if (!written) {
        fputs("spalltime: out of memory\n", spt_messages());
        spt_output_drop(&output);
        return SPT_EXIT_SYSTEM;
    }
    bool missed = spt_cli_misses_target(report->cases[0].assessment);
    return spt_output_close(&output, options, missed ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

int spt_command_report(const struct spt_options *options)
{
    struct spt_input input;
    struct spt_report report;
    const struct spt_chart *chart = options->chart ? spt_chart_find(options->chart) : NULL;
    if (options->chart && !chart)
        return refuse_chart(options->chart);
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status)
        status = fill_report(&input, &report);
    if (!status)
        status = fill_base(&input, chart, &report);
    if (!status)
        status = answer(options, &report, chart);
    spt_input_free(&input);
    return status;
}
