/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

#include "answer/field/fit.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "file/file.h"
#include "scenario/field_data.h"
#include "scenario/text/units.h"

#define USUAL_CONFIDENCE 0.90
#define SAME_LIFE 1e-9 /* lives with a smaller relative difference count as equal */

/* Inputs and results of the command. */
struct work {
    const struct spt_options *options;
    struct spt_field_data data;
    struct spt_input against, variants;
    struct spt_arena arena;
    struct spt_fit_report report;
    struct spt_hypothesis *hypotheses;
    struct spt_life_law *laws;
};

static int out_of_memory(struct spt_call *call)
{
    spt_say(call, "spalltime: out of memory\n");
    return SPT_EXIT_SYSTEM;
}

static int read_field_data(struct work *w, const char *path)
{
    struct spt_diagnostics diags = {0};
    bool standard_input = !strcmp(path, "-");
    errno = 0;
    FILE *in = spt_file_open(w->options->call, path);
    if (!in) {
        spt_say(w->options->call, "spalltime: cannot read %s: %s\n", path, strerror(errno));
        return SPT_EXIT_SYSTEM;
    }
    bool fine = spt_field_data_read(in, standard_input ? "standard input" : path, &w->data, &diags);
    int error = ferror(in) ? errno : 0;
    spt_file_close(in);
    if (error) {
        spt_say(w->options->call, "spalltime: cannot read %s: %s\n", path, strerror(error));
        return SPT_EXIT_SYSTEM;
    }
    spt_diagnostics_print(&diags, spt_call_messages(w->options->call));
    if (fine)
        return SPT_EXIT_DONE;
    return diags.out_of_memory ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
}

static bool is_standard_input(const char *path)
{
    return path && !strcmp(path, "-");
}

static int check_inputs(const struct spt_options *options)
{
    int count = is_standard_input(options->arguments[0]) + is_standard_input(options->against) +
                is_standard_input(options->variants);
    if (count < 2)
        return SPT_EXIT_DONE;
    spt_say(options->call, "spalltime fit: only one of the files can be standard input\n");
    return SPT_EXIT_USAGE;
}

static int read_numbers(const struct spt_options *options, struct spt_fit_inputs *inputs)
{
    double percent = 100 * USUAL_CONFIDENCE;
    inputs->assumed_slope = SPT_WEIBULL_SLOPE;
    if (options->confidence && (spt_quantity_read(options->confidence, SPT_RELIABILITY, &percent) ||
                                !(percent >= 50 && percent <= 99.9))) {
        spt_say(options->call,
                "spalltime fit: write --confidence as a share from 50%% to 99.9%%, such as 90%%\n");
        return SPT_EXIT_USAGE;
    }
    if (options->slope &&
        (spt_quantity_read(options->slope, SPT_NO_DIMENSION, &inputs->assumed_slope) ||
         !(inputs->assumed_slope >= 0.2 && inputs->assumed_slope <= 20))) {
        spt_say(options->call,
                "spalltime fit: write --slope as a number from 0.2 to 20, such as 1.5\n");
        return SPT_EXIT_USAGE;
    }
    inputs->confidence = percent / 100;
    return SPT_EXIT_DONE;
}

/* L10 of a case, which is settled for 90 %, in the unit of the data; NaN where it states none. */
static int find_l10(struct work *w, const struct spt_case *question, struct spt_case *settled,
                    double *l10)
{
    struct spt_case at_90 = *question;
    struct spt_error error;
    at_90.reliability_percent = 90;
    w->report.hubs = w->report.hubs || question->hub;
    const struct spt_settled *found = spt_ask_settled(&at_90, false, &w->arena, &error);
    if (!found || spt_ask_life_h(&found->question, &w->arena, l10, &error)) {
        if (!error.place)
            error.place = question->title;
        return spt_cli_fail(w->options->call, "fit", &error);
    }
    *settled = found->question;
    if (!isfinite(*l10))
        *l10 = (double)NAN;
    if (w->data.dimension == SPT_DURATION)
        return SPT_EXIT_DONE;
    if (!(question->road_speed_km_h > 0)) {
        spt_say(w->options->call,
                "spalltime fit: the field data are distances, but \"%s\" does not say how far an "
                "hour goes; add `usage: {distance_per_hour: 35 km/h}` or `rolling_radius` to it\n",
                question->title);
        return SPT_EXIT_BAD_INPUT;
    }
    *l10 *= question->road_speed_km_h;
    return SPT_EXIT_DONE;
}

