/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_ASSESS_H
#define SPT_ASSESS_H

#include <stdbool.h>

#include "spalltime/bearing.h"
#include "spalltime/life.h"
#include "spalltime/lubricant.h"
#include "spalltime/seal.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- assess -------------------------------------------------------------------------------- */

/* The life of a bearing under a duty cycle, with every intermediate value kept so that a report can
 * show the calculation. Strings are borrowed; a double with no value is NaN. */

#define SPT_PHASES_MAX 1000
#define SPT_BEARINGS_MAX 16 /* of one machine; a hub has 2 */

struct spt_lubricant {
    const char *name;
    enum spt_lubrication kind;
    double viscosity_40_mm2_s; /* base oil */
    double viscosity_100_mm2_s;
    double viscosity_index; /* from the two viscosities where these were given */
    bool index_assumed;     /* neither the index nor a second viscosity was stated */
    struct spt_walther line;
    bool ep_additive;     /* the additive is proven effective */
    double density_g_cm3; /* NaN: 0.89 assumed, no correction */
    enum spt_solubility solubility;
    enum spt_base_oil base_oil;
    bool oil_life_stated; /* else gear oil or, circulating, hydraulic oil */
    enum spt_inhibition oil_life;
    bool sampled;          /* oil: samples are taken and decide on its change */
    bool greased_for_life; /* by the maker of the bearing: it cannot be regreased */
};

/* Where the class of cleanliness comes from. */
enum spt_class_source {
    SPT_CLASS_STATED, /* or e_C */
    SPT_CLASS_FROM_SEAL,
    SPT_CLASS_FROM_FILTER,
    SPT_CLASS_UNKNOWN /* grease: no modified life can be given; `cleanliness` is the dirtiest */
};

/* Dirt in which a bearing ran before: its dents stay in the raceways, so e_C is no better than in
 * that dirt, with the kappa and D_pw of the moment. A lower bound and a rule of this tool: ISO 281
 * describes a steady condition and has no rule for cleaning up later. All 0: none. */
struct spt_dents {
    bool of_class, of_factor; /* which of the two below are stated */
    enum spt_cleanliness cleanliness;
    double contamination_factor; /* e_C, 0 to 1 */
};

/* Dirt counts once it has ruled for this many hours of running in sum. A rule of this tool, after
 * bearings that ran for half an hour in unfiltered oil and then in clean oil and lived hardly
 * longer than in dirt throughout (Sayles and Macpherson, ASTM STP 771, 1982, from memory). */
#define SPT_DENTS_AFTER_H 0.5

/* The state the lubricant is in. */
struct spt_condition {
    enum spt_cleanliness cleanliness;
    bool code_rounded;               /* an ISO 4406 code between classes, next dirtier class used */
    bool size_unused;                /* the first number of the code (4 um) is ignored */
    bool water_assumed, age_assumed; /* not stated */
    unsigned surroundings_assumed;   /* bit 1u << enum spt_surrounding for each that was not stated:
                                        inferred, see struct spt_phase_result */
    double contamination_factor;     /* e_C given instead of a class; else NaN */
    double water_ppm;
    double grease_age_h; /* >= 0, the same in all phases of a bearing: it has one grease */
    struct spt_surroundings surroundings;
    /* coldest standstill in degC; below 0 the water freezes and 0 counts; filled with 0 (outdoors
     * or not known) or 10 (indoors) where it is not stated */
    double coldest_c;
    enum spt_class_source class_source;
    struct spt_sealing sealing;
    bool filtered; /* `filter` is stated, oil only */
    struct spt_filter filter;
    struct spt_dents dents; /* of earlier dirt in the same phase */
};

/* Seal and surroundings in one whole number, for notes: each word plus 1 in 4 bits, then whether
 * the seal is worn and the moisture plus 1. */
#define SPT_SEALING_PACK(sealing, inflow)                                                          \
    ((sealing).seal + 1 + 16 * ((sealing).breather + 1) + 256 * ((sealing).place + 1) +            \
     4096 * ((inflow).wet + 1) + 65536 * (int)(inflow).worn + 131072 * ((inflow).moisture + 1) +   \
     1048576 * (int)((sealing).wet < 0))

