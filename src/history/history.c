/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "history/history.h"

#include <errno.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "file/file.h"
#include "format/gather.h"
#include "scenario/text/readings.h"
#include "scenario/text/units.h"
#include "spalltime/hub.h"
#include "spalltime/life.h"

#define ROLLER_EXPONENT (10.0 / 3) /* without a scenario */

/* Numbers of bins without --bins; they are reduced if they give too many phases. */
static const int bearing_bins[SPT_HISTORY_AXES] = {8, 1, 3, 2};
static const int hub_bins[SPT_HISTORY_AXES] = {4, 4, 2, 2};
static const int pair_bins[SPT_HISTORY_AXES] = {5, 2, 2, 2}; /* two loads without a scenario */

static int out_of_memory(const struct spt_call *call)
{
    spt_say(call, "spalltime: out of memory\n");
    return SPT_EXIT_SYSTEM;
}

static int report_status(struct spt_call *call, enum spt_status status)
{
    spt_say(call, "spalltime: the history: %s\n", spt_status_text(status));
    return SPT_EXIT_SYSTEM;
}

/* Prints the diagnostics.
 * Result: the exit status for an input that cannot be used. */
static int report(struct spt_call *call, const struct spt_diagnostics *diags)
{
    spt_diagnostics_print(diags, spt_call_messages(call));
    if (diags->out_of_memory)
        return out_of_memory(call);
    return SPT_EXIT_BAD_INPUT;
}

/* The numbers of "8x3x2": load, speed, temperature. */
static bool read_bins(const char *text, int *bins)
{
    static const int axes[] = {SPT_HISTORY_LOAD, SPT_HISTORY_SPEED, SPT_HISTORY_TEMPERATURE};
    for (int i = 0; i < 3; i++) {
        char *end;
        long number = *text >= '0' && *text <= '9' ? strtol(text, &end, 10) : 0;
        if (number < 1 || number > SPT_HISTORY_BINS_MAX || *end != (i < 2 ? 'x' : 0))
            return false;
        bins[axes[i]] = (int)number;
        text = end + 1;
    }
    bins[SPT_HISTORY_SIDE] = bins[SPT_HISTORY_LOAD];
    return true;
}

/* Parses the options: numbers of bins, shortest gap, highest speed that counts as standing. */
static int read_options(struct spt_call *call, const struct spt_history_order *order,
                        struct spt_binning *b, struct spt_history_terms *terms)
{
    const int *usual = terms->kind == SPT_HISTORY_WHEEL   ? hub_bins
                       : terms->kind == SPT_HISTORY_ALONE ? pair_bins
                                                          : bearing_bins;
    memcpy(terms->bins, usual, sizeof terms->bins);
    if (order->bins && !read_bins(order->bins, terms->bins)) {
        spt_say(call,
                "spalltime: write --bins as numbers of bins of load, speed and temperature from 1 "
                "to %d, such as 8x3x2\n",
                SPT_HISTORY_BINS_MAX);
        return SPT_EXIT_USAGE;
    }
    enum spt_quantity_problem problem =
        order->gap ? spt_quantity_read(order->gap, SPT_DURATION, &b->file.gap_h)
                   : SPT_QUANTITY_FINE;
    if (spt_say_readings(call, "--gap", order->gap, problem))
        return SPT_EXIT_USAGE;
    if (order->gap && (problem || !(b->file.gap_h > 0))) {
        spt_say(call, "spalltime: write --gap as a time above 0, such as \"60 s\" (%s)\n",
                SPT_UNITS_OF(SPT_DURATION));
        return SPT_EXIT_USAGE;
    }
    bool road = spt_history_file_has(&b->file, HISTORY_ROAD_SPEED);
    enum spt_dimension dimension = road ? SPT_ROAD_SPEED : SPT_ROTATION;
    problem = order->standing ? spt_quantity_read(order->standing, dimension, &terms->standing_rpm)
                              : SPT_QUANTITY_FINE;
    if (spt_say_readings(call, "--standing", order->standing, problem))
        return SPT_EXIT_USAGE;
    if (order->standing && (problem || !(terms->standing_rpm >= 0 && terms->standing_rpm <= 1e6))) {
        spt_say(call, "spalltime: write --standing as a speed, such as \"2 %s\" (%s)\n",
                spt_dimension_unit(dimension), SPT_UNITS_OF(dimension));
        return SPT_EXIT_USAGE;
    }
    if (road)
        terms->standing_rpm *= b->fixed.rpm_per_km_h;
    return SPT_EXIT_DONE;
}

