/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "model/hub/hub_balance.h"

/* A roller at phi approaches by A (x cos + y sin) + B z + arm (tilt_y cos - tilt_x sin) and tilts
 * by (tilt_y cos - tilt_x sin): sums of cos, sin and their products over the rollers are enough. */
struct row {
    double a, b, arm; /* arm over L0, as the unknowns are L0 tilt */
    double l0;
    double stiffness;
};

static struct row find_row(const struct spt_hub_model *model, int row)
{
    const struct spt_hub_table *t = &model->tables[row];
    return (struct row){t->cos_angle, t->sign * t->sin_angle, t->arm_mm / model->length_mm,
                        model->length_mm, t->lamina_stiffness};
}

static void add_gradient(const struct row *r, const double *sum, double *gradient)
{
    double c = r->stiffness;
    gradient[0] += c * r->a * sum[SPT_HUB_LOAD_C];
    gradient[1] += c * r->a * sum[SPT_HUB_LOAD_S];
    gradient[2] += c * r->b * sum[SPT_HUB_LOAD];
    gradient[3] -= c * (r->arm * sum[SPT_HUB_LOAD_S] + sum[SPT_HUB_LOAD_X_S] / r->l0);
    gradient[4] += c * (r->arm * sum[SPT_HUB_LOAD_C] + sum[SPT_HUB_LOAD_X_C] / r->l0);
}

/* Second derivative by both tilts, which the sums of one product of cos and sin give. */
static double find_tilted(const struct row *r, double root, double root_x, double root_xx)
{
    return (r->arm * root + 2 * root_x / r->l0) * r->arm + root_xx / (r->l0 * r->l0);
}

/* Only the upper triangle. */
static void add_hessian(const struct row *r, const double *sum,
                        double h[SPT_HUB_UNKNOWNS][SPT_HUB_UNKNOWNS])
{
    double k = 10.0 / 9.0 * r->stiffness, a = k * r->a, b = k * r->b;
    double along_c = r->arm * sum[SPT_HUB_ROOT_C] + sum[SPT_HUB_ROOT_X_C] / r->l0;
    double along_s = r->arm * sum[SPT_HUB_ROOT_S] + sum[SPT_HUB_ROOT_X_S] / r->l0;
    double cc = r->arm * sum[SPT_HUB_ROOT_CC] + sum[SPT_HUB_ROOT_X_CC] / r->l0;
    double cs = r->arm * sum[SPT_HUB_ROOT_CS] + sum[SPT_HUB_ROOT_X_CS] / r->l0;
    double ss = r->arm * sum[SPT_HUB_ROOT_SS] + sum[SPT_HUB_ROOT_X_SS] / r->l0;
    h[0][0] += a * r->a * sum[SPT_HUB_ROOT_CC];
    h[0][1] += a * r->a * sum[SPT_HUB_ROOT_CS];
    h[0][2] += a * r->b * sum[SPT_HUB_ROOT_C];
    h[0][3] -= a * cs;
    h[0][4] += a * cc;
    h[1][1] += a * r->a * sum[SPT_HUB_ROOT_SS];
    h[1][2] += a * r->b * sum[SPT_HUB_ROOT_S];
    h[1][3] -= a * ss;
    h[1][4] += a * cs;
    h[2][2] += b * r->b * sum[SPT_HUB_ROOT];
    h[2][3] -= b * along_s;
    h[2][4] += b * along_c;
    h[3][3] +=
        k * find_tilted(r, sum[SPT_HUB_ROOT_SS], sum[SPT_HUB_ROOT_X_SS], sum[SPT_HUB_ROOT_XX_SS]);
    h[3][4] -=
        k * find_tilted(r, sum[SPT_HUB_ROOT_CS], sum[SPT_HUB_ROOT_X_CS], sum[SPT_HUB_ROOT_XX_CS]);
    h[4][4] +=
        k * find_tilted(r, sum[SPT_HUB_ROOT_CC], sum[SPT_HUB_ROOT_X_CC], sum[SPT_HUB_ROOT_XX_CC]);
}

