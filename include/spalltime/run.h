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
    int fragment; /* not 0: HTML without the document around it, for a page that has the style */
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

/* The same in one line, for commands that read one text.
 * In:     command: "life", "compare", "reach", "timeline", "setting", "schedule", "spread" or
 *         "check", or "fit" on field data; format: "json", "html", "text" or "csv"; the YAML text
 *         (for "fit" the CSV) and its length in bytes; a folder of catalogs to look in first, or
 *         NULL: those beside the library, or where it was built to be installed, are found without
 *         it. NULL for the command, the format or the text is taken as an empty one.
 * Result: a text to be given to spt_free, NULL only when memory is out; the exit status of the
 *         program in `*exit_status`, which may be NULL. In JSON an answer is that of the program
 *         with the member "exit_status" beside it; where there is none, {"exit_status", "error":
 *         text}, the text being what the program prints on standard error. In the other formats an
 *         answer is what the program writes to standard output; where there is none, what it prints
 *         on standard error. */
char *spt_run_text(const char *command, const char *format, const char *text, size_t length,
                   const char *catalog_folder, int *exit_status);

/* A scenario with one value changed; comments, order and layout stay as they are.
 * In:     the YAML text and its length in bytes; the path of the value, keys and numbers of list
 *         members from 0: "condition.water", "duty.0.speed"; the value as it would stand in a file:
 *         "400 ppm". Whether it makes a sound scenario is not looked at. A key that its section
 *         does not state is added.
 * Result: the whole text, to be given to spt_free; NULL where the text is not valid YAML, there is
 *         no such section or value, or memory is out. */
char *spt_run_edit(const char *text, size_t length, const char *path, const char *value);

/* The values of a scenario that can be turned: dirt, water, age of the grease, oil, setting of a
 * hub and, for each phase, loads, speed and temperature. In:     the scenario, and after it, for
 * the names of lubricants, the files of a folder "catalogs". Result: JSON to be given to spt_free,
 * NULL when memory is out: groups {"title", "controls"}, the first, without a title, of the whole
 * scenario, then one for each phase. A control has "path", "label" and "value" (as written; null:
 * not stated), and either "words" to choose from or "number", "unit", "lowest", "highest" and
 * "ratios" (true: equal ratios are equal steps). A text that is no YAML has none of these. */
char *spt_run_controls(const struct spt_run_file *files, int count);

/* Frees a result of spt_run_text; does nothing for NULL. */
void spt_free(char *text);

#ifdef __cplusplus
}
#endif

#endif
