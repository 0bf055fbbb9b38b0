/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <ctype.h>
#include <stddef.h>
#include <string.h>

#include "answer/catalog/guide_parts.h"

struct mode_row {
    const char *name, *iso_name, *clause, *group, *kind, *quantified, *goes_back, *causes;
    const char *mark; /* "*" for a pattern of the trade */
    const char *back; /* in one word */
};

static struct mode_row make_row(struct spt_page *page, const struct spt_guide_entry *entry)
{
    return (struct mode_row){
        .name = entry->name,
        .iso_name = entry->iso_name,
        .clause = entry->clause,
        .group = entry->group,
        .kind = spt_guide_kind_name(entry),
        .quantified = spt_guide_quantified_name(entry->quantified),
        .goes_back = spt_guide_return_name(entry->goes_back),
        .causes = spt_guide_page_causes(page, entry->model_causes),
        .mark = entry->pattern ? "*" : "",
        .back = entry->goes_back == SPT_RETURN_NO ? "no" : "inspect",
    };
}

#define SHOWN(title, of, wide, apart, member)                                                      \
    {                                                                                              \
        .head = (title), .kind = (of), .width = (wide), .gap = (apart),                            \
        .at = offsetof(struct mode_row, member)                                                    \
    }
#define KEPT(name, member)                                                                         \
    {                                                                                              \
        .key = (name), .kind = SPT_WORDS, .at = offsetof(struct mode_row, member)                  \
    }

static const struct spt_column shown[] = {
    SHOWN("mode", SPT_WORDS, 25, 0, name),    SHOWN("", SPT_MARK, 1, 1, mark),
    SHOWN("clause", SPT_WORDS, 9, 0, clause), SHOWN("rated", SPT_WORDS, 7, 0, quantified),
    SHOWN("back", SPT_WORDS, 8, 0, back),     SHOWN("causes of lost life", SPT_WORDS, 0, 0, causes),
};

static const struct spt_column kept[] = {
    KEPT("mode", name),           KEPT("iso_name", iso_name),   KEPT("clause", clause),
    KEPT("group", group),         KEPT("kind", kind),           KEPT("quantified", quantified),
    KEPT("goes_back", goes_back), KEPT("model_causes", causes),
};

/* True where no row before it is of its group. */
static bool begins_group(const struct mode_row *rows, int row)
{
    for (int i = 0; i < row; i++)
        if (!strcmp(rows[i].group, rows[row].group))
            return false;
    return true;
}

static void show_group(struct spt_page *page, const struct mode_row *all, int count,
                       const char *group)
{
    struct mode_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    int used = 0;
    for (int i = 0; rows && i < count; i++)
        if (!strcmp(all[i].group, group))
            rows[used++] = all[i];
    spt_page_open(page, "%c%s", toupper((unsigned char)*group), group + (*group != 0));
    spt_page_table(page, "group",
                   &(struct spt_table){SPT_TABLE_OF(shown, rows, used), .heads = SPT_HEADS_ABOVE});
    spt_page_close(page);
}

static void say_legend(struct spt_page *page)
{
    spt_page_open(page, "%s", "");
    spt_page_say(page, SPT_BODY, "",
                 "clause: of ISO 15243:2017, numbers from memory; * is a pattern of the trade, "
                 "filed under that clause. rated: whether the model can quantify the mode. back: "
                 "whether the bearing may go back (inspect: only after inspection).");
    spt_page_say(page, SPT_BODY, "",
                 "`spalltime damage MODE` shows one, `spalltime damage \"what you see\"` finds "
                 "it, `spalltime damage MODE FILE` works out what its cause costs in a scenario.");
    spt_page_close(page);
}

void spt_guide_list_page(struct spt_page *page, const struct spt_guide *guide)
{
    const int count = guide->count;
    struct mode_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = make_row(page, &guide->entries[i]);
    spt_page_table(page, "heads",
                   &(struct spt_table){SPT_TABLE_OF(shown, rows, 0), .heads = SPT_HEADS_ALONE});
    for (int i = 0; rows && i < count; i++)
        if (begins_group(rows, i))
            show_group(page, rows, count, rows[i].group);
    say_legend(page);
    spt_page_table(page, "modes",
                   &(struct spt_table){SPT_TABLE_OF(kept, rows, count), .is_data = true});
}
