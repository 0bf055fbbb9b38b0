/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/build/build.h"
#include "spalltime/bearing.h"
#include "spalltime/hub.h"

/* C/C0 of any real bearing is well inside these limits (common practice, no source) */
#define LEAST_RATING_RATIO 0.1
#define LARGEST_RATING_RATIO 10.0

static void require(struct spt_build *build, const struct raw_bearing *raw, bool present,
                    const char *key, const char *example)
{
    if (!present && !spt_node_find(raw->at, key))
        spt_diagnostics_add(build->diags, raw->at->mark, "%s lacks `%s`; add it, such as `%s: %s`",
                            build->part, key, key, example);
}

static void require_dimensions(struct spt_build *build, const struct raw_bearing *raw)
{
    require(build, raw, raw->type >= 0, "type", "tapered roller");
    require(build, raw, !isnan(raw->bore_mm), "bore", "60 mm");
    require(build, raw, !isnan(raw->outside_diameter_mm), "outside_diameter", "110 mm");
    require(build, raw, !isnan(raw->width_mm), "width", "29.75 mm");
    if (raw->bore_mm >= raw->outside_diameter_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "bore"),
                            "the bore (%.6g mm) is not smaller than the outside diameter (%.6g mm)",
                            raw->bore_mm, raw->outside_diameter_mm);
}

static void fill_pitch(struct spt_build *build, const struct raw_bearing *raw,
                       struct spt_bearing *bearing)
{
    double pitch_mm = raw->pitch_diameter_mm;
    if (isnan(pitch_mm))
        pitch_mm = raw->geometry.pitch_diameter_mm;
    bearing->pitch_assumed = isnan(pitch_mm);
    bearing->pitch_diameter_mm =
        bearing->pitch_assumed ? (raw->bore_mm + raw->outside_diameter_mm) / 2 : pitch_mm;
    if (pitch_mm <= raw->bore_mm || pitch_mm >= raw->outside_diameter_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "pitch_diameter"),
                            "the pitch diameter (%.6g mm) should lie between bore (%.6g mm) and "
                            "outside diameter (%.6g mm)",
                            pitch_mm, raw->bore_mm, raw->outside_diameter_mm);
}

/* Sets the number of rows that `bearing` or its `geometry` states; 0 where neither does. */
static void fill_rows(struct spt_build *build, const struct raw_bearing *raw,
                      struct spt_bearing *bearing)
{
    bool outside = raw->rows > 0, inside = raw->geometry.at && raw->geometry.rows > 0;
    int stated = inside ? raw->geometry.rows : outside ? raw->rows : 0;
    const struct spt_mark mark = spt_node_mark(inside ? raw->geometry.at : raw->at, "rows");
    bearing->rows = spt_bearing_rows(bearing->type, stated);
    if (bearing->rows < 1)
        spt_diagnostics_add(build->diags, mark,
                            "a %s bearing has %stwo rows of rolling elements, not %d; write `rows: "
                            "2` or leave `rows` out",
                            spt_bearing_type_name(bearing->type),
                            spt_bearing_rows(bearing->type, 1) ? "one or " : "", stated);
    else if (inside && outside && raw->rows != stated)
        spt_diagnostics_add(build->diags, mark,
                            "`geometry` says %d rows and the bearing itself %d; state `rows` once",
                            stated, raw->rows);
}

/* A quantity that `bearing` and its `geometry` both may state, in the unit of messages. */
struct twice {
    const char *key, *unit;
    double outside, inside; /* NaN: not stated */
};

/* A changed quantity may be in the other of the two places than in the catalog entry. */
static void refuse_twice(struct spt_build *build, const struct raw_bearing *raw,
                         const struct twice *stated)
{
    if (!(fabs(stated->outside - stated->inside) > 1e-9 * fabs(stated->inside)))
        return; /* or one of them is not stated */
    spt_diagnostics_add(build->diags, spt_node_mark(raw->at, stated->key),
                        "`%s` is stated twice with different values, %.6g %s for the bearing and "
                        "%.6g %s in its `geometry`; state it once (over a catalog entry or another "
                        "case: in the place it has there)",
                        stated->key, stated->outside, stated->unit, stated->inside, stated->unit);
}

