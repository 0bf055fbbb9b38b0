/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep/sweep_cases.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <poll.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/utf8.h"
#include "file/file.h"

#define POLL_MS 200
#define HASH_START 0xcbf29ce484222325ULL
#define HASH_PRIME 0x100000001b3ULL

/* Like FNV-1a, but on eight bytes at a time. Remaining bytes are hashed at once instead of being
 * kept for the next call, so that the result depends on how the bytes are divided: call it once for
 * each whole record. */
static uint64_t hash_record(uint64_t hash, const char *line, size_t length)
{
    uint64_t word;
    for (; length >= sizeof word; line += sizeof word, length -= sizeof word) {
        memcpy(&word, line, sizeof word);
        hash = (hash ^ word) * HASH_PRIME;
        hash ^= hash >> 29;
    }
    for (; length; line++, length--)
        hash = (hash ^ (unsigned char)*line) * HASH_PRIME;
    return hash;
}

/* Waits until there is something to read; false where a signal ended the wait. */
static bool wait_for_input(int descriptor)
{
    struct pollfd one = {.fd = descriptor, .events = POLLIN};
    while (!spt_sweep_stopped()) {
        int ready = poll(&one, 1, POLL_MS);
        if (ready > 0 || (ready < 0 && errno != EINTR))
            return true;
    }
    return false;
}

static bool report_no_memory(struct spt_call *call)
{
    spt_say(call, "spalltime: out of memory\n");
    return false;
}

/* Reads more input into the buffer. False with a message when that fails; a stop signal is no
 * failure. */
static bool read_more(struct sweep_cases *cases)
{
    if (cases->ahead_used && cases->ahead.bytes) {
        cases->ahead.length -= cases->ahead_used;
        memmove(cases->ahead.bytes, cases->ahead.bytes + cases->ahead_used, cases->ahead.length);
        cases->ahead_used = 0;
    }
    if (!spt_sweep_text_need(&cases->ahead, SWEEP_TEXT))
        return report_no_memory(cases->call);
    if (!wait_for_input(cases->descriptor))
        return true;
    ssize_t got = read(cases->descriptor, cases->ahead.bytes + cases->ahead.length,
                       cases->ahead.capacity - cases->ahead.length);
    if (got < 0 && errno == EINTR)
        return true;
    if (got < 0) {
        spt_say(cases->call, "spalltime: cannot read %s: %s\n", cases->name, strerror(errno));
        return false;
    }
    cases->at_end = got == 0;
    cases->ahead.length += (size_t)got;
    return true;
}

/* The next record in the buffer, with its line end; NULL where it is not complete. */
static const char *peek_record(const struct sweep_cases *cases, size_t *length, unsigned *lines)
{
    size_t left = cases->ahead.length - cases->ahead_used;
    *length = 0;
    if (!left)
        return NULL;
    const char *at = cases->ahead.bytes + cases->ahead_used;
    *length = spt_cases_record(at, left, !cases->at_end, lines);
    return *length ? at : NULL;
}

/* Reports a record that is longer than any case needs. */
static bool refuse_length(const struct sweep_cases *cases, unsigned long long line)
{
    spt_say(cases->call, "%s:%llu:1: a line of more than %d bytes; is this a table of cases?\n",
            cases->name, line, SPT_CASES_RECORD_MAX);
    return false;
}

static bool is_too_long(const struct sweep_cases *cases)
{
    size_t length;
    unsigned lines;
    return !peek_record(cases, &length, &lines) &&
           cases->ahead.length - cases->ahead_used > SPT_CASES_RECORD_MAX;
}

/* Moves whole records that begin inside the shard from the buffer to the unit, up to SWEEP_TEXT
 * bytes. */
static bool read_records(struct sweep_cases *cases, struct sweep_progress *at,
                         struct sweep_unit *unit)
{
    const char *line;
    size_t length;
    unsigned lines;
    unit->input.length = 0;
    unit->first_line = at->input_lines + 1;
    while (at->input_bytes < cases->rest && (line = peek_record(cases, &length, &lines)) &&
           unit->input.length + length <= SWEEP_TEXT + SPT_CASES_RECORD_MAX) {
        if (!spt_sweep_text_add(&unit->input, line, length))
            return false;
        cases->ahead_used += length;
        at->input_bytes += length;
        at->input_lines += lines;
        at->input_hash = hash_record(at->input_hash, line, length);
        if (unit->input.length >= cases->unit_bytes)
            break;
    }
    unit->after = *at;
    return true;
}

