/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/history.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "spalltime/life.h"
#include "support/case_example.h"
#include "support/near.h"

#define BINS 1000
#define ROLLER (10.0 / 3)

/* A history with its memory, and the bins made of it. */
struct trial {
    struct spt_history history;
    struct spt_history_bin bins[BINS];
    int count;
    void *memory;
};

static struct spt_history_terms whole(double exponent)
{
    return (struct spt_history_terms){.kind = SPT_HISTORY_WHOLE,
                                      .exponent = exponent,
                                      .has_temperature = true,
                                      .bins = {8, 1, 3, 2}};
}

static struct trial *begin(const struct spt_history_terms *terms)
{
    size_t size = spt_history_size(terms);
    struct trial *trial = calloc(1, sizeof *trial);
    cr_assert(trial && size);
    trial->memory = malloc(size);
    cr_assert(trial->memory);
    cr_assert_eq(spt_history_begin(terms, trial->memory, size, &trial->history), SPT_OK);
    return trial;
}

static void end(struct trial *trial)
{
    free(trial->memory);
    free(trial);
}

static void add(struct trial *trial, double hours, double rpm, double load_n, double side_n,
                double temperature_c)
{
    const struct spt_history_sample sample = {hours, rpm, load_n, side_n, temperature_c};
    cr_assert_eq(spt_history_add(&trial->history, &sample), SPT_OK);
}

static void bin(struct trial *trial)
{
    cr_assert_eq(spt_history_bins(&trial->history, trial->history.terms.bins, trial->bins, BINS,
                                  &trial->count),
                 SPT_OK);
}

/* Numbers from 0 to 1 that are the same in every run. */
static double draw(unsigned *state)
{
    *state = *state * 1664525u + 1013904223u;
    return (double)(*state >> 8) / (1u << 24);
}

static double sum_damage(const struct trial *trial, double exponent)
{
    double sum = 0;
    for (int i = 0; i < trial->count; i++)
        sum += trial->bins[i].time_h * 60 * trial->bins[i].speed_rpm *
               pow(trial->bins[i].equivalent_n[0], exponent);
    return sum;
}

Test(history, a_constant_history_is_one_phase_with_its_values)
{
    struct spt_history_terms terms = whole(ROLLER);
    struct trial *trial = begin(&terms);
    for (int i = 0; i < 5000; i++)
        add(trial, 0.0025, 417.3, 15250.5, 0, 63.7);
    bin(trial);
    cr_assert_eq(trial->count, 1);
    cr_expect(near(trial->bins[0].time_h, 12.5, 1e-14, 0), "%.17g", trial->bins[0].time_h);
    cr_expect(near(trial->bins[0].speed_rpm, 417.3, 1e-14, 0), "%.17g", trial->bins[0].speed_rpm);
    cr_expect(near(trial->bins[0].load_n, 15250.5, 1e-14, 0), "%.17g", trial->bins[0].load_n);
    cr_expect(near(trial->bins[0].temperature_c, 63.7, 1e-14, 0), "%.17g",
              trial->bins[0].temperature_c);
    cr_expect_eq(trial->bins[0].sums.samples, 5000);
    end(trial);
}

/* Adds the samples of a made-up history from `from`, in steps of `step`, all of `count`. */
static void add_mixed(struct trial *trial, int count, int from, int step)
{
    for (int k = 0; k < count; k++) {
        unsigned state = (unsigned)((from + k * step) % count) + 7u;
        draw(&state);
        double hours = 0.01 + draw(&state), rpm = 600 * draw(&state);
        double load_n = 40e3 * pow(draw(&state), 3), temperature_c = 20 + 70 * draw(&state);
        add(trial, hours, rpm, load_n, 0, temperature_c);
    }
}

