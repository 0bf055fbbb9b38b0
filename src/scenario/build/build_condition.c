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

static void require_cleanliness(struct spt_build *build, const struct raw_condition *raw)
{
    bool class_stated = spt_node_find(raw->at, "cleanliness") != NULL;
    bool factor_stated = spt_node_find(raw->at, "contamination_factor") != NULL;
    if (!class_stated && !factor_stated)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`condition` lacks `cleanliness`; add it, such as "
                            "`cleanliness: normal`, or a `contamination_factor`");
    if (class_stated && factor_stated)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "contamination_factor"),
                            "`cleanliness` and `contamination_factor` say the same thing twice; "
                            "keep one");
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
    };
    require_cleanliness(build, &raw);
    if (raw.cleanliness)
        spt_build_cleanliness(build, raw.at, "cleanliness", raw.cleanliness, kind,
                              &condition->cleanliness, &condition->code_rounded);
    if (raw.grease_age_h > 0 && kind != SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, spt_node_mark(mapping, "grease_age"),
                            "`grease_age` is stated, but the lubricant is oil; leave it out");
}
