/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

#include "cli/message.h"
#include "cli/place.h"
#include "cli/sweep.h"
#include "cli/sweep_cases.h"

#define STATE_SECONDS 2.0
#define STATE_HEAD "spalltime sweep, state of a partial run, form 1\n"

/* One file that grows beside its final name. */
struct part {
    const char *path; /* final name; NULL: standard output or a device, written directly */
    const char *shown;
    char beside[SPT_PATH_LENGTH];
    int descriptor;
};

struct sweep_file {
    const struct spt_sweep_run *run;
    struct part output;
    struct part rejects; /* descriptor -1: none */
    char state[SPT_PATH_LENGTH];
    double stated; /* when the state was last written */
    size_t npy_head;
};

static int complain(const char *what, const char *path)
{
    fprintf(spt_messages(), "spalltime: %s %s: %s\n", what, path, strerror(errno));
    return SPT_EXIT_SYSTEM;
}

static bool write_all(int descriptor, const char *bytes, size_t length)
{
    while (length) {
        ssize_t written = write(descriptor, bytes, length);
        if (written < 0 && errno == EINTR)
            continue;
        if (written < 0)
            return false;
        bytes += written;
        length -= (size_t)written;
    }
    return true;
}

/* A part that another run is writing must not be touched. */
static bool take_lock(const struct part *part)
{
    if (!lockf(part->descriptor, F_TLOCK, 0))
        return true;
    fprintf(spt_messages(), "spalltime sweep: another run is writing %s\n", part->beside);
    return false;
}

/* Opens the part of `path`; a resumed one is cut to the bytes that are known to be right. */
static int open_part(struct part *part, const char *path, bool resumed, unsigned long long bytes)
{
    part->path = part->shown = path;
    part->descriptor = -1;
    if (!path || !strcmp(path, "-") || spt_place_is_special(path)) {
        bool standard = !path || !strcmp(path, "-");
        part->path = NULL;
        part->shown = standard ? "standard output" : path;
        part->descriptor = standard ? STDOUT_FILENO : open(path, O_WRONLY);
        return part->descriptor < 0 ? complain("cannot write", path) : SPT_EXIT_DONE;
    }
    if (!spt_place_may_write(path))
        return complain("cannot write", path);
    if (snprintf(part->beside, sizeof part->beside, "%s.part", path) >= SPT_PATH_LENGTH) {
        errno = ENAMETOOLONG;
        return complain("cannot write", path);
    }
    part->descriptor = open(part->beside, O_RDWR | O_CREAT, 0666);
    if (part->descriptor < 0)
        return complain("cannot write", part->beside);
    if (!take_lock(part))
        return SPT_EXIT_SYSTEM;
    if (ftruncate(part->descriptor, resumed ? (off_t)bytes : 0) ||
        lseek(part->descriptor, 0, SEEK_END) < 0)
        return complain("cannot write", part->beside);
    return SPT_EXIT_DONE;
}

static bool name_state(const char *path, char *state)
{
    return snprintf(state, SPT_PATH_LENGTH, "%s.part.state", path) < SPT_PATH_LENGTH;
}

static double now(void)
{
    struct timespec time;
    clock_gettime(CLOCK_MONOTONIC, &time);
    return (double)time.tv_sec + 1e-9 * (double)time.tv_nsec;
}

/* Onto the disk, so that a power cut does not leave a state that counts bytes which are not there;
 * a file system that cannot do so says EINVAL or ENOTSUP. */
static bool settle(int descriptor)
{
    return descriptor < 0 || !fsync(descriptor) || errno == EINVAL || errno == ENOTSUP;
}

