/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_LUBRICANT_H
#define SPT_LUBRICANT_H

#include <stdbool.h>

#include "spalltime/bearing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- viscosity ----------------------------------------------------------------------------- */

/* The Walther line of one oil: log10 log10 (nu + 0.7) = a - b log10 (T / K), nu in mm2/s. */
struct spt_walther {
    double a;
    double b;
};

/* The line through two points of an oil.
 * In:     two temperatures in degC (above -273.15, different), two viscosities in mm2/s
 *         (0.31 to 2e7, the cooler one thicker).
 * Status: SPT_BAD_ARGUMENT otherwise, both members NaN.
 * Source: ASTM D341, engineering form with the constant 0.7 (valid for nu >= 2 mm2/s). */
enum spt_status spt_viscosity_line(double t1_c, double nu1_mm2_s, double t2_c, double nu2_mm2_s,
                                   struct spt_walther *line);

/* Kinematic viscosity in mm2/s at a temperature in degC (-273.15 exclusive to 1000). Below 2 mm2/s,
 * where the engineering form is not valid, the caller raises SPT_FLAG_VISCOSITY_RANGE.
 * Status: SPT_BAD_ARGUMENT (also for a line that does not fall, b <= 0); SPT_NOT_APPLICABLE above
 *         2e7 mm2/s, where D341 ends. NaN.
 * Source: ASTM D341, inverse of the engineering form. */
enum spt_status spt_viscosity_at(const struct spt_walther *line, double temperature_c,
                                 double *nu_mm2_s);

/* Viscosity index from the viscosities at 40 and 100 degC, in mm2/s (nu100 2 to 500, below nu40,
 * nu40 up to 2e7).
 * Status: SPT_BAD_ARGUMENT otherwise, NaN.
 * Source: ASTM D2270 / ISO 2909; L and H by the quadratics of appendix X2, which agree with table 1
 *         within 0.11 %; index within 0.25 of the tabulated procedure. Not rounded. Rows 1, 2 and
 *         the last of the quadratics were read from the source, the others are from memory. */
enum spt_status spt_viscosity_index(double nu40_mm2_s, double nu100_mm2_s, double *index);

/* The inverse: viscosity at 100 degC in mm2/s of an oil of nu40 (2.5 to 5000 mm2/s) and a viscosity
 * index (-50 to 400). By bisection: the index rises with nu100 at a fixed nu40, except for steps
 * where two quadratics meet: there the index of the result is off by up to 0.2.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where no nu100 in 2 to 400 mm2/s has the index. */
enum spt_status spt_viscosity_100_from_index(double nu40_mm2_s, double index, double *nu100_mm2_s);

/* The quadratics themselves, for tests and explanations: L and H of ASTM D2270 in mm2/s, for
 * nu100 2 to 500 mm2/s. Status: SPT_BAD_ARGUMENT otherwise, both NaN. */
enum spt_status spt_viscosity_index_basis(double nu100_mm2_s, double *l_mm2_s, double *h_mm2_s);

/* ISO 3448:1992 viscosity grades, mid-point viscosity at 40 degC in mm2/s. spt_viscosity_grade(i)
 * returns grade i (0 to SPT_VISCOSITY_GRADE_COUNT - 1) in ascending order, NULL for any other i. */
#define SPT_VISCOSITY_GRADE_COUNT 20
struct spt_viscosity_grade {
    int number;        /* as in "VG 46" */
    double nu40_mm2_s; /* mid-point; limits are +-10 % */
};
const struct spt_viscosity_grade *spt_viscosity_grade(int i);

/* ---- cleanliness --------------------------------------------------------------------------- */

/* The 14 conditions of ISO 281:2007 Annex A, cleanest first in each of the three groups. */
enum spt_cleanliness {
    SPT_CLEANLINESS_CIRCULATING_13_10, /* in-line filter, beta_6(c)  = 200 */
    SPT_CLEANLINESS_CIRCULATING_15_12, /* in-line filter, beta_12(c) = 200 */
    SPT_CLEANLINESS_CIRCULATING_17_14, /* in-line filter, beta_25(c) >= 75 */
    SPT_CLEANLINESS_CIRCULATING_19_16, /* in-line filter, beta_40(c) >= 75 */
    SPT_CLEANLINESS_BATH_13_10,        /* oil bath, or circulating with off-line filter */
    SPT_CLEANLINESS_BATH_15_12,
    SPT_CLEANLINESS_BATH_17_14,
    SPT_CLEANLINESS_BATH_19_16,
    SPT_CLEANLINESS_BATH_21_18,
    SPT_CLEANLINESS_GREASE_HIGH,
    SPT_CLEANLINESS_GREASE_NORMAL,
    SPT_CLEANLINESS_GREASE_SLIGHT,
    SPT_CLEANLINESS_GREASE_SEVERE,
    SPT_CLEANLINESS_GREASE_VERY_SEVERE,
    SPT_CLEANLINESS_COUNT
};

