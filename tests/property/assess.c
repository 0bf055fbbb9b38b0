/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/beet.h"
#include "support/near.h"

static void set_viscosity(struct beet *beet, double nu40_mm2_s, double nu100_mm2_s)
{
    cr_assert_eq(
        spt_viscosity_line(40, nu40_mm2_s, 100, nu100_mm2_s, &beet->question.lubricant.line),
        SPT_OK);
}

static void assess(const struct beet *beet, struct spt_phase_result *phases,
                   struct spt_assessment *answer)
{
    cr_assert_eq(spt_assess(&beet->question, phases, answer), SPT_OK);
}

Test(assess_property, life_falls_with_load_in_any_phase)
{
    for (int i = 0; i < BEET_PHASES; i++) {
        struct beet beet;
        beet_prepare(&beet);
        beet.phases[2].radial_load_n = 15e3; /* off the limit of the life factor */
        double last_h = beet_life_h(&beet);
        for (int step = 0; step < 12; step++) {
            beet.phases[i].radial_load_n *= 1.07;
            double life_h = beet_life_h(&beet);
            cr_expect_lt(life_h, last_h, "phase %d, %g N", i, beet.phases[i].radial_load_n);
            last_h = life_h;
        }
    }
}

Test(assess_property, life_falls_with_dirt_class_by_class)
{
    struct beet beet;
    beet_prepare(&beet);
    int first = (int)spt_cleanliness_first(SPT_LUBRICATION_GREASE);
    double last_h = (double)INFINITY;
    for (int i = 0; i < spt_cleanliness_count(SPT_LUBRICATION_GREASE); i++) {
        beet.phases[0].condition.cleanliness = (enum spt_cleanliness)(first + i);
        double life_h = beet_life_h(&beet);
        cr_expect_lt(life_h, last_h, "%s",
                     spt_cleanliness_name(beet.phases[0].condition.cleanliness));
        last_h = life_h;
    }
}

Test(assess_property, life_falls_with_water_from_100_ppm_to_its_floor)
{
    struct beet beet;
    beet_prepare(&beet);
    double last_h = (double)INFINITY;
    for (int i = 0; i < BEET_PHASES; i++) /* so that the interval of the grease stays */
        beet.phases[i].condition.surroundings.moisture = SPT_MOISTURE_SPLASH;
    for (double ppm = 100; ppm < 5000; ppm *= 1.3) {
        for (int i = 0; i < BEET_PHASES; i++)
            beet.phases[i].condition.water_ppm = ppm;
        double life_h = beet_life_h(&beet);
        cr_expect_lt(life_h, last_h, "%g ppm", ppm);
        last_h = life_h;
    }
    for (int i = 0; i < BEET_PHASES; i++)
        beet.phases[i].condition.water_ppm = 0;
    double dry_h = beet_life_h(&beet);
    for (int i = 0; i < BEET_PHASES; i++)
        beet.phases[i].condition.water_ppm = 1e5;
    cr_expect(near(beet_life_h(&beet), dry_h * SPT_WATER_FLOOR, 1e-12, 0));
}

Test(assess_property, life_falls_with_the_age_of_the_grease_until_there_is_none)
{
    struct beet beet;
    beet_prepare(&beet);
    double last_h = (double)INFINITY;
    bool exhausted = false;
    for (double age_h = 200; age_h < 1e6; age_h *= 1.4) {
        for (int i = 0; i < BEET_PHASES; i++)
            beet.phases[i].condition.grease_age_h = age_h;
        double life_h = beet_life_h(&beet);
        cr_expect(!(exhausted && !isnan(life_h)), "%g h: a life after exhaustion", age_h);
        exhausted = exhausted || isnan(life_h);
        if (!exhausted)
            cr_expect_lt(life_h, last_h, "%g h", age_h);
        last_h = life_h;
    }
    cr_expect(exhausted);
}

