/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <math.h>

#include "model/numeric.h"

static const double grid_step = 1.0905077326652577; /* 2^(1/8) */
static const double smallest_saving = 1e-9;
static const double all_failed = 1e-17;

/* the survival function for GSL; records a value out of range */
struct lives {
    spt_survival_function survival;
    const void *context;
    struct spt_replacement_costs costs;
    double from;     /* a grid point ... */
    double integral; /* ... and the integral of R up to it */
    double end;      /* all have failed by then; INFINITY: not known */
    bool bad;
};

static double survive(double t, void *context)
{
    struct lives *lives = context;
    double r = lives->survival(t, lives->context);
    if (!(r >= 0.0) || !(r <= 1.0)) {
        lives->bad = true;
        return 0.0;
    }
    return r;
}

static bool is_positive(double x)
{
    return isfinite(x) && x > 0.0;
}

static bool are_costs(const struct spt_replacement_costs *costs)
{
    return is_positive(costs->planned) && is_positive(costs->failure);
}

/* integral of R from the stored grid point to t */
static enum spt_status integrate_to(struct lives *lives, double t, double *integral)
{
    gsl_function function = {survive, lives};
    double part = 0.0;
    enum spt_status status = SPT_OK;
    t = fmin(t, lives->end);
    if (t != lives->from)
        status = spt_numeric_integral(&function, lives->from, t, &part);
    *integral = lives->integral + part;
    return status;
}

static double find_cost_rate(const struct lives *lives, double r, double integral)
{
    if (integral == 0)
        return (double)INFINITY; /* at age 0 replacements would follow each other immediately */
    return (lives->costs.planned * r + lives->costs.failure * (1.0 - r)) / integral;
}

static double cost_rate_at(double t, void *context)
{
    struct lives *lives = context;
    double integral;
    if (integrate_to(lives, t, &integral) != SPT_OK)
        return (double)NAN;
    return find_cost_rate(lives, survive(t, lives), integral);
}

/* a time at which about half has failed, within a factor of 2 */
static enum spt_status find_middle(struct lives *lives, double *middle)
{
    double t = 1.0;
    while (survive(t, lives) > 0.5 && t < 1e150)
        t *= 2.0;
    while (survive(t, lives) <= 0.5 && t > 1e-150)
        t *= 0.5;
    *middle = t;
    if (lives->bad)
        return SPT_BAD_ARGUMENT;
    return t > 1e-150 && t < 1e150 ? SPT_OK : SPT_NOT_CONVERGED;
}

/* state of the search over the grid: the lowest cost rate, its neighbours, and the mean life */
struct walk {
    double best_cost;
    double best;
    double before;
    double integral_before;
    double mean_life;
};

static enum spt_status walk_grid(struct lives *lives, struct walk *walk)
{
    double middle;
    double r = 1.0;
    enum spt_status status = find_middle(lives, &middle);

    *walk = (struct walk){(double)INFINITY, (double)NAN, 0.0, 0.0, (double)NAN};
    lives->from = lives->integral = 0.0;
    for (double t = 1e-6 * middle; status == SPT_OK && r > all_failed; t *= grid_step) {
        double integral;
        if (t > 1e30 * middle)
            return SPT_NOT_CONVERGED;
        status = integrate_to(lives, t, &integral);
        if (status != SPT_OK)
            break;
        r = survive(t, lives);
        double cost = find_cost_rate(lives, r, integral);
        if (cost < walk->best_cost) {
            walk->best_cost = cost;
            walk->best = t;
            walk->before = lives->from;
            walk->integral_before = lives->integral;
        }
        lives->from = t;
        lives->integral = integral;
    }
    walk->mean_life = lives->integral;
    if (r <= all_failed)
        lives->end = lives->from;
    return lives->bad ? SPT_BAD_ARGUMENT : status;
}

static const struct spt_replacement no_plan = {(double)NAN, (double)NAN, (double)NAN,
                                               (double)NAN, (double)NAN, (double)NAN};

static enum spt_status fill_plan(struct lives *lives, double age, double mean_life,
                                 struct spt_replacement *result)
{
    double integral;
    enum spt_status status = integrate_to(lives, age, &integral);
    double r = survive(age, lives);

    if (lives->bad)
        return SPT_BAD_ARGUMENT;
    if (status != SPT_OK)
        return status;
    *result = (struct spt_replacement){.age = age,
                                       .survival = r,
                                       .mean_cycle = integral,
                                       .cost_rate = find_cost_rate(lives, r, integral),
                                       .mean_life = mean_life,
                                       .cost_rate_none = lives->costs.failure / mean_life};
    return SPT_OK;
}

enum spt_status spt_replacement_at(spt_survival_function survival, const void *context,
                                   const struct spt_replacement_costs *costs, double age,
                                   struct spt_replacement *result)
{
    struct lives lives = {survival, context, *costs, 0.0, 0.0, (double)INFINITY, false};
    struct walk walk;

