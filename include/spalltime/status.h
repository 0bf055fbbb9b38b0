/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_STATUS_H
#define SPT_STATUS_H

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- status -------------------------------------------------------------------------------- */

/* The return value of the library's functions. SPT_OK is 0; every other value means that
 * the output holds NaN (or was left empty) and why. "Answered, but outside the scope
 * of the standard" is not a status: that is a flag in the result, see flag.h.
 * No pointer may be NULL where the comment on it does not say so. An array that goes with a count
 * may be NULL where the count is 0; with a count above 0 it is refused (SPT_BAD_ARGUMENT, or NaN
 * from a function without a status), and so is a NULL workspace or result buffer. */
enum spt_status {
    SPT_OK = 0,
    SPT_BAD_ARGUMENT,   /* an input is NaN, infinite, or outside the range its contract states */
    SPT_NOT_APPLICABLE, /* the method gives no value here (for instance kappa below 0.1) */
    SPT_CANNOT_CARRY,   /* this arrangement has no equilibrium under this load */
    SPT_FREE,           /* nothing is loaded: no equilibrium is singled out, life is unlimited */
    SPT_NOT_CONVERGED,  /* an iteration ended without meeting its tolerance */
    SPT_NO_MEMORY,      /* an allocation failed */
    SPT_TOO_SMALL,      /* the caller's array or workspace is too small */
    SPT_STATUS_COUNT
};

/* One plain sentence for each status; never NULL, also for values outside the enumeration. */
const char *spt_status_text(enum spt_status status);

/* ---- flag ---------------------------------------------------------------------------------- */

/* There is an answer, but with a caveat that the reader has to know. Each flag is kept with the
 * value that raised it and the limit it crossed; the report layer turns it into a sentence. */
