/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The axioms of L. S. Shapley, A value for n-person games (1953): efficiency, null player,
 * symmetry, additivity; on ln(life) over the sets of cured causes. */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/beet.h"
#include "support/near.h"

static double life_with_h(const struct beet *beet, unsigned cured)
{
    struct spt_phase_result phases[BEET_PHASES];
    struct spt_bearing_result result;
    cr_assert_eq(spt_assess_bearing(&beet->question, 0, cured, phases, &result), SPT_OK);
    return result.modified_rating_life_h;
}

static void split(const struct beet *beet, struct spt_loss *loss)
{
    struct spt_phase_result phases[BEET_PHASES];
    cr_assert_eq(spt_loss_split(&beet->question, 0, phases, loss), SPT_OK);
}

/* A case in which every cause applies; the seed varies it. */
static void prepare(struct beet *beet, unsigned long long *seed)
{
    beet_prepare(beet);
    double age_h = random_between(seed, 50, 400);
    for (int i = 0; i < BEET_PHASES; i++) {
        struct spt_phase *phase = &beet->phases[i];
        phase->condition.water_ppm = random_between(seed, 120, 900);
        phase->condition.grease_age_h = age_h;
        phase->condition.cleanliness =
            i % 2 ? SPT_CLEANLINESS_GREASE_SLIGHT : SPT_CLEANLINESS_GREASE_NORMAL;
        phase->radial_load_n = random_between(seed, 19e3, 30e3);
        phase->temperature_c = random_between(seed, 60, 90);
        phase->setting_factor = random_between(seed, 0.5, 0.9);
        phase->cured_setting_factor = random_between(seed, 0.95, 1.1);
    }
}

Test(loss_property, shares_sum_to_the_whole_loss)
{
    unsigned long long seed = 1953;
    for (int k = 0; k < 40; k++) {
        struct beet beet;
        struct spt_loss loss;
        double sum = 0;
        prepare(&beet, &seed);
        split(&beet, &loss);
        for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
            cr_expect(loss.causes[i].applies, "%s", spt_cause_name((enum spt_cause)i));
            sum += loss.causes[i].log_life_share;
            cr_expect(near(loss.causes[i].life_if_cured_h, life_with_h(&beet, 1u << i), 1e-12, 0));
        }
        cr_expect(near(sum, log(beet_life_h(&beet) / loss.reference_life_h), 0, 1e-9), "%g", sum);
        cr_expect(
            near(loss.reference_life_h, life_with_h(&beet, (1u << SPT_CAUSE_COUNT) - 1), 1e-12, 0));
    }
}

/* The definition itself: the mean over all orders of what a cause adds where it comes in. */
static double mean_over_orders(const struct beet *beet, unsigned all, unsigned used, int player,
                               int *orders)
{
    double sum = 0;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        unsigned bit = 1u << i;
        int below = 0;
        if (!(all & bit) || (used & bit))
            continue;
        if (i == player) {
            double before = log(life_with_h(beet, all & ~used));
            double after = log(life_with_h(beet, all & ~(used | bit)));
            int left = 0, ways = 1;
            for (unsigned rest = all & ~(used | bit); rest; rest &= rest - 1)
                ways *= ++left;
            sum += ways * (after - before);
            below = ways;
        } else {
            sum += mean_over_orders(beet, all, used | bit, player, &below);
        }
        *orders += below;
    }
    return sum;
}

Test(loss_property, a_share_is_the_mean_over_all_orders_of_the_causes)
{
    unsigned long long seed = 7;
    struct beet beet;
    struct spt_loss loss;
    prepare(&beet, &seed);
    split(&beet, &loss);
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        int orders = 0;
        double sum = mean_over_orders(&beet, (1u << SPT_CAUSE_COUNT) - 1, 0, i, &orders);
        cr_expect_eq(orders, 720);
        cr_expect(near(loss.causes[i].log_life_share, sum / orders, 1e-10, 1e-12), "%s: %.12g",
                  spt_cause_name((enum spt_cause)i), sum / orders);
    }
}

