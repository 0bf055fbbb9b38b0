/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/setting.h"

#include <math.h>
#include <stddef.h>

#include "answer/field/history.h"
#include "answer/life/hub.h"
#include "answer/life/setting_plot.h"
#include "chart/figure.h"
#include "sentence/sentence.h"

static bool is_searched(const struct spt_hub_curve *curve, double mounted_mm)
{
    return mounted_mm >= curve->hub->lowest_mm && mounted_mm <= curve->hub->highest_mm;
}

/* True where the present setting, or the one with the longest fatigue life, is a preload. */
static bool tells_of_preload(const struct spt_hub_curve *curve)
{
    return spt_setting_is_preloaded(curve, curve->study.asked.setting_mm) ||
           spt_setting_is_preloaded(curve, curve->study.best.setting_mm);
}

static void show_plot(struct spt_page *page, const struct spt_case *question,
                      const struct spt_hub_curve *curve)
{
    const struct spt_report report = {.title = question->title, .setting = curve};
    const struct spt_report_case part = {0};
    spt_page_open(page, "Life against setting, in %% of the best");
    spt_figure_page(page, "setting", &report, &part, spt_setting_plot);
    spt_page_close(page);
}

/* A row of settings side by side, and of the curve. */
struct setting_row {
    const char *what, *mark, *setting;
    double setting_mm, life_h, relative, inboard_h, outboard_h, reference_h;
    bool preloaded;
};

static struct setting_row make_row(const struct spt_hub_curve *curve,
                                   const struct spt_setting_point *point)
{
    return (struct setting_row){.setting_mm = point->setting_mm,
                                .life_h = point->life_h,
                                .relative = point->relative,
                                .inboard_h = point->row_h[0],
                                .outboard_h = point->row_h[1],
                                .preloaded = spt_setting_is_preloaded(curve, point->setting_mm)};
}

static const char *tell_setting(struct spt_page *page, double setting_mm)
{
    char setting[SPT_SETTING_LENGTH];
    return spt_page_words(page, "%s", spt_text_setting(setting_mm, setting));
}

static const struct spt_column point_columns[] = {
    {.head = "", .kind = SPT_WORDS, .width = 14, .at = offsetof(struct setting_row, what)},
    {.head = "", .kind = SPT_MARK, .width = 1, .at = offsetof(struct setting_row, mark)},
    {.head = "setting",
     .kind = SPT_WORDS,
     .width = 18,
     .at = offsetof(struct setting_row, setting)},
    {.key = "setting_mm", .kind = SPT_NUMBER, .at = offsetof(struct setting_row, setting_mm)},
    {.head = "life h",
     .key = "life_h",
     .kind = SPT_HOURS,
     .width = 9,
     .gap = 1,
     .at = offsetof(struct setting_row, life_h)},
    {.head = "% of best",
     .key = "relative_life",
     .kind = SPT_PERCENT,
     .digits = 1,
     .width = 9,
     .gap = 1,
     .at = offsetof(struct setting_row, relative)},
    {.head = "inboard",
     .key = "inboard_life_h",
     .kind = SPT_HOURS,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct setting_row, inboard_h)},
    {.head = "outboard",
     .key = "outboard_life_h",
     .kind = SPT_HOURS,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct setting_row, outboard_h)},
};

static void show_points(struct spt_page *page, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    const struct {
        const char *what;
        const struct spt_setting_point *point;
    } points[] = {
        {"as set", &study->asked},
        {"fatigue best", &study->best},
        {"off preload", spt_setting_has_other_best(curve) ? &study->advised : NULL},
        {"zero", &study->zero},
        {"0.001 in (*)", &study->play_low},
        {"0.005 in (*)", &study->play_high},
    };
    int count = 0;
    struct setting_row *rows =
        spt_page_allocate(page, sizeof points / sizeof *points * sizeof *rows);
    for (size_t i = 0; rows && i < sizeof points / sizeof *points; i++) {
        if (!points[i].point)
            continue;
        rows[count] = make_row(curve, points[i].point);
        rows[count].what = points[i].what;
        rows[count].mark = rows[count].preloaded ? "!" : "";
        rows[count].setting = tell_setting(page, rows[count].setting_mm);
        count++;
    }
    spt_page_open(page, "Settings side by side");
    spt_page_table(page, "settings", &(struct spt_table){SPT_TABLE_OF(point_columns, rows, count)});
    spt_page_say(page, SPT_BODY, "",
                 "!: preloaded, cold or running: its heat is not in the life. Off preload: best "
                 "without it.");
    spt_page_say(page, SPT_BODY, "",
                 "(*) wheel ends are commonly set to 0.001 to 0.005 in of end play, not more: "
                 "common practice, no source.");
    spt_page_close(page);
}