/* ---- terms: of the scenario, or of the columns alone ------------------------------------------
 */

static int read_frame(struct spt_call *call, const struct spt_source *scenario,
                      const struct spt_catalog *catalog, struct spt_binning *b)
{
    struct spt_diagnostics diags = {0};
    struct spt_given_key given[HISTORY_COLUMNS];
    int count = 0;
    for (int i = HISTORY_RADIAL; i < HISTORY_COLUMNS; i++)
        if (spt_history_file_has(&b->file, (enum history_column)i))
            given[count++] = (struct spt_given_key){spt_history_column_name((enum history_column)i),
                                                    b->file.marks[i]};
    if (!spt_scenario_frame(scenario, catalog, given, count, &b->base, &b->frame, &diags))
        return report(call, &diags);
    return SPT_EXIT_DONE;
}

/* Terms, fixed values and names of the loads for the machine of the scenario. */
static void set_scenario_terms(struct spt_binning *b, struct spt_history_terms *terms)
{
    const struct spt_case *question = &b->base.base.question;
    const struct spt_phase *phase = b->frame.phase;
    bool whole = !isnan(phase->equivalent_load_n);
    terms->exponent = spt_life_exponent(question->bearings[0].bearing.type);
    b->fixed.speed_rpm = phase->speed_rpm;
    b->fixed.side_share = b->frame.side_share;
    b->report.title = question->title;
    b->report.shared = b->frame.shared;
    const struct spt_hub_case *hub = question->hub ? question->hub : question->sheet_hub;
    if (hub) {
        terms->kind = SPT_HISTORY_WHEEL;
        terms->handbook = &hub->handbook;
        terms->rolling_radius_mm = hub->rolling_radius_mm;
        b->fixed.load_n = b->frame.wheel->radial_n;
        b->fixed.side_n = b->frame.wheel->side_n;
        b->fixed.rpm_per_km_h = 1e6 / 60 / (2 * acos(-1.0) * terms->rolling_radius_mm);
        b->report.load_key = "wheel_load";
        b->report.side_key = "side_force";
        return;
    }
    terms->kind = whole ? SPT_HISTORY_WHOLE : SPT_HISTORY_PARTS;
    terms->bearing = &question->bearings[0].bearing;
    b->fixed.load_n = whole ? phase->equivalent_load_n : phase->radial_load_n;
    b->fixed.side_n = whole ? 0 : phase->axial_load_n;
    b->report.load_key = whole ? "equivalent_load" : "radial_load";
    b->report.side_key = whole ? NULL : "axial_load";
}

/* Terms without a scenario: the life exponent of a roller bearing, each load binned by itself. */
static void set_column_terms(struct spt_binning *b, struct spt_history_terms *terms)
{
    bool wheel = spt_history_file_has(&b->file, HISTORY_WHEEL_LOAD) ||
                 spt_history_file_has(&b->file, HISTORY_SIDE_FORCE);
    bool whole = spt_history_file_has(&b->file, HISTORY_EQUIVALENT);
    bool turns = spt_history_file_has(&b->file, HISTORY_SPEED);
    bool rolls = spt_history_file_has(&b->file, HISTORY_ROAD_SPEED);
    bool warm = spt_history_file_has(&b->file, HISTORY_TEMPERATURE_COLUMN);
    terms->kind = whole ? SPT_HISTORY_WHOLE : SPT_HISTORY_ALONE;
    terms->exponent = ROLLER_EXPONENT;
    terms->signed_side = wheel;
    b->fixed.speed_rpm = b->fixed.rpm_per_km_h = 1;
    b->report.load_key = whole ? "equivalent_load" : wheel ? "wheel_load" : "radial_load";
    b->report.side_key = whole ? NULL : wheel ? "side_force" : "axial_load";
    b->report.speed_key = rolls ? "road_speed" : turns ? "speed" : NULL;
    b->report.shared = "";
    if (!turns && !rolls)
        b->report.missing = warm ? "its `speed`" : "its `speed` and `temperature`";
    else if (!warm)
        b->report.missing = "its `temperature`";
}