enum spt_flag {
    SPT_FLAG_OVERLOAD,            /* P above 0.5 C: ISO 281 life is no longer reliable */
    SPT_FLAG_STATIC_SAFETY,       /* s0 below the guide value of ISO 76 */
    SPT_FLAG_LIGHT_LOAD,          /* P below the usual minimum load, fast and for long: skidding */
    SPT_FLAG_FILM_TOO_THIN,       /* kappa below 0.1: no a_ISO, no modified life */
    SPT_FLAG_FILM_CAPPED,         /* kappa above 4: 4 used */
    SPT_FLAG_LIFE_FACTOR_CAPPED,  /* a_ISO reached its upper limit of 50 */
    SPT_FLAG_EP_CREDIT,           /* kappa < 1 treated by the EP rule of ISO 281 */
    SPT_FLAG_HEAVY_CONTAMINATION, /* e_C below 0.1: wear may end the life first */
    SPT_FLAG_WATER_EXTRAPOLATED,  /* water above the 400 ppm of the tests */
    SPT_FLAG_WATER_FLOOR,         /* water factor at its lower bound */
    SPT_FLAG_WATER_SATURATED,     /* more water than the oil dissolves at this temperature */
    SPT_FLAG_GREASE_SPEED,        /* n d_m above the usual limit for grease */
    SPT_FLAG_RIB_SPEED,           /* tapered roller: rib sliding speed above the usual limit */
    SPT_FLAG_GREASE_OVERDUE,      /* grease older than its relubrication interval */
    SPT_FLAG_GREASE_EXHAUSTED,    /* worn grease no longer makes a film */
    SPT_FLAG_GREASE_NO_INTERVAL,  /* speed and bore outside the relubrication formula */
    SPT_FLAG_HOT_RATING,          /* rating derated for temperature above 150 degC */
    SPT_FLAG_TOO_HOT,             /* above the last tabulated temperature factor */
    SPT_FLAG_VISCOSITY_RANGE,     /* viscosity below 2 mm2/s: outside the plain D341 form */
    SPT_FLAG_OIL_TOO_STIFF,       /* viscosity above 2e7 mm2/s, where D341 ends: no life */
    SPT_FLAG_AXIAL_NOT_RATED,     /* axial load on a bearing whose rating does not cover it */
    SPT_FLAG_RADIAL_NOT_RATED,    /* radial load on a thrust bearing beyond its rating */
    SPT_FLAG_AXIAL_RANGE,         /* relative axial load outside the table: end value used */
    SPT_FLAG_CALENDAR_AGE,        /* life beyond the calendar age set as the limit */
    SPT_FLAG_STANDSTILL,          /* phase does not turn: no fatigue, static safety only */
    SPT_FLAG_NO_LOAD,             /* phase carries no load: no fatigue counted */
    SPT_FLAG_TEMPERATURE_ESTIMATED, /* temperature from the heat balance */
    SPT_FLAG_F0_ASSUMED,            /* deep groove: Fa/C0 table without f0 */
    SPT_FLAG_MISSED_TARGET,         /* life below the target */
    SPT_FLAG_CONTAMINATION_FLOOR,   /* e_C formula negative: 0 used */
    SPT_FLAG_EP_NOT_CREDITED,       /* EP additive, kappa < 1, but e_C below 0.2 */
    SPT_FLAG_GREASE_HOT,            /* grease above 120 degC */
    SPT_FLAG_GREASE_COLD,           /* grease below -20 degC */
    SPT_FLAG_INDUCED_THRUST,        /* tapered or angular contact: Fa below what Fr induces */
    SPT_FLAG_ABOVE_STATIC,          /* radial ball bearing: P above C0, where ISO 281 lives end */
    SPT_FLAG_OIL_SPEED,             /* n d_m above the usual limit for oil */
    SPT_FLAG_OIL_SLUGGISH,          /* oil too stiff to flow to the contacts */
    SPT_FLAG_PRELOAD,               /* hub preloaded as set: the heat of preload is not modelled */
    SPT_FLAG_END_PLAY,              /* hub set looser than wheel ends usually are */
    SPT_FLAG_FILM_THIN,             /* kappa below 0.4 without the EP rule: wear and peeling */
    SPT_FLAG_GREASE_LOAD,           /* P/C beyond the table behind the relubrication interval */
    SPT_FLAG_WATER_COLD,            /* free water at the coldest standstill */
    SPT_FLAG_OIL_WARM,              /* oil warmer than it lasts well at */
    SPT_FLAG_OIL_HOT,               /* hotter than practice allows for the oil */
    SPT_FLAG_OIL_PEAK,              /* above what the oil bears at all */
    SPT_FLAG_SLOPE_FAR,             /* machine: more than the type bears */
    SPT_FLAG_DUST_CONTRADICTED,   /* dust stated milder than the dirt inside says: one level less */
    SPT_FLAG_WET_CONTRADICTED,    /* the same of moisture and water */
    SPT_FLAG_SEALS_TRUSTED,       /* clean inside, heavy abrasive dust outside */
    SPT_FLAG_SPEED_LIMIT,         /* faster than the sheet of the bearing allows */
    SPT_FLAG_SHEET_RATING,        /* stated C and stated rollers or balls do not belong together */
    SPT_FLAG_SHEET_RATINGS,       /* C0/C unlike that of any bearing */
    SPT_FLAG_SHEET_FACTORS,       /* e and Y do not belong together */
    SPT_FLAG_SHEET_FATIGUE_LIMIT, /* C_u far from what C0 gives */
    SPT_FLAG_SHEET_LOAD_CENTRE,   /* load centre far from where the contact angle puts it */
    SPT_FLAG_TIGHT_WARM,          /* the least clearance at work is below 0 */
    SPT_FLAG_INNER_CREEPS,        /* the turning inner ring may have no interference */
    SPT_FLAG_OUTER_CREEPS,        /* the same of a turning outer ring */
    /* The rest are the same in every row of a sweep, which has no bits for them. */
    SPT_FLAG_PITCH_ASSUMED,         /* D_pw taken as (d + D)/2 */
    SPT_FLAG_FATIGUE_LIMIT_ASSUMED, /* C_u from C0 by the simplified rule */
    SPT_FLAG_INDEX_ASSUMED,         /* viscosity index 95 assumed */
    SPT_FLAG_CODE_ROUNDED,          /* ISO 4406 code between classes: next dirtier class used */
    SPT_FLAG_WATER_ASSUMED,         /* no water content stated: at most 100 ppm */
    SPT_FLAG_AGE_ASSUMED,           /* no grease age stated: fresh */
    SPT_FLAG_SURROUNDINGS_ASSUMED,  /* dust, moisture, vibration, position: inferred */
    SPT_FLAG_AMBIENT_ASSUMED,       /* no ambient stated for an estimate */
    SPT_FLAG_FILTRATION_ASSUMED, /* circulating oil: filtration that the class of Annex A implies is
                                    assumed */
    SPT_FLAG_CONDITION_KEPT,     /* phases with a condition of their own, which a changed condition
                                    leaves alone */
    SPT_FLAG_SHARES_SCALED,      /* time shares near 100 % scaled to it */
    SPT_FLAG_HISTORY_BINNED,     /* the duty was binned from a measured history */
    SPT_FLAG_HISTORY_REVERSED,   /* negative loads or speeds in it: absolute values used */
    SPT_FLAG_HISTORY_GAPS,       /* times in it that were left out as gaps */
    SPT_FLAG_HISTORY_LONG_HOLD,  /* one sample stands for far more time than is usual */
    SPT_FLAG_HISTORY_COARSE,     /* finer bins change the modified life */
    SPT_FLAG_HISTORY_EXPONENT,   /* binned for a bearing of another load-life exponent */
    SPT_FLAG_PRELOAD_CURE,       /* the recommended setting is a preload */
    SPT_FLAG_RUNNING_ASSUMED,    /* kind of running not stated, and another would be flagged */
    SPT_FLAG_CLASS_FROM_SEAL,    /* cleanliness class from seal and surroundings */
    SPT_FLAG_CLASS_FROM_FILTER,  /* the same from filter and ingress */
    SPT_FLAG_CLASS_UNKNOWN,      /* no class, and nothing that it follows from: basic life only */
    SPT_FLAG_SEAL_CONTRADICTED,  /* class stated cleaner than seal and surroundings say */
    SPT_FLAG_WATER_EXPECTED, /* water not stated, and the moisture would give more than counts */
    SPT_FLAG_FILTER_HOLDS,   /* class stated cleaner than the filter holds */
    SPT_FLAG_FILTER_OVERWHELMED,  /* the ingress is more than the filter is made for */
    SPT_FLAG_PHASE_DENTS,         /* much shorter if the dents of the dirtiest phase stay in all */
    SPT_FLAG_SLOPE,               /* machine: the shaft bends more in the bearing than is usual */
    SPT_FLAG_LOAD_CENTRE_ASSUMED, /* machine: load centre from the contact angle or e */
    SPT_FLAG_BELT_SLACK,          /* machine: belt tightened less than is usual */
    SPT_FLAG_SHEET_STATIC_FACTOR, /* Y and Y0 do not belong together */
    SPT_FLAG_HUB_BY_SHEET, /* a hub without inside geometry: its setting is not in the life */
    SPT_FLAG_LOAD_CENTRE_ESTIMATED, /* of a row of such a hub */
    SPT_FLAG_CLEARANCE,             /* radial clearance at work, least and most, um */
    SPT_FLAG_ZONE_UNKNOWN,          /* the same where no insides can be estimated: no load zone */
    SPT_FLAG_ZONE_ESTIMATED,        /* its rollers or balls are estimated from the outside */
    SPT_FLAG_ZONE_NARROW,           /* half the load zone in degrees, and its factor on the life */
    SPT_FLAG_TIP_NEAR,              /* vehicle: near to tipping in a bend */
    SPT_FLAG_EYE_LIFTS,             /* vehicle: the eye is pulled upwards in a phase */
    SPT_FLAG_SCRUB_LEFT_OUT,        /* vehicle: axles in a row in a tight bend, scrub not counted */
    SPT_FLAG_BRAKING_SHARED, /* vehicle: rockers shift load among axles that brake, not counted */
    SPT_FLAG_COUNT
};

/* value and limit: in the unit that the sentence of the flag names; NaN where it has none. */
struct spt_note {
    enum spt_flag flag;
    double value;
    double limit;
};

/* A set of notes, at most one per flag, in the order in which they were raised. Zero-initialise. */
struct spt_notes {
    int count;
    struct spt_note list[SPT_FLAG_COUNT];
};

/* Adds a note; a flag that is there already keeps its first value. Does nothing where `notes` is
 * NULL. */
void spt_notes_add(struct spt_notes *notes, enum spt_flag flag, double value, double limit);

/* Adds every note of another set, as above. */
void spt_notes_add_all(struct spt_notes *notes, const struct spt_notes *from);

/* True where the set holds the flag. */
bool spt_notes_has(const struct spt_notes *notes, enum spt_flag flag);

/* The stable machine name of a flag ("film_too_thin"), for JSON and CSV; never NULL,
 * "unknown" outside the enumeration. */
const char *spt_flag_code(enum spt_flag flag);

#ifdef __cplusplus
}
#endif

#endif
