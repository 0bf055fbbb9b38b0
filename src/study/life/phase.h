/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_PHASE_H
#define STUDY_LIFE_PHASE_H

#include "spalltime/assess.h"

/* State of the assessment of one phase. */
struct spt_phase_work {
    const struct spt_case *question;
    const struct spt_bearing *bearing;
    int bearing_index;
    const struct spt_phase *phase;
    unsigned cured;
    struct spt_phase_result *out;
};

/* First pass over a phase: loads, temperature, viscosity, interval; needs no other phase. */
enum spt_status spt_phase_start(struct spt_phase_work *w);

/* Second pass: what needs the grease interval of the whole duty. */
enum spt_status spt_phase_finish(struct spt_phase_work *w, double duty_interval_h, double a1);

/* The load zone at the clearance at work, where a seat states its class, and its factor on the
 * life. An axial load takes the clearance up: the loss fades to nothing at Fa/Fr = e, where the
 * factors of the standard count both. Our choice; a stated P counts as the radial load. */
enum spt_status spt_phase_zone(struct spt_phase_work *w);

#endif
