/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/service/schedule_parts.h"
#include "base/table.h"
#include "format/page/blocks.h"

struct cost_row {
    const char *name, *pays;
    struct spt_money money;
    double investment, payback_years, l10_h, interval_h, replace_h;
};

#define OF(member) .at = offsetof(struct cost_row, member)
static const struct spt_column cost_columns[] = {
    {.head = "case", .key = "case", .kind = SPT_WORDS, .width = 26, OF(name)},
    {.head = "visits",
     .key = "visits",
     .kind = SPT_NUMBER,
     .width = 6,
     .gap = 1,
     OF(money.middle.visits)},
    {.head = "failures",
     .key = "failures",
     .kind = SPT_NUMBER,
     .width = 8,
     .gap = 1,
     OF(money.middle.failures)},
    {.head = "cost",
     .key = "cost",
     .kind = SPT_AMOUNT,
     .width = 8,
     .gap = 1,
     OF(money.middle.cost)},
    {.head = "low",
     .key = "cost_low",
     .kind = SPT_AMOUNT,
     .width = 8,
     .gap = 1,
     OF(money.low.cost)},
    {.head = "high",
     .key = "cost_high",
     .kind = SPT_AMOUNT,
     .width = 8,
     .gap = 1,
     OF(money.high.cost)},
    {.head = "pays back",
     .key = "payback_years",
     .kind = SPT_NUMBER,
     .width = 10,
     .gap = 1,
     .none = "-",
     .unit = " years",
     OF(payback_years)},
    {.key = "pays", .kind = SPT_WORDS, OF(pays)},
    {.key = "greasings", .kind = SPT_NUMBER, OF(money.middle.greasings)},
    {.key = "planned_changes", .kind = SPT_NUMBER, OF(money.middle.planned)},
    {.key = "cost_of_visits", .kind = SPT_NUMBER, OF(money.middle.attendance)},
    {.key = "cost_of_greasing", .kind = SPT_NUMBER, OF(money.middle.greasing)},
    {.key = "cost_of_changes", .kind = SPT_NUMBER, OF(money.middle.replacement)},
    {.key = "cost_of_investment", .kind = SPT_NUMBER, OF(money.middle.capital)},
    {.key = "investment", .kind = SPT_NUMBER, OF(investment)},
    {.key = "fatigue_l10_h", .kind = SPT_HOURS, OF(l10_h)},
    {.key = "grease_interval_h", .kind = SPT_HOURS, OF(interval_h)},
    {.key = "replace_h", .kind = SPT_HOURS, OF(replace_h)},
};
#undef OF

static bool is_cheaper(const struct spt_cost_entry *a, const struct spt_cost_entry *b)
{
    return a->result.money.middle.cost < b->result.money.middle.cost ||
           (isnan(b->result.money.middle.cost) && !isnan(a->result.money.middle.cost));
}

/* The cases, the cheapest first; those of one cost as they are written. */
static const struct spt_cost_entry **sort(struct spt_page *page,
                                          const struct spt_schedule_report *report)
{
    const int count = report->cost_count;
    const struct spt_cost_entry **sorted = spt_page_allocate(page, (size_t)count * sizeof *sorted);
    for (int i = 0; sorted && i < count; i++) {
        int at = i;
        for (; at && is_cheaper(&report->cost_entries[i], sorted[at - 1]); at--)
            sorted[at] = sorted[at - 1];
        sorted[at] = &report->cost_entries[i];
    }
    return sorted;
}

static void show_cases(struct spt_page *page, const struct spt_schedule_report *report,
                       const struct spt_cost_entry **sorted)
{
    const int count = report->cost_count;
    struct cost_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++) {
        const struct spt_cost_result *result = &sorted[i]->result;
        const bool first = sorted[i] == report->cost_entries;
        rows[i] = (struct cost_row){.name = sorted[i]->name,
                                    .pays = first          ? NULL
                                            : result->pays ? "yes"
                                                           : "no",
                                    .money = result->money,
                                    .investment = sorted[i]->costs->investment,
                                    .payback_years = result->payback_years,
                                    .l10_h = result->l10_h,
                                    .interval_h = result->interval_h,
                                    .replace_h = result->replace_h};
    }
    spt_page_table(page, "costs",
                   &(struct spt_table){SPT_TABLE_OF(cost_columns, rows, count),
                                       .is_data = report->costs_alone});
}

static const char *name_hazard(enum spt_hazard hazard)
{
    static const char *const names[] = {[SPT_HAZARD_FATIGUE] = "fatigue",
                                        [SPT_HAZARD_GREASE] = "the life of the grease",
                                        [SPT_HAZARD_RUST] = "rust at standstill"};
    SPT_ONE_EACH(names, SPT_HAZARD_COUNT);
    return names[hazard];
}

