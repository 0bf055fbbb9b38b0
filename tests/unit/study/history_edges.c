/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ends of what a load history accepts, as history.h states them, and what happens just there.
 */
#include <criterion/criterion.h>
#include <math.h>
#include <stddef.h>
#include <stdlib.h>

#include "spalltime/history.h"
#include "support/near.h"

#define BINS 100

static struct spt_history history;
static struct spt_history_bin bins[BINS];
static void *memory;

static void begin(const struct spt_history_terms *terms)
{
    size_t size = spt_history_size(terms);
    cr_assert_gt(size, 0);
    memory = malloc(size);
    cr_assert(memory);
    cr_assert_eq(spt_history_begin(terms, memory, size, &history), SPT_OK);
}

static void end(void)
{
    free(memory);
}

static struct spt_history_terms whole(void)
{
    return (struct spt_history_terms){
        .kind = SPT_HISTORY_WHOLE, .exponent = 3, .has_temperature = true, .bins = {1, 1, 1, 1}};
}

Test(history_edges, samples_are_taken_at_the_end_of_their_range_and_not_beyond)
{
    static const struct {
        const char *what;
        struct spt_history_sample last;
        size_t member;
        double towards;
    } rows[] = {
#define MEMBER(name) offsetof(struct spt_history_sample, name)
        {"longest", {1e9, 300, 4e3, 500, 60}, MEMBER(duration_h), (double)INFINITY},
        {"shortest", {1e-12, 300, 4e3, 500, 60}, MEMBER(duration_h), 0},
        {"fastest", {1, 1e6, 4e3, 500, 60}, MEMBER(speed_rpm), (double)INFINITY},
        {"fastest back", {1, -1e6, 4e3, 500, 60}, MEMBER(speed_rpm), -(double)INFINITY},
        {"heaviest", {1, 300, 1e9, 500, 60}, MEMBER(load_n), (double)INFINITY},
        {"heaviest turned", {1, 300, -1e9, 500, 60}, MEMBER(load_n), -(double)INFINITY},
        {"side", {1, 300, 4e3, 1e9, 60}, MEMBER(side_n), (double)INFINITY},
        {"side turned", {1, 300, 4e3, -1e9, 60}, MEMBER(side_n), -(double)INFINITY},
        {"coldest", {1, 300, 4e3, 500, -273.15}, MEMBER(temperature_c), -(double)INFINITY},
        {"hottest", {1, 300, 4e3, 500, 1000}, MEMBER(temperature_c), (double)INFINITY},
    };
    const struct spt_history_terms terms = whole();
    begin(&terms);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_history_sample sample = rows[i].last;
        double *number = (double *)(void *)((char *)&sample + rows[i].member);
        cr_expect_eq(spt_history_add(&history, &sample), SPT_OK, "%s", rows[i].what);
        *number = nextafter(*number, rows[i].towards);
        cr_expect_eq(spt_history_add(&history, &sample), SPT_BAD_ARGUMENT, "beyond: %s",
                     rows[i].what);
        *number = (double)NAN;
        cr_expect_eq(spt_history_add(&history, &sample), SPT_BAD_ARGUMENT, "none: %s",
                     rows[i].what);
    }
    cr_expect_eq(history.total.samples, (long long)(sizeof rows / sizeof *rows));
    end();
}

Test(history_edges, each_axis_has_1_to_64_bins)
{
    for (int axis = 0; axis < SPT_HISTORY_AXES; axis++) {
        static const struct {
            int bins;
            bool valid;
        } rows[] = {{0, false}, {1, true}, {64, true}, {65, false}};
        for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
            struct spt_history_terms terms = whole();
            terms.bins[axis] = rows[i].bins;
            cr_expect_eq(spt_history_size(&terms) > 0, rows[i].valid, "axis %d, %d bins", axis,
                         rows[i].bins);
        }
    }
}

