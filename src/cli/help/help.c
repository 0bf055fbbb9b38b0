/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/help/help.h"

#include <string.h>

#include "sentence/notes.h"
#include "spalltime/version.h"

#define OVERVIEW "spalltime" /* the text of the manual about the program as a whole */

/* A term and what it means. */
struct entry {
    const char *term, *meaning;
};
#define TERM_LEAST 10
#define TERM_MOST 28

static void add_entries(struct spt_page *page, const char *head, struct entry *entries, int count)
{
    static const struct spt_column columns[] = {
        {.head = "", .gap = 2, .at = offsetof(struct entry, term)},
        {.head = "what it does", .gap = 2, .at = offsetof(struct entry, meaning)},
    };
    struct spt_column *made = spt_page_columns(page, columns, 2);
    if (!made || !entries)
        return;
    made[0].head = head;
    made[0].width = TERM_LEAST;
    for (int i = 0; i < count; i++) {
        const int length = spt_text_length(entries[i].term);
        made[0].width = length > made[0].width ? length : made[0].width;
    }
    made[0].width = made[0].width < TERM_MOST ? made[0].width : TERM_MOST;
    spt_page_table(page, "",
                   &(struct spt_table){.columns = made,
                                       .column_count = 2,
                                       .rows = entries,
                                       .row_size = sizeof *entries,
                                       .row_count = count,
                                       .heads = SPT_HEADS_ABOVE}); /* text has none */
}

static void add_commands(struct spt_page *page)
{
    struct entry *entries = spt_page_allocate(page, (size_t)spt_command_count * sizeof *entries);
    spt_page_open(page, "Commands");
    for (int i = 0; entries && i < spt_command_count; i++)
        entries[i] = (struct entry){spt_command_table[i].name, spt_command_table[i].summary};
    add_entries(page, "command", entries, spt_command_count);
    spt_page_close(page);
}

/* The texts of the manual that are about no command. */
static void add_topics(struct spt_page *page)
{
    struct entry *entries = spt_page_allocate(page, (size_t)spt_manual_count * sizeof *entries);
    int count = 0;
    spt_page_open(page, "Topics");
    for (int i = 0; entries && i < spt_manual_count; i++) {
        const struct spt_manual_text *text = &spt_manual_texts[i];
        if (!spt_command_find(text->name) && strcmp(text->name, OVERVIEW) != 0)
            entries[count++] = (struct entry){text->name, spt_manual_summary(text)};
    }
    add_entries(page, "topic", entries, count);
    spt_page_close(page);
}

static const char *name_option(struct spt_page *page, const struct spt_option *option)
{
    return spt_page_words(page, "%s%s%s%s%s", option->alias ? option->alias : "",
                          option->alias ? ", " : "", option->name, option->value ? " " : "",
                          option->value ? option->value : "");
}

static void add_options(struct spt_page *page, const struct spt_command *command,
                        enum spt_option_group group, const char *heading)
{
    struct entry *entries = spt_page_allocate(page, (size_t)spt_option_count * sizeof *entries);
    int count = 0;
    for (int i = 0; entries && i < spt_option_count; i++) {
        const struct spt_option *option = &spt_option_table[i];
        if (command->takes & option->bit && option->group == group)
            entries[count++] = (struct entry){name_option(page, option), option->help};
    }
    spt_page_open(page, "%s", heading);
    add_entries(page, "option", entries, count);
    spt_page_close(page);
}

static const char *write_usage(struct spt_page *page, const struct spt_command *command)
{
    return spt_page_words(page, "spalltime %s%s%s%s", command->name,
                          command->takes ? " [OPTION]..." : "", *command->arguments ? " " : "",
                          command->arguments);
}

static void add_command(struct spt_page *page, const struct spt_command *command,
                        const struct spt_manual_text *text)
{
    spt_manual_page(text, SPT_MANUAL_LEAD, page);
    add_options(page, command, SPT_OPTION_OWN, "Options of this command");
    add_options(page, command, SPT_OPTION_INPUT, "Options for what it reads");
    add_options(page, command, SPT_OPTION_OUTPUT, "Options for what it writes");
    spt_manual_page(text, SPT_MANUAL_REST, page);
}

static void add_overview(struct spt_page *page)
{
    spt_page_say(page, SPT_BODY, "usage: ", "spalltime COMMAND [OPTION]... [FILE]...");
    add_commands(page);
    add_topics(page);
    spt_page_open(page, "%s", "");
    spt_page_say(page, SPT_BODY, "",
                 "`spalltime help NAME` explains a command or a topic; FILE may be - for standard "
                 "input.");
    spt_page_close(page);
}

/* The text itself, with what the tables of commands and options know. */
static void add_text(struct spt_page *page, const struct spt_manual_text *text)
{
    const struct spt_command *command = spt_command_find(text->name);
    if (command) {
        add_command(page, command, text);
        return;
    }
    spt_manual_page(text, SPT_MANUAL_LEAD, page);
    if (!strcmp(text->name, OVERVIEW)) {
        add_commands(page);
        add_topics(page);
    }
    spt_manual_page(text, SPT_MANUAL_REST, page);
}

void spt_help_page(struct spt_page *page, const struct spt_manual_text *text)
{
    const struct spt_command *command = text ? spt_command_find(text->name) : NULL;
    if (!text) {
        add_overview(page);
        return;
    }
    if (command)
        spt_page_say(page, SPT_BODY, "usage: ", "%s", write_usage(page, command));
    add_text(page, text);
}

bool spt_help_man(struct spt_arena *arena, const struct spt_manual_text *text, FILE *out)
{
    struct spt_page *page = spt_page_new(arena, NULL);
    const bool whole = !strcmp(text->name, OVERVIEW);
    const struct spt_command *command = spt_command_find(text->name);
    if (!page)
        return false;
    fprintf(out, ".TH spalltime%s%s %d \"\" \"spalltime %s\" \"spalltime\"\n", whole ? "" : "\\-",
            whole ? "" : text->name, spt_manual_section(text), SPT_VERSION);
    fprintf(out, ".SH NAME\nspalltime%s%s \\- ", whole ? "" : "\\-", whole ? "" : text->name);
    spt_roff(out, spt_manual_summary(text));
    fputs("\n.SH SYNOPSIS\n", out);
    spt_roff(out, command ? write_usage(page, command)
                  : whole ? "spalltime COMMAND [OPTION]... [FILE]..."
                          : spt_page_words(page, "spalltime help %s", text->name));
    fputs("\n.SH DESCRIPTION\n", out);
    add_text(page, text);
    spt_page_cautions(page);
    spt_page_roff(page, out);
    return spt_page_is_whole(page);
}