enum spt_lubrication {
    SPT_LUBRICATION_GREASE,
    SPT_LUBRICATION_OIL_BATH,
    SPT_LUBRICATION_CIRCULATING,
    SPT_LUBRICATION_COUNT
};

bool spt_lubrication_is_known(enum spt_lubrication kind);

/* The one of grease, oil bath and circulating oil whose tables (cleanliness classes of ISO 281
 * Annex A, friction factors) and whose task of a maintenance plan hold for a way of lubricating;
 * grease for an unknown one. */
enum spt_lubrication spt_lubrication_like(enum spt_lubrication kind);

/* Sliding speed in m/s at a rib above which roller ends may scuff; NaN for an unknown way.
 * Source: common practice, no source. */
double spt_lubrication_rib_limit_m_s(enum spt_lubrication kind);

/* Constants of e_C = a (1 - b / D_pw^(1/3)), a = min(1, c kappa^0.68 D_pw^0.55). */
struct spt_cleanliness_constants {
    double c;
    double b;
};

/* The constants of a condition; D_pw is used only for SPT_CLEANLINESS_GREASE_SLIGHT, whose b
 * changes at 500 mm. Both NaN for a value outside the enumeration.
 * Source: ISO 281:2007 Annex A, all constants from memory. */
struct spt_cleanliness_constants spt_cleanliness_constants(enum spt_cleanliness condition,
                                                           double pitch_diameter_mm);

/* First (cleanest) condition and number of conditions that belong to a way of lubricating. */
enum spt_cleanliness spt_cleanliness_first(enum spt_lubrication kind);
int spt_cleanliness_count(enum spt_lubrication kind);

/* Short name used in files and reports: "normal", "-/15/12" (the same for bath and circulating
 * oil). Never NULL; "unknown" outside the enumeration. */
const char *spt_cleanliness_name(enum spt_cleanliness condition);

/* The way of lubricating that a condition belongs to. */
enum spt_lubrication spt_cleanliness_kind(enum spt_cleanliness condition);

/* Contamination factor e_C, 0 to 1.
 * In:     condition; kappa (> 0; callers limit it to 4); D_pw in mm (> 0). A negative bracket (1 -
 *         b/D_pw^(1/3)) gives 0.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: ISO 281:2007 Annex A (from memory). */
enum spt_status spt_cleanliness_factor(enum spt_cleanliness condition, double kappa,
                                       double pitch_diameter_mm, double *e_c);

/* An ISO 4406 code: particles per mL above 4, 6 and 14 um(c); -1 where the code has "-". */
struct spt_iso4406 {
    int over_4;
    int over_6;
    int over_14;
};

/* Reads "-/15/12", "18/15/12" or "15/12" (two numbers are those for 6 and 14 um): numbers 0 to 28,
 * not increasing from left to right, those for 6 and 14 um present. `length` bytes; surrounding
 * spaces are allowed.
 * Status: SPT_BAD_ARGUMENT where the text is not such a code, all three members -1. */
enum spt_status spt_iso4406_parse(const char *text, unsigned length, struct spt_iso4406 *code);

/* The scale number for a particle count per mL (>= 0); 29 stands for "more than 28".
 * -1 for NaN or a negative count.
 * Source: ISO 4406:2017 table 1. */
int spt_iso4406_number(double particles_per_ml);

/* The largest particle count per mL of a scale number from 0 to 28; NaN outside.
 * Source: ISO 4406:2017 table 1. */
double spt_iso4406_most(int number);