static const struct spt_column curve_columns[] = {
    {.key = "setting_mm", .kind = SPT_NUMBER, .at = offsetof(struct setting_row, setting_mm)},
    {.key = "life_h", .kind = SPT_HOURS, .at = offsetof(struct setting_row, life_h)},
    {.key = "relative_life", .kind = SPT_RATIO, .at = offsetof(struct setting_row, relative)},
    {.key = "inboard_life_h", .kind = SPT_HOURS, .at = offsetof(struct setting_row, inboard_h)},
    {.key = "outboard_life_h", .kind = SPT_HOURS, .at = offsetof(struct setting_row, outboard_h)},
    {.key = "modified_reference_life_h",
     .kind = SPT_HOURS,
     .at = offsetof(struct setting_row, reference_h)},
    {.key = "preloaded", .kind = SPT_YES, .at = offsetof(struct setting_row, preloaded)},
};

static void keep_curve(struct spt_page *page, const struct spt_hub_curve *curve)
{
    struct setting_row *rows = spt_page_allocate(page, SPT_HUB_CURVE_POINTS * sizeof *rows);
    for (int i = 0; rows && i < SPT_HUB_CURVE_POINTS; i++) {
        rows[i] = make_row(curve, &curve->points[i]);
        rows[i].reference_h = curve->reference_h[i];
    }
    spt_page_table(page, "curve",
                   &(struct spt_table){SPT_TABLE_OF(curve_columns, rows, SPT_HUB_CURVE_POINTS),
                                       .is_data = true});
}

static void say_best(struct spt_page *page, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    if (spt_setting_has_other_best(curve))
        spt_page_say(page, SPT_BODY, "",
                     "Best without preload, cold or running: %s, %s, %.3g %% of the best life.",
                     tell_setting(page, study->advised.setting_mm),
                     spt_page_life(page, study->advised.life_h), 100 * study->advised.relative);
    else if (isnan(study->advised.setting_mm))
        spt_page_say(page, SPT_BODY, "",
                     "All settings that were searched are preloaded, cold or running.");
    spt_page_say(page, SPT_BODY, "",
                 "Best for fatigue of rigid rings only: %s, %s%s; %.3g kN in the unloaded pair "
                 "when running.",
                 tell_setting(page, study->best.setting_mm),
                 spt_page_life(page, study->best.life_h),
                 study->best_at_limit ? " (at the end of what was searched)" : "",
                 study->preload_best_n / 1e3);
}

/* What the lives and settings of the verdict stand for. */
static void say_basis(struct spt_page *page, const struct spt_hub_curve *curve)
{
    if (!curve->modified)
        spt_page_say(page, SPT_BODY, "",
                     "These are basic rating lives: a phase has no modified life, see the flags "
                     "of `spalltime life`.");
    if (curve->thermal_mm != 0)
        spt_page_say(page, SPT_BODY, "",
                     "Settings are those of the cold hub; running, temperature changes each by "
                     "%+.3g mm.",
                     curve->thermal_mm);
    if (!isnan(curve->reference_best_mm))
        spt_page_say(page, SPT_BODY, "",
                     "By the modified reference life (a_ISO in each lamina) the best for fatigue "
                     "would be %s.",
                     tell_setting(page, curve->reference_best_mm));
}

static void say_estimated(struct spt_page *page, const struct spt_hub_curve *curve)
{
    if (!curve->hub->insides_estimated)
        return;
    spt_page_say(page, SPT_CHANGES_NUMBER, "! ",
                 "Estimated: a row states no insides, so its rollers were estimated from sizes and "
                 "C0. Shares of the best life are good to about 5 points on the end play side, "
                 "which alone is shown. On the preload side life falls as off a cliff, at a place "
                 "that an estimate cannot give: keep off it.");
}

