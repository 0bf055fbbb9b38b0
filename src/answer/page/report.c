/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/page/report.h"

#include <math.h>
#include <string.h>

#include "answer/compare/compare.h"
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "answer/life/setting.h"
#include "answer/page/front.h"
#include "answer/page/other_steps.h"
#include "answer/service/timeline.h"
#include "answer/service/verdict.h"
#include "chart/figure.h"
#include "sentence/findings.h"
#include "spalltime/version.h"

#define SOURCES_MAX 64

/* The cases as `compare` has them. NULL: out of memory. */
static struct spt_compared *gather_cases(struct spt_page *page, const struct spt_report *report)
{
    struct spt_compared *cases =
        spt_page_allocate(page, (size_t)report->case_count * sizeof *cases);
    for (int i = 0; cases && i < report->case_count; i++) {
        cases[i].name = spt_report_case_name(&report->cases[i]);
        cases[i].note = report->cases[i].note;
        cases[i].assessment = *report->cases[i].assessment;
        cases[i].plan = report->cases[i].judgement;
        spt_assessment_notes(&cases[i].assessment, &cases[i].notes);
    }
    return cases;
}

static void show_variants(struct spt_page *page, const struct spt_report *report)
{
    struct spt_compared *cases = report->case_count > 1 ? gather_cases(page, report) : NULL;
    if (!cases)
        return;
    spt_page_open(page, "Scenario and variants");
    spt_compare_table(page, cases, report->case_count);
    spt_figures_page(page, report, SPT_CHART_OF_CASES, 0, 0);
    spt_page_close(page);
}

/* A variant has the steps that differ from those of the scenario as written alone. */
static void show_working(struct spt_page *page, const struct spt_report *report, int index)
{
    const struct spt_assessment *assessment = report->cases[index].assessment;
    spt_page_open_as(page, SPT_SECTION_FOLDED,
                     index ? "Steps that differ from the scenario as written"
                           : "Every step: formula, numbers, result, source");
    if (index)
        spt_other_steps_page(page, report->cases[0].assessment, assessment);
    else
        spt_explain_assessment_steps(page, assessment);
    spt_page_close(page);
}

/* What is of the scenario as written alone. */
static void show_base(struct spt_page *page, const struct spt_report *report,
                      const struct spt_schedule_report *plan)
{
    if (report->life) {
        spt_page_open(page, "Service life, with the drifts and events of `service`");
        spt_timeline_page(page, report->life, false);
        spt_page_close(page);
    }
    if (plan) {
        spt_page_open(page, "Service plan");
        if (plan->schedule)
            spt_schedule_plan_page(page, plan);
        else
            spt_page_say(page, SPT_BODY, "",
                         "No plan: nothing says how dirty the grease is (`cleanliness`, "
                         "`contamination_factor`, `dust`, or `seal` and `surroundings`).");
        spt_page_close(page);
    }
    if (report->setting) {
        spt_page_open(page, "Setting of the hub");
        spt_setting_page(page, report->cases[0].assessment->question, report->setting);
        spt_page_close(page);
    }
}

static void show_case(struct spt_page *page, const struct spt_report *report, int index,
                      const struct spt_schedule_report *plan)
{
    const struct spt_report_case *part = &report->cases[index];
    spt_page_open_as(page, SPT_SECTION_CHOICE, index ? "Variant: %s" : "The scenario as written",
                     index ? spt_page_name(page, part->name) : "");
    if (index && part->note)
        spt_page_say(page, SPT_BODY, "", "%s", spt_page_name(page, part->note));
    spt_life_page(page, report, index, false);
    if (!index)
        show_base(page, report, plan);
    else
        spt_figures_page(page, report, SPT_CHART_OF_CASE, index, 0);
    show_working(page, report, index);
    spt_page_close(page);
}

struct sources {
    struct spt_page *page;
    int count;
    const char *seen[SOURCES_MAX]; /* the texts of the steps are constants of the program */
};

static void skip_place(void *context, const char *bearing, const char *phase)
{
    (void)context;
    (void)bearing;
    (void)phase;
}

static void list_source(void *context, const struct spt_step *step)
{
    struct sources *sources = context;
    for (int i = 0; i < sources->count; i++)
        if (!strcmp(sources->seen[i], step->source))
            return;
    if (sources->count < SOURCES_MAX)
        sources->seen[sources->count++] = step->source;
    spt_page_say(sources->page, SPT_BODY, "- ", "%s", step->source);
}

static void list_sources(struct spt_page *page, const struct spt_report *report)
{
    struct sources sources = {page, 0, {0}};
    const struct spt_step_sink sink = {skip_place, list_source, &sources};
    spt_page_open(page, "Sources");
    for (int i = 0; i < report->case_count; i++)
        spt_explain_assessment(report->cases[i].assessment, &sink);
    spt_page_say(page, SPT_BODY, "", "Worked out by spalltime %s.", SPT_VERSION);
    spt_page_close(page);
}

void spt_report_page(struct spt_page *page, const struct spt_report *report,
                     const struct spt_schedule_report *plan)
{
    spt_front_page(page, report, plan);
    if (report->cases[0].note)
        spt_page_say(page, SPT_NOTE, "", "%s", spt_page_name(page, report->cases[0].note));
    if (report->judged) {
        spt_verdict_page(page, &report->judged->judgement);
        spt_stairs_page(page, &report->judged->judgement);
    }
    show_variants(page, report);
    for (int i = 0; i < report->case_count; i++)
        show_case(page, report, i, plan);
    list_sources(page, report);
}
