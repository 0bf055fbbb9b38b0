/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/life.h"
#include "answer/service/schedule_words.h"
#include "format/csv.h"
#include "sentence/findings.h"

static double distance_km(const struct spt_case *question, double at_h)
{
    return question->road_speed_km_h > 0 ? at_h * question->road_speed_km_h : (double)NAN;
}

/* The date of an entry as text; empty where there is none. */
static const char *day_of(const struct spt_schedule_report *report, double at_h, char *buffer)
{
    struct spt_date date;
    double days = spt_schedule_days(report->schedule->question, at_h);
    *buffer = 0;
    if (report->dated && spt_date_after(&report->start, days, &date))
        spt_date_text(&date, false, buffer);
    return buffer;
}

/* Name of the bearing of a task, "both rows" where it greases them; NULL: the machine. */
static const char *where(const struct spt_case *question, const struct spt_schedule_task *task)
{
    bool both = task->task == SPT_TASK_REGREASE && question->bearing_count > 1;
    return task->bearing >= 0 || both ? spt_schedule_bearing(question, task->bearing) : NULL;
}

void spt_schedule_csv(FILE *out, const struct spt_schedule_report *report)
{
    static const char *const heads[] = {"task",    "bearing",     "number", "at_h",
                                        "at_km",   "days",        "date",   "grease_g",
                                        "every_h", "governed_by", "visit",  "due_h"};
    struct spt_csv csv = {out, false};
    const struct spt_case *question = report->schedule->question;
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
        spt_csv_text(&csv, heads[i]);
    spt_csv_end(&csv);
    for (int i = 0; i < report->entry_count; i++) {
        const struct spt_schedule_entry *entry = &report->entries[i];
        const struct spt_schedule_task *task = &report->schedule->tasks[entry->task];
        char day[SPT_DATE_LENGTH];
        spt_csv_text(&csv, spt_task_name(task->task));
        spt_csv_text(&csv, where(question, task) ? where(question, task) : "");
        spt_csv_number(&csv, entry->number);
        spt_csv_number(&csv, entry->at_h);
        spt_csv_number(&csv, distance_km(question, entry->at_h));
        spt_csv_number(&csv, spt_schedule_days(question, entry->at_h));
        spt_csv_text(&csv, day_of(report, entry->at_h, day));
        spt_csv_number(&csv, task->quantity_g);
        spt_csv_number(&csv, task->every_h);
        spt_csv_text(&csv, spt_governor_name(task->governor));
        spt_csv_number(&csv, entry->visit);
        spt_csv_number(&csv, entry->due_h);
        spt_csv_end(&csv);
    }
}

/* Writes the interval for the 5 and 95 % percentiles of the life, where it depends on fatigue
 * life. */
static void write_every_band(struct spt_json *json, const struct spt_schedule_report *report,
                             enum spt_task task)
{
    const struct spt_schedule_intervals *low = &report->low, *high = &report->high;
    bool inspects = task == SPT_TASK_INSPECT;
    if (!report->spread || (!inspects && task != SPT_TASK_REPLACE))
        return;
    spt_json_open(json, "every_band", '{');
    spt_json_number(json, "p5_h", inspects ? low->inspect_h : low->replace_h);
    spt_json_number(json, "p95_h", inspects ? high->inspect_h : high->replace_h);
    spt_json_close(json, '}');
}

static void write_task(struct spt_json *json, const struct spt_schedule_report *report,
                       const struct spt_schedule_task *task)
{
    const struct spt_case *question = report->schedule->question;
    char why[SPT_WHY_LENGTH];
    spt_schedule_why(task, why);
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "task", spt_task_name(task->task));
    spt_json_text(json, "bearing", where(question, task));
    spt_json_number(json, "every_h", task->every_h);
    spt_json_number(json, "first_h", spt_schedule_first_h(task));
    spt_json_bool(json, "overdue", spt_schedule_is_overdue(task));
    spt_json_number(json, "every_km", distance_km(question, task->every_h));
    spt_json_number(json, "every_days", spt_schedule_days(question, task->every_h));
    write_every_band(json, report, task->task);
    spt_json_bool(json, "beyond_planned", spt_schedule_is_beyond(question, task->every_h));
    spt_json_number(json, "grease_g", task->quantity_g);
    spt_json_text(json, "governed_by", spt_governor_name(task->governor));
    spt_json_text(json, "why", why);
    spt_json_close(json, '}');
}

