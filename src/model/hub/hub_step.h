/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_STEP_H
#define MODEL_HUB_HUB_STEP_H

#include "spalltime/hub.h"

enum { N = SPT_HUB_UNKNOWNS };

double spt_hub_norm(const double v[N]);

/* The step p that makes g.p + p.H p/2 least with |p| <= 1.1 `longest`, nearly; H symmetric and
 * positive semidefinite. Cholesky with damping; along -g where H is nothing. */
void spt_hub_step(double h[N][N], const double gradient[N], double longest, double step[N]);

/* True where the smallest eigenvalue of H is above 1e-9 of its trace. */
bool spt_hub_is_definite(double h[N][N]);

#endif
