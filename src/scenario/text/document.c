/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/document.h"

#include <stdlib.h>
#include <string.h>
#include <yaml.h>

#include "base/allocate.h"
#include "base/utf8.h"

#define ANCHORS_MAX 256

struct anchor {
    const char *name;
    struct spt_node *node; /* NULL while it is being read */
};

struct reader {
    yaml_parser_t parser;
    const struct spt_source *source;
    struct spt_arena *arena;
    struct spt_diagnostics *diags;
    struct anchor anchors[ANCHORS_MAX];
    int anchor_count;
    int node_count;
};

/* A growing list of members while a sequence or mapping is read; copied into the arena
 * afterwards. */
struct list {
    struct spt_node **members;
    int count;
    int capacity;
};

static struct spt_node *read_node(struct reader *reader, const yaml_event_t *event, int depth);

static struct spt_mark mark_of(const struct reader *reader, yaml_mark_t mark)
{
    return (struct spt_mark){reader->source, (int)mark.line + 1, (int)mark.column + 1};
}

static void *out_of_memory(struct reader *reader)
{
    reader->diags->out_of_memory = true;
    return NULL;
}

/* Byte offset of the character at which the parser failed. */
static size_t find_byte(const struct reader *reader, size_t character)
{
    const struct spt_source *source = reader->source;
    size_t at = spt_utf8_mark_size(source->text, source->length);
    for (; at < source->length && character > 0; character--)
        do
            at++;
        while (at < source->length && ((unsigned char)source->text[at] & 0xC0) == 0x80);
    return at;
}

static bool stands_at_tab(const struct reader *reader, size_t character)
{
    size_t at = find_byte(reader, character);
    return at < reader->source->length && reader->source->text[at] == '\t';
}

static bool stands_at_end(const struct reader *reader, size_t character)
{
    return find_byte(reader, character) >= reader->source->length;
}

/* Name of the unclosed construct in which the parser failed; NULL: none. */
static const char *find_opened(const char *context)
{
    static const char *const contexts[][2] = {{"while scanning a quoted scalar", "quote"},
                                              {"while parsing a flow sequence", "bracket"},
                                              {"while parsing a flow mapping", "brace"}};
    for (size_t i = 0; context && i < sizeof contexts / sizeof *contexts; i++)
        if (!strcmp(context, contexts[i][0]))
            return contexts[i][1];
    return NULL;
}

static bool next_event(struct reader *reader, yaml_event_t *event)
{
    if (yaml_parser_parse(&reader->parser, event))
        return true;
    const yaml_parser_t *parser = &reader->parser;
    if (parser->error == YAML_MEMORY_ERROR) {
        out_of_memory(reader);
        return false;
    }
    const char *opened = find_opened(parser->context);
    if (opened && stands_at_end(reader, parser->problem_mark.index)) {
        spt_diagnostics_add(reader->diags, mark_of(reader, parser->context_mark),
                            "the %s that opens here is not closed; close it, or leave it out",
                            opened);
        return false;
    }
    spt_diagnostics_add(reader->diags, mark_of(reader, parser->problem_mark),
                        "this is not valid YAML: %s%s%s; mend the line (%s)",
                        parser->problem ? parser->problem : "unreadable",
                        parser->context ? " " : "", parser->context ? parser->context : "",
                        stands_at_tab(reader, parser->problem_mark.index)
                            ? "there is a tab: indent with blanks"
                            : "indent with blanks, `key: value`");
    return false;
}

static struct spt_node *new_node(struct reader *reader, enum spt_node_kind kind, yaml_mark_t mark)
{
    struct spt_node *node = spt_arena_allocate(reader->arena, sizeof *node);
    if (!node)
        return out_of_memory(reader);
    node->kind = kind;
    node->mark = mark_of(reader, mark);
    node->weight = 1;
    return node;
}

static bool push(struct list *list, struct spt_node *node)
{
    if (list->count == list->capacity) {
        int capacity = list->capacity ? 2 * list->capacity : 16;
        struct spt_node **members = spt_allocate((size_t)capacity * sizeof *members);
        if (!members)
            return false;
        if (list->count)
            memcpy(members, list->members, (size_t)list->count * sizeof *members);
        free(list->members);
        list->members = members;
        list->capacity = capacity;
    }
    list->members[list->count++] = node;
    return true;
}

