/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/build/section_fields.h"
#include "scenario/build/sections.h"

/* The sections about maintenance, events and drifts, and costs. */

#define S struct raw_span
static const struct spt_field water_span_fields[] = {
    NEEDED_SPAN("start", start, SPT_CONTENT, 0, 1e6, "100 ppm", "at the start of the drift"),
    NEEDED_SPAN("end", end, SPT_CONTENT, 0, 1e6, "600 ppm", "at its end"),
};
static const struct spt_section section_water_span = {
    "`water`", "water of the drift", water_span_fields, COUNT(water_span_fields), sizeof(S)};
static const struct spt_field load_span_fields[] = {
    NEEDED_SPAN("start", start, SPT_NO_DIMENSION, 0, 100, "1", "factor at the start"),
    NEEDED_SPAN("end", end, SPT_NO_DIMENSION, 0, 100, "1.2", "factor at the end"),
};
static const struct spt_section section_load_span = {
    "`load_factor`", "factor on every load", load_span_fields, COUNT(load_span_fields), sizeof(S)};
static const struct spt_field rise_span_fields[] = {
    NEEDED_SPAN("start", start, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "0 K", "at the start"),
    NEEDED_SPAN("end", end, SPT_TEMPERATURE_DIFFERENCE, -200, 200, "15 K", "at the end"),
};
static const struct spt_section section_rise_span = {"`temperature_rise`",
                                                     "rise of every temperature", rise_span_fields,
                                                     COUNT(rise_span_fields), sizeof(S)};
#undef S

#define S struct raw_class_span
static const struct spt_field class_span_fields[] = {
    NEEDED_TEXT("start", start, "normal", "cleanliness at the start of the drift"),
    NEEDED_TEXT("end", end, "severe", "cleanliness at its end; the classes between in turn"),
};
static const struct spt_section section_class_span = {"`cleanliness`", "classes of the drift",
                                                      class_span_fields, COUNT(class_span_fields),
                                                      sizeof(S)};
#undef S

#define S struct raw_drift
static const struct spt_field drift_fields[] = {
    NEEDED_TEXT("drift", drift, "wash water creeping in", "name of the drift"),
    QUANTITY("from", from_h, SPT_DURATION, 0, LIFE_MAX_H, "2000 h",
             "running hours at which it starts; 0 where absent"),
    {.key = "to",
     .kind = SPT_FIELD_QUANTITY,
     .required = true,
     MEMBER(to_h),
     .dimension = SPT_DURATION,
     NO_OTHER,
     .min = 0,
     .max = LIFE_MAX_H,
     .example = "5000 h",
     .help = "running hours at which it ends and stays"},
    SECTION("water", water, &section_water_span, "water rises at least to this in every phase"),
    SECTION("cleanliness", cleanliness, &section_class_span, "the lubricant gets dirtier"),
    SECTION("load_factor", load_factor, &section_load_span, "loads grow"),
    SECTION("temperature_rise", temperature_rise, &section_rise_span, "the bearing runs hotter"),
};
const struct spt_section spt_section_drift = {"the drift", "something that changes steadily",
                                              drift_fields, COUNT(drift_fields), sizeof(S)};
#undef S

#define S struct raw_event
static const struct spt_field event_fields[] = {
    NEEDED_TEXT("event", event, "seal torn", "name of the event"),
    TEXT("note", note, "stone behind the wheel", "a remark for the reports"),
    {.key = "at",
     .kind = SPT_FIELD_QUANTITY,
     .required = true,
     MEMBER(at_h),
     .dimension = SPT_DURATION,
     NO_OTHER,
     .min = 0,
     .max = LIFE_MAX_H,
     .example = "3000 h",
     .help = "running hours at which it happens"},
    YES_NO("new_bearing", new_bearing,
           "new bearings are put in: no damage, no dents of earlier dirt; washing, fresh grease or "
           "oil, filter and seal leave the dents"),
    NAMED("bearing", bearing, false, &spt_section_bearing, "roller 60-110", "what differs then"),
    CHANGED_HUB("what differs then, such as {preload: 0.01 mm}"),
    MAPPING("machine", machine, &spt_section_machine, "a mapping",
            "what differs then: parts and supports are found by their names"),
    NAMED("lubricant", lubricant, false, &spt_section_lubricant, "hub grease 150",
          "what differs then"),
    NAMED("condition", condition, false, &spt_section_condition, "{cleanliness: severe}",
          "what differs then; a `grease_age` is that of the grease it leaves"),
    LIST("duty", duty, false, &spt_section_phase, "a list of phases", "phases that differ then"),
};
const struct spt_section spt_section_event = {"the event", "something that happens and stays",
                                              event_fields, COUNT(event_fields), sizeof(S)};
