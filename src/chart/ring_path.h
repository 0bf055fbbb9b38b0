/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_RING_PATH_H
#define CHART_RING_PATH_H

#include <stdbool.h>
#include <stdio.h>

/* The worn path on the ring to which the load stands still, seen along the axis. */
struct spt_ring_path {
    char id[32];         /* unique on its page */
    const char *ring;    /* "inner" */
    double expected_deg; /* length of the path as it should be */
    double measured_deg; /* as it was measured; NaN: not stated */
};

/* Draws it for an HTML page; the subject is a struct spt_ring_path. Result: false when memory was
 * exhausted. */
bool spt_ring_path_svg(FILE *out, const void *subject);

#endif
