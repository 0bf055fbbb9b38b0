/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <errno.h>
#include <math.h>
#include <string.h>

#include "answer/diagnosis/diagnosis.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "file/file.h"

#define BAND_DEVIATIONS 3.2897 /* standard deviations between 5 and 95 % of a normal law */

/* A scenario that cases name; each is read once. */
struct used_scenario {
    struct used_scenario *next;
    const char *path;
    struct spt_input input;
    struct spt_assessment *stated;
    const struct spt_uncertainty_result *spread; /* without inputs that are causes; NULL: none */
};

/* Inputs and results of the command. */
struct work {
    const struct spt_options *options;
    const char *path; /* of the case file */
    struct spt_catalog catalog;
    struct spt_guide guide;
    struct spt_causes causes;
    struct spt_arena arena;
    struct spt_source source;
    struct spt_case_file file;
    struct used_scenario *scenarios;
    struct spt_diagnosis_report *reports;
};

struct answer {
    const struct spt_diagnosis_report *reports;
    int count;
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_diagnosis_page(page, answer->reports, answer->count);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    (void)page;
    spt_diagnosis_json(json, answer->reports, answer->count);
}

static int out_of_memory(const struct work *w)
{
    spt_say(w->options->call, "spalltime diagnose: out of memory\n");
    return SPT_EXIT_SYSTEM;
}

/* Prints the diagnostics. Result: the exit status of a failure. */
static int report(const struct work *w, const struct spt_diagnostics *diags)
{
    spt_diagnostics_print(diags, spt_call_messages(w->options->call));
    return diags->out_of_memory ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
}

/* Reports a mistake at a place of the case file. */
static int refuse(const struct work *w, struct spt_mark mark, const char *format, const char *a,
                  const char *b)
{
    struct spt_diagnostics diags = {0};
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wformat-nonliteral"
    spt_diagnostics_add(&diags, mark, format, a, b);
#pragma GCC diagnostic pop
    return report(w, &diags);
}

/* ---- reading ---- */

static int read_tables(struct work *w)
{
    struct spt_diagnostics diags = {0};
    int status = spt_input_catalogs(w->options, &w->catalog);
    if (!status)
        status = spt_input_need_catalogs(w->options->call, "diagnose", &w->catalog);
    if (status)
        return status;
    if (!spt_guide_load(&w->catalog, &w->guide, &diags) ||
        !spt_causes_load(&w->catalog, &w->guide, &w->causes, &diags))
        return report(w, &diags);
    if (w->causes.table.cause_count)
        return SPT_EXIT_DONE;
    spt_say(w->options->call, "spalltime diagnose: no catalog folder holds a table `diagnosis`; "
                              "name one with --catalog\n");
    return SPT_EXIT_BAD_INPUT;
}

static int read_text(struct work *w)
{
    const int error =
        spt_file_read(w->options->call, w->path, SPT_DOCUMENT_BYTES_MAX, &w->arena, &w->source);
    if (!error)
        return SPT_EXIT_DONE;
    spt_say(w->options->call, "spalltime: cannot read %s: %s\n", w->path, strerror(error));
    return error == EFBIG ? SPT_EXIT_BAD_INPUT : SPT_EXIT_SYSTEM;
}

/* Shortens the folder that the first `*length` bytes of a path name to the one above it, where that
 * is in the path. */
static bool leave_folder(const char *path, size_t *length)
{
    size_t above = *length - 1;
    while (above > 0 && path[above - 1] != '/')
        above--;
    const size_t name = *length - 1 - above;
    if (name == 0 || path[above] == '.')
        return false;
    *length = above;
    return true;
}

/* A path that a case names, taken from the folder of the case file. Result: NULL when memory is
 * out. */
static const char *find_beside(struct work *w, const char *name)
{
    const char *path = w->path, *slash = strrchr(path, '/');
    if (!slash || *name == '/')
        return name;
    size_t folder = (size_t)(slash - path) + 1;
    while (!strncmp(name, "../", 3) && leave_folder(path, &folder))
        name += 3;
    const size_t size = folder + strlen(name) + 1;
    char *whole = spt_arena_allocate(&w->arena, size);
    if (whole)
        snprintf(whole, size, "%.*s%s", (int)folder, path, name);
    return whole;
}

