/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_GREASING_H
#define STUDY_LIFE_GREASING_H

#include "spalltime/assess.h"

/* Levels of dust and moisture that the condition of a grease implies, see
 * spt_surroundings_dust_implied; where nothing is known of the water: humid. */
int spt_condition_dust_implied(const struct spt_condition *state);
int spt_condition_moisture_implied(const struct spt_condition *state);

/* True where water that is stated falls out at the coldest standstill, by more than the saturation
 * is good to; `*free_ppm` is all that does. */
bool spt_condition_is_wet_cold(const struct spt_case *question, const struct spt_condition *state,
                               double *free_ppm);

/* The surroundings that count in a phase, see struct spt_phase_result; with a set of causes cured.
 */
struct spt_surroundings spt_phase_surroundings(const struct spt_case *question, int bearing_index,
                                               const struct spt_phase *phase, unsigned cured);

/* The relubrication interval of one phase that turns. The one place that says what it depends on.
 * In:     `temperature_c` of the bearing (10 K are added where it is an estimate), `load_n` P.
 * Status: as spt_grease_interval. */
enum spt_status spt_phase_grease_interval(const struct spt_bearing *bearing,
                                          const struct spt_phase *phase, double temperature_c,
                                          double load_n, const struct spt_surroundings *around,
                                          struct spt_grease_interval *interval);

/* 1/t = sum q_i/t_i over the phases that turn; NaN where one of them has no interval, or none
 * turns. */
double spt_duty_grease_interval(const struct spt_phase_result *phases, int count);

#endif
