/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"

#define LEFT 46.0
#define RIGHT 308.0 /* leaves space for a label at the end of the hours axis */
#define HEIGHT 230.0
#define MARKS 4
#define TABLE_STEP 10 /* every tenth point of the curve is in the table */
#define LENGTH 240    /* length of a sentence below the chart */
#define NAME_LENGTH 80

/* The shares whose lives are marked, as in `schedule`. */
static const struct {
    double percent;
    size_t offset;
} marks[MARKS] = {{99, offsetof(struct spt_survival_lives, l1_h)},
                  {95, offsetof(struct spt_survival_lives, l5_h)},
                  {90, offsetof(struct spt_survival_lives, l10_h)},
                  {50, offsetof(struct spt_survival_lives, l50_h)}};

static double life_at(const struct spt_survival_lives *lives, int mark)
{
    return *(const double *)(const void *)((const char *)lives + marks[mark].offset);
}

static double km_per_h(const struct spt_chart_input *input)
{
    return input->part->assessment->question->road_speed_km_h;
}

bool spt_chart_survival_applies(const struct spt_chart_input *input)
{
    return input->part->survival != NULL;
}

static bool has_two(const struct spt_survival_curve *curve)
{
    return curve->fatigue && curve->grease;
}

static void make_axes(const struct spt_survival_curve *curve, double top, struct spt_axis *x,
                      struct spt_axis *y)
{
    spt_axis_log(x, curve->times_h[0], curve->times_h[SPT_SURVIVAL_POINTS - 1]);
    x->low = curve->times_h[0];
    x->high = curve->times_h[SPT_SURVIVAL_POINTS - 1];
    x->start = LEFT;
    x->end = RIGHT;
    spt_axis_linear(y, 0, 100, 5);
    y->start = top + HEIGHT;
    y->end = top;
}

/* Draws a second scale in kilometres, with the same ends as that in hours. */
static void draw_distance(struct spt_svg *svg, const struct spt_axis *hours, double km_h)
{
    struct spt_axis km;
    spt_axis_log(&km, hours->low * km_h, hours->high * km_h);
    km.low = hours->low * km_h;
    km.high = hours->high * km_h;
    km.start = hours->start;
    km.end = hours->end;
    spt_plot_scale(svg, &km, svg->height, "kilometres");
    svg->height += SPT_PLOT_SCALE_HEIGHT;
}

static void draw_line(struct spt_svg *svg, const char *classes, const struct spt_axis *x,
                      const struct spt_axis *y, const double *times_h, const double *shares)
{
    double percent[SPT_SURVIVAL_POINTS];
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++)
        percent[i] = 100 * shares[i];
    spt_plot_curve(svg, classes, x, y, times_h, percent, SPT_SURVIVAL_POINTS);
}

static void draw_band(struct spt_svg *svg, const struct spt_survival_curve *curve,
                      const struct spt_axis *x, const struct spt_axis *y)
{
    struct spt_svg_point points[2 * SPT_SURVIVAL_POINTS];
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++) {
        double at = spt_axis_at(x, curve->times_h[i]);
        points[i] = (struct spt_svg_point){at, spt_axis_at(y, 100 * curve->low[i])};
        points[2 * SPT_SURVIVAL_POINTS - 1 - i] =
            (struct spt_svg_point){at, spt_axis_at(y, 100 * curve->high[i])};
    }
    spt_svg_path(svg, "f-steel-wash", points, 2 * SPT_SURVIVAL_POINTS, true);
}

static void draw_lines(struct spt_svg *svg, const struct spt_survival_curve *curve,
                       const struct spt_axis *x, const struct spt_axis *y)
{
    const double *times_h = curve->times_h;
    if (curve->banded) {
        draw_line(svg, "line s-steel w1 d2", x, y, times_h, curve->low);
        draw_line(svg, "line s-steel w1 d2", x, y, times_h, curve->high);
    }
    if (curve->followed && curve->fatigue)
        draw_line(svg, "line s-steel w2 d3", x, y, times_h, curve->as_stated);
    if (has_two(curve)) {
        draw_line(svg, "line s-steel w2 d1", x, y, times_h, curve->by_fatigue);
        draw_line(svg, "line s-ochre w2 d4", x, y, times_h, curve->by_grease);
    }
    draw_line(svg, "line s-ink w3", x, y, times_h, curve->by_both);
}

static void name_mark(const struct spt_chart_input *input, int mark, char *name)
{
    char hours[SPT_HOURS_LENGTH], km[SPT_HOURS_LENGTH];
    double life_h = life_at(&input->part->survival->lives, mark);
    int used = snprintf(name, NAME_LENGTH, "%g %% reach %s h", marks[mark].percent,
                        spt_chart_hours(life_h, hours));
    if (km_per_h(input) > 0)
        snprintf(name + used, NAME_LENGTH - (size_t)used, ", %s km",
                 spt_text_amount(life_h * km_per_h(input), km));
}

