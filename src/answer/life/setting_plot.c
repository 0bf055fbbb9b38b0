/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/setting_plot.h"

#include <math.h>
#include <string.h>

#include "chart/figure.h"
#include "sentence/setting.h"

#define PLOT_COLUMNS ((SPT_HUB_CURVE_POINTS + 1) / 2)
#define PLOT_ROWS 10
#define PLOT_MARGIN 7

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
            line[i] = spt_setting_is_preloaded(curve, setting_mm) ? '~' : '=';
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

void spt_setting_plot(const struct spt_text *text, const void *subject)
{
    const struct spt_figure *figure = subject;
    const struct spt_hub_curve *curve = figure->report->setting;
    for (int row = PLOT_ROWS; row >= 1; row--)
        write_plot_row(text, curve, row);
    write_axis(text, curve);
    spt_text_wrapf(text, "",
                   "mm, preload to the left of 0, end play to the right. S: as set, B: best for "
                   "fatigue of rigid rings only, W: best without preload, A: to aim at with this "
                   "scatter, ====: keeps %.0f %% of the best life, ~~~~: the same, but preloaded.",
                   100 * SPT_SETTING_KEPT);
}
