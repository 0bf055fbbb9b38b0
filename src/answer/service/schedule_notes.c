/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/service/schedule_words.h"
#include "base/table.h"
#include "format/text.h"
#include "sentence/dents.h"

#define LEAST_SHARE 1e-4 /* share of the machines below which words are used */

/* Formats a share in percent; a negligible one in words. */
static const char *tell_percent(double share, char *words)
{
    snprintf(words, SPT_HOURS_LENGTH, share < LEAST_SHARE ? "less than %g %%" : "%.3g %%",
             100 * fmax(share, LEAST_SHARE));
    return words;
}

/* Failures of the grease, which a new bearing does not prevent. */
static void say_grease_risk(const struct spt_schedule *schedule,
                            const struct spt_finding_sink *sink)
{
    const struct spt_grease_risk *risk = &schedule->grease_risk;
    char share[SPT_HOURS_LENGTH], low[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    char span[SPT_SPAN_LENGTH];
    if (isnan(risk->share))
        return;
    snprintf(span, sizeof span, schedule->question->yearly_use_h > 0 ? "a year" : "in %d h",
             SPT_GREASE_RISK_H);
    spt_finding_say(
        sink, NULL,
        "The grease fails in %s of the machines %s (%s to %s, as the interval is good to "
        "a factor of 2), beside fatigue.",
        tell_percent(risk->share, share), span, tell_percent(risk->low, low),
        tell_percent(risk->high, high));
    if (schedule->survival_grease < schedule->survival_fatigue &&
        !schedule->question->lubricant.greased_for_life)
        spt_finding_say(sink, NULL,
                        "Grease, not fatigue, makes most failures (%s %s): grease sooner or seal "
                        "better; a new bearing changes nothing.",
                        share, span);
}

static void say_overdue(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char age[SPT_HOURS_LENGTH], due[SPT_HOURS_LENGTH];
    for (int i = 0; i < schedule->task_count; i++)
        if (schedule->tasks[i].task == SPT_TASK_INSPECT &&
            spt_schedule_is_overdue(&schedule->tasks[i]))
            spt_finding_say(
                sink, NULL,
                "Now: inspect before it runs on. No life can be stated, so nothing here "
                "says how soon to look again%s: go by what is found and by the maker.",
                isnan(schedule->tasks[i].every_h) ? "" : "; once a year is the least");
        else if (spt_schedule_is_overdue(&schedule->tasks[i]))
            spt_finding_say(sink, NULL, "Now: %s. The grease is %s h old and was due at %s h.",
                            spt_task_name(schedule->tasks[i].task),
                            spt_text_hours(schedule->grease_age_h, age),
                            spt_text_hours(schedule->tasks[i].own_h, due));
}

/* Name of the task at the beginning of a sentence. */
static const char *title(enum spt_task task)
{
    static const char *const titles[] = {
        [SPT_TASK_REGREASE] = "Regreasing",
        [SPT_TASK_REPACK] = "Cleaning out and repacking",
        [SPT_TASK_OIL_CHANGE] = "Changing the oil",
        [SPT_TASK_OIL_OR_FILTER] = "Changing oil or filter",
        [SPT_TASK_INSPECT] = "Inspecting",
        [SPT_TASK_READY] = "Getting ready",
        [SPT_TASK_REPLACE] = "Replacing",
    };
    SPT_ONE_EACH(titles, SPT_TASK_COUNT);
    return titles[task];
}

static void say_impractical(const struct spt_schedule *schedule,
                            const struct spt_finding_sink *sink)
{
    char every[SPT_HOURS_LENGTH];
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        if (spt_schedule_is_impractical(schedule->question, task))
            spt_finding_say(
                sink, NULL,
                "%s every %s h cannot be kept in practice (less than %d h, about a "
                "week of work), so the calendar, the shares that survive and the replacement do "
                "not count on it: mend what lets water and dirt in; ask the maker.",
                title(task->task), spt_text_hours(task->every_h, every), SPT_SCHEDULE_PRACTICAL_H);
    }
}

static void say_age_limit(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char age[SPT_HOURS_LENGTH], target[SPT_HOURS_LENGTH];
    if (schedule->age_limit_h < schedule->question->target_life_h)
        spt_finding_say(sink, NULL,
                        "The age limit takes it out at %s h, before the target of %s h.",
                        spt_text_hours(schedule->age_limit_h, age),
                        spt_text_hours(schedule->question->target_life_h, target));
}

void spt_schedule_warnings(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    say_age_limit(schedule, sink);
    say_overdue(schedule, sink);
    say_impractical(schedule, sink);
}

/* Explains each governor once. */
static void say_reasons(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    for (int i = 0; i < schedule->task_count; i++) {
        char why[SPT_WHY_LENGTH];
        bool said = false;
        for (int j = 0; j < i; j++)
            said = said || schedule->tasks[j].governor == schedule->tasks[i].governor;
        if (said)
            continue;
        spt_schedule_why(&schedule->tasks[i], why);
        spt_finding_say(sink, NULL, "%s", why);
    }
}

static void say_quantities(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    for (int i = 0; i < schedule->bearing_count; i++)
        if (schedule->bearings[i].regrease_h > 0 && !isnan(schedule->bearings[i].quantity_g))
            spt_finding_say(sink, NULL,
                            "%s takes %.3g g of grease at each regreasing (0.005 D B, "
                            "common practice)",
                            spt_schedule_bearing(schedule->question, i),
                            schedule->bearings[i].quantity_g);
}