Test(history, the_order_of_the_samples_does_not_matter)
{
    struct spt_history_terms terms = whole(3);
    struct trial *forward = begin(&terms), *shuffled = begin(&terms);
    add_mixed(forward, 4001, 0, 1);
    add_mixed(shuffled, 4001, 1234, 1789); /* 4001 is prime: every sample once */
    bin(forward);
    bin(shuffled);
    cr_assert_eq(forward->count, shuffled->count);
    cr_assert_gt(forward->count, 20);
    for (int i = 0; i < forward->count; i++) {
        const struct spt_history_bin *a = &forward->bins[i], *b = &shuffled->bins[i];
        cr_expect_eq(memcmp(a->at, b->at, sizeof a->at), 0);
        cr_expect_eq(a->sums.samples, b->sums.samples);
        cr_expect(near(a->time_h, b->time_h, 1e-14, 0));
        cr_expect(near(a->speed_rpm, b->speed_rpm, 1e-14, 0));
        cr_expect(near(a->load_n, b->load_n, 1e-14, 0));
        cr_expect(near(a->temperature_c, b->temperature_c, 1e-13, 0));
    }
    end(forward);
    end(shuffled);
}

Test(history, ramps_up_and_down_over_many_powers_of_ten_end_in_the_same_bins)
{
    struct spt_history_terms terms = whole(ROLLER);
    struct trial *up = begin(&terms), *down = begin(&terms);
    for (int i = 0; i < 2000; i++) {
        add(up, 0.1, 1 + i, pow(10, i / 400.0), 0, i / 10.0 - 50);
        add(down, 0.1, 2000 - i, pow(10, (1999 - i) / 400.0), 0, (1999 - i) / 10.0 - 50);
    }
    bin(up);
    bin(down);
    cr_assert_eq(up->count, down->count);
    for (int i = 0; i < up->count; i++) {
        cr_expect_eq(up->bins[i].sums.samples, down->bins[i].sums.samples);
        cr_expect(near(up->bins[i].load_n, down->bins[i].load_n, 1e-14, 0));
    }
    end(up);
    end(down);
}

Test(history, a_long_sample_is_the_same_as_its_parts)
{
    struct spt_history_terms terms = whole(ROLLER);
    struct trial *once = begin(&terms), *parts = begin(&terms);
    for (int i = 0; i < 40; i++) {
        add(once, 1.25, 90 + i, 8e3 + 631.7 * i, 0, 40 + i);
        for (int j = 0; j < 5; j++)
            add(parts, j < 4 ? 0.125 : 0.75, 90 + i, 8e3 + 631.7 * i, 0, 40 + i);
    }
    bin(once);
    bin(parts);
    cr_assert_eq(once->count, parts->count);
    for (int i = 0; i < once->count; i++) {
        cr_expect(near(once->bins[i].time_h, parts->bins[i].time_h, 1e-14, 0));
        cr_expect(near(once->bins[i].load_n, parts->bins[i].load_n, 1e-14, 0));
    }
    end(once);
    end(parts);
}

Test(history, time_revolutions_and_damage_are_those_of_the_samples_for_any_bins)
{
    static const int counts[][SPT_HISTORY_AXES] = {
        {1, 1, 1, 1}, {8, 1, 3, 2}, {5, 1, 1, 1}, {16, 1, 6, 4}};
    struct spt_history_terms terms = whole(ROLLER);
    struct trial *trial = begin(&terms);
    double hours = 0, revolutions = 0, damage = 0;
    unsigned state = 5;
    for (int i = 0; i < 3000; i++) {
        double h = 0.01 + draw(&state), rpm = 1 + 300 * draw(&state), p = 2e4 * draw(&state);
        add(trial, h, rpm, p, 0, 90 * draw(&state));
        hours += h;
        revolutions += h * 60 * rpm;
        damage += h * 60 * rpm * pow(p, ROLLER);
    }
    for (size_t k = 0; k < sizeof counts / sizeof *counts; k++) {
        double h = 0, r = 0;
        cr_assert_eq(spt_history_bins(&trial->history, counts[k], trial->bins, BINS, &trial->count),
                     SPT_OK);
        for (int i = 0; i < trial->count; i++) {
            h += trial->bins[i].time_h;
            r += trial->bins[i].time_h * 60 * trial->bins[i].speed_rpm;
        }
        cr_expect(near(h, hours, 1e-12, 0) && near(r, revolutions, 1e-12, 0));
        cr_expect(near(sum_damage(trial, ROLLER), damage, 1e-12, 0));
    }
    end(trial);
}

