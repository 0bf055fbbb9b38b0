/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stddef.h>

#include "base/table.h"

#define UM 1e-3        /* mm */
#define SMOOTHING_MM 2 /* u d/(d + 2): ground seats (from memory) */
#define EXPANSION_K 11.5e-6
#define STEEL_MPA 206000.0

struct limits {
    int upper, lower; /* um */
};

/* Shafts of ISO 286-2, from memory; bores over 18, 30, 50, 80 and 120 mm. */
static const double shaft_ends_mm[] = {18, 30, 50, 80, 120};
static const struct limits shafts[SPT_SHAFT_FIT_COUNT][4] = {
    [SPT_SHAFT_G6] = {{-7, -20}, {-9, -25}, {-10, -29}, {-12, -34}},
    [SPT_SHAFT_H6] = {{0, -13}, {0, -16}, {0, -19}, {0, -22}},
    [SPT_SHAFT_J6] = {{9, -4}, {11, -5}, {12, -7}, {13, -9}},
    [SPT_SHAFT_K5] = {{11, 2}, {13, 2}, {15, 2}, {18, 3}},
    [SPT_SHAFT_K6] = {{15, 2}, {18, 2}, {21, 2}, {25, 3}},
    [SPT_SHAFT_M5] = {{17, 8}, {20, 9}, {24, 11}, {28, 13}},
    [SPT_SHAFT_M6] = {{21, 8}, {25, 9}, {30, 11}, {35, 13}},
    [SPT_SHAFT_N6] = {{28, 15}, {33, 17}, {39, 20}, {45, 23}},
    [SPT_SHAFT_P6] = {{35, 22}, {42, 26}, {51, 32}, {59, 37}},
};
/* bore of a ring of normal class, ISO 492, from memory */
static const struct limits ring_bores[4] = {{0, -10}, {0, -12}, {0, -15}, {0, -20}};

/* Housings of ISO 286-2, from memory; outside diameters over 50, 80, 120 and 180 mm. */
static const double housing_ends_mm[] = {50, 80, 120, 180};
static const struct limits housings[SPT_HOUSING_FIT_COUNT][3] = {
    [SPT_HOUSING_H7] = {{30, 0}, {35, 0}, {40, 0}},
    [SPT_HOUSING_J7] = {{18, -12}, {22, -13}, {26, -14}},
    [SPT_HOUSING_K7] = {{9, -21}, {10, -25}, {12, -28}},
    [SPT_HOUSING_M7] = {{0, -30}, {0, -35}, {0, -40}},
    [SPT_HOUSING_N7] = {{-9, -39}, {-10, -45}, {-12, -52}},
    [SPT_HOUSING_P7] = {{-21, -51}, {-24, -59}, {-28, -68}},
};
static double ring_outside_lower(double outside_mm)
{
    return outside_mm <= 80 ? -13 : outside_mm <= 120 ? -15 : outside_mm <= 150 ? -18 : -25;
}

/* Radial clearance of ISO 5753-1, from memory: least and most of the groups 2, normal, 3 and 4;
 * bores over 24, 30, 40, 50, 65, 80 and 100 mm, to 120. */
static const double bore_ends_mm[] = {24, 30, 40, 50, 65, 80, 100, 120};
struct classes {
    int least[SPT_CLEARANCE_CLASS_COUNT], most[SPT_CLEARANCE_CLASS_COUNT];
};
static const struct classes deep_groove[7] = {
    {{1, 5, 13, 23}, {11, 20, 28, 41}},  {{1, 6, 15, 28}, {11, 20, 33, 46}},
    {{1, 6, 18, 30}, {11, 23, 36, 51}},  {{1, 8, 23, 38}, {15, 28, 43, 61}},
    {{1, 10, 25, 46}, {15, 30, 51, 71}}, {{1, 12, 30, 53}, {18, 36, 58, 84}},
    {{2, 15, 36, 61}, {20, 41, 66, 97}},
};
static const struct classes cylindrical[7] = {
    {{0, 20, 35, 50}, {25, 45, 60, 75}},     {{5, 25, 45, 60}, {30, 50, 70, 85}},
    {{5, 30, 50, 70}, {35, 60, 80, 100}},    {{10, 40, 60, 80}, {40, 70, 90, 110}},
    {{10, 40, 65, 90}, {45, 75, 100, 125}},  {{15, 50, 75, 105}, {50, 85, 110, 140}},
    {{15, 50, 85, 125}, {55, 90, 125, 165}},
};
static const struct classes spherical[7] = {
    {{15, 25, 40, 55}, {25, 40, 55, 75}},      {{15, 30, 45, 60}, {30, 45, 60, 80}},
    {{20, 35, 55, 75}, {35, 55, 75, 100}},     {{20, 40, 65, 90}, {40, 65, 90, 120}},
    {{30, 50, 80, 110}, {50, 80, 110, 145}},   {{35, 60, 100, 135}, {60, 100, 135, 180}},
    {{40, 75, 120, 160}, {75, 120, 160, 210}},
};

/* The step with ends[i] < value <= ends[i + 1]; -1 where there is none. */
static int find_step(const double *ends, int count, double value)
{
    for (int i = 0; i + 1 < count; i++)
        if (value > ends[i] && value <= ends[i + 1])
            return i;
    return -1;
}
#define STEP(ends, value) find_step(ends, (int)(sizeof(ends) / sizeof *(ends)), value)

