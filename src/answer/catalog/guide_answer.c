/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stddef.h>

#include "answer/catalog/guide_parts.h"

#define WORDS_LENGTH 600

/* "rust (words), pitch (looks)" */
static void say_why(struct spt_page *page, const struct spt_guide_answer *answer,
                    const struct spt_guide_hit *hit)
{
    char why[WORDS_LENGTH] = "";
    size_t used = 0;
    for (int i = 0; i < answer->query.count; i++) {
        if (!hit->found[i] || used + SPT_QUERY_WORD_LENGTH + 24 > sizeof why)
            continue;
        used += (size_t)snprintf(why + used, sizeof why - used, "%s%s (%s)", used ? ", " : "",
                                 answer->query.words[i], spt_guide_part_name(hit->parts[i]));
    }
    spt_page_say(page, SPT_BODY, "   matched: ", "%s", why);
}

static void say_hit(struct spt_page *page, const struct spt_guide_answer *answer, int rank)
{
    const struct spt_guide_hit *hit = &answer->hits[rank - 1];
    spt_page_open(page, "%s", "");
    spt_page_say(page, SPT_BODY,
                 spt_page_words(page, "%d. %s  (%.1f)", rank, hit->entry->name, hit->score), "%s",
                 "");
    spt_page_say(page, SPT_BODY, "   ", "%s: %s", spt_guide_part_name(hit->line_part), hit->line);
    say_why(page, answer, hit);
    spt_page_close(page);
}

/* A word of the query that a mode has. */
struct match_row {
    int rank;
    const char *mode;
    double score;
    const char *word, *part;
};

static void keep_matches(struct spt_page *page, const struct spt_guide_answer *answer)
{
    static const struct spt_column columns[] = {
        {.key = "rank", .kind = SPT_COUNT, .at = offsetof(struct match_row, rank)},
        {.key = "mode", .kind = SPT_WORDS, .at = offsetof(struct match_row, mode)},
        {.key = "score", .kind = SPT_NUMBER, .at = offsetof(struct match_row, score)},
        {.key = "word", .kind = SPT_WORDS, .at = offsetof(struct match_row, word)},
        {.key = "part", .kind = SPT_WORDS, .at = offsetof(struct match_row, part)},
    };
    const int most = answer->count * answer->query.count;
    struct match_row *rows = spt_page_allocate(page, (size_t)most * sizeof *rows);
    int count = 0;
    for (int i = 0; rows && i < answer->count; i++) {
        const struct spt_guide_hit *hit = &answer->hits[i];
        for (int j = 0; j < answer->query.count; j++)
            if (hit->found[j])
                rows[count++] =
                    (struct match_row){i + 1, hit->entry->name, hit->score, answer->query.words[j],
                                       spt_guide_part_name(hit->parts[j])};
    }
    spt_page_table(page, "matches",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count), .is_data = true});
}

void spt_guide_answer_page(struct spt_page *page, const struct spt_guide_answer *answer)
{
    spt_page_say(page, SPT_BODY, "",
                 "Modes that fit \"%s\", the best first:", spt_page_name(page, answer->asked));
    for (int i = 0; i < answer->count; i++)
        say_hit(page, answer, i + 1);
    spt_page_open(page, "%s", "");
    spt_page_say(page, SPT_BODY, "", "`spalltime damage \"%s\"` shows the first.",
                 answer->hits[0].entry->name);
    spt_page_close(page);
    keep_matches(page, answer);
}
