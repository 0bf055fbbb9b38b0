/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/page/report.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chart/chart.h"
#include "format/text.h"
#include "scenario/scenario.h"
#include "sentence/notes.h"
#include "sentence/sentence.h"
#include "support/left_out.h"
#include "support/markup.h"

#define PHASES 40

/* A report of a scenario file without catalog, its variants as cases. */
struct loaded {
    struct spt_scenario scenario;
    struct spt_phase_result phases[4][2 * PHASES];
    struct spt_assessment assessments[4];
    struct spt_report_case cases[4];
    struct spt_report report;
};

static char *read_file(const char *path, size_t *length)
{
    char *text = malloc(100000);
    FILE *file = fopen(path, "rb");
    cr_assert(file, "%s", path);
    *length = fread(text, 1, 99999, file);
    text[*length] = 0;
    fclose(file);
    return text;
}

static void assess(struct loaded *loaded, int index, const struct spt_variant *variant)
{
    struct spt_report_case *part = &loaded->cases[index];
    struct spt_assessment *assessment = &loaded->assessments[index];
    cr_assert_not(spt_assess(&variant->question, loaded->phases[index], assessment));
    *part = (struct spt_report_case){
        .name = variant->name, .note = variant->note, .assessment = assessment};
    for (int i = 0; i < assessment->bearing_count; i++) {
        (void)spt_film_curves_of(&variant->question, &assessment->bearings[i], &part->film[i]);
        spt_contours(assessment->bearings[i].bearing_case->bearing.type, &part->contours[i]);
    }
}

static struct loaded *load(const char *path, bool twice)
{
    size_t length;
    struct spt_diagnostics diags = {0};
    struct loaded *loaded = calloc(1, sizeof *loaded);
    char *text = read_file(path, &length);
    const struct spt_source source = {path, text, length};
    cr_assert(spt_scenario_load(&source, NULL, &loaded->scenario, &diags), "%s", path);
    free(text);
    struct spt_case *base = &loaded->scenario.base.question;
    if (twice) { /* a second row of another name */
        base->bearing_count = 2;
        base->bearings[1] = base->bearings[0];
        base->bearings[1].bearing.name = "outer <row>";
    }
    assess(loaded, 0, &loaded->scenario.base);
    for (int i = 0; i < loaded->scenario.variant_count; i++)
        assess(loaded, i + 1, &loaded->scenario.variants[i]);
    loaded->report = (struct spt_report){.title = base->title,
                                         .case_count = 1 + loaded->scenario.variant_count,
                                         .cases = loaded->cases};
    return loaded;
}

static void unload(struct loaded *loaded)
{
    spt_scenario_free(&loaded->scenario);
    free(loaded);
}

static char *write_page(const struct loaded *loaded)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, loaded->report.title);
    cr_assert(page);
    spt_report_page(page, &loaded->report, NULL);
    spt_page_cautions(page);
    cr_assert(spt_page_html(page, out, false));
    fclose(out);
    spt_arena_free(&arena);
    return text;
}

static void check_attribute(void *context, const char *element, const char *name, const char *value)
{
    int *links = context;
    cr_expect_neq(strncmp(name, "on", 2), 0, "a handler: %s %s", element, name);
    cr_expect_str_neq(name, "src", "%s", element);
    if (!strcmp(name, "href")) {
        ++*links;
        cr_expect_eq(*value, '#', "a link leaves the page: %s", value);
    }
    if (!strcmp(name, "xmlns"))
        cr_expect_str_eq(value, "http://www.w3.org/2000/svg");
    else
        cr_expect_null(strstr(value, "://"), "%s %s: %s", element, name, value);
    if (!strcmp(name, "class") && !strcmp(element, "g"))
        cr_expect_str_eq(value, "tip");
}

/* Every link of a page leads to an element of it that is there once. */
static void check_targets(const char *page)
{
    for (const char *at = page; (at = strstr(at, "href=\"#"));) {
        char id[200];
        at += strlen("href=\"#");
        snprintf(id, sizeof id, " id=\"%.*s\"", (int)strcspn(at, "\""), at);
        cr_expect_eq(markup_count(page, id), 1, "%s", id);
    }
}

