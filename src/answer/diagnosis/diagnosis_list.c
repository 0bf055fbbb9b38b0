/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"

/* One case. */
struct case_row {
    const char *title, *machine, *verdict, *first, *second, *moved, *back, *check;
    const char *percent;
    double first_share, second_share, other_share, pair_factor, hours, fatigue_share;
};

int spt_diagnosis_fatigue(const struct spt_diagnosis_report *report)
{
    int c = 0;
    while (report->causes->table.causes[c].time != SPT_CAUSE_TIME_FATIGUE)
        c++;
    return c;
}

static double other_share(const struct spt_diagnosis_report *report)
{
    for (int c = 0; c < report->causes->table.cause_count; c++)
        if (report->causes->table.causes[c].time == SPT_CAUSE_TIME_OTHER)
            return report->result.posterior[c];
    return (double)NAN;
}

static struct case_row make_row(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    const bool two = result->verdict == SPT_DIAGNOSIS_TWO;
    const int first = two ? result->pair[0] : result->order[0];
    const int second = two ? result->pair[1] : result->order[1];
    return (struct case_row){
        .title = report->stated->title,
        .machine = spt_word(&spt_machine_words, (int)report->asked.machine),
        .verdict = spt_diagnosis_verdict_name(result->verdict),
        .first = spt_diagnosis_cause(report, first),
        .percent = spt_diagnosis_percent(page, result->posterior[first]),
        .second = result->prior[second] > 0 ? spt_diagnosis_cause(report, second) : "",
        .moved =
            result->moved_most < 0 ? "" : spt_diagnosis_piece(page, report, result->moved_most),
        .back = spt_diagnosis_back_name(spt_diagnosis_goes_back(report).answer),
        .check = result->check_count ? spt_diagnosis_question(report, &result->checks[0]) : "",
        .first_share = result->posterior[first],
        .second_share = result->posterior[second],
        .other_share = other_share(report),
        .pair_factor = result->pair_factor,
        .hours = report->asked.hours,
        .fatigue_share = result->fatigue_share_smeared,
    };
}

static struct case_row *make_rows(struct spt_page *page, const struct spt_diagnosis_report *reports,
                                  int count)
{
    struct case_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = make_row(page, &reports[i]);
    return rows;
}

#define AT(member) .at = offsetof(struct case_row, member)

void spt_diagnosis_show_list(struct spt_page *page, const struct spt_diagnosis_report *reports,
                             int count)
{
    static const struct spt_column columns[] = {
        {.head = "case", .kind = SPT_WORDS, .width = 24, AT(title)},
        {.head = "verdict", .kind = SPT_WORDS, .width = 14, .gap = 1, AT(verdict)},
        {.head = "chance", .kind = SPT_DAY, .width = 9, .gap = 1, AT(percent)},
        {.head = "first cause", .kind = SPT_WORDS, .gap = 2, AT(first)},
    };
    struct case_row *rows = make_rows(page, reports, count);
    spt_page_open(page, "Cases");
    spt_page_table(page, "list", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_close(page);
}

void spt_diagnosis_keep_rows(struct spt_page *page, const struct spt_diagnosis_report *reports,
                             int count)
{
    static const struct spt_column columns[] = {
        {.key = "case", .kind = SPT_WORDS, AT(title)},
        {.key = "machine", .kind = SPT_WORDS, AT(machine)},
        {.key = "verdict", .kind = SPT_WORDS, AT(verdict)},
        {.key = "first", .kind = SPT_WORDS, AT(first)},
        {.key = "first_posterior", .kind = SPT_NUMBER, AT(first_share)},
        {.key = "second", .kind = SPT_WORDS, AT(second)},
        {.key = "second_posterior", .kind = SPT_NUMBER, AT(second_share)},
        {.key = "other_posterior", .kind = SPT_NUMBER, AT(other_share)},
        {.key = "pair_factor", .kind = SPT_NUMBER, AT(pair_factor)},
        {.key = "moved_most", .kind = SPT_WORDS, AT(moved)},
        {.key = "hours", .kind = SPT_HOURS, AT(hours)},
        {.key = "fatigue_share", .kind = SPT_NUMBER, AT(fatigue_share)},
        {.key = "goes_back", .kind = SPT_WORDS, AT(back)},
        {.key = "next_check", .kind = SPT_WORDS, AT(check)},
    };
    struct case_row *rows = make_rows(page, reports, count);
    spt_page_table(page, "cases",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count), .is_data = true});
}
