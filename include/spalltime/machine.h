/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_MACHINE_H
#define SPT_MACHINE_H

#include <stdbool.h>

#include "spalltime/assess.h"
#include "spalltime/bearing.h"
#include "spalltime/hub.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* From what a shaft carries to the loads of its bearings.
 *
 * Frame: z along the shaft, from its left end to its right end; y up; x = y cross z. Angles phi run
 * from x to y: straight up is pi/2. "Clockwise" is as seen from the left end, looking along +z,
 * which is the right-hand rule about +z. All forces act on the shaft; what a bearing carries is the
 * opposite of its reaction. */

#define SPT_SHAFTS_MAX 8
#define SPT_SUPPORTS_MAX SPT_BEARINGS_MAX /* of a machine, all shafts together */
#define SPT_PARTS_MAX 32                  /* of one shaft */
#define SPT_PIECES_MAX 32                 /* pieces of different diameter of one shaft */

/* ---- parts --------------------------------------------------------------------------------- */

enum spt_part_kind {
    SPT_PART_GEAR, /* spur or helical */
    SPT_PART_BEVEL_GEAR,
    SPT_PART_WORM,
    SPT_PART_WORM_WHEEL,
    SPT_PART_BELT,
    SPT_PART_CHAIN,
    SPT_PART_DRUM, /* of a conveyor belt */
    SPT_PART_COUPLING,
    SPT_PART_IMPELLER,
    SPT_PART_DRIVE, /* mounted on the shaft, held by an arm */
    SPT_PART_CRANK,
    SPT_PART_WEIGHT,
    SPT_PART_FORCE, /* any other known force */
    SPT_PART_KIND_COUNT
};

/* What a part does with the power of the shaft. */
enum spt_part_role {
    SPT_PART_ROLE_DRIVEN, /* it brings power to the shaft: something outside drives it */
    SPT_PART_ROLE_DRIVER, /* it takes power from the shaft: it drives something outside */
    SPT_PART_ROLE_IDLE,   /* neither */
    SPT_PART_ROLE_COUNT
};

/* What keeps the tension of a belt. */
enum spt_tensioner {
    SPT_TENSIONER_FIXED,  /* fixed centres: the sum of both strands stays when the torque falls */
    SPT_TENSIONER_WEIGHT, /* weight or spring: the slack strand keeps its pull */
    SPT_TENSIONER_COUNT
};

/* One part. Lengths in mm, forces in N, angles in rad; NaN where a member does not apply. */
struct spt_part {
    const char *name;
    enum spt_part_kind kind;
    enum spt_part_role role;
    bool takes_rest;    /* takes or gives the torque that is left over */
    double power_share; /* of the power of the shaft, 0 to 1; NaN: not stated */
    double at_mm;       /* along the shaft */
    double diameter_mm; /* pitch circle, pulley, drum, bolts of a coupling; bevel: at mid face */
    double towards_rad; /* phi of the mate, the other pulley, the arm or the force */
    /* teeth: pressure angle in the normal section (0 to 0.79), helix or spiral angle (0 to 1.4),
     * pitch cone angle, lead angle of the worm; hand +1 right, -1 left */
    double pressure_rad, helix_rad, cone_rad, lead_rad;
    double hand;
    double back; /* bevel: +1 where the large end of the teeth lies to the right, else -1 */
    bool double_helical;
    bool inside_teeth;
    double load_factor; /* of machine and teeth, on the forces alone; 1 or more */
    double friction;    /* of the belt in its groove, or of the worm; 0 or more */
    /* belts: directions in which the strands leave; the one that gives a torque about +z (its point
     * of contact is a quarter turn behind), and the other */
    double plus_rad, minus_rad;
    double wrap_rad;    /* the smaller wrap of the two pulleys, for the friction */
    double groove_rad;  /* angle of the groove; NaN: flat */
    double pull_factor; /* pull on the shaft over 2T/d; NaN: from the strands */
    enum spt_tensioner tensioner;
    double
        pretension_n; /* stated sum of both strands, or pull of the slack one; NaN: by friction */
    double
        start_factor; /* torque when starting over that of running, for the friction; 1 or more */
    double mass_kg;   /* of the part; 0: none */
    double unbalance_kg_m; /* m e: a force m e w^2 that turns with the shaft; 0: none */
    double balance_m_s;    /* or balance grade, e w in m/s, of the mass at every speed; else NaN */
    double reaction_share; /* coupling: pull of misalignment over 2T/D, in any direction; 0: none */
    double radial_n;       /* stated force, along towards_rad */
    double axial_n;        /* stated force, to the right above 0 */
    double lever_mm;       /* arm of a drive, radius of a crank */
};

