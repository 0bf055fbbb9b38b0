/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/fit.h"

#include <math.h>

#include "answer/field/fit_parts.h"

const char *spt_fit_life(struct spt_page *page, const struct spt_fit_report *report, double life)
{
    char number[SPT_HOURS_LENGTH];
    spt_text_amount(life, number);
    return isfinite(life) ? spt_page_words(page, "%s %s", number, report->unit)
                          : spt_page_words(page, "%s", number);
}

const char *spt_fit_noun(const struct spt_fit_report *report)
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

static void say_fitted(struct spt_page *page, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    spt_page_say(page, SPT_BODY, "", "10 %% of the %ss fail by %s; %.6g %% bounds %s to %s.",
                 spt_fit_noun(report), spt_fit_life(page, report, fit->l10.estimate),
                 100 * report->inputs.confidence, spt_fit_life(page, report, fit->l10.ratio.low),
                 spt_fit_life(page, report, fit->l10.ratio.high));
    spt_page_say(page, SPT_BODY, "", "Half of them fail by %s; %s to %s.",
                 spt_fit_life(page, report, fit->l50.estimate),
                 spt_fit_life(page, report, fit->l50.ratio.low),
                 spt_fit_life(page, report, fit->l50.ratio.high));
    spt_page_say(page, SPT_BODY, "", "Slope %.3g, %.3g to %.3g: %s.", fit->slope.estimate,
                 fit->slope.ratio.low, fit->slope.ratio.high, tell_slope(&fit->slope.ratio));
}

static void say_assumed(struct spt_page *page, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    double one_sided = 50 + 50 * report->inputs.confidence;
    if (fit->failures < SPT_FIT_FAILURES_MIN)
        spt_page_say(page, SPT_BODY, "",
                     "%d failure%s: too few to fit a slope, so a slope of %.3g is ASSUMED. "
                     "Another slope gives other bounds.",
                     fit->failures, fit->failures == 1 ? "" : "s", fit->assumed.shape);
    else
        spt_page_say(page, SPT_BODY, "", "These lives %s, so a slope of %.3g is ASSUMED.",
                     fit->found || fit->entered
                         ? "tell no slope (the failures may all have come at one time, or fit "
                           "any early life as well)"
                         : "have no finite best slope (the failures lie at one time)",
                     fit->assumed.shape);
    if (fit->assumed.l10.low > 0)
        spt_page_say(page, SPT_BODY, "", "With %.6g %% confidence L10 is above %s.", one_sided,
                     spt_fit_life(page, report, fit->assumed.l10.low));
    else
        spt_page_say(page, SPT_BODY, "",
                     "None of them was ever seen good, so there is no lower bound of L10.");
    if (isfinite(fit->assumed.l10.high))
        spt_page_say(page, SPT_BODY, "", "Taken alone, with %.6g %% confidence it is below %s.",
                     one_sided, spt_fit_life(page, report, fit->assumed.l10.high));
    else
        spt_page_say(page, SPT_BODY, "", "Without a failure there is no upper bound.");
}

/* Reports interval-censored failures and truncated data. */
static void say_kinds(struct spt_page *page, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    if (report->mode)
        spt_page_say(page, SPT_BODY, "",
                     "Only \"%s\" counts as a failure; %d that failed otherwise count%s as running "
                     "until then, or until last seen good.",
                     spt_page_name(page, report->mode), report->other_modes,
                     report->other_modes == 1 ? "s" : "");
    if (fit->found)
        spt_page_say(page, SPT_BODY, "",
                     "%d of the failed %s found at a look: failed somewhere between the time last "
                     "seen good and that of the row.",
                     fit->found, fit->found == 1 ? "was" : "were");
    if (fit->entered)
        spt_page_say(page, SPT_BODY, "",
                     "%d of all %s known only from an age on; that such a one ran to there counts "
                     "neither for it nor against it.",
                     fit->entered, fit->entered == 1 ? "is" : "are");
}

const char *spt_fit_in_step(const struct spt_fit_report *report, char *words)
{
    const struct spt_fit *fit = &report->fit;
    char life[SPT_HOURS_LENGTH];
    snprintf(words, SPT_FIT_IN_STEP_LENGTH,
             "%d of the %d failures with a stated time share it with two or more others (most at "
             "%s %s). Machines do not fail in step: that looks like failures found at inspections. "
             "They came somewhere before, and taken as of the time found they make L10 too long. "
             "Write `found failed` for their state, and in a column `last good [%s]` when each was "
             "last seen good.",
             fit->tied, fit->failures - fit->found, spt_text_amount(fit->tied_time, life),
             report->unit, report->unit);
    return fit->looks_inspected ? words : NULL;
}

static void say_flags(struct spt_page *page, const struct spt_fit_report *report)
{
    char words[SPT_FIT_IN_STEP_LENGTH];
    if (!spt_fit_in_step(report, words))
        return;
    spt_page_open(page, "Flags");
    spt_page_say(page, SPT_NOTE, "- ", "%s", words);
    spt_page_close(page);
}

const char *spt_fit_title(const struct spt_fit_report *report, char *title)
{
    const struct spt_fit *fit = &report->fit;
    snprintf(title, SPT_FIT_TITLE_LENGTH, "%s: %d failed and %d running %s%s in %d row%s.",
             report->file, fit->failures, fit->censored, spt_fit_noun(report),
             fit->censored == 1 ? "" : "s", report->rows, report->rows == 1 ? "" : "s");
    return title;
}

void spt_fit_page(struct spt_page *page, const struct spt_fit_report *report)
{
    if (report->hubs)
        spt_page_say(page, SPT_BODY, "",
                     "What is rated is a hub: each one counted is a hub with both its bearings, "
                     "which fails with the first of the two.");
    say_kinds(page, report);
    spt_page_open(page, "Verdict");
    if (report->fit.basis == SPT_FIT_LIKELIHOOD)
        say_fitted(page, report);
    else
        say_assumed(page, report);
    spt_page_close(page);
    spt_fit_page_modes(page, report);
    spt_fit_page_against(page, report);
    spt_fit_page_hypotheses(page, report);
    spt_fit_page_law(page, report);
    spt_fit_page_running(page, report);
    say_flags(page, report);
    spt_fit_keep_points(page, report);
}
