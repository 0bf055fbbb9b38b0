/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "answer/service/schedule.h"
#include "cli/answer.h"
#include "cli/calendar.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "cli/verdict.h"
#include "file/file.h"

static int read_start(const struct spt_options *options, const struct spt_case *question,
                      struct spt_schedule_report *report)
{
    report->dated = options->start != NULL;
    if (options->start && !spt_date_read(options->start, &report->start)) {
        spt_say(options->call, "spalltime schedule: write --start as a day, such as 2026-03-01\n");
        return SPT_EXIT_USAGE;
    }
    if (options->format != SPT_FORMAT_ICAL && !options->start)
        return SPT_EXIT_DONE;
    if (!options->start) {
        spt_say(options->call,
                "spalltime schedule: a calendar needs the day it starts; add --start 2026-03-01\n");
        return SPT_EXIT_USAGE;
    }
    if (!(question->yearly_use_h > 0)) {
        spt_say(options->call,
                "spalltime schedule: dates need `usage: {yearly: 900 h}` in the scenario\n");
        return SPT_EXIT_BAD_INPUT;
    }
    return SPT_EXIT_DONE;
}

/* Finds what identifies the scenario's file in the UIDs: its absolute path, so that files of one
 * name in two folders are two plans, and one file is one plan under any relative path. Standard
 * input and a text in memory have no path and keep their name; NULL when memory is exhausted. */
static const char *place_file(const struct spt_options *options, struct spt_arena *arena)
{
    const char *path = options->arguments[0];
    bool placed = strcmp(path, "-") != 0 && !spt_call_text(options->call, path);
    char *whole = placed ? realpath(path, NULL) : NULL;
    const char *kept = whole ? spt_arena_text(arena, whole, strlen(whole)) : path;
    free(whole);
    return kept;
}

/* Reads the previous calendar, whose visits the new one replaces. */
static int read_previous(const struct spt_options *options, struct spt_arena *arena,
                         struct spt_schedule_report *report)
{
    struct spt_diagnostics diags = {0};
    struct spt_source source;
    struct spt_ical_event *events;
    char id[SPT_PLAN_ID_LENGTH];
    int own = 0;
    if (!options->previous)
        return SPT_EXIT_DONE;
    if (options->format != SPT_FORMAT_ICAL) {
        spt_say(options->call, "spalltime schedule: --previous belongs to --format ical\n");
        return SPT_EXIT_USAGE;
    }
    int error =
        spt_file_read(options->call, options->previous, SPT_CALENDAR_BYTES_MAX, arena, &source);
    if (error) {
        spt_say(options->call, "spalltime: cannot read %s: %s\n", options->previous,
                strerror(error));
        return SPT_EXIT_SYSTEM;
    }
    if (!spt_calendar_read(&source, arena, &events, &report->previous_count, &diags)) {
        spt_diagnostics_print(&diags, spt_call_messages(options->call));
        return diags.out_of_memory ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
    }
    spt_schedule_plan_id(report, id);
    for (int i = 0; i < report->previous_count; i++)
        own += !strncmp(events[i].uid, id, strlen(id));
    report->previous = events;
    if (own)
        return SPT_EXIT_DONE;
    spt_say(options->call,
            "spalltime schedule: %s has no visit of this plan, which the place of the file, its "
            "title and its bearings stand for; remove that calendar's events by hand\n",
            options->previous);
    return SPT_EXIT_BAD_INPUT;
}

/* Dates end with the year 9999: refuses a start after which some dates are later. */
static int check_dates(const struct spt_options *options, const struct spt_schedule_report *report)
{
    const struct spt_case *question = report->schedule->question;
    struct spt_date date;
    int beyond = 0;
    for (int i = 0; report->dated && question->yearly_use_h > 0 && i < report->entry_count; i++)
        beyond += !spt_date_after(&report->start,
                                  spt_schedule_days(question, report->entries[i].at_h), &date);
    if (!beyond)
        return SPT_EXIT_DONE;
    fprintf(
        spt_call_messages(options->call),
        "spalltime schedule: from --start %s on, %d of %d dates lie beyond the year 9999, where "
        "the calendar ends; start sooner\n",
        options->start, beyond, report->entry_count);
    return SPT_EXIT_USAGE;
}

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    (void)options;
    spt_schedule_page(page, answer);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    (void)options;
    spt_schedule_json(json, page, answer);
}

