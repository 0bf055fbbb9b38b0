/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_DAMAGE_H
#define SPT_DAMAGE_H

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SPT_SHARE_TOLERANCE 1e-6 /* time shares sum to 1 within this; ours */

/* Palmgren-Miner: life of a duty cycle in hours, 1/L = sum q_i/L_i.
 * In:     n shares of time (>= 0, sum 1 within 1e-6) and lives in hours (> 0; INFINITY for a phase
 *         that does no damage).
 * Status: SPT_NOT_APPLICABLE, NaN, where a phase with a share > 0 has no life (NaN).
 * Source: Palmgren 1924, Miner 1945; the usual reading of ISO 281 for variable duty. */
enum spt_status spt_damage_life(const double *shares, const double *lives_h, int n, double *life_h);

/* Share of the damage that each phase does: (q_i/L_i) L. `damage` has n members, sum 1.
 * Status: as above; also SPT_NOT_APPLICABLE, all NaN, where no phase does damage. */
enum spt_status spt_damage_shares(const double *shares, const double *lives_h, int n,
                                  double *damage);

/* Mean speed and mean equivalent load of a duty cycle.
 * n_m = sum q_i n_i;  P_m = (sum q_i n_i P_i^p / n_m)^(1/p); 0 where nothing turns.
 * In:     n shares of time as above, speeds in r/min and loads in N (>= 0), exponent p (> 0).
 * Status: SPT_BAD_ARGUMENT.
 * Source: cubic-mean rule of the textbooks, with exponent p of the bearing. */
enum spt_status spt_damage_mean(const double *shares, const double *speeds_rpm,
                                const double *loads_n, int n, double exponent,
                                double *mean_speed_rpm, double *mean_load_n);

#ifdef __cplusplus
}
#endif

#endif
