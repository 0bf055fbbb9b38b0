/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_internal.h"

#include <math.h>
#include <string.h>

/* Derivatives of a roller's approach (all five unknowns) and tilt (the last two). */
struct slopes {
    double approach[SPT_HUB_UNKNOWNS];
    double tilt[SPT_HUB_UNKNOWNS];
};

static struct slopes find_slopes(const struct spt_hub_model *model, const struct spt_hub_table *t,
                                 int roller)
{
    double c = t->cosine[roller], s = t->sine[roller];
    double tilt_x = -s / model->length_mm, tilt_y = c / model->length_mm;
    return (struct slopes){
        .approach = {t->cos_angle * c, t->cos_angle * s, t->sign * t->sin_angle, t->arm_mm * tilt_x,
                     t->arm_mm * tilt_y},
        .tilt = {0, 0, 0, tilt_x, tilt_y},
    };
}

/* Adds one roller; of the Hessian only the upper triangle. */
static void add_roller(const struct slopes *v, const struct spt_hub_sums *sums, double stiffness,
                       struct spt_hub_energy *energy)
{
    double load = stiffness * sums->load, load_x = stiffness * sums->load_x;
    double k = 10.0 / 9.0 * stiffness * sums->stiffness;
    double k_x = 10.0 / 9.0 * stiffness * sums->stiffness_x;
    double k_xx = 10.0 / 9.0 * stiffness * sums->stiffness_xx;
    energy->energy_nmm += 9.0 / 19.0 * stiffness * sums->energy;
    energy->contact_n += load;
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++) {
        energy->gradient_n[i] += load * v->approach[i] + load_x * v->tilt[i];
        double by_approach = k * v->approach[i] + k_x * v->tilt[i];
        double by_tilt = k_x * v->approach[i] + k_xx * v->tilt[i];
        for (int j = i; j < SPT_HUB_UNKNOWNS; j++)
            energy->hessian_n_mm[i][j] += by_approach * v->approach[j] + by_tilt * v->tilt[j];
    }
}

static void add_load(const struct spt_hub_model *model, const struct spt_hub_load *load,
                     const struct spt_hub_position *p, struct spt_hub_energy *energy)
{
    /* a load on the outer body is the opposite load on the inner one */
    double sign = model->hub.turning == SPT_HUB_OUTER_TURNS ? -1.0 : 1.0;
    double force[SPT_HUB_UNKNOWNS] = {load->force_x_n, load->force_y_n, load->force_z_n,
                                      load->moment_x_nmm / model->length_mm,
                                      load->moment_y_nmm / model->length_mm};
    double travel[SPT_HUB_UNKNOWNS] = {p->x_mm, p->y_mm, p->z_mm, p->tilt_x_rad * model->length_mm,
                                       p->tilt_y_rad * model->length_mm};
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++) {
        energy->energy_nmm -= sign * force[i] * travel[i];
        energy->gradient_n[i] -= sign * force[i];
    }
}

void spt_hub_energy(const struct spt_hub_model *model, double setting_mm,
                    const struct spt_hub_load *load, const struct spt_hub_position *position,
                    struct spt_hub_energy *energy)
{
    memset(energy, 0, sizeof *energy);
    for (int row = 0; row < model->hub.row_count; row++) {
        const struct spt_hub_table *t = &model->tables[row];
        const struct spt_geometry *g = &model->hub.rows[row].geometry;
        struct spt_hub_pose pose = spt_hub_pose(model, row, setting_mm, position);
        double reach = 0.5 * g->element_length_mm;
        for (int j = 0; j < g->elements; j++) {
            struct spt_hub_roller roller = spt_hub_roller(&pose, t->cosine[j], t->sine[j]);
            if (roller.approach_mm + fabs(roller.tilt_rad) * reach <= 0)
                continue;
            struct spt_hub_sums sums;
            spt_hub_sum_laminae(t, &roller, &sums);
            struct slopes v = find_slopes(model, t, j);
            add_roller(&v, &sums, t->lamina_stiffness, energy);
        }
    }
    add_load(model, load, position, energy);
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++)
        for (int j = 0; j < i; j++)
            energy->hessian_n_mm[i][j] = energy->hessian_n_mm[j][i];
}
