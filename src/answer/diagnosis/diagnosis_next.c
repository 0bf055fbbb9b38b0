/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What to do next: checks, prevention with its commands, and how firm the answer stands. */
#include <ctype.h>
#include <stddef.h>
#include <string.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"

#define SHOWN 0.5 /* a mode of this chance is shown */

/* ---- next checks ---- */

struct outcome_row {
    const char *answer, *first, *chance;
};

static const char *name_answer(const struct spt_diagnosis_report *report,
                               const struct spt_diagnosis_check *check, int at)
{
    const struct spt_diagnosis_outcome *outcome = &check->outcomes[at];
    if (check->finding >= 0)
        return outcome->finding >= 0 ? "yes" : "no";
    return outcome->finding >= 0 ? report->causes->table.findings[outcome->finding].name
                                 : "none of these";
}

static void show_outcomes(struct spt_page *page, const struct spt_diagnosis_report *report,
                          const struct spt_diagnosis_check *check, bool first)
{
#define AT(member) .at = offsetof(struct outcome_row, member)
    static const struct spt_column columns[] = {
        {.head = "answer", .kind = SPT_WORDS, .width = 43, .gap = 4, AT(answer)},
        {.head = "then first", .kind = SPT_WORDS, .width = 20, .gap = 1, AT(first)},
        {.head = "chance", .kind = SPT_DAY, .width = 9, .gap = 1, AT(chance)},
    };
#undef AT
    struct outcome_row *rows = spt_page_allocate(page, (size_t)check->outcome_count * sizeof *rows);
    for (int k = 0; rows && k < check->outcome_count; k++)
        rows[k] = (struct outcome_row){name_answer(report, check, k),
                                       spt_diagnosis_cause(report, check->outcomes[k].first),
                                       spt_diagnosis_percent(page, check->outcomes[k].posterior)};
    if (rows)
        spt_page_table(page, "outcomes",
                       &(struct spt_table){SPT_TABLE_OF(columns, rows, check->outcome_count),
                                           .heads = first ? SPT_HEADS_OWN : SPT_HEADS_ABOVE});
}

void spt_diagnosis_show_checks(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    spt_page_open(page, "Check next");
    for (int i = 0; i < result->check_count; i++) {
        const struct spt_diagnosis_check *check = &result->checks[i];
        spt_page_say(page, SPT_BODY, "[ ] ", "%s? (%s)", spt_diagnosis_question(report, check),
                     spt_effort_name(check->effort));
        show_outcomes(page, report, check, i == 0);
    }
    if (!result->check_count)
        spt_page_say(page, SPT_BODY, "", "No check of the list would tell more.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "What it did while running is asked of whoever ran it; a damaged bearing is "
                     "not run again to find out.");
    spt_page_close(page);
}

/* ---- prevention ---- */

int spt_diagnosis_to_prevent(const struct spt_diagnosis_report *report, int *causes)
{
    const struct spt_diagnosis *result = &report->result;
    if (result->verdict == SPT_DIAGNOSIS_TWO) {
        memcpy(causes, result->pair, sizeof result->pair);
        return 2;
    }
    *causes = result->order[0];
    return result->verdict == SPT_DIAGNOSIS_CLEAR || result->verdict == SPT_DIAGNOSIS_LIKELY;
}

static bool is_plain(char c)
{
    return isalnum((unsigned char)c) || strchr("_-./+=:@%,", c) != NULL;
}

/* A path as a shell takes it for one word. */
static const char *quote(struct spt_page *page, const char *path)
{
    size_t plain = 0, used = 0;
    while (path[plain] && is_plain(path[plain]))
        plain++;
    char *quoted = path[plain] ? spt_page_allocate(page, 4 * strlen(path) + 3) : NULL;
    if (!quoted)
        return path;
    quoted[used++] = '\'';
    for (; *path; path++) {
        if (*path == '\'') {
            memcpy(quoted + used, "'\\''", 4);
            used += 4;
        } else {
            quoted[used++] = *path;
        }
    }
    quoted[used] = '\'';
    return quoted;
}

/* Commands that work out what the scenario knows about it, to be pasted. */
static void say_commands(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const char *file = quote(page, report->scenario);
    spt_page_say(page, SPT_BODY, "",
                 "What a cure buys, how often to grease and inspect, and what "
                 "the modes shown cost:");
    spt_page_say(page, SPT_BODY, "- ", "`spalltime reach %s`", file);
    spt_page_say(page, SPT_BODY, "- ", "`spalltime schedule %s`", file);
    for (int mode = 0; mode < report->causes->table.mode_count; mode++)
        if (report->result.modes[mode] >= SHOWN)
            spt_page_say(page, SPT_BODY, "- ", "`spalltime damage \"%s\" %s`",
                         report->causes->table.modes[mode], file);
}

void spt_diagnosis_show_prevention(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    int causes[2];
    const int count = spt_diagnosis_to_prevent(report, causes);
    spt_page_open(page, "Prevent the next one");
    for (int i = 0; i < count; i++)
        spt_page_say(page, SPT_BODY, "- ", "%s: %s", spt_diagnosis_cause(report, causes[i]),
                     report->causes->table.causes[causes[i]].prevent);
    if (!count)
        spt_page_say(page, SPT_BODY, "",
                     "First find the cause: keep the parts, the grease and photographs, and do the "
                     "checks above.");
    if (report->scenario)
        say_commands(page, report);
    spt_page_close(page);
}

/* ---- stability ---- */

void spt_diagnosis_show_stability(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    int tipping = 0;
    if (result->untold == SPT_UNTOLD_RULED_OUT)
        return;
    spt_page_open(page, "How firm it stands");
    for (int i = 0; i < result->evidence_count; i++)
        if (result->evidence[i].first_without != result->order[0]) {
            tipping++;
            spt_page_say(page, SPT_BODY, "- ", "Without \"%s\" the first cause would be %s.",
                         spt_diagnosis_piece(page, report, i),
                         spt_diagnosis_cause(report, result->evidence[i].first_without));
        }
    if (!tipping)
        spt_page_say(page, SPT_BODY, "", "%s is first without any single one of the findings.",
                     spt_diagnosis_cause(report, result->order[0]));
    spt_page_close(page);
}