static struct spt_node **copy_members(struct reader *reader, const struct list *list)
{
    size_t size = (size_t)list->count * sizeof *list->members;
    struct spt_node **members = spt_arena_allocate(reader->arena, size ? size : 1);
    if (!members)
        return out_of_memory(reader);
    if (size)
        memcpy(members, list->members, size);
    return members;
}

static bool start_anchor(struct reader *reader, const yaml_char_t *name, yaml_mark_t mark,
                         struct anchor **anchor)
{
    *anchor = NULL;
    if (!name)
        return true;
    if (reader->anchor_count == ANCHORS_MAX) {
        spt_diagnostics_add(reader->diags, mark_of(reader, mark),
                            "more than %d anchors; write the values out", ANCHORS_MAX);
        return false;
    }
    const char *copy =
        spt_arena_text(reader->arena, (const char *)name, strlen((const char *)name));
    if (!copy)
        return out_of_memory(reader) != NULL;
    *anchor = &reader->anchors[reader->anchor_count++];
    **anchor = (struct anchor){copy, NULL};
    return true;
}

static struct spt_node *follow_alias(struct reader *reader, const yaml_event_t *event)
{
    const char *name = (const char *)event->data.alias.anchor;
    for (int i = reader->anchor_count; i-- > 0;) {
        if (strcmp(reader->anchors[i].name, name) != 0)
            continue;
        if (reader->anchors[i].node)
            return reader->anchors[i].node;
        spt_diagnostics_add(reader->diags, mark_of(reader, event->start_mark),
                            "the alias *%s stands inside its own anchor; write the value out",
                            name);
        return NULL;
    }
    spt_diagnostics_add(reader->diags, mark_of(reader, event->start_mark),
                        "the alias *%s has no anchor &%s before it", name, name);
    return NULL;
}

static bool add_weight(struct reader *reader, struct spt_node *node, const struct spt_node *member)
{
    node->weight += member->weight;
    if (node->weight <= SPT_DOCUMENT_NODES_MAX)
        return true;
    spt_diagnostics_add(reader->diags, node->mark,
                        "this unfolds to more than %d values (aliases of aliases?); "
                        "write fewer",
                        SPT_DOCUMENT_NODES_MAX);
    return false;
}

/* The bytes of the file were checked before; this finds characters from YAML escapes. */
static bool check_characters(struct reader *reader, const struct spt_node *node)
{
    int line, column;
    if (!spt_utf8_problem(node->text, node->length, &line, &column))
        return true;
    spt_diagnostics_add(reader->diags, node->mark,
                        "this text holds a control character, written as an escape such as \\x1b; "
                        "delete it");
    return false;
}

static struct spt_node *read_scalar(struct reader *reader, const yaml_event_t *event)
{
    struct spt_node *node = new_node(reader, SPT_NODE_SCALAR, event->start_mark);
    if (!node)
        return NULL;
    node->length = event->data.scalar.length;
    node->text = spt_arena_text(reader->arena, (const char *)event->data.scalar.value,
                                event->data.scalar.length);
    node->quoted = event->data.scalar.style != YAML_PLAIN_SCALAR_STYLE;
    if (!node->text)
        return out_of_memory(reader);
    return check_characters(reader, node) ? node : NULL;
}

/* Reads the members up to the end event of the container. */
static bool read_members(struct reader *reader, yaml_event_type_t end, int depth,
                         struct spt_node *node, struct list *list)
{
    for (;;) {
        yaml_event_t event;
        if (!next_event(reader, &event))
            return false;
        if (event.type == end) {
            yaml_event_delete(&event);
            return true;
        }
        struct spt_node *member = read_node(reader, &event, depth + 1);
        yaml_event_delete(&event);
        if (!member || !add_weight(reader, node, member))
            return false;
        if (!push(list, member))
            return out_of_memory(reader) != NULL;
    }
}

static struct spt_node *read_sequence(struct reader *reader, const yaml_event_t *event, int depth)
{
    struct spt_node *node = new_node(reader, SPT_NODE_SEQUENCE, event->start_mark);
    struct list list = {0};
    if (node && read_members(reader, YAML_SEQUENCE_END_EVENT, depth, node, &list)) {
        node->items = copy_members(reader, &list);
        node->count = list.count;
    } else {
        node = NULL;
    }
    free(list.members);
    return node && node->items ? node : NULL;
}

