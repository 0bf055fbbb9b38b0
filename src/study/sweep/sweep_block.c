/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "base/quotient.h"
#include "spalltime/bearing.h"
#include "spalltime/lubricant.h"
#include "spalltime/sweep.h"
#include "study/life/greasing.h"
#include "study/sweep/sweep_row.h"

/* A block of rows that is being computed by the kernel. */
struct work {
    const struct spt_sweep_plan *plan;
    const double *const *columns;
    int count;
    struct spt_sweep_workspace *workspace;
    struct spt_sweep_block *block;
    const struct spt_bearing *bearing;
    const struct spt_phase *phase;
    bool aged;                          /* grease age counts in some row */
    bool varies[SPT_SWEEP_FIELD_COUNT]; /* swept, and not the same in all rows of the block */
};

static double value_of(const struct work *w, enum spt_sweep_field field, int i, double stated)
{
    return w->plan->swept[field] ? w->columns[field][i] : stated;
}

static bool is_same(const double *values, int count)
{
    return !memcmp(values, values + 1, (size_t)(count - 1) * sizeof *values);
}

static void find_varying(struct work *w)
{
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        w->varies[f] = w->plan->swept[f] && !is_same(w->columns[f], w->count);
}

/* Number of rows to compute for what depends on these two fields: 1 if neither varies. */
static int rows_of(const struct work *w, enum spt_sweep_field one, enum spt_sweep_field other)
{
    return w->varies[one] || w->varies[other] ? w->count : 1;
}

/* Copies the value of the first row to all rows from `done` on. */
static void repeat(double *values, int done, int count)
{
    double first = values[0];
    for (int i = done; i < count; i++)
        values[i] = first;
}

/* Reads a field for one row or for all, as needed. Result: the number of rows. */
static int read_field(const struct work *w, enum spt_sweep_field field, double stated, double *to)
{
    int many = rows_of(w, field, field);
    to[0] = value_of(w, field, 0, stated);
    if (many > 1)
        memcpy(to, w->columns[field], (size_t)many * sizeof *to);
    return many;
}

/* Loads on a thrust bearing, from radial and axial ones; NaN where the row is not for the kernel.
 */
static void find_thrust_loads(const struct work *w, const double *radial, const double *axial,
                              int many, double *loads)
{
    for (int i = 0; i < many; i++) {
        struct spt_equivalent_load load;
        struct spt_notes notes;
        notes.count = 0;
        bool fine = !spt_load_equivalent(w->bearing, radial[i], axial[i], &load, &notes) &&
                    !spt_notes_has(&notes, SPT_FLAG_RADIAL_NOT_RATED);
        loads[i] = fine ? load.load_n : (double)NAN;
    }
}

static bool loads_vary(const struct work *w)
{
    const bool *varies = w->varies;
    return varies[SPT_SWEEP_RADIAL_LOAD] || varies[SPT_SWEEP_AXIAL_LOAD] ||
           varies[SPT_SWEEP_EQUIVALENT_LOAD] || varies[SPT_SWEEP_LOAD_FACTOR];
}

static bool equivalent_is_given(const struct work *w)
{
    const bool *swept = w->plan->swept;
    return swept[SPT_SWEEP_EQUIVALENT_LOAD] ||
           (!swept[SPT_SWEEP_RADIAL_LOAD] && !swept[SPT_SWEEP_AXIAL_LOAD] &&
            !isnan(w->phase->equivalent_load_n));
}

static void find_loads(const struct work *w)
{
    double *loads = w->workspace->inputs[SPT_BATCH_EQUIVALENT_LOAD_N];
    double radial[SPT_SWEEP_BLOCK], axial[SPT_SWEEP_BLOCK];
    int many = loads_vary(w) ? w->count : 1;
    for (int i = 0; i < many; i++)
        spt_sweep_loads(w->plan, w->columns, i, w->phase, &radial[i], &axial[i], &loads[i]);
    if (equivalent_is_given(w)) {
        repeat(loads, many, w->count);
        return;
    }
    if (spt_bearing_is_thrust(w->bearing->type))
        find_thrust_loads(w, radial, axial, many, loads);
    else
        spt_load_equivalent_many(w->bearing, radial, axial, many, loads);
    repeat(loads, many, w->count);
    for (int i = 0; i < w->count; i++)
        w->workspace->redo[i] |= (unsigned char)(isnan(loads[i]) != 0);
}