/* Compares the regreasing interval stated in the scenario with that of the plan. */
static void say_stated(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char stated[SPT_HOURS_LENGTH], planned[SPT_HOURS_LENGTH];
    spt_text_hours(schedule->stated_regrease_h, stated);
    spt_text_hours(schedule->greasing.kept_h, planned);
    if (schedule->stated_regrease_h > schedule->regrease_h)
        spt_finding_say(sink, NULL,
                        "The scenario regreases every %s h; this plan asks for %s h: LATER than it "
                        "should be.",
                        stated, planned);
    if (schedule->stated_regrease_h < schedule->greasing.kept_h)
        spt_finding_say(sink, NULL,
                        "The scenario regreases every %s h; %s h would do. The shorter one is "
                        "kept.",
                        stated, planned);
}

/* The bounds that dents of dirt that is gone leave. */
static void say_dents(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char words[SPT_DENTS_LENGTH];
    if (spt_dents_words(&schedule->dents, schedule->life_h, (double)NAN, words))
        spt_finding_say(sink, NULL, "%s", words);
}

/* Tells for which condition the lives of a plan are. */
static void say_basis(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char regrease[SPT_HOURS_LENGTH], change[SPT_HOURS_LENGTH];
    const bool greased = schedule->question->lubricant.kind == SPT_LUBRICATION_GREASE;
    if (schedule->follow_failed)
        spt_finding_say(sink, NULL,
                        "There are too many renewals, drifts and events to follow: the lives, "
                        "inspection and replacement are those of the condition as stated.");
    if (!schedule->followed)
        return;
    if (schedule->service_followed)
        spt_finding_say(sink, NULL,
                        "Inspection, replacement and survival follow the drifts and events of "
                        "`service` under the renewals of this plan%s, as `timeline` shows.",
                        greased ? "; the regreasing is that of the condition as stated" : "");
    else if (greased)
        spt_finding_say(sink, NULL,
                        schedule->question->lubricant.greased_for_life
                            ? "Inspection and survival count the ageing of the grease, which "
                              "nobody renews."
                            : "Inspection, replacement and survival count the grease as this plan "
                              "renews it.");
    if (schedule->followed_regrease_h > 0)
        spt_finding_say(sink, NULL, "On the way the grease is renewed every %s h%s%s.",
                        spt_text_hours(schedule->followed_regrease_h, regrease),
                        isnan(schedule->regrease_h) ? ", as `service` states" : "",
                        schedule->followed_change_h == schedule->followed_regrease_h
                            ? ", and water and dirt with it"
                            : "");
    if (schedule->followed_change_h > 0 &&
        schedule->followed_change_h != schedule->followed_regrease_h)
        spt_finding_say(sink, NULL,
                        "On the way %s every %s h and drifts of water and dirt then start "
                        "again.",
                        greased ? "the bearing is cleaned out and repacked" : "the oil is changed",
                        spt_text_hours(schedule->followed_change_h, change));
}

/* Tells how the age of the grease at the start affects the first renewal. */
static void say_age(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char age[SPT_HOURS_LENGTH], first[SPT_HOURS_LENGTH];
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        if (task->spent_h > 0 && !spt_schedule_is_overdue(task) &&
            schedule->question->lubricant.kind == SPT_LUBRICATION_GREASE)
            spt_finding_say(sink, NULL,
                            "The grease is %s h old at the start: %s for the first time at %s h.",
                            spt_text_hours(schedule->grease_age_h, age), spt_task_name(task->task),
                            spt_text_hours(spt_schedule_first_h(task), first));
    }
}

/* Reports intervals so long that other causes end the service first. */
static void say_beyond(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    const struct spt_case *question = schedule->question;
    char hours[SPT_HOURS_LENGTH];
    bool any = false;
    for (int i = 0; i < schedule->task_count; i++)
        any = any || (schedule->tasks[i].governor != SPT_GOVERNOR_FATIGUE_FAR &&
                      spt_schedule_is_beyond(question, schedule->tasks[i].every_h));
    if (any)
        spt_finding_say(
            sink, NULL,
            "An interval above %s h is longer than the %d years planned for%s: seals, "
            "rust and the age of the grease or oil come first. The calendar stops there.",
            spt_text_hours(spt_schedule_planned_h(question), hours), SPT_SCHEDULE_YEARS_MAX,
            question->yearly_use_h > 0 ? "" : ", running day and night");
}

/* From where hours count, of bearings that have run before. */
static void say_past(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char hours[SPT_HOURS_LENGTH];
    if (schedule->remaining.hours_run > 0)
        spt_finding_say(
            sink, NULL,
            "The bearing has run %s h and has not failed: replacement, inspection, "
            "survival and the calendar count from now, the target from new; failures and "
            "costs in a year are those of new bearings.",
            spt_text_hours(schedule->remaining.hours_run, hours));
}

void spt_schedule_notes(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    say_past(schedule, sink);
    say_reasons(schedule, sink);
    say_quantities(schedule, sink);
    if (schedule->repacking_renews)
        spt_finding_say(sink, NULL, "repacking comes sooner than regreasing and takes its place");
    say_age(schedule, sink);
    say_stated(schedule, sink);
    say_grease_risk(schedule, sink);
    say_beyond(schedule, sink);
    say_dents(schedule, sink);
    say_basis(schedule, sink);
    if (!(schedule->question->yearly_use_h > 0))
        spt_finding_say(sink, NULL, "Calendar times need `usage: {yearly: ...}`.");
}
