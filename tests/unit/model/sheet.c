/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/bearing.h"
#include "support/near.h"

/* An invented tapered bearing whose values belong together. */
static struct spt_bearing make_tapered(void)
{
    return (struct spt_bearing){
        .type = SPT_TAPERED_ROLLER,
        .bore_mm = 60,
        .outside_diameter_mm = 110,
        .width_mm = 29.75,
        .pitch_diameter_mm = 85,
        .dynamic_load_rating_n = 150e3,
        .static_load_rating_n = 176e3,
        .fatigue_load_limit_n = 21.5e3,
        .contact_angle_rad = (double)NAN,
        .limit_ratio = 0.4,
        .radial_factor = (double)NAN,
        .axial_factor = 1.5,
        .static_axial_factor = 0.82,
        .f0 = (double)NAN,
        .rib_diameter_mm = (double)NAN,
        .load_centre_mm = 25,
    };
}

static void expect_only(const struct spt_bearing *bearing, int flag, const char *what)
{
    struct spt_notes notes = {0};
    spt_bearing_doubts(bearing, &notes);
    cr_expect_eq(notes.count, flag < 0 ? 0 : 1, "%s: %d notes", what, notes.count);
    cr_expect(flag < 0 || spt_notes_has(&notes, (enum spt_flag)flag), "%s", what);
}

/* Bands: common practice, no source; that of Y0 our choice. */
Test(bearing, values_of_a_sheet_that_do_not_belong_together_are_told)
{
    struct spt_bearing b = make_tapered();
    expect_only(&b, -1, "as it should be");
    b.axial_factor = 1.57;
    expect_only(&b, SPT_FLAG_SHEET_FACTORS, "e Y 0.628");
    b = make_tapered();
    b.static_axial_factor = 1.5;
    expect_only(&b, SPT_FLAG_SHEET_STATIC_FACTOR, "Y taken for Y0");
    b = make_tapered();
    b.fatigue_load_limit_n = 12e3;
    expect_only(&b, SPT_FLAG_SHEET_FATIGUE_LIMIT, "C_u 0.56 of C0/8.2");
    b = make_tapered();
    b.load_centre_mm = 33;
    expect_only(&b, SPT_FLAG_SHEET_LOAD_CENTRE, "29 % off");
    b = make_tapered();
    b.dynamic_load_rating_n = 60e3;
    expect_only(&b, SPT_FLAG_SHEET_RATINGS, "C0/C 2.93");
}

Test(bearing, a_rating_on_the_insides_of_another_bearing_is_told)
{
    struct spt_bearing b = make_tapered();
    struct spt_rating rating;
    b.has_geometry = true;
    b.geometry = (struct spt_geometry){.elements = 19,
                                       .rows = 1,
                                       .element_diameter_mm = 12,
                                       .element_length_mm = 20,
                                       .contact_angle_rad = atan(0.4 / 1.5),
                                       .pitch_diameter_mm = 85,
                                       .inner_groove_ratio = (double)NAN,
                                       .outer_groove_ratio = (double)NAN};
    cr_assert_eq(spt_rating_from_geometry(b.type, &b.geometry, &rating), SPT_OK);
    static const struct {
        double ratio;
        bool told;
    } rows[] = {{0.88, true}, {0.91, false}, {1.24, false}, {1.27, true}, {1.6, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        b.dynamic_load_rating_n = rows[i].ratio * rating.dynamic_load_rating_n;
        expect_only(&b, rows[i].told ? (int)SPT_FLAG_SHEET_RATING : -1, "stated C");
    }
    b.ratings_from_geometry = true;
    expect_only(&b, -1, "C computed from the insides");
}

/* e Y1 = .675, e Y2 = 1.005 of two rows of rollers; X + e Y = 1 of the rows of ISO 281 for single
 * angular contact balls (from memory, confirmed by derivation). */
Test(bearing, factors_of_other_types_have_their_own_proportions)
{
    struct spt_bearing b = make_tapered();
    b.load_centre_mm = (double)NAN;
    b.type = SPT_SPHERICAL_ROLLER;
    b.limit_ratio = 0.3;
    b.axial_factor = 3.35;
    b.low_axial_factor = 2.25;
    b.static_axial_factor = 2.2;
    expect_only(&b, -1, "spherical");
    b.axial_factor = 2.25;
    b.static_axial_factor = (double)NAN;
    expect_only(&b, SPT_FLAG_SHEET_FACTORS, "Y1 taken for Y");
    static const double rows[][3] = {{0.57, 0.43, 1.00}, {0.68, 0.41, 0.87}, {0.80, 0.39, 0.76},
                                     {0.95, 0.37, 0.66}, {1.14, 0.35, 0.57}, {1.34, 0.33, 0.50}};
    b = make_tapered();
    b.type = SPT_ANGULAR_CONTACT_BALL;
    b.load_centre_mm = b.static_axial_factor = (double)NAN;
    b.fatigue_load_limit_n = 176e3 / 22;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        b.limit_ratio = rows[i][0];
        b.radial_factor = rows[i][1];
        b.axial_factor = rows[i][2];
        expect_only(&b, -1, "angular contact, its own row");
        b.axial_factor = rows[(i + 1) % 6][2];
        expect_only(&b, SPT_FLAG_SHEET_FACTORS, "angular contact, Y of another row");
    }
}

