/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/greasing.h"

#include <math.h>
#include <stdio.h>

#include "base/table.h"
#include "format/text.h"

const char *spt_greasing_span(double days, char *span)
{
    return spt_text_span(spt_regreasing_days_exact(days), span);
}

const char *spt_greasing_span_of(const struct spt_greasing *greasing, char *span)
{
    if (!isnan(greasing->every_days))
        return spt_greasing_span(greasing->every_days, span);
    snprintf(span, SPT_SPAN_LENGTH, "%d months", greasing->months);
    return span;
}

const char *spt_greasing_every(const struct spt_greasing *greasing, char *words)
{
    char hours[SPT_HOURS_LENGTH], span[SPT_SPAN_LENGTH];
    if (isnan(greasing->kept_h))
        return NULL;
    snprintf(words, SPT_GREASING_LENGTH, "every %s h or %s, whichever is first",
             spt_text_hours(greasing->every_h, hours), spt_greasing_span_of(greasing, span));
    return words;
}

const char *spt_greasing_demand(const struct spt_greasing *greasing)
{
    if (greasing->state == SPT_GREASING_OFTEN)
        return "nobody keeps that by hand: it takes a lubricator, oil or a better seal";
    if (greasing->state != SPT_GREASING_CANNOT)
        return NULL;
    if (isnan(greasing->interval_h))
        return "at this speed and bore there is no greasing interval: grease does not suit, ask "
               "the maker";
    if (isnan(greasing->kept_h))
        return "nobody can keep that: run it cooler, mend the seal, or take another grease, a "
               "lubricator or oil";
    return greasing->too_hot
               ? "but it runs too hot for grease: cool it, use oil, or ask the maker of the grease"
               : "but another bearing has no greasing interval at its speed and bore: grease does "
                 "not suit it, ask the maker";
}

const char *spt_greasing_state_name(enum spt_greasing_state state)
{
    static const char *const names[] = {
        [SPT_GREASING_NONE] = "none",
        [SPT_GREASING_KEPT] = "kept",
        [SPT_GREASING_OFTEN] = "often",
        [SPT_GREASING_CANNOT] = "cannot",
    };
    SPT_ONE_EACH(names, SPT_GREASING_STATE_COUNT);
    return names[state];
}

double spt_greasing_working(const struct spt_assessment *assessment)
{
    double share = 1;
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        double row = 1;
        for (int j = 0; j < bearing->phase_count; j++)
            row = fmin(row, bearing->phases[j].grease.survival); /* fmin ignores a NaN */
        share *= row;
    }
    return share;
}

double spt_greasing_age_h(const struct spt_assessment *assessment)
{
    double age_h = 0;
    for (int i = 0; i < assessment->bearing_count; i++)
        for (int j = 0; j < assessment->bearings[i].phase_count; j++)
            age_h = fmax(age_h, assessment->bearings[i].phases[j].phase->condition.grease_age_h);
    return age_h;
}
