/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "cli/command.h"
#include "cli/hub.h"
#include "cli/input.h"
#include "cli/message.h"
#include "cli/output.h"
#include "report/life.h"
#include "report/timeline.h"
#include "spalltime/adjust.h"

#define CURVE_POINTS 201

static int answer(const struct spt_options *options, const struct spt_case *question,
                  const struct spt_timeline *timeline, const struct spt_damage_curve *curve)
{
    struct spt_output output;
    if (!spt_output_open(&output))
        return SPT_EXIT_SYSTEM;
    struct spt_text text = spt_output_text(&output, options);
    if (options->format == SPT_FORMAT_JSON) {
        struct spt_json json = spt_json_begin(output.stream);
        spt_json_open(&json, NULL, '{');
        spt_json_tool(&json);
        spt_timeline_json(&json, question, timeline, curve);
        if (options->explain)
            spt_timeline_explain_json(&json, timeline);
        spt_json_close(&json, '}');
    } else if (options->format == SPT_FORMAT_CSV) {
        spt_timeline_csv(output.stream, curve);
    } else {
        spt_timeline_text(&text, question, timeline);
        if (options->explain)
            spt_timeline_explain_text(&text, timeline);
        if (!options->quiet)
            spt_text_cautions(&text);
    }
    double lasted_h = isinf(timeline->life_h) ? timeline->until_h : timeline->life_h;
    bool missed = !isnan(question->target_life_h) && !(lasted_h >= question->target_life_h);
    return spt_output_close(&output, options, missed ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

/* Where the curve ends: at the end of the life, where the film goes, or at the horizon. */
static double end_of(const struct spt_timeline *timeline)
{
    if (isnan(timeline->life_h))
        return timeline->stopped_h;
    return isinf(timeline->life_h) ? timeline->until_h : timeline->life_h;
}

static enum spt_status draw(const struct spt_scenario *scenario,
                            const struct spt_timeline_room *room,
                            const struct spt_timeline *timeline, double *times_h, double *damage)
{
    double end_h = end_of(timeline);
    for (int i = 0; i < CURVE_POINTS; i++)
        times_h[i] = end_h * i / (CURVE_POINTS - 1);
    return spt_timeline_curve(&scenario->base.question, &scenario->service, room, times_h,
                              CURVE_POINTS, damage);
}

/* Setting factors into the case and into those after each event; without a hub they are copied. */
static int settle(struct spt_scenario *scenario, struct spt_arena *arena)
{
    struct spt_service *service = &scenario->service;
    struct spt_case *question = &scenario->base.question;
    struct spt_hub_bench bench;
    if (!question->hub)
        return SPT_EXIT_DONE;
    int count = service->event_count * (service->event_count + 1);
    struct spt_case unsettled = *question;
    struct spt_case *cases = spt_arena_take(arena, (size_t)(count + 1) * sizeof *cases);
    if (!cases) {
        fputs("spalltime timeline: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    int status = spt_cli_settle(&unsettled, arena, false, &bench, question);
    for (int i = 0; i < count && !status; i++)
        status = spt_cli_settle(&service->cases[i], arena, false, &bench, &cases[i]);
    service->cases = count ? cases : NULL;
    return status;
}

/* An event may bring a longer duty: the most phases of any case. */
static size_t count_phases(const struct spt_scenario *scenario)
{
    const struct spt_service *service = &scenario->service;
    int most = spt_case_phase_count(&scenario->base.question);
    for (int i = 0; i < service->event_count * (service->event_count + 1); i++)
        if (spt_case_phase_count(&service->cases[i]) > most)
            most = spt_case_phase_count(&service->cases[i]);
    return (size_t)most;
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    const struct spt_scenario *scenario = &input->scenario;
    size_t count = count_phases(scenario);
    struct spt_timeline timeline;
    double times_h[CURVE_POINTS], damage[CURVE_POINTS];
    struct spt_timeline_room room = {
        spt_arena_take(&input->arena, count * sizeof *room.phases),
        spt_arena_take(&input->arena, count * sizeof *room.results),
    };
    enum spt_status status = SPT_NO_MEMORY;
    if (room.phases && room.results)
        status = spt_timeline(&scenario->base.question, &scenario->service, &room, &timeline);
    if (!status)
        status = draw(scenario, &room, &timeline, times_h, damage);
    if (status) {
        fprintf(spt_messages(), "spalltime timeline: %s%s\n", spt_status_text(status),
                status == SPT_NOT_CONVERGED
                    ? "; with a very short `regrease` or `oil_change` there "
                      "are too many periods: look at a longer one"
                    : "");
        return SPT_EXIT_SYSTEM;
    }
    const struct spt_damage_curve curve = {CURVE_POINTS, times_h, damage};
    return answer(options, &scenario->base.question, &timeline, &curve);
}

int spt_command_timeline(const struct spt_options *options)
{
    struct spt_input input;
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status && !input.scenario.has_service) {
        fputs("spalltime timeline: the scenario has no section `service`; add one with `regrease`, "
              "`events` or `drifts` (see `spalltime schema`)\n",
              spt_messages());
        status = SPT_EXIT_BAD_INPUT;
    }
    if (!status)
        status = settle(&input.scenario, &input.arena);
    if (!status)
        status = work(options, &input);
    spt_input_free(&input);
    return status;
}