/* One phase of a duty cycle as one bearing sees it. */
struct spt_phase {
    const char *name;
    double time_share; /* 0 to 1; those of a bearing sum to 1 within 1e-6 */
    double speed_rpm;
    double radial_load_n;
    double axial_load_n;
    double peak_radial_n;     /* largest radial load of a turn, for the static safety, where a load
                                 turns with the shaft and radial_load_n is a mean; else 0 */
    double equivalent_load_n; /* given instead of the two loads; else NaN */
    double temperature_c;     /* NaN: from the heat balance */
    double ambient_c;
    bool ambient_assumed;
    double extra_heat_w;
    double cooling_factor;
    /* > 0: life at the setting over life at the reference; 1 without a hub */
    double setting_factor;
    double cured_setting_factor; /* > 0: the same at the cured setting */
    struct spt_condition condition;
};

/* Causes of lost life; a set of them is a bit mask of 1u << cause. "Cured" means: debris: the
 * cleanest class of the way of lubricating (or the given e_C where that is better); water: at most
 * 100 ppm; worn grease: fresh; thin film: kappa of at least 1 by a better grade or a cooler
 * bearing; overload: equivalent load at most the reference load; setting: the best setting that is
 * allowed, see setting.h. */
enum spt_cause {
    SPT_CAUSE_DEBRIS,
    SPT_CAUSE_WATER,
    SPT_CAUSE_WORN_GREASE,
    SPT_CAUSE_THIN_FILM,
    SPT_CAUSE_OVERLOAD,
    SPT_CAUSE_SETTING,
    SPT_CAUSE_COUNT
};

/* The usual name of a cause: "worn grease"; never NULL. */
const char *spt_cause_name(enum spt_cause cause);

/* One bearing, its lubricant and its duty. */
struct spt_bearing_case {
    struct spt_bearing bearing;
    const struct spt_phase *phases; /* 1 to SPT_PHASES_MAX */
    int phase_count;
};

/* State of the setting of a hub, filled by spt_hub_settle; all 0 without a hub. */
struct spt_case_setting {
    double end_play_mm;      /* as set in the workshop; 0 or below: none */
    double preload_mm;       /* as set, cold or running, whichever is greater; 0: none */
    double cured_preload_mm; /* the same for the cured setting */
    double offset_mm;        /* setting minus the cured one; below 0 where it is tighter */
    bool tilted;             /* a ring is misaligned, which the cure corrects as well */
};

struct spt_case;

/* What a bearing went through before the first hour of a case. All 0: it is new. */
struct spt_past {
    bool stated;
    bool cured; /* no dents count, neither these nor those of the phases: for the upper bound */
    double hours_run; /* >= 0, and it has not failed in them */
    struct spt_dents dents;
    /* the same machine and duty in the condition in which it ran those hours; NULL: as the case. A
     * settled case where that is settled */
    const struct spt_case *as_run;
};

struct spt_hub_case;        /* hub_case.h */
struct spt_hub_answer;      /* hub_bench.h */
struct spt_machine_case;    /* machine.h */
struct spt_vehicle_case;    /* vehicle.h */
struct spt_vehicle_answer;  /* vehicle.h */
struct spt_history_summary; /* history.h */

/* The months of a year in which a machine runs, before it is laid up. */
struct spt_season {
    int month;     /* first, 0: January */
    double months; /* 0 or less: all year round */
    /* where a plan starts (spt_season_begin): hours of the season that have run, and days until it
     * begins */
    double run_h, wait_days;
};

