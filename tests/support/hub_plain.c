/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hub_plain.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "model/batch/lanes.h"
#include "spalltime/life.h"

enum { N = SPT_HUB_UNKNOWNS };

struct roller {
    double approach_mm, tilt_rad;
};

struct sums {
    double load, load_x, energy, stiffness, stiffness_x, stiffness_xx;
};

static struct roller place_roller(const struct spt_hub_model *model, int row, double setting_mm,
                                  const struct spt_hub_position *p, int j)
{
    const struct spt_hub_table *t = &model->tables[row];
    const struct spt_hub_row *r = &model->hub.rows[row];
    double own_arm = -t->sign * t->radius_mm * t->sin_angle, c = t->cosine[j], s = t->sine[j];
    double x = t->cos_angle * p->x_mm + p->tilt_y_rad * t->arm_mm + r->misalignment_y_rad * own_arm;
    double y = t->cos_angle * p->y_mm - p->tilt_x_rad * t->arm_mm - r->misalignment_x_rad * own_arm;
    double z = (t->sign * p->z_mm - setting_mm / model->hub.row_count) * t->sin_angle;
    return (struct roller){x * c + y * s + z, (p->tilt_y_rad + r->misalignment_y_rad) * c -
                                                  (p->tilt_x_rad + r->misalignment_x_rad) * s};
}

static bool is_away(const struct spt_hub_model *model, int row, const struct roller *r)
{
    double reach_mm = 0.5 * model->hub.rows[row].geometry.element_length_mm;
    return r->approach_mm + fabs(r->tilt_rad) * reach_mm <= 0;
}

static struct sums sum_laminae(const struct spt_hub_table *t, const struct roller *roller)
{
    spt_lanes load = lanes_fill(0), load_x = load, energy = load, k = load, k_x = load, k_xx = load;
    for (int i = 0; i < t->laminae; i += SPT_LANES) {
        spt_lanes x = lanes_load(t->x_mm + i);
        spt_lanes d = roller->approach_mm + roller->tilt_rad * x - lanes_load(t->profile_mm + i);
        d = lanes_where_above(d, SPT_ROOT_MIN, d);
        spt_lanes root = lanes_ninth_root(d);
        spt_lanes q = d * root, root_x = root * x;
        load += q;
        load_x += q * x;
        energy += q * d;
        k += root;
        k_x += root_x;
        k_xx += root_x * x;
    }
    return (struct sums){lanes_sum(load), lanes_sum(load_x), lanes_sum(energy),
                         lanes_sum(k),    lanes_sum(k_x),    lanes_sum(k_xx)};
}

/* Adds one roller; of the Hessian only the upper triangle. */
static void add_roller(const struct spt_hub_model *model, int row, int j, const struct sums *sums,
                       struct spt_hub_energy *energy)
{
    const struct spt_hub_table *t = &model->tables[row];
    double c = t->cosine[j], s = t->sine[j], stiffness = t->lamina_stiffness;
    double tilt_x = -s / model->length_mm, tilt_y = c / model->length_mm;
    const double approach[N] = {t->cos_angle * c, t->cos_angle * s, t->sign * t->sin_angle,
                                t->arm_mm * tilt_x, t->arm_mm * tilt_y};
    const double tilt[N] = {0, 0, 0, tilt_x, tilt_y};
    double k = 10.0 / 9.0 * stiffness;
    energy->energy_nmm += 9.0 / 19.0 * stiffness * sums->energy;
    energy->contact_n += stiffness * sums->load;
    for (int i = 0; i < N; i++) {
        energy->gradient_n[i] += stiffness * (sums->load * approach[i] + sums->load_x * tilt[i]);
        double by_approach = k * (sums->stiffness * approach[i] + sums->stiffness_x * tilt[i]);
        double by_tilt = k * (sums->stiffness_x * approach[i] + sums->stiffness_xx * tilt[i]);
        for (int m = i; m < N; m++)
            energy->hessian_n_mm[i][m] += by_approach * approach[m] + by_tilt * tilt[m];
    }
}

/* State of the search. */
struct search {
    const struct spt_hub_model *model;
    double setting_mm, load_n, longest_mm;
    double force[N]; /* on the inner body */
    double x[N];
    struct spt_hub_energy at;
    int passes;
};

static double norm(const double v[N])
{
    double sum = 0;
    for (int i = 0; i < N; i++)
        sum += v[i] * v[i];
    return sqrt(sum);
}

static struct spt_hub_position to_position(const struct spt_hub_model *model, const double x[N])
{
    return (struct spt_hub_position){x[0], x[1], x[2], x[3] / model->length_mm,
                                     x[4] / model->length_mm};
}