static int find_terms(struct spt_call *call, const struct spt_history_order *order,
                      const struct spt_source *scenario, const struct spt_catalog *catalog,
                      struct spt_binning *b, struct spt_history_terms *terms)
{
    b->fixed = (struct history_fixed){.side_share = (double)NAN, .rpm_per_km_h = (double)NAN};
    if (scenario) {
        int status = read_frame(call, scenario, catalog, b);
        if (status)
            return status;
        set_scenario_terms(b, terms);
        if (spt_history_file_has(&b->file, HISTORY_SPEED) ||
            spt_history_file_has(&b->file, HISTORY_ROAD_SPEED))
            b->report.speed_key = "speed";
    } else {
        set_column_terms(b, terms);
    }
    terms->has_temperature = spt_history_file_has(&b->file, HISTORY_TEMPERATURE_COLUMN);
    return read_options(call, order, b, terms);
}

/* ---- bins -------------------------------------------------------------------------------------
 */

/* Removes one bin from the axis with the most bins. */
static void reduce(int *bins)
{
    int most = 0;
    for (int i = 1; i < SPT_HISTORY_AXES; i++)
        if (bins[i] > bins[most])
            most = i;
    bins[most]--;
}

static int find_bins(struct spt_call *call, const struct spt_history_order *order,
                     struct spt_binning *b)
{
    int limit = b->history.terms.kind == SPT_HISTORY_WHEEL ? SPT_HUB_PHASES_MAX : SPT_PHASES_MAX;
    int *bins = b->summary.bins, count = 0;
    memcpy(bins, b->history.terms.bins, sizeof b->summary.bins);
    b->bins = spt_arena_allocate(&b->arena, SPT_PHASES_MAX * sizeof *b->bins);
    if (!b->bins)
        return out_of_memory(call);
    enum spt_status status = spt_history_bins(&b->history, bins, b->bins, limit, &count);
    while (status == SPT_TOO_SMALL && !order->bins) {
        reduce(bins);
        b->summary.coarsened = true;
        status = spt_history_bins(&b->history, bins, b->bins, limit, &count);
    }
    if (status == SPT_TOO_SMALL) {
        spt_say(call,
                "spalltime: the history falls into more than %d phases, the limit here; write "
                "fewer --bins, such as 4x3x1\n",
                limit);
        return SPT_EXIT_USAGE;
    }
    b->summary.phases = b->report.count = count;
    return status ? report_status(call, status) : SPT_EXIT_DONE;
}

/* The lives from which the error of binning is estimated: of these bins, and of twice as many on
 * each axis. */
static int find_lives(struct spt_call *call, struct spt_binning *b)
{
    const struct spt_case *question = &b->base.base.question;
    double ratings[SPT_HISTORY_ROWS];
    int doubled[SPT_HISTORY_AXES], count;
    struct spt_history_bin *bins = spt_arena_allocate(&b->arena, SPT_PHASES_MAX * sizeof *bins);
    struct spt_phase *phases = spt_arena_allocate(&b->arena, SPT_PHASES_MAX * sizeof *phases);
    struct spt_phase_result *results =
        spt_arena_allocate(&b->arena, SPT_PHASES_MAX * sizeof *results);
    if (!bins || !phases || !results)
        return out_of_memory(call);
    for (int i = 0; i < SPT_HISTORY_ROWS; i++)
        ratings[i] = question->bearings[i].bearing.dynamic_load_rating_n;
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        doubled[i] = 2 * b->summary.bins[i];
    enum spt_status status =
        spt_history_basic_life(&b->history, b->bins, b->report.count, ratings, &b->summary.basic);
    if (!status)
        status = spt_history_modified_life(&b->history, question, b->bins, b->report.count, phases,
                                           results, &b->summary.modified_h);
    if (status)
        return report_status(call, status);
    status = spt_history_bins(&b->history, doubled, bins, SPT_PHASES_MAX, &count);
    if (!status)
        status = spt_history_modified_life(&b->history, question, bins, count, phases, results,
                                           &b->summary.refined_h);
    b->summary.refined_phases = status ? 0 : count;
    return status && status != SPT_TOO_SMALL ? report_status(call, status) : SPT_EXIT_DONE;
}

