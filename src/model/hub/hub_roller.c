/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_kernel.h"

struct spt_hub_pose spt_hub_pose(const struct spt_hub_model *model, int row, double setting_mm,
                                 const struct spt_hub_position *p)
{
    const struct spt_hub_table *t = &model->tables[row];
    const struct spt_hub_row *r = &model->hub.rows[row];
    double own_arm = -t->sign * t->radius_mm * t->sin_angle;
    double mx = r->misalignment_x_rad, my = r->misalignment_y_rad;
    /* both rows share the setting equally; a single row has all of it */
    double gap = setting_mm * t->sin_angle / model->hub.row_count;
    return (struct spt_hub_pose){
        .radial_x_mm = t->cos_angle * p->x_mm + p->tilt_y_rad * t->arm_mm + my * own_arm,
        .radial_y_mm = t->cos_angle * p->y_mm - p->tilt_x_rad * t->arm_mm - mx * own_arm,
        .constant_mm = t->sign * t->sin_angle * p->z_mm - gap,
        .tilt_x_rad = p->tilt_x_rad + mx,
        .tilt_y_rad = p->tilt_y_rad + my,
    };
}

double spt_hub_roller_load(const struct spt_hub_model *model, int row,
                           const struct spt_hub_roller *roller)
{
    const struct spt_hub_table *t = &model->tables[row];
    const struct spt_hub_pose pose = {.constant_mm = roller->approach_mm,
                                      .tilt_y_rad = roller->tilt_rad};
    const double cosine = 1, sine = 0;
    const struct spt_hub_rollers one = {&cosine, &sine, 1, 1, 1};
    double sums[SPT_HUB_SUM_COUNT];
    model->kernel->sum(t, &pose, 0.5 * model->hub.rows[row].geometry.element_length_mm, &one, sums);
    return t->lamina_stiffness * sums[SPT_HUB_LOAD];
}