static const struct classes *find_classes(enum spt_bearing_type type, int step)
{
    if (step < 0)
        return NULL;
    if (type == SPT_DEEP_GROOVE_BALL)
        return &deep_groove[step];
    if (type == SPT_CYLINDRICAL_ROLLER)
        return &cylindrical[step];
    return type == SPT_SPHERICAL_ROLLER ? &spherical[step] : NULL;
}

static struct spt_scatter make_scatter(double middle_mm, double half_mm)
{
    return (struct spt_scatter){middle_mm - half_mm, middle_mm, middle_mm + half_mm};
}

static double half_of(const struct spt_scatter *scatter)
{
    return (scatter->high_mm - scatter->low_mm) / 2;
}

/* Interference in mm of an inner member within an outer one, smoothed. */
static struct spt_scatter fit(struct limits inside, struct limits outside, double diameter_mm)
{
    const double kept = diameter_mm / (diameter_mm + SMOOTHING_MM) * UM;
    const double middle = (inside.upper + inside.lower - outside.upper - outside.lower) / 2.0;
    const double half =
        hypot((inside.upper - inside.lower) / 2.0, (outside.upper - outside.lower) / 2.0);
    return make_scatter(kept * middle, kept * half);
}

/* Growth of the outside b of a ring on a shaft of radius a with a bore c, over the interference:
 * steel on steel, closed form by Lame. */
static double growth_share(double a, double b, double c)
{
    return b / a * (a * a - c * c) / (b * b - c * c);
}

static void seat_inner(const struct spt_bearing *bearing, double raceway_mm,
                       struct spt_clearance *r, double *half_mm)
{
    const double a = bearing->bore_mm / 2, b = raceway_mm / 2;
    const double hollow = bearing->seat.shaft_bore_mm;
    const double share = growth_share(a, b, hollow > 0 ? hollow / 2 : 0);
    r->inner_growth_mm = share * fmax(r->shaft.middle_mm, 0);
    r->pressure_mpa = r->inner_growth_mm * STEEL_MPA * (b * b - a * a) / (4 * a * a * b);
    *half_mm = r->shaft.high_mm > 0 ? share * half_of(&r->shaft) : 0;
}

static void seat_outer(const struct spt_bearing *bearing, double raceway_mm,
                       struct spt_clearance *r, double *half_mm)
{
    const double a = raceway_mm / 2, b = bearing->outside_diameter_mm / 2;
    const double c = bearing->seat.housing_outside_mm / 2;
    const double share = c > b ? a / b * (c * c - b * b) / (c * c - a * a) : a / b;
    r->outer_shrinkage_mm = share * fmax(r->housing.middle_mm, 0);
    *half_mm = r->housing.high_mm > 0 ? share * half_of(&r->housing) : 0;
}

static enum spt_status find_fits(const struct spt_bearing *bearing, struct spt_clearance *r)
{
    const struct spt_seat *seat = &bearing->seat;
    const double outside_mm = bearing->outside_diameter_mm;
    const int shaft = STEP(shaft_ends_mm, bearing->bore_mm);
    const int housing = STEP(housing_ends_mm, outside_mm);
    const struct spt_scatter none = {(double)NAN, (double)NAN, (double)NAN};
    r->shaft = r->housing = none;
    if ((seat->shaft_fit >= 0 && shaft < 0) || (seat->housing_fit >= 0 && housing < 0))
        return SPT_NOT_APPLICABLE;
    if (seat->shaft_fit >= 0)
        r->shaft = fit(shafts[seat->shaft_fit][shaft], ring_bores[shaft], bearing->bore_mm);
    if (seat->housing_fit >= 0)
        r->housing = fit((struct limits){0, (int)ring_outside_lower(outside_mm)},
                         housings[seat->housing_fit][housing], outside_mm);
    return SPT_OK;
}

enum spt_status spt_clearance_at_work(const struct spt_bearing *bearing,
                                      struct spt_clearance *clearance)
{
    const struct spt_seat *seat = &bearing->seat;
    const struct classes *c = find_classes(bearing->type, STEP(bore_ends_mm, bearing->bore_mm));
    *clearance = (struct spt_clearance){.pressure_mpa = 0};
    if (!bearing->has_seat || !c || seat->clearance < 0)
        return SPT_NOT_APPLICABLE;
    enum spt_status status = find_fits(bearing, clearance);
    if (status)
        return status;
    const double least = UM * c->least[seat->clearance], most = UM * c->most[seat->clearance];
    const double near = bearing->type == SPT_DEEP_GROOVE_BALL ? 0.2 : 0.25;
    const double d = bearing->bore_mm, outside = bearing->outside_diameter_mm;
    double inner_half = 0, outer_half = 0;
    clearance->shelf = make_scatter((least + most) / 2, (most - least) / 2);
    seat_inner(bearing, (1 - near) * d + near * outside, clearance, &inner_half);
    seat_outer(bearing, near * d + (1 - near) * outside, clearance, &outer_half);
    clearance->heat_mm = EXPANSION_K * bearing->pitch_diameter_mm * seat->inner_warmer_k;
    clearance->work = make_scatter(clearance->shelf.middle_mm - clearance->inner_growth_mm -
                                       clearance->outer_shrinkage_mm - clearance->heat_mm,
                                   sqrt(gsl_pow_2(half_of(&clearance->shelf)) +
                                        gsl_pow_2(inner_half) + gsl_pow_2(outer_half)));
    return SPT_OK;
}
