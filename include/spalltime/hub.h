/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_HUB_H
#define SPT_HUB_H

#include <stdbool.h>
#include <stddef.h>

#include "spalltime/bearing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- hub ----------------------------------------------------------------------------------- */

/* Two opposed rows of tapered rollers on one axis: load distribution over rollers and laminae,
 * reference life.
 *
 * Frame: z along the axis from the inboard row (rows[0]) to the outboard row (rows[1]); y up, x
 * across, so that a wheel load on the hub acts along +y. Angles phi run from x to y. A position is
 * that of the inner body relative to the outer body.
 *
 * Model: rigid rings, nominal contact angle, no rib force; not included: bending of the spindle,
 * hoop stress, thermal gradients. Source of the contact law, the profile and the lamina method:
 * ISO/TS 16281:2008 and ISO 16281:2025, which adds axial load and several rows (both from
 * memory). */

#define SPT_HUB_LAMINAE 41       /* usual number of laminae; lives depend on it, see below */
#define SPT_HUB_LAMINAE_MIN 30   /* ISO 16281, from memory */
#define SPT_HUB_LAMINAE_MAX 1001 /* ours */
#define SPT_HUB_UNKNOWNS 5
#define SPT_HUB_SETTING_MAX_MM 10.0     /* ours: largest end play or preload accepted */
#define SPT_HUB_ZONE_THRESHOLD 0.001    /* a roller counts as loaded above this fraction of Q_max */
#define SPT_HUB_PLAY_LOW_MM 0.0254      /* 0.001 in, wheel ends: common practice, no source */
#define SPT_HUB_PLAY_HIGH_MM 0.127      /* 0.005 in, wheel ends: common practice, no source */
#define SPT_HUB_STEEL_EXPANSION_K 12e-6 /* 1/K, bearing steel: common practice, no source */

enum spt_hub_mounting {
    SPT_HUB_BACK_TO_BACK, /* O, indirect: load centres outside the rows; usual in wheel hubs */
    SPT_HUB_FACE_TO_FACE, /* X, direct: load centres between the rows */
    SPT_HUB_MOUNTING_COUNT
};

/* The load stands still in space and acts on the part that turns. */
enum spt_hub_turning {
    SPT_HUB_OUTER_TURNS, /* wheel hub on a spindle */
    SPT_HUB_INNER_TURNS, /* shaft in a housing */
    SPT_HUB_TURNING_COUNT
};

struct spt_hub_row {
    struct spt_geometry geometry; /* one row: Z, D_we, L_we, alpha (0.01 to 1.2 rad), D_pw */
    double position_mm;           /* z of the roller centres */
    double dynamic_load_rating_n; /* C_r; needed for lives only */
    double fatigue_load_limit_n;  /* C_u; needed for modified lives only */
    double misalignment_x_rad;    /* of the inner ring about its own centre, -0.1 to 0.1 */
    double misalignment_y_rad;
    double phase_rad; /* phi of the first roller; -pi/2 puts a roller on the line of action of a
                         wheel load */
};

struct spt_hub {
    struct spt_hub_row rows[2]; /* inboard, outboard */
    int row_count; /* 2; 1 uses rows[0] alone, which loads along +z of the inner body */
    enum spt_hub_mounting mounting;
    enum spt_hub_turning turning;
    int laminae;           /* n_s, SPT_HUB_LAMINAE_MIN to _MAX; reported with every result */
    double profile_factor; /* 1: logarithmic profile of ISO 16281; 0: straight rollers; 0 to 10 */
    bool edge_function;    /* stress concentration at the roller ends counted in the lives */
    bool tilt_locked;      /* both bodies are kept parallel by another part of the machine */
};

/* On the turning part, about the origin. Moments by the right-hand rule. */
struct spt_hub_load {
    double force_x_n;
    double force_y_n;
    double force_z_n;
    double moment_x_nmm;
    double moment_y_nmm;
};

/* Inner body relative to outer body. */
struct spt_hub_position {
    double x_mm;
    double y_mm;
    double z_mm;
    double tilt_x_rad;
    double tilt_y_rad;
};

/* One wheel: radial load up through z = offset_mm, side force along z at the ground, which is
 * rolling_radius_mm below the axis (> 0 pulls the hub outboard). Forces in N, all finite. */