static void say_setting(struct spt_page *page, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    spt_page_open(page, "Setting");
    spt_page_say(page, SPT_BODY, "", "As set, with %s: %s, %.3g %% of the best life%s.",
                 tell_setting(page, study->asked.setting_mm),
                 spt_page_life(page, study->asked.life_h), 100 * study->asked.relative,
                 is_searched(curve, study->asked.setting_mm)
                     ? ""
                     : " in the range searched, outside of which it lies");
    say_best(page, curve);
    if (tells_of_preload(curve))
        spt_page_say(page, SPT_BODY, "", "%s%s", spt_preload_practice(),
                     curve->hub->preload_allowed ? " Here the scenario allows preload." : "");
    say_basis(page, curve);
    spt_page_close(page);
}

/* Which part of the good range is not preloaded. */
static void say_range_off_preload(struct spt_page *page, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    if (!spt_setting_is_preloaded(curve, study->kept_from_mm))
        return;
    if (study->kept_to_mm <= curve->least_mm)
        spt_page_say(page, SPT_BODY, "", "All of that range is preloaded, cold or running.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "Without preload, cold or running, that leaves %s to %s%s.",
                     tell_setting(page, curve->least_mm), tell_setting(page, study->kept_to_mm),
                     study->kept_to_open ? " (and beyond)" : "");
}

static void say_range(struct spt_page *page, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    static const char *const cliffs[] = {
        [SPT_SETTING_CLIFF_NONE] = "Neither side falls off within what was searched.",
        [SPT_SETTING_CLIFF_PRELOAD] =
            "The cliff is on the preload side: life is lost sooner there.",
        [SPT_SETTING_CLIFF_PLAY] = "Life is lost sooner on the end play side.",
    };
    spt_page_say(page, SPT_BODY, "", "%.0f %% of the best life is kept from %s%s to %s%s. %s",
                 100 * SPT_SETTING_KEPT, tell_setting(page, study->kept_from_mm),
                 study->kept_from_open ? " (and beyond)" : "",
                 tell_setting(page, study->kept_to_mm), study->kept_to_open ? " (and beyond)" : "",
                 curve->hub->insides_estimated ? "" : cliffs[study->cliff]);
    say_range_off_preload(page, curve);
}

static void say_scatter(struct spt_page *page, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    if (!(curve->hub->scatter_mm > 0)) {
        spt_page_say(page, SPT_BODY, "",
                     "No `setting_scatter` is stated, so nothing is said about what scatter "
                     "costs.");
        return;
    }
    spt_page_say(page, SPT_BODY, "",
                 "Settings that scatter by %.3g mm (standard deviation) about the one as set "
                 "last %.3g %% of the best life%s on average.",
                 curve->hub->scatter_mm, 100 * study->expected_mrev / study->best.life_mrev,
                 is_searched(curve, study->asked.setting_mm) ? "" : " in the range searched");
    if (!isnan(study->aim_mm))
        spt_page_say(page, SPT_BODY, "", "Aim at %s: %.3g %% on average, %s.",
                     tell_setting(page, study->aim_mm),
                     100 * study->aim_mrev / study->best.life_mrev,
                     study->aim_limited ? "and all but about 2 % of the hubs set so stay off "
                                          "preload"
                                        : "the most this scatter allows");
    spt_page_hub_loose(page, study->aim_mm);
}

static void say_limits(struct spt_page *page, bool practice_told)
{
    spt_page_open(page, "What this leaves out");
    spt_page_say(page, SPT_BODY, "",
                 "Fatigue of rigid rings alone is computed here. A workshop follows the vehicle "
                 "or bearing maker's setting, whatever this curve says.");
    if (!practice_told)
        spt_page_say(page, SPT_BODY, "", "%s", spt_preload_practice());
    spt_page_close(page);
}

void spt_setting_page(struct spt_page *page, const struct spt_case *question,
                      const struct spt_hub_curve *curve)
{
    spt_history_page(page, question);
    say_setting(page, curve);
    say_estimated(page, curve);
    show_plot(page, question, curve);
    show_points(page, curve);
    spt_page_open(page, "Range and scatter");
    say_range(page, curve);
    say_scatter(page, curve);
    spt_page_close(page);
    say_limits(page, tells_of_preload(curve));
    keep_curve(page, curve);
}