struct spt_case {
    const char *title;
    struct spt_lubricant lubricant;
    int bearing_count; /* 1 to SPT_BEARINGS_MAX; all work the same phases in the same order */
    struct spt_bearing_case bearings[SPT_BEARINGS_MAX];
    double reliability_percent;
    enum spt_running running; /* for the guide value of the static safety */
    bool running_stated;
    double target_life_h; /* NaN: none */
    /* share of machines in which the grease may fail in a year, below 1; needs yearly_use_h; 0 or
     * NaN: no limit */
    double grease_risk_limit;
    double reference_load_n; /* for the cause "overload"; NaN: none */
    double yearly_use_h;     /* hours of running in a year; NaN: not stated */
    bool service_apart; /* the scenario states drifts or events, which this case does not include */
    int kept_conditions; /* phases with a condition of their own, which a changed condition leaves
                            alone */
    double shares_sum;   /* of the time shares as stated, 1: 100 %; 0 where hours were stated */
    double age_limit_h;  /* calendar age limit in h; NaN: none */
    const struct spt_hub_case *hub;         /* two rows of a wheel hub; NULL: none */
    const struct spt_machine_case *machine; /* shafts that load the bearings; NULL: none */
    /* a hub of which a row states no inside geometry: its rows share the loads by the handbook, and
     * `hub` is NULL, so that nothing depends on its setting; else NULL */
    const struct spt_hub_case *sheet_hub;
    /* a vehicle whose wheel the hub is, either of the two above; NULL: none */
    const struct spt_vehicle_case *vehicle;
    struct spt_case_setting setting;
    bool vehicle_hub;       /* wheel hub of a vehicle: its outer ring turns, or it is stated */
    double road_speed_km_h; /* mean distance in a running hour; NaN or 0: not stated */
    int fleet;              /* number of machines like this one; 0 or less: not stated */
    struct spt_season season;
    int units;                                 /* of a machine, each as described; 0 or less: one */
    const struct spt_history_summary *history; /* source of a binned duty; NULL: none */
    struct spt_past past;
};

/* All units of all machines. */
double spt_case_units(const struct spt_case *question);

struct spt_phase_result {
    const struct spt_phase *phase;
    struct spt_equivalent_load dynamic;
    struct spt_equivalent_load resting; /* P0 */
    double static_safety_factor;
    double static_safety_guide;   /* guide value it should reach; NaN without load */
    double temperature_factor;    /* f_T on C */
    double dynamic_load_rating_n; /* f_T C */
    double temperature_c;
    struct spt_heat_balance heat; /* filled where the temperature was estimated */
    double viscosity_mm2_s;
    double reference_viscosity_mm2_s;
    double density_factor;
    double viscosity_ratio; /* kappa of the fresh lubricant */
    /* Of the grease in this phase: its own, but dust and moisture no milder than in any phase of
     * the duty that stands still (what stands wet runs wet), and no more than one level milder than
     * the dirt and the water inside. What is not stated is inferred: dust from the cleanliness,
     * moisture from the water (without either humid), vibration medium for the hub of a vehicle,
     * else low, the shaft vertical for thrust bearings, else horizontal. Rules of this tool. */
    struct spt_surroundings surroundings;
    struct spt_grease_interval interval;
    struct spt_grease_state grease;
    double effective_viscosity_ratio; /* after worn grease and any cure; not limited */
    double contamination_factor;
    double present_contamination_factor; /* of the dirt now; the one above is lower where dents of
                                            earlier dirt stay */
    struct spt_life_factor factor;
    double saturation_ppm;
    double water_factor;
    /* of a seat that states a clearance class, at the middle of the clearance at work: its `factor`
     * is what the life was multiplied by; 1 without a seat, the rest NaN */
    struct spt_clearance_zone zone;
    double rib_speed_m_s;
    double basic_rating_life_mrev;
    double basic_rating_life_h;
    double modified_rating_life_h; /* INFINITY: no damage; NaN: no answer, see the notes */
    double damage_share;
    struct spt_notes notes;
};

/* Loss of ln(life) split among its causes, see spt_loss_split. */
struct spt_cause_share {
    bool applies;           /* the cause exists in this case */
    double log_life_share;  /* <= 0: contribution to ln(actual/reference) */
    double life_if_cured_h; /* if only this cause were cured */
};
struct spt_loss {
    double reference_life_h; /* everything cured */
    struct spt_cause_share causes[SPT_CAUSE_COUNT];
    unsigned applying; /* the set of causes that apply */
    /* life in h for each set of applying causes cured, indexed by the set (bit mask) */
    double cured_life_h[1 << SPT_CAUSE_COUNT];
};

