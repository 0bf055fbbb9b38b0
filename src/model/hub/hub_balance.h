/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_BALANCE_H
#define MODEL_HUB_HUB_BALANCE_H

#include "model/hub/hub_place.h"

/* A load distribution to find. */
struct spt_hub_problem {
    const struct spt_hub_model *model;
    int place; /* the rollers, see hub_place.h */
    double setting_mm;
    const struct spt_hub_load *load;
    /* where to start: x, y, z, L0 tilt_x, L0 tilt_y in mm; NULL: from statics */
    const double *start_mm;
    bool lives; /* the damage of both rows is wanted */
    /* of both rows: the law of their modified lives; NULL: not wanted */
    const struct spt_hub_lamina_law *laws;
};

struct spt_hub_balance {
    double x_mm[SPT_HUB_UNKNOWNS];
    double slope[SPT_HUB_UNKNOWNS]; /* of x_mm by the setting; limited where it has no limit */
    struct spt_hub_energy energy;   /* there */
    struct spt_hub_damage damage[2];
    double residual_n;
    double allowed_n;
    int steps;
    int passes; /* over the rollers */
};

/* Finds the balance as spt_hub_solve, whose status it has, without the independent check of forces;
 * arguments are not checked. Where place and load are symmetric (hub_place.h), x and tilt_y are
 * exactly 0, also where rollers leave them open. */
enum spt_status spt_hub_balance(const struct spt_hub_problem *problem,
                                struct spt_hub_balance *balance);

/* False for a setting or a load that is no number or beyond the range of the model. */
bool spt_hub_is_solvable(const struct spt_hub_model *model, double setting_mm,
                         const struct spt_hub_load *load);

/* The unknowns as a position. */
struct spt_hub_position spt_hub_position_of(const struct spt_hub_model *model, const double *x_mm);

/* Gradient and Hessian with respect to the free unknowns: without tilts where these are locked,
 * without x and tilt_y where `halved`. Fills which these are. */
struct spt_hub_system spt_hub_system_of(const struct spt_hub_model *model,
                                        const struct spt_hub_energy *energy, bool halved,
                                        int free[SPT_HUB_UNKNOWNS]);

/* Energy at x_mm from the sums over the rollers of each row (hub_energy.c); and the slope of its
 * gradient by the setting. */
void spt_hub_gather(const struct spt_hub_model *model, const struct spt_hub_load *load,
                    const double *x_mm, double sums[2][SPT_HUB_SUM_COUNT],
                    struct spt_hub_energy *energy);
void spt_hub_gather_slope(const struct spt_hub_model *model, double sums[2][SPT_HUB_SUM_COUNT],
                          double slope_n_mm[SPT_HUB_UNKNOWNS]);

/* A guess of the balance from statics (hub_start.c). */
void spt_hub_guess(const struct spt_hub_model *model, double setting_mm,
                   const struct spt_hub_load *load, double x_mm[SPT_HUB_UNKNOWNS]);

#endif
