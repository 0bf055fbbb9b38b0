/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"

#include <math.h>

#include "spalltime/life.h"

static void clear(struct spt_hub_handbook_result *result)
{
    for (int i = 0; i < 2; i++)
        result->radial_n[i] = result->induced_n[i] = result->axial_n[i] = result->equivalent_n[i] =
            result->l10_mrev[i] = (double)NAN;
}

static bool pair_is_valid(const struct spt_hub_handbook *pair)
{
    for (int i = 0; i < 2; i++) {
        const struct spt_hub_handbook_row *row = &pair->rows[i];
        if (!(row->axial_factor > 0) || isinf(row->axial_factor) || row->limit_ratio < 0 ||
            row->dynamic_load_rating_n <= 0)
            return false;
    }
    return pair->induced_factor > 0 && pair->induced_factor <= 1;
}

/* Fa of the row that the thrust loads, and of the other. */
static void share_thrust(const double induced[2], int squeezed, double thrust, double axial[2])
{
    int other = 1 - squeezed;
    if (induced[squeezed] <= induced[other] + thrust) {
        axial[squeezed] = induced[other] + thrust;
        axial[other] = induced[other];
    } else {
        axial[squeezed] = induced[squeezed];
        axial[other] = induced[squeezed] - thrust;
    }
}

static double find_equivalent(const struct spt_hub_handbook_row *row, double radial, double axial)
{
    double y = row->axial_factor;
    double limit = isnan(row->limit_ratio) ? 0.6 / y : row->limit_ratio;
    if (axial <= limit * radial)
        return radial;
    return fmax(radial, 0.4 * radial + y * axial);
}

static double find_life(double rating, double load)
{
    double life = (double)NAN;
    if (isnan(rating))
        return life;
    if (load == 0)
        return (double)INFINITY;
    return spt_life_basic(SPT_TAPERED_ROLLER, rating, load, &life) == SPT_OK ? life : (double)NAN;
}

enum spt_status spt_hub_handbook_share(const struct spt_hub_handbook *pair,
                                       const double radial_n[2], double thrust_n,
                                       struct spt_hub_handbook_result *result)
{
    clear(result);
    if (!pair_is_valid(pair) || !(radial_n[0] >= 0) || !(radial_n[1] >= 0) ||
        !isfinite(radial_n[0] + radial_n[1] + thrust_n))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < 2; i++)
        result->induced_n[i] = pair->induced_factor * radial_n[i] / pair->rows[i].axial_factor;
    share_thrust(result->induced_n, thrust_n >= 0 ? 0 : 1, fabs(thrust_n), result->axial_n);
    for (int i = 0; i < 2; i++) {
        const struct spt_hub_handbook_row *row = &pair->rows[i];
        result->radial_n[i] = radial_n[i];
        result->equivalent_n[i] = find_equivalent(row, radial_n[i], result->axial_n[i]);
        result->l10_mrev[i] = find_life(row->dynamic_load_rating_n, result->equivalent_n[i]);
    }
    return SPT_OK;
}

enum spt_status spt_hub_handbook_reactions(const struct spt_hub_handbook *pair,
                                           const struct spt_hub_load *load,
                                           struct spt_hub_handbook_result *result)
{
    clear(result);
    double a0 = pair->rows[0].load_centre_mm, a1 = pair->rows[1].load_centre_mm;
    /* on the inner body */
    double sign = pair->turning == SPT_HUB_OUTER_TURNS ? -1.0 : 1.0;
    double fx = sign * load->force_x_n, fy = sign * load->force_y_n, fz = sign * load->force_z_n;
    double mx = sign * load->moment_x_nmm, my = sign * load->moment_y_nmm;
    if (!isfinite(a0) || !isfinite(a1))
        return SPT_BAD_ARGUMENT;
    if (a0 == a1)
        return SPT_CANNOT_CARRY;
    double x1 = (a0 * fx - my) / (a1 - a0), y1 = (a0 * fy + mx) / (a1 - a0);
    double radial[2] = {hypot(-fx - x1, -fy - y1), hypot(x1, y1)};
    double towards = pair->mounting == SPT_HUB_BACK_TO_BACK ? 1.0 : -1.0;
    return spt_hub_handbook_share(pair, radial, towards * fz, result);
}
