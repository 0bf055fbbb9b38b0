/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/compare/compare_parts.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/compare/compare_flags.h"
#include "answer/field/spread.h"
#include "answer/life/explain.h"
#include "answer/life/hub.h"
#include "answer/life/inputs.h"
#include "answer/life/loss.h"
#include "answer/life/phases.h"
#include "answer/life/sheet.h"
#include "sentence/findings.h"
#include "sentence/greasing.h"
#include "sentence/sentence.h"
#include "sentence/verdict.h"

struct greasing_row {
    const char *name;
    double grease_interval_h, regrease_every_h, age_h, working_percent;
    const char *regrease_days;
};

/* The greasing of each case, where any is greased. */
static void show_greasing(struct spt_page *page, const struct spt_compared *cases, int count)
{
    static const struct spt_column columns[] = {
        {.head = "greasing of",
         .kind = SPT_WORDS,
         .width = SPT_COMPARE_NAME_WIDTH,
         .at = offsetof(struct greasing_row, name)},
        {.head = "interval h",
         .kind = SPT_HOURS,
         .width = 10,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct greasing_row, grease_interval_h)},
        {.head = "every h",
         .kind = SPT_HOURS,
         .width = 7,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct greasing_row, regrease_every_h)},
        {.head = "or",
         .kind = SPT_DAY,
         .width = 9,
         .gap = 1,
         .at = offsetof(struct greasing_row, regrease_days)},
        {.head = "age h",
         .kind = SPT_HOURS,
         .width = 7,
         .gap = 1,
         .at = offsetof(struct greasing_row, age_h)},
        {.head = "work %",
         .kind = SPT_GENERAL,
         .digits = 3,
         .width = 6,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct greasing_row, working_percent)},
    };
    struct greasing_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    bool any = false;
    for (int i = 0; rows && i < count; i++) {
        const struct spt_greasing *greasing = &cases[i].assessment.greasing;
        char span[SPT_SPAN_LENGTH] = "-";
        const bool own = cases[i].plan && cases[i].plan->regrease_own;
        if (own)
            snprintf(span, sizeof span, "as stated");
        else if (!isnan(greasing->kept_h))
            spt_greasing_span_of(greasing, span);
        rows[i] = (struct greasing_row){.name = cases[i].name,
                                        .grease_interval_h = greasing->interval_h,
                                        .regrease_every_h = spt_compare_regrease_h(&cases[i]),
                                        .age_h = spt_greasing_age_h(&cases[i].assessment),
                                        .working_percent =
                                            100 * spt_greasing_working(&cases[i].assessment),
                                        .regrease_days = spt_page_words(page, "%s", span)};
        any = any || greasing->state != SPT_GREASING_NONE;
    }
    if (!any)
        return;
    spt_page_open(page, "Greasing");
    spt_page_table(page, "greasing", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_say(page, SPT_BODY, "",
                 "work %%: of machines with grease of that age, the share in which it still works. "
                 "The lives above are theirs alone; the others fail early.");
    spt_page_close(page);
}

/* Which cases miss what is wanted of them; silent where nothing is. */
static void say_targets(struct spt_page *page, const struct spt_compared *cases, int count)
{
    int wanted = 0, missed = 0;
    const char *names = "";
    for (int i = 0; i < count; i++) {
        const struct spt_assessment *assessment = &cases[i].assessment;
        const double target_h = assessment->question->target_life_h;
        wanted += !isnan(target_h);
        if (!isnan(target_h) && !(spt_compare_life_h(&cases[i]) >= target_h))
            names =
                spt_page_words(page, "%s%s%s (%s h)", names, missed++ ? "; " : "",
                               spt_page_name(page, cases[i].name), spt_page_hours(page, target_h));
    }
    if (missed)
        spt_page_say(page, SPT_BODY, "", "%d of %d miss their target: %s.", missed, wanted, names);
    else if (wanted)
        spt_page_say(page, SPT_BODY, "", "Every case meets its target.");
}

/* Each file after the first one is judged too. */
static void judge_others(struct spt_page *page, const struct spt_compared *cases, int count)
{
    char headline[SPT_HEADLINE_LENGTH];
    for (int i = 1; i < count; i++)
        if (cases[i].judgement)
            spt_page_judge(page, spt_verdict_mark(cases[i].judgement), "%s: %s",
                           spt_page_name(page, cases[i].name),
                           spt_verdict_headline(cases[i].judgement, headline));
}

/* Explains which phase the columns of the table show, and what "!" means. */
static void say_legend(struct spt_page *page, const struct spt_compared *cases, int count)
{
    const struct spt_shown_phase of_base = spt_compare_costliest(&cases[0].assessment);
    const bool two = cases[0].assessment.bearing_count > 1;
    bool others = false, doubt = false;
    for (int i = 0; i < count; i++) {
        others = others || !spt_compare_shown(cases, i).as_base;
        doubt = doubt || spt_compare_in_doubt(&cases[i]);
    }
    spt_page_say(page, SPT_BODY, "", "kappa, e_C, a_ISO and a_w are those of \"%s\"%s%s, %s%s.",
                 spt_page_name(page, of_base.phase->phase->name), two ? " of " : "",
                 two ? spt_page_name(page, of_base.bearing->bearing_case->bearing.name) : "",
                 of_base.bearing->worst_phase >= 0 ? "the phase that costs the first case most"
                                                   : "a phase of the first case",
                 others ? "; a case without such a phase shows its own costliest" : "");
    if (doubt)
        spt_page_say(page, SPT_BODY, "",
                     "!: fatigue may not be what ends it, or the figure is in doubt: see the "
                     "flags.");
}

