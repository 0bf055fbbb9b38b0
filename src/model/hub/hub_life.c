/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "model/batch/lanes.h"
#include "model/hub/hub_internal.h"
#include "spalltime/life.h"
#include "spalltime/lubricant.h"

/* Constants of one row's rating. Source: ISO 281 / ISO 16281 (from memory); 0.83 = lambda nu, the
 * factor for edge stress in C of ISO 281, which the lamina method removes again. */
struct rating {
    double rho;     /* [(1-gamma)/(1+gamma)]^(143/108) */
    double inner_n; /* q_kci, lamina rating loads */
    double outer_n; /* q_kce */
};

static struct rating rate(const struct spt_hub_model *model, int row)
{
    const struct spt_hub_row *r = &model->hub.rows[row];
    const struct spt_geometry *g = &r->geometry;
    double cosine = cos(g->contact_angle_rad);
    double gamma = g->element_diameter_mm * cosine / g->pitch_diameter_mm;
    double rho = pow((1 - gamma) / (1 + gamma), 143.0 / 108.0), ratio = 1.038 * rho;
    double share = r->dynamic_load_rating_n / (0.83 * g->elements * cosine) *
                   pow(model->hub.laminae, -7.0 / 9.0);
    return (struct rating){
        .rho = rho,
        .inner_n = share / 0.378 * pow(1 + pow(ratio, 4.5), 2.0 / 9.0),
        .outer_n = share / 0.364 * pow(1 + pow(ratio, -4.5), 2.0 / 9.0),
    };
}

/* f_i = f_e of lamina k (0 to n_s - 1); the middle one of an odd n_s would need ln 0. */
static double find_edge_factor(const struct spt_hub *hub, int k)
{
    int n = hub->laminae;
    double place = fabs(2.0 * (k + 1) - n - 1) / (2.0 * n - 2);
    if (!hub->edge_function || place == 0)
        return 1.0;
    return 1.0 - 0.01 / log(1.985 * place);
}

/* Adds one roller's lamina deflections to the sums of q^4 and q^(9/2), without c_s and f. */
static void add_roller(const struct spt_hub_table *t, const struct spt_hub_roller *roller)
{
    for (int i = 0; i < t->padded; i += SPT_LANES) {
        double *fourth = t->lamina_sum + i, *half = fourth + t->padded;
        spt_lanes d = roller->approach_mm + roller->tilt_rad * lanes_load(t->x_mm + i) -
                      lanes_load(t->profile_mm + i);
        spt_lanes positive = lanes_larger(d, lanes_fill(SPT_ROOT_MIN));
        spt_lanes q = lanes_where_above(d, 0.0, positive * lanes_ninth_root(positive));
        spt_lanes q2 = q * q, q4 = q2 * q2;
        lanes_store(fourth, lanes_load(fourth) + q4);
        lanes_store(half, lanes_load(half) + q4 * lanes_sqrt(q));
    }
}

static void clear_sums(const struct spt_hub_table *t)
{
    memset(t->lamina_sum, 0, 2 * (size_t)t->padded * sizeof *t->lamina_sum);
}

static void sum_solution(const struct spt_hub_model *model, const struct spt_hub_solution *solution,
                         int row)
{
    const struct spt_hub_table *t = &model->tables[row];
    const struct spt_geometry *g = &model->hub.rows[row].geometry;
    struct spt_hub_pose pose = spt_hub_pose(model, row, solution->setting_mm, &solution->position);
    clear_sums(t);
    for (int j = 0; j < g->elements; j++) {
        struct spt_hub_roller roller = spt_hub_roller(&pose, t->cosine[j], t->sine[j]);
        if (roller.approach_mm + fabs(roller.tilt_rad) * 0.5 * g->element_length_mm > 0)
            add_roller(t, &roller);
    }
}

/* Equivalent lamina loads of both rings, raised to the power 9/2. */
struct lamina {
    double inner;
    double outer;
};

static struct lamina find_lamina(const struct spt_hub_model *model, int row, int k)
{
    const struct spt_hub_table *t = &model->tables[row];
    double z = model->hub.rows[row].geometry.elements;
    double scale = t->lamina_stiffness * find_edge_factor(&model->hub, k);
    double standing = t->lamina_sum[t->padded + k] / z * pow(scale, 4.5);
    double turning = pow(t->lamina_sum[k] / z * pow(scale, 4.0), 4.5 / 4.0);
    if (model->hub.turning == SPT_HUB_OUTER_TURNS)
        return (struct lamina){.inner = standing, .outer = turning};
    return (struct lamina){.inner = turning, .outer = standing};
}

/* a_ISO of a lamina; its equivalent load P_ks is derived in such a way that an aligned half-zone
 * row gives P. */
