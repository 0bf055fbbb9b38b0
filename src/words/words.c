/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "words/words.h"

#include <string.h>

const char *spt_word(const struct spt_words *words, int value)
{
    return value >= 0 && value < words->count ? words->list[value] : "unknown";
}

int spt_word_find(const struct spt_words *words, const char *word)
{
    for (int i = 0; i < words->count; i++)
        if (!strcmp(words->list[i], word))
            return i;
    return -1;
}
