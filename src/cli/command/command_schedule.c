/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/schedule.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/service/fleet.h"
#include "cli/service/plan.h"
#include "cli/verdict.h"

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
    const struct spt_schedule_report *report = answer;
    spt_schedule_ical(out, &report, 1);
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

static int work(const struct spt_options *options, struct spt_input *input)
{
    struct spt_cli_plan *made = spt_arena_allocate(&input->arena, sizeof *made);
    if (!made) {
        spt_say(options->call, "spalltime: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    int problem = spt_cli_plan_make(options, options->arguments[0], input, made);
    return problem ? problem : answer(options, &input->arena, &made->report);
}

int spt_command_schedule(const struct spt_options *options)
{
    const bool several = options->argument_count > 1 || options->crew > 0;
    return several ? spt_cli_fleet(options) : spt_cli_work(options, work);
}
