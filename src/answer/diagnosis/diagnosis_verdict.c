/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"

#define BAR_WIDTH 24
#define HALF_WIDTH 8
#define LISTED_SHARE 0.8  /* causes are listed until they have this much together */
#define CLEARLY_BELOW 0.9 /* a factor that is named as speaking against: our choice */
#define LEAST_TOLD 0.01
#define LINE_LENGTH 1200

int spt_diagnosis_other(const struct spt_diagnosis_table *table)
{
    int c = 0;
    while (table->causes[c].time != SPT_CAUSE_TIME_OTHER)
        c++;
    return c;
}

int spt_diagnosis_rivals(const struct spt_diagnosis_report *report, int rivals[2])
{
    const struct spt_diagnosis *result = &report->result;
    const int other = spt_diagnosis_other(&report->causes->table);
    int count = 0;
    for (int i = 1; i < report->causes->table.cause_count && count < 2; i++) {
        const int cause = result->order[i];
        if (!(result->prior[cause] > 0))
            break;
        rivals[count++] = cause;
        if (cause != other)
            break;
    }
    return count;
}

/* ---- factors ---- */

struct spt_diagnosis_factor *spt_diagnosis_factors(struct spt_page *page,
                                                   const struct spt_diagnosis_report *report,
                                                   int second, int *count)
{
    const struct spt_diagnosis *result = &report->result;
    const int first = result->order[0], most = result->evidence_count + 2;
    struct spt_diagnosis_factor *rows = spt_page_allocate(page, (size_t)most * sizeof *rows);
    double largest = 0;
    *count = 0;
    if (!rows)
        return NULL;
    rows[(*count)++] = (struct spt_diagnosis_factor){
        "how common they are", "", result->prior[first] / result->prior[second], 0, 0};
    if (result->timed)
        rows[(*count)++] = (struct spt_diagnosis_factor){
            "the hours run", "", result->time[first] / result->time[second], 0, 0};
    for (int i = 0; i < result->evidence_count; i++) {
        const struct spt_diagnosis_evidence *piece = &result->evidence[i];
        rows[(*count)++] = (struct spt_diagnosis_factor){
            spt_diagnosis_piece(page, report, i), spt_sure_name(piece->sure),
            exp(piece->weight * (piece->log_likelihood[first] - piece->log_likelihood[second])), 0,
            0};
    }
    for (int i = 0; i < *count; i++)
        largest = fmax(largest, fabs(log(rows[i].odds)));
    for (int i = 0; i < *count && largest > 0; i++) {
        rows[i].favour = fmin(fmax(log(rows[i].odds), 0) / largest, 1);
        rows[i].against = fmin(fmax(-log(rows[i].odds), 0) / largest, 1);
    }
    return rows;
}

bool spt_diagnosis_speaks_against(const struct spt_diagnosis_factor *factor)
{
    return factor->odds < CLEARLY_BELOW;
}

/* ---- verdict ---- */

/* What weighs most in a sentence. */
static void say_moved(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    if (result->moved_most < 0)
        return;
    const struct spt_diagnosis_evidence *most = &result->evidence[result->moved_most];
    spt_page_say(page, SPT_BODY, "",
                 "What moved it most: %s (the odds of %s fall %.1f times "
                 "without it).",
                 spt_diagnosis_piece(page, report, result->moved_most),
                 spt_diagnosis_cause(report, result->order[0]), most->factor);
}

/* What speaks for a rival: "the hours run (x 0.34); not milky grease (x 0.83)". */
static void say_against(struct spt_page *page, const struct spt_diagnosis_report *report, int rival,
                        const char *which)
{
    char line[LINE_LENGTH] = "";
    int count;
    const struct spt_diagnosis_factor *rows = spt_diagnosis_factors(page, report, rival, &count);
    for (int i = 0; rows && i < count; i++) {
        const size_t used = strlen(line);
        if (spt_diagnosis_speaks_against(&rows[i]))
            snprintf(line + used, sizeof line - used, "%s%s (%s%.2f)", used ? "; " : "",
                     rows[i].what, rows[i].odds < LEAST_TOLD ? "under x " : "x ",
                     fmax(rows[i].odds, LEAST_TOLD));
    }
    spt_page_say(
        page, SPT_BODY, "", "%s %s, %s%s%s.", *line ? "Against it, for" : "Nothing speaks for",
        spt_diagnosis_cause(report, rival), which, *line ? ": " : ", rather than for it", line);
}

static void take_warning(void *to, const char *sentence)
{
    spt_page_say(to, SPT_CHANGES_NUMBER, "! ", "%s", sentence);
}

void spt_diagnosis_show_verdict(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    static const char *const which[] = {"the second", "the best with a name"};
    const struct spt_diagnosis *result = &report->result;
    int rivals[2];
    const int count = spt_diagnosis_rivals(report, rivals);
    spt_page_open(page, "Verdict");
    spt_page_say(page, SPT_BODY, "", "%s.", spt_diagnosis_first_line(page, report));
    if (result->verdict == SPT_DIAGNOSIS_UNTOLD)
        spt_page_say(page, SPT_BODY, "", "%s", spt_diagnosis_untold(result->untold));
    say_moved(page, report);
    for (int i = 0; i < count; i++)
        say_against(page, report, rivals[i], which[i]);
    spt_diagnosis_warn(report, take_warning, page);
    spt_page_close(page);
}

