/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_ADJUST_H
#define SPT_ADJUST_H

#include "spalltime/assess.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A change laid on every phase of a case: what a lever of `reach` or a moment of `timeline` does to
 * it. Limits leave a phase alone that is inside them already. */
struct spt_adjustment {
    double least_water_ppm, most_water_ppm; /* 0 and INFINITY: no limit */
    int cleanest, dirtiest;                 /* enum spt_cleanliness; -1: no limit */
    double least_age_h, most_age_h;         /* of the grease; 0 and INFINITY: no limit */
    double load_factor;                     /* on every load; 1: none */
    double temperature_rise_k;              /* 0: none; also on the ambient of an estimate */
};

/* The adjustment that changes nothing. */
struct spt_adjustment spt_adjustment_none(void);

/* Writes the adjusted copies of a case's phases to `phases` (room for all bearings, one after the
 * other) and points the copy `adjusted` of the case at them. A phase with a given e_C keeps it.
 * Temperatures go where the adjustment takes them; see spt_case_within_temperatures. */
void spt_adjust_case(const struct spt_case *question, const struct spt_adjustment *adjustment,
                     struct spt_phase *phases, struct spt_case *adjusted);

/* True where every temperature is inside -60 to 300 degC and every ambient of an estimate inside
 * -60 to 150 degC, the range of the scenario format and the models; outside it no life is stated.
 */
bool spt_case_within_temperatures(const struct spt_case *question);

/* Number of phases of all bearings together: the room that the functions above and below need. */
int spt_case_phase_count(const struct spt_case *question);

/* Modified rating life in hours of the whole case (system of its bearings); NaN where it has none.
 * `results` has room for the phases of one bearing. */
enum spt_status spt_case_life(const struct spt_case *question, struct spt_phase_result *results,
                              double *life_h);

#ifdef __cplusplus
}
#endif

#endif
