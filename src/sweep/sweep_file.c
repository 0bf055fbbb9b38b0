/* SPDX-License-Identifier: GPL-3.0-or-later */
/* How a run writes its files, so that it can be killed at any moment and continued:
 * 1. FILE.part is opened, created if it does not exist, and locked.
 * 2. While it is locked the start of the run is determined: the beginning, or the last position
 *    recorded in FILE.part.state whose checksums match the part.
 * 3. The state is written; then the part is truncated to that position, its head is written, and
 *    rows follow. The state is written again every two seconds. A part with rows therefore always
 *    has a state, and everything before each of its positions is on the disk.
 * 4. At the end the part is renamed to FILE and the state is removed. A state without a part has no
 *    effect: with an empty part step 2 begins at the start.
 * Files of these names that no sweep has written are refused in step 2 and left unchanged. */
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

#include "sweep/sweep.h"
#include "sweep/sweep_cases.h"
#include "sweep/sweep_part.h"

#define STATE_SECONDS 2.0
#define HEAD_SIZE_MAX 4096

struct sweep_file {
    struct spt_sweep_run *run;
    struct sweep_part output;
    struct sweep_part rejects;
    char *head; /* of the output */
    char state_path[SPT_PATH_LENGTH];
    struct sweep_state state;
    double stated; /* when the state was last written */
    bool begun;    /* the state is that of this run */
};

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

/* Records the progress of the run in the state and writes the state. */
static bool write_state(struct sweep_file *file, const struct sweep_progress *done)
{
    struct sweep_progress at = *done;
    if (!file->output.path)
        return true;
    if (!spt_sweep_sync(file->output.descriptor) ||
        (file->rejects.path && !spt_sweep_sync(file->rejects.descriptor)))
        return false;
    at.output_hash = spt_checksum_value(&file->output.kept);
    at.reject_hash = spt_checksum_value(&file->rejects.kept);
    spt_sweep_state_mark(&file->state, &at);
    file->stated = now();
    return spt_sweep_state_write(&file->state, file->state_path);
}

/* The head of the rejects: line and reason, then the columns of the cases. */
static const char reject_lead[] = "line,reason,";

/* An existing part contains rows that took time to compute, so it is not overwritten. */
static int refuse_part(struct spt_call *call, const char *beside)
{
    spt_say(call,
            "spalltime sweep: %s is left from an interrupted run; add --resume to go on with it, "
            "or delete it\n",
            beside);
    return SPT_EXIT_USAGE;
}

/* It may be somebody's own file of that name. */
static int refuse_unstated(const struct sweep_file *file, const char *beside)
{
    const char *state = file->state_path;
    spt_say(file->run->call,
            "spalltime sweep: %s is there%s%s%s; if it is left from an interrupted run delete it "
            "to start again, else rename it or write to another file\n",
            beside, *state ? ", but " : "", state,
            *state ? ", which says how far a run came, is not, or was changed" : "");
    return SPT_EXIT_USAGE;
}

static int refuse_foreign(struct spt_call *call, const char *path)
{
    spt_say(call,
            "spalltime sweep: %s is there and is not the state of an interrupted run, which would "
            "stand under this name; rename it or write to another file\n",
            path);
    return SPT_EXIT_USAGE;
}

static int refuse_other(struct spt_call *call, const char *beside)
{
    spt_say(call,
            "spalltime sweep: %s belongs to another question (scenario, axes, columns, format, "
            "shard or program); delete it to start again\n",
            beside);
    return SPT_EXIT_BAD_INPUT;
}

/* Reports why the run goes back to before the last position of the state. */
static void report_damage(const struct sweep_part *part, unsigned long long wanted,
                          unsigned long long rows)
{
    spt_say(part->call,
            "spalltime sweep: %s %s; its rows after the first %llu are worked out again\n",
            part->beside,
            part->size < wanted ? "is shorter than the interrupted run left it"
                                : "is damaged: it does not hold what the interrupted run wrote",
            rows);
}

/* Continues at the last position that the checksums of the parts confirm; the first position, with
 * nothing written, is always confirmed. */