Test(assess_property, life_rises_with_viscosity_up_to_kappa_4_and_not_beyond)
{
    double last_h = 0;
    for (double factor = 0.3; factor < 30; factor *= 1.25) {
        struct beet beet;
        struct spt_phase_result phases[BEET_PHASES];
        struct spt_bearing_result result;
        beet_prepare(&beet);
        for (int i = 0; i < BEET_PHASES; i++)
            beet.phases[i].condition.grease_age_h = 0;
        set_viscosity(&beet, 150 * factor, 14.5 * factor);
        cr_assert_eq(spt_assess_bearing(&beet.question, 0, 0, phases, &result), SPT_OK);
        double least = fmin(fmin(phases[0].viscosity_ratio, phases[1].viscosity_ratio),
                            phases[2].viscosity_ratio);
        double life_h = result.modified_rating_life_h;
        if (least > 4 * 1.25) {
            cr_expect(near(life_h, last_h, 1e-9, 0), "x %g: %.12g, %.12g", factor, life_h, last_h);
            cr_expect(spt_notes_has(&phases[0].notes, SPT_FLAG_FILM_CAPPED));
        } else if (least > SPT_KAPPA_MIN) {
            cr_expect_gt(life_h, last_h, "x %g, kappa %g", factor, least);
        }
        last_h = life_h;
    }
}

Test(assess_property, two_like_phases_are_worth_one_of_their_time)
{
    struct beet one, two;
    beet_prepare(&one);
    one.phases[1] = one.phases[0];
    one.phases[1].time_share = 0.2;
    beet_prepare(&two);
    two.phases[0].time_share = 0.65;
    two.phases[1].time_share = 0;
    cr_expect(near(beet_life_h(&one), beet_life_h(&two), 1e-12, 0));
}

Test(assess_property, the_order_of_the_phases_does_not_matter)
{
    static const int orders[][BEET_PHASES] = {
        {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}};
    struct beet beet;
    struct spt_phase_result phases[BEET_PHASES], moved[BEET_PHASES];
    struct spt_assessment want, got;
    beet_prepare(&beet);
    assess(&beet, phases, &want);
    for (size_t k = 0; k < sizeof orders / sizeof *orders; k++) {
        struct beet other;
        beet_prepare(&other);
        for (int i = 0; i < BEET_PHASES; i++)
            other.phases[i] = beet.phases[orders[k][i]];
        assess(&other, moved, &got);
        cr_expect(near(got.modified_rating_life_h, want.modified_rating_life_h, 1e-12, 0));
        cr_expect(near(got.basic_rating_life_h, want.basic_rating_life_h, 1e-12, 0));
        cr_expect(near(got.bearings[0].mean_equivalent_load_n,
                       want.bearings[0].mean_equivalent_load_n, 1e-12, 0));
        for (int i = 0; i < BEET_PHASES; i++)
            cr_expect(near(moved[i].damage_share, phases[orders[k][i]].damage_share, 1e-12, 1e-15));
        for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
            cr_expect(near(got.bearings[0].loss.causes[cause].log_life_share,
                           want.bearings[0].loss.causes[cause].log_life_share, 1e-9, 1e-12));
    }
}

/* Shares are what counts, so a study may scale them: the life of time lived scales with them. */
Test(assess_property, damage_shares_sum_to_one_and_follow_palmgren_and_miner)
{
    struct beet beet;
    struct spt_phase_result phases[BEET_PHASES];
    struct spt_assessment answer;
    beet_prepare(&beet);
    assess(&beet, phases, &answer);
    double rate_per_h = 0, sum = 0;
    for (int i = 0; i < BEET_PHASES; i++) {
        rate_per_h += phases[i].phase->time_share / phases[i].modified_rating_life_h;
        sum += phases[i].damage_share;
    }
    cr_expect(near(sum, 1, 1e-12, 0));
    cr_expect(near(answer.modified_rating_life_h, 1 / rate_per_h, 1e-12, 0));
    for (int i = 0; i < BEET_PHASES; i++)
        cr_expect(near(phases[i].damage_share,
                       phases[i].phase->time_share / phases[i].modified_rating_life_h / rate_per_h,
                       1e-12, 0));
    cr_expect_gt(phases[answer.bearings[0].worst_phase].damage_share, 1.0 / BEET_PHASES);
}

/* ISO 281:2007 equation (4), (C/P)^(10/3) of rollers: the mean load gives the life of the duty. */
Test(assess_property, revolutions_of_the_basic_life_are_those_of_the_mean_load)
{
    struct beet beet;
    struct spt_phase_result phases[BEET_PHASES];
    struct spt_assessment answer;
    beet_prepare(&beet);
    assess(&beet, phases, &answer);
    const struct spt_bearing_result *row = &answer.bearings[0];
    double rating_n = row->bearing_case->bearing.dynamic_load_rating_n;
    cr_expect(near(row->basic_rating_life_mrev,
                   pow(rating_n / row->mean_equivalent_load_n, 10.0 / 3), 1e-12, 0));
}

