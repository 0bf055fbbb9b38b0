/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <string.h>

#include "spalltime/ask.h"

/* Plan, workspace and results of a block of rows. */
struct rows_work {
    struct spt_sweep_plan plan;
    struct spt_sweep_workspace *workspace;
    struct spt_sweep_block *block;
};

static bool is_sound(const struct spt_rows_inputs *asked)
{
    bool sound = asked->field_count >= 0 && asked->field_count <= SPT_SWEEP_FIELD_COUNT &&
                 asked->row_count >= 0 && asked->value_count >= 0;
    for (int f = 0; sound && f < asked->field_count; f++)
        sound = (int)asked->fields[f] >= 0 && asked->fields[f] < SPT_SWEEP_FIELD_COUNT &&
                asked->columns[f];
    for (int v = 0; sound && v < asked->value_count; v++)
        sound = asked->values[v] >= 0 && asked->values[v] < SPT_SWEEP_VALUE_COUNT;
    return sound;
}

static enum spt_status make_plan(const struct spt_rows_inputs *asked, struct spt_arena *arena,
                                 struct rows_work *work)
{
    bool swept[SPT_SWEEP_FIELD_COUNT] = {false}, wanted[SPT_SWEEP_VALUE_COUNT] = {false};
    if (!is_sound(asked))
        return SPT_BAD_ARGUMENT;
    for (int f = 0; f < asked->field_count; f++)
        swept[asked->fields[f]] = true;
    for (int v = 0; v < asked->value_count; v++)
        wanted[asked->values[v]] = true;
    enum spt_status status = spt_sweep_plan_make(asked->question, swept, wanted, &work->plan);
    work->block = spt_arena_allocate(arena, sizeof *work->block);
    if (!status && !work->block)
        status = SPT_NO_MEMORY;
    return status ? status : spt_sweep_workspace_make(&work->plan, true, arena, &work->workspace);
}

/* Computes `count` rows from `first` on, at most a block, or a chain of rows of a hub. */
static void work_block(const struct spt_rows_inputs *asked, struct rows_work *work, long first,
                       int count, double *const *results, unsigned char *status)
{
    const double *columns[SPT_SWEEP_FIELD_COUNT] = {NULL};
    for (int f = 0; f < asked->field_count; f++)
        columns[asked->fields[f]] = asked->columns[f] + first;
    spt_sweep_work(&work->plan, columns, count, work->workspace, work->block);
    for (int v = 0; v < asked->value_count; v++)
        memcpy(results[v] + first, work->block->values[asked->values[v]],
               (size_t)count * sizeof **results);
    memcpy(status + first, work->block->status, (size_t)count);
}

enum spt_status spt_ask_rows(const struct spt_rows_inputs *asked, struct spt_arena *arena,
                             double *const *results, unsigned char *status, struct spt_error *error)
{
    struct rows_work work;
    enum spt_status made = make_plan(asked, arena, &work);
    if (made)
        return spt_error_set(error, made, NULL);
    const long step = asked->question->hub ? SPT_SWEEP_CHAIN : SPT_SWEEP_BLOCK;
    for (long first = 0; first < asked->row_count; first += step) {
        long left = asked->row_count - first;
        work_block(asked, &work, first, (int)(left < step ? left : step), results, status);
    }
    return SPT_OK;
}