bool spt_sweep_cases_read_unit(struct sweep_cases *cases, struct sweep_progress *at,
                               struct sweep_unit *unit, bool *error)
{
    for (;;) {
        if (!read_records(cases, at, unit)) {
            *error = true;
            return report_no_memory(cases->call);
        }
        if (unit->input.length)
            return true;
        if (cases->at_end || at->input_bytes >= cases->rest || spt_sweep_stopped())
            return false;
        if (is_too_long(cases) ? !refuse_length(cases, at->input_lines + 1) : !read_more(cases)) {
            *error = true;
            return false;
        }
    }
}

bool spt_sweep_cases_skip(struct sweep_cases *cases, const struct sweep_progress *to)
{
    struct sweep_progress at = {.input_hash = HASH_START};
    const char *line;
    size_t length;
    unsigned lines;
    while (at.input_bytes < to->input_bytes) {
        line = peek_record(cases, &length, &lines);
        if (!line && (cases->at_end || spt_sweep_stopped() || !read_more(cases)))
            break;
        if (!line)
            continue;
        at.input_hash = hash_record(at.input_hash, line, length);
        at.input_bytes += length;
        cases->ahead_used += length;
    }
    if (at.input_bytes == to->input_bytes && at.input_hash == to->input_hash)
        return true;
    spt_say(cases->call,
            "spalltime sweep: %s is not what the interrupted run read; delete its .part to start "
            "again\n",
            cases->name);
    return false;
}

double spt_sweep_cases_share(const struct sweep_cases *cases, unsigned long long bytes)
{
    return cases->sized && cases->rest ? (double)bytes / (double)cases->rest : (double)NAN;
}

/* Reads the head: the first record that is not blank. Counts its lines and bytes. */
static bool find_head(struct sweep_cases *cases, struct sweep_progress *at)
{
    for (;;) {
        size_t length;
        unsigned lines;
        const char *line = peek_record(cases, &length, &lines);
        if (!line && is_too_long(cases))
            return refuse_length(cases, at->input_lines + 1);
        if (!line && (cases->at_end || spt_sweep_stopped()))
            return true;
        if (!line && !read_more(cases))
            return false;
        if (!line)
            continue;
        bool marked = !at->input_lines && length >= 3 && !memcmp(line, "\xef\xbb\xbf", 3);
        const char *text = marked ? line + 3 : line;
        size_t size = length - (marked ? 3 : 0);
        cases->ahead_used += length;
        at->input_bytes += length;
        at->input_lines += lines;
        while (size && (text[size - 1] == '\n' || text[size - 1] == '\r'))
            size--;
        if (spt_cases_is_blank(text, size))
            continue;
        if (spt_sweep_text_add(&cases->head, text, size) && spt_sweep_text_need(&cases->head, 1))
            return true;
        return report_no_memory(cases->call);
    }
}

/* Parses the head. Diagnostics need it at its own line, so empty lines are put before it. */
static bool read_head(struct sweep_cases *cases, const struct spt_case *question,
                      unsigned long long line, int *status)
{
    struct spt_diagnostics diags = {0};
    size_t before = (size_t)line - 1;
    char *text = malloc(before + cases->head.length + 1);
    *status = SPT_EXIT_SYSTEM;
    if (!text)
        return report_no_memory(cases->call);
    memset(text, '\n', before);
    memcpy(text + before, cases->head.bytes, cases->head.length);
    text[before + cases->head.length] = 0;
    struct spt_source source = {cases->name, text, before + cases->head.length};
    bool fine = spt_cases_head(&source, (int)line, question, &cases->columns, &diags);
    if (!fine) {
        *status = diags.out_of_memory ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
        spt_diagnostics_print(&diags, spt_call_messages(cases->call));
    }
    free(text);
    return fine;
}

