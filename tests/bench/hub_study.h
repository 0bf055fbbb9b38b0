/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_BENCH_HUB_STUDY_H
#define TESTS_BENCH_HUB_STUDY_H

/* Prints the times of hub_study.c. */
void hub_study_bench(void);

#endif