static void find_ratings(const struct work *w)
{
    double *ratings = w->workspace->inputs[SPT_BATCH_DYNAMIC_LOAD_RATING_N];
    double *temperatures = w->workspace->inputs[SPT_BATCH_TEMPERATURE_C];
    double last = (double)NAN, derating = (double)NAN;
    int many = rows_of(w, SPT_SWEEP_TEMPERATURE, SPT_SWEEP_RATING_FACTOR);
    for (int i = 0; i < many; i++) {
        double temperature = value_of(w, SPT_SWEEP_TEMPERATURE, i, w->phase->temperature_c);
        double factor = value_of(w, SPT_SWEEP_RATING_FACTOR, i, 1);
        if (temperature != last)
            spt_rating_temperature_factor(temperature, &derating); /* NaN: the kernel refuses it */
        last = temperature;
        temperatures[i] = temperature;
        ratings[i] = derating * (w->bearing->dynamic_load_rating_n * factor);
    }
    repeat(temperatures, many, w->count);
}

static void find_lines(const struct work *w)
{
    const struct spt_lubricant *oil = &w->plan->question->lubricant;
    double *a = w->workspace->inputs[SPT_BATCH_LINE_A], *b = w->workspace->inputs[SPT_BATCH_LINE_B];
    bool graded = w->plan->swept[SPT_SWEEP_GRADE];
    const double *values = w->columns[graded ? SPT_SWEEP_GRADE : SPT_SWEEP_VISCOSITY_40];
    struct spt_walther line = oil->line;
    double last = (double)NAN, nu100;
    if (!graded && !w->plan->swept[SPT_SWEEP_VISCOSITY_40])
        values = NULL;
    int many = rows_of(w, SPT_SWEEP_VISCOSITY_40, SPT_SWEEP_GRADE);
    for (int i = 0; i < many; i++) {
        if (values && values[i] != last) {
            last = values[i];
            if (spt_sweep_line(oil, graded ? spt_sweep_grade(last) : last, &line, &nu100))
                line.a = line.b = (double)NAN;
        }
        a[i] = line.a;
        b[i] = line.b;
    }
}

/* e_C of the rows where one is given, else the class. */
static bool find_condition(const struct work *w)
{
    const struct spt_condition *state = &w->phase->condition;
    const bool *swept = w->plan->swept;
    bool factor = swept[SPT_SWEEP_CONTAMINATION] ||
                  (!isnan(state->contamination_factor) && !swept[SPT_SWEEP_CLEANLINESS]);
    if (factor)
        read_field(w, SPT_SWEEP_CONTAMINATION, state->contamination_factor,
                   w->workspace->inputs[SPT_BATCH_CONTAMINATION_FACTOR]);
    else
        read_field(w, SPT_SWEEP_CLEANLINESS, (double)state->cleanliness,
                   w->workspace->inputs[SPT_BATCH_CONDITION]);
    return factor;
}

/* Fields that change the interval of the grease. */
static bool intervals_vary(const struct work *w)
{
    const bool *varies = w->varies;
    return loads_vary(w) || varies[SPT_SWEEP_SPEED] || varies[SPT_SWEEP_TEMPERATURE] ||
           varies[SPT_SWEEP_RATING_FACTOR] || varies[SPT_SWEEP_WATER] ||
           varies[SPT_SWEEP_CLEANLINESS] || varies[SPT_SWEEP_CONTAMINATION];
}

