/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/sweep.h"

#include <math.h>
#include <string.h>

#include "base/quotient.h"
#include "study/hub/cage_damage.h"
#include "study/sweep/sweep_row.h"

/* Length of the workspace of the models of one state of the rings. */
static size_t find_length(const struct spt_case *question)
{
    return SPT_SWEEP_RINGS * spt_hub_workspace_length(&question->hub->hub);
}

static enum spt_status find_setting(const struct spt_sweep_plan *plan, struct spt_sweep_hub *state)
{
    const struct spt_hub_case *hub = plan->question->hub;
    state->mounted_mm = (double)NAN;
    enum spt_status status = spt_hub_thermal_setting(
        &hub->hub, SPT_HUB_STEEL_EXPANSION_K, hub->temperature_difference_k, &state->thermal_mm);
    state->thermal_mm += 0.0; /* turns -0 into 0 */
    if (status != SPT_OK || plan->swept[SPT_SWEEP_SETTING])
        return status;
    if (hub->setting_kind == SPT_HUB_SET_PRELOAD_FORCE)
        return spt_hub_preload_setting(&state->models[SPT_SWEEP_AS_STATED], hub->setting_value,
                                       &state->mounted_mm);
    state->mounted_mm =
        hub->setting_kind == SPT_HUB_SET_END_PLAY ? hub->setting_value : -hub->setting_value;
    return SPT_OK;
}

/* Prepares the models and the setting that the case states. */
static enum spt_status start(const struct spt_sweep_plan *plan, double *workspace,
                             struct spt_sweep_hub *state)
{
    struct spt_hub hub = plan->question->hub->hub;
    size_t length = spt_hub_workspace_length(&hub);
    if (plan->question->bearings[0].phase_count > SPT_HUB_PHASES_MAX)
        return SPT_TOO_SMALL;
    enum spt_status status =
        spt_hub_prepare(&hub, workspace, length, &state->models[SPT_SWEEP_AS_STATED]);
    for (int row = 0; row < 2; row++)
        hub.rows[row].misalignment_x_rad = hub.rows[row].misalignment_y_rad = 0;
    if (status == SPT_OK)
        status =
            spt_hub_prepare(&hub, workspace + length, length, &state->models[SPT_SWEEP_ALIGNED]);
    return status == SPT_OK ? find_setting(plan, state) : status;
}

static enum spt_status make_hub(const struct spt_sweep_plan *plan, bool warm,
                                struct spt_arena *arena, struct spt_sweep_hub **made)
{
    size_t phases = (size_t)plan->question->bearings[0].phase_count;
    size_t length = find_length(plan->question);
    struct spt_sweep_hub *hub = spt_arena_allocate(arena, sizeof *hub);
    double *workspace = spt_arena_allocate(arena, length * sizeof *workspace);
    *made = hub;
    if (!hub || !workspace)
        return SPT_NO_MEMORY;
    hub->warm = warm;
    hub->trails = spt_arena_allocate(arena, phases * sizeof *hub->trails);
    return hub->trails ? start(plan, workspace, hub) : SPT_NO_MEMORY;
}

enum spt_status spt_sweep_workspace_make(const struct spt_sweep_plan *plan, bool warm,
                                         struct spt_arena *arena,
                                         struct spt_sweep_workspace **workspace)
{
    size_t phases = (size_t)spt_case_phase_count(plan->question);
    struct spt_sweep_workspace *made = spt_arena_allocate(arena, sizeof *made);
    *workspace = made;
    if (!made)
        return SPT_NO_MEMORY;
    made->phases = spt_arena_allocate(arena, phases * sizeof *made->phases);
    made->results = spt_arena_allocate(arena, phases * sizeof *made->results);
    if (!made->phases || !made->results)
        return SPT_NO_MEMORY;
    return plan->question->hub ? make_hub(plan, warm, arena, &made->hub) : SPT_OK;
}

void spt_sweep_hub_begin(const struct spt_sweep_plan *plan, struct spt_sweep_hub *hub)
{
    memset(hub->trails, 0, (size_t)plan->question->bearings[0].phase_count * sizeof *hub->trails);
}

/* Leaves only what they took. */
static void forget(struct spt_hub_trail *balances)
{
    memset(balances->known, 0, sizeof balances->known);
}