static void write_ical(FILE *out, const void *answer)
{
    spt_schedule_ical(out, answer);
}

static int answer(const struct spt_options *options, struct spt_arena *arena,
                  const struct spt_schedule_report *report)
{
    static const struct spt_answer_forms forms = {fill_page, write_json, write_ical, true};
    if (report->cut)
        spt_say(options->call, "spalltime schedule: the calendar holds the first %d dates only\n",
                report->entry_count);
    return spt_cli_judged(options, &forms, arena, report->schedule->question->title,
                          report->judgement, report, spt_cli_verdict_status(report->judgement));
}

/* Computes the plan and, where the format shows it, its band. */
static int compute(const struct spt_options *options, struct spt_input *input, double floor,
                   struct spt_assessment *assessment, struct spt_maintenance *plan,
                   struct spt_judgement *judgement)
{
    const struct spt_scenario *scenario = &input->scenario;
    struct spt_plan_inputs asked = spt_scenario_plan(scenario, floor);
    struct spt_uncertainty uncertainty;
    struct spt_error error;
    /* CSV and calendars do not contain the band */
    bool shown = options->format != SPT_FORMAT_CSV && options->format != SPT_FORMAT_ICAL;
    if (shown && spt_cli_band_inputs(options, scenario, asked.question, 1, &uncertainty))
        asked.uncertainty = &uncertainty;
    if (spt_ask_life(asked.question, &input->arena, assessment, &error) ||
        spt_ask_schedule(&asked, &input->arena, plan, &error) ||
        spt_ask_plan_verdict(assessment, &plan->schedule, &input->arena, judgement, &error))
        return spt_cli_fail(options->call, "schedule", &error);
    return SPT_EXIT_DONE;
}

/* Reads what does not depend on the plan, so that a mistake in it is reported at once. */
static int prepare(const struct spt_options *options, struct spt_input *input,
                   struct spt_schedule_report *report)
{
    int problem = read_start(options, &input->scenario.base.question, report);
    if (!problem &&
        spt_input_lacks_dirt(options->call, &input->scenario, &input->scenario.base.question))
        problem = SPT_EXIT_BAD_INPUT;
    if (problem)
        return problem;
    report->file = place_file(options, &input->arena);
    if (!report->file) {
        spt_say(options->call, "spalltime: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    return read_previous(options, &input->arena, report);
}

/* Works out the curve of the chart, which HTML alone has. */
static int draw_survival(const struct spt_options *options, struct spt_arena *arena,
                         struct spt_assessment *assessment, struct spt_schedule_report *report)
{
    struct spt_survival_curve *curve;
    if (options->format != SPT_FORMAT_HTML)
        return SPT_EXIT_DONE;
    curve = spt_arena_allocate(arena, sizeof *curve);
    if (!curve) {
        spt_say(options->call, "spalltime: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    assessment->spread = report->spread;
    /* without a life, or where nothing is worn, there is no curve */
    if (!spt_survival_curve(report->schedule, report->spread, curve))
        report->survival = curve;
    return SPT_EXIT_DONE;
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    const struct spt_scenario *scenario = &input->scenario;
    struct spt_assessment assessment;
    struct spt_judgement judgement;
    struct spt_maintenance plan = {.schedule = {.question = &scenario->base.question}};
    struct spt_schedule_report report = {
        .schedule = &plan.schedule,
        .assessment = &assessment,
        .judgement = &judgement,
        .floor = options->law == SPT_LAW_TWO_PARAMETER ? 0 : SPT_WEIBULL_FLOOR,
        .currency = scenario->currency,
        .limits = &scenario->limits,
        .costs = &scenario->costs,
    };
    int problem = prepare(options, input, &report);
    if (!problem)
        problem = compute(options, input, report.floor, &assessment, &plan, &judgement);
    if (problem)
        return problem;
    spt_schedule_report_take(&report, &plan);
    problem = check_dates(options, &report);
    if (!problem)
        problem = draw_survival(options, &input->arena, &assessment, &report);
    return problem ? problem : answer(options, &input->arena, &report);
}

int spt_command_schedule(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
