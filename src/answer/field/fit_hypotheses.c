/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/field/fit_parts.h"

#define BAR_WIDTH 12
#define NAME_WIDTH 24 /* of a name in a note */

/* ratio of likelihoods below which two laws are not distinguished; our choice */
#define TOO_CLOSE 3.0

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
static void say_none_within(struct spt_page *page, const struct spt_fit_report *report)
{
    const struct spt_interval bounds = spt_fit_l10_bounds(&report->fit);
    if (any_within(report))
        return;
    spt_page_say(page, SPT_BODY, "",
                 "But none of them explains the returns: the L10 of each lies outside the "
                 "field's bounds of %s to %s. Look for a condition that is not listed.",
                 spt_fit_life(page, report, bounds.low), spt_fit_life(page, report, bounds.high));
}

/* Reports that the data do not distinguish the candidates: the likelihood just ranks the longest
 * life first. */
static void say_untold(struct spt_page *page, const struct spt_fit_report *report)
{
    spt_page_say(page, SPT_BODY, "",
                 "No failure among the returns: they cannot tell these conditions apart. An L10 "
                 "below %s is all that speaks against one, with %.6g %% confidence and a slope "
                 "that is ASSUMED.",
                 spt_fit_life(page, report, spt_fit_l10_bounds(&report->fit).low),
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

static void say_best(struct spt_page *page, const struct spt_fit_report *report)
{
    const struct spt_hypothesis *best = &report->hypotheses[0];
    char words[SPT_HOURS_LENGTH] = "more than can be told";
    const struct spt_hypothesis *next = find_rival(report);
    bool rival = next && next->candidate.weight > 0;
    double factor = rival ? best->candidate.weight / next->candidate.weight : (double)INFINITY;
    if (rival)
        spt_text_ratio(factor, words);
    if (report->fit.best_candidate < 0)
        spt_page_say(page, SPT_BODY, "",
                     "None of these allows the returns: look for another cause.");
    else if (!next)
        spt_page_say(page, SPT_BODY, "", "\"%s\" is the only one listed.",
                     spt_page_name(page, best->name));
    else if (factor < TOO_CLOSE)
        spt_page_say(page, SPT_BODY, "",
                     "The returns cannot tell \"%s\" from \"%s\": the factor between them is "
                     "only %s.",
                     spt_page_name(page, best->name), spt_page_name(page, next->name), words);
    else
        spt_page_say(page, SPT_BODY, "", "\"%s\" %s of these, by a factor of %s over the next.",
                     spt_page_name(page, best->name),
                     any_within(report) ? "explains the returns best"
                                        : "comes nearest to the returns",
                     words);
    if (report->fit.best_candidate >= 0)
        say_none_within(page, report);
    if (report->fit.best_candidate >= 0 && any_excluded(report))
        spt_page_say(page, SPT_BODY, "",
                     "One early failure alone can rule a condition out, as each has a least life "
                     "of 0.05 L10. Make sure that it was rolling fatigue and no mistake in "
                     "mounting, and try without that row.");
}

/* What stands in place of a likelihood; NULL: there is one. */
static const char *tell_note(struct spt_page *page, const struct spt_fit_report *report,
                             const struct spt_hypothesis *hypothesis)
{
    char cut[SPT_CUT_LENGTH(NAME_WIDTH)];
    if (hypothesis->same_as)
        return spt_page_words(page, "same as %s",
                              spt_text_cut(hypothesis->same_as, NAME_WIDTH, cut, sizeof cut));
    if (isfinite(hypothesis->l10) && !report->fit.failures)
        return hypothesis->within ? "" : "below the field's bound";
    if (isnan(hypothesis->candidate.log_likelihood))
        return "states no life, left out";
    return isinf(hypothesis->candidate.log_likelihood) ? "a failure came too early for it" : NULL;
}

struct hypothesis_row {
    const char *name;
    double l10;
    const char *note; /* NULL: likelihood and share */
    double log_likelihood, share;
    const char *blank; /* in place of the share where there is a note */
    double bar;        /* no mark for less than half a per cent */
    const char *same_as;
    bool within;
};

static struct hypothesis_row make_row(struct spt_page *page, const struct spt_fit_report *report,
                                      const struct spt_hypothesis *hypothesis)
{
    const char *note = tell_note(page, report, hypothesis);
    const double weight = hypothesis->candidate.weight;
    return (struct hypothesis_row){
        .name = hypothesis->name,
        .l10 = hypothesis->l10,
        .note = note,
        .log_likelihood = hypothesis->candidate.log_likelihood,
        .share = report->fit.failures ? weight : (double)NAN,
        .blank = note ? "" : NULL,
        .bar = !note && weight >= 0.005 ? weight : 0,
        .same_as = hypothesis->same_as,
        .within = hypothesis->within,
    };
}

/* Without a failure there is no likelihood: the note alone. */
static struct spt_column *make_columns(struct spt_page *page, const struct spt_fit_report *report,
                                       int *count)
{
    static const struct spt_column columns[] = {
        {.head = "scenario or variant",
         .key = "name",
         .kind = SPT_WORDS,
         .width = 34,
         .at = offsetof(struct hypothesis_row, name)},
        {.kind = SPT_AMOUNT, .width = 10, .gap = 1, .at = offsetof(struct hypothesis_row, l10)},
        {.head = "",
         .kind = SPT_WORDS,
         .width = 34,
         .gap = 2,
         .at = offsetof(struct hypothesis_row, note)},
        {.head = "log",
         .under = "likelihood",
         .key = "log_likelihood",
         .kind = SPT_FIXED,
         .digits = 2,
         .width = 10,
         .gap = 2,
         .at = offsetof(struct hypothesis_row, log_likelihood),
         .instead = offsetof(struct hypothesis_row, note)},
        {.head = "share of the",
         .under = "likelihood",
         .key = "share",
         .kind = SPT_PERCENT,
         .digits = 1,
         .width = 8,
         .gap = 1,
         .unit = " %",
         .at = offsetof(struct hypothesis_row, share),
         .instead = offsetof(struct hypothesis_row, blank)},
        {.head = "",
         .kind = SPT_BAR,
         .width = BAR_WIDTH,
         .gap = 1,
         .at = offsetof(struct hypothesis_row, bar)},
        {.key = "same_as", .kind = SPT_WORDS, .at = offsetof(struct hypothesis_row, same_as)},
        {.key = "within_bounds", .kind = SPT_YES, .at = offsetof(struct hypothesis_row, within)},
    };
    *count = (int)(sizeof columns / sizeof *columns);
    struct spt_column *copy = spt_page_columns(page, columns, *count);
    if (!copy)
        return NULL;
    copy[1].head = spt_page_words(page, "L10 %s", report->unit);
    copy[1].key = spt_page_words(page, "l10_%s", report->unit);
    if (report->fit.failures)
        copy[2].head = NULL;
    else
        copy[3].head = copy[4].head = copy[5].head = NULL;
    return copy;
}

static void show_hypotheses(struct spt_page *page, const struct spt_fit_report *report)
{
    const int count = report->hypothesis_count;
    struct hypothesis_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    struct spt_table table = {.rows = rows, .row_size = sizeof *rows, .row_count = count};
    table.columns = make_columns(page, report, &table.column_count);
    for (int i = 0; rows && i < count; i++)
        rows[i] = make_row(page, report, &report->hypotheses[i]);
    spt_page_table(page, "hypotheses", &table);
}

void spt_fit_page_hypotheses(struct spt_page *page, const struct spt_fit_report *report)
{
    if (!report->hypothesis_count)
        return;
    spt_page_open(page, "Which condition explains the returns");
    if (!report->fit.failures)
        say_untold(page, report);
    show_hypotheses(page, report);
    if (report->fit.failures)
        say_best(page, report);
    spt_page_say(page, SPT_BODY, "",
                 "This compares the conditions listed, each as it stands, and proves none: the "
                 "true cause may not be among them. Look at the bearings.");
    spt_page_close(page);
}
