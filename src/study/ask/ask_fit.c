/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/ask.h"

#define RANKS_EXACT_MAX 10000 /* above it Benard's approximation: equal to 1e-4 there, and fast */

/* The data of a fit: all modes of failure, or one mode with the others as suspensions. */
struct rows {
    double *times, *last_good, *known_from;
    int *counts;
    bool *failed;
    int n, others;
};

static bool make_rows(int count, struct spt_arena *arena, struct rows *rows)
{
    size_t n = (size_t)count;
    *rows = (struct rows){.times = spt_arena_allocate(arena, n * sizeof *rows->times),
                          .last_good = spt_arena_allocate(arena, n * sizeof *rows->last_good),
                          .known_from = spt_arena_allocate(arena, n * sizeof *rows->known_from),
                          .counts = spt_arena_allocate(arena, n * sizeof *rows->counts),
                          .failed = spt_arena_allocate(arena, n * sizeof *rows->failed)};
    return rows->times && rows->last_good && rows->known_from && rows->counts && rows->failed;
}

/* Selects the data for one mode. A bearing that failed by another mode is a suspension at the time
 * of that failure, or when it was last inspected as sound. Where that is not after the start of its
 * observation it has no information and is left out. */
static void select_mode(const struct spt_field_inputs *asked, int mode, struct rows *rows)
{
    const struct spt_weibull_data *data = &asked->inputs.data;
    rows->n = rows->others = 0;
    for (int i = 0; i < data->n; i++) {
        bool failed = !data->failed || data->failed[i];
        bool other = failed && mode >= 0 && asked->modes && asked->modes[i] != mode;
        double last_good = data->last_good ? data->last_good[i] : (double)NAN;
        double known_from = data->known_from ? data->known_from[i] : 0;
        int count = data->counts ? data->counts[i] : 1;
        double sound = isnan(last_good) ? data->times[i] : last_good;
        rows->others += other ? count : 0;
        if (other && sound <= known_from)
            continue;
        rows->times[rows->n] = other ? sound : data->times[i];
        rows->last_good[rows->n] = other ? (double)NAN : last_good;
        rows->known_from[rows->n] = known_from;
        rows->counts[rows->n] = count;
        rows->failed[rows->n++] = failed && !other;
    }
}

static struct spt_weibull_data data_of(const struct rows *rows)
{
    return (struct spt_weibull_data){rows->n,      rows->times,     rows->counts,
                                     rows->failed, rows->last_good, rows->known_from};
}

static long count_bearings(const struct rows *rows)
{
    long sum = 0;
    for (int i = 0; i < rows->n; i++)
        sum += rows->counts[i];
    return sum;
}

/* Fits each mode too: one law for several independent modes would mix them. */
static enum spt_status fit_modes(const struct spt_field_inputs *asked, struct spt_arena *arena,
                                 struct spt_field_answer *answer)
{
    struct spt_fit_inputs inputs = asked->inputs;
    struct rows rows;
    if (asked->mode >= 0 || asked->mode_count < 2)
        return SPT_OK;
    struct spt_fit *modes = spt_arena_allocate(arena, (size_t)asked->mode_count * sizeof *modes);
    if (!modes || !make_rows(asked->inputs.data.n, arena, &rows))
        return SPT_NO_MEMORY;
    inputs.candidate_count = 0;
    for (int i = 0; i < asked->mode_count; i++) {
        select_mode(asked, i, &rows);
        inputs.data = data_of(&rows);
        enum spt_status status = spt_fit(&inputs, &(struct spt_fit_workspace){0}, &modes[i]);
        if (status)
            return status;
    }
    answer->modes = modes;
    return SPT_OK;
}

static enum spt_status fit(const struct spt_field_inputs *asked, struct spt_arena *arena,
                           struct spt_field_answer *answer)
{
    struct rows rows;
    int count = asked->inputs.candidate_count;
    if (asked->inputs.data.n < 1 || !asked->inputs.data.times)
        return SPT_BAD_ARGUMENT;
    if (!make_rows(asked->inputs.data.n, arena, &rows))
        return SPT_NO_MEMORY;
    select_mode(asked, asked->mode, &rows);
    long total = count_bearings(&rows);
    if (total < 1)
        return SPT_BAD_ARGUMENT;
    struct spt_rank_point *points = spt_arena_allocate(arena, (size_t)total * sizeof *points);
    struct spt_fit_candidate *candidates =
        count ? spt_arena_allocate(arena, (size_t)count * sizeof *candidates) : NULL;
    if (!points || (count && !candidates))
        return SPT_NO_MEMORY;
    answer->inputs.data = data_of(&rows);
    answer->inputs.rank_method = total > RANKS_EXACT_MAX ? SPT_RANK_BENARD : SPT_RANK_EXACT;
    answer->other_modes = rows.others;
    answer->points = points;
    answer->candidates = candidates;
    const struct spt_fit_workspace space = {points, (int)total, candidates, count};
    enum spt_status status = spt_fit(&answer->inputs, &space, &answer->fit);
    struct spt_fit_running *running =
        spt_arena_allocate(arena, (size_t)asked->inputs.data.n * sizeof *running);
    if (!running)
        return SPT_NO_MEMORY;
    answer->running = running;
    if (!status)
        answer->running_count = spt_fit_running(&asked->inputs.data, &answer->fit, running);
    return status ? status : fit_modes(asked, arena, answer);
}

enum spt_status spt_ask_fit(const struct spt_field_inputs *asked, struct spt_arena *arena,
                            struct spt_field_answer *answer, struct spt_error *error)
{
    *answer = (struct spt_field_answer){.inputs = asked->inputs};
    enum spt_status status = fit(asked, arena, answer);
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}
