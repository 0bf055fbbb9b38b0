/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/status.h"
#include "words/table.h"

SPT_DEFINE_WORDS(
    spt_flag_words,
    SPT_FLAG_COUNT, [SPT_FLAG_OVERLOAD] = "overload", [SPT_FLAG_STATIC_SAFETY] = "static_safety",
    [SPT_FLAG_LIGHT_LOAD] = "light_load", [SPT_FLAG_FILM_TOO_THIN] = "film_too_thin",
    [SPT_FLAG_FILM_CAPPED] = "film_capped", [SPT_FLAG_LIFE_FACTOR_CAPPED] = "life_factor_capped",
    [SPT_FLAG_EP_CREDIT] = "ep_credit", [SPT_FLAG_HEAVY_CONTAMINATION] = "heavy_contamination",
    [SPT_FLAG_WATER_EXTRAPOLATED] = "water_extrapolated", [SPT_FLAG_WATER_FLOOR] = "water_floor",
    [SPT_FLAG_WATER_SATURATED] = "water_saturated", [SPT_FLAG_GREASE_SPEED] = "grease_speed",
    [SPT_FLAG_RIB_SPEED] = "rib_speed", [SPT_FLAG_GREASE_OVERDUE] = "grease_overdue",
    [SPT_FLAG_GREASE_EXHAUSTED] = "grease_exhausted",
    [SPT_FLAG_GREASE_NO_INTERVAL] = "grease_no_interval", [SPT_FLAG_HOT_RATING] = "hot_rating",
    [SPT_FLAG_TOO_HOT] = "too_hot", [SPT_FLAG_VISCOSITY_RANGE] = "viscosity_range",
    [SPT_FLAG_OIL_TOO_STIFF] = "oil_too_stiff", [SPT_FLAG_AXIAL_NOT_RATED] = "axial_not_rated",
    [SPT_FLAG_RADIAL_NOT_RATED] = "radial_not_rated", [SPT_FLAG_AXIAL_RANGE] = "axial_range",
    [SPT_FLAG_CALENDAR_AGE] = "calendar_age", [SPT_FLAG_STANDSTILL] = "standstill",
    [SPT_FLAG_NO_LOAD] = "no_load", [SPT_FLAG_PITCH_ASSUMED] = "pitch_assumed",
    [SPT_FLAG_FATIGUE_LIMIT_ASSUMED] = "fatigue_limit_assumed",
    [SPT_FLAG_INDEX_ASSUMED] = "index_assumed", [SPT_FLAG_WATER_ASSUMED] = "water_assumed",
    [SPT_FLAG_AGE_ASSUMED] = "grease_age_assumed",
    [SPT_FLAG_SURROUNDINGS_ASSUMED] = "surroundings_assumed",
    [SPT_FLAG_AMBIENT_ASSUMED] = "ambient_assumed",
    [SPT_FLAG_FILTRATION_ASSUMED] = "filtration_assumed",
    [SPT_FLAG_CONTAMINATION_FLOOR] = "contamination_floor",
    [SPT_FLAG_EP_NOT_CREDITED] = "ep_not_credited", [SPT_FLAG_GREASE_HOT] = "grease_hot",
    [SPT_FLAG_GREASE_COLD] = "grease_cold", [SPT_FLAG_INDUCED_THRUST] = "induced_thrust",
    [SPT_FLAG_CONDITION_KEPT] = "condition_kept", [SPT_FLAG_SHARES_SCALED] = "shares_scaled",
    [SPT_FLAG_ABOVE_STATIC] = "above_static", [SPT_FLAG_OIL_SPEED] = "oil_speed",
    [SPT_FLAG_OIL_SLUGGISH] = "oil_sluggish", [SPT_FLAG_HISTORY_BINNED] = "history_binned",
    [SPT_FLAG_HISTORY_REVERSED] = "history_reversed", [SPT_FLAG_HISTORY_GAPS] = "history_gaps",
    [SPT_FLAG_HISTORY_LONG_HOLD] = "history_long_hold",
    [SPT_FLAG_HISTORY_COARSE] = "history_coarse", [SPT_FLAG_HISTORY_EXPONENT] = "history_exponent",
    [SPT_FLAG_PRELOAD] = "preload", [SPT_FLAG_PRELOAD_CURE] = "preload_cure",
    [SPT_FLAG_END_PLAY] = "end_play", [SPT_FLAG_FILM_THIN] = "film_thin",
    [SPT_FLAG_GREASE_LOAD] = "grease_load", [SPT_FLAG_WATER_COLD] = "water_cold",
    [SPT_FLAG_OIL_WARM] = "oil_warm", [SPT_FLAG_OIL_HOT] = "oil_hot",
    [SPT_FLAG_OIL_PEAK] = "oil_peak", [SPT_FLAG_DUST_CONTRADICTED] = "dust_contradicted",
    [SPT_FLAG_WET_CONTRADICTED] = "wet_contradicted", [SPT_FLAG_SEALS_TRUSTED] = "seals_trusted",
    [SPT_FLAG_RUNNING_ASSUMED] = "running_assumed", [SPT_FLAG_CODE_ROUNDED] = "code_rounded",
    [SPT_FLAG_TEMPERATURE_ESTIMATED] = "temperature_estimated",
    [SPT_FLAG_F0_ASSUMED] = "f0_assumed", [SPT_FLAG_PHASE_DENTS] = "phase_dents",
    [SPT_FLAG_MISSED_TARGET] = "missed_target");

const char *spt_flag_code(enum spt_flag flag)
{
    return spt_word(&spt_flag_words, (int)flag);
}
