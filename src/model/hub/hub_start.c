/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "model/hub/hub_balance.h"
#include "model/hub/hub_step.h"

/* A guess, which only saves steps: the balance does not depend on where the search for it starts.
 * The load centres carry the load as in the handbook method, each row gives way as a row with half
 * its rollers loaded, or, where preload is greater, all of them. Ours. */

/* Q_max Z cos alpha/F_r with half the rollers loaded, as in the textbooks */
#define HALF_ZONE 4.1
/* F_a/(F_r tan alpha) of such a row: J_a/J_r of Sjoevall's integrals */
#define AXIAL 1.26

#define FARTHEST_MM 2.0 /* plus five times the setting: no guess beyond it */

/* A radial force or way of both rows. */
struct pair {
    double x[2], y[2];
};

/* True where the load centres take moments: two of them, apart. */
static bool takes_moments(const struct spt_hub_model *model, const double centre[2])
{
    return !model->hub.tilt_locked && model->hub.row_count == 2 && centre[1] != centre[0];
}

/* What presses each row, at its load centre. */
static struct pair share_load(const struct spt_hub_model *model, const struct spt_hub_load *load,
                              const double centre[2])
{
    int rows = model->hub.row_count;
    double sign = model->hub.turning == SPT_HUB_OUTER_TURNS ? -1 : 1;
    double fx = sign * load->force_x_n / rows, fy = sign * load->force_y_n / rows;
    struct pair force = {{fx, fx}, {fy, fy}};
    if (!takes_moments(model, centre))
        return force;
    double apart = centre[1] - centre[0];
    force.x[1] = sign * (load->moment_y_nmm - centre[0] * load->force_x_n) / apart;
    force.y[1] = -sign * (load->moment_x_nmm + centre[0] * load->force_y_n) / apart;
    force.x[0] = sign * load->force_x_n - force.x[1];
    force.y[0] = sign * load->force_y_n - force.y[1];
    return force;
}

/* Approach of the rollers of a row by the axial way alone. The way takes the gap from the row that
 * the thrust and the thrust of the other row squeeze; without play it is that of linear springs. */
static void find_axial(const struct spt_hub_model *model, double setting_mm,
                       const struct spt_hub_load *load, const struct pair *force, double *z_mm,
                       double approach_mm[2])
{
    int rows = model->hub.row_count;
    double sign = model->hub.turning == SPT_HUB_OUTER_TURNS ? -1 : 1;
    double thrust_n = sign * load->force_z_n, most_mm = fabs(setting_mm) / rows, spring = 0;
    for (int i = 0; i < rows; i++) {
        const struct spt_hub_table *t = &model->tables[i];
        double tangent = t->sin_angle / t->cos_angle, z = model->hub.rows[i].geometry.elements;
        double pressed_mm = fmax(0, -setting_mm / rows * t->sin_angle);
        thrust_n -= t->sign * AXIAL * tangent * hypot(force->x[i], force->y[i]);
        spring += z * t->sin_angle * t->sin_angle * 10.0 / 9.0 * t->laminae * t->lamina_stiffness *
                  pow(pressed_mm, 1.0 / 9.0);
    }
    *z_mm = copysign(most_mm, thrust_n);
    if (spring > 0)
        *z_mm = fmin(fmax(sign * load->force_z_n / spring, -most_mm), most_mm);
    for (int i = 0; i < rows; i++) {
        const struct spt_hub_table *t = &model->tables[i];
        approach_mm[i] = (t->sign * *z_mm - setting_mm / rows) * t->sin_angle;
    }
}

/* Radial way of a row under a radial force. */
static double find_radial(const struct spt_hub_model *model, int row, double force_n,
                          double approach_mm)
{
    const struct spt_hub_table *t = &model->tables[row];
    double z = model->hub.rows[row].geometry.elements;
    double stiffness = t->laminae * t->lamina_stiffness;
    double half_mm = pow(HALF_ZONE * force_n / (z * t->cos_angle * stiffness), 0.9);
    if (approach_mm <= 0)
        return (half_mm - approach_mm) / t->cos_angle;
    double spring = z / 2 * t->cos_angle * 10.0 / 9.0 * stiffness * pow(approach_mm, 1.0 / 9.0);
    return fmin(force_n / spring, fmax(half_mm - 0.5 * approach_mm, approach_mm)) / t->cos_angle;
}

void spt_hub_guess(const struct spt_hub_model *model, double setting_mm,
                   const struct spt_hub_load *load, double x_mm[SPT_HUB_UNKNOWNS])
{
    int rows = model->hub.row_count;
    double centre[2] = {0, 1}, approach_mm[2], z_mm;
    struct pair way = {{0, 0}, {0, 0}};
    memset(x_mm, 0, SPT_HUB_UNKNOWNS * sizeof *x_mm);
    for (int i = 0; i < rows; i++)
        centre[i] = model->tables[i].arm_mm / model->tables[i].cos_angle;
    const struct pair force = share_load(model, load, centre);
    find_axial(model, setting_mm, load, &force, &z_mm, approach_mm);
    for (int i = 0; i < rows; i++) {
        const struct spt_hub_table *t = &model->tables[i];
        const struct spt_hub_row *r = &model->hub.rows[i];
        double size_n = hypot(force.x[i], force.y[i]);
        double scale = size_n > 0 ? find_radial(model, i, size_n, approach_mm[i]) / size_n : 0;
        /* the tilt of the ring itself moves its load centre too */
        double own_arm = -t->sign * t->radius_mm * t->sin_angle / t->cos_angle;
        way.x[i] = scale * force.x[i] - r->misalignment_y_rad * own_arm;
        way.y[i] = scale * force.y[i] + r->misalignment_x_rad * own_arm;
    }
    x_mm[0] = (way.x[0] + way.x[rows - 1]) / 2;
    x_mm[1] = (way.y[0] + way.y[rows - 1]) / 2;
    x_mm[2] = z_mm;
    if (takes_moments(model, centre)) {
        double apart = centre[1] - centre[0];
        double tilt_y = (way.x[1] - way.x[0]) / apart, tilt_x = (way.y[0] - way.y[1]) / apart;
        x_mm[0] = way.x[0] - tilt_y * centre[0];
        x_mm[1] = way.y[0] + tilt_x * centre[0];
        x_mm[3] = tilt_x * model->length_mm;
        x_mm[4] = tilt_y * model->length_mm;
    }
    /* load centres next to each other: the middle is a better start */
    if (!(spt_hub_norm(x_mm, SPT_HUB_UNKNOWNS) <= FARTHEST_MM + 5 * fabs(setting_mm)))
        memset(x_mm, 0, SPT_HUB_UNKNOWNS * sizeof *x_mm);
}