/* ---- the whole ----------------------------------------------------------------------------------
 */

static int read_rows(struct spt_call *call, struct spt_binning *b,
                     const struct spt_history_terms *terms, const struct spt_case *question)
{
    struct spt_history_summary rows = {0};
    size_t size = spt_history_size(terms);
    if (!size) {
        spt_say(call,
                "spalltime: these --bins need more memory than they are worth; write fewer\n");
        return SPT_EXIT_USAGE;
    }
    b->workspace = spt_allocate(size);
    if (!b->workspace)
        return out_of_memory(call);
    enum spt_status status = spt_history_begin(terms, b->workspace, size, &b->history);
    if (status)
        return report_status(call, status);
    if (!spt_history_file_rows(&b->file, &b->fixed, &b->history, &rows))
        return SPT_EXIT_BAD_INPUT;
    spt_history_summarise(&b->history, question, &b->summary);
    b->summary.source = b->file.source.name;
    b->summary.rows = rows.rows;
    b->summary.stamped = rows.stamped;
    b->summary.gap_h = rows.gap_h;
    b->summary.gaps = rows.gaps;
    b->summary.gaps_h = rows.gaps_h;
    b->summary.longest_h = rows.longest_h;
    b->summary.longest_line = rows.longest_line;
    b->summary.usual_h = rows.usual_h;
    return SPT_EXIT_DONE;
}

static int write_duty(struct spt_call *call, struct spt_binning *b)
{
    struct spt_gather gathered;
    if (!spt_gather_open(&gathered))
        return out_of_memory(call);
    spt_duty_yaml(gathered.stream, &b->report);
    char *text = spt_gather_close(&gathered);
    if (!text)
        return out_of_memory(call);
    b->source.name = "the binned duty";
    b->source.length = strlen(text);
    b->source.text = spt_arena_text(&b->arena, text, b->source.length);
    free(text);
    b->duty = (struct spt_binned_duty){&b->source, &b->summary};
    return b->source.text ? SPT_EXIT_DONE : out_of_memory(call);
}

static int bin(struct spt_call *call, const struct spt_history_order *order, FILE *in,
               const struct spt_source *scenario, const struct spt_catalog *catalog,
               struct spt_binning *b)
{
    struct spt_diagnostics diags = {0};
    struct spt_history_terms terms = {0};
    if (!spt_history_file_head(&b->file, in, b->file.source.name, &diags))
        return report(call, &diags);
    int status = find_terms(call, order, scenario, catalog, b, &terms);
    if (status)
        return status;
    status = read_rows(call, b, &terms, scenario ? &b->base.base.question : NULL);
    if (status == SPT_EXIT_BAD_INPUT)
        return report(call, &diags);
    if (!status)
        status = find_bins(call, order, b);
    b->report.history = &b->history;
    b->report.summary = &b->summary;
    b->report.bins = b->bins;
    if (!status && scenario)
        status = find_lives(call, b);
    return status ? status : write_duty(call, b);
}

int spt_history_read(struct spt_call *call, const struct spt_history_order *order, const char *path,
                     const struct spt_source *scenario, const struct spt_catalog *catalog,
                     struct spt_binning *binning)
{
    memset(binning, 0, sizeof *binning);
    const char *name = strcmp(path, "-") != 0 ? path : "standard input";
    name = spt_arena_text(&binning->arena, name, strlen(name));
    if (!name)
        return out_of_memory(call);
    binning->file.source.name = name;
    FILE *in = spt_file_open(call, path);
    if (!in) {
        spt_say(call, "spalltime: cannot read %s: %s\n", path, strerror(errno));
        return SPT_EXIT_SYSTEM;
    }
    int status = bin(call, order, in, scenario, catalog, binning);
    int error = ferror(in) ? errno : 0;
    spt_file_close(in);
    if (!error)
        return status;
    spt_say(call, "spalltime: cannot read %s: %s\n", path, strerror(error));
    return SPT_EXIT_SYSTEM;
}

void spt_binning_free(struct spt_binning *binning)
{
    free(binning->workspace);
    spt_scenario_free(&binning->base);
    spt_arena_free(&binning->arena);
    memset(binning, 0, sizeof *binning);
}
