/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/seal.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

static struct spt_filter filter(double ingress, double flow, double beta, double bypass)
{
    return (struct spt_filter){SPT_FILTER_FULL_FLOW, ingress, flow, beta, 6, bypass, 1e5};
}

/* Worked out by hand from the balance R = Q (1 - 1/beta)(1 - b) C and the table of ISO 4406. */
Test(filter, balance_of_what_comes_in_and_what_is_held)
{
    static const struct {
        double ingress, flow, beta, bypass, sump, behind;
        int sump_code, behind_code;
    } rows[] = {
        {1e6, 2e4, 200, 0, 50.25, .2513, 13, 5},   {2e6, 2e4, 200, 0, 100.5, .5025, 14, 6},
        {1e8, 4e4, 75, 0, 2533.8, 33.78, 19, 12},  {1e6, 2e4, 2, 0, 100, 50, 14, 13},
        {1e6, 2e4, 200, .1, 55.84, 5.835, 13, 10},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_filter in =
            filter(rows[i].ingress, rows[i].flow, rows[i].beta, rows[i].bypass);
        struct spt_filter_balance out;
        cr_assert_eq(spt_filter_balance(&in, &out), SPT_OK);
        cr_expect(near(out.sump_per_ml, rows[i].sump, 1e-3, 0), "%zu: %g", i, out.sump_per_ml);
        cr_expect(near(out.behind_per_ml, rows[i].behind, 1e-3, 0), "%zu: %g", i,
                  out.behind_per_ml);
        cr_expect_eq(out.sump_code.over_6, rows[i].sump_code, "%zu", i);
        cr_expect_eq(out.behind_code.over_6, rows[i].behind_code, "%zu", i);
    }
}

/* From 5000 to 100 particles with 50 at last: tau ln((5000 - 50.25)/(100 - 50.25)). */
Test(filter, cleaning_takes_the_time_constant)
{
    const struct spt_filter in = filter(1e6, 2e4, 200, 0);
    struct spt_filter_balance out;
    cr_assert_eq(spt_filter_balance(&in, &out), SPT_OK);
    const double minutes =
        out.clean_up_min * log((5000 - out.sump_per_ml) / (100 - out.sump_per_ml));
    cr_expect(near(minutes, 23.1, 2e-3, 0), "%g", minutes);
}

Test(filter, class_is_the_dirtier_of_rating_and_count)
{
    struct spt_filter in = filter(1e6, 2e4, 200, 0);
    struct spt_filter_class kept;
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_CIRCULATING_13_10); /* the count flatters */
    cr_expect_not(kept.overwhelmed);
    in.beta_size_um = 25;
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_CIRCULATING_17_14);
    in = filter(1e8, 4e4, 75, 0);
    in.beta_size_um = 6; /* 75 earns -/17/14 */
    in.ingress_per_min = 1e10;
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect(kept.overwhelmed);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_CIRCULATING_19_16);
    in = filter((double)NAN, 2e4, 200, 0); /* ingress not known: the rating */
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_CIRCULATING_13_10);
}

Test(filter, off_line_bypass_and_strainer_go_by_the_sump)
{
    struct spt_filter in = filter(1e6, 2e4, 200, .1);
    struct spt_filter_class kept;
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_BATH_13_10);
    in.beta_size_um = 25; /* a leaking bypass never makes the filter better */
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_BATH_17_14);
    in.place = SPT_FILTER_STRAINER;
    in.beta = 2;
    in.bypass_share = 0;
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK); /* 14: 14/11 is read as 14/12 */
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_BATH_15_12);
    in.ingress_per_min = (double)NAN;
    cr_expect_eq(spt_filter_class(&in, &kept), SPT_NOT_APPLICABLE);
    in.ingress_per_min = 1e14;
    cr_expect_eq(spt_filter_class(&in, &kept), SPT_NOT_APPLICABLE);
    in.beta = 0.5;
    cr_expect_eq(spt_filter_class(&in, &kept), SPT_BAD_ARGUMENT);
}

/* A net in the main line that earns no row was taken for cleaner than a filter that earns -/19/16.
 */
Test(filter, full_flow_that_earns_nothing_is_no_better_than_the_last_row)
{
    struct spt_filter in = filter(2.5e4, 2e4, 80, 0.1);
    struct spt_filter_class kept;
    in.beta_size_um = 40;
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_BATH_19_16);
    in.beta = 20;
    cr_assert_eq(spt_filter_class(&in, &kept), SPT_OK);
    cr_expect_eq(kept.condition, SPT_CLEANLINESS_BATH_19_16);
    in.ingress_per_min = (double)NAN;
    cr_expect_eq(spt_filter_class(&in, &kept), SPT_NOT_APPLICABLE);
}

/* V (C2 - C1)/R: 1e5 ml (1300 - 320) / (1e4 a minute) / 60 */
Test(filter, without_a_filter_oil_fills_with_dirt)
{
    struct spt_filter in = {.place = SPT_FILTER_NONE, .ingress_per_min = 1e4, .volume_ml = 1e5};
    double hours;
    cr_assert_eq(spt_filter_fill_time(&in, 15, 17, &hours), SPT_OK);
    cr_expect(near(hours, 1e5 * (1300 - 320) / 1e4 / 60, 1e-12, 0), "%g", hours);
    cr_expect_eq(spt_filter_fill_time(&in, 15, 15, &hours), SPT_OK);
    cr_expect_eq(hours, 0);
    in.ingress_per_min = 0;
    cr_expect_eq(spt_filter_fill_time(&in, 15, 17, &hours), SPT_NOT_APPLICABLE);
    cr_expect(isnan(hours));
    cr_expect_eq(spt_filter_fill_time(&in, 15, 29, &hours), SPT_BAD_ARGUMENT);
}

/* Each doubling of the ingress is at most one number more; beta and flow never make it dirtier. */
Test(filter, more_ingress_or_less_flow_or_beta_never_cleans)
{
    int last = 0;
    for (double ingress = 1e4; ingress < 1e12; ingress *= 2) {
        const struct spt_filter in = filter(ingress, 3e4, 75, 0.05);
        struct spt_filter slow = in, coarse = in;
        struct spt_filter_balance out, other;
        slow.flow_ml_min /= 3;
        coarse.beta = 2;
        cr_assert_eq(spt_filter_balance(&in, &out), SPT_OK);
        cr_expect_geq(out.sump_code.over_6, last);
        cr_expect(last == 0 || out.sump_code.over_6 <= last + 2);
        last = out.sump_code.over_6;
        cr_assert_eq(spt_filter_balance(&slow, &other), SPT_OK);
        cr_expect_gt(other.sump_per_ml, out.sump_per_ml);
        cr_assert_eq(spt_filter_balance(&coarse, &other), SPT_OK);
        cr_expect_gt(other.sump_per_ml, out.sump_per_ml);
    }
}