static void evaluate(struct search *s, const double x[N], struct spt_hub_energy *energy)
{
    const struct spt_hub_model *model = s->model;
    struct spt_hub_position position = to_position(model, x);
    memset(energy, 0, sizeof *energy);
    s->passes++;
    for (int row = 0; row < model->hub.row_count; row++)
        for (int j = 0; j < model->hub.rows[row].geometry.elements; j++) {
            struct roller roller = place_roller(model, row, s->setting_mm, &position, j);
            if (is_away(model, row, &roller))
                continue;
            struct sums sums = sum_laminae(&model->tables[row], &roller);
            add_roller(model, row, j, &sums, energy);
        }
    for (int i = 0; i < N; i++) {
        energy->energy_nmm -= s->force[i] * x[i];
        energy->gradient_n[i] -= s->force[i];
        for (int m = 0; m < i; m++)
            energy->hessian_n_mm[i][m] = energy->hessian_n_mm[m][i];
    }
    for (int i = 3; i < N && model->hub.tilt_locked; i++) {
        energy->gradient_n[i] = 0;
        for (int m = 0; m < N; m++)
            energy->hessian_n_mm[i][m] = energy->hessian_n_mm[m][i] =
                i == m ? energy->hessian_n_mm[0][0] : 0;
    }
}

/* Solves (H + damping) step = -g by Gauss without pivots; false where a pivot is lost. */
static bool divide(const struct spt_hub_energy *at, double damping, double step[N])
{
    double a[N][N + 1];
    for (int i = 0; i < N; i++) {
        for (int j = 0; j < N; j++)
            a[i][j] = at->hessian_n_mm[i][j] + (i == j ? damping : 0);
        a[i][N] = -at->gradient_n[i];
    }
    for (int i = 0; i < N; i++) {
        if (!(a[i][i] > 1e-13 * (at->hessian_n_mm[i][i] + damping)) || a[i][i] < DBL_MIN)
            return false;
        for (int j = i + 1; j < N; j++)
            for (int k = N; k >= i; k--)
                a[j][k] -= a[j][i] / a[i][i] * a[i][k];
    }
    for (int i = N - 1; i >= 0; i--) {
        step[i] = a[i][N];
        for (int k = i + 1; k < N; k++)
            step[i] -= a[i][k] * step[k];
        step[i] /= a[i][i];
    }
    return true;
}

/* A step no longer than the longest: as much damping as that takes. */
static void find_step(const struct search *s, double step[N])
{
    double most = norm(s->at.gradient_n) / s->longest_mm, damping = 0;
    for (int i = 0; i < 60 && damping < most; i++) {
        if (divide(&s->at, damping, step) && norm(step) <= 1.1 * s->longest_mm)
            return;
        damping = damping > 0 ? 4 * damping : 1e-8 * most;
    }
    if (!divide(&s->at, most, step))
        for (int i = 0; i < N; i++)
            step[i] = -s->at.gradient_n[i] / fmax(most, DBL_MIN);
}

static double find_agreement(const struct search *s, const struct spt_hub_energy *next,
                             const double step[N])
{
    double promised = 0, slopes = 0;
    for (int i = 0; i < N; i++) {
        double curved = 0;
        for (int j = 0; j < N; j++)
            curved += s->at.hessian_n_mm[i][j] * step[j];
        promised -= step[i] * (s->at.gradient_n[i] + 0.5 * curved);
        slopes -= 0.5 * step[i] * (s->at.gradient_n[i] + next->gradient_n[i]);
    }
    bool lost = promised <= 1e-8 * (fabs(s->at.energy_nmm) + s->load_n * norm(s->x));
    if (!(promised > 0))
        return -1;
    return (lost ? slopes : s->at.energy_nmm - next->energy_nmm) / promised;
}

static enum spt_status search(struct search *s)
{
    for (int i = 0; i < 1000; i++) {
        double left = norm(s->at.gradient_n), round_off = 1e-13 * s->at.contact_n, step[N], x[N];
        bool allowed = left <= fmax(1e-9 * fmax(s->load_n, 1), round_off);
        struct spt_hub_energy next;
        if (left <= fmax(1e-12 * fmax(s->load_n, 1), round_off))
            return SPT_OK;
        find_step(s, step);
        for (int k = 0; k < N; k++)
            x[k] = s->x[k] + step[k];
        evaluate(s, x, &next);
        double agreement = find_agreement(s, &next, step), length = norm(step);
        if (allowed && !(agreement > 1e-4 && norm(next.gradient_n) < 0.5 * left))
            return SPT_OK;
        if (agreement < 0.25)
            s->longest_mm = 0.25 * length;
        else if (agreement > 0.75 && length > 0.8 * s->longest_mm)
            s->longest_mm *= 2.5;
        if (agreement > 1e-4) {
            memcpy(s->x, x, sizeof x);
            s->at = next;
        } else if (s->longest_mm < 1e-15)
            return SPT_NOT_CONVERGED;
        if (norm(s->x) > 1e5)
            return SPT_CANNOT_CARRY;
    }
    return SPT_NOT_CONVERGED;
}