static void refuse_contradictions(struct spt_build *build, const struct raw_bearing *raw)
{
    const double deg = 180 / acos(-1.0);
    const struct twice angle = {"contact_angle", "deg", raw->contact_angle_rad * deg,
                                raw->geometry.contact_angle_rad * deg};
    const struct twice pitch = {"pitch_diameter", "mm", raw->pitch_diameter_mm,
                                raw->geometry.pitch_diameter_mm};
    if (!raw->geometry.at)
        return;
    refuse_twice(build, raw, &angle);
    refuse_twice(build, raw, &pitch);
}

static double first_known(double first, double second)
{
    return isnan(first) ? second : first;
}

/* Neighbouring elements must not overlap: their centres are D_pw sin(pi/Z) apart on the pitch
 * circle. */
static void check_room(struct spt_build *build, const struct raw_bearing *raw,
                       const struct spt_geometry *geometry)
{
    double apart_mm = geometry->pitch_diameter_mm * sin(acos(-1.0) / geometry->elements);
    if (geometry->element_diameter_mm > apart_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->geometry.at, "elements"),
                            "%d elements of %.6g mm do not fit on a pitch diameter of %.6g mm: "
                            "there is room for %.4g mm each",
                            geometry->elements, geometry->element_diameter_mm,
                            geometry->pitch_diameter_mm, apart_mm);
}

static struct spt_mark mark_of_angle(const struct raw_bearing *raw)
{
    return spt_node_mark(isnan(raw->geometry.contact_angle_rad) ? raw->at : raw->geometry.at,
                         "contact_angle");
}

static void check_angle(struct spt_build *build, const struct raw_bearing *raw,
                        enum spt_bearing_type type, double angle_rad)
{
    if (!spt_rating_angle_suits(type, angle_rad))
        spt_diagnostics_add(build->diags, mark_of_angle(raw),
                            "a contact angle of %.6g deg does not suit the type `%s`; its angles "
                            "go from %s",
                            angle_rad * 180 / acos(-1.0), spt_bearing_type_name(type),
                            spt_bearing_is_thrust(type) ? "45 to 90 deg" : "0 to 45 deg");
}

static void fill_geometry(struct spt_build *build, const struct raw_bearing *raw,
                          struct spt_bearing *bearing)
{
    const struct raw_geometry *from = &raw->geometry;
    if (!from->at)
        return;
    bool roller = !spt_bearing_is_ball(bearing->type);
    bool radial = spt_bearing_is_radial_contact(bearing->type);
    double angle_rad = first_known(from->contact_angle_rad, raw->contact_angle_rad);
    if (isnan(angle_rad) && radial)
        angle_rad = 0;
    if (from->elements < 0 || isnan(from->element_diameter_mm) ||
        (roller && isnan(from->element_length_mm)) || isnan(angle_rad)) {
        spt_diagnostics_add(build->diags, from->at->mark, "`geometry` needs `elements`%s%s%s",
                            radial && !roller ? " and `element_diameter`" : ", `element_diameter`",
                            radial ? "" : ", `contact_angle`",
                            roller ? " and, for rollers, `element_length`" : "");
        return;
    }
    bearing->has_geometry = true;
    bearing->geometry = (struct spt_geometry){
        .elements = from->elements,
        .rows = bearing->rows,
        .element_diameter_mm = from->element_diameter_mm,
        .element_length_mm = from->element_length_mm,
        .contact_angle_rad = angle_rad,
        .pitch_diameter_mm = bearing->pitch_diameter_mm,
        .inner_groove_ratio = from->inner_groove_ratio,
        .outer_groove_ratio = from->outer_groove_ratio,
    };
    check_room(build, raw, &bearing->geometry);
    check_angle(build, raw, bearing->type, bearing->geometry.contact_angle_rad);
    bearing->contact_angle_rad =
        first_known(raw->contact_angle_rad, bearing->geometry.contact_angle_rad);
}

