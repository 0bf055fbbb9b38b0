/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/vehicle.h"

#include <math.h>
#include <stdio.h>

#include "spalltime/statistics.h"

enum spt_status spt_vehicle_turn(const struct spt_case *question, int wheel,
                                 struct spt_phase *phases, struct spt_hub_wheel *wheels,
                                 struct spt_hub_case *hub, struct spt_case *turned)
{
    const struct spt_vehicle_case *vehicle = question->vehicle;
    *hub = *(question->hub ? question->hub : question->sheet_hub);
    *turned = *question;
    hub->wheels = wheels;
    for (int i = 0; i < vehicle->phase_count; i++) {
        wheels[i] = vehicle->phases[i].wheels[wheel].hub;
        struct spt_hub_load load = spt_hub_wheel_load(&wheels[i]);
        struct spt_hub_handbook_result shared;
        enum spt_status status = spt_hub_handbook_reactions(&hub->handbook, &load, &shared);
        if (status)
            return status;
        for (int row = 0; row < 2; row++) {
            struct spt_phase *phase = &phases[row * vehicle->phase_count + i];
            *phase = question->bearings[row].phases[i];
            phase->radial_load_n = shared.radial_n[row];
            phase->axial_load_n = shared.axial_n[row];
        }
    }
    for (int row = 0; row < 2; row++)
        turned->bearings[row].phases = &phases[row * vehicle->phase_count];
    if (question->hub)
        turned->hub = hub;
    else
        turned->sheet_hub = hub;
    return SPT_OK;
}

/* Buffers for the case of one wheel after the other. */
struct buffers {
    struct spt_phase *phases;
    struct spt_hub_wheel *wheels;
    struct spt_hub_case *hub;
    struct spt_phase_result *results;
};

static bool take(const struct spt_vehicle_case *vehicle, struct spt_arena *arena,
                 struct buffers *buffers)
{
    size_t count = (size_t)vehicle->phase_count;
    buffers->phases = spt_arena_allocate(arena, 2 * count * sizeof *buffers->phases);
    buffers->wheels = spt_arena_allocate(arena, count * sizeof *buffers->wheels);
    buffers->hub = spt_arena_allocate(arena, sizeof *buffers->hub);
    buffers->results = spt_arena_allocate(arena, count * sizeof *buffers->results);
    return buffers->phases && buffers->wheels && buffers->hub && buffers->results;
}

static enum spt_status assess_wheel(const struct spt_case *question, int wheel,
                                    struct buffers *buffers, struct spt_arena *arena,
                                    struct spt_vehicle_life *life, struct spt_error *error)
{
    struct spt_case turned;
    double basic_h[2] = {0};
    enum spt_status status =
        spt_vehicle_turn(question, wheel, buffers->phases, buffers->wheels, buffers->hub, &turned);
    if (status)
        return spt_error_set(error, status, question->title);
    const struct spt_settled *settled = spt_ask_settled(&turned, false, arena, error);
    if (!settled)
        return error->status;
    for (int row = 0; row < 2; row++) {
        struct spt_bearing_result bearing;
        status = spt_assess_bearing(&settled->question, row, 0, buffers->results, &bearing);
        if (status)
            return spt_error_set(error, status, question->title);
        life->rows_h[row] = bearing.modified_rating_life_h;
        basic_h[row] = bearing.basic_rating_life_h;
    }
    life->modified_h = spt_survival_series(life->rows_h, 2, question->reliability_percent);
    life->basic_h = spt_survival_series(basic_h, 2, SPT_BASIC_RELIABILITY);
    return SPT_OK;
}

/* True where wheel `a` fails sooner than `b`; without a life each the basic one tells. */
static bool fails_sooner(const struct spt_vehicle_life *a, const struct spt_vehicle_life *b)
{
    if (isnan(a->modified_h) && isnan(b->modified_h))
        return a->basic_h < b->basic_h;
    return isnan(a->modified_h) || a->modified_h < b->modified_h;
}

static void combine(const struct spt_case *question, struct spt_vehicle_answer *answer)
{
    double rows_h[2 * SPT_WHEELS_MAX], damage = 0;
    for (int i = 0; i < answer->wheel_count; i++) {
        const struct spt_vehicle_life *life = &answer->wheels[i];
        damage += 1 / life->modified_h / answer->wheel_count;
        for (int row = 0; row < 2; row++)
            rows_h[2 * i + row] = life->rows_h[row];
        if (fails_sooner(life, &answer->wheels[answer->worst]))
            answer->worst = i;
    }
    answer->mean_h = damage > 0 || isnan(damage) ? 1 / damage : (double)INFINITY;
    answer->first_h =
        spt_survival_series(rows_h, 2 * answer->wheel_count, question->reliability_percent);
}

enum spt_status spt_ask_vehicle(const struct spt_case *question, struct spt_arena *arena,
                                struct spt_vehicle_answer *answer, struct spt_error *error)
{
    struct buffers buffers;
    *answer = (struct spt_vehicle_answer){.wheel_count = question->vehicle->wheel_count};
    if (!take(question->vehicle, arena, &buffers))
        return spt_error_set(error, SPT_NO_MEMORY, question->title);
    for (int i = 0; i < answer->wheel_count; i++) {
        enum spt_status status =
            assess_wheel(question, i, &buffers, arena, &answer->wheels[i], error);
        if (status)
            return status;
    }
    combine(question, answer);
    return SPT_OK;
}

const char *spt_vehicle_wheel_name(const struct spt_vehicle *vehicle, int wheel, char *name)
{
    const char *axle = vehicle->axles[wheel / 2].name, *side = wheel % 2 ? "right" : "left";
    if (axle)
        snprintf(name, SPT_WHEEL_NAME_LENGTH, "%.80s %s", axle, side);
    else
        snprintf(name, SPT_WHEEL_NAME_LENGTH, "axle %d %s", wheel / 2 + 1, side);
    return name;
}
