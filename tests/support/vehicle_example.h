/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_VEHICLE_EXAMPLE_H
#define TESTS_VEHICLE_EXAMPLE_H

#include <math.h>

#include "spalltime/vehicle.h"

/* A centre-axle trailer of 9.8 t on two equalised axles. */
static inline struct spt_vehicle example_vehicle(void)
{
    return (struct spt_vehicle){
        .kind = SPT_VEHICLE_CENTRE_AXLE,
        .mass_count = 2,
        .masses = {{"empty", 1800, 4.2, 0, 0.75}, {"load", 8000, 4.0, 0, 1.5}},
        .axle_count = 2,
        .axles = {{NULL, 3.62}, {NULL, 4.98}},
        .eye_height_m = 0.45,
        .track_m = 1.8,
        .rolling_radius_mm = 520,
        .loaded_radius_mm = 520,
        .grip = SPT_SCRUB_GRIP,
        .disc_radius_mm = (double)NAN,
    };
}

static inline struct spt_vehicle_run straight_run(double speed_km_h)
{
    return (struct spt_vehicle_run){
        .speed_km_h = speed_km_h, .own_brakes = 1, .surface_factor = 1, .payload_kg = (double)NAN};
}

/* `bend`: +1 to the left, -1 to the right. */
static inline struct spt_vehicle_run bend_run(double speed_km_h, double bend, double radius_m)
{
    struct spt_vehicle_run run = straight_run(speed_km_h);
    run.bend = bend;
    run.radius_m = radius_m;
    return run;
}

#endif
