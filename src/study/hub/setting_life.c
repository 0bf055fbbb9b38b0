/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "base/quotient.h"
#include "spalltime/life.h"
#include "spalltime/setting.h"
#include "spalltime/statistics.h"

static bool duty_is_valid(const struct spt_setting_duty *duty)
{
    if (duty->cases == NULL || duty->count < 1 || duty->count > SPT_SETTING_CASES_MAX ||
        duty->cage_positions < 0 || duty->cage_positions > SPT_SETTING_CAGE_MAX ||
        !(duty->reliability_percent >= 0) || isinf(duty->reliability_percent))
        return false;
    double sum = 0;
    for (int i = 0; i < duty->count; i++) {
        const struct spt_setting_case *c = &duty->cases[i];
        if (!(c->time_share >= 0) || !(c->speed_rpm >= 0) || isinf(c->speed_rpm))
            return false;
        for (int row = 0; row < 2; row++)
            if (!(c->life_factor[row] > 0) || isinf(c->life_factor[row]))
                return false;
        sum += c->time_share;
    }
    return fabs(sum - 1) <= 1e-6;
}

/* Revolutions per minute averaged over time. */
static double find_mean_speed(const struct spt_setting_duty *duty)
{
    double mean = 0;
    for (int i = 0; i < duty->count; i++)
        mean += duty->cases[i].time_share * duty->cases[i].speed_rpm;
    return mean;
}

static void clear(double setting_mm, struct spt_setting_point *point)
{
    const double none = (double)NAN;
    *point = (struct spt_setting_point){setting_mm, {none, none}, none, {none, none}, none, none};
}

/* Life of a row under one case, modified or basic. */
static enum spt_status find_row_life(const struct spt_hub_model *model,
                                     const struct spt_hub_solution *solution, int row,
                                     const struct spt_setting_case *c, bool modified, double *life)
{
    struct spt_hub_life lives;
    enum spt_status status =
        spt_hub_life_short(model, solution, row, modified ? &c->lubrication[row] : NULL, &lives);
    *life = c->life_factor[row] * (modified ? lives.modified_mrev : lives.l10r_mrev);
    if (status == SPT_OK && isnan(*life))
        return SPT_NOT_APPLICABLE;
    return status;
}

/* State of the summation: damage per revolution of each row. */
struct sum {
    const struct spt_setting_duty *duty;
    double setting_mm;
    struct spt_setting_trail *trail;
    double damage[2];
};

/* Adds u/L of one case to the damage of each row, u its share of the revolutions. */
static enum spt_status add_case(const struct spt_hub_model *model, int number, double revolutions,
                                struct sum *sum)
{
    const struct spt_setting_case *c = &sum->duty->cases[number];
    struct spt_setting_trail *trail = sum->trail;
    struct spt_hub_solution solution;
    const struct spt_hub_position *start = trail->known[number] ? &trail->positions[number] : NULL;
    enum spt_status status = spt_hub_solve(model, sum->setting_mm, &c->load, start, &solution);
    if (status == SPT_FREE)
        return SPT_OK;
    if (status == SPT_OK) {
        trail->known[number] = true;
        trail->positions[number] = solution.position;
    }
    for (int row = 0; status == SPT_OK && row < model->hub.row_count; row++) {
        double life;
        status = find_row_life(model, &solution, row, c, sum->duty->modified, &life);
        sum->damage[row] += revolutions / life;
    }
    return status;
}

/* Adds the damage of all cases at one position of the cages, which has this share of the
 * revolutions. */
static enum spt_status add_cases(const struct spt_hub_model *model, double share, double mean_rpm,
                                 struct sum *sum, int *failed_case)
{
    for (int i = 0; i < sum->duty->count; i++) {
        const struct spt_setting_case *c = &sum->duty->cases[i];
        double revolutions = c->time_share * c->speed_rpm / mean_rpm;
        if (revolutions == 0)
            continue;
        enum spt_status status = add_case(model, i, share * revolutions, sum);
        if (status != SPT_OK) {
            *failed_case = i;
            return status;
        }
    }
    return SPT_OK;
}

static enum spt_status add_positions(const struct spt_hub_model *model, double mean_rpm,
                                     struct sum *sum, int *failed_case)
{
    int positions = sum->duty->cage_positions;
    if (positions <= 1)
        return add_cases(model, 1.0, mean_rpm, sum, failed_case);
    /* the copy shares the caller's tables, so the cages are turned back at the end */
    struct spt_hub_model turned = *model;
    enum spt_status status = SPT_OK;
    for (int i = 0; i < positions && status == SPT_OK; i++) {
        turned.hub = model->hub;
        spt_hub_turn_cage(&turned, (double)i / positions);
        status = add_cases(&turned, 1.0 / positions, mean_rpm, sum, failed_case);
    }
    turned.hub = model->hub;
    spt_hub_turn_cage(&turned, 0);
    return status;
}

static void fill(const struct spt_hub_model *model, const struct sum *sum, double mean_rpm,
                 struct spt_setting_point *point)
{
    double percent =
        sum->duty->reliability_percent > 0 ? sum->duty->reliability_percent : SPT_BASIC_RELIABILITY;
    int rows = model->hub.row_count;
    for (int row = 0; row < rows; row++) {
        point->row_mrev[row] = spt_quotient(1, sum->damage[row]);
        point->row_h[row] = point->row_mrev[row] * 1e6 / (60 * mean_rpm);
    }
    point->life_mrev = spt_survival_series(point->row_mrev, rows, percent);
    point->life_h = point->life_mrev * 1e6 / (60 * mean_rpm);
}

enum spt_status spt_setting_life(const struct spt_hub_model *model,
                                 const struct spt_setting_duty *duty, double setting_mm,
                                 struct spt_setting_trail *trail, struct spt_setting_point *point,
                                 int *failed_case)
{
    struct spt_setting_trail own = {.known = {false}};
    struct sum sum = {
        .duty = duty, .setting_mm = setting_mm, .trail = trail != NULL ? trail : &own};
    int unused = -1;
    int *failed = failed_case != NULL ? failed_case : &unused;
    clear(setting_mm, point);
    *failed = -1;
    if (!duty_is_valid(duty))
        return SPT_BAD_ARGUMENT;
    double mean_rpm = find_mean_speed(duty);
    if (mean_rpm == 0)
        return SPT_NOT_APPLICABLE;
    enum spt_status status = add_positions(model, mean_rpm, &sum, failed);
    if (status == SPT_OK)
        fill(model, &sum, mean_rpm, point);
    return status;
}

enum spt_status spt_setting_curve(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty, double lowest_mm,
                                  double highest_mm, int count, struct spt_setting_point *points)
{
    struct spt_setting_trail trail = {.known = {false}};
    bool fine = count > 1 && lowest_mm < highest_mm;
    enum spt_status status = fine ? SPT_OK : SPT_BAD_ARGUMENT;
    if (!points)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++) {
        double setting = lowest_mm + (highest_mm - lowest_mm) * i / (count > 1 ? count - 1 : 1);
        clear(setting, &points[i]);
        if (status == SPT_OK)
            status = spt_setting_life(model, duty, setting, &trail, &points[i], NULL);
    }
    return status;
}