/* "fatigue, rust at standstill"; NULL: it helps everything. */
static const char *tell_unhelped(struct spt_page *page, unsigned unhelped)
{
    const char *words = NULL;
    for (int i = 0; i < SPT_HAZARD_COUNT; i++)
        if (unhelped >> i & 1u)
            words = words ? spt_page_words(page, "%s, %s", words, name_hazard((enum spt_hazard)i))
                          : name_hazard((enum spt_hazard)i);
    return words;
}

/* Whether a remedy pays, and what it does nothing for. */
static void say_case(struct spt_page *page, const struct spt_schedule_report *report,
                     const struct spt_cost_entry *entry)
{
    const struct spt_money *now = &entry->result.money,
                           *before = &report->cost_entries[0].result.money;
    const char *unhelped = tell_unhelped(page, entry->result.unhelped);
    const char *pays = entry->result.pays ? "pays"
                       : now->middle.cost < before->middle.cost
                           ? "is cheaper, but not where grease lasts twice as long as worked out"
                       : isnan(now->middle.cost) ? "has no cost that can be worked out"
                                                 : "does not pay";
    if (entry == report->cost_entries)
        return;
    if (entry->result.helps || entry->costs->investment > 0)
        spt_page_say(page, SPT_BODY, "- ", "%s %s%s%s.", spt_page_name(page, entry->name), pays,
                     unhelped ? "; it does nothing for: " : "", unhelped ? unhelped : "");
    else if (now->middle.cost > before->middle.cost)
        spt_page_say(page, SPT_BODY, "- ", "%s costs %.4g more a year.",
                     spt_page_name(page, entry->name), now->middle.cost - before->middle.cost);
}

static void say_basis(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_case *question = report->schedule->question;
    const int units = question->units > 0 ? question->units : 1;
    const double fleet = question->fleet > 0 ? question->fleet : 1;
    const struct spt_money *money = &report->cost_entries[0].result.money;
    spt_page_say(
        page, SPT_BODY, "",
        "A year of one machine%s%s%s: visits, greasing or oil, changes by the plan and after "
        "failures, and the investment paid off.%s",
        units > 1 ? spt_page_words(page, " with %d units", units) : "",
        report->currency ? " in " : "",
        report->currency ? spt_page_name(page, report->currency) : "",
        report->schedule->grease_count ? " Low and high: grease that lasts twice and half as long."
                                       : "");
    if (spt_cost_is_parts_only(report->cost_entries[0].costs))
        spt_page_say(page, SPT_BODY, "",
                     "Neither `visit` nor `downtime` is stated under `costs`, so a greasing looks "
                     "cheaper than it is.");
    if (fleet > 1 && !isnan(money->middle.cost))
        spt_page_say(page, SPT_BODY, "",
                     "All %g machines as they are now: %.4g failures and a cost of %.6g a year.",
                     fleet, fleet * money->middle.failures, fleet * money->middle.cost);
    if (report->costs_leave_events)
        spt_page_say(page, SPT_BODY, "",
                     "The events of `service` are left out of these costs, of every case alike.");
}

void spt_schedule_cost_page(struct spt_page *page, const struct spt_schedule_report *report)
{
    if (!report->cost_count)
        return;
    const struct spt_cost_entry **sorted = sort(page, report);
    if (!sorted)
        return;
    spt_page_open(page, spt_cost_is_parts_only(report->cost_entries[0].costs) ? "Money, parts only"
                                                                              : "Money");
    show_cases(page, report, sorted);
    say_basis(page, report);
    for (int i = 0; i < report->cost_count; i++)
        say_case(page, report, sorted[i]);
    spt_page_close(page);
}

static void write_unhelped(struct spt_json *json, unsigned unhelped)
{
    spt_json_open(json, "does_nothing_for", '[');
    for (int i = 0; i < SPT_HAZARD_COUNT; i++)
        if (unhelped >> i & 1u)
            spt_json_text(json, NULL, name_hazard((enum spt_hazard)i));
    spt_json_close(json, ']');
}

static unsigned find_unhelped(const struct spt_schedule_report *report, const char *name)
{
    for (int i = 1; i < report->cost_count; i++)
        if (!strcmp(report->cost_entries[i].name, name))
            return report->cost_entries[i].result.unhelped;
    return 0;
}

void spt_schedule_cost_json(struct spt_json *json, const struct spt_page *page,
                            const struct spt_schedule_report *report)
{
    const struct spt_table *table = spt_page_find(page, "costs");
    if (!table)
        return;
    spt_json_open(json, "money", '{');
    spt_json_bool(json, "parts_only", spt_cost_is_parts_only(report->cost_entries[0].costs));
    spt_json_open(json, "cases", '[');
    for (int i = 0; i < table->row_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_table_json_row(table, i, json);
        write_unhelped(json, find_unhelped(report, spt_cell_text(table, i, 0)));
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}