struct spt_bearing_result {
    const struct spt_bearing_case *bearing_case;
    struct spt_phase_result *phases; /* phase_count of them, in the caller's memory */
    int phase_count;
    double grease_interval_h; /* t_g of the duty cycle: 1 / sum(q_i / t_i) over the phases that
                                 turn, q the share of all time; NaN: see spt_greasing */
    double mean_speed_rpm;
    double mean_equivalent_load_n;
    double basic_rating_life_mrev; /* at the mean load */
    double basic_rating_life_h;
    double modified_rating_life_h;
    int worst_phase; /* most damage; -1 where none */
    struct spt_loss loss;
    struct spt_notes notes;
};

/* How the greasing of a machine can be kept. Rules of this tool. */
enum spt_greasing_state {
    SPT_GREASING_NONE,   /* oil, or nothing turns: no greasing */
    SPT_GREASING_KEPT,   /* by hand */
    SPT_GREASING_OFTEN,  /* below 50 h, or with yearly hours below a week at the pace of the season:
                            a lubricator, oil or a better seal */
    SPT_GREASING_CANNOT, /* below 8 h, no interval at this speed and bore, or too hot for grease */
    SPT_GREASING_STATE_COUNT
};

#define SPT_GREASING_BY_HAND_H 50
#define SPT_GREASING_WEEK_DAYS 7

/* The greasing of all bearings of a machine at one visit. It depends on what spt_grease_interval
 * depends on, and in days on the yearly hours, but on no life, target, reliability or costs. */
struct spt_greasing {
    enum spt_greasing_state state;
    bool too_hot;      /* for grease, in a phase that turns */
    bool too_fast;     /* a bearing has no interval at its speed and bore */
    double interval_h; /* the shortest grease_interval_h; NaN: none */
    int bearing;       /* that has it */
    int months;        /* at the latest, see spt_regreasing_months; 0: no greasing */
    double every_h;    /* rounded down, see spt_regreasing_kept_h; NaN: none can be kept */
    double every_days; /* the same in calendar time, at most `months`; NaN: no yearly hours */
    double kept_h; /* running hours between two greasings: the shorter of both; NaN as every_h */
};

/* What becomes of a life when dirt that events, drifts or the past brought is cleaned away. The
 * dents stay in the raceways, so the bound with dents that stay is the life that counts; no law of
 * recovery is accepted, and these two stand beside it for comparison alone. */
struct spt_dent_bounds {
    bool differ;       /* the bounds differ from the life; else all three are one */
    double if_cured_h; /* upper bound: cleaning cures all dents; INFINITY and NaN as a life */
    double
        half_credit_h; /* 1/L = 1/sqrt(L_stay L_cured) at each moment: dents that are rolled down */
    /* the dirtiest class that ruled for SPT_DENTS_AFTER_H of running (since the last new bearing),
     * and its running hours */
    bool of_class;
    enum spt_cleanliness cleanliness;
    double hours;
};

/* The life of bearings that have run for some hours and have not failed in them. Hours of a target
 * count from new; all others from now. */
struct spt_remaining {
    double hours_run; /* 0: new, and the next members are NaN, 0 and 1 */
    double life_h;    /* from now on, at the reliability of the case: of those that still run this
                         share    gets as far; INFINITY: no damage, NaN: no life */
    double spent[SPT_BEARINGS_MAX]; /* damage of each bearing so far, in units of its L10 */
    double survival;                /* share of all that has got so far */
};

/* The life if the dents of the dirtiest phase of a duty (time share above 0, standing ones too)
 * stay in all phases. The life of the standard sums the damage of phases that each have their own
 * e_C. A rule of this tool. */