/* How a part works in a phase. */
struct spt_part_state {
    double torque_nmm; /* on the shaft, about +z */
    double most_nmm;   /* largest torque of all phases (absolute), for belts of fixed centres */
    double spin;       /* of the shaft: +1 clockwise, -1 counterclockwise */
    double speed_rpm;  /* 0 or more */
    double upright;    /* 0: level shaft; +1: left end up, weights act to the right; -1 */
};

/* What a part does to the shaft. Vectors x, y, z in N and N mm. */
struct spt_part_load {
    double at_mm;
    double force_n[3];    /* stands still */
    double moment_nmm[3]; /* of it, about the point of the axis at at_mm; z is the torque */
    double turning_n;     /* radial force that turns with the shaft */
    double any_n;         /* radial force in any direction */
    /* for the calculation sheet; NaN where they do not apply */
    double tangential_n, radial_n, axial_n; /* of teeth, absolute values */
    double tight_n, slack_n;                /* strands */
    double wrap_rad;                        /* of the strands on this pulley */
    double weight_n;
};

/* The load of one part.
 * In:     a part with the members that its kind needs, and its state.
 * Status: SPT_BAD_ARGUMENT for a number that is missing or outside its range; SPT_NOT_APPLICABLE
 *         for a worm wheel that cannot drive its worm (self-locking) but would have to.
 * Source: teeth: vectors derived here; the same forces as Shigley, Mechanical Engineering Design,
 *         13-14 to 13-16 and 13-41 (from memory); belts: Eytelwein and Euler (from memory), tension
 *         at part load derived here; chain pull 2T/d times the stated factor; unbalance m e w^2;
 *         drives and cranks derived here; weight m g with g 9.80665 m/s2. */
enum spt_status spt_part_load(const struct spt_part *part, const struct spt_part_state *state,
                              struct spt_part_load *load);

/* Ratio of the pulls of both strands at the brink of slip: exp(mu theta), with mu/sin(groove/2) in
 * a groove. Source: Eytelwein and Euler (from memory). */
double spt_belt_ratio(double friction, double wrap_rad, double groove_rad);

/* Wrap of a belt in rad on the smaller pulley of two (open belt), from both diameters and the
 * distance of the centres in mm; NaN where the pulleys would touch.
 * Source: pi - 2 asin((D - d)/(2 C)), geometry. */
double spt_belt_wrap(double diameter_mm, double other_mm, double centres_mm);

/* A worm and its wheel, from the tangential force in N of the wheel (0 or more), which is the axial
 * force of the worm.
 * In:     pressure angle (normal) and lead angle in rad, friction; `wheel_drives`: the load drives.
 * Result: tangential force of the worm (below 0: self-locking, the worm has to push the load down),
 *         the radial force that separates them, and the efficiency of this direction.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where friction locks the worm that should drive.
 * Source: Shigley 13-41 to 13-43 (from memory), with the sign of friction turned for a driving
 * wheel (derived here). */
struct spt_worm_forces {
    double worm_tangential_n, radial_n, efficiency;
};
enum spt_status spt_worm_forces(double pressure_rad, double lead_rad, double friction,
                                bool wheel_drives, double wheel_tangential_n,
                                struct spt_worm_forces *forces);

/* ---- supports and statics ------------------------------------------------------------------ */

/* The thrust of the shaft that a support stops. */
enum spt_locating {
    SPT_LOCATES_BOTH,  /* both ways */
    SPT_LOCATES_LEFT,  /* when the shaft is pushed to the left */
    SPT_LOCATES_RIGHT, /* to the right */
    SPT_LOCATES_NONE,  /* free to slide */
    SPT_LOCATES_COUNT
};

struct spt_support {
    const char *name;
    double at_mm;     /* middle of the bearing */
    double centre_mm; /* where its load line meets the axis */
    bool centre_estimated;
    enum spt_locating locating;
    double stiffness_n_mm; /* of bearing and seat; INFINITY: rigid */
    double offset_mm[2];   /* of the seat, x and y; with three supports and more */
};