static const struct {
    const char *path;
    bool twice;
    int cases;
} pages[] = {
    {"scenarios/beet_trailer_hub.yaml", false, 2},
    {"scenarios/beet_trailer_hub.yaml", true, 2},
    {"tests/browser/inputs/hostile.yaml", false, 3},
    {"tests/browser/inputs/thirty_phases.yaml", false, 1},
    {"tests/browser/inputs/standing.yaml", false, 1},
};
#define PAGES ((int)(sizeof pages / sizeof *pages))

Test(html, pages_are_well_formed_and_refer_to_nothing_outside)
{
    for (int i = 0; i < PAGES; i++) {
        char problem[200];
        int links = 0;
        struct loaded *loaded = load(pages[i].path, pages[i].twice);
        char *page = write_page(loaded);
        cr_expect(markup_read(page, check_attribute, &links, problem, sizeof problem), "%s: %s",
                  pages[i].path, problem);
        cr_expect_geq(links, pages[i].cases > 1 ? pages[i].cases + 1 : 1);
        check_targets(page);
        cr_expect_eq(markup_count(page, "<section class=\"case\""), pages[i].cases);
        cr_expect_eq(markup_count(page, "<script"), 1, "the page's own script alone");
        cr_expect_eq(markup_count(page, "url("), markup_count(page, "url(#"));
        cr_expect_null(strstr(page, "@import"));
        cr_expect_null(strstr(page, "nan"), "%s: %.80s", pages[i].path, strstr(page, "nan"));
        free(page);
        unload(loaded);
    }
}

Test(html, every_chart_has_title_and_description_and_every_table_its_heads)
{
    for (int i = 0; i < PAGES; i++) {
        struct loaded *loaded = load(pages[i].path, pages[i].twice);
        char *page = write_page(loaded);
        const int bars = markup_count(page, "<svg aria-hidden"); /* a number stands beside each */
        const int charts = markup_count(page, "<svg ") - bars;
        cr_expect_geq(charts, 1, "%s", pages[i].path);
        cr_expect_eq(markup_count(page, "<title id=\""), charts);
        cr_expect_eq(markup_count(page, "<desc id=\""), charts);
        cr_expect_eq(markup_count(page, "role=\"img\""), charts);
        cr_expect_eq(markup_count(page, "<caption"), markup_count(page, "<table"));
        cr_expect_eq(markup_count(page, "<th"),
                     markup_count(page, "<th scope=\"") + markup_count(page, "<thead>"));
        free(page);
        unload(loaded);
    }
}

Test(html, the_same_report_gives_the_same_bytes)
{
    struct loaded *first = load(pages[0].path, false), *second = load(pages[0].path, false);
    char *a = write_page(first), *b = write_page(second);
    cr_expect_str_eq(a, b);
    free(a);
    free(b);
    unload(first);
    unload(second);
}

Test(html, hostile_texts_stay_texts)
{
    struct loaded *loaded = load("tests/browser/inputs/hostile.yaml", false);
    char *page = write_page(loaded);
    cr_expect_null(strstr(page, "<script>alert"));
    cr_expect_null(strstr(page, "<img"));
    cr_expect_null(strstr(page, "<svg onload"));
    cr_expect_null(strstr(page, "<a href=\"javascript"));
    cr_expect_null(strstr(page, "<i>fast"));
    cr_expect(strstr(page, "&lt;script&gt;alert(&#39;title&#39;)&lt;/script&gt;"));
    free(page);
    unload(loaded);
}

Test(html, the_page_says_what_the_text_answer_says)
{
    struct loaded *loaded = load("scenarios/beet_trailer_hub.yaml", false);
    char *page = write_page(loaded);
    static const char *const parts[] = {
        "Costliest phase: <bdi>field, loaded</bdi>,",
        "Costliest cause and best single remedy: debris; with only this put right",
        "<bdi>field, loaded</bdi>: Of 400 ppm of water about 202 ppm falls out",
        "Variant: <bdi>debris past a worn seal</bdi>",
        "An estimate for planning, not a safety approval.",
        "0.95 [ln(100/S)/ln(100/90)]^(1/1.5) + 0.05",
        "farm trailer, road haul and field work, greased once a season",
    };
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        cr_expect(strstr(page, parts[i]), "%s", parts[i]);
    free(page);
    unload(loaded);
}

