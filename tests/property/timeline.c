/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/hub_case.h"
#include "support/near.h"

static double life_with(const struct spt_service *service)
{
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_timeline_workspace workspace = {phases, results};
    const struct spt_case question = hub_case();
    static struct spt_timeline line;
    cr_assert_eq(spt_timeline(&question, service, &workspace, &line), SPT_OK);
    return line.life_h;
}

/* An event that changes nothing cuts the run of equal intervals in two, so that the intervals
 * before it are counted in another way than those behind it. */
Test(timeline_property, equal_intervals_counted_at_once_cost_what_they_cost_one_by_one)
{
    static const double events_h[] = {1234.5, 7001, 20000};
    const struct spt_case same[4] = {hub_case(), hub_case(), hub_case(), hub_case()};
    struct spt_service plain = {
        .regrease_every_h = 611, .oil_change_every_h = (double)NAN, .until_h = 4e5};
    double want_h = life_with(&plain);
    cr_assert(want_h > 1e3 && want_h < 4e5, "%g", want_h);
    for (int i = 0; i < 3; i++) {
        struct spt_service cut = plain;
        cut.event_count = 1;
        cut.events[0] = (struct spt_event){"nothing", events_h[i], (double)NAN, false};
        cut.cases = same;
        cr_expect(near(life_with(&cut), want_h, 1e-9, 0), "cut at %g h: %.9g, not %.9g",
                  events_h[i], life_with(&cut), want_h);
    }
}

/* More often greased, longer alive, and at most as long as with grease that is ever fresh. */
Test(timeline_property, shorter_intervals_never_shorten_the_life)
{
    static const double intervals_h[] = {5000, 1500, 611, 200, 37, 1, 0.01};
    double before_h = 0;
    for (int i = 0; i < 7; i++) {
        struct spt_service service = {
            .regrease_every_h = intervals_h[i], .oil_change_every_h = (double)NAN, .until_h = 4e5};
        double life_h = life_with(&service);
        cr_expect(life_h >= before_h * (1 - 1e-9), "every %g h: %g h, %g h before", intervals_h[i],
                  life_h, before_h);
        before_h = life_h;
    }
}

Test(timeline_property, too_many_stretches_are_refused)
{
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_timeline_workspace workspace = {phases, results};
    const struct spt_case question = hub_case();
    static struct spt_timeline line;
    struct spt_service service = {.regrease_every_h = 0.01,
                                  .oil_change_every_h = (double)NAN,
                                  .until_h = 4e5,
                                  .drift_count = 1};
    service.drifts[0] = (struct spt_drift){
        "warming", 0, 3e5, (double)NAN, (double)NAN, -1, -1, (double)NAN, (double)NAN, 0, 9};
    cr_expect_eq(spt_timeline(&question, &service, &workspace, &line), SPT_NOT_CONVERGED);
}

/* Over many oil changes the same run: cut by an event that changes nothing. */
Test(timeline_property, equal_oil_changes_cost_what_they_cost_one_by_one)
{
    const struct spt_case oil = oil_case(), same[1] = {oil};
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_timeline_workspace workspace = {phases, results};
    static struct spt_timeline whole, cut;
    struct spt_service service = {.regrease_every_h = (double)NAN,
                                  .oil_change_every_h = 1777,
                                  .until_h = 9e5,
                                  .drift_count = 2};
    service.drifts[0] = (struct spt_drift){"dirt",
                                           200,
                                           1500,
                                           150,
                                           900,
                                           SPT_CLEANLINESS_BATH_15_12,
                                           SPT_CLEANLINESS_BATH_17_14,
                                           (double)NAN,
                                           (double)NAN,
                                           (double)NAN,
                                           (double)NAN};
    service.drifts[1] = (struct spt_drift){"load", 3000, 7000, (double)NAN, (double)NAN, -1,
                                           -1,     1,    1.2,  (double)NAN, (double)NAN};
    cr_assert_eq(spt_timeline(&oil, &service, &workspace, &whole), SPT_OK);
    cr_assert(whole.life_h > 7500 && whole.life_h < 9e5, "%g", whole.life_h);
    cr_expect(whole.influences[0].life_without_h > whole.life_h);
    cr_expect(whole.influences[1].life_without_h > whole.life_h);
    cr_expect(whole.undisturbed_h > whole.influences[1].life_without_h);
    service.event_count = 1;
    service.events[0] = (struct spt_event){"nothing", 7432.1, (double)NAN, false};
    service.cases = (const struct spt_case[]){same[0], same[0]};
    cr_assert_eq(spt_timeline(&oil, &service, &workspace, &cut), SPT_OK);
    cr_expect(near(cut.life_h, whole.life_h, 1e-9, 0), "%.9g, not %.9g", cut.life_h, whole.life_h);
}

/* The damage of a steady case is time over life, whatever asks for it. */
Test(timeline_property, curve_of_a_steady_case_is_a_straight_line)
{
    const struct spt_case oil = oil_case();
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_timeline_workspace workspace = {phases, results};
    struct spt_assessment assessment;
    static struct spt_timeline line;
    const double times_h[] = {0, 1234.5, 40000};
    double damage[3];
    const struct spt_service service = {
        .regrease_every_h = (double)NAN, .oil_change_every_h = 500, .until_h = (double)NAN};
    cr_assert_eq(spt_assess(&oil, results, &assessment), SPT_OK);
    cr_assert_eq(spt_timeline(&oil, &service, &workspace, &line), SPT_OK);
    cr_expect(near(line.life_h, assessment.modified_rating_life_h, 1e-9, 0), "%g", line.life_h);
    cr_assert_eq(spt_timeline_curve(&oil, &service, &workspace, times_h, 3, damage), SPT_OK);
    for (int i = 0; i < 3; i++)
        cr_expect(near(damage[i], times_h[i] / assessment.modified_rating_life_h, 1e-9, 1e-15));
}

/* Heat rises until there is no film left: the life ends with a time, not with a number. */
Test(timeline_property, a_film_that_goes_stops_the_life_where_it_goes)
{
    const struct spt_case oil = oil_case();
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_timeline_workspace workspace = {phases, results};
    static struct spt_timeline line;
    struct spt_service service = {.regrease_every_h = (double)NAN,
                                  .oil_change_every_h = (double)NAN,
                                  .until_h = 9e5,
                                  .drift_count = 1};
    service.drifts[0] = (struct spt_drift){
        "heat", 0, 1000, (double)NAN, (double)NAN, -1, -1, (double)NAN, (double)NAN, 0, 140};
    cr_assert_eq(spt_timeline(&oil, &service, &workspace, &line), SPT_OK);
    cr_expect(isnan(line.life_h));
    cr_expect(line.stopped_h > 0 && line.stopped_h < 1000, "%g", line.stopped_h);
    cr_expect(line.damage_at_end > 0 && line.damage_at_end < 1);
    double times_h[] = {line.stopped_h * 0.999, line.stopped_h * 1.001}, damage[2];
    cr_assert_eq(spt_timeline_curve(&oil, &service, &workspace, times_h, 2, damage), SPT_OK);
    cr_expect(isfinite(damage[0]));
    cr_expect(isnan(damage[1]));
}
