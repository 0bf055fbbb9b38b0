/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hostile texts and numbers through the writers of charts and of the page: what comes out is well
 * formed, of characters that XML allows, and has finite coordinates. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "answer/page/report.h"
#include "base/utf8.h"
#include "chart/chart.h"
#include "chart/plot.h"
#include "fuzz/fuzz.h"
#include "spalltime/assess.h"
#include "support/golden.h"
#include "support/markup.h"

#define TEXT_LENGTH 201 /* a name of a scenario has 200 bytes */
#define CURVE_MAX 12
#define PHASES_MAX 16
#define ROLLERS 7
#define DEPTH_MAX 5

/* A text of the input: its first byte is the length. */
static const char *take_text(struct fuzz_bytes *in, char text[TEXT_LENGTH])
{
    size_t length = fuzz_byte(in) % TEXT_LENGTH, used = 0;
    for (size_t i = 0; i < length && in->size; i++) {
        text[used] = (char)fuzz_byte(in);
        used += text[used] != 0;
    }
    text[used] = 0;
    return text;
}

/* Any double at all, or one of the paper. */
static double take_number(struct fuzz_bytes *in)
{
    return fuzz_byte(in) % 4 ? fuzz_between(in, -50, 500) : fuzz_number(in);
}

/* A life or another number that a result may hold: none, no limit, or 0 and above. */
static double take_result(struct fuzz_bytes *in)
{
    unsigned kind = fuzz_byte(in) % 8;
    return kind == 0   ? (double)NAN
           : kind == 1 ? (double)INFINITY
           : kind == 2 ? fabs(fuzz_number(in))
                       : fuzz_between(in, 1e-3, 1e9);
}

static void judge_attribute(void *context, const char *element, const char *name, const char *value)
{
    static const char *const numbers[] = {"x",  "y",  "x1", "y1",    "x2",
                                          "y2", "cx", "cy", "width", "height"};
    (void)context;
    (void)element;
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        if (!strcmp(name, numbers[i])) {
            char *end;
            double number = strtod(value, &end);
            fuzz_require(end != value && isfinite(number) && (!*end || !strcmp(end, "%")));
        }
    if (!strcmp(name, "d"))
        fuzz_require(strspn(value, "MLHVZh0123456789.- ") == strlen(value));
}

/* What every writer owes: a tree of elements, and nothing that XML forbids. */
static void judge_markup(const char *text)
{
    char problem[200] = "";
    bool fine = markup_read(text, judge_attribute, NULL, problem, sizeof problem);
    if (!fine)
        fprintf(stderr, "%s\n", problem);
    fuzz_require(fine);
    for (size_t i = 0, left = strlen(text); left;) {
        unsigned char byte = (unsigned char)text[i];
        size_t size = byte < 0x80 ? 1 : spt_utf8_size(text + i, left);
        fuzz_require(size > 0);
        fuzz_require(byte >= 0x20 || strchr("\n\t\r", byte));
        fuzz_require(size != 3 || (memcmp(text + i, "\xEF\xBF\xBE", 3) != 0 &&
                                   memcmp(text + i, "\xEF\xBF\xBF", 3) != 0));
        i += size;
        left -= size;
    }
}

static void draw_axes(struct spt_svg *svg, struct fuzz_bytes *in)
{
    char title[TEXT_LENGTH];
    struct spt_axis x, y;
    double xs[CURVE_MAX], ys[CURVE_MAX];
    int count = (int)(fuzz_byte(in) % CURVE_MAX);
    if (fuzz_byte(in) % 2)
        spt_axis_log(&x, take_number(in), take_number(in));
    else
        spt_axis_linear(&x, take_number(in), take_number(in), 5);
    spt_axis_linear(&y, take_number(in), take_number(in), 5);
    x.start = y.end = 40;
    x.end = y.start = 400;
    spt_plot_x_axis(svg, &x, 40, 400, take_text(in, title));
    spt_plot_y_axis(svg, &y, 40, 400, title);
    spt_plot_scale(svg, &x, 440, title);
    for (int i = 0; i < count; i++) {
        xs[i] = take_number(in);
        ys[i] = take_number(in);
    }
    spt_plot_curve(svg, "line", &x, &y, xs, ys, count);
}

static void draw_points(struct spt_svg *svg, struct fuzz_bytes *in)
{
    static const struct spt_plot_area area = {40, 40, 400, 400};
    static char names[CURVE_MAX][TEXT_LENGTH];
    struct spt_plot_point points[CURVE_MAX];
    int count = (int)(fuzz_byte(in) % CURVE_MAX);
    for (int i = 0; i < count; i++) {
        points[i] = (struct spt_plot_point){.x = take_number(in),
                                            .y = take_number(in),
                                            .number = i,
                                            .name = take_text(in, names[i]),
                                            .off = fuzz_byte(in) % 2};
        snprintf(points[i].tip, sizeof points[i].tip, "%.*s", (int)sizeof points[i].tip - 1,
                 names[i]);
    }
    spt_plot_points(svg, &area, points, count);
    spt_plot_key(svg, points, count);
}