static char *run_fine(const char *command)
{
    int status;
    char *text = markup_run(command, &status);
    cr_assert_leq(status, 1, "%s", command);
    return text;
}

/* 30 000 h: met as stated, but not with the torn seal. */
#define TORN_LONGER "sed 's/^target_life: .*/target_life: 30000 h/' scenarios/torn_seal_hub.yaml"

/* A tick only where nothing speaks against it. */
Test(html, a_target_met_by_fatigue_alone_has_no_tick)
{
    static const struct {
        const char *command, *headline;
    } rows[] = {
        {SPT_TEST_PROGRAM " report --catalog catalogs scenarios/lesson_1_clean.yaml",
         "<p>Fatigue life "},
        {SPT_TEST_PROGRAM " report scenarios/beet_trailer_hub.yaml",
         "<p class=\"doubtful\"><span aria-hidden=\"true\">!</span> Fatigue meets "},
        {TORN_LONGER " | " SPT_TEST_PROGRAM " report -",
         "<p class=\"missed\"><span aria-hidden=\"true\">\xE2\x9C\x97</span> Fatigue MISSES "},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char *page = run_fine(rows[i].command);
        /* it heads the page */
        const char *end = strstr(page, "</section>"), *headline = strstr(page, rows[i].headline);
        cr_assert(end);
        cr_expect(headline && headline < end, "%s", rows[i].headline);
        free(page);
    }
}

Test(html, flags_of_two_bearings_name_the_bearing)
{
    struct loaded *loaded = load("scenarios/beet_trailer_hub.yaml", true);
    struct spt_notes *notes = &loaded->assessments[0].bearings[1].notes;
    spt_notes_add(notes, SPT_FLAG_PITCH_ASSUMED, 85, (double)NAN);
    char *page = write_page(loaded);
    cr_expect(strstr(page, "<bdi>both bearings, field, loaded</bdi>: Of 400 ppm"));
    cr_expect_null(strstr(page, "<bdi>inner row, field, loaded</bdi>: Of 400 ppm"));
    cr_expect(strstr(page, "<bdi>outer &lt;row&gt;</bdi>:"));
    cr_expect(strstr(page, "<p><bdi>outer &lt;row&gt;</bdi></p>"));
    free(page);
    unload(loaded);
}

Test(chart, each_chart_of_the_table_stands_alone_as_well_formed_svg)
{
    for (int i = 0; i < PAGES; i++) {
        struct loaded *loaded = load(pages[i].path, pages[i].twice);
        for (int k = 0; k < spt_chart_count; k++) {
            char problem[200], *text = NULL;
            size_t length = 0;
            if (!spt_chart_applies(&spt_chart_table[k], &loaded->report, 0, 0))
                continue;
            FILE *out = open_memstream(&text, &length);
            cr_expect(spt_chart_alone(&spt_chart_table[k], &loaded->report, 0, out));
            fclose(out);
            cr_expect(markup_read(text, NULL, NULL, problem, sizeof problem), "%s of %s: %s",
                      spt_chart_table[k].name, pages[i].path, problem);
            cr_expect_eq(markup_count(text, "<svg "), 1);
            cr_expect_eq(markup_count(text, "<title id=\""), 1);
            cr_expect_eq(markup_count(text, "://"), 1, "the namespace alone");
            free(text);
        }
        unload(loaded);
    }
}

