/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/page/html.h"

#include <math.h>
#include <string.h>

#include "answer/field/spread.h"
#include "answer/page/html_parts.h"
#include "base/quotient.h"
#include "chart/chart.h"
#include "format/escape.h"
#include "format/html_table.h"
#include "format/page/style.h"
#include "format/text.h"
#include "sentence/findings.h"
#include "sentence/sentence.h"
#include "spalltime/version.h"

/* True where something other than fatigue may end the life, or its value is doubtful. */
static bool is_doubtful(const struct spt_assessment *assessment)
{
    char words[SPT_RESERVATIONS_LENGTH];
    return !isnan(assessment->modified_rating_life_h) &&
           spt_findings_reservations(assessment, NULL, words);
}

/* How a life compares with its target. */
enum judgement { NO_TARGET, MEETS, DOUBTFUL, WORN_DOWN, MISSES, NO_LIFE };

static bool misses_in_service(const struct spt_service_life *life)
{
    if (!life || isnan(life->question.target_life_h))
        return false;
    return !(life->timeline.life_h >= life->question.target_life_h);
}

/* `life`: the case with its drifts and events; NULL: not calculated. */
static enum judgement judge(const struct spt_assessment *assessment,
                            const struct spt_service_life *life)
{
    double target_h = assessment->question->target_life_h;
    if (isnan(assessment->modified_rating_life_h))
        return NO_LIFE;
    if (isnan(target_h))
        return NO_TARGET;
    if (assessment->modified_rating_life_h < target_h)
        return MISSES;
    if (misses_in_service(life))
        return WORN_DOWN;
    return is_doubtful(assessment) ? DOUBTFUL : MEETS;
}

/* Wording of each judgement: words with a sign (NULL: no target), their CSS class and that of the
 * verdict, and the text in a table. */
struct telling {
    const char *words, *class, *box, *cell;
};

static const struct telling *tell(enum judgement judgement)
{
    static const struct telling tellings[] = {
        [NO_TARGET] = {NULL, "", "", "none set"},
        [MEETS] = {"\xE2\x9C\x93 Meets the target", "met", " meets", "met"},
        [DOUBTFUL] = {"! Meets the target by fatigue alone", "doubtful", " doubts",
                      "met by fatigue alone"},
        [WORN_DOWN] = {"\xE2\x9C\x97 Misses the target with its service", "missed", " misses",
                       "missed"},
        [MISSES] = {"\xE2\x9C\x97 Misses the target", "missed", " misses", "missed"},
        [NO_LIFE] = {"\xE2\x9C\x97 No life can be stated", "missed", " misses", "no life"},
    };
    return &tellings[judgement];
}

static void write_headline(const struct spt_assessment *assessment,
                           const struct spt_service_life *life, FILE *out)
{
    char hours[SPT_HOURS_LENGTH], target[SPT_HOURS_LENGTH];
    const enum judgement judgement = judge(assessment, life);
    const struct telling *telling = tell(judgement);
    double stated_h = assessment->modified_rating_life_h;
    double life_h = judgement == WORN_DOWN ? life->timeline.life_h : stated_h;
    double target_h = assessment->question->target_life_h;
    fputs("<p class=\"headline\">", out);
    if (telling->words)
        fprintf(out, "<span class=\"%s\">%s</span>", telling->class, telling->words);
    if (!isnan(life_h))
        fprintf(out, "%s %s", telling->words ? ": life" : "Life", spt_text_life(life_h, hours));
    if (!isnan(life_h) && !isnan(target_h))
        fprintf(out, ", wanted %s", spt_text_life(target_h, target));
    if (judgement == WORN_DOWN)
        fprintf(out, "; %s in the condition as stated", spt_text_life(stated_h, hours));
    else if (assessment->question->service_apart)
        fputs(", in the condition as stated", out);
    fputs("</p>\n", out);
}