/* Reports a file that a case names and that cannot be read. */
static void try_file(struct work *w, const struct spt_case_text *named,
                     struct spt_diagnostics *diags)
{
    const char *path = named->text ? find_beside(w, named->text) : NULL;
    if (!path)
        return;
    errno = 0;
    FILE *file = spt_file_open(w->options->call, path);
    bool readable = file != NULL;
    if (file) {
        readable = getc(file) != EOF || !ferror(file);
        spt_file_close(file);
    }
    if (!readable)
        spt_diagnostics_add(diags, named->mark,
                            "cannot read `%.120s`: %s; it is taken relative to the case file", path,
                            strerror(errno));
}

/* Reads the cases, and tells all mistakes in one pass: files that they name are tried too. */
static int read_cases(struct work *w)
{
    struct spt_diagnostics diags = {0};
    spt_case_file_read(&w->source, &w->causes, &w->file, &diags);
    for (int i = 0; i < w->file.count; i++) {
        try_file(w, &w->file.cases[i].scenario, &diags);
        if (!w->options->past)
            try_file(w, &w->file.cases[i].past, &diags);
    }
    return spt_diagnostics_any(&diags) || diags.out_of_memory ? report(w, &diags) : SPT_EXIT_DONE;
}

/* Adds the confirmed cases of a file to the counts of a report. */
static int read_past(struct work *w, const char *path, struct spt_diagnosis_report *one)
{
    struct spt_diagnostics diags = {0};
    double *counts = spt_arena_allocate(&w->arena, SPT_DIAGNOSIS_CAUSES_MAX * sizeof *counts);
    struct spt_source *source = spt_arena_allocate(&w->arena, sizeof *source);
    if (!path || !counts || !source)
        return out_of_memory(w);
    errno = 0;
    FILE *in = spt_file_open(w->options->call, path);
    if (!in) {
        spt_say(w->options->call, "spalltime: cannot read %s: %s\n", path, strerror(errno));
        return SPT_EXIT_SYSTEM;
    }
    source->name = strcmp(path, "-") != 0 ? path : "standard input";
    const bool fine = spt_past_read(in, source, &w->causes, counts, &diags);
    const int error = ferror(in) ? errno : 0;
    spt_file_close(in);
    if (error) {
        spt_say(w->options->call, "spalltime: cannot read %s: %s\n", path, strerror(error));
        return SPT_EXIT_SYSTEM;
    }
    if (!fine)
        return report(w, &diags);
    for (int c = 0; c < w->causes.table.cause_count; c++)
        one->past_total += counts[c];
    one->past = path;
    one->asked.counts = counts;
    return SPT_EXIT_DONE;
}

/* ---- the scenario ---- */

static int assess(struct work *w, struct used_scenario *used, const struct spt_case *question,
                  struct spt_assessment **assessment)
{
    struct spt_error error;
    *assessment = spt_arena_allocate(&used->input.arena, sizeof **assessment);
    if (!*assessment)
        return out_of_memory(w);
    return spt_ask_life(question, &used->input.arena, *assessment, &error)
               ? spt_cli_fail(w->options->call, "diagnose", &error)
               : SPT_EXIT_DONE;
}

/* True where an input is not known exactly. */
static bool is_uncertain(const struct spt_uncertainty *uncertainty)
{
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++)
        if (uncertainty->inputs[i].spread != SPT_RANDOM_FIXED)
            return true;
    return false;
}

/* The spread of the lives by the section `uncertainty`, without cleanliness and water: dirt and
 * water are causes here, which must not be doubt of the life without them as well. */
static int find_spread(struct work *w, struct used_scenario *used)
{
    struct spt_error error;
    struct spt_spread_inputs asked = {.question = used->stated->question};
    struct spt_random_input *inputs = asked.uncertainty.inputs;
    if (!spt_cli_band_inputs(w->options, &used->input.scenario, asked.question, 1,
                             &asked.uncertainty))
        return SPT_EXIT_DONE;
    inputs[SPT_UNCERTAIN_CLEANLINESS].spread = inputs[SPT_UNCERTAIN_WATER].spread =
        SPT_RANDOM_FIXED;
    if (!is_uncertain(&asked.uncertainty))
        return SPT_EXIT_DONE;
    struct spt_uncertainty_result *spread = spt_arena_allocate(&used->input.arena, sizeof *spread);
    if (!spread)
        return out_of_memory(w);
    used->spread = spread;
    return spt_ask_spread(&asked, &used->input.arena, spread, &error)
               ? spt_cli_fail(w->options->call, "diagnose", &error)
               : SPT_EXIT_DONE;
}

