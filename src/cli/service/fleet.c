/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/service/fleet.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "answer/service/fleet.h"
#include "base/allocate.h"
#include "cli/answer.h"
#include "cli/service/plan.h"
#include "cli/verdict.h"

/* The plans of all files. */
struct fleet {
    struct spt_input inputs[SPT_COMPARED_MAX];
    int input_count;
    struct spt_arena arena;
    struct spt_cli_plan *plans[SPT_COMPARED_MAX];
    const struct spt_schedule_report *reports[SPT_COMPARED_MAX];
    struct spt_page *parts[SPT_COMPARED_MAX];
    struct spt_fleet_report report;
    int status; /* of the verdicts on all plans */
};

static int run_out(const struct spt_options *options)
{
    spt_say(options->call, "spalltime: out of memory\n");
    return SPT_EXIT_SYSTEM;
}

static int make_plans(const struct spt_options *options, struct fleet *fleet)
{
    for (int i = 0; i < options->argument_count; i++) {
        struct spt_input *input = &fleet->inputs[i];
        int status = spt_input_read(options, options->arguments[i], input);
        fleet->input_count++;
        if (status)
            return status;
        fleet->plans[i] = spt_arena_allocate(&fleet->arena, sizeof *fleet->plans[i]);
        if (!fleet->plans[i])
            return run_out(options);
        status = spt_cli_plan_make(options, options->arguments[i], input, fleet->plans[i]);
        if (status)
            return status;
        fleet->reports[i] = &fleet->plans[i]->report;
        status = spt_cli_verdict_status(&fleet->plans[i]->judgement);
        fleet->status = status ? status : fleet->status; /* one plan that misses is enough */
    }
    return SPT_EXIT_DONE;
}

/* Days between the visits of a plan whose visits may move; NaN: a season, or no hours a year. */
static double find_days(const struct spt_schedule *schedule)
{
    return spt_season_has(schedule->question)
               ? (double)NAN
               : spt_schedule_days(schedule->question, schedule->visit_h);
}

/* Makes the visits of each plan a multiple of the most frequent ones. */
static int align(const struct spt_options *options, struct fleet *fleet)
{
    double base_days = (double)NAN;
    for (int i = 0; i < fleet->input_count; i++)
        base_days = fmin(base_days, find_days(&fleet->plans[i]->plan.schedule));
    fleet->report.base_days = base_days;
    for (int i = 0; i < fleet->input_count && !isnan(base_days); i++) {
        struct spt_cli_plan *made = fleet->plans[i];
        struct spt_schedule *schedule = &made->plan.schedule;
        if (isnan(find_days(schedule)))
            continue;
        struct spt_schedule_entry *entries =
            spt_arena_allocate(&fleet->arena, SPT_SCHEDULE_ENTRIES_MAX * sizeof *entries);
        if (!entries)
            return run_out(options);
        spt_visits_align(schedule,
                         base_days / SPT_DAYS_PER_YEAR * schedule->question->yearly_use_h);
        made->plan.entry_count =
            spt_schedule_calendar(schedule, entries, SPT_SCHEDULE_ENTRIES_MAX, &made->plan.cut);
        made->plan.entries = entries;
        spt_schedule_report_take(&made->report, &made->plan);
    }
    return SPT_EXIT_DONE;
}

/* The dates of the visits of a plan; false when memory is out. */
static bool list_days(struct fleet *fleet, int index, struct spt_fleet_plan *plan)
{
    const struct spt_cli_plan *made = fleet->plans[index];
    const struct spt_case *question = made->plan.schedule.question;
    const double visit_days = find_days(&made->plan.schedule);
    double *days =
        spt_arena_allocate(&fleet->arena, (size_t)(made->plan.entry_count + 1) * sizeof *days);
    *plan = (struct spt_fleet_plan){.machines = question->fleet > 0 ? question->fleet : 1,
                                    .days = days};
    for (int i = 0; days && i < made->plan.entry_count; i++)
        if (!i || made->plan.entries[i].visit != made->plan.entries[i - 1].visit)
            days[plan->day_count++] = spt_schedule_entry_days(question, &made->plan.entries[i]);
    if (visit_days > 7)
        plan->weeks = (int)ceil(fmin(visit_days, SPT_DAYS_PER_YEAR) / 7) - 1;
    return days != NULL;
}

