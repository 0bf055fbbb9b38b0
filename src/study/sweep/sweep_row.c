/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/sweep/sweep_row.h"

#include <math.h>
#include <string.h>

#include "base/table.h"
#include "spalltime/history.h"
#include "spalltime/statistics.h"
#include "study/life/assess_notes.h"

enum spt_status spt_sweep_line(const struct spt_lubricant *oil, double nu40_mm2_s,
                               struct spt_walther *line, double *nu100_mm2_s)
{
    enum spt_status status =
        spt_viscosity_100_from_index(nu40_mm2_s, oil->viscosity_index, nu100_mm2_s);
    if (!status)
        status = spt_viscosity_line(40, nu40_mm2_s, 100, *nu100_mm2_s, line);
    return status;
}

double spt_sweep_grade(double number)
{
    for (int i = 0; i < SPT_VISCOSITY_GRADE_COUNT; i++)
        if (spt_viscosity_grade(i)->number == (int)number)
            return spt_viscosity_grade(i)->nu40_mm2_s;
    return (double)NAN;
}

static void apply_to_phase(const struct spt_sweep_plan *plan, const double *const *columns, int i,
                           const struct spt_phase *base, struct spt_phase *phase)
{
    const bool *swept = plan->swept;
    *phase = *base;
    spt_sweep_loads(plan, columns, i, base, &phase->radial_load_n, &phase->axial_load_n,
                    &phase->equivalent_load_n);
    if (swept[SPT_SWEEP_SPEED])
        phase->speed_rpm = columns[SPT_SWEEP_SPEED][i];
    if (swept[SPT_SWEEP_TEMPERATURE])
        phase->temperature_c = columns[SPT_SWEEP_TEMPERATURE][i];
    if (swept[SPT_SWEEP_WATER])
        phase->condition.water_ppm = columns[SPT_SWEEP_WATER][i];
    if (swept[SPT_SWEEP_GREASE_AGE])
        phase->condition.grease_age_h = columns[SPT_SWEEP_GREASE_AGE][i];
    if (swept[SPT_SWEEP_CONTAMINATION])
        phase->condition.contamination_factor = columns[SPT_SWEEP_CONTAMINATION][i];
    if (swept[SPT_SWEEP_CLEANLINESS]) {
        phase->condition.cleanliness = (enum spt_cleanliness)columns[SPT_SWEEP_CLEANLINESS][i];
        phase->condition.class_source = SPT_CLASS_STATED;
        phase->condition.contamination_factor = (double)NAN;
    }
}

static enum spt_status apply_to_oil(const struct spt_sweep_plan *plan, const double *const *columns,
                                    int i, struct spt_lubricant *oil)
{
    if (plan->swept[SPT_SWEEP_VISCOSITY_40])
        oil->viscosity_40_mm2_s = columns[SPT_SWEEP_VISCOSITY_40][i];
    else if (plan->swept[SPT_SWEEP_GRADE])
        oil->viscosity_40_mm2_s = spt_sweep_grade(columns[SPT_SWEEP_GRADE][i]);
    else
        return SPT_OK;
    return spt_sweep_line(oil, oil->viscosity_40_mm2_s, &oil->line, &oil->viscosity_100_mm2_s);
}

/* Makes the case of row `i`, its phases in the array `phases`. */
static enum spt_status apply_to_case(const struct spt_sweep_plan *plan,
                                     const double *const *columns, int i, struct spt_phase *phases,
                                     struct spt_case *question)
{
    *question = *plan->question;
    for (int b = 0; b < question->bearing_count; b++) {
        struct spt_bearing_case *part = &question->bearings[b];
        for (int j = 0; j < part->phase_count; j++)
            apply_to_phase(plan, columns, i, &part->phases[j], &phases[j]);
        part->phases = phases;
        phases += part->phase_count;
        if (plan->swept[SPT_SWEEP_RATING_FACTOR])
            part->bearing.dynamic_load_rating_n *= columns[SPT_SWEEP_RATING_FACTOR][i];
    }
    if (plan->swept[SPT_SWEEP_RELIABILITY])
        question->reliability_percent = columns[SPT_SWEEP_RELIABILITY][i];
    return apply_to_oil(plan, columns, i, &question->lubricant);
}

/* Scales the largest static load of a history with the loads; drops the history where the row
 * replaces these. */
