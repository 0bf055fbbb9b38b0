/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"
#include "sentence/setting.h"

#define PI 3.14159265358979323846
#define RING 30.0  /* radius for a roller without load */
#define REACH 42.0 /* from RING to the end of the scale */
#define ARC 24.0   /* radius of the arc that shows the zone */
#define ARC_POINTS 73
#define HEAD 312.0
#define LENGTH 240
#define WHOLE_DEG 359.5 /* a longer arc is drawn and described as the full circle */

static const double middles[2] = {88, 252}; /* x of the centres of the two rows */

bool spt_chart_zones_applies(const struct spt_chart_input *input)
{
    return input->part->zones && input->part->zones->count > 0;
}

static bool is_whole(const struct spt_load_zone_row *row)
{
    return row->contact.zone_deg >= WHOLE_DEG;
}

static struct spt_svg_point find_place(double x, double y, double angle_rad, double radius)
{
    return (struct spt_svg_point){x + radius * cos(angle_rad), y - radius * sin(angle_rad)};
}

/* Draws the circles of the scale, with their loads between the two uppermost rollers. */
static void draw_scale(struct spt_svg *svg, const struct spt_load_zone_row *row,
                       const struct spt_axis *scale, double x, double y)
{
    double between_rad =
        row->angle_rad[0] + 2 * PI * (row->roller_count / 2 + 0.5) / row->roller_count;
    spt_svg_circle(svg, "f-paper s-edge w2", x, y, RING);
    for (int i = 0; i < scale->tick_count; i++) {
        const struct spt_tick *tick = &scale->ticks[i];
        double radius = spt_axis_at(scale, tick->value);
        if (!(tick->value > 0) || !spt_axis_holds(scale, tick->value))
            continue;
        spt_svg_circle(svg, "line s-rule w1", x, y, radius);
        struct spt_svg_point at = find_place(x, y, between_rad, radius);
        char words[SPT_TICK_LABEL_LENGTH + 4];
        snprintf(words, sizeof words, "%s kN", tick->label);
        spt_svg_text(svg, "quiet halo", SPT_SVG_MIDDLE, at.x, at.y + 4, words);
    }
}

static bool is_loaded(const struct spt_load_zone_row *row, int roller)
{
    int i = (roller + row->roller_count) % row->roller_count;
    return row->load_n[i] > SPT_HUB_ZONE_THRESHOLD * row->contact.max_roller_load_n;
}

static void draw_arc(struct spt_svg *svg, double from_rad, double to_rad, double x, double y)
{
    struct spt_svg_point points[ARC_POINTS];
    for (int i = 0; i < ARC_POINTS; i++)
        points[i] = find_place(x, y, from_rad + (to_rad - from_rad) * i / (ARC_POINTS - 1), ARC);
    spt_svg_path(svg, "line s-rust w3", points, ARC_POINTS, false);
}

/* How far the zone extends beyond the last roller of each group of loaded rollers, so that the arcs
 * sum to its extent. */
static double find_overhang(const struct spt_load_zone_row *row, double pitch_rad)
{
    int runs = 0;
    for (int i = 0; i < row->roller_count; i++)
        runs += is_loaded(row, i) && !is_loaded(row, i - 1);
    if (!runs)
        return 0;
    double between_rad = (row->contact.loaded_rollers - runs) * pitch_rad;
    return fmax(row->contact.zone_deg * PI / 180 - between_rad, 0) / (2 * runs);
}

static void draw_arcs(struct spt_svg *svg, const struct spt_load_zone_row *row, double x, double y)
{
    double pitch_rad = 2 * PI / row->roller_count, beyond = find_overhang(row, pitch_rad);
    if (is_whole(row)) {
        draw_arc(svg, 0, 2 * PI, x, y);
        return;
    }
    for (int i = 0; i < row->roller_count; i++) {
        int length = 1;
        if (!is_loaded(row, i) || is_loaded(row, i - 1))
            continue;
        while (is_loaded(row, i + length))
            length++;
        draw_arc(svg, row->angle_rad[i] - beyond,
                 row->angle_rad[i] + (length - 1) * pitch_rad + beyond, x, y);
    }
}

/* The loads stand in the tables beside the chart; the lines in a row are one path. */
static void draw_rollers(struct spt_svg *svg, const struct spt_load_zone_row *row,
                         const struct spt_axis *scale, double x, double y)
{
    for (int i = 0; i < row->roller_count; i++) {
        const struct spt_svg_point foot = find_place(x, y, row->angle_rad[i], RING);
        const struct spt_svg_point end =
            find_place(x, y, row->angle_rad[i], spt_axis_at(scale, row->load_n[i] / 1e3));
        if (is_loaded(row, i))
            spt_svg_line(svg, "line s-steel w4", foot.x, foot.y, end.x, end.y);
    }
    for (int i = 0; i < row->roller_count; i++) {
        const struct spt_svg_point foot = find_place(x, y, row->angle_rad[i], RING);
        if (!is_loaded(row, i))
            spt_svg_circle(svg, "f-paper s-muted w1", foot.x, foot.y, 2);
    }
}

