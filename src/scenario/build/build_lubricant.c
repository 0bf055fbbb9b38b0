/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "scenario/build/build.h"

#define USUAL_INDEX 95.0
#define GRADE_TOLERANCE 0.10 /* ISO 3448: limits of a grade are +-10 % of its mid-point */
#define INDEX_TOLERANCE 5.0  /* allowed difference between stated and computed index */

/* The number in "VG 150", "ISO VG 150" or "150"; -1 where the text is not one of these. */
static long grade_number(const char *text)
{
    static const char *const starts[] = {"ISO VG ", "VG ", ""};
    for (int i = 0; i < 3; i++) {
        size_t length = strlen(starts[i]);
        if (strncmp(text, starts[i], length) != 0)
            continue;
        const char *digits = text + length;
        size_t count = strspn(digits, "0123456789");
        return count && count < 6 && !digits[count] ? strtol(digits, NULL, 10) : -1;
    }
    return -1;
}

/* Mid-point of the grade; NaN with a diagnostic where there is no such grade. */
static double read_grade(struct spt_build *build, const struct raw_lubricant *raw)
{
    long number = grade_number(raw->grade);
    for (int i = 0; number > 0 && i < SPT_VISCOSITY_GRADE_COUNT; i++)
        if (spt_viscosity_grade(i)->number == number)
            return spt_viscosity_grade(i)->nu40_mm2_s;
    spt_diagnostics_add(
        build->diags, spt_node_mark(raw->at, "grade"),
        "`grade: %.40s` is no ISO 3448 viscosity grade (of grease, the grade of its "
        "base oil); write one such as VG 150 (VG 2 3 5 7 10 15 22 32 46 68 100 150 "
        "220 320 460 680 1000 1500 2200 3200)",
        raw->grade);
    return (double)NAN;
}

static double find_viscosity_40(struct spt_build *build, const struct raw_lubricant *raw)
{
    if (!raw->grade) {
        if (isnan(raw->viscosity_40_mm2_s) && !spt_node_find(raw->at, "viscosity_40"))
            spt_diagnostics_add(build->diags, raw->at->mark,
                                "the lubricant has no viscosity; add `grade: VG 150`, or "
                                "`viscosity_40` and `viscosity_100`");
        return raw->viscosity_40_mm2_s;
    }
    double middle = read_grade(build, raw);
    if (isnan(raw->viscosity_40_mm2_s))
        return middle;
    if (fabs(raw->viscosity_40_mm2_s / middle - 1) > GRADE_TOLERANCE)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "viscosity_40"),
                            "`viscosity_40: %.6g mm2/s` and `grade: %s` disagree by more than "
                            "10 %%; keep one",
                            raw->viscosity_40_mm2_s, raw->grade);
    return raw->viscosity_40_mm2_s;
}

/* Finds the viscosity at 100 degC from the index (stated or usual), or the index from it. */
static void find_second_point(struct spt_build *build, const struct raw_lubricant *raw,
                              struct spt_lubricant *oil)
{
    double stated = raw->viscosity_index;
    const char *blamed = !isnan(stated) ? "viscosity_index" : raw->grade ? "grade" : "viscosity_40";
    oil->viscosity_100_mm2_s = raw->viscosity_100_mm2_s;
    if (isnan(raw->viscosity_100_mm2_s)) {
        oil->index_assumed = isnan(stated);
        oil->viscosity_index = oil->index_assumed ? USUAL_INDEX : stated;
        if (spt_viscosity_100_from_index(oil->viscosity_40_mm2_s, oil->viscosity_index,
                                         &oil->viscosity_100_mm2_s))
            spt_diagnostics_add(build->diags, spt_node_mark(raw->at, blamed),
                                "no oil of %.6g mm2/s at 40 degC has a viscosity index of %.6g and "
                                "at least 2 mm2/s at 100 degC; state `viscosity_100`",
                                oil->viscosity_40_mm2_s, oil->viscosity_index);
        return;
    }
    if (raw->viscosity_100_mm2_s >= oil->viscosity_40_mm2_s) {
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "viscosity_100"),
                            "the oil should be thinner at 100 degC (%.6g mm2/s) than at 40 degC "
                            "(%.6g mm2/s)",
                            raw->viscosity_100_mm2_s, oil->viscosity_40_mm2_s);
        return;
    }
    spt_viscosity_index(oil->viscosity_40_mm2_s, oil->viscosity_100_mm2_s, &oil->viscosity_index);
    if (fabs(stated - oil->viscosity_index) > INDEX_TOLERANCE)
        spt_diagnostics_add(
            build->diags, spt_node_mark(raw->at, "viscosity_index"),
            "`viscosity_index: %.6g` and the two viscosities (index %.0f) disagree; "
            "keep one",
            stated, oil->viscosity_index);
}

/* Keys that the way of lubricating has no use for. */
static void check_kind(struct spt_build *build, const struct raw_lubricant *raw,
                       enum spt_lubrication kind)
{
    if (raw->greased_for_life == 1 && kind != SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "greased_for_life"),
                            "`greased_for_life` is stated, but the lubricant is oil; leave it out");
    if (raw->oil_life >= 0 && kind == SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "oil_life"),
                            "`oil_life` is stated, but the lubricant is grease; leave it out");
}

bool spt_build_lubricant(struct spt_build *build, const struct spt_node *mapping,
                         struct spt_lubricant *lubricant)
{
    struct raw_lubricant raw;
    int before = build->diags->raised;
    bool kind_known = false;
    spt_section_read(&spt_section_lubricant, mapping, &raw, build->diags);
    kind_known = raw.kind >= 0;
    if (!kind_known && !spt_node_find(mapping, "kind"))
        spt_diagnostics_add(build->diags, mapping->mark,
                            "`lubricant` lacks `kind`; add it, such as `kind: grease`");
    *lubricant = (struct spt_lubricant){
        .name = raw.name ? raw.name : "lubricant",
        .kind = raw.kind < 0 ? SPT_LUBRICATION_GREASE : (enum spt_lubrication)raw.kind,
        .ep_additive = raw.ep_additive == 1,
        .density_g_cm3 = raw.density_g_cm3,
        .solubility = raw.water_solubility == 0 ? SPT_SOLUBILITY_PLAIN : SPT_SOLUBILITY_ADDITIVATED,
        .base_oil = raw.base_oil < 0 ? SPT_BASE_OIL_MINERAL : (enum spt_base_oil)raw.base_oil,
        .oil_life_stated = raw.oil_life >= 0,
        .oil_life = raw.oil_life < 0 ? SPT_INHIBITION_EP_GEAR : (enum spt_inhibition)raw.oil_life,
        .sampled = raw.sampled == 1,
        .greased_for_life = raw.greased_for_life == 1,
    };
    build->greased_for_life = lubricant->greased_for_life;
    check_kind(build, &raw, lubricant->kind);
    lubricant->viscosity_40_mm2_s = find_viscosity_40(build, &raw);
    if (build->diags->raised > before)
        return kind_known;
    find_second_point(build, &raw, lubricant);
    if (build->diags->raised > before)
        return kind_known;
    if (spt_viscosity_line(40, lubricant->viscosity_40_mm2_s, 100, lubricant->viscosity_100_mm2_s,
                           &lubricant->line))
        spt_diagnostics_add(build->diags, mapping->mark,
                            "no viscosity line runs through %.6g mm2/s at 40 degC and %.6g mm2/s "
                            "at 100 degC",
                            lubricant->viscosity_40_mm2_s, lubricant->viscosity_100_mm2_s);
    return kind_known;
}
