/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "answer/field/history.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/input.h"
#include "platform/platform.h"
#include "scenario/text/fields.h"
#include "study/hub/hub_failure.h"
#include "sweep/sweep.h"
#include "sweep/sweep_cases.h"

#define NAME_LENGTH 64
#define SHARDS_MAX 1000000

static int refuse_column(struct spt_call *call, const char *name, const char *why)
{
    const char *names[SPT_SWEEP_COLUMN_COUNT];
    for (int c = 0; c < SPT_SWEEP_COLUMN_COUNT; c++)
        names[c] = spt_sweep_column_name(c);
    const char *near = why ? NULL : spt_nearest(name, names, SPT_SWEEP_COLUMN_COUNT);
    spt_say(call, "spalltime sweep: --columns: `%s` %s", name,
            why ? why : "is no column of an answer");
    if (near)
        spt_say(call, "; did you mean `%s`?", near);
    else if (!why)
        spt_say(call, "; see `spalltime help sweep`");
    spt_say(call, "\n");
    return SPT_EXIT_USAGE;
}

static const char *explain_row_misfit(const struct spt_sweep_layout *layout)
{
    return layout->hub ? "is that of one row of a hub; put `inboard_` or `outboard_` before it"
                       : "is of a row of a hub, and the scenario has none";
}

static const char *explain_misfit(const struct spt_sweep_layout *layout, int column)
{
    if (column == SPT_SWEEP_CASE || (column == SPT_SWEEP_LABEL && !layout->cases))
        return "belongs to --cases";
    return column == SPT_SWEEP_LABEL ? "is no column of the cases" : explain_row_misfit(layout);
}

static int add_column(struct spt_call *call, struct spt_sweep_layout *layout, const char *name)
{
    int column = 0;
    while (column < SPT_SWEEP_COLUMN_COUNT && strcmp(spt_sweep_column_name(column), name) != 0)
        column++;
    if (column == SPT_SWEEP_COLUMN_COUNT)
        return refuse_column(call, name, NULL);
    if (!spt_sweep_column_fits(layout, column))
        return refuse_column(call, name, explain_misfit(layout, column));
    if (layout->form == SPT_SWEEP_NPY && spt_sweep_column_is_text(column))
        return refuse_column(call, name,
                             column == SPT_SWEEP_LABEL
                                 ? "is text, which an array of numbers cannot hold; `case` "
                                   "tells the line of each row"
                                 : "is text, which an array of numbers cannot hold");
    for (int f = 0; f < layout->field_count; f++)
        if (!strcmp(spt_sweep_field_name(layout->fields[f]), name))
            return refuse_column(call, name, "is swept and stands in the rows already");
    for (int c = 0; c < layout->column_count; c++)
        if (layout->columns[c] == column)
            return refuse_column(call, name, "is named twice");
    spt_sweep_add_column(layout, column);
    return SPT_EXIT_DONE;
}

static int choose_columns(struct spt_call *call, const char *names, struct spt_sweep_layout *layout)
{
    const char *at = names;
    if (!at) {
        spt_sweep_usual_columns(layout);
        return SPT_EXIT_DONE;
    }
    int status = SPT_EXIT_DONE;
    while (!status && at) {
        char name[NAME_LENGTH];
        size_t length = strcspn(at, ",");
        snprintf(name, sizeof name, "%.*s", (int)(length < sizeof name ? length : sizeof name - 1),
                 at);
        status = add_column(call, layout, name);
        at = at[length] ? at + length + 1 : NULL;
    }
    spt_sweep_add_life_status(layout);
    return status;
}

/* "K/N" with 1 <= K <= N. */
static bool read_shard(const char *text, struct spt_sweep_run *run)
{
    char *end;
    run->shard = run->shards = 1;
    if (!text)
        return true;
    long shard = text[0] >= '0' && text[0] <= '9' ? strtol(text, &end, 10) : 0;
    if (shard < 1 || *end != '/' || end[1] < '0' || end[1] > '9')
        return false;
    long shards = strtol(end + 1, &end, 10);
    run->shard = (int)shard;
    run->shards = (int)shards;
    return !*end && shard <= shards && shards <= SHARDS_MAX;
}

