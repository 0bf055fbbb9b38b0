/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_VEHICLE_H
#define SPT_VEHICLE_H

#include <stdbool.h>

#include "spalltime/arena.h"
#include "spalltime/ask.h"
#include "spalltime/assess.h"
#include "spalltime/hub.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* From the masses of a trailer and its road to the load of each wheel.
 *
 * Places: rearwards from the eye, to the left of the middle, height above the ground, all in m.
 * Statics of a rigid body on a plane road: no springs, kerbs or potholes. The left wheels are those
 * on the left for somebody who looks in the direction of travel. */

#define SPT_MASSES_MAX 16
#define SPT_AXLES_MAX 6
#define SPT_WHEELS_MAX (2 * SPT_AXLES_MAX) /* axle by axle, the left wheel first */
#define SPT_GRAVITY_M_S2 9.80665
#define SPT_TIP_WARNING 0.7 /* of the limit, from where tipping is warned of; ours */
#define SPT_SCRUB_GRIP                                                                             \
    0.7                         /* side force over load at which a tyre slides: 0.6 to 0.8, common \
                                   practice, no source */
#define SPT_SCRUB_STIFFNESS 6.0 /* per rad: 5 to 8 (from memory); for the warning alone */
#define SPT_SCRUB_WARNING 0.1   /* scrub over load from where a missing stiffness is told; ours */

enum spt_vehicle_kind {
    SPT_VEHICLE_CENTRE_AXLE,  /* the eye carries weight and gives no hold against roll */
    SPT_VEHICLE_SEMI_TRAILER, /* the coupling plate carries weight and its share of the roll */
    SPT_VEHICLE_DRAWBAR, /* the first axle is steered by a drawbar on a pivot, the eye carries none
                          */
    SPT_VEHICLE_KIND_COUNT
};

struct spt_vehicle_mass {
    const char *name;
    double mass_kg; /* 0 or more */
    double behind_m, left_m, height_m;
};

struct spt_vehicle_axle {
    const char *name; /* NULL: by its number */
    double behind_m;
};

struct spt_vehicle {
    enum spt_vehicle_kind kind;
    int mass_count;
    struct spt_vehicle_mass masses[SPT_MASSES_MAX]; /* the last one is the payload */
    int axle_count; /* from front to rear; those of one group carry alike (equalised) */
    struct spt_vehicle_axle axles[SPT_AXLES_MAX];
    double eye_height_m; /* of the eye, the coupling plate, or the pivot of the drawbar */
    double track_m;      /* between the wheels of an axle; twins: middle of the pair */
    double rolling_radius_mm, loaded_radius_mm;
    double offset_mm;       /* of the plane of the wheel from the zero of the hub, outwards */
    double camber_rad;      /* top outwards above 0, -0.2 to 0.2 */
    double scrub_stiffness; /* side force over load for a slip of 1 rad; 0: scrub not counted */
    double grip;            /* limit of the scrub over the load */
    /* a caliper pushes the hub against the spin at its place, which lies from straight up towards
     * the front; NaN: a drum, whose forces close in a couple */
    double disc_radius_mm, caliper_rad, disc_offset_mm;
};

/* A piece of road. */
struct spt_vehicle_run {
    double speed_km_h;     /* 0 or more */
    double bend;           /* +1 to the left, -1 to the right, 0 straight */
    double radius_m;       /* > 0 in a bend */
    double bank;           /* slope of the road towards the middle of the bend */
    double braking_g;      /* deceleration, 0 or more */
    double own_brakes;     /* share of it that the brakes of the vehicle itself give, 0 to 1 */
    double drag_n;         /* pull that the rolling of the wheels needs */
    double surface_factor; /* on the forces of the wheels, 1 or more */
    unsigned without;      /* bit 1u << i: mass i is not there */
    double payload_kg;     /* in place of that of the last mass; NaN: as stated */
};

struct spt_vehicle_wheel {
    int axle;
    bool left;
    double load_n;     /* upwards, on plane ground */
    double side_n;     /* along the axis, outwards above 0; with scrub */
    double scrub_n;    /* part of it */
    double rearward_n; /* of the ground on the tyre: braking and rolling */
    double speed_rpm;
    struct spt_hub_wheel hub; /* what the hub feels, with surface factor and camber */
};