/* Writes the text below a row, short enough for half the chart, and its description; the extent of
 * the zone stands in its middle. */
static void write_row(struct spt_svg *svg, const struct spt_load_zone_row *row, int index, double y)
{
    char words[LENGTH], load[SPT_HOURS_LENGTH];
    spt_text_number(row->contact.max_roller_load_n / 1e3, load);
    snprintf(words, LENGTH, "%d of %d rollers carry", row->contact.loaded_rollers,
             row->roller_count);
    spt_svg_text(svg, "small", SPT_SVG_MIDDLE, middles[index], y, words);
    snprintf(words, LENGTH, "at most %s kN each", load);
    spt_svg_text(svg, "small bold", SPT_SVG_MIDDLE, middles[index], y + 15, words);
    fprintf(svg->desc, "%s row: %s %.0f\xC2\xB0: %d of %d rollers, largest roller load %s kN. ",
            spt_hub_row_name(index), is_whole(row) ? "all around," : "zone", row->contact.zone_deg,
            row->contact.loaded_rollers, row->roller_count, load);
}

static void draw_row(struct spt_svg *svg, const struct spt_load_zone_row *row, int index,
                     const struct spt_axis *scale)
{
    char words[LENGTH];
    double x = middles[index], y = svg->height + 30 + RING + REACH;
    snprintf(words, LENGTH, "%s row", spt_hub_row_name(index));
    spt_svg_text(svg, "quiet", SPT_SVG_MIDDLE, x, svg->height + 16, words);
    draw_scale(svg, row, scale, x, y);
    draw_arcs(svg, row, x, y);
    draw_rollers(svg, row, scale, x, y);
    snprintf(words, LENGTH, "%.0f\xC2\xB0", row->contact.zone_deg);
    spt_svg_text(svg, "bold", SPT_SVG_MIDDLE, x, y + 5, words);
    write_row(svg, row, index, y + RING + REACH + 18);
}

static void draw_zone(struct spt_svg *svg, const struct spt_chart_input *input,
                      const struct spt_load_zone *zone, const struct spt_axis *scale)
{
    char title[LENGTH];
    const struct spt_phase_result *phases = input->part->assessment->bearings[0].phases;
    const char *name = phases[zone->phase].phase->name;
    const struct spt_svg_block block = {"bold", 14, svg->height + 16, HEAD, 13};
    snprintf(title, sizeof title, "%.200s", name);
    spt_svg_text_block(svg, &block, title);
    svg->height += 6 + SPT_SVG_LINE * spt_svg_text_lines(title, HEAD, 13);
    fprintf(svg->desc, "%s: ", title);
    if (!zone->carries) {
        spt_plot_sentence(svg, "nothing is loaded");
        return;
    }
    for (int row = 0; row < 2; row++)
        draw_row(svg, &zone->rows[row], row, scale);
    svg->height += 30 + 2 * (RING + REACH) + 44;
}

static bool any_whole(const struct spt_load_zones *zones)
{
    for (int i = 0; i < zones->count; i++)
        for (int row = 0; row < 2; row++)
            if (zones->zones[i].carries && is_whole(&zones->zones[i].rows[row]))
                return true;
    return false;
}

static void write_foot(struct spt_svg *svg, const struct spt_load_zones *zones)
{
    char words[LENGTH], setting[SPT_SETTING_LENGTH];
    spt_svg_line(svg, "line s-steel w4", 8, svg->height + 8, 24, svg->height + 8);
    spt_plot_sentence(
        svg,
        "load of each roller, outwards from the ring, in kN on one scale for all phases and variants; seen "
        "from outboard, the ground below");
    spt_svg_line(svg, "s-rust w3", 8, svg->height + 8, 28, svg->height + 8);
    spt_plot_sentence(svg, "load zone: where rollers carry");
    snprintf(words, LENGTH, "Setting when running: %s",
             spt_text_setting(zones->setting_mm, setting));
    spt_plot_sentence(svg, words);
    if (any_whole(zones))
        spt_plot_sentence(svg,
                          "A zone all around: every roller is loaded at every turn, by preload "
                          "or thrust, and no roller ever rests");
    if (zones->count < zones->phase_count) {
        snprintf(words, LENGTH, "The %d phases of %d that do most damage", zones->count,
                 zones->phase_count);
        spt_plot_sentence(svg, words);
    }
    svg->height += 4;
}