static void write_lives(struct spt_json *json, const char *key,
                        const struct spt_survival_lives *lives)
{
    spt_json_open(json, key, '{');
    spt_json_number(json, "l1_h", lives->l1_h);
    spt_json_number(json, "l5_h", lives->l5_h);
    spt_json_number(json, "l10_h", lives->l10_h);
    spt_json_number(json, "l50_h", lives->l50_h);
    spt_json_close(json, '}');
}

static void write_policy(struct spt_json *json, const char *key,
                         const struct spt_schedule_policy *policy, bool costs)
{
    spt_json_open(json, key, '{');
    spt_json_number(json, "age_h", policy->plan.age);
    spt_json_number(json, "survival", policy->plan.survival);
    spt_json_number(json, "mean_time_between_changes_h", policy->plan.mean_cycle);
    spt_json_number(json, "cost_per_h", costs ? policy->plan.cost_rate : (double)NAN);
    spt_json_number(json, "failures_per_year", policy->year.failures);
    spt_json_number(json, "planned_changes_per_year", policy->year.planned);
    spt_json_number(json, "cost_per_year", policy->year.cost);
    spt_json_close(json, '}');
}

static void write_bearings(struct spt_json *json, const struct spt_schedule *schedule)
{
    spt_json_open(json, "bearings", '[');
    for (int i = 0; i < schedule->bearing_count; i++) {
        const struct spt_bearing_schedule *bearing = &schedule->bearings[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", spt_schedule_bearing(schedule->question, i));
        spt_json_number(json, "l10_h", bearing->l10_h);
        spt_json_number(json, "relubrication_interval_h", bearing->interval_h);
        spt_json_number(json, "needed_for_reliability_h", bearing->needed_h);
        spt_json_number(json, "regrease_every_h", bearing->regrease_h);
        spt_json_number(json, "grease_g", bearing->quantity_g);
        spt_json_number(json, "grease_renewed_every_h", bearing->renewed_h);
        spt_json_number(json, "l1_h", bearing->inspect_h);
        spt_json_number(json, "replace_alone_h", bearing->replace_h);
        spt_json_text(json, "replace_alone_governed_by",
                      isnan(bearing->replace_h) ? NULL
                                                : spt_governor_name(bearing->replace_governor));
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_calendar(struct spt_json *json, const struct spt_schedule_report *report)
{
    spt_json_open(json, "calendar", '[');
    for (int i = 0; i < report->entry_count; i++) {
        const struct spt_schedule_entry *entry = &report->entries[i];
        const struct spt_schedule_task *task = &report->schedule->tasks[entry->task];
        char day[SPT_DATE_LENGTH];
        day_of(report, entry->at_h, day);
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "task", spt_task_name(task->task));
        spt_json_text(json, "bearing", where(report->schedule->question, task));
        spt_json_number(json, "number", entry->number);
        spt_json_number(json, "visit", entry->visit);
        spt_json_number(json, "at_h", entry->at_h);
        spt_json_number(json, "due_h", entry->due_h);
        spt_json_text(json, "date", *day ? day : NULL);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_bool(json, "calendar_cut", report->cut);
}

static void write_curve(struct spt_json *json, const struct spt_schedule_report *report)
{
    spt_json_open(json, "survival", '[');
    for (int i = 0; i < report->curve_count; i++) {
        const struct spt_schedule_point *point = &report->curve[i];
        spt_json_open(json, NULL, '{');
        spt_json_number(json, "time_h", point->t_h);
        spt_json_number(json, "fatigue", point->fatigue);
        spt_json_number(json, "grease", point->grease);
        spt_json_number(json, "combined", point->combined);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void say_warning(void *context, const char *who, const char *sentence)
{
    (void)who;
    spt_json_text(context, NULL, sentence);
}

static void write_target(struct spt_json *json, const struct spt_schedule *schedule)
{
    const struct spt_schedule_point *then = &schedule->at_target_life;
    const struct spt_finding_sink sink = {say_warning, json};
    spt_json_number(json, "target_life_h", then->t_h);
    spt_json_number(json, "fatigue_survival_at_target_life", then->fatigue);
    spt_json_number(json, "grease_survival_at_target_life", then->grease);
    spt_json_number(json, "survival_at_target_life", then->combined);
    spt_json_bool(json, "target_missed", schedule->misses_target);
    spt_json_open(json, "plan_warnings", '[');
    spt_schedule_warnings(schedule, &sink);
    spt_json_close(json, ']');
}

void spt_schedule_json(struct spt_json *json, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_case *question = schedule->question;
    spt_json_text(json, "title", question->title);
    spt_history_json(json, question->history);
    spt_json_number(json, "reliability_percent", question->reliability_percent);
    spt_json_number(json, "yearly_use_h", question->yearly_use_h);
    spt_json_number(json, "horizon_h", schedule->horizon_h);
    write_target(json, schedule);
    if (report->spread)
        spt_band_json(json, &report->spread->system);
    spt_json_number(json, "planned_h", spt_schedule_planned_h(question));
    spt_json_number(json, "planned_years", SPT_SCHEDULE_YEARS_MAX);
    spt_json_text(json, "law", report->floor > 0 ? "three-parameter" : "two-parameter");
    spt_json_bool(json, "follows_service", schedule->followed);
    if (schedule->followed) {
        spt_json_number(json, "grease_renewed_every_h", schedule->followed_regrease_h);
        spt_json_number(json, "lubricant_changed_every_h", schedule->followed_change_h);
        spt_json_number(json, "no_life_from_h", schedule->path.stopped_h);
    }
    write_bearings(json, schedule);
    spt_json_open(json, "tasks", '[');
    for (int i = 0; i < schedule->task_count; i++)
        write_task(json, report, &schedule->tasks[i]);
    spt_json_close(json, ']');
    spt_json_open(json, "lives", '{');
    write_lives(json, "fatigue", &schedule->fatigue_lives);
    if (schedule->followed)
        write_lives(json, "fatigue_as_stated", &schedule->stated_fatigue_lives);
    write_lives(json, "grease", &schedule->grease_lives);
    write_lives(json, "combined", &schedule->combined_lives);
    spt_json_close(json, '}');
    spt_json_open(json, "replacement", '{');
    spt_json_number(json, "fleet", question->fleet > 0 ? question->fleet : 1);
    spt_json_text(json, "currency", report->currency);
    spt_json_text(json, "grease_failures", schedule->grease_count ? "steady rate" : NULL);
    write_policy(json, "run_to_failure", &schedule->run_to_failure, schedule->costs_known);
    write_policy(json, "at_target", &schedule->at_target, schedule->costs_known);
    spt_json_bool(json, "optimum_is_finite", schedule->optimum_found);
    if (schedule->optimum_found)
        write_policy(json, "at_optimum", &schedule->at_optimum, true);
    spt_json_number(json, "age_limit_h",
                    isinf(schedule->age_limit_h) ? (double)NAN : schedule->age_limit_h);
    spt_json_bool(json, "optimum_is_beyond_age_limit",
                  schedule->optimum_found && schedule->at_optimum.plan.age > schedule->age_limit_h);
    spt_json_close(json, '}');
    write_calendar(json, report);
    write_curve(json, report);
    struct spt_notes notes;
    spt_findings_collect(report->assessment, &notes);
    spt_json_notes(json, &notes);
}
