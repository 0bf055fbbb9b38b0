/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/scenario.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "support/near.h"

/* Random scenarios that use the whole of every range, most of them odd. */
struct dice {
    unsigned long long state;
};

static double draw(struct dice *dice, double low, double high)
{
    return random_between(&dice->state, low, high);
}

static double draw_ratio(struct dice *dice, double low, double high)
{
    return low * pow(high / low, draw(dice, 0, 1));
}

static bool toss(struct dice *dice, double chance)
{
    return draw(dice, 0, 1) < chance;
}

static const char *choose(struct dice *dice, const char *const *words, int count)
{
    return words[(int)draw(dice, 0, count)];
}

static void write_bearing(struct dice *dice, FILE *out)
{
    static const char *const types[] = {
        "deep groove ball",   "angular contact ball", "self-aligning ball",
        "cylindrical roller", "tapered roller",       "spherical roller",
        "needle roller",      "thrust ball",          "thrust roller"};
    double bore_mm = draw_ratio(dice, 1, 4000), outside_mm = bore_mm * draw(dice, 1.05, 2.4);
    fprintf(out, "bearing:\n  type: %s\n  bore: %.4g mm\n  outside_diameter: %.4g mm\n",
            choose(dice, types, 9), bore_mm, outside_mm);
    fprintf(out, "  width: %.3g mm\n  rows: %d\n", bore_mm / 2, 1 + (int)draw(dice, 0, 3));
    if (toss(dice, 0.9))
        fprintf(out, "  contact_angle: %.3g deg\n",
                toss(dice, 0.7) ? 5 * floor(draw(dice, 0, 19)) : draw(dice, 0, 90));
    double rating_n = draw_ratio(dice, 10, 1e8);
    if (toss(dice, 0.8))
        fprintf(out, "  dynamic_load_rating: %.3e N\n  static_load_rating: %.3e N\n", rating_n,
                rating_n * draw_ratio(dice, 0.05, 20));
    if (toss(dice, 0.3))
        fprintf(out, "  fatigue_load_limit: %.3e N\n", rating_n * draw_ratio(dice, 1e-6, 2));
    if (toss(dice, 0.3))
        fprintf(out, "  f0: %.3g\n", draw(dice, 0.01, 70));
    if (toss(dice, 0.3))
        fprintf(out, "  axial_factors: {e: %.3g, X: %.3g, Y: %.3g, Y0: %.3g}\n",
                draw_ratio(dice, 0.01, 10), draw(dice, 0, 1.2), draw_ratio(dice, 0.01, 20),
                draw(dice, 0, 20));
    if (toss(dice, 0.3))
        fprintf(out,
                "  geometry: {elements: %d, element_diameter: %.3g mm, element_length: %.3g mm}\n",
                (int)draw(dice, 3, 30), draw(dice, 0.05, 0.3) * bore_mm, bore_mm / 3);
}

static void write_lubricant(struct dice *dice, FILE *out, bool *grease)
{
    static const char *const kinds[] = {"grease", "oil bath", "circulating oil"};
    const char *kind = choose(dice, kinds, 3);
    *grease = kind == kinds[0];
    fprintf(out, "lubricant:\n  kind: %s\n  viscosity_40: %.4g mm2/s\n", kind,
            draw_ratio(dice, 2.5, 5000));
    if (toss(dice, 0.4))
        fprintf(out, "  viscosity_100: %.4g mm2/s\n", draw_ratio(dice, 2, 500));
    else if (toss(dice, 0.5))
        fprintf(out, "  viscosity_index: %.4g\n", draw(dice, -50, 400));
    if (toss(dice, 0.3))
        fprintf(out, "  density: %.3g g/cm3\n", draw(dice, 0.6, 1.5));
    if (toss(dice, 0.3))
        fputs("  ep_additive: yes\n  water_solubility: additivated\n", out);
}

static void write_condition(struct dice *dice, FILE *out, bool grease)
{
    static const char *const classes[] = {"high", "normal", "slight", "severe", "very severe"};
    static const char *const codes[] = {"-/13/10", "-/15/12", "-/17/14", "-/19/16", "-/21/18"};
    if (toss(dice, 0.2))
        fprintf(out, "condition:\n  contamination_factor: %.3g\n", draw(dice, 0, 1));
    else
        fprintf(out, "condition:\n  cleanliness: %s\n", choose(dice, grease ? classes : codes, 5));
    fprintf(out, "  water: %.3e ppm\n", draw_ratio(dice, 1, 1e6));
    if (grease && toss(dice, 0.5))
        fprintf(out, "  grease_age: %.3e h\n", draw_ratio(dice, 1, 1e9));
}

