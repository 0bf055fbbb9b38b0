/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/command/report_data.h"

#include <stdio.h>
#include <string.h>

#include "cli/answer.h"
#include "cli/spread.h"
#include "cli/verdict.h"

/* A report that is being computed. */
struct work {
    const struct spt_options *options;
    const struct spt_chart *chart; /* NULL: the whole report */
    int picked;
    struct spt_input *input;
    struct spt_report *report;
    struct spt_schedule_report *plan;
};

static bool needs(const struct work *work, const char *chart)
{
    return !work->chart || !strcmp(work->chart->name, chart);
}

static void *allocate(struct work *work, size_t size)
{
    void *memory = spt_arena_allocate(&work->input->arena, size);
    if (!memory)
        spt_say(work->options->call, "spalltime: out of memory\n");
    return memory;
}

/* Exit status after a part of the report failed and its message was printed: the part is left out,
 * and only a failure of the system ends the report. */
static int leave_out(int status)
{
    return status == SPT_EXIT_SYSTEM ? status : SPT_EXIT_DONE;
}

static const struct spt_variant *find_variant(const struct work *work, int index)
{
    const struct spt_scenario *scenario = &work->input->scenario;
    return index ? &scenario->variants[index - 1] : &scenario->base;
}

/* The plan of the scenario as written as `schedule` answers it. */
static void keep_plan(struct work *work, const struct spt_maintenance *plan,
                      const struct spt_report_case *part)
{
    const struct spt_scenario *scenario = &work->input->scenario;
    struct spt_schedule_report *report = work->plan;
    *report = (struct spt_schedule_report){.assessment = part->assessment,
                                           .floor = SPT_WEIBULL_FLOOR,
                                           .currency = scenario->currency,
                                           .limits = &scenario->limits,
                                           .survival = part->survival};
    spt_schedule_report_take(report, plan);
}

/* The plan of a case with its band, which is that of the life too. Service and uncertainty are of
 * the scenario as written alone. */
static int fill_plan(struct work *work, int index, struct spt_assessment *assessment,
                     struct spt_report_case *part)
{
    const struct spt_scenario *scenario = &work->input->scenario;
    struct spt_arena *arena = &work->input->arena;
    struct spt_maintenance *plan = allocate(work, sizeof *plan);
    struct spt_survival_curve *curve = allocate(work, sizeof *curve);
    if (!plan || !curve)
        return SPT_EXIT_SYSTEM;
    struct spt_plan_inputs asked = spt_scenario_plan(scenario, SPT_WEIBULL_FLOOR);
    struct spt_uncertainty uncertainty;
    struct spt_error error;
    int bearing, phase;
    if (spt_case_lacks_dirt(&find_variant(work, index)->question, &bearing, &phase))
        return SPT_EXIT_DONE; /* the page says why it has no plan */
    if (index) {
        asked.question = &find_variant(work, index)->question;
        asked.service = NULL;
    } else if (spt_cli_band_inputs(work->options, scenario, asked.question, 1, &uncertainty)) {
        asked.uncertainty = &uncertainty;
    }
    if (spt_ask_schedule(&asked, arena, plan, &error))
        return spt_cli_fail(work->options->call, "report", &error);
    assessment->spread = plan->spread;
    part->plan = &plan->schedule;
    /* without a life, or without any damage, there is no curve and the chart does not apply */
    if (!spt_survival_curve(&plan->schedule, plan->spread, curve))
        part->survival = curve;
    if (!index)
        keep_plan(work, plan, part);
    return SPT_EXIT_DONE;
}

static int fill_zones(struct work *work, const struct spt_case *question,
                      struct spt_report_case *part)
{
    struct spt_error error;
    struct spt_load_zones *zones = allocate(work, sizeof *zones);
    double *buffer =
        zones ? allocate(work, spt_load_zones_length(question->hub) * sizeof *buffer) : NULL;
    if (!buffer)
        return SPT_EXIT_SYSTEM;
    struct spt_settled *settled = spt_ask_settled(question, false, &work->input->arena, &error);
    if (!settled)
        return leave_out(spt_cli_fail(work->options->call, "report", &error));
    if (!spt_load_zones(&settled->bench, part->assessment, buffer, zones))
        part->zones = zones;
    return SPT_EXIT_DONE;
}

static void fill_films(const struct spt_variant *variant, struct spt_report_case *part)
{
    for (int i = 0; i < part->assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &part->assessment->bearings[i];
        /* where no film can be drawn there is no curve, and the chart does not apply */
        (void)spt_film_curves_of(&variant->question, bearing, &part->film[i]);
        spt_contours(bearing->bearing_case->bearing.type, &part->contours[i]);
    }
}