static void go_back(struct sweep_file *file, const struct sweep_state *found)
{
    struct spt_checksum outputs[SWEEP_MARKS_MAX], rejects[SWEEP_MARKS_MAX];
    const struct sweep_progress *last = &found->marks[found->count - 1];
    int sound = spt_sweep_part_verify(&file->output, found, false, outputs);
    int other = spt_sweep_part_verify(&file->rejects, found, true, rejects);
    int count = sound < other ? sound : other;
    file->state = *found;
    file->state.count = count;
    const struct sweep_progress *mark = count ? &found->marks[count - 1] : NULL;
    if (sound < found->count)
        report_damage(&file->output, last->output_bytes, mark ? mark->rows : 0);
    if (other < found->count)
        report_damage(&file->rejects, last->reject_bytes, mark ? mark->rows : 0);
    if (!mark || !mark->rows) {
        file->state.count = 0;
        return;
    }
    file->run->start = *mark;
    file->output.kept = outputs[count - 1];
    file->rejects.kept = rejects[count - 1];
}

/* True if the part has more than its head: rows, which the state may not count yet. */
static bool holds_rows(const struct sweep_part *part)
{
    return part->path && part->size > part->head;
}

/* Finds where the run begins: at the start, or where an earlier run ended. At least one part is not
 * empty. */
static int choose_start(struct sweep_file *file, const char *beside)
{
    struct sweep_state found = {0};
    if (!spt_sweep_state_read(file->state_path, &found))
        return refuse_unstated(file, beside);
    /* heads of another question may be shorter than these */
    bool same = found.question == spt_sweep_fingerprint(file->run);
    bool rows = found.marks[found.count - 1].rows || holds_rows(&file->output) ||
                holds_rows(&file->rejects);
    if (same && !rows)
        return SPT_EXIT_DONE;
    if (!file->run->order->resume)
        return refuse_part(file->run->call, beside);
    if (!same)
        return refuse_other(file->run->call, beside);
    if (file->output.size) /* else it was renamed, and only the rejects were not */
        go_back(file, &found);
    return SPT_EXIT_DONE;
}

/* A run that writes rows to standard output has no state; its rejects are recognised by their head.
 */
static bool is_reject_part(const struct sweep_part *part)
{
    char lead[sizeof reject_lead - 1];
    return pread(part->descriptor, lead, sizeof lead, 0) == (ssize_t)sizeof lead &&
           !memcmp(lead, reject_lead, sizeof lead);
}

static int find_start(struct sweep_file *file)
{
    const struct sweep_part *output = &file->output, *rejects = &file->rejects;
    if (output->path && output->size)
        return choose_start(file, output->beside);
    if (!rejects->path || !rejects->size)
        return SPT_EXIT_DONE;
    if (output->path)
        return choose_start(file, rejects->beside);
    return is_reject_part(rejects) ? SPT_EXIT_DONE : refuse_unstated(file, rejects->beside);
}

static bool make_head(struct sweep_file *file)
{
    const struct spt_sweep_run *run = file->run;
    size_t capacity = HEAD_SIZE_MAX + spt_sweep_row_size_max(&run->layout);
    unsigned long long rows = run->cases ? SPT_SWEEP_ROWS_MAX : run->last_row - run->first_row;
    bool headed = run->layout.form == SPT_SWEEP_NPY || run->shard == 1;
    file->head = malloc(capacity);
    if (file->head && headed)
        file->output.head = spt_sweep_head(&run->layout, rows, file->head, capacity);
    return file->head != NULL;
}

static void measure_reject_head(struct sweep_file *file)
{
    if (file->run->cases && file->run->shard == 1)
        file->rejects.head = sizeof reject_lead - 1 + file->run->cases->head.length + 1;
}

static bool write_reject_head(struct sweep_file *file)
{
    struct sweep_text head = {0};
    const struct sweep_text *columns = &file->run->cases->head;
    bool written = spt_sweep_text_add(&head, reject_lead, sizeof reject_lead - 1) &&
                   spt_sweep_text_add(&head, columns->bytes, columns->length) &&
                   spt_sweep_text_add(&head, "\n", 1) &&
                   spt_sweep_part_head(&file->rejects, head.bytes, head.length);
    free(head.bytes);
    return written;
}