/* Skips the records that begin before byte `to` after the head. */
static bool go_to(struct sweep_cases *cases, unsigned long long to, struct sweep_progress *at)
{
    size_t length;
    unsigned lines;
    while (at->input_bytes < to) {
        if (peek_record(cases, &length, &lines)) {
            cases->ahead_used += length;
            at->input_bytes += length;
            at->input_lines += lines;
        } else if (cases->at_end || spt_sweep_stopped()) {
            return true;
        } else if (!read_more(cases)) {
            return false;
        }
    }
    return true;
}

/* Cuts the bytes behind the head into shards at the ends of records. */
static bool cut_shard(struct sweep_cases *cases, const struct spt_sweep_run *run,
                      struct sweep_progress *at)
{
    unsigned long long behind = cases->size - at->input_bytes;
    unsigned long long n = (unsigned long long)run->shards, k = (unsigned long long)run->shard;
    unsigned long long from = behind / n * (k - 1) + behind % n * (k - 1) / n;
    unsigned long long to = behind / n * k + behind % n * k / n;
    struct sweep_progress gone = {.input_lines = at->input_lines};
    if (!go_to(cases, from, &gone))
        return false;
    cases->rest = to > gone.input_bytes ? to - gone.input_bytes : 0;
    *at = (struct sweep_progress){.input_lines = gone.input_lines};
    return true;
}

static bool open_input(struct sweep_cases *cases, const char *path)
{
    struct stat about;
    bool standard = !strcmp(path, "-") && !spt_call_text(cases->call, path);
    cases->name = strcmp(path, "-") ? path : standard ? "standard input" : "the text";
    cases->descriptor = spt_file_descriptor(cases->call, path);
    if (cases->descriptor < 0 || fstat(cases->descriptor, &about)) {
        spt_say(cases->call, "spalltime: cannot read %s: %s\n", path, strerror(errno));
        return false;
    }
    if (spt_file_note(cases->call, cases->descriptor, cases->name))
        return report_no_memory(cases->call);
    /* the offset of a standard input that others read before is not known to be 0 */
    cases->sized = !standard && S_ISREG(about.st_mode);
    cases->size = cases->sized ? (unsigned long long)about.st_size : 0;
    return true;
}

bool spt_sweep_cases_open(struct spt_sweep_run *run, struct sweep_cases *cases, int *status)
{
    struct sweep_progress at = {0};
    *status = SPT_EXIT_SYSTEM;
    if (!open_input(cases, run->order->cases) || !find_head(cases, &at))
        return false;
    *status = SPT_EXIT_BAD_INPUT;
    if (!cases->head.length) {
        spt_say(run->call,
                "%s: there is nothing in it; the first line names the columns, such as "
                "`radial_load [kN],speed [rpm]`\n",
                cases->name);
        return false;
    }
    if (!read_head(cases, &run->scenario->base.question, at.input_lines, status))
        return false;
    *status = SPT_EXIT_USAGE;
    if (run->shards > 1 && !cases->sized) {
        spt_say(run->call,
                "spalltime sweep: --shard needs cases in a file, to cut it into parts\n");
        return false;
    }
    *status = SPT_EXIT_SYSTEM;
    cases->unit_bytes = run->scenario->base.question.hub ? SWEEP_HUB_TEXT : SWEEP_TEXT;
    cases->rest = ~0ULL;
    if (cases->sized ? !cut_shard(cases, run, &at) : false)
        return false;
    run->start = (struct sweep_progress){.input_lines = at.input_lines, .input_hash = HASH_START};
    run->layout.cases = true;
    run->layout.labels = cases->columns.label >= 0;
    run->layout.field_count = cases->columns.count;
    memcpy(run->layout.fields, cases->columns.fields, sizeof cases->columns.fields);
    *status = SPT_EXIT_DONE;
    return true;
}

void spt_sweep_cases_close(struct sweep_cases *cases)
{
    if (cases->descriptor > STDERR_FILENO)
        close(cases->descriptor);
    free(cases->head.bytes);
    free(cases->ahead.bytes);
}

void spt_sweep_cases_begin(struct sweep_case_lines *lines, const struct sweep_unit *unit)
{
    lines->at = unit->input.bytes;
    lines->end = lines->at + unit->input.length;
    lines->line = unit->first_line;
}

