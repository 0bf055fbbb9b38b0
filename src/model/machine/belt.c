/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/machine/part.h"

#include <math.h>

double spt_belt_ratio(double friction, double wrap_rad, double groove_rad)
{
    double wedge = isnan(groove_rad) ? 1 : sin(groove_rad / 2);
    return exp(friction * wrap_rad / wedge);
}

double spt_belt_wrap(double diameter_mm, double other_mm, double centres_mm)
{
    double slope = fabs(other_mm - diameter_mm) / (2 * centres_mm);
    if (!(diameter_mm > 0) || !(other_mm > 0) || !(centres_mm > (diameter_mm + other_mm) / 2))
        return (double)NAN;
    return acos(-1.0) - 2 * asin(slope);
}

/* The sum of both strands, or the pull of the slack one, that the largest torque needs. */
static double find_tension(const struct spt_part *part, double most_net_n)
{
    if (!isnan(part->pretension_n))
        return part->pretension_n;
    if (!isnan(part->pull_factor))
        return part->pull_factor * most_net_n;
    double m = spt_belt_ratio(part->friction, part->wrap_rad, part->groove_rad);
    double slack = most_net_n * part->start_factor / (m - 1);
    return part->tensioner == SPT_TENSIONER_WEIGHT ? slack
                                                   : 2 * slack + most_net_n * part->start_factor;
}

/* Wrap of the strands that leave in these directions: their points of contact are a quarter turn
 * behind and ahead of them. */
static double find_wrap(const struct spt_part *part)
{
    double pi = acos(-1.0), turn = remainder(part->plus_rad - part->minus_rad, 2 * pi);
    return pi + turn;
}

static bool strands_known(const struct spt_part *part)
{
    return isfinite(part->plus_rad) && isfinite(part->minus_rad);
}

/* A pull along the line of centres, where the strands are not known. */
static enum spt_status pull_along(const struct spt_part *part, double tension, double net_n,
                                  struct spt_part_load *load)
{
    double pull = part->tensioner == SPT_TENSIONER_WEIGHT && isnan(part->pull_factor)
                      ? 2 * tension + net_n
                      : tension;
    if (!isfinite(part->towards_rad))
        return SPT_BAD_ARGUMENT;
    spt_part_at_axis(part->towards_rad, pull, load);
    return SPT_OK;
}

enum spt_status spt_belt_load(const struct spt_part *part, const struct spt_part_state *state,
                              struct spt_part_load *load)
{
    double r = part->diameter_mm / 2, net = fabs(state->torque_nmm) / r;
    if (!(r > 0) || !(part->start_factor >= 1) || part->pretension_n < 0 || part->pull_factor < 0 ||
        (isnan(part->pretension_n) && isnan(part->pull_factor) &&
         !(part->friction > 0 && part->wrap_rad > 0)))
        return SPT_BAD_ARGUMENT;
    double tension = find_tension(part, fmax(state->most_nmm / r, net));
    bool weight = part->tensioner == SPT_TENSIONER_WEIGHT && isnan(part->pull_factor);
    load->slack_n = weight ? tension : (tension - net) / 2;
    load->tight_n = load->slack_n + net;
    if (!strands_known(part)) {
        if (!isnan(part->pull_factor))
            load->tight_n = load->slack_n = (double)NAN; /* the factor tells their resultant */
        return pull_along(part, tension, net, load);
    }
    if (load->slack_n < 0)
        return SPT_NOT_APPLICABLE;
    load->wrap_rad = find_wrap(part);
    bool plus = state->torque_nmm >= 0;
    spt_part_at_axis(part->plus_rad, plus ? load->tight_n : load->slack_n, load);
    spt_part_at_axis(part->minus_rad, plus ? load->slack_n : load->tight_n, load);
    return SPT_OK;
}