Test(assess_property, standstill_and_no_load_do_no_damage)
{
    struct beet beet;
    struct spt_phase_result phases[BEET_PHASES];
    struct spt_assessment answer;
    beet_prepare(&beet);
    beet.phases[1].speed_rpm = 0;
    beet.phases[1].condition.water_ppm = 9000; /* would ruin a phase that turns */
    beet.phases[2].radial_load_n = 0;
    beet.phases[2].axial_load_n = 0;
    assess(&beet, phases, &answer);
    for (int i = 1; i < BEET_PHASES; i++) {
        cr_expect(isinf(phases[i].modified_rating_life_h) && isinf(phases[i].basic_rating_life_h));
        cr_expect_eq(phases[i].damage_share, 0.0);
    }
    cr_expect(spt_notes_has(&phases[1].notes, SPT_FLAG_STANDSTILL));
    cr_expect(spt_notes_has(&phases[2].notes, SPT_FLAG_NO_LOAD));
    cr_expect(near(answer.modified_rating_life_h,
                   phases[0].modified_rating_life_h / beet.phases[0].time_share, 1e-12, 0));
    cr_expect(near(phases[1].static_safety_factor, 167.4e3 / phases[1].resting.load_n, 1e-12, 0),
              "static safety still counts");
}

/* ISO 281:2007, 9.3.3.3: the method holds from kappa 0.1. */
Test(assess_property, below_kappa_0_1_there_is_a_flag_and_never_a_number)
{
    double last_kappa = (double)INFINITY;
    int below = 0;
    for (double speed_rpm = 400; speed_rpm > 0.5; speed_rpm /= 1.5) {
        struct beet beet;
        struct spt_phase_result phases[BEET_PHASES];
        struct spt_assessment answer;
        beet_prepare(&beet);
        beet.phases[0].speed_rpm = speed_rpm;
        beet.question.lubricant.ep_additive = true; /* no credit can mend this */
        assess(&beet, phases, &answer);
        double kappa = phases[0].effective_viscosity_ratio;
        cr_expect_lt(kappa, last_kappa);
        last_kappa = kappa;
        bool thin = kappa < SPT_KAPPA_MIN;
        below += thin;
        cr_expect_eq(isnan(phases[0].modified_rating_life_h), thin, "kappa %g", kappa);
        cr_expect_eq(isnan(answer.modified_rating_life_h), thin, "kappa %g", kappa);
        cr_expect_eq(spt_notes_has(&phases[0].notes, SPT_FLAG_FILM_TOO_THIN), thin);
        cr_expect(isnan(phases[0].factor.a_iso) == thin && isfinite(phases[0].basic_rating_life_h));
    }
    cr_expect_gt(below, 2);
}

Test(assess_property, a_life_falls_with_reliability_as_its_factor_says)
{
    struct beet beet;
    beet_prepare(&beet);
    double life_90_h = beet_life_h(&beet), a1;
    for (double s = 91; s <= 99.95; s += 0.5) {
        beet.question.reliability_percent = s;
        cr_assert_eq(spt_life_reliability_factor(s, &a1), SPT_OK);
        cr_expect(near(beet_life_h(&beet), a1 * life_90_h, 1e-12, 0), "%g %%", s);
    }
}

/* Each of two like rows has to survive at the square root, which takes the part of its life beyond
 * the least one down by 2^(-1/1.5) = 0.63. */
Test(assess_property, two_like_bearings_live_as_their_system)
{
    struct beet beet;
    struct spt_phase_result phases[2 * BEET_PHASES];
    struct spt_assessment answer;
    beet_prepare(&beet);
    beet.question.bearing_count = 2;
    beet.question.bearings[1] = beet.question.bearings[0];
    assess(&beet, phases, &answer);
    cr_expect_eq(answer.bearings[1].phases, phases + BEET_PHASES);
    double l10_h = answer.bearings[0].modified_rating_life_h / answer.reliability_factor;
    double each = pow(2, -1 / 1.5) * (answer.reliability_factor - 0.05) + 0.05;
    cr_expect(near(answer.modified_rating_life_h, each * l10_h, 1e-12, 0));
    cr_expect(near(answer.bearings[1].modified_rating_life_h,
                   answer.bearings[0].modified_rating_life_h, 0, 0));
}

