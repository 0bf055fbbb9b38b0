/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef WORDS_WORDS_H
#define WORDS_WORDS_H

/* The words of an enumeration, in the order of its values. Each is defined once, so that scenarios,
 * messages, text, HTML, JSON and CSV have the same word for a value. */
struct spt_words {
    const char *const *list;
    int count;
};

/* The word of a value; "unknown" where it has none. */
const char *spt_word(const struct spt_words *words, int value);

/* The value of a word, or -1. */
int spt_word_find(const struct spt_words *words, const char *word);

extern const struct spt_words spt_bearing_type_words;
extern const struct spt_words spt_running_words;
extern const struct spt_words spt_clearance_words;
extern const struct spt_words spt_shaft_fit_words;
extern const struct spt_words spt_housing_fit_words;
extern const struct spt_words spt_lubrication_words;
extern const struct spt_words spt_solubility_words;
extern const struct spt_words spt_base_oil_words;
extern const struct spt_words spt_dust_words;
extern const struct spt_words spt_moisture_words;
extern const struct spt_words spt_vibration_words;
extern const struct spt_words spt_shaft_words;
extern const struct spt_words spt_air_words;         /* air around a housing */
extern const struct spt_words spt_estimate_words;    /* the word for an estimated temperature */
extern const struct spt_words spt_surrounding_words; /* dust, moisture, vibration, shaft position */
extern const struct spt_words spt_seal_words;
extern const struct spt_words spt_breather_words;
extern const struct spt_words spt_place_words;
extern const struct spt_words spt_wet_words;
extern const struct spt_words spt_filter_place_words;
extern const struct spt_words spt_oil_life_words; /* styles of oil, by what they withstand */
extern const struct spt_words spt_hub_mounting_words;
extern const struct spt_words spt_hub_turning_words;
extern const struct spt_words spt_month_words;
extern const struct spt_words spt_part_kind_words;
extern const struct spt_words spt_part_role_words;
extern const struct spt_words spt_tensioner_words;
extern const struct spt_words spt_locating_words;
extern const struct spt_words spt_turns_words; /* of a shaft, seen from its left end */
extern const struct spt_words spt_ways_words;  /* of a shaft in a phase */
extern const struct spt_words spt_hands_words;
extern const struct spt_words spt_sides_words;
extern const struct spt_words spt_vehicle_kind_words; /* right, left: of teeth, and of the shaft */
extern const struct spt_words spt_position_words;     /* of a shaft */
extern const struct spt_words spt_cause_words;
extern const struct spt_words spt_setting_side_words;
extern const struct spt_words spt_lever_words;
extern const struct spt_words spt_uncertain_words;
extern const struct spt_words spt_sweep_status_words;
extern const struct spt_words spt_flag_words; /* codes */

#endif
