/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/batch/lanes.h"
#include "model/hub/hub_internal.h"

#include <math.h>
#include <string.h>

/* Deliberately uses three-dimensional vectors instead of the projected sums of hub_energy.c,
 * because this file checks the result of the solver. Only the ninth root is shared. */
struct frame {
    double normal[3]; /* normal of the raceway, pointing from the inner ring to the roller */
    double along[3];  /* roller axis */
    double centre[3];
};

static struct frame find_frame(const struct spt_hub_model *model, int row, int roller)
{
    const struct spt_hub_table *t = &model->tables[row];
    double c = t->cosine[roller], s = t->sine[roller], a = t->cos_angle, b = t->sign * t->sin_angle;
    return (struct frame){
        .normal = {a * c, a * s, b},
        .along = {-b * c, -b * s, a},
        .centre = {t->radius_mm * c, t->radius_mm * s, model->hub.rows[row].position_mm},
    };
}

static void cross(const double a[3], const double b[3], double product[3])
{
    product[0] = a[1] * b[2] - a[2] * b[1];
    product[1] = a[2] * b[0] - a[0] * b[2];
    product[2] = a[0] * b[1] - a[1] * b[0];
}

static double dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/* How far a point of the inner body moves along the normal: (u + tilt x r).n. The ring's own
 * misalignment turns about the ring's centre. */
static double find_approach(const struct spt_hub_model *model, int row, const struct frame *f,
                            const double point[3], const struct spt_hub_position *p)
{
    const struct spt_hub_row *r = &model->hub.rows[row];
    double move[3] = {p->x_mm, p->y_mm, p->z_mm};
    double tilt[3] = {p->tilt_x_rad, p->tilt_y_rad, 0};
    double own[3] = {r->misalignment_x_rad, r->misalignment_y_rad, 0};
    double from_centre[3] = {point[0], point[1], point[2] - r->position_mm};
    double turned[3], turned_own[3];
    cross(tilt, point, turned);
    cross(own, from_centre, turned_own);
    return dot(move, f->normal) + dot(turned, f->normal) + dot(turned_own, f->normal);
}

static void add_lamina(const struct frame *f, const double point[3], double load,
                       struct spt_hub_reaction *sum, double row_force[3])
{
    double force[3], moment[3];
    for (int i = 0; i < 3; i++)
        force[i] = -load * f->normal[i];
    cross(point, force, moment);
    for (int i = 0; i < 3; i++) {
        sum->force_n[i] += force[i];
        row_force[i] += force[i];
        sum->moment_nmm[i] += moment[i];
    }
}

static void move_along(const struct frame *f, double distance, double point[3])
{
    for (int i = 0; i < 3; i++)
        point[i] = f->centre[i] + distance * f->along[i];
}

/* Lamina loads from the approach at the centre and its slope: the roller stays straight. */
static void find_loads(const struct spt_hub_table *t, double approach, double slope,
                       double loads[SPT_HUB_LAMINAE_MAX + SPT_HUB_LAMINAE_BLOCK])
{
    for (int k = 0; k < t->laminae; k += SPT_LANES) {
        spt_lanes d = approach + slope * lanes_load(t->x_mm + k) - lanes_load(t->profile_mm + k);
        d = lanes_where_above(d, SPT_ROOT_MIN, d);
        lanes_store(loads + k, t->lamina_stiffness * d * lanes_ninth_root(d));
    }
}

static double add_roller(const struct spt_hub_model *model, int row, int roller, double gap,
                         const struct spt_hub_position *position, struct spt_hub_reaction *sum)
{
    const struct spt_hub_table *t = &model->tables[row];
    struct frame f = find_frame(model, row, roller);
    double point[3], loads[SPT_HUB_LAMINAE_MAX + SPT_HUB_LAMINAE_BLOCK], total = 0;
    move_along(&f, 1.0, point);
    double approach = find_approach(model, row, &f, f.centre, position) - gap;
    double slope = find_approach(model, row, &f, point, position) - gap - approach;
    double end = 0.5 * model->hub.rows[row].geometry.element_length_mm;
    if (approach + fabs(slope) * end <= 0)
        return 0;
    find_loads(t, approach, slope, loads);
    for (int k = 0; k < model->hub.laminae; k++) {
        /* find_loads writes whole lanes, at least as many values as laminae */
        if (loads[k] == 0) /* NOLINT(clang-analyzer-core.UndefinedBinaryOperatorResult) */
            continue;
        move_along(&f, t->x_mm[k], point);
        add_lamina(&f, point, loads[k], sum, sum->row_force_n[row]);
        total += loads[k];
    }
    return total;
}

void spt_hub_reaction(const struct spt_hub_model *model, double setting_mm,
                      const struct spt_hub_position *position, struct spt_hub_reaction *reaction)
{
    memset(reaction, 0, sizeof *reaction);
    for (int row = 0; row < model->hub.row_count; row++) {
        const struct spt_hub_table *t = &model->tables[row];
        double gap = setting_mm / model->hub.row_count * t->sin_angle;
        for (int j = 0; j < model->hub.rows[row].geometry.elements; j++) {
            t->roller_load_n[j] = add_roller(model, row, j, gap, position, reaction);
            reaction->contact_n += t->roller_load_n[j];
        }
    }
}
