/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/catalog/guide_parts.h"

#define CAUSES_SHOWN 3
#define SMALLEST_CAUSE 0.02
#define LINE_LENGTH 400

/* A finding or mode that fits. */
struct hit_row {
    const char *kind;
    int rank;
    const char *name;
    double score;
    const char *phrase;
    bool absent;
};

static struct hit_row make_row(const char *kind, int rank, const char *name,
                               const struct spt_search_hit *hit)
{
    return (struct hit_row){kind, rank, name, hit->score, hit->text, hit->absent};
}

const char *spt_guide_hit_name(const struct spt_guide_answer *answer, bool is_mode, int at)
{
    const struct spt_diagnosis_table *table = &answer->causes->table;
    return is_mode ? table->modes[answer->result.modes[at].owner]
                   : table->findings[answer->result.findings[at].owner].name;
}

/* Adds words with a comma between them to a line. */
static void add_words(char *line, const char *words)
{
    const size_t used = strlen(line);
    snprintf(line + used, LINE_LENGTH - used, "%s%s", used ? ", " : "", words);
}

/* The commonest causes of a finding alone, with their chances. */
static void say_causes(struct spt_page *page, const struct spt_guide_answer *answer, int at)
{
    char line[LINE_LENGTH] = "";
    const struct spt_diagnosis *alone = &answer->alone[at];
    for (int i = 0; i < CAUSES_SHOWN && alone->posterior[alone->order[i]] > SMALLEST_CAUSE; i++) {
        const int cause = alone->order[i];
        add_words(line, spt_page_words(page, "%s %.0f %%", answer->causes->table.causes[cause].name,
                                       100 * alone->posterior[cause]));
    }
    spt_page_say(page, SPT_BODY, "   causes: ", "%s", line);
}

const char *spt_guide_question(struct spt_page *page, const struct spt_diagnosis_table *table,
                               const struct spt_diagnosis_check *check)
{
    return check->finding < 0 ? spt_page_words(page, "%s", table->groups[check->group].question)
                              : table->findings[check->finding].name;
}

static void say_remark(struct spt_page *page, const struct spt_guide_answer *answer, int at)
{
    const int finding = answer->result.findings[at].owner;
    const char *remark = answer->causes->table.findings[finding].remark;
    if (remark)
        spt_page_say(page, SPT_BODY, "   ", "%s", remark);
}

static void say_next(struct spt_page *page, const struct spt_guide_answer *answer, int at)
{
    const struct spt_diagnosis *alone = &answer->alone[at];
    if (alone->check_count)
        spt_page_say(page, SPT_BODY, "   look next: ", "%s?",
                     spt_guide_question(page, &answer->causes->table, &alone->checks[0]));
}

/* The other answers to the question of a finding, where they exclude each other. */
static void say_others(struct spt_page *page, const struct spt_guide_answer *answer, int at)
{
    char line[LINE_LENGTH] = "";
    const struct spt_diagnosis_table *table = &answer->causes->table;
    const int finding = answer->result.findings[at].owner;
    const int group = table->findings[finding].group;
    if (!table->groups[group].one || answer->result.group == group)
        return;
    for (int f = 0; f < table->finding_count; f++)
        if (f != finding && table->findings[f].group == group)
            add_words(line, table->findings[f].name);
    spt_page_say(page, SPT_BODY, "   or: ", "%s (%s?)", line, table->groups[group].question);
}

static void say_finding(struct spt_page *page, const struct spt_guide_answer *answer, int at)
{
    const struct spt_search_hit *hit = &answer->result.findings[at];
    spt_page_say(page, SPT_BODY,
                 spt_page_words(page, "%d. %s%s  (%.2f)", at + 1,
                                spt_guide_hit_name(answer, false, at),
                                hit->absent ? ", not there" : "", hit->score),
                 "%s", "");
    if (!hit->absent) {
        say_causes(page, answer, at);
        say_remark(page, answer, at);
        say_others(page, answer, at);
        say_next(page, answer, at);
    }
}

