/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/together.h"

#include <stdio.h>

const char *spt_together(const struct spt_case *question)
{
    if (question->hub || question->sheet_hub)
        return "both rows";
    return question->bearing_count == 2 ? "both bearings" : "all bearings";
}

const char *spt_together_of(const struct spt_case *question, unsigned bearings, char *words,
                            size_t size)
{
    const unsigned all = (1u << question->bearing_count) - 1;
    size_t used = 0;
    if (question->bearing_count > 1 && (bearings & all) == all)
        return spt_together(question);
    *words = 0;
    for (int i = 0; i < question->bearing_count && used < size; i++)
        if (bearings >> i & 1u)
            used += (size_t)snprintf(words + used, size - used, "%s%s", used ? ", " : "",
                                     question->bearings[i].bearing.name);
    return words;
}