static void write_head(const struct spt_report *report, FILE *out)
{
    fputs("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n"
          "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
          "<meta name=\"color-scheme\" content=\"light dark\">\n"
          "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src "
          "'unsafe-inline'; script-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n"
          "<title>",
          out);
    spt_escape(out, report->title);
    fputs("</title>\n", out);
    spt_page_style(out);
    fputs("</head>\n<body>\n<header>\n<h1>", out);
    spt_escape(out, report->title);
    fputs("</h1>\n", out);
    if (report->cases[0].note) {
        fputs("<p class=\"note\">", out);
        spt_escape(out, report->cases[0].note);
        fputs("</p>\n", out);
    }
    write_headline(report->cases[0].assessment, report->life, out);
    fputs("</header>\n", out);
}

static void write_links(const struct spt_report *report, FILE *out)
{
    if (report->case_count < 2)
        return;
    fputs("<nav class=\"cases\" aria-label=\"The scenario and its variants\">\n<ul>\n", out);
    for (int i = 0; i < report->case_count; i++) {
        fprintf(out, "<li><a href=\"#case-%d\">", i);
        spt_escape(out, spt_report_case_name(&report->cases[i]));
        fputs("</a></li>\n", out);
    }
    fputs("<li><a href=\"#cases\">all, one after the other</a></li>\n</ul>\n</nav>\n", out);
}

static void say_line(void *context, const char *who, const char *sentence)
{
    FILE *out = context;
    fputs("<p>", out);
    spt_escape(out, who);
    fputs(who ? ": " : "", out);
    spt_escape(out, sentence);
    fputs("</p>\n", out);
}

static void write_figure(FILE *out, const char *name, const char *value)
{
    fprintf(out, "<div><dt>%s</dt><dd>%s</dd></div>\n", name, value);
}

static void write_figures(const struct spt_assessment *assessment, FILE *out)
{
    char number[SPT_HOURS_LENGTH];
    double target_h = assessment->question->target_life_h;
    fputs("<dl class=\"figures\">\n", out);
    write_figure(out, "life", spt_text_life(assessment->modified_rating_life_h, number));
    if (!isnan(target_h))
        write_figure(out, "target", spt_text_life(target_h, number));
    write_figure(out, "basic rating life", spt_text_life(assessment->basic_rating_life_h, number));
    snprintf(number, sizeof number, "%.6g %%", assessment->question->reliability_percent);
    write_figure(out, "reliability", number);
    snprintf(number, sizeof number, "%.3g", assessment->reliability_factor);
    write_figure(out, "reliability factor a<sub>1</sub>", number);
    fputs("</dl>\n", out);
}

/* Writes the life with the drifts and events, where the page includes them. */
static void write_service(const struct spt_service_life *life, FILE *out)
{
    char hours[SPT_HOURS_LENGTH];
    double target_h = life->question.target_life_h, life_h = life->timeline.life_h;
    fputs("<p><strong>With the drifts and events of <code>service</code>: ", out);
    if (isnan(life_h))
        fprintf(out, "no life can be stated from %s on",
                spt_text_life(life->timeline.stopped_h, hours));
    else if (isinf(life_h))
        fprintf(out, "not spent by %s", spt_text_life(life->timeline.until_h, hours));
    else
        fprintf(out, "life %s", spt_text_life(life_h, hours));
    if (!isnan(target_h) && !(isinf(life_h) && life->timeline.until_h < target_h))
        fputs(life_h >= target_h ? ", the target is met" : ", the target is MISSED", out);
    fputs(".</strong></p>\n", out);
}

static void write_verdict(const struct spt_assessment *assessment,
                          const struct spt_service_life *life, FILE *out)
{
    const enum judgement judgement = judge(assessment, life);
    const struct telling *telling = tell(judgement);
    fprintf(out, "<div class=\"answer%s\">\n", telling->box);
    if (telling->words)
        fprintf(out, "<p class=\"mark\">%s</p>\n", telling->words);
    const struct spt_finding_sink sink = {say_line, out};
    spt_findings_verdict(assessment, &sink);
    if (life)
        write_service(life, out);
    write_figures(assessment, out);
    fputs("</div>\n", out);
}

