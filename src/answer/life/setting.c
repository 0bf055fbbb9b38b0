/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/setting.h"

#include <math.h>
#include <string.h>

#include "answer/field/history.h"
#include "answer/life/hub.h"
#include "format/csv.h"
#include "sentence/sentence.h"

#define PLOT_COLUMNS ((SPT_HUB_CURVE_POINTS + 1) / 2)
#define PLOT_ROWS 10
#define PLOT_MARGIN 7

static bool is_searched(const struct spt_hub_curve *curve, double mounted_mm)
{
    return mounted_mm >= curve->hub->lowest_mm && mounted_mm <= curve->hub->highest_mm;
}

/* True for a preload at this mounted setting, cold or running. */
static bool is_preloaded(const struct spt_hub_curve *curve, double mounted_mm)
{
    return mounted_mm < curve->least_mm - SPT_HUB_PRELOAD_LEAST_MM;
}

/* True where the present setting, or the one with the longest fatigue life, is a preload. */
static bool tells_of_preload(const struct spt_hub_curve *curve)
{
    return is_preloaded(curve, curve->study.asked.setting_mm) ||
           is_preloaded(curve, curve->study.best.setting_mm);
}

/* Column of a setting in the plot; -1 outside it. */
static int find_column(const struct spt_hub_curve *curve, double setting_mm)
{
    double low_mm = curve->hub->lowest_mm, high_mm = curve->hub->highest_mm;
    double column = round((setting_mm - low_mm) / (high_mm - low_mm) * (PLOT_COLUMNS - 1));
    return column >= 0 && column < PLOT_COLUMNS ? (int)column : -1;
}

/* Ends a line of the plot after its last mark. */
static void end_line(char line[PLOT_COLUMNS + 1])
{
    int length = PLOT_COLUMNS;
    while (length > 0 && line[length - 1] == ' ')
        length--;
    line[length] = 0;
}

/* Writes one line of the plot; all lines between two neighbouring points are marked, so that a
 * steep curve has no gaps. */
static void write_plot_row(const struct spt_text *text, const struct spt_hub_curve *curve, int row)
{
    char line[PLOT_COLUMNS + 1];
    for (int i = 0; i < PLOT_COLUMNS; i++) {
        double share = curve->points[2 * i].relative;
        double left = i ? curve->points[2 * i - 2].relative : share;
        double here = round(share * PLOT_ROWS), before = round(left * PLOT_ROWS);
        bool on = here == row;
        bool between = before < here ? row > before && row < here : row < before && row > here;
        line[i] = on ? 'o' : between ? ':' : ' ';
    }
    end_line(line);
    fprintf(text->out, "%4d %% |%s\n", row * 100 / PLOT_ROWS, line);
}

/* Writes the settings below the axis, and the range that keeps most of the life. */
static void write_marks(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    char line[PLOT_COLUMNS + 1];
    memset(line, ' ', PLOT_COLUMNS);
    for (int i = 0; i < PLOT_COLUMNS; i++) {
        double setting_mm = curve->points[2 * i].setting_mm;
        if (setting_mm >= study->kept_from_mm && setting_mm <= study->kept_to_mm)
            line[i] = is_preloaded(curve, setting_mm) ? '~' : '=';
    }
    const struct {
        double setting_mm;
        char mark;
    } marks[] = {{spt_setting_has_other_best(curve) ? study->advised.setting_mm : (double)NAN, 'W'},
                 {curve->hub->scatter_mm > 0 ? study->aim_mm : (double)NAN, 'A'},
                 {study->best.setting_mm, 'B'},
                 {study->asked.setting_mm, 'S'}};
    for (size_t i = 0; i < sizeof marks / sizeof *marks; i++) {
        int column = find_column(curve, marks[i].setting_mm);
        if (column >= 0)
            line[column] = marks[i].mark;
    }
    end_line(line);
    fprintf(text->out, "%*s%s\n", PLOT_MARGIN + 1, "", line);
}