/* The Annex A condition of a code for oil bath or circulating oil: the cleanest condition that
 * lists a code (its own or an equivalent) not below the given one in the 6 and in the 14 um number.
 * So a cleaner code never gets a dirtier condition. `*rounded` tells whether the code itself is not
 * listed. The 4 um number is ignored. Equivalents, for both kinds of oil: -/13/10: 12/10 11/9 12/9;
 * -/15/12: 14/12 16/12 16/13; -/17/14: 18/14 18/15 19/15. Circulating -/19/16: 20/17 21/18 22/18.
 * Oil bath -/19/16: 18/16 20/17 21/17; -/21/18: 21/19 22/19 23/19.
 * Status: SPT_BAD_ARGUMENT where a number is missing or the numbers increase; SPT_NOT_APPLICABLE
 *         for grease or for oil dirtier than the last class; *condition is then
 *         SPT_CLEANLINESS_COUNT.
 * Source: ISO 281:2007 Annex A, the lists from memory. */
enum spt_status spt_cleanliness_from_code(enum spt_lubrication kind, const struct spt_iso4406 *code,
                                          enum spt_cleanliness *condition, bool *rounded);

/* ---- water --------------------------------------------------------------------------------- */

#define SPT_WATER_REFERENCE_PPM 100.0 /* no credit below */
#define SPT_WATER_TESTED_PPM 400.0 /* largest content in the tests, which covered 25 to 400 ppm */
#define SPT_WATER_EXPONENT 0.6
#define SPT_WATER_FLOOR (1.0 / 11.0)

/* How much water an oil can dissolve. */
enum spt_solubility { SPT_SOLUBILITY_PLAIN, SPT_SOLUBILITY_ADDITIVATED, SPT_SOLUBILITY_COUNT };

/* Water factor a_w on the life: 1 up to 100 ppm, else (100/X)^0.6, not below 1/11.
 * In:     water in ppm by mass (0 to 1e6).
 * Source: R. E. Cantley, ASLE Trans. 20(3) (1977) 244-248 for the exponent (tapered rollers, 25 to
 *         400 ppm, one oil); floor from the bearing chapter of the US Navy mechanical reliability
 *         handbook (from memory). ISO 281 itself has no water factor: this is a model, not a
 *         standard.
 * Status: SPT_BAD_ARGUMENT outside the range, NaN. The caller raises the flags for extrapolation
 *         and lower bound. */
enum spt_status spt_water_factor(double water_ppm, double *a_w);

/* Saturation in ppm at a temperature in degC (-40 to 200): log10 S = A - B/T_K.
 * Source: plain: transformer-type mineral oil, A 7.0895, B 1567 (from memory, agrees with a
 *         published table); additivated: A 6.65036, B 1189.46 (example oil of a moisture sensor
 *         manual).
 * Status: SPT_BAD_ARGUMENT outside the range, NaN. */
enum spt_status spt_water_saturation(enum spt_solubility kind, double temperature_c, double *ppm);

/* Water in ppm that falls out as free water at a temperature in degC: max(0, X - S), S at 0 degC
 * below 0, where it freezes.
 * In:     water in ppm (0 to 1e6), temperature -60 to 200 degC.
 * Source: saturation as above; freezing our choice.
 * Status: SPT_BAD_ARGUMENT outside the range, NaN. */
enum spt_status spt_water_free(enum spt_solubility kind, double water_ppm, double temperature_c,
                               double *free_ppm);

/* How far above the saturation water may be before it counts as a finding: no fit of saturation is
 * better (our choice). */
#define SPT_WATER_FINDING 1.1

/* ---- life of oil --------------------------------------------------------------------------- */

enum spt_base_oil {
    SPT_BASE_OIL_MINERAL,
    SPT_BASE_OIL_PAO,   /* synthetic hydrocarbon */
    SPT_BASE_OIL_OTHER, /* PAG, ester: limits as its maker states */
    SPT_BASE_OIL_COUNT
};

/* What the oil is made to withstand, for its oxidation. */
enum spt_inhibition {
    SPT_INHIBITION_NONE,
    SPT_INHIBITION_EP_GEAR,
    SPT_INHIBITION_HYDRAULIC,
    SPT_INHIBITION_TURBINE,
    SPT_INHIBITION_COUNT
};

/* Oxidation life of a mineral oil in h: 10^(k1 + 4750/(T + 273)), k1 -10.64 uninhibited, -10.31 EP
 * gear oil, -8.76 hydraulic, -8.45 turbine.
 * In:     -60 to 300 degC.
 * Source: Booser's form for turbine and other mineral oils as reprinted in the trade press; k1 from
 *         memory.
 * Status: SPT_BAD_ARGUMENT, NaN. */
