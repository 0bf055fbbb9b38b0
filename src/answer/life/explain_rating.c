/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/life/explain.h"
#include "spalltime/bearing.h"
#include "words/words.h"

#define LARGE_BALL_MM 25.4
#define FED_LENGTH 200
#define FORMULA_LENGTH 200

/* Inputs of a rating. */
struct subject {
    const struct spt_bearing *bearing;
    struct spt_rating rating;
    bool ball, thrust;
    bool square; /* the raceways of a thrust bearing are flat */
    double angle_deg;
};

static void explain_gamma(const struct subject *s, const struct spt_step_sink *sink)
{
    const struct spt_geometry *g = &s->bearing->geometry;
    if (s->square)
        spt_explain_step(sink, "gamma", "D / D_pw", s->rating.gamma, "",
                         "ISO 281:2007, clause 3 (symbols)", "%.6g / %.6g", g->element_diameter_mm,
                         g->pitch_diameter_mm);
    else
        spt_explain_step(sink, "gamma", "D cos alpha / D_pw", s->rating.gamma, "",
                         "ISO 281:2007, clause 3 (symbols)", "%.6g cos %.4g deg / %.6g",
                         g->element_diameter_mm, s->angle_deg, g->pitch_diameter_mm);
}

/* g is gamma in the terms for the curvature of the raceways: 0 where these are flat. */
static void explain_fc(const struct subject *s, const struct spt_step_sink *sink)
{
    static const char source[] =
        "ISO 281:2007 tables of f_c, closed form as in ISO/TR 1281-1 (constants from memory)";
    const struct spt_rating *r = &s->rating;
    if (s->ball)
        spt_explain_step(
            sink, "f_c",
            s->thrust ? "98.0665 lambda (1 - sin(alpha)/3) a^0.41 gamma^0.3 (1 - g)^1.39/(1 + "
                        "g)^(1/3) [1 + (((1 - g)/(1 + g))^1.72 (a/b)^0.41)^(10/3)]^-0.3, a = 2 "
                        "r_i/(2 r_i - 1), b = 2 r_e/(2 r_e - 1)"
                      : "0.41 x 98.0665 lambda a^0.41 gamma^0.3 (1 - g)^1.39/(1 + g)^(1/3) [1 + "
                        "(1.04 ((1 - g)/(1 + g))^1.72 (a/b)^0.41)^(10/3)]^-0.3, a = 2 r_i/(2 r_i - "
                        "1), b = 2 r_e/(2 r_e - 1)",
            r->f_c, "", source,
            "lambda %.3g, gamma %.5g, g %.5g, alpha %.4g deg, grooves r_i %.5g D, r_e %.5g D",
            r->reduction, r->gamma, r->curvature_gamma, s->angle_deg, r->inner_groove_ratio,
            r->outer_groove_ratio);
    else
        spt_explain_step(
            sink, "f_c",
            s->thrust
                ? "551.13373 lambda (1 - 0.15 sin(alpha)) gamma^(2/9) (1 - g)^(29/27)/(1 + "
                  "g)^(1/4) [1 + ((1 - g)/(1 + g))^(143/24)]^(-2/9)"
                : "207.9 lambda gamma^(2/9) (1 - g)^(29/27)/(1 + g)^(1/4) [1 + (1.04 ((1 - g)/(1 "
                  "+ g))^(143/108))^4.5]^(-2/9)",
            r->f_c, "", source, "lambda %.3g, gamma %.5g, g %.5g, alpha %.4g deg", r->reduction,
            r->gamma, r->curvature_gamma, s->angle_deg);
}

/* Text of the angle factor of a thrust bearing: cos^x tan alpha, empty where alpha is 90
 * degrees. */
static const char *name_angle(const struct subject *s)
{
    return s->square ? "i" : "i cos alpha";
}

static void explain_dynamic(const struct subject *s, const struct spt_step_sink *sink)
{
    static const char source[] = "ISO 281:2007, clauses 5 to 8";
    const struct spt_geometry *g = &s->bearing->geometry;
    const struct spt_rating *r = &s->rating;
    double d = g->element_diameter_mm;
    const bool large = d > LARGE_BALL_MM;
    const char *tangent = s->thrust && !s->square ? "tan alpha " : "";
    char formula[FORMULA_LENGTH], angle[FED_LENGTH] = "";
    if (!s->square)
        snprintf(angle, sizeof angle, ", alpha %.4g deg", s->angle_deg);
    if (s->ball)
        snprintf(formula, sizeof formula, "%sb_m f_c (%s)^0.7 %sZ^(2/3) D^%s",
                 large ? "3.647 " : "", name_angle(s), tangent, large ? "1.4" : "1.8");
    else
        snprintf(formula, sizeof formula, "b_m f_c (L %s)^(7/9) %sZ^(3/4) D^(29/27)", name_angle(s),
                 tangent);
    if (s->ball)
        spt_explain_step(sink, "C", formula, r->dynamic_load_rating_n, "N", source,
                         "b_m %.3g, f_c %.5g, i %d, Z %d, D %.6g mm%s", r->b_m, r->f_c, g->rows,
                         g->elements, d, angle);
    else
        spt_explain_step(sink, "C", formula, r->dynamic_load_rating_n, "N", source,
                         "b_m %.3g, f_c %.5g, i %d, L %.6g mm, Z %d, D %.6g mm%s", r->b_m, r->f_c,
                         g->rows, g->element_length_mm, g->elements, d, angle);
}

