/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_RUN_H
#define SPT_RUN_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* The program's commands as one call, text in and text out, for scripts in other languages. Lives
 * in libspalltime_run, which needs libyaml besides GSL. */

/* Runs `spalltime COMMAND --format json -` on a scenario.
 * In:     command: "life", "compare", "reach", "timeline", "setting", "schedule" or "spread", or
 * "fit" on field data; the YAML text (for "fit" the CSV) and its length in bytes; a folder of
 * catalogs to look in first, or NULL: those beside the library, or where it was built to be
 * installed, are found without it. NULL for the command or the text is taken as an empty one.
 * Result: a JSON text to be given to spt_free. An answer is the JSON of the program with the member
 * "exit_status" beside it; where there is none, {"exit_status", "error": text}, the text being what
 * the program prints on standard error. NULL only when memory is out. Note:   not for several
 * threads at a time; the locale is set aside for the call and put back. */
char *spt_run_json(const char *command, const char *yaml, size_t length,
                   const char *catalog_folder);

/* Frees what spt_run_json gave; NULL is fine. */
void spt_free(char *text);

#ifdef __cplusplus
}
#endif

#endif
