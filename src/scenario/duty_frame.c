/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "scenario/build/build.h"

#define KEYS_MAX 16
#define SHARED_BYTES_MAX ((size_t)65536)

/* Every key of a phase except its name and time, with a placeholder for the column of the history,
 * and the keys that are not allowed together with that column. */
static const struct {
    const char *key, *stand_in;
    const char *drops[3];
} phase_keys[] = {
    {"radial_load", "1000 N", {"equivalent_load"}},
    {"axial_load", "200 N", {"equivalent_load"}},
    {"equivalent_load", "1000 N", {"radial_load", "axial_load"}},
    {"wheel_load", "1000 N", {NULL}},
    {"side_force", "100 N", {"side_share"}},
    {"side_share", NULL, {NULL}},
    {"speed", "1 rpm", {"road_speed"}},
    {"road_speed", "1 km/h", {"speed"}},
    {"temperature", "20 degC", {"ambient", "extra_heat", "cooling"}},
    {"ambient", NULL, {NULL}},
    {"extra_heat", NULL, {NULL}},
    {"cooling", NULL, {NULL}},
    {"condition", NULL, {NULL}},
};
#define PHASE_KEYS ((int)(sizeof phase_keys / sizeof *phase_keys))
#define LOAD_KEYS 6 /* the first ones are loads: each phase of the binned duty states its own */

/* The keys of the history, and the keys that they replace. */
struct given {
    const struct spt_given_key *keys;
    int count;
};

static const struct spt_given_key *find_given(const struct given *given, const char *key)
{
    for (int i = 0; i < given->count; i++)
        if (!strcmp(given->keys[i].key, key))
            return &given->keys[i];
    return NULL;
}

static bool is_dropped(const struct given *given, const char *key)
{
    for (int i = 0; i < PHASE_KEYS; i++)
        for (int j = 0; j < 3 && find_given(given, phase_keys[i].key); j++)
            if (phase_keys[i].drops[j] && !strcmp(phase_keys[i].drops[j], key))
                return true;
    return find_given(given, key) != NULL;
}

static bool are_alike(const struct spt_node *a, const struct spt_node *b)
{
    if (!a || !b)
        return a == b;
    if (a->kind != b->kind)
        return false;
    if (a->kind == SPT_NODE_SCALAR)
        return a->length == b->length && !memcmp(a->text, b->text, a->length);
    if (a->count != b->count)
        return false;
    for (int i = 0; i < a->count; i++)
        if (!are_alike(a->items[i], b->items[i]) ||
            (a->kind == SPT_NODE_MAPPING && !are_alike(a->keys[i], b->keys[i])))
            return false;
    return true;
}

/* The value that all phases have under a key; NULL where they have none, or different ones. */
static const struct spt_node *find_shared(struct spt_build *build, const struct spt_node *duty,
                                          const char *key, bool in_column)
{
    const struct spt_node *first = spt_node_find(duty->items[0], key);
    for (int i = 1; i < duty->count; i++)
        if (!are_alike(first, spt_node_find(duty->items[i], key))) {
            spt_diagnostics_add(build->diags, spt_node_mark(duty->items[i], key),
                                "`%s` differs between the phases, and the history %s one value in "
                                "every phase",
                                key,
                                in_column ? "has no such column; add one to it, or state"
                                          : "cannot tell when which holds; state");
            return NULL;
        }
    return first;
}

static struct spt_node *make_scalar(struct spt_build *build, const char *text, struct spt_mark mark)
{
    struct spt_node *node = spt_arena_allocate(build->arena, sizeof *node);
    if (node)
        *node = (struct spt_node){.kind = SPT_NODE_SCALAR,
                                  .mark = mark,
                                  .text = text,
                                  .length = strlen(text),
                                  .weight = 1};
    else
        build->diags->out_of_memory = true;
    return node;
}

static void put(struct spt_build *build, struct spt_node *mapping, const char *key,
                const struct spt_node *value)
{
    struct spt_node *name = make_scalar(build, key, value->mark);
    struct spt_node *copy = spt_arena_allocate(build->arena, sizeof *copy);
    if (!name || !copy) {
        build->diags->out_of_memory = true;
        return;
    }
    *copy = *value;
    mapping->keys[mapping->count] = name;
    mapping->items[mapping->count++] = copy;
}

static void put_text(struct spt_build *build, struct spt_node *mapping, const char *key,
                     const char *text, struct spt_mark mark)
{
    const struct spt_node *value = make_scalar(build, text, mark);
    if (value)
        put(build, mapping, key, value);
}