struct spt_hub_wheel {
    double radial_n;
    double offset_mm;
    double side_n;
    double rolling_radius_mm;
    double side_share; /* side_n/radial_n where the side force was stated as a ratio; 0: stated as a
                          force. Used only where radial_n is changed (load factors, sweeps) */
    double rearward_n; /* level and across the axis, at the axis (its torque closes in the brake)
                          and at offset_mm; which of the two ways does not matter */
    double pad_rearward_n, pad_up_n; /* of a caliper on its disc, at z = pad_offset_mm */
    double pad_offset_mm;
};
struct spt_hub_load spt_hub_wheel_load(const struct spt_hub_wheel *wheel);

/* Sign of a row (0 inboard, 1 outboard): +1 where moving the inner ring along +z loads it, else
 * -1. */
double spt_hub_row_sign(const struct spt_hub *hub, int row);

/* z in mm where the line of action of a row meets the axis: z - s (D_pw/2) tan alpha. */
double spt_hub_load_centre(const struct spt_hub *hub, int row);

/* Change of the setting in mm (play > 0) when the inner body is warmer than the outer by
 * difference_k kelvin; expansion in 1/K (0 to 1e-3).
 * dE = expansion * difference * (-(R_o1 cot a1 + R_o2 cot a2) +- L) with + for back-to-back and -
 * for face-to-face; R_o mean radius of the outer raceway, L distance between the rows. Source:
 * geometry, derived here. Status: SPT_BAD_ARGUMENT. */
enum spt_status spt_hub_thermal_setting(const struct spt_hub *hub, double expansion_per_k,
                                        double difference_k, double *change_mm);

/* ---- handbook method ------------------------------------------------------------------------ */

struct spt_hub_handbook_row {
    double load_centre_mm;
    double axial_factor; /* Y, > 0 */
    double limit_ratio;  /* e; NaN: 0.6/Y, where both branches of P meet */
    double dynamic_load_rating_n;
};
struct spt_hub_handbook {
    struct spt_hub_handbook_row rows[2];
    enum spt_hub_mounting mounting;
    enum spt_hub_turning turning;
    double induced_factor; /* S = factor * Fr/Y: 0.5 in ISO 281 practice; some textbooks 0.47 */
};
struct spt_hub_handbook_result {
    double radial_n[2];
    double induced_n[2];
    double axial_n[2];
    double equivalent_n[2]; /* P, never below Fr */
    double l10_mrev[2];     /* INFINITY without load; NaN where C is NaN (not known) */
};

/* Axial loads and equivalent loads from known radial loads.
 * In:     radial loads in N (>= 0); thrust_n > 0 squeezes rows[0], < 0 squeezes rows[1].
 * Rule:   row A is the squeezed one: if S_A <= S_B + K then Fa_A = S_B + K, Fa_B = S_B, else
 *         Fa_A = S_A, Fa_B = S_A - K. P = Fr where Fa/Fr <= e, else 0.4 Fr + Y Fa, at least Fr.
 * Status: SPT_BAD_ARGUMENT, all NaN.
 * Source: the induced-thrust rule of the textbooks (Shigley, Mechanical Engineering Design, 11-9),
 *         P after ISO 281:2007 table 8 (from memory); L10 = (C/P)^(10/3). */
enum spt_status spt_hub_handbook_share(const struct spt_hub_handbook *pair,
                                       const double radial_n[2], double thrust_n,
                                       struct spt_hub_handbook_result *result);

/* The same for a load on the turning part: the reactions at the load centres follow from statics.
 * Status: as above; SPT_CANNOT_CARRY where both load centres coincide. */
enum spt_status spt_hub_handbook_reactions(const struct spt_hub_handbook *pair,
                                           const struct spt_hub_load *load,
                                           struct spt_hub_handbook_result *result);

/* ---- load distribution ---------------------------------------------------------------------- */

/* Precomputed tables of one row, in the caller's workspace. */
struct spt_hub_table {
    double *cosine; /* of each roller's phi */
    double *sine;
    const double *x_mm;       /* lamina centres along the roller, padded to a multiple of 16 */
    const double *profile_mm; /* 2 P(x); so large in the padding that padding is never loaded */
    double *roller_load_n;    /* of the last solution or spt_hub_reaction */
    double *lamina_sum;       /* scratch, two per lamina */
    double *lamina_scale;     /* c_s and f in the lives, two per lamina */
    double *places;           /* the rollers again, in the order of the solver */
    int laminae;              /* n_s */
    int padded;               /* laminae with padding */
    double sign;              /* s */
    double cos_angle;         /* of alpha */
    double sin_angle;
    double radius_mm;        /* D_pw/2 */
    double arm_mm;           /* z cos a - s R sin a */
    double lamina_stiffness; /* c_s, N/mm^(10/9) */
    double inner_rate;       /* rating loads of a lamina (q_kci, q_kce) to the power -9/2 */
    double outer_rate;
    double rho; /* [(1-gamma)/(1+gamma)]^(143/108) */
};

