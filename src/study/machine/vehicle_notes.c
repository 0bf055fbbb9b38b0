/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/machine/vehicle_notes.h"

#include <math.h>

static bool has_row(const struct spt_vehicle *vehicle)
{
    return vehicle->axle_count > (vehicle->kind == SPT_VEHICLE_DRAWBAR ? 2 : 1);
}

void spt_vehicle_notes(const struct spt_vehicle_case *vehicle, struct spt_notes *notes)
{
    double tip = 0, tip_g = 0, eye_n = 0, tightest_m = (double)INFINITY;
    bool brakes = false;
    for (int i = 0; i < vehicle->phase_count; i++) {
        const struct spt_vehicle_run *run = &vehicle->runs[i];
        const struct spt_vehicle_loads *loads = &vehicle->phases[i];
        double share = fabs(loads->lateral_g) / loads->tip_g;
        if (share > tip) {
            tip = share;
            tip_g = loads->tip_g;
        }
        eye_n = fmin(eye_n, loads->eye_n);
        brakes |= run->braking_g > 0 && run->own_brakes > 0;
        if (run->bend != 0)
            tightest_m = fmin(tightest_m, run->radius_m);
    }
    if (tip >= SPT_TIP_WARNING)
        spt_notes_add(notes, SPT_FLAG_TIP_NEAR, tip, tip_g);
    if (eye_n < 0)
        spt_notes_add(notes, SPT_FLAG_EYE_LIFTS, -eye_n, (double)NAN);
    double scrub = spt_vehicle_scrub(&vehicle->vehicle, tightest_m);
    if (vehicle->vehicle.scrub_stiffness == 0 && scrub >= SPT_SCRUB_WARNING)
        spt_notes_add(notes, SPT_FLAG_SCRUB_LEFT_OUT, scrub, tightest_m);
    if (brakes && has_row(&vehicle->vehicle))
        spt_notes_add(notes, SPT_FLAG_BRAKING_SHARED, (double)NAN, (double)NAN);
}