Test(loss_property, a_cause_that_changes_nothing_has_no_share)
{
    unsigned long long seed = 11;
    struct beet beet;
    struct spt_loss loss;
    prepare(&beet, &seed);
    beet.question.reference_load_n = 1e6;
    for (int i = 0; i < BEET_PHASES; i++) {
        beet.phases[i].condition.water_ppm = 90;
        beet.phases[i].cured_setting_factor = beet.phases[i].setting_factor;
    }
    split(&beet, &loss);
    static const enum spt_cause none[] = {SPT_CAUSE_WATER, SPT_CAUSE_OVERLOAD, SPT_CAUSE_SETTING};
    for (int i = 0; i < 3; i++) {
        cr_expect(!loss.causes[none[i]].applies, "%s", spt_cause_name(none[i]));
        cr_expect_eq(loss.causes[none[i]].log_life_share, 0.0);
        cr_expect(near(loss.causes[none[i]].life_if_cured_h, beet_life_h(&beet), 1e-12, 0));
    }
    cr_expect(loss.causes[SPT_CAUSE_DEBRIS].applies);
}

/* Water and setting enter as factors; where the factors are alike the shares have to be. */
Test(loss_property, like_causes_have_like_shares)
{
    unsigned long long seed = 13;
    struct beet beet;
    struct spt_loss loss;
    prepare(&beet, &seed);
    for (int i = 0; i < BEET_PHASES; i++) {
        beet.phases[i].condition.water_ppm = 250;
        /* so that water does not shorten the interval of the grease as well */
        beet.phases[i].condition.surroundings.moisture = SPT_MOISTURE_SPLASH;
        beet.phases[i].setting_factor = pow(100.0 / 250, 0.6);
        beet.phases[i].cured_setting_factor = 1;
    }
    split(&beet, &loss);
    cr_expect(near(loss.causes[SPT_CAUSE_WATER].log_life_share,
                   loss.causes[SPT_CAUSE_SETTING].log_life_share, 1e-12, 0));
    cr_expect(near(loss.causes[SPT_CAUSE_WATER].log_life_share, 0.6 * log(100.0 / 250), 1e-12, 0),
              "a plain factor is its own logarithm");
}

/* Life times a constant (here a_1) moves every set alike, so no share moves. */
Test(loss_property, a_factor_on_every_life_leaves_the_shares)
{
    unsigned long long seed = 17;
    struct beet beet;
    struct spt_loss at_90, at_99;
    prepare(&beet, &seed);
    split(&beet, &at_90);
    beet.question.reliability_percent = 99;
    split(&beet, &at_99);
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        cr_expect(
            near(at_99.causes[i].log_life_share, at_90.causes[i].log_life_share, 1e-10, 1e-13));
    cr_expect_lt(at_99.reference_life_h, at_90.reference_life_h);
}

Test(loss_property, without_a_life_the_shares_have_no_value_but_the_cures_stand)
{
    struct beet beet;
    struct spt_loss loss;
    beet_prepare(&beet);
    for (int i = 0; i < BEET_PHASES; i++)
        beet.phases[i].condition.grease_age_h = 1e6;
    split(&beet, &loss);
    cr_expect(isnan(beet_life_h(&beet)));
    cr_expect(loss.causes[SPT_CAUSE_WORN_GREASE].applies);
    cr_expect(isnan(loss.causes[SPT_CAUSE_WORN_GREASE].log_life_share));
    cr_expect_gt(loss.causes[SPT_CAUSE_WORN_GREASE].life_if_cured_h, 0);
    cr_expect_gt(loss.reference_life_h, loss.causes[SPT_CAUSE_WORN_GREASE].life_if_cured_h);
}

Test(loss_property, oil_has_no_worn_grease_and_no_reference_load_no_overload)
{
    struct beet beet;
    struct spt_loss loss;
    beet_prepare(&beet);
    beet.question.lubricant.kind = SPT_LUBRICATION_OIL_BATH;
    beet.question.reference_load_n = (double)NAN;
    for (int i = 0; i < BEET_PHASES; i++)
        beet.phases[i].condition.cleanliness = SPT_CLEANLINESS_BATH_15_12;
    split(&beet, &loss);
    cr_expect(!loss.causes[SPT_CAUSE_WORN_GREASE].applies);
    cr_expect(!loss.causes[SPT_CAUSE_OVERLOAD].applies);
    cr_expect(!loss.causes[SPT_CAUSE_SETTING].applies);
    cr_expect(loss.causes[SPT_CAUSE_DEBRIS].applies);
}