/* The band of the rated L10, in the unit of the data. */
static int find_band(struct work *w, const struct spt_case *settled)
{
    const struct spt_uncertainty_result *spread;
    double unit = w->data.dimension == SPT_DURATION ? 1 : settled->road_speed_km_h;
    int status = spt_cli_band(w->options, "fit", &w->against, settled, 1, &spread);
    if (status || !spread)
        return status;
    w->report.band_samples = spread->samples;
    w->report.band = (struct spt_interval){unit * spread->system.p5_h, unit * spread->system.p95_h};
    return SPT_EXIT_DONE;
}

static int read_against(struct work *w)
{
    w->report.inputs.estimated_l10 = (double)NAN;
    if (!w->options->against)
        return SPT_EXIT_DONE;
    struct spt_case settled = {0};
    const struct spt_case *question = &w->against.scenario.base.question;
    int status = spt_input_read(w->options, w->options->against, &w->against);
    if (status)
        return status;
    w->report.against = question->title;
    w->report.used = question->past.stated;
    w->report.serviced = w->against.scenario.has_service;
    status = find_l10(w, question, &settled, &w->report.inputs.estimated_l10);
    return status ? status : find_band(w, &settled);
}

/* Finds a candidate among the first `count` with this L10, because the same law must not count
 * twice. Result: its name; NULL: none. */
static const char *find_same(const struct spt_hypothesis *hypotheses, int count, double l10)
{
    for (int i = 0; i < count; i++)
        if (fabs(hypotheses[i].l10 / l10 - 1) < SAME_LIFE)
            return hypotheses[i].name;
    return NULL;
}

/* Sorts the candidates with a life first, with one law for each life. */
static int read_variants(struct work *w)
{
    if (!w->options->variants)
        return SPT_EXIT_DONE;
    int status = spt_input_read(w->options, w->options->variants, &w->variants);
    if (status)
        return status;
    const struct spt_scenario *scenario = &w->variants.scenario;
    int total = 1 + scenario->variant_count, first = 0, last = total;
    w->hypotheses = spt_arena_allocate(&w->arena, (size_t)total * sizeof *w->hypotheses);
    w->laws = spt_arena_allocate(&w->arena, (size_t)total * sizeof *w->laws);
    if (!w->hypotheses || !w->laws)
        return out_of_memory(w->options->call);
    for (int i = 0; i < total; i++) {
        struct spt_case settled = {0};
        const struct spt_variant *variant = i ? &scenario->variants[i - 1] : &scenario->base;
        struct spt_hypothesis found = {.name =
                                           variant->name ? variant->name : variant->question.title};
        found.candidate = (struct spt_fit_candidate){(double)NAN, (double)NAN};
        status = find_l10(w, &variant->question, &settled, &found.l10);
        if (status)
            return status;
        found.same_as = find_same(w->hypotheses, first, found.l10);
        bool weighed = isfinite(found.l10) && !found.same_as;
        if (weighed)
            w->laws[first] = spt_survival_iso_law(found.l10);
        w->hypotheses[weighed ? first++ : --last] = found;
    }
    w->report.inputs.candidate_count = first;
    w->report.inputs.candidates = w->laws;
    w->report.hypothesis_count = total;
    w->report.hypotheses = w->hypotheses;
    return SPT_EXIT_DONE;
}

/* Order of falling likelihood; candidates without a likelihood (no life can be stated) last. */
static int compare_hypotheses(const void *left, const void *right)
{
    const struct spt_hypothesis *a = left, *b = right;
    double one = isnan(a->candidate.log_likelihood) ? 1 : -a->candidate.log_likelihood;
    double two = isnan(b->candidate.log_likelihood) ? 1 : -b->candidate.log_likelihood;
    bool no_one = isnan(a->candidate.log_likelihood), no_two = isnan(b->candidate.log_likelihood);
    if (no_one != no_two)
        return no_one ? 1 : -1;
    return (one > two) - (one < two);
}

/* Index of the mode of --mode; -1: all modes. */
static int find_mode(const struct work *w, int *mode)
{
    const struct spt_field_data *data = &w->data;
    *mode = -1;
    if (!w->options->mode)
        return SPT_EXIT_DONE;
    for (int i = 0; i < data->mode_count; i++)
        if (!strcasecmp(w->options->mode, data->mode_names[i]))
            *mode = i;
    if (*mode >= 0)
        return SPT_EXIT_DONE;
    spt_say(w->options->call, "spalltime fit: no bearing in %s failed by \"%s\"", data->source.name,
            w->options->mode);
    if (!data->mode_count)
        spt_say(w->options->call, "; it has no column `mode` with a failure in it");
    for (int i = 0; i < data->mode_count; i++)
        spt_say(w->options->call, "%s%s", i ? ", " : "; its modes are: ", data->mode_names[i]);
    spt_say(w->options->call, "\n");
    return SPT_EXIT_USAGE;
}

