/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdint.h>
#include <string.h>

#include "model/batch/aiso_power.h"
#include "model/batch/batch_block.h"
#include "spalltime/sweep.h"

/* The quantities that are constant along a row whose last axis is the load. */
struct row {
    double bracket_term; /* factor of the power of P in the bracket */
    double kappa;
    double fresh_kappa; /* of the full film */
    double e_c;
    double a_w;
    double hours;      /* L10h over P^-p */
    double life_scale; /* a1 a_w 0.1 */
    double overload_n;
    unsigned bits; /* status bits that do not depend on P */
    bool has_life; /* kappa is not below 0.1 */
};

/* Rows of one block. */
struct rows {
    struct row row[POINTS];
    int count;
    size_t length; /* points of a whole row */
};

/* A section of the load axis. */
struct stretch {
    const double *values; /* of the load axis */
    int count;
    _Alignas(CACHE_LINE) double load[POINTS];
    double log_load[POINTS];
    double inner_power[POINTS]; /* P^-inner */
    double life_power[POINTS];  /* P^-p */
    double a_iso[POINTS];       /* without its scale */
    double term;                /* bracket_term for which a_iso was computed; NaN: none yet */
    bool ordinary;              /* all loads valid, and no power near the limits of a double */
};

/* Rows are ordinary where each factor of a life is within 2^+-FACTOR_LOG_LIMIT. */
#define FACTOR_LOG_LIMIT 300.0

/* Row powers are computed in whole vectors; the arrays are long enough. */
SPT_INLINE int round_up(int count)
{
    return (count + 7) & ~7;
}

SPT_INLINE void load_stretch(const struct spt_batch_plan *plan, struct stretch *s,
                             const double *loads, int count)
{
    double inner = plan->family.inner;
    double exponent = plan->life_exponent;
    double *restrict log_load = s->log_load;
    double *restrict inner_power = s->inner_power;
    double *restrict life_power = s->life_power;
    s->values = loads;
    s->count = count;
    memcpy(s->load, loads, (size_t)count * sizeof *loads);
    for (int i = count; i < POINTS; i++)
        s->load[i] = loads[count - 1];
    compute_logs(s->load, log_load);
    double limit = FACTOR_LOG_LIMIT / exponent;
    s->term = (double)NAN;
    s->ordinary = column_is_within(s->load, spt_batch_limits[SPT_BATCH_EQUIVALENT_LOAD_N].low,
                                   spt_batch_limits[SPT_BATCH_EQUIVALENT_LOAD_N].high) &&
                  column_is_within(log_load, -limit, limit);
    if (!s->ordinary)
        return;
    EACH_POINT(i)
    {
        inner_power[i] = spt_vector_exp2(-inner * log_load[i]); /* NOLINT: compute_logs filled it */
        life_power[i] = spt_vector_exp2(-exponent * log_load[i]);
    }
}

/* a_ISO along the row; reused for rows that differ only in water. */
SPT_INLINE void find_row_a_iso(const struct spt_batch_plan *plan, struct stretch *s, double term)
{
    const double *restrict inner_power = s->inner_power;
    double *restrict a_iso = s->a_iso;
    const double *restrict root = plan->ball ? spt_aiso_root_ball : spt_aiso_root_roller;
    double least = plan->bracket_least;
    int whole = round_up(s->count);
    if (s->term == term)
        return;
#pragma omp simd
    for (int i = 0; i < whole; i++) {
        double bracket = 1.0 - term * inner_power[i];
        bracket = bracket > least ? bracket : least;
        a_iso[i] = spt_aiso_power(root, bracket);
    }
    s->term = term;
}

SPT_INLINE void store_row_life(const struct stretch *s, const struct row *row, double *restrict to)
{
    int count = s->count;
    const double *restrict life_power = s->life_power;
    const double *restrict a_iso = s->a_iso;
    double scale = row->life_scale * row->hours;
#pragma omp simd
    for (int i = 0; i < count; i++)
        to[i] = scale * life_power[i] * a_iso[i];
}

SPT_INLINE void fill_count(double *to, double value, int count)
{
    for (int i = 0; i < count; i++)
        to[i] = value;
}

