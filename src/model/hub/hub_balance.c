/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_balance.h"
#include "model/hub/hub_step.h"

#include <math.h>
#include <string.h>

#define STEP_FIRST_MM 0.2
#define STEPS_MAX 1000
/* plus five times the setting: beyond it displacements are not small */
#define TRAVEL_MAX_MM 20.0
#define ESCAPE_MM 1e5 /* beyond it nothing supports the load */
/* residual over the load from which the next pass is probably the last and sums the lives too */
#define NEARLY 3e-6
#define SLOPE_MAX 1.5 /* of the unknowns by the setting */

/* A point of the iteration. */
struct point {
    double x[N];
    double sums[2][SPT_HUB_SUM_COUNT];
    struct spt_hub_energy energy;
    struct spt_hub_system system;
    double gradient; /* norm */
    bool lives;      /* the sums of the lives are those of this point */
};

/* State of the iteration. */
struct iterate {
    const struct spt_hub_problem *problem;
    struct spt_hub_rollers rollers[2];
    bool halved;
    int free[N];
    struct point at;
    double load_n;     /* norm of the load, moments divided by L0 */
    double longest_mm; /* longest step */
    int steps;
    int passes;
};

struct spt_hub_position spt_hub_position_of(const struct spt_hub_model *model, const double *x_mm)
{
    return (struct spt_hub_position){x_mm[0], x_mm[1], x_mm[2], x_mm[3] / model->length_mm,
                                     x_mm[4] / model->length_mm};
}

static double measure_load(const struct spt_hub_model *model, const struct spt_hub_load *load)
{
    double moment = hypot(load->moment_x_nmm, load->moment_y_nmm) / model->length_mm;
    if (model->hub.tilt_locked)
        moment = 0;
    return hypot(hypot(load->force_x_n, load->force_y_n), hypot(load->force_z_n, moment));
}

bool spt_hub_is_solvable(const struct spt_hub_model *model, double setting_mm,
                         const struct spt_hub_load *load)
{
    return fabs(setting_mm) <= SPT_HUB_SETTING_MAX_MM && measure_load(model, load) <= 1e12;
}

struct spt_hub_system spt_hub_system_of(const struct spt_hub_model *model,
                                        const struct spt_hub_energy *energy, bool halved,
                                        int free[N])
{
    struct spt_hub_system system = {.count = 0};
    for (int i = 0; i < N; i++)
        if (!(halved && (i == 0 || i == 4)) && !(model->hub.tilt_locked && i > 2))
            free[system.count++] = i;
    for (int i = 0; i < system.count; i++) {
        system.gradient[i] = energy->gradient_n[free[i]];
        for (int j = 0; j < system.count; j++)
            system.hessian[i][j] = energy->hessian_n_mm[free[i]][free[j]];
    }
    return system;
}

/* Sums that change their sign with cos phi cancel between mirror images. */
static void cancel_odd_sums(double sums[SPT_HUB_SUM_COUNT])
{
    static const enum spt_hub_sum odd[] = {SPT_HUB_LOAD_C,    SPT_HUB_LOAD_X_C, SPT_HUB_ROOT_C,
                                           SPT_HUB_ROOT_CS,   SPT_HUB_ROOT_X_C, SPT_HUB_ROOT_X_CS,
                                           SPT_HUB_ROOT_XX_CS};
    for (size_t i = 0; i < sizeof odd / sizeof *odd; i++)
        sums[odd[i]] = 0;
}

static void evaluate(struct iterate *now, bool lives, struct point *point)
{
    const struct spt_hub_model *model = now->problem->model;
    struct spt_hub_position position = spt_hub_position_of(model, point->x);
    point->lives = lives;
    now->passes++;
    for (int row = 0; row < model->hub.row_count; row++) {
        struct spt_hub_pose pose = spt_hub_pose(model, row, now->problem->setting_mm, &position);
        double reach_mm = 0.5 * model->hub.rows[row].geometry.element_length_mm;
        (lives ? model->kernel->sum_lives : model->kernel->sum)(
            &model->tables[row], &pose, reach_mm, &now->rollers[row], point->sums[row]);
        if (now->halved)
            cancel_odd_sums(point->sums[row]);
    }
    spt_hub_gather(model, now->problem->load, point->x, point->sums, &point->energy);
    point->system = spt_hub_system_of(model, &point->energy, now->halved, now->free);
    point->gradient = spt_hub_norm(point->system.gradient, point->system.count);
}

/* Tolerance: 1e-9 of the load, or the round-off of the roller loads. */
static double allow(const struct iterate *now)
{
    return fmax(1e-9 * fmax(now->load_n, 1.0), 1e-13 * now->at.energy.contact_n);
}

/* Residual at which to stop: so small that lives do not depend on the initial guess within 1e-9,
 * unless round-off is larger. */
static double aim(const struct iterate *now)
{
    return fmax(1e-12 * fmax(now->load_n, 1.0), 1e-13 * now->at.energy.contact_n);
}

/* Decrease of the energy predicted by the quadratic model. */
static double predict(const struct spt_hub_system *at, const double step[N])
{
    double fall = 0;
    for (int i = 0; i < at->count; i++) {
        double curved = 0;
        for (int j = 0; j < at->count; j++)
            curved += at->hessian[i][j] * step[j];
        fall -= step[i] * (at->gradient[i] + 0.5 * curved);
    }
    return fall;
}

/* Ratio of actual to predicted decrease of the energy. Where the decrease is lost in the round-off
 * of the energies, it is computed from the slopes at both ends (Hager and Zhang 2005). */
