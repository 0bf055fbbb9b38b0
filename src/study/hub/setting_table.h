/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_HUB_SETTING_TABLE_H
#define STUDY_HUB_SETTING_TABLE_H

#include "spalltime/setting.h"

/* Setting factors of every phase and row of a hub over its setting and a factor on its loads. What
 * is kept is factor^(-3/10), the load ratio of the same life: it stays finite where a row carries
 * nothing, and is smooth. */

#define SPT_SETTING_TABLE_FINEST_MM 128 /* intervals along the setting, at most */
#define SPT_SETTING_TABLE_FINEST_LOAD 16

struct spt_setting_table {
    double *values;           /* [setting][load][entries], for the finest table */
    int entries;              /* 2 * phases: rows of phase 0, ... */
    double low_mm, high_mm;   /* of the running setting over load^power; equal: known exactly */
    double log_low, log_high; /* of the load factor; equal: 1 */
    double power;
    int setting_step, load_step; /* finest intervals to one of this table; 0: a single node */
};

size_t spt_setting_table_length(int phases);

/* A table without any node yet, at its coarsest, for running settings and load factors (> 0) from
 * lowest to highest. */
void spt_setting_table_begin(struct spt_setting_table *table, double *values, int phases,
                             const double settings_mm[2], const double loads[2]);

/* Number of nodes; and the computation of nodes first to last - 1, except those known already.
 * Changes the load of the bench. A node without an answer is NaN. */
int spt_setting_table_count(const struct spt_setting_table *table);
void spt_setting_table_fill(const struct spt_setting_table *table, struct spt_hub_bench *bench,
                            int first, int last);

/* Half the steps along the setting or the load; false where it is at its finest, or one node. */
bool spt_setting_table_refine(struct spt_setting_table *table, bool along_load);

/* Factors of a running setting and load; false outside, or where a node nearby has no answer. */
bool spt_setting_table_read(const struct spt_setting_table *table, double running_mm, double load,
                            double (*factors)[2]);

#endif