Test(history, standing_still_is_time_with_the_largest_load_and_no_revolutions)
{
    struct spt_history_terms terms = whole(3);
    terms.standing_rpm = 0.5;
    struct trial *trial = begin(&terms);
    add(trial, 2, 0, 9e3, 0, 20);
    add(trial, 6, 0.5, 31e3, 0, 40); /* at the threshold: 180 revolutions not counted */
    add(trial, 4, 0.6, 7e3, 0, 30);
    bin(trial);
    cr_assert_eq(trial->count, 2);
    const struct spt_history_bin *standing = &trial->bins[1];
    cr_expect(standing->standing && !trial->bins[0].standing);
    cr_expect(near(standing->time_h, 8, 1e-15, 0) && standing->speed_rpm == 0);
    cr_expect(near(standing->temperature_c, 35, 1e-15, 0), "%.17g", standing->temperature_c);
    cr_expect_eq(standing->load_n, 31e3);
    struct spt_history_summary summary;
    spt_history_summarise(&trial->history, NULL, &summary);
    cr_expect(near(summary.standing_revolutions, 180, 1e-14, 0));
    cr_expect(near(summary.mean_speed_rpm, 0.6 / 3, 1e-14, 0));
    cr_expect_eq(summary.largest_n, 31e3);
    end(trial);
}

Test(history, magnitudes_are_taken_and_counted)
{
    struct spt_history_terms terms = {
        .kind = SPT_HISTORY_ALONE, .exponent = 3, .bins = {4, 4, 2, 1}};
    struct trial *trial = begin(&terms);
    add(trial, 1, -100, -5e3, -2e3, (double)NAN);
    add(trial, 1, 100, 5e3, 2e3, (double)NAN);
    bin(trial);
    cr_assert_eq(trial->count, 1);
    cr_expect(near(trial->bins[0].load_n, 5e3, 1e-14, 0));
    cr_expect(near(trial->bins[0].side_n, 2e3, 1e-14, 0));
    cr_expect(near(trial->bins[0].speed_rpm, 100, 1e-14, 0));
    cr_expect(isnan(trial->bins[0].temperature_c));
    cr_expect_eq(trial->history.reversed_samples, 1);
    cr_expect(trial->history.reversed_speeds == 1 && trial->history.reversed_loads == 1 &&
              trial->history.reversed_sides == 1);
    end(trial);
}

Test(history, no_bin_mixes_side_forces_of_both_signs)
{
    struct spt_history_terms terms = {
        .kind = SPT_HISTORY_ALONE, .exponent = 3, .signed_side = true, .bins = {1, 3, 1, 1}};
    struct trial *trial = begin(&terms);
    double forth = 0, back = 0;
    for (int i = 0; i < 500; i++) {
        double side_n = 3e3 * sin(0.7 * i) + 300;
        add(trial, 1, 50, 10e3, side_n, (double)NAN);
        (side_n > 0 ? &forth : &back)[0] += pow(fabs(side_n), 3);
    }
    bin(trial);
    cr_assert_eq(trial->count, 4, "%d", trial->count);
    for (int i = 0; i < trial->count; i++)
        (trial->bins[i].side_n > 0 ? &forth : &back)[0] -=
            trial->bins[i].time_h * pow(fabs(trial->bins[i].side_n), 3);
    cr_expect(fabs(forth) < 1e-2 && fabs(back) < 1e-2, "%g %g of 1e12", forth, back);
    end(trial);
}

static struct spt_bearing ball_bearing(void)
{
    return (struct spt_bearing){.type = SPT_DEEP_GROOVE_BALL,
                                .bore_mm = 50,
                                .outside_diameter_mm = 90,
                                .width_mm = 20,
                                .pitch_diameter_mm = 70,
                                .dynamic_load_rating_n = 35e3,
                                .static_load_rating_n = 23e3,
                                .fatigue_load_limit_n = 1e3,
                                .rows = 1,
                                .contact_angle_rad = (double)NAN,
                                .limit_ratio = (double)NAN,
                                .radial_factor = (double)NAN,
                                .axial_factor = (double)NAN,
                                .static_axial_factor = (double)NAN,
                                .f0 = 14.3,
                                .rib_diameter_mm = (double)NAN};
}

