/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The axioms of L. S. Shapley, A value for n-person games (1953): efficiency, symmetry, null player
 * (additivity has no meaning for one case); the value itself by its definition over all orders. */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/case_example.h"
#include "support/near.h"

static const double none = (double)NAN;
static struct example_case made;
static struct spt_phase_result scratch[EXAMPLE_PHASES];

static struct spt_loss split(int bearing)
{
    struct spt_loss loss;
    cr_assert_eq(spt_loss_split(&made.question, bearing, scratch, &loss), SPT_OK);
    return loss;
}

/* A case that has each cause but the setting. */
static void make_troubled(void)
{
    example_make(&made, SPT_LUBRICATION_GREASE, 2);
    example_set_oil(&made.question, 68, 95);
    made.question.reference_load_n = 14e3;
    for (int b = 0; b < 2; b++)
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            made.phases[b][j].condition.cleanliness = SPT_CLEANLINESS_GREASE_SLIGHT;
            made.phases[b][j].condition.grease_age_h = 900;
        }
}

static double life_cured(int bearing, unsigned cured)
{
    struct spt_bearing_result result;
    cr_assert_eq(spt_assess_bearing(&made.question, bearing, cured, scratch, &result), SPT_OK);
    return result.modified_rating_life_h;
}

static double sum_of_shares(const struct spt_loss *loss)
{
    double sum = 0;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        sum += loss->causes[i].log_life_share;
    return sum;
}

Test(loss, shares_sum_to_the_whole_loss)
{
    make_troubled();
    for (int b = 0; b < 2; b++) {
        struct spt_loss loss = split(b);
        double whole = log(life_cured(b, 0) / life_cured(b, ~0u));
        cr_expect_eq(loss.applying, 0x1Fu);
        cr_expect_lt(whole, -1);
        cr_expect(near(sum_of_shares(&loss), whole, 1e-9, 0), "%.12g, not %.12g",
                  sum_of_shares(&loss), whole);
        cr_expect(near(loss.reference_life_h, life_cured(b, ~0u), 1e-12, 0));
    }
}

/* Adds, over all orders of the causes in `left`, what curing `cause` gains when its turn comes. */
static double gain_in_orders(int bearing, unsigned cured, unsigned left, unsigned cause,
                             long *orders)
{
    double sum = 0;
    if (!left)
        ++*orders;
    for (unsigned next = 1; next <= left; next <<= 1) {
        if (!(left & next))
            continue;
        long before = *orders;
        sum += gain_in_orders(bearing, cured | next, left & ~next, cause, orders);
        if (next == cause)
            sum += (double)(*orders - before) *
                   log(life_cured(bearing, cured | next) / life_cured(bearing, cured));
    }
    return sum;
}

Test(loss, each_share_is_the_mean_gain_over_all_orders)
{
    make_troubled();
    struct spt_loss loss = split(0);
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        long orders = 0;
        double sum = gain_in_orders(0, 0, loss.applying, 1u << i, &orders);
        cr_expect_eq(orders, 120);
        cr_expect(near(loss.causes[i].log_life_share, -sum / 120, 1e-11, 1e-13), "%s: %.12g, %.12g",
                  spt_cause_name((enum spt_cause)i), loss.causes[i].log_life_share, -sum / 120);
    }
}

/* Water and setting are factors of the life and nothing else: the loss to each is its own factor,
 * and equal where the factors are. */
Test(loss, causes_that_take_alike_have_like_shares)
{
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++) {
        made.phases[0][j].condition.water_ppm = 300;
        made.phases[0][j].setting_factor = 1 / pow(3, 0.6); /* a_w = (100/300)^0.6 */
    }
    struct spt_loss loss = split(0);
    double water = loss.causes[SPT_CAUSE_WATER].log_life_share;
    cr_expect(near(water, -0.6 * log(3), 1e-12, 0), "%.12g", water);
    cr_expect(near(loss.causes[SPT_CAUSE_SETTING].log_life_share, water, 1e-12, 0));
    cr_expect(loss.causes[SPT_CAUSE_SETTING].applies);
}

Test(loss, a_cause_that_changes_nothing_has_no_share)
{
    make_troubled();
    for (int j = 0; j < EXAMPLE_PHASES; j++) {
        made.phases[0][j].condition.water_ppm = 100; /* no more than the reference */
        made.phases[0][j].condition.grease_age_h = 0;
    }
    struct spt_loss loss = split(0);
    static const enum spt_cause null[] = {SPT_CAUSE_WATER, SPT_CAUSE_WORN_GREASE,
                                          SPT_CAUSE_SETTING};
    for (int i = 0; i < 3; i++) {
        const struct spt_cause_share *share = &loss.causes[null[i]];
        cr_expect(!share->applies, "%s", spt_cause_name(null[i]));
        cr_expect_eq(share->log_life_share, 0);
        cr_expect(near(share->life_if_cured_h, life_cured(0, 0), 1e-12, 0));
    }
    cr_expect(loss.causes[SPT_CAUSE_DEBRIS].applies);
    cr_expect(near(sum_of_shares(&loss), log(life_cured(0, 0) / life_cured(0, ~0u)), 1e-9, 0));
}

