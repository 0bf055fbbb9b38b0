/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/sweep.h"

#include <math.h>
#include <string.h>

#include "base/table.h"
#include "spalltime/lubricant.h"
#include "study/sweep/sweep_row.h"

bool spt_sweep_reports(enum spt_flag flag)
{
    static const bool left_out[] = {
        [SPT_FLAG_SLOPE] = true,
        [SPT_FLAG_LOAD_CENTRE_ASSUMED] = true,
        [SPT_FLAG_BELT_SLACK] = true,
        [SPT_FLAG_PITCH_ASSUMED] = true,
        [SPT_FLAG_FATIGUE_LIMIT_ASSUMED] = true,
        [SPT_FLAG_INDEX_ASSUMED] = true,
        [SPT_FLAG_CODE_ROUNDED] = true,
        [SPT_FLAG_WATER_ASSUMED] = true,
        [SPT_FLAG_AGE_ASSUMED] = true,
        [SPT_FLAG_SURROUNDINGS_ASSUMED] = true,
        [SPT_FLAG_AMBIENT_ASSUMED] = true,
        [SPT_FLAG_FILTRATION_ASSUMED] = true,
        [SPT_FLAG_CONDITION_KEPT] = true,
        [SPT_FLAG_SHARES_SCALED] = true,
        [SPT_FLAG_HISTORY_BINNED] = true,
        [SPT_FLAG_HISTORY_REVERSED] = true,
        [SPT_FLAG_HISTORY_GAPS] = true,
        [SPT_FLAG_HISTORY_LONG_HOLD] = true,
        [SPT_FLAG_HISTORY_COARSE] = true,
        [SPT_FLAG_HISTORY_EXPONENT] = true,
        [SPT_FLAG_PRELOAD_CURE] = true,
        [SPT_FLAG_RUNNING_ASSUMED] = true,
        [SPT_FLAG_SHEET_STATIC_FACTOR] = true,
        [SPT_FLAG_HUB_BY_SHEET] = true,
        [SPT_FLAG_LOAD_CENTRE_ESTIMATED] = true,
        [SPT_FLAG_CLEARANCE] = true,
        [SPT_FLAG_ZONE_UNKNOWN] = true,
        [SPT_FLAG_ZONE_ESTIMATED] = true,
        [SPT_FLAG_ZONE_NARROW] = true,
        [SPT_FLAG_TIP_NEAR] = true,
        [SPT_FLAG_EYE_LIFTS] = true,
        [SPT_FLAG_SCRUB_LEFT_OUT] = true,
        [SPT_FLAG_BRAKING_SHARED] = true,
        [SPT_FLAG_CLASS_FROM_SEAL] = true,
        [SPT_FLAG_CLASS_FROM_FILTER] = true,
        [SPT_FLAG_CLASS_UNKNOWN] = true,
        [SPT_FLAG_SEAL_CONTRADICTED] = true,
        [SPT_FLAG_WATER_EXPECTED] = true,
        [SPT_FLAG_FILTER_HOLDS] = true,
        [SPT_FLAG_FILTER_OVERWHELMED] = true,
        [SPT_FLAG_PHASE_DENTS] = true,
    };
    SPT_ONE_EACH(left_out, SPT_FLAG_COUNT);
    return (int)flag >= 0 && flag < SPT_FLAG_COUNT && !left_out[flag];
}

int spt_sweep_row_value(int row, enum spt_sweep_value value)
{
    return (1 + row) * SPT_SWEEP_ONE_COUNT + (int)value;
}

unsigned long long spt_sweep_rows(const struct spt_sweep *sweep)
{
    unsigned long long rows = 1;
    if (sweep->count < 1)
        return 0;
    if (sweep->zip)
        return sweep->axes[0].count;
    for (int a = 0; a < sweep->count; a++) {
        if (!sweep->axes[a].count || rows > SPT_SWEEP_ROWS_MAX / sweep->axes[a].count)
            return 0;
        rows *= sweep->axes[a].count;
    }
    return rows;
}

size_t spt_sweep_index(const struct spt_sweep *sweep, int axis, unsigned long long row)
{
    if (sweep->zip)
        return (size_t)row;
    for (int a = sweep->count - 1; a > axis; a--)
        row /= sweep->axes[a].count;
    return (size_t)(row % sweep->axes[axis].count);
}