static void fill_from_geometry(struct spt_build *build, const struct raw_bearing *raw,
                               struct spt_bearing *bearing)
{
    struct spt_rating rating;
    if (!bearing->has_geometry)
        return;
    if (spt_rating_from_geometry(bearing->type, &bearing->geometry, &rating)) {
        spt_diagnostics_add(build->diags, spt_node_mark(raw->geometry.at, "element_diameter"),
                            "no rating can be computed from this geometry: elements of %.6g mm are "
                            "too large for a pitch diameter of %.6g mm",
                            bearing->geometry.element_diameter_mm,
                            bearing->geometry.pitch_diameter_mm);
        return;
    }
    bearing->ratings_from_geometry = isnan(raw->dynamic_load_rating_n);
    bearing->dynamic_load_rating_n =
        first_known(raw->dynamic_load_rating_n, rating.dynamic_load_rating_n);
    bearing->static_load_rating_n =
        first_known(raw->static_load_rating_n, rating.static_load_rating_n);
    bearing->fatigue_load_limit_n = raw->fatigue_load_limit_n;
    if (isnan(raw->fatigue_load_limit_n) && isnan(raw->static_load_rating_n))
        bearing->fatigue_load_limit_n = rating.fatigue_load_limit_n;
    if (isnan(bearing->f0))
        bearing->f0 = rating.f_0;
}

static void fill_fatigue_limit(struct spt_bearing *bearing)
{
    if (!isnan(bearing->fatigue_load_limit_n))
        return;
    bearing->fatigue_limit_assumed =
        !spt_rating_fatigue_limit(bearing->type, bearing->static_load_rating_n,
                                  bearing->pitch_diameter_mm, &bearing->fatigue_load_limit_n);
}

static void require_ratings(struct spt_build *build, const struct raw_bearing *raw,
                            const struct spt_bearing *bearing)
{
    if (raw->geometry.at)
        return;
    if (isnan(bearing->dynamic_load_rating_n))
        require(build, raw, false, "dynamic_load_rating", "150 kN");
    if (isnan(bearing->static_load_rating_n))
        require(build, raw, false, "static_load_rating", "176 kN");
}

/* Reports which factors are missing: for any angle, or for the stated angle. */
static void ask_for_factors(struct spt_build *build, const struct raw_bearing *raw,
                            const struct spt_bearing *bearing)
{
    bool angular = bearing->type == SPT_ANGULAR_CONTACT_BALL;
    const char *example =
        angular ? "{e: 0.57, X: 0.43, Y: 1.00, Y0: 0.42}" : "{e: 0.40, Y: 1.5, Y0: 0.82}";
    if (angular && !isnan(bearing->contact_angle_rad))
        spt_diagnostics_add(build->diags, mark_of_angle(raw),
                            "the factors e, X and Y of an angular contact ball are tabulated here "
                            "for 15 deg and from 20 to 45 deg, not for %.6g deg (the rows of ISO "
                            "281 for 5 and 10 deg are not in this program); state them, such as "
                            "`axial_factors: %s`",
                            bearing->contact_angle_rad * 180 / acos(-1.0), example);
    else
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "%s: add `contact_angle` (such as 15 deg) or `axial_factors: %s`",
                            spt_bearing_type_name(bearing->type), example);
}