static void add_load(const struct spt_hub_model *model, const struct spt_hub_load *load,
                     const double *x_mm, struct spt_hub_energy *energy)
{
    /* a load on the outer body is the opposite load on the inner one */
    double sign = model->hub.turning == SPT_HUB_OUTER_TURNS ? -1.0 : 1.0;
    double force[SPT_HUB_UNKNOWNS] = {load->force_x_n, load->force_y_n, load->force_z_n,
                                      load->moment_x_nmm / model->length_mm,
                                      load->moment_y_nmm / model->length_mm};
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++) {
        energy->energy_nmm -= sign * force[i] * x_mm[i];
        energy->gradient_n[i] -= sign * force[i];
    }
}

void spt_hub_gather(const struct spt_hub_model *model, const struct spt_hub_load *load,
                    const double *x_mm, double sums[2][SPT_HUB_SUM_COUNT],
                    struct spt_hub_energy *energy)
{
    memset(energy, 0, sizeof *energy);
    for (int i = 0; i < model->hub.row_count; i++) {
        const struct row row = find_row(model, i);
        energy->energy_nmm += 9.0 / 19.0 * row.stiffness * sums[i][SPT_HUB_ENERGY];
        energy->contact_n += row.stiffness * sums[i][SPT_HUB_LOAD];
        add_gradient(&row, sums[i], energy->gradient_n);
        add_hessian(&row, sums[i], energy->hessian_n_mm);
    }
    add_load(model, load, x_mm, energy);
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++)
        for (int j = 0; j < i; j++)
            energy->hessian_n_mm[i][j] = energy->hessian_n_mm[j][i];
}

void spt_hub_gather_slope(const struct spt_hub_model *model, double sums[2][SPT_HUB_SUM_COUNT],
                          double slope_n_mm[SPT_HUB_UNKNOWNS])
{
    memset(slope_n_mm, 0, SPT_HUB_UNKNOWNS * sizeof *slope_n_mm);
    for (int i = 0; i < model->hub.row_count; i++) {
        const struct row r = find_row(model, i);
        const double *sum = sums[i];
        /* the setting takes its share of the approach of every roller */
        double k = -10.0 / 9.0 * r.stiffness * model->tables[i].sin_angle / model->hub.row_count;
        slope_n_mm[0] += k * r.a * sum[SPT_HUB_ROOT_C];
        slope_n_mm[1] += k * r.a * sum[SPT_HUB_ROOT_S];
        slope_n_mm[2] += k * r.b * sum[SPT_HUB_ROOT];
        slope_n_mm[3] -= k * (r.arm * sum[SPT_HUB_ROOT_S] + sum[SPT_HUB_ROOT_X_S] / r.l0);
        slope_n_mm[4] += k * (r.arm * sum[SPT_HUB_ROOT_C] + sum[SPT_HUB_ROOT_X_C] / r.l0);
    }
}

void spt_hub_energy(const struct spt_hub_model *model, double setting_mm,
                    const struct spt_hub_load *load, const struct spt_hub_position *position,
                    struct spt_hub_energy *energy)
{
    double sums[2][SPT_HUB_SUM_COUNT], l0 = model->length_mm;
    const double x_mm[SPT_HUB_UNKNOWNS] = {position->x_mm, position->y_mm, position->z_mm,
                                           l0 * position->tilt_x_rad, l0 * position->tilt_y_rad};
    for (int row = 0; row < model->hub.row_count; row++) {
        struct spt_hub_pose pose = spt_hub_pose(model, row, setting_mm, position);
        struct spt_hub_rollers rollers = spt_hub_place_row(model, row, 0, false);
        double reach_mm = 0.5 * model->hub.rows[row].geometry.element_length_mm;
        model->kernel->sum(&model->tables[row], &pose, reach_mm, &rollers, sums[row]);
    }
    spt_hub_gather(model, load, x_mm, sums, energy);
}
