/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FILE_CALL_H
#define FILE_CALL_H

#include <stdbool.h>
#include <stdio.h>

/* Exit statuses of the program. */
enum spt_exit {
    SPT_EXIT_DONE = 0,
    SPT_EXIT_TARGET_MISSED = 1,
    SPT_EXIT_USAGE = 2,
    SPT_EXIT_BAD_INPUT = 3,
    SPT_EXIT_SYSTEM = 4
};

/* A file that the caller holds in memory. */
struct spt_file_text {
    const char *name;
    const char *text;
    size_t length;
};

/* One run of a command, of the program or of a caller of run.h. Everything outside the process that
 * it reads and writes goes through here, so that several calls may be made at a time, each on a
 * thread of its own. All zero: the disk, standard input, standard output and standard error. */
struct spt_call {
    FILE *messages;                    /* for people; NULL: standard error */
    const struct spt_file_text *texts; /* files in memory, which take precedence over those on disk;
                                          "-" is standard input */
    int text_count;
    bool captured; /* standard output becomes `body`, and messages are for another program */
    char *body;    /* from malloc */
    size_t body_length;
    bool fragment;      /* HTML is written without the document around it */
    bool guards_inputs; /* keeps a list of the files read, onto which nothing is written */
    struct spt_noted *noted;
};

/* The stream for messages. */
FILE *spt_call_messages(const struct spt_call *call);

/* Prints a message, formatted as by printf. */
void spt_say(const struct spt_call *call, const char *format, ...)
    __attribute__((format(printf, 2, 3)));

/* The file in memory of this name; NULL: there is none. */
const struct spt_file_text *spt_call_text(const struct spt_call *call, const char *name);

/* Frees the list of files read; the body is the caller's. */
void spt_call_end(struct spt_call *call);

#endif