/* Row at which shard `number` of `count` (from 0) begins. */
static unsigned long long start_of_shard(unsigned long long rows, int number, int count)
{
    unsigned long long n = (unsigned long long)number, of = (unsigned long long)count;
    return rows / of * n + rows % of * n / of;
}

static int prepare_grid(struct spt_sweep_run *run)
{
    const struct spt_sweep *sweep = &run->scenario->sweep;
    unsigned long long rows = spt_sweep_rows(sweep);
    run->layout.field_count = sweep->count;
    run->first_row = start_of_shard(rows, run->shard - 1, run->shards);
    run->last_row = start_of_shard(rows, run->shard, run->shards);
    for (int a = 0; a < sweep->count; a++) {
        const struct spt_sweep_axis *axis = &sweep->axes[a];
        run->layout.fields[a] = axis->field;
        run->cells[a] = malloc(axis->count * sizeof *run->cells[a]);
        if (!run->cells[a]) {
            spt_say(run->call, "spalltime: out of memory\n");
            return SPT_EXIT_SYSTEM;
        }
        for (size_t i = 0; i < axis->count; i++)
            spt_sweep_cell(&run->layout, axis->field, axis->values[i], &run->cells[a][i]);
    }
    return SPT_EXIT_DONE;
}

static int make_plan(struct spt_sweep_run *run)
{
    bool swept[SPT_SWEEP_FIELD_COUNT] = {false}, wanted[SPT_SWEEP_VALUE_COUNT] = {false};
    for (int f = 0; f < run->layout.field_count; f++)
        swept[run->layout.fields[f]] = true;
    for (int c = 0; c < run->layout.column_count; c++)
        if (run->layout.columns[c] < SPT_SWEEP_VALUE_COUNT)
            wanted[run->layout.columns[c]] = true;
    enum spt_status status =
        spt_sweep_plan_make(&run->scenario->base.question, swept, wanted, &run->plan);
    for (int c = 0; c < run->layout.column_count; c++)
        if (run->layout.columns[c] == SPT_SWEEP_WARNINGS)
            run->plan.flagged = true;
    if (status)
        spt_say(run->call, "spalltime sweep: %s\n", spt_status_text(status));
    return status ? SPT_EXIT_SYSTEM : SPT_EXIT_DONE;
}

static int refuse(struct spt_call *call, const char *what)
{
    spt_say(call, "spalltime sweep: %s\n", what);
    return SPT_EXIT_USAGE;
}

static bool is_file(const char *path)
{
    struct stat about;
    return path && strcmp(path, "-") != 0 && (stat(path, &about) || S_ISREG(about.st_mode));
}

/* Refuses options that exclude each other. */
static int check_options(const struct spt_options *options)
{
    if (options->sweep.resume && !is_file(options->output))
        return refuse(options->call, "--resume needs the -o FILE of the interrupted run");
    if (options->sweep.rejects && !options->sweep.cases)
        return refuse(options->call, "--rejects belongs to --cases");
    if (options->format == SPT_FORMAT_NPY && options->sweep.cases && !is_file(options->output))
        return refuse(options->call,
                      "an array of cases needs -o FILE: the number of its rows, which comes first, "
                      "is known last");
    if (options->sweep.cases && !strcmp(options->sweep.cases, "-") &&
        !strcmp(options->arguments[0], "-"))
        return refuse(options->call, "the scenario and the cases cannot both be standard input");
    return SPT_EXIT_DONE;
}

static int count_threads(const struct spt_options *options)
{
    const int processors = spt_processor_count();
    if (options->sweep.threads)
        return options->sweep.threads;
    return processors > SWEEP_THREADS_MAX ? SWEEP_THREADS_MAX : processors;
}

