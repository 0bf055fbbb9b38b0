/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_INTERNAL_H
#define MODEL_HUB_HUB_INTERNAL_H

#include "spalltime/hub.h"

#define SPT_HUB_PI 3.14159265358979323846
/* c_L = 35948 L_we^(8/9) N/mm^(10/9): steel roller between two raceways. Source: ISO 16281, from
 * memory; a published formula for the axial approach (Palmgren) is 3.4 % stiffer. */
#define SPT_HUB_STIFFNESS 35948.0
#define SPT_HUB_LAMINAE_BLOCK 16 /* tables of laminae are padded to a multiple of this */
#define SPT_HUB_PLACES 4 /* positions of the cages that a model has room for; see hub_place.h */

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
static inline struct spt_hub_roller spt_hub_roller(const struct spt_hub_pose *pose, double cosine,
                                                   double sine)
{
    return (struct spt_hub_roller){
        .approach_mm = pose->radial_x_mm * cosine + pose->radial_y_mm * sine + pose->constant_mm,
        .tilt_rad = pose->tilt_y_rad * cosine - pose->tilt_x_rad * sine,
    };
}

/* Load of a roller in N. */
double spt_hub_roller_load(const struct spt_hub_model *model, int row,
                           const struct spt_hub_roller *roller);

#endif