SPT_INLINE void store_row_lives(const struct stretch *s, const struct row *row,
                                const struct spt_batch_results *to, size_t at)
{
    int count = s->count;
    const double most = SPT_LIFE_FACTOR_MAX / SPT_AISO_SCALE;
    if (to->basic_rating_life_h)
        for (int i = 0; i < count; i++)
            to->basic_rating_life_h[at + (size_t)i] = row->hours * s->life_power[i];
    if (to->modified_rating_life_h && row->has_life)
        store_row_life(s, row, to->modified_rating_life_h + at);
    else if (to->modified_rating_life_h)
        fill_count(to->modified_rating_life_h + at, (double)NAN, count);
    if (to->life_modification_factor && row->has_life)
        for (int i = 0; i < count; i++) {
            double a_iso = s->a_iso[i];
            to->life_modification_factor[at + (size_t)i] =
                SPT_AISO_SCALE * (a_iso < most ? a_iso : most);
        }
    else if (to->life_modification_factor)
        fill_count(to->life_modification_factor + at, (double)NAN, count);
}

SPT_INLINE void store_row_status(const struct spt_batch_plan *plan, const struct stretch *s,
                                 const struct row *row, unsigned char *to)
{
    for (int i = 0; i < s->count; i++) {
        bool capped = 1.0 - row->bracket_term * s->inner_power[i] <= plan->bracket_least;
        unsigned bits = row->bits;
        bits |= capped && row->has_life ? SPT_BATCH_LIFE_FACTOR_CAPPED : 0u;
        bits |= s->load[i] > row->overload_n ? SPT_BATCH_OVERLOAD : 0u;
        to[i] = (unsigned char)bits;
    }
}

SPT_INLINE void store_row(const struct spt_batch_plan *plan, const struct stretch *s,
                          const struct row *row, const struct spt_batch_results *to, size_t at)
{
    int count = s->count;
    if (to->viscosity_ratio)
        fill_count(to->viscosity_ratio + at, row->kappa, count);
    if (to->fresh_viscosity_ratio)
        fill_count(to->fresh_viscosity_ratio + at, row->fresh_kappa, count);
    if (to->contamination_factor)
        fill_count(to->contamination_factor + at, row->e_c, count);
    if (to->water_factor)
        fill_count(to->water_factor + at, row->a_w, count);
    store_row_lives(s, row, to, at);
    if (to->status)
        store_row_status(plan, s, row, to->status + at);
}

/* Powers of the quantities that a block of rows holds as logarithms. */
struct row_powers {
    _Alignas(CACHE_LINE) double kappa[POINTS];
    double fresh_kappa[POINTS];
    double a_w[POINTS];
    double hours[POINTS];
};

/* Terms of one block of rows, from the quantities that do not depend on the load. */
SPT_INLINE void find_row_terms(const struct spt_batch_plan *plan, struct block *b,
                               struct row_powers *powers)
{
    fill(b->log_load, 0.0);
    find_bracket_factor(plan, b);
    find_log_x(plan, b);
    find_log_life(plan, b);
    const double *restrict factor = b->bracket_factor;
    const double *restrict log_x = b->log_x;
    double *restrict term = b->bracket;
    double inner = plan->family.inner;
    compute_powers(b->log_kappa, powers->kappa);
    compute_powers(b->log_full, powers->fresh_kappa);
    compute_powers(b->log_a_w, powers->a_w);
    compute_powers(b->log_l10h, powers->hours);
    if (plan->ball)
        EACH_POINT(i)
    term[i] = spt_vector_exp2(factor[i] + inner * log_x[i]);
    else EACH_POINT(i) term[i] = factor[i] * spt_vector_exp2(inner * log_x[i]);
}

SPT_INLINE unsigned find_row_bits(const struct spt_batch_plan *plan, const struct block *b, int i)
{
    bool has_water = plan->present[SPT_BATCH_WATER_PPM];
    double water = has_water ? b->v[SPT_BATCH_WATER_PPM][i] : 0.0;
    unsigned bits = b->log_kappa[i] < plan->log_kappa_min ? SPT_BATCH_FILM_TOO_THIN : 0u;
    bits |= b->log_kappa[i] > plan->log_kappa_max ? SPT_BATCH_FILM_CAPPED : 0u;
    bits |= water > SPT_WATER_TESTED_PPM ? SPT_BATCH_WATER_EXTRAPOLATED : 0u;
    bits |= b->nu[i] < SPT_VISCOSITY_PLAIN_MIN_MM2_S ? SPT_BATCH_VISCOSITY_RANGE : 0u;
    return bits;
}

