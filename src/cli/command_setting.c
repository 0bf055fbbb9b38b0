/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cli/command.h"
#include "cli/hub.h"
#include "cli/input.h"
#include "cli/message.h"
#include "cli/output.h"
#include "report/life.h"
#include "report/setting.h"
#include "scenario/units.h"

#define LIMIT_MM 1.0 /* as in the section `hub` */

/* A length between `start` and `end`; NaN where it is none within the limit. */
static double read_length(const char *start, const char *end)
{
    char word[32];
    double value_mm = (double)NAN;
    start += strspn(start, " ");
    while (end > start && end[-1] == ' ')
        end--;
    if ((size_t)(end - start) >= sizeof word)
        return (double)NAN;
    memcpy(word, start, (size_t)(end - start));
    word[end - start] = 0;
    if (spt_quantity_read(word, SPT_LENGTH, &value_mm) != SPT_QUANTITY_FINE ||
        fabs(value_mm) > LIMIT_MM)
        return (double)NAN;
    return value_mm;
}

/* "-0.15 mm..0.5 mm" over the range of the scenario; false with a message. */
static bool read_range(const char *range, struct spt_hub_case *hub)
{
    const char *dots = range ? strstr(range, "..") : NULL;
    if (!range)
        return true;
    if (dots) {
        hub->lowest_mm = read_length(range, dots);
        hub->highest_mm = read_length(dots + 2, dots + strlen(dots));
    }
    if (dots && hub->lowest_mm < hub->highest_mm)
        return true;
    fprintf(spt_messages(),
            "spalltime setting: write --range as two lengths within 1 mm of no play, preload below "
            "0, such as \"-0.15 mm..0.5 mm\"\n");
    return false;
}

static int answer(const struct spt_options *options, const struct spt_case *question,
                  const struct spt_hub_curve *curve)
{
    struct spt_output output;
    if (!spt_output_open(&output))
        return SPT_EXIT_SYSTEM;
    struct spt_text text = spt_output_text(&output, options);
    if (options->format == SPT_FORMAT_JSON) {
        struct spt_json json = spt_json_begin(output.stream);
        spt_json_open(&json, NULL, '{');
        spt_json_tool(&json);
        spt_setting_json(&json, question, curve);
        spt_json_close(&json, '}');
    } else if (options->format == SPT_FORMAT_CSV) {
        spt_setting_csv(output.stream, curve);
    } else {
        spt_setting_text(&text, question, curve);
        if (!options->quiet)
            spt_text_cautions(&text);
    }
    return spt_output_close(&output, options, SPT_EXIT_DONE);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    struct spt_case question = input->scenario.base.question, settled;
    struct spt_hub_bench bench;
    struct spt_hub_curve *curve = spt_arena_take(&input->arena, sizeof *curve);
    struct spt_hub_case hub = *question.hub;
    if (!curve) {
        fputs("spalltime setting: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    question.hub = &hub;
    if (!read_range(options->range, &hub))
        return SPT_EXIT_USAGE;
    int status = spt_cli_settle(&question, &input->arena, false, &bench, &settled);
    if (!status)
        status = spt_cli_hub_curve(&bench, &settled, &input->arena, curve);
    return status ? status : answer(options, &question, curve);
}

int spt_command_setting(const struct spt_options *options)
{
    struct spt_input input;
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status && !input.scenario.base.question.hub) {
        fputs("spalltime setting: the scenario has no `hub`; only two rows that are set against "
              "each other have a setting (see `spalltime schema`)\n",
              spt_messages());
        status = SPT_EXIT_BAD_INPUT;
    }
    if (!status)
        status = work(options, &input);
    spt_input_free(&input);
    return status;
}
