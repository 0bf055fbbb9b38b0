/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/service/schedule_parts.h"
#include "answer/service/schedule_words.h"
#include "chart/figure.h"
#include "sentence/together.h"

struct lives_row {
    const char *name;
    struct spt_survival_lives lives;
};

static const struct spt_column lives_columns[] = {
    {.head = "hours that this share reaches",
     .kind = SPT_WORDS,
     .width = 29,
     .at = offsetof(struct lives_row, name)},
    {.head = "99 %",
     .key = "l1_h",
     .kind = SPT_HOURS,
     .width = 11,
     .at = offsetof(struct lives_row, lives.l1_h)},
    {.head = "95 %",
     .key = "l5_h",
     .kind = SPT_HOURS,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct lives_row, lives.l5_h)},
    {.head = "90 %",
     .key = "l10_h",
     .kind = SPT_HOURS,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct lives_row, lives.l10_h)},
    {.head = "50 %",
     .key = "l50_h",
     .kind = SPT_HOURS,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct lives_row, lives.l50_h)},
};

static void show_lives(struct spt_page *page, const struct spt_schedule *schedule)
{
    const struct {
        const char *name;
        const struct spt_survival_lives *lives;
        bool shown;
    } all[] = {
        {schedule->followed ? "fatigue under this plan" : "rolling fatigue",
         &schedule->fatigue_lives, true},
        {"fatigue, as stated", &schedule->stated_fatigue_lives, schedule->followed},
        {"grease, regreased as planned", &schedule->grease_lives, true},
        {"both", &schedule->combined_lives,
         schedule->grease_count && !isnan(schedule->fatigue_lives.l10_h)},
    };
    struct lives_row *rows = spt_page_allocate(page, sizeof all / sizeof *all * sizeof *rows);
    int count = 0;
    for (size_t i = 0; rows && i < sizeof all / sizeof *all; i++)
        if (all[i].shown && !isnan(all[i].lives->l10_h))
            rows[count++] = (struct lives_row){all[i].name, *all[i].lives};
    spt_page_table(page, "lives", &(struct spt_table){SPT_TABLE_OF(lives_columns, rows, count)});
}

void spt_schedule_lives_json(struct spt_json *json, const char *key,
                             const struct spt_survival_lives *lives)
{
    const struct lives_row rows[] = {{NULL, *lives}};
    spt_json_open(json, key, '{');
    spt_table_json_row(&(struct spt_table){SPT_TABLE_OF(lives_columns, rows, 1)}, 0, json);
    spt_json_close(json, '}');
}

struct bearing_row {
    const char *name;
    struct spt_bearing_schedule schedule;
    double shown_h;              /* age of replacement; NaN: none, or too far away */
    const char *governor, *none; /* `none` where no governor is shown */
};

static const struct spt_column bearing_columns[] = {
    {.head = "each by itself, h",
     .key = "name",
     .kind = SPT_WORDS,
     .width = 29,
     .at = offsetof(struct bearing_row, name)},
    {.key = "l10_h", .kind = SPT_HOURS, .at = offsetof(struct bearing_row, schedule.l10_h)},
    {.key = "grease_interval_h",
     .kind = SPT_HOURS,
     .at = offsetof(struct bearing_row, schedule.interval_h)},
    {.key = "grease_g",
     .kind = SPT_NUMBER,
     .at = offsetof(struct bearing_row, schedule.quantity_g)},
    {.head = "regrease",
     .key = "grease_renewed_every_h",
     .kind = SPT_HOURS,
     .width = 10,
     .gap = 1,
     .none = "-",
     .at = offsetof(struct bearing_row, schedule.renewed_h)},
    {.head = "99 % life",
     .key = "l1_h",
     .kind = SPT_HOURS,
     .width = 10,
     .gap = 1,
     .none = "-",
     .at = offsetof(struct bearing_row, schedule.inspect_h)},
    {.key = "replace_alone_h",
     .kind = SPT_HOURS,
     .at = offsetof(struct bearing_row, schedule.replace_h)},
    {.head = "replace",
     .kind = SPT_HOURS,
     .width = 10,
     .gap = 1,
     .none = "-",
     .at = offsetof(struct bearing_row, shown_h)},
    {.head = "governed by",
     .key = "replace_alone_governed_by",
     .kind = SPT_WORDS,
     .width = 22,
     .gap = 2,
     .at = offsetof(struct bearing_row, governor),
     .instead = offsetof(struct bearing_row, none)},
};