Test(chart, charts_apply_where_they_have_something_to_show)
{
    struct loaded *loaded = load("tests/browser/inputs/standing.yaml", false);
    static const struct {
        const char *name;
        bool applies;
    } rows[] = {{"variants", false},      {"phases", true},    {"loss", false},   {"film", false},
                {"contamination", false}, {"timeline", false}, {"setting", false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_chart *chart = spt_chart_find(rows[i].name);
        cr_assert(chart, "%s", rows[i].name);
        cr_expect_eq(spt_chart_applies(chart, &loaded->report, 0, 0), rows[i].applies, "%s",
                     rows[i].name);
    }
    cr_expect_null(spt_chart_find("pie"));
    unload(loaded);
}

/* A base case's chart as an SVG file, read as well-formed. */
static char *draw_base(const struct spt_report *report, const char *name)
{
    char problem[200], *text = NULL;
    size_t length = 0;
    const struct spt_chart *chart = spt_chart_find(name);
    cr_assert(chart && spt_chart_applies(chart, report, 0, 0), "%s", name);
    FILE *out = open_memstream(&text, &length);
    cr_expect(spt_chart_alone(chart, report, 0, out));
    fclose(out);
    cr_expect(markup_read(text, NULL, NULL, problem, sizeof problem), "%s: %s", name, problem);
    return text;
}

/* Half the life is spent at an event in the middle; a second one comes after the end. */
Test(chart, the_timeline_marks_events_end_and_target)
{
    static const double times_h[] = {0, 500, 1000}, damage[] = {0, 0.5, 1};
    struct loaded *loaded = load("scenarios/beet_trailer_hub.yaml", false);
    struct spt_service_life life = {.question = loaded->scenario.base.question,
                                    .service = {.event_count = 2},
                                    .timeline = {.life_h = 1000,
                                                 .damage_at_end = 1,
                                                 .undisturbed_h = (double)INFINITY,
                                                 .influence_count = 2},
                                    .curve = {3, times_h, damage}};
    life.question.target_life_h = 2000;
    life.timeline.influences[0] = (struct spt_influence_result){"seal <torn>", 500, 0.5, 3000};
    life.timeline.influences[1] =
        (struct spt_influence_result){"too late", 1500, (double)NAN, (double)NAN};
    loaded->report.life = &life;
    char *text = draw_base(&loaded->report, "timeline");
    cr_expect(strstr(text, "seal &lt;torn&gt;: at 500 h, 50 % spent before. "));
    cr_expect(strstr(text, "End of life: 1 000 h at 90 % reliability. Target: 2 000 h, missed. "
                           "Not reached: 1 event or drift. "));
    cr_expect_null(strstr(text, "too late"), "what is not reached has no mark");
    /* 0 to 2000 h over 46 to 322, 0 to 100 % over 324 to 74: the end and the event lie at */
    cr_expect(strstr(text, "M46 324L115 199L184 74"), "the curve");
    free(text);
    life.curve.count = 0;
    cr_expect_not(spt_chart_applies(spt_chart_find("timeline"), &loaded->report, 0, 0));
    unload(loaded);
}

/* A tent: all of the life at no end play, none at both ends. */
Test(chart, the_setting_marks_best_file_and_ranges)
{
    struct spt_hub_case hub = {.lowest_mm = -0.2, .highest_mm = 0.2};
    struct loaded *loaded = load("scenarios/beet_trailer_hub.yaml", false);
    struct spt_hub_curve *curve = calloc(1, sizeof *curve);
    curve->hub = &hub;
    curve->modified = true;
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++) {
        double setting_mm = -0.2 + 0.4 * i / (SPT_HUB_CURVE_POINTS - 1);
        curve->points[i].setting_mm = setting_mm;
        curve->points[i].relative = 1 - fabs(setting_mm) / 0.2;
    }
    curve->study.best = (struct spt_setting_point){.setting_mm = 0, .relative = 1};
    curve->study.asked = (struct spt_setting_point){.setting_mm = 0.1, .relative = 0.5};
    curve->study.advised = curve->study.best;
    curve->study.kept_from_mm = -0.04;
    curve->study.kept_to_mm = 0.04;
    loaded->report.setting = curve;
    char *text = draw_base(&loaded->report, "setting");
    cr_expect(strstr(text, "Best for fatigue of rigid rings only: no end play. "
                           "As set: 0.1 mm end play, 50 % of the best life. "
                           "Keeps 80 % without preload: no end play to 0.04 mm end play. "
                           "Preloaded, cold or running: its heat is not in the curve. "
                           "0.0254 to 0.127 mm (0.001 to 0.005 in) end play: common practice, "
                           "no source. "));
    /* -0.2 to 0.2 mm over 48 to 418: of 233 -+ 37 that are kept the preload side is not green */
    cr_expect(strstr(text, "x=\"184\" y=\"74\" width=\"27.6\" height=\"250\""));
    cr_expect(strstr(text, spt_preload_practice()));
    free(text);
    hub.preload_allowed = true;
    text = draw_base(&loaded->report, "setting");
    cr_expect(strstr(text, "Keeps 80 %: 0.04 mm preload to 0.04 mm end play. "));
    cr_expect(strstr(text, "x=\"156.4\" y=\"74\" width=\"55.2\" height=\"250\""));
    free(text);
    hub.preload_allowed = false;
    curve->study.best = (struct spt_setting_point){.setting_mm = -0.05, .relative = 1};
    curve->study.advised = (struct spt_setting_point){.setting_mm = 0, .relative = 0.75};
    text = draw_base(&loaded->report, "setting");
    cr_expect(strstr(text, "Best for fatigue of rigid rings only: 0.05 mm preload. "
                           "Best without preload: no end play, 75 % of that life. As set: "));
    free(text);
    curve->study.best.setting_mm = (double)NAN;
    cr_expect_not(spt_chart_applies(spt_chart_find("setting"), &loaded->report, 0, 0));
    free(curve);
    unload(loaded);
}

