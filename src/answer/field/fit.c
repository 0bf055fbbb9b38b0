/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/fit.h"

#include <math.h>
#include <string.h>

#include "format/csv.h"

#define WORDS_LENGTH 400
#define KEY_LENGTH 40
#define SENTENCE_LENGTH 600

/* ratio of likelihoods below which two laws are not distinguished; our choice */
#define TOO_CLOSE 3.0

/* A life with the unit of the data: "12 340 km". */
#define LIFE_LENGTH 32
static const char *tell(const struct spt_fit_report *report, double life, char *buffer)
{
    char number[SPT_HOURS_LENGTH];
    spt_text_amount(life, number);
    snprintf(buffer, LIFE_LENGTH, isfinite(life) ? "%s %s" : "%s", number, report->unit);
    return buffer;
}

/* Name for one unit of the data. */
static const char *noun(const struct spt_fit_report *report)
{
    return report->hubs ? "hub" : "bearing";
}

static const char *tell_slope(const struct spt_interval *bounds)
{
    if (bounds->low > 1)
        return "the risk of failure grows with age, so changing at an age helps";
    if (bounds->high < 1)
        return "the risk of failure falls with age: early failures, of assembly or setting; "
               "changing at an age does not help";
    return "whether the risk of failure grows or falls with age cannot be told from these";
}

static void write_fitted(const struct spt_text *text, const struct spt_fit_report *report)
{
    char life[LIFE_LENGTH], low[LIFE_LENGTH], high[LIFE_LENGTH];
    const struct spt_fit *fit = &report->fit;
    spt_text_wrapf(text, "", "10 %% of the %ss fail by %s; %.6g %% bounds %s to %s.", noun(report),
                   tell(report, fit->l10.estimate, life), 100 * report->inputs.confidence,
                   tell(report, fit->l10.ratio.low, low), tell(report, fit->l10.ratio.high, high));
    spt_text_wrapf(text, "", "Half of them fail by %s; %s to %s.",
                   tell(report, fit->l50.estimate, life), tell(report, fit->l50.ratio.low, low),
                   tell(report, fit->l50.ratio.high, high));
    spt_text_wrapf(text, "", "Slope %.3g, %.3g to %.3g: %s.", fit->slope.estimate,
                   fit->slope.ratio.low, fit->slope.ratio.high, tell_slope(&fit->slope.ratio));
}

static void write_assumed(const struct spt_text *text, const struct spt_fit_report *report)
{
    char low[LIFE_LENGTH], high[LIFE_LENGTH];
    const struct spt_fit *fit = &report->fit;
    double one_sided = 50 + 50 * report->inputs.confidence;
    if (fit->failures < SPT_FIT_FAILURES_MIN)
        spt_text_wrapf(text, "",
                       "%d failure%s: too few to fit a slope, so a slope of %.3g is ASSUMED. "
                       "Another slope gives other bounds.",
                       fit->failures, fit->failures == 1 ? "" : "s", fit->assumed.shape);
    else
        spt_text_wrapf(text, "", "These lives %s, so a slope of %.3g is ASSUMED.",
                       fit->found || fit->entered
                           ? "tell no slope (the failures may all have come at one time, or fit "
                             "any early life as well)"
                           : "have no finite best slope (the failures lie at one time)",
                       fit->assumed.shape);
    if (fit->assumed.l10.low > 0)
        spt_text_wrapf(text, "", "With %.6g %% confidence L10 is above %s.", one_sided,
                       tell(report, fit->assumed.l10.low, low));
    else
        spt_text_wrap(text, "",
                      "None of them was ever seen good, so there is no lower bound of L10.");
    if (isfinite(fit->assumed.l10.high))
        spt_text_wrapf(text, "", "Taken alone, with %.6g %% confidence it is below %s.", one_sided,
                       tell(report, fit->assumed.l10.high, high));
    else
        spt_text_wrap(text, "", "Without a failure there is no upper bound.");
}

