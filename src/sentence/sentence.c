/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/sentence.h"

#include "base/table.h"
#include "format/text.h"
#include "sentence/causes.h"
#include "sentence/wording.h"
#include "spalltime/assess.h"
#include "words/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SURROUNDINGS_LENGTH 320
#define LEAST_SHARE 5e-4 /* fraction of a loss below which 0.0 % is printed */

/* Formats with three digits; hours and other large numbers with a blank between thousands. */
static void write_number(double number, char *text, size_t size)
{
    bool whole = number > -1e4 && number < 1e4 && number == (double)(long)number;
    if (number >= 999.5 && number <= 1e7) /* what %.3g would write as 1e+03 */
        spt_text_hours(number, text);
    else
        snprintf(text, size, whole ? "%.0f" : "%.3g", number);
}

/* The words of each surrounding. */
static const struct spt_words *surrounding_words(int surrounding)
{
    static const struct spt_words *const words[] = {
        [SPT_SURROUNDING_DUST] = &spt_dust_words,
        [SPT_SURROUNDING_MOISTURE] = &spt_moisture_words,
        [SPT_SURROUNDING_VIBRATION] = &spt_vibration_words,
        [SPT_SURROUNDING_SHAFT] = &spt_shaft_words,
    };
    SPT_ONE_EACH(words, SPT_SURROUNDING_COUNT);
    return words[surrounding];
}

/* The factor of the interval at a level. */
static double factor_at(int surrounding, int level)
{
    struct spt_grease_inputs in = {
        .type = SPT_TAPERED_ROLLER, .bore_mm = 60, .speed_rpm = 100, .temperature_c = 60};
    struct spt_grease_interval interval;
    in.around.dust = (enum spt_dust)(surrounding == SPT_SURROUNDING_DUST ? level : 0);
    in.around.moisture = (enum spt_moisture)(surrounding == SPT_SURROUNDING_MOISTURE ? level : 0);
    in.around.vibration =
        (enum spt_vibration)(surrounding == SPT_SURROUNDING_VIBRATION ? level : 0);
    in.around.shaft = (enum spt_shaft)(surrounding == SPT_SURROUNDING_SHAFT ? level : 0);
    return spt_grease_interval(&in, &interval) ? (double)NAN : interval.interval_h;
}

/* "dust (taken as light abrasive; the next level: x 0.5), ..." */
static const char *list_surroundings(unsigned packed, char *text, size_t size)
{
    size_t used = 0;
    *text = 0;
    for (int i = 0; i < SPT_SURROUNDING_COUNT; i++) {
        const int level = (int)SPT_SURROUNDINGS_UNPACK(packed, i);
        char next[48] = "";
        if (!(packed >> i & 1u))
            continue;
        if (level + 1 < surrounding_words(i)->count)
            snprintf(next, sizeof next, "; the next level: x %.2g",
                     factor_at(i, level + 1) / factor_at(i, level));
        used += (size_t)snprintf(text + used, size - used, "%s%s (taken as %s%s)", used ? ", " : "",
                                 spt_word(&spt_surrounding_words, i),
                                 spt_word(surrounding_words(i), level), next);
    }
    return text;
}

/* Levels in the limit of a contradiction: the one stated, or the one that counts. */
static const char *name_level(const struct spt_note *note, bool counts)
{
    const int packed = (int)note->limit, level = counts ? packed / 16 : packed % 16;
    return spt_word(
        note->flag == SPT_FLAG_DUST_CONTRADICTED ? &spt_dust_words : &spt_moisture_words, level);
}

/* Seal and surroundings as packed by SPT_SEALING_PACK; the wet that counts is in it. */
static struct spt_sealing unpack_sealing(int packed)
{
    return (struct spt_sealing){.stated = true,
                                .seal = packed % 16 - 1,
                                .breather = packed / 16 % 16 - 1,
                                .place = packed / 256 % 16 - 1,
                                .wet = packed / 4096 % 16 - 1,
                                .age_h = (double)NAN,
                                .age_years = (double)NAN};
}