/* If the stated setting of a hub cannot be computed, no row can be computed either. */
static int check_hub(const struct spt_sweep_run *run)
{
    struct spt_hub_failure failure = {SPT_OK, SPT_HUB_STEP_FORCE, NULL, (double)NAN};
    struct spt_error error;
    if (!run->plan.question->hub)
        return SPT_EXIT_DONE;
    failure.status = spt_sweep_worker_try(run);
    if (!failure.status)
        return SPT_EXIT_DONE;
    return spt_hub_failure_say(&failure, run->plan.question, &error)
               ? spt_cli_fail(run->call, "sweep", &error)
               : SPT_EXIT_DONE;
}

static int prepare(struct spt_sweep_run *run, struct sweep_cases *cases)
{
    int status = SPT_EXIT_DONE;
    if (run->order->cases)
        run->cases = spt_sweep_cases_open(run, cases, &status) ? cases : NULL;
    else
        status = prepare_grid(run);
    if (!status)
        status = choose_columns(run->call, run->order->columns, &run->layout);
    if (!status)
        status = make_plan(run);
    if (!status)
        status = check_hub(run);
    if (!status)
        run->file = spt_sweep_file_open(run, &status);
    if (!status && run->cases && run->start.input_bytes &&
        !spt_sweep_cases_skip(run->cases, &run->start))
        status = SPT_EXIT_BAD_INPUT;
    return status;
}

static int sweep(const struct spt_options *options, const struct spt_scenario *scenario)
{
    struct spt_sweep_run run = {
        .call = options->call,
        .order = &options->sweep,
        .output = options->output,
        .scenario = scenario,
    };
    struct sweep_cases cases = {.call = options->call, .descriptor = -1};
    run.threads = count_threads(options);
    run.layout.hub = scenario->base.question.hub != NULL;
    run.layout.kind = scenario->base.question.lubricant.kind;
    run.layout.form = options->format == SPT_FORMAT_NPY     ? SPT_SWEEP_NPY
                      : options->format == SPT_FORMAT_JSONL ? SPT_SWEEP_JSONL
                                                            : SPT_SWEEP_CSV;
    if (!read_shard(options->sweep.shard, &run))
        return refuse(options->call, "write --shard K/N, such as 1/8; K from 1 to N");
    if (!options->sweep.cases && !scenario->has_sweep) {
        spt_input_lacks(options->call, scenario,
                        "the scenario lacks `sweep`; add it, such as `sweep: {speed: {values: [500 "
                        "rpm, 900 rpm]}}`, or give --cases CASES.csv");
        return SPT_EXIT_BAD_INPUT;
    }
    if (scenario->base.question.past.stated) {
        spt_input_lacks(options->call, scenario,
                        "a sweep is of new bearings: take `past` out of the scenario");
        return SPT_EXIT_BAD_INPUT;
    }
    int status = prepare(&run, &cases);
    if (!status)
        status = spt_sweep_run(&run);
    spt_sweep_file_drop(run.file);
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        free(run.cells[f]);
    spt_sweep_cases_close(&cases);
    return status;
}

/* Reports how well the bins represent the history: the rows have no columns for it. */
static void report_history(struct spt_call *call, const struct spt_history_summary *summary)
{
    char line[SPT_HISTORY_LINE];
    spt_history_line(summary, line, sizeof line);
    spt_say(call, "spalltime sweep: the duty was %s\n", line);
}

int spt_command_sweep(const struct spt_options *options)
{
    struct spt_input input;
    int status = check_options(options);
    if (status)
        return status;
    status = spt_input_read(options, options->arguments[0], &input);
    if (!status && input.binning)
        report_history(options->call, &input.binning->summary);
    if (!status)
        status = sweep(options, &input.scenario);
    spt_input_free(&input);
    return status;
}