/* The scenario of a path, read and assessed at first use. */
static int use_scenario(struct work *w, const char *path, struct used_scenario **found)
{
    for (*found = w->scenarios; *found; *found = (*found)->next)
        if (!strcmp((*found)->path, path))
            return SPT_EXIT_DONE;
    struct used_scenario *used = spt_arena_allocate(&w->arena, sizeof *used);
    if (!used)
        return out_of_memory(w);
    used->path = path;
    used->next = w->scenarios;
    w->scenarios = *found = used;
    int status = spt_input_read(w->options, path, &used->input);
    if (!status)
        status = assess(w, used, &used->input.scenario.base.question, &used->stated);
    if (!status)
        status = find_spread(w, used);
    return status;
}

/* Index of the bearing that the case is about; -1 with a message. */
static int find_row(struct work *w, const struct spt_damage_case *stated,
                    const struct spt_assessment *assessment)
{
    static const char *const rows[] = {"inboard", "outboard"};
    const struct spt_case *question = assessment->question;
    char names[400] = "";
    const char *row = stated->row.text;
    if (!row && question->bearing_count == 1)
        return 0;
    for (int i = 0; i < question->bearing_count; i++) {
        const char *name = question->bearings[i].bearing.name;
        const size_t used = strlen(names);
        if (row && (!strcmp(row, name) || (question->hub && i < 2 && !strcmp(row, rows[i]))))
            return i;
        snprintf(names + used, sizeof names - used, "%s%s", i ? ", " : "",
                 question->hub && i < 2 ? rows[i] : name);
    }
    if (row)
        refuse(w, stated->row.mark,
               "`row: %.60s` is no bearing of the scenario; write one of: %.200s", row, names);
    else
        refuse(w, stated->scenario.mark,
               "the scenario has several bearings; add `row`, one of: %.200s%s", names, "");
    return -1;
}

/* Life at 90 % of the bearing `row`. */
static double life_of(const struct spt_assessment *assessment, int row)
{
    return row < assessment->bearing_count
               ? assessment->bearings[row].modified_rating_life_h / assessment->reliability_factor
               : (double)NAN;
}

static const struct spt_variant *find_variant(const struct spt_scenario *scenario, const char *name)
{
    for (int i = 0; i < scenario->variant_count; i++)
        if (!strcmp(scenario->variants[i].name, name))
            return &scenario->variants[i];
    return NULL;
}

/* Lives with causes at work, by the variants that the case names. */
static int find_lives(struct work *w, struct used_scenario *used, int row,
                      const struct spt_damage_case *stated, double *life_h)
{
    int status = SPT_EXIT_DONE;
    for (int c = 0; c < w->causes.table.cause_count; c++)
        life_h[c] = w->causes.table.causes[c].time == SPT_CAUSE_TIME_FATIGUE
                        ? life_of(used->stated, row)
                        : (double)NAN;
    for (int i = 0; !status && i < stated->condition_count; i++) {
        const struct spt_case_condition *condition = &stated->conditions[i];
        const struct spt_variant *variant = find_variant(&used->input.scenario, condition->variant);
        struct spt_assessment *assessment;
        if (!variant)
            return refuse(w, condition->mark, "%.200s has no variant `%.100s`", used->path,
                          condition->variant);
        status = assess(w, used, &variant->question, &assessment);
        if (!status)
            life_h[condition->cause] = life_of(assessment, row);
    }
    return status;
}

/* Load zones of a row of a hub: in the phase that costs it most, and over all that load it. */
static void find_zones(const struct spt_assessment *assessment, int row,
                       struct spt_diagnosis_report *one)
{
    const int phase = assessment->bearings[row].worst_phase;
    if (!assessment->hub || row > 1 || phase < 0 || phase >= assessment->hub->phase_count)
        return;
    one->zone_deg = assessment->hub->phases[phase].rows[row].contact.zone_deg;
    one->zone_least_deg = one->zone_most_deg = one->zone_deg;
    for (int i = 0; i < assessment->hub->phase_count; i++) {
        const double zone_deg = assessment->hub->phases[i].rows[row].contact.zone_deg;
        if (zone_deg > 0) {
            one->zone_least_deg = fmin(one->zone_least_deg, zone_deg);
            one->zone_most_deg = fmax(one->zone_most_deg, zone_deg);
        }
    }
}