/* Written beside and renamed, so that there is always a whole one. */
static bool write_state(struct sweep_file *file, const struct sweep_progress *done)
{
    char fresh[SPT_PATH_LENGTH + 8];
    if (!file->output.path)
        return true;
    if (!settle(file->output.descriptor) ||
        (file->rejects.path && !settle(file->rejects.descriptor)))
        return false;
    snprintf(fresh, sizeof fresh, "%s.new", file->state);
    FILE *out = fopen(fresh, "w");
    if (!out)
        return false;
    fprintf(out,
            STATE_HEAD "question %016" PRIx64 "\nrows %llu\nrejected %llu\noutput_bytes %llu\n"
                       "reject_bytes %llu\ninput_bytes %llu\ninput_lines %llu\ninput %016" PRIx64
                       "\n",
            spt_sweep_fingerprint(file->run), done->rows, done->rejected, done->output_bytes,
            done->reject_bytes, done->input_bytes, done->input_lines, done->input_hash);
    bool written = !fflush(out) && !ferror(out) && settle(fileno(out));
    if (fclose(out))
        written = false;
    file->stated = now();
    return written && !rename(fresh, file->state);
}

/* One line of the state: a key, a blank, a number, nothing else. */
static bool read_state_line(FILE *in, const char *key, int base, unsigned long long *value)
{
    char line[80], *end;
    size_t length = strlen(key);
    if (!fgets(line, sizeof line, in) || strncmp(line, key, length) != 0 || line[length] != ' ')
        return false;
    errno = 0;
    *value = strtoull(line + length + 1, &end, base);
    return !errno && end > line + length + 1 && *end == '\n';
}

static bool read_state(const char *path, uint64_t *question, struct sweep_progress *at)
{
    char head[sizeof STATE_HEAD];
    unsigned long long asked = 0, hash = 0;
    FILE *in = fopen(path, "r");
    if (!in)
        return false;
    bool whole = fgets(head, sizeof head, in) && !strcmp(head, STATE_HEAD) &&
                 read_state_line(in, "question", 16, &asked) &&
                 read_state_line(in, "rows", 10, &at->rows) &&
                 read_state_line(in, "rejected", 10, &at->rejected) &&
                 read_state_line(in, "output_bytes", 10, &at->output_bytes) &&
                 read_state_line(in, "reject_bytes", 10, &at->reject_bytes) &&
                 read_state_line(in, "input_bytes", 10, &at->input_bytes) &&
                 read_state_line(in, "input_lines", 10, &at->input_lines) &&
                 read_state_line(in, "input", 16, &hash);
    fclose(in);
    *question = asked;
    at->input_hash = hash;
    return whole;
}

/* True where `path` has at least so many bytes. */
static bool has_bytes(const char *path, const char *suffix, unsigned long long bytes)
{
    char name[SPT_PATH_LENGTH];
    struct stat about;
    snprintf(name, sizeof name, "%s%s", path, suffix);
    return !stat(name, &about) && (unsigned long long)about.st_size >= bytes;
}

/* True where another process holds the lock of a part. */
static bool is_being_written(const char *beside)
{
    int descriptor = open(beside, O_RDWR);
    bool locked = descriptor >= 0 && lockf(descriptor, F_TEST, 0);
    if (descriptor >= 0)
        close(descriptor);
    return locked;
}

/* A part that is there holds rows that somebody waited for. */
static int refuse_part(const char *beside, bool stated)
{
    if (is_being_written(beside))
        fprintf(spt_messages(), "spalltime sweep: another run is writing %s\n", beside);
    else if (stated)
        fprintf(spt_messages(),
                "spalltime sweep: %s is left from an interrupted run; add --resume to go on with "
                "it, or delete it\n",
                beside);
    else
        fprintf(spt_messages(),
                "spalltime sweep: %s is left from an interrupted run, but %s.state, which says how "
                "far it came, is not there or cannot be read; delete %s to start again\n",
                beside, beside, beside);
    return SPT_EXIT_USAGE;
}

static int refuse_other(const char *beside)
{
    fprintf(spt_messages(),
            "spalltime sweep: %s belongs to another question (scenario, axes, columns, format, "
            "shard or program); delete it to start again\n",
            beside);
    return SPT_EXIT_BAD_INPUT;
}