enum spt_status spt_oil_oxidation_life(enum spt_inhibition inhibition, double temperature_c,
                                       double *hours);

struct spt_oil {
    enum spt_base_oil base;
    enum spt_inhibition inhibition; /* of mineral oil */
    bool circulating;               /* a system with filters, the oil sampled */
};

/* Hours after which oil is changed: 8000 min(1, 2^(-(T - 50)/15)), three times that for synthetic
 * oil and in a circulating system, for mineral oil at most 2.5 oxidation lives.
 * In:     -60 to 300 degC.
 * Source: an envelope under the common practice of industrial gear units (mineral 8000 h to 65,
 * 4000 to 80, 2000 to 95 degC, synthetic three times that) and 2.5 are our choice: modern oils
 *         outlive the constants of the 1970s.
 * Status: SPT_BAD_ARGUMENT, NaN. */
enum spt_status spt_oil_life(const struct spt_oil *oil, double temperature_c, double *hours);

/* Limits in degC of an oil: warm costs life of the oil (mineral 80), hot 93 (PAO 110), and the peak
 * that it does not bear, 120 (PAO 150); INFINITY for others, NaN outside the enumeration.
 * Source: common practice, from memory; 93 degC (200 degF) as in Army TM 5-3895-374-24-2. */
struct spt_oil_limits {
    double warm_c, hot_c, peak_c;
};
struct spt_oil_limits spt_oil_limits(enum spt_base_oil base);

/* ---- grease -------------------------------------------------------------------------------- */

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

/* The surroundings that a scenario may leave unstated. */
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

/* The levels in the value of SPT_FLAG_SURROUNDINGS_ASSUMED: four bits of enum spt_surrounding, then
 * two for each level in that order. In the limits of SPT_FLAG_DUST_CONTRADICTED and
 * SPT_FLAG_WET_CONTRADICTED stand the level stated, and 16 times the level that counts. */
#define SPT_SURROUNDINGS_PACK(around)                                                              \
    (double)((unsigned)(around).dust << 4 | (unsigned)(around).moisture << 6 |                     \
             (unsigned)(around).vibration << 8 | (unsigned)(around).shaft << 10)
#define SPT_SURROUNDINGS_UNPACK(packed, surrounding) ((packed) >> (4 + 2 * (surrounding)) & 3u)

/* What the dirt inside and the water say about the surroundings: a level of dust or moisture from 0
 * (mildest) to 4, where 4 is harsher than every word and counts as the harshest.
 * Dust by e_C: from 0.6 0, from 0.4 1, from 0.1 2, from 0.03 3, below 4; the classes of grease from
 * high to very severe likewise. Moisture by ppm of water: to 100 0, to 200 1, to 400 2, to 1000 3,
 * above 4. NaN: 0.
 * Source: our choice, in the words of ISO 281:2007 Annex A. */
int spt_surroundings_dust_implied(double contamination_factor);
int spt_surroundings_moisture_implied(double water_ppm);
#define SPT_SURROUNDINGS_HARSHEST 3 /* level of dust and of moisture */

/* The level that counts: what is implied where none is stated (`stated` -1), else what is stated,
 * but no milder than one level below what is implied.
 * Source: our choice. */
int spt_surroundings_level(int stated, int implied);

/* What the relubrication interval depends on, and nothing else. */
struct spt_grease_inputs {
    enum spt_bearing_type type;
    double bore_mm;             /* > 0 */
    double outside_diameter_mm; /* > bore; used where the outer ring turns */
    bool outer_turns;           /* the outer ring turns under a load that stands still: a wheel */
    double speed_rpm;           /* > 0 */
    double load_share;          /* equivalent load over the dynamic rating, P/C, >= 0 */
    double temperature_c;       /* -60 to 300 */
    struct spt_surroundings around;
};

/* Above this P/C the factor for load is an extrapolation. */
#define SPT_GREASE_LOAD_SHARE_MAX 0.35

/* The relubrication interval and its factors. */
struct spt_grease_interval {
    double ring_speed_rpm;     /* n_e: the speed, times 2 D/(d + D) where the outer ring turns */
    double bracket_h;          /* 14e6/(n_e sqrt d) - 4 d */
    double type_factor;        /* F_d 10 ball, 5 cylindrical and needle, 1 other rollers, thrust */
    double temperature_factor; /* F_T */
    double dust_factor;        /* F_c */
    double moisture_factor;    /* F_m */
    double vibration_factor;   /* F_v */
    double shaft_factor;       /* F_p */
    double load_factor;        /* F_L */
    double size_factor;        /* F_S: 0.5 above 300 mm bore, else 1 */
    double interval_h;         /* t_f = product of all */
};