static int fail_fit(const struct work *w, const struct spt_error *error)
{
    if (error->status == SPT_NO_MEMORY)
        return out_of_memory(w->options->call);
    spt_say(w->options->call,
            "spalltime fit: %s: no law can be fitted to these lives (%s); check the shortest and "
            "the longest of them, or assume another slope, such as `--slope 1.5`\n",
            w->data.source.name, error->text);
    return SPT_EXIT_BAD_INPUT;
}

/* The fits of the modes by themselves, with their names. */
static int name_modes(struct work *w, const struct spt_field_answer *found)
{
    w->report.mode_count = w->data.mode_count;
    if (!found->modes)
        return SPT_EXIT_DONE;
    struct spt_fit_mode *modes =
        spt_arena_allocate(&w->arena, (size_t)w->data.mode_count * sizeof *modes);
    if (!modes)
        return out_of_memory(w->options->call);
    for (int i = 0; i < w->data.mode_count; i++)
        modes[i] = (struct spt_fit_mode){w->data.mode_names[i], found->modes[i]};
    w->report.modes = modes;
    return SPT_EXIT_DONE;
}

/* Ranks the scenarios by the likelihood of the field data. */
static void weigh_hypotheses(struct work *w, const struct spt_field_answer *found)
{
    for (int i = 0; i < found->inputs.candidate_count; i++)
        w->hypotheses[i].candidate = found->candidates[i];
    for (int i = 0; i < w->report.hypothesis_count; i++)
        w->hypotheses[i].within = spt_fit_holds(&found->fit, w->hypotheses[i].l10);
    if (w->hypotheses)
        qsort(w->hypotheses, (size_t)w->report.hypothesis_count, sizeof *w->hypotheses,
              compare_hypotheses);
}

static int work_out(struct work *w)
{
    struct spt_field_inputs asked = {
        .inputs = w->report.inputs, .modes = w->data.modes, .mode_count = w->data.mode_count};
    struct spt_field_answer found;
    struct spt_error error;
    int problem = find_mode(w, &asked.mode);
    if (problem)
        return problem;
    asked.inputs.data =
        (struct spt_weibull_data){w->data.rows,   w->data.times,     w->data.counts,
                                  w->data.failed, w->data.last_good, w->data.known_from};
    if (spt_ask_fit(&asked, &w->arena, &found, &error))
        return fail_fit(w, &error);
    w->report.inputs = found.inputs;
    w->report.fit = found.fit;
    w->report.points = found.points;
    w->report.running_count = found.running_count;
    w->report.running = found.running;
    w->report.mode = asked.mode >= 0 ? w->data.mode_names[asked.mode] : NULL;
    w->report.other_modes = found.other_modes;
    if (w->report.band_samples)
        w->report.overlap = spt_fit_against_band(spt_fit_l10_bounds(&found.fit), w->report.band);
    weigh_hypotheses(w, &found);
    return name_modes(w, &found);
}

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    (void)options;
    spt_fit_page(page, answer);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    (void)options;
    spt_fit_json(json, page, answer);
}

static int answer(struct work *w)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    char title[SPT_FIT_TITLE_LENGTH];
    bool worse = w->report.against && w->report.fit.comparison.verdict == SPT_FIT_WORSE;
    return spt_cli_answer(w->options, &forms, &w->arena, spt_fit_title(&w->report, title),
                          &w->report, worse ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

int spt_command_fit(const struct spt_options *options)
{
    struct work w = {.options = options};
    int status = check_inputs(options);
    if (!status)
        status = read_numbers(options, &w.report.inputs);
    if (!status)
        status = read_field_data(&w, options->arguments[0]);
    if (!status)
        status = read_against(&w);
    if (!status)
        status = read_variants(&w);
    w.report.file = w.data.source.name;
    w.report.unit = w.data.dimension == SPT_DURATION ? "h" : "km";
    w.report.rows = w.data.rows;
    if (!status)
        status = work_out(&w);
    if (!status)
        status = answer(&w);
    spt_input_free(&w.against);
    spt_input_free(&w.variants);
    spt_field_data_free(&w.data);
    spt_arena_free(&w.arena);
    return status;
}
