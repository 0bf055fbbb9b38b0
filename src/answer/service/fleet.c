/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/fleet.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/service/schedule_words.h"
#include "answer/service/verdict.h"
#include "sentence/greasing.h"
#include "sentence/verdict.h"

struct plan_row {
    const char *name, *greasing, *target, *mark, *verdict;
    int machines, units;
    const char *currency;
    double visit_h, visit_days, visits, failures, cost, replace_h;
    double shown_h; /* the same for people; NaN: none, or too far away */
};

#define OF(member) .at = offsetof(struct plan_row, member)
static const struct spt_column plan_columns[] = {
    {.head = "plan", .key = "title", .kind = SPT_WORDS, .width = 19, OF(name)},
    {.head = "verdict", .kind = SPT_WORDS, .width = 11, .gap = 1, OF(mark)},
    {.key = "verdict", .kind = SPT_WORDS, OF(verdict)},
    {.head = "number", .key = "machines", .kind = SPT_COUNT, .width = 6, .gap = 1, OF(machines)},
    {.head = "visit h",
     .key = "visit_every_h",
     .kind = SPT_HOURS,
     .width = 7,
     .gap = 1,
     .none = "-",
     OF(visit_h)},
    {.head = "a year",
     .key = "visits_a_year",
     .kind = SPT_NUMBER,
     .width = 6,
     .gap = 1,
     .none = "-",
     OF(visits)},
    {.head = "failures",
     .key = "failures_a_year",
     .kind = SPT_NUMBER,
     .width = 8,
     .gap = 1,
     .none = "-",
     OF(failures)},
    {.key = "replace_h", .kind = SPT_HOURS, OF(replace_h)},
    {.head = "cost",
     .key = "cost_a_year",
     .kind = SPT_NUMBER,
     .width = 7,
     .gap = 1,
     .none = "-",
     OF(cost)},
    {.key = "currency", .kind = SPT_WORDS, OF(currency)},
    {.head = "replace", .kind = SPT_HOURS, .width = 7, .gap = 1, .none = "-", OF(shown_h)},
    {.key = "target", .kind = SPT_WORDS, OF(target)},
    {.key = "units", .kind = SPT_COUNT, OF(units)},
    {.key = "visit_every_days", .kind = SPT_NUMBER, OF(visit_days)},
    {.key = "greasing", .kind = SPT_WORDS, OF(greasing)},
};
#undef OF

static int count_machines(const struct spt_schedule_report *report)
{
    const int fleet = report->schedule->question->fleet;
    return fleet > 0 ? fleet : 1;
}

/* Failures in a year of all units, with the replacement of the plan. */
static double count_failures(const struct spt_schedule *schedule)
{
    if (!(schedule->replace_h > 0))
        return schedule->run_to_failure.year.failures;
    return schedule->replace_h < schedule->reliable_h ? schedule->at_optimum.year.failures
                                                      : schedule->at_target.year.failures;
}

/* Days between visits, in a season those of it. */
static double find_days(const struct spt_schedule *schedule)
{
    const struct spt_case *question = schedule->question;
    return spt_season_has(question) ? spt_season_days(question, schedule->visit_h, false) -
                                          spt_season_days(question, 0, false)
                                    : spt_schedule_days(question, schedule->visit_h);
}

/* What a machine costs a year by the visits of this table; NaN: no costs. */
static double find_cost(const struct spt_schedule_report *report)
{
    struct spt_money money;
    if (!report->cost_count ||
        spt_cost_plan(report->schedule, report->cost_entries[0].costs, &money))
        return (double)NAN;
    return money.middle.cost;
}

static const char *name_verdict(const struct spt_schedule_report *report)
{
    const char *name = spt_verdict_name(report->judgement);
    return name ? name : "-";
}

static const char *mark_words(const struct spt_judgement *judgement)
{
    static const char *const marks[] = {
        [SPT_UNJUDGED] = "", [SPT_MET] = "[+] ", [SPT_DOUBTFUL] = "[?] ", [SPT_MISSED] = "[-] "};
    return marks[spt_verdict_mark(judgement)];
}