Test(chart, a_long_duty_shows_its_costliest_phases)
{
    struct loaded *loaded = load("tests/browser/inputs/thirty_phases.yaml", false);
    const struct spt_bearing_result *bearing = &loaded->assessments[0].bearings[0];
    int shown = 0;
    double least = 1, most_hidden = 0;
    for (int i = 0; i < bearing->phase_count; i++) {
        double damage = bearing->phases[i].damage_share;
        if (spt_chart_shows_phase(bearing, i)) {
            shown++;
            least = fmin(least, damage);
        } else {
            most_hidden = fmax(most_hidden, damage);
        }
    }
    cr_expect_eq(bearing->phase_count, 30);
    cr_expect_eq(shown, SPT_CHART_PHASES_MAX);
    cr_expect_gt(least, most_hidden);
    unload(loaded);
}

/* A second reader, where the machine has one: Python's own parsers. */
Test(markup, python_reads_pages_and_charts)
{
    static const char script[] =
        "import sys, html.parser, xml.dom.minidom\n"
        "page = sys.argv[1]\n"
        "class Reader(html.parser.HTMLParser):\n"
        "    def __init__(self):\n"
        "        super().__init__()\n"
        "        self.open, self.bad = [], []\n"
        "    def handle_starttag(self, tag, attrs):\n"
        "        if tag != 'meta': self.open.append(tag)\n"
        "    def handle_startendtag(self, tag, attrs): pass\n"
        "    def handle_endtag(self, tag):\n"
        "        if not self.open or self.open.pop() != tag: self.bad.append(tag)\n"
        "reader = Reader()\n"
        "text = open(page, encoding='utf-8').read()\n"
        "reader.feed(text)\n"
        "reader.close()\n"
        "charts = [c for c in text.split('<svg ')[1:] if not c.startswith('aria-hidden')] # no bars\n"
        "for chart in charts: xml.dom.minidom.parseString('<svg ' + chart.split('</svg>')[0] + "
        "'</svg>')\n"
        "print(len(charts), len(reader.open), len(reader.bad))\n";
    char command[4096];
    int status;
    char folder[] = "/tmp/spalltime-markup-XXXXXX";
    const char *python = python_with("html.parser", "python3");
    cr_assert(mkdtemp(folder));
    snprintf(command, sizeof command,
             "cd . && cat >%s/read.py <<'EOF'\n%sEOF\n"
             "%s report tests/browser/inputs/hostile.yaml -o %s/page.html && "
             "%s %s/read.py %s/page.html; code=$?; rm -r %s; exit $code",
             folder, script, SPT_TEST_PROGRAM, folder, python, folder, folder, folder);
    char *printed = markup_run(command, &status);
    cr_expect_eq(status, 0);
    cr_expect_str_eq(printed, "18 0 0\n", "charts, open and crossed elements: %s", printed);
    free(printed);
}