static void apply_to_history(const struct spt_sweep_plan *plan, const double *const *columns, int i,
                             struct spt_case *question, struct spt_history_summary *history)
{
    static const enum spt_sweep_field replaced[] = {
        SPT_SWEEP_RADIAL_LOAD, SPT_SWEEP_AXIAL_LOAD, SPT_SWEEP_EQUIVALENT_LOAD,
        SPT_SWEEP_WHEEL_LOAD,  SPT_SWEEP_SIDE_FORCE, SPT_SWEEP_SIDE_SHARE};
    if (!question->history)
        return;
    *history = *question->history;
    question->history = history;
    for (size_t f = 0; f < sizeof replaced / sizeof *replaced; f++)
        if (plan->swept[replaced[f]])
            question->history = NULL;
    for (int b = 0; plan->swept[SPT_SWEEP_LOAD_FACTOR] && b < SPT_HISTORY_ROWS; b++)
        history->resting_n[b] *= columns[SPT_SWEEP_LOAD_FACTOR][i];
}

static unsigned long long flags_of(const struct spt_notes *notes)
{
    unsigned long long flags = 0;
    for (int i = 0; i < notes->count; i++)
        if (spt_sweep_reports(notes->list[i].flag))
            flags |= SPT_SWEEP_FLAG_BIT(notes->list[i].flag);
    return flags;
}

/* Index of the phase whose numbers are reported. */
static int pick_phase(const struct spt_bearing_result *bearing)
{
    for (int j = 0; j < bearing->phase_count; j++)
        if (bearing->phases[j].phase->time_share > 0 &&
            isnan(bearing->phases[j].modified_rating_life_h))
            return j;
    return bearing->worst_phase < 0 ? 0 : bearing->worst_phase;
}

static enum spt_sweep_status find_status(const struct spt_phase_result *phase, double life_h)
{
    static const struct {
        enum spt_flag flag;
        enum spt_sweep_status status;
    } reasons[] = {{SPT_FLAG_TOO_HOT, SPT_SWEEP_TOO_HOT},
                   {SPT_FLAG_OIL_TOO_STIFF, SPT_SWEEP_OIL_TOO_STIFF},
                   {SPT_FLAG_RADIAL_NOT_RATED, SPT_SWEEP_RADIAL_NOT_RATED},
                   {SPT_FLAG_GREASE_EXHAUSTED, SPT_SWEEP_GREASE_EXHAUSTED},
                   {SPT_FLAG_FILM_TOO_THIN, SPT_SWEEP_FILM_TOO_THIN}};
    if (!isnan(life_h))
        return isinf(life_h) ? SPT_SWEEP_NO_DAMAGE : SPT_SWEEP_OK;
    for (size_t i = 0; i < sizeof reasons / sizeof *reasons; i++)
        if (spt_notes_has(&phase->notes, reasons[i].flag))
            return reasons[i].status;
    return SPT_SWEEP_NO_ANSWER;
}

/* True where bearing `a` has a shorter life than `b`; a missing life counts as the shortest. */
static bool fails_first(const struct spt_bearing_result *a, const struct spt_bearing_result *b)
{
    return !isnan(b->modified_rating_life_h) &&
           !(a->modified_rating_life_h >= b->modified_rating_life_h);
}

/* The phase that the single-phase numbers of a bearing come from. */
static const struct spt_phase_result *find_reported_phase(const struct spt_bearing_result *bearing)
{
    /* an assessed bearing has at least one phase; for static analysis */
    static const struct spt_phase unset;
    static const struct spt_phase_result none = {.phase = &unset};
    return bearing->phases ? &bearing->phases[pick_phase(bearing)] : &none;
}

/* Stores the numbers of one bearing, from number `start` of the block on. */
static void store_bearing(const struct spt_bearing_result *bearing, int start, int i,
                          struct spt_sweep_block *block)
{
    const struct spt_phase_result *phase = find_reported_phase(bearing);
    const double values[] = {
        phase->dynamic.load_n,
        phase->viscosity_ratio,
        phase->effective_viscosity_ratio,
        phase->contamination_factor,
        phase->factor.a_iso,
        phase->water_factor,
        bearing->basic_rating_life_h,
        bearing->modified_rating_life_h,
        phase->phase->setting_factor,
    };
    SPT_ONE_EACH(values, SPT_SWEEP_ONE_COUNT);
    for (int v = 0; v < SPT_SWEEP_ONE_COUNT; v++)
        block->values[start + v][i] = values[v];
}

/* The assessment of a row. */
struct assessed {
    struct spt_case question;
    struct spt_history_summary history;
    struct spt_bearing_result bearings[SPT_BEARINGS_MAX];
};

