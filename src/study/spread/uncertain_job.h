/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SPREAD_UNCERTAIN_JOB_H
#define STUDY_SPREAD_UNCERTAIN_JOB_H

#include <pthread.h>

#include "spalltime/uncertainty.h"
#include "study/hub/setting_table.h"

/* How the setting factors of a hub follow the samples. */
struct spt_uncertain_settling {
    struct spt_setting_table table;
    double running_mm;                                       /* as stated */
    double thermal_mm;                                       /* of that by temperature */
    struct spt_hub_bench benches[SPT_UNCERTAIN_THREADS_MAX]; /* one for each thread */
    double bench_loads[SPT_UNCERTAIN_THREADS_MAX];           /* the factor each stands at */
};

/* One set of samples to work out. */
struct spt_uncertain_job {
    const struct spt_case *question;
    const struct spt_uncertainty *uncertainty;
    const struct spt_uncertainty_room *room;
    int used[SPT_UNCERTAIN_COUNT]; /* the inputs that are spread */
    int used_count;
    int count;                               /* samples */
    int stride;                              /* columns of a row of the design */
    bool second;                             /* the columns behind the first `used_count` */
    int swapped;                             /* that column from the second half; -1: none */
    struct spt_uncertain_settling *settling; /* NULL: the setting factors of the case */
    bool solve;                              /* directly, not by the table */
    double *system_lives;                    /* count */
    double *bearing_lives[SPT_BEARINGS_MAX]; /* NULL: not wanted */
};

/* A thread's part of it. */
struct spt_uncertain_part {
    const struct spt_uncertain_job *job;
    int first, last; /* samples (or nodes) first .. last - 1 */
    int number;      /* of the thread */
    struct spt_phase *phases;
    struct spt_phase_result *results;
    int held, direct, unsettled, preloaded;
    pthread_t thread;
    bool started;
};

/* Samples (uncertainty.c). */

/* Works `count` samples or nodes of a job out on all threads; each has its own place, so the split
 * leaves no trace. What was counted is added to `result`, which may be NULL. */
void spt_uncertain_share_out(const struct spt_uncertain_job *job, int count, void *(*work)(void *),
                             struct spt_uncertainty_result *result);

/* All samples of a job, as above. */
void spt_uncertain_run(const struct spt_uncertain_job *job, struct spt_uncertainty_result *result);

/* Setting factors of a hub (uncertain_setting.c). */

/* Value to subtract from a sampled end play to get a change of the stated one. */
double spt_uncertain_offset(const struct spt_random_input *input);

/* Setting factors of a sample; false where the hub has no answer. */
bool spt_uncertain_settle(struct spt_uncertain_part *part, const double *values,
                          double (*factors)[2]);

/* Makes ready for setting factors that differ between samples. */
enum spt_status spt_uncertain_begin_settling(struct spt_uncertain_job *job,
                                             struct spt_uncertain_settling *settling,
                                             struct spt_uncertainty_result *result);

#endif