static struct spt_node *make_list(struct spt_build *build, enum spt_node_kind kind, int capacity,
                                  struct spt_mark mark)
{
    struct spt_node *node = spt_arena_allocate(build->arena, sizeof *node);
    struct spt_node **members =
        spt_arena_allocate(build->arena, 2 * (size_t)capacity * sizeof *members);
    if (!node || !members) {
        build->diags->out_of_memory = true;
        return NULL;
    }
    *node =
        (struct spt_node){.kind = kind, .mark = mark, .items = members, .keys = members + capacity};
    return node;
}

static bool is_duty(const struct spt_node *duty)
{
    bool fine = duty->kind == SPT_NODE_SEQUENCE && duty->count > 0;
    for (int i = 0; fine && i < duty->count; i++)
        fine = duty->items[i]->kind == SPT_NODE_MAPPING;
    return fine;
}

static bool is_known(const char *key)
{
    for (int i = 0; i < PHASE_KEYS; i++)
        if (!strcmp(phase_keys[i].key, key))
            return true;
    return !strcmp(key, "phase") || !strcmp(key, "time");
}

/* Adds a key that phases do not have, so that the builder rejects it with its own message. */
static void put_unknown(const struct spt_node *duty, struct spt_node *phase)
{
    for (int i = 0; i < duty->count; i++)
        for (int j = 0; j < duty->items[i]->count; j++)
            if (!is_known(duty->items[i]->keys[j]->text)) {
                phase->keys[phase->count] = duty->items[i]->keys[j];
                phase->items[phase->count++] = duty->items[i]->items[j];
                return;
            }
}

/* Makes the single phase: name, all of the time, placeholders for the history, and what the phases
 * share. */
static struct spt_node *make_phase(struct spt_build *build, const struct spt_node *root,
                                   const struct spt_node *duty, const struct given *given)
{
    struct spt_node *phase =
        make_list(build, SPT_NODE_MAPPING, KEYS_MAX, duty ? duty->items[0]->mark : root->mark);
    if (!phase)
        return NULL;
    put_text(build, phase, "phase", "history", phase->mark);
    put_text(build, phase, "time", "100 %", phase->mark);
    for (int i = 0; i < PHASE_KEYS; i++) {
        const char *key = phase_keys[i].key;
        const struct spt_given_key *column = find_given(given, key);
        const struct spt_node *shared = NULL;
        if (column)
            put_text(build, phase, key, phase_keys[i].stand_in, column->mark);
        else if (duty && !is_dropped(given, key))
            shared = find_shared(build, duty, key, phase_keys[i].stand_in != NULL);
        if (shared)
            put(build, phase, key, shared);
    }
    if (duty)
        put_unknown(duty, phase);
    return phase;
}

static void put_duty(struct spt_node *root, struct spt_node *key, struct spt_node *duty)
{
    for (int i = 0; i < root->count; i++)
        if (!strcmp(root->keys[i]->text, "duty")) {
            root->items[i] = duty;
            return;
        }
    root->keys[root->count] = key;
    root->items[root->count++] = duty;
}

/* True where any phase of the duty (NULL: no duty) has the key. */
static bool is_stated(const struct spt_node *duty, const char *key)
{
    for (int i = 0; key && duty && i < duty->count; i++)
        if (spt_node_find(duty->items[i], key))
            return true;
    return false;
}

/* Reports keys that neither the history nor the duty has; phases that differ have been reported
 * already. */
static void check_stated(struct spt_build *build, const struct spt_node *duty,
                         const struct spt_node *phase, const struct given *given)
{
    static const char *const needed[][3] = {{"speed", "road_speed", "speed [rpm]"},
                                            {"temperature", NULL, "temperature [degC]"}};
    for (int i = 0; i < 2; i++)
        if (!spt_node_find(phase, needed[i][0]) && !is_stated(duty, needed[i][0]) &&
            !(needed[i][1] && spt_node_find(phase, needed[i][1])) && !is_stated(duty, needed[i][1]))
            spt_diagnostics_add(build->diags, given->keys[0].mark,
                                "neither the history nor the duty of the scenario states `%s`; "
                                "add a column `%s`, or the key to each phase",
                                needed[i][0], needed[i][2]);
}

/* ---- the shared keys as text ------------------------------------------------------------------
 */

struct writer {
    char *text;
    size_t used;
    bool full;
};

static void write_bytes(struct writer *out, const char *bytes, size_t length)
{
    if (out->used + length >= SHARED_BYTES_MAX)
        out->full = true;
    else
        memcpy(out->text + out->used, bytes, length);
    out->used += out->full ? 0 : length;
}

static void write_words(struct writer *out, const char *words)
{
    write_bytes(out, words, strlen(words));
}

