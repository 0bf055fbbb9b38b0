/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/live/controls.h"

#include <math.h>
#include <string.h>

#include "scenario/build/sections.h"
#include "scenario/text/edit.h"

#define PATH_LENGTH 96

/* A value that can be turned. Its ends are those between which machines of this kind lie (our
 * choice); what a scenario may hold is wider, and an answer says where a model ends. */
struct control {
    const char *section; /* path of the section; NULL: a phase */
    const char *key, *label;
    enum spt_dimension dimension; /* SPT_NO_DIMENSION: a choice between words */
    double lowest, highest;       /* in the program's unit */
    double fine;                  /* above 0: equal ratios from here on, where the end is 0 */
    bool signed_;                 /* as far below 0 as above */
    const char *const *words;
    bool always; /* offered where it is not stated too */
};

static const char *const grease_classes[] = {"high",   "normal",      "slight",
                                             "severe", "very severe", NULL};
/* from clean to dirty, as ISO 281 Annex A has them for oil */
static const char *const oil_codes[] = {"-/13/10", "-/15/12", "-/17/14",
                                        "-/19/16", "-/21/18", NULL};
static const char *const grades[] = {"VG 10",  "VG 15",  "VG 22",   "VG 32",  "VG 46",
                                     "VG 68",  "VG 100", "VG 150",  "VG 220", "VG 320",
                                     "VG 460", "VG 680", "VG 1000", NULL};

static const struct control controls[] = {
    {.section = "condition",
     .key = "cleanliness",
     .label = "dirt",
     .words = grease_classes,
     .dimension = SPT_NO_DIMENSION},
    {.section = "condition",
     .key = "water",
     .label = "water",
     .dimension = SPT_CONTENT,
     .lowest = 25,
     .highest = 5000,
     .fine = 25,
     .always = true},
    {.section = "condition",
     .key = "grease_age",
     .label = "age of the grease",
     .dimension = SPT_DURATION,
     .lowest = 0,
     .highest = 20000},
    {.section = "lubricant",
     .key = "grade",
     .label = "oil grade",
     .words = grades,
     .dimension = SPT_NO_DIMENSION},
    {.section = "lubricant",
     .key = "viscosity_40",
     .label = "oil viscosity at 40 degC",
     .dimension = SPT_VISCOSITY,
     .lowest = 10,
     .highest = 1000,
     .fine = 10},
    {.section = "hub",
     .key = "end_play",
     .label = "end play",
     .dimension = SPT_LENGTH,
     .lowest = 0,
     .highest = 0.5},
    {.section = "hub",
     .key = "preload",
     .label = "preload",
     .dimension = SPT_LENGTH,
     .lowest = 0,
     .highest = 0.15},
    {.section = "",
     .key = "reliability",
     .label = "reliability",
     .dimension = SPT_RELIABILITY,
     .lowest = 90,
     .highest = 99.9},
    {.key = "radial_load", .label = "radial load", .dimension = SPT_FORCE, .fine = 1},
    {.key = "axial_load", .label = "axial load", .dimension = SPT_FORCE, .fine = 1},
    {.key = "equivalent_load", .label = "equivalent load", .dimension = SPT_FORCE, .fine = 1},
    {.key = "wheel_load", .label = "wheel load", .dimension = SPT_FORCE, .fine = 1},
    {.key = "side_force", .label = "side force", .dimension = SPT_FORCE, .signed_ = true},
    {.key = "side_share",
     .label = "side force",
     .dimension = SPT_SHARE,
     .lowest = -0.4,
     .highest = 0.4},
    {.key = "speed", .label = "speed", .dimension = SPT_ROTATION, .fine = 1},
    {.key = "road_speed",
     .label = "road speed",
     .dimension = SPT_ROAD_SPEED,
     .lowest = 1,
     .highest = 130},
    {.key = "temperature",
     .label = "temperature",
     .dimension = SPT_TEMPERATURE,
     .lowest = 0,
     .highest = 130},
    {.key = "condition.cleanliness",
     .label = "dirt",
     .words = grease_classes,
     .dimension = SPT_NO_DIMENSION},
    {.key = "condition.water",
     .label = "water",
     .dimension = SPT_CONTENT,
     .lowest = 25,
     .highest = 5000,
     .fine = 25},
};
#define CONTROLS ((int)(sizeof controls / sizeof *controls))

/* Values without ends of their own lie around the one that is stated: a quarter to four times, in
 * equal ratios. Those of a scenario in the editor move with it, so that no value is out of reach.
 */
static void find_ends(const struct control *control, double value, double *lowest, double *highest)
{
    *lowest = control->lowest;
    *highest = control->highest;
    if (control->signed_) {
        const double most = 2 * fmax(fabs(value), 500);
        *lowest = -most;
        *highest = most;
    } else if (!(control->highest > control->lowest)) {
        *lowest = value > 0 ? value / 4 : 1;
        *highest = value > 0 ? value * 4 : 1000;
    }
    *lowest = fmin(*lowest, value);
    *highest = fmax(*highest, value);
}