struct spt_phase_dents {
    double life_h;     /* NaN: all phases are alike, or no life can be stated */
    const char *phase; /* the dirtiest; NULL as above */
    bool tells;        /* below SPT_PHASE_DENTS_TELL of the life */
    bool changes;      /* the life reaches a stated target, and this does not */
};
#define SPT_PHASE_DENTS_TELL 0.9

struct spt_uncertainty_result;

struct spt_assessment {
    const struct spt_case *question;
    double reliability_factor; /* a1 */
    int bearing_count;
    struct spt_bearing_result bearings[SPT_BEARINGS_MAX];
    double basic_rating_life_h; /* of the system */
    double modified_rating_life_h;
    double risk_shares[SPT_BEARINGS_MAX]; /* see spt_survival_shares; NaN: no life */
    int limiting;                         /* bearing with the largest share; -1: none */
    double cured_life_h[SPT_CAUSE_COUNT]; /* of the system with only this cause cured in every
                                             bearing */
    struct spt_greasing greasing;
    struct spt_phase_dents phase_dents;
    struct spt_dent_bounds dents; /* of the past */
    struct spt_remaining remaining;
    double judged_life_h; /* to hold against a target: hours run and remaining life together, or the
                             modified_rating_life_h of a new bearing */
    struct spt_notes notes;
    const struct spt_hub_answer *hub;         /* load distribution, set by the caller; else NULL */
    const struct spt_vehicle_answer *vehicle; /* all its wheels, set by the caller; else NULL */
    /* set by a caller that computed it (uncertainty.h): reports then give bands; else NULL */
    const struct spt_uncertainty_result *spread;
};

/* Computes everything above.
 * In:     a case whose numbers are in the ranges of the scenario format (docs: `spalltime schema`);
 *         `phases`: buffer for phase_count results of each bearing, one bearing after the other.
 * Result: the assessment; it borrows `question` and `phases`.
 * Status: SPT_BAD_ARGUMENT for a number that the models reject, SPT_TOO_SMALL for too many phases.
 * A quantity that has no answer is NaN, with a note that says why, and the status stays SPT_OK.
 * Source: the calculation of ISO 281:2007, as cited at each model; lives of the phases by
 *         Palmgren-Miner; system of two rows by spt_survival_series. */
enum spt_status spt_assess(const struct spt_case *question, struct spt_phase_result *phases,
                           struct spt_assessment *assessment);

/* Every flag of the assessment, its bearings and its phases once, with its first value, in the
 * order in which they are reported. */
void spt_assessment_notes(const struct spt_assessment *assessment, struct spt_notes *notes);

/* One bearing with a set of causes cured (bit mask), without the loss split; spt_loss_split and
 * others evaluate it many times. `bearing` members as in spt_bearing_result. */
enum spt_status spt_assess_bearing(const struct spt_case *question, int bearing_index,
                                   unsigned cured, struct spt_phase_result *phases,
                                   struct spt_bearing_result *bearing);

/* True where nothing stated says how dirty the grease of this condition is. */
bool spt_condition_is_unknown(const struct spt_condition *state);

/* The phase, and the bearing, of which grease the dirt is known by neither class, e_C, dust nor
 * seal and surroundings, so that no interval can be planned; false where there is none. */
bool spt_case_lacks_dirt(const struct spt_case *question, int *bearing, int *phase);

/* The oil of the case for spt_oil_life: where its style is not stated gear oil, circulating
 * hydraulic oil; with the care of a circulating system where it is sampled. */
struct spt_oil spt_case_oil(const struct spt_case *question);

/* The greasing of the machine, from the results of its bearings (question->bearing_count, each with
 * its phases). */
struct spt_greasing spt_greasing_of(const struct spt_case *question,
                                    const struct spt_bearing_result *bearings);

/* The same worked out from the case.
 * In:     `results`: buffer for the phases of one bearing.
 * Status: as spt_assess_bearing. */
enum spt_status spt_case_greasing(const struct spt_case *question, struct spt_phase_result *results,
                                  struct spt_greasing *greasing);