/* ISO 281:2007: 3 h at 300 r/min and 4 kN of a ball bearing of 35 kN, and 1 h of rest. */
Test(history, the_basic_life_of_one_load_is_that_of_iso_281)
{
    const struct spt_history_terms terms = whole(3);
    struct trial *trial = begin(&terms);
    struct spt_history_basic life;
    const double ratings[SPT_HISTORY_ROWS] = {35e3, 0};
    add(trial, 1, 0, 0, 0, 60);
    add(trial, 3, 300, 4e3, 0, 60);
    bin(trial);
    cr_assert_eq(spt_history_basic_life(&trial->history, trial->bins, trial->count, ratings, &life),
                 SPT_OK);
    double want = pow(35.0 / 4, 3) * 1e6 / (300 * 60 * 0.75);
    cr_expect(near(life.samples_h, want, 1e-12, 0), "%g for %g", life.samples_h, want);
    cr_expect(near(life.bins_h, want, 1e-12, 0), "%g for %g", life.bins_h, want);
    end(trial);
}

/* The factors of a deep groove bearing depend on the load, so that P does not grow in proportion.
 */
Test(history, radial_and_axial_loads_of_a_phase_make_the_mean_equivalent_load)
{
    const struct spt_bearing bearing = ball_bearing();
    struct spt_history_terms terms = {
        .kind = SPT_HISTORY_PARTS, .bearing = &bearing, .exponent = 3, .bins = {4, 1, 2, 1}};
    struct trial *trial = begin(&terms);
    struct spt_history_basic life;
    const double ratings[SPT_HISTORY_ROWS] = {35e3, 0};
    unsigned state = 11;
    for (int i = 0; i < 700; i++) {
        double side_n = 2.5e3 * draw(&state), load_n = 4e3 * draw(&state);
        add(trial, 0.2, 200 + 800 * draw(&state), load_n, side_n, (double)NAN);
    }
    bin(trial);
    cr_assert_eq(spt_history_basic_life(&trial->history, trial->bins, trial->count, ratings, &life),
                 SPT_OK);
    cr_expect(near(life.bins_h, life.samples_h, 1e-12, 0), "%.17g %.17g", life.bins_h,
              life.samples_h);
    for (int i = 0; i < trial->count; i++) {
        double made[SPT_HISTORY_ROWS];
        spt_history_equivalent(&terms, trial->bins[i].load_n, trial->bins[i].side_n, made);
        cr_expect(near(made[0], trial->bins[i].equivalent_n[0], 1e-12, 0));
    }
    end(trial);
}

static struct spt_hub_handbook pair(void)
{
    return (struct spt_hub_handbook){.rows = {{-20, 1.7, 0.35, 98.7e3}, {75, 1.5, 0.4, 68.5e3}},
                                     .mounting = SPT_HUB_BACK_TO_BACK,
                                     .turning = SPT_HUB_OUTER_TURNS,
                                     .induced_factor = 0.5};
}

/* Side forces from `least_n` to `most_n`; the bins must have the basic life of the samples. */
static void check_hub(double least_n, double most_n)
{
    const struct spt_hub_handbook handbook = pair();
    struct spt_history_terms terms = {.kind = SPT_HISTORY_WHEEL,
                                      .handbook = &handbook,
                                      .rolling_radius_mm = 380,
                                      .exponent = ROLLER,
                                      .bins = {4, 4, 2, 1}};
    struct trial *trial = begin(&terms);
    struct spt_history_basic life;
    const double ratings[SPT_HISTORY_ROWS] = {98.7e3, 68.5e3};
    unsigned state = 3;
    /* one draw a statement: compilers differ in the order of a call */
    for (int i = 0; i < 900; i++) {
        double side_n = least_n + (most_n - least_n) * draw(&state);
        double load_n = 9e3 + 8e3 * draw(&state);
        add(trial, 0.1, 300 + 100 * draw(&state), load_n, side_n, (double)NAN);
    }
    bin(trial);
    cr_assert_eq(spt_history_basic_life(&trial->history, trial->bins, trial->count, ratings, &life),
                 SPT_OK);
    cr_expect(near(life.bins_h, life.samples_h, 1e-11, 0), "%g to %g N: %.17g %.17g", least_n,
              most_n, life.bins_h, life.samples_h);
    for (int i = 0; i < trial->count; i++)
        cr_expect(trial->bins[i].load_n > 8e3 && trial->bins[i].load_n < 19e3,
                  "wheel load %g N is far from all samples", trial->bins[i].load_n);
    end(trial);
}