static double compare(const struct iterate *now, const struct point *next, const double step[N])
{
    const struct point *at = &now->at;
    double scale = fabs(at->energy.energy_nmm) + now->load_n * spt_hub_norm(at->x, N);
    double predicted = predict(&at->system, step), fall = 0;
    if (!(predicted > 0)) /* H is lost to round-off: a shorter step */
        return -1;
    if (predicted > 1e-8 * scale)
        return (at->energy.energy_nmm - next->energy.energy_nmm) / predicted;
    for (int i = 0; i < at->system.count; i++)
        fall -= 0.5 * step[i] * (at->system.gradient[i] + next->system.gradient[i]);
    return fall / predicted;
}

static void adapt_length(struct iterate *now, double agreement, double length)
{
    if (agreement < 0.25)
        now->longest_mm = 0.25 * length;
    else if (agreement > 0.75 && length > 0.8 * now->longest_mm)
        now->longest_mm *= 2.5;
}

enum outcome { BETTER, NO_BETTER, RUN_OUT /* RUN_OUT: the longest step is negligible */ };

/* One trial step, kept where it is better. */
static enum outcome advance(struct iterate *now)
{
    double step[N];
    struct point next = now->at;
    bool lives = now->problem->lives && now->at.gradient < NEARLY * fmax(now->load_n, 1.0);
    spt_hub_step(&now->at.system, now->longest_mm, step);
    for (int i = 0; i < now->at.system.count; i++)
        next.x[now->free[i]] += step[i];
    evaluate(now, lives, &next);
    double agreement = compare(now, &next, step);
    bool better = agreement > 1e-4;
    adapt_length(now, agreement, spt_hub_norm(step, now->at.system.count));
    now->at.lives = false; /* its sums are overwritten */
    if (better)
        now->at = next;
    if (better)
        return BETTER;
    return now->longest_mm > 1e-15 ? NO_BETTER : RUN_OUT;
}

static enum spt_status iterate(struct iterate *now)
{
    for (now->steps = 0; now->steps < STEPS_MAX; now->steps++) {
        double before = now->at.gradient;
        bool allowed = before <= allow(now);
        if (allowed && before <= aim(now))
            return SPT_OK;
        enum outcome outcome = advance(now);
        /* round-off leaves no more */
        if (allowed && now->at.gradient <= allow(now) && !(now->at.gradient <= 0.5 * before))
            return SPT_OK;
        if (outcome == RUN_OUT)
            return SPT_NOT_CONVERGED;
        if (spt_hub_norm(now->at.x, N) > ESCAPE_MM)
            return SPT_CANNOT_CARRY;
    }
    return SPT_NOT_CONVERGED;
}

static void begin(struct iterate *now)
{
    const struct spt_hub_problem *problem = now->problem;
    const struct spt_hub_model *model = problem->model;
    for (int row = 0; row < model->hub.row_count && row < 2; row++)
        now->rollers[row] = spt_hub_place_row(model, row, problem->place, now->halved);
    if (problem->start_mm)
        memcpy(now->at.x, problem->start_mm, sizeof now->at.x);
    else if (now->load_n > 0)
        spt_hub_guess(model, problem->setting_mm, problem->load, now->at.x);
    for (int i = 0; i < N; i++)
        if ((now->halved && (i == 0 || i == 4)) || (model->hub.tilt_locked && i > 2))
            now->at.x[i] = 0;
    evaluate(now, false, &now->at);
}

/* How the unknowns follow the setting: -H^-1 dg/de. */
static void find_slope(struct iterate *now, double slope[N])
{
    double by_setting[N], right[N], v[N];
    const struct spt_hub_system *system = &now->at.system;
    memset(slope, 0, N * sizeof *slope);
    spt_hub_gather_slope(now->problem->model, now->at.sums, by_setting);
    for (int i = 0; i < system->count; i++)
        right[i] = -by_setting[now->free[i]];
    if (!spt_hub_divide(system, right, v))
        return;
    double size = spt_hub_norm(v, system->count);
    double scale = size > SLOPE_MAX ? SLOPE_MAX / size : 1;
    for (int i = 0; i < system->count; i++)
        slope[now->free[i]] = scale * v[i];
}

static enum spt_status conclude(struct iterate *now, struct spt_hub_balance *balance)
{
    const struct spt_hub_problem *problem = now->problem;
    const struct spt_hub_model *model = problem->model;
    if (now->load_n == 0 && now->at.energy.contact_n < 1e-6)
        return SPT_FREE;
    if (spt_hub_norm(now->at.x, N) > TRAVEL_MAX_MM + 5 * fabs(problem->setting_mm))
        return SPT_NOT_APPLICABLE;
    if (problem->lives && !now->at.lives)
        evaluate(now, true, &now->at);
    for (int row = 0; row < model->hub.row_count && problem->lives; row++)
        balance->damage[row] =
            model->kernel->damage(&model->tables[row], model->hub.turning == SPT_HUB_OUTER_TURNS,
                                  problem->laws ? &problem->laws[row] : NULL);
    memcpy(balance->x_mm, now->at.x, sizeof now->at.x);
    balance->energy = now->at.energy;
    find_slope(now, balance->slope);
    return SPT_OK;
}

enum spt_status spt_hub_balance(const struct spt_hub_problem *problem,
                                struct spt_hub_balance *balance)
{
    const struct spt_hub_model *model = problem->model;
    struct iterate now = {.problem = problem,
                          .halved = spt_hub_place_is_symmetric(model, problem->place) &&
                                    spt_hub_load_is_symmetric(model, problem->load),
                          .load_n = measure_load(model, problem->load),
                          .longest_mm = STEP_FIRST_MM};
    begin(&now);
    enum spt_status status = iterate(&now);
    balance->residual_n = now.at.gradient;
    balance->allowed_n = allow(&now);
    if (status == SPT_OK)
        status = conclude(&now, balance);
    balance->steps = now.steps;
    balance->passes = now.passes;
    return status;
}