static bool has_rejects(const struct spt_options *options, const struct sweep_progress *at)
{
    return !options->rejects || has_bytes(options->rejects, ".part", at->reject_bytes);
}

bool spt_sweep_resume(struct spt_sweep_run *run, int *status)
{
    char state[SPT_PATH_LENGTH], beside[SPT_PATH_LENGTH];
    uint64_t question = 0;
    struct sweep_progress at = {0};
    const char *path = run->options->output;
    if (!path || !strcmp(path, "-") || spt_place_is_special(path) || !name_state(path, state))
        return true;
    snprintf(beside, sizeof beside, "%s.part", path);
    if (!has_bytes(path, ".part", 1))
        return true; /* nothing to go on with: from the start */
    bool stated = read_state(state, &question, &at);
    if (!run->options->resume || !stated)
        *status = refuse_part(beside, stated);
    else if (question != spt_sweep_fingerprint(run) || !has_bytes(path, ".part", at.output_bytes) ||
             !has_rejects(run->options, &at))
        *status = refuse_other(beside);
    else
        run->start = at;
    return *status == SPT_EXIT_DONE;
}

/* The head of the output, written where the run begins at its start. */
static bool write_head(struct sweep_file *file, struct spt_sweep_run *run)
{
    size_t room = 4096 + spt_sweep_room(&run->layout);
    char *head = malloc(room);
    unsigned long long rows = run->cases ? SPT_SWEEP_ROWS_MAX : run->last_row - run->first_row;
    bool headed = run->layout.form == SPT_SWEEP_NPY || run->shard == 1;
    size_t length = head && headed ? spt_sweep_head(&run->layout, rows, head, room) : 0;
    bool written = head != NULL;
    file->npy_head = length;
    if (!run->start.rows && !run->start.output_bytes) {
        written = written && write_all(file->output.descriptor, head, length);
        run->start.output_bytes = length;
    }
    free(head);
    return written;
}

/* The head of the rejects: what was wrong, then the cases' own. */
static bool write_reject_head(struct sweep_file *file, struct spt_sweep_run *run)
{
    if (file->rejects.descriptor < 0 || run->start.reject_bytes || run->start.rows ||
        run->shard > 1)
        return true;
    const struct sweep_text *head = &run->cases->head;
    static const char lead[] = "line,reason,";
    run->start.reject_bytes = sizeof lead + head->length;
    return write_all(file->rejects.descriptor, lead, sizeof lead - 1) &&
           write_all(file->rejects.descriptor, head->bytes, head->length) &&
           write_all(file->rejects.descriptor, "\n", 1);
}

static void drop(struct sweep_file *file)
{
    if (file->output.descriptor > STDERR_FILENO)
        close(file->output.descriptor);
    if (file->rejects.descriptor > STDERR_FILENO)
        close(file->rejects.descriptor);
    free(file);
}

static int open_parts(struct sweep_file *file, struct spt_sweep_run *run)
{
    const struct spt_options *options = run->options;
    bool resumed = run->start.output_bytes > 0 || run->start.rows > 0;
    int status = open_part(&file->output, options->output, resumed, run->start.output_bytes);
    if (!status && options->rejects)
        status = open_part(&file->rejects, options->rejects, resumed, run->start.reject_bytes);
    if (status)
        return status;
    if (resumed)
        fprintf(spt_messages(), "spalltime sweep: goes on after the %llu rows in %s\n",
                run->start.rows, file->output.beside);
    if (!write_head(file, run))
        return complain("cannot write to", file->output.shown);
    if (!write_reject_head(file, run))
        return complain("cannot write to", file->rejects.shown);
    return SPT_EXIT_DONE;
}