#undef S

#define S struct raw_limits
static const struct spt_field limits_fields[] = {
    ABOVE("water", water_ppm, SPT_CONTENT, 0, 1e6, "400 ppm",
          "the lubricant is changed when a drift brings the water to this"),
    TEXT("cleanliness", cleanliness, "slight",
         "dirtiest class or code that will do; changed when a drift gets dirtier"),
};
static const struct spt_section section_limits = {"`limits`",
                                                  "what the lubricant may come to, for `schedule`",
                                                  limits_fields, COUNT(limits_fields), sizeof(S)};
#undef S

#define S struct raw_costs
#define COST_MAX 1e15
static const struct spt_field costs_fields[] = {
    NEEDED("planned", planned, SPT_NO_DIMENSION, 0, COST_MAX, "240",
           "cost of a change at a planned age"),
    NEEDED("failure", failure, SPT_NO_DIMENSION, 0, COST_MAX, "2600",
           "cost of a change after a failure, with what the failure brings"),
    QUANTITY("visit", visit, SPT_NO_DIMENSION, 0, COST_MAX, "30",
             "the way to the machine, for each visit"),
    QUANTITY("downtime", downtime, SPT_NO_DIMENSION, 0, COST_MAX, "80",
             "the machine standing still, for each visit"),
    QUANTITY("job", job_h, SPT_DURATION, 0, 1000, "0.15 h",
             "work at each greasing of a unit, or change of its oil"),
    QUANTITY("wage", wage, SPT_NO_DIMENSION, 0, COST_MAX, "45", "for an hour of that work"),
    QUANTITY("grease", grease, SPT_NO_DIMENSION, 0, COST_MAX, "0.4",
             "the grease or oil of a unit each time"),
    QUANTITY("investment", investment, SPT_NO_DIMENSION, 0, COST_MAX, "35",
             "in a remedy, for each unit"),
    ABOVE("investment_years", investment_years, SPT_NO_DIMENSION, 0, 100, "5",
          "years over which it is paid off"),
    QUANTITY("interest", interest, SPT_SHARE, 0, 1, "5 %", "a year on it; none where absent"),
    TEXT("currency", currency, "EUR", "word or code for the reports"),
};
const struct spt_section spt_section_costs = {"`costs`", "what a change costs, for `schedule`",
                                              costs_fields, COUNT(costs_fields), sizeof(S)};
#undef S

#define S struct raw_service
static const struct spt_field service_fields[] = {
    ABOVE("regrease", regrease_h, SPT_DURATION, 0, LIFE_MAX_H, "2000 h",
          "fresh grease every so many running hours; the first when `grease_age` comes to that"),
    ABOVE("oil_change", oil_change_h, SPT_DURATION, 0, LIFE_MAX_H, "4000 h",
          "fresh oil every so many running hours: drifts of water and dirt start again"),
    YES_NO("new_gearbox", new_gearbox, "a new gear unit: its first oil is changed early"),
    ABOVE("until", until_h, SPT_DURATION, 0, LIFE_MAX_H, "60000 h",
          "where to stop looking; a million hours where absent"),
    LIST("events", events, false, &spt_section_event, "a list of events", "what happens"),
    LIST("drifts", drifts, false, &spt_section_drift, "a list of drifts", "what changes steadily"),
    SECTION("limits", limits, &section_limits, "what the lubricant may come to, for `schedule`"),
};
const struct spt_section spt_section_service = {"`service`",
                                                "care and mishaps over time, for `timeline`",
                                                service_fields, COUNT(service_fields), sizeof(S)};
#undef S
