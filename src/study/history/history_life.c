/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/history.h"
#include "spalltime/life.h"
#include "spalltime/statistics.h"
#include "study/history/history_sum.h"

#define LONG_HOLD 20.0    /* times the usual time of a sample; ours */
#define COARSE_SHARE 0.05 /* of the modified life; ours */

/* Basic rating life in hours, from the sums of P^p times revolutions. */
static double find_life(const struct spt_history *history, const double *damage,
                        const double *rating_n, double hours)
{
    double lives_h[SPT_HISTORY_ROWS];
    for (int row = 0; row < history->rows; row++)
        lives_h[row] = damage[row] > 0
                           ? 1e6 * pow(rating_n[row], history->terms.exponent) / damage[row] * hours
                           : (double)INFINITY;
    return spt_survival_series(lives_h, history->rows, SPT_BASIC_RELIABILITY);
}

enum spt_status spt_history_basic_life(const struct spt_history *history,
                                       const struct spt_history_bin *bins, int count,
                                       const double rating_n[SPT_HISTORY_ROWS],
                                       struct spt_history_basic *life)
{
    double raw[SPT_HISTORY_ROWS] = {0}, binned[SPT_HISTORY_ROWS] = {0}, binned_h = 0;
    double hours =
        spt_history_sum_of(&history->total.time_h) + spt_history_sum_of(&history->standing_h);
    *life = (struct spt_history_basic){(double)NAN, (double)NAN};
    if (count > 0 && !bins)
        return SPT_BAD_ARGUMENT;
    for (int row = 0; row < history->rows; row++) {
        if (!(rating_n[row] > 0))
            return SPT_BAD_ARGUMENT;
        raw[row] = spt_history_sum_of(&history->total.damage[row]);
    }
    for (int i = 0; i < count; i++) {
        double made[SPT_HISTORY_ROWS];
        enum spt_status status =
            spt_history_equivalent(&history->terms, bins[i].load_n, bins[i].side_n, made);
        if (status)
            return status;
        for (int row = 0; row < history->rows; row++)
            binned[row] +=
                bins[i].time_h * 60 * bins[i].speed_rpm * pow(made[row], history->terms.exponent);
        binned_h += bins[i].time_h;
    }
    life->samples_h = find_life(history, raw, rating_n, hours);
    life->bins_h = find_life(history, binned, rating_n, binned_h);
    return SPT_OK;
}

/* Sets the loads of a phase to those of a bin on one row. */
static enum spt_status load_row(const struct spt_history_terms *terms,
                                const struct spt_history_bin *bin, int row, struct spt_phase *phase)
{
    if (terms->kind == SPT_HISTORY_WHOLE) {
        phase->equivalent_load_n = bin->load_n;
        return SPT_OK;
    }
    phase->radial_load_n = bin->load_n;
    phase->axial_load_n = bin->side_n;
    if (terms->kind != SPT_HISTORY_WHEEL)
        return SPT_OK;
    const struct spt_hub_wheel wheel = {.radial_n = bin->load_n,
                                        .side_n = bin->side_n,
                                        .rolling_radius_mm = terms->rolling_radius_mm};
    const struct spt_hub_load load = spt_hub_wheel_load(&wheel);
    struct spt_hub_handbook_result shared;
    enum spt_status status = spt_hub_handbook_reactions(terms->handbook, &load, &shared);
    phase->radial_load_n = shared.radial_n[row];
    phase->axial_load_n = shared.axial_n[row];
    return status;
}

static double power_mean(const struct spt_history *history, int row)
{
    double revolutions = spt_history_sum_of(&history->total.revolutions);
    double damage = spt_history_sum_of(&history->total.damage[row]);
    return revolutions > 0 && damage > 0 ? pow(damage / revolutions, 1 / history->terms.exponent)
                                         : 0;
}

static double find_resting(const struct spt_history *history, const struct spt_case *question,
                           int row)
{
    const struct spt_history_bin hardest = {.load_n = history->hardest.load_n,
                                            .side_n = history->hardest.side_n};
    struct spt_phase phase = {.equivalent_load_n = (double)NAN};
    struct spt_equivalent_load resting;
    if (!question || row >= question->bearing_count ||
        load_row(&history->terms, &hardest, row, &phase))
        return (double)NAN;
    if (!isnan(phase.equivalent_load_n))
        return phase.equivalent_load_n;
    spt_load_static(&question->bearings[row].bearing, phase.radial_load_n, phase.axial_load_n,
                    &resting, NULL);
    return resting.load_n;
}