SPT_INLINE struct row make_row(const struct spt_batch_plan *plan, const struct block *b,
                               const struct row_powers *powers, int i)
{
    struct row row;
    row.bracket_term = b->bracket[i];
    row.kappa = powers->kappa[i];
    row.fresh_kappa = powers->fresh_kappa[i];
    row.e_c = b->e_c[i];
    row.a_w = powers->a_w[i];
    row.hours = powers->hours[i];
    row.life_scale = plan->batch->reliability_factor * SPT_AISO_SCALE * powers->a_w[i];
    row.overload_n = SPT_OVERLOAD_RATIO * b->v[SPT_BATCH_DYNAMIC_LOAD_RATING_N][i];
    row.bits = find_row_bits(plan, b, i);
    row.has_life = !(b->log_kappa[i] < plan->log_kappa_min);
    return row;
}

/* False for rows that need the slow way: the EP rule may apply, or numbers are huge. */
SPT_INLINE bool row_is_ordinary(const struct spt_batch_plan *plan, const struct block *b, int i)
{
    bool ep =
        plan->batch->ep_additive && b->log_kappa[i] < 0.0 && b->e_c[i] >= SPT_EP_CLEANLINESS_MIN;
    return !ep && fabs(b->log_l10h[i]) <= FACTOR_LOG_LIMIT;
}

static struct spt_batch_results shift_results(const struct spt_batch_results *to, size_t at)
{
    struct spt_batch_results moved = *to;
    double **members[] = {&moved.viscosity_ratio,          &moved.fresh_viscosity_ratio,
                          &moved.contamination_factor,     &moved.water_factor,
                          &moved.life_modification_factor, &moved.basic_rating_life_h,
                          &moved.modified_rating_life_h};
    for (size_t i = 0; i < sizeof members / sizeof members[0]; i++)
        if (*members[i])
            *members[i] += at;
    if (moved.status)
        moved.status += at;
    return moved;
}

static void fill_bad_row(const struct spt_batch_results *to, size_t at, int count)
{
    struct spt_batch_results moved = shift_results(to, at);
    double *members[] = {moved.viscosity_ratio,          moved.fresh_viscosity_ratio,
                         moved.contamination_factor,     moved.water_factor,
                         moved.life_modification_factor, moved.basic_rating_life_h,
                         moved.modified_rating_life_h};
    for (size_t i = 0; i < sizeof members / sizeof members[0]; i++)
        if (members[i])
            fill_count(members[i], (double)NAN, count);
    if (moved.status)
        memset(moved.status, SPT_BATCH_BAD_INPUT, (size_t)count);
}

/* The slow way: each point of a section of row `i`, whose other values are in the block. */
static void run_row_as_points(const struct spt_batch_plan *plan, const struct block *b, int i,
                              const struct stretch *s, const struct spt_batch_results *to,
                              size_t at)
{
    struct spt_batch batch = *plan->batch;
    for (int c = 0; c < SPT_BATCH_VARIABLE_COUNT; c++)
        if (plan->present[c])
            batch.columns[c] = (struct spt_batch_column){&b->v[c][i], 0};
    batch.columns[SPT_BATCH_EQUIVALENT_LOAD_N] = (struct spt_batch_column){s->values, 1};
    struct spt_batch_results moved = shift_results(to, at);
    spt_batch_points(&batch, 0, (size_t)s->count, &moved);
}

/* Fills in the values of the first `axes` axes for `count` points starting at point `first`. */
static void load_grid_points(const struct spt_batch_grid *grid, int axes, struct block *b,
                             size_t first, int count)
{
    size_t period = 1; /* points over which the value of the axis is constant */
    for (int a = axes - 1; a >= 0; a--) {
        const struct spt_batch_axis *axis = &grid->axes[a];
        double *held = b->held[axis->variable];
        size_t index = first / period % axis->count;
        size_t spent = first % period;
        for (int i = 0; i < count; i++) {
            held[i] = axis->values[index];
            if (++spent == period) {
                spent = 0;
                index = index + 1 < axis->count ? index + 1 : 0;
            }
        }
        for (int i = count; i < POINTS; i++)
            held[i] = spt_batch_limits[axis->variable].harmless;
        b->v[axis->variable] = held;
        period *= axis->count;
    }
}

/* Computes a section of every row of the block; the first result goes to element `at`. */
SPT_INLINE void run_stretch(const struct spt_batch_plan *plan, const struct block *b,
                            const struct rows *rows, struct stretch *s,
                            const struct spt_batch_results *to, size_t at)
{
    for (int i = 0; i < rows->count; i++, at += rows->length) {
        if (b->any_bad && b->bad[i]) {
            fill_bad_row(to, at, s->count);
        } else if (s->ordinary && row_is_ordinary(plan, b, i)) {
            if (rows->row[i].has_life)
                find_row_a_iso(plan, s, rows->row[i].bracket_term);
            store_row(plan, s, &rows->row[i], to, at);
        } else {
            run_row_as_points(plan, b, i, s, to, at);
        }
    }
}

