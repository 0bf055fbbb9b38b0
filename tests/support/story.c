/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/story.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

static const double none = (double)NAN;

struct story story, other;
struct spt_timeline timeline;
static struct spt_phase phases[4];
static struct spt_phase_result results[4];
const struct spt_timeline_workspace story_workspace = {phases, results};

void story_begin(struct story *told, enum spt_lubrication kind, int bearings)
{
    memset(told, 0, sizeof *told);
    example_make(&told->base, kind, bearings);
    told->service =
        (struct spt_service){.regrease_every_h = none, .oil_change_every_h = none, .until_h = none};
}

void story_add_event(struct story *told, double at_h, void (*change)(struct example_case *))
{
    int i = told->service.event_count++;
    told->service.events[i] = (struct spt_event){"event", at_h, none, false};
    told->changes[i] = change;
}

struct spt_drift *story_add_drift(struct story *told, double from_h, double to_h)
{
    struct spt_drift *drift = &told->service.drifts[told->service.drift_count++];
    *drift = (struct spt_drift){"drift", from_h, to_h, none, none, -1, -1, none, none, none, none};
    return drift;
}

enum spt_status story_run(struct story *told, struct spt_timeline *into)
{
    int count = told->service.event_count;
    for (int row = 0; row <= count; row++) {
        const struct example_case *before = &told->base;
        for (int i = 0; i < count; i++) {
            struct example_case *after = &told->made[count * row + i];
            example_copy(before, after);
            if (i != row)
                told->changes[i](after);
            told->cases[count * row + i] = after->question;
            before = after;
        }
    }
    told->service.cases = told->cases;
    return spt_timeline(&told->base.question, &told->service, &story_workspace, into);
}

void story_tell(void)
{
    cr_assert_eq(story_run(&story, &timeline), SPT_OK);
}

void story_scale_loads(struct example_case *made, double factor)
{
    for (int i = 0; i < made->question.bearing_count; i++)
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            made->phases[i][j].radial_load_n *= factor;
            made->phases[i][j].axial_load_n *= factor;
        }
}

void story_load_more(struct example_case *made)
{
    story_scale_loads(made, 1.235);
}

double story_rate(const struct example_case *base, int bearing, double age_h, double water_ppm,
                  double load_factor)
{
    static struct example_case made;
    struct spt_bearing_result result;
    example_copy(base, &made);
    story_scale_loads(&made, load_factor);
    for (int i = 0; i < made.question.bearing_count; i++)
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            struct spt_condition *state = &made.phases[i][j].condition;
            if (age_h >= 0)
                state->grease_age_h = age_h;
            state->water_ppm = fmax(state->water_ppm, water_ppm);
        }
    cr_assert_eq(spt_assess_bearing(&made.question, bearing, 0, results, &result), SPT_OK);
    return 1 / result.modified_rating_life_h;
}