/* The phase and its bearing in row `i`, as far as the interval of the grease depends on them. */
static void make_row(const struct work *w, int i, struct spt_bearing *bearing,
                     struct spt_phase *phase)
{
    struct spt_condition *state = &phase->condition;
    phase->speed_rpm = value_of(w, SPT_SWEEP_SPEED, i, w->phase->speed_rpm);
    phase->temperature_c = value_of(w, SPT_SWEEP_TEMPERATURE, i, w->phase->temperature_c);
    state->water_ppm = value_of(w, SPT_SWEEP_WATER, i, state->water_ppm);
    if (w->plan->swept[SPT_SWEEP_CONTAMINATION])
        state->contamination_factor = w->columns[SPT_SWEEP_CONTAMINATION][i];
    if (w->plan->swept[SPT_SWEEP_CLEANLINESS]) {
        state->cleanliness = (enum spt_cleanliness)w->columns[SPT_SWEEP_CLEANLINESS][i];
        state->class_source = SPT_CLASS_STATED;
        state->contamination_factor = (double)NAN;
    }
    bearing->dynamic_load_rating_n =
        w->bearing->dynamic_load_rating_n * value_of(w, SPT_SWEEP_RATING_FACTOR, i, 1);
}

/* Adds the contribution of the phase to 1/interval of the grease, in 1/h; NaN where it has no
 * interval. */
static void add_interval(const struct work *w)
{
    const double *loads = w->workspace->inputs[SPT_BATCH_EQUIVALENT_LOAD_N];
    struct spt_bearing bearing = *w->bearing;
    struct spt_phase phase = *w->phase;
    int many = intervals_vary(w) ? w->count : 1;
    find_loads(w);
    for (int i = 0; i < many; i++) {
        struct spt_grease_interval interval;
        make_row(w, i, &bearing, &phase);
        if (!(phase.speed_rpm > 0))
            continue;
        const struct spt_surroundings around =
            spt_phase_surroundings(w->plan->question, 0, &phase, 0);
        spt_phase_grease_interval(&bearing, &phase, phase.temperature_c, loads[i], &around,
                                  &interval);
        w->workspace->interval_h[i] += w->phase->time_share / interval.interval_h;
    }
}

/* The interval of the whole duty for each row, from the sums of add_interval. */
static void find_intervals(struct work *w)
{
    const struct spt_bearing_case *part = &w->plan->question->bearings[0];
    w->aged = false;
    if (w->plan->question->lubricant.kind != SPT_LUBRICATION_GREASE)
        return;
    for (int j = 0; j < part->phase_count; j++)
        w->aged = w->aged || part->phases[j].condition.grease_age_h > 0;
    w->aged = w->aged || w->plan->swept[SPT_SWEEP_GREASE_AGE];
    if (!w->aged)
        return;
    memset(w->workspace->interval_h, 0, sizeof w->workspace->interval_h);
    for (int j = 0; j < part->phase_count; j++) {
        w->phase = &part->phases[j];
        if (w->phase->time_share > 0)
            add_interval(w);
    }
    int many = intervals_vary(w) ? w->count : 1;
    for (int i = 0; i < many; i++)
        w->workspace->interval_h[i] = spt_quotient(1, w->workspace->interval_h[i]);
}

static bool films_vary(const struct work *w)
{
    return intervals_vary(w) || w->varies[SPT_SWEEP_GREASE_AGE];
}

/* The film that is left at one age of the grease. */
static double find_film(double age_h, double interval_h)
{
    struct spt_grease_state state;
    bool worn = !isnan(interval_h) && !spt_grease_state(age_h / interval_h, &state);
    return worn ? state.film_ratio : 1;
}

static void find_films(const struct work *w)
{
    double *films = w->workspace->inputs[SPT_BATCH_FILM_RATIO];
    const bool own = intervals_vary(w) && w->count > 1; /* intervals */
    double film = 1, last_age = (double)NAN, last_interval = (double)NAN;
    int many = films_vary(w) ? w->count : 1;
    for (int i = 0; i < many; i++) {
        double age = value_of(w, SPT_SWEEP_GREASE_AGE, i, w->phase->condition.grease_age_h);
        double interval = w->workspace->interval_h[own ? i : 0];
        if (age != last_age || interval != last_interval)
            film = find_film(age, interval);
        last_age = age;
        last_interval = interval;
        films[i] = film;
        w->workspace->redo[i] |= isinf(interval) ? 1 : 0; /* nothing turns */
    }
    if (isinf(last_interval))
        memset(w->workspace->redo + many, 1, (size_t)(w->count - many));
}