static struct plan_row make_row(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_case *question = schedule->question;
    const int machines = count_machines(report);
    char words[SPT_GREASING_LENGTH];
    const char *greasing = spt_greasing_every(&schedule->greasing, words);
    return (struct plan_row){
        .name = question->title,
        .mark = spt_page_words(page, "%s%s", mark_words(report->judgement), name_verdict(report)),
        .verdict = spt_verdict_name(report->judgement),
        .currency = report->cost_count ? report->currency : NULL,
        .greasing = greasing ? spt_page_words(page, "%s", greasing) : NULL,
        .target = !(question->target_life_h > 0) ? "-"
                  : report->judgement->parts[SPT_CONCERN_FATIGUE].grade >= SPT_GRADE_MISSED
                      ? "missed"
                      : "met",
        .machines = machines,
        .units = question->units > 0 ? question->units : 1,
        .visit_h = schedule->visit_h,
        .visit_days = find_days(schedule),
        .visits = machines * question->yearly_use_h / schedule->visit_h,
        .failures = count_failures(schedule),
        .cost = machines * find_cost(report),
        .replace_h = schedule->replace_h,
        .shown_h = schedule->replace_governor == SPT_GOVERNOR_FATIGUE_FAR ? (double)NAN
                                                                          : schedule->replace_h,
    };
}

static void show_plans(struct spt_page *page, const struct spt_fleet_report *report)
{
    const int count = report->count;
    struct plan_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = make_row(page, report->reports[i]);
    spt_page_table(page, "plans",
                   &(struct spt_table){SPT_TABLE_OF(plan_columns, rows, count), .is_data = true});
}

struct start_row {
    const char *name, *machines;
    int weeks;
};

static const struct spt_column start_columns[] = {
    {.head = "plan",
     .key = "title",
     .kind = SPT_WORDS,
     .width = 27,
     .once = true,
     .at = offsetof(struct start_row, name)},
    {.head = "which",
     .key = "machines",
     .kind = SPT_WORDS,
     .width = 24,
     .gap = 1,
     .at = offsetof(struct start_row, machines)},
    {.head = "weeks sooner",
     .key = "weeks_sooner",
     .kind = SPT_COUNT,
     .width = 12,
     .gap = 1,
     .at = offsetof(struct start_row, weeks)},
};

static void show_starts(struct spt_page *page, const struct spt_fleet_report *report)
{
    const int count = report->start_count;
    struct start_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++) {
        char machines[SPT_MACHINES_LENGTH];
        spt_schedule_machines(&report->starts[i], machines);
        rows[i] =
            (struct start_row){report->reports[report->starts[i].plan]->schedule->question->title,
                               spt_page_words(page, "%s", machines), report->starts[i].weeks};
    }
    spt_page_table(page, "starts",
                   &(struct spt_table){SPT_TABLE_OF(start_columns, rows, count),
                                       .caption = "Staggered starts", .apart = true});
}

static bool crew_fails(const struct spt_fleet_report *report)
{
    return report->crew && report->busiest > report->crew;
}

static void say_crew(struct spt_page *page, const struct spt_fleet_report *report)
{
    if (!report->crew)
        return;
    if (!crew_fails(report))
        spt_page_say(page, SPT_BODY, "",
                     "The crew of %d visits a week suffices: the busiest week has %d. A machine "
                     "that starts sooner has every visit so many weeks sooner, none later.",
                     report->crew, report->busiest);
    else
        spt_page_say(page, SPT_BODY, "! ",
                     "The crew of %d visits a week does not suffice: the busiest week has %d even "
                     "with staggered starts.",
                     report->crew, report->busiest);
}

/* The plans of one grade, by name. Result: their number. */
static int add_grade(struct spt_page *page, const struct spt_fleet_report *report,
                     enum spt_grade grade, const char **words)
{
    const char *names = "";
    int count = 0;
    for (int i = 0; i < report->count; i++)
        if (report->reports[i]->judgement->grade == grade)
            names =
                spt_page_words(page, "%s%s\"%s\"", names, count++ ? ", " : "",
                               spt_page_name(page, report->reports[i]->schedule->question->title));
    if (count)
        *words = spt_page_words(page, "%s%s%d %s: %s", *words, **words ? "; " : "", count,
                                spt_grade_name(grade), names);
    return count;
}

