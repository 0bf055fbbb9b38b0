/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "base/quotient.h"
#include "spalltime/statistics.h"
#include "study/hub/cage_damage.h"
#include "study/hub/setting_store.h"

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

/* Damage of a row under one case with its factors, modified or basic; NaN where the modified life
 * has no value. */
static double rate_damage(const struct spt_setting_duty *duty, int number, int row,
                          const struct spt_cage_damage *damage)
{
    double own = duty->modified ? damage->modified[row] : damage->basic[row];
    return own / duty->cases[number].life_factor[row];
}

/* Adds one case, which has this share of the revolutions. */
static enum spt_status add_case(const struct spt_setting_terms *terms, int number, double share,
                                struct spt_setting_trail *trail, struct spt_setting_solved *sum)
{
    const struct spt_setting_duty *duty = terms->duty, *other = terms->reference;
    const struct spt_setting_case *c = &duty->cases[number];
    struct spt_cage_damage damage;
    struct spt_cage_question question = {.model = terms->model,
                                         .positions = duty->cage_positions,
                                         .setting_mm = sum->setting_mm,
                                         .load = &c->load};
    if (other || duty->modified)
        question.lubrication = other ? other->cases[number].lubrication : c->lubrication;
    enum spt_status status = spt_cage_damage(&question, &trail->cases[number], &damage);
    for (int row = 0; status == SPT_OK && row < terms->model->hub.row_count; row++) {
        sum->damage[row] += share * rate_damage(duty, number, row, &damage);
        if (other)
            sum->reference_damage[row] += share * rate_damage(other, number, row, &damage);
        if (isnan(sum->damage[row]))
            status = SPT_NOT_APPLICABLE;
    }
    return status;
}

enum spt_status spt_setting_solve(const struct spt_setting_terms *terms, double setting_mm,
                                  struct spt_setting_trail *trail,
                                  struct spt_setting_solved *solved, int *failed_case)
{
    const struct spt_setting_duty *duty = terms->duty;
    double none = terms->reference ? 0 : (double)NAN;
    *solved = (struct spt_setting_solved){setting_mm, {0, 0}, {none, none}};
    *failed_case = -1;
    if (!duty_is_valid(duty))
        return SPT_BAD_ARGUMENT;
    double mean_rpm = find_mean_speed(duty);
    if (mean_rpm == 0)
        return SPT_NOT_APPLICABLE;
    for (int i = 0; i < duty->count; i++) {
        double share = duty->cases[i].time_share * duty->cases[i].speed_rpm / mean_rpm;
        if (share == 0)
            continue;
        enum spt_status status = add_case(terms, i, share, trail, solved);
        if (status != SPT_OK) {
            *failed_case = i;
            return status;
        }
    }
    return SPT_OK;
}

struct spt_setting_point spt_setting_point_of(const struct spt_hub_model *model,
                                              const struct spt_setting_duty *duty,
                                              double setting_mm, const double damage[2])
{
    struct spt_setting_point point;
    clear(setting_mm, &point);
    if (isnan(damage[0]))
        return point;
    double percent =
        duty->reliability_percent > 0 ? duty->reliability_percent : SPT_BASIC_RELIABILITY;
    double mean_rpm = find_mean_speed(duty);
    int rows = model->hub.row_count;
    for (int row = 0; row < rows; row++) {
        point.row_mrev[row] = spt_quotient(1, damage[row]);
        point.row_h[row] = point.row_mrev[row] * 1e6 / (60 * mean_rpm);
    }
    point.life_mrev = spt_survival_series(point.row_mrev, rows, percent);
    point.life_h = point.life_mrev * 1e6 / (60 * mean_rpm);
    return point;
}

enum spt_status spt_setting_life(const struct spt_hub_model *model,
                                 const struct spt_setting_duty *duty, double setting_mm,
                                 struct spt_setting_trail *trail, struct spt_setting_point *point,
                                 int *failed_case)
{
    const struct spt_setting_terms terms = {model, duty, NULL};
    struct spt_setting_trail own;
    struct spt_setting_solved solved;
    int unused;
    if (!trail)
        memset(&own, 0, sizeof own);
    enum spt_status status = spt_setting_solve(&terms, setting_mm, trail ? trail : &own, &solved,
                                               failed_case ? failed_case : &unused);
    clear(setting_mm, point);
    if (status == SPT_OK)
        *point = spt_setting_point_of(model, duty, setting_mm, solved.damage);
    return status;
}

enum spt_status spt_setting_curve(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty, double lowest_mm,
                                  double highest_mm, int count, struct spt_setting_point *points)
{
    struct spt_setting_trail trail = {.cases = {{.known = {false}}}};
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
