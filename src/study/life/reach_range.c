/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/reach_work.h"

#include <math.h>

#include "study/life/lever_machine.h"

/* ln(life/target) where no life can be stated; far below any other */
#define NO_LIFE (-100.0)
#define LEAST_FACTOR 0.01 /* smallest factor on loads and ratings that is tried */
#define MOST_FACTOR 100.0
#define MOST_LOAD_SHARE 0.5 /* P/C to which ISO 281 a_ISO holds (from memory) */
#define MOST_AGE_H 1e6
#define MOST_WARMING_K 100.0
#define WARMING_STEP_K 1.0 /* step of the search for the warming that gives a life */

double spt_reach_margin_of(double life_h, double target_h)
{
    return isnan(life_h) ? NO_LIFE : fmax(fmin(log(life_h / target_h), -NO_LIFE), NO_LIFE);
}

double spt_reach_margin(double value, void *context)
{
    struct spt_reach_work *work = context;
    double life_h = (double)NAN;
    if (spt_reach_life(work->question, work->lever, value, work->relaxing, work->workspace,
                       &life_h))
        return NO_LIFE;
    return spt_reach_margin_of(life_h, work->target_h);
}

double spt_reach_life_at(struct spt_reach_work *work, double value)
{
    double life_h = (double)NAN;
    spt_reach_life(work->question, work->lever, value, work->relaxing, work->workspace, &life_h);
    return life_h;
}

/* Water, grease age or class of one phase. */
static double quantity_of(const struct spt_phase *phase, enum spt_lever lever)
{
    if (lever == SPT_LEVER_WATER)
        return phase->condition.water_ppm;
    if (lever == SPT_LEVER_REGREASING)
        return phase->condition.grease_age_h;
    return (double)phase->condition.cleanliness;
}

/* False for the cleanliness class of a phase that states e_C instead. */
static bool has_quantity(const struct spt_phase *phase, enum spt_lever lever)
{
    return lever != SPT_LEVER_CLEANLINESS || isnan(phase->condition.contamination_factor);
}

/* The worst value of the quantity over all phases, which a remedy improves; when relaxing the best,
 * which worsens first. NaN where no phase has the quantity. */
static double find_relevant_value(const struct spt_case *question, enum spt_lever lever,
                                  bool relaxing)
{
    double value = (double)NAN;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_phase *phase = &question->bearings[i].phases[j];
            double other = quantity_of(phase, lever);
            if (has_quantity(phase, lever))
                value = relaxing ? fmin(value, other) : fmax(value, other);
        }
    return value;
}

/* The largest cooling of all phases with which none falls below 0 degC. */
static double find_largest_cooling_k(const struct spt_case *question)
{
    double least_c = (double)INFINITY;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_phase *phase = &question->bearings[i].phases[j];
            least_c = fmin(least_c,
                           isnan(phase->temperature_c) ? phase->ambient_c : phase->temperature_c);
        }
    return fmax(least_c, 0);
}

bool spt_reach_has(const struct spt_reach_work *work, enum spt_lever lever)
{
    if (lever == SPT_LEVER_REGREASING)
        return work->question->lubricant.kind == SPT_LUBRICATION_GREASE;
    if (lever == SPT_LEVER_CLEANLINESS)
        return !isnan(find_relevant_value(work->question, lever, false));
    if (lever == SPT_LEVER_END_PLAY)
        return !isnan(work->best_mm);
    if (spt_machine_lever_is(lever))
        return !isnan(spt_machine_lever_present(work->question, lever, work->relaxing));
    return true;
}

double spt_reach_present(const struct spt_reach_work *work)
{
    switch (work->lever) {
    case SPT_LEVER_CLEANLINESS:
    case SPT_LEVER_WATER:
    case SPT_LEVER_REGREASING:
        return find_relevant_value(work->question, work->lever, work->relaxing);
    case SPT_LEVER_GRADE:
        return spt_reach_grade(work->question);
    case SPT_LEVER_TEMPERATURE:
        return 0;
    case SPT_LEVER_END_PLAY:
        return work->workspace->bench->mounted_mm;
    case SPT_LEVER_POWER:
    case SPT_LEVER_PAYLOAD:
    case SPT_LEVER_BEND_SPEED:
    case SPT_LEVER_BEND_RADIUS:
        return spt_machine_lever_present(work->question, work->lever, work->relaxing);
    case SPT_LEVER_LOAD:
    case SPT_LEVER_RATING:
    case SPT_LEVER_COUNT:
        return 1;
    }
    return (double)NAN;
}

/* Life falls on either side of the best setting, so that the lever is limited to the side of the
 * present one. A remedy avoids preload, and a slipping end play ends where preload begins, except
 * for a hub that is preloaded already. */