/* A piece of the shaft that ends at `to_mm` with this diameter. */
struct spt_piece {
    double to_mm;
    double diameter_mm;
    double bore_mm; /* 0: solid */
};

/* z of the load centre of a bearing whose middle is at `at_mm`.
 * In:     `stops`: +1 where it stops the shaft moving to the right, -1 to the left; the distance
 * `a` from the back face of the outer ring to the load centre, NaN: estimated as W/2 + (D_pw/2) tan
 * alpha, alpha stated or from 1.5 tan alpha = e (tapered). Result: the place; `at_mm` for bearings
 * whose load line crosses the axis in their middle (and where nothing tells the angle). `estimated`
 * tells whether it was estimated. Source: geometry; z = z_mid - stops (a - W/2), derived here. */
double spt_load_centre(const struct spt_bearing *bearing, double at_mm, double stops,
                       double centre_distance_mm, bool *estimated);

struct spt_machine_shaft {
    const char *name; /* NULL: the only one */
    double turns;     /* +1 clockwise, -1 counterclockwise */
    double upright;   /* as in struct spt_part_state */
    int support_count;
    const struct spt_support *supports;        /* from left to right */
    const struct spt_bearing *const *bearings; /* one each */
    int part_count;
    const struct spt_part *parts;
    int piece_count; /* 0: not stated; no slopes */
    const struct spt_piece *pieces;
    double start_mm; /* left end of the first piece */
};

/* What a support carries in a phase. */
struct spt_support_load {
    double x_n, y_n;      /* on the bearing, steady; the opposite of the reaction */
    double turning_n;     /* turns with the shaft */
    double any_n;         /* direction not known: added to the steady one */
    double radial_n;      /* mean for the life, see spt_radial_mean */
    double peak_n;        /* largest */
    double axial_n;       /* absolute */
    double induced_n;     /* thrust that the radial load makes; 0: none */
    double direction_rad; /* phi of the steady load */
    double slope_rad;     /* of the shaft; NaN: no pieces stated */
    bool takes_thrust;    /* of the shaft, in this phase */
};

/* Forces and moments of a shaft, and what is left of them. */
struct spt_shaft_balance {
    double force_n[3];    /* sum of the parts */
    double moment_nmm[3]; /* about z = 0 */
    double force_error;   /* sum of parts and reactions over the largest force */
    double moment_error;  /* the same about an unrelated point, over force times length */
    double most_force_n;  /* the largest force */
};

/* Mean for the life of a steady load K0 and a load K1 that turns with the shaft, both in N, with
 * the load-life exponent: [1/pi int_0^pi (K0^2 + K1^2 + 2 K0 K1 cos t)^(p/2) dt]^(1/p).
 * Source: derived here; 0.7515 (K0 + K1) at its least for balls. Status: SPT_BAD_ARGUMENT. */
enum spt_status spt_radial_mean(double steady_n, double turning_n, double exponent, double *mean_n);

/* Radial reactions of a shaft under the loads of its parts, and its slopes.
 * In:     supports of different load centres in ascending order, at least two; with more than two
 *         the pieces of the shaft are needed (modulus 206 GPa).
 * Result: x_n, y_n, turning_n, any_n, direction_rad and slope_rad of each support and the balance.
 *         Two supports: statics. More: Hermite beam elements, exact at supports and loads; the two
 *         outer reactions are then taken from statics, so that the balance closes.
 * Status: SPT_BAD_ARGUMENT; SPT_CANNOT_CARRY where load centres are not in order;
 *         SPT_NOT_APPLICABLE without pieces for three supports and more; SPT_NOT_CONVERGED. */
enum spt_status spt_shaft_reactions(const struct spt_machine_shaft *shaft,
                                    const struct spt_part_load *loads,
                                    struct spt_support_load *supports,
                                    struct spt_shaft_balance *balance);

/* Reactions in N of a straight shaft in one plane, for checks and curves: forces in N (up above 0)
 * and moments in N mm (that raise the slope) at places in mm, ascending within 1e-9.
 * Result: reactions on the shaft, slopes in rad at the supports. */
struct spt_beam_load {
    double at_mm, force_n, moment_nmm;
};
enum spt_status spt_beam(const struct spt_machine_shaft *shaft, const struct spt_beam_load *loads,
                         int count, int plane, double *reactions_n, double *slopes_rad);

