/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "report/schedule_words.h"
#include "report/text.h"

/* Each governor once, in words. */
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

static void say_stated(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char stated[SPT_HOURS_LENGTH], wanted[SPT_HOURS_LENGTH];
    for (int i = 0; i < schedule->bearing_count; i++)
        if (schedule->stated_regrease_h > schedule->bearings[i].regrease_h)
            spt_finding_say(sink, NULL,
                            "The scenario regreases every %s h; %s asks for %s h: LATER than it "
                            "should be.",
                            spt_text_hours(schedule->stated_regrease_h, stated),
                            spt_schedule_bearing(schedule->question, i),
                            spt_text_hours(schedule->bearings[i].regrease_h, wanted));
}

/* Which condition the lives of a plan are of. */
static void say_basis(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    char regrease[SPT_HOURS_LENGTH], change[SPT_HOURS_LENGTH];
    const bool greased = schedule->question->lubricant.kind == SPT_LUBRICATION_GREASE;
    if (schedule->follow_failed)
        spt_finding_say(sink, NULL,
                        "The drifts and events of `service` have too many renewals to follow: the "
                        "lives, inspection and replacement are those of the condition as stated.");
    if (!schedule->followed)
        return;
    spt_finding_say(sink, NULL,
                    "Inspection, replacement and survival follow the drifts and events of "
                    "`service`; the regreasing is that of the condition as stated.");
    if (schedule->followed_regrease_h > 0)
        spt_finding_say(sink, NULL, "On the way the grease is renewed every %s h%s.",
                        spt_text_hours(schedule->followed_regrease_h, regrease),
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

/* Intervals so long that other things come first. */
static void say_beyond(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    const struct spt_case *question = schedule->question;
    char hours[SPT_HOURS_LENGTH];
    bool any = false;
    for (int i = 0; i < schedule->task_count; i++)
        any = any || spt_schedule_is_beyond(question, schedule->tasks[i].every_h);
    if (any)
        spt_finding_say(
            sink, NULL,
            "An interval above %s h is longer than the %d years planned for%s: seals, "
            "rust and the age of the grease or oil come first. The calendar stops there.",
            spt_text_hours(spt_schedule_planned_h(question), hours), SPT_SCHEDULE_YEARS_MAX,
            question->yearly_use_h > 0 ? "" : ", running day and night");
}

void spt_schedule_notes(const struct spt_schedule *schedule, const struct spt_finding_sink *sink)
{
    say_reasons(schedule, sink);
    say_quantities(schedule, sink);
    if (schedule->repacking_renews)
        spt_finding_say(sink, NULL, "repacking comes sooner than regreasing and takes its place");
    say_stated(schedule, sink);
    say_beyond(schedule, sink);
    say_basis(schedule, sink);
    if (!(schedule->question->yearly_use_h > 0))
        spt_finding_say(sink, NULL, "Calendar times need `usage: {yearly: ...}`.");
}
