/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#include "base/table.h"
#include "model/constants.h"

static bool is_within(double value, double low, double high)
{
    return value >= low && value <= high;
}

static double get_walther_ordinate(double nu_mm2_s)
{
    return log10(log10(nu_mm2_s + SPT_WALTHER_CONSTANT));
}

enum spt_status spt_viscosity_line(double t1_c, double nu1_mm2_s, double t2_c, double nu2_mm2_s,
                                   struct spt_walther *line)
{
    line->a = line->b = (double)NAN;
    if (!(t1_c > -SPT_ZERO_C_IN_K && t2_c > -SPT_ZERO_C_IN_K && isfinite(t1_c) && isfinite(t2_c)) ||
        !is_within(nu1_mm2_s, SPT_VISCOSITY_SMALLEST_MM2_S, SPT_VISCOSITY_LARGEST_MM2_S) ||
        !is_within(nu2_mm2_s, SPT_VISCOSITY_SMALLEST_MM2_S, SPT_VISCOSITY_LARGEST_MM2_S))
        return SPT_BAD_ARGUMENT;
    if (!((t1_c < t2_c && nu1_mm2_s > nu2_mm2_s) || (t1_c > t2_c && nu1_mm2_s < nu2_mm2_s)))
        return SPT_BAD_ARGUMENT;
    double x1 = log10(t1_c + SPT_ZERO_C_IN_K);
    double x2 = log10(t2_c + SPT_ZERO_C_IN_K);
    double y1 = get_walther_ordinate(nu1_mm2_s);
    line->b = (y1 - get_walther_ordinate(nu2_mm2_s)) / (x2 - x1);
    line->a = y1 + line->b * x1;
    return SPT_OK;
}

enum spt_status spt_viscosity_at(const struct spt_walther *line, double temperature_c,
                                 double *nu_mm2_s)
{
    *nu_mm2_s = (double)NAN;
    if (!isfinite(line->a) || !(line->b > 0.0 && isfinite(line->b)) ||
        !(temperature_c > -SPT_ZERO_C_IN_K && temperature_c <= SPT_TEMPERATURE_MAX_C))
        return SPT_BAD_ARGUMENT;
    double nu = pow(10.0, pow(10.0, line->a - line->b * log10(temperature_c + SPT_ZERO_C_IN_K))) -
                SPT_WALTHER_CONSTANT;
    if (!(nu <= SPT_VISCOSITY_LARGEST_MM2_S))
        return SPT_NOT_APPLICABLE;
    *nu_mm2_s = nu;
    return SPT_OK;
}

/* ASTM D2270 table X2.1: L = a Y^2 + b Y + c, H = d Y^2 + e Y + f from `from` up to the next row.
 * The first two rows and the last were read from the source; the others are from memory and were
 * fitted to table 1. */
static const struct quadratic {
    double from;
    double a, b, c;
    double d, e, f;
} quadratics[] = {
    {2.0, 1.14673, 1.7576, -0.109, 0.84155, 1.5521, -0.077},
    {3.8, 3.38095, -15.4952, 33.196, 0.78571, 1.7929, -0.183},
    {4.4, 2.5000, -7.2143, 13.812, 0.82143, 1.5679, 0.119},
    {5.0, 0.10100, 16.6350, -45.469, 0.04985, 9.1613, -18.557},
    {6.4, 3.35714, -23.5643, 78.466, 0.22619, 7.7369, -16.656},
    {7.0, 0.01191, 21.4750, -72.870, 0.79762, -0.7321, 14.610},
    {7.7, 0.41858, 16.1558, -56.040, 0.05794, 10.5156, -28.240},
    {9.0, 0.88779, 7.5527, -16.600, 0.26665, 6.7015, -10.810},
    {12.0, 0.76720, 10.7972, -38.180, 0.20073, 8.4658, -22.490},
    {15.0, 0.97305, 5.3135, -2.200, 0.28889, 5.9741, -4.930},
    {18.0, 0.97256, 5.2500, -0.980, 0.24504, 7.4160, -16.730},
    {22.0, 0.91413, 7.4759, -21.820, 0.20323, 9.1267, -34.230},
    {28.0, 0.87031, 9.7157, -50.770, 0.18411, 10.1015, -46.750},
    {40.0, 0.84703, 12.6752, -133.310, 0.17029, 11.4866, -80.620},
    {55.0, 0.85921, 11.1009, -83.190, 0.17130, 11.3680, -76.940},
    {70.0, 0.83531, 14.6731, -216.246, 0.16841, 11.8493, -96.947},
};