/* What is wrong with the way the thrust goes. */
enum spt_thrust_problem {
    SPT_THRUST_FINE,
    SPT_THRUST_OVER_LOCATED, /* two supports stop the same direction */
    SPT_THRUST_NOBODY        /* nothing stops this direction */
};

/* Checks the supports of a shaft; `support` receives the second one that stops the same way. */
enum spt_thrust_problem spt_shaft_located(const struct spt_machine_shaft *shaft, int *support);

/* Shares the thrust of the shaft (N, to the right above 0) and what the radial loads of an adjusted
 * pair make themselves.
 * In:     supports with radial_n filled.
 * Result: axial_n, induced_n, takes_thrust. One that takes thrust both ways takes all; of an
 *         adjusted pair Fa_squeezed = max(S_squeezed, S_other + |K|), Fa_other = Fa_squeezed - |K|.
 * Status: SPT_CANNOT_CARRY where nothing stops the thrust.
 * Source: the induced-thrust rule of the textbooks (Shigley 11-9); S = Fr/(2 Y) of tapered rollers
 *         (ISO 281 practice), S = e Fr of single-row balls, e for this thrust (from memory). */
enum spt_status spt_shaft_thrust(const struct spt_machine_shaft *shaft, double thrust_n,
                                 struct spt_support_load *supports);

/* ---- machines ------------------------------------------------------------------------------ */

/* A mesh between parts of two shafts. */
struct spt_mesh {
    int shaft[2], part[2];
    double ratio;      /* speed of the second shaft over that of the first, > 0 */
    bool reverses;     /* the second turns the other way */
    double efficiency; /* 0 to 1 */
};

/* What a phase states. */
struct spt_machine_drive {
    double speed_rpm;  /* of the shaft that the duty is about, 0 or more */
    double torque_nmm; /* that passes through it; below 0: the roles change places */
    double power_w;    /* where the phase states its power; NaN: it states its torque */
    bool backwards;
    const double
        *shares; /* power share of each part of all shafts in this phase; NULL: as stated */
};

struct spt_machine {
    int shaft_count;
    struct spt_machine_shaft shafts[SPT_SHAFTS_MAX];
    int driven_at; /* shaft that the duty is about */
    int mesh_count;
    struct spt_mesh meshes[SPT_PARTS_MAX];
};

enum spt_machine_problem_kind {
    SPT_MACHINE_FINE,
    SPT_MACHINE_UNBALANCED, /* values: torque brought, torque taken, in N mm */
    SPT_MACHINE_PART,       /* the load of a part has no answer */
    SPT_MACHINE_STATICS,
    SPT_MACHINE_THRUST, /* values: thrust in N */
};
struct spt_machine_problem {
    enum spt_machine_problem_kind kind;
    int shaft, part;
    double values[2];
};

/* What one phase does to the machine; arrays of the caller: parts and supports of all shafts, one
 * shaft after the other, and one balance, speed and thrust for each shaft. */
struct spt_machine_loads {
    struct spt_part_load *parts;
    struct spt_support_load *supports;
    struct spt_shaft_balance *balances;
    double *torques_nmm; /* of each part */
    double *speeds_rpm;  /* of each shaft */
    double *spins;       /* of each shaft, +1 or -1 */
};

/* Speeds, torques, loads, reactions and thrusts of one phase.
 * In:     `most_torque_nmm`: largest torque (absolute) of all phases, of the same shaft.
 * Result: everything above; `problem` tells which shaft and part has no answer.
 * Status: those of the functions above; SPT_BAD_ARGUMENT for an unbalanced torque. */
enum spt_status spt_machine_phase(const struct spt_machine *machine,
                                  const struct spt_machine_drive *drive, double most_torque_nmm,
                                  struct spt_machine_loads *loads,
                                  struct spt_machine_problem *problem);

/* A machine in a case: its loads in every phase, as the builder of the case worked them out. */
struct spt_machine_case {
    struct spt_machine machine;
    int phase_count;
    const struct spt_machine_drive *drives;
    struct spt_machine_loads *phases; /* one each */
    int support_count, part_count;    /* of all shafts */
    const int *support_shaft;         /* shaft of each support */
};

#ifdef __cplusplus
}
#endif

#endif
