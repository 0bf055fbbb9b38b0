/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/input.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "file/file.h"
#include "platform/platform.h"

#define PATH_LENGTH SPT_INPUT_PATH

static int report(struct spt_call *call, const struct spt_diagnostics *diags)
{
    spt_diagnostics_print(diags, spt_call_messages(call));
    return diags->out_of_memory ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
}

static bool is_folder(const char *path)
{
    struct stat about;
    return !stat(path, &about) && S_ISDIR(about.st_mode);
}

bool spt_input_own_folder(const char *name, char path[SPT_INPUT_PATH])
{
    char looked[2 * PATH_LENGTH] = "";
    static const char *const places[] = {"/../../", "/../share/spalltime/"};
    char program[PATH_LENGTH];
    const bool known = spt_own_path(program, sizeof program);
    for (int i = 0; known && i < 2; i++) {
        char *slash = strrchr(program, '/');
        if (!slash)
            break;
        *slash = 0;
        if (snprintf(path, PATH_LENGTH, "%s%s%s", program, places[i], name) < PATH_LENGTH &&
            is_folder(path))
            return true;
        size_t used = strlen(looked);
        snprintf(looked + used, sizeof looked - used, "%s%s%s, ", program, places[i], name);
        *slash = '/';
    }
    snprintf(path, PATH_LENGTH, "%s/%s", SPT_DATA_DIR, name);
    if (is_folder(path))
        return true;
    snprintf(path, PATH_LENGTH, "%.1500s%.500s/%s", looked, SPT_DATA_DIR, name);
    return false;
}

/* A folder of catalogs, or one file: a list of bearings or a catalog. A folder may have any name.
 */
static void add_catalog(struct spt_catalog *catalog, const char *path,
                        struct spt_diagnostics *diags)
{
    if (spt_catalog_is_file(path) && !is_folder(path))
        spt_catalog_add_file(catalog, path, diags);
    else
        spt_catalog_add_folder(catalog, path, diags);
}

static void add_listed(struct spt_catalog *catalog, const char *list, struct spt_diagnostics *diags)
{
    while (list && *list) {
        char folder[PATH_LENGTH];
        size_t length = strcspn(list, ":");
        if (length && length < sizeof folder) {
            memcpy(folder, list, length);
            folder[length] = 0;
            add_catalog(catalog, folder, diags);
        }
        list += length + (list[length] == ':');
    }
}

/* Stores the message for a name that is looked up although no catalog folder is given or found. */
static bool note_missing(struct spt_call *call, struct spt_catalog *catalog, const char *looked)
{
    char words[PATH_LENGTH];
    int length = snprintf(words, sizeof words,
                          "no catalog folder was found; give %s or set SPALLTIME_CATALOGS (looked "
                          "in %.2100s)",
                          !call->captured ? "--catalog FOLDER" : "a folder of catalogs", looked);
    catalog->missing = spt_arena_text(&catalog->arena, words, (size_t)length);
    return catalog->missing != NULL;
}

int spt_input_catalogs(const struct spt_options *options, struct spt_catalog *catalog)
{
    struct spt_diagnostics diags = {0};
    char own[PATH_LENGTH];
    *catalog = (struct spt_catalog){.call = options->call};
    for (int i = 0; i < options->catalog_count; i++)
        add_catalog(catalog, options->catalogs[i], &diags);
    const char *listed = getenv("SPALLTIME_CATALOGS");
    add_listed(catalog, listed, &diags);
    if (spt_input_own_folder("catalogs", own))
        spt_catalog_add_folder(catalog, own, &diags);
    else if (!options->catalog_count && !(listed && *listed) &&
             !note_missing(options->call, catalog, own))
        diags.out_of_memory = true;
    return spt_diagnostics_any(&diags) || diags.out_of_memory ? report(options->call, &diags)
                                                              : SPT_EXIT_DONE;
}

int spt_input_need_catalogs(struct spt_call *call, const char *command,
                            const struct spt_catalog *catalog)
{
    if (!catalog->missing)
        return SPT_EXIT_DONE;
    spt_say(call, "spalltime %s: %s\n", command, catalog->missing);
    return SPT_EXIT_SYSTEM;
}