static void explain_static(const struct subject *s, const struct spt_step_sink *sink)
{
    const struct spt_geometry *g = &s->bearing->geometry;
    const struct spt_rating *r = &s->rating;
    const char *angle = s->thrust ? "sin" : "cos";
    char formula[FORMULA_LENGTH];
    if (s->ball) {
        spt_explain_step(sink, "f_0",
                         s->thrust
                             ? "load of a ball of 1 mm on the weaker raceway at the reference "
                               "stress (Hertz)"
                             : "load of a ball of 1 mm on the weaker raceway at the "
                               "reference stress (Hertz), over 5",
                         r->f_0, "", "ISO 76:2006 (stress from several pages; E, nu from memory)",
                         "%d MPa, E 207 GPa, nu 0.3, gamma %.5g",
                         s->bearing->type == SPT_SELF_ALIGNING_BALL ? 4600 : 4200, r->gamma);
        snprintf(formula, sizeof formula, "f_0 i Z D^2 %s alpha", angle);
        spt_explain_step(sink, "C_0", formula, r->static_load_rating_n, "N", "ISO 76:2006",
                         "%.5g x %d x %d x %.6g^2 x %s %.4g deg", r->f_0, g->rows, g->elements,
                         g->element_diameter_mm, angle, s->angle_deg);
        return;
    }
    snprintf(formula, sizeof formula, "%s (1 - g) i Z L D %s alpha", s->thrust ? "220" : "44",
             angle);
    spt_explain_step(sink, "C_0", formula, r->static_load_rating_n, "N", "ISO 76:2006",
                     "%s (1 - %.5g) x %d x %d x %.6g x %.6g x %s %.4g deg",
                     s->thrust ? "220" : "44", r->curvature_gamma, g->rows, g->elements,
                     g->element_length_mm, g->element_diameter_mm, angle, s->angle_deg);
}

static void explain_limit(const struct spt_bearing *bearing, const struct spt_step_sink *sink)
{
    bool ball = spt_bearing_is_ball(bearing->type);
    if (bearing->fatigue_limit_assumed || bearing->ratings_from_geometry)
        spt_explain_step(
            sink, "C_u",
            ball ? "C_0/22 (x (100/D_pw)^0.5 above 100 mm)"
                 : "C_0/8.2 (x (100/D_pw)^0.3 above 100 mm)",
            bearing->fatigue_load_limit_n, "N", "ISO 281:2007 Annex B, simplified (from memory)",
            "C_0 %.6g N, D_pw %.6g mm", bearing->static_load_rating_n, bearing->pitch_diameter_mm);
}

/* From the clearance on the shelf to that at work. */
static void explain_clearance(const struct spt_bearing *bearing, const struct spt_step_sink *sink)
{
    struct spt_clearance c;
    const struct spt_seat *seat = &bearing->seat;
    if (!bearing->has_seat || spt_clearance_at_work(bearing, &c))
        return;
    spt_explain_step(sink, "G_0", "middle of the class", 1e3 * c.shelf.middle_mm, "um",
                     "ISO 5753-1 (from memory)", "%s, %.4g to %.4g um, bore %.6g mm",
                     spt_word(&spt_clearance_words, seat->clearance), 1e3 * c.shelf.low_mm,
                     1e3 * c.shelf.high_mm, bearing->bore_mm);
    if (seat->shaft_fit >= 0)
        spt_explain_step(sink, "dF", "u_eff (b/a)(a^2 - c^2)/(b^2 - c^2)", 1e3 * c.inner_growth_mm,
                         "um", "Lame (derived); ISO 286-2, ISO 492 normal class (from memory)",
                         "%s, u_eff %.5g um, %.5g to %.5g; joint %.4g MPa",
                         spt_word(&spt_shaft_fit_words, seat->shaft_fit), 1e3 * c.shaft.middle_mm,
                         1e3 * c.shaft.low_mm, 1e3 * c.shaft.high_mm, c.pressure_mpa);
    if (seat->housing_fit >= 0)
        spt_explain_step(
            sink, "dE", "u_eff E/D, thinner housing by Lame", 1e3 * c.outer_shrinkage_mm, "um",
            "Lame (derived); ISO 286-2, ISO 492 normal class (from memory)",
            "%s, u_eff %.5g um, %.5g to %.5g", spt_word(&spt_housing_fit_words, seat->housing_fit),
            1e3 * c.housing.middle_mm, 1e3 * c.housing.low_mm, 1e3 * c.housing.high_mm);
    spt_explain_step(sink, "dT", "11.5e-6 D_pw (T_inner - T_outer)", 1e3 * c.heat_mm, "um",
                     "expansion of steel: common practice", "D_pw %.6g mm, %.4g K",
                     bearing->pitch_diameter_mm, seat->inner_warmer_k);
    spt_explain_step(sink, "G", "G_0 - dF - dE - dT", 1e3 * c.work.middle_mm, "um",
                     "half-ranges added as the root of their squares: our choice",
                     "%.4g to %.4g um at work", 1e3 * c.work.low_mm, 1e3 * c.work.high_mm);
}

void spt_explain_ratings(const struct spt_bearing *bearing, const struct spt_step_sink *sink)
{
    struct subject s = {.bearing = bearing,
                        .ball = spt_bearing_is_ball(bearing->type),
                        .thrust = spt_bearing_is_thrust(bearing->type),
                        .angle_deg = bearing->geometry.contact_angle_rad * 180 / acos(-1.0)};
    if (bearing->has_geometry &&
        !spt_rating_from_geometry(bearing->type, &bearing->geometry, &s.rating)) {
        s.square = s.thrust && !(s.rating.curvature_gamma > 0);
        explain_gamma(&s, sink);
        explain_fc(&s, sink);
        if (bearing->ratings_from_geometry)
            explain_dynamic(&s, sink);
        if (bearing->static_load_rating_n == s.rating.static_load_rating_n)
            explain_static(&s, sink);
    }
    explain_limit(bearing, sink);
    explain_clearance(bearing, sink);
}
