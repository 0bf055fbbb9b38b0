/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/notes.h"

#include <stdio.h>

#include "sentence/sentence.h"

void spt_page_note(struct spt_page *page, const struct spt_note *note, const char *who)
{
    char sentence[SPT_SENTENCE_LENGTH];
    spt_sentence(note, sentence, sizeof sentence);
    spt_page_say(page, spt_flag_role(note->flag), "- ", "%s%s%s",
                 who ? spt_page_name(page, who) : "", who ? ": " : "", sentence);
}

void spt_page_notes(struct spt_page *page, const struct spt_notes *notes, const char *who)
{
    for (int i = 0; i < notes->count; i++)
        spt_page_note(page, &notes->list[i], who);
}

void spt_page_cautions(struct spt_page *page)
{
    spt_page_open(page, "Cautions");
    for (int i = 0; spt_caution(i); i++)
        spt_page_say(page, SPT_CAUTION, "- ", "%s", spt_caution(i));
    spt_page_close(page);
}

const char *spt_page_codes(struct spt_page *page, const struct spt_notes *notes,
                           const struct spt_notes *more)
{
    const struct spt_notes *lists[] = {notes, more};
    char codes[2 * SPT_FLAG_COUNT * 32] = "";
    int used = 0;
    for (int k = 0; k < 2 && lists[k]; k++)
        for (int i = 0; i < lists[k]->count; i++)
            used += snprintf(codes + used, sizeof codes - (size_t)used, "%s%s", used ? " " : "",
                             spt_flag_code(lists[k]->list[i].flag));
    return spt_page_words(page, "%s", codes);
}