/* The largest load of a roller in kN in any case of a report: all of them have one scale. */
static double find_largest(const struct spt_report *report)
{
    double largest_n = 0;
    for (int i = 0; i < report->case_count; i++)
        if (report->cases[i].zones)
            largest_n = fmax(largest_n, report->cases[i].zones->highest_n);
    return largest_n > 0 ? largest_n / 1e3 : 1;
}

void spt_chart_zones(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_load_zones *zones = input->part->zones;
    struct spt_axis scale;
    spt_axis_linear(&scale, 0, find_largest(input->report), 2);
    scale.start = RING;
    scale.end = RING + REACH;
    fputs("Load of each roller around the two rows of the hub. ", svg->desc);
    for (int i = 0; i < zones->count; i++)
        draw_zone(svg, input, &zones->zones[i], &scale);
    write_foot(svg, zones);
}

struct zone_table_row {
    const char *phase, *row, *rollers;
    double zone_deg, largest_kn, pressure_mpa;
};

static void put_zones(struct spt_page *page, const struct spt_chart_input *input)
{
#define AT(member) .at = offsetof(struct zone_table_row, member)
    static const struct spt_column columns[] = {
        {.head = "phase", .kind = SPT_WORDS, AT(phase)},
        {.head = "row", .kind = SPT_WORDS, AT(row)},
        {.head = "zone \xC2\xB0", .kind = SPT_GENERAL, .digits = 4, AT(zone_deg)},
        {.head = "rollers that carry", .kind = SPT_DAY, AT(rollers)},
        {.head = "largest kN", .kind = SPT_NUMBER, AT(largest_kn)},
        {.head = "pressure MPa", .kind = SPT_NUMBER, AT(pressure_mpa)},
    };
#undef AT
    const struct spt_load_zones *zones = input->part->zones;
    const struct spt_phase_result *phases = input->part->assessment->bearings[0].phases;
    struct zone_table_row *rows = spt_page_allocate(page, 2 * (size_t)zones->count * sizeof *rows);
    int count = 0;
    for (int i = 0; rows && i < 2 * zones->count; i++) {
        const struct spt_load_zone *zone = &zones->zones[i / 2];
        const struct spt_load_zone_row *row = &zone->rows[i % 2];
        if (zone->carries)
            rows[count++] = (struct zone_table_row){
                phases[zone->phase].phase->name,
                spt_hub_row_name(i % 2),
                spt_page_words(page, "%d of %d", row->contact.loaded_rollers, row->roller_count),
                row->contact.zone_deg,
                row->contact.max_roller_load_n / 1e3,
                row->contact.max_pressure_mpa};
    }
    spt_page_table(
        page, "zones",
        &(struct spt_table){SPT_TABLE_OF(columns, rows, count), .caption = "Load zones"});
}

struct roller_row {
    const char *row;
    double angle_deg, load_kn;
};

static void put_rollers(struct spt_page *page, const char *phase, const struct spt_load_zone *zone)
{
#define AT(member) .at = offsetof(struct roller_row, member)
    static const struct spt_column columns[] = {
        {.head = "roller of", .kind = SPT_WORDS, AT(row)},
        {.head = "angle \xC2\xB0", .kind = SPT_FIXED, .digits = 1, AT(angle_deg)},
        {.head = "load kN", .kind = SPT_GENERAL, .digits = 4, AT(load_kn)},
    };
#undef AT
    const size_t most = (size_t)(zone->rows[0].roller_count + zone->rows[1].roller_count);
    struct roller_row *rows = spt_page_allocate(page, most * sizeof *rows);
    int count = 0;
    for (int index = 0; rows && index < 2; index++) {
        const struct spt_load_zone_row *row = &zone->rows[index];
        for (int i = 0; i < row->roller_count; i++)
            if (is_loaded(row, i))
                rows[count++] = (struct roller_row){spt_hub_row_name(index),
                                                    fmod(row->angle_rad[i] * 180 / PI + 720, 360),
                                                    row->load_n[i] / 1e3};
    }
    spt_page_table(page, "rollers",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count),
                                       .caption = spt_page_words(page, "Rollers that carry: %s",
                                                                 spt_page_name(page, phase))});
}

void spt_chart_zones_tables(struct spt_page *page, const struct spt_chart_input *input)
{
    const struct spt_load_zones *zones = input->part->zones;
    const struct spt_phase_result *phases = input->part->assessment->bearings[0].phases;
    put_zones(page, input);
    for (int i = 0; i < zones->count; i++)
        if (zones->zones[i].carries)
            put_rollers(page, phases[zones->zones[i].phase].phase->name, &zones->zones[i]);
}
