/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_LOSS_H
#define SPT_LOSS_H

#include "spalltime/assess.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Splits the loss of one bearing's life among its causes.
 * In:     the case, the bearing's index, room for its phase_count phase results (scratch).
 * Result: causes that apply (curing them changes the life with some set of the others cured), each
 *         with its exact Shapley value on ln(life), so that the shares sum to ln(actual/reference)
 *         and do not depend on an order; and the life if only this cause were cured.
 *         Where the actual life has no value (film too thin, grease exhausted) the shares are NaN
 *         and the lives if cured still stand.
 * Status: as spt_assess.
 * Source: L. S. Shapley, A value for n-person games (1953). */
enum spt_status spt_loss_split(const struct spt_case *question, int bearing_index,
                               struct spt_phase_result *scratch, struct spt_loss *loss);

#ifdef __cplusplus
}
#endif

#endif
