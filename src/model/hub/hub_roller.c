/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/batch/lanes.h"
#include "model/hub/hub_internal.h"

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

struct spt_hub_roller spt_hub_roller(const struct spt_hub_pose *pose, double cosine, double sine)
{
    return (struct spt_hub_roller){
        .approach_mm = pose->radial_x_mm * cosine + pose->radial_y_mm * sine + pose->constant_mm,
        .tilt_rad = pose->tilt_y_rad * cosine - pose->tilt_x_rad * sine,
    };
}

void spt_hub_sum_laminae(const struct spt_hub_table *t, const struct spt_hub_roller *roller,
                         struct spt_hub_sums *sums)
{
    spt_lanes load = lanes_fill(0), load_x = load, energy = load;
    spt_lanes k = load, k_x = load, k_xx = load;
    for (int i = 0; i < t->padded; i += SPT_LANES) {
        spt_lanes x = lanes_load(t->x_mm + i);
        spt_lanes d = roller->approach_mm + roller->tilt_rad * x - lanes_load(t->profile_mm + i);
        spt_lanes root = lanes_ninth_root(lanes_larger(d, lanes_fill(SPT_ROOT_MIN)));
        root = lanes_where_above(d, 0.0, root);
        spt_lanes q = d * root, root_x = root * x;
        load += q;
        load_x += q * x;
        energy += q * d;
        k += root;
        k_x += root_x;
        k_xx += root_x * x;
    }
    *sums = (struct spt_hub_sums){lanes_sum(load), lanes_sum(load_x), lanes_sum(energy),
                                  lanes_sum(k),    lanes_sum(k_x),    lanes_sum(k_xx)};
}

double spt_hub_roller_load(const struct spt_hub_table *t, const struct spt_hub_roller *roller)
{
    struct spt_hub_sums sums;
    spt_hub_sum_laminae(t, roller, &sums);
    return t->lamina_stiffness * sums.load;
}
