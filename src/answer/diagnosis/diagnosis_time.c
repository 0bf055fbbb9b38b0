/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "answer/diagnosis/diagnosis_parts.h"
#include "answer/diagnosis/diagnosis_words.h"
#include "chart/cause_time.h"

#define LEAST_SHARE 1e-9      /* below it, none */
#define LEAST_EXPECTED 0.01   /* bearings of a fleet; below it, none */
#define NINETY_PERCENT 1.6449 /* standard deviations within which 90 % of a normal law lie */

static const char *tell_share(struct spt_page *page, double share)
{
    char amount[SPT_HOURS_LENGTH];
    if (!(share > LEAST_SHARE))
        return "practically none";
    return share < 0.1 ? spt_page_words(page, "1 in %s", spt_text_amount(1 / share, amount))
                       : spt_page_words(page, "%.0f %%", 100 * share);
}

/* How many of a fleet: "practically none", "0.4", "12". */
static const char *tell_expected(struct spt_page *page, double expected)
{
    if (!(expected >= LEAST_EXPECTED))
        return "practically none";
    return expected < 10 ? spt_page_words(page, "%.2g", expected)
                         : spt_page_words(page, "%.0f", expected);
}

/* The laws of the likeliest causes that have a life. */
static void show_times(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    struct spt_cause_time_chart *chart = spt_page_allocate(page, sizeof *chart);
    if (!chart)
        return;
    for (int i = 0; i < report->causes->table.cause_count && chart->count < SPT_CAUSE_TIME_CURVES;
         i++) {
        const int cause = report->result.order[i];
        const double life_h = report->asked.life_h[cause];
        if (!(life_h > 0) || isinf(life_h))
            continue;
        chart->names[chart->count] = spt_diagnosis_cause(report, cause);
        chart->life_h[chart->count++] = life_h;
    }
    chart->doubt = spt_diagnosis_doubt(report);
    chart->hours = report->asked.hours;
    snprintf(chart->id, sizeof chart->id, "time-%d", report->index);
    if (chart->count)
        spt_page_picture(page, &(struct spt_picture){.title = "When it strikes",
                                                     .subject = chart,
                                                     .svg = spt_cause_time_svg});
}

static void say_doubt(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const double doubt = spt_diagnosis_doubt(report);
    spt_page_say(page, SPT_BODY, "",
                 "Doubt of the lives: a standard deviation of ln L of %.2f (90 %% within a factor "
                 "of %.1f), from: %s.",
                 doubt, exp(NINETY_PERCENT * doubt), spt_diagnosis_doubt_from(report));
}

void spt_diagnosis_show_fatigue(struct spt_page *page, const struct spt_diagnosis_report *report)
{
    const struct spt_diagnosis *result = &report->result;
    if (!result->timed)
        return;
    spt_page_open(page, "What fatigue alone explains");
    spt_page_say(page, SPT_BODY, "",
                 "Of bearings with nothing wrong %s had spalled by %s h (%s with the doubt of the "
                 "lives). That is not the chance of \"%s\" above.",
                 tell_share(page, result->fatigue_share), spt_page_hours(page, report->asked.hours),
                 tell_share(page, result->fatigue_share_smeared),
                 spt_diagnosis_cause(report, spt_diagnosis_fatigue(report)));
    say_doubt(page, report);
    if (report->fleet > 0)
        spt_page_say(page, SPT_BODY, "", "Of a fleet of %d, %s would have spalled by then.",
                     report->fleet,
                     tell_expected(page, report->fleet * result->fatigue_share_smeared));
    if (!isnan(report->asked.last_sound_h))
        spt_page_say(page, SPT_BODY, "",
                     "It was last seen sound at %s h, which the times of the "
                     "causes count in.",
                     spt_page_hours(page, report->asked.last_sound_h));
    show_times(page, report);
    spt_page_close(page);
}