/* The life under the plan, by which the cases are compared. */
static int fill_judgement(struct work *work, const struct spt_variant *variant,
                          struct spt_report_case *part)
{
    const struct spt_judged *judged;
    const struct spt_plan_inputs asked =
        spt_variant_plan(&work->input->scenario, variant, SPT_WEIBULL_FLOOR);
    int status =
        spt_cli_verdict(work->options, "report", work->input, &asked, part->assessment, &judged);
    if (!status)
        part->judgement = &judged->judgement;
    return status;
}

/* Computes one case with the numbers that its charts need. */
static int fill_case(struct work *work, int index, struct spt_report_case *part)
{
    const struct spt_variant *variant = find_variant(work, index);
    struct spt_assessment *assessment = allocate(work, sizeof *assessment);
    if (!assessment)
        return SPT_EXIT_SYSTEM;
    struct spt_error error;
    if (spt_ask_life(&variant->question, &work->input->arena, assessment, &error))
        return spt_cli_fail(work->options->call, "report", &error);
    int status = SPT_EXIT_DONE;
    part->name = variant->name;
    part->note = variant->note;
    part->assessment = assessment;
    fill_films(variant, part);
    if (work->input->scenario.variant_count && needs(work, "variants"))
        status = fill_judgement(work, variant, part);
    if (!status && needs(work, "survival"))
        status = fill_plan(work, index, assessment, part);
    if (!status && variant->question.hub && needs(work, "zones"))
        status = fill_zones(work, &variant->question, part);
    return status;
}

/* The verdict is on the case of a chart, else on the scenario as written. */
static int judge(struct work *work)
{
    const struct spt_scenario *scenario = &work->input->scenario;
    struct spt_plan_inputs asked = spt_scenario_plan(scenario, SPT_WEIBULL_FLOOR);
    asked.question = &find_variant(work, work->picked)->question;
    if (work->picked)
        asked.service = NULL;
    int status =
        spt_cli_verdict(work->options, "report", work->input, &asked,
                        work->report->cases[work->picked].assessment, &work->report->judged);
    if (!status)
        work->plan->judgement = &work->report->judged->judgement;
    return status;
}

static int fill_life(struct work *work)
{
    struct spt_service_life *life = allocate(work, sizeof *life);
    if (!life)
        return SPT_EXIT_SYSTEM;
    const struct spt_scenario *scenario = &work->input->scenario;
    struct spt_error error;
    const struct spt_service service =
        spt_schedule_service(&work->report->judged->plan, &scenario->service);
    if (!spt_ask_timeline(&scenario->base.question, &service, &work->input->arena, life, &error)) {
        life->plan = &work->report->judged->plan;
        work->report->life = life;
        return SPT_EXIT_DONE;
    }
    int status = spt_cli_fail(work->options->call, "timeline", &error);
    return error.status == SPT_NOT_CONVERGED ? SPT_EXIT_DONE : leave_out(status);
}

static int fill_setting(struct work *work)
{
    struct spt_error error;
    struct spt_hub_curve *curve = allocate(work, sizeof *curve);
    if (!curve)
        return SPT_EXIT_SYSTEM;
    if (spt_ask_setting(&find_variant(work, work->picked)->question, &work->input->arena, curve,
                        &error))
        return leave_out(spt_cli_fail(work->options->call, "report", &error));
    work->report->setting = curve;
    return SPT_EXIT_DONE;
}

int spt_cli_report_data(const struct spt_options *options, const struct spt_chart *chart,
                        int picked, struct spt_input *input, struct spt_report *report,
                        struct spt_schedule_report *plan)
{
    struct work work = {options, chart, picked, input, report, plan};
    const struct spt_case *question = &find_variant(&work, picked)->question;
    int count = 1 + input->scenario.variant_count, status = SPT_EXIT_DONE;
    bool all = !chart || chart->scope == SPT_CHART_OF_CASES;
    struct spt_report_case *cases = allocate(&work, (size_t)count * sizeof *cases);
    if (!cases)
        return SPT_EXIT_SYSTEM;
    *plan = (struct spt_schedule_report){0};
    *report = (struct spt_report){
        .title = input->scenario.base.question.title, .case_count = count, .cases = cases};
    for (int i = 0; i < count && !status; i++)
        if (all || i == picked)
            status = fill_case(&work, i, &cases[i]);
    if (!status)
        status = judge(&work);
    if (!status && input->scenario.has_service && needs(&work, "timeline"))
        status = fill_life(&work);
    if (!status && question->hub && needs(&work, "setting"))
        status = fill_setting(&work);
    return status;
}