struct sweep_file *spt_sweep_file_open(struct spt_sweep_run *run, int *status)
{
    struct sweep_file *file = calloc(1, sizeof *file);
    *status = SPT_EXIT_SYSTEM;
    if (!file) {
        fputs("spalltime: out of memory\n", spt_messages());
        return NULL;
    }
    file->run = run;
    file->rejects.descriptor = file->output.descriptor = -1;
    file->stated = now();
    *status = open_parts(file, run);
    if (!*status && file->output.path && !name_state(file->output.path, file->state)) {
        errno = ENAMETOOLONG;
        *status = complain("cannot write", file->output.path);
    }
    if (!*status && !write_state(file, &run->start))
        *status = complain("cannot write", file->state);
    if (!*status)
        return file;
    drop(file);
    return NULL;
}

bool spt_sweep_file_write(struct sweep_file *file, const struct sweep_unit *unit,
                          struct sweep_progress *done)
{
    if (!write_all(file->output.descriptor, unit->output.bytes, unit->output.length)) {
        complain("cannot write to", file->output.shown);
        return false;
    }
    if (file->rejects.descriptor >= 0 &&
        !write_all(file->rejects.descriptor, unit->rejects.bytes, unit->rejects.length)) {
        complain("cannot write to", file->rejects.shown);
        return false;
    }
    done->rows += unit->worked;
    done->rejected += unit->rejected;
    done->output_bytes += unit->output.length;
    done->reject_bytes += file->rejects.descriptor >= 0 ? unit->rejects.length : 0;
    done->input_bytes = unit->after.input_bytes;
    done->input_lines = unit->after.input_lines;
    done->input_hash = unit->after.input_hash;
    if (now() - file->stated < STATE_SECONDS || write_state(file, done))
        return true;
    complain("cannot write", file->state);
    return false;
}

/* Puts the number of rows, known only now, into the header of an array: blanks fill the place. */
static bool mend_npy(const struct sweep_file *file, const struct sweep_progress *done)
{
    char head[8192];
    const struct spt_sweep_run *run = file->run;
    if (run->layout.form != SPT_SWEEP_NPY || !run->cases)
        return true;
    size_t length = spt_sweep_head(&run->layout, done->rows - done->rejected, head, sizeof head);
    if (!length || length > file->npy_head || file->npy_head > sizeof head)
        return false;
    memset(head + length - 1, ' ', file->npy_head - length);
    head[file->npy_head - 1] = '\n';
    head[8] = (char)((file->npy_head - 10) & 0xff); /* length of the text, little-endian */
    head[9] = (char)((file->npy_head - 10) >> 8);
    return pwrite(file->output.descriptor, head, file->npy_head, 0) == (ssize_t)file->npy_head;
}

static int keep_part(struct sweep_file *file, const struct sweep_progress *done)
{
    if (!file->output.path) {
        if (spt_sweep_stopped())
            fprintf(spt_messages(),
                    "spalltime sweep: stopped after %llu rows; with -o FILE a stopped run can be "
                    "resumed\n",
                    done->rows);
        return SPT_EXIT_DONE;
    }
    if (!write_state(file, done))
        return complain("cannot write", file->state);
    fprintf(spt_messages(),
            "spalltime sweep: %llu rows are kept in %s; the same command with --resume goes on\n",
            done->rows, file->output.beside);
    return SPT_EXIT_DONE;
}

static int finish_part(struct part *part)
{
    if (!part->path)
        return SPT_EXIT_DONE;
    fchmod(part->descriptor, spt_place_mode(part->path));
    if (rename(part->beside, part->path))
        return complain("cannot write", part->path);
    return SPT_EXIT_DONE;
}

int spt_sweep_file_close(struct sweep_file *file, const struct sweep_progress *done, bool whole)
{
    int status = SPT_EXIT_DONE;
    if (!whole)
        status = keep_part(file, done);
    else if (!mend_npy(file, done))
        status = complain("cannot write to", file->output.shown);
    else
        status = finish_part(&file->output);
    if (whole && !status && file->rejects.descriptor >= 0)
        status = finish_part(&file->rejects);
    if (whole && !status && file->output.path)
        unlink(file->state);
    drop(file);
    return status;
}
