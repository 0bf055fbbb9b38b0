/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_STEP_H
#define MODEL_HUB_HUB_STEP_H

#include "spalltime/hub.h"

enum { N = SPT_HUB_UNKNOWNS };

/* Gradient and Hessian of the energy by the `count` unknowns that are free. */
struct spt_hub_system {
    int count;
    double gradient[N];
    double hessian[N][N]; /* symmetric and positive semidefinite */
};

double spt_hub_norm(const double *v, int count);

/* Trust-region step: p that (nearly) minimises g.p + p.H p/2 with |p| <= 1.1 `longest`. Damped
 * Cholesky; along -g where H vanishes. */
void spt_hub_step(const struct spt_hub_system *system, double longest, double step[N]);

/* Solves H v = right; false where H is not definite. */
bool spt_hub_divide(const struct spt_hub_system *system, const double right[N], double v[N]);

/* True where the smallest eigenvalue of H is above 1e-9 of its trace. */
bool spt_hub_is_definite(const struct spt_hub_system *system);

#endif
