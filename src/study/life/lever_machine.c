/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/lever_machine.h"

#include <math.h>

#include "study/machine/reload.h"

/* How far a search goes; our choice. */
#define LEAST_POWER 0.01
#define MOST_POWER 10.0
#define MOST_PAYLOAD 10.0 /* times the present one */
#define LEAST_SPEED_KM_H 1.0
#define MOST_SPEED_KM_H 200.0
#define LEAST_RADIUS_M 2.0
#define MOST_RADIUS_M 1000.0

bool spt_machine_lever_is(enum spt_lever lever)
{
    return lever == SPT_LEVER_POWER || lever == SPT_LEVER_PAYLOAD ||
           lever == SPT_LEVER_BEND_SPEED || lever == SPT_LEVER_BEND_RADIUS;
}

/* The payload of a run; NaN where it is left behind. */
static double payload_of(const struct spt_vehicle *vehicle, const struct spt_vehicle_run *run)
{
    const int last = vehicle->mass_count - 1;
    if (last < 0 || run->without >> last & 1u)
        return (double)NAN;
    return isnan(run->payload_kg) ? vehicle->masses[last].mass_kg : run->payload_kg;
}

/* The quantity of a run that a lever changes; NaN where it has none. */
static double quantity_of(const struct spt_vehicle *vehicle, const struct spt_vehicle_run *run,
                          enum spt_lever lever)
{
    if (lever == SPT_LEVER_PAYLOAD)
        return payload_of(vehicle, run);
    if (run->bend == 0 || !(run->speed_km_h > 0))
        return (double)NAN;
    return lever == SPT_LEVER_BEND_SPEED ? run->speed_km_h : run->radius_m;
}

/* True where a smaller value spares the bearings. */
static bool less_is_better(enum spt_lever lever)
{
    return lever != SPT_LEVER_BEND_RADIUS;
}

static double vehicle_present(const struct spt_vehicle_case *vehicle, enum spt_lever lever,
                              bool relaxing)
{
    double value = (double)NAN;
    for (int j = 0; j < vehicle->phase_count; j++) {
        const double other = quantity_of(&vehicle->vehicle, &vehicle->runs[j], lever);
        value = relaxing == less_is_better(lever) ? fmin(value, other) : fmax(value, other);
    }
    return value > 0 ? value : (double)NAN;
}

double spt_machine_lever_present(const struct spt_case *question, enum spt_lever lever,
                                 bool relaxing)
{
    bool driven = false;
    if (lever != SPT_LEVER_POWER)
        return question->vehicle && question->sheet_hub
                   ? vehicle_present(question->vehicle, lever, relaxing)
                   : (double)NAN;
    for (int j = 0; question->machine && j < question->machine->phase_count; j++)
        driven = driven || question->machine->drives[j].torque_nmm != 0;
    return driven ? 1 : (double)NAN;
}

double spt_machine_lever_end(const struct spt_case *question, enum spt_lever lever, bool relaxing)
{
    const double present = spt_machine_lever_present(question, lever, relaxing);
    if (lever == SPT_LEVER_PAYLOAD)
        return relaxing ? MOST_PAYLOAD * present : 0;
    if (lever == SPT_LEVER_BEND_SPEED)
        return relaxing ? fmax(present, MOST_SPEED_KM_H) : fmin(present, LEAST_SPEED_KM_H);
    if (lever == SPT_LEVER_BEND_RADIUS)
        return relaxing ? fmin(present, LEAST_RADIUS_M) : fmax(present, MOST_RADIUS_M);
    return relaxing ? MOST_POWER : LEAST_POWER;
}

static enum spt_status set_power(const struct spt_machine_case *machine, double factor,
                                 struct spt_phase *phases)
{
    struct spt_machine_drive drives[SPT_PHASES_MAX];
    for (int j = 0; j < machine->phase_count; j++) {
        drives[j] = machine->drives[j];
        drives[j].torque_nmm *= factor;
        drives[j].power_w *= factor;
    }
    return spt_machine_reload(machine, drives, 1, phases);
}

/* The run with the value as a limit: a run that is on its good side keeps its own. */
static struct spt_vehicle_run limit_run(const struct spt_vehicle *vehicle,
                                        const struct spt_vehicle_run *run, enum spt_lever lever,
                                        double value, bool relaxing)
{
    struct spt_vehicle_run limited = *run;
    const double present = quantity_of(vehicle, run, lever);
    if (isnan(present))
        return limited;
    value = relaxing == less_is_better(lever) ? fmax(present, value) : fmin(present, value);
    if (lever == SPT_LEVER_PAYLOAD)
        limited.payload_kg = value;
    else if (lever == SPT_LEVER_BEND_SPEED)
        limited.speed_km_h = value;
    else
        limited.radius_m = value;
    return limited;
}

enum spt_status spt_machine_lever_set(const struct spt_case *question, enum spt_lever lever,
                                      double value, bool relaxing, struct spt_phase *phases)
{
    const struct spt_vehicle_case *vehicle = question->vehicle;
    enum spt_status status = SPT_OK;
    if (lever == SPT_LEVER_POWER)
        return question->machine ? set_power(question->machine, value, phases) : SPT_BAD_ARGUMENT;
    if (!vehicle || !question->sheet_hub)
        return SPT_BAD_ARGUMENT;
    for (int j = 0; !status && j < vehicle->phase_count; j++) {
        const struct spt_vehicle_run run =
            limit_run(&vehicle->vehicle, &vehicle->runs[j], lever, value, relaxing);
        status = spt_vehicle_reload(question, &run, j, 1, phases);
    }
    return status;
}