void spt_history_summarise(const struct spt_history *history, const struct spt_case *question,
                           struct spt_history_summary *summary)
{
    double turning_h = spt_history_sum_of(&history->total.time_h);
    double standing_h = spt_history_sum_of(&history->standing_h);
    *summary = (struct spt_history_summary){
        .gap_h = (double)NAN,
        .usual_h = (double)NAN,
        .samples = history->total.samples + history->standing_samples,
        .hours = turning_h + standing_h,
        .turning_h = turning_h,
        .standing_h = standing_h,
        .standing_rpm = history->terms.standing_rpm,
        .standing_revolutions = spt_history_sum_of(&history->standing_revolutions),
        .reversed_samples = history->reversed_samples,
        .reversed_speeds = history->reversed_speeds,
        .reversed_loads = history->reversed_loads,
        .reversed_sides = history->reversed_sides,
        .exponent = history->terms.exponent,
        .mean_load_n = fmax(power_mean(history, 0), power_mean(history, 1)),
        .largest_n = fmax(history->hardest_n, 0),
        .basic = {(double)NAN, (double)NAN},
        .modified_h = (double)NAN,
        .refined_h = (double)NAN,
    };
    if (summary->hours > 0)
        summary->mean_speed_rpm =
            spt_history_sum_of(&history->total.revolutions) / 60 / summary->hours;
    for (int row = 0; row < SPT_HISTORY_ROWS; row++)
        summary->resting_n[row] = find_resting(history, question, row);
}

enum spt_status spt_history_modified_life(const struct spt_history *history,
                                          const struct spt_case *question,
                                          const struct spt_history_bin *bins, int count,
                                          struct spt_phase *phases,
                                          struct spt_phase_result *results, double *life_h)
{
    double lives_h[SPT_HISTORY_ROWS], hours = 0;
    struct spt_case copy = *question;
    *life_h = (double)NAN;
    if (count < 1 || count > SPT_PHASES_MAX)
        return SPT_TOO_SMALL;
    if (!bins || !phases || !results)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++)
        hours += bins[i].time_h;
    for (int row = 0; row < question->bearing_count; row++) {
        struct spt_bearing_result result;
        for (int i = 0; i < count; i++) {
            phases[i] = question->bearings[row].phases[0];
            phases[i].time_share = bins[i].time_h / hours;
            phases[i].speed_rpm = bins[i].speed_rpm;
            phases[i].setting_factor = 1;
            if (history->terms.has_temperature)
                phases[i].temperature_c = bins[i].temperature_c;
            enum spt_status status = load_row(&history->terms, &bins[i], row, &phases[i]);
            if (status)
                return status;
        }
        copy.bearings[row].phases = phases;
        copy.bearings[row].phase_count = count;
        enum spt_status status = spt_assess_bearing(&copy, row, 0, results, &result);
        if (status)
            return status;
        lives_h[row] = result.modified_rating_life_h;
    }
    *life_h = spt_survival_series(lives_h, question->bearing_count, question->reliability_percent);
    return SPT_OK;
}

void spt_history_note_hold(const struct spt_history_summary *summary, struct spt_notes *notes)
{
    if (summary->stamped && summary->longest_h > LONG_HOLD * summary->usual_h)
        spt_notes_add(notes, SPT_FLAG_HISTORY_LONG_HOLD, summary->longest_h,
                      summary->longest_h / summary->usual_h);
}

void spt_history_notes(const struct spt_history_summary *summary, const struct spt_case *question,
                       struct spt_notes *notes)
{
    double exponent = spt_life_exponent(question->bearings[0].bearing.type);
    spt_notes_add(notes, SPT_FLAG_HISTORY_BINNED, (double)summary->samples, summary->exponent);
    if (summary->reversed_samples)
        spt_notes_add(notes, SPT_FLAG_HISTORY_REVERSED, (double)summary->reversed_samples,
                      (double)NAN);
    if (summary->gaps)
        spt_notes_add(notes, SPT_FLAG_HISTORY_GAPS, (double)summary->gaps, summary->gaps_h);
    spt_history_note_hold(summary, notes);
    if (fabs(summary->refined_h / summary->modified_h - 1) > COARSE_SHARE)
        spt_notes_add(notes, SPT_FLAG_HISTORY_COARSE, summary->refined_h, summary->modified_h);
    if (exponent != summary->exponent)
        spt_notes_add(notes, SPT_FLAG_HISTORY_EXPONENT, exponent, summary->exponent);
}