/* "seal one lip (worn), surroundings sand, wet rain (not stated)" */
static const char *list_sealing(int packed, char *text, size_t size)
{
    const struct spt_sealing sealing = unpack_sealing(packed);
    const bool worn = packed / 65536 % 2, wet_assumed = packed / 1048576 % 2;
    size_t used = 0;
    if (sealing.seal >= 0 || sealing.breather < 0)
        used += (size_t)snprintf(text, size, "seal %s%s, ",
                                 sealing.seal < 0 ? "not stated, taken as none"
                                                  : spt_word(&spt_seal_words, sealing.seal),
                                 worn ? " (worn)" : "");
    if (sealing.breather >= 0)
        used += (size_t)snprintf(text + used, size - used, "breather %s, ",
                                 spt_word(&spt_breather_words, sealing.breather));
    snprintf(text + used, size - used, "surroundings %s, wet %s%s",
             spt_word(&spt_place_words, sealing.place), spt_word(&spt_wet_words, sealing.wet),
             wet_assumed ? " (not stated)" : "");
    return text;
}

/* " and moisture splash" */
static const char *tell_moisture(int packed, char *text, size_t size)
{
    snprintf(text, size, " and moisture %s",
             spt_word(&spt_moisture_words, packed / 131072 % 8 - 1));
    return text;
}

/* " New, `two lips` would make it normal, `cassette` high." */
static const char *list_better(const struct spt_note *note, char *text, size_t size)
{
    static const enum spt_seal seals[] = {SPT_SEAL_ONE_LIP, SPT_SEAL_TWO_LIPS, SPT_SEAL_CASSETTE};
    struct spt_sealing sealing = unpack_sealing((int)note->limit);
    const enum spt_cleanliness stated = (enum spt_cleanliness)note->value;
    const int first = (int)spt_cleanliness_first(spt_cleanliness_kind(stated));
    int best = (int)stated - first;
    size_t used = 0;
    *text = 0;
    for (size_t i = 0; i < sizeof seals / sizeof *seals; i++) {
        sealing.seal = (int)seals[i];
        const int index = spt_seal_inflow(&sealing).class_index;
        if (index < 0 || index >= best)
            continue;
        best = index;
        used +=
            (size_t)snprintf(text + used, size - used, "%s`%s`%s %s", used ? ", " : " New, ",
                             spt_word(&spt_seal_words, (int)seals[i]), used ? "" : " would make it",
                             spt_cleanliness_name((enum spt_cleanliness)(first + index)));
    }
    if (used)
        snprintf(text + used, size - used, ".");
    return text;
}

/* Replacement of the placeholder at `at`; NULL where there is none. */
static const char *expand(const char *at, const struct spt_note *note,
                          const struct spt_wording *wording, char *number, size_t size)
{
    if (!strncmp(at, "{s}", 3))
        return list_surroundings((unsigned)note->value, number, size);
    if (!strncmp(at, "{d}", 3) || !strncmp(at, "{D}", 3))
        return name_level(note, at[1] == 'D');
    if (!strncmp(at, "{q}", 3))
        return list_sealing((int)note->limit, number, size);
    if (!strncmp(at, "{m}", 3))
        return tell_moisture((int)note->limit, number, size);
    if (!strncmp(at, "{b}", 3))
        return list_better(note, number, size);
    if (!strncmp(at, "{C}", 3))
        return spt_cleanliness_name((enum spt_cleanliness)note->limit);
    if (!strncmp(at, "{c}", 3))
        return spt_cleanliness_name((enum spt_cleanliness)note->value);
    if (!strncmp(at, "{y}", 3))
        return spt_text_span(note->limit * SPT_DAYS_PER_YEAR, number);
    bool value = !strncmp(at, "{v}", 3);
    if (!value && strncmp(at, "{l}", 3) != 0)
        return NULL;
    write_number(value ? note->value * wording->value_scale : note->limit * wording->limit_scale,
                 number, size);
    return number;
}

