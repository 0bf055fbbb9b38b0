/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/message.h"
#include "cli/service.h"
#include "cli/spread.h"
#include "report/timeline.h"
#include "spalltime/adjust.h"

static void write_json(struct spt_json *json, const struct spt_options *options, const void *answer)
{
    const struct spt_service_life *life = answer;
    spt_timeline_json(json, life);
    if (options->explain)
        spt_timeline_explain_json(json, &life->timeline);
}

static void write_csv(FILE *out, const void *answer)
{
    const struct spt_service_life *life = answer;
    spt_timeline_csv(out, &life->curve);
}

static void write_text(const struct spt_text *text, const struct spt_options *options,
                       const void *answer)
{
    const struct spt_service_life *life = answer;
    spt_timeline_text(text, life, options->quiet);
    if (options->explain)
        spt_timeline_explain_text(text, &life->timeline);
}

static bool misses_target(const struct spt_service_life *life)
{
    const struct spt_timeline *timeline = &life->timeline;
    double lasted_h = isinf(timeline->life_h) ? timeline->until_h : timeline->life_h;
    return !isnan(life->question.target_life_h) && !(lasted_h >= life->question.target_life_h);
}

/* The life that the service starts from, with its band. */
static int find_band(const struct spt_options *options, struct spt_input *input,
                     struct spt_service_life *life)
{
    struct spt_timeline_room room;
    if (!input->scenario.has_uncertainty)
        return SPT_EXIT_DONE;
    enum spt_status status = spt_cli_service_room(life, &input->arena, &room)
                                 ? spt_case_life(&life->question, room.results, &life->stated_h)
                                 : SPT_NO_MEMORY;
    if (!status)
        return spt_cli_band(options, "timeline", input, &life->question, 1, &life->spread);
    fprintf(spt_messages(), "spalltime timeline: %s\n", spt_status_text(status));
    return SPT_EXIT_SYSTEM;
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {write_text, write_json, write_csv, NULL};
    struct spt_service_life *life;
    if (!input->scenario.has_service) {
        spt_input_lacks(&input->scenario, "the scenario lacks `service`; add it with `regrease`, "
                                          "`events` or `drifts` (see `spalltime schema`)");
        return SPT_EXIT_BAD_INPUT;
    }
    life = spt_arena_take(&input->arena, sizeof *life);
    if (!life) {
        fputs("spalltime timeline: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    *life = (struct spt_service_life){.stated_h = (double)NAN};
    int status = spt_cli_follow(&input->scenario, &input->arena, life);
    if (!status)
        status = find_band(options, input, life);
    if (status)
        return status;
    return spt_cli_answer(options, &forms, life,
                          misses_target(life) ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

int spt_command_timeline(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
