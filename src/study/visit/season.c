/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/lubricant.h"
#include "spalltime/service.h"

#define MONTH_DAYS (SPT_DAYS_PER_YEAR / 12)
#define SAME 1e-9 /* round-off of hours */

bool spt_season_has(const struct spt_case *question)
{
    return question->season.months > 0 && question->yearly_use_h > 0;
}

int spt_season_greasings(double season_h, double season_months, double kept_h, int cap_months)
{
    double count = fmax(1, season_h / kept_h);
    if (cap_months > 0)
        count = fmax(count, season_months / cap_months);
    return isfinite(count) && count < 1e6 ? (int)ceil(count * (1 - SAME)) : 0;
}

double spt_season_days(const struct spt_case *question, double at_h, bool before)
{
    const struct spt_season *season = &question->season;
    const double season_h = question->yearly_use_h;
    const double hour_days = season->months * MONTH_DAYS / season_h;
    const double run_h = season->run_h + at_h;
    double count = floor(run_h / season_h * (1 + SAME));
    double rest_h = fmax(0, run_h - count * season_h);
    if (rest_h < SAME * season_h && count > 0 && !before) { /* at its end, not at the next start */
        count -= 1;
        rest_h = season_h;
    }
    return season->wait_days + count * SPT_DAYS_PER_YEAR + (rest_h - season->run_h) * hour_days;
}

void spt_season_begin(struct spt_case *question, double day)
{
    struct spt_season *season = &question->season;
    static const int first_days[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
    const double first_day = first_days[season->month];
    double gone_days = fmod(day - first_day + SPT_DAYS_PER_YEAR, SPT_DAYS_PER_YEAR);
    const double length_days = season->months * MONTH_DAYS;
    if (!spt_season_has(question))
        return;
    if (SPT_DAYS_PER_YEAR - gone_days < 2)
        gone_days = 0; /* a leap year has a day more before its spring */
    season->run_h = gone_days < length_days ? gone_days / length_days * question->yearly_use_h : 0;
    season->wait_days = gone_days < length_days ? 0 : SPT_DAYS_PER_YEAR - gone_days;
}