static bool keys_are_sound(struct reader *reader, const struct spt_node *node)
{
    for (int i = 0; i < node->count; i++) {
        const struct spt_node *key = node->keys[i];
        if (key->kind != SPT_NODE_SCALAR) {
            spt_diagnostics_add(reader->diags, key->mark, "a key must be a plain word");
            return false;
        }
        for (int j = 0; j < i; j++)
            if (!strcmp(node->keys[j]->text, key->text)) {
                spt_diagnostics_add(
                    reader->diags, key->mark,
                    "the key `%.60s` stands here twice (first in line %d); keep one", key->text,
                    node->keys[j]->mark.line);
                break;
            }
    }
    return true;
}

static bool split_pairs(struct reader *reader, struct spt_node *node, struct spt_node **members)
{
    size_t size = (size_t)node->count * sizeof *members;
    node->keys = spt_arena_allocate(reader->arena, size ? size : 1);
    node->items = spt_arena_allocate(reader->arena, size ? size : 1);
    if (!node->keys || !node->items)
        return out_of_memory(reader) != NULL;
    for (int i = 0; i < node->count; i++) {
        node->keys[i] = members[2 * i];
        node->items[i] = members[2 * i + 1];
    }
    return true;
}

#define MAPPING_KEYS_MAX 2000 /* limits the time of the search for repeated keys */

static struct spt_node *read_mapping(struct reader *reader, const yaml_event_t *event, int depth)
{
    struct spt_node *node = new_node(reader, SPT_NODE_MAPPING, event->start_mark);
    struct list list = {0};
    bool sound = node && read_members(reader, YAML_MAPPING_END_EVENT, depth, node, &list);
    if (sound) {
        node->count = list.count / 2;
        if (node->count > MAPPING_KEYS_MAX) {
            spt_diagnostics_add(reader->diags, node->mark, "more than %d keys in one mapping",
                                MAPPING_KEYS_MAX);
            sound = false;
        } else {
            sound = split_pairs(reader, node, list.members) && keys_are_sound(reader, node);
        }
    }
    free(list.members);
    return sound ? node : NULL;
}

static bool refuse_tag(struct reader *reader, const yaml_char_t *tag, yaml_mark_t mark)
{
    if (!tag || !strcmp((const char *)tag, "!"))
        return false;
    spt_diagnostics_add(reader->diags, mark_of(reader, mark),
                        "the tag %.60s is not used here; leave it out", (const char *)tag);
    return true;
}

static struct spt_node *read_container(struct reader *reader, const yaml_event_t *event, int depth)
{
    if (depth >= SPT_DOCUMENT_DEPTH_MAX) {
        spt_diagnostics_add(reader->diags, mark_of(reader, event->start_mark),
                            "nested deeper than %d levels", SPT_DOCUMENT_DEPTH_MAX);
        return NULL;
    }
    if (event->type == YAML_SEQUENCE_START_EVENT)
        return read_sequence(reader, event, depth);
    return read_mapping(reader, event, depth);
}

static struct spt_node *read_anchored(struct reader *reader, const yaml_event_t *event, int depth,
                                      const yaml_char_t *name, const yaml_char_t *tag)
{
    struct anchor *anchor = NULL;
    if (refuse_tag(reader, tag, event->start_mark) ||
        !start_anchor(reader, name, event->start_mark, &anchor))
        return NULL;
    struct spt_node *node = event->type == YAML_SCALAR_EVENT ? read_scalar(reader, event)
                                                             : read_container(reader, event, depth);
    if (anchor)
        anchor->node = node;
    return node;
}

static struct spt_node *read_node(struct reader *reader, const yaml_event_t *event, int depth)
{
    if (++reader->node_count > SPT_DOCUMENT_NODES_MAX) {
        spt_diagnostics_add(reader->diags, mark_of(reader, event->start_mark),
                            "more than %d values in one file", SPT_DOCUMENT_NODES_MAX);
        return NULL;
    }
    if (event->type == YAML_ALIAS_EVENT)
        return follow_alias(reader, event);
    if (event->type == YAML_SCALAR_EVENT)
        return read_anchored(reader, event, depth, event->data.scalar.anchor,
                             event->data.scalar.tag);
    if (event->type == YAML_SEQUENCE_START_EVENT)
        return read_anchored(reader, event, depth, event->data.sequence_start.anchor,
                             event->data.sequence_start.tag);
    return read_anchored(reader, event, depth, event->data.mapping_start.anchor,
                         event->data.mapping_start.tag);
}

