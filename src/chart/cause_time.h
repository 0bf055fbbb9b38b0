/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_CAUSE_TIME_H
#define CHART_CAUSE_TIME_H

#include <stdbool.h>
#include <stdio.h>

#define SPT_CAUSE_TIME_CURVES 4

/* When causes with a life strike, and when the bearing failed. */
struct spt_cause_time_chart {
    char id[32]; /* unique on its page */
    int count;   /* at least 1 */
    const char *names[SPT_CAUSE_TIME_CURVES];
    double life_h[SPT_CAUSE_TIME_CURVES]; /* L10 with the cause at work */
    double doubt;                         /* standard deviation of ln of the lives */
    double hours;                         /* at removal */
};

/* Draws it for an HTML page; the subject is a struct spt_cause_time_chart. Result: false when
 * memory was exhausted. */
bool spt_cause_time_svg(FILE *out, const void *subject);

#endif