static void draw_marks(struct spt_svg *svg, const struct spt_chart_input *input,
                       const struct spt_axis *x, const struct spt_axis *y, double top)
{
    const struct spt_plot_area area = {LEFT, top, RIGHT, top + HEIGHT};
    struct spt_plot_point points[MARKS];
    char names[MARKS][NAME_LENGTH];
    for (int i = 0; i < MARKS; i++) {
        double life_h = life_at(&input->part->survival->lives, i);
        name_mark(input, i, names[i]);
        points[i] = (struct spt_plot_point){
            .x = spt_axis_at(x, life_h),
            .y = spt_axis_at(y, marks[i].percent),
            .number = i + 1,
            .name = names[i],
        };
        snprintf(points[i].tip, sizeof points[i].tip, "%s", names[i]);
        fprintf(svg->desc, "%s. ", names[i]);
    }
    spt_plot_points(svg, &area, points, MARKS);
    spt_plot_key(svg, points, MARKS);
}

/* Writes a line below the chart: the meaning of a curve, and the life that 90 % reach by it. */
static void explain_line(struct spt_svg *svg, const char *classes, const char *name,
                         const struct spt_survival_lives *lives)
{
    char words[LENGTH], hours[SPT_HOURS_LENGTH];
    spt_svg_line(svg, classes, 8, svg->height + 8, 28, svg->height + 8);
    if (lives)
        snprintf(words, LENGTH, "%s: 90 %% reach %s h", name, spt_chart_hours(lives->l10_h, hours));
    spt_plot_sentence(svg, lives ? words : name);
}