static void write_flags(const struct spt_assessment *assessment, FILE *out)
{
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_page_flags(page, assessment);
    spt_page_fragment(page, out, false);
    spt_arena_free(&arena);
}

static bool write_chart(const struct spt_chart *chart, const struct spt_report *report,
                        int case_index, int bearing_index, FILE *out)
{
    fprintf(out, "<figure>\n<figcaption>%s</figcaption>\n", chart->title);
    bool drawn = spt_chart_inline(chart, report, case_index, bearing_index, out);
    if (chart->tables) {
        fputs("<details>\n<summary>Its numbers as tables</summary>\n", out);
        spt_chart_tables(chart, report, case_index, bearing_index, out);
        fputs("</details>\n", out);
    }
    fputs("</figure>\n", out);
    return drawn;
}

/* Writes every chart of these scopes (bit mask) that applies, under a heading. */
static bool write_charts(const struct spt_report *report, unsigned scopes, int case_index,
                         int bearing_index, const char *heading, FILE *out)
{
    bool drawn = true, any = false;
    for (int i = 0; i < spt_chart_count && drawn; i++) {
        const struct spt_chart *chart = &spt_chart_table[i];
        if (!(scopes & 1U << chart->scope) ||
            !spt_chart_applies(chart, report, case_index, bearing_index))
            continue;
        if (!any && heading)
            fprintf(out, "<h3>%s</h3>\n", heading);
        if (!any)
            fprintf(out, "<div class=\"charts%s\">\n",
                    chart->scope == SPT_CHART_OF_CASES ? " single" : "");
        any = true;
        drawn = write_chart(chart, report, case_index, bearing_index, out);
    }
    if (any)
        fputs("</div>\n", out);
    return drawn;
}

static bool write_bearing(const struct spt_report *report, int case_index, int bearing_index,
                          FILE *out)
{
    const struct spt_assessment *assessment = report->cases[case_index].assessment;
    const struct spt_bearing_result *bearing = &assessment->bearings[bearing_index];
    char band[SPT_BAND_LENGTH];
    fputs("<h3>Life", out);
    if (assessment->bearing_count > 1) {
        fputs(" of ", out);
        spt_escape(out, bearing->bearing_case->bearing.name);
    }
    fputs(": phases, losses, film and dirt</h3>\n", out);
    if (assessment->spread && assessment->bearing_count > 1)
        say_line(out, NULL,
                 spt_band_words(&assessment->spread->bearings[bearing_index],
                                assessment->spread->samples, band));
    bool drawn =
        write_charts(report, 1U << SPT_CHART_OF_BEARING, case_index, bearing_index, NULL, out);
    spt_html_phases(out, bearing, assessment->question->hub);
    spt_html_loss(out, bearing);
    return drawn;
}

/* Writes the charts of a whole case; some exist only for the scenario as written. */
static bool write_whole(const struct spt_report *report, int index, FILE *out)
{
    unsigned scopes = 1U << SPT_CHART_OF_CASE;
    if (!index)
        scopes |= 1U << SPT_CHART_OF_BASE;
    return write_charts(report, scopes, index, 0,
                        report->cases[index].zones ? "Survival, load zones and setting"
                                                   : "Survival and service life",
                        out);
}

