/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/compare/compare_flags.h"

#include <math.h>
#include <string.h>

#include "sentence/notes.h"
#include "sentence/sentence.h"

#define NAMES_LENGTH 600

bool spt_compare_in_doubt(const struct spt_compared *compared)
{
    if (isnan(compared->assessment.modified_rating_life_h))
        return false;
    for (int i = 0; i < compared->notes.count; i++)
        if (spt_reservation(compared->notes.list[i].flag))
            return true;
    return false;
}

/* True where the case raises the flag of `note` with exactly the same sentence. */
static bool says(const struct spt_compared *compared, const struct spt_note *note)
{
    char mine[SPT_SENTENCE_LENGTH], words[SPT_SENTENCE_LENGTH];
    for (int i = 0; i < compared->notes.count; i++) {
        const struct spt_note *own = &compared->notes.list[i];
        if (own->flag != note->flag)
            continue;
        spt_sentence(own, mine, sizeof mine);
        spt_sentence(note, words, sizeof words);
        return !strcmp(mine, words);
    }
    return false;
}

/* Writes "every case", or the names of the cases with this sentence; the rest as a number where
 * they are too many. */
static void write_who(const struct spt_compared *cases, int count, const struct spt_note *note,
                      char *who)
{
    int sharing = 0, named = 0;
    size_t used = 0;
    for (int i = 0; i < count; i++)
        sharing += says(&cases[i], note);
    if (count > 1 && sharing == count) {
        snprintf(who, NAMES_LENGTH, "every case");
        return;
    }
    who[0] = 0;
    for (int i = 0; i < count; i++) {
        if (!says(&cases[i], note) || used + strlen(cases[i].name) + 40 > NAMES_LENGTH)
            continue;
        used += (size_t)snprintf(who + used, NAMES_LENGTH - used, "%s%s", named++ ? "; " : "",
                                 cases[i].name);
    }
    if (named < sharing)
        snprintf(who + used, NAMES_LENGTH - used, "%s%d more", named ? " and " : "",
                 sharing - named);
}

static bool is_said_before(const struct spt_compared *cases, int i, const struct spt_note *note)
{
    for (int before = 0; before < i; before++)
        if (says(&cases[before], note))
            return true;
    return false;
}

void spt_compare_flags(struct spt_page *page, const struct spt_compared *cases, int count,
                       unsigned effects)
{
    spt_page_open(page, "Flags");
    for (int i = 0; i < count; i++)
        for (int j = 0; j < cases[i].notes.count; j++) {
            const struct spt_note *note = &cases[i].notes.list[j];
            char who[NAMES_LENGTH];
            if (!(effects >> spt_flag_effect(note->flag) & 1u) || is_said_before(cases, i, note))
                continue;
            write_who(cases, count, note, who);
            spt_page_note(page, note, who);
        }
    spt_page_close(page);
}