/* Consumes one event, which must be of the given type. */
static bool expect(struct reader *reader, yaml_event_type_t type, yaml_event_type_t *found,
                   yaml_mark_t *mark)
{
    yaml_event_t event;
    if (!next_event(reader, &event))
        return false;
    *found = event.type;
    *mark = event.start_mark;
    yaml_event_delete(&event);
    return *found == type;
}

static struct spt_node *read_root(struct reader *reader)
{
    yaml_event_type_t found = YAML_NO_EVENT;
    yaml_mark_t mark = {0};
    if (!expect(reader, YAML_STREAM_START_EVENT, &found, &mark))
        return NULL;
    if (!expect(reader, YAML_DOCUMENT_START_EVENT, &found, &mark)) {
        if (found == YAML_STREAM_END_EVENT)
            spt_diagnostics_add(reader->diags, (struct spt_mark){reader->source, 1, 1},
                                "the file is empty; start with `title:`");
        return NULL;
    }
    yaml_event_t event;
    if (!next_event(reader, &event))
        return NULL;
    struct spt_node *root = read_node(reader, &event, 0);
    yaml_event_delete(&event);
    if (!root || !expect(reader, YAML_DOCUMENT_END_EVENT, &found, &mark))
        return NULL;
    if (expect(reader, YAML_STREAM_END_EVENT, &found, &mark))
        return root;
    if (found == YAML_DOCUMENT_START_EVENT)
        spt_diagnostics_add(reader->diags, mark_of(reader, mark),
                            "a second document starts here; keep one to a file");
    return NULL;
}

static bool text_is_sound(const struct spt_source *source, struct spt_diagnostics *diags)
{
    if (source->length > SPT_DOCUMENT_BYTES_MAX) {
        spt_diagnostics_add(diags, (struct spt_mark){source, 0, 0},
                            "%zu bytes are too many; the limit is %d", source->length,
                            SPT_DOCUMENT_BYTES_MAX);
        return false;
    }
    struct spt_mark mark = {source, 1, 1};
    size_t skipped = spt_utf8_mark_size(source->text, source->length);
    const char *problem = spt_utf8_problem(source->text + skipped, source->length - skipped,
                                           &mark.line, &mark.column);
    if (problem)
        spt_diagnostics_add(diags, mark, "%s", problem);
    return !problem;
}

struct spt_node *spt_document_read(const struct spt_source *source, struct spt_arena *arena,
                                   struct spt_diagnostics *diags)
{
    if (!text_is_sound(source, diags))
        return NULL;
    struct reader *reader = spt_allocate(sizeof *reader);
    if (!reader) {
        diags->out_of_memory = true;
        return NULL;
    }
    *reader = (struct reader){.source = source, .arena = arena, .diags = diags};
    struct spt_node *root = NULL;
    if (yaml_parser_initialize(&reader->parser)) {
        /* libyaml, told that the text is UTF-8, would treat the byte-order mark as the first
         * character */
        size_t skipped = spt_utf8_mark_size(source->text, source->length);
        yaml_parser_set_input_string(&reader->parser, (const unsigned char *)source->text + skipped,
                                     source->length - skipped);
        yaml_parser_set_encoding(&reader->parser, YAML_UTF8_ENCODING);
        root = read_root(reader);
        yaml_parser_delete(&reader->parser);
    } else {
        diags->out_of_memory = true;
    }
    free(reader);
    return spt_diagnostics_any(diags) ? NULL : root;
}

const struct spt_node *spt_node_find(const struct spt_node *mapping, const char *key)
{
    if (!mapping || mapping->kind != SPT_NODE_MAPPING)
        return NULL;
    for (int i = 0; i < mapping->count; i++)
        if (!strcmp(mapping->keys[i]->text, key))
            return mapping->items[i];
    return NULL;
}

struct spt_mark spt_node_mark(const struct spt_node *mapping, const char *key)
{
    const struct spt_node *value = spt_node_find(mapping, key);
    return value ? value->mark : mapping->mark;
}