Test(history_edges, terms_are_refused_for_each_number_alone)
{
    struct spt_hub_handbook handbook = {
        .rows = {{-47, 1.5, (double)NAN, 90000}, {72, 1.7, (double)NAN, 70000}},
        .induced_factor = 0.5};
    struct spt_bearing bearing = {.type = SPT_TAPERED_ROLLER};
    const struct spt_history_terms wheel = {.kind = SPT_HISTORY_WHEEL,
                                            .exponent = 3,
                                            .handbook = &handbook,
                                            .rolling_radius_mm = 1e-3,
                                            .bins = {1, 1, 1, 1}};
    struct spt_history_terms terms = wheel;
    cr_expect_gt(spt_history_size(&terms), 0);
    terms.rolling_radius_mm = 0;
    cr_expect_eq(spt_history_size(&terms), 0, "no rolling radius");
    terms = wheel;
    terms.handbook = NULL;
    cr_expect_eq(spt_history_size(&terms), 0, "no handbook");
    terms = whole();
    terms.kind = SPT_HISTORY_PARTS;
    cr_expect_eq(spt_history_size(&terms), 0, "no bearing");
    terms.bearing = &bearing;
    cr_expect_gt(spt_history_size(&terms), 0);
    static const struct {
        double exponent, standing_rpm;
        bool valid;
    } rows[] = {
        {1e-3, 0, true}, {0, 0, false},     {(double)INFINITY, 0, false}, {(double)NAN, 0, false},
        {3, 7.3, true},  {3, -1e-9, false}, {3, (double)INFINITY, false}, {3, (double)NAN, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        terms = whole();
        terms.exponent = rows[i].exponent;
        terms.standing_rpm = rows[i].standing_rpm;
        cr_expect_eq(spt_history_size(&terms) > 0, rows[i].valid, "%g, %g r/min", rows[i].exponent,
                     rows[i].standing_rpm);
    }
}

/* Ours: eight cells for a bin up to 2^17 cells, then four, and none above 2^18. Two copies are
 * kept. */
Test(history_edges, the_memory_holds_as_many_cells_as_fit)
{
    static const struct {
        int load, speed, temperature;
        bool warm;
        size_t cells;
    } rows[] = {{64, 32, 1, false, (size_t)1 << 17}, {64, 33, 1, false, 64 * 33 * 16},
                {64, 64, 1, true, (size_t)1 << 18},  {64, 64, 2, true, 0},
                {3, 5, 2, true, 3 * 5 * 2 * 512},    {3, 5, 2, false, 3 * 5 * 64}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_history_terms terms = whole();
        terms.has_temperature = rows[i].warm;
        terms.bins[SPT_HISTORY_LOAD] = rows[i].load;
        terms.bins[SPT_HISTORY_SPEED] = rows[i].speed;
        terms.bins[SPT_HISTORY_TEMPERATURE] = rows[i].temperature;
        cr_expect_eq(spt_history_size(&terms), 2 * rows[i].cells * sizeof(struct spt_history_sums),
                     "row %zu", i);
    }
}

Test(history_edges, memory_that_is_one_byte_short_is_refused)
{
    const struct spt_history_terms terms = whole();
    size_t size = spt_history_size(&terms);
    memory = malloc(size);
    cr_assert(memory);
    cr_expect_eq(spt_history_begin(&terms, memory, size - 1, &history), SPT_TOO_SMALL);
    cr_expect_eq(spt_history_begin(&terms, memory, size, &history), SPT_OK);
    cr_expect_eq(spt_history_begin(&terms, NULL, size, &history), SPT_BAD_ARGUMENT);
    struct spt_history_terms bad = terms;
    bad.exponent = 0;
    cr_expect_eq(spt_history_begin(&bad, memory, size, &history), SPT_BAD_ARGUMENT);
    end();
}

static void add(double hours, double rpm, double load_n, double side_n)
{
    const struct spt_history_sample sample = {hours, rpm, load_n, side_n, 60};
    cr_assert_eq(spt_history_add(&history, &sample), SPT_OK);
}

/* Eight cells kept: the ends of 0 to a power of two lie exactly eight cells apart at one width. */
Test(history_edges, the_ends_of_a_range_share_no_cell)
{
    static const int halves[SPT_HISTORY_AXES] = {2, 1, 1, 1};
    const struct spt_history_terms terms = whole();
    int count;
    begin(&terms);
    add(1, 100, 0, 0);
    add(2, 100, 1024, 0);
    cr_assert_eq(spt_history_bins(&history, halves, bins, BINS, &count), SPT_OK);
    cr_assert_eq(count, 2);
    cr_expect_eq(bins[0].load_n, 0);
    cr_expect(near(bins[1].load_n, 1024, 1e-14, 0), "%.17g", bins[1].load_n);
    cr_expect(near(bins[1].time_h, 2, 1e-15, 0));
    end();
}

Test(history_edges, a_history_without_any_load_is_one_bin)
{
    const struct spt_history_terms terms = whole();
    int count;
    begin(&terms);
    add(1, 100, 0, 0);
    add(2, 100, 0, 0);
    cr_assert_eq(spt_history_bins(&history, terms.bins, bins, BINS, &count), SPT_OK);
    cr_assert_eq(count, 1);
    cr_expect(bins[0].load_n == 0 && near(bins[0].time_h, 3, 1e-15, 0));
    cr_expect_eq(history.reversed_samples, 0);
    end();
}

/* SPT_HISTORY_STILL_RPM turns, what is slower stands; so does what is at the threshold. */
Test(history_edges, a_bearing_turns_from_the_slowest_speed_on)
{
    static const struct {
        double rpm, threshold_rpm;
        bool stands;
    } rows[] = {{1e-9, 0, false}, {0.99e-9, 0, true},   {0, 0, true},
                {2.5, 2.5, true}, {2.5001, 2.5, false}, {-2.5001, 2.5, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_history_terms terms = whole();
        terms.standing_rpm = rows[i].threshold_rpm;
        begin(&terms);
        add(1, rows[i].rpm, 4e3, 0);
        cr_expect_eq(history.standing_samples, rows[i].stands, "%g r/min", rows[i].rpm);
        cr_expect_eq(history.total.samples, !rows[i].stands, "%g r/min", rows[i].rpm);
        end();
    }
}

/* Standing and without load nothing is reversed; each sign alone is. */
Test(history_edges, only_a_sign_is_counted_as_reversed)
{
    static const struct {
        double rpm, load_n, side_n;
        bool speed, load, side;
    } rows[] = {{0, 0, 0, false, false, false},
                {-3, 1, 1, true, false, false},
                {3, -1, 1, false, true, false},
                {3, 1, -1, false, false, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_history_terms terms = whole();
        begin(&terms);
        add(1, rows[i].rpm, rows[i].load_n, rows[i].side_n);
        cr_expect_eq(history.reversed_speeds, rows[i].speed, "row %zu", i);
        cr_expect_eq(history.reversed_loads, rows[i].load, "row %zu", i);
        cr_expect_eq(history.reversed_sides, rows[i].side, "row %zu", i);
        cr_expect_eq(history.reversed_samples, i > 0, "row %zu", i);
        end();
    }
}

/* Of samples with the same equivalent load that with the larger load is kept, then that with the
 * larger side load, in any order. */
Test(history_edges, the_hardest_sample_is_the_same_in_any_order)
{
    static const double loads[][2] = {{5e3, 100}, {5e3, 300}, {5e3, 200}, {4e3, 900}};
    const struct spt_history_terms terms = whole();
    for (int turned = 0; turned < 2; turned++)
        for (int standing = 0; standing < 2; standing++) {
            begin(&terms);
            for (int i = 0; i < 4; i++) {
                const double *load = loads[turned ? 3 - i : i];
                add(1, standing ? 0 : 20, load[0], load[1]);
            }
            const struct spt_history_sample *kept = standing ? &history.stillest : &history.hardest;
            cr_expect(kept->load_n == 5e3 && kept->side_n == 300, "%g and %g N", kept->load_n,
                      kept->side_n);
            end();
        }
}

/* The axis of loads is that of equivalent loads: of two samples with one radial load that with the
 * larger axial load lies in another bin and is the harder; so is one with a smaller radial load. */
Test(history_edges, loads_of_a_bearing_are_told_apart_by_their_equivalent)
{
    static const double loads[][2] = {{5e3, 0}, {5e3, 8e3}, {4e3, 9e3}};
    static const int halves[SPT_HISTORY_AXES] = {2, 1, 1, 1};
    const struct spt_bearing bearing = {.type = SPT_TAPERED_ROLLER,
                                        .dynamic_load_rating_n = 120e3,
                                        .static_load_rating_n = 150e3,
                                        .fatigue_load_limit_n = 18e3,
                                        .rows = 1,
                                        .contact_angle_rad = (double)NAN,
                                        .limit_ratio = 0.4,
                                        .radial_factor = 0.4,
                                        .axial_factor = 1.5,
                                        .static_axial_factor = 0.82,
                                        .f0 = (double)NAN,
                                        .rib_diameter_mm = (double)NAN};
    const struct spt_history_terms terms = {
        .kind = SPT_HISTORY_PARTS, .bearing = &bearing, .exponent = 3, .bins = {1, 1, 1, 1}};
    for (int turned = 0; turned < 2; turned++) {
        int count;
        begin(&terms);
        for (int i = 0; i < 3; i++)
            add(1, 20, loads[turned ? 2 - i : i][0], loads[turned ? 2 - i : i][1]);
        cr_expect_eq(history.hardest.load_n, 4e3);
        cr_expect(near(history.hardest_n, 0.4 * 4e3 + 1.5 * 9e3, 1e-12, 0));
        cr_assert_eq(spt_history_bins(&history, halves, bins, BINS, &count), SPT_OK);
        cr_assert_eq(count, 2);
        cr_expect(near(bins[0].equivalent_n[0], 5e3, 1e-12, 0), "%g", bins[0].equivalent_n[0]);
        cr_expect(near(bins[0].time_h, 1, 1e-15, 0) && near(bins[1].time_h, 2, 1e-15, 0));
        end();
    }
}