struct band_row {
    const char *name;
    double p5_h, p50_h, p95_h;
    int samples;
};

/* The life of each case with its band, where there is a section `uncertainty`. */
static void show_bands(struct spt_page *page, const struct spt_compared *cases, int count)
{
    static const struct spt_column columns[] = {
        {.head = "life in h of",
         .kind = SPT_WORDS,
         .width = SPT_COMPARE_NAME_WIDTH,
         .at = offsetof(struct band_row, name)},
        {.head = "5 %",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct band_row, p5_h)},
        {.head = "50 %",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct band_row, p50_h)},
        {.head = "95 %",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct band_row, p95_h)},
        {.head = "samples",
         .kind = SPT_COUNT,
         .width = 8,
         .gap = 1,
         .at = offsetof(struct band_row, samples)},
    };
    struct band_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    int used = 0;
    for (int i = 0; rows && i < count; i++) {
        const struct spt_uncertainty_result *spread = cases[i].assessment.spread;
        if (spread)
            rows[used++] =
                (struct band_row){cases[i].name, spread->system.p5_h, spread->system.p50_h,
                                  spread->system.p95_h, spread->samples};
    }
    spt_page_open(page, "Bands by the section `uncertainty`");
    spt_page_table(page, "bands", &(struct spt_table){SPT_TABLE_OF(columns, rows, used)});
    if (used)
        spt_page_say(page, SPT_BODY, "",
                     "Cases of one scenario share what is drawn, so bands that overlap may still "
                     "keep their order.");
    for (int i = 0; i < count; i++)
        if (cases[i].assessment.spread)
            spt_spread_unmoved_page(page, cases[i].name, cases[i].assessment.question,
                                    cases[i].assessment.spread);
    spt_page_close(page);
}

static void show_case(struct spt_page *page, const struct spt_compared *compared)
{
    const struct spt_assessment *assessment = &compared->assessment;
    spt_page_open(page, "%s", spt_page_name(page, compared->name));
    if (compared->note)
        spt_page_say(page, SPT_BODY, "", "%s", spt_page_name(page, compared->note));
    for (int i = 0; i < assessment->bearing_count; i++) {
        if (assessment->bearing_count > 1)
            spt_page_say(page, SPT_BODY, "", "%s:",
                         spt_page_name(page, assessment->bearings[i].bearing_case->bearing.name));
        spt_page_loss(page, &assessment->bearings[i], false);
    }
    spt_page_close(page);
}

static bool applies_somewhere(const struct spt_compared *cases, int count, int cause)
{
    for (int i = 0; i < count; i++)
        for (int b = 0; b < cases[i].assessment.bearing_count; b++)
            if (cases[i].assessment.bearings[b].loss.causes[cause].applies)
                return true;
    return false;
}

static void say_cures(struct spt_page *page, const struct spt_compared *cases, int count)
{
    spt_page_open(page, "What put right means");
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        if (applies_somewhere(cases, count, i))
            spt_page_say(page, SPT_BODY, "- ", "%s: %s", spt_cause_name((enum spt_cause)i),
                         spt_cure((enum spt_cause)i));
    spt_page_close(page);
}

static void keep_contacts(struct spt_page *page, const struct spt_compared *cases, int count)
{
    for (int i = 0; i < count; i++)
        if (cases[i].assessment.hub)
            spt_page_contacts(page, spt_page_words(page, "contacts %d", i), cases[i].assessment.hub,
                              false);
}

void spt_compare_page(struct spt_page *page, const struct spt_compared *cases, int count,
                      bool explain)
{
    spt_page_open(page, "Cases, each under its plan");
    spt_compare_table(page, cases, count);
    judge_others(page, cases, count);
    say_targets(page, cases, count);
    say_legend(page, cases, count);
    spt_page_close(page);
    spt_compare_limits(page, cases, count);
    spt_compare_bars(page, cases, count);
    show_greasing(page, cases, count);
    show_bands(page, cases, count);
    for (int i = 0; i < count; i++)
        show_case(page, &cases[i]);
    say_cures(page, cases, count);
    spt_compare_flags(page, cases, count, explain ? ~SPT_EFFECTS_ASSUMED : SPT_EFFECTS_ALL);
    keep_contacts(page, cases, count);
    for (int i = 0; explain && i < count; i++) {
        spt_page_open(page, "%s", spt_page_name(page, cases[i].name));
        spt_page_inputs(page, &cases[i].assessment);
        spt_page_assumptions(page, &cases[i].assessment);
        spt_explain_assessment_page(page, &cases[i].assessment);
        spt_page_close(page);
    }
}
