/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/hub/hub_balance.h"
#include "model/hub/hub_step.h"

/* Residual of the balance of all forces, from the independent sum over contacts. */
static double check(const struct spt_hub_problem *problem, const struct spt_hub_position *position,
                    struct spt_hub_reaction *reaction)
{
    const struct spt_hub_model *model = problem->model;
    const struct spt_hub_load *load = problem->load;
    spt_hub_reaction(model, problem->setting_mm, position, reaction);
    double sign = model->hub.turning == SPT_HUB_OUTER_TURNS ? -1.0 : 1.0;
    double arm = model->hub.tilt_locked ? HUGE_VAL : model->length_mm;
    double left[N] = {
        reaction->force_n[0] + sign * load->force_x_n,
        reaction->force_n[1] + sign * load->force_y_n,
        reaction->force_n[2] + sign * load->force_z_n,
        (reaction->moment_nmm[0] + sign * load->moment_x_nmm) / arm,
        (reaction->moment_nmm[1] + sign * load->moment_y_nmm) / arm,
    };
    return spt_hub_norm(left, N);
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

static enum spt_status conclude(const struct spt_hub_problem *problem,
                                const struct spt_hub_balance *balance,
                                struct spt_hub_solution *solution)
{
    const struct spt_hub_model *model = problem->model;
    struct spt_hub_position position = spt_hub_position_of(model, balance->x_mm);
    struct spt_hub_reaction reaction;
    int free[N];
    solution->residual_n = check(problem, &position, &reaction);
    /* the two sums differ by round-off of the roller loads */
    if (solution->residual_n > 10 * solution->allowed_n + 1e-12 * reaction.contact_n)
        return SPT_NOT_CONVERGED;
    const struct spt_hub_system system = spt_hub_system_of(model, &balance->energy, false, free);
    solution->located = spt_hub_is_definite(&system);
    solution->position = position;
    fill_rows(model, &reaction, solution);
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
    double start_mm[N], l0 = model->length_mm;
    if (!spt_hub_is_solvable(model, setting_mm, load) || !position_is_finite(start))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; start && i < N; i++) {
        const double x[N] = {start->x_mm, start->y_mm, start->z_mm, l0 * start->tilt_x_rad,
                             l0 * start->tilt_y_rad};
        start_mm[i] = x[i];
    }
    const struct spt_hub_problem problem = {.model = model,
                                            .setting_mm = setting_mm,
                                            .load = load,
                                            .start_mm = start ? start_mm : NULL};
    struct spt_hub_balance balance;
    enum spt_status status = spt_hub_balance(&problem, &balance);
    solution->iterations = balance.steps;
    solution->residual_n = balance.residual_n;
    solution->allowed_n = balance.allowed_n;
    return status == SPT_OK ? conclude(&problem, &balance, solution) : status;
}
