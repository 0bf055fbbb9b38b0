/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/lever.h"
#include "base/table.h"
#include "study/life/lever_machine.h"

#include <math.h>

enum spt_status spt_lever_set_grade(struct spt_case *question, int grade)
{
    struct spt_lubricant *oil = &question->lubricant;
    oil->viscosity_40_mm2_s = spt_viscosity_grade(grade)->nu40_mm2_s;
    enum spt_status status = spt_viscosity_100_from_index(
        oil->viscosity_40_mm2_s, oil->viscosity_index, &oil->viscosity_100_mm2_s);
    if (!status)
        status = spt_viscosity_line(40, oil->viscosity_40_mm2_s, 100, oil->viscosity_100_mm2_s,
                                    &oil->line);
    return status;
}

static void scale_ratings(struct spt_case *question, double factor)
{
    for (int i = 0; i < question->bearing_count; i++) {
        struct spt_bearing *bearing = &question->bearings[i].bearing;
        bearing->dynamic_load_rating_n *= factor;
        bearing->static_load_rating_n *= factor;
        bearing->fatigue_load_limit_n *= factor;
    }
}

struct spt_adjustment spt_lever_adjustment(enum spt_lever lever, double value, bool relaxing)
{
    struct spt_adjustment change = spt_adjustment_none();
    if (lever == SPT_LEVER_CLEANLINESS)
        *(relaxing ? &change.cleanest : &change.dirtiest) = (int)value;
    else if (lever == SPT_LEVER_WATER)
        *(relaxing ? &change.least_water_ppm : &change.most_water_ppm) = value;
    else if (lever == SPT_LEVER_REGREASING)
        *(relaxing ? &change.least_age_h : &change.most_age_h) = value;
    else if (lever == SPT_LEVER_TEMPERATURE)
        change.temperature_rise_k = value;
    else if (lever == SPT_LEVER_LOAD)
        change.load_factor = value;
    return change;
}

/* Computes the setting factors of a hub with its loads times `factor`; the bench is restored. */
static enum spt_status set_load_factors(double factor, const struct spt_reach_workspace *workspace,
                                        int count)
{
    double(*factors)[2] = workspace->bench->workspace->factors;
    bool rated = workspace->bench->rated;
    enum spt_status status = spt_hub_bench_load(workspace->bench, factor, NULL);
    if (status == SPT_OK)
        status = spt_hub_bench_factors(workspace->bench, false, workspace->bench->mounted_mm,
                                       factors, NULL);
    for (int i = 0; status == SPT_OK && i < 2 * count; i++)
        workspace->phases[i].setting_factor = factors[i % count][i / count];
    enum spt_status back = spt_hub_bench_load(workspace->bench, 1, NULL);
    if (back == SPT_OK && rated)
        back = spt_hub_bench_rate(workspace->bench);
    return status == SPT_OK ? back : status;
}

enum spt_status spt_lever_change(const struct spt_case *question, enum spt_lever lever,
                                 double value, bool relaxing,
                                 const struct spt_reach_workspace *workspace,
                                 struct spt_case *changed)
{
    struct spt_adjustment change = spt_lever_adjustment(lever, value, relaxing);
    if (lever == SPT_LEVER_END_PLAY)
        return workspace->bench
                   ? spt_hub_bench_case(workspace->bench, value, workspace->phases, changed, NULL)
                   : SPT_BAD_ARGUMENT;
    spt_adjust_case(question, &change, workspace->phases, changed);
    if (spt_machine_lever_is(lever))
        return spt_machine_lever_set(question, lever, value, relaxing, workspace->phases);
    if (lever == SPT_LEVER_RATING)
        scale_ratings(changed, value);
    if (lever == SPT_LEVER_LOAD && workspace->bench)
        return set_load_factors(value, workspace, question->bearings[0].phase_count);
    return lever == SPT_LEVER_GRADE ? spt_lever_set_grade(changed, (int)value) : SPT_OK;
}

enum spt_status spt_lever_life(const struct spt_case *stated, const struct spt_case *changed,
                               struct spt_phase_result *results, double *life_h)
{
    struct spt_case now = *changed;
    struct spt_remaining remaining;
    if (!(stated->past.hours_run > 0))
        return spt_case_life(changed, results, life_h);
    if (!now.past.as_run)
        now.past.as_run = stated;
    enum spt_status status = spt_remaining(&now, results, &remaining);
    *life_h = remaining.hours_run + remaining.life_h;
    return status;
}

enum spt_status spt_reach_life(const struct spt_case *question, enum spt_lever lever, double value,
                               bool relaxing, const struct spt_reach_workspace *workspace,
                               double *life_h)
{
    struct spt_case changed;
    enum spt_status status =
        spt_lever_change(question, lever, value, relaxing, workspace, &changed);
    *life_h = (double)NAN;
    if (status || !spt_case_within_temperatures(&changed))
        return status;
    return spt_lever_life(question, &changed, workspace->results, life_h);
}