/* What a flag does to a number; those without a row here are remarks. */
static const enum spt_flag_effect effects[SPT_FLAG_COUNT] = {
    [SPT_FLAG_PITCH_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_LOAD_CENTRE_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_FATIGUE_LIMIT_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_INDEX_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_ZONE_UNKNOWN] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_ZONE_ESTIMATED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_HUB_BY_SHEET] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_SCRUB_LEFT_OUT] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_BRAKING_SHARED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_LOAD_CENTRE_ESTIMATED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_F0_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_WATER_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_AGE_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_SURROUNDINGS_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_AMBIENT_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_CLASS_FROM_SEAL] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_CLASS_FROM_FILTER] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_CLASS_UNKNOWN] = SPT_FLAG_ALTERS,
    [SPT_FLAG_DUST_CONTRADICTED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_WET_CONTRADICTED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_FILTRATION_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_RUNNING_ASSUMED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_TEMPERATURE_ESTIMATED] = SPT_FLAG_ASSUMES,
    [SPT_FLAG_FILM_TOO_THIN] = SPT_FLAG_ALTERS,
    [SPT_FLAG_FILM_CAPPED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_LIFE_FACTOR_CAPPED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_EP_CREDIT] = SPT_FLAG_ALTERS,
    [SPT_FLAG_WATER_EXTRAPOLATED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_WATER_FLOOR] = SPT_FLAG_ALTERS,
    [SPT_FLAG_GREASE_OVERDUE] = SPT_FLAG_ALTERS,
    [SPT_FLAG_GREASE_EXHAUSTED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_GREASE_NO_INTERVAL] = SPT_FLAG_ALTERS,
    [SPT_FLAG_GREASE_LOAD] = SPT_FLAG_ALTERS,
    [SPT_FLAG_HOT_RATING] = SPT_FLAG_ALTERS,
    [SPT_FLAG_TOO_HOT] = SPT_FLAG_ALTERS,
    [SPT_FLAG_VISCOSITY_RANGE] = SPT_FLAG_ALTERS,
    [SPT_FLAG_OIL_TOO_STIFF] = SPT_FLAG_ALTERS,
    [SPT_FLAG_RADIAL_NOT_RATED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_AXIAL_RANGE] = SPT_FLAG_ALTERS,
    [SPT_FLAG_CODE_ROUNDED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_CONTAMINATION_FLOOR] = SPT_FLAG_ALTERS,
    [SPT_FLAG_EP_NOT_CREDITED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_SHARES_SCALED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_HISTORY_BINNED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_HISTORY_REVERSED] = SPT_FLAG_ALTERS,
    [SPT_FLAG_HISTORY_GAPS] = SPT_FLAG_ALTERS,
    [SPT_FLAG_HISTORY_EXPONENT] = SPT_FLAG_ALTERS,
    [SPT_FLAG_CONDITION_KEPT] = SPT_FLAG_ALTERS,
};

enum spt_flag_effect spt_flag_effect(enum spt_flag flag)
{
    return effects[flag];
}

enum spt_role spt_flag_role(enum spt_flag flag)
{
    return effects[flag] == SPT_FLAG_REMARKS && !spt_reservation(flag) ? SPT_NOTE
                                                                       : SPT_CHANGES_NUMBER;
}

void spt_sentence(const struct spt_note *note, char *text, size_t size)
{
    const struct spt_wording *wording = spt_wording_of(note->flag);
    size_t used = 0;
    const bool endless = wording->endless && isinf(note->value);
    for (const char *at = endless ? wording->endless : wording->text; *at && used + 1 < size;) {
        char number[SURROUNDINGS_LENGTH];
        const char *words = expand(at, note, wording, number, sizeof number);
        if (words) {
            int added = snprintf(text + used, size - used, "%s", words);
            used += added > 0 ? (size_t)added : 0;
            at += 3;
        } else {
            text[used++] = *at++;
        }
    }
    text[used < size ? used : size - 1] = 0;
}

