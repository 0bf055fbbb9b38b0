/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/machine/part.h"

#include <gsl/gsl_const_mksa.h>
#include <math.h>

#include "base/table.h"

void spt_part_at_axis(double phi_rad, double force_n, struct spt_part_load *load)
{
    load->force_n[0] += force_n * cos(phi_rad);
    load->force_n[1] += force_n * sin(phi_rad);
}

/* A chain pulls with its tight strand alone, times the stated factor. */
static enum spt_status load_chain(const struct spt_part *part, const struct spt_part_state *state,
                                  struct spt_part_load *load)
{
    bool strands = isfinite(part->plus_rad) && isfinite(part->minus_rad);
    double phi = !strands                 ? part->towards_rad
                 : state->torque_nmm >= 0 ? part->plus_rad
                                          : part->minus_rad;
    if (!(part->diameter_mm > 0) || !(part->pull_factor >= 1) || !isfinite(phi))
        return SPT_BAD_ARGUMENT;
    load->tight_n = part->pull_factor * 2 * fabs(state->torque_nmm) / part->diameter_mm;
    load->slack_n = 0;
    spt_part_at_axis(phi, load->tight_n, load);
    return SPT_OK;
}

static enum spt_status load_coupling(const struct spt_part *part,
                                     const struct spt_part_state *state, struct spt_part_load *load)
{
    if (part->reaction_share == 0)
        return SPT_OK;
    if (!(part->reaction_share > 0) || !(part->diameter_mm > 0))
        return SPT_BAD_ARGUMENT;
    load->any_n = part->reaction_share * 2 * fabs(state->torque_nmm) / part->diameter_mm;
    return SPT_OK;
}

static enum spt_status load_impeller(const struct spt_part *part,
                                     const struct spt_part_state *state, struct spt_part_load *load)
{
    (void)part;
    (void)state;
    (void)load;
    return SPT_OK; /* its weight, unbalance and thrust are those that any part may have */
}

/* What the arm does to the housing of the drive passes on to the shaft in the same sense. */
static enum spt_status load_drive(const struct spt_part *part, const struct spt_part_state *state,
                                  struct spt_part_load *load)
{
    if (isnan(part->lever_mm))
        return SPT_OK; /* held by its flange */
    if (!(part->lever_mm > 0) || !isfinite(part->towards_rad))
        return SPT_BAD_ARGUMENT;
    load->tangential_n = fabs(state->torque_nmm) / part->lever_mm;
    spt_part_at_axis(part->towards_rad + acos(-1.0) / 2, state->torque_nmm / part->lever_mm, load);
    return SPT_OK;
}

static enum spt_status load_crank(const struct spt_part *part, const struct spt_part_state *state,
                                  struct spt_part_load *load)
{
    if (!(part->lever_mm > 0))
        return SPT_BAD_ARGUMENT;
    load->tangential_n = fabs(state->torque_nmm) / part->lever_mm;
    load->turning_n += load->tangential_n;
    return SPT_OK;
}

static spt_part_model *const models[] = {
    [SPT_PART_GEAR] = spt_gear_load,     [SPT_PART_BEVEL_GEAR] = spt_bevel_load,
    [SPT_PART_WORM] = spt_worm_load,     [SPT_PART_WORM_WHEEL] = spt_worm_wheel_load,
    [SPT_PART_BELT] = spt_belt_load,     [SPT_PART_CHAIN] = load_chain,
    [SPT_PART_DRUM] = spt_belt_load,     [SPT_PART_COUPLING] = load_coupling,
    [SPT_PART_IMPELLER] = load_impeller, [SPT_PART_DRIVE] = load_drive,
    [SPT_PART_CRANK] = load_crank,       [SPT_PART_WEIGHT] = load_impeller,
    [SPT_PART_FORCE] = load_impeller,
};
SPT_ONE_EACH(models, SPT_PART_KIND_COUNT);

/* Weight, unbalance and stated forces, which any part may have. */
static void add_common(const struct spt_part *part, const struct spt_part_state *state,
                       struct spt_part_load *load)
{
    double weight = part->mass_kg * GSL_CONST_MKSA_GRAV_ACCEL;
    double omega = state->speed_rpm * acos(-1.0) / 30;
    load->weight_n = weight;
    if (state->upright != 0)
        load->force_n[2] += state->upright * weight;
    else
        load->force_n[1] -= weight;
    if (!isnan(part->balance_m_s))
        load->turning_n += part->mass_kg * part->balance_m_s * omega;
    load->turning_n += part->unbalance_kg_m * omega * omega;
    if (isfinite(part->towards_rad))
        spt_part_at_axis(part->towards_rad, part->radial_n, load);
    load->force_n[2] += part->axial_n;
}

static void clear(double at_mm, struct spt_part_load *load)
{
    double none = (double)NAN;
    *load = (struct spt_part_load){.at_mm = at_mm,
                                   .tangential_n = none,
                                   .radial_n = none,
                                   .axial_n = none,
                                   .tight_n = none,
                                   .slack_n = none,
                                   .wrap_rad = none};
}

static bool is_valid(const struct spt_part *part, const struct spt_part_state *state)
{
    return (unsigned)part->kind < SPT_PART_KIND_COUNT && isfinite(part->at_mm) &&
           isfinite(state->torque_nmm) && fabs(state->spin) == 1 && state->speed_rpm >= 0 &&
           isfinite(state->speed_rpm) && part->mass_kg >= 0 &&
           isfinite(part->mass_kg + part->unbalance_kg_m + part->radial_n + part->axial_n);
}

enum spt_status spt_part_load(const struct spt_part *part, const struct spt_part_state *state,
                              struct spt_part_load *load)
{
    clear(part->at_mm, load);
    if (!is_valid(part, state))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = models[part->kind](part, state, load);
    if (status)
        return status;
    load->moment_nmm[2] += state->torque_nmm;
    add_common(part, state, load);
    return SPT_OK;
}