/* Which columns of the kernel vary in this block. */
static void find_varying_columns(const struct work *w, bool *varies)
{
    const bool *fields = w->varies;
    const double(*inputs)[SPT_SWEEP_BLOCK] = (const double(*)[SPT_SWEEP_BLOCK])w->workspace->inputs;
    bool oil = fields[SPT_SWEEP_VISCOSITY_40] || fields[SPT_SWEEP_GRADE];
    memset(varies, 0, SPT_BATCH_VARIABLE_COUNT * sizeof *varies);
    varies[SPT_BATCH_SPEED_RPM] = fields[SPT_SWEEP_SPEED];
    varies[SPT_BATCH_EQUIVALENT_LOAD_N] = loads_vary(w);
    varies[SPT_BATCH_TEMPERATURE_C] = fields[SPT_SWEEP_TEMPERATURE];
    varies[SPT_BATCH_LINE_A] = varies[SPT_BATCH_LINE_B] = oil;
    varies[SPT_BATCH_CONDITION] = fields[SPT_SWEEP_CLEANLINESS];
    varies[SPT_BATCH_CONTAMINATION_FACTOR] = fields[SPT_SWEEP_CONTAMINATION];
    varies[SPT_BATCH_WATER_PPM] = fields[SPT_SWEEP_WATER];
    /* the same at most temperatures, and for fresh grease */
    varies[SPT_BATCH_DYNAMIC_LOAD_RATING_N] =
        rows_of(w, SPT_SWEEP_RATING_FACTOR, SPT_SWEEP_TEMPERATURE) > 1 &&
        !is_same(inputs[SPT_BATCH_DYNAMIC_LOAD_RATING_N], w->count);
    varies[SPT_BATCH_FILM_RATIO] =
        w->aged && films_vary(w) && !is_same(inputs[SPT_BATCH_FILM_RATIO], w->count);
}

/* The columns of one phase; what does not vary is one value for all. */
static void fill_batch(const struct work *w, bool factor, struct spt_batch *batch)
{
    bool varies[SPT_BATCH_VARIABLE_COUNT];
    find_varying_columns(w, varies);
    *batch = (struct spt_batch){.type = w->bearing->type,
                                .pitch_diameter_mm = w->bearing->pitch_diameter_mm,
                                .density_factor = w->plan->density_factor,
                                .reliability_factor = 1,
                                .ep_additive = w->plan->question->lubricant.ep_additive};
    for (int c = 0; c < SPT_BATCH_VARIABLE_COUNT; c++)
        batch->columns[c] = (struct spt_batch_column){w->workspace->inputs[c], varies[c] ? 1 : 0};
    batch->columns[SPT_BATCH_FATIGUE_LOAD_LIMIT_N] =
        (struct spt_batch_column){&w->bearing->fatigue_load_limit_n, 0};
    batch->columns[SPT_BATCH_NU40_MM2_S].values = NULL;
    batch->columns[SPT_BATCH_NU100_MM2_S].values = NULL;
    batch->columns[factor ? SPT_BATCH_CONDITION : SPT_BATCH_CONTAMINATION_FACTOR].values = NULL;
    if (!w->aged)
        batch->columns[SPT_BATCH_FILM_RATIO].values = NULL;
}

static double *wanted_output(const struct work *w, enum spt_sweep_value value)
{
    return w->plan->wanted[value] ? w->workspace->outputs[value] : NULL;
}