struct spt_hub_kernel; /* the loops over laminae, for the vectors of this machine */

/* Filled by spt_hub_prepare. Holds scratch memory: one model per thread. */
struct spt_hub_model {
    struct spt_hub hub;
    struct spt_hub_table tables[2];
    double length_mm; /* L0, mean pitch radius: tilts are solved for as L0 theta */
    const struct spt_hub_kernel *kernel;
};

/* Doubles that spt_hub_prepare needs; 0 where the hub is not valid. */
size_t spt_hub_workspace_length(const struct spt_hub *hub);

/* Builds the tables; they depend on neither setting nor load. The model points into `workspace`
 * (of `length` doubles), which has to outlive it.
 * Status: SPT_BAD_ARGUMENT; SPT_TOO_SMALL. */
enum spt_status spt_hub_prepare(const struct spt_hub *hub, double *workspace, size_t length,
                                struct spt_hub_model *model);

/* Turns the cages of both rows by a fraction `share` of the roller pitch (finite). With few rollers
 * in the load zone lives depend on the position of the rollers by a percent or more, so that
 * callers average over positions. Changes the phases and the tables. */
void spt_hub_turn_cage(struct spt_hub_model *model, double share);

/* Energy W of contacts and load in N mm, its gradient in N and its Hessian in N/mm with respect to
 * the unknowns x, y, z, L0 tilt_x, L0 tilt_y in mm. W is convex, so that there is only one load
 * distribution; the gradient is the negative sum of all forces on the inner body. Arguments are not
 * checked. */
struct spt_hub_energy {
    double energy_nmm;
    double gradient_n[SPT_HUB_UNKNOWNS];
    double hessian_n_mm[SPT_HUB_UNKNOWNS][SPT_HUB_UNKNOWNS];
    double contact_n; /* sum of all roller loads */
};
void spt_hub_energy(const struct spt_hub_model *model, double setting_mm,
                    const struct spt_hub_load *load, const struct spt_hub_position *position,
                    struct spt_hub_energy *energy);

/* Forces and moments of the rows on the inner body, summed in three dimensions over the laminae,
 * independently of the energy above so that they check it; also fills the roller loads of the
 * model. */
struct spt_hub_reaction {
    double force_n[3];
    double moment_nmm[3];
    double row_force_n[2][3];
    double contact_n; /* sum of all roller loads */
};
void spt_hub_reaction(const struct spt_hub_model *model, double setting_mm,
                      const struct spt_hub_position *position, struct spt_hub_reaction *reaction);

struct spt_hub_solution {
    double setting_mm;
    struct spt_hub_position position;
    double radial_n[2]; /* reaction of each row */
    double axial_n[2];
    double direction_rad[2]; /* phi of the centre of the load zone */
    int iterations;
    double residual_n; /* norm of the residual force, moments divided by L0 */
    double allowed_n;  /* the tolerance on the residual */
    bool located;      /* false: the roller loads are unique but the position is not */
};

/* Position of equilibrium at a setting: end play (> 0) or preload (< 0) in mm, as the axial travel
 * between the rows.
 * In:     start: initial guess of the position, or NULL (a guess from statics); the loads of the
 *         rollers do not depend on it.
 * Method: damped Newton on the convex energy with 5 unknowns, checked by spt_hub_reaction. Where
 *         load, rings and rollers are their own mirror image about the y-z plane, so is the
 *         position, x and tilt_y 0: it is the one that is given where single rollers leave it open
 *         (`located` false). Else it is one of those that are possible, which depends on the start.
 * Status: SPT_BAD_ARGUMENT; SPT_FREE without load and preload; SPT_CANNOT_CARRY where nothing
 *         limits the displacement of the inner body; SPT_NOT_APPLICABLE where it moves by more than
 *         20 mm plus five times the setting, tilts times L0 included; SPT_NOT_CONVERGED. The last
 *         two fill residual_n and allowed_n.
 * Accuracy: residual within 1e-9 of the load, or within the round-off of the roller loads; the
 *         solver aims at 1e-12, so that lives from different initial guesses agree within 1e-9. */
enum spt_status spt_hub_solve(const struct spt_hub_model *model, double setting_mm,
                              const struct spt_hub_load *load, const struct spt_hub_position *start,
                              struct spt_hub_solution *solution);

/* Balances of one load found last, at each position of the cages, and how they follow the setting:
 * the start of the next. With them, what it took. Zero-initialise. */
