/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/fit_parts.h"

#define WORDS_LENGTH 400

/* How a verdict looks: worse than rated ends with the exit status of a missed target. */
static enum spt_verdict judge(enum spt_fit_verdict verdict)
{
    return verdict == SPT_FIT_CANNOT_TELL ? SPT_DOUBTFUL
           : verdict == SPT_FIT_WORSE     ? SPT_MISSED
                                          : SPT_MET;
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
static void say_band(struct spt_page *page, const struct spt_fit_report *report)
{
    static const char *const words[] = {
        [SPT_FIT_NO_BAND] =
            "for some samples no life can be stated, so it says nothing of the field",
        [SPT_FIT_BELOW_BAND] = "the bounds of the field lie below all of it",
        [SPT_FIT_OVERLAPS] =
            ("the bounds of the field overlap it, so what is not known of the inputs "
             "may be all the difference there is"),
        [SPT_FIT_ABOVE_BAND] = "the bounds of the field lie above all of it",
    };
    bool apart = report->overlap == SPT_FIT_BELOW_BAND || report->overlap == SPT_FIT_ABOVE_BAND;
    if (!report->band_samples)
        spt_page_say(page, SPT_BODY, "",
                     "The inputs of the rating are taken as known; a section `uncertainty` in the "
                     "scenario would give it a band.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "Band of the rated L10 by the section `uncertainty`: %s to %s (5 to 95 %% "
                     "of %d samples); %s%s.",
                     spt_fit_life(page, report, report->band.low),
                     spt_fit_life(page, report, report->band.high), report->band_samples,
                     words[report->overlap],
                     apart && !report->serviced
                         ? ", so what is not known of the inputs does not explain the difference"
                         : "");
    if (report->used)
        spt_page_say(page, SPT_BODY, "",
                     "The scenario states a `past`: this rating is of new bearings and counts no "
                     "`hours_run` of it, as the lives of the field count from new too.");
    if (report->serviced)
        spt_page_say(
            page, SPT_BODY, "",
            "The scenario has a section `service`: its drifts and events, and the failures "
            "of the grease, are NOT in this rating, but they are in the returns. They may "
            "be the difference; `spalltime timeline` shows what they cost.");
}

/* Reports failures before the least life of the rating. A single one may have changed the L10 of
 * the field. */
static void say_early(struct spt_page *page, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    char which[WORDS_LENGTH];
    if (!fit->early_failures)
        return;
    const char *first = spt_fit_life(page, report, fit->first_failure);
    const char *least =
        spt_fit_life(page, report, SPT_WEIBULL_FLOOR * report->inputs.estimated_l10);
    if (fit->failures == 1)
        snprintf(which, sizeof which, "The failure at %s", first);
    else if (fit->early_failures == fit->failures)
        snprintf(which, sizeof which, "All failures (the first at %s)", first);
    else
        snprintf(which, sizeof which, "%d of the %d failures (the first at %s)",
                 fit->early_failures, fit->failures, first);
    spt_page_say(page, SPT_BODY, "",
                 "%s came before %s, the least life at this rating (%g L10). Either the machine "
                 "runs in another condition than the rated one, or something else came before "
                 "rolling fatigue: mounting, setting, lack of grease, damage in transport.%s",
                 which, least, SPT_WEIBULL_FLOOR,
                 fit->early_failures == 1 && fit->failures > 1
                     ? " One failure can move the L10 of the field a long way: make sure of it, "
                       "and fit once without."
                     : "");
}

static void say_against(struct spt_page *page, const struct spt_fit_report *report)
{
    char words[WORDS_LENGTH], factor[SPT_HOURS_LENGTH];
    const struct spt_fit_comparison *comparison = &report->fit.comparison;
    spt_page_say(page, SPT_BODY, "", "%s: rated L10 %s.", spt_page_name(page, report->against),
                 spt_fit_life(page, report, report->inputs.estimated_l10));
    if (isnan(report->inputs.estimated_l10)) {
        spt_page_say(page, SPT_BODY, "",
                     "The scenario states no finite life, so there is nothing to compare.");
        return;
    }
    if (report->modes)
        spt_page_say(page, SPT_BODY, "",
                     "The rating is of rolling fatigue alone, the returns are of all modes: "
                     "`--mode` holds the one that is fatigue against it.");
    tell_verdict(&report->fit, words);
    if (isnan(comparison->factor))
        spt_page_judge(page, judge(comparison->verdict), "%s.", words);
    else
        spt_page_judge(page, judge(comparison->verdict), "%s; the best estimate is %s times.",
                       words, spt_text_ratio(comparison->factor, factor));
    say_early(page, report);
    say_band(page, report);
}

void spt_fit_page_against(struct spt_page *page, const struct spt_fit_report *report)
{
    if (!report->against)
        return;
    spt_page_open(page, "Against the rating");
    say_against(page, report);
    spt_page_close(page);
}
