/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_internal.h"
#include "model/hub/hub_step.h"

#include <math.h>
#include <string.h>

#define STEP_FIRST_MM 0.2
#define STEPS_MAX 1000
/* plus five times the setting: beyond it displacements are not small */
#define TRAVEL_MAX_MM 20.0
#define ESCAPE_MM 1e5 /* beyond it nothing supports the load */

/* State of the iteration. */
struct iterate {
    const struct spt_hub_model *model;
    const struct spt_hub_load *load;
    double setting_mm;
    double x[N];
    struct spt_hub_energy at;
    double gradient;   /* norm */
    double load_n;     /* norm of the load, moments divided by L0 */
    double longest_mm; /* longest step */
    int steps;
};

static struct spt_hub_position to_position(const struct spt_hub_model *model, const double x[N])
{
    return (struct spt_hub_position){x[0], x[1], x[2], x[3] / model->length_mm,
                                     x[4] / model->length_mm};
}

static void evaluate(const struct iterate *now, const double x[N], struct spt_hub_energy *energy)
{
    struct spt_hub_position position = to_position(now->model, x);
    spt_hub_energy(now->model, now->setting_mm, now->load, &position, energy);
}

/* Tolerance: 1e-9 of the load, or the round-off of the roller loads. */
static double allow(const struct iterate *now)
{
    return fmax(1e-9 * fmax(now->load_n, 1.0), 1e-13 * now->at.contact_n);
}

/* Residual at which to stop: so small that lives do not depend on the initial guess within 1e-9,
 * unless round-off is larger. */
static double aim(const struct iterate *now)
{
    return fmax(1e-12 * fmax(now->load_n, 1.0), 1e-13 * now->at.contact_n);
}

/* Decrease of the energy predicted by the quadratic model. */
static double predict(const struct spt_hub_energy *at, const double step[N])
{
    double fall = 0;
    for (int i = 0; i < N; i++) {
        double curved = 0;
        for (int j = 0; j < N; j++)
            curved += at->hessian_n_mm[i][j] * step[j];
        fall -= step[i] * (at->gradient_n[i] + 0.5 * curved);
    }
    return fall;
}

/* Ratio of actual to predicted decrease of the energy. Where the decrease is lost in the round-off
 * of the energies, it is computed from the slopes at both ends (Hager and Zhang 2005). */
static double compare(const struct iterate *now, const struct spt_hub_energy *next,
                      const double step[N])
{
    double scale = fabs(now->at.energy_nmm) + now->load_n * spt_hub_norm(now->x);
    double predicted = predict(&now->at, step), fall = 0;
    if (predicted > 1e-8 * scale)
        return (now->at.energy_nmm - next->energy_nmm) / predicted;
    for (int i = 0; i < N; i++)
        fall -= 0.5 * step[i] * (now->at.gradient_n[i] + next->gradient_n[i]);
    return fall / predicted;
}

static void adapt_length(struct iterate *now, double agreement, double length)
{
    if (agreement < 0.25)
        now->longest_mm = 0.25 * length;
    else if (agreement > 0.75 && length > 0.8 * now->longest_mm)
        now->longest_mm *= 2.5;
}

static void lock_tilt(const struct spt_hub_model *model, struct spt_hub_energy *at)
{
    if (!model->hub.tilt_locked)
        return;
    for (int i = 3; i < N; i++) {
        at->gradient_n[i] = 0;
        for (int j = 0; j < N; j++)
            at->hessian_n_mm[i][j] = at->hessian_n_mm[j][i] = i == j ? at->hessian_n_mm[0][0] : 0;
    }
}

enum outcome { BETTER, NO_BETTER, RUN_OUT /* RUN_OUT: the longest step is negligible */ };

/* One trial step, kept where it is better. */
static enum outcome advance(struct iterate *now)
{
    double step[N], x[N];
    struct spt_hub_energy next;
    spt_hub_step(now->at.hessian_n_mm, now->at.gradient_n, now->longest_mm, step);
    for (int i = 0; i < N; i++)
        x[i] = now->x[i] + step[i];
    evaluate(now, x, &next);
    lock_tilt(now->model, &next);
    double agreement = compare(now, &next, step);
    bool better = agreement > 1e-4;
    adapt_length(now, agreement, spt_hub_norm(step));
    if (better) {
        memcpy(now->x, x, sizeof x);
        now->at = next;
        now->gradient = spt_hub_norm(next.gradient_n);
    }
    if (better)
        return BETTER;
    return now->longest_mm > 1e-15 ? NO_BETTER : RUN_OUT;
}

static enum spt_status iterate(struct iterate *now)
{
    for (now->steps = 0; now->steps < STEPS_MAX; now->steps++) {
        bool allowed = now->gradient <= allow(now);
        if (allowed && now->gradient <= aim(now))
            return SPT_OK;
        enum outcome outcome = advance(now);
        if (allowed && outcome != BETTER)
            return SPT_OK;
        if (outcome == RUN_OUT)
            return SPT_NOT_CONVERGED;
        if (spt_hub_norm(now->x) > ESCAPE_MM)
            return SPT_CANNOT_CARRY;
    }
    return SPT_NOT_CONVERGED;
}

