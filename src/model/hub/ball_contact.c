/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"

#include <math.h>

#include "model/numeric.h"

#define MODULUS_MPA 207000.0
#define POISSON 0.3

static bool geometry_is_valid(const struct spt_geometry *g)
{
    return g->elements >= 3 && g->element_diameter_mm > 0 && g->contact_angle_rad >= 0 &&
           g->contact_angle_rad <= 1.2 && g->inner_groove_ratio > 0.5 &&
           g->inner_groove_ratio < 1 && g->outer_groove_ratio > 0.5 && g->outer_groove_ratio < 1 &&
           g->element_diameter_mm < 0.5 * g->pitch_diameter_mm;
}

/* Complete elliptic integrals with modulus^2 = 1 - 1/chi^2; false where GSL fails. */
static bool find_integrals(double chi, double *first, double *second)
{
    return spt_numeric_elliptic(sqrt(1 - 1 / (chi * chi)), first, second);
}

/* 1 - 2/(chi^2 - 1) (K/E - 1) - F as a function of ln chi, increasing; 0 where the integrals
 * fail. */
static double compare(double logarithm, void *difference)
{
    double k, e, chi = exp(logarithm);
    if (!find_integrals(chi, &k, &e))
        return 0;
    return 1 - 2 / (chi * chi - 1) * (k / e - 1) - *(double *)difference;
}

static bool find_ratio(double difference, double *chi)
{
    gsl_function function = {compare, &difference};
    double logarithm;
    if (spt_numeric_root(&function, log(1.001), log(1000.0), &logarithm) != SPT_OK)
        return false;
    *chi = exp(logarithm);
    return true;
}

/* K (S/(chi^2 E))^(1/3), the compliance of one raceway; `bent` is gamma/(1 - gamma) of the inner or
 * -gamma/(1 + gamma) of the outer raceway. */
static bool find_compliance(double diameter, double groove, double bent, double *chi, double *part)
{
    double k, e, hollow = 1 / (2 * groove);
    double sum = 2 / diameter * (2 + bent - hollow);
    double difference = (bent + hollow) / (sum * diameter / 2);
    if (!find_ratio(difference, chi) || !find_integrals(*chi, &k, &e))
        return false;
    *part = k * cbrt(sum / (*chi * *chi * e));
    return true;
}

enum spt_status spt_ball_contact(const struct spt_geometry *g, struct spt_ball_contact *contact)
{
    double inner, outer, pi = 3.14159265358979323846;
    *contact = (struct spt_ball_contact){(double)NAN, (double)NAN, (double)NAN};
    if (!geometry_is_valid(g))
        return SPT_BAD_ARGUMENT;
    double d = g->element_diameter_mm;
    double gamma = d * cos(g->contact_angle_rad) / g->pitch_diameter_mm;
    struct spt_ball_contact found;
    if (!find_compliance(d, g->inner_groove_ratio, gamma / (1 - gamma), &found.inner_ratio,
                         &inner) ||
        !find_compliance(d, g->outer_groove_ratio, -gamma / (1 + gamma), &found.outer_ratio,
                         &outer))
        return SPT_BAD_ARGUMENT;
    found.stiffness_n_mm_1_5 =
        sqrt(2.0) * pi / 3 * MODULUS_MPA / (1 - POISSON * POISSON) * pow(inner + outer, -1.5);
    *contact = found;
    return SPT_OK;
}

enum spt_status spt_ball_life(const struct spt_geometry *g, double rating_n, const double *loads_n,
                              double *l10r_mrev)
{
    *l10r_mrev = (double)NAN;
    if (!geometry_is_valid(g) || !(rating_n > 0) || isinf(rating_n))
        return SPT_BAD_ARGUMENT;
    double turning = 0, standing = 0;
    for (int j = 0; j < g->elements; j++) {
        if (!(loads_n[j] >= 0) || isinf(loads_n[j]))
            return SPT_BAD_ARGUMENT;
        turning += pow(loads_n[j], 3) / g->elements;
        standing += pow(loads_n[j], 10.0 / 3) / g->elements;
    }
    double cosine = cos(g->contact_angle_rad);
    double gamma = g->element_diameter_mm * cosine / g->pitch_diameter_mm;
    double ri = g->inner_groove_ratio, re = g->outer_groove_ratio;
    double t = 1.044 * pow((1 - gamma) / (1 + gamma), 1.72) *
               pow(ri / re * (2 * re - 1) / (2 * ri - 1), 0.41);
    double share = rating_n / (g->elements * cosine);
    double inner_n = share / 0.407 * pow(1 + pow(t, 10.0 / 3), 0.3);
    double outer_n = share / 0.389 * pow(1 + pow(t, -10.0 / 3), 0.3);
    double damage = pow(cbrt(turning) / inner_n, 10.0 / 3) + standing / pow(outer_n, 10.0 / 3);
    *l10r_mrev = pow(damage, -0.9);
    return SPT_OK;
}