Test(loss, a_loss_of_a_millionth_of_a_millionth_is_none)
{
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++) {
        made.phases[0][j].condition.water_ppm = 100 * (1 + 1e-13);
        made.phases[0][j].setting_factor = 1 - 1e-9;
    }
    struct spt_loss loss = split(0);
    cr_expect(!loss.causes[SPT_CAUSE_WATER].applies);
    cr_expect(loss.causes[SPT_CAUSE_SETTING].applies);
    cr_expect(near(loss.causes[SPT_CAUSE_SETTING].log_life_share, -1e-9, 1e-3, 0));
}

Test(loss, a_case_without_a_cause_has_none)
{
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++) {
        made.phases[0][j].condition.cleanliness = SPT_CLEANLINESS_BATH_13_10;
        made.phases[0][j].condition.water_ppm = 20;
        made.phases[0][j].speed_rpm = 500;
    }
    struct spt_loss loss = split(0);
    cr_expect_eq(loss.applying, 0);
    cr_expect_eq(sum_of_shares(&loss), 0);
    cr_expect(near(loss.reference_life_h, life_cured(0, 0), 1e-12, 0));
}

/* What "cured" means, put into a case by hand. */
Test(loss, lives_if_cured_are_those_of_cured_cases)
{
    make_troubled();
    struct spt_loss loss = split(0);
    struct example_case cured;
    example_copy(&made, &cured);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        cured.phases[0][j].condition.water_ppm = 100;
    cured.question.bearing_count = made.question.bearing_count = 1;
    cr_expect(near(loss.causes[SPT_CAUSE_WATER].life_if_cured_h, example_life(&cured.question),
                   1e-12, 0));
    example_copy(&made, &cured);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        cured.phases[0][j].condition.cleanliness = SPT_CLEANLINESS_GREASE_HIGH;
    cr_expect(near(loss.causes[SPT_CAUSE_DEBRIS].life_if_cured_h, example_life(&cured.question),
                   1e-12, 0));
    example_copy(&made, &cured);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        cured.phases[0][j].condition.grease_age_h = 0;
    cr_expect(near(loss.causes[SPT_CAUSE_WORN_GREASE].life_if_cured_h,
                   example_life(&cured.question), 1e-12, 0));
}

Test(loss, overload_is_cured_by_the_reference_load)
{
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    static const double loads_n[] = {16e3, 11e3};
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].equivalent_load_n = loads_n[j];
    cr_expect(!split(0).causes[SPT_CAUSE_OVERLOAD].applies); /* no reference load, no such cause */
    made.question.reference_load_n = 12e3;
    struct spt_loss loss = split(0);
    struct example_case cured;
    example_copy(&made, &cured);
    cured.phases[0][0].equivalent_load_n = 12e3;
    cr_expect(loss.causes[SPT_CAUSE_OVERLOAD].applies);
    cr_expect(near(loss.causes[SPT_CAUSE_OVERLOAD].life_if_cured_h, example_life(&cured.question),
                   1e-12, 0));
    made.question.reference_load_n = 16e3;
    cr_expect(!split(0).causes[SPT_CAUSE_OVERLOAD].applies);
}

Test(loss, without_a_life_there_are_cures_but_no_shares)
{
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    example_set_oil(&made.question, 22, 95);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].temperature_c = 120;
    cr_assert(isnan(life_cured(0, 0)));
    struct spt_loss loss = split(0);
    cr_expect(loss.causes[SPT_CAUSE_THIN_FILM].applies);
    cr_expect(isnan(loss.causes[SPT_CAUSE_THIN_FILM].log_life_share));
    cr_expect(near(loss.causes[SPT_CAUSE_THIN_FILM].life_if_cured_h,
                   life_cured(0, 1u << SPT_CAUSE_THIN_FILM), 1e-12, 0));
    cr_expect_gt(loss.reference_life_h, loss.causes[SPT_CAUSE_THIN_FILM].life_if_cured_h);
}

Test(loss, a_life_without_limit_loses_nothing)
{
    example_make(&made, SPT_LUBRICATION_GREASE, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        made.phases[0][j].speed_rpm = 0;
    struct spt_loss loss = split(0);
    cr_expect_eq(loss.applying, 0);
    cr_expect(isinf(loss.reference_life_h));
}

Test(loss, the_lives_behind_the_shares_are_kept)
{
    make_troubled();
    made.question.reference_load_n = none;
    struct spt_loss loss = split(0);
    for (unsigned cured = 0; cured < 1u << SPT_CAUSE_COUNT; cured++) {
        if (cured & ~loss.applying)
            cr_expect(isnan(loss.cured_life_h[cured]), "%#x", cured);
        else
            cr_expect(near(loss.cured_life_h[cured], life_cured(0, cured), 1e-12, 0), "%#x", cured);
    }
}