/* The word of `text` between the columns of a table, without the blanks before it. */
static const char *find_cell(const char *line, int from, int width, char *cell)
{
    snprintf(cell, SPT_HOURS_LENGTH, "%.*s", width, line + from);
    return cell + strspn(cell, " ");
}

/* "both" of `schedule`: lives of 28, then four columns of 12. */
Test(chart, survival_says_what_schedule_prints)
{
    static const char *const shares[] = {"99", "95", "90", "50"};
    char *plan = run_fine(SPT_TEST_PROGRAM " schedule --quiet scenarios/beet_trailer_fleet.yaml");
    char *chart =
        run_fine(SPT_TEST_PROGRAM
                 " report --samples 500 --chart survival scenarios/beet_trailer_fleet.yaml");
    const char *line = strstr(plan, "\nboth ");
    cr_assert(line && strlen(line) > 28 + 4 * 12);
    for (int i = 0; i < 4; i++) {
        char cell[SPT_HOURS_LENGTH], words[80];
        snprintf(words, sizeof words, "%s %% reach %s h, ", shares[i],
                 find_cell(line + 1, 28 + 12 * i, 12, cell));
        cr_expect(strstr(chart, words), "%s", words);
    }
    free(plan);
    free(chart);
}

/* The number behind the next key of this name in a JSON text. */
static double find_next(const char **json, const char *key)
{
    const char *at = strstr(*json, key);
    cr_assert(at, "%s", key);
    *json = at + strlen(key);
    return strtod(*json + strspn(*json, "\": "), NULL);
}

Test(chart, load_zones_say_what_life_prints)
{
    char *life = run_fine(SPT_TEST_PROGRAM " life --format json scenarios/lesson_6_preload.yaml");
    char *chart =
        run_fine(SPT_TEST_PROGRAM " report --chart zones scenarios/lesson_6_preload.yaml");
    const char *json = strstr(life, "\"hub\""), *desc = strstr(chart, "<desc");
    cr_assert(json && desc);
    for (int i = 0; i < 2 * 3; i++) { /* rows of three phases */
        char words[80], load[SPT_HOURS_LENGTH];
        snprintf(words, sizeof words, "%.0f\xC2\xB0: ", find_next(&json, "load_zone_deg"));
        const char *zone = strstr(desc, words);
        cr_assert(zone, "%s", words);
        snprintf(words, sizeof words, "largest roller load %s kN. ",
                 spt_text_number(find_next(&json, "max_roller_load_n") / 1e3, load));
        desc = strstr(zone, words);
        cr_assert(desc, "%s", words);
    }
    free(life);
    free(chart);
}

/* Every line of the plan and every note of `schedule` stands in the page, and the band of `life`.
 */
Test(html, the_page_has_the_plan_and_the_band)
{
    char *page =
        run_fine(SPT_TEST_PROGRAM " report --samples 500 scenarios/beet_trailer_fleet.yaml");
    char *life = run_fine(SPT_TEST_PROGRAM
                          " life --samples 500 scenarios/beet_trailer_fleet.yaml | tr '\\n' ' '");
    static const char *const parts[] = {
        "<h3>Service plan</h3>",
        "<th scope=\"row\">clean out and repack</th>",
        "grease also bleeds, dries and takes up water while it stands (a rule of this tool)",
        "takes 16.4 g of grease at each regreasing (0.005 D B, common practice)",
        "Inspection, replacement and survival follow the drifts and events of <code>service</code>",
        "<li>The vehicle or machine maker&#39;s instructions",
        "<li>A wheel bearing that is rough, loose, hot or damaged is taken out of service now",
    };
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++)
        cr_expect(strstr(page, parts[i]), "%s", parts[i]);
    const char *band = strstr(life, "Band by the section `uncertainty`: ");
    cr_assert(band);
    char words[80];
    snprintf(words, sizeof words, "%.46s", band + strlen("Band by the section `uncertainty`: "));
    for (char *at = page; (at = strstr(at, "\xC2\xA0"));) /* the blanks in numbers of the page */
        *at = ' ', memmove(at + 1, at + 2, strlen(at + 2) + 1);
    cr_expect(strstr(page, words), "%s", words);
    free(page);
    free(life);
}
