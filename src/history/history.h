/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef HISTORY_HISTORY_H
#define HISTORY_HISTORY_H

#include "answer/field/duty.h"
#include "file/call.h"
#include "history/history_file.h"
#include "scenario/scenario.h"

/* Options of the command line that concern a history. */
struct spt_history_order {
    const char *path;     /* measured loads in place of the duty; NULL: the scenario's duty */
    const char *bins;     /* NULL: the usual ones */
    const char *gap;      /* NULL: none */
    const char *standing; /* NULL: 0 */
};

/* A binned history with everything that its duty points to. It must not be moved. */
struct spt_binning {
    struct spt_arena arena;
    struct spt_scenario base; /* the scenario with one phase; empty without a scenario */
    struct spt_duty_frame frame;
    struct history_file file;
    struct history_fixed fixed;
    void *workspace; /* of `history` */
    struct spt_history history;
    struct spt_history_bin *bins;
    struct spt_history_summary summary;
    struct spt_duty_report report;
    struct spt_source source; /* the duty as YAML */
    struct spt_binned_duty duty;
};

/* Reads a history ("-" is standard input) and bins it for a scenario (NULL: none).
 * Result: SPT_EXIT_DONE, or another exit status with the messages printed; spt_binning_free in
 * both cases. */
int spt_history_read(struct spt_call *call, const struct spt_history_order *order, const char *path,
                     const struct spt_source *scenario, const struct spt_catalog *catalog,
                     struct spt_binning *binning);
void spt_binning_free(struct spt_binning *binning);

#endif