/* The setting at which the row has the load zone that the measured path shows. */
static int find_setting(struct work *w, struct used_scenario *used, int row,
                        struct spt_diagnosis_report *one)
{
    struct spt_error error;
    const struct spt_damage_case *stated = one->stated;
    const double arc_deg = stated->arc_rad * 180 / acos(-1);
    if (isnan(one->zone_deg) || isnan(arc_deg) || stated->arc_ring != one->standing)
        return SPT_EXIT_DONE;
    return spt_ask_zone_setting(&used->input.scenario.base.question, row,
                                used->stated->bearings[row].worst_phase, arc_deg,
                                &used->input.arena, &one->path_setting_mm, &error)
               ? spt_cli_fail(w->options->call, "diagnose", &error)
               : SPT_EXIT_DONE;
}

/* Running hours of a time or distance that the case states. */
static double hours_of(const struct spt_damage_case *stated, const struct spt_case *question,
                       double ran)
{
    return stated->in_km ? ran / question->road_speed_km_h : ran;
}

static int fill_scenario(struct work *w, const struct spt_damage_case *stated,
                         struct spt_diagnosis_report *one)
{
    struct used_scenario *used;
    double *life_h = spt_arena_allocate(&w->arena, SPT_DIAGNOSIS_CAUSES_MAX * sizeof *life_h);
    const char *path = find_beside(w, stated->scenario.text);
    if (!path || !life_h)
        return out_of_memory(w);
    int status = use_scenario(w, path, &used);
    if (status)
        return status;
    const struct spt_case *question = used->stated->question;
    const int row = find_row(w, stated, used->stated);
    if (row < 0)
        return SPT_EXIT_BAD_INPUT;
    if (stated->in_km && !(question->road_speed_km_h > 0))
        return refuse(w, stated->top,
                      "`hours` is a distance, but %.200s does not say how far an hour goes; add "
                      "`usage: {distance_per_hour: 35 km/h}` to it%s",
                      path, "");
    one->scenario = path;
    one->bearing = question->bearings[row].bearing.name;
    one->fleet = question->fleet;
    find_zones(used->stated, row, one);
    one->asked.life_h = life_h;
    one->asked.hours = hours_of(stated, question, stated->ran);
    one->asked.last_sound_h = hours_of(stated, question, stated->last_sound);
    if (used->spread) {
        const struct spt_band *band = &used->spread->bearings[row];
        const double doubt = log(band->p95_h / band->p5_h) / BAND_DEVIATIONS;
        one->doubt_stated = doubt > 0 && !isinf(doubt);
        one->asked.doubt = one->doubt_stated ? doubt : (double)NAN;
    }
    if (question->hub && !stated->turning_stated) {
        one->turning_taken = false;
        one->standing = spt_path_standing(
            question->hub->hub.turning == SPT_HUB_OUTER_TURNS ? SPT_RING_OUTER : SPT_RING_INNER,
            stated->load_turns);
    }
    status = find_setting(w, used, row, one);
    return status ? status : find_lives(w, used, row, stated, life_h);
}

/* ---- one case ---- */

/* Answers and causes that are ruled out. Result: false when memory is out. */
static bool fill_answers(struct work *w, const struct spt_damage_case *stated,
                         struct spt_diagnosis_case *asked)
{
    struct spt_diagnosis_answer *answers =
        spt_arena_allocate(&w->arena, (size_t)(stated->finding_count + 1) * sizeof *answers);
    bool *ruled_out = spt_arena_allocate(&w->arena, SPT_DIAGNOSIS_CAUSES_MAX * sizeof *ruled_out);
    if (!answers || !ruled_out)
        return false;
    for (int i = 0; i < stated->finding_count; i++)
        answers[i] = (struct spt_diagnosis_answer){
            stated->findings[i].finding, stated->findings[i].seen, stated->findings[i].sure};
    for (int c = 0; c < w->causes.table.cause_count; c++)
        ruled_out[c] = stated->because && stated->because[c];
    asked->answer_count = stated->finding_count;
    asked->answers = answers;
    asked->ruled_out = ruled_out;
    return true;
}