/* Computes the rows of one block of points. */
SPT_INLINE void make_rows(const struct spt_batch_plan *plan, struct block *b, struct rows *rows,
                          int count)
{
    struct row_powers powers;
    find_state(plan, b, true);
    find_row_terms(plan, b, &powers);
    b->fresh = false;
    rows->count = count;
    for (int i = 0; i < count; i++)
        rows->row[i] = make_row(plan, b, &powers, i);
}

SPT_VARIANTS
static void run_load_rows(const struct spt_batch_plan *plan, const struct spt_batch_grid *grid,
                          size_t first, size_t count, const struct spt_batch_results *to)
{
    const struct spt_batch_axis *loads = &grid->axes[grid->count - 1];
    struct block b;
    struct stretch s;
    struct rows rows;
    rows.length = loads->count;
    load_constants(plan, &b);
    for (size_t at = 0; at < count; at += POINTS) {
        int here = count - at < POINTS ? (int)(count - at) : POINTS;
        load_grid_points(grid, grid->count - 1, &b, first + at, here);
        make_rows(plan, &b, &rows, here);
        for (size_t from = 0; from < loads->count; from += POINTS) {
            size_t left = loads->count - from;
            load_stretch(plan, &s, loads->values + from, left < POINTS ? (int)left : POINTS);
            run_stretch(plan, &b, &rows, &s, to, at * loads->count + from);
        }
    }
}

SPT_VARIANTS
static void run_grid_points(const struct spt_batch_plan *plan, const struct spt_batch_grid *grid,
                            size_t first, size_t count, const struct spt_batch_results *to)
{
    struct block b;
    load_constants(plan, &b);
    memset(b.ep, 0, sizeof b.ep);
    for (size_t at = 0; at < count; at += POINTS) {
        int here = count - at < POINTS ? (int)(count - at) : POINTS;
        load_grid_points(grid, grid->count, &b, first + at, here);
        run_block(plan, &b, to, at, here);
    }
}

size_t spt_batch_grid_row(const struct spt_batch_grid *grid)
{
    return grid->count > 0 ? grid->axes[grid->count - 1].count : 1;
}

size_t spt_batch_grid_points(const struct spt_batch_grid *grid)
{
    if (grid->count < 0 || grid->count > SPT_BATCH_AXES_MAX)
        return 0;
    size_t points = 1;
    for (int a = 0; a < grid->count; a++) {
        const struct spt_batch_axis *axis = &grid->axes[a];
        if ((int)axis->variable < 0 || axis->variable >= SPT_BATCH_VARIABLE_COUNT ||
            !axis->values || axis->count == 0 || points > SIZE_MAX / axis->count)
            return 0;
        for (int other = 0; other < a; other++)
            if (grid->axes[other].variable == axis->variable)
                return 0;
        points *= axis->count;
    }
    return points;
}

enum spt_status spt_batch_grid_rows(const struct spt_batch_grid *grid, size_t first_row,
                                    size_t rows, const struct spt_batch_results *results)
{
    size_t points = spt_batch_grid_points(grid);
    if (points == 0)
        return SPT_BAD_ARGUMENT;
    size_t length = spt_batch_grid_row(grid);
    if (first_row > points / length || rows > points / length - first_row)
        return SPT_BAD_ARGUMENT;
    struct spt_batch batch = grid->batch;
    for (int c = 0; c < SPT_BATCH_VARIABLE_COUNT; c++)
        batch.columns[c].stride = 0;
    for (int a = 0; a < grid->count; a++)
        batch.columns[grid->axes[a].variable] = (struct spt_batch_column){grid->axes[a].values, 1};
    bool by_load =
        grid->count > 0 && grid->axes[grid->count - 1].variable == SPT_BATCH_EQUIVALENT_LOAD_N;
    if (by_load) /* a placeholder: the loads come from the rows */
        batch.columns[SPT_BATCH_EQUIVALENT_LOAD_N] =
            (struct spt_batch_column){&spt_batch_limits[SPT_BATCH_EQUIVALENT_LOAD_N].harmless, 0};
    struct spt_batch_plan plan;
    enum spt_status status = spt_batch_plan_make(&batch, &plan);
    if (status != SPT_OK)
        return status;
    if (by_load)
        run_load_rows(&plan, grid, first_row, rows, results);
    else
        run_grid_points(&plan, grid, first_row * length, rows * length, results);
    return SPT_OK;
}