static double measure_load(const struct spt_hub_model *model, const struct spt_hub_load *load)
{
    double moment = hypot(load->moment_x_nmm, load->moment_y_nmm) / model->length_mm;
    if (model->hub.tilt_locked)
        moment = 0;
    return hypot(hypot(load->force_x_n, load->force_y_n), hypot(load->force_z_n, moment));
}

static void start_at(struct iterate *now, const struct spt_hub_position *start)
{
    if (start != NULL) {
        double l0 = now->model->length_mm;
        double x[N] = {start->x_mm, start->y_mm, start->z_mm, l0 * start->tilt_x_rad,
                       l0 * start->tilt_y_rad};
        memcpy(now->x, x, sizeof x);
        if (now->model->hub.tilt_locked)
            now->x[3] = now->x[4] = 0;
    }
    evaluate(now, now->x, &now->at);
    lock_tilt(now->model, &now->at);
    now->gradient = spt_hub_norm(now->at.gradient_n);
}

/* Residual of the balance of all forces, from the independent sum over contacts. */
static double check(const struct iterate *now, struct spt_hub_reaction *reaction)
{
    const struct spt_hub_model *model = now->model;
    const struct spt_hub_load *load = now->load;
    struct spt_hub_position position = to_position(model, now->x);
    spt_hub_reaction(model, now->setting_mm, &position, reaction);
    double sign = model->hub.turning == SPT_HUB_OUTER_TURNS ? -1.0 : 1.0;
    double arm = model->hub.tilt_locked ? HUGE_VAL : model->length_mm;
    double left[N] = {
        reaction->force_n[0] + sign * load->force_x_n,
        reaction->force_n[1] + sign * load->force_y_n,
        reaction->force_n[2] + sign * load->force_z_n,
        (reaction->moment_nmm[0] + sign * load->moment_x_nmm) / arm,
        (reaction->moment_nmm[1] + sign * load->moment_y_nmm) / arm,
    };
    return spt_hub_norm(left);
}

static void fill_rows(const struct spt_hub_model *model, const struct spt_hub_reaction *reaction,
                      struct spt_hub_solution *solution)
{
    for (int i = 0; i < model->hub.row_count; i++) {
        const double *f = reaction->row_force_n[i];
        solution->radial_n[i] = hypot(f[0], f[1]);
        solution->axial_n[i] = fabs(f[2]);
        solution->direction_rad[i] = atan2(-f[1], -f[0]);
    }
}

static void clear(struct spt_hub_solution *s, double setting_mm)
{
    *s = (struct spt_hub_solution){
        .setting_mm = setting_mm,
        .position = {(double)NAN, (double)NAN, (double)NAN, (double)NAN, (double)NAN},
        .radial_n = {(double)NAN, (double)NAN},
        .axial_n = {(double)NAN, (double)NAN},
        .direction_rad = {(double)NAN, (double)NAN},
        .residual_n = (double)NAN,
        .allowed_n = (double)NAN,
    };
}

static enum spt_status conclude(const struct iterate *now, struct spt_hub_solution *solution)
{
    struct spt_hub_reaction reaction;
    double h[N][N];
    solution->residual_n = check(now, &reaction);
    if (now->load_n == 0 && reaction.contact_n < 1e-6)
        return SPT_FREE;
    /* the two sums differ by round-off of the roller loads */
    if (solution->residual_n > 10 * solution->allowed_n + 1e-12 * reaction.contact_n)
        return SPT_NOT_CONVERGED;
    if (spt_hub_norm(now->x) > TRAVEL_MAX_MM + 5 * fabs(now->setting_mm))
        return SPT_NOT_APPLICABLE;
    memcpy(h, now->at.hessian_n_mm, sizeof h);
    solution->located = spt_hub_is_definite(h);
    solution->position = to_position(now->model, now->x);
    fill_rows(now->model, &reaction, solution);
    return SPT_OK;
}

static bool position_is_finite(const struct spt_hub_position *p)
{
    return p == NULL || (isfinite(p->x_mm) && isfinite(p->y_mm) && isfinite(p->z_mm) &&
                         isfinite(p->tilt_x_rad) && isfinite(p->tilt_y_rad));
}

enum spt_status spt_hub_solve(const struct spt_hub_model *model, double setting_mm,
                              const struct spt_hub_load *load, const struct spt_hub_position *start,
                              struct spt_hub_solution *solution)
{
    clear(solution, setting_mm);
    struct iterate now = {.model = model,
                          .load = load,
                          .setting_mm = setting_mm,
                          .load_n = measure_load(model, load),
                          .longest_mm = STEP_FIRST_MM};
    if (!(fabs(setting_mm) <= SPT_HUB_SETTING_MAX_MM) || !(now.load_n <= 1e12) ||
        !position_is_finite(start))
        return SPT_BAD_ARGUMENT;
    start_at(&now, start);
    enum spt_status status = iterate(&now);
    solution->iterations = now.steps;
    solution->residual_n = now.gradient;
    solution->allowed_n = allow(&now);
    return status == SPT_OK ? conclude(&now, solution) : status;
}