static void fill_report(struct work *w, const struct spt_damage_case *stated,
                        struct spt_diagnosis_report *one)
{
    const enum spt_ring turning = stated->turning_stated               ? stated->turning
                                  : stated->machine == SPT_MACHINE_HUB ? SPT_RING_OUTER
                                                                       : SPT_RING_INNER;
    *one = (struct spt_diagnosis_report){
        .index = (int)(one - w->reports),
        .causes = &w->causes,
        .stated = stated,
        .asked = {.table = &w->causes.table,
                  .machine = stated->machine,
                  .destroyed = stated->destroyed,
                  .on_bench = stated->on_bench,
                  .hours = stated->in_km ? (double)NAN : stated->ran,
                  .last_sound_h = stated->in_km ? (double)NAN : stated->last_sound,
                  .doubt = (double)NAN},
        .standing = spt_path_standing(turning, stated->load_turns),
        .turning_taken = !stated->turning_stated,
        .zone_deg = (double)NAN,
        .zone_least_deg = (double)NAN,
        .zone_most_deg = (double)NAN,
        .path_setting_mm = (double)NAN,
    };
}

static int diagnose(struct work *w, const struct spt_damage_case *stated,
                    struct spt_diagnosis_report *one)
{
    int status = SPT_EXIT_DONE;
    struct spt_error error;
    fill_report(w, stated, one);
    if (!fill_answers(w, stated, &one->asked))
        return out_of_memory(w);
    if (w->options->past)
        status = read_past(w, w->options->past, one);
    else if (stated->past.text)
        status = read_past(w, find_beside(w, stated->past.text), one);
    if (!status && stated->scenario.text)
        status = fill_scenario(w, stated, one);
    if (status)
        return status;
    const enum spt_status problem = spt_diagnose(&one->asked, &w->arena, &one->result);
    if (!problem)
        return SPT_EXIT_DONE;
    spt_error_set(&error, problem, stated->title);
    return spt_cli_fail(w->options->call, "diagnose", &error);
}

/* True where a cause is named. */
static bool is_told(const struct spt_diagnosis_report *one)
{
    return one->result.verdict != SPT_DIAGNOSIS_OPEN && one->result.verdict != SPT_DIAGNOSIS_UNTOLD;
}

static int work_out(struct work *w)
{
    int status = SPT_EXIT_DONE;
    w->reports = spt_arena_allocate(&w->arena, (size_t)w->file.count * sizeof *w->reports);
    if (!w->reports)
        return out_of_memory(w);
    for (int i = 0; !status && i < w->file.count; i++)
        status = diagnose(w, &w->file.cases[i], &w->reports[i]);
    return status;
}

static int answer_cases(struct work *w)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    int done = SPT_EXIT_DONE;
    for (int i = 0; i < w->file.count; i++)
        if (!is_told(&w->reports[i]))
            done = SPT_EXIT_TARGET_MISSED;
    const char *title = w->file.count == 1 ? w->file.cases[0].title : "Damaged bearings";
    return spt_cli_show(w->options, &forms, &w->arena, title,
                        &(struct answer){w->reports, w->file.count}, done);
}

static void clear(struct work *w)
{
    for (struct used_scenario *used = w->scenarios; used; used = used->next)
        spt_input_free(&used->input);
    spt_case_file_free(&w->file);
    spt_arena_free(&w->arena);
    spt_causes_free(&w->causes);
    spt_guide_free(&w->guide);
    spt_catalog_free(&w->catalog);
}

int spt_command_diagnose(const struct spt_options *options)
{
    struct work w = {.options = options, .path = options->arguments[0]};
    int status = read_tables(&w);
    if (!status)
        status = read_text(&w);
    if (!status)
        status = read_cases(&w);
    if (!status)
        status = work_out(&w);
    if (!status)
        status = answer_cases(&w);
    clear(&w);
    return status;
}

int spt_cli_check_cases(const struct spt_options *options, const char *path,
                        const struct spt_source *source, int *count)
{
    struct work w = {.options = options, .path = path, .source = *source};
    int status = read_tables(&w);
    if (!status)
        status = read_cases(&w);
    if (!status)
        status = work_out(&w);
    *count = w.file.count;
    clear(&w);
    return status;
}
