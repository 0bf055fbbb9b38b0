/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/message.h"
#include "cli/plan.h"
#include "report/schedule.h"

#define CURVE_POINTS 101

static int read_start(const struct spt_options *options, const struct spt_case *question,
                      struct spt_schedule_report *report)
{
    report->dated = options->start != NULL;
    if (options->start && !spt_date_read(options->start, &report->start)) {
        fputs("spalltime schedule: write --start as a day, such as 2026-03-01\n", spt_messages());
        return SPT_EXIT_USAGE;
    }
    if (options->format != SPT_FORMAT_ICAL && !options->start)
        return SPT_EXIT_DONE;
    if (!options->start) {
        fputs("spalltime schedule: a calendar needs the day it starts; add --start 2026-03-01\n",
              spt_messages());
        return SPT_EXIT_USAGE;
    }
    if (!(question->yearly_use_h > 0)) {
        fputs("spalltime schedule: dates need `usage: {yearly: 900 h}` in the scenario\n",
              spt_messages());
        return SPT_EXIT_BAD_INPUT;
    }
    return SPT_EXIT_DONE;
}

/* The survival curve, to where half of the fatigue life (or of the greases) is gone. */
static enum spt_status draw(const struct spt_schedule *schedule, struct spt_schedule_point *points,
                            int *count)
{
    double end_h = schedule->fatigue_lives.l50_h;
    enum spt_status status = SPT_OK;
    if (isnan(end_h))
        end_h = schedule->grease_lives.l50_h;
    *count = isnan(end_h) ? 0 : CURVE_POINTS;
    for (int i = 0; i < *count && !status; i++)
        status = spt_schedule_survival(schedule, end_h * i / (CURVE_POINTS - 1), &points[i]);
    return status;
}

static void write_json(struct spt_json *json, const struct spt_options *options, const void *answer)
{
    (void)options;
    spt_schedule_json(json, answer);
}

static void write_csv(FILE *out, const void *answer)
{
    spt_schedule_csv(out, answer);
}

static void write_ical(FILE *out, const void *answer)
{
    spt_schedule_ical(out, answer);
}

static void write_text(const struct spt_text *text, const struct spt_options *options,
                       const void *answer)
{
    (void)options;
    spt_schedule_text(text, answer);
}

static int answer(const struct spt_options *options, const struct spt_schedule_report *report)
{
    static const struct spt_answer_forms forms = {write_text, write_json, write_csv, write_ical};
    if (report->cut)
        fprintf(spt_messages(), "spalltime schedule: the calendar holds the first %d dates only\n",
                report->entry_count);
    return spt_cli_answer(options, &forms, report, SPT_EXIT_DONE);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    const struct spt_scenario *scenario = &input->scenario;
    struct spt_schedule schedule = {0};
    struct spt_schedule_report report = {
        .schedule = &schedule,
        .floor = options->two_parameter ? 0 : SPT_WEIBULL_FLOOR,
        .currency = scenario->currency,
        .limits = &scenario->limits,
        .costs = &scenario->costs,
    };
    struct spt_schedule_entry *entries =
        spt_arena_take(&input->arena, SPT_SCHEDULE_ENTRIES_MAX * sizeof *entries);
    struct spt_schedule_point *curve = spt_arena_take(&input->arena, CURVE_POINTS * sizeof *curve);
    enum spt_status found = entries && curve ? SPT_OK : SPT_NO_MEMORY;
    int status = read_start(options, &scenario->base.question, &report);
    if (!status && !found)
        status = spt_cli_plan("schedule", scenario, report.floor, &input->arena, &schedule);
    if (status)
        return status;
    if (!found)
        found = draw(&schedule, curve, &report.curve_count);
    if (found) {
        fprintf(spt_messages(), "spalltime schedule: %s\n", spt_status_text(found));
        return SPT_EXIT_SYSTEM;
    }
    report.entry_count =
        spt_schedule_calendar(&schedule, entries, SPT_SCHEDULE_ENTRIES_MAX, &report.cut);
    report.entries = entries;
    report.curve = curve;
    return answer(options, &report);
}

int spt_command_schedule(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
