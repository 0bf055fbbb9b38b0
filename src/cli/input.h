/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_INPUT_H
#define CLI_INPUT_H

#include "cli/options.h"
#include "history/history.h"
#include "scenario/scenario.h"

/* A scenario with the catalogs it was read against. */
struct spt_input {
    struct spt_catalog catalog;
    struct spt_arena arena;      /* the file's text */
    struct spt_binning *binning; /* of --history; NULL: none */
    struct spt_scenario scenario;
};

#define SPT_INPUT_PATH 4096

/* Finds a folder of this program or library, "catalogs" or "scenarios": beside it in the source
 * tree or the installed tree, else in the configured installation folder.
 * Result: false where there is none, and `path` lists these places. */
bool spt_input_own_folder(const char *name, char path[SPT_INPUT_PATH]);

/* Reads the catalogs that the options, SPALLTIME_CATALOGS and the installation name.
 * Result: SPT_EXIT_DONE, or another exit status with the messages printed on standard error. */
int spt_input_catalogs(const struct spt_options *options, struct spt_catalog *catalog);

/* For a command that can do nothing without one. Result: SPT_EXIT_DONE, or SPT_EXIT_SYSTEM with a
 * message where no catalog folder was found. */
int spt_input_need_catalogs(struct spt_call *call, const char *command,
                            const struct spt_catalog *catalog);

/* Reads the catalogs and the text of a file ("-" is standard input), then its scenario, its duty
 * binned from the history that the options name. As above; free in every case. */
int spt_input_open(const struct spt_options *options, const char *path, struct spt_input *input,
                   struct spt_source *source);
int spt_input_load(const struct spt_options *options, const char *path,
                   const struct spt_source *source, struct spt_input *input);

/* Both in one. */
int spt_input_read(const struct spt_options *options, const char *path, struct spt_input *input);
/* Reports with file and line a missing section that a command needs, such as "the scenario lacks
 * ...". */
void spt_input_lacks(struct spt_call *call, const struct spt_scenario *scenario, const char *what);

/* Reports that nothing says how dirty the grease is, which a plan needs: false where it is known.
 */
bool spt_input_lacks_dirt(struct spt_call *call, const struct spt_scenario *scenario,
                          const struct spt_case *question);

void spt_input_free(struct spt_input *input);

#endif