static int name_state(struct sweep_file *file)
{
    char fresh[SPT_PATH_LENGTH + 8];
    struct spt_call *call = file->run->call;
    if (snprintf(file->state_path, SPT_PATH_LENGTH, "%s.state", file->output.beside) >=
        SPT_PATH_LENGTH) {
        errno = ENAMETOOLONG;
        return spt_sweep_complain(call, "cannot write", file->output.path);
    }
    snprintf(fresh, sizeof fresh, "%s" SWEEP_STATE_FRESH, file->state_path);
    if (spt_place_is_read(call, file->state_path) || spt_place_is_read(call, fresh))
        return SPT_EXIT_USAGE;
    if (!spt_sweep_state_is_own(file->state_path))
        return refuse_foreign(call, file->state_path);
    return spt_sweep_state_is_own(fresh) ? SPT_EXIT_DONE : refuse_foreign(call, fresh);
}

static int open_parts(struct sweep_file *file)
{
    const struct spt_sweep_run *run = file->run;
    int status = spt_sweep_part_open(&file->output, run->output);
    if (!status && file->output.path)
        status = name_state(file);
    if (!status && run->order->rejects)
        status = spt_sweep_part_open(&file->rejects, run->order->rejects);
    return status;
}

struct sweep_file *spt_sweep_file_open(struct spt_sweep_run *run, int *status)
{
    struct sweep_file *file = calloc(1, sizeof *file);
    *status = SPT_EXIT_SYSTEM;
    if (!file) {
        spt_say(run->call, "spalltime: out of memory\n");
        return NULL;
    }
    file->run = run;
    file->output.call = file->rejects.call = run->call;
    file->rejects.descriptor = file->output.descriptor = -1;
    spt_checksum_begin(&file->output.kept);
    spt_checksum_begin(&file->rejects.kept);
    if (make_head(file)) {
        measure_reject_head(file);
        *status = open_parts(file);
        if (!*status)
            *status = find_start(file);
    } else {
        spt_say(run->call, "spalltime: out of memory\n");
    }
    if (!*status)
        return file;
    spt_sweep_file_drop(file);
    return NULL;
}

/* The heads, which are the same in each run of a question. */
static int write_heads(struct sweep_file *file)
{
    struct sweep_progress *start = &file->run->start;
    bool fresh = !start->rows;
    if ((fresh || file->output.path) &&
        !spt_sweep_part_head(&file->output, file->head, file->output.head))
        return spt_sweep_complain(file->run->call, "cannot write to", file->output.shown);
    if (file->rejects.descriptor >= 0 && file->rejects.head && (fresh || file->rejects.path) &&
        !write_reject_head(file))
        return spt_sweep_complain(file->run->call, "cannot write to", file->rejects.shown);
    if (fresh) {
        start->output_bytes = file->output.head;
        start->reject_bytes = file->rejects.descriptor >= 0 ? file->rejects.head : 0;
    }
    return SPT_EXIT_DONE;
}

int spt_sweep_file_begin(struct sweep_file *file)
{
    const struct sweep_progress *start = &file->run->start;
    file->state.question = spt_sweep_fingerprint(file->run);
    file->stated = now();
    if (start->rows)
        spt_say(file->run->call, "spalltime sweep: goes on after the %llu rows in %s\n",
                start->rows, file->output.beside);
    else
        spt_sweep_state_mark(&file->state, start);
    if (file->output.path && !spt_sweep_state_write(&file->state, file->state_path))
        return spt_sweep_complain(file->run->call, "cannot write", file->state_path);
    file->begun = true;
    if (!spt_sweep_part_cut(&file->output, start->output_bytes))
        return spt_sweep_complain(file->run->call, "cannot write", file->output.beside);
    if (file->rejects.descriptor >= 0 && !spt_sweep_part_cut(&file->rejects, start->reject_bytes))
        return spt_sweep_complain(file->run->call, "cannot write", file->rejects.beside);
    return write_heads(file);
}