/* The intervals of each bearing alone, shown where there are several; those of the machine, which
 * needs all of them, are shorter. */
static void show_each(struct spt_page *page, const struct spt_schedule *schedule)
{
    const int count = schedule->bearing_count;
    const bool shown = count > 1 && !isnan(schedule->fatigue_lives.l10_h);
    struct bearing_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++) {
        const struct spt_bearing_schedule *bearing = &schedule->bearings[i];
        const bool none = isnan(bearing->replace_h);
        const bool far = bearing->replace_governor == SPT_GOVERNOR_FATIGUE_FAR;
        rows[i] = (struct bearing_row){spt_schedule_bearing(schedule->question, i), *bearing,
                                       far ? (double)NAN : bearing->replace_h,
                                       none ? NULL : spt_governor_name(bearing->replace_governor),
                                       none ? "-" : NULL};
    }
    spt_page_table(page, "bearings",
                   &(struct spt_table){SPT_TABLE_OF(bearing_columns, rows, count),
                                       .caption = "Each bearing by itself",
                                       .left_out = shown ? 0 : count, .apart = true});
}

/* The law of the fatigue lives above. */
static void say_law(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    if (isnan(schedule->fatigue_lives.l10_h))
        return;
    if (report->floor > 0)
        spt_page_say(page, SPT_BODY, "",
                     "Fatigue by the three-parameter law behind a1: nothing fails before "
                     "0.05 L10.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "Fatigue by the two-parameter law with slope 1.5: it has early "
                     "failures that the law behind a1 has not.");
    if (schedule->bearing_count > 1)
        spt_page_say(page, SPT_BODY, "",
                     "Fatigue of %s is the product of their shares by this law.",
                     spt_together(schedule->question));
}

static void say_shares(struct spt_page *page, const struct spt_schedule *schedule)
{
    if (schedule->grease_count && schedule->grease_age_h > 0)
        spt_page_say(page, SPT_BODY, "",
                     "The greases count from fresh here: the age of the present grease moves the "
                     "first regreasing, not these shares.");
    if (schedule->replace_h > 0 && schedule->replace_governor != SPT_GOVERNOR_FATIGUE_FAR &&
        schedule->grease_count && !isnan(schedule->survival_fatigue))
        spt_page_say(page, SPT_BODY, "",
                     "At the replacement, %s h, %.4g %% survive fatigue and %.4g %% of the "
                     "greases last, %.4g %% both.",
                     spt_page_hours(page, schedule->replace_h), 100 * schedule->survival_fatigue,
                     100 * schedule->survival_grease,
                     100 * schedule->survival_fatigue * schedule->survival_grease);
}

static void show_chart(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_report of = {.title = report->schedule->question->title};
    const struct spt_report_case part = {
        .assessment = report->assessment, .plan = report->schedule, .survival = report->survival};
    spt_figure_page(page, "survival", &of, &part, NULL);
}

/* The rows of JSON, which no form for people has. */
static void keep_curve(struct spt_page *page, const struct spt_schedule_report *report)
{
    static const struct spt_column columns[] = {
        {.key = "time_h", .kind = SPT_HOURS, .at = offsetof(struct spt_schedule_point, t_h)},
        {.key = "fatigue", .kind = SPT_NUMBER, .at = offsetof(struct spt_schedule_point, fatigue)},
        {.key = "grease", .kind = SPT_NUMBER, .at = offsetof(struct spt_schedule_point, grease)},
        {.key = "combined",
         .kind = SPT_NUMBER,
         .at = offsetof(struct spt_schedule_point, combined)},
    };
    spt_page_table(page, "survival",
                   &(struct spt_table){SPT_TABLE_OF(columns, report->curve, report->curve_count)});
}

void spt_schedule_survival_page(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const bool known =
        !isnan(schedule->fatigue_lives.l10_h) || !isnan(schedule->grease_lives.l10_h);
    spt_page_open(page, "Survival");
    show_lives(page, schedule);
    if (known && schedule->followed && isfinite(schedule->path.stopped_h))
        spt_page_say(page, SPT_BODY, "",
                     "From %s h on no life can be stated (film gone, or too hot): nothing is "
                     "taken to survive that.",
                     spt_page_hours(page, schedule->path.stopped_h));
    show_each(page, schedule);
    if (known) {
        say_law(page, report);
        say_shares(page, schedule);
        show_chart(page, report);
    }
    spt_page_close(page);
    keep_curve(page, report);
}
