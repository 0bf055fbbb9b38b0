/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/life.h"
#include "answer/service/greasing.h"
#include "answer/service/oil.h"
#include "answer/service/schedule_parts.h"
#include "answer/service/schedule_words.h"
#include "sentence/findings.h"

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
    spt_json_text(json, "bearing", spt_schedule_where(question, task));
    spt_json_number(json, "every_h", task->every_h);
    spt_json_number(json, "first_h", spt_schedule_first_h(task));
    spt_json_bool(json, "overdue", spt_schedule_is_overdue(task));
    spt_json_number(json, "every_km", spt_schedule_task_km(question, task));
    spt_json_number(json, "every_days", task->every_days);
    spt_json_number(json, "kept_h", task->kept_h);
    spt_json_number(json, "interval_h", task->raw_h);
    write_every_band(json, report, task->task);
    spt_json_bool(json, "beyond_planned", spt_schedule_is_beyond(question, task->every_h));
    spt_json_number(json, "grease_g", task->quantity_g);
    spt_json_text(json, "governed_by", spt_governor_name(task->governor));
    spt_json_text(json, "why", why);
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

static void say_warning(void *context, const char *who, const char *sentence)
{
    (void)who;
    spt_json_text(context, NULL, sentence);
}

static void write_target(struct spt_json *json, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_concern_verdict *fatigue = &report->judgement->parts[SPT_CONCERN_FATIGUE];
    const struct spt_schedule_point *then = &schedule->at_target_life;
    const struct spt_finding_sink sink = {say_warning, json};
    spt_json_number(json, "target_life_h", then->t_h);
    spt_json_number(json, "fatigue_survival_at_target_life", then->fatigue);
    spt_json_number(json, "grease_survival_at_target_life", then->grease);
    spt_json_number(json, "survival_at_target_life", then->combined);
    spt_json_bool(json, "target_missed", fatigue->grade >= SPT_GRADE_MISSED);
    spt_json_open(json, "plan_warnings", '[');
    spt_schedule_warnings(schedule, &sink);
    spt_json_close(json, ']');
}

void spt_schedule_json(struct spt_json *json, const struct spt_page *page,
                       const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_case *question = schedule->question;
    spt_json_text(json, "title", question->title);
    if (report->costs_alone) {
        spt_schedule_cost_json(json, page, report);
        return;
    }
    spt_history_json(json, question->history);
    spt_json_number(json, "reliability_percent", question->reliability_percent);
    spt_json_number(json, "yearly_use_h", question->yearly_use_h);
    spt_greasing_json(json, &schedule->greasing);
    spt_oil_json(json, &schedule->oil);
    write_target(json, report);
    if (report->spread)
        spt_band_json(json, &report->spread->system);
    if (schedule->remaining.hours_run > 0)
        spt_json_number(json, "hours_run_h", schedule->remaining.hours_run);
    spt_json_number(json, "life_h", schedule->life_h);
    spt_json_number(json, "life_if_cured_h", schedule->dents.if_cured_h);
    spt_json_number(json, "life_half_credit_h", schedule->dents.half_credit_h);
    spt_json_number(json, "planned_h", spt_schedule_planned_h(question));
    spt_json_number(json, "planned_years", SPT_SCHEDULE_YEARS_MAX);
    spt_json_text(json, "law", report->floor > 0 ? "three-parameter" : "two-parameter");
    spt_json_bool(json, "follows_service", schedule->followed);
    if (schedule->followed) {
        spt_json_number(json, "grease_renewed_every_h", schedule->followed_regrease_h);
        spt_json_number(json, "lubricant_changed_every_h", schedule->followed_change_h);
        spt_json_number(json, "no_life_from_h", schedule->path.stopped_h);
    }
    spt_json_open(json, "grease_risk", '{');
    spt_json_number(json, "hours", schedule->grease_risk.hours);
    spt_json_number(json, "share", schedule->grease_risk.share);
    spt_json_number(json, "low", schedule->grease_risk.low);
    spt_json_number(json, "high", schedule->grease_risk.high);
    spt_json_number(json, "limit",
                    question->grease_risk_limit > 0 ? question->grease_risk_limit : (double)NAN);
    spt_json_number(json, "interval_for_limit_h", schedule->grease_risk.within_h);
    spt_json_close(json, '}');
    spt_table_json(spt_page_find(page, "bearings"), "bearings", json);
    spt_json_open(json, "tasks", '[');
    for (int i = 0; i < schedule->task_count; i++)
        write_task(json, report, &schedule->tasks[i]);
    spt_json_close(json, ']');
    spt_json_open(json, "lives", '{');
    spt_schedule_lives_json(json, "fatigue", &schedule->fatigue_lives);
    if (schedule->followed)
        spt_schedule_lives_json(json, "fatigue_as_stated", &schedule->stated_fatigue_lives);
    spt_schedule_lives_json(json, "grease", &schedule->grease_lives);
    spt_schedule_lives_json(json, "combined", &schedule->combined_lives);
    spt_json_close(json, '}');
    spt_json_open(json, "replacement", '{');
    spt_json_number(json, "fleet", question->fleet > 0 ? question->fleet : 1);
    spt_json_number(json, "units", question->units > 0 ? question->units : 1);
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
    spt_schedule_cost_json(json, page, report);
    spt_schedule_calendar_json(json, page, report);
    spt_json_bool(json, "calendar_cut", report->cut);
    spt_table_json(spt_page_find(page, "care"), "care", json);
    spt_table_json(spt_page_find(page, "survival"), "survival", json);
    struct spt_notes notes;
    spt_assessment_notes(report->assessment, &notes);
    spt_json_notes(json, &notes);
}