/* The machine decides which loads can be swept. */
static bool fields_suit(const struct spt_case *question, const bool *swept)
{
    bool wheel =
        swept[SPT_SWEEP_WHEEL_LOAD] || swept[SPT_SWEEP_SIDE_FORCE] || swept[SPT_SWEEP_SIDE_SHARE];
    if (question->vehicle)
        return !wheel && !swept[SPT_SWEEP_SPEED] && !swept[SPT_SWEEP_POWER] &&
               !swept[SPT_SWEEP_TORQUE] && (question->hub || !swept[SPT_SWEEP_SETTING]);
    if (swept[SPT_SWEEP_PAYLOAD])
        return false;
    bool own = swept[SPT_SWEEP_SETTING] || swept[SPT_SWEEP_ROAD_SPEED];
    if ((swept[SPT_SWEEP_POWER] || swept[SPT_SWEEP_TORQUE]) &&
        (!question->machine || (swept[SPT_SWEEP_POWER] && swept[SPT_SWEEP_TORQUE])))
        return false;
    return question->hub ? !(swept[SPT_SWEEP_SIDE_FORCE] && swept[SPT_SWEEP_SIDE_SHARE]) &&
                               !(swept[SPT_SWEEP_SPEED] && swept[SPT_SWEEP_ROAD_SPEED])
                         : !wheel && !own;
}

static bool fields_agree(const struct spt_case *question, const bool *swept)
{
    bool parts = swept[SPT_SWEEP_RADIAL_LOAD] || swept[SPT_SWEEP_AXIAL_LOAD];
    bool both = swept[SPT_SWEEP_RADIAL_LOAD] && swept[SPT_SWEEP_AXIAL_LOAD];
    const struct spt_bearing_case *part = &question->bearings[0];
    if ((swept[SPT_SWEEP_VISCOSITY_40] && swept[SPT_SWEEP_GRADE]) ||
        (swept[SPT_SWEEP_CLEANLINESS] && swept[SPT_SWEEP_CONTAMINATION]) ||
        (swept[SPT_SWEEP_EQUIVALENT_LOAD] && parts))
        return false;
    if (question->bearing_count > 1 && (parts || swept[SPT_SWEEP_EQUIVALENT_LOAD]))
        return false;
    for (int j = 0; parts && !both && j < part->phase_count; j++)
        if (!isnan(part->phases[j].equivalent_load_n))
            return false;
    return !swept[SPT_SWEEP_GREASE_AGE] || question->lubricant.kind == SPT_LUBRICATION_GREASE;
}

/* True where aged grease takes its surroundings from phases that stand still, whose inputs may be
 * swept too. */
static bool ages_at_rest(const struct spt_case *question, const bool *swept)
{
    const struct spt_bearing_case *part = &question->bearings[0];
    bool aged = swept[SPT_SWEEP_GREASE_AGE], stands = false;
    for (int j = 0; j < part->phase_count; j++) {
        aged = aged || part->phases[j].condition.grease_age_h > 0;
        stands = stands || !(part->phases[j].speed_rpm > 0);
    }
    return question->lubricant.kind == SPT_LUBRICATION_GREASE && aged && stands;
}

static bool suits_kernel(const struct spt_case *question, const bool *swept)
{
    const struct spt_bearing_case *part = &question->bearings[0];
    for (int j = 0; j < part->phase_count; j++)
        if (isnan(part->phases[j].temperature_c) && !swept[SPT_SWEEP_TEMPERATURE])
            return false;
    /* the kernel knows no clearance, whose factor depends on the load of the row */
    return question->bearing_count == 1 && !part->bearing.has_seat &&
           !ages_at_rest(question, swept);
}

/* Rows without a class, e_C, or what they follow from, have no life. */
static bool knows_dirt(const struct spt_case *question, const bool *swept)
{
    bool known = true;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++)
            known = known && !spt_condition_is_unknown(&question->bearings[i].phases[j].condition);
    return known || swept[SPT_SWEEP_CLEANLINESS] || swept[SPT_SWEEP_CONTAMINATION];
}

enum spt_status spt_sweep_plan_make(const struct spt_case *question, const bool *swept,
                                    const bool *wanted, struct spt_sweep_plan *plan)
{
    memset(plan, 0, sizeof *plan);
    if (!fields_suit(question, swept) || !fields_agree(question, swept) ||
        !knows_dirt(question, swept))
        return SPT_BAD_ARGUMENT;
    plan->question = question;
    memcpy(plan->swept, swept, sizeof plan->swept);
    for (int v = 0; v < SPT_SWEEP_VALUE_COUNT; v++)
        plan->wanted[v] =
            wanted ? wanted[v] : v < SPT_SWEEP_SETTING_FACTOR || question->hub != NULL;
    plan->flagged = !wanted;
    plan->kernel = suits_kernel(question, swept);
    plan->density_factor = 1;
    return isnan(question->lubricant.density_g_cm3)
               ? SPT_OK
               : spt_film_density_factor(question->lubricant.density_g_cm3, &plan->density_factor);
}