static void write_axis(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    int zero = find_column(curve, 0);
    char line[PLOT_COLUMNS + 1];
    memset(line, '-', PLOT_COLUMNS);
    line[PLOT_COLUMNS] = 0;
    if (zero >= 0)
        line[zero] = '0';
    fprintf(text->out, "%*s+%s\n", PLOT_MARGIN, "", line);
    write_marks(text, curve);
    fprintf(text->out, "%*s%-*.3g%*.3g\n", PLOT_MARGIN + 1, "", PLOT_COLUMNS / 2,
            curve->hub->lowest_mm, PLOT_COLUMNS / 2, curve->hub->highest_mm);
}

static void write_plot(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    char percent[16];
    snprintf(percent, sizeof percent, "%.0f", 100 * SPT_SETTING_KEPT);
    spt_text_heading(text, "LIFE AGAINST SETTING, IN % OF THE BEST");
    for (int row = PLOT_ROWS; row >= 1; row--)
        write_plot_row(text, curve, row);
    write_axis(text, curve);
    spt_text_wrapf(text, "",
                   "mm, preload to the left of 0, end play to the right. S: as set, B: best for "
                   "fatigue of rigid rings only, W: best without preload, A: to aim at with this "
                   "scatter, ====: keeps %s %% of the best life, ~~~~: the same, but preloaded.",
                   percent);
}

static void write_point(const struct spt_text *text, const struct spt_hub_curve *curve,
                        const struct spt_setting_point *point, const char *what)
{
    char setting[SPT_SETTING_LENGTH], life[SPT_HOURS_LENGTH];
    spt_text_fit(text, what, 14);
    fputc(is_preloaded(curve, point->setting_mm) ? '!' : ' ', text->out);
    spt_text_fit(text, spt_text_setting(point->setting_mm, setting), 18);
    fprintf(text->out, " %9s", spt_text_hours(point->life_h, life));
    fprintf(text->out, " %9.1f", 100 * point->relative);
    for (int row = 0; row < 2; row++)
        fprintf(text->out, " %11s", spt_text_hours(point->row_h[row], life));
    fputc('\n', text->out);
}

static void write_points(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    spt_text_heading(text, "SETTINGS SIDE BY SIDE");
    fputs("               setting               life h % of best     inboard    outboard\n",
          text->out);
    write_point(text, curve, &study->asked, "as set");
    write_point(text, curve, &study->best, "fatigue best");
    if (spt_setting_has_other_best(curve))
        write_point(text, curve, &study->advised, "off preload");
    write_point(text, curve, &study->zero, "zero");
    write_point(text, curve, &study->play_low, "0.001 in (*)");
    write_point(text, curve, &study->play_high, "0.005 in (*)");
    spt_text_wrap(text, "",
                  "!: preloaded, cold or running: its heat is not in the life. Off preload: best "
                  "without it.");
    spt_text_wrap(text, "",
                  "(*) wheel ends are commonly set to 0.001 to 0.005 in of end play, not more: "
                  "common practice, no source.");
}

