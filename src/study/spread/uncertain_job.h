/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SPREAD_UNCERTAIN_JOB_H
#define STUDY_SPREAD_UNCERTAIN_JOB_H

#include "platform/platform.h"
#include "spalltime/uncertainty.h"
#include "study/hub/setting_table.h"

/* What is needed to compute the setting factors of a hub for each sample. */
struct spt_uncertain_hub {
    struct spt_setting_table table;
    double running_mm; /* setting, as stated */
    double thermal_mm; /* part of it that is due to temperature */
    struct spt_hub_bench benches[SPT_UNCERTAIN_THREADS_MAX]; /* one for each thread */
    double bench_loads[SPT_UNCERTAIN_THREADS_MAX];           /* load factor each bench is set to */
};

/* A set of samples to evaluate. */
struct spt_uncertain_job {
    const struct spt_case *question;
    const struct spt_uncertainty *uncertainty;
    const struct spt_uncertainty_workspace *workspace;
    int used[SPT_UNCERTAIN_COUNT]; /* the inputs that are spread */
    int used_count;
    int count;                               /* samples */
    int stride;                              /* columns of a row of the design */
    bool second;                             /* use the second half of the columns of the design */
    int swapped;                             /* this input from the other half; -1: none */
    struct spt_uncertain_hub *hub;           /* NULL: the setting factors of the case */
    bool solve;                              /* compute the factors directly, not from the table */
    double *system_lives;                    /* `count` lives */
    double *bearing_lives[SPT_BEARINGS_MAX]; /* NULL: not wanted */
};

/* The part of a job that one thread evaluates. */
struct spt_uncertain_part {
    const struct spt_uncertain_job *job;
    int first, last; /* samples (or nodes) first .. last - 1 */
    int number;      /* of the thread */
    struct spt_phase *phases;
    struct spt_phase_result *results;
    int held, direct, unsettled, preloaded;
    struct spt_thread thread;
    bool started;
};

/* Samples (uncertainty.c). */

/* Evaluates `count` samples or nodes of a job on all threads; each has its own place in the
 * results, which therefore do not depend on the number of threads. The counters are added to
 * `result`, which may be NULL. */
void spt_uncertain_share_out(const struct spt_uncertain_job *job, int count, void *(*work)(void *),
                             struct spt_uncertainty_result *result);

/* Evaluates all samples of a job, as above. */
void spt_uncertain_run(const struct spt_uncertain_job *job, struct spt_uncertainty_result *result);

/* Setting factors of a hub (uncertain_setting.c). */

/* Value to subtract from a sampled end play to get a change of the stated one. */
double spt_uncertain_offset(const struct spt_random_input *input);

/* Finds the setting factors of a sample, from the table or directly; false where the hub model has
 * no solution. */
bool spt_uncertain_find_factors(struct spt_uncertain_part *part, const double *values,
                                double (*factors)[2]);

/* Prepares setting factors that differ between samples. */
enum spt_status spt_uncertain_begin_hub(struct spt_uncertain_job *job,
                                        struct spt_uncertain_hub *hub,
                                        struct spt_uncertainty_result *result);

#endif
