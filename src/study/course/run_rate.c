/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/course/run.h"

#include <math.h>
#include <stddef.h>

#include "base/quotient.h"
#include "model/constants.h"
#include "spalltime/life.h"

#define RANGES_PRIME 1000003u /* so that the ranges of phases do not cancel each other */

int spt_run_place_note(struct spt_placed_notes *placed, const struct spt_note *note,
                       const struct spt_note_place *place)
{
    for (int i = 0; i < placed->notes.count; i++)
        if (placed->notes.list[i].flag == note->flag)
            return i;
    placed->places[placed->notes.count] = *place;
    spt_notes_add(&placed->notes, note->flag, note->value, note->limit);
    return -1;
}

static void add_note(struct spt_placed_notes *placed, const struct spt_note *note, int bearing,
                     const char *phase)
{
    const struct spt_note_place here = {bearing, phase, 0, 0};
    int at = spt_run_place_note(placed, note, &here);
    if (at < 0)
        return;
    struct spt_note_place *place = &placed->places[at];
    place->more += place->bearing == bearing;
    if (place->bearing != bearing)
        place->others |= 1u << bearing;
}

/* Where two formulas of a phase meet, its rate has a kink or a small jump: a number that differs on
 * the two sides. */
static uint64_t range_of(const struct spt_phase_result *result)
{
    const double kappa = result->effective_viscosity_ratio;
    const bool dented = result->contamination_factor < result->present_contamination_factor;
    uint64_t range = (uint64_t)(kappa >= SPT_KAPPA_MIN) + (kappa >= SPT_AISO_KAPPA_THIN) +
                     (kappa >= SPT_AISO_KAPPA_FULL) + (kappa >= SPT_KAPPA_MAX);
    range = 5 * range + (uint64_t)result->surroundings.moisture;
    range = 5 * range + (uint64_t)result->surroundings.dust;
    range = 2 * range + (result->factor.a_iso >= SPT_LIFE_FACTOR_MAX);
    range = 3 * range + (result->factor.ep_applied ? 1 + result->factor.capped : 0);
    range = 3 * range + (result->water_factor < 1) + (result->water_factor <= SPT_WATER_FLOOR);
    return 2 * range + dented;
}

static void add_ranges(struct spt_run *run, const struct spt_bearing_result *result)
{
    for (int i = 0; i < result->phase_count; i++)
        run->ranges = RANGES_PRIME * run->ranges + range_of(&result->phases[i]);
}

static double find_rate(struct spt_run *run, int bearing, double time_h,
                        struct spt_placed_notes *placed)
{
    struct spt_case changed;
    struct spt_bearing_result result;
    struct spt_adjustment change = spt_run_adjustment(run, run->time_h, time_h);
    spt_adjust_case(spt_run_case(run, run->time_h), &change, run->workspace->phases, &changed);
    spt_run_lay_dents(run, bearing, &changed, run->workspace->phases);
    if (!spt_case_within_temperatures(&changed))
        return (double)NAN;
    enum spt_status status =
        spt_assess_bearing(&changed, bearing, 0, run->workspace->results, &result);
    if (!run->status)
        run->status = status;
    if (status)
        return (double)NAN;
    add_ranges(run, &result);
    for (int i = 0; placed && i < result.phase_count; i++)
        for (int j = 0; j < result.phases[i].notes.count; j++)
            add_note(placed, &result.phases[i].notes.list[j], bearing,
                     result.phases[i].phase->name);
    return spt_quotient(1, result.modified_rating_life_h);
}

/* Half of the dents' effect on ln L: the geometric mean of the rates. A rule of this tool. */
double spt_run_rate(struct spt_run *run, int bearing, double time_h,
                    struct spt_placed_notes *placed)
{
    run->ranges = 0;
    if (run->dents != SPT_RUN_DENTS_HALF)
        return find_rate(run, bearing, time_h, placed);
    run->dents = SPT_RUN_DENTS_CURED;
    const double cured = find_rate(run, bearing, time_h, NULL);
    run->dents = SPT_RUN_DENTS_STAY;
    const double stay = find_rate(run, bearing, time_h, placed);
    run->dents = SPT_RUN_DENTS_HALF;
    return stay == cured ? stay : sqrt(stay) * sqrt(cured);
}
