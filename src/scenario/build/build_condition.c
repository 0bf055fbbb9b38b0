/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/build/build.h"

static void report_cleanliness(struct spt_build *build, const struct spt_node *at, const char *key,
                               enum spt_lubrication kind, const char *text)
{
    const char *names[SPT_CLEANLINESS_COUNT];
    int first = (int)spt_cleanliness_first(kind), count = spt_cleanliness_count(kind);
    char list[160] = "";
    for (int i = 0; i < count; i++) {
        names[i] = spt_cleanliness_name((enum spt_cleanliness)(first + i));
        size_t used = strlen(list);
        snprintf(list + used, sizeof list - used, "%s%s", i ? ", " : "", names[i]);
    }
    const char *near = spt_nearest(text, names, count);
    spt_diagnostics_add(build->diags, spt_node_mark(at, key),
                        "`%s: %.40s` does not suit %s; %s%s%swrite one of: %s",
                        strstr(key, "cleanliness") ? key : "cleanliness", text,
                        kind == SPT_LUBRICATION_GREASE ? "grease" : "oil",
                        near ? "did you mean `" : "", near ? near : "", near ? "`? " : "", list);
}

static bool find_named_class(enum spt_lubrication kind, const char *text,
                             enum spt_cleanliness *found)
{
    int first = (int)spt_cleanliness_first(kind), count = spt_cleanliness_count(kind);
    for (int i = first; i < first + count; i++)
        if (!strcmp(spt_cleanliness_name((enum spt_cleanliness)i), text)) {
            *found = (enum spt_cleanliness)i;
            return true;
        }
    return false;
}

bool spt_build_cleanliness(struct spt_build *build, const struct spt_node *at, const char *key,
                           const char *text, enum spt_lubrication kind,
                           enum spt_cleanliness *cleanliness, bool *rounded)
{
    struct spt_iso4406 code;
    bool ignored;
    if (find_named_class(kind, text, cleanliness))
        return true;
    if (kind == SPT_LUBRICATION_GREASE || spt_iso4406_parse(text, (unsigned)strlen(text), &code)) {
        report_cleanliness(build, at, key, kind, text);
        return false;
    }
    if (!spt_cleanliness_from_code(kind, &code, cleanliness, rounded ? rounded : &ignored))
        return true;
    spt_diagnostics_add(build->diags, spt_node_mark(at, key),
                        "`cleanliness: %.40s` is dirtier than the last class of ISO 281 Annex A; "
                        "state a `contamination_factor` instead",
                        text);
    return false;
}

/* True where the class or e_C is stated. */
static bool check_cleanliness(struct spt_build *build, const struct raw_condition *raw)
{
    bool class_stated = spt_node_find(raw->at, "cleanliness") != NULL;
    bool factor_stated = spt_node_find(raw->at, "contamination_factor") != NULL;
    if (class_stated && factor_stated)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "contamination_factor"),
                            "`cleanliness` and `contamination_factor` say the same thing twice; "
                            "keep one");
    return class_stated || factor_stated;
}

#define INDOORS_C 10.0 /* coldest standstill under a heated roof (our choice) */

/* A stated word, or the mildest (0) where the key is absent. */
static int word_or_mildest(int word)
{
    return word < 0 ? 0 : word;
}

static unsigned find_unstated(const struct raw_condition *raw)
{
    return (unsigned)(raw->dust < 0) << SPT_SURROUNDING_DUST |
           (unsigned)(raw->moisture < 0) << SPT_SURROUNDING_MOISTURE |
           (unsigned)(raw->vibration < 0) << SPT_SURROUNDING_VIBRATION |
           (unsigned)(raw->shaft < 0) << SPT_SURROUNDING_SHAFT;
}

static struct spt_sealing read_sealing(const struct spt_build *build,
                                       const struct raw_condition *raw)
{
    const double age_h = raw->seal_age.value;
    const bool calendar = raw->seal_age.dimension == SPT_CALENDAR;
    return (struct spt_sealing){
        .stated = raw->seal >= 0 || raw->breather >= 0 || raw->surroundings >= 0 || raw->wet >= 0,
        .seal = raw->seal,
        .breather = raw->breather,
        .place = raw->surroundings,
        .wet = raw->wet,
        .age_h = calendar ? (double)NAN : age_h,
        .age_years = calendar ? age_h / SPT_HOURS_PER_YEAR : (double)NAN,
        .greased_for_life = build->greased_for_life,
    };
}