static bool run_kernel(const struct work *w, bool factor)
{
    struct spt_batch batch;
    struct spt_sweep_workspace *workspace = w->workspace;
    /* with aged grease it also distinguishes an exhausted grease from a film that was too thin */
    double *fresh = w->aged ? workspace->outputs[SPT_SWEEP_VISCOSITY_RATIO]
                            : wanted_output(w, SPT_SWEEP_VISCOSITY_RATIO);
    const struct spt_batch_results results = {
        .fresh_viscosity_ratio = fresh,
        .viscosity_ratio = wanted_output(w, SPT_SWEEP_EFFECTIVE_VISCOSITY_RATIO),
        .contamination_factor = wanted_output(w, SPT_SWEEP_CONTAMINATION_FACTOR),
        .life_modification_factor = wanted_output(w, SPT_SWEEP_LIFE_MODIFICATION_FACTOR),
        .water_factor = wanted_output(w, SPT_SWEEP_WATER_FACTOR),
        .basic_rating_life_h = wanted_output(w, SPT_SWEEP_BASIC_RATING_LIFE_H),
        .modified_rating_life_h = workspace->outputs[SPT_SWEEP_MODIFIED_RATING_LIFE_H],
        .status = workspace->bits,
    };
    fill_batch(w, factor, &batch);
    return !spt_batch_points(&batch, 0, (size_t)w->count, &results);
}

/* Copies the numbers of this phase to the marked rows as those of their single phase. */
static void copy_outputs(const struct work *w, const unsigned char *taken)
{
    const double *loads = w->workspace->inputs[SPT_BATCH_EQUIVALENT_LOAD_N];
    const unsigned char *bits = w->workspace->bits;
    bool all = !memchr(taken, 0, (size_t)w->count);
    for (int v = 0; v < SPT_SWEEP_BASIC_RATING_LIFE_H; v++) {
        const double *from = v == SPT_SWEEP_EQUIVALENT_LOAD_N ? loads : w->workspace->outputs[v];
        double *to = w->block->values[v];
        if (w->plan->wanted[v] && all)
            memcpy(to, from, (size_t)w->count * sizeof *to);
        for (int i = 0; w->plan->wanted[v] && !all && i < w->count; i++)
            to[i] = taken[i] ? from[i] : to[i];
    }
    double *e_c = w->block->values[SPT_SWEEP_CONTAMINATION_FACTOR];
    for (int i = 0; i < w->count; i++)
        if (taken[i] && (bits[i] & SPT_BATCH_FILM_TOO_THIN))
            e_c[i] = (double)NAN;
}

/* Damage rate of the phase in each row, 1/h; 0 in rows where nothing turns under load. */
static void find_rates(const struct work *w, const double *restrict lives_h, double factor,
                       double *restrict rates)
{
    const double *restrict speeds = w->workspace->inputs[SPT_BATCH_SPEED_RPM];
    const double *restrict loads = w->workspace->inputs[SPT_BATCH_EQUIVALENT_LOAD_N];
    double share = w->phase->time_share;
    int count = w->count;
    for (int i = 0; i < count; i++) {
        double rate = share / (factor * lives_h[i]);
        rate = speeds[i] > 0 ? rate : 0.0;
        rates[i] = loads[i] > 0 ? rate : 0.0;
    }
}

static void add_to(double *restrict sums, const double *restrict terms, int count)
{
    for (int i = 0; i < count; i++)
        sums[i] += terms[i];
}

static void add_damage(const struct work *w)
{
    struct spt_sweep_workspace *workspace = w->workspace;
    double rates[SPT_SWEEP_BLOCK];
    unsigned char taken[SPT_SWEEP_BLOCK] = {0};
    if (w->plan->wanted[SPT_SWEEP_BASIC_RATING_LIFE_H]) {
        find_rates(w, workspace->outputs[SPT_SWEEP_BASIC_RATING_LIFE_H], 1, rates);
        add_to(workspace->basic_rate, rates, w->count);
    }
    find_rates(w, workspace->outputs[SPT_SWEEP_MODIFIED_RATING_LIFE_H], w->phase->setting_factor,
               rates);
    add_to(workspace->rate, rates, w->count);
    for (int i = 0; i < w->count; i++) {
        unsigned bits = workspace->bits[i];
        double rate = rates[i];
        if (rate == 0)
            continue; /* nothing turns under load */
        bool thin = bits & SPT_BATCH_FILM_TOO_THIN;
        bool exhausted =
            thin && w->aged && workspace->outputs[SPT_SWEEP_VISCOSITY_RATIO][i] >= SPT_KAPPA_MIN;
        workspace->redo[i] |= bits & SPT_BATCH_BAD_INPUT;
        if (isnan(workspace->worst[i]) || rate <= workspace->worst[i])
            continue;
        w->block->status[i] = exhausted ? SPT_SWEEP_GREASE_EXHAUSTED : SPT_SWEEP_FILM_TOO_THIN;
        workspace->worst[i] = rate;
        taken[i] = 1;
    }
    copy_outputs(w, taken);
}

