/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/verdict.h"

#include <math.h>

#include "base/quotient.h"
#include "spalltime/statistics.h"

/* The life of a phase up to a step, with everything after it left out. */
static double life_up_to(const struct spt_phase_result *result, double a1, enum spt_stair step)
{
    const double factors[] = {
        [SPT_STAIR_RATING] = 1,
        [SPT_STAIR_RELIABILITY] = a1,
        [SPT_STAIR_SETTING] = result->phase->setting_factor,
        [SPT_STAIR_CLEARANCE] = result->zone.factor,
        [SPT_STAIR_FILM] = result->factor.a_iso,
        [SPT_STAIR_WATER] = result->water_factor,
    };
    double life_h = result->basic_rating_life_h;
    if (isinf(life_h)) /* it does no damage: no factor counts */
        return life_h;
    for (int i = 0; i <= (int)step; i++)
        life_h *= factors[i];
    return life_h;
}

/* The life of a bearing up to a step. */
static double combine_phases(const struct spt_bearing_result *bearing, double a1,
                             enum spt_stair step)
{
    double shares[SPT_PHASES_MAX], lives_h[SPT_PHASES_MAX], life_h;
    for (int i = 0; i < bearing->phase_count; i++) {
        shares[i] = bearing->phases[i].phase->time_share;
        lives_h[i] = life_up_to(&bearing->phases[i], a1, step);
    }
    return spt_damage_life(shares, lives_h, bearing->phase_count, &life_h) ? (double)NAN : life_h;
}

static void add_step(struct spt_stairs *stairs, enum spt_stair what, double life_h)
{
    const double before_h = stairs->count ? stairs->steps[stairs->count - 1].life_h : life_h;
    const double factor = isinf(before_h) && isinf(life_h) ? 1 : spt_quotient(life_h, before_h);
    stairs->steps[stairs->count++] =
        (struct spt_stair_step){what, isinf(factor) ? (double)NAN : factor, life_h};
}

/* Hubs alone have a setting, seats that state their clearance a load zone of their own. */
static bool has_step(const struct spt_case *question, enum spt_stair step)
{
    bool seated = false;
    for (int b = 0; b < question->bearing_count; b++)
        seated = seated || question->bearings[b].bearing.has_seat;
    if (step == SPT_STAIR_SETTING)
        return question->hub;
    return step != SPT_STAIR_CLEARANCE || seated;
}

enum spt_status spt_stairs_of(const struct spt_case *question, const struct spt_schedule *plan,
                              struct spt_phase_result *results, struct spt_stairs *stairs)
{
    double lives_h[SPT_STAIR_PAST][SPT_BEARINGS_MAX] = {{0}}, a1;
    *stairs = (struct spt_stairs){0};
    enum spt_status status = spt_life_reliability_factor(question->reliability_percent, &a1);
    for (int b = 0; !status && b < question->bearing_count; b++) {
        struct spt_bearing_result bearing;
        status = spt_assess_bearing(question, b, 1u << SPT_CAUSE_WORN_GREASE, results, &bearing);
        for (int i = 0; !status && i < (int)SPT_STAIR_PAST; i++)
            lives_h[i][b] = combine_phases(&bearing, a1, (enum spt_stair)i);
    }
    for (int i = 0; !status && i < (int)SPT_STAIR_PAST; i++)
        if (has_step(question, (enum spt_stair)i))
            add_step(stairs, (enum spt_stair)i,
                     spt_survival_series(lives_h[i], question->bearing_count,
                                         i == SPT_STAIR_RATING ? SPT_BASIC_RELIABILITY
                                                               : question->reliability_percent));
    if (!status && plan->remaining.hours_run > 0)
        add_step(stairs, SPT_STAIR_PAST, plan->remaining.life_h);
    if (!status && question->lubricant.kind == SPT_LUBRICATION_GREASE)
        add_step(stairs, SPT_STAIR_GREASE, plan->steady_h);
    if (!status && plan->service_followed)
        add_step(stairs, SPT_STAIR_SERVICE, plan->life_h);
    return status;
}
