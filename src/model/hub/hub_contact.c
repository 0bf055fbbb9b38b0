/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/hub/hub_internal.h"

#define HALVINGS 40

/* A row, for the load of a roller at any angle. */
struct view {
    const struct spt_hub_model *model;
    int row;
    struct spt_hub_pose pose;
    double limit_n; /* rollers above count as loaded */
};

static double find_load(const struct view *view, double phi)
{
    struct spt_hub_roller roller = spt_hub_roller(&view->pose, cos(phi), sin(phi));
    return spt_hub_roller_load(view->model, view->row, &roller);
}

/* The end of the load zone, as a fraction of the way from a loaded to an unloaded angle. */
static double find_edge(const struct view *view, double loaded, double unloaded)
{
    double in = 0, out = 1;
    for (int i = 0; i < HALVINGS; i++) {
        double middle = 0.5 * (in + out);
        bool still = find_load(view, loaded + middle * (unloaded - loaded)) > view->limit_n;
        *(still ? &in : &out) = middle;
    }
    return in;
}

static double find_zone(const struct view *view)
{
    const struct spt_hub_row *row = &view->model->hub.rows[view->row];
    int z = row->geometry.elements;
    const double *load = view->model->tables[view->row].roller_load_n;
    double pitch = 2 * SPT_HUB_PI / z, zone = 0;
    for (int j = 0; j < z; j++) {
        bool here = load[j] > view->limit_n, next = load[(j + 1) % z] > view->limit_n;
        double from = row->phase_rad + j * pitch, to = from + pitch;
        if (here && next)
            zone += 1;
        else if (here)
            zone += find_edge(view, from, to);
        else if (next)
            zone += find_edge(view, to, from);
    }
    return zone * pitch * 180.0 / SPT_HUB_PI;
}

/* Largest lamina deflection of a roller, 0 where it does not touch. */
static double find_deepest(const struct spt_hub_table *t, const struct spt_hub_roller *roller)
{
    double deepest = 0;
    for (int k = 0; k < t->laminae; k++)
        deepest =
            fmax(deepest, roller->approach_mm + roller->tilt_rad * t->x_mm[k] - t->profile_mm[k]);
    return deepest;
}

/* Hertz line contact, steel on steel, roller on the inner raceway: p = sqrt(w E'/(2 pi R)),
 * E' = E/(1 - nu^2), 1/R = 2/(D_we (1 - gamma)). */
static double find_pressure(const struct spt_geometry *g, int laminae, double lamina_load)
{
    double modulus = 207000.0 / (1 - 0.3 * 0.3);
    double gamma = g->element_diameter_mm * cos(g->contact_angle_rad) / g->pitch_diameter_mm;
    double curvature = 2 / (g->element_diameter_mm * (1 - gamma));
    double per_length = lamina_load * laminae / g->element_length_mm;
    return sqrt(per_length * modulus * curvature / (2 * SPT_HUB_PI));
}

void spt_hub_contact(const struct spt_hub_model *model, const struct spt_hub_solution *solution,
                     int row, struct spt_hub_contact *contact)
{
    const struct spt_hub_table *t = &model->tables[row];
    const struct spt_hub_row *r = &model->hub.rows[row];
    struct view view = {
        .model = model,
        .row = row,
        .pose = spt_hub_pose(model, row, solution->setting_mm, &solution->position),
    };
    double deepest = 0, highest = 0;
    for (int j = 0; j < r->geometry.elements; j++) {
        struct spt_hub_roller roller = spt_hub_roller(&view.pose, t->cosine[j], t->sine[j]);
        t->roller_load_n[j] = spt_hub_roller_load(model, row, &roller);
        highest = fmax(highest, t->roller_load_n[j]);
        deepest = fmax(deepest, find_deepest(t, &roller));
    }
    view.limit_n = SPT_HUB_ZONE_THRESHOLD * highest;
    int loaded = 0;
    for (int j = 0; j < r->geometry.elements; j++)
        loaded += t->roller_load_n[j] > view.limit_n;
    *contact = (struct spt_hub_contact){
        .zone_deg = find_zone(&view),
        .loaded_rollers = loaded,
        .max_roller_load_n = highest,
        .max_pressure_mpa = find_pressure(&r->geometry, model->hub.laminae,
                                          t->lamina_stiffness * pow(deepest, 10.0 / 9.0)),
        .tilt_rad = hypot(view.pose.tilt_x_rad, view.pose.tilt_y_rad),
    };
}
