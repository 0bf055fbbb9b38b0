/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "platform/platform.h"
#include "sweep/sweep.h"
#include "sweep/sweep_cases.h"

#define REPORT_SECONDS 0.5
#define UNITS_EACH 3    /* units per thread, so that no thread waits for one that writes */
#define REPORTED_MAX 20 /* rejected rows reported on standard error */

/* Any thread may receive the signal, and all of them read this. */
static atomic_int stop_signal;
_Static_assert(ATOMIC_INT_LOCK_FREE == 2, "a signal handler may set what needs no lock");

static void note_signal(int number)
{
    stop_signal = number;
}

int spt_sweep_stopped(void)
{
    return stop_signal;
}

/* What the threads share. */
struct shared {
    struct spt_sweep_run *run;
    struct sweep_file *file;
    struct spt_lock source; /* of reading units: reading may block for long, and writing must not */
    struct spt_lock lock;   /* of the members below, and of the right to write */
    struct spt_turn turn;
    unsigned long long taken, written;
    struct sweep_unit *units; /* UNITS_EACH for each thread; number % unit_count is its place */
    bool *ready;              /* computed, to be written in its turn */
    bool *sound;              /* it was computed without failure */
    size_t unit_count;
    bool writing;                   /* a thread is writing */
    struct sweep_progress taken_to; /* of the source */
    struct sweep_progress done;
    bool ended;  /* no more units */
    bool failed; /* files or memory */
    bool starved;
    bool broken;                 /* the source cannot be read any further */
    unsigned long long reported; /* rejected rows printed so far */
    bool terminal;
    double began, reported_at;
};

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

/* Part of the work that is done, NaN where it cannot be known. */
static double find_share(const struct shared *shared)
{
    const struct spt_sweep_run *run = shared->run;
    if (run->cases)
        return spt_sweep_cases_share(run->cases, shared->done.input_bytes);
    return (double)shared->done.rows / (double)(run->last_row - run->first_row);
}

static void report_progress(struct shared *shared)
{
    double time = now(), spent = time - shared->began;
    if (!shared->terminal || time - shared->reported_at < REPORT_SECONDS)
        return;
    shared->reported_at = time;
    double rate = (double)(shared->done.rows - shared->run->start.rows) / spent;
    double share = find_share(shared);
    spt_say(shared->run->call, "\r%llu rows, %.3g rows/s", shared->done.rows, rate);
    if (share > 0 && share <= 1) {
        double left = spent * (1 - share) / share;
        spt_say(shared->run->call, ", %.1f %%, %d:%02d min left", 100 * share, (int)(left / 60),
                (int)left % 60);
    }
    spt_say(shared->run->call, "   \033[K");
    fflush(spt_call_messages(shared->run->call));
}

static void clear_progress(const struct shared *shared)
{
    if (shared->terminal && shared->reported_at > shared->began)
        spt_say(shared->run->call, "\r\033[K");
}

/* Prints the messages about rejected rows of a unit, up to REPORTED_MAX in all. */
static void report_rejects(struct shared *shared, const struct sweep_unit *unit)
{
    if (!unit->report.length)
        return;
    const char *at = unit->report.bytes;
    const char *end = at + unit->report.length;
    if (shared->reported < REPORTED_MAX)
        clear_progress(shared);
    while (at < end && shared->reported < REPORTED_MAX) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        fwrite(at, 1, (size_t)(stop - at) + 1, spt_call_messages(shared->run->call));
        at = stop + 1;
        shared->reported++;
    }
}

/* Writes the unit whose turn it is; false where that fails. */
static bool write_unit(struct shared *shared, const struct sweep_unit *unit, bool sound)
{
    if (!sound) {
        shared->starved = true;
        return false;
    }
    report_rejects(shared, unit);
    bool written = spt_sweep_file_write(shared->file, unit, &shared->done);
    report_progress(shared);
    return written;
}

/* Queues a computed unit to be written in its turn, and writes the units that are due unless
 * another thread is writing. */
static void queue_unit(struct shared *shared, const struct sweep_unit *unit, bool sound)
{
    size_t place = (size_t)(unit->number % shared->unit_count);
    spt_lock_take(&shared->lock);
    shared->ready[place] = true;
    shared->sound[place] = sound;
    for (;;) {
        place = (size_t)(shared->written % shared->unit_count);
        if (shared->writing || shared->failed || !shared->ready[place])
            break;
        shared->writing = true;
        sound = shared->sound[place];
        spt_lock_give(&shared->lock);
        bool written = write_unit(shared, &shared->units[place], sound);
        spt_lock_take(&shared->lock);
        shared->writing = false;
        shared->failed = !written;
        shared->ready[place] = false;
        shared->written++;
        spt_turn_wake(&shared->turn);
    }
    spt_lock_give(&shared->lock);
}