/* The verdict, worded more carefully for an assumed slope. */
static void tell_verdict(const struct spt_fit *fit, char *words)
{
    const struct spt_fit_comparison *comparison = &fit->comparison;
    bool assumed = fit->basis == SPT_FIT_ASSUMED_SLOPE;
    char low[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    spt_text_ratio(comparison->bounds.low, low);
    spt_text_ratio(comparison->bounds.high, high);
    switch (comparison->verdict) {
    case SPT_FIT_WORSE:
        snprintf(words, WORDS_LENGTH,
                 "The field %s: even the upper bound of its L10 is only %s times the rated one",
                 assumed ? "looks worse than rated, with an assumed slope" : "is WORSE than rated",
                 high);
        break;
    case SPT_FIT_BETTER:
        snprintf(words, WORDS_LENGTH,
                 "The field %s: even the lower bound of its L10 is %s times the rated one",
                 assumed ? "looks better than rated, with an assumed slope"
                         : "is better than rated",
                 low);
        break;
    case SPT_FIT_IN_LINE:
        snprintf(words, WORDS_LENGTH,
                 "The field %s: its L10 lies within %s to %s times the rated one",
                 assumed ? "looks in line with the rating, with an assumed slope"
                         : "is in line with the rating",
                 low, high);
        break;
    case SPT_FIT_CANNOT_TELL:
        snprintf(words, WORDS_LENGTH,
                 "The field cannot tell: its L10 lies anywhere from %s times the rated one to %s%s",
                 low, high, isfinite(comparison->bounds.high) ? " times" : "");
        break;
    }
}

/* Writes whether uncertainty of the inputs can explain the difference. */
static void write_band(const struct spt_text *text, const struct spt_fit_report *report)
{
    static const char *const words[] = {
        [SPT_FIT_NO_BAND] =
            "for some samples no life can be stated, so it says nothing of the field",
        [SPT_FIT_BELOW_BAND] = "the bounds of the field lie below all of it",
        [SPT_FIT_OVERLAPS] =
            "the bounds of the field overlap it, so what is not known of the inputs "
            "may be all the difference there is",
        [SPT_FIT_ABOVE_BAND] = "the bounds of the field lie above all of it",
    };
    char low[LIFE_LENGTH], high[LIFE_LENGTH];
    bool apart = report->overlap == SPT_FIT_BELOW_BAND || report->overlap == SPT_FIT_ABOVE_BAND;
    if (!report->band_samples)
        spt_text_wrap(text, "",
                      "The inputs of the rating are taken as known; a section `uncertainty` in the "
                      "scenario would give it a band.");
    else
        spt_text_wrapf(text, "",
                       "Band of the rated L10 by the section `uncertainty`: %s to %s (5 to 95 %% "
                       "of %d samples); %s%s.",
                       tell(report, report->band.low, low), tell(report, report->band.high, high),
                       report->band_samples, words[report->overlap],
                       apart && !report->serviced
                           ? ", so what is not known of the inputs does not explain the difference"
                           : "");
    if (report->serviced)
        spt_text_wrap(
            text, "",
            "The scenario has a section `service`: its drifts and events, and the failures "
            "of the grease, are NOT in this rating, but they are in the returns. They may "
            "be the difference; `spalltime timeline` shows what they cost.");
}

/* Reports failures before the least life of the rating. A single one may have changed the L10 of
 * the field. */
static void write_early(const struct spt_text *text, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    char first[LIFE_LENGTH], least[LIFE_LENGTH], which[WORDS_LENGTH];
    if (!fit->early_failures)
        return;
    tell(report, fit->first_failure, first);
    tell(report, SPT_WEIBULL_FLOOR * report->inputs.estimated_l10, least);
    if (fit->failures == 1)
        snprintf(which, sizeof which, "The failure at %s", first);
    else if (fit->early_failures == fit->failures)
        snprintf(which, sizeof which, "All failures (the first at %s)", first);
    else
        snprintf(which, sizeof which, "%d of the %d failures (the first at %s)",
                 fit->early_failures, fit->failures, first);
    spt_text_wrapf(text, "",
                   "%s came before %s, the least life at this rating (%g L10). Either the machine "
                   "runs in another condition than the rated one, or something else came before "
                   "rolling fatigue: mounting, setting, lack of grease, damage in transport.%s",
                   which, least, SPT_WEIBULL_FLOOR,
                   fit->early_failures == 1 && fit->failures > 1
                       ? " One failure can move the L10 of the field a long way: make sure of it, "
                         "and fit once without."
                       : "");
}

static void write_against(const struct spt_text *text, const struct spt_fit_report *report)
{
    char words[WORDS_LENGTH], life[LIFE_LENGTH], factor[SPT_HOURS_LENGTH];
    const struct spt_fit_comparison *comparison = &report->fit.comparison;
    if (!report->against)
        return;
    spt_text_heading(text, "AGAINST THE RATING");
    spt_text_wrapf(text, "", "%s: rated L10 %s.", report->against,
                   tell(report, report->inputs.estimated_l10, life));
    if (isnan(report->inputs.estimated_l10)) {
        spt_text_wrap(text, "",
                      "The scenario states no finite life, so there is nothing to "
                      "compare.");
        return;
    }
    if (report->modes)
        spt_text_wrap(text, "",
                      "The rating is of rolling fatigue alone, the returns are of all modes: "
                      "`--mode` holds the one that is fatigue against it.");
    tell_verdict(&report->fit, words);
    if (isnan(comparison->factor))
        spt_text_wrapf(text, "", "%s.", words);
    else
        spt_text_wrapf(text, "", "%s; the best estimate is %s times.", words,
                       spt_text_ratio(comparison->factor, factor));
    write_early(text, report);
    write_band(text, report);
}

static void write_quantity(const struct spt_text *text, const char *name,
                           const struct spt_fit_quantity *quantity, bool life)
{
    const double numbers[] = {quantity->estimate, quantity->ratio.low, quantity->ratio.high,
                              quantity->wald.low, quantity->wald.high};
    fprintf(text->out, "%-12s", name);
    for (int i = 0; i < 5; i++) {
        char cell[SPT_HOURS_LENGTH];
        if (life)
            spt_text_amount(numbers[i], cell);
        else
            spt_text_number(numbers[i], cell);
        fprintf(text->out, "%s%*s", i % 2 ? "   " : " ", 11, cell);
    }
    fputc('\n', text->out);
}

static bool turnbull(const struct spt_fit *fit)
{
    return fit->found || fit->entered;
}

static void write_table(const struct spt_text *text, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    if (fit->basis == SPT_FIT_LIKELIHOOD) {
        spt_text_heading(text, "MAXIMUM LIKELIHOOD");
        fprintf(text->out, "%-15sestimate  likelihood ratio bounds         Wald bounds\n", "");
        write_quantity(text, "slope", &fit->slope, false);
        fprintf(text->out, "in %s:\n", report->unit);
        write_quantity(text, "scale", &fit->scale, true);
        write_quantity(text, "L10", &fit->l10, true);
        write_quantity(text, "L50", &fit->l50, true);
        spt_text_wrap(text, "",
                      "Quote the likelihood ratio bounds; the Wald bounds are too narrow "
                      "with few failures.");
    }
    if (isnan(fit->life_on_rank.weibull.shape))
        return;
    char scale[LIFE_LENGTH];
    spt_text_wrapf(text, "",
                   "For comparison, a line through the %s ranks%s: slope %.3g, scale %s, "
                   "r squared %.3f.",
                   turnbull(fit) ? "mean" : "median",
                   turnbull(fit)                                   ? " of Turnbull's estimate"
                   : report->inputs.rank_method == SPT_RANK_BENARD ? " (Benard's formula)"
                                                                   : "",
                   fit->life_on_rank.weibull.shape,
                   tell(report, fit->life_on_rank.weibull.scale, scale),
                   fit->life_on_rank.r_squared);
}

static void write_hypothesis(const struct spt_text *text, const struct spt_fit_report *report,
                             const struct spt_hypothesis *hypothesis)
{
    char life[SPT_HOURS_LENGTH];
    spt_text_fit(text, hypothesis->name, 34);
    fprintf(text->out, " %10s", spt_text_amount(hypothesis->l10, life));
    if (hypothesis->same_as) {
        fputs("  same as ", text->out);
        spt_text_fit(text, hypothesis->same_as, 24);
        fputc('\n', text->out);
    } else if (isfinite(hypothesis->l10) && !report->fit.failures)
        fputs(hypothesis->within ? "\n" : "  below the field's bound\n", text->out);
    else if (isnan(hypothesis->candidate.log_likelihood))
        fputs("  states no life, left out\n", text->out);
    else if (isinf(hypothesis->candidate.log_likelihood))
        fputs("  a failure came too early for it\n", text->out);
    else {
        fprintf(text->out, " %11.2f %6.1f %%", hypothesis->candidate.log_likelihood,
                100 * hypothesis->candidate.weight);
        if (hypothesis->candidate.weight >= 0.005) {
            fputc(' ', text->out);
            spt_text_bar(text, hypothesis->candidate.weight, 1, 12);
        }
        fputc('\n', text->out);
    }
}

/* True where a candidate gives no likelihood at all: a failure came before its least life. */
static bool any_excluded(const struct spt_fit_report *report)
{
    for (int i = 0; i < report->hypothesis_count; i++)
        if (!report->hypotheses[i].same_as && !(report->hypotheses[i].candidate.weight > 0))
            return true;
    return false;
}

static bool any_within(const struct spt_fit_report *report)
{
    for (int i = 0; i < report->hypothesis_count; i++)
        if (report->hypotheses[i].within)
            return true;
    return false;
}

/* Reports that no candidate lies within the bounds, whichever is the likeliest. */
static void write_none_within(const struct spt_text *text, const struct spt_fit_report *report)
{
    const struct spt_interval bounds = spt_fit_l10_bounds(&report->fit);
    char low[LIFE_LENGTH], high[LIFE_LENGTH];
    if (any_within(report))
        return;
    spt_text_wrapf(text, "",
                   "But none of them explains the returns: the L10 of each lies outside the "
                   "field's bounds of %s to %s. Look for a condition that is not listed.",
                   tell(report, bounds.low, low), tell(report, bounds.high, high));
}

/* Reports that the data do not distinguish the candidates: the likelihood just ranks the longest
 * life first. */
static void write_untold(const struct spt_text *text, const struct spt_fit_report *report)
{
    char low[LIFE_LENGTH];
    spt_text_wrapf(text, "",
                   "No failure among the returns: they cannot tell these conditions apart. An L10 "
                   "below %s is all that speaks against one, with %.6g %% confidence and a slope "
                   "that is ASSUMED.",
                   tell(report, spt_fit_l10_bounds(&report->fit).low, low),
                   50 + 50 * report->inputs.confidence);
}

/* The next candidate with an L10 other than that of the likeliest; NULL: none. */
static const struct spt_hypothesis *find_rival(const struct spt_fit_report *report)
{
    for (int i = 1; i < report->hypothesis_count; i++)
        if (!report->hypotheses[i].same_as)
            return &report->hypotheses[i];
    return NULL;
}

static void write_best(const struct spt_text *text, const struct spt_fit_report *report)
{
    const struct spt_hypothesis *best = &report->hypotheses[0];
    char words[SPT_HOURS_LENGTH] = "more than can be told";
    const struct spt_hypothesis *next = find_rival(report);
    bool rival = next && next->candidate.weight > 0;
    double factor = rival ? best->candidate.weight / next->candidate.weight : (double)INFINITY;
    if (rival)
        spt_text_ratio(factor, words);
    if (report->fit.best_candidate < 0)
        spt_text_wrap(text, "", "None of these allows the returns: look for another cause.");
    else if (!next)
        spt_text_wrapf(text, "", "\"%s\" is the only one listed.", best->name);
    else if (factor < TOO_CLOSE)
        spt_text_wrapf(text, "",
                       "The returns cannot tell \"%s\" from \"%s\": the factor between them is "
                       "only %s.",
                       best->name, next->name, words);
    else
        spt_text_wrapf(text, "", "\"%s\" %s of these, by a factor of %s over the next.", best->name,
                       any_within(report) ? "explains the returns best"
                                          : "comes nearest to the returns",
                       words);
    if (report->fit.best_candidate >= 0)
        write_none_within(text, report);
    if (report->fit.best_candidate >= 0 && any_excluded(report))
        spt_text_wrap(text, "",
                      "One early failure alone can rule a condition out, as each has a least life "
                      "of 0.05 L10. Make sure that it was rolling fatigue and no mistake in "
                      "mounting, and try without that row.");
}

static void write_hypotheses(const struct spt_text *text, const struct spt_fit_report *report)
{
    if (!report->hypothesis_count)
        return;
    spt_text_heading(text, "WHICH CONDITION EXPLAINS THE RETURNS");
    if (!report->fit.failures)
        write_untold(text, report);
    fprintf(text->out, "%-34s %7sL10 %s", "scenario or variant", "", report->unit);
    if (report->fit.failures)
        fprintf(text->out, "%*s log likeli- share of the\n%-46s %10s likelihood",
                2 - (int)strlen(report->unit), "", "", "hood");
    fputc('\n', text->out);
    for (int i = 0; i < report->hypothesis_count; i++)
        write_hypothesis(text, report, &report->hypotheses[i]);
    if (report->fit.failures)
        write_best(text, report);
    spt_text_wrap(text, "",
                  "This compares the conditions listed, each as it stands, and proves "
                  "none: the true cause may not be among them. Look at the bearings.");
}

/* Reports interval-censored failures and truncated data. */
static void write_kinds(const struct spt_text *text, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    if (report->mode)
        spt_text_wrapf(
            text, "",
            "Only \"%s\" counts as a failure; %d that failed otherwise count%s as running "
            "until then, or until last seen good.",
            report->mode, report->other_modes, report->other_modes == 1 ? "s" : "");
    if (fit->found)
        spt_text_wrapf(
            text, "",
            "%d of the failed %s found at a look: failed somewhere between the time last "
            "seen good and that of the row.",
            fit->found, fit->found == 1 ? "was" : "were");
    if (fit->entered)
        spt_text_wrapf(
            text, "",
            "%d of all %s known only from an age on; that such a one ran to there counts "
            "neither for it nor against it.",
            fit->entered, fit->entered == 1 ? "is" : "are");
}

/* Reports modes of failure: one law for unrelated causes says little about any of them. */
static void write_modes(const struct spt_text *text, const struct spt_fit_report *report)
{
    if (!report->modes)
        return;
    spt_text_heading(text, "BY WHAT ENDED THEM");
    spt_text_wrapf(text, "",
                   "The answer above is for all %d modes together, whichever comes first. Each for "
                   "itself, those that failed otherwise taken as running until then "
                   "(`--mode NAME` gives all of it):",
                   report->mode_count);
    fprintf(text->out, "%-24s %6s %8s %7sL10 %s      bounds\n", "mode", "failed", "slope", "",
            report->unit);
    bool assumed = false;
    for (int i = 0; i < report->mode_count; i++) {
        const struct spt_fit *fit = &report->modes[i].fit;
        const struct spt_interval bounds = spt_fit_l10_bounds(fit);
        bool fitted = fit->basis == SPT_FIT_LIKELIHOOD;
        char slope[SPT_HOURS_LENGTH], l10[SPT_HOURS_LENGTH], low[SPT_HOURS_LENGTH],
            high[SPT_HOURS_LENGTH];
        assumed = assumed || !fitted;
        spt_text_fit(text, report->modes[i].name, 24);
        spt_text_number(fitted ? fit->slope.estimate : fit->assumed.shape, slope);
        fprintf(text->out, " %6d %*s%s %10s %10s %10s\n", fit->failures, 7, slope,
                fitted ? " " : "*", fitted ? spt_text_amount(fit->l10.estimate, l10) : "-",
                spt_text_amount(bounds.low, low), spt_text_amount(bounds.high, high));
    }
    if (assumed)
        spt_text_wrap(text, "",
                      "*: too few failures, or none that tells it: the slope is ASSUMED.");
}

/* Result: false where there is nothing to warn about. */
static bool tell_in_step(const struct spt_fit_report *report, char *words)
{
    char life[LIFE_LENGTH];
    const struct spt_fit *fit = &report->fit;
    snprintf(words, SENTENCE_LENGTH,
             "%d of the %d failures with a stated time share it with two or more others (most at "
             "%s). Machines do not fail in step: that looks like failures found at inspections. "
             "They came somewhere before, and taken as of the time found they make L10 too long. "
             "Write `found failed` for their state, and in a column `last good [%s]` when each was "
             "last seen good.",
             fit->tied, fit->failures - fit->found, tell(report, fit->tied_time, life),
             report->unit);
    return fit->looks_inspected;
}

static void write_flags(const struct spt_text *text, const struct spt_fit_report *report)
{
    char words[SENTENCE_LENGTH];
    if (!tell_in_step(report, words))
        return;
    spt_text_heading(text, "FLAGS");
    spt_text_wrap(text, "- ", words);
}

void spt_fit_text(const struct spt_text *text, const struct spt_fit_report *report, bool quiet)
{
    const struct spt_fit *fit = &report->fit;
    spt_text_wrapf(text, "", "%s: %d failed and %d running %s%s in %d row%s.", report->file,
                   fit->failures, fit->censored, noun(report), fit->censored == 1 ? "" : "s",
                   report->rows, report->rows == 1 ? "" : "s");
    if (report->hubs)
        spt_text_wrap(text, "",
                      "What is rated is a hub: each one counted is a hub with both its bearings, "
                      "which fails with the first of the two.");
    write_kinds(text, report);
    spt_text_heading(text, "VERDICT");
    if (fit->basis == SPT_FIT_LIKELIHOOD)
        write_fitted(text, report);
    else
        write_assumed(text, report);
    write_modes(text, report);
    write_against(text, report);
    write_hypotheses(text, report);
    write_table(text, report);
    if (!quiet)
        write_flags(text, report);
}

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

static void write_json_quantity(struct spt_json *json, const char *key,
                                const struct spt_fit_quantity *quantity)
{
    spt_json_open(json, key, '{');
    spt_json_number(json, "estimate", quantity->estimate);
    write_interval(json, "likelihood_ratio", &quantity->ratio);
    write_interval(json, "wald", &quantity->wald);
    spt_json_close(json, '}');
}

static void write_json_line(struct spt_json *json, const struct spt_fit_report *report,
                            const char *key, const struct spt_rank_line *line)
{
    char scale[KEY_LENGTH];
    spt_json_open(json, key, '{');
    spt_json_number(json, "slope", line->weibull.shape);
    spt_json_number(json, key_of(report, "scale", scale), line->weibull.scale);
    spt_json_number(json, "r_squared", line->r_squared);
    spt_json_close(json, '}');
}

static void write_json_law(struct spt_json *json, const struct spt_fit_report *report,
                           const struct spt_fit *fit)
{
    char key[KEY_LENGTH];
    spt_json_text(json, "basis",
                  fit->basis == SPT_FIT_LIKELIHOOD ? "maximum likelihood" : "assumed slope");
    spt_json_number(json, "log_likelihood", fit->log_likelihood);
    write_json_quantity(json, "slope", &fit->slope);
    write_json_quantity(json, key_of(report, "scale", key), &fit->scale);
    write_json_quantity(json, key_of(report, "l10", key), &fit->l10);
    write_json_quantity(json, key_of(report, "l50", key), &fit->l50);
    spt_json_open(json, "assumed_slope", '{');
    spt_json_number(json, "slope", fit->assumed.shape);
    spt_json_number(json, "one_sided_confidence_percent", 50 + 50 * report->inputs.confidence);
    write_interval(json, key_of(report, "scale", key), &fit->assumed.scale);
    write_interval(json, key_of(report, "l10", key), &fit->assumed.l10);
    spt_json_close(json, '}');
}

static void write_json_fit(struct spt_json *json, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    write_json_law(json, report, fit);
    spt_json_text(json, "rank_method",
                  turnbull(fit)                                  ? "Turnbull, mean rank"
                  : report->inputs.rank_method == SPT_RANK_EXACT ? "median rank"
                                                                 : "Benard");
    write_json_line(json, report, "life_on_rank", &fit->life_on_rank);
    write_json_line(json, report, "rank_on_life", &fit->rank_on_life);
}

/* Writes one member for each mode of failure, where no mode is chosen; the rest of the result is
 * for all of them. */
static void write_json_modes(struct spt_json *json, const struct spt_fit_report *report)
{
    spt_json_open(json, "modes", '[');
    for (int i = 0; report->modes && i < report->mode_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "mode", report->modes[i].name);
        spt_json_number(json, "failures", report->modes[i].fit.failures);
        write_json_law(json, report, &report->modes[i].fit);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

/* Writes the numbers of interval-censored failures and truncated rows. */
static void write_json_kinds(struct spt_json *json, const struct spt_fit_report *report)
{
    char key[KEY_LENGTH], words[SENTENCE_LENGTH];
    const struct spt_fit *fit = &report->fit;
    spt_json_number(json, "found_failed", fit->found);
    spt_json_number(json, "known_from_an_age", fit->entered);
    spt_json_text(json, "mode", report->mode);
    spt_json_number(json, "other_modes", report->other_modes);
    spt_json_number(json, "failures_in_step", fit->tied);
    spt_json_number(json, key_of(report, "in_step_at", key), fit->tied_time);
    spt_json_open(json, "warnings", '[');
    if (tell_in_step(report, words)) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "code", "failures_in_step");
        spt_json_text(json, "text", words);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_json_against(struct spt_json *json, const struct spt_fit_report *report)
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

static void write_json_hypotheses(struct spt_json *json, const struct spt_fit_report *report)
{
    char key[KEY_LENGTH];
    spt_json_open(json, "hypotheses", '[');
    for (int i = 0; i < report->hypothesis_count; i++) {
        const struct spt_hypothesis *hypothesis = &report->hypotheses[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", hypothesis->name);
        spt_json_number(json, key_of(report, "l10", key), hypothesis->l10);
        spt_json_number(json, "log_likelihood", hypothesis->candidate.log_likelihood);
        spt_json_number(json, "share",
                        report->fit.failures ? hypothesis->candidate.weight : (double)NAN);
        spt_json_text(json, "same_as", hypothesis->same_as);
        spt_json_bool(json, "within_bounds", hypothesis->within);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_fit_json(struct spt_json *json, const struct spt_fit_report *report)
{
    char key[KEY_LENGTH];
    spt_json_text(json, "file", report->file);
    spt_json_text(json, "unit", report->unit);
    spt_json_number(json, "rows", report->rows);
    spt_json_text(json, "each_is_a", noun(report));
    spt_json_number(json, "failures", report->fit.failures);
    spt_json_number(json, "running", report->fit.censored);
    write_json_kinds(json, report);
    spt_json_number(json, "confidence_percent", 100 * report->inputs.confidence);
    write_json_fit(json, report);
    write_json_modes(json, report);
    write_json_against(json, report);
    write_json_hypotheses(json, report);
    spt_json_open(json, "points", '[');
    for (int i = 0; i < report->fit.point_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_number(json, key_of(report, "life", key), report->points[i].time);
        spt_json_number(json, "rank", report->points[i].rank);
        spt_json_number(json, "failed_fraction", report->points[i].fraction);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_fit_csv(FILE *out, const struct spt_fit_report *report)
{
    char key[KEY_LENGTH];
    struct spt_csv csv = {out, false};
    const char *const heads[] = {key_of(report, "life", key), "rank", "failed_fraction", "ln_life",
                                 "ln_minus_ln_survival"};
    for (int i = 0; i < 5; i++)
        spt_csv_text(&csv, heads[i]);
    spt_csv_end(&csv);
    for (int i = 0; i < report->fit.point_count; i++) {
        const struct spt_rank_point *point = &report->points[i];
        const double numbers[] = {point->time, point->rank, point->fraction, point->x, point->y};
        for (int j = 0; j < 5; j++)
            spt_csv_number(&csv, numbers[j]);
        spt_csv_end(&csv);
    }
}