/* One sentence on all plans, the worst first, marked as the worst. */
static void judge_all(struct spt_page *page, const struct spt_fleet_report *report)
{
    const char *words = "";
    const struct spt_judgement *worst = report->reports[0]->judgement;
    if (crew_fails(report))
        words = spt_page_words(page, "unfit: the crew of %d visits a week does not suffice",
                               report->crew);
    for (int grade = (int)SPT_GRADE_UNFIT; grade >= (int)SPT_GRADE_MET; grade--)
        add_grade(page, report, (enum spt_grade)grade, &words);
    for (int i = 1; i < report->count; i++)
        if (report->reports[i]->judgement->grade > worst->grade)
            worst = report->reports[i]->judgement;
    spt_page_judge(page, crew_fails(report) ? SPT_MISSED : spt_verdict_mark(worst),
                   "Of %d plan%s %s.", report->count, report->count > 1 ? "s" : "", words);
}

static const char *name_currency(const struct spt_schedule_report *report)
{
    return report->currency ? report->currency : "no stated currency";
}

/* The currency of the costs; where the plans have several, each by its plan. */
static void say_currency(struct spt_page *page, const struct spt_fleet_report *report)
{
    const struct spt_schedule_report *first = NULL;
    const char *names = "";
    bool differ = false;
    for (int i = 0; i < report->count; i++) {
        const struct spt_schedule_report *one = report->reports[i];
        if (!one->cost_count)
            continue;
        first = first ? first : one;
        differ = differ || strcmp(name_currency(first), name_currency(one)) != 0;
        names =
            spt_page_words(page, "%s%s\"%s\" %s", names, *names ? ", " : "",
                           spt_page_name(page, one->schedule->question->title), name_currency(one));
    }
    if (differ)
        spt_page_say(page, SPT_BODY, "! ",
                     "The costs a year are not in one currency and do not add up: %s.", names);
    else if (first)
        spt_page_say(page, SPT_BODY, "", "The costs are those of a year, in %s.",
                     name_currency(first));
}

static void say_base(struct spt_page *page, const struct spt_fleet_report *report)
{
    char span[SPT_SPAN_LENGTH];
    if (report->count > 1 && !isnan(report->base_days))
        spt_page_say(page, SPT_BODY, "",
                     "Visits of all plans are multiples of %s, the most frequent of them, so that "
                     "they coincide; seasons keep to their own.",
                     spt_text_span(report->base_days, span));
}

void spt_fleet_page(struct spt_page *page, const struct spt_fleet_report *report)
{
    spt_page_open(page, "One calendar");
    judge_all(page, report);
    show_plans(page, report);
    say_currency(page, report);
    say_base(page, report);
    say_crew(page, report);
    show_starts(page, report);
    spt_page_close(page);
    for (int i = 0; i < report->count; i++) {
        spt_page_open(page, "%s",
                      spt_page_name(page, report->reports[i]->schedule->question->title));
        spt_verdict_page(page, report->reports[i]->judgement);
        spt_schedule_page(page, report->reports[i]);
        spt_page_close(page);
    }
}

void spt_fleet_json(struct spt_json *json, const struct spt_page *page,
                    const struct spt_fleet_report *report)
{
    spt_table_json(spt_page_find(page, "plans"), "fleet", json);
    spt_json_number(json, "visit_base_days", report->base_days);
    spt_json_number(json, "crew_visits_a_week", report->crew ? report->crew : (double)NAN);
    spt_json_number(json, "busiest_week_visits", report->crew ? report->busiest : (double)NAN);
    spt_table_json(spt_page_find(page, "starts"), "starts", json);
    spt_json_open(json, "plans", '[');
    for (int i = 0; i < report->count; i++) {
        spt_json_open(json, NULL, '{');
        spt_verdict_json(json, report->reports[i]->judgement);
        spt_schedule_json(json, report->parts[i], report->reports[i]);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}
