/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>

#include "answer/compare/compare.h"
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "answer/service/reach.h"
#include "answer/service/timeline.h"
#include "fuzz/fuzz.h"
#include "sentence/findings.h"
#include "spalltime/assess.h"
#include "spalltime/reach.h"
#include "support/json_text.h"

#define SMALL_DUTY 3
#define CURVE_POINTS 9

/* A life is a number above 0, or there is none and a note of the phase or of the whole says why. */
static void judge_life(double life_h, int reasons)
{
    fuzz_require((life_h > 0 && isfinite(life_h)) || reasons > 0);
    fuzz_require(!(life_h < 0));
}

static void judge_bearing(const struct spt_bearing_result *bearing)
{
    int reasons = bearing->notes.count;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *phase = &bearing->phases[i];
        judge_life(phase->basic_rating_life_h, phase->notes.count);
        judge_life(phase->modified_rating_life_h, phase->notes.count);
        fuzz_require(isnan(phase->damage_share) ||
                     (phase->damage_share >= 0 && phase->damage_share <= 1 + 1e-12));
        reasons += phase->notes.count;
    }
    judge_life(bearing->basic_rating_life_h, reasons);
    judge_life(bearing->modified_rating_life_h, reasons);
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        fuzz_require(!(bearing->loss.causes[i].log_life_share > 1e-9));
}

static void finish_json(struct spt_json *json, struct fuzz_text *gathered)
{
    spt_json_close(json, '}');
    char *text = fuzz_text_end(gathered);
    fuzz_require(json_skip(text) != NULL);
    free(text);
}

static void render_life(const struct spt_assessment *assessment)
{
    struct fuzz_text gathered;
    fuzz_text_begin(&gathered);
    struct spt_json json = spt_json_begin(gathered.stream);
    spt_json_open(&json, NULL, '{');
    struct spt_arena arena = {0};
    const struct spt_report_case part = {.assessment = assessment};
    const struct spt_report report = {.case_count = 1, .cases = &part};
    struct spt_page *page = spt_page_new(&arena, "a life");
    spt_life_page(page, &report, 0, true);
    spt_life_json(&json, page, assessment);
    spt_explain_json(&json, assessment);
    finish_json(&json, &gathered);
    fuzz_text_begin(&gathered);
    struct spt_text text = {gathered.stream, false, 0};
    struct spt_compared compared[2] = {{.name = "a", .assessment = *assessment},
                                       {.name = "b", .note = "note", .assessment = *assessment}};
    spt_page_text(page, &text, false);
    spt_page_csv(page, gathered.stream);
    fuzz_require(spt_page_html(page, gathered.stream, false));
    for (int i = 0; i < 2; i++)
        spt_assessment_notes(assessment, &compared[i].notes);
    spt_compare_page(page, compared, 2, false);
    spt_page_text(page, &text, false);
    free(fuzz_text_end(&gathered));
    spt_arena_free(&arena);
}

static void judge_reach(const struct spt_case *question, const struct spt_assessment *assessment,
                        const struct spt_timeline_workspace *workspace)
{
    double target_h = isnan(question->target_life_h) ? 20000 : question->target_life_h;
    const struct spt_reach_workspace same = {workspace->phases, workspace->results, NULL};
    struct spt_reach reach;
    struct fuzz_text gathered;
    fuzz_require(spt_reach(question, target_h, &same, &reach) == SPT_OK);
    for (int i = 0; i < SPT_LEVER_COUNT; i++)
        if (reach.levers[i].outcome == SPT_LEVER_REACHES) {
            fuzz_require(isfinite(reach.levers[i].value));
            fuzz_require(reach.levers[i].life_h >= target_h * (1 - 2e-9)); /* as its solver */
        }
    fuzz_text_begin(&gathered);
    struct spt_json json = spt_json_begin(gathered.stream);
    spt_json_open(&json, NULL, '{');
    spt_reach_json(&json, &(struct spt_reached){question, assessment, &reach, -1, NULL, NAN},
                   false);
    finish_json(&json, &gathered);
}

static void judge_timeline(const struct spt_scenario *scenario,
                           const struct spt_timeline_workspace *workspace)
{
    const struct spt_case *question = &scenario->base.question;
    struct spt_service_life life = {.question = *question, .stated_h = (double)NAN};
    struct spt_timeline line;
    struct fuzz_text gathered;
    enum spt_status status = spt_timeline(question, &scenario->service, workspace, &line);
    fuzz_require(status == SPT_OK || status == SPT_NOT_CONVERGED);
    if (status)
        return;
    fuzz_require(line.life_h > 0 || line.stopped_h >= 0);
    double times_h[CURVE_POINTS], damage[CURVE_POINTS];
    for (int i = 0; i < CURVE_POINTS; i++)
        times_h[i] = line.until_h * i / (CURVE_POINTS - 1);
    status =
        spt_timeline_curve(question, &scenario->service, workspace, times_h, CURVE_POINTS, damage);
    fuzz_require(status == SPT_OK || status == SPT_NOT_CONVERGED);
    for (int i = 1; !status && i < CURVE_POINTS; i++)
        fuzz_require(!(damage[i] < damage[i - 1]));
    life.curve = (struct spt_damage_curve){status ? 0 : CURVE_POINTS, times_h, damage};
    life.timeline = line;
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, question->title);
    fuzz_require(page != NULL);
    spt_timeline_page(page, &life, true);
    fuzz_text_begin(&gathered);
    struct spt_json json = spt_json_begin(gathered.stream);
    spt_json_open(&json, NULL, '{');
    spt_timeline_json(&json, page, &life, true);
    finish_json(&json, &gathered);
    spt_arena_free(&arena);
}

static void judge_case(struct spt_scenario *scenario, const struct spt_case *question, bool base)
{
    size_t count = (size_t)spt_case_phase_count(question);
    struct spt_timeline_workspace workspace = {
        spt_arena_allocate(&scenario->arena, count * sizeof *workspace.phases),
        spt_arena_allocate(&scenario->arena, count * sizeof *workspace.results)};
    struct spt_assessment assessment;
    fuzz_require(workspace.phases && workspace.results);
    fuzz_require(spt_assess(question, workspace.results, &assessment) == SPT_OK);
    for (int i = 0; i < assessment.bearing_count; i++)
        judge_bearing(&assessment.bearings[i]);
    render_life(&assessment);
    if (!base || count > SMALL_DUTY)
        return;
    judge_reach(question, &assessment, &workspace);
    if (scenario->has_service)
        judge_timeline(scenario, &workspace);
}

void fuzz_scenario(const char *text, size_t length)
{
    const struct spt_source source = {"input", text, length};
    fuzz_shown = text;
    fuzz_shown_length = length;
    struct spt_scenario scenario;
    struct spt_diagnostics diags = {0};
    if (spt_scenario_load(&source, fuzz_catalog(), &scenario, &diags)) {
        judge_case(&scenario, &scenario.base.question, true);
        for (int i = 0; i < scenario.variant_count && i < SMALL_DUTY; i++)
            judge_case(&scenario, &scenario.variants[i].question, false);
    } else {
        struct fuzz_text gathered;
        fuzz_require(spt_diagnostics_any(&diags));
        fuzz_text_begin(&gathered);
        spt_diagnostics_print(&diags, gathered.stream);
        free(fuzz_text_end(&gathered));
    }
    spt_scenario_free(&scenario);
}
