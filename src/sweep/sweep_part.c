/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep/sweep_part.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/allocate.h"
#include "file/file.h"
#include "platform/platform.h"

#define TRIES_MAX 100 /* runs that end just as this one begins */

int spt_sweep_complain(struct spt_call *call, const char *what, const char *path)
{
    spt_say(call, "spalltime: %s %s: %s\n", what, path, strerror(errno));
    return SPT_EXIT_SYSTEM;
}

bool spt_sweep_is_direct(const char *path)
{
    return !path || !strcmp(path, "-") || spt_place_is_special(path);
}

static int open_direct(struct sweep_part *part, const char *path)
{
    bool standard = !path || !strcmp(path, "-");
    part->shown = standard ? "standard output" : path;
    bool captured = part->captured = standard && part->call->captured;
    if (standard && !captured && spt_place_stdout_is_read(part->call))
        return SPT_EXIT_USAGE;
    part->descriptor = captured   ? spt_file_temporary("", 0)
                       : standard ? STDOUT_FILENO
                                  : open(path, O_WRONLY);
    return part->descriptor < 0 ? spt_sweep_complain(part->call, "cannot write", path)
                                : SPT_EXIT_DONE;
}

static int refuse_lock(const struct sweep_part *part)
{
    spt_say(part->call, "spalltime sweep: another run is writing %s\n", part->beside);
    return SPT_EXIT_SYSTEM;
}

/* Locks an open part, because a part that another run is writing must not be changed. */
static int take_lock(const struct sweep_part *part)
{
    if (spt_file_lock(part->descriptor))
        return SPT_EXIT_DONE;
    if (errno != EACCES && errno != EAGAIN)
        return spt_sweep_complain(part->call, "cannot lock", part->beside);
    return refuse_lock(part);
}

/* True if the name of the part still leads to the file that was opened and locked. A run that ended
 * in the meantime has renamed it to its final name, and its output must not be changed. */
static bool is_still_named(struct sweep_part *part)
{
    struct stat opened, named;
    if (fstat(part->descriptor, &opened) || stat(part->beside, &named))
        return false;
    part->size = (unsigned long long)opened.st_size;
    return opened.st_dev == named.st_dev && opened.st_ino == named.st_ino;
}

static int open_beside(struct sweep_part *part)
{
    for (int tries = 0; tries < TRIES_MAX; tries++) {
        part->descriptor = open(part->beside, O_RDWR | O_CREAT, 0666);
        if (part->descriptor < 0)
            return spt_sweep_complain(part->call, "cannot write", part->beside);
        int status = spt_place_is_read(part->call, part->beside) ? SPT_EXIT_USAGE : take_lock(part);
        if (!status && is_still_named(part))
            return SPT_EXIT_DONE;
        close(part->descriptor);
        part->descriptor = -1;
        if (status)
            return status;
    }
    return refuse_lock(part);
}

int spt_sweep_part_open(struct sweep_part *part, const char *path)
{
    part->path = part->shown = path;
    part->descriptor = -1;
    if (spt_sweep_is_direct(path)) {
        part->path = NULL;
        return open_direct(part, path);
    }
    if (spt_place_is_read(part->call, path))
        return SPT_EXIT_USAGE;
    if (!spt_place_may_write(path))
        return spt_sweep_complain(part->call, "cannot write", path);
    if (snprintf(part->beside, sizeof part->beside, "%s.part", path) >= SPT_PATH_LENGTH) {
        errno = ENAMETOOLONG;
        return spt_sweep_complain(part->call, "cannot write", path);
    }
    return open_beside(part);
}

/* Adds the bytes `from` to `to` of the part to the checksum; false if some of them are missing. */
static bool add_bytes(int descriptor, unsigned long long from, unsigned long long to,
                      struct spt_checksum *sum)
{
    char bytes[16384];
    while (from < to) {
        size_t wanted = to - from < sizeof bytes ? (size_t)(to - from) : sizeof bytes;
        ssize_t got = pread(descriptor, bytes, wanted, (off_t)from);
        if (got < 0 && errno == EINTR)
            continue;
        if (got <= 0)
            return false;
        spt_checksum_add(sum, bytes, (size_t)got);
        from += (unsigned long long)got;
    }
    return true;
}

int spt_sweep_part_verify(struct sweep_part *part, const struct sweep_state *state, bool of_rejects,
                          struct spt_checksum *sums)
{
    struct spt_checksum sum;
    unsigned long long at = part->head;
    spt_checksum_begin(&sum);
    for (int i = 0; i < state->count; i++) {
        const struct sweep_progress *mark = &state->marks[i];
        unsigned long long to = of_rejects ? mark->reject_bytes : mark->output_bytes;
        sums[i] = sum;
        if (!part->path || to == 0)
            continue;
        if (to < at || !add_bytes(part->descriptor, at, to, &sum) ||
            spt_checksum_value(&sum) != (of_rejects ? mark->reject_hash : mark->output_hash))
            return i;
        sums[i] = sum;
        at = to;
    }
    return state->count;
}

bool spt_sweep_part_cut(struct sweep_part *part, unsigned long long bytes)
{
    return !part->path || (!ftruncate(part->descriptor, (off_t)bytes) &&
                           lseek(part->descriptor, (off_t)bytes, SEEK_SET) >= 0);
}

bool spt_sweep_part_head(struct sweep_part *part, const char *bytes, size_t length)
{
    if (!part->path)
        return spt_sweep_write_all(part->descriptor, bytes, length);
    off_t end = lseek(part->descriptor, 0, SEEK_CUR);
    return end >= 0 && lseek(part->descriptor, 0, SEEK_SET) >= 0 &&
           spt_sweep_write_all(part->descriptor, bytes, length) &&
           lseek(part->descriptor, end > (off_t)length ? end : (off_t)length, SEEK_SET) >= 0;
}

/* Gives the output that replaces standard output to the caller. */
static int hand_over(struct sweep_part *part)
{
    struct stat about;
    struct spt_call *call = part->call;
    if (fstat(part->descriptor, &about) || lseek(part->descriptor, 0, SEEK_SET) < 0)
        return spt_sweep_complain(call, "cannot read back", part->shown);
    size_t length = (size_t)about.st_size, got = 0;
    char *body = spt_allocate(length + 1);
    while (body && got < length) {
        ssize_t step = read(part->descriptor, body + got, length - got);
        if (step <= 0)
            break;
        got += (size_t)step;
    }
    if (!body || got < length) {
        free(body);
        return spt_sweep_complain(call, "cannot read back", part->shown);
    }
    body[length] = 0;
    free(call->body);
    call->body = body;
    call->body_length = length;
    return SPT_EXIT_DONE;
}

int spt_sweep_part_finish(struct sweep_part *part)
{
    if (!part->path)
        return part->captured ? hand_over(part) : SPT_EXIT_DONE;
    spt_file_permit(part->descriptor, spt_place_mode(part->path));
    if (rename(part->beside, part->path))
        return spt_sweep_complain(part->call, "cannot write", part->path);
    part->path = NULL;
    return SPT_EXIT_DONE;
}

bool spt_sweep_part_is_empty(const struct sweep_part *part)
{
    struct stat about;
    return part->path && part->descriptor >= 0 && !fstat(part->descriptor, &about) &&
           !about.st_size;
}

void spt_sweep_part_drop(struct sweep_part *part)
{
    if (spt_sweep_part_is_empty(part))
        unlink(part->beside); /* while locked, so that the name still leads to this file */
    if (part->descriptor > STDERR_FILENO)
        close(part->descriptor);
    part->descriptor = -1;
}