static void draw_path(struct spt_svg *svg, struct fuzz_bytes *in)
{
    struct spt_svg_point points[CURVE_MAX];
    int count = (int)(fuzz_byte(in) % CURVE_MAX);
    for (int i = 0; i < count; i++)
        points[i] = (struct spt_svg_point){take_number(in), take_number(in)};
    spt_svg_path(svg, "line", points, count, fuzz_byte(in) % 2);
}

static void draw_text(struct spt_svg *svg, struct fuzz_bytes *in)
{
    char text[TEXT_LENGTH];
    const struct spt_svg_block block = {"", take_number(in), take_number(in), 100, 11.5};
    take_text(in, text);
    spt_svg_text(svg, "", SPT_SVG_MIDDLE, take_number(in), take_number(in), text);
    spt_svg_text_block(svg, &block, text);
    spt_plot_sentence(svg, text);
}

static void draw_element(struct spt_svg *svg, unsigned choice, struct fuzz_bytes *in)
{
    double a = take_number(in), b = take_number(in), c = take_number(in), d = take_number(in);
    switch (choice) {
    case 0:
        spt_svg_line(svg, "w1", a, b, c, d);
        break;
    case 1:
        spt_svg_rect(svg, "w1", a, b, c, d);
        break;
    case 2:
        spt_svg_circle(svg, "w1", a, b, c);
        break;
    case 3:
        spt_svg_marker(svg, fuzz_byte(in) % 4, "rust", a, b);
        break;
    case 4:
        spt_svg_hatched(svg, (int)(fuzz_byte(in) % SPT_SVG_HATCHES), "rust", a, b, c, d);
        break;
    case 5:
        draw_path(svg, in);
        break;
    case 6:
        draw_text(svg, in);
        break;
    case 7:
        draw_points(svg, in);
        break;
    default:
        draw_axes(svg, in);
    }
}

static void judge_svg(struct fuzz_bytes *in)
{
    char title[TEXT_LENGTH], tip[TEXT_LENGTH];
    struct spt_svg svg;
    struct fuzz_text gathered;
    bool alone = fuzz_byte(in) % 2;
    int depth = 0;
    take_text(in, title);
    fuzz_require(spt_svg_begin(&svg, "fuzz", 440));
    while (in->size) {
        unsigned choice = fuzz_byte(in) % 11;
        if (choice < 9)
            draw_element(&svg, choice, in);
        else if (choice == 9 && depth < DEPTH_MAX)
            depth += (spt_svg_open(&svg, take_text(in, tip)), 1);
        else if (choice == 10 && depth)
            depth -= (spt_svg_close(&svg), 1);
    }
    for (; depth; depth--)
        spt_svg_close(&svg);
    fuzz_text_begin(&gathered);
    fuzz_require(spt_svg_finish(&svg, gathered.stream, title, alone));
    char *text = fuzz_text_end(&gathered);
    judge_markup(text);
    fuzz_require(markup_count(text, "<svg ") == 1 && markup_count(text, "</svg>\n") == 1);
    free(text);
}

/* A scenario worked out once, of which each input spoils a copy. */
struct model {
    struct spt_scenario scenario;
    struct spt_phase_result results[PHASES_MAX], scratch[PHASES_MAX];
    struct spt_assessment assessment;
    struct spt_schedule plan;
    struct spt_survival_curve survival;
    struct spt_report_case cases[2];
};

static const struct model *find_model(void)
{
    static struct model model;
    struct spt_diagnostics diags = {0};
    size_t length;
    if (model.assessment.question)
        return &model;
    static char *text; /* the scenario lends from it */
    text = golden_read("scenarios/beet_trailer_hub.yaml", &length);
    fuzz_require(text != NULL);
    const struct spt_source source = {"beet", text, length};
    fuzz_require(spt_scenario_load(&source, fuzz_catalog(), &model.scenario, &diags));
    const struct spt_case *question = &model.scenario.base.question;
    fuzz_require(spt_case_phase_count(question) <= PHASES_MAX);
    fuzz_require(!spt_assess(question, model.results, &model.assessment));
    const struct spt_schedule_inputs inputs = {.question = question,
                                               .limits = {(double)NAN, -1},
                                               .costs = {(double)NAN, (double)NAN},
                                               .floor = SPT_WEIBULL_FLOOR};
    fuzz_require(!spt_schedule(&inputs, model.scratch, &model.plan));
    fuzz_require(!spt_survival_curve(&model.plan, NULL, &model.survival));
    (void)spt_film_curves_of(question, &model.assessment.bearings[0], &model.cases[0].film[0]);
    spt_contours(question->bearings[0].bearing.type, &model.cases[0].contours[0]);
    return &model;
}