#define SPT_HUB_TRAIL_STEPS 4
struct spt_hub_trail {
    bool known[SPT_HUB_TRAIL_STEPS];
    double setting_mm[SPT_HUB_TRAIL_STEPS];
    double x_mm[SPT_HUB_TRAIL_STEPS][SPT_HUB_UNKNOWNS]; /* x, y, z, L0 tilt_x, L0 tilt_y */
    double slope[SPT_HUB_TRAIL_STEPS][SPT_HUB_UNKNOWNS];
    long solves;
    long passes; /* over the rollers, several in a solve */
};

/* Axial force in N in the unloaded pair at a setting; 0 where the pair has play.
 * Status: as spt_hub_solve, but SPT_OK in place of SPT_FREE; SPT_NOT_APPLICABLE for one row. */
enum spt_status spt_hub_preload_force(const struct spt_hub_model *model, double setting_mm,
                                      double *preload_n);

/* The inverse: setting in mm at which the unloaded pair has a preload force in N (> 0), within 1e-9
 * of the force. It is negative unless misaligned rings already touch with end play.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE for one row and where the force needs more than
 *         SPT_HUB_SETTING_MAX_MM; SPT_NOT_CONVERGED. */
enum spt_status spt_hub_preload_setting(const struct spt_hub_model *model, double preload_n,
                                        double *setting_mm);

/* ---- what a row feels, and its life --------------------------------------------------------- */

struct spt_hub_contact {
    double zone_deg;          /* angle over which rollers carry more than the threshold above */
    int loaded_rollers;       /* number of rollers in that zone */
    double max_roller_load_n; /* Q_max */
    double max_pressure_mpa;  /* Hertz line contact of the most loaded lamina, inner raceway */
    double tilt_rad;          /* between the rings of the row */
};

/* In:     a solution of this model.
 * Source: Hertz for the pressure; E 207 GPa, nu 0.3. */
void spt_hub_contact(const struct spt_hub_model *model, const struct spt_hub_solution *solution,
                     int row, struct spt_hub_contact *contact);

struct spt_hub_lubrication {
    double contamination_factor; /* e_C, 0 to 1; NaN: no modified life wanted */
    /* kappa, > 0; NaN: no modified life wanted; above 4 the value 4 is used */
    double viscosity_ratio;
};

/* Lives of one row in million revolutions, without a1 or any other factor; INFINITY for an unloaded
 * row. Where Fr is below 1e-6 of Fa there is no half-zone case and the last four are NaN. */
struct spt_hub_life {
    double l10r_mrev;       /* basic reference rating life */
    double modified_mrev;   /* with a_ISO of each lamina; NaN where not wanted or kappa < 0.1 */
    double half_zone_mrev;  /* L10r of the same row under the same Fr with half the rollers loaded,
                               rings aligned */
    double relative_factor; /* K = l10r / half_zone */
    double l10_mrev;        /* ISO 281 at P = Fr */
    double relative_life_mrev; /* K * l10: the more cautious absolute value */
};

/* Basic and modified reference rating life of a row.
 * In:     a solution of this model; lubrication may be NULL.
 * Status: SPT_BAD_ARGUMENT (also without C_r, or without C_u where a modified life is wanted).
 * Source: ISO/TS 16281:2008, ISO 16281:2025 lamina method (from memory): 9/2 for the ring that
 *         stands still relative to the load, 4 for the one that turns; equivalent lamina load of
 *         a_ISO derived here, equal to P within 0.4 % in the aligned half-zone case.
 * Note:   with the edge function the life depends on n_s (no limit for n_s -> infinity); with an
 *         odd n_s its value at the middle lamina is set to 1. Compare L10r with L10r only: it is
 *         about three times the L10 of ISO 281, which allows for edge stress. */
enum spt_status spt_hub_life(const struct spt_hub_model *model,
                             const struct spt_hub_solution *solution, int row,
                             const struct spt_hub_lubrication *lubrication,
                             struct spt_hub_life *life);

/* Only l10r_mrev and modified_mrev; the rest NaN. For curves. */
enum spt_status spt_hub_life_short(const struct spt_hub_model *model,
                                   const struct spt_hub_solution *solution, int row,
                                   const struct spt_hub_lubrication *lubrication,
                                   struct spt_hub_life *life);

/* Everything about one load case. */
struct spt_hub_result {
    struct spt_hub_solution solution;
    struct spt_hub_contact contact[2];
    struct spt_hub_life life[2];
    double preload_n; /* of the unloaded pair; NaN for one row */
    int laminae;
    bool edge_function;
};

