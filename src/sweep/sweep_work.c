/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>
#include <string.h>

#include "spalltime/assess.h"
#include "spalltime/sweep.h"
#include "sweep/sweep.h"
#include "sweep/sweep_cases.h"

struct sweep_worker {
    const struct spt_sweep_run *run;
    struct spt_arena arena;
    struct spt_sweep_workspace *workspace;
    struct spt_sweep_block block;
    double inputs[SPT_SWEEP_FIELD_COUNT][SPT_SWEEP_BLOCK];
    const struct spt_sweep_cell *cells[SPT_SWEEP_FIELD_COUNT][SPT_SWEEP_BLOCK];
    struct spt_sweep_cell made[SPT_SWEEP_FIELD_COUNT][SPT_SWEEP_BLOCK]; /* of cases */
    struct sweep_case_lines lines;
    struct spt_sweep_identity identities[SPT_SWEEP_BLOCK];
    bool skip[SPT_SWEEP_BLOCK];
};

bool spt_sweep_text_need(struct sweep_text *text, size_t more)
{
    if (text->capacity - text->length >= more)
        return true;
    size_t capacity = text->length + more + text->capacity / 2;
    char *larger = realloc(text->bytes, capacity);
    if (!larger)
        return false;
    text->bytes = larger;
    text->capacity = capacity;
    return true;
}

bool spt_sweep_text_add(struct sweep_text *text, const char *bytes, size_t length)
{
    if (!spt_sweep_text_need(text, length))
        return false;
    memcpy(text->bytes + text->length, bytes, length);
    text->length += length;
    return true;
}

/* In a grid of a hub each row starts from the solution of the row before; cases do not, since the
 * result of a case must not depend on which cases are in its shard. */
static struct sweep_worker *make_worker(const struct spt_sweep_run *run, enum spt_status *status)
{
    struct sweep_worker *worker = calloc(1, sizeof *worker);
    *status = SPT_NO_MEMORY;
    if (!worker)
        return NULL;
    worker->run = run;
    *status = spt_sweep_workspace_make(&run->plan, !run->cases, &worker->arena, &worker->workspace);
    if (*status == SPT_OK)
        return worker;
    spt_sweep_worker_free(worker);
    return NULL;
}

struct sweep_worker *spt_sweep_worker_make(const struct spt_sweep_run *run)
{
    enum spt_status status;
    return make_worker(run, &status);
}

enum spt_status spt_sweep_worker_try(const struct spt_sweep_run *run)
{
    enum spt_status status;
    spt_sweep_worker_free(make_worker(run, &status));
    return status;
}

void spt_sweep_worker_free(struct sweep_worker *worker)
{
    if (!worker)
        return;
    spt_arena_free(&worker->arena);
    free(worker);
}

/* Position on an axis: value number `index`, which is repeated for `period` rows, `spent` of them
 * before the present row.
 */
struct stay {
    unsigned long long period, spent;
    size_t index;
};

static void fill_axis(const struct spt_sweep_axis *axis, const struct spt_sweep_cell *texts,
                      struct stay at, int count, double *inputs,
                      const struct spt_sweep_cell **cells)
{
    for (int i = 0; i < count;) {
        unsigned long long left = at.period - at.spent;
        int end = left < (unsigned long long)(count - i) ? i + (int)left : count;
        double value = axis->values[at.index];
        const struct spt_sweep_cell *text = &texts[at.index];
        for (; i < end; i++) {
            inputs[i] = value;
            cells[i] = text;
        }
        at.spent = 0;
        at.index = at.index + 1 < axis->count ? at.index + 1 : 0;
    }
}

/* The same for an axis that changes with every row. */
static void fill_last_axis(const struct spt_sweep_axis *axis, const struct spt_sweep_cell *texts,
                           size_t index, int count, double *inputs,
                           const struct spt_sweep_cell **cells)
{
    for (int i = 0; i < count; index = 0) {
        size_t left = axis->count - index;
        int here = left < (size_t)(count - i) ? (int)left : count - i;
        memcpy(inputs + i, axis->values + index, (size_t)here * sizeof *inputs);
        for (int k = 0; k < here; k++)
            cells[i + k] = &texts[index + (size_t)k];
        i += here;
    }
}

/* Values and texts of `count` rows of the grid from row `first` on. */
static void fill_grid(struct sweep_worker *worker, unsigned long long first, int count)
{
    const struct spt_sweep *sweep = &worker->run->scenario->sweep;
    unsigned long long period = 1; /* rows for which the value stays */
    for (int a = sweep->count - 1; a >= 0; a--) {
        const struct spt_sweep_axis *axis = &sweep->axes[a];
        const struct spt_sweep_cell *cells = worker->run->cells[a];
        double *inputs = worker->inputs[axis->field];
        size_t index = spt_sweep_index(sweep, a, first);
        if (period == 1)
            fill_last_axis(axis, cells, index, count, inputs, worker->cells[a]);
        else
            fill_axis(axis, cells, (struct stay){period, first % period, index}, count, inputs,
                      worker->cells[a]);
        if (!sweep->zip)
            period *= axis->count;
    }
}