static void spoil_phases(struct spt_bearing_result *bearing, struct spt_phase_result *results,
                         struct spt_phase *phases, char names[][TEXT_LENGTH], struct fuzz_bytes *in)
{
    for (int i = 0; i < bearing->phase_count; i++) {
        phases[i] = *results[i].phase;
        phases[i].name = take_text(in, names[i]);
        results[i].phase = &phases[i];
        results[i].dynamic.load_n = take_result(in);
        results[i].viscosity_ratio = take_result(in);
        results[i].factor.viscosity_ratio = take_result(in);
        results[i].factor.x = take_result(in);
        results[i].basic_rating_life_h = take_result(in);
        results[i].modified_rating_life_h = take_result(in);
        results[i].damage_share = fuzz_byte(in) % 5 ? fuzz_between(in, 0, 1) : (double)NAN;
    }
    bearing->phases = results;
}

static void spoil_loss(struct spt_loss *loss, struct fuzz_bytes *in)
{
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        loss->causes[i] =
            (struct spt_cause_share){fuzz_byte(in) % 2, take_number(in) / 100, take_result(in)};
    loss->reference_life_h = take_result(in);
}

static void spoil_curve(struct spt_survival_curve *curve, struct fuzz_bytes *in)
{
    double factor = fuzz_between(in, 1e-6, 1e6);
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++)
        curve->times_h[i] *= factor;
    curve->lives = (struct spt_survival_lives){take_result(in), take_result(in), take_result(in),
                                               take_result(in)};
    curve->fatigue_lives.l10_h = take_result(in);
}

static void make_zones(struct spt_load_zones *zones, double scratch[2][2][ROLLERS],
                       struct fuzz_bytes *in)
{
    *zones = (struct spt_load_zones){.count = 1, .phase_count = 2, .setting_mm = take_number(in)};
    zones->zones[0].carries = true;
    for (int row = 0; row < 2; row++) {
        struct spt_load_zone_row *to = &zones->zones[0].rows[row];
        *to = (struct spt_load_zone_row){
            ROLLERS, scratch[row][0], scratch[row][1], {.loaded_rollers = 0}};
        for (int i = 0; i < ROLLERS; i++) {
            to->angle_rad[i] = 2 * 3.14159 * i / ROLLERS;
            to->load_n[i] = fuzz_byte(in) % 2 ? 0 : fuzz_between(in, 1e-3, 1e9);
            to->contact.loaded_rollers += to->load_n[i] > 0;
            to->contact.max_roller_load_n = fmax(to->contact.max_roller_load_n, to->load_n[i]);
        }
        to->contact.zone_deg = fuzz_between(in, 0, 360);
        to->contact.max_pressure_mpa = take_result(in);
        zones->highest_n = fmax(zones->highest_n, to->contact.max_roller_load_n);
    }
}

static void judge_page(const struct spt_report *report)
{
    struct fuzz_text gathered;
    fuzz_text_begin(&gathered);
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, report->title);
    spt_report_page(page, report, NULL);
    fuzz_require(spt_page_html(page, gathered.stream, false));
    spt_arena_free(&arena);
    char *text = fuzz_text_end(&gathered);
    judge_markup(text);
    free(text);
}

static void judge_charts(const struct spt_report *report)
{
    for (int i = 0; i < spt_chart_count; i++) {
        struct fuzz_text gathered;
        if (!spt_chart_applies(&spt_chart_table[i], report, 0, 0))
            continue;
        fuzz_text_begin(&gathered);
        fuzz_require(spt_chart_alone(&spt_chart_table[i], report, 0, gathered.stream));
        char *text = fuzz_text_end(&gathered);
        judge_markup(text);
        free(text);
    }
}

static void judge_report(struct fuzz_bytes *in)
{
    static char names[PHASES_MAX][TEXT_LENGTH], texts[4][TEXT_LENGTH];
    const struct model *model = find_model();
    struct spt_assessment assessment = model->assessment;
    struct spt_bearing_case part = *assessment.bearings[0].bearing_case;
    struct spt_phase_result results[PHASES_MAX];
    struct spt_phase phases[PHASES_MAX];
    struct spt_survival_curve survival = model->survival;
    struct spt_load_zones zones;
    double scratch[2][2][ROLLERS];
    memcpy(results, model->results, sizeof results);
    part.bearing.name = take_text(in, texts[0]);
    assessment.bearings[0].bearing_case = &part;
    assessment.modified_rating_life_h = assessment.bearings[0].modified_rating_life_h =
        take_result(in);
    assessment.basic_rating_life_h = take_result(in);
    spoil_phases(&assessment.bearings[0], results, phases, names, in);
    spoil_loss(&assessment.bearings[0].loss, in);
    spoil_curve(&survival, in);
    make_zones(&zones, scratch, in);
    struct spt_report_case cases[2] = {model->cases[0], model->cases[0]};
    for (int i = 0; i < 2; i++) {
        cases[i].assessment = &assessment;
        cases[i].note = take_text(in, texts[1]);
        cases[i].plan = &model->plan;
        cases[i].survival = &survival;
        cases[i].zones = &zones;
    }
    cases[1].name = take_text(in, texts[2]);
    const struct spt_report report = {take_text(in, texts[3]), 2, cases, NULL, NULL, NULL};
    judge_page(&report);
    judge_charts(&report);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct fuzz_bytes in = {data, size};
    if (fuzz_byte(&in) % 2)
        judge_report(&in);
    else
        judge_svg(&in);
    return 0;
}
