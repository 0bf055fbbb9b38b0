/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/constants.h"
#include "model/hub/hub_lives.h"
#include "spalltime/life.h"
#include "spalltime/lubricant.h"

static const struct spt_aiso_family roller_family = SPT_AISO_ROLLER;

/* f_i = f_e of lamina k (0 to n_s - 1); the middle one of an odd n_s would need ln 0. */
static double find_edge_factor(const struct spt_hub *hub, int k)
{
    int n = hub->laminae;
    double place = fabs(2.0 * (k + 1) - n - 1) / (2.0 * n - 2);
    if (!hub->edge_function || place == 0)
        return 1.0;
    return 1.0 - 0.01 / log(1.985 * place);
}

/* Source: ISO 281 / ISO 16281 (from memory); 0.83 = lambda nu, the factor for edge stress in C of
 * ISO 281, which the lamina method removes again. The rating loads q_kci and q_kce are kept to the
 * power -9/2. */
void spt_hub_rate_row(const struct spt_hub *hub, int row, struct spt_hub_table *t)
{
    const struct spt_hub_row *r = &hub->rows[row];
    const struct spt_geometry *g = &r->geometry;
    double gamma = g->element_diameter_mm * t->cos_angle / g->pitch_diameter_mm;
    t->rho = pow((1 - gamma) / (1 + gamma), 143.0 / 108.0);
    double ratio = 1.038 * t->rho, z = g->elements;
    double share =
        r->dynamic_load_rating_n / (0.83 * z * t->cos_angle) * pow(hub->laminae, -7.0 / 9.0);
    t->inner_rate = pow(share / 0.378 * pow(1 + pow(ratio, 4.5), 2.0 / 9.0), -4.5);
    t->outer_rate = pow(share / 0.364 * pow(1 + pow(ratio, -4.5), 2.0 / 9.0), -4.5);
    for (int k = 0; k < t->padded; k++) {
        double scale = k < t->laminae ? t->lamina_stiffness * find_edge_factor(hub, k) : 0;
        t->lamina_scale[k] = pow(scale, 4.0) / z;
        t->lamina_scale[t->padded + k] = pow(scale, 4.5) / z;
    }
}

/* The equivalent load P_ks of a lamina is derived in such a way that an aligned half-zone row gives
 * P. */
struct spt_hub_lamina_law spt_hub_lamina_law(const struct spt_hub_model *model, int row,
                                             const struct spt_hub_lubrication *lubrication)
{
    const struct spt_hub_row *r = &model->hub.rows[row];
    const struct spt_hub_table *t = &model->tables[row];
    const struct spt_aiso_family *a = &roller_family;
    double unit = 0.378 * r->geometry.elements * model->hub.laminae * t->cos_angle *
                  pow(1 + pow(1.038 * t->rho, 4.5), -2.0 / 9.0);
    double x = lubrication->contamination_factor * r->fatigue_load_limit_n / unit;
    const struct spt_life_factor_inputs in = {
        SPT_TAPERED_ROLLER,      lubrication->contamination_factor, r->fatigue_load_limit_n,
        r->fatigue_load_limit_n, lubrication->viscosity_ratio,      false};
    struct spt_life_factor at;
    spt_life_factor(&in, &at);
    return (struct spt_hub_lamina_law){
        .ring = pow(t->rho, 4.5),
        .factor = pow(fmax(a->limit - at.film_term, 0.0), a->outer) * pow(x, a->inner),
        .exponent = -2.0 / 9.0 * a->inner,
        .scale = pow(SPT_AISO_SCALE, -9.0 / 8.0),
        .power = -9.0 / 8.0 * a->power,
        .least = pow(SPT_LIFE_FACTOR_MAX, -9.0 / 8.0),
    };
}

const struct spt_hub_lubrication *spt_hub_usable(const struct spt_hub_lubrication *lubrication)
{
    if (lubrication == NULL || isnan(lubrication->contamination_factor) ||
        !(lubrication->viscosity_ratio >= SPT_KAPPA_MIN))
        return NULL;
    return lubrication;
}

bool spt_hub_life_is_possible(const struct spt_hub_row *row,
                              const struct spt_hub_lubrication *lubrication)
{
    if (!(row->dynamic_load_rating_n > 0) || isinf(row->dynamic_load_rating_n))
        return false;
    if (lubrication == NULL)
        return true;
    return lubrication->contamination_factor >= 0 && lubrication->contamination_factor <= 1 &&
           row->fatigue_load_limit_n > 0 && !isinf(row->fatigue_load_limit_n);
}

static double reach_of(const struct spt_hub_model *model, int row)
{
    return 0.5 * model->hub.rows[row].geometry.element_length_mm;
}