enum spt_status hub_plain_solve(const struct spt_hub_model *model, double setting_mm,
                                const struct spt_hub_load *load,
                                const struct spt_hub_position *start,
                                struct spt_hub_position *position, int *passes)
{
    double l0 = model->length_mm, sign = model->hub.turning == SPT_HUB_OUTER_TURNS ? -1 : 1;
    bool locked = model->hub.tilt_locked;
    struct spt_hub_reaction reaction;
    struct search s = {
        .model = model,
        .setting_mm = setting_mm,
        .longest_mm = 0.2,
        .force = {sign * load->force_x_n, sign * load->force_y_n, sign * load->force_z_n,
                  locked ? 0 : sign * load->moment_x_nmm / l0,
                  locked ? 0 : sign * load->moment_y_nmm / l0},
    };
    s.load_n = norm(s.force);
    if (start)
        memcpy(s.x,
               (double[N]){start->x_mm, start->y_mm, start->z_mm, l0 * start->tilt_x_rad,
                           l0 * start->tilt_y_rad},
               sizeof s.x);
    evaluate(&s, s.x, &s.at);
    enum spt_status status = search(&s);
    *passes = s.passes;
    *position = to_position(model, s.x);
    if (status != SPT_OK)
        return status;
    spt_hub_reaction(model, setting_mm, position, &reaction);
    if (s.load_n == 0 && reaction.contact_n < 1e-6)
        return SPT_FREE;
    return norm(s.x) > 20 + 5 * fabs(setting_mm) ? SPT_NOT_APPLICABLE : SPT_OK;
}

static void add_powers(const struct spt_hub_table *t, const struct roller *roller, double *fourth,
                       double *half)
{
    for (int i = 0; i < t->laminae; i += SPT_LANES) {
        spt_lanes d = roller->approach_mm + roller->tilt_rad * lanes_load(t->x_mm + i) -
                      lanes_load(t->profile_mm + i);
        d = lanes_where_above(d, SPT_ROOT_MIN, d);
        spt_lanes q = d * lanes_ninth_root(d);
        double loads[SPT_LANES];
        lanes_store(loads, q);
        for (int k = 0; k < SPT_LANES; k++) {
            double fourth_power = loads[k] * loads[k] * loads[k] * loads[k];
            fourth[i + k] += fourth_power;
            half[i + k] += fourth_power * sqrt(loads[k]);
        }
    }
}

/* ISO 281 / ISO 16281 (from memory), as in hub_life.c, in the form of the standard. */
void hub_plain_lives(const struct spt_hub_model *model, double setting_mm,
                     const struct spt_hub_position *position, int row,
                     const struct spt_hub_lubrication *lubrication, double *basic_mrev,
                     double *modified_mrev)
{
    const struct spt_hub *hub = &model->hub;
    const struct spt_hub_row *r = &hub->rows[row];
    const struct spt_geometry *g = &r->geometry;
    const struct spt_hub_table *t = &model->tables[row];
    double fourth[SPT_HUB_LAMINAE_MAX + 16] = {0}, half[SPT_HUB_LAMINAE_MAX + 16] = {0};
    double n = hub->laminae, z = g->elements, damage = 0, modified = 0;
    for (int j = 0; j < g->elements; j++) {
        struct roller roller = place_roller(model, row, setting_mm, position, j);
        if (!is_away(model, row, &roller))
            add_powers(t, &roller, fourth, half);
    }
    double gamma = g->element_diameter_mm * t->cos_angle / g->pitch_diameter_mm;
    double rho = pow((1 - gamma) / (1 + gamma), 143.0 / 108.0), ratio = 1.038 * rho;
    double share = r->dynamic_load_rating_n / (0.83 * z * t->cos_angle) * pow(n, -7.0 / 9.0);
    double inner_n = share / 0.378 * pow(1 + pow(ratio, 4.5), 2.0 / 9.0);
    double outer_n = share / 0.364 * pow(1 + pow(ratio, -4.5), 2.0 / 9.0);
    for (int k = 0; k < hub->laminae; k++) {
        double place = fabs(2.0 * (k + 1) - n - 1) / (2 * n - 2);
        double edge = hub->edge_function && place > 0 ? 1 - 0.01 / log(1.985 * place) : 1;
        double scale = t->lamina_stiffness * edge;
        double standing = half[k] / z * pow(scale, 4.5);
        double turning = pow(fourth[k] / z * pow(scale, 4.0), 4.5 / 4.0);
        bool outer = hub->turning == SPT_HUB_OUTER_TURNS;
        double inner_load = outer ? standing : turning, outer_load = outer ? turning : standing;
        double own = inner_load / pow(inner_n, 4.5) + outer_load / pow(outer_n, 4.5);
        damage += own;
        if (!lubrication || own == 0)
            continue;
        double stress = (inner_load + pow(rho, 4.5) * outer_load) / (1 + pow(1.038 * rho, 4.5));
        double x = lubrication->contamination_factor * r->fatigue_load_limit_n /
                   (0.378 * z * n * t->cos_angle * pow(stress, 2.0 / 9.0));
        double a = spt_life_factor_value(false, fmin(lubrication->viscosity_ratio, 4), x);
        modified += own * pow(a, -9.0 / 8.0);
    }
    *basic_mrev = pow(damage, -8.0 / 9.0);
    *modified_mrev = pow(modified, -8.0 / 9.0);
}