static void write_range(struct spt_json *json, const struct control *control, const char *text)
{
    double value, lowest, highest;
    struct spt_unit unit;
    const bool stated =
        text && spt_quantity_read(text, control->dimension, &value) == SPT_QUANTITY_FINE;
    spt_quantity_unit(stated ? text : "", control->dimension, &unit);
    if (!stated)
        value = control->lowest;
    find_ends(control, value, &lowest, &highest);
    spt_json_number(json, "number", (value - unit.offset) / unit.factor);
    spt_json_text(json, "unit", unit.name);
    spt_json_number(json, "lowest", (lowest - unit.offset) / unit.factor);
    spt_json_number(json, "highest", (highest - unit.offset) / unit.factor);
    spt_json_bool(json, "ratios", control->fine > 0 && lowest > 0);
}

static void write_words(struct spt_json *json, const char *const *words, const char *value)
{
    bool listed = false;
    spt_json_open(json, "words", '[');
    for (; *words; words++) {
        spt_json_text(json, NULL, *words);
        listed = listed || !strcmp(*words, value);
    }
    if (!listed)
        spt_json_text(json, NULL, value);
    spt_json_close(json, ']');
}

static void open_control(struct spt_json *json, const char *path, const char *label,
                         const char *value)
{
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "path", path);
    spt_json_text(json, "label", label);
    spt_json_text(json, "value", value);
}

static bool is_quantity(const struct control *control, const char *text)
{
    double value;
    return spt_quantity_read(text, control->dimension, &value) == SPT_QUANTITY_FINE;
}

/* A value that is stated as a word ("estimate") or not as a scalar is no control. */
static void write_control(struct spt_json *json, const struct spt_node *root,
                          const struct control *control, const char *path)
{
    const struct spt_node *node = spt_node_at(root, path);
    const char *text = node && node->kind == SPT_NODE_SCALAR ? node->text : NULL;
    const struct spt_node *section = control->section ? spt_node_at(root, control->section) : NULL;
    const bool open =
        !node && control->always && section && section->kind == SPT_NODE_MAPPING && section->count;
    if (!text && !open)
        return;
    if (text && !control->words && !is_quantity(control, text))
        return;
    open_control(json, path, control->label, text);
    if (control->words)
        write_words(json, strchr(text, '/') ? oil_codes : control->words, text);
    else
        write_range(json, control, text);
    spt_json_close(json, '}');
}

/* The lubricant by its name in a catalog. */
static void write_lubricant(struct spt_json *json, const struct spt_node *root,
                            const struct spt_catalog *catalog)
{
    const struct spt_node *node = spt_node_find(root, "lubricant");
    if (!node || node->kind != SPT_NODE_SCALAR)
        return;
    open_control(json, "lubricant", "lubricant", node->text);
    spt_json_open(json, "words", '[');
    for (int i = 0; i < catalog->count; i++)
        if (catalog->entries[i].kind == SPT_CATALOG_LUBRICANTS)
            spt_json_text(json, NULL, catalog->entries[i].name);
    if (!spt_catalog_find(catalog, SPT_CATALOG_LUBRICANTS, node->text))
        spt_json_text(json, NULL, node->text);
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

static void open_group(struct spt_json *json, const char *title)
{
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "title", title);
    spt_json_open(json, "controls", '[');
}

static void close_group(struct spt_json *json)
{
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

static void write_phase(struct spt_json *json, const struct spt_node *root, int phase)
{
    char path[PATH_LENGTH];
    snprintf(path, sizeof path, "duty.%d.phase", phase);
    const struct spt_node *name = spt_node_at(root, path);
    open_group(json, name && name->kind == SPT_NODE_SCALAR ? name->text : "");
    for (int i = 0; i < CONTROLS; i++) {
        if (controls[i].section)
            continue;
        snprintf(path, sizeof path, "duty.%d.%s", phase, controls[i].key);
        write_control(json, root, &controls[i], path);
    }
    close_group(json);
}

void spt_controls_json(struct spt_json *json, const struct spt_node *root,
                       const struct spt_catalog *catalog)
{
    const struct spt_node *duty = spt_node_find(root, "duty");
    spt_json_open(json, NULL, '[');
    open_group(json, "");
    for (int i = 0; i < CONTROLS; i++) {
        char path[PATH_LENGTH];
        if (!controls[i].section)
            continue;
        snprintf(path, sizeof path, "%s%s%s", controls[i].section, *controls[i].section ? "." : "",
                 controls[i].key);
        write_control(json, root, &controls[i], path);
    }
    write_lubricant(json, root, catalog);
    close_group(json);
    for (int i = 0; duty && duty->kind == SPT_NODE_SEQUENCE && i < duty->count; i++)
        write_phase(json, root, i);
    spt_json_close(json, ']');
}