static bool loads_are_same(const struct spt_hub_load *a, const struct spt_hub_load *b)
{
    return a->force_x_n == b->force_x_n && a->force_y_n == b->force_y_n &&
           a->force_z_n == b->force_z_n && a->moment_x_nmm == b->moment_x_nmm &&
           a->moment_y_nmm == b->moment_y_nmm;
}

/* Computes the lives of both rows under a load and stores them in the trail. */
static void solve(const struct spt_sweep_hub *hub, int rings, const struct spt_hub_load *load,
                  double setting_mm, struct spt_sweep_trail *trail)
{
    struct spt_cage_damage damage;
    const struct spt_cage_question question = {.model = &hub->models[rings],
                                               .positions = SPT_HUB_CAGE_POSITIONS,
                                               .setting_mm = setting_mm,
                                               .load = load};
    if (trail->known && trail->setting_mm == setting_mm && loads_are_same(&trail->load, load))
        return;
    if (!hub->warm || trail->status != SPT_OK)
        forget(&trail->balances);
    trail->known = true;
    trail->load = *load;
    trail->setting_mm = setting_mm;
    trail->status = spt_cage_damage(&question, &trail->balances, &damage);
    for (int row = 0; row < 2; row++)
        trail->row_mrev[row] = spt_quotient(1, damage.basic[row]);
}

/* The status of a row for a status of the hub model. */
static enum spt_sweep_status convert_status(enum spt_status status)
{
    switch (status) {
    case SPT_OK:
        return SPT_SWEEP_OK;
    case SPT_CANNOT_CARRY:
        return SPT_SWEEP_CANNOT_CARRY;
    case SPT_NOT_APPLICABLE:
        return SPT_SWEEP_MOVED_TOO_FAR;
    case SPT_NOT_CONVERGED:
        return SPT_SWEEP_NOT_CONVERGED;
    case SPT_BAD_ARGUMENT:
    case SPT_FREE:
    case SPT_NO_MEMORY:
    case SPT_TOO_SMALL:
    case SPT_STATUS_COUNT:
        break;
    }
    return SPT_SWEEP_REFUSED;
}

/* Setting factors of a phase that turns. */
static enum spt_sweep_status find_factors(struct spt_sweep_hub *hub, int phase,
                                          const struct spt_hub_load *load, double mounted_mm,
                                          double factors[2])
{
    struct spt_sweep_trail *trails = hub->trails[phase];
    const struct spt_sweep_trail *reference = &trails[SPT_SWEEP_ALIGNED];
    const struct spt_sweep_trail *stated = &trails[SPT_SWEEP_AS_STATED];
    solve(hub, SPT_SWEEP_ALIGNED, load, 0, &trails[SPT_SWEEP_ALIGNED]);
    if (reference->status != SPT_OK)
        return convert_status(reference->status);
    if (!isfinite(reference->row_mrev[0] + reference->row_mrev[1]))
        return SPT_SWEEP_NO_REFERENCE;
    solve(hub, SPT_SWEEP_AS_STATED, load, mounted_mm + hub->thermal_mm,
          &trails[SPT_SWEEP_AS_STATED]);
    for (int row = 0; row < 2; row++)
        factors[row] = stated->row_mrev[row] / reference->row_mrev[row];
    return convert_status(stated->status);
}

static struct spt_hub_wheel apply_to_wheel(const struct spt_sweep_plan *plan,
                                           const double *const *columns, int i,
                                           const struct spt_hub_wheel *stated)
{
    const bool *swept = plan->swept;
    struct spt_hub_wheel wheel = *stated;
    if (swept[SPT_SWEEP_WHEEL_LOAD])
        wheel.radial_n = columns[SPT_SWEEP_WHEEL_LOAD][i];
    if (swept[SPT_SWEEP_SIDE_SHARE])
        wheel.side_n = columns[SPT_SWEEP_SIDE_SHARE][i] * wheel.radial_n;
    else if (swept[SPT_SWEEP_SIDE_FORCE])
        wheel.side_n = columns[SPT_SWEEP_SIDE_FORCE][i];
    else if (stated->side_share != 0)
        wheel.side_n = stated->side_share * wheel.radial_n;
    if (swept[SPT_SWEEP_LOAD_FACTOR]) {
        wheel.radial_n *= columns[SPT_SWEEP_LOAD_FACTOR][i];
        wheel.side_n *= columns[SPT_SWEEP_LOAD_FACTOR][i];
        wheel.rearward_n *= columns[SPT_SWEEP_LOAD_FACTOR][i];
        wheel.pad_rearward_n *= columns[SPT_SWEEP_LOAD_FACTOR][i];
        wheel.pad_up_n *= columns[SPT_SWEEP_LOAD_FACTOR][i];
    }
    return wheel;
}