/* A bearing with a contact angle that carries axial load needs the angle or the factors. */
static void require_factors(struct spt_build *build, const struct raw_bearing *raw,
                            const struct spt_bearing *bearing)
{
    struct spt_equivalent_load load;
    struct spt_notes notes = {0};
    bool thrust = spt_bearing_is_thrust(bearing->type);
    double radial_n = thrust ? 0 : 1000;
    if (!thrust && bearing->radial_factor > 1)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->axial_factors.at, "X"),
                            "the radial factor X of a radial bearing is at most 1");
    else if (spt_load_equivalent(bearing, radial_n, 2000, &load, &notes) == SPT_NOT_APPLICABLE)
        ask_for_factors(build, raw, bearing);
}

/* From the back face of the outer ring, whichever ring the sheet counts from: a_outer = T +
 * a_inner, as an inch sheet counts from the inner ring's face with values below 0 inside (from
 * memory). */
static double load_centre_of(const struct raw_bearing *raw)
{
    bool inner = raw->load_centre_from == (int)SPT_HUB_INNER_TURNS;
    return inner ? raw->width_mm + raw->load_centre_mm : raw->load_centre_mm;
}

static void check_load_centre(struct spt_build *build, const struct raw_bearing *raw,
                              const struct spt_bearing *bearing)
{
    bool angled = bearing->type == SPT_TAPERED_ROLLER || bearing->type == SPT_ANGULAR_CONTACT_BALL;
    if (isnan(raw->load_centre_mm))
        return;
    if (!angled)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "load_centre"),
                            "a %s bearing has its load centre in its middle; `load_centre` is for "
                            "tapered roller and angular contact ball",
                            spt_bearing_type_name(bearing->type));
    else if (!(bearing->load_centre_mm > 0))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "load_centre"),
                            "the load centre lies %.6g mm outside the back face of the outer ring; "
                            "state its distance from there, or `load_centre_from: inner`",
                            -bearing->load_centre_mm);
}

/* A seat is stated by its class of clearance; its parts are checked against the tables. */
static void fill_seat(struct spt_build *build, const struct raw_bearing *raw,
                      struct spt_bearing *bearing)
{
    static const char *const parts[] = {"shaft_fit", "housing_fit", "temperature_difference",
                                        "shaft_bore", "housing_outside"};
    struct spt_clearance clearance;
    bearing->has_seat = raw->clearance >= 0;
    for (size_t i = 0; i < sizeof parts / sizeof *parts && !bearing->has_seat; i++)
        if (spt_node_find(raw->at, parts[i]))
            spt_diagnostics_add(build->diags, spt_node_mark(raw->at, parts[i]),
                                "`%s` is for the clearance at work, which needs the class too; add "
                                "`clearance: normal`",
                                parts[i]);
    if (!bearing->has_seat)
        return;
    bearing->seat = (struct spt_seat){
        .clearance = raw->clearance,
        .shaft_fit = raw->shaft_fit,
        .housing_fit = raw->housing_fit,
        .inner_warmer_k = isnan(raw->temperature_difference_k) ? 0 : raw->temperature_difference_k,
        .shaft_bore_mm = raw->shaft_bore_mm,
        .housing_outside_mm = raw->housing_outside_mm,
    };
    if (raw->shaft_bore_mm >= raw->bore_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "shaft_bore"),
                            "the bore of the shaft (%.6g mm) is not smaller than that of the "
                            "bearing (%.6g mm)",
                            raw->shaft_bore_mm, raw->bore_mm);
    else if (raw->housing_outside_mm <= raw->outside_diameter_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "housing_outside"),
                            "the housing (%.6g mm outside) is not larger than the bearing (%.6g "
                            "mm)",
                            raw->housing_outside_mm, raw->outside_diameter_mm);
    else if (spt_clearance_at_work(bearing, &clearance))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "clearance"),
                            "no clearance at work can be given for a %s of this size: the tables "
                            "here hold deep groove ball, cylindrical and spherical roller with "
                            "bores over 24 to 120 mm, housings over 50 to 180 mm; leave "
                            "`clearance` out",
                            spt_bearing_type_name(bearing->type));
    else
        bearing->seat.stiffness = spt_clearance_stiffness(bearing);
}

