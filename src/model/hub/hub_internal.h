/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_INTERNAL_H
#define MODEL_HUB_HUB_INTERNAL_H

#include "spalltime/hub.h"

#define SPT_HUB_PI 3.14159265358979323846
/* c_L = 35948 L_we^(8/9) N/mm^(10/9): steel roller between two raceways. Source: ISO 16281, from
 * memory; a published formula for the axial approach (Palmgren) is 3.4 % stiffer. */
#define SPT_HUB_STIFFNESS 35948.0

/* Position of a roller: the deflection of lamina k is approach + tilt x_k - 2 P(x_k). */
struct spt_hub_roller {
    double approach_mm;
    double tilt_rad;
};

/* A displaced row: coefficients that give the approach of each roller. */
struct spt_hub_pose {
    double radial_x_mm; /* coefficients of cos phi and sin phi in the approach */
    double radial_y_mm;
    double constant_mm;
    double tilt_x_rad; /* of inner against outer ring, misalignment included */
    double tilt_y_rad;
};
struct spt_hub_pose spt_hub_pose(const struct spt_hub_model *model, int row, double setting_mm,
                                 const struct spt_hub_position *position);

/* The roller at an angle given by its cosine and sine. */
struct spt_hub_roller spt_hub_roller(const struct spt_hub_pose *pose, double cosine, double sine);

/* Sums over the laminae of one roller; without the factor c_s. */
struct spt_hub_sums {
    double load;        /* sum d^(10/9) */
    double load_x;      /* the same times x */
    double energy;      /* sum d^(19/9) */
    double stiffness;   /* sum d^(1/9) over the loaded laminae */
    double stiffness_x; /* the same times x, and x^2 */
    double stiffness_xx;
};
void spt_hub_sum_laminae(const struct spt_hub_table *table, const struct spt_hub_roller *roller,
                         struct spt_hub_sums *sums);

/* Load of a roller in N. */
double spt_hub_roller_load(const struct spt_hub_table *table, const struct spt_hub_roller *roller);

#endif
