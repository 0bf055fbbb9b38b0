/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep/sweep_state.h"

#include <errno.h>
#include <fcntl.h>
#include <inttypes.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/checksum.h"
#include "file/place.h"

#define LEAD "spalltime sweep, state of a partial run"
#define HEAD                                                                                       \
    LEAD ", form 2\n"                                                                              \
         "rows rejected output_bytes reject_bytes input_bytes input_lines input output rejects\n"
#define MARK_LENGTH 200
#define STATE_LENGTH (sizeof HEAD + MARK_LENGTH * (SWEEP_MARKS_MAX + 2))

void spt_sweep_state_mark(struct sweep_state *state, const struct sweep_progress *at)
{
    if (state->count == SWEEP_MARKS_MAX) {
        state->count /= 2;
        for (int i = 0; i < state->count; i++)
            state->marks[i] = state->marks[2 * i + 1];
    }
    state->marks[state->count++] = *at;
}

bool spt_sweep_sync(int descriptor)
{
    /* a file system that cannot do so says EINVAL or ENOTSUP */
    return descriptor < 0 || !fsync(descriptor) || errno == EINVAL || errno == ENOTSUP;
}

bool spt_sweep_write_all(int descriptor, const char *bytes, size_t length)
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

static size_t write_mark(const struct sweep_progress *at, char *to)
{
    return (size_t)snprintf(
        to, MARK_LENGTH,
        "%llu %llu %llu %llu %llu %llu %016" PRIx64 " %016" PRIx64 " %016" PRIx64 "\n", at->rows,
        at->rejected, at->output_bytes, at->reject_bytes, at->input_bytes, at->input_lines,
        at->input_hash, at->output_hash, at->reject_hash);
}

static uint64_t sum_text(const char *text, size_t length)
{
    struct spt_checksum sum;
    spt_checksum_begin(&sum);
    spt_checksum_add(&sum, text, length);
    return spt_checksum_value(&sum);
}

bool spt_sweep_state_write(const struct sweep_state *state, const char *path)
{
    char fresh[SPT_PATH_LENGTH + 8], text[STATE_LENGTH];
    size_t used = (size_t)snprintf(text, sizeof text, HEAD);
    for (int i = 0; i < state->count; i++)
        used += write_mark(&state->marks[i], text + used);
    used +=
        (size_t)snprintf(text + used, MARK_LENGTH, "question %016" PRIx64 "\n", state->question);
    used +=
        (size_t)snprintf(text + used, MARK_LENGTH, "sum %016" PRIx64 "\n", sum_text(text, used));
    snprintf(fresh, sizeof fresh, "%s" SWEEP_STATE_FRESH, path);
    int out = open(fresh, O_WRONLY | O_CREAT | O_TRUNC, 0666);
    if (out < 0)
        return false;
    bool written = spt_sweep_write_all(out, text, used) && spt_sweep_sync(out);
    int error = errno;
    if (close(out) && written) {
        written = false;
        error = errno;
    }
    if (written && !rename(fresh, path))
        return true;
    error = written ? errno : error;
    unlink(fresh);
    errno = error;
    return false;
}

bool spt_sweep_state_is_own(const char *path)
{
    char text[sizeof LEAD - 1];
    struct stat about;
    if (lstat(path, &about))
        return true;
    FILE *in = S_ISREG(about.st_mode) ? fopen(path, "r") : NULL;
    if (!in)
        return false;
    size_t length = fread(text, 1, sizeof text, in);
    fclose(in);
    return !memcmp(text, LEAD, length); /* a run may have been killed while it wrote it */
}

/* The numbers were written by this program and have a checksum, so none is too large to read. */
/* NOLINTBEGIN(cert-err34-c) */
static const char *read_mark(const char *text, struct sweep_progress *at)
{
    int used = 0;
    int found =
        sscanf(text, "%llu %llu %llu %llu %llu %llu %" SCNx64 " %" SCNx64 " %" SCNx64 "\n%n",
               &at->rows, &at->rejected, &at->output_bytes, &at->reject_bytes, &at->input_bytes,
               &at->input_lines, &at->input_hash, &at->output_hash, &at->reject_hash, &used);
    return found == 9 ? text + used : NULL;
}

/* Parses the text after the head, whose checksum is correct. */
static bool read_text(const char *text, struct sweep_state *state)
{
    struct sweep_progress at;
    state->count = 0;
    for (const char *next = read_mark(text, &at); next; next = read_mark(text, &at)) {
        if (state->count == SWEEP_MARKS_MAX)
            return false;
        state->marks[state->count++] = at;
        text = next;
    }
    return state->count && sscanf(text, "question %" SCNx64, &state->question) == 1;
}

bool spt_sweep_state_read(const char *path, struct sweep_state *state)
{
    char text[STATE_LENGTH];
    FILE *in = fopen(path, "r");
    if (!in)
        return false;
    size_t length = fread(text, 1, sizeof text - 1, in);
    fclose(in);
    text[length] = 0;
    const char *last = strstr(text, "\nsum ");
    uint64_t sum;
    return !strncmp(text, HEAD, sizeof HEAD - 1) && last &&
           sscanf(last, "\nsum %" SCNx64, &sum) == 1 &&
           sum == sum_text(text, (size_t)(last + 1 - text)) &&
           read_text(text + sizeof HEAD - 1, state);
}
/* NOLINTEND(cert-err34-c) */