    *result = no_plan;
    if (!survival || !are_costs(costs) || !is_positive(age))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = walk_grid(&lives, &walk);
    if (status != SPT_OK)
        return status;
    lives.from = lives.integral = 0.0;
    return fill_plan(&lives, age, walk.mean_life, result);
}

static void fill_run_to_failure(const struct lives *lives, double mean_life,
                                struct spt_replacement *result)
{
    double rate = lives->costs.failure / mean_life;
    *result = (struct spt_replacement){(double)INFINITY, 0.0, mean_life, rate, mean_life, rate};
}

/* brackets the optimum, or finds that there is no worthwhile one */
static enum spt_status find_bracket(struct lives *lives, struct walk *walk,
                                    struct spt_replacement *result)
{
    enum spt_status status = walk_grid(lives, walk);
    if (status != SPT_OK)
        return status;
    double none = lives->costs.failure / walk->mean_life;
    /* where failure costs no more than planned replacement, every age costs more than none */
    if (!(walk->best_cost < none * (1.0 - smallest_saving))) {
        fill_run_to_failure(lives, walk->mean_life, result);
        return SPT_NOT_APPLICABLE;
    }
    lives->from = walk->before;
    lives->integral = walk->integral_before;
    return walk->before > 0.0 ? SPT_OK : SPT_NOT_CONVERGED;
}

enum spt_status spt_replacement_optimum(spt_survival_function survival, const void *context,
                                        const struct spt_replacement_costs *costs,
                                        struct spt_replacement *result)
{
    struct lives lives = {survival, context, *costs, 0.0, 0.0, (double)INFINITY, false};
    struct walk walk;
    double age;

    *result = no_plan;
    if (!survival || !are_costs(costs))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = find_bracket(&lives, &walk, result);
    if (status != SPT_OK)
        return status;
    gsl_function function = {cost_rate_at, &lives};
    status = spt_numeric_minimum(&function, walk.before, walk.best, walk.best * grid_step, &age);
    if (status != SPT_OK)
        return status;
    return fill_plan(&lives, age, walk.mean_life, result);
}

static double survive_weibull(double t, const void *context)
{
    const struct spt_weibull *w = context;
    return exp(-pow(t / w->scale, w->shape));
}

/* h(T) integral R - F(T) - planned/(failure - planned), in the Weibull case; increases with T */
static double miss_first_order(double t, void *context)
{
    struct lives *lives = context;
    const struct spt_weibull *w = lives->context;
    double integral;
    if (integrate_to(lives, t, &integral) != SPT_OK)
        return (double)NAN;
    double hazard = w->shape / w->scale * pow(t / w->scale, w->shape - 1.0);
    return hazard * integral - (1.0 - survive(t, lives)) -
           lives->costs.planned / (lives->costs.failure - lives->costs.planned);
}

enum spt_status spt_replacement_weibull(const struct spt_weibull *weibull,
                                        const struct spt_replacement_costs *costs,
                                        struct spt_replacement *result)
{
    struct lives lives = {survive_weibull, weibull, *costs, 0.0, 0.0, (double)INFINITY, false};
    struct walk walk;
    double age;

    *result = no_plan;
    if (!are_costs(costs) || !is_positive(weibull->shape) || !is_positive(weibull->scale))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = find_bracket(&lives, &walk, result);
    if (status != SPT_OK)
        return status;
    gsl_function function = {miss_first_order, &lives};
    status = spt_numeric_root(&function, walk.before, walk.best * grid_step, &age);
    if (status != SPT_OK)
        return status;
    return fill_plan(&lives, age, walk.mean_life, result);
}

enum spt_status spt_replacement_yearly(const struct spt_replacement *plan,
                                       const struct spt_replacement_costs *costs,
                                       const struct spt_replacement_fleet *fleet,
                                       struct spt_replacement_year *year)
{
    *year = (struct spt_replacement_year){(double)NAN, (double)NAN, (double)NAN, (double)NAN,
                                          (double)NAN};
    if (!are_costs(costs) || !is_positive(fleet->positions) || !is_positive(fleet->time_per_year) ||
        !is_positive(plan->mean_cycle) || !is_positive(plan->mean_life) ||
        !(plan->survival >= 0.0) || !(plan->survival <= 1.0))
        return SPT_BAD_ARGUMENT;
    double running = fleet->positions * fleet->time_per_year;
    year->planned = running * plan->survival / plan->mean_cycle;
    year->failures = running * (1.0 - plan->survival) / plan->mean_cycle;
    year->failures_none = running / plan->mean_life;
    year->cost = year->planned * costs->planned + year->failures * costs->failure;
    year->cost_none = year->failures_none * costs->failure;
    return SPT_OK;
}
