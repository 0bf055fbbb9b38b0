/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stddef.h>
#include <string.h>
#include <strings.h>

#include "answer/catalog/guide_parts.h"
#include "base/table.h"

#define WORDS_LENGTH 600

void spt_guide_say_part(struct spt_page *page, const char *heading,
                        const struct spt_guide_entry *entry, enum spt_guide_part part)
{
    const struct spt_lines *lines = &entry->parts[part];
    spt_page_open(page, "%s", heading);
    for (int i = 0; i < lines->count; i++)
        spt_page_say(page, SPT_BODY, "- ", "%s", lines->lines[i]);
    spt_page_close(page);
}

static void say_words(struct spt_page *page, const struct spt_guide_entry *entry)
{
    char words[WORDS_LENGTH] = "";
    size_t used = 0;
    const struct spt_lines *lines = &entry->parts[SPT_GUIDE_WORDS];
    for (int i = 0; i < lines->count && used + strlen(lines->lines[i]) + 3 < sizeof words; i++)
        used += (size_t)snprintf(words + used, sizeof words - used, "%s%s", used ? ", " : "",
                                 lines->lines[i]);
    spt_page_say(page, SPT_BODY, "Also called: ", "%s", words);
}

void spt_guide_say_names(struct spt_page *page, const struct spt_guide_entry *entry)
{
    bool whole_group = !strcasecmp(entry->iso_name, entry->group);
    spt_page_say(page, SPT_BODY, "", "%sISO 15243:2017 %s %s%s%s%s",
                 entry->pattern ? "A pattern of the trade, filed under " : "", entry->clause,
                 entry->iso_name, whole_group ? "" : " (", whole_group ? "" : entry->group,
                 whole_group ? "" : ")");
    say_words(page, entry);
}

void spt_guide_say_quantified(struct spt_page *page, const struct spt_guide_entry *entry)
{
    static const char *const sentences[] = {
        [SPT_QUANTIFIED_NO] = "The model cannot quantify this mode.",
        [SPT_QUANTIFIED_PARTLY] = "The model quantifies this mode only in part.",
        [SPT_QUANTIFIED_YES] = "The model quantifies this mode: it is what a rating life is about.",
    };
    SPT_ONE_EACH(sentences, SPT_QUANTIFIED_COUNT);
    spt_page_say(page, SPT_BODY, "", "%s", sentences[entry->quantified]);
}

static void say_model(struct spt_page *page, const struct spt_guide_entry *entry)
{
    const struct spt_lines *lines = &entry->parts[SPT_GUIDE_MODEL_CAN];
    spt_page_open(page, "What the model can say");
    spt_guide_say_quantified(page, entry);
    for (int i = 0; i < lines->count; i++)
        spt_page_say(page, SPT_BODY, "- ", "%s", lines->lines[i]);
    spt_page_say(page, SPT_BODY, "", "Causes of lost life behind it: %s.",
                 spt_guide_page_causes(page, entry->model_causes));
    spt_page_close(page);
    spt_guide_say_part(page, "What it cannot say", entry, SPT_GUIDE_MODEL_CANNOT);
}

/* A line of the mode with the key of its part. */
struct line_row {
    const char *mode, *part, *line;
};

/* The rows as far as they are filled. */
struct lines {
    const char *mode;
    struct line_row *rows;
    int count;
};

static void add_line(struct lines *lines, const char *part, const char *line)
{
    if (lines->rows)
        lines->rows[lines->count++] = (struct line_row){lines->mode, part, line};
}

static void add_parts(struct lines *lines, const struct spt_guide_entry *entry)
{
    for (int part = SPT_GUIDE_WORDS; part < SPT_GUIDE_PART_COUNT; part++)
        for (int i = 0; i < entry->parts[part].count; i++)
            add_line(lines, spt_guide_part_name((enum spt_guide_part)part),
                     entry->parts[part].lines[i]);
}

static int count_lines(const struct spt_guide_entry *entry)
{
    int count = 9 + entry->flag_count; /* what has one line each */
    for (int part = SPT_GUIDE_WORDS; part < SPT_GUIDE_PART_COUNT; part++)
        count += entry->parts[part].count;
    return count;
}

static void keep_lines(struct spt_page *page, const struct spt_guide_entry *entry)
{
    static const struct spt_column columns[] = {
        {.key = "mode", .kind = SPT_WORDS, .at = offsetof(struct line_row, mode)},
        {.key = "part", .kind = SPT_WORDS, .at = offsetof(struct line_row, part)},
        {.key = "line", .kind = SPT_WORDS, .at = offsetof(struct line_row, line)},
    };
    struct line_row *rows = spt_page_allocate(page, (size_t)count_lines(entry) * sizeof *rows);
    struct lines lines = {entry->name, rows, 0};
    add_line(&lines, "iso_name", entry->iso_name);
    add_line(&lines, "clause", entry->clause);
    add_line(&lines, "group", entry->group);
    add_line(&lines, "kind", spt_guide_kind_name(entry));
    add_parts(&lines, entry);
    add_line(&lines, "quantified", spt_guide_quantified_name(entry->quantified));
    add_line(&lines, "goes_back", spt_guide_return_name(entry->goes_back));
    add_line(&lines, "model_causes", spt_guide_page_causes(page, entry->model_causes));
    if (entry->model_causes >> SPT_CAUSE_SETTING & 1u)
        add_line(&lines, "setting_side", spt_guide_side_name(entry->setting_side));
    for (int i = 0; i < entry->flag_count; i++)
        add_line(&lines, "flag", spt_flag_code(entry->flags[i]));
    add_line(&lines, "source", entry->source);
    spt_page_table(page, "lines",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, lines.count), .is_data = true});
}

void spt_guide_entry_page(struct spt_page *page, const struct spt_guide_entry *entry)
{
    spt_guide_say_names(page, entry);
    spt_guide_say_part(page, "What it looks like", entry, SPT_GUIDE_LOOKS);
    spt_guide_say_part(page, "Where it shows first", entry, SPT_GUIDE_PLACES);
    spt_guide_say_part(page, "Usual causes", entry, SPT_GUIDE_CAUSES);
    spt_guide_say_part(page, "Check next", entry, SPT_GUIDE_CHECKS);
    spt_guide_say_part(page, "May the bearing go back", entry, SPT_GUIDE_BACK);
    say_model(page, entry);
    spt_page_open(page, "Source");
    spt_page_say(page, SPT_BODY, "", "%s", entry->source);
    spt_page_close(page);
    keep_lines(page, entry);
}