/* ---- causes ---- */

struct cause_row {
    const char *name, *judged, *used, *now;
    double bar;
};
#define AT(member) .at = offsetof(struct cause_row, member)
enum { NAME, JUDGED, USED, NOW, BAR, CAUSE_COLUMNS };
static const struct spt_column cause_columns[CAUSE_COLUMNS] = {
    [NAME] = {.head = "cause", .kind = SPT_WORDS, .width = 28, AT(name)},
    [JUDGED] = {.head = "before", .kind = SPT_DAY, .width = 10, .gap = 1, AT(judged)},
    [USED] = {.head = "with shop", .kind = SPT_DAY, .width = 10, .gap = 1, AT(used)},
    [NOW] = {.head = "now", .kind = SPT_DAY, .width = 10, .gap = 1, AT(now)},
    [BAR] = {.head = "", .kind = SPT_BAR, .width = BAR_WIDTH, .gap = 1, AT(bar)},
};

static struct cause_row make_cause(struct spt_page *page, const struct spt_diagnosis_report *report,
                                   int cause)
{
    const struct spt_diagnosis *result = &report->result;
    return (struct cause_row){
        .name = spt_diagnosis_cause(report, cause),
        .judged = spt_diagnosis_percent(page, result->judged[cause]),
        .used = spt_diagnosis_percent(page, result->prior[cause]),
        .now = spt_diagnosis_percent(page, result->posterior[cause]),
        .bar = result->posterior[cause],
    };
}

static void say_rulings(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    for (int c = 0; c < report->causes->table.cause_count; c++)
        if (report->stated->because && report->stated->because[c])
            spt_page_say(page, SPT_BODY, "- ", "Ruled out: %s, because: %s.",
                         spt_diagnosis_cause(report, c),
                         spt_page_name(page, report->stated->because[c]));
}

/* The likeliest causes, and the one that is none of the list; none that was ruled out. */
static int fill_causes(struct spt_page *page, const struct spt_diagnosis_report *report,
                       struct cause_row *rows)
{
    const struct spt_diagnosis_table *table = &report->causes->table;
    const struct spt_diagnosis *result = &report->result;
    const int other = spt_diagnosis_other(table);
    double sum = 0;
    int count = 0;
    bool has_other = false;
    for (int i = 0; i < table->cause_count && (sum < LISTED_SHARE || i < 2); i++) {
        if (!(result->prior[result->order[i]] > 0))
            break;
        rows[count++] = make_cause(page, report, result->order[i]);
        sum += result->posterior[result->order[i]];
        has_other = has_other || result->order[i] == other;
    }
    if (!has_other)
        rows[count++] = make_cause(page, report, other);
    return count;
}

void spt_diagnosis_show_causes(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const int most = report->causes->table.cause_count + 1;
    struct cause_row *rows = spt_page_allocate(page, (size_t)most * sizeof *rows);
    struct spt_column *columns = spt_page_columns(page, cause_columns, CAUSE_COLUMNS);
    if (!rows || !columns)
        return;
    if (!report->past)
        columns[USED].head = NULL;
    spt_page_open(page, "Causes");
    spt_page_table(page, "causes",
                   &(struct spt_table){.columns = columns,
                                       .column_count = CAUSE_COLUMNS,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = fill_causes(page, report, rows)});
    say_rulings(page, report);
    spt_page_close(page);
}

/* ---- evidence ---- */

#undef AT
#define AT(member) .at = offsetof(struct spt_diagnosis_factor, member)

static void show_factors(struct spt_page *page, const struct spt_diagnosis_report *report,
                         int rival)
{
    static const struct spt_column columns[] = {
        {.head = "finding", .kind = SPT_WORDS, .width = 36, AT(what)},
        {.head = "sure", .kind = SPT_WORDS, .width = 6, .gap = 1, AT(sure)},
        {.head = "odds x", .kind = SPT_RATIO, .width = 7, .gap = 1, AT(odds)},
        {.head = "for other", .kind = SPT_BAR, .width = HALF_WIDTH + 1, .gap = 2, AT(against)},
        {.head = "for 1st", .kind = SPT_BAR, .width = HALF_WIDTH, .gap = 2, AT(favour)},
    };
    int count;
    const struct spt_diagnosis_factor *rows = spt_diagnosis_factors(page, report, rival, &count);
    if (!rows)
        return;
    spt_page_open(page, "What speaks for %s rather than %s",
                  spt_diagnosis_cause(report, report->result.order[0]),
                  spt_diagnosis_cause(report, rival));
    spt_page_table(page, "evidence", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_close(page);
}

void spt_diagnosis_show_evidence(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    int rivals[2];
    const int count = spt_diagnosis_rivals(report, rivals);
    for (int i = 0; i < count; i++)
        show_factors(page, report, rivals[i]);
    if (count)
        spt_page_say(page, SPT_NOTE, "",
                     "The factors multiply to the odds of the two. Findings that repeat each other "
                     "count less than they would alone.");
}