static void work_phase(const struct work *w)
{
    double *speeds = w->workspace->inputs[SPT_BATCH_SPEED_RPM];
    double *water = w->workspace->inputs[SPT_BATCH_WATER_PPM];
    find_loads(w);
    find_ratings(w);
    find_lines(w);
    bool factor = find_condition(w);
    repeat(speeds, read_field(w, SPT_SWEEP_SPEED, w->phase->speed_rpm, speeds), w->count);
    read_field(w, SPT_SWEEP_WATER, w->phase->condition.water_ppm, water);
    if (w->aged)
        find_films(w);
    if (!run_kernel(w, factor))
        memset(w->workspace->redo, 1, sizeof w->workspace->redo);
    else
        add_damage(w);
}

static void start_block(const struct work *w)
{
    struct spt_sweep_workspace *workspace = w->workspace;
    size_t count = (size_t)w->count;
    memset(workspace->redo, 0, count);
    memset(workspace->rate, 0, count * sizeof *workspace->rate);
    memset(workspace->basic_rate, 0, count * sizeof *workspace->basic_rate);
    memset(workspace->worst, 0, count * sizeof *workspace->worst);
    memset(w->block->flags, 0, count * sizeof *w->block->flags);
}

static void finish_block(const struct work *w)
{
    struct spt_sweep_workspace *workspace = w->workspace;
    double *basic = w->block->values[SPT_SWEEP_BASIC_RATING_LIFE_H];
    double *modified = w->block->values[SPT_SWEEP_MODIFIED_RATING_LIFE_H];
    double last = w->plan->question->reliability_percent, a1 = (double)NAN;
    enum spt_status status = spt_life_reliability_factor(last, &a1);
    for (int i = 0; i < w->count; i++) {
        double reliability = value_of(w, SPT_SWEEP_RELIABILITY, i, last);
        if (reliability != last)
            status = spt_life_reliability_factor(reliability, &a1);
        last = reliability;
        basic[i] = spt_quotient(1, workspace->basic_rate[i]);
        modified[i] = spt_quotient(a1, workspace->rate[i]);
        if (!isnan(modified[i]))
            w->block->status[i] = SPT_SWEEP_OK;
        /* exceptions go through the full assessment: refused numbers, nothing that turns under load
         */
        if (workspace->redo[i] || status || workspace->rate[i] == 0)
            spt_sweep_row(w->plan, w->columns, i, workspace, w->block);
        else if (w->plan->flagged)
            w->block->flags[i] = spt_sweep_row_flags(w->plan, w->columns, i, workspace);
    }
}

void spt_sweep_work(const struct spt_sweep_plan *plan, const double *const *columns, int count,
                    struct spt_sweep_workspace *workspace, struct spt_sweep_block *block)
{
    const struct spt_bearing_case *part = &plan->question->bearings[0];
    struct work w = {plan, columns, count, workspace, block, &part->bearing, NULL, false, {false}};
    if (plan->question->hub)
        spt_sweep_hub_begin(plan, workspace->hub);
    if (!plan->kernel) {
        for (int i = 0; i < count; i++)
            spt_sweep_row(plan, columns, i, workspace, block);
        return;
    }
    find_varying(&w);
    start_block(&w);
    find_intervals(&w);
    for (int j = 0; j < part->phase_count; j++) {
        w.phase = &part->phases[j];
        if (w.phase->time_share > 0)
            work_phase(&w);
    }
    finish_block(&w);
}
