/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/guide.h"

#include <string.h>

#include "answer/catalog/guide_parts.h"

const char *spt_guide_causes(unsigned causes, char *buffer)
{
    size_t used = 0;
    if (!causes)
        return strcpy(buffer, "none");
    buffer[0] = 0;
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
        if (!(causes >> cause & 1u))
            continue;
        int added = snprintf(buffer + used, SPT_GUIDE_CAUSES_LENGTH - used, "%s%s",
                             used ? ", " : "", spt_cause_name((enum spt_cause)cause));
        used += added > 0 ? (size_t)added : 0;
    }
    return buffer;
}

const char *spt_guide_page_causes(struct spt_page *page, unsigned causes)
{
    char buffer[SPT_GUIDE_CAUSES_LENGTH];
    return spt_page_words(page, "%s", spt_guide_causes(causes, buffer));
}

const char *spt_guide_kind_name(const struct spt_guide_entry *entry)
{
    return entry->pattern ? "pattern" : "mode";
}

static const struct spt_note *find_note(const struct spt_notes *notes, enum spt_flag flag)
{
    for (int i = 0; i < notes->count; i++)
        if (notes->list[i].flag == flag)
            return &notes->list[i];
    return NULL;
}

const struct spt_note *spt_guide_next_note(const struct spt_guide_entry *entry,
                                           const struct spt_guide_case *one, int *at,
                                           const char **phase)
{
    while (*at < entry->flag_count) {
        enum spt_flag flag = entry->flags[(*at)++];
        *phase = NULL;
        const struct spt_note *note = find_note(&one->bearing->notes, flag);
        if (!note && one->of_case)
            note = find_note(one->of_case, flag);
        for (int i = 0; !note && i < one->bearing->phase_count; i++) {
            note = find_note(&one->bearing->phases[i].notes, flag);
            *phase = one->bearing->phases[i].phase->name;
        }
        if (note)
            return note;
    }
    return NULL;
}