Test(bearing, y1_of_two_rows_is_used_up_to_e)
{
    struct spt_bearing b = make_tapered();
    struct spt_equivalent_load load;
    b.type = SPT_SPHERICAL_ROLLER;
    b.limit_ratio = 0.3;
    b.axial_factor = 3.35;
    b.low_axial_factor = 2.1;
    cr_assert_eq(spt_load_equivalent(&b, 1000, 250, &load, NULL), SPT_OK);
    cr_expect(near(load.load_n, 1000 + 2.1 * 250, 1e-12, 0), "%.9g", load.load_n);
    cr_assert_eq(spt_load_equivalent(&b, 1000, 400, &load, NULL), SPT_OK);
    cr_expect(near(load.load_n, 0.67 * 1000 + 3.35 * 400, 1e-12, 0), "%.9g", load.load_n);
    b.low_axial_factor = (double)NAN;
    cr_assert_eq(spt_load_equivalent(&b, 1000, 250, &load, NULL), SPT_OK);
    cr_expect(near(load.load_n, 1000 + 0.45 / 0.67 * 3.35 * 250, 1e-12, 0), "%.9g", load.load_n);
}

/* a = T/2 + (D_pw/2) tan(alpha), derived here from the load line */
Test(bearing, load_centre_is_the_stated_one_else_follows_the_contact_angle)
{
    struct spt_bearing b = make_tapered();
    bool estimated = true;
    cr_expect(near(spt_bearing_load_centre(&b, &estimated), 25, 0, 0) && !estimated);
    b.load_centre_mm = (double)NAN;
    cr_expect(near(spt_bearing_load_centre(&b, &estimated), 14.875 + 42.5 * 0.4 / 1.5, 1e-12, 0) &&
              estimated);
    b.limit_ratio = (double)NAN;
    cr_expect(near(spt_bearing_load_centre(&b, NULL), 14.875 + 42.5 * 0.4 / 1.5, 1e-12, 0));
    b.contact_angle_rad = 0.3;
    cr_expect(near(spt_bearing_load_centre(&b, NULL), 14.875 + 42.5 * tan(0.3), 1e-12, 0));
}

/* Bearings of textbooks, geometry from memory: cylindrical 45 x 85 x 19 and spherical 85 x 180 x 60
 * of Harris, Rolling Bearing Analysis; tapered 120.65 x 206.4 x 47.6 of NASA reports. The estimate
 * is made from the C0 of the true insides; rows and C are our own recomputation. */
Test(bearing, insides_estimated_from_a_sheet_come_near_the_true_ones)
{
    static const struct {
        enum spt_bearing_type type;
        double d_mm, outside_mm, width_mm;
        struct spt_geometry inside;
        int elements;
        double diameter_mm, length_mm, ratio; /* of C from the estimate to C of the true insides */
    } rows[] = {
        {SPT_CYLINDRICAL_ROLLER, 45, 85, 19, {14, 1, 10, 9.6, 0, 65, NAN, NAN}, 16, 10, 8.40, .996},
        {SPT_TAPERED_ROLLER,
         120.65,
         206.4,
         47.6,
         {25, 1, 17.35, 34.17, 0.2618, 155.1, NAN, NAN},
         23,
         19.29,
         33.63,
         1.047},
        {SPT_SPHERICAL_ROLLER,
         85,
         180,
         60,
         {14, 2, 25, 20.71, 0.20944, 132.5, NAN, NAN},
         13,
         26.125,
         21.66,
         1.026},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_rating truth, guess;
        struct spt_geometry estimate;
        cr_assert_eq(spt_rating_from_geometry(rows[i].type, &rows[i].inside, &truth), SPT_OK);
        const struct spt_bearing b = {.type = rows[i].type,
                                      .bore_mm = rows[i].d_mm,
                                      .outside_diameter_mm = rows[i].outside_mm,
                                      .width_mm = rows[i].width_mm,
                                      .pitch_diameter_mm = (rows[i].d_mm + rows[i].outside_mm) / 2,
                                      .contact_angle_rad = rows[i].inside.contact_angle_rad,
                                      .static_load_rating_n = truth.static_load_rating_n};
        cr_assert_eq(spt_bearing_insides(&b, &estimate), SPT_OK, "%zu", i);
        cr_expect_eq(estimate.elements, rows[i].elements, "%zu: %d", i, estimate.elements);
        cr_expect(near(estimate.element_diameter_mm, rows[i].diameter_mm, 1e-3, 0));
        cr_expect(near(estimate.element_length_mm, rows[i].length_mm, 0.03, 0), "%zu: %g", i,
                  estimate.element_length_mm);
        cr_assert_eq(spt_rating_from_geometry(rows[i].type, &estimate, &guess), SPT_OK);
        cr_expect(
            near(guess.dynamic_load_rating_n / truth.dynamic_load_rating_n, rows[i].ratio, 0, 0.03),
            "%zu: %g", i, guess.dynamic_load_rating_n / truth.dynamic_load_rating_n);
    }
}

Test(bearing, insides_that_cannot_be_of_such_a_bearing_are_not_estimated)
{
    struct spt_bearing b = make_tapered();
    struct spt_geometry inside;
    cr_expect_eq(spt_bearing_insides(&b, &inside), SPT_OK);
    cr_expect(near(inside.element_diameter_mm, 0.45 * 25, 1e-12, 0));
    b.static_load_rating_n = 60e3;
    cr_expect_eq(spt_bearing_insides(&b, &inside), SPT_NOT_APPLICABLE);
    cr_expect(inside.elements == 0 && near(inside.contact_angle_rad, atan(0.4 / 1.5), 1e-12, 0));
    b.static_load_rating_n = 300e3;
    cr_expect_eq(spt_bearing_insides(&b, &inside), SPT_NOT_APPLICABLE);
    b = make_tapered();
    b.type = SPT_NEEDLE_ROLLER;
    cr_expect_eq(spt_bearing_insides(&b, &inside), SPT_NOT_APPLICABLE);
}
