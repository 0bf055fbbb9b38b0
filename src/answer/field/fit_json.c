/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/fit_parts.h"

#define KEY_LENGTH 40
#define POINT_KEYS 3 /* of the columns of a point, those that JSON has */

/* The key with the unit of the data appended: "l10_h". */
static const char *key_of(const struct spt_fit_report *report, const char *name, char *key)
{
    snprintf(key, KEY_LENGTH, "%s_%s", name, report->unit);
    return key;
}

static void write_interval(struct spt_json *json, const char *key,
                           const struct spt_interval *bounds)
{
    spt_json_open(json, key, '{');
    spt_json_number(json, "low", bounds->low);
    spt_json_number(json, "high", bounds->high);
    spt_json_close(json, '}');
}

static void write_quantity(struct spt_json *json, const char *key,
                           const struct spt_fit_quantity *quantity)
{
    spt_json_open(json, key, '{');
    spt_json_number(json, "estimate", quantity->estimate);
    write_interval(json, "likelihood_ratio", &quantity->ratio);
    write_interval(json, "wald", &quantity->wald);
    spt_json_close(json, '}');
}

static void write_line(struct spt_json *json, const struct spt_fit_report *report, const char *key,
                       const struct spt_rank_line *line)
{
    char scale[KEY_LENGTH];
    spt_json_open(json, key, '{');
    spt_json_number(json, "slope", line->weibull.shape);
    spt_json_number(json, key_of(report, "scale", scale), line->weibull.scale);
    spt_json_number(json, "r_squared", line->r_squared);
    spt_json_close(json, '}');
}

static void write_law(struct spt_json *json, const struct spt_fit_report *report,
                      const struct spt_fit *fit)
{
    char key[KEY_LENGTH];
    spt_json_text(json, "basis",
                  fit->basis == SPT_FIT_LIKELIHOOD ? "maximum likelihood" : "assumed slope");
    spt_json_number(json, "log_likelihood", fit->log_likelihood);
    write_quantity(json, "slope", &fit->slope);
    write_quantity(json, key_of(report, "scale", key), &fit->scale);
    write_quantity(json, key_of(report, "l10", key), &fit->l10);
    write_quantity(json, key_of(report, "l50", key), &fit->l50);
    spt_json_open(json, "assumed_slope", '{');
    spt_json_number(json, "slope", fit->assumed.shape);
    spt_json_number(json, "one_sided_confidence_percent", 50 + 50 * report->inputs.confidence);
    write_interval(json, key_of(report, "scale", key), &fit->assumed.scale);
    write_interval(json, key_of(report, "l10", key), &fit->assumed.l10);
    spt_json_close(json, '}');
}

static void write_fit(struct spt_json *json, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    write_law(json, report, fit);
    spt_json_text(json, "rank_method",
                  spt_fit_is_turnbull(fit)                       ? "Turnbull, mean rank"
                  : report->inputs.rank_method == SPT_RANK_EXACT ? "median rank"
                                                                 : "Benard");
    write_line(json, report, "life_on_rank", &fit->life_on_rank);
    write_line(json, report, "rank_on_life", &fit->rank_on_life);
}

/* Writes one member for each mode of failure, where no mode is chosen; the rest of the result is
 * for all of them. */
static void write_modes(struct spt_json *json, const struct spt_fit_report *report)
{
    spt_json_open(json, "modes", '[');
    for (int i = 0; report->modes && i < report->mode_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "mode", report->modes[i].name);
        spt_json_number(json, "failures", report->modes[i].fit.failures);
        write_law(json, report, &report->modes[i].fit);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

/* Writes the numbers of interval-censored failures and truncated rows. */
static void write_kinds(struct spt_json *json, const struct spt_fit_report *report)
{
    char key[KEY_LENGTH], words[SPT_FIT_IN_STEP_LENGTH];
    const struct spt_fit *fit = &report->fit;
    spt_json_number(json, "found_failed", fit->found);
    spt_json_number(json, "known_from_an_age", fit->entered);
    spt_json_text(json, "mode", report->mode);
    spt_json_number(json, "other_modes", report->other_modes);
    spt_json_number(json, "failures_in_step", fit->tied);
    spt_json_number(json, key_of(report, "in_step_at", key), fit->tied_time);
    spt_json_open(json, "warnings", '[');
    if (spt_fit_in_step(report, words)) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "code", "failures_in_step");
        spt_json_text(json, "text", words);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_against(struct spt_json *json, const struct spt_fit_report *report)
{
    static const char *const verdicts[] = {[SPT_FIT_WORSE] = "worse",
                                           [SPT_FIT_IN_LINE] = "in line",
                                           [SPT_FIT_BETTER] = "better",
                                           [SPT_FIT_CANNOT_TELL] = "cannot tell"};
    static const char *const overlaps[] = {[SPT_FIT_NO_BAND] = NULL,
                                           [SPT_FIT_BELOW_BAND] = "below",
                                           [SPT_FIT_OVERLAPS] = "overlap",
                                           [SPT_FIT_ABOVE_BAND] = "above"};
    char key[KEY_LENGTH];
    if (!report->against)
        return;
    spt_json_open(json, "against", '{');
    spt_json_text(json, "title", report->against);
    spt_json_number(json, key_of(report, "rated_l10", key), report->inputs.estimated_l10);
    spt_json_bool(json, "service_left_out", report->serviced);
    spt_json_number(json, "factor", report->fit.comparison.factor);
    write_interval(json, "bounds", &report->fit.comparison.bounds);
    spt_json_text(json, "verdict", verdicts[report->fit.comparison.verdict]);
    spt_json_number(json, "early_failures", report->fit.early_failures);
    if (report->band_samples) {
        write_interval(json, key_of(report, "band", key), &report->band);
        spt_json_number(json, "samples", report->band_samples);
        spt_json_text(json, "against_band", overlaps[report->overlap]);
    }
    spt_json_close(json, '}');
}

void spt_fit_json(struct spt_json *json, const struct spt_page *page,
                  const struct spt_fit_report *report)
{
    struct spt_table points = *spt_page_find(page, "points");
    points.column_count = POINT_KEYS;
    spt_json_text(json, "file", report->file);
    spt_json_text(json, "unit", report->unit);
    spt_json_number(json, "rows", report->rows);
    spt_json_text(json, "each_is_a", spt_fit_noun(report));
    spt_json_number(json, "failures", report->fit.failures);
    spt_json_number(json, "running", report->fit.censored);
    write_kinds(json, report);
    spt_json_number(json, "confidence_percent", 100 * report->inputs.confidence);
    write_fit(json, report);
    write_modes(json, report);
    write_against(json, report);
    spt_fit_json_running(json, report);
    spt_table_json(spt_page_find(page, "hypotheses"), "hypotheses", json);
    spt_table_json(&points, "points", json);
}
