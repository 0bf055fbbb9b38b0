/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/ask.h"

#define HALVINGS 12 /* of the searched range: a path is measured no better than this */

struct search {
    const struct spt_case *question;
    int row, phase;
    struct spt_arena *arena;
    struct spt_error *error;
};

/* Load zone in degrees at a mounted setting. */
static enum spt_status find_zone(const struct search *search, double setting_mm, double *zone_deg)
{
    struct spt_case *changed = spt_arena_allocate(search->arena, sizeof *changed);
    struct spt_hub_case *hub = spt_arena_allocate(search->arena, sizeof *hub);
    struct spt_assessment *assessment = spt_arena_allocate(search->arena, sizeof *assessment);
    if (!changed || !hub || !assessment)
        return spt_error_set(search->error, SPT_NO_MEMORY, NULL);
    *changed = *search->question;
    *hub = *search->question->hub;
    hub->setting_kind = setting_mm < 0 ? SPT_HUB_SET_PRELOAD : SPT_HUB_SET_END_PLAY;
    hub->setting_value = fabs(setting_mm);
    changed->hub = hub;
    const enum spt_status status = spt_ask_life(changed, search->arena, assessment, search->error);
    if (!status)
        *zone_deg = assessment->hub->phases[search->phase].rows[search->row].contact.zone_deg;
    return status;
}

enum spt_status spt_ask_zone_setting(const struct spt_case *question, int row, int phase,
                                     double zone_deg, struct spt_arena *arena, double *setting_mm,
                                     struct spt_error *error)
{
    const struct search search = {question, row, phase, arena, error};
    double tightest_deg, loosest_deg, middle_deg;
    *setting_mm = (double)NAN;
    if (!question->hub)
        return spt_error_set(error, SPT_NOT_APPLICABLE, question->title);
    double low = question->hub->lowest_mm, high = question->hub->highest_mm;
    enum spt_status status = find_zone(&search, low, &tightest_deg);
    if (!status)
        status = find_zone(&search, high, &loosest_deg);
    if (status || zone_deg > tightest_deg || zone_deg < loosest_deg)
        return status;
    for (int i = 0; !status && i < HALVINGS; i++) {
        const double middle = (low + high) / 2;
        status = find_zone(&search, middle, &middle_deg);
        if (middle_deg > zone_deg)
            low = middle;
        else
            high = middle;
    }
    *setting_mm = status ? (double)NAN : (low + high) / 2;
    return status;
}