enum spt_status spt_viscosity_index_basis(double nu100_mm2_s, double *l_mm2_s, double *h_mm2_s)
{
    *l_mm2_s = *h_mm2_s = (double)NAN;
    if (!is_within(nu100_mm2_s, 2.0, 500.0))
        return SPT_BAD_ARGUMENT;
    size_t row = sizeof quadratics / sizeof quadratics[0] - 1;
    while (nu100_mm2_s < quadratics[row].from)
        row--;
    const struct quadratic *q = &quadratics[row];
    *l_mm2_s = (q->a * nu100_mm2_s + q->b) * nu100_mm2_s + q->c;
    *h_mm2_s = (q->d * nu100_mm2_s + q->e) * nu100_mm2_s + q->f;
    return SPT_OK;
}

enum spt_status spt_viscosity_index(double nu40_mm2_s, double nu100_mm2_s, double *index)
{
    double l, h;
    *index = (double)NAN;
    if (!(nu40_mm2_s > nu100_mm2_s && nu40_mm2_s <= SPT_VISCOSITY_LARGEST_MM2_S) ||
        spt_viscosity_index_basis(nu100_mm2_s, &l, &h) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    if (nu40_mm2_s >= h) {
        *index = 100.0 * (l - nu40_mm2_s) / (l - h);
    } else {
        double n = log10(h / nu40_mm2_s) / log10(nu100_mm2_s);
        *index = (pow(10.0, n) - 1.0) / 0.00715 + 100.0;
    }
    return SPT_OK;
}

enum spt_status spt_viscosity_100_from_index(double nu40_mm2_s, double index, double *nu100_mm2_s)
{
    *nu100_mm2_s = (double)NAN;
    if (!is_within(nu40_mm2_s, 2.5, 5000.0) || !is_within(index, -50.0, 400.0))
        return SPT_BAD_ARGUMENT;
    double low = 2.0;
    double high = fmin(400.0, nextafter(nu40_mm2_s, 0.0));
    double at_low, at_high;
    if (spt_viscosity_index(nu40_mm2_s, low, &at_low) != SPT_OK ||
        spt_viscosity_index(nu40_mm2_s, high, &at_high) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    if (index < at_low || index > at_high)
        return SPT_NOT_APPLICABLE;
    for (int i = 0; i < 60; i++) { /* 400/2^60 is below the spacing of doubles */
        double middle = 0.5 * (low + high);
        double at_middle;
        if (spt_viscosity_index(nu40_mm2_s, middle, &at_middle) != SPT_OK)
            return SPT_BAD_ARGUMENT;
        if (at_middle < index)
            low = middle;
        else
            high = middle;
    }
    *nu100_mm2_s = 0.5 * (low + high);
    return SPT_OK;
}

const struct spt_viscosity_grade *spt_viscosity_grade(int i)
{
    static const struct spt_viscosity_grade grades[] = {
        {2, 2.2},     {3, 3.2},       {5, 4.6},       {7, 6.8},       {10, 10.0},
        {15, 15.0},   {22, 22.0},     {32, 32.0},     {46, 46.0},     {68, 68.0},
        {100, 100.0}, {150, 150.0},   {220, 220.0},   {320, 320.0},   {460, 460.0},
        {680, 680.0}, {1000, 1000.0}, {1500, 1500.0}, {2200, 2200.0}, {3200, 3200.0},
    };
    SPT_ONE_EACH(grades, SPT_VISCOSITY_GRADE_COUNT);
    return i >= 0 && i < SPT_VISCOSITY_GRADE_COUNT ? &grades[i] : NULL;
}