static struct spt_lever_range setting_range(const struct spt_reach_work *work, double present)
{
    const struct spt_hub_case *hub = work->question->hub;
    if (!work->relaxing)
        return (struct spt_lever_range){work->best_mm, fmax(present, work->least_mm)};
    double lowest_mm =
        present < work->least_mm ? hub->lowest_mm : fmax(hub->lowest_mm, work->least_mm);
    return (struct spt_lever_range){present, present < work->best_mm
                                                 ? fmin(present, lowest_mm)
                                                 : fmax(present, hub->highest_mm)};
}

double spt_reach_last(struct spt_reach_work *work, double least, double reaches, double fails)
{
    for (int i = 0; i < 200; i++) {
        double middle = reaches + (fails - reaches) / 2;
        if (middle == reaches || middle == fails)
            break;
        if (spt_reach_margin(middle, work) >= least)
            reaches = middle;
        else
            fails = middle;
    }
    return reaches;
}

/* Where no life can be stated now the oil may be too stiff: the least warming that gives a life,
 * which is the longest that warming gives; 0 where none does. */
static double find_warming(struct spt_reach_work *work)
{
    for (int step = 1; step * WARMING_STEP_K <= MOST_WARMING_K; step++)
        if (!isnan(spt_reach_life_at(work, step * WARMING_STEP_K)))
            return spt_reach_last(work, nextafter(NO_LIFE, 0), step * WARMING_STEP_K,
                                  (step - 1) * WARMING_STEP_K);
    return 0;
}

/* Cooling lengthens the life until the oil is too stiff for one to be stated. */
static struct spt_lever_range cooling_range(struct spt_reach_work *work)
{
    double cooling_k = find_largest_cooling_k(work->question);
    double coldest_k = cooling_k > 0 ? -cooling_k : 0;
    bool life_there = !isnan(spt_reach_life_at(work, coldest_k));
    if (!life_there && isnan(work->present_life_h))
        return (struct spt_lever_range){find_warming(work), 0};
    if (!life_there)
        coldest_k = spt_reach_last(work, nextafter(NO_LIFE, 0), 0, coldest_k);
    return (struct spt_lever_range){coldest_k, 0};
}

/* The factor on all loads at which the first bearing that turns has P = C/2, where the life factor
 * ends; 1 where it is there already. */
static double most_load_factor(const struct spt_reach_work *work)
{
    double most = MOST_FACTOR;
    for (int i = 0; i < work->question->bearing_count; i++) {
        struct spt_bearing_result bearing;
        if (spt_assess_bearing(work->question, i, 0, work->workspace->results, &bearing))
            continue;
        for (int j = 0; j < bearing.phase_count; j++) {
            const struct spt_phase_result *result = &bearing.phases[j];
            if (result->phase->speed_rpm > 0 && result->phase->time_share > 0)
                most = fmin(most, MOST_LOAD_SHARE * result->dynamic_load_rating_n /
                                      result->dynamic.load_n);
        }
    }
    return fmax(most, 1);
}

struct spt_lever_range spt_reach_range(struct spt_reach_work *work, double present)
{
    bool relaxing = work->relaxing;
    switch (work->lever) {
    case SPT_LEVER_WATER:
        return relaxing ? (struct spt_lever_range){present, fmax(present, SPT_WATER_TESTED_PPM)}
                        : (struct spt_lever_range){fmin(present, SPT_WATER_REFERENCE_PPM), present};
    case SPT_LEVER_TEMPERATURE:
        return relaxing ? (struct spt_lever_range){0, MOST_WARMING_K} : cooling_range(work);
    case SPT_LEVER_LOAD:
        return relaxing ? (struct spt_lever_range){1, most_load_factor(work)}
                        : (struct spt_lever_range){LEAST_FACTOR, 1};
    case SPT_LEVER_REGREASING:
        return relaxing ? (struct spt_lever_range){present, fmax(MOST_AGE_H, present)}
                        : (struct spt_lever_range){0, present};
    case SPT_LEVER_RATING:
        return relaxing ? (struct spt_lever_range){1, 1 / most_load_factor(work)}
                        : (struct spt_lever_range){MOST_FACTOR, 1};
    case SPT_LEVER_END_PLAY:
        return setting_range(work, present);
    case SPT_LEVER_CLEANLINESS:
    case SPT_LEVER_GRADE:
    case SPT_LEVER_POWER:
    case SPT_LEVER_PAYLOAD:
    case SPT_LEVER_BEND_SPEED:
    case SPT_LEVER_BEND_RADIUS:
    case SPT_LEVER_COUNT:
        break;
    }
    return (struct spt_lever_range){present, present};
}
