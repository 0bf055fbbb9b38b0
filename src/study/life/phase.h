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

#endif
