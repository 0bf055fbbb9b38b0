/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/build/section_fields.h"
#include "scenario/build/sections.h"

/* The section `uncertainty`. */

#define S struct raw_spread
static const struct spt_field factor_fields[] = {
    ABOVE("plus_minus", plus_minus, SPT_SHARE, 0, 0.99, "15 %", "anywhere within, all as likely"),
    ABOVE("low", low, SPT_NO_DIMENSION, 0, 100, "0.9", "least factor; with `high`"),
    ABOVE("peak", peak, SPT_NO_DIMENSION, 0, 100, "1", "likeliest factor: a triangle"),
    ABOVE("high", high, SPT_NO_DIMENSION, 0, 100, "1.3", "largest factor"),
    ABOVE("normal", normal, SPT_SHARE, 0, 0.3, "10 %", "standard deviation about 1"),
    ABOVE("lognormal", lognormal, SPT_SHARE, 0, 1, "40 %",
          "standard deviation of the logarithm; median 1"),
};
static const struct spt_section section_factor = {
    "the spread", "how a factor is spread: plus_minus; low, high and peak; normal; or lognormal",
    factor_fields, COUNT(factor_fields), sizeof(S)};
static const struct spt_field rise_fields[] = {
    ABOVE("plus_minus", plus_minus, SPT_TEMPERATURE_DIFFERENCE, 0, 200, "8 K",
          "anywhere within, all as likely"),
    QUANTITY("low", low, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "-5 K", "least; with `high`"),
    QUANTITY("peak", peak, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "0 K", "likeliest: a triangle"),
    QUANTITY("high", high, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "15 K", "largest"),
    ABOVE("normal", normal, SPT_TEMPERATURE_DIFFERENCE, 0, 100, "5 K", "standard deviation"),
};
static const struct spt_section section_rise = {
    "the spread", "how a temperature is spread: plus_minus; low, high and peak; or normal",
    rise_fields, COUNT(rise_fields), sizeof(S)};
static const struct spt_field play_fields[] = {
    ABOVE("plus_minus", plus_minus, SPT_LENGTH, 0, 2, "0.03 mm", "anywhere within, all as likely"),
    QUANTITY("low", low, SPT_LENGTH, -2, 2, "-0.03 mm",
             "least change of the stated setting, below 0 tighter; with `high`"),
    QUANTITY("peak", peak, SPT_LENGTH, -2, 2, "0 mm", "likeliest change: a triangle"),
    QUANTITY("high", high, SPT_LENGTH, -2, 2, "0.10 mm", "largest change"),
    ABOVE("normal", normal, SPT_LENGTH, 0, 0.5, "0.02 mm", "standard deviation"),
    ABOVE("lognormal", lognormal, SPT_SHARE, 0, 1, "40 %",
          "standard deviation of the logarithm of the end play; median as stated"),
};
static const struct spt_section section_play = {
    "the spread", "how end play is spread: plus_minus; low, high and peak; normal; or lognormal",
    play_fields, COUNT(play_fields), sizeof(S)};
#undef S

#define S struct raw_class_weight
static const struct spt_field class_weight_fields[] = {
    NEEDED_TEXT("class", class, "slight", "class or code of cleanliness"),
    NEEDED("weight", weight, SPT_SHARE, 0, 1, "30 %", "how likely; all together 100 %"),
};
const struct spt_section spt_section_class_weight = {
    "the class", "a class of cleanliness and how likely it is", class_weight_fields,
    COUNT(class_weight_fields), sizeof(S)};
#undef S

#define S struct raw_uncertainty
static const struct spt_field uncertainty_fields[] = {
    SECTION("load", load, &section_factor, "factor on every load"),
    SECTION("speed", speed, &section_factor, "factor on every speed"),
    SECTION("temperature", temperature, &section_rise, "added to every temperature"),
    SECTION("water", water, &section_factor, "factor on the water content"),
    SECTION("rating", rating, &section_factor, "factor on C, C0 and C_u"),
    SECTION("end_play", end_play, &section_play,
            "of a `hub`: added to the setting it states, below 0 tighter"),
    LIST("cleanliness", cleanliness, false, &spt_section_class_weight, "a list of classes",
         "what the scenario's class may really be; phases that state another keep theirs"),
    INTEGER("seed", seed, 0, 2000000000, "7", "start of the random numbers; 1 where absent"),
};
const struct spt_section spt_section_uncertainty = {
    "`uncertainty`", "how well the inputs are known, for bands of life and `spread`",
    uncertainty_fields, COUNT(uncertainty_fields), sizeof(S)};
#undef S