static double find_life_factor(const struct spt_hub_model *model, int row,
                               const struct rating *rating, const struct lamina *lamina,
                               const struct spt_hub_lubrication *lubrication)
{
    const struct spt_hub_row *r = &model->hub.rows[row];
    double stress = (lamina->inner + pow(rating->rho, 4.5) * lamina->outer) /
                    (1 + pow(1.038 * rating->rho, 4.5));
    double load = 0.378 * r->geometry.elements * model->hub.laminae * model->tables[row].cos_angle *
                  pow(stress, 2.0 / 9.0);
    double kappa = fmin(lubrication->viscosity_ratio, SPT_KAPPA_MAX);
    double x = lubrication->contamination_factor * r->fatigue_load_limit_n / load;
    return spt_life_factor_value(false, kappa, x);
}

/* Lives from the lamina sums; `modified` is NaN without lubrication. */
static void work_out(const struct spt_hub_model *model, int row,
                     const struct spt_hub_lubrication *lubrication, double *basic, double *modified)
{
    struct rating rating = rate(model, row);
    double damage = 0, modified_damage = 0;
    double inner = pow(rating.inner_n, 4.5), outer = pow(rating.outer_n, 4.5);
    for (int k = 0; k < model->hub.laminae; k++) {
        struct lamina lamina = find_lamina(model, row, k);
        double own = lamina.inner / inner + lamina.outer / outer;
        if (own == 0)
            continue;
        damage += own;
        if (lubrication != NULL)
            modified_damage +=
                own * pow(find_life_factor(model, row, &rating, &lamina, lubrication), -9.0 / 8.0);
    }
    *basic = pow(damage, -8.0 / 9.0);
    *modified = lubrication != NULL ? pow(modified_damage, -8.0 / 9.0) : (double)NAN;
}

/* NULL where no modified life is wanted or possible. */
static const struct spt_hub_lubrication *usable(const struct spt_hub_lubrication *lubrication)
{
    if (lubrication == NULL || isnan(lubrication->contamination_factor) ||
        !(lubrication->viscosity_ratio >= SPT_KAPPA_MIN))
        return NULL;
    return lubrication;
}

static bool life_is_possible(const struct spt_hub_row *row,
                             const struct spt_hub_lubrication *lubrication)
{
    if (!(row->dynamic_load_rating_n > 0) || isinf(row->dynamic_load_rating_n))
        return false;
    if (lubrication == NULL)
        return true;
    return lubrication->contamination_factor >= 0 && lubrication->contamination_factor <= 1 &&
           row->fatigue_load_limit_n > 0 && !isinf(row->fatigue_load_limit_n);
}

enum spt_status spt_hub_life_short(const struct spt_hub_model *model,
                                   const struct spt_hub_solution *solution, int row,
                                   const struct spt_hub_lubrication *lubrication,
                                   struct spt_hub_life *life)
{
    const double none = (double)NAN;
    *life = (struct spt_hub_life){none, none, none, none, none, none};
    bool nonsense = lubrication != NULL && lubrication->viscosity_ratio <= 0;
    lubrication = usable(lubrication);
    if (row < 0 || row >= model->hub.row_count || !isfinite(solution->position.z_mm) || nonsense ||
        !life_is_possible(&model->hub.rows[row], lubrication))
        return SPT_BAD_ARGUMENT;
    sum_solution(model, solution, row);
    work_out(model, row, lubrication, &life->l10r_mrev, &life->modified_mrev);
    return SPT_OK;
}

/* Largest approach of an aligned row under a radial load with half its rollers loaded, d = approach
 * cos phi: Newton's method on a convex increasing function, which converges from above. */
static double find_half_zone(const struct spt_hub_table *t, int z, double radial_n)
{
    double c = t->lamina_stiffness * t->cos_angle;
    double guess = pow(4.1 * radial_n / (z * c * t->padded), 0.9), change = guess;
    for (int i = 0; i < 100 && fabs(change) > 1e-13 * guess; i++) {
        double force = -radial_n, slope = 0;
        for (int j = 0; j < z; j++) {
            double cosine = cos(2 * SPT_HUB_PI * j / z);
            struct spt_hub_roller roller = {guess * cosine, 0};
            struct spt_hub_sums sums;
            if (cosine <= 0)
                continue;
            spt_hub_sum_laminae(t, &roller, &sums);
            force += c * cosine * sums.load;
            slope += 10.0 / 9.0 * c * cosine * cosine * sums.stiffness;
        }
        change = -force / slope;
        guess += change;
    }
    return guess;
}

static double find_half_zone_life(const struct spt_hub_model *model, int row, double radial_n)
{
    const struct spt_hub_table *t = &model->tables[row];
    int z = model->hub.rows[row].geometry.elements;
    double approach = find_half_zone(t, z, radial_n), life, unused;
    clear_sums(t);
    for (int j = 0; j < z; j++) {
        struct spt_hub_roller roller = {approach * cos(2 * SPT_HUB_PI * j / z), 0};
        if (roller.approach_mm > 0)
            add_roller(t, &roller);
    }
    work_out(model, row, NULL, &life, &unused);
    return life;
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
