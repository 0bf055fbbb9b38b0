/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/machine/beam.h"

#define LEAST_SPREAD_MM 1.0 /* least distance between two load centres; ours */

enum { ACROSS, UPRIGHT }; /* the planes x-z and y-z */

static bool supports_are_valid(const struct spt_machine_shaft *shaft)
{
    if (shaft->support_count < 2 || shaft->support_count > SPT_SUPPORTS_MAX)
        return false;
    for (int i = 0; i < shaft->support_count; i++)
        if (!isfinite(shaft->supports[i].centre_mm) || !(shaft->supports[i].stiffness_n_mm > 0))
            return false;
    return true;
}

/* The outer reactions from statics, with the inner ones as loads. */
static void close_balance(const struct spt_machine_shaft *shaft, const struct spt_beam_load *loads,
                          int count, double *reactions_n)
{
    int last = shaft->support_count - 1;
    double at = shaft->supports[0].centre_mm, span = shaft->supports[last].centre_mm - at;
    double force = 0, moment = 0;
    for (int i = 0; i < count; i++) {
        force += loads[i].force_n;
        moment += (loads[i].at_mm - at) * loads[i].force_n + loads[i].moment_nmm;
    }
    for (int i = 1; i < last; i++) {
        force += reactions_n[i];
        moment += (shaft->supports[i].centre_mm - at) * reactions_n[i];
    }
    reactions_n[last] = -moment / span;
    reactions_n[0] = -force - reactions_n[last];
}

enum spt_status spt_beam(const struct spt_machine_shaft *shaft, const struct spt_beam_load *loads,
                         int count, int plane, double *reactions_n, double *slopes_rad)
{
    struct spt_beam_line line;
    if (!supports_are_valid(shaft) || count > SPT_PARTS_MAX || plane < 0 || plane > 1)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i + 1 < shaft->support_count; i++)
        if (shaft->supports[i + 1].centre_mm - shaft->supports[i].centre_mm < LEAST_SPREAD_MM)
            return SPT_CANNOT_CARRY;
    for (int i = 0; i < shaft->support_count; i++)
        slopes_rad[i] = (double)NAN;
    if (shaft->support_count > 2 && !shaft->piece_count)
        return SPT_NOT_APPLICABLE;
    if (shaft->piece_count) {
        enum spt_status status = spt_beam_line(shaft, loads, count, plane, &line, reactions_n);
        if (status)
            return status;
        for (int i = 0; i < shaft->support_count; i++)
            slopes_rad[i] = spt_beam_slope(&line, shaft->supports[i].centre_mm);
    }
    close_balance(shaft, loads, count, reactions_n);
    return SPT_OK;
}

/* The loads of one plane: a moment about y raises the slope of x, one about x lowers that of y. */
static enum spt_status solve_plane(const struct spt_machine_shaft *shaft,
                                   const struct spt_part_load *parts, int plane,
                                   double *reactions_n, double *slopes_rad)
{
    struct spt_beam_load loads[SPT_PARTS_MAX];
    for (int i = 0; i < shaft->part_count; i++)
        loads[i] = (struct spt_beam_load){parts[i].at_mm, parts[i].force_n[plane],
                                          plane == ACROSS ? parts[i].moment_nmm[1]
                                                          : -parts[i].moment_nmm[0]};
    return spt_beam(shaft, loads, shaft->part_count, plane, reactions_n, slopes_rad);
}

/* Loads of no fixed direction: each support takes its share, and the shares of several loads are
 * added, as if they pointed the same way at the worst time. Seats out of line do not count again.
 */
static enum spt_status add_amplitudes(const struct spt_machine_shaft *shaft,
                                      const struct spt_part_load *parts,
                                      struct spt_support_load *out)
{
    double reactions[SPT_SUPPORTS_MAX], slopes[SPT_SUPPORTS_MAX];
    struct spt_support straight[SPT_SUPPORTS_MAX];
    struct spt_machine_shaft line = *shaft;
    line.supports = straight;
    for (int i = 0; i < shaft->support_count; i++) {
        straight[i] = shaft->supports[i];
        straight[i].offset_mm[0] = straight[i].offset_mm[1] = 0;
    }
    for (int i = 0; i < shaft->part_count; i++) {
        struct spt_beam_load unit = {parts[i].at_mm, 1, 0};
        if (parts[i].turning_n == 0 && parts[i].any_n == 0)
            continue;
        enum spt_status status = spt_beam(&line, &unit, 1, ACROSS, reactions, slopes);
        if (status)
            return status;
        for (int k = 0; k < shaft->support_count; k++) {
            out[k].turning_n += fabs(reactions[k] * parts[i].turning_n);
            out[k].any_n += fabs(reactions[k] * parts[i].any_n);
        }
    }
    return SPT_OK;
}