static struct spt_hub_damage sum_damage(const struct spt_hub_model *model, int row,
                                        const struct spt_hub_pose *pose,
                                        const struct spt_hub_rollers *rollers,
                                        const struct spt_hub_lamina_law *law)
{
    double unused[SPT_HUB_SUM_COUNT];
    model->kernel->sum_lives(&model->tables[row], pose, reach_of(model, row), rollers, unused);
    return model->kernel->damage(&model->tables[row], model->hub.turning == SPT_HUB_OUTER_TURNS,
                                 law);
}

double spt_hub_life_of(double damage)
{
    return pow(damage, -8.0 / 9.0);
}

enum spt_status spt_hub_life_short(const struct spt_hub_model *model,
                                   const struct spt_hub_solution *solution, int row,
                                   const struct spt_hub_lubrication *lubrication,
                                   struct spt_hub_life *life)
{
    const double none = (double)NAN;
    *life = (struct spt_hub_life){none, none, none, none, none, none};
    bool nonsense = lubrication != NULL && lubrication->viscosity_ratio <= 0;
    lubrication = spt_hub_usable(lubrication);
    if (row < 0 || row >= model->hub.row_count || !isfinite(solution->position.z_mm) || nonsense ||
        !spt_hub_life_is_possible(&model->hub.rows[row], lubrication))
        return SPT_BAD_ARGUMENT;
    struct spt_hub_pose pose = spt_hub_pose(model, row, solution->setting_mm, &solution->position);
    struct spt_hub_rollers rollers = spt_hub_place_row(model, row, 0, false);
    struct spt_hub_lamina_law law;
    if (lubrication)
        law = spt_hub_lamina_law(model, row, lubrication);
    struct spt_hub_damage damage =
        sum_damage(model, row, &pose, &rollers, lubrication ? &law : NULL);
    life->l10r_mrev = spt_hub_life_of(damage.basic);
    if (lubrication)
        life->modified_mrev = spt_hub_life_of(damage.modified);
    return SPT_OK;
}

/* An aligned row with half its rollers loaded, the line of its radial load through the first
 * roller: d = approach cos(phi - phi_1). */
struct half_zone {
    const struct spt_hub_model *model;
    int row;
    struct spt_hub_rollers rollers;
    double cosine, sine; /* of the line of the load */
};

static struct spt_hub_pose move_half_zone(const struct half_zone *h, double approach_mm)
{
    return (struct spt_hub_pose){.radial_x_mm = approach_mm * h->cosine,
                                 .radial_y_mm = approach_mm * h->sine};
}

/* Approach under a radial load: Newton's method on a convex increasing function, which converges
 * from above. */
static double find_half_zone(const struct half_zone *h, double radial_n)
{
    const struct spt_hub_table *t = &h->model->tables[h->row];
    double c = t->lamina_stiffness * t->cos_angle, sums[SPT_HUB_SUM_COUNT];
    double guess = pow(4.1 * radial_n / (h->rollers.count * c * t->laminae), 0.9), change = guess;
    for (int i = 0; i < 100 && fabs(change) > 1e-13 * guess; i++) {
        const struct spt_hub_pose pose = move_half_zone(h, guess);
        h->model->kernel->sum(t, &pose, reach_of(h->model, h->row), &h->rollers, sums);
        double load = h->cosine * sums[SPT_HUB_LOAD_C] + h->sine * sums[SPT_HUB_LOAD_S];
        double slope = h->cosine * h->cosine * sums[SPT_HUB_ROOT_CC] +
                       2 * h->cosine * h->sine * sums[SPT_HUB_ROOT_CS] +
                       h->sine * h->sine * sums[SPT_HUB_ROOT_SS];
        change = -(c * load - radial_n) / (10.0 / 9.0 * c * slope);
        guess += change;
    }
    return guess;
}

static double find_half_zone_life(const struct spt_hub_model *model, int row, double radial_n)
{
    const struct half_zone h = {model, row, spt_hub_place_row(model, row, 0, false),
                                model->tables[row].cosine[0], model->tables[row].sine[0]};
    const struct spt_hub_pose pose = move_half_zone(&h, find_half_zone(&h, radial_n));
    return spt_hub_life_of(sum_damage(model, row, &pose, &h.rollers, NULL).basic);
}

enum spt_status spt_hub_life(const struct spt_hub_model *model,
                             const struct spt_hub_solution *solution, int row,
                             const struct spt_hub_lubrication *lubrication,
                             struct spt_hub_life *life)
{
    enum spt_status status = spt_hub_life_short(model, solution, row, lubrication, life);
    double radial = solution->radial_n[row];
    if (status != SPT_OK || radial <= 1e-6 * solution->axial_n[row] || radial == 0)
        return status;
    life->half_zone_mrev = find_half_zone_life(model, row, radial);
    life->relative_factor = life->l10r_mrev / life->half_zone_mrev;
    status = spt_life_basic(SPT_TAPERED_ROLLER, model->hub.rows[row].dynamic_load_rating_n, radial,
                            &life->l10_mrev);
    life->relative_life_mrev = life->relative_factor * life->l10_mrev;
    return status;
}
