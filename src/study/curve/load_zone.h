/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_CURVE_LOAD_ZONE_H
#define STUDY_CURVE_LOAD_ZONE_H

#include "spalltime/setting.h"

#define SPT_LOAD_ZONES_MAX 3 /* phases, those with the most damage */

/* Loads of the rollers of one row, in one phase. */
struct spt_load_zone_row {
    int roller_count;
    double *angle_rad; /* of each, 0 across, pi/2 up, -pi/2 to the ground; caller's memory */
    double *load_n;    /* as above */
    struct spt_hub_contact contact;
};

struct spt_load_zone {
    int phase;    /* index; the assessment has its name */
    bool carries; /* false: nothing is loaded */
    struct spt_load_zone_row rows[2];
};

struct spt_load_zones {
    int count;
    int phase_count;                                /* of the duty */
    double setting_mm;                              /* running */
    double highest_n;                               /* the largest roller load of them all */
    struct spt_load_zone zones[SPT_LOAD_ZONES_MAX]; /* in the order of the duty */
};

/* Number of doubles for the angles and loads of a hub. */
size_t spt_load_zones_length(const struct spt_hub_case *hub);

/* Loads of the rollers at the setting of a bench, one roller of each row on the line of the wheel
 * load, in the phases that do most damage to either row; without damage the first ones.
 * In:     a case's bench and assessment; a buffer of spt_load_zones_length doubles.
 * Status: of spt_hub_solve, but SPT_OK where nothing is loaded. */
enum spt_status spt_load_zones(const struct spt_hub_bench *bench,
                               const struct spt_assessment *assessment, double *buffer,
                               struct spt_load_zones *zones);

#endif