/* Lets the machines start staggered, so that no week has more visits than the crew makes. */
static int stagger(const struct spt_options *options, struct fleet *fleet)
{
    struct spt_fleet_plan plans[SPT_COMPARED_MAX];
    struct spt_fleet_start *starts =
        spt_arena_allocate(&fleet->arena, SPT_FLEET_MACHINES_MAX * sizeof *starts);
    struct spt_fleet_report *report = &fleet->report;
    if (!starts)
        return run_out(options);
    for (int i = 0; i < fleet->input_count; i++) {
        if (!(fleet->inputs[i].scenario.base.question.yearly_use_h > 0)) {
            spt_input_lacks(options->call, &fleet->inputs[i].scenario,
                            "a crew works by the calendar, which needs `usage: {yearly: 900 h}`; "
                            "add it");
            return SPT_EXIT_BAD_INPUT;
        }
        if (!list_days(fleet, i, &plans[i]))
            return run_out(options);
    }
    if (spt_fleet_stagger(plans, fleet->input_count, options->crew, starts, &report->start_count,
                          &report->busiest)) {
        spt_say(options->call,
                "spalltime schedule: --crew staggers at most %d machines (`fleet`)\n",
                SPT_FLEET_MACHINES_MAX);
        return SPT_EXIT_BAD_INPUT;
    }
    report->crew = options->crew;
    if (report->busiest > report->crew)
        fleet->status = SPT_EXIT_TARGET_MISSED; /* a plan that nobody can keep */
    report->starts = starts;
    for (int i = 0; i < report->start_count; i++) {
        struct spt_schedule_report *of = &fleet->plans[starts[i].plan]->report;
        if (!of->start_count++)
            of->starts = &starts[i];
    }
    return SPT_EXIT_DONE;
}

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    (void)options;
    spt_fleet_page(page, answer);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    (void)options;
    spt_fleet_json(json, page, answer);
}

static void write_ical(FILE *out, const void *answer)
{
    const struct spt_fleet_report *report = answer;
    spt_schedule_ical(out, report->reports, report->count);
}

static int answer(const struct spt_options *options, struct fleet *fleet)
{
    static const struct spt_answer_forms forms = {fill_page, write_json, write_ical, false};
    fleet->report.count = fleet->input_count;
    fleet->report.reports = fleet->reports;
    fleet->report.parts = fleet->parts;
    for (int i = 0; i < fleet->input_count; i++) {
        const char *title = fleet->reports[i]->schedule->question->title;
        fleet->parts[i] = spt_page_new(&fleet->arena, title);
        if (!fleet->parts[i])
            return run_out(options);
        if (options->format == SPT_FORMAT_JSON)
            spt_schedule_page(fleet->parts[i], fleet->reports[i]);
        if (!spt_page_is_whole(fleet->parts[i]))
            return run_out(options);
    }
    return spt_cli_answer(options, &forms, &fleet->arena, "Plans on one calendar", &fleet->report,
                          fleet->status);
}

int spt_cli_fleet(const struct spt_options *options)
{
    struct fleet *fleet = spt_allocate(sizeof *fleet); /* too large for the stack */
    if (!fleet)
        return run_out(options);
    memset(fleet, 0, sizeof *fleet);
    int status = make_plans(options, fleet);
    if (!status)
        status = align(options, fleet);
    if (!status && options->crew > 0)
        status = stagger(options, fleet);
    if (!status)
        status = answer(options, fleet);
    for (int i = 0; i < fleet->input_count; i++)
        spt_input_free(&fleet->inputs[i]);
    spt_arena_free(&fleet->arena);
    free(fleet);
    return status;
}
