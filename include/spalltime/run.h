/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_RUN_H
#define SPT_RUN_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The program as one call, text in and text out, for scripts in other languages. Lives in
 * libspalltime_run, which needs libspalltime and libyaml. Several threads may call at a time; the
 * numbers are written with a decimal point whatever the caller's locale. */

/* A file in memory. */
struct spt_run_file {
    const char *name; /* as the words name it; "-" is standard input; "catalogs/mine.yaml" is a file
                         of the folder "catalogs" */
    const char *text;
    size_t length; /* in bytes */
};

struct spt_run_request {
    const char *const *words; /* a command line without the name of the program: "life",
                                 "--format", "json", "-" */
    int word_count;
    const struct spt_run_file *files; /* looked at before those of the disk; may be NULL for none */
    int file_count;
};

struct spt_run_answer {
    int exit_status;    /* that of the program */
    char *body;         /* what it writes to standard output, ended by a zero byte; NULL: nothing */
    size_t body_length; /* without the zero byte */
    char *messages;     /* what it writes to standard error; NULL: memory is out */
};

/* Runs any command of the program: with every option and every form of its answer. `-o FILE` and
 * the like write to the disk.
 * Result: the exit status; free the answer in every case. NULL for the request or the answer, or a
 *         NULL word, name or text, is 2. */
int spt_run(const struct spt_run_request *request, struct spt_run_answer *answer);
void spt_run_answer_free(struct spt_run_answer *answer);

/* The same in one line, for commands that read one text and answer in JSON.
 * In:     command: "life", "compare", "reach", "timeline", "setting", "schedule", "spread" or
 * "check", or "fit" on field data; the YAML text (for "fit" the CSV) and its length in bytes; a
 * folder of catalogs to look in first, or NULL: those beside the library, or where it was built to
 * be installed, are found without it. NULL for the command or the text is taken as an empty one.
 * Result: a JSON text to be given to spt_free. An answer is the JSON of the program with the member
 * "exit_status" beside it; where there is none, {"exit_status", "error": text}, the text being what
 * the program prints on standard error. NULL only when memory is out. */
char *spt_run_json(const char *command, const char *yaml, size_t length,
                   const char *catalog_folder);

/* Frees a result of spt_run_json; does nothing for NULL. */
void spt_free(char *text);

#ifdef __cplusplus
}
#endif

#endif