Test(assess_property, wrong_counts_and_numbers_are_refused)
{
    struct beet beet;
    struct spt_phase_result phases[BEET_PHASES];
    struct spt_assessment answer;
    beet_prepare(&beet);
    beet.question.bearings[0].phase_count = 0;
    cr_expect_eq(spt_assess(&beet.question, phases, &answer), SPT_BAD_ARGUMENT);
    beet.question.bearings[0].phase_count = SPT_PHASES_MAX + 1;
    cr_expect_eq(spt_assess(&beet.question, phases, &answer), SPT_TOO_SMALL);
    beet_prepare(&beet);
    beet.question.reliability_percent = 50;
    cr_expect_eq(spt_assess(&beet.question, phases, &answer), SPT_BAD_ARGUMENT);
    beet_prepare(&beet);
    beet.phases[1].radial_load_n = -1;
    cr_expect_eq(spt_assess(&beet.question, phases, &answer), SPT_BAD_ARGUMENT);
}

/* degC at which the oil has a viscosity: ASTM D341 the other way round. */
static double temperature_of(const struct spt_walther *line, double nu_mm2_s)
{
    return pow(10, (line->a - log10(log10(nu_mm2_s + 0.7))) / line->b) - 273.15;
}

/* kappa 0.4: common practice, no source. */
Test(assess_property, a_film_below_0_4_is_flagged_unless_the_ep_rule_holds)
{
    static const double kappas[] = {0.403, 0.397};
    for (int i = 0; i < 4; i++) {
        struct beet beet;
        struct spt_phase_result results[BEET_PHASES];
        struct spt_assessment answer;
        beet_prepare(&beet);
        beet.question.lubricant.kind = SPT_LUBRICATION_OIL_BATH;
        beet.question.lubricant.ep_additive = i > 1;
        for (int j = 0; j < BEET_PHASES; j++)
            beet.phases[j].condition.contamination_factor = 0.5;
        assess(&beet, results, &answer);
        double wanted = results[0].reference_viscosity_mm2_s * kappas[i % 2];
        beet.phases[0].temperature_c = temperature_of(&beet.question.lubricant.line, wanted);
        assess(&beet, results, &answer);
        cr_assert(near(results[0].effective_viscosity_ratio, kappas[i % 2], 1e-3, 0));
        cr_expect_eq(spt_notes_has(&results[0].notes, SPT_FLAG_FILM_THIN), i == 1, "%d", i);
    }
}

/* Limits of practice that the life does not know: speed with oil, oil too cold to flow, a ball
 * bearing loaded above C0 (ISO 281:2007, scope, from memory) or half of C, heat, dirt. C 126.5 kN.
 */