static void store_row(const struct assessed *row, int i, struct spt_sweep_block *block)
{
    const struct spt_bearing_result *bearings = row->bearings;
    int count = row->question.bearing_count;
    double basic[SPT_BEARINGS_MAX] = {0}, modified[SPT_BEARINGS_MAX] = {0};
    double *life_h = &block->values[SPT_SWEEP_MODIFIED_RATING_LIFE_H][i];
    const struct spt_bearing_result *first = &bearings[0];
    for (int b = 0; b < count; b++) {
        basic[b] = bearings[b].basic_rating_life_h;
        modified[b] = bearings[b].modified_rating_life_h;
        if (fails_first(&bearings[b], first))
            first = &bearings[b];
    }
    store_bearing(first, 0, i, block);
    for (int b = 0; row->question.hub && b < count; b++)
        store_bearing(&bearings[b], spt_sweep_row_value(b, (enum spt_sweep_value)0), i, block);
    if (count > 1) {
        *life_h = spt_survival_series(modified, count, row->question.reliability_percent);
        block->values[SPT_SWEEP_BASIC_RATING_LIFE_H][i] =
            spt_survival_series(basic, count, SPT_BASIC_RELIABILITY);
    }
    block->status[i] = (unsigned char)find_status(find_reported_phase(first), *life_h);
}

/* Stores a row without any number. */
static void store_none(enum spt_sweep_status status, int i, struct spt_sweep_block *block)
{
    for (int v = 0; v < SPT_SWEEP_VALUE_COUNT; v++)
        block->values[v][i] = (double)NAN;
    block->status[i] = (unsigned char)status;
}

/* Assesses one row. Result: SPT_SWEEP_OK, or why there is nothing to store. */
static enum spt_sweep_status assess(const struct spt_sweep_plan *plan, const double *const *columns,
                                    int i, struct spt_sweep_workspace *workspace,
                                    struct assessed *row)
{
    struct spt_phase_result *results = workspace->results;
    enum spt_sweep_status applied = SPT_SWEEP_OK;
    memset(row->bearings, 0, sizeof row->bearings);
    enum spt_status status = apply_to_case(plan, columns, i, workspace->phases, &row->question);
    apply_to_history(plan, columns, i, &row->question, &row->history);
    if (!status && row->question.hub)
        applied = spt_sweep_hub_apply(plan, columns, i, workspace->hub, workspace->phases);
    if (!status && row->question.vehicle && row->question.sheet_hub)
        applied = spt_sweep_vehicle_apply(plan, columns, i, workspace->phases);
    if (!status && row->question.machine)
        applied = spt_sweep_machine_apply(plan, columns, i, workspace->phases);
    if (applied)
        return applied;
    for (int b = 0; !status && b < row->question.bearing_count; b++) {
        status = spt_assess_bearing(&row->question, b, 0, results, &row->bearings[b]);
        results += row->question.bearings[b].phase_count;
    }
    return status ? SPT_SWEEP_REFUSED : SPT_SWEEP_OK;
}

/* The flags of an assessed row, as `life` has them. */
static unsigned long long gather_flags(struct assessed *row)
{
    double modified[SPT_BEARINGS_MAX] = {0};
    int count = row->question.bearing_count;
    unsigned long long flags = 0;
    for (int b = 0; b < count; b++) {
        struct spt_bearing_result *bearing = &row->bearings[b];
        spt_assess_notes(&row->question, b, bearing);
        flags |= flags_of(&bearing->notes);
        for (int j = 0; j < bearing->phase_count; j++)
            flags |= flags_of(&bearing->phases[j].notes);
        modified[b] = bearing->modified_rating_life_h;
    }
    double life_h = spt_survival_series(modified, count, row->question.reliability_percent);
    return life_h < row->question.target_life_h ? flags | SPT_SWEEP_FLAG_BIT(SPT_FLAG_MISSED_TARGET)
                                                : flags;
}

unsigned long long spt_sweep_row_flags(const struct spt_sweep_plan *plan,
                                       const double *const *columns, int i,
                                       struct spt_sweep_workspace *workspace)
{
    struct assessed row;
    return assess(plan, columns, i, workspace, &row) ? 0 : gather_flags(&row);
}

void spt_sweep_row(const struct spt_sweep_plan *plan, const double *const *columns, int i,
                   struct spt_sweep_workspace *workspace, struct spt_sweep_block *block)
{
    struct assessed row;
    enum spt_sweep_status status = assess(plan, columns, i, workspace, &row);
    block->flags[i] = 0;
    if (status) {
        store_none(status, i, block);
        return;
    }
    store_row(&row, i, block);
    if (plan->flagged)
        block->flags[i] = gather_flags(&row);
    if (plan->flagged && row.question.hub)
        block->flags[i] |= spt_sweep_hub_flags(plan, columns, i, workspace->hub);
}
