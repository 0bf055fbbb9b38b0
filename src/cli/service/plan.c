/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/service/plan.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/answer.h"
#include "cli/calendar.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "file/file.h"
#include "platform/platform.h"

static int read_start(const struct spt_options *options, const struct spt_case *question,
                      struct spt_schedule_report *report)
{
    report->dated = options->start != NULL;
    if (options->start && !spt_date_read(options->start, &report->start)) {
        const bool formed =
            strlen(options->start) == 10 && strspn(options->start, "0123456789-") == 10;
        spt_say(options->call,
                "spalltime schedule: --start `%.40s` is %s; write a day such as 2026-03-01\n",
                options->start,
                formed ? "no day of the calendar" : "not written as year-month-day");
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
static const char *place_file(const struct spt_options *options, const char *path,
                              struct spt_arena *arena)
{
    bool placed = strcmp(path, "-") != 0 && !spt_call_text(options->call, path);
    char *whole = placed ? spt_whole_path(path) : NULL;
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
    if (own || options->argument_count > 1) /* of several plans one may be new */
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
                                  spt_schedule_entry_days(question, &report->entries[i]), &date);
    if (!beyond)
        return SPT_EXIT_DONE;
    fprintf(
        spt_call_messages(options->call),
        "spalltime schedule: from --start %s on, %d of %d dates lie beyond the year 9999, where "
        "the calendar ends; start sooner\n",
        options->start, beyond, report->entry_count);
    return SPT_EXIT_USAGE;
}

/* Tells a plan on which day of the year it starts, for the season. */
static void begin_season(const struct spt_schedule_report *report, struct spt_case *question)
{
    if (report->dated)
        spt_season_begin(question, spt_date_day(&report->start));
}

/* Computes the plan and, where the format shows it, its band. */
static int compute(const struct spt_options *options, struct spt_input *input,
                   struct spt_cli_plan *made)
{
    const struct spt_scenario *scenario = &input->scenario;
    struct spt_plan_inputs asked = spt_scenario_plan(scenario, made->report.floor);
    struct spt_assessment *assessment = &made->assessment;
    struct spt_uncertainty uncertainty;
    struct spt_error error;
    /* CSV, calendars and costs do not contain the band */
    bool shown =
        options->format != SPT_FORMAT_CSV && options->format != SPT_FORMAT_ICAL && !options->costs;
    if (shown && spt_cli_band_inputs(options, scenario, asked.question, 1, &uncertainty))
        asked.uncertainty = &uncertainty;
    if (spt_ask_life(asked.question, &input->arena, assessment, &error) ||
        spt_ask_schedule(&asked, &input->arena, &made->plan, &error) ||
        spt_ask_plan_verdict(assessment, &made->plan.schedule, &input->arena, &made->judgement,
                             &error))
        return spt_cli_fail(options->call, "schedule", &error);
    return SPT_EXIT_DONE;
}

/* Reads what does not depend on the plan, so that a mistake in it is reported at once. */
static int prepare(const struct spt_options *options, const char *path, struct spt_input *input,
                   struct spt_schedule_report *report)
{
    int problem = read_start(options, &input->scenario.base.question, report);
    if (!problem &&
        spt_input_lacks_dirt(options->call, &input->scenario, &input->scenario.base.question))
        problem = SPT_EXIT_BAD_INPUT;
    if (problem)
        return problem;
    begin_season(report, &input->scenario.base.question);
    report->file = place_file(options, path, &input->arena);
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

/* Compares the costs of the scenario and its variants, where costs and hours a year are stated. */
static int compare_costs(const struct spt_options *options, struct spt_input *input,
                         struct spt_schedule_report *report)
{
    const struct spt_scenario *scenario = &input->scenario;
    const int count = 1 + scenario->variant_count;
    struct spt_error error;
    report->costs_alone = options->costs;
    report->costs_leave_events = scenario->service.event_count > 0;
    const bool alone = options->argument_count == 1 && !options->crew; /* its CSV is the calendar */
    if (options->format == SPT_FORMAT_ICAL ||
        (options->format == SPT_FORMAT_CSV && !options->costs && alone))
        return SPT_EXIT_DONE; /* not in it */
    if (!scenario->base.has_costs || !(scenario->base.question.yearly_use_h > 0)) {
        if (options->costs)
            spt_input_lacks(options->call, scenario,
                            "--costs compares by money, which needs `costs` and `usage: {yearly: "
                            "900 h}`; add them");
        return options->costs ? SPT_EXIT_BAD_INPUT : SPT_EXIT_DONE;
    }
    struct spt_cost_inputs *cases =
        spt_arena_allocate(&input->arena, (size_t)count * sizeof *cases);
    struct spt_cost_result *results =
        spt_arena_allocate(&input->arena, (size_t)count * sizeof *results);
    struct spt_cost_entry *entries =
        spt_arena_allocate(&input->arena, (size_t)count * sizeof *entries);
    if (!cases || !results || !entries) {
        spt_say(options->call, "spalltime: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    for (int i = 0; i < count; i++) {
        const struct spt_variant *variant = i ? &scenario->variants[i - 1] : &scenario->base;
        cases[i].plan = spt_scenario_plan(scenario, report->floor);
        cases[i].plan.question = &variant->question;
        cases[i].plan.costs = spt_variant_pair(variant);
        cases[i].costs = variant->costs;
        entries[i].name = i ? variant->name : variant->question.title;
        entries[i].costs = &variant->costs;
    }
    if (spt_ask_costs(cases, count, &input->arena, results, &error))
        return spt_cli_fail(options->call, "schedule", &error);
    for (int i = 0; i < count; i++)
        entries[i].result = results[i];
    report->cost_count = count;
    report->cost_entries = entries;
    return SPT_EXIT_DONE;
}

int spt_cli_plan_make(const struct spt_options *options, const char *path, struct spt_input *input,
                      struct spt_cli_plan *made)
{
    const struct spt_scenario *scenario = &input->scenario;
    struct spt_schedule_report *report = &made->report;
    *report = (struct spt_schedule_report){
        .schedule = &made->plan.schedule,
        .assessment = &made->assessment,
        .judgement = &made->judgement,
        .floor = options->law == SPT_LAW_TWO_PARAMETER ? 0 : SPT_WEIBULL_FLOOR,
        .currency = scenario->currency,
        .limits = &scenario->limits,
    };
    made->plan.schedule.question = &scenario->base.question;
    int problem = prepare(options, path, input, report);
    if (!problem)
        problem = compute(options, input, made);
    if (problem)
        return problem;
    spt_schedule_report_take(report, &made->plan);
    problem = check_dates(options, report);
    if (!problem)
        problem = compare_costs(options, input, report);
    return problem ? problem : draw_survival(options, &input->arena, &made->assessment, report);
}
