/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/service/schedule_parts.h"
#include "base/utf8.h"

#define CURRENCY_CHARACTERS 6 /* of the currency in the head of a table */

/* True for a cheapest age that is not shown: other causes come first. */
static bool is_far(const struct spt_schedule *schedule)
{
    return spt_schedule_is_far(schedule->question, schedule->at_optimum.plan.age);
}

static bool passes_limit(const struct spt_schedule *schedule)
{
    return schedule->at_optimum.plan.age > schedule->age_limit_h;
}

/* Tells of an optimum age beyond the stated calendar age, which still applies. */
static void say_limit(struct spt_page *page, const struct spt_schedule *schedule)
{
    char span[SPT_SPAN_LENGTH];
    if (passes_limit(schedule))
        spt_page_say(page, SPT_BODY, "",
                     "That is beyond the age limit of %s, %s h: the limit holds.",
                     spt_text_span(schedule->question->age_limit_h / 24, span),
                     spt_page_hours(page, schedule->age_limit_h));
}

static void say_far(struct spt_page *page, const struct spt_schedule *schedule)
{
    const bool sooner =
        schedule->replace_h > 0 && schedule->replace_governor != SPT_GOVERNOR_FATIGUE_FAR;
    spt_page_say(
        page, SPT_BODY, "",
        "Money alone asks for no replacement: the cheapest age comes after more than %s.%s",
        schedule->question->yearly_use_h > 0
            ? spt_page_words(page, "%d years of use", SPT_SCHEDULE_FAR_YEARS)
            : spt_page_life(page, SPT_SCHEDULE_FAR_H),
        sooner ? " The plan keeps to the sooner age." : "");
}

static void say_optimum(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_replacement *best = &schedule->at_optimum.plan;
    if (!schedule->costs_known)
        spt_page_say(page, SPT_BODY, "",
                     "With `costs: {planned: ..., failure: ...}` the cheapest age is "
                     "worked out too.");
    else if (!schedule->optimum_found)
        spt_page_say(page, SPT_BODY, "",
                     "No finite optimum: with %.6g planned and %.6g after a failure, no age of "
                     "replacement is cheaper than running to failure.",
                     schedule->costs.planned, schedule->costs.failure);
    else if (is_far(schedule))
        say_far(page, schedule);
    else
        spt_page_say(page, SPT_BODY, "",
                     "Cheapest age of replacement: %s h, where %.4g %% survive. It costs %.3g %% "
                     "less than running to failure. %s",
                     spt_page_hours(page, best->age), 100 * best->survival,
                     100 * (1 - best->cost_rate / best->cost_rate_none),
                     best->age <= schedule->replace_h
                         ? "So it is changed then, sooner than the target reliability asks for."
                         : "Money alone would wait so long; the plan keeps to the sooner age.");
    if (schedule->optimum_found && !is_far(schedule))
        say_limit(page, schedule);
}

/* Tells the difference between the survival of the greases in the costs (smoothed) and in the
 * plan. */
static void say_smoothing(struct spt_page *page, const struct spt_schedule *schedule)
{
    if (schedule->grease_count && schedule->replace_h > 0 &&
        schedule->replace_governor != SPT_GOVERNOR_FATIGUE_FAR &&
        schedule->replace_h == schedule->reliable_h && !isnan(schedule->survival_fatigue))
        spt_page_say(
            page, SPT_BODY, "",
            "This section lets greases fail evenly between two regreasings, at their "
            "mean rate; the plan and the survival above let them fail the more the older they are. At "
            "the replacement that makes %.4g %% here and %.4g %% there.",
            100 * schedule->at_target.plan.survival,
            100 * schedule->survival_fatigue * schedule->survival_grease);
}

struct policy_row {
    const char *name;
    double age_h, failures, planned, cost;
};

static struct policy_row make_row(const char *name, const struct spt_schedule_policy *policy)
{
    return (struct policy_row){name, policy->plan.age, policy->year.failures, policy->year.planned,
                               policy->year.cost};
}

/* "cost, EUR" */
static const char *tell_cost(struct spt_page *page, const char *currency)
{
    size_t length = 0, all = currency ? strlen(currency) : 0;
    for (int i = 0; i < CURRENCY_CHARACTERS && length < all; i++)
        length += spt_utf8_size(currency + length, all - length);
    return length ? spt_page_words(page, "cost, %.*s", (int)length, currency) : "cost";
}

static const struct spt_column policy_columns[] = {
    {.head = "", .kind = SPT_WORDS, .width = 30, .at = offsetof(struct policy_row, name)},
    {.head = "age h",
     .kind = SPT_HOURS,
     .width = 9,
     .gap = 1,
     .endless = "-",
     .at = offsetof(struct policy_row, age_h)},
    {.head = "failures",
     .kind = SPT_NUMBER,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct policy_row, failures)},
    {.head = "planned",
     .kind = SPT_NUMBER,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct policy_row, planned)},
    {.head = "cost",
     .kind = SPT_NUMBER,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct policy_row, cost)},
};
#define POLICIES_MAX 3
#define COLUMNS ((int)(sizeof policy_columns / sizeof *policy_columns))

static void show_policies(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    struct policy_row *rows = spt_page_allocate(page, POLICIES_MAX * sizeof *rows);
    struct spt_column *columns = spt_page_columns(page, policy_columns, COLUMNS);
    int count = 0;
    if (!rows || !columns)
        return;
    columns[COLUMNS - 1].head = tell_cost(page, report->currency);
    rows[count++] = make_row("run to failure", &schedule->run_to_failure);
    if (schedule->reliable_h > 0 && schedule->replace_governor != SPT_GOVERNOR_FATIGUE_FAR)
        rows[count++] =
            make_row(schedule->reliable_h >= schedule->age_limit_h ? "at the age limit"
                                                                   : "at the target reliability",
                     &schedule->at_target);
    if (schedule->optimum_found && !is_far(schedule))
        rows[count++] =
            make_row(passes_limit(schedule) ? "cheapest, beyond the limit" : "at the cheapest age",
                     &schedule->at_optimum);
    spt_page_table(page, "policies",
                   &(struct spt_table){.columns = columns,
                                       .column_count = COLUMNS,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = count});
}

void spt_schedule_replacement_page(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_case *question = schedule->question;
    if (isnan(schedule->run_to_failure.plan.mean_life))
        return;
    spt_page_open(page, "Replacement");
    say_optimum(page, report);
    if (question->yearly_use_h > 0) {
        say_smoothing(page, schedule);
        spt_page_say(page, SPT_BODY, "", "In a year, in the long run, for %d machine%s%s:",
                     question->fleet > 0 ? question->fleet : 1, question->fleet > 1 ? "s" : "",
                     question->units > 1 ? spt_page_words(page, " of %d", question->units) : "");
        show_policies(page, report);
    }
    spt_page_close(page);
}
