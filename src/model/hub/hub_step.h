/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_STEP_H
#define MODEL_HUB_HUB_STEP_H

#include "spalltime/hub.h"

enum { N = SPT_HUB_UNKNOWNS };

double spt_hub_norm(const double v[N]);

/* Trust-region step: p that (nearly) minimises g.p + p.H p/2 with |p| <= 1.1 `longest`; H symmetric
 * and positive semidefinite. Damped Cholesky; along -g where H vanishes. */
void spt_hub_step(double h[N][N], const double gradient[N], double longest, double step[N]);

/* True where the smallest eigenvalue of H is above 1e-9 of its trace. */
bool spt_hub_is_definite(double h[N][N]);

#endif
