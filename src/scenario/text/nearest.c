/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <ctype.h>
#include <string.h>
#include <strings.h>

#include "scenario/text/fields.h"

#define LONGEST 40

static int least(int a, int b, int c)
{
    int low = a < b ? a : b;
    return low < c ? low : c;
}

/* Levenshtein distance, ignoring case; more than LONGEST for words that are too long. */
static int distance(const char *a, const char *b)
{
    size_t n = strlen(a), m = strlen(b);
    int row[LONGEST + 1];
    if (n > LONGEST || m > LONGEST)
        return LONGEST + 1;
    for (size_t j = 0; j <= m; j++)
        row[j] = (int)j;
    for (size_t i = 1; i <= n; i++) {
        int diagonal = row[0];
        row[0] = (int)i;
        for (size_t j = 1; j <= m; j++) {
            int above = row[j];
            int change = tolower((unsigned char)a[i - 1]) != tolower((unsigned char)b[j - 1]);
            row[j] = least(row[j] + 1, row[j - 1] + 1, diagonal + change);
            diagonal = above;
        }
    }
    return row[m];
}

/* As `distance`, but 1 where `text` is the beginning of the word, because an abbreviation is not
 * another name. */
static int distance_to(const char *text, const char *word)
{
    size_t length = strlen(text);
    return length > 2 && strlen(word) > length && !strncasecmp(text, word, length)
               ? 1
               : distance(text, word);
}

const char *spt_nearest(const char *text, const char *const *words, int count)
{
    const char *best = NULL;
    if (strlen(text) > LONGEST)
        return NULL; /* longer texts are not compared */
    int best_distance = 1 + (int)strlen(text) / 3;
    for (int i = 0; i < count; i++) {
        int d = distance_to(text, words[i]);
        if (d <= best_distance && (!best || d < best_distance)) {
            best = words[i];
            best_distance = d;
        }
    }
    return best;
}
