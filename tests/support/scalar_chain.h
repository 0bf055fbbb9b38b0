/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_SCALAR_CHAIN_H
#define TESTS_SCALAR_CHAIN_H

#include "spalltime/sweep.h"

/* Results of one point by the scalar functions of the library, with which the batch kernel is
 * compared. Members as struct spt_batch_results. */
struct scalar_point {
    double viscosity_ratio;
    double contamination_factor;
    double life_modification_factor;
    double water_factor;
    double basic_rating_life_h;
    double modified_rating_life_h;
    unsigned char status;
};

/* Point i of the batch. */
struct scalar_point scalar_chain(const struct spt_batch *batch, size_t i);

#endif