/* Adds a rejected record to the rejects, with its cells escaped like those of the output. */
static bool add_record(const struct sweep_cases *cases, const struct sweep_case_line *line,
                       struct sweep_text *rejects)
{
    char *scratch = malloc(line->length + 1);
    if (!scratch || !spt_sweep_text_need(rejects, SPT_CASES_PUT_SIZE_MAX(line->length))) {
        free(scratch);
        return false;
    }
    char *end = spt_cases_put(&cases->columns, line->text, line->length, scratch,
                              rejects->bytes + rejects->length);
    *end++ = '\n';
    rejects->length = (size_t)(end - rejects->bytes);
    free(scratch);
    return true;
}

/* Writes one record of the rejects and one message. */
static bool reject(const struct sweep_cases *cases, const struct sweep_case_line *line, int column,
                   const char *text, struct sweep_unit *unit)
{
    char problem[SPT_CASES_PROBLEM];
    snprintf(problem, sizeof problem, "%s", text);
    spt_utf8_tame(problem);
    char lead[SPT_CASES_PROBLEM * 2 + 64], report[SPT_CASES_PROBLEM + 4200];
    size_t used = (size_t)snprintf(lead, sizeof lead, "%llu,\"", line->number);
    for (const char *at = problem; *at; at++) {
        if (*at == '"')
            lead[used++] = '"';
        lead[used++] = *at;
    }
    lead[used++] = '"';
    lead[used++] = ',';
    int length = snprintf(report, sizeof report, "%s:%llu:%d: %s\n", cases->name, line->number,
                          column, problem);
    unit->rejected++;
    return spt_sweep_text_add(&unit->rejects, lead, used) &&
           add_record(cases, line, &unit->rejects) &&
           spt_sweep_text_add(&unit->report, report,
                              length < (int)sizeof report ? (size_t)length : sizeof report - 1);
}

/* The next record that is not blank. */
static bool next_record(struct sweep_case_lines *lines, struct sweep_case_line *line)
{
    while (lines->at < lines->end) {
        unsigned count;
        size_t length =
            spt_cases_record(lines->at, (size_t)(lines->end - lines->at), false, &count);
        if (!length) /* a unit has whole records only */
            length = (size_t)(lines->end - lines->at);
        *line = (struct sweep_case_line){lines->at, length, lines->line};
        lines->at += length;
        lines->line += count;
        if (line->text[line->length - 1] == '\n')
            line->length--;
        if (line->length && line->text[line->length - 1] == '\r')
            line->length--;
        if (!spt_cases_is_blank(line->text, line->length))
            return true;
    }
    return false;
}

bool spt_sweep_cases_read(const struct sweep_cases *cases, struct sweep_case_lines *lines,
                          double (*inputs)[SPT_SWEEP_BLOCK], int *count)
{
    double *values[SPT_SWEEP_FIELD_COUNT];
    struct sweep_case_line line;
    *count = lines->bad_count = 0;
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        values[f] = inputs[f];
    while (*count < SPT_SWEEP_BLOCK && lines->bad_count < SPT_SWEEP_BLOCK &&
           next_record(lines, &line)) {
        struct sweep_bad_line *bad = &lines->bad[lines->bad_count];
        bad->column = spt_cases_row(&cases->columns, line.text, line.length, values, (size_t)*count,
                                    &lines->labels[*count], bad->problem);
        bad->line = line;
        if (bad->column)
            lines->bad_count++;
        else
            lines->rows[(*count)++] = line;
    }
    return *count > 0 || lines->bad_count > 0;
}

bool spt_sweep_cases_reject(const struct sweep_cases *cases, const struct sweep_case_lines *lines,
                            const bool *refused, int count, struct sweep_unit *unit)
{
    const struct sweep_bad_line *bad = lines->bad, *last = bad + lines->bad_count;
    bool kept = true;
    unit->worked += (unsigned long long)(count + lines->bad_count);
    for (int i = 0; kept && i < count; i++) {
        for (; kept && bad < last && bad->line.number < lines->rows[i].number; bad++)
            kept = reject(cases, &bad->line, bad->column, bad->problem, unit);
        if (kept && refused[i])
            kept = reject(cases, &lines->rows[i], 1, "the models refuse these numbers", unit);
    }
    for (; kept && bad < last; bad++)
        kept = reject(cases, &bad->line, bad->column, bad->problem, unit);
    return kept;
}