static void check_filter(struct spt_build *build, const struct raw_filter *raw,
                         enum spt_lubrication kind, const struct spt_filter *filter)
{
    const bool none = filter->place == SPT_FILTER_NONE;
    if (kind == SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`filter` is stated, but the lubricant is grease; leave it out");
    else if (!none && (isnan(raw->flow_ml_min) || isnan(raw->beta)) &&
             !spt_node_find(raw->at, "flow") != !spt_node_find(raw->at, "beta"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`filter` needs both `flow` and `beta`, such as {flow: 40 l/min, beta: "
                            "200, beta_size: 6 um}");
    else if (!none && !spt_node_find(raw->at, "flow"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`filter` lacks `flow` and `beta`; add them, or `place: none`");
    else if (filter->place == SPT_FILTER_FULL_FLOW &&
             spt_lubrication_like(kind) != SPT_LUBRICATION_CIRCULATING)
        spt_diagnostics_add(
            build->diags, raw->at->mark,
            "a full-flow filter belongs to circulating oil; write `place: off-line` "
            "for a loop of its own");
}

static void read_filter(struct spt_build *build, const struct raw_filter *raw,
                        enum spt_lubrication kind, struct spt_condition *condition)
{
    condition->filtered = raw->at != NULL;
    condition->filter = (struct spt_filter){
        .place = raw->place < 0 ? SPT_FILTER_FULL_FLOW : (enum spt_filter_place)raw->place,
        .ingress_per_min = raw->ingress_per_min,
        .flow_ml_min = raw->flow_ml_min,
        .beta = raw->beta,
        .beta_size_um = isnan(raw->beta_size_mm) ? (double)INFINITY : raw->beta_size_mm * 1e3,
        .bypass_share = isnan(raw->bypass_share) ? 0 : raw->bypass_share,
        .volume_ml = raw->volume_ml,
    };
    if (condition->filtered)
        check_filter(build, raw, kind, &condition->filter);
}

static void infer_from_filter(struct spt_build *build, const struct raw_condition *raw,
                              struct spt_condition *condition)
{
    struct spt_filter_class kept;
    condition->class_source = SPT_CLASS_FROM_FILTER;
    if (!spt_filter_class(&condition->filter, &kept))
        condition->cleanliness = kept.condition;
    else
        spt_diagnostics_add(build->diags, raw->filter.at->mark,
                            isnan(condition->filter.ingress_per_min)
                                ? "the filter alone says no cleanliness; add its `ingress`, or a "
                                  "`cleanliness` to the condition"
                                : "at this ingress the oil is dirtier than the last class of ISO "
                                  "281 Annex A; state a `contamination_factor`");
}

/* The class where the user states none. */
static void infer_class(struct spt_build *build, const struct raw_condition *raw,
                        enum spt_lubrication kind, struct spt_condition *condition)
{
    const struct spt_inflow inflow = spt_seal_inflow(&condition->sealing);
    const bool circulating = spt_lubrication_like(kind) == SPT_LUBRICATION_CIRCULATING;
    if (condition->filtered && condition->filter.place != SPT_FILTER_NONE) {
        infer_from_filter(build, raw, condition);
    } else if (inflow.class_index >= 0 && !circulating) {
        condition->class_source = SPT_CLASS_FROM_SEAL;
        condition->cleanliness =
            (enum spt_cleanliness)((int)spt_cleanliness_first(kind) + inflow.class_index);
    } else if (kind == SPT_LUBRICATION_GREASE) {
        condition->class_source = SPT_CLASS_UNKNOWN;
        condition->cleanliness = (enum spt_cleanliness)((int)spt_cleanliness_first(kind) +
                                                        spt_cleanliness_count(kind) - 1);
    } else {
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`condition` lacks `cleanliness`; add it, such as `cleanliness: "
                            "-/17/14`, a `contamination_factor`, or %s",
                            circulating ? "a `filter`" : "`seal` and `surroundings`");
    }
}

void spt_build_condition(struct spt_build *build, const struct spt_node *mapping,
                         enum spt_lubrication kind, struct spt_condition *condition)
{
    struct raw_condition raw;
    spt_section_read(&spt_section_condition, mapping, &raw, build->diags);
    *condition = (struct spt_condition){
        .cleanliness = spt_cleanliness_first(kind),
        .contamination_factor = raw.contamination_factor,
        .water_assumed = isnan(raw.water_ppm),
        .age_assumed = isnan(raw.grease_age_h),
        .surroundings_assumed = find_unstated(&raw),
        .water_ppm = isnan(raw.water_ppm) ? 0 : raw.water_ppm,
        .grease_age_h = isnan(raw.grease_age_h) ? 0 : raw.grease_age_h,
        .coldest_c = !isnan(raw.coldest_c) ? raw.coldest_c
                     : raw.indoors == 1    ? INDOORS_C
                                           : 0,
        .surroundings = {.dust = (enum spt_dust)word_or_mildest(raw.dust),
                         .moisture = (enum spt_moisture)word_or_mildest(raw.moisture),
                         .vibration = (enum spt_vibration)word_or_mildest(raw.vibration),
                         .shaft = (enum spt_shaft)word_or_mildest(raw.shaft)},
        .sealing = read_sealing(build, &raw),
    };
    const int before = build->diags->raised;
    const bool stated = check_cleanliness(build, &raw);
    read_filter(build, &raw.filter, kind, condition);
    if (!stated && build->diags->raised == before)
        infer_class(build, &raw, kind, condition);
    if (raw.cleanliness)
        spt_build_cleanliness(build, raw.at, "cleanliness", raw.cleanliness, kind,
                              &condition->cleanliness, &condition->code_rounded);
    if (raw.grease_age_h > 0 && kind != SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, spt_node_mark(mapping, "grease_age"),
                            "`grease_age` is stated, but the lubricant is oil; leave it out");
}