/* Relubrication interval t_f in hours.
 * Status: SPT_BAD_ARGUMENT, all members NaN; SPT_NOT_APPLICABLE where the bracket is not positive
 *         (interval NaN, bracket and factors given).
 * F_L:    log-linear in P/C between rollers (0.10, 1) (0.15, 0.7) (0.25, 0.4) (0.35, 0.1), balls
 *         (0.05, 1) (0.10, 0.7) (0.125, 0.5) (0.25, 0.2) (0.35, 0.1); 1 below the first; beyond the
 *         last it falls on by exp(-13.863 (P/C - 0.35)).
 * Source: common practice, no standard: K (14e6/(n sqrt d) - 4 d) with the names of its factors and
 *         F_d 10, 5, 1 as reprinted in maintenance magazines since about 2000, some of which cite
 *         DIN 51825, a specification of greases, which is doubtful; the levels of F_c, F_m, F_v and
 *         F_p from memory of the same articles. F_T is not from them: it halves per 15 degC above
 *         70 degC, and F_S and the outer ring (n D in place of n d_m) are catalogue practice too.
 *         F_L: rollers, the upper ends of the table in a worksheet of the German lubrication
 *         society (from memory); balls, a table for sealed ball bearings in a trade article, its
 *         last point ours; interpolation and what lies beyond the last point are our choice.
 *         Accurate to a factor of about 2 either way. */
enum spt_status spt_grease_interval(const struct spt_grease_inputs *in,
                                    struct spt_grease_interval *result);

/* State of a grease of age t = tau t_f; all NaN after an error. A model of our own, no standard. */
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

/* Quantity of grease in g to add at regreasing: 0.005 D B, D and B in mm (common practice, no
 * source).
 * In:     both > 0.
 * Status: SPT_BAD_ARGUMENT, NaN. */
enum spt_status spt_grease_quantity(double outside_diameter_mm, double width_mm, double *grams);

/* Usual upper limit of n_e d_m for grease, in mm r/min (common practice, from memory): 500 000 ball
 * and cylindrical, 350 000 other rollers; NaN outside the enumeration. */
double spt_grease_speed_limit(enum spt_bearing_type type);

/* ---- regreasing ---------------------------------------------------------------------------- */

/* S_g = exp(-ln(1/0.99) tau^slope), tau = age over interval: the interval is the 1 % grease life;
 * slope from L10 = 2.7 t_f: ln(ln(0.9)/ln(0.99))/ln 2.7. */
#define SPT_GREASE_HAZARD 0.01005
#define SPT_GREASE_SLOPE 2.366

/* Regreasing of one bearing. */
struct spt_grease_plan {
    double interval_h; /* t_f > 0, the relubrication interval, see grease.h */
    double period_h;   /* time between regreasings, > 0; INFINITY: never */
};

/* Share of the greases that survives t_h (>= 0) hours where each regreasing renews the grease:
 * product of S_g over the whole periods and the remaining time.
 * Source: a model of our own on t_f = L01 and L10 = 2.7 t_f (common catalogue practice; Lugt,
 *         Grease Lubrication in Rolling Bearings, 2013, from memory), not a standard. */
enum spt_status spt_regreasing_survival(const struct spt_grease_plan *plan, double t_h,
                                        double *survival);

/* Share of the greases that fails within `hours` (>= 0) of use, given that all work at the start:
 * 1 - exp(-0.01005 (H/T)(T/t_f)^2.366), each regreasing a whole period T; without regreasing from
 * fresh, T = H. It errs on the high side for periods far below t_f.
 * Source: the law of spt_regreasing_survival, our choice.
 * Status: SPT_BAD_ARGUMENT, NaN. */
enum spt_status spt_regreasing_risk(const struct spt_grease_plan *plan, double hours,
                                    double *share);

/* Bearings of one machine that are greased together. */
struct spt_grease_group {
    const double *intervals_h; /* t_f of each, > 0 */
    int count;                 /* > 0 */
    int units;                 /* machines have each of them so many times; > 0 */
};

