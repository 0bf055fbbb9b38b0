/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/schedule.h"

#include <math.h>
#include <string.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/life.h"
#include "answer/service/schedule_words.h"
#include "sentence/findings.h"
#include "sentence/together.h"

#define VISITS_SHOWN 24
#define SPAN_WORDS_LENGTH (2 * SPT_HOURS_LENGTH + 16)

static void write_task(const struct spt_text *text, const struct spt_schedule_report *report,
                       const struct spt_schedule_task *task)
{
    const struct spt_case *question = report->schedule->question;
    char what[SPT_WHAT_LENGTH], cell[SPT_HOURS_LENGTH], span[SPT_SPAN_LENGTH];
    spt_schedule_name(report->schedule, task, what);
    spt_text_fit(text, what, 25);
    fprintf(text->out, " %9s", isnan(task->every_h) ? "-" : spt_text_hours(task->every_h, cell));
    if (question->road_speed_km_h > 0 && !isnan(task->every_h))
        spt_text_amount(task->every_h * question->road_speed_km_h, cell);
    else
        strcpy(cell, "-");
    fprintf(text->out, " %9s", cell);
    fprintf(text->out, " %11s  %s\n", spt_schedule_every(question, task->every_h, span),
            spt_governor_name(task->governor));
}

static void say_note(void *context, const char *who, const char *sentence)
{
    (void)who;
    spt_text_wrap(context, "- ", sentence);
}

static void say_warning(void *context, const char *who, const char *sentence)
{
    (void)who;
    spt_text_wrap(context, "! ", sentence);
}

