/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/greasing.h"

#include <math.h>

#include "sentence/greasing.h"

void spt_greasing_page(struct spt_page *page, const struct spt_greasing *greasing)
{
    char words[SPT_GREASING_LENGTH];
    const char *every = spt_greasing_every(greasing, words);
    const char *demand = spt_greasing_demand(greasing);
    if (greasing->state == SPT_GREASING_NONE)
        return;
    if (isnan(greasing->interval_h))
        spt_page_say(page, SPT_BODY, "", "Greasing: %s.", demand);
    else
        spt_page_say(page, SPT_BODY, "", "Greasing: %s; the interval is %s h%s%s.",
                     every ? every : "none that is kept",
                     spt_page_hours(page, greasing->interval_h), demand ? "; " : "",
                     demand ? demand : "");
}

void spt_greasing_json(struct spt_json *json, const struct spt_greasing *greasing)
{
    const bool greased = greasing->months > 0;
    spt_json_open(json, "greasing", '{');
    spt_json_number(json, "grease_interval_h", greasing->interval_h);
    spt_json_number(json, "enough_every_h", greasing->every_h);
    spt_json_number(json, "enough_every_days", greasing->every_days);
    spt_json_number(json, "at_most_months", greased ? greasing->months : (double)NAN);
    spt_json_text(json, "state", spt_greasing_state_name(greasing->state));
    spt_json_close(json, '}');
}