/* The regreasing period at which a grease of the group fails in a share `share` (0 < p < 1) of the
 * machines within `hours` (> 0), given that all work at the start, at most the shortest interval:
 * T = min(t_f,k; (-ln(1 - p) / (0.01005 H sum t_f,k^-2.366))^(1/1.366)).
 * Source: the law of spt_regreasing_risk, solved for its period, our choice.
 * Status: SPT_BAD_ARGUMENT, NaN. */
enum spt_status spt_regreasing_period_for(const struct spt_grease_group *group, double hours,
                                          double share, double *period_h);

/* Hours until the first regreasing of a grease that is `age_h` (>= 0) old, with an interval of
 * `interval_h` (> 0). The interval counts from the last greasing: interval minus age, 0 (at once)
 * where that is negative. The next is due one interval later. Source: common practice, no
 * source. */
double spt_regreasing_first(double interval_h, double age_h);

/* The largest interval that a workshop keeps and that is not longer than the raw one; NaN below the
 * first. It is never rounded up and loses less than half.
 * Hours:  8 10 16 20 25 40 50 60 80 100 125 150 200 250 300 400 500 600 800 1000 1250 1500 2000
 *         2500 3000 4000 5000 6000 8000 10000 12500 15000, and so on in each decade.
 * Days:   1 2 3 4, then 1, 2, 4, 6 weeks, 2, 3, 4, 6, 12, 18, 24 months, 3, 5 years (7 14 28 42 61
 *         91 122 183 365 548 730 1095 1826).
 * Source: a rule of this tool. */
double spt_regreasing_kept_h(double raw_h);
double spt_regreasing_kept_days(double raw_days);

/* Days that were kept, with months of a twelfth of a year: 91 days are 3 months, four of which make
 * a year. Below two months nothing changes. */
double spt_regreasing_days_exact(double kept_days);

/* Months after which grease is renewed whatever the hours: 24, 12, 6, 3 by the harsher of the
 * levels of dust and moisture (0 mildest), for the hub of a vehicle at most 12.
 * Source: a rule of this tool; practice ranges from 48 months whatever the use (MIL-HDBK-1164) to 3
 *         months for large motors in the heat. */
int spt_regreasing_months(const struct spt_surroundings *around, bool vehicle_hub);

/* Hours of a month of 30.44 days and of a year, calendar time. */
#define SPT_MONTH_DAYS 30.44
#define SPT_YEAR_H 8766.0

/* ---- film ---------------------------------------------------------------------------------- */

#define SPT_KAPPA_MIN 0.1 /* below: ISO 281 gives no a_ISO (9.3.3.3, from memory) */
#define SPT_KAPPA_MAX 4.0 /* above: 4 is used */

/* Reference viscosity nu_1 in mm2/s, the viscosity a clean bearing needs for kappa = 1.
 * In:     speed in r/min (> 0), pitch diameter D_pw in mm (> 0).
 * Source: ISO 281:2007, equations (28), (29) (numbers from memory); the 2.3 % step at
 *         1000 r/min is the standard's own: the second branch holds from 1000 on.
 * Status (all functions here): SPT_BAD_ARGUMENT outside the stated range, NaN. */
enum spt_status spt_film_reference_viscosity(double speed_rpm, double pitch_diameter_mm,
                                             double *nu1_mm2_s);

/* Factor on kappa for an oil whose density (0.6 to 1.5 g/cm3) is not 0.89: (rho/0.89)^0.83.
 * Source: ISO 281:2007, 9.3.3.3, exponent from memory. */
enum spt_status spt_film_density_factor(double density_g_cm3, double *factor);

/* Viscosity ratio kappa = nu/nu_1 times the density factor (1: no correction).
 * In:     all three > 0. Not limited: the caller raises flags for values outside 0.1 to 4. */
enum spt_status spt_film_viscosity_ratio(double nu_mm2_s, double nu1_mm2_s, double density_factor,
                                         double *kappa);

/* Effective viscosity ratio of a film thinned to `film_ratio` (0 to 1) of its full height: kappa (>
 * 0) * film_ratio^1.3, 0 for no film, from the relation kappa = Lambda^1.3 of ISO 281:2007
 * 9.3.3.3. */
enum spt_status spt_film_effective_ratio(double kappa, double film_ratio, double *effective);

/* ---- heat ---------------------------------------------------------------------------------- */

/* Range of bearing temperatures, and upper limit of the ambient for the heat balance, in scenarios
 * and models. Limits of this tool; at 300 degC the temperature factors of the ratings end. */