Test(history, each_row_of_a_hub_has_the_damage_of_its_samples)
{
    check_hub(-3e3, 3e3);
    check_hub(500, 4e3);
    check_hub(-2500, -300);
    check_hub(0, 0);
}

Test(history, bad_samples_and_too_many_bins_are_refused)
{
    struct spt_history_terms terms = whole(3);
    struct trial *trial = begin(&terms);
    static const struct spt_history_sample bad[] = {
        {0, 10, 1e3, 0, 20},          {-1, 10, 1e3, 0, 20},
        {1, (double)NAN, 1e3, 0, 20}, {1, 10, (double)INFINITY, 0, 20},
        {1, 10, 1e3, 2e9, 20},        {1, 10, 1e3, 0, (double)NAN},
        {1e10, 10, 1e3, 0, 20},
    };
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++)
        cr_expect_eq(spt_history_add(&trial->history, &bad[i]), SPT_BAD_ARGUMENT, "sample %zu", i);
    cr_expect_eq(trial->history.total.samples, 0);
    bin(trial);
    cr_expect_eq(trial->count, 0);
    for (int i = 0; i < 10; i++)
        add(trial, 1, 10, 1e3 * i, 0, 20);
    cr_expect_eq(spt_history_bins(&trial->history, terms.bins, trial->bins, 3, &trial->count),
                 SPT_TOO_SMALL);
    const int too_many[SPT_HISTORY_AXES] = {17, 1, 1, 1};
    cr_expect_eq(spt_history_bins(&trial->history, too_many, trial->bins, BINS, &trial->count),
                 SPT_BAD_ARGUMENT);
    end(trial);
    terms.bins[0] = 65;
    cr_expect_eq(spt_history_size(&terms), 0);
    terms = whole(-1);
    cr_expect_eq(spt_history_size(&terms), 0);
    const struct spt_history_terms huge = {
        .kind = SPT_HISTORY_ALONE, .exponent = 3, .bins = {64, 64, 64, 64}};
    cr_expect_eq(spt_history_size(&huge), 0);
}

/* Rules of this tool: 20 times the usual time of a sample, 5 % of the modified life. */
Test(history, long_holds_and_coarse_bins_are_told_from_their_limit_on)
{
    struct example_case made;
    example_make(&made, SPT_LUBRICATION_GREASE, 1);
    for (int over = 0; over < 2; over++) {
        struct spt_history_summary summary = {.exponent = 10.0 / 3,
                                              .stamped = true,
                                              .usual_h = 0.25,
                                              .longest_h = over ? 5.01 : 4.99,
                                              .modified_h = 1000,
                                              .refined_h = over ? 949.8 : 950.2};
        struct spt_notes notes = {.count = 0};
        spt_history_notes(&summary, &made.question, &notes);
        cr_expect_eq(spt_notes_has(&notes, SPT_FLAG_HISTORY_LONG_HOLD), over);
        cr_expect_eq(spt_notes_has(&notes, SPT_FLAG_HISTORY_COARSE), over);
    }
}

Test(history, samples_are_taken_up_to_the_end_of_their_range)
{
    static const struct {
        struct spt_history_sample sample;
        bool taken;
    } rows[] = {
        {{1, 1e6, 4e3, 0, 60}, true},   {{1, 1.001e6, 4e3, 0, 60}, false},
        {{1, -1e6, 4e3, 0, 60}, true},  {{1, -1.001e6, 4e3, 0, 60}, false},
        {{1, 300, 4e3, 0, 1000}, true}, {{1, 300, 4e3, 0, 1000.5}, false},
        {{1, 300, 1e9, 0, 60}, true},   {{1, 300, 1.001e9, 0, 60}, false},
        {{1e9, 300, 4e3, 0, 60}, true}, {{1.001e9, 300, 4e3, 0, 60}, false},
        {{1, 300, 4e3, 0, -273}, true}, {{1, 300, 4e3, 0, -274}, false},
    };
    const struct spt_history_terms terms = whole(3);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct trial *trial = begin(&terms);
        enum spt_status status = spt_history_add(&trial->history, &rows[i].sample);
        cr_expect_eq(status, rows[i].taken ? SPT_OK : SPT_BAD_ARGUMENT, "row %zu: %d", i,
                     (int)status);
        end(trial);
    }
}