/* A setting by itself, with the members that its row has. */
static void write_json_point(struct spt_json *json, const char *key,
                             const struct spt_hub_curve *curve,
                             const struct spt_setting_point *point)
{
    const struct setting_row rows[] = {make_row(curve, point)};
    spt_json_open(json, key, '{');
    spt_table_json_row(&(struct spt_table){SPT_TABLE_OF(point_columns, rows, 1)}, 0, json);
    spt_json_close(json, '}');
}

static void write_json_study(struct spt_json *json, const struct spt_hub_curve *curve)
{
    static const char *const cliffs[] = {
        [SPT_SETTING_CLIFF_NONE] = "none",
        [SPT_SETTING_CLIFF_PRELOAD] = "preload",
        [SPT_SETTING_CLIFF_PLAY] = "end play",
    };
    const struct spt_setting_study *study = &curve->study;
    const double none = (double)NAN;
    bool scatter = curve->hub->scatter_mm > 0;
    write_json_point(json, "as_set", curve, &study->asked);
    write_json_point(json, "best", curve, &study->best);
    write_json_point(json, "best_without_preload", curve, &study->advised);
    write_json_point(json, "no_play", curve, &study->zero);
    write_json_point(json, "play_0_001_in", curve, &study->play_low);
    write_json_point(json, "play_0_005_in", curve, &study->play_high);
    spt_json_bool(json, "best_at_end_of_range", study->best_at_limit);
    spt_json_number(json, "best_preload_force_n", study->preload_best_n);
    spt_json_number(json, "as_set_preload_force_n", study->preload_asked_n);
    spt_json_number(json, "kept_share", SPT_SETTING_KEPT);
    spt_json_number(json, "kept_from_mm", study->kept_from_mm);
    spt_json_number(json, "kept_to_mm", study->kept_to_mm);
    spt_json_bool(json, "kept_from_open", study->kept_from_open);
    spt_json_bool(json, "kept_to_open", study->kept_to_open);
    spt_json_text(json, "cliff", cliffs[study->cliff]);
    spt_json_number(json, "setting_scatter_mm", scatter ? curve->hub->scatter_mm : none);
    spt_json_number(json, "expected_relative_life",
                    scatter ? study->expected_mrev / study->best.life_mrev : none);
    spt_json_number(json, "aim_mm", scatter ? study->aim_mm : none);
    spt_json_number(json, "aim_relative_life",
                    scatter ? study->aim_mrev / study->best.life_mrev : none);
    spt_json_bool(json, "aim_limited", scatter && study->aim_limited);
    spt_json_number(json, "reference_best_mm", curve->reference_best_mm);
    spt_json_bool(json, "preload_allowed", curve->hub->preload_allowed);
    spt_json_bool(json, "insides_estimated", curve->hub->insides_estimated);
    spt_json_number(json, "least_setting_without_preload_mm", curve->least_mm);
    spt_json_bool(json, "as_set_is_preloaded",
                  spt_setting_is_preloaded(curve, study->asked.setting_mm));
    spt_json_bool(json, "best_is_preloaded",
                  spt_setting_is_preloaded(curve, study->best.setting_mm));
    spt_json_text(json, "preload_practice", spt_preload_practice());
}

/* The curve as in CSV, whose last column JSON has not. */
static void write_json_curve(struct spt_json *json, const struct spt_page *page)
{
    struct spt_table numbers = *spt_page_find(page, "curve");
    numbers.column_count--;
    spt_table_json(&numbers, "curve", json);
}

void spt_setting_json(struct spt_json *json, const struct spt_page *page,
                      const struct spt_case *question, const struct spt_hub_curve *curve)
{
    spt_json_text(json, "title", question->title);
    spt_history_json(json, question->history);
    spt_json_text(json, "life", curve->modified ? "modified rating life" : "basic rating life");
    spt_json_number(json, "thermal_change_mm", curve->thermal_mm);
    write_json_study(json, curve);
    write_json_curve(json, page);
}