/* Writes a scalar without quotes where possible, else in double quotes. */
static void write_scalar(struct writer *out, const struct spt_node *node)
{
    bool plain = !node->quoted && node->length > 0 &&
                 strcspn(node->text, ",[]{}#:\"'\\\n&*!|>%@`") == node->length;
    if (plain) {
        write_bytes(out, node->text, node->length);
        return;
    }
    write_words(out, "\"");
    for (size_t i = 0; i < node->length; i++) {
        char byte = node->text[i];
        if (byte == '"' || byte == '\\')
            write_words(out, "\\");
        if (byte == '\n' || byte == '\t')
            write_words(out, byte == '\n' ? "\\n" : "\\t");
        else
            write_bytes(out, &byte, 1);
    }
    write_words(out, "\"");
}

static void write_node(struct writer *out, const struct spt_node *node)
{
    bool mapping = node->kind == SPT_NODE_MAPPING;
    if (node->kind == SPT_NODE_SCALAR) {
        write_scalar(out, node);
        return;
    }
    write_words(out, mapping ? "{" : "[");
    for (int i = 0; i < node->count; i++) {
        write_words(out, i ? ", " : "");
        if (mapping) {
            write_scalar(out, node->keys[i]);
            write_words(out, ": ");
        }
        write_node(out, node->items[i]);
    }
    write_words(out, mapping ? "}" : "]");
}

static const char *write_shared(struct spt_build *build, const struct spt_node *phase,
                                const struct given *given)
{
    struct writer out = {.text = spt_arena_allocate(build->arena, SHARED_BYTES_MAX)};
    if (!out.text) {
        build->diags->out_of_memory = true;
        return NULL;
    }
    for (int i = LOAD_KEYS; i < PHASE_KEYS; i++) {
        const struct spt_node *value = spt_node_find(phase, phase_keys[i].key);
        if (!value || find_given(given, phase_keys[i].key))
            continue;
        write_words(&out, ", ");
        write_words(&out, phase_keys[i].key);
        write_words(&out, ": ");
        write_node(&out, value);
    }
    if (out.full)
        spt_diagnostics_add(build->diags, phase->mark,
                            "what the phases share is too long to be repeated in each bin");
    return out.text;
}

bool spt_scenario_frame(const struct spt_source *source, const struct spt_catalog *catalog,
                        const struct spt_given_key *keys, int count, struct spt_scenario *scenario,
                        struct spt_duty_frame *frame, struct spt_diagnostics *diags)
{
    struct spt_build build = {.catalog = catalog, .diags = diags};
    struct given given = {keys, count};
    struct spt_node *root = spt_build_root(&build, source, scenario);
    if (!root)
        return false;
    const struct spt_node *stated = spt_node_find(root, "duty");
    struct spt_node *phase = NULL;
    if (!stated || is_duty(stated)) { /* else the builder reports what is wrong with it */
        phase = make_phase(&build, root, stated, &given);
        struct spt_node *duty =
            make_list(&build, SPT_NODE_SEQUENCE, 1, stated ? stated->mark : root->mark);
        struct spt_node *key = make_scalar(&build, "duty", root->mark);
        if (!phase || !duty || !key)
            return false;
        check_stated(&build, stated, phase, &given);
        duty->items[duty->count++] = phase;
        put_duty(root, key, duty);
    }
    if (spt_diagnostics_any(diags))
        return false;
    struct spt_case *question = &scenario->base.question;
    spt_build_case(&build, root, question);
    if (spt_diagnostics_any(diags) || !phase)
        return false;
    frame->phase = &question->bearings[0].phases[0];
    const struct spt_hub_case *hub = question->hub ? question->hub : question->sheet_hub;
    frame->wheel = hub ? &hub->wheels[0] : NULL;
    frame->side_share = frame->wheel && spt_node_find(phase, "side_share")
                            ? frame->wheel->side_n / frame->wheel->radial_n
                            : (double)NAN;
    frame->shared = write_shared(&build, phase, &given);
    return !spt_diagnostics_any(diags);
}

bool spt_build_put_duty(struct spt_build *build, struct spt_node *root)
{
    const struct spt_node *text =
        spt_document_read(build->binned->source, build->arena, build->diags);
    const struct spt_node *found = text ? spt_node_find(text, "duty") : NULL;
    struct spt_node *duty = found ? spt_arena_allocate(build->arena, sizeof *duty) : NULL;
    struct spt_node *key = duty ? make_scalar(build, "duty", found->mark) : NULL;
    if (!key)
        return false;
    *duty = *found;
    put_duty(root, key, duty);
    return true;
}