/* What the run does to the vehicle. Sums of moments about the ground below the eye, in N m. */
struct spt_vehicle_loads {
    double weight_n, centre_m, lift_nm, lean_nm; /* W, x_c, W h and W y */
    double lateral_g;                            /* a_y, to the left above 0 */
    double tip_g;            /* its magnitude at which the inner wheels lift; INFINITY: never */
    double group_m, group_n; /* of the wheels behind (drawbar: of the rear axles) */
    double front_n;          /* on the first axle of a drawbar trailer, else 0 */
    double eye_n;            /* weight on the eye or plate */
    double still_group_n, still_eye_n; /* the same without braking and drag */
    double eye_side_n;                 /* side force on the vehicle at the eye, to the left */
    double eye_pull_n; /* of the drawing vehicle on the eye, forwards; below 0: it is pushed back */
    double axle_n[SPT_AXLES_MAX];
    double left_n[SPT_AXLES_MAX]; /* load of the left wheel of each axle */
    int wheel_count;
    struct spt_vehicle_wheel wheels[SPT_WHEELS_MAX];
};

enum spt_vehicle_problem {
    SPT_VEHICLE_FINE,
    SPT_VEHICLE_TIPS,  /* a wheel carries nothing: tip_g and lateral_g tell */
    SPT_VEHICLE_LIFTS, /* the wheels of a group carry nothing: group_n, front_n */
    SPT_VEHICLE_BAD
};

/* Loads of all wheels on a piece of road.
 * In:     a vehicle with axles in ascending order and the group behind the eye, track and radii
 *         above 0; a run as above.
 * Result: everything above; `problem` tells what has no answer.
 * Balances, b braking, q the share of the own brakes, h_e height of the eye, D drag:
 *         group R x_g = W x_c - b W h + (1 - q) b W h_e - D h_e, eye V = W - R (drawbar: the same
 *         between its two axles, nothing on the eye).
 *         Bend: a_y = v^2/(g r) - bank. Yaw without braking: a_y R0 on the group, a_y V0 on the
 *         eye. Roll: left = R/2 + [W y - a_y (W h - V0 h_e)]/t; a coupling plate takes its share of
 *         the weight of it: left = R/2 + (R/W)(W y - a_y W h)/t, and so do separate axles.
 *         Side force of a wheel: a_y (R0/R) times its load; scrub of an axle at the distance c
 *         behind the middle of its group: C (c/r) times its load, at most the grip.
 * Status: SPT_BAD_ARGUMENT; SPT_CANNOT_CARRY where the vehicle tips or an axle lifts.
 * Source: equilibrium of a rigid body, derived here; sharing of the roll by coupling plate and
 *         separate axles common practice, no source; stiffness of tyres from memory. */
enum spt_status spt_vehicle_load(const struct spt_vehicle *vehicle,
                                 const struct spt_vehicle_run *run, struct spt_vehicle_loads *loads,
                                 enum spt_vehicle_problem *problem);

/* Scrub over load of the axle farthest from the middle of its group with the usual stiffness. */
double spt_vehicle_scrub(const struct spt_vehicle *vehicle, double radius_m);

/* A vehicle in a case, whose bearings are the two rows of one of its hubs. */
struct spt_vehicle_case {
    struct spt_vehicle vehicle;
    int phase_count;
    const struct spt_vehicle_run *runs;
    const struct spt_vehicle_loads *phases; /* one each */
    int wheel_count;
    int wheel; /* that the case is about: the worst, or the stated one */
};

/* The case of another wheel of the vehicle: phases and hub of the case with the loads of that
 * wheel.
 * In:     `phases`: buffer for the phases of both rows; `wheels`: one for each phase; `hub`.
 * Status: as spt_hub_handbook_reactions. */
enum spt_status spt_vehicle_turn(const struct spt_case *question, int wheel,
                                 struct spt_phase *phases, struct spt_hub_wheel *wheels,
                                 struct spt_hub_case *hub, struct spt_case *turned);

/* The hub of each wheel by the calculation of the case. */
struct spt_vehicle_answer {
    int wheel_count;
    struct spt_vehicle_life {
        double modified_h, basic_h; /* of both rows; NaN: none, INFINITY: no damage */
        double rows_h[2];           /* modified, inboard and outboard */
    } wheels[SPT_WHEELS_MAX];
    int worst;      /* shortest modified life; where one has none, shortest basic life */
    double mean_h;  /* of all wheels, averaged in damage: for a fleet; NaN: a wheel has no life */
    double first_h; /* until the first row of all hubs fails, at the reliability of the case */
};

/* Lives of all wheels of the vehicle of a case.
 * Status: as spt_ask_life; SPT_NO_MEMORY. */
enum spt_status spt_ask_vehicle(const struct spt_case *question, struct spt_arena *arena,
                                struct spt_vehicle_answer *answer, struct spt_error *error);

/* "axle 2 left", or by the name of the axle; `name` takes SPT_WHEEL_NAME_LENGTH characters. */
#define SPT_WHEEL_NAME_LENGTH 100
const char *spt_vehicle_wheel_name(const struct spt_vehicle *vehicle, int wheel, char *name);

#ifdef __cplusplus
}
#endif

#endif