/* The bound of a case, and what it says beside the life of that case at its reliability.
 * In:     `results`: buffer for the phases of one bearing.
 * Status: as spt_assess_bearing. */
enum spt_status spt_phase_dents(const struct spt_case *question, struct spt_phase_result *results,
                                struct spt_phase_dents *dents);
void spt_phase_dents_judge(const struct spt_case *question, double life_h,
                           struct spt_phase_dents *dents);

/* The bounds beside the life of a case whose past left dents.
 * In:     `results`: buffer for the phases of one bearing.
 * Status: as spt_assess_bearing. */
enum spt_status spt_past_dents(const struct spt_case *question, struct spt_phase_result *results,
                               struct spt_dent_bounds *dents);

/* Remaining life in the condition of a case, by the law behind a1: S(t0 + t)/S(t0), the product
 * over the bearings, with the damage t0/L10 of the hours run in the condition of the past. In:
 * `results`: buffer for the phases of one bearing. Status: as spt_assess_bearing. Source:
 * spt_survival_spent. */
enum spt_status spt_remaining(const struct spt_case *question, struct spt_phase_result *results,
                              struct spt_remaining *remaining);

/* Adds the flags that the setting of a hub raises: preload as set, else a cured setting that is a
 * preload; more end play than is usual. */
void spt_case_setting_notes(const struct spt_case *question, struct spt_notes *notes);

/* ---- adjust -------------------------------------------------------------------------------- */

/* A change applied to every phase of a case, by a lever of `reach` or at a time of `timeline`.
 * Limits change only phases that are outside them. */
struct spt_adjustment {
    double least_water_ppm, most_water_ppm; /* 0 and INFINITY: no limit */
    int cleanest, dirtiest;                 /* enum spt_cleanliness; -1: no limit */
    double least_age_h, most_age_h;         /* of the grease; 0 and INFINITY: no limit */
    double load_factor;                     /* on every load; 1: none */
    double temperature_rise_k; /* 0: none; applied to the ambient too where the temperature is
                                  estimated */
};

/* The adjustment that changes nothing. */
struct spt_adjustment spt_adjustment_none(void);

/* Writes the adjusted copies of a case's phases to `phases` (buffer for the phases of all bearings,
 * one bearing after the other) and points the copy `adjusted` of the case at them. A phase with a
 * given e_C keeps it. Temperatures are not limited; see spt_case_within_temperatures. */
void spt_adjust_case(const struct spt_case *question, const struct spt_adjustment *adjustment,
                     struct spt_phase *phases, struct spt_case *adjusted);

/* True where every temperature is inside -60 to 300 degC and every ambient of an estimate inside
 * -60 to 150 degC, the range of the scenario format and the models; outside it no life is stated.
 */
bool spt_case_within_temperatures(const struct spt_case *question);

/* Number of phases of all bearings together: the buffer length that the functions above and below
 * need. */
int spt_case_phase_count(const struct spt_case *question);

/* Modified rating life in hours of the whole case (system of its bearings); NaN where it has none.
 * `results`: buffer for the phases of one bearing. */
enum spt_status spt_case_life(const struct spt_case *question, struct spt_phase_result *results,
                              double *life_h);

/* ---- loss ---------------------------------------------------------------------------------- */

/* Splits the loss of one bearing's life among its causes.
 * In:     the case; index of the bearing; `scratch`: buffer for its phase_count phase results.
 * Result: the causes that apply (curing them changes the life for some set of the others cured),
 *         each with its exact Shapley value on ln(life), so that the shares sum to
 *         ln(actual/reference) and do not depend on an order; and the life if only this cause were
 *         cured. Where the actual life has no value (film too thin, grease exhausted) the shares
 *         are NaN and the lives if cured are still given.
 * Status: as spt_assess.
 * Source: L. S. Shapley, A value for n-person games (1953). */
enum spt_status spt_loss_split(const struct spt_case *question, int bearing_index,
                               struct spt_phase_result *scratch, struct spt_loss *loss);

/* ---- suspect ------------------------------------------------------------------------------- */