const char *spt_reservation(enum spt_flag flag)
{
    static const char *const words[SPT_FLAG_COUNT] = {
        /* most flags cause no reservation */
        [SPT_FLAG_OVERLOAD] = "the load is too high for the method",
        [SPT_FLAG_ABOVE_STATIC] = "the load is too high for the method",
        [SPT_FLAG_AXIAL_NOT_RATED] = "the axial load on its ribs is not counted",
        [SPT_FLAG_STATIC_SAFETY] = "a shock may dent the raceways",
        [SPT_FLAG_HEAVY_CONTAMINATION] = "wear may end it first",
        [SPT_FLAG_WATER_SATURATED] = "free water will rust it",
        [SPT_FLAG_WATER_COLD] = "rust at standstill is not in it",
        [SPT_FLAG_OIL_HOT] = "it runs hot for its oil",
        [SPT_FLAG_OIL_PEAK] = "it is too hot for its oil",
        [SPT_FLAG_GREASE_OVERDUE] = "the grease is overdue",
        [SPT_FLAG_GREASE_EXHAUSTED] = "the grease is worn out: renew it first",
        [SPT_FLAG_GREASE_HOT] = "it runs hot for grease",
        [SPT_FLAG_GREASE_SPEED] = "it turns fast for grease",
        [SPT_FLAG_GREASE_NO_INTERVAL] = "the age of the grease is not in it",
        [SPT_FLAG_OIL_SPEED] = "it turns too fast",
        [SPT_FLAG_OIL_SLUGGISH] = "the cold oil may not reach the contacts",
        [SPT_FLAG_RIB_SPEED] = "the rib may scuff",
        [SPT_FLAG_TIGHT_WARM] = "it may be tight when warm",
        [SPT_FLAG_INNER_CREEPS] = "its inner ring may creep",
        [SPT_FLAG_OUTER_CREEPS] = "its outer ring may creep",
        [SPT_FLAG_SPEED_LIMIT] = "it turns faster than its sheet allows",
        [SPT_FLAG_SHEET_RATING] = "its C and its insides do not belong together",
        [SPT_FLAG_SHEET_RATINGS] = "its C and C0 do not belong together",
        [SPT_FLAG_SHEET_FACTORS] = "its e and Y do not belong together",
        [SPT_FLAG_SHEET_FATIGUE_LIMIT] = "its C_u and C0 do not belong together",
        [SPT_FLAG_SHEET_LOAD_CENTRE] = "its load centre is in doubt",
        [SPT_FLAG_CALENDAR_AGE] = "age decides before fatigue",
        [SPT_FLAG_PRELOAD] = "it is preloaded, and the heat of preload is not counted",
        [SPT_FLAG_END_PLAY] = "it has more end play than practice allows",
        [SPT_FLAG_FILM_THIN] = "the film is very thin",
        [SPT_FLAG_CLASS_UNKNOWN] = "nothing says how clean its grease is",
        [SPT_FLAG_SEAL_CONTRADICTED] = "the class stated is cleaner than its seal keeps it",
        [SPT_FLAG_FILTER_HOLDS] = "its filter does not hold the class stated",
        [SPT_FLAG_FILTER_OVERWHELMED] = "its filter is overwhelmed",
        [SPT_FLAG_SLOPE_FAR] = "the shaft bends more than the bearing bears",
        [SPT_FLAG_PRELOAD_CURE] = "its best setting is a preload, whose heat is not counted",
    };
    return (int)flag >= 0 && flag < SPT_FLAG_COUNT ? words[flag] : NULL;
}

const char *spt_caution(int i)
{
    static const char *const cautions[] = {
        "An estimate for planning, not a safety approval.",
        "Wear, corrosion, electrical damage and cage damage are not modelled.",
        "The vehicle or machine maker's instructions, local codes and a qualified person come "
        "first.",
        "A wheel bearing that is rough, loose, hot or damaged is taken out of service now, "
        "whatever "
        "life is calculated.",
    };
    return i >= 0 && i < (int)(sizeof cautions / sizeof *cautions) ? cautions[i] : NULL;
}

const char *spt_preload_practice(void)
{
    return SPT_PRELOAD_PRACTICE;
}

const char *spt_share_footnote(const struct spt_loss *loss)
{
    double whole = spt_causes_whole(loss);
    bool odd = false;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        double share = loss->causes[i].applies ? loss->causes[i].log_life_share / whole : 0;
        odd = odd || share <= -LEAST_SHARE || share >= 1 + LEAST_SHARE;
    }
    if (whole > 0)
        return "The shares are of what this row would lose with all of this put right: the setting "
               "is put right for both rows together, and what helps the other row costs this one.";
    if (!odd)
        return NULL;
    return loss->causes[SPT_CAUSE_SETTING].applies
               ? "Shares below 0 or above 100 %: the setting is put right for both rows together, "
                 "and what helps the other row costs this one."
               : "Shares below 0 or above 100 %: to put that cause right costs this bearing life.";
}

const char *spt_cure(enum spt_cause cause)
{
    static const char *const cures[] = {
        [SPT_CAUSE_DEBRIS] = "lubricant of the cleanest class (seals that hold, clean assembly)",
        [SPT_CAUSE_WATER] = "no more than 100 ppm of water",
        [SPT_CAUSE_WORN_GREASE] = "fresh grease at all times",
        [SPT_CAUSE_THIN_FILM] = "kappa of at least 1 by a thicker oil or a cooler bearing",
        [SPT_CAUSE_OVERLOAD] = "equivalent load no higher than the reference load",
        [SPT_CAUSE_SETTING] =
            ("the best setting of both rows together, rings aligned; no preload, nor "
             "any within a stated scatter, unless `preload_allowed` is stated"),
    };
    SPT_ONE_EACH(cures, SPT_CAUSE_COUNT);
    return (int)cause >= 0 && cause < SPT_CAUSE_COUNT ? cures[cause] : "unknown";
}