static void say_findings(struct spt_page *page, const struct spt_guide_answer *answer)
{
    if (!answer->result.finding_count)
        return;
    spt_page_open(page, "Findings");
    if (answer->result.group >= 0)
        spt_page_say(page, SPT_BODY, "", "Not told by the words: %s?",
                     answer->causes->table.groups[answer->result.group].question);
    for (int i = 0; i < answer->result.finding_count; i++)
        say_finding(page, answer, i);
    spt_page_say(page, SPT_NOTE, "",
                 "One finding alone rarely tells. Put several into a case file: `spalltime "
                 "diagnose`. The chances are of wheel hubs, by judgement of practice.");
    spt_page_close(page);
}

static void say_modes(struct spt_page *page, const struct spt_guide_answer *answer)
{
    if (!answer->result.mode_count)
        return;
    spt_page_open(page, "Modes that look so");
    for (int i = 0; i < answer->result.mode_count; i++)
        spt_page_say(page, SPT_BODY, spt_page_words(page, "%d. ", i + 1), "%s, by \"%s\"  (%.2f)",
                     spt_guide_hit_name(answer, true, i), answer->result.modes[i].text,
                     answer->result.modes[i].score);
    spt_page_say(page, SPT_BODY, "", "`spalltime damage \"%s\"` shows the first.",
                 spt_guide_hit_name(answer, true, 0));
    spt_page_close(page);
}

static void say_left_over(struct spt_page *page, const struct spt_guide_answer *answer)
{
    char line[LINE_LENGTH] = "";
    for (int i = 0; i < answer->query.count; i++)
        if (answer->result.left_over[i])
            add_words(line, spt_page_name(page, answer->query.written[i]));
    if (!*line)
        return;
    spt_page_open(page, "%s", "");
    spt_page_say(page, SPT_BODY, "", "Words left over: %s.", line);
    spt_page_close(page);
}

static void keep_rows(struct spt_page *page, const struct spt_guide_answer *answer)
{
    static const struct spt_column columns[] = {
        {.key = "kind", .kind = SPT_WORDS, .at = offsetof(struct hit_row, kind)},
        {.key = "rank", .kind = SPT_COUNT, .at = offsetof(struct hit_row, rank)},
        {.key = "name", .kind = SPT_WORDS, .at = offsetof(struct hit_row, name)},
        {.key = "score", .kind = SPT_NUMBER, .at = offsetof(struct hit_row, score)},
        {.key = "phrase", .kind = SPT_WORDS, .at = offsetof(struct hit_row, phrase)},
        {.key = "absent", .kind = SPT_YES, .at = offsetof(struct hit_row, absent)},
    };
    const struct spt_search_result *result = &answer->result;
    const int most = result->finding_count + result->mode_count + 1;
    struct hit_row *rows = spt_page_allocate(page, (size_t)most * sizeof *rows);
    int count = 0;
    for (int i = 0; rows && i < result->finding_count; i++)
        rows[count++] =
            make_row("finding", i + 1, spt_guide_hit_name(answer, false, i), &result->findings[i]);
    for (int i = 0; rows && i < result->mode_count; i++)
        rows[count++] =
            make_row("mode", i + 1, spt_guide_hit_name(answer, true, i), &result->modes[i]);
    if (rows && result->outside)
        rows[count++] = (struct hit_row){"outside the guide", 1,    result->outside, (double)NAN,
                                         result->outside,     false};
    spt_page_table(page, "hits",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count), .is_data = true});
}

void spt_guide_answer_page(struct spt_page *page, const struct spt_guide_answer *answer)
{
    if (answer->result.outside)
        spt_page_say(page, SPT_BODY, "",
                     "\"%s\" is a known term outside this guide: a laboratory has to look.",
                     answer->result.outside);
    else
        spt_page_say(page, SPT_BODY, "", "What fits \"%s\", the best first (1 fits in full):",
                     spt_page_name(page, answer->asked));
    say_findings(page, answer);
    say_modes(page, answer);
    say_left_over(page, answer);
    keep_rows(page, answer);
}