/* What one suspected cause costs a bearing, and what its cure alone would give. */
struct spt_suspicion {
    enum spt_cause cause;
    bool weighed;           /* the case states the inputs that the cause needs, see below */
    bool applies;           /* the cause shortens this life */
    double life_h;          /* actual life; NaN where no life can be stated */
    double life_if_cured_h; /* with this cause alone cured; `life_h` where it does not apply */
    double life_ratio; /* cured over actual; 1 where it does not apply, NaN without both lives */
    double loss_share; /* its share of the total loss of ln(life), usually 0 to 1; 0 where it does
                          not apply */
    /* set by spt_suspect_side: the setting does not deviate to the side asked about */
    bool other_side;
};

/* The ways in which the setting of a hub may be wrong. */
enum spt_setting_side {
    SPT_SETTING_SIDE_EITHER,
    SPT_SETTING_SIDE_PRELOAD, /* preloaded, cold or running, and tighter than the cured setting */
    SPT_SETTING_SIDE_PLAY,    /* not preloaded, and looser than the cured setting */
    SPT_SETTING_SIDE_TILT,    /* a ring is misaligned */
    SPT_SETTING_SIDE_COUNT
};

/* Reads one cause out of an assessment.
 * In:     the assessment, the index of the bearing in it, the cause.
 * Result: the suspicion. Not weighed are worn grease in an oil-lubricated bearing, overload without
 *         a reference load, the setting where all setting factors are 1: life_if_cured_h,
 *         life_ratio and loss_share are then NaN, as is the share where no life can be stated.
 * Status: SPT_BAD_ARGUMENT for an index or a cause that is not there; every number is then NaN.
 * Source: the shares of spt_loss_split; nothing is recomputed. */
enum spt_status spt_suspect(const struct spt_assessment *assessment, int bearing_index,
                            enum spt_cause cause, struct spt_suspicion *suspicion);

/* Clears a suspicion of the cause "setting" from spt_suspect where the setting does not deviate to
 * `side`: the cause then costs nothing. Other causes are left unchanged.
 * In:     an assessment of a case from spt_hub_settle with `with_cure`. */
void spt_suspect_side(const struct spt_assessment *assessment, enum spt_setting_side side,
                      struct spt_suspicion *suspicion);

/* ---- damage -------------------------------------------------------------------------------- */

#define SPT_SHARE_TOLERANCE 1e-6 /* time shares sum to 1 within this; ours */

/* Palmgren-Miner: life of a duty cycle in hours, 1/L = sum q_i/L_i.
 * In:     n shares of time (>= 0, sum 1 within 1e-6) and lives in hours (> 0; INFINITY for a phase
 *         that does no damage).
 * Status: SPT_NOT_APPLICABLE, NaN, where a phase with a share > 0 has no life (NaN).
 * Source: Palmgren 1924, Miner 1945; the usual way to apply ISO 281 to variable duty. */
enum spt_status spt_damage_life(const double *shares, const double *lives_h, int n, double *life_h);

/* Share of the damage caused by each phase: (q_i/L_i) L. `damage` has n members, sum 1.
 * Status: as above; also SPT_NOT_APPLICABLE, all NaN, where no phase does damage. */
enum spt_status spt_damage_shares(const double *shares, const double *lives_h, int n,
                                  double *damage);

/* Mean speed and mean equivalent load of a duty cycle.
 * n_m = sum q_i n_i;  P_m = (sum q_i n_i P_i^p / n_m)^(1/p); 0 where nothing turns.
 * In:     n shares of time as above, speeds in r/min and loads in N (>= 0), exponent p (> 0).
 * Status: SPT_BAD_ARGUMENT.
 * Source: cubic-mean rule of the textbooks, with exponent p of the bearing. */
enum spt_status spt_damage_mean(const double *shares, const double *speeds_rpm,
                                const double *loads_n, int n, double exponent,
                                double *mean_speed_rpm, double *mean_load_n);

#ifdef __cplusplus
}
#endif

#endif