/* Adds a force at the place z of the axis to sums of forces and of moments about a point. */
static void add_force(double arm_mm, double x_n, double y_n, double force[2], double moment[2])
{
    force[0] += x_n;
    force[1] += y_n;
    moment[0] -= arm_mm * y_n;
    moment[1] += arm_mm * x_n;
}

/* Direct sums over parts and reactions, about a point that no load acts at. */
static void check_balance(const struct spt_machine_shaft *shaft, const struct spt_part_load *parts,
                          const struct spt_support_load *out, struct spt_shaft_balance *balance)
{
    const struct spt_support *first = &shaft->supports[0];
    double span = shaft->supports[shaft->support_count - 1].centre_mm - first->centre_mm;
    double about = first->centre_mm - 0.37 * span, force[2] = {0}, moment[2] = {0};
    *balance = (struct spt_shaft_balance){0};
    double reach = span;
    for (int i = 0; i < shaft->part_count; i++) {
        const struct spt_part_load *load = &parts[i];
        for (int k = 0; k < 3; k++) {
            balance->force_n[k] += load->force_n[k];
            balance->moment_nmm[k] += load->moment_nmm[k];
        }
        balance->moment_nmm[0] -= load->at_mm * load->force_n[1];
        balance->moment_nmm[1] += load->at_mm * load->force_n[0];
        balance->most_force_n =
            fmax(balance->most_force_n, hypot(load->force_n[0], load->force_n[1]));
        reach = fmax(reach, fabs(load->at_mm - first->centre_mm));
        add_force(load->at_mm - about, load->force_n[0], load->force_n[1], force, moment);
        moment[0] += load->moment_nmm[0];
        moment[1] += load->moment_nmm[1];
        if (balance->most_force_n > 0)
            reach = fmax(reach,
                         hypot(load->moment_nmm[0], load->moment_nmm[1]) / balance->most_force_n);
    }
    for (int i = 0; i < shaft->support_count; i++) {
        add_force(shaft->supports[i].centre_mm - about, -out[i].x_n, -out[i].y_n, force, moment);
        balance->most_force_n = fmax(balance->most_force_n, hypot(out[i].x_n, out[i].y_n));
    }
    if (!(balance->most_force_n > 0))
        return;
    balance->force_error = hypot(force[0], force[1]) / balance->most_force_n;
    balance->moment_error = hypot(moment[0], moment[1]) / (balance->most_force_n * reach);
}

enum spt_status spt_shaft_reactions(const struct spt_machine_shaft *shaft,
                                    const struct spt_part_load *loads,
                                    struct spt_support_load *supports,
                                    struct spt_shaft_balance *balance)
{
    double reactions[2][SPT_SUPPORTS_MAX], slopes[2][SPT_SUPPORTS_MAX];
    if (shaft->part_count < 1 || shaft->part_count > SPT_PARTS_MAX)
        return SPT_BAD_ARGUMENT;
    for (int plane = ACROSS; plane <= UPRIGHT; plane++) {
        enum spt_status status = solve_plane(shaft, loads, plane, reactions[plane], slopes[plane]);
        if (status)
            return status;
    }
    for (int i = 0; i < shaft->support_count; i++)
        supports[i] = (struct spt_support_load){
            .x_n = -reactions[ACROSS][i],
            .y_n = -reactions[UPRIGHT][i],
            .direction_rad = atan2(-reactions[UPRIGHT][i], -reactions[ACROSS][i]),
            .slope_rad = hypot(slopes[ACROSS][i], slopes[UPRIGHT][i]),
        };
    enum spt_status status = add_amplitudes(shaft, loads, supports);
    check_balance(shaft, loads, supports, balance);
    return status;
}