static bool answer(struct sweep_worker *worker, int count, const bool *skip,
                   struct sweep_unit *unit)
{
    const struct spt_sweep_layout *layout = &worker->run->layout;
    const double *inputs[SPT_SWEEP_FIELD_COUNT];
    const struct spt_sweep_cell *const *cells[SPT_SWEEP_FIELD_COUNT];
    if (!count)
        return true; /* every row was rejected, and the buffer may not be allocated yet */
    for (int f = 0; f < layout->field_count; f++) {
        cells[f] = worker->cells[f];
        inputs[f] = worker->inputs[layout->fields[f]];
    }
    if (!spt_sweep_text_need(&unit->output, (size_t)count * spt_sweep_row_size_max(layout)))
        return false;
    const struct spt_sweep_rows rows = {count,          cells, inputs, worker->identities,
                                        &worker->block, skip};
    char *end = spt_sweep_write(layout, &rows, unit->output.bytes + unit->output.length);
    unit->output.length = (size_t)(end - unit->output.bytes);
    return true;
}

static void work_block(struct sweep_worker *worker, int count)
{
    const double *columns[SPT_SWEEP_FIELD_COUNT];
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        columns[f] = worker->inputs[f];
    spt_sweep_work(&worker->run->plan, columns, count, worker->workspace, &worker->block);
}

/* Computes rows of a hub from the start of their chain on: a shard may begin in the middle of one.
 */
static bool work_chain(struct sweep_worker *worker, struct sweep_unit *unit)
{
    int ahead = (int)(unit->first_row % SPT_SWEEP_CHAIN), count = ahead + unit->rows;
    fill_grid(worker, unit->first_row - (unsigned long long)ahead, count);
    work_block(worker, count);
    for (int i = 0; i < count; i++)
        worker->skip[i] = i < ahead;
    unit->worked = (unsigned long long)unit->rows;
    return answer(worker, count, worker->skip, unit);
}

static bool work_grid(struct sweep_worker *worker, struct sweep_unit *unit)
{
    if (worker->run->plan.question->hub)
        return work_chain(worker, unit);
    for (int at = 0; at < unit->rows; at += SPT_SWEEP_BLOCK) {
        int count = unit->rows - at < SPT_SWEEP_BLOCK ? unit->rows - at : SPT_SWEEP_BLOCK;
        fill_grid(worker, unit->first_row + (unsigned long long)at, count);
        work_block(worker, count);
        if (!answer(worker, count, NULL, unit))
            return false;
    }
    unit->worked = (unsigned long long)unit->rows;
    return true;
}

/* Makes the texts of the rows that were read. */
static void make_cells(struct sweep_worker *worker, int count)
{
    const struct spt_sweep_layout *layout = &worker->run->layout;
    for (int f = 0; layout->form != SPT_SWEEP_NPY && f < layout->field_count; f++)
        for (int i = 0; i < count; i++) {
            spt_sweep_cell(layout, layout->fields[f], worker->inputs[layout->fields[f]][i],
                           &worker->made[f][i]);
            worker->cells[f][i] = &worker->made[f][i];
        }
}

static void identify(struct sweep_worker *worker, int count)
{
    const struct sweep_case_lines *lines = &worker->lines;
    for (int i = 0; i < count; i++)
        worker->identities[i] = (struct spt_sweep_identity){
            lines->rows[i].number, lines->labels[i].text, lines->labels[i].length};
}

static bool work_cases(struct sweep_worker *worker, struct sweep_unit *unit)
{
    const struct sweep_cases *cases = worker->run->cases;
    int count;
    spt_sweep_cases_begin(&worker->lines, unit);
    while (spt_sweep_cases_read(cases, &worker->lines, worker->inputs, &count)) {
        if (count)
            work_block(worker, count);
        make_cells(worker, count);
        identify(worker, count);
        for (int i = 0; i < count; i++)
            worker->skip[i] = worker->block.status[i] == SPT_SWEEP_REFUSED;
        if (!spt_sweep_cases_reject(cases, &worker->lines, worker->skip, count, unit) ||
            !answer(worker, count, worker->skip, unit))
            return false;
    }
    return true;
}

bool spt_sweep_worker_work(struct sweep_worker *worker, struct sweep_unit *unit)
{
    unit->output.length = unit->rejects.length = unit->report.length = 0;
    unit->worked = unit->rejected = 0;
    return worker->run->cases ? work_cases(worker, unit) : work_grid(worker, unit);
}
