/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/sentence.h"

#include "base/table.h"
#include "format/text.h"
#include "sentence/causes.h"
#include "spalltime/assess.h"
#include "words/words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define SURROUNDINGS_LENGTH 320
#define LEAST_SHARE 5e-4 /* fraction of a loss below which 0.0 % is printed */
#define PRELOAD_PRACTICE                                                                           \
    "Practice stays on the end play side unless the maker of vehicle or bearing says otherwise: "  \
    "settings scatter, and preload makes heat, which draws the pair tighter still. None of that "  \
    "heat is in this life."

/* Placeholders: {v} value of the note, {l} its limit, each times its scale; {c} the cleanliness
 * class with that value as number, {s} the surroundings whose bits are set in it, {d} and {D} the
 * levels stated and used in the limit, {C} the class with the limit as number, {q} seal and
 * surroundings packed in it, {m} the moisture they speak for, {b} what better seals would make of
 * the class, {y} the limit in years as a calendar time. */
struct wording {
    double value_scale;
    double limit_scale;
    const char *text;
    const char *endless; /* used instead where the value is infinite; NULL: none */
};

static const struct wording wordings[] = {
    [SPT_FLAG_OVERLOAD] =
        {1, 1,
         "The equivalent load is {v} times the dynamic rating; above {l} the rating "
         "life is not to be trusted (dents, bending rings)."},
    [SPT_FLAG_ABOVE_STATIC] = {1, 1,
                               "The equivalent load is {v} times the static rating C0; above C0 "
                               "the balls press lasting dents and the rating life is not to be "
                               "trusted."},
    [SPT_FLAG_OIL_SPEED] = {1, 1,
                            "Speed times mean diameter is {v} mm r/min, above what bearings "
                            "usually run at with oil ({l}): heat, not fatigue, is likely to end "
                            "it. Ask the maker."},
    [SPT_FLAG_OIL_SLUGGISH] = {1, 1,
                               "At this temperature the oil is {v} mm2/s thick; above about {l} it "
                               "hardly flows to the contacts, and the film counted here may not "
                               "form: warm up, or use an oil for the cold."},
    [SPT_FLAG_STATIC_SAFETY] =
        {1, 1,
         "Static safety is {v}, below the guide value {l} for this kind of running: a shock may "
         "press the rollers or balls into the raceways."},
    [SPT_FLAG_LIGHT_LOAD] = {100, 100,
                             "The load is only {v} % of the rating; at this speed, below about {l} "
                             "% the rolling elements may skid and smear."},
    [SPT_FLAG_FILM_TOO_THIN] =
        {1, 1,
         "The oil film is far too thin (kappa {v}; the method needs {l}): no "
         "life is given, expect wear and early failure. Use a thicker oil or "
         "run cooler."},
    [SPT_FLAG_FILM_CAPPED] =
        {1, 1,
         "The film is thicker than the method counts (kappa {v}); {l} is used. "
         "A thicker oil brings heat, not life."},
    [SPT_FLAG_LIFE_FACTOR_CAPPED] =
        {1, 1,
         "The life factor stands at its upper limit of {v}; the standard "
         "credits no more."},
    [SPT_FLAG_EP_CREDIT] =
        {1, 1,
         "The film is thin (kappa {v}); the proven EP additive is credited: kappa "
         "1 is used, with a life factor of at most 3; e_C stays that of the thin film, the "
         "cautious reading."},
    [SPT_FLAG_HEAVY_CONTAMINATION] = {1, 1,
                                      "The contamination factor is {v}, below {l}: with this much "
                                      "dirt, wear may end the life well before fatigue does."},
    [SPT_FLAG_WATER_EXTRAPOLATED] = {1, 1,
                                     "{v} ppm of water is beyond the tests behind the water factor "
                                     "({l} ppm): the loss is an extrapolation."},
    [SPT_FLAG_WATER_FLOOR] = {1, 1,
                              "{v} ppm of water: the water factor stands at its floor ({l}); the "
                              "true life may be shorter."},
    [SPT_FLAG_WATER_SATURATED] = {1, 1,
                                  "{v} ppm of water is more than the oil dissolves here (about {l} "
                                  "ppm): free water rusts and etches, which is not in the life."},
    [SPT_FLAG_GREASE_SPEED] =
        {1, 1,
         "Speed times mean diameter is {v} mm r/min, above the usual limit for "
         "grease ({l}): it will churn, heat up and bleed out."},
    [SPT_FLAG_RIB_SPEED] = {1, 1,
                            "The roller ends slide on the rib at {v} m/s, above the usual limit of "
                            "{l} m/s for this way of lubricating: danger of scuffing."},
    [SPT_FLAG_GREASE_OVERDUE] =
        {1, 1,
         "The grease has run {v} h, past its interval of about {l} h: "
         "regrease. A life that is given holds for a bearing whose grease still works; "
         "from here on a growing share have none that does."},
    [SPT_FLAG_GREASE_EXHAUSTED] =
        {1, 1,
         "The grease is exhausted ({v} intervals old) and no longer makes "
         "a film: no life is given. Regrease before running on."},
    [SPT_FLAG_GREASE_NO_INTERVAL] = {1, 1,
                                     "At {v} r/min and {l} mm bore the relubrication rule gives no "
                                     "interval, so the age of the grease is not in the life."},
    [SPT_FLAG_HOT_RATING] = {1, 1,
                             "At {v} degC (above {l}) the steel loses hardness and the rating is "
                             "reduced."},
    [SPT_FLAG_TOO_HOT] = {1, 1,
                          "The bearing is hotter than {l} degC, or its heat finds no balance below "
                          "that: no rating holds and no life is given."},
    [SPT_FLAG_VISCOSITY_RANGE] = {1, 1,
                                  "The oil is only {v} mm2/s thick here, below the {l} mm2/s to "
                                  "which the viscosity rule holds."},
    [SPT_FLAG_OIL_TOO_STIFF] = {1, 1,
                                "At {v} degC the oil is stiffer than {l} mm2/s, beyond which no "
                                "viscosity rule holds: no life is given. Use an oil for the cold."},
    [SPT_FLAG_AXIAL_NOT_RATED] =
        {1, 1,
         "This type carries the axial load of {v} N on its ribs, which the "
         "rating life does not cover."},
    [SPT_FLAG_RADIAL_NOT_RATED] = {1, 1,
                                   "This thrust bearing is not rated for the radial load of {v} N "
                                   "beside this thrust: no life is given."},
    [SPT_FLAG_AXIAL_RANGE] = {1, 1,
                              "The relative axial load {v} is outside the table of factors; the "
                              "value at its end ({l}) is used."},
    [SPT_FLAG_CALENDAR_AGE] =
        {1, 1,
         "At this use the life is {v} years, beyond the calendar age of {y}: age decides, not "
         "fatigue.",
         "At this use fatigue sets no limit: the calendar age of {y} decides."},
    [SPT_FLAG_STANDSTILL] =
        {1, 1,
         "The bearing stands still in this phase: no fatigue is counted; look at "
         "static safety, rust and vibration marks."},
    [SPT_FLAG_NO_LOAD] =
        {1, 1, "No load that the rating life covers in this phase: no fatigue is counted."},
    [SPT_FLAG_SPEED_LIMIT] =
        {1, 1,
         "It turns at {v} rpm; the sheet of this bearing allows {l} rpm. Heat, not fatigue, is "
         "likely to end it: a bearing with a higher limit, or cooling that its maker agrees to."},
    [SPT_FLAG_SHEET_RATING] =
        {1, 1,
         "The stated C is {v} times what the stated rollers or balls give (0.9 to 1.25 is usual): "
         "C and the insides do not belong together, one of them is of another bearing. Look both "
         "up again."},
    [SPT_FLAG_SHEET_RATINGS] = {1, 1,
                                "C0 is {v} times C; of real bearings it is 0.4 to 2.5 times. Look "
                                "both up again: they may be of two bearings, or interchanged."},
    [SPT_FLAG_SHEET_FACTORS] =
        {1, 1,
         "The factors e and Y do not belong together: their product is {v}, where this type has {l}. One of "
         "them is of another bearing, or Y1 (up to e) was taken for Y (above e). Look them up "
         "again."},
    [SPT_FLAG_SHEET_STATIC_FACTOR] = {1, 1,
                                      "Y0 is {v} times Y, where this type has {l}: one of them is "
                                      "of another bearing. Look them up again."},
    [SPT_FLAG_SHEET_FATIGUE_LIMIT] =
        {1, 1,
         "The stated fatigue load limit C_u is {v} times what C0 gives ({l} is usual within 40 %): "
         "it may be of another bearing, or in another unit."},
    [SPT_FLAG_SHEET_LOAD_CENTRE] =
        {1, 1,
         "The load centre is stated {v} mm from the back face of the outer ring; width, pitch "
         "circle and contact angle put it near {l} mm. It may count from the other ring (see "
         "`load_centre_from`) or be of another bearing."},
    [SPT_FLAG_CLEARANCE] =
        {1e3, 1e3,
         "At work {v} to {l} um of radial clearance are left (fits, warmth, tolerances). The life "
         "counts the load zone in the middle of these, and no bonus for a slight preload."},
    [SPT_FLAG_ZONE_UNKNOWN] =
        {1e3, 1e3,
         "At work {v} to {l} um of radial clearance are left (fits, warmth, tolerances). What that "
         "costs is not in the life: the rollers or balls of this bearing cannot be estimated from "
         "its outside. State its `geometry`."},
    [SPT_FLAG_ZONE_ESTIMATED] =
        {1, 1,
         "The load zone counts on {v} rollers or balls of {l} mm in a row, estimated from the "
         "outside of the bearing. State its `geometry` where the zone matters."},
    [SPT_FLAG_ZONE_NARROW] =
        {1, 1,
         "The load zone ends {v} degrees from the load line, so few rollers or balls carry it all "
         "(life times {l}): take a smaller clearance class or a tighter fit."},
    [SPT_FLAG_TIGHT_WARM] =
        {1e3, 1,
         "Tight when warm: of this clearance class and these fits {v} um may be left at work, so "
         "the bearing may be preloaded and run hot. Take the next larger class, a looser fit, or "
         "keep the inner ring cooler."},
    [SPT_FLAG_INNER_CREEPS] =
        {1e3, 1,
         "The inner ring turns and may have {v} um of interference on its seat: a ring that is "
         "not held creeps and wears the shaft. Take a tighter fit (k, m or n)."},
    [SPT_FLAG_OUTER_CREEPS] =
        {1e3, 1,
         "The outer ring turns and may have {v} um of interference in its seat: a ring that is not "
         "held creeps and wears the hub. Take a tighter fit (N or P)."},
    [SPT_FLAG_HUB_BY_SHEET] =
        {1, 1,
         "The rows state no insides, so they share the loads by the handbook, through the load "
         "centres of their sheets. End play and preload are not in this life: `spalltime setting` "
         "shows what end play costs, on estimated insides."},
    [SPT_FLAG_LOAD_CENTRE_ESTIMATED] =
        {1, 1,
         "No load centre was given: {v} mm from the back face of the outer ring is used, from "
         "width, pitch circle and contact angle. State `a` of the sheet."},
    [SPT_FLAG_PITCH_ASSUMED] =
        {1, 1,
         "No pitch diameter was given: the mean of bore and outside diameter, "
         "{v} mm, is used."},
    [SPT_FLAG_FATIGUE_LIMIT_ASSUMED] = {1e-3, 1,
                                        "No fatigue load limit was given: {v} kN is taken from the "
                                        "static rating by the simplified rule."},
    [SPT_FLAG_INDEX_ASSUMED] = {1, 1,
                                "No viscosity index was given: {v} is assumed, usual for a mineral "
                                "oil."},
    [SPT_FLAG_CODE_ROUNDED] =
        {1, 1,
         "The standard does not list this cleanliness code: it is read as the next dirtier class, "
         "{c}."},
    [SPT_FLAG_TEMPERATURE_ESTIMATED] = {1, 1,
                                        "The temperature of {v} degC is estimated from a heat "
                                        "balance, good to 10 to 15 K at best: measure it."},
    [SPT_FLAG_F0_ASSUMED] = {1, 1,
                             "The factor f0 is not known: the axial factors come from the table of "
                             "Fa/C0."},
    [SPT_FLAG_WATER_ASSUMED] = {1, 1, "No water content was given: at most {v} ppm is assumed."},
    [SPT_FLAG_AGE_ASSUMED] = {1, 1, "No age of the grease was given: fresh grease is assumed."},
    [SPT_FLAG_SURROUNDINGS_ASSUMED] =
        {1, 1,
         "Not given: {s}. The greasing interval counts on these; dust follows from the cleanliness, "
         "moisture from the water."},
    [SPT_FLAG_WATER_COLD] =
        {1, 1,
         "Of {v} ppm of water about {l} ppm falls out as free water at the coldest standstill "
         "(`coldest`): rust at standstill is not in the life. Purge before the lay-up, turn it "
         "monthly, with oil fit a drying breather."},
    [SPT_FLAG_OIL_WARM] = {1, 1, "At {v} degC the oil lasts about {l} h here."},
    [SPT_FLAG_OIL_HOT] =
        {1, 1,
         "At {v} degC the oil lasts only about {l} h here: hot for this oil. Cool it, or state "
         "`base_oil` where it is a synthetic one."},
    [SPT_FLAG_OIL_PEAK] =
        {1, 1,
         "At {v} degC it is above the {l} degC limit of this oil. No temperature limit can be kept "
         "by changing oil: cool it or use synthetic."},
    [SPT_FLAG_DUST_CONTRADICTED] =
        {1, 1,
         "With `cleanliness: {c}` but `dust: {d}` the dirt is in the bearing: planned as {D}."},
    [SPT_FLAG_WET_CONTRADICTED] =
        {1, 1,
         "With {v} ppm of water but `moisture: {d}` the water is in the bearing: planned as {D}."},
    [SPT_FLAG_SLOPE] = {1, 1,
                        "The shaft bends by {v} mrad in the bearing, more than the {l} mrad that "
                        "its type usually has: the rings tilt, and the edges carry more than the "
                        "life counts. A thicker shaft or a shorter span helps."},
    [SPT_FLAG_SLOPE_FAR] =
        {1, 1,
         "The shaft bends by {v} mrad in the bearing, more than the {l} mrad that "
         "its type bears: the life does not hold. Take a thicker shaft, a "
         "shorter span or a self-aligning bearing."},
    [SPT_FLAG_LOAD_CENTRE_ASSUMED] =
        {1, 1,
         "The load line is taken to meet the axis {v} mm from the middle of the bearing, from its "
         "contact angle; state `load_centre` from the drawing."},
    [SPT_FLAG_BELT_SLACK] = {1, 1,
                             "The belt pulls {v} times its net force, at the brink of slip by its "
                             "friction; in practice it is tighter, {l} times and more, and so is "
                             "the load. Measure it and state `pretension`."},
    [SPT_FLAG_TIP_NEAR] =
        {100, 1,
         "In its hardest bend the trailer is at {v} % of what tips it ({l} g), on a plane road: "
         "springs, kerbs and a load that shifts take more. Drive slower or load lower."},
    [SPT_FLAG_EYE_LIFTS] =
        {1e-3, 1,
         "The eye is pulled upwards by {v} kN in a phase: too much of the load lies behind the "
         "axles. Load farther forward."},
    [SPT_FLAG_SCRUB_LEFT_OUT] =
        {100, 1,
         "In a bend as tight as {l} m the axles drag sideways, by about {v} % of the wheel load "
         "and more than the bend itself may ask; it is not counted. State `scrub_stiffness: 6` in "
         "`tyre`."},
    [SPT_FLAG_BRAKING_SHARED] =
        {1, 1,
         "The axles share their load alike while they brake; rockers shift some of it from one to "
         "the other, which is not counted."},
    [SPT_FLAG_SEALS_TRUSTED] =
        {1, 1,
         "The class `{c}` beside heavy abrasive dust rests on seals that hold: state `seal`, and look at "
         "it."},
    [SPT_FLAG_AMBIENT_ASSUMED] = {1, 1, "No ambient temperature was given: {v} degC is assumed."},
    [SPT_FLAG_FILTRATION_ASSUMED] =
        {1, 1,
         "The class {c} for circulating oil implies in-line filters that "
         "keep the oil at that cleanliness."},
    [SPT_FLAG_CONTAMINATION_FLOOR] =
        {1, 1,
         "For this dirt and a pitch diameter of {v} mm the formula gives "
         "a negative contamination factor; 0 is used. It is outside the "
         "range the method was made for."},
    [SPT_FLAG_EP_NOT_CREDITED] =
        {1, 1,
         "The EP additive is not credited: the contamination factor {v} is "
         "below {l}."},
    [SPT_FLAG_GREASE_HOT] = {1, 1,
                             "{v} degC is above the {l} degC that ordinary greases bear for long: "
                             "ask the maker of the grease."},
    [SPT_FLAG_GREASE_COLD] = {1, 1,
                              "At {v} degC (below {l}) ordinary grease hardly bleeds or flows: the "
                              "film counted here may not be there at the start."},
    [SPT_FLAG_INDUCED_THRUST] = {1, 1,
                                 "The rollers or balls stand at an angle, so the radial load makes "
                                 "a thrust of {l} N along the shaft (Fr/(2Y)), which the opposed "
                                 "bearing of the pair holds. The axial load stated is {v} N, and "
                                 "on this bearing it cannot be less than that thrust: work out "
                                 "the thrust of the pair and state it as `axial_load`."},
    [SPT_FLAG_CONDITION_KEPT] =
        {1, 1,
         "Phases that state a condition of their own keep it ({v} here); the "
         "change does not reach what they state."},
    [SPT_FLAG_SHARES_SCALED] = {100, 1, "The time shares sum to {v} %; they are scaled to 100 %."},
    [SPT_FLAG_HISTORY_BINNED] =
        {1, 1,
         "The duty was binned from a measured history (samples: {v}): each phase has the "
         "revolutions and the basic damage of its samples (load by the power mean with p "
         "{l}, temperature by revolutions). It is taken as typical of the whole life."},
    [SPT_FLAG_HISTORY_REVERSED] =
        {1, 1,
         "Samples of the history with a load or a speed below 0: {v}. "
         "The magnitude is used: the sense of turning does not matter, but "
         "a thrust that changes sides counts as if it always pressed on "
         "this bearing."},
    [SPT_FLAG_HISTORY_GAPS] =
        {1, 1,
         "Gaps left out of the history: {v}, of {l} h together. Nothing is known of them, "
         "and they count neither as running nor as standing."},
    [SPT_FLAG_HISTORY_LONG_HOLD] =
        {1, 1,
         "The longest step of the history is {v} h, {l} times the usual (median) one: is it a gap "
         "in the record? A row holds until the next one, so all of it counts; where nothing was "
         "recorded, leave it out with --gap."},
    [SPT_FLAG_HISTORY_COARSE] =
        {1, 1,
         "With bins half as wide the modified life would be {v} h in place of {l} h: the bins "
         "are coarse for it (--bins); the basic life does not depend on them."},
    [SPT_FLAG_HISTORY_EXPONENT] =
        {1, 1,
         "The history was binned with the load-life exponent {l}, this bearing has {v}: the "
         "phases do not have quite the basic damage of the samples here."},
    [SPT_FLAG_PRELOAD] = {1, 1,
                          "The rows are preloaded by {v} mm, cold or running. " PRELOAD_PRACTICE},
    [SPT_FLAG_PRELOAD_CURE] =
        {1, 1,
         "The best setting that this hub may have is a preload of {v} mm, cold or "
         "running. " PRELOAD_PRACTICE},
    [SPT_FLAG_END_PLAY] =
        {1, 1,
         "The end play of {v} mm is more than wheel ends are commonly set to ({l} mm, common "
         "practice, no source): the wheel rocks, the seal wears and the rollers knock, which is "
         "not in the life. Set it as the maker says."},
    [SPT_FLAG_FILM_THIN] =
        {1, 1,
         "The film is thin (kappa {v}, below {l}): the surfaces touch nearly all the time, and "
         "wear or peeling may end the life before fatigue does. Use a thicker oil, run cooler, or "
         "see to it that a proven EP additive can count (e_C of 0.2 or more)."},
    [SPT_FLAG_RUNNING_ASSUMED] =
        {1, 1,
         "How the machine runs was not given (`running`: quiet, normal or shock): normal running "
         "is taken, for which static safety should be {v} or more. With shocks, or where it has "
         "to run quietly, it should be up to {l}, which is not reached here."},
    [SPT_FLAG_GREASE_LOAD] =
        {1, 1,
         "P/C {v}: beyond the load table of the greasing interval ({l}); grease is hardly a "
         "lubricant here."},
    [SPT_FLAG_CLASS_FROM_SEAL] =
        {1, 1,
         "The class {c} follows from {q}: a rule of this tool in the words of ISO 281 Annex A.{b} "
         "Where the class is known, state `cleanliness`."},
    [SPT_FLAG_CLASS_FROM_FILTER] =
        {1, 1,
         "The class {c} follows from the filter and the ingress, which is seldom known to a factor "
         "of ten: take a sample and state `cleanliness`."},
    [SPT_FLAG_CLASS_UNKNOWN] =
        {1, 1,
         "Nothing says how clean the grease is (`cleanliness`, `contamination_factor`, or `seal` "
         "and `surroundings`): only the basic rating life can be given."},
    [SPT_FLAG_SEAL_CONTRADICTED] = {1, 1,
                                    "What is stated is milder than the class {c}{m} of {q}. It is "
                                    "kept: look at the seal."},
    [SPT_FLAG_WATER_EXPECTED] =
        {1, 1,
         "Moisture like this would give about {v} ppm of water, where the life counts 100 ppm, and "
         "rust at standstill is not in it: take a sample."},
    [SPT_FLAG_FILTER_HOLDS] = {1, 1, "At this ingress the filter holds {c}, not the {C} stated."},
    [SPT_FLAG_FILTER_OVERWHELMED] =
        {1, 1,
         "The filter is overwhelmed: the oil before it settles at {v} over 6 um (ISO 4406), more "
         "than three above the {l} that its rating earns."},
    [SPT_FLAG_PHASE_DENTS] =
        {1, 1,
         "If the dents of the dirtiest phase stay in all phases the life is {v} h, not {l} h: each "
         "phase counts here with its own dirt, as the standard sums them."},
    [SPT_FLAG_MISSED_TARGET] = {1, 1,
                                "The life of {v} h in the condition as stated misses the target of "
                                "{l} h."},
};
SPT_ONE_EACH(wordings, SPT_FLAG_COUNT);

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
                          const struct wording *wording, char *number, size_t size)
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
    const struct wording *wording = &wordings[note->flag];
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
    return PRELOAD_PRACTICE;
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