static int read_text(const struct spt_options *options, const char *path, struct spt_input *input,
                     struct spt_source *source)
{
    int error = spt_file_read(options->call, path, SPT_DOCUMENT_BYTES_MAX, &input->arena, source);
    if (!error)
        return SPT_EXIT_DONE;
    if (error == EFBIG) {
        spt_say(options->call, "spalltime: %s is larger than %d bytes; no scenario needs that\n",
                source->name, SPT_DOCUMENT_BYTES_MAX);
        return SPT_EXIT_BAD_INPUT;
    }
    spt_say(options->call, "spalltime: cannot read %s: %s\n", path, strerror(error));
    return SPT_EXIT_SYSTEM;
}

/* A history on standard input can be read once only, and not if the scenario is read from there. */
static int check_history(const struct spt_options *options, const char *path)
{
    if (strcmp(options->measured.path, "-") != 0)
        return SPT_EXIT_DONE;
    const char *problem = !strcmp(path, "-")
                              ? "the scenario and the history cannot both be standard input"
                          : path != options->arguments[options->argument_count - 1]
                              ? "a history for several scenarios has to be a file"
                              : NULL;
    if (problem)
        spt_say(options->call, "spalltime: %s\n", problem);
    return problem ? SPT_EXIT_USAGE : SPT_EXIT_DONE;
}

/* Bins the history for the scenario in `source`. */
static int bin_history(const struct spt_options *options, const char *path,
                       const struct spt_source *source, struct spt_input *input)
{
    int status = check_history(options, path);
    if (status)
        return status;
    input->binning = spt_arena_allocate(&input->arena, sizeof *input->binning);
    if (!input->binning) {
        spt_say(options->call, "spalltime: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    return spt_history_read(options->call, &options->measured, options->measured.path, source,
                            &input->catalog, input->binning);
}

int spt_input_open(const struct spt_options *options, const char *path, struct spt_input *input,
                   struct spt_source *source)
{
    *input = (struct spt_input){0};
    const int status = spt_input_catalogs(options, &input->catalog);
    return status ? status : read_text(options, path, input, source);
}

int spt_input_load(const struct spt_options *options, const char *path,
                   const struct spt_source *source, struct spt_input *input)
{
    struct spt_diagnostics diags = {0};
    int status = SPT_EXIT_DONE;
    if (options->measured.path)
        status = bin_history(options, path, source, input);
    if (status)
        return status;
    const struct spt_binned_duty *duty = input->binning ? &input->binning->duty : NULL;
    if (spt_scenario_load_duty(source, &input->catalog, duty, &input->scenario, &diags))
        return SPT_EXIT_DONE;
    status = report(options->call, &diags);
    if (duty && !diags.out_of_memory)
        spt_say(options->call,
                "spalltime: with a history the phases are those of the binned duty; see `spalltime "
                "duty`\n");
    return status;
}

int spt_input_read(const struct spt_options *options, const char *path, struct spt_input *input)
{
    struct spt_source source;
    const int status = spt_input_open(options, path, input, &source);
    return status ? status : spt_input_load(options, path, &source, input);
}

void spt_input_lacks(struct spt_call *call, const struct spt_scenario *scenario, const char *what)
{
    struct spt_diagnostics diags = {0};
    spt_diagnostics_add(&diags, scenario->top, "%s", what);
    spt_diagnostics_print(&diags, spt_call_messages(call));
}

bool spt_input_lacks_dirt(struct spt_call *call, const struct spt_scenario *scenario,
                          const struct spt_case *question)
{
    struct spt_diagnostics diags = {0};
    int bearing, phase;
    if (!spt_case_lacks_dirt(question, &bearing, &phase))
        return false;
    spt_diagnostics_add(&diags, scenario->condition,
                        "a plan needs to know how dirty the grease is: add `cleanliness`, "
                        "`contamination_factor` or `dust`, or `seal` and `surroundings`");
    spt_diagnostics_print(&diags, spt_call_messages(call));
    return true;
}

void spt_input_free(struct spt_input *input)
{
    spt_scenario_free(&input->scenario);
    if (input->binning)
        spt_binning_free(input->binning);
    spt_arena_free(&input->arena);
    spt_catalog_free(&input->catalog);
}