#define SPT_COLDEST_C (-60.0)
#define SPT_HOTTEST_C 300.0
#define SPT_HOTTEST_AMBIENT_C 150.0

struct spt_heat_inputs {
    const struct spt_bearing *bearing; /* needs bore, outside diameter and width */
    enum spt_lubrication lubrication;
    struct spt_walther oil;
    double speed_rpm;         /* >= 0 */
    double equivalent_load_n; /* >= 0 */
    double ambient_c;         /* -60 to 150 */
    double extra_heat_w;      /* brakes, seals; >= 0 */
    double cooling_factor;    /* factor on the conductance of ISO 15312, 0.1 to 10: see spt_air */
};

/* The movement of the air around a housing, which decides the heat transfer by convection and
 * radiation. */
enum spt_air { SPT_AIR_STILL, SPT_AIR_DRAUGHT, SPT_AIR_WIND, SPT_AIR_COUNT };

/* Heat transfer coefficient to which the conductance of ISO 15312 is assumed to correspond (our
 * choice). The cooling factor is another coefficient divided by it. */
#define SPT_AIR_REFERENCE_W_M2K 20.0

/* Heat transfer coefficient of the air in W/(m2 K): still 10, draught 20, wind 33; NaN outside the
 * enumeration. Rounded from a cylinder of 150 mm across a flow of 0, 2 and 5 m/s, 20 K warmer than
 * the air, with the radiation of a painted surface: 10.1, 20.8 and 33.1.
 * Source: form of Kays and Bjorklund for a cylinder in cross flow (from memory); the air speeds
 *         assigned to the words are our choice. */
double spt_heat_air_w_m2k(enum spt_air air);

struct spt_heat_balance {
    double temperature_c;
    double viscosity_mm2_s;
    double oil_torque_nmm;  /* M0 */
    double load_torque_nmm; /* M1 */
    double heat_w;
    double conductance_w_k;
};

/* Friction torques and heat at a viscosity in mm2/s (> 0): fills viscosity, M0, M1 and heat_w,
 * leaves temperature and conductance NaN. M0 = f0 1e-7 (nu n)^(2/3) dm^3 (nu n >= 2000), else f0
 * 160e-7 dm^3; M1 = f1 P dm; dm = (d + D)/2; Q = 1.047e-4 n (M0 + M1), where the source rounds 2
 * pi/60 000 to four digits; f0 by type and way of lubricating, f1 by type, mean values where the
 * source gives a range; balls use f1 = z (P/C0)^y with P for P0, and need the static load rating.
 * Status: SPT_BAD_ARGUMENT, all members NaN.
 * Source: Palmgren (1957); Harris, Rolling Bearing Analysis, chapter on friction (from memory). */
enum spt_status spt_heat_friction(const struct spt_heat_inputs *in, double nu_mm2_s,
                                  struct spt_heat_balance *out);

/* Conductance from bearing to surroundings in W/K: q_r A_r/50 K times a cooling factor (0.1 to 10).
 * A_r = pi B (D + d), for tapered rollers B is the assembled width T; thrust pi/2 (D^2 - d^2).
 * q_r = 0.016 W/mm2, above A_r 50 000 mm2 0.016 (A_r/50 000)^-0.34; thrust 0.020 and -0.16.
 * Status: SPT_BAD_ARGUMENT, NaN.
 * Source: ISO 15312:2018 (from memory); the cooling factor is a model of this tool, see spt_air. */
enum spt_status spt_heat_conductance(const struct spt_bearing *bearing, double cooling_factor,
                                     double *conductance_w_k);

/* Steady bearing temperature from friction and cooling, by a bracketing root finder between the
 * ambient and 300 degC. At speed 0 only the extra heat is used.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where the oil is beyond D341 at the ambient (above
 *         2e7 mm2/s); SPT_NOT_CONVERGED where there is no balance below 300 degC; SPT_NO_MEMORY.
 *         All members NaN.
 * Source: friction and cooling as above. Accurate to 10 to 15 K at best: a measured temperature is
 *         always better. Below 2 mm2/s the caller raises SPT_FLAG_VISCOSITY_RANGE. */
enum spt_status spt_heat_temperature(const struct spt_heat_inputs *in,
                                     struct spt_heat_balance *out);

#ifdef __cplusplus
}
#endif

#endif