/* Waits until the unit that had the place of unit `number` is written; false where none will be. */
static bool wait_for_place(struct shared *shared, unsigned long long number)
{
    spt_lock_take(&shared->lock);
    while (number - shared->written >= shared->unit_count && !shared->failed)
        spt_turn_wait(&shared->turn, &shared->lock);
    bool failed = shared->failed;
    spt_lock_give(&shared->lock);
    return !failed;
}

/* Reads the next unit of the source; NULL at the end. */
static struct sweep_unit *read_unit(struct shared *shared)
{
    bool error = false;
    struct sweep_unit *unit = &shared->units[shared->taken % shared->unit_count];
    if (shared->ended || shared->broken || stop_signal || !wait_for_place(shared, shared->taken))
        return NULL;
    bool taken = spt_sweep_read_unit(shared->run, &shared->taken_to, unit, &error);
    shared->broken = error;
    shared->ended = !taken && !error && !stop_signal;
    if (!taken)
        return NULL;
    unit->number = shared->taken++;
    return unit;
}

static void *work(void *given)
{
    struct shared *shared = given;
    struct sweep_worker *worker = spt_sweep_worker_make(shared->run);
    for (;;) {
        spt_lock_take(&shared->source);
        struct sweep_unit *unit = read_unit(shared);
        spt_lock_give(&shared->source);
        if (!unit)
            break;
        queue_unit(shared, unit, worker && spt_sweep_worker_work(worker, unit));
    }
    spt_sweep_worker_free(worker);
    return NULL;
}

static bool make_units(struct shared *shared)
{
    shared->unit_count = (size_t)shared->run->threads * UNITS_EACH;
    shared->units = calloc(shared->unit_count, sizeof *shared->units);
    shared->ready = calloc(shared->unit_count, sizeof *shared->ready);
    shared->sound = calloc(shared->unit_count, sizeof *shared->sound);
    shared->starved = !shared->units || !shared->ready || !shared->sound;
    shared->failed = shared->starved;
    return !shared->failed;
}

static void free_units(struct shared *shared)
{
    for (size_t i = 0; shared->units && i < shared->unit_count; i++) {
        free(shared->units[i].input.bytes);
        free(shared->units[i].output.bytes);
        free(shared->units[i].rejects.bytes);
        free(shared->units[i].report.bytes);
    }
    free(shared->units);
    free(shared->ready);
    free(shared->sound);
}

/* Computes all units on all threads, of which the calling one is one. */
static void work_all(struct shared *shared)
{
    struct spt_thread threads[SWEEP_THREADS_MAX];
    int started = 0;
    while (started < shared->run->threads - 1 && spt_thread_start(&threads[started], work, shared))
        started++;
    work(shared);
    for (int i = 0; i < started; i++)
        spt_thread_join(&threads[i]);
}

static void report_end(const struct shared *shared)
{
    const struct spt_sweep_run *run = shared->run;
    unsigned long long rejected = shared->done.rejected;
    clear_progress(shared);
    if (shared->starved)
        spt_say(shared->run->call, "spalltime: out of memory\n");
    if (rejected - run->start.rejected > shared->reported)
        spt_say(shared->run->call, "... and more\n");
    if (rejected)
        spt_say(shared->run->call, "spalltime sweep: %llu of %llu rows rejected%s%s\n", rejected,
                shared->done.rows, run->order->rejects ? "; they stand in " : "",
                run->order->rejects ? run->order->rejects : "");
}

static int find_status(const struct shared *shared, int status)
{
    if (status)
        return status;
    if (shared->failed || shared->broken)
        return SPT_EXIT_SYSTEM;
    if (!shared->ended)
        return 128 + stop_signal;
    return shared->done.rejected ? SPT_EXIT_BAD_INPUT : SPT_EXIT_DONE;
}

int spt_sweep_run(struct spt_sweep_run *run)
{
    struct shared shared = {.run = run};
    shared.file = run->file;
    run->file = NULL;
    int status = spt_sweep_file_begin(shared.file);
    if (status) {
        spt_sweep_file_drop(shared.file);
        return status;
    }
    shared.taken_to = shared.done = run->start;
    struct spt_signals before;
    if (!run->call->captured) {
        stop_signal = 0;
        spt_signals_catch(&before, note_signal);
    }
    spt_lock_make(&shared.source);
    spt_lock_make(&shared.lock);
    spt_turn_make(&shared.turn);
    shared.terminal = isatty(STDERR_FILENO) && spt_call_messages(run->call) == stderr;
    shared.began = shared.reported_at = now();
    if (make_units(&shared))
        work_all(&shared);
    free_units(&shared);
    spt_turn_end(&shared.turn);
    spt_lock_end(&shared.lock);
    spt_lock_end(&shared.source);
    report_end(&shared);
    status = spt_sweep_file_close(shared.file, &shared.done, shared.ended && !shared.failed);
    if (!run->call->captured)
        spt_signals_release(&before);
    return find_status(&shared, status);
}