static void write_verdict(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    char setting[SPT_SETTING_LENGTH], life[SPT_HOURS_LENGTH], best[SPT_HOURS_LENGTH];
    spt_text_heading(text, "VERDICT");
    spt_text_wrapf(text, "", "As set, with %s: %s, %.3g %% of the best life%s.",
                   spt_text_setting(study->asked.setting_mm, setting),
                   spt_text_life(study->asked.life_h, life), 100 * study->asked.relative,
                   is_searched(curve, study->asked.setting_mm)
                       ? ""
                       : " in the range searched, outside of which it lies");
    if (spt_setting_has_other_best(curve))
        spt_text_wrapf(text, "",
                       "Best without preload, cold or running: %s, %s, %.3g %% of the best life.",
                       spt_text_setting(study->advised.setting_mm, setting),
                       spt_text_life(study->advised.life_h, life), 100 * study->advised.relative);
    else if (isnan(study->advised.setting_mm))
        spt_text_wrap(text, "", "All settings that were searched are preloaded, cold or running.");
    spt_text_wrapf(text, "",
                   "Best for fatigue of rigid rings only: %s, %s%s; %.3g kN in the unloaded pair "
                   "when running.",
                   spt_text_setting(study->best.setting_mm, setting),
                   spt_text_life(study->best.life_h, best),
                   study->best_at_limit ? " (at the end of what was searched)" : "",
                   study->preload_best_n / 1e3);
    if (tells_of_preload(curve))
        spt_text_wrapf(text, "", "%s%s", spt_preload_practice(),
                       curve->hub->preload_allowed ? " Here the scenario allows preload." : "");
    if (!curve->modified)
        spt_text_wrap(text, "",
                      "These are basic rating lives: a phase has no modified life, see the flags "
                      "of `spalltime life`.");
    if (curve->thermal_mm != 0)
        spt_text_wrapf(text, "",
                       "Settings are those of the cold hub; running, temperature changes each by "
                       "%+.3g mm.",
                       curve->thermal_mm);
    if (!isnan(curve->reference_best_mm))
        spt_text_wrapf(text, "",
                       "By the modified reference life (a_ISO in each lamina) the best for fatigue "
                       "would be %s.",
                       spt_text_setting(curve->reference_best_mm, setting));
}

/* Writes which part of the good range is not preloaded. */
static void write_range_off_preload(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    char from[SPT_SETTING_LENGTH], to[SPT_SETTING_LENGTH];
    if (!is_preloaded(curve, study->kept_from_mm))
        return;
    if (study->kept_to_mm <= curve->least_mm)
        spt_text_wrap(text, "", "All of that range is preloaded, cold or running.");
    else
        spt_text_wrapf(text, "", "Without preload, cold or running, that leaves %s to %s%s.",
                       spt_text_setting(curve->least_mm, from),
                       spt_text_setting(study->kept_to_mm, to),
                       study->kept_to_open ? " (and beyond)" : "");
}

static void write_range(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    static const char *const cliffs[] = {
        [SPT_SETTING_CLIFF_NONE] = "Neither side falls off within what was searched.",
        [SPT_SETTING_CLIFF_PRELOAD] =
            "The cliff is on the preload side: life is lost sooner there.",
        [SPT_SETTING_CLIFF_PLAY] = "Life is lost sooner on the end play side.",
    };
    char from[SPT_SETTING_LENGTH], to[SPT_SETTING_LENGTH];
    spt_text_heading(text, "RANGE AND SCATTER");
    spt_text_wrapf(text, "", "%.0f %% of the best life is kept from %s%s to %s%s. %s",
                   100 * SPT_SETTING_KEPT, spt_text_setting(study->kept_from_mm, from),
                   study->kept_from_open ? " (and beyond)" : "",
                   spt_text_setting(study->kept_to_mm, to),
                   study->kept_to_open ? " (and beyond)" : "", cliffs[study->cliff]);
    write_range_off_preload(text, curve);
}

static void write_scatter(const struct spt_text *text, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    char aim[SPT_SETTING_LENGTH];
    if (!(curve->hub->scatter_mm > 0)) {
        spt_text_wrap(text, "",
                      "No `setting_scatter` is stated, so nothing is said about what scatter "
                      "costs.");
        return;
    }
    spt_text_wrapf(text, "",
                   "Settings that scatter by %.3g mm (standard deviation) about the one as set "
                   "last %.3g %% of the best life%s on average.",
                   curve->hub->scatter_mm, 100 * study->expected_mrev / study->best.life_mrev,
                   is_searched(curve, study->asked.setting_mm) ? "" : " in the range searched");
    if (!isnan(study->aim_mm))
        spt_text_wrapf(
            text, "", "Aim at %s: %.3g %% on average, %s.", spt_text_setting(study->aim_mm, aim),
            100 * study->aim_mrev / study->best.life_mrev,
            study->aim_limited ? "and all but about 2 % of the hubs set so stay off preload"
                               : "the most this scatter allows");
    spt_hub_loose_text(text, study->aim_mm);
}