static bool write_case(const struct spt_report *report, int index, FILE *out)
{
    const struct spt_report_case *part = &report->cases[index];
    bool drawn = true;
    fprintf(out, "<section class=\"case\" id=\"case-%d\" aria-labelledby=\"case-%d-h\">\n", index,
            index);
    fprintf(out, "<h2 id=\"case-%d-h\">", index);
    fputs(index ? "Variant: " : "The scenario as written", out);
    spt_escape(out, part->name);
    fputs("</h2>\n", out);
    if (index && part->note) {
        fputs("<p class=\"note\">", out);
        spt_escape(out, part->note);
        fputs("</p>\n", out);
    }
    write_verdict(part->assessment, index ? NULL : report->life, out);
    write_flags(part->assessment, out);
    for (int i = 0; i < part->assessment->bearing_count && drawn; i++)
        drawn = write_bearing(report, index, i, out);
    if (drawn)
        drawn = write_whole(report, index, out);
    if (!index && part->plan)
        spt_html_plan(out, part->plan);
    fputs("<div class=\"inputs\">\n<h3>Inputs as understood</h3>\n", out);
    spt_html_inputs(out, part->assessment);
    fputs("</div>\n<div class=\"working\">\n<h3>Working</h3>\n", out);
    spt_html_working(out, part->assessment);
    fputs("</div>\n", out);
    fputs("</section>\n", out);
    return drawn;
}

static void write_variant_row(const struct spt_report *report, int index, FILE *out)
{
    char cell[SPT_HOURS_LENGTH];
    const struct spt_assessment *base = report->cases[0].assessment;
    const struct spt_assessment *assessment = report->cases[index].assessment;
    double life_h = assessment->modified_rating_life_h;
    bool doubtful = is_doubtful(assessment);
    spt_table_row(out, spt_report_case_name(&report->cases[index]));
    spt_table_numberf(out, doubtful ? "%s!" : "%s", spt_chart_hours(life_h, cell));
    spt_table_number(out, spt_text_ratio(spt_quotient(life_h, base->modified_rating_life_h), cell));
    spt_table_number(out, spt_chart_hours(assessment->basic_rating_life_h, cell));
    spt_table_text(out, tell(judge(assessment, NULL))->cell);
    spt_table_row_end(out);
}

static bool write_variants(const struct spt_report *report, FILE *out)
{
    static const char *const heads[] = {"case",          "#life h", "#times as written",
                                        "#basic life h", "target",  NULL};
    if (report->case_count < 2)
        return true;
    fputs("<section aria-labelledby=\"variants-h\">\n<h2 id=\"variants-h\">Scenario and "
          "variants</h2>\n",
          out);
    bool drawn = write_charts(report, 1U << SPT_CHART_OF_CASES, 0, 0, NULL, out);
    spt_table_open(out, "Lives side by side", heads);
    for (int i = 0; i < report->case_count; i++)
        write_variant_row(report, i, out);
    spt_table_close(out);
    for (int i = 0; i < report->case_count; i++)
        if (is_doubtful(report->cases[i].assessment)) {
            fputs(
                "<p class=\"note\">!: fatigue may not be what ends it, or the figure is in doubt: "
                "see the flags of the case.</p>\n",
                out);
            break;
        }
    fputs("</section>\n", out);
    return drawn;
}

static void write_foot(const struct spt_report *report, FILE *out)
{
    fputs("<section aria-labelledby=\"sources-h\">\n<h2 id=\"sources-h\">Sources</h2>\n", out);
    spt_html_sources(out, report);
    fputs("</section>\n<section class=\"cautions\" aria-labelledby=\"cautions-h\">\n"
          "<h3 id=\"cautions-h\">Cautions</h3>\n<ul>\n",
          out);
    for (int i = 0; spt_caution(i); i++) {
        fputs("<li>", out);
        spt_escape(out, spt_caution(i));
        fputs("</li>\n", out);
    }
    fprintf(out, "</ul>\n</section>\n</main>\n<footer><p>Written by spalltime %s.</p></footer>\n",
            SPT_VERSION);
}

bool spt_html(const struct spt_report *report, FILE *out)
{
    bool drawn = true;
    write_head(report, out);
    fputs("<main>\n", out);
    drawn = write_variants(report, out);
    write_links(report, out);
    fputs("<div id=\"cases\">\n", out);
    for (int i = 0; i < report->case_count && drawn; i++)
        drawn = write_case(report, i, out);
    fputs("</div>\n", out);
    write_foot(report, out);
    spt_page_script(out);
    fputs("</body>\n</html>\n", out);
    return drawn;
}
