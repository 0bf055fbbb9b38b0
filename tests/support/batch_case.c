/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/batch_case.h"

#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

#define TOLERANCE 1e-12

void batch_case_set(struct batch_case *c, enum spt_batch_variable variable, double value)
{
    for (int i = 0; i < BATCH_CASE_POINTS; i++)
        c->in[variable][i] = value;
    c->batch.columns[variable] = (struct spt_batch_column){c->in[variable], 1};
}

void batch_case_drop(struct batch_case *c, enum spt_batch_variable variable)
{
    c->batch.columns[variable] = (struct spt_batch_column){NULL, 0};
}

void batch_case_make(struct batch_case *c, enum spt_bearing_type type)
{
    struct spt_walther line;
    spt_viscosity_line(40.0, 220.0, 100.0, 19.0, &line);
    c->batch = (struct spt_batch){.type = type,
                                  .pitch_diameter_mm = 110.0,
                                  .density_factor = 1.0,
                                  .reliability_factor = 0.64};
    batch_case_set(c, SPT_BATCH_DYNAMIC_LOAD_RATING_N, 250e3);
    batch_case_set(c, SPT_BATCH_FATIGUE_LOAD_LIMIT_N, 31e3);
    batch_case_set(c, SPT_BATCH_SPEED_RPM, 420.0);
    batch_case_set(c, SPT_BATCH_EQUIVALENT_LOAD_N, 21e3);
    batch_case_set(c, SPT_BATCH_TEMPERATURE_C, 63.7);
    batch_case_set(c, SPT_BATCH_LINE_A, line.a);
    batch_case_set(c, SPT_BATCH_LINE_B, line.b);
    batch_case_set(c, SPT_BATCH_CONDITION, SPT_CLEANLINESS_GREASE_NORMAL);
    batch_case_set(c, SPT_BATCH_WATER_PPM, 237.0);
}

struct spt_batch_results batch_case_results(struct batch_case *c)
{
    return (struct spt_batch_results){.viscosity_ratio = c->out[0],
                                      .contamination_factor = c->out[1],
                                      .life_modification_factor = c->out[2],
                                      .water_factor = c->out[3],
                                      .basic_rating_life_h = c->out[4],
                                      .modified_rating_life_h = c->out[5],
                                      .status = c->status};
}

struct scalar_point batch_case_point(const struct batch_case *c, size_t i)
{
    return (struct scalar_point){c->out[0][i], c->out[1][i], c->out[2][i], c->out[3][i],
                                 c->out[4][i], c->out[5][i], c->status[i]};
}

static bool is_same(double got, double want)
{
    return (isnan(got) && isnan(want)) || near(got, want, TOLERANCE, 0.0);
}

static bool is_at_a_step(const struct scalar_point *point)
{
    static const double steps[] = {0.1, 0.4, 1.0, 4.0};
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if (near(point->viscosity_ratio, steps[i], TOLERANCE, 0.0))
            return true;
    return near(point->contamination_factor, 0.2, TOLERANCE, 0.0) ||
           near(point->life_modification_factor, 50.0, TOLERANCE, 0.0) ||
           near(point->life_modification_factor, 3.0, TOLERANCE, 0.0);
}

bool points_agree(const struct scalar_point *got, const struct scalar_point *want)
{
    bool state = is_same(got->viscosity_ratio, want->viscosity_ratio) &&
                 is_same(got->contamination_factor, want->contamination_factor) &&
                 is_same(got->water_factor, want->water_factor) &&
                 is_same(got->basic_rating_life_h, want->basic_rating_life_h);
    bool life = is_same(got->life_modification_factor, want->life_modification_factor) &&
                is_same(got->modified_rating_life_h, want->modified_rating_life_h);
    if (life && state && got->status == want->status)
        return true;
    if (!state || !is_at_a_step(want))
        return false;
    /* other side of a step: up to 0.02 % at kappa 0.4 (balls), or a cap just reached or just not */
    return isnan(got->life_modification_factor) || isnan(want->life_modification_factor) ||
           near(got->life_modification_factor, want->life_modification_factor, 5e-3, 0.0);
}