static const char *make_name(struct spt_build *build, const struct spt_bearing *bearing)
{
    char text[120];
    snprintf(text, sizeof text, "%s %.6g x %.6g x %.6g", spt_bearing_type_name(bearing->type),
             bearing->bore_mm, bearing->outside_diameter_mm, bearing->width_mm);
    return spt_arena_text(build->arena, text, strlen(text));
}

/* Reports ratings in such a ratio that a unit must be wrong. */
static void check_ratings(struct spt_build *build, const struct raw_bearing *raw,
                          const struct spt_bearing *bearing)
{
    double ratio = bearing->dynamic_load_rating_n / bearing->static_load_rating_n;
    if (bearing->fatigue_load_limit_n >= bearing->static_load_rating_n)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "fatigue_load_limit"),
                            "the fatigue load limit (%.6g N) is not below the static rating (%.6g "
                            "N); check the units",
                            bearing->fatigue_load_limit_n, bearing->static_load_rating_n);
    if (ratio < LEAST_RATING_RATIO || ratio > LARGEST_RATING_RATIO)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "dynamic_load_rating"),
                            "the dynamic rating (%.6g N) is %.3g times the static rating (%.6g N); "
                            "check the units",
                            bearing->dynamic_load_rating_n, ratio, bearing->static_load_rating_n);
}

void spt_build_bearing(struct spt_build *build, const struct spt_node *mapping, const char *name,
                       struct spt_bearing *bearing)
{
    struct raw_bearing raw;
    int before = build->diags->raised;
    struct spt_section section = spt_section_bearing;
    section.name = build->part = name;
    spt_section_read(&section, mapping, &raw, build->diags);
    require_dimensions(build, &raw);
    refuse_contradictions(build, &raw);
    if (build->diags->raised > before)
        return;
    *bearing = (struct spt_bearing){
        .name = raw.name,
        .type = (enum spt_bearing_type)raw.type,
        .bore_mm = raw.bore_mm,
        .outside_diameter_mm = raw.outside_diameter_mm,
        .width_mm = raw.width_mm,
        .dynamic_load_rating_n = raw.dynamic_load_rating_n,
        .static_load_rating_n = raw.static_load_rating_n,
        .fatigue_load_limit_n = raw.fatigue_load_limit_n,
        .contact_angle_rad = raw.contact_angle_rad,
        .limit_ratio = raw.axial_factors.limit_ratio,
        .radial_factor = raw.axial_factors.radial_factor,
        .axial_factor = raw.axial_factors.axial_factor,
        .static_axial_factor = raw.axial_factors.static_axial_factor,
        .low_axial_factor = raw.axial_factors.low_axial_factor,
        .load_centre_mm = load_centre_of(&raw),
        .speed_limit_rpm = raw.speed_limit_rpm,
        .mass_kg = raw.mass_kg,
        .price = raw.price,
        .stock = raw.stock,
        .f0 = raw.f0,
        .rib_diameter_mm = raw.rib_diameter_mm,
        .outer_turns = raw.turning == (int)SPT_HUB_OUTER_TURNS,
    };
    fill_pitch(build, &raw, bearing);
    fill_rows(build, &raw, bearing);
    fill_geometry(build, &raw, bearing);
    if (build->diags->raised > before)
        return;
    fill_from_geometry(build, &raw, bearing);
    require_ratings(build, &raw, bearing);
    if (build->diags->raised > before)
        return;
    fill_fatigue_limit(bearing);
    check_ratings(build, &raw, bearing);
    require_factors(build, &raw, bearing);
    check_load_centre(build, &raw, bearing);
    fill_seat(build, &raw, bearing);
    if (!bearing->name)
        bearing->name = make_name(build, bearing);
    if (!bearing->name)
        build->diags->out_of_memory = true;
}
