/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/wording.h"

#include "base/table.h"

static const struct spt_wording wordings[] = {
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
    [SPT_FLAG_PRELOAD] =
        {1, 1, "The rows are preloaded by {v} mm, cold or running. " SPT_PRELOAD_PRACTICE},
    [SPT_FLAG_PRELOAD_CURE] =
        {1, 1,
         "The best setting that this hub may have is a preload of {v} mm, cold or "
         "running. " SPT_PRELOAD_PRACTICE},
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

const struct spt_wording *spt_wording_of(enum spt_flag flag)
{
    return &wordings[flag];
}