/* In:     lubrication of the two rows, or NULL.
 * Status: as the functions above; all NaN on failure (solution.residual_n keeps its value). */
enum spt_status spt_hub_assess(const struct spt_hub_model *model, double setting_mm,
                               const struct spt_hub_load *load,
                               const struct spt_hub_lubrication *lubrication,
                               struct spt_hub_result *result);

/* ---- hub case ------------------------------------------------------------------------------ */

/* What a scenario states of a wheel hub in addition to the bearings and phases of its spt_case.
 * bearings[0] is the inboard row, bearings[1] the outboard one; the loads in their phases come from
 * spt_hub_handbook_reactions. */

#define SPT_HUB_PHASES_MAX 64 /* phases of a hub; equals SPT_SETTING_CASES_MAX of setting.h */
#define SPT_HUB_SEARCH_LOW_MM (-0.15) /* default range of settings that is searched; ours */
#define SPT_HUB_SEARCH_HIGH_MM 0.5
#define SPT_HUB_PRELOAD_LEAST_MM 5e-5 /* a smaller preload counts as none; ours */

enum spt_hub_setting_kind {
    SPT_HUB_SET_END_PLAY,     /* mm */
    SPT_HUB_SET_PRELOAD,      /* mm */
    SPT_HUB_SET_PRELOAD_FORCE /* N in the unloaded pair */
};

struct spt_hub_case {
    struct spt_hub hub; /* z = 0 is the plane of the wheel load */
    enum spt_hub_setting_kind setting_kind;
    double setting_value;            /* >= 0, as set in the workshop; a force > 0 */
    double temperature_difference_k; /* temperature of the inner body minus that of the outer when
                                        running, in K */
    double scatter_mm;               /* standard deviation of the setting; 0: not stated */
    double lowest_mm, highest_mm; /* mounted settings among which the best is searched, play > 0 */
    bool preload_allowed;         /* the manufacturer prescribes a preload, so that a preload may be
                                     recommended; else none is: see spt_hub_bench_least */
    double rolling_radius_mm;
    struct spt_hub_handbook handbook;   /* the rows for the induced-thrust rule */
    const struct spt_hub_wheel *wheels; /* one for each phase */
    bool insides_estimated; /* a row states no geometry: spt_bearing_insides, `elements` 0 where
                               that has none */
};

/* ---- ball contact -------------------------------------------------------------------------- */

/* Stiffness of a ball between its raceways, Q = c_p d^(3/2). */
struct spt_ball_contact {
    double inner_ratio; /* chi, axes of the contact ellipse */
    double outer_ratio;
    double stiffness_n_mm_1_5; /* c_p */
};

/* In:     geometry of a ball bearing (bearing.h), alpha 0 to 1.2 rad, groove ratios above 0.5.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: Hertz; form of ISO/TS 16281:2008 4.3 (from memory); E 207 GPa, nu 0.3. */
enum spt_status spt_ball_contact(const struct spt_geometry *geometry,
                                 struct spt_ball_contact *contact);

/* Basic reference rating life in million revolutions of one ball row from its ball loads.
 * In:     geometry; C_r in N (> 0); `loads_n` of all Z balls (>= 0). The inner ring turns.
 * Result: INFINITY where nothing is loaded.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: ISO/TS 16281:2008 (from memory). */
enum spt_status spt_ball_life(const struct spt_geometry *geometry, double dynamic_load_rating_n,
                              const double *loads_n, double *l10r_mrev);

/* ---- sjoevall ------------------------------------------------------------------------------ */

/* Load distribution integrals (Sjoevall) of one row with very many rolling elements and rigid,
 * parallel rings: F_r = Z Q_max cos a J_r, F_a = Z Q_max sin a J_a. */
struct spt_sjoevall {
    double radial; /* J_r */
    double axial;  /* J_a */
};

/* In:     load zone parameter epsilon (> 0 to 1e6; 0.5: half the elements loaded), exponent n of
 *         Q = c d^n (1 to 3; 3/2 point contact, 10/9 line contact; the textbook tables of line
 *         contact were made with 1.1).
 * Result: J_r, J_a = 1/(2 pi) integral [1 - (1 - cos p)/(2 epsilon)]^n (cos p or 1) dp over the
 *         loaded arc, to 1e-12.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: Sjoevall 1933, as in Harris, Rolling Bearing Analysis. */
enum spt_status spt_sjoevall(double epsilon, double exponent, struct spt_sjoevall *integrals);

#ifdef __cplusplus
}
#endif

#endif
