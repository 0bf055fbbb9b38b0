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
