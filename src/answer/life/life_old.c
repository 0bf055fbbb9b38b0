/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/hub.h"
#include "answer/life/life.h"
#include "format/csv.h"
#include "sentence/findings.h"
#include "sentence/sentence.h"
#include "spalltime/setting.h"

void spt_life_codes_csv(struct spt_csv *csv, const struct spt_notes *notes,
                        const struct spt_notes *more)
{
    const struct spt_notes *lists[] = {notes, more};
    char codes[2 * SPT_FLAG_COUNT * 32] = "";
    int used = 0;
    for (int k = 0; k < 2 && lists[k]; k++)
        for (int i = 0; i < lists[k]->count; i++)
            used += snprintf(codes + used, sizeof codes - (size_t)used, "%s%s", used ? " " : "",
                             spt_flag_code(lists[k]->list[i].flag));
    spt_csv_text(csv, codes);
}

void spt_life_flags_text(const struct spt_text *text, const struct spt_assessment *assessment)
{
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_page_flags(page, assessment);
    spt_page_text(page, text, false);
    spt_arena_free(&arena);
}

void spt_hub_loose_text(const struct spt_text *text, double setting_mm)
{
    if (setting_mm > SPT_HUB_PLAY_HIGH_MM)
        spt_text_wrapf(text, "",
                       "That is more than the %.3g mm of common practice: ask the maker, and set "
                       "closer if the scatter can be made less.",
                       SPT_HUB_PLAY_HIGH_MM);
}
