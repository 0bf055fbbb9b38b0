/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/table.h"
#include "spalltime/status.h"

#include <stddef.h>

static bool is_known(enum spt_flag flag)
{
    return (int)flag >= 0 && flag < SPT_FLAG_COUNT;
}

void spt_notes_add(struct spt_notes *notes, enum spt_flag flag, double value, double limit)
{
    if (notes == NULL || !is_known(flag) || spt_notes_has(notes, flag))
        return;
    notes->list[notes->count++] = (struct spt_note){flag, value, limit};
}

void spt_notes_add_all(struct spt_notes *notes, const struct spt_notes *from)
{
    for (int i = 0; i < from->count; i++)
        spt_notes_add(notes, from->list[i].flag, from->list[i].value, from->list[i].limit);
}

bool spt_notes_has(const struct spt_notes *notes, enum spt_flag flag)
{
    if (notes == NULL)
        return false;
    for (int i = 0; i < notes->count; i++)
        if (notes->list[i].flag == flag)
            return true;
    return false;
}