static void write_limits(const struct spt_text *text, bool practice_told)
{
    spt_text_heading(text, "WHAT THIS LEAVES OUT");
    spt_text_wrap(text, "",
                  "Fatigue of rigid rings alone is computed here. A workshop follows the vehicle "
                  "or bearing maker's setting, whatever this curve says.");
    if (!practice_told)
        spt_text_wrap(text, "", spt_preload_practice());
}

void spt_setting_text(const struct spt_text *text, const struct spt_case *question,
                      const struct spt_hub_curve *curve)
{
    spt_text_wrap(text, "", question->title);
    spt_history_text(text, question);
    write_verdict(text, curve);
    write_plot(text, curve);
    write_points(text, curve);
    write_range(text, curve);
    write_scatter(text, curve);
    write_limits(text, tells_of_preload(curve));
}

static void write_json_point(struct spt_json *json, const char *key,
                             const struct spt_setting_point *point, double reference_h)
{
    spt_json_open(json, key, '{');
    spt_json_number(json, "setting_mm", point->setting_mm);
    spt_json_number(json, "life_h", point->life_h);
    spt_json_number(json, "relative_life", point->relative);
    spt_json_number(json, "inboard_life_h", point->row_h[0]);
    spt_json_number(json, "outboard_life_h", point->row_h[1]);
    if (!key)
        spt_json_number(json, "modified_reference_life_h", reference_h);
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
    write_json_point(json, "as_set", &study->asked, none);
    write_json_point(json, "best", &study->best, none);
    write_json_point(json, "best_without_preload", &study->advised, none);
    write_json_point(json, "no_play", &study->zero, none);
    write_json_point(json, "play_0_001_in", &study->play_low, none);
    write_json_point(json, "play_0_005_in", &study->play_high, none);
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
    spt_json_number(json, "least_setting_without_preload_mm", curve->least_mm);
    spt_json_bool(json, "as_set_is_preloaded", is_preloaded(curve, study->asked.setting_mm));
    spt_json_bool(json, "best_is_preloaded", is_preloaded(curve, study->best.setting_mm));
    spt_json_text(json, "preload_practice", spt_preload_practice());
}

void spt_setting_json(struct spt_json *json, const struct spt_case *question,
                      const struct spt_hub_curve *curve)
{
    spt_json_text(json, "title", question->title);
    spt_history_json(json, question->history);
    spt_json_text(json, "life", curve->modified ? "modified rating life" : "basic rating life");
    spt_json_number(json, "thermal_change_mm", curve->thermal_mm);
    write_json_study(json, curve);
    spt_json_open(json, "curve", '[');
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++)
        write_json_point(json, NULL, &curve->points[i], curve->reference_h[i]);
    spt_json_close(json, ']');
}

void spt_setting_csv(FILE *out, const struct spt_hub_curve *curve)
{
    struct spt_csv csv = {out, false};
    static const char *const heads[] = {"setting_mm",      "life_h",
                                        "relative_life",   "inboard_life_h",
                                        "outboard_life_h", "modified_reference_life_h",
                                        "preloaded"};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
        spt_csv_text(&csv, heads[i]);
    spt_csv_end(&csv);
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++) {
        const struct spt_setting_point *point = &curve->points[i];
        const double cells[] = {point->setting_mm, point->life_h,   point->relative,
                                point->row_h[0],   point->row_h[1], curve->reference_h[i]};
        for (size_t j = 0; j < sizeof cells / sizeof *cells; j++)
            spt_csv_number(&csv, cells[j]);
        spt_csv_text(&csv, is_preloaded(curve, point->setting_mm) ? "yes" : "no");
        spt_csv_end(&csv);
    }
}