/* A wheel that rolls turns once in 2 pi r; 1 km/h is 10^6/60 mm a minute. */
static double find_speed(const struct spt_sweep_plan *plan, const double *const *columns, int i,
                         double stated_rpm)
{
    if (!plan->swept[SPT_SWEEP_ROAD_SPEED])
        return stated_rpm;
    return columns[SPT_SWEEP_ROAD_SPEED][i] * 1e6 / 60 /
           (2 * acos(-1.0) * plan->question->hub->rolling_radius_mm);
}

static double find_mounted(const struct spt_sweep_plan *plan, const double *const *columns, int i,
                           const struct spt_sweep_hub *hub)
{
    return plan->swept[SPT_SWEEP_SETTING] ? columns[SPT_SWEEP_SETTING][i] : hub->mounted_mm;
}

unsigned long long spt_sweep_hub_flags(const struct spt_sweep_plan *plan,
                                       const double *const *columns, int i,
                                       const struct spt_sweep_hub *hub)
{
    double mounted_mm = find_mounted(plan, columns, i, hub);
    unsigned long long flags = 0;
    if (spt_hub_preload(mounted_mm, hub->thermal_mm) > 0)
        flags |= SPT_SWEEP_FLAG_BIT(SPT_FLAG_PRELOAD);
    if (mounted_mm > SPT_HUB_PLAY_HIGH_MM)
        flags |= SPT_SWEEP_FLAG_BIT(SPT_FLAG_END_PLAY);
    return flags;
}

/* Both rows of a phase. */
struct pair {
    struct spt_phase *rows[2];
};

static enum spt_sweep_status apply_to_phase(const struct spt_sweep_plan *plan,
                                            const double *const *columns, int i,
                                            struct spt_sweep_hub *state, int phase,
                                            const struct pair *pair)
{
    const struct spt_hub_case *hub = plan->question->hub;
    struct spt_hub_wheel stated = hub->wheels[phase];
    if (plan->question->vehicle) {
        enum spt_sweep_status driven = spt_sweep_vehicle_wheel(plan, columns, i, phase, &stated);
        if (driven)
            return driven;
    }
    struct spt_hub_wheel wheel = apply_to_wheel(plan, columns, i, &stated);
    struct spt_hub_load load = spt_hub_wheel_load(&wheel);
    struct spt_hub_handbook_result shared;
    double rpm = find_speed(plan, columns, i, pair->rows[0]->speed_rpm), factors[2] = {1, 1};
    double mounted_mm = find_mounted(plan, columns, i, state);
    enum spt_sweep_status status = SPT_SWEEP_OK;
    /* a wheel that turns on the road carries a load: the scenario format asks for one too */
    if (spt_hub_handbook_reactions(&hub->handbook, &load, &shared) ||
        (rpm > 0 && !(wheel.radial_n > 0)))
        return SPT_SWEEP_REFUSED;
    if (rpm > 0)
        status = find_factors(state, phase, &load, mounted_mm, factors);
    for (int row = 0; row < 2; row++) {
        struct spt_phase *out = pair->rows[row];
        out->speed_rpm = rpm;
        out->radial_load_n = shared.radial_n[row];
        out->axial_load_n = shared.axial_n[row];
        out->setting_factor = out->cured_setting_factor = factors[row];
    }
    return status;
}

enum spt_sweep_status spt_sweep_hub_apply(const struct spt_sweep_plan *plan,
                                          const double *const *columns, int i,
                                          struct spt_sweep_hub *hub, struct spt_phase *phases)
{
    enum spt_sweep_status status = SPT_SWEEP_OK;
    int count = plan->question->bearings[0].phase_count;
    for (int j = 0; j < count && status == SPT_SWEEP_OK; j++) {
        const struct pair pair = {{&phases[j], &phases[count + j]}};
        status = apply_to_phase(plan, columns, i, hub, j, &pair);
    }
    return status;
}