Test(assess_property, what_the_life_does_not_know_is_flagged_from_its_limit_on)
{
    static const struct {
        double speed_rpm, temperature_c, nu_mm2_s, load_n, e_c;
        enum spt_flag flag;
        enum spt_lubrication kind;
        bool flagged;
    } rows[] = {
        {11760, 70, 0, 20e3, 0.5, SPT_FLAG_OIL_SPEED, SPT_LUBRICATION_OIL_BATH, false},
        {11770, 70, 0, 20e3, 0.5, SPT_FLAG_OIL_SPEED, SPT_LUBRICATION_OIL_BATH, true},
        {400, 0, 9950, 20e3, 0.5, SPT_FLAG_OIL_SLUGGISH, SPT_LUBRICATION_OIL_BATH, false},
        {400, 0, 10050, 20e3, 0.5, SPT_FLAG_OIL_SLUGGISH, SPT_LUBRICATION_OIL_BATH, true},
        {400, 0, 2.01, 20e3, 0.5, SPT_FLAG_VISCOSITY_RANGE, SPT_LUBRICATION_OIL_BATH, false},
        {400, 0, 1.99, 20e3, 0.5, SPT_FLAG_VISCOSITY_RANGE, SPT_LUBRICATION_OIL_BATH, true},
        {400, 150, 0, 20e3, 0.5, SPT_FLAG_HOT_RATING, SPT_LUBRICATION_OIL_BATH, false},
        {400, 150.5, 0, 20e3, 0.5, SPT_FLAG_HOT_RATING, SPT_LUBRICATION_OIL_BATH, true},
        {400, 70, 0, 59.9e3, 0.5, SPT_FLAG_ABOVE_STATIC, SPT_LUBRICATION_OIL_BATH, false},
        {400, 70, 0, 60.1e3, 0.5, SPT_FLAG_ABOVE_STATIC, SPT_LUBRICATION_OIL_BATH, true},
        {400, 70, 0, 63.1e3, 0.5, SPT_FLAG_OVERLOAD, SPT_LUBRICATION_OIL_BATH, false},
        {400, 70, 0, 63.4e3, 0.5, SPT_FLAG_OVERLOAD, SPT_LUBRICATION_OIL_BATH, true},
        {400, 70, 0, 20e3, 0.1, SPT_FLAG_HEAVY_CONTAMINATION, SPT_LUBRICATION_OIL_BATH, false},
        {400, 70, 0, 20e3, 0.0995, SPT_FLAG_HEAVY_CONTAMINATION, SPT_LUBRICATION_OIL_BATH, true},
        {400, 120, 0, 20e3, 0.5, SPT_FLAG_GREASE_HOT, SPT_LUBRICATION_GREASE, false},
        {400, 120.5, 0, 20e3, 0.5, SPT_FLAG_GREASE_HOT, SPT_LUBRICATION_GREASE, true},
        {400, -20, 0, 20e3, 0.5, SPT_FLAG_GREASE_COLD, SPT_LUBRICATION_GREASE, false},
        {400, -20.1, 0, 20e3, 0.5, SPT_FLAG_GREASE_COLD, SPT_LUBRICATION_GREASE, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct beet beet;
        struct spt_phase_result results[BEET_PHASES];
        struct spt_assessment answer;
        beet_prepare(&beet);
        beet.question.lubricant.kind = rows[i].kind;
        beet.question.bearings[0].bearing.type = SPT_DEEP_GROOVE_BALL;
        beet.question.bearings[0].bearing.static_load_rating_n = 60e3;
        beet.phases[0].speed_rpm = rows[i].speed_rpm;
        beet.phases[0].temperature_c =
            rows[i].nu_mm2_s > 0 ? temperature_of(&beet.question.lubricant.line, rows[i].nu_mm2_s)
                                 : rows[i].temperature_c;
        beet.phases[0].equivalent_load_n = rows[i].load_n;
        for (int j = 0; j < BEET_PHASES; j++)
            beet.phases[j].condition.contamination_factor = rows[i].e_c;
        assess(&beet, results, &answer);
        cr_expect_eq(spt_notes_has(&results[0].notes, rows[i].flag), rows[i].flagged, "row %zu", i);
    }
}

static double limit_of(const struct spt_notes *notes, enum spt_flag flag)
{
    for (int i = 0; i < notes->count; i++)
        if (notes->list[i].flag == flag)
            return notes->list[i].limit;
    return (double)NAN;
}

/* Sliding at the rib of tapered rollers, in m/s: common practice, no source. */
Test(assess_property, rib_speeds_are_flagged_from_their_limit_on)
{
    static const double limits[] = {[SPT_LUBRICATION_GREASE] = 5,
                                    [SPT_LUBRICATION_OIL_BATH] = 13,
                                    [SPT_LUBRICATION_CIRCULATING] = 25};
    for (int i = 0; i < 6; i++) {
        struct beet beet;
        struct spt_phase_result results[BEET_PHASES];
        struct spt_assessment answer;
        double limit = limits[i / 2];
        beet_prepare(&beet);
        beet.question.lubricant.kind = (enum spt_lubrication)(i / 2);
        for (int j = 0; j < BEET_PHASES; j++)
            beet.phases[j].condition.contamination_factor = 0.5;
        beet.phases[0].speed_rpm = limit * (i % 2 ? 1.001 : 0.999) * 60e3 / (acos(-1.0) * 85);
        assess(&beet, results, &answer);
        double told = limit_of(&results[0].notes, SPT_FLAG_RIB_SPEED);
        cr_expect(i % 2 ? told == limit : isnan(told), "%g m/s, %s", limit,
                  i % 2 ? "above" : "below");
    }
}

/* 300 degC, 2e7 mm2/s (end of ASTM D341), with temperatures given and estimated. */
Test(assess_property, what_is_beyond_any_rule_names_the_limit)
{
    static const struct {
        double temperature_c, ambient_c, extra_heat_w;
        enum spt_flag flag;
        double limit;
    } rows[] = {{301, 20, 0, SPT_FLAG_TOO_HOT, 300},
                {(double)NAN, 20, 1e6, SPT_FLAG_TOO_HOT, 300},
                {-55, 20, 0, SPT_FLAG_OIL_TOO_STIFF, 2e7},
                {(double)NAN, -55, 0, SPT_FLAG_OIL_TOO_STIFF, 2e7}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct beet beet;
        struct spt_phase_result results[BEET_PHASES];
        struct spt_assessment answer;
        beet_prepare(&beet);
        set_viscosity(&beet, 3000, 60);
        for (int j = 0; j < BEET_PHASES; j++)
            beet.phases[j].cooling_factor = 1;
        beet.phases[0].temperature_c = rows[i].temperature_c;
        beet.phases[0].ambient_c = rows[i].ambient_c;
        beet.phases[0].extra_heat_w = rows[i].extra_heat_w;
        assess(&beet, results, &answer);
        cr_expect_eq(limit_of(&results[0].notes, rows[i].flag), rows[i].limit, "row %zu: %g", i,
                     limit_of(&results[0].notes, rows[i].flag));
    }
}

/* A year has 8766 h (365.25 days). */
Test(assess_property, an_age_beyond_the_limit_is_flagged_in_years)
{
    struct beet beet;
    struct spt_phase_result phases[BEET_PHASES];
    struct spt_assessment answer;
    beet_prepare(&beet);
    beet.question.yearly_use_h = 500;
    double years = beet_life_h(&beet) / 500;
    for (int over = 0; over < 2; over++) {
        beet.question.age_limit_h = years * (over ? 0.999 : 1.001) * 8766;
        assess(&beet, phases, &answer);
        double told = limit_of(&answer.bearings[0].notes, SPT_FLAG_CALENDAR_AGE);
        cr_expect(over ? near(told, years * 0.999, 1e-12, 0) : isnan(told), "%g years", told);
    }
}

Test(assess_property, shares_that_do_not_sum_to_one_are_told_from_1e_4_on)
{
    static const double sums[] = {1.0000995, 1.0001005, 0.9999005, 0.9998995};
    for (int i = 0; i < 4; i++) {
        struct beet beet;
        struct spt_phase_result phases[BEET_PHASES];
        struct spt_assessment answer;
        beet_prepare(&beet);
        beet.question.shares_sum = sums[i];
        assess(&beet, phases, &answer);
        cr_expect_eq(spt_notes_has(&answer.notes, SPT_FLAG_SHARES_SCALED), i % 2, "%.7f", sums[i]);
    }
}

/* Skidding needs speed (n d_m, here d_m 85 mm) and time: both limits are our choice. C 126.5 kN, so
 * that 2 % of it are 2530 N. */
Test(assess_property, light_loads_are_flagged_only_where_they_run_fast_and_for_long)
{
    static const struct {
        double speed_rpm[2], load_n[2], time_share[2];
        bool flagged[2];
    } rows[] = {
        {{1180, 400}, {1000, 20000}, {0.45, 0.2}, {true, false}},
        {{1170, 400}, {1000, 20000}, {0.45, 0.2}, {false, false}},
        {{20, 400}, {1000, 20000}, {0.45, 0.2}, {false, false}},
        {{1180, 400}, {2600, 20000}, {0.45, 0.2}, {false, false}},
        {{1180, 400}, {1000, 20000}, {0.06, 0.2}, {false, false}},
        {{1180, 1500}, {1000, 1200}, {0.06, 0.05}, {true, true}},
        {{1180, 1500}, {1000, 1200}, {0.05, 0.04}, {false, false}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct beet beet;
        struct spt_phase_result results[BEET_PHASES];
        struct spt_assessment answer;
        beet_prepare(&beet);
        for (int j = 0; j < 2; j++) {
            beet.phases[j].speed_rpm = rows[i].speed_rpm[j];
            beet.phases[j].radial_load_n = rows[i].load_n[j];
            beet.phases[j].axial_load_n = 0;
            beet.phases[j].time_share = rows[i].time_share[j];
        }
        beet.phases[2].radial_load_n = 20000;
        beet.phases[2].time_share = 1 - rows[i].time_share[0] - rows[i].time_share[1];
        assess(&beet, results, &answer);
        for (int j = 0; j < 2; j++)
            cr_expect_eq(spt_notes_has(&results[j].notes, SPT_FLAG_LIGHT_LOAD), rows[i].flagged[j],
                         "row %zu, phase %d", i, j);
    }
}