static void explain_band(struct spt_svg *svg, const struct spt_chart_input *input)
{
    char words[LENGTH], low[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    const struct spt_survival_curve *curve = input->part->survival;
    const struct spt_uncertainty_result *spread = input->part->assessment->spread;
    spt_svg_rect(svg, "f-steel-wash", 8, svg->height + 2, 20, 12);
    spt_svg_line(svg, "s-steel w1 d2", 8, svg->height + 2, 28, svg->height + 2);
    spt_svg_line(svg, "s-steel w1 d2", 8, svg->height + 14, 28, svg->height + 14);
    snprintf(
        words, LENGTH,
        "By the section uncertainty, 5 to 95 %% of %d samples, for fatigue%s: rated life %s to %s h",
        spread->samples, curve->followed ? " as stated" : " alone",
        spt_chart_hours(spread->system.p5_h, low), spt_chart_hours(spread->system.p95_h, high));
    spt_plot_sentence(svg, words);
}

static void write_foot(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_survival_curve *curve = input->part->survival;
    explain_line(svg, "s-ink w3",
                 has_two(curve)   ? "neither fatigue nor grease has failed"
                 : curve->fatigue ? "no spall by rolling fatigue"
                                  : "the grease, regreased as planned, has not failed",
                 NULL);
    if (has_two(curve)) {
        explain_line(svg, "s-steel w2 d1",
                     curve->followed ? "fatigue under this plan" : "rolling fatigue",
                     &curve->fatigue_lives);
        explain_line(svg, "s-ochre w2 d4", "grease, regreased as planned", &curve->grease_lives);
    }
    if (curve->followed && curve->fatigue)
        explain_line(svg, "s-steel w2 d3", "fatigue of the condition as stated", NULL);
    if (curve->banded)
        explain_band(svg, input);
    spt_plot_sentence(svg, "Of many alike. Wear, rust and damage are not in it: one that is rough, "
                           "loose or hot is taken out whatever its share");
    svg->height += 4;
}

void spt_chart_survival(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_survival_curve *curve = input->part->survival;
    struct spt_axis x, y;
    double top = svg->height + 28;
    make_axes(curve, top, &x, &y);
    fputs("Share that still runs, in percent, against the running hours on a log axis. ",
          svg->desc);
    if (curve->banded)
        draw_band(svg, curve, &x, &y);
    spt_plot_x_axis(svg, &x, top, top + HEIGHT, "running hours");
    spt_plot_y_axis(svg, &y, LEFT, RIGHT, "share that still runs, %");
    draw_lines(svg, curve, &x, &y);
    svg->height = top + HEIGHT + 40;
    if (km_per_h(input) > 0)
        draw_distance(svg, &x, km_per_h(input));
    draw_marks(svg, input, &x, &y, top);
    write_foot(svg, input);
}

/* A row of either table, in words. */
struct number_row {
    const char *name, *both, *km, *fatigue, *grease, *low, *high;
};

#define AT(member) .at = offsetof(struct number_row, member)
enum { NAME, BOTH, KM, FATIGUE, GREASE, LOW, HIGH, COLUMNS };

/* The table of these rows; what a curve has not is left out. */
static void put_table(struct spt_page *page, const struct spt_chart_input *input,
                      const struct spt_column *columns, const char *caption,
                      const struct number_row *rows, int count)
{
    const struct spt_survival_curve *curve = input->part->survival;
    struct spt_column *shown = spt_page_columns(page, columns, COLUMNS);
    if (!shown)
        return;
    if (!(km_per_h(input) > 0))
        shown[KM].head = NULL;
    if (!has_two(curve))
        shown[FATIGUE].head = shown[GREASE].head = NULL;
    if (!curve->banded)
        shown[LOW].head = shown[HIGH].head = NULL;
    spt_page_table(page, caption,
                   &(struct spt_table){.caption = caption,
                                       .columns = shown,
                                       .column_count = COLUMNS,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = count});
}

static const char *say_life(struct spt_page *page, const struct spt_survival_lives *lives, int mark)
{
    char cell[SPT_HOURS_LENGTH];
    return spt_page_words(page, "%s", spt_chart_hours(life_at(lives, mark), cell));
}

static void put_lives(struct spt_page *page, const struct spt_chart_input *input)
{
    static const struct spt_column columns[COLUMNS] = {
        [NAME] = {.head = "share that still runs", .kind = SPT_WORDS, AT(name)},
        [BOTH] = {.head = "h", .kind = SPT_DAY, AT(both)},
        [KM] = {.head = "km", .kind = SPT_DAY, AT(km)},
        [FATIGUE] = {.head = "by fatigue alone h", .kind = SPT_DAY, AT(fatigue)},
        [GREASE] = {.head = "by grease alone h", .kind = SPT_DAY, AT(grease)},
        [LOW] = {.head = "fatigue as stated, band from h", .kind = SPT_DAY, AT(low)},
        [HIGH] = {.head = "to h", .kind = SPT_DAY, AT(high)},
    };
    const struct spt_survival_curve *curve = input->part->survival;
    struct number_row *rows = spt_page_allocate(page, MARKS * sizeof *rows);
    for (int i = 0; rows && i < MARKS; i++) {
        char km[SPT_HOURS_LENGTH];
        spt_text_amount(life_at(&curve->lives, i) * km_per_h(input), km);
        rows[i] = (struct number_row){.name = spt_page_words(page, "%g %%", marks[i].percent),
                                      .both = say_life(page, &curve->lives, i),
                                      .km = spt_page_words(page, "%s", km),
                                      .fatigue = say_life(page, &curve->fatigue_lives, i),
                                      .grease = say_life(page, &curve->grease_lives, i),
                                      .low = say_life(page, &curve->low_lives, i),
                                      .high = say_life(page, &curve->high_lives, i)};
    }
    put_table(page, input, columns, "Hours that each share reaches", rows, MARKS);
}

static const char *say_percent(struct spt_page *page, double share)
{
    return spt_page_words(page, "%.2f", 100 * share);
}

static void put_curve(struct spt_page *page, const struct spt_chart_input *input)
{
    static const struct spt_column columns[COLUMNS] = {
        [NAME] = {.head = "after h", .kind = SPT_WORDS, AT(name)},
        [BOTH] = {.head = "still runs %", .kind = SPT_DAY, AT(both)},
        [FATIGUE] = {.head = "by fatigue alone %", .kind = SPT_DAY, AT(fatigue)},
        [GREASE] = {.head = "by grease alone %", .kind = SPT_DAY, AT(grease)},
        [LOW] = {.head = "fatigue as stated, band from %", .kind = SPT_DAY, AT(low)},
        [HIGH] = {.head = "to %", .kind = SPT_DAY, AT(high)},
    };
    const struct spt_survival_curve *curve = input->part->survival;
    const int count = (SPT_SURVIVAL_POINTS + TABLE_STEP - 1) / TABLE_STEP;
    struct number_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++) {
        char hours[SPT_HOURS_LENGTH];
        const int at = i * TABLE_STEP;
        rows[i] = (struct number_row){
            .name = spt_page_words(page, "%s", spt_chart_hours(curve->times_h[at], hours)),
            .both = say_percent(page, curve->by_both[at]),
            .fatigue = say_percent(page, curve->by_fatigue[at]),
            .grease = say_percent(page, curve->by_grease[at]),
            .low = say_percent(page, curve->low[at]),
            .high = say_percent(page, curve->high[at])};
    }
    put_table(page, input, columns, "The curve", rows, count);
}

void spt_chart_survival_tables(struct spt_page *page, const struct spt_chart_input *input)
{
    put_lives(page, input);
    put_curve(page, input);
}
