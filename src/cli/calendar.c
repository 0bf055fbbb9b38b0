/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/calendar.h"

#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* Position of the reader in the text; it joins folded lines and ends each with NUL. */
struct reader {
    const struct spt_source *source;
    const char *at, *end;
    int line, next_line; /* of the content line, and of the text after it */
    char *text;          /* the content line; capacity for the whole text */
    struct spt_diagnostics *diags;
};

/* "NAME;PARAMETER=X:value" cut in two. */
struct property {
    char *name; /* with its parameters */
    char *value;
};

static const char *find_line_end(const struct reader *r, const char *from)
{
    const char *end = memchr(from, '\n', (size_t)(r->end - from));
    return end ? end : r->end;
}

/* Reads the next content line; a line that begins with a blank continues the one before (section
 * 3.1). */
static bool next_line(struct reader *r)
{
    size_t length = 0;
    if (r->at >= r->end)
        return false;
    r->line = r->next_line;
    do {
        const char *from = r->at + (length > 0), *stop = find_line_end(r, r->at);
        size_t piece = stop > from ? (size_t)(stop - from) : 0;
        memcpy(r->text + length, from, piece);
        length += piece;
        if (length && r->text[length - 1] == '\r')
            length--;
        r->at = stop < r->end ? stop + 1 : r->end;
        r->next_line++;
    } while (length && r->at < r->end && (*r->at == ' ' || *r->at == '\t'));
    r->text[length] = 0;
    return true;
}

/* Finds the colon after the name, which is not inside quotes. */
static bool cut(char *text, struct property *property)
{
    bool quoted = false;
    for (char *at = text; *at; at++) {
        quoted ^= *at == '"';
        if (quoted || *at != ':')
            continue;
        *at = 0;
        *property = (struct property){text, at + 1};
        return true;
    }
    return false;
}

static bool is_named(const struct property *property, const char *name)
{
    size_t length = strcspn(property->name, ";");
    return length == strlen(name) && !strncasecmp(property->name, name, length);
}

static void complain(const struct reader *r, const char *what)
{
    spt_diagnostics_add(r->diags, (struct spt_mark){r->source, r->line, 1}, "%s", what);
}

static const char *keep(struct reader *r, struct spt_arena *arena, const char *text)
{
    const char *kept = spt_arena_text(arena, text, strlen(text));
    r->diags->out_of_memory = r->diags->out_of_memory || !kept;
    return kept;
}

static void take_property(struct reader *r, struct spt_arena *arena,
                          const struct property *property, struct spt_ical_event *event)
{
    char *end;
    if (is_named(property, "UID")) {
        event->uid = keep(r, arena, property->value);
    } else if (is_named(property, "DTSTART")) {
        event->start_name = keep(r, arena, property->name);
        event->start = keep(r, arena, property->value);
    } else if (is_named(property, "SUMMARY") && strlen(property->value) < SPT_ICAL_LINE_MAX / 2) {
        event->summary = keep(r, arena, property->value);
    } else if (is_named(property, "SEQUENCE")) {
        event->sequence = strtol(property->value, &end, 10);
        if (end == property->value || *end || event->sequence < 0 ||
            event->sequence >= SPT_ICAL_SEQUENCE_MAX)
            complain(r,
                     "a SEQUENCE should be a whole number from 0 on (RFC 5545, section 3.8.7.4)");
    }
}

/* Reads an event up to its end; nested components such as an alarm are ignored. False where the
 * text ends earlier. */
static bool read_event(struct reader *r, struct spt_arena *arena, struct spt_ical_event *event)
{
    struct property property;
    int depth = 1, first = r->line;
    *event = (struct spt_ical_event){0};
    while (depth && next_line(r)) {
        if (!cut(r->text, &property))
            continue;
        if (is_named(&property, "BEGIN"))
            depth++;
        else if (is_named(&property, "END"))
            depth--;
        else if (depth == 1)
            take_property(r, arena, &property, event);
    }
    if (depth)
        return false;
    r->line = first;
    if (!event->uid || !event->start)
        complain(r,
                 "this event has no UID or no DTSTART; give the calendar as `schedule` wrote it");
    return true;
}

static int count_events(const struct spt_source *source)
{
    int count = 0;
    for (const char *at = source->text; (at = strstr(at, "VEVENT")); at++)
        count++;
    return count;
}

static bool is_calendar(const struct property *property, const char *mark)
{
    return is_named(property, mark) && !strcasecmp(property->value, "VCALENDAR");
}

/* Reads the calendars of the text after the beginning of the first. A truncated calendar is
 * refused, because the visits after its end would be lost. */
static void read_events(struct reader *r, struct spt_arena *arena, struct spt_ical_event *events,
                        int capacity, int *count)
{
    struct property property;
    bool open = true, whole = true;
    while (whole && next_line(r)) {
        if (!cut(r->text, &property))
            continue;
        if (is_calendar(&property, "BEGIN") || is_calendar(&property, "END"))
            open = is_calendar(&property, "BEGIN");
        else if (is_named(&property, "BEGIN") && !strcmp(property.value, "VEVENT") &&
                 *count < capacity)
            whole = read_event(r, arena, &events[(*count)++]);
    }
    if (!open && whole)
        return;
    r->line = r->next_line - 1; /* the last line; a folded one began earlier */
    complain(r, "the calendar ends here without END:VCALENDAR, so it is not whole; give it as "
                "`schedule` wrote it");
}

bool spt_calendar_read(const struct spt_source *source, struct spt_arena *arena,
                       struct spt_ical_event **events, int *count, struct spt_diagnostics *diags)
{
    struct reader r = {.source = source,
                       .at = source->text,
                       .end = source->text + source->length,
                       .next_line = 1,
                       .diags = diags};
    struct property property;
    int capacity = count_events(source) + 1;
    *count = 0;
    r.text = spt_arena_allocate(arena, source->length + 1);
    *events = spt_arena_allocate(arena, (size_t)capacity * sizeof **events);
    if (!r.text || !*events) {
        diags->out_of_memory = true;
        return false;
    }
    if (next_line(&r) && cut(r.text, &property) && is_calendar(&property, "BEGIN"))
        read_events(&r, arena, *events, capacity, count);
    else
        complain(&r, "a calendar should begin with BEGIN:VCALENDAR (RFC 5545)");
    return !spt_diagnostics_any(diags) && !diags->out_of_memory;
}
