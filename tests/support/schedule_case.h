/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_SCHEDULE_CASE_H
#define TESTS_SCHEDULE_CASE_H

#include "spalltime/service.h"

/* The only phase of the case below, and a buffer for the results of two phases. */
extern struct spt_phase schedule_phase;
extern struct spt_phase_result schedule_results[2];

/* One ball bearing under one load. */
struct spt_case schedule_case(enum spt_lubrication kind);

/* Inputs of a plan for it, without service, limits and costs. */
struct spt_schedule_inputs schedule_inputs(const struct spt_case *question);

/* Relubrication interval of the case in h. */
double schedule_grease_h(const struct spt_schedule_inputs *inputs);

/* The first task of a kind; NULL: none. */
const struct spt_schedule_task *schedule_task(const struct spt_schedule *schedule,
                                              enum spt_task task);

/* A drift that changes nothing yet. */
struct spt_service schedule_drift_service(double from_h, double to_h);

#endif