/* "900 h", or both ends of the band where they differ. */
static const char *tell_span(double low_h, double high_h, char *buffer)
{
    char low[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    spt_text_hours(low_h, low);
    if (low_h == high_h)
        snprintf(buffer, SPAN_WORDS_LENGTH, "%s h at either end", low);
    else
        snprintf(buffer, SPAN_WORDS_LENGTH, "%s to %s", low, spt_text_life(high_h, high));
    return buffer;
}

/* Writes the bands of the intervals that depend on fatigue life, by the uncertainty of the
 * inputs. */
static void write_band(const struct spt_text *text, const struct spt_schedule_report *report)
{
    char inspect[SPAN_WORDS_LENGTH], replace[SPAN_WORDS_LENGTH];
    if (!report->spread)
        return;
    spt_band_text(text, report->spread);
    if (isnan(report->low.replace_h) || isnan(report->high.replace_h))
        spt_text_wrap(text, "",
                      "With a life missing at an end of that band, the intervals have none "
                      "either: go by the maker.");
    else
        spt_text_wrapf(text, "", "With the lives at its ends: inspect every %s, replace at %s.%s",
                       tell_span(report->low.inspect_h, report->high.inspect_h, inspect),
                       tell_span(report->low.replace_h, report->high.replace_h, replace),
                       report->low.inspect_h < report->high.inspect_h ||
                               report->low.replace_h < report->high.replace_h
                           ? " Where a failure can hurt somebody, take the shorter."
                           : "");
}

static bool rests_on_fatigue(const struct spt_schedule *schedule)
{
    for (int i = 0; i < schedule->task_count; i++)
        if (schedule->tasks[i].governor == SPT_GOVERNOR_LIFE_99 ||
            schedule->tasks[i].governor == SPT_GOVERNOR_GREASED_99 ||
            schedule->tasks[i].governor == SPT_GOVERNOR_FATIGUE)
            return true;
    return false;
}

/* Writes reasons why the intervals may be too long. */
static void write_reservations(const struct spt_text *text,
                               const struct spt_schedule_report *report)
{
    /* flags that the plan already includes, such as age limit and first regreasing */
    static const bool planned[SPT_FLAG_COUNT] = {
        [SPT_FLAG_CALENDAR_AGE] = true, [SPT_FLAG_GREASE_OVERDUE] = true};
    char words[SPT_RESERVATIONS_LENGTH];
    if (spt_findings_reservations(report->assessment, planned, words))
        spt_text_wrapf(text, "- ", "But %s (see the flags)%s.", words,
                       rests_on_fatigue(report->schedule)
                           ? ": intervals that rest on fatigue life may be too long"
                           : "");
}

static void write_plan(const struct spt_text *text, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    struct spt_text copy = *text;
    const struct spt_finding_sink warnings = {say_warning, &copy}, notes = {say_note, &copy};
    spt_text_heading(text, "PLAN");
    spt_schedule_warnings(schedule, &warnings);
    fputs("what                        every h        km       every  governed by\n", text->out);
    for (int i = 0; i < schedule->task_count; i++)
        write_task(text, report, &schedule->tasks[i]);
    write_band(text, report);
    spt_schedule_notes(schedule, &notes);
    write_reservations(text, report);
}

static void write_lives(const struct spt_text *text, const char *name,
                        const struct spt_survival_lives *lives)
{
    char cell[SPT_HOURS_LENGTH];
    if (isnan(lives->l10_h))
        return;
    fprintf(text->out, "%-28s %11s", name, spt_text_hours(lives->l1_h, cell));
    fprintf(text->out, " %11s", spt_text_hours(lives->l5_h, cell));
    fprintf(text->out, " %11s", spt_text_hours(lives->l10_h, cell));
    fprintf(text->out, " %11s\n", spt_text_hours(lives->l50_h, cell));
}

/* Writes the intervals of each of two bearings alone; those of the machine, which needs both, are
 * shorter. */
static void write_each(const struct spt_text *text, const struct spt_schedule *schedule)
{
    char cell[SPT_HOURS_LENGTH];
    if (schedule->bearing_count < 2 || isnan(schedule->fatigue_lives.l10_h))
        return;
    fputs("\neach by itself, h               regrease  99 % life    replace  governed by\n",
          text->out);
    for (int i = 0; i < schedule->bearing_count; i++) {
        const struct spt_bearing_schedule *bearing = &schedule->bearings[i];
        const double values_h[] = {bearing->renewed_h, bearing->inspect_h, bearing->replace_h};
        spt_text_fit(text, spt_schedule_bearing(schedule->question, i), 29);
        for (int j = 0; j < 3; j++)
            fprintf(text->out, " %10s",
                    isnan(values_h[j]) ? "-" : spt_text_hours(values_h[j], cell));
        fprintf(text->out, "  %s\n",
                isnan(bearing->replace_h) ? "-" : spt_governor_name(bearing->replace_governor));
    }
}

/* Writes the law of the fatigue lives above. */
static void write_law(const struct spt_text *text, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    if (isnan(schedule->fatigue_lives.l10_h))
        return;
    if (report->floor > 0)
        spt_text_wrap(text, "",
                      "Fatigue by the three-parameter law behind a1: nothing fails before "
                      "0.05 L10.");
    else
        spt_text_wrap(text, "",
                      "Fatigue by the two-parameter law with slope 1.5: it has early "
                      "failures that the law behind a1 has not.");
    if (schedule->bearing_count > 1)
        spt_text_wrapf(text, "", "Fatigue of %s is the product of their shares by this law.",
                       spt_together(schedule->question));
}

static void write_survival(const struct spt_text *text, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    char age[SPT_HOURS_LENGTH];
    if (isnan(schedule->fatigue_lives.l10_h) && isnan(schedule->grease_lives.l10_h))
        return;
    spt_text_heading(text, "SURVIVAL");
    fputs("hours that this share reaches       99 %        95 %        90 %        50 %\n",
          text->out);
    write_lives(text, schedule->followed ? "fatigue under this plan" : "rolling fatigue",
                &schedule->fatigue_lives);
    if (schedule->followed)
        write_lives(text, "fatigue, as stated", &schedule->stated_fatigue_lives);
    write_lives(text, "grease, regreased as planned", &schedule->grease_lives);
    if (schedule->grease_count && !isnan(schedule->fatigue_lives.l10_h))
        write_lives(text, "both", &schedule->combined_lives);
    if (schedule->followed && isfinite(schedule->path.stopped_h))
        spt_text_wrapf(text, "",
                       "From %s h on no life can be stated (film gone, or too hot): nothing is "
                       "taken to survive that.",
                       spt_text_hours(schedule->path.stopped_h, age));
    write_each(text, schedule);
    write_law(text, report);
    if (schedule->grease_count && schedule->grease_age_h > 0)
        spt_text_wrap(text, "",
                      "The greases count from fresh here: the age of the present grease moves the "
                      "first regreasing, not these shares.");
    if (schedule->replace_h > 0 && schedule->grease_count && !isnan(schedule->survival_fatigue))
        spt_text_wrapf(text, "",
                       "At the replacement, %s h, %.4g %% survive fatigue and %.4g %% of the "
                       "greases last, %.4g %% both.",
                       spt_text_hours(schedule->replace_h, age), 100 * schedule->survival_fatigue,
                       100 * schedule->survival_grease,
                       100 * schedule->survival_fatigue * schedule->survival_grease);
}

static void write_policy(const struct spt_text *text, const char *name,
                         const struct spt_schedule_policy *policy)
{
    char cell[SPT_HOURS_LENGTH];
    fprintf(text->out, "%-30s", name);
    fprintf(text->out, " %9s",
            isinf(policy->plan.age) ? "-" : spt_text_hours(policy->plan.age, cell));
    fprintf(text->out, " %11s", spt_text_number(policy->year.failures, cell));
    fprintf(text->out, " %11s", spt_text_number(policy->year.planned, cell));
    fprintf(text->out, " %11s\n", spt_text_number(policy->year.cost, cell));
}

static bool passes_limit(const struct spt_schedule *schedule)
{
    return schedule->at_optimum.plan.age > schedule->age_limit_h;
}

/* Reports an optimum age beyond the stated calendar age, which still applies. */
static void write_limit(const struct spt_text *text, const struct spt_schedule *schedule)
{
    char span[SPT_SPAN_LENGTH], hours[SPT_HOURS_LENGTH];
    if (passes_limit(schedule))
        spt_text_wrapf(text, "", "That is beyond the age limit of %s, %s h: the limit holds.",
                       spt_text_span(schedule->question->age_limit_h / 24, span),
                       spt_text_hours(schedule->age_limit_h, hours));
}

static void write_optimum(const struct spt_text *text, const struct spt_schedule_report *report)
{
    char age[SPT_HOURS_LENGTH];
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_replacement *best = &schedule->at_optimum.plan;
    if (!schedule->costs_known)
        spt_text_wrap(text, "",
                      "With `costs: {planned: ..., failure: ...}` the cheapest age is "
                      "worked out too.");
    else if (!schedule->optimum_found)
        spt_text_wrapf(text, "",
                       "No finite optimum: with %.6g planned and %.6g after a failure, no age of "
                       "replacement is cheaper than running to failure.",
                       report->costs->planned, report->costs->failure);
    else
        spt_text_wrapf(text, "",
                       "Cheapest age of replacement: %s h, where %.4g %% survive. It costs %.3g %% "
                       "less than running to failure. This counts money alone: where a failed "
                       "bearing can hurt somebody, such as in a road wheel, keep to the age at the "
                       "target reliability.",
                       spt_text_hours(best->age, age), 100 * best->survival,
                       100 * (1 - best->cost_rate / best->cost_rate_none));
    if (schedule->optimum_found)
        write_limit(text, schedule);
}

/* Reports the difference between the survival of the greases in the costs (smoothed) and in the
 * plan. */
static void write_smoothing(const struct spt_text *text, const struct spt_schedule *schedule)
{
    if (schedule->grease_count && schedule->replace_h > 0 && !isnan(schedule->survival_fatigue))
        spt_text_wrapf(text, "",
                       "This section lets greases fail evenly between two regreasings, at their "
                       "mean rate; PLAN and SURVIVAL let them fail the more the older they are. At "
                       "the replacement that makes %.4g %% here and %.4g %% there.",
                       100 * schedule->at_target.plan.survival,
                       100 * schedule->survival_fatigue * schedule->survival_grease);
}

static void write_replacement(const struct spt_text *text, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_case *question = schedule->question;
    if (isnan(schedule->run_to_failure.plan.mean_life))
        return;
    spt_text_heading(text, "REPLACEMENT");
    write_optimum(text, report);
    if (!(question->yearly_use_h > 0))
        return;
    write_smoothing(text, schedule);
    spt_text_wrapf(text, "", "In a year, in the long run, for %d machine%s:",
                   question->fleet > 0 ? question->fleet : 1, question->fleet > 1 ? "s" : "");
    fprintf(text->out, "%-30s     age h    failures     planned  cost%s%.6s\n", "",
            report->currency ? ", " : "", report->currency ? report->currency : "");
    write_policy(text, "run to failure", &schedule->run_to_failure);
    if (schedule->replace_h > 0)
        write_policy(text,
                     schedule->replace_h >= schedule->age_limit_h ? "at the age limit"
                                                                  : "at the target reliability",
                     &schedule->at_target);
    if (schedule->optimum_found)
        write_policy(text,
                     passes_limit(schedule) ? "cheapest, beyond the limit" : "at the cheapest age",
                     &schedule->at_optimum);
}

/* Writes the time of an entry; blanks for a task of the same visit as the previous one. */
static void write_place(const struct spt_text *text, const struct spt_schedule_report *report,
                        const struct spt_schedule_entry *entry)
{
    const struct spt_case *question = report->schedule->question;
    char cell[SPT_HOURS_LENGTH], span[SPT_SPAN_LENGTH], day[SPT_DATE_LENGTH];
    struct spt_date date;
    double days = spt_schedule_days(question, entry->at_h);
    fprintf(text->out, "%10s", spt_text_hours(entry->at_h, cell));
    strcpy(cell, "-");
    if (question->road_speed_km_h > 0)
        spt_text_amount(entry->at_h * question->road_speed_km_h, cell);
    fprintf(text->out, " %10s", cell);
    if (report->dated && spt_date_after(&report->start, days, &date))
        fprintf(text->out, "  %11s  ", spt_date_text(&date, false, day));
    else
        fprintf(text->out, "  %11s  ", spt_text_span(days, span));
}

static void write_entry(const struct spt_text *text, const struct spt_schedule_report *report,
                        int index)
{
    const struct spt_schedule_entry *entry = &report->entries[index];
    char what[SPT_WHAT_LENGTH];
    if (index && entry[-1].visit == entry->visit)
        fprintf(text->out, "%36s", "");
    else
        write_place(text, report, entry);
    spt_schedule_dated_what(report->schedule, entry, what);
    spt_text_fit(text, what, 38);
    fprintf(text->out, " %4d\n", entry->number);
}

/* Reports tasks that were combined in one visit, if any. */
static void write_visits(const struct spt_text *text, const struct spt_schedule_report *report)
{
    bool sooner = false;
    for (int i = 0; i < report->entry_count; i++)
        sooner = sooner || report->entries[i].due_h > report->entries[i].at_h;
    if (sooner)
        spt_text_wrapf(text, "",
                       "What falls due within %.0f %% of its interval after another task is done "
                       "at the same visit, sooner than it has to be, and counts anew from then.",
                       100 * SPT_SCHEDULE_VISIT_WITHIN);
}

static void write_open_end(const struct spt_text *text, const struct spt_schedule *schedule)
{
    if (schedule->replace_h > 0 || schedule->question->target_life_h > 0)
        return;
    if (schedule->question->yearly_use_h > 0)
        spt_text_wrapf(text, "",
                       "Neither a replacement nor a target ends this calendar: %d years are shown.",
                       SPT_SCHEDULE_OPEN_YEARS);
    else
        spt_text_wrap(text, "",
                      "Neither a replacement nor a target ends this calendar: it shows what is due "
                      "at once.");
}

static void write_calendar(const struct spt_text *text, const struct spt_schedule_report *report)
{
    int shown = 0;
    if (!report->entry_count)
        return;
    spt_text_heading(text, "CALENDAR");
    fprintf(text->out, "      at h      at km  %11s  %-38s time\n",
            report->dated ? "date" : "after", "what");
    while (shown < report->entry_count && report->entries[shown].visit <= VISITS_SHOWN)
        write_entry(text, report, shown++);
    write_visits(text, report);
    write_open_end(text, report->schedule);
    if (shown < report->entry_count)
        spt_text_wrapf(text, "", "%d more%s; --format csv gives them.", report->entry_count - shown,
                       report->cut ? " (and the list was cut short of its end)" : "");
}

void spt_schedule_text(const struct spt_text *text, const struct spt_schedule_report *report,
                       bool quiet)
{
    spt_text_wrap(text, "", report->schedule->question->title);
    spt_history_text(text, report->schedule->question);
    write_plan(text, report);
    write_survival(text, report);
    write_replacement(text, report);
    write_calendar(text, report);
    if (!quiet)
        spt_life_flags_text(text, report->assessment);
}
