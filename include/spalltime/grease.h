/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_GREASE_H
#define SPT_GREASE_H

#include "spalltime/bearing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Surroundings that shorten the relubrication interval; each enumeration runs mild to harsh. */
enum spt_dust {
    SPT_DUST_LIGHT,
    SPT_DUST_HEAVY,
    SPT_DUST_LIGHT_ABRASIVE,
    SPT_DUST_HEAVY_ABRASIVE,
    SPT_DUST_COUNT
};
enum spt_moisture {
    SPT_MOISTURE_DRY,
    SPT_MOISTURE_HUMID,
    SPT_MOISTURE_CONDENSATION,
    SPT_MOISTURE_SPLASH,
    SPT_MOISTURE_COUNT
};
enum spt_vibration {
    SPT_VIBRATION_LOW,
    SPT_VIBRATION_MEDIUM,
    SPT_VIBRATION_HIGH,
    SPT_VIBRATION_COUNT
};
enum spt_shaft { SPT_SHAFT_HORIZONTAL, SPT_SHAFT_INCLINED, SPT_SHAFT_VERTICAL, SPT_SHAFT_COUNT };

/* What of the surroundings a scenario may leave open. */
enum spt_surrounding {
    SPT_SURROUNDING_DUST,
    SPT_SURROUNDING_MOISTURE,
    SPT_SURROUNDING_VIBRATION,
    SPT_SURROUNDING_SHAFT,
    SPT_SURROUNDING_COUNT
};

struct spt_surroundings {
    enum spt_dust dust;
    enum spt_moisture moisture;
    enum spt_vibration vibration;
    enum spt_shaft shaft;
};

/* The relubrication interval and what made it. */
struct spt_grease_interval {
    double bracket_h;   /* 14e6/(n sqrt d) - 4 d */
    double type_factor; /* F_d 10 ball, 5 cylindrical and needle, 1 tapered, spherical, thrust */
    double temperature_factor; /* F_t */
    double dust_factor;        /* F_c */
    double moisture_factor;    /* F_m */
    double vibration_factor;   /* F_v */
    double shaft_factor;       /* F_p */
    double interval_h;         /* t_f = product of all */
};

/* Relubrication interval t_f in hours.
 * In:     bearing type; bore in mm (> 0); speed in r/min (> 0); temperature in degC (-60 to 300).
 * Status: SPT_BAD_ARGUMENT, all members NaN; SPT_NOT_APPLICABLE where the bracket is not positive
 *         (interval NaN, bracket and factors given).
 * Not in it: the halving some catalogues ask for above 300 mm bore, the outer ring turning, a load
 *         reduction, a calendar cap.
 * Source: common practice, no standard: K (14e6/(n sqrt d) - 4 d) with the names of its factors and
 *         F_d 10, 5, 1 as reprinted in maintenance magazines since about 2000, some of which credit
 *         DIN 51825, a specification of greases, which is doubtful; the levels of F_c, F_m, F_v and
 *         F_p from memory of the same prints. F_t is not theirs: it halves per 15 degC above 70
 * degC (catalogue practice). Good to a factor of about 2. */
enum spt_status spt_grease_interval(enum spt_bearing_type type, double bore_mm, double speed_rpm,
                                    double temperature_c, const struct spt_surroundings *around,
                                    struct spt_grease_interval *result);

/* State of a grease of age t = tau t_f, all NaN after an error. A model of our own, no standard. */
struct spt_grease_state {
    double tau;        /* age over interval, >= 0 */
    double oil_left;   /* theta = 0.5^(tau/5.99), half at the median grease life */
    double film_ratio; /* phi, 1 fresh to 0 exhausted */
    double survival;   /* S_g = exp(-0.01005 tau^2.366) */
};

/* In: tau >= 0.   Status: SPT_BAD_ARGUMENT.
 * Source: survival: t_f is the 1 % grease life and L10 = 2.7 t_f (common catalogue practice; Lugt,
 *         Grease Lubrication in Rolling Bearings, 2013, from memory); film: half of the oil gone at
 *         the end of grease life (Ind. Lubr. Trib. 28(6) 1976, 198), starvation law r/(1+r^3)^(1/3)
 *         (Chevalier, Lubrecht, Cann et al., ASME J. Tribol. 120 (1998) 126, from memory) with r =
 * 4 for fresh grease, our choice. */
enum spt_status spt_grease_state(double tau, struct spt_grease_state *state);

/* Quantity to add at regreasing in g: 0.005 D B, D and B in mm (common practice, no source).
 * In: both > 0.   Status: SPT_BAD_ARGUMENT, NaN. */
enum spt_status spt_grease_quantity(double outside_diameter_mm, double width_mm, double *grams);

/* Usual upper limit of n d_m for grease, in mm r/min (common practice, no source): 500 000 ball,
 * 300 000 tapered and spherical and thrust roller, 400 000 cylindrical and needle; NaN outside
 * the enumeration. */
double spt_grease_speed_limit(enum spt_bearing_type type);

#ifdef __cplusplus
}
#endif

#endif