bool spt_sweep_file_write(struct sweep_file *file, const struct sweep_unit *unit,
                          struct sweep_progress *done)
{
    bool rejects = file->rejects.descriptor >= 0;
    if (!spt_sweep_write_all(file->output.descriptor, unit->output.bytes, unit->output.length)) {
        spt_sweep_complain(file->run->call, "cannot write to", file->output.shown);
        return false;
    }
    if (rejects &&
        !spt_sweep_write_all(file->rejects.descriptor, unit->rejects.bytes, unit->rejects.length)) {
        spt_sweep_complain(file->run->call, "cannot write to", file->rejects.shown);
        return false;
    }
    /* both are written: checksums and `done` describe the same rows */
    if (file->output.path)
        spt_checksum_add(&file->output.kept, unit->output.bytes, unit->output.length);
    if (file->rejects.path)
        spt_checksum_add(&file->rejects.kept, unit->rejects.bytes, unit->rejects.length);
    done->rows += unit->worked;
    done->rejected += unit->rejected;
    done->output_bytes += unit->output.length;
    done->reject_bytes += rejects ? unit->rejects.length : 0;
    done->input_bytes = unit->after.input_bytes;
    done->input_lines = unit->after.input_lines;
    done->input_hash = unit->after.input_hash;
    if (now() - file->stated < STATE_SECONDS || write_state(file, done))
        return true;
    spt_sweep_complain(file->run->call, "cannot write", file->state_path);
    return false;
}

/* Writes the number of rows, which is known only now, into the header of an array, padded with
 * blanks. */
static bool mend_npy(struct sweep_file *file, const struct sweep_progress *done)
{
    char head[8192];
    const struct spt_sweep_run *run = file->run;
    size_t capacity = file->output.head;
    if (run->layout.form != SPT_SWEEP_NPY || !run->cases)
        return true;
    size_t length = spt_sweep_head(&run->layout, done->rows - done->rejected, head, sizeof head);
    if (!length || length > capacity || capacity > sizeof head)
        return false;
    memset(head + length - 1, ' ', capacity - length);
    head[capacity - 1] = '\n';
    head[8] = (char)((capacity - 10) & 0xff); /* length of the text, little-endian */
    head[9] = (char)((capacity - 10) >> 8);
    return spt_sweep_part_head(&file->output, head, capacity);
}

static int keep_part(struct sweep_file *file, const struct sweep_progress *done)
{
    if (!file->output.path) {
        if (spt_sweep_stopped())
            spt_say(file->run->call,
                    "spalltime sweep: stopped after %llu rows; with -o FILE a stopped run can be "
                    "resumed\n",
                    done->rows);
        return SPT_EXIT_DONE;
    }
    if (!write_state(file, done))
        return spt_sweep_complain(file->run->call, "cannot write", file->state_path);
    spt_say(file->run->call,
            "spalltime sweep: %llu rows are kept in %s; the same command with --resume goes on\n",
            done->rows, file->output.beside);
    return SPT_EXIT_DONE;
}

int spt_sweep_file_close(struct sweep_file *file, const struct sweep_progress *done, bool whole)
{
    int status = SPT_EXIT_DONE;
    bool stated = file->output.path != NULL;
    if (!whole)
        status = keep_part(file, done);
    else if (!mend_npy(file, done))
        status = spt_sweep_complain(file->run->call, "cannot write to", file->output.shown);
    else
        status = spt_sweep_part_finish(&file->output);
    if (whole && !status && file->rejects.descriptor >= 0)
        status = spt_sweep_part_finish(&file->rejects);
    /* another run may have started by now, and the state then belongs to it */
    if (whole && !status && stated && access(file->output.beside, F_OK))
        unlink(file->state_path);
    spt_sweep_file_drop(file);
    return status;
}

void spt_sweep_file_drop(struct sweep_file *file)
{
    if (!file)
        return;
    if (file->begun && spt_sweep_part_is_empty(&file->output))
        unlink(file->state_path); /* of no further use */
    spt_sweep_part_drop(&file->output);
    spt_sweep_part_drop(&file->rejects);
    free(file->head);
    free(file);
}