static void write_duty(struct dice *dice, FILE *out)
{
    fputs("duty:\n", out);
    for (int i = 0; i < 3; i++) {
        fprintf(out, "  - phase: p%d\n    time: %.3g h\n    speed: %.3e rpm\n", i,
                draw(dice, 0, 10), toss(dice, 0.1) ? 0 : draw_ratio(dice, 0.001, 1e6));
        if (toss(dice, 0.2))
            fprintf(out, "    equivalent_load: %.3e N\n", draw_ratio(dice, 1, 1e9));
        else
            fprintf(out, "    radial_load: %.3e N\n    axial_load: %.3e N\n",
                    toss(dice, 0.1) ? 0 : draw_ratio(dice, 1, 1e8),
                    toss(dice, 0.3) ? 0 : draw_ratio(dice, 1, 1e8));
        if (toss(dice, 0.2))
            fprintf(
                out,
                "    temperature: estimate\n    ambient: %.3g degC\n    cooling: %.3g W/(m2 K)\n",
                draw(dice, -60, 150), draw_ratio(dice, 2, 200));
        else
            fprintf(out, "    temperature: %.4g degC\n", draw(dice, -60, 300));
    }
}

/* Flags that say why there is no life. */
static bool says_why(const struct spt_notes *notes)
{
    return spt_notes_has(notes, SPT_FLAG_FILM_TOO_THIN) ||
           spt_notes_has(notes, SPT_FLAG_GREASE_EXHAUSTED) ||
           spt_notes_has(notes, SPT_FLAG_TOO_HOT) || spt_notes_has(notes, SPT_FLAG_OIL_TOO_STIFF) ||
           spt_notes_has(notes, SPT_FLAG_RADIAL_NOT_RATED);
}

/* NaN exactly where a flag says why; the same for the whole and its phases. */
static void expect_answers(const struct spt_case *question, const char *text)
{
    struct spt_phase_result phases[8];
    struct spt_assessment answer;
    enum spt_status status = spt_assess(question, phases, &answer);
    cr_expect_eq(status, SPT_OK, "%s: %s", spt_status_text(status), text);
    if (status)
        return;
    bool none = false;
    for (int i = 0; i < answer.bearings[0].phase_count; i++) {
        double life_h = phases[i].modified_rating_life_h;
        cr_expect(!isnan(life_h) || says_why(&phases[i].notes), "phase %d: %s", i, text);
        cr_expect(isnan(life_h) || life_h > 0, "phase %d, %g h: %s", i, life_h, text);
        if (phases[i].effective_viscosity_ratio < 0.1)
            cr_expect(isnan(life_h), "phase %d, kappa %g: %s", i,
                      phases[i].effective_viscosity_ratio, text);
        none = none || (isnan(life_h) && phases[i].phase->time_share > 0);
    }
    cr_expect_eq(isnan(answer.modified_rating_life_h), none, "%s", text);
}

Test(scenario_property, what_the_check_accepts_has_an_answer_or_a_flag_that_says_why)
{
    struct dice dice = {31415926};
    int accepted = 0;
    for (int i = 0; i < 3000; i++) {
        struct spt_scenario scenario;
        struct spt_diagnostics diags = {0};
        char *text = NULL;
        size_t length = 0;
        bool grease;
        FILE *out = open_memstream(&text, &length);
        fputs("title: random\n", out);
        write_bearing(&dice, out);
        write_lubricant(&dice, out, &grease);
        write_condition(&dice, out, grease);
        write_duty(&dice, out);
        fclose(out);
        if (spt_scenario_load(&(struct spt_source){"random", text, length}, NULL, &scenario,
                              &diags)) {
            accepted++;
            expect_answers(&scenario.base.question, text);
        } else {
            cr_expect_gt(diags.count, 0);
        }
        spt_scenario_free(&scenario);
        free(text);
    }
    cr_expect_gt(accepted, 500, "only %d were accepted", accepted);
}
