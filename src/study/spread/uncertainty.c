/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/uncertainty.h"

#include <float.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/table.h"
#include "spalltime/assess.h"
#include "spalltime/lubricant.h"
#include "spalltime/statistics.h"
#include "study/course/spall_time.h"
#include "study/spread/uncertain_job.h"

#define NONE ((double)NAN)
#define RANKED_SAMPLES 16384

static double design_at(const struct spt_uncertain_job *job, int sample, int column)
{
    bool behind = job->second != (column == job->swapped);
    return job->workspace
        ->design[(long)sample * job->stride + column + (behind ? job->used_count : 0)];
}

static bool is_factor(int input)
{
    return input != SPT_UNCERTAIN_TEMPERATURE && input != SPT_UNCERTAIN_CLEANLINESS &&
           input != SPT_UNCERTAIN_END_PLAY;
}

/* The sampled values; an input that is known exactly gets its neutral value. */
static enum spt_status draw(struct spt_uncertain_part *part, int sample, double *values)
{
    static const double unchanged[] = {1, 1, 0, 1, -1, 1, 0};
    SPT_ONE_EACH(unchanged, SPT_UNCERTAIN_COUNT);
    const struct spt_uncertain_job *job = part->job;
    bool held = false;
    memcpy(values, unchanged, sizeof unchanged);
    for (int i = 0; i < job->used_count; i++) {
        int input = job->used[i];
        enum spt_status status = spt_random_value(&job->uncertainty->inputs[input],
                                                  design_at(job, sample, i), &values[input]);
        if (status)
            return status;
        if (input == SPT_UNCERTAIN_END_PLAY)
            values[input] -= spt_uncertain_offset(&job->uncertainty->inputs[input]);
        if (!is_factor(input) || values[input] >= SPT_UNCERTAIN_FACTOR_MIN)
            continue;
        values[input] = SPT_UNCERTAIN_FACTOR_MIN;
        held = true;
    }
    part->held += held;
    return SPT_OK;
}

static double heat_up(double temperature_c, double rise_k)
{
    return isnan(temperature_c) ? temperature_c
                                : fmin(fmax(temperature_c + rise_k, SPT_COLDEST_C), SPT_HOTTEST_C);
}

/* True where a spread input changes a phase. */
static bool moves(const struct spt_uncertainty *uncertainty, int input,
                  const struct spt_phase *phase)
{
    const struct spt_condition *state = &phase->condition;
    switch (input) {
    case SPT_UNCERTAIN_LOAD:
        return isnan(phase->equivalent_load_n)
                   ? phase->radial_load_n != 0 || phase->axial_load_n != 0
                   : phase->equivalent_load_n != 0;
    case SPT_UNCERTAIN_SPEED:
        return phase->speed_rpm > 0;
    case SPT_UNCERTAIN_WATER:
        return state->water_ppm > 0;
    case SPT_UNCERTAIN_CLEANLINESS:
        return state->cleanliness == uncertainty->class_stated &&
               isnan(state->contamination_factor);
    default:
        return true;
    }
}

static struct spt_unmoved count_unmoved(const struct spt_uncertain_job *job, int input)
{
    const struct spt_bearing_case *bearing = &job->question->bearings[0];
    struct spt_unmoved unmoved = {0, -1};
    for (int i = bearing->phase_count - 1; i >= 0; i--)
        if (!moves(job->uncertainty, input, &bearing->phases[i]))
            unmoved = (struct spt_unmoved){unmoved.phases + 1, i};
    return unmoved;
}

static void change_phase(const struct spt_uncertainty *uncertainty, const double *values,
                         const struct spt_phase *stated, struct spt_phase *phase)
{
    *phase = *stated;
    phase->radial_load_n *= values[SPT_UNCERTAIN_LOAD];
    phase->axial_load_n *= values[SPT_UNCERTAIN_LOAD];
    phase->equivalent_load_n *= values[SPT_UNCERTAIN_LOAD];
    phase->speed_rpm *= values[SPT_UNCERTAIN_SPEED];
    phase->temperature_c = heat_up(stated->temperature_c, values[SPT_UNCERTAIN_TEMPERATURE]);
    phase->ambient_c = heat_up(stated->ambient_c, values[SPT_UNCERTAIN_TEMPERATURE]);
    phase->condition.water_ppm *= values[SPT_UNCERTAIN_WATER];
    if (values[SPT_UNCERTAIN_CLEANLINESS] >= 0 &&
        moves(uncertainty, SPT_UNCERTAIN_CLEANLINESS, stated)) {
        phase->condition.cleanliness = (enum spt_cleanliness)(
            (int)uncertainty->class_first + (int)values[SPT_UNCERTAIN_CLEANLINESS]);
        phase->condition.class_source = SPT_CLASS_STATED;
    }
}

static void change_rating(double factor, const struct spt_bearing *stated,
                          struct spt_bearing *bearing)
{
    bearing->dynamic_load_rating_n = factor * stated->dynamic_load_rating_n;
    bearing->static_load_rating_n = factor * stated->static_load_rating_n;
    bearing->fatigue_load_limit_n = factor * stated->fatigue_load_limit_n;
}

/* Computes the lives of one sample; NaN where it has none. `changed` is the thread's copy of the
 * case. */
static void live_one(struct spt_uncertain_part *part, int sample, struct spt_case *changed)
{
    const struct spt_uncertain_job *job = part->job;
    double values[SPT_UNCERTAIN_COUNT], lives_h[SPT_BEARINGS_MAX] = {0};
    struct spt_phase *phases = part->phases;
    double factors[SPT_HUB_PHASES_MAX][2];
    enum spt_status status = draw(part, sample, values);
    if (!status && job->hub && !spt_uncertain_find_factors(part, values, factors))
        status = SPT_NOT_APPLICABLE;
    for (int i = 0; i < changed->bearing_count; i++) {
        const struct spt_bearing_case *stated = &job->question->bearings[i];
        struct spt_bearing_result bearing;
        for (int j = 0; j < stated->phase_count; j++)
            change_phase(job->uncertainty, values, &stated->phases[j], &phases[j]);
        for (int j = 0; j < stated->phase_count && job->hub && !status; j++)
            phases[j].setting_factor = phases[j].cured_setting_factor = factors[j][i];
        change_rating(values[SPT_UNCERTAIN_RATING], &stated->bearing,
                      &changed->bearings[i].bearing);
        changed->bearings[i].phases = phases;
        if (!status)
            status = spt_assess_bearing(changed, i, 0, part->results, &bearing);
        lives_h[i] = status ? NONE : bearing.modified_rating_life_h;
        if (job->bearing_lives[i])
            job->bearing_lives[i][sample] = lives_h[i];
        phases += stated->phase_count;
    }
    job->system_lives[sample] =
        spt_survival_series(lives_h, changed->bearing_count, changed->reliability_percent);
}

static void *live_all(void *context)
{
    struct spt_uncertain_part *part = context;
    struct spt_case changed = *part->job->question;
    for (int i = part->first; i < part->last; i++)
        live_one(part, i, &changed);
    return NULL;
}

void spt_uncertain_share_out(const struct spt_uncertain_job *job, int count, void *(*work)(void *),
                             struct spt_uncertainty_result *result)
{
    struct spt_uncertain_part parts[SPT_UNCERTAIN_THREADS_MAX] = {{0}};
    int threads = job->workspace->threads, phases = spt_case_phase_count(job->question);
    for (int i = 0; i < threads; i++) {
        struct spt_uncertain_part *part = &parts[i];
        *part = (struct spt_uncertain_part){.job = job,
                                            .first = (int)((long)count * i / threads),
                                            .last = (int)((long)count * (i + 1) / threads),
                                            .number = i,
                                            .phases = job->workspace->phases + (long)i * phases,
                                            .results = job->workspace->results + (long)i * phases};
        part->started = i > 0 && spt_thread_start(&part->thread, work, part);
    }
    for (int i = 0; i < threads; i++)
        if (!parts[i].started)
            work(&parts[i]);
    for (int i = 0; i < threads; i++) {
        if (parts[i].started)
            spt_thread_join(&parts[i].thread);
        if (!result)
            continue;
        result->held += parts[i].held;
        result->setting.direct += parts[i].direct;
        result->setting.unsettled += parts[i].unsettled;
        result->setting.preloaded += parts[i].preloaded;
    }
}

void spt_uncertain_run(const struct spt_uncertain_job *job, struct spt_uncertainty_result *result)
{
    spt_uncertain_share_out(job, job->count, live_all, result);
}

static int compare_numbers(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* Sorts lives in rising order, a missing one as 0. Result: how many are missing. */
static int sort_lives(double *lives, int count)
{
    int without = 0;
    for (int i = 0; i < count; i++)
        if (isnan(lives[i])) {
            lives[i] = 0;
            without++;
        }
    qsort(lives, (size_t)count, sizeof *lives, compare_numbers);
    return without;
}

/* Quantile p of sorted lives, with linear interpolation between order statistics. */
static double quantile_of(const double *sorted, int count, double p)
{
    double place = p * (count - 1);
    int below = (int)floor(place);
    int above = below + 1 < count ? below + 1 : below;
    double part = place - below;
    if (!(sorted[below] > 0))
        return NONE;
    if (part <= 0 || isinf(sorted[below]))
        return sorted[below];
    return sorted[below] + part * (sorted[above] - sorted[below]);
}

static struct spt_band band_of(const double *sorted, int count)
{
    return (struct spt_band){quantile_of(sorted, count, 0.05), quantile_of(sorted, count, 0.50),
                             quantile_of(sorted, count, 0.95)};
}

double spt_uncertainty_quantile(const struct spt_uncertainty_result *result, double p)
{
    return p > 0 && p < 1 ? quantile_of(result->sorted_lives, result->samples, p) : NONE;
}

/* Rank correlation of each input with the life, before the lives are sorted. */
static enum spt_status rank_drivers(const struct spt_uncertain_job *job, double *scratch,
                                    struct spt_uncertainty_result *result)
{
    int count = job->count < RANKED_SAMPLES ? job->count : RANKED_SAMPLES;
    double *x = scratch, *y = scratch + count, *work = scratch + 2L * count;
    for (int i = 0; i < job->used_count; i++) {
        struct spt_driver *driver = &result->drivers[job->used[i]];
        for (int j = 0; j < count; j++) {
            double life_h = job->system_lives[j];
            y[j] = isnan(life_h) ? 0 : fmin(life_h, DBL_MAX);
            enum spt_status status = spt_random_value(&job->uncertainty->inputs[job->used[i]],
                                                      design_at(job, j, i), &x[j]);
            if (status)
                return status;
        }
        if (spt_random_rank_correlation(x, y, count, work, &driver->rank_correlation))
            driver->rank_correlation = NONE; /* nothing varies */
    }
    return SPT_OK;
}

/* Replaces lives by their logarithms; false where one is not finite. */
static bool convert_to_logarithms(double *lives, int count)
{
    bool finite = true;
    for (int i = 0; i < count; i++) {
        lives[i] = log(lives[i]);
        finite = finite && isfinite(lives[i]);
    }
    return finite;
}

static enum spt_status share_variance(const struct spt_uncertain_job *plain,
                                      struct spt_uncertainty_result *result)
{
    const int n = SPT_UNCERTAIN_SHARE_SAMPLES;
    struct spt_uncertain_job job = *plain;
    double *a = job.workspace->shares, *b = a + n, *mixed = b + n;
    job.count = n;
    job.stride = 2 * job.used_count;
    job.bearing_lives[0] = job.bearing_lives[1] = NULL;
    enum spt_status status = spt_random_sobol(job.uncertainty->seed, n, job.stride,
                                              job.workspace->design, (long)n * job.stride);
    if (status)
        return status;
    job.system_lives = a;
    spt_uncertain_run(&job, NULL);
    job.second = true;
    job.system_lives = b;
    spt_uncertain_run(&job, NULL);
    job.second = false;
    job.system_lives = mixed;
    if (!convert_to_logarithms(a, n) || !convert_to_logarithms(b, n))
        return SPT_OK;
    for (int i = 0; i < job.used_count; i++) {
        struct spt_random_share *share = &result->drivers[job.used[i]].share;
        job.swapped = i;
        spt_uncertain_run(&job, NULL);
        if (!convert_to_logarithms(mixed, n) || spt_random_variance_share(a, b, mixed, n, share))
            *share = (struct spt_random_share){NONE, NONE};
    }
    return SPT_OK;
}

/* The inputs that are spread, checked. */
static enum spt_status list_used(struct spt_uncertain_job *job)
{
    const struct spt_uncertainty *uncertainty = job->uncertainty;
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++) {
        const struct spt_random_input *input = &uncertainty->inputs[i];
        if (input->spread == SPT_RANDOM_FIXED)
            continue;
        if (spt_random_check(input) ||
            (input->spread == SPT_RANDOM_CLASSES) != (i == SPT_UNCERTAIN_CLEANLINESS) ||
            (i == SPT_UNCERTAIN_CLEANLINESS &&
             (int)uncertainty->class_first + input->class_count > SPT_CLEANLINESS_COUNT) ||
            (i == SPT_UNCERTAIN_END_PLAY &&
             (!job->question->hub || !job->workspace->hub_workspaces)))
            return SPT_BAD_ARGUMENT;
        job->used[job->used_count++] = i;
    }
    return SPT_OK;
}

static void sum_up(const struct spt_uncertain_job *job, struct spt_uncertainty_result *result)
{
    int count = job->count, reached = 0;
    double target_h = job->question->target_life_h;
    for (int i = 0; i < count; i++)
        reached += job->system_lives[i] >= target_h;
    if (job->uncertainty->inputs[SPT_UNCERTAIN_END_PLAY].spread != SPT_RANDOM_FIXED)
        result->share_preloaded = (double)result->setting.preloaded / count;
    result->share_at_target = isnan(target_h) ? NONE : (double)reached / count;
    result->share_without_life = (double)sort_lives(job->system_lives, count) / count;
    result->sorted_lives = job->system_lives;
    result->system = band_of(job->system_lives, count);
    for (int i = 0; i < job->question->bearing_count; i++) {
        sort_lives(job->bearing_lives[i], count);
        result->bearings[i] = band_of(job->bearing_lives[i], count);
    }
}

static void clear(struct spt_uncertainty_result *result)
{
    static const struct spt_band no_band = {NONE, NONE, NONE};
    static const struct spt_survival_lives no_lives = {NONE, NONE, NONE, NONE};
    memset(result, 0, sizeof *result);
    result->system = result->bearings[0] = result->bearings[1] = no_band;
    result->share_without_life = result->share_preloaded = result->share_at_target = NONE;
    result->time_to_spall = no_lives;
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++)
        result->drivers[i] = (struct spt_driver){false, NONE, {NONE, NONE}, {0, -1}};
}

/* The variance shares overwrite the buffer of the design, so the rank correlations are computed
 * first. */
static enum spt_status work_out(struct spt_uncertain_job *job,
                                struct spt_uncertainty_result *result)
{
    struct spt_uncertain_hub hub = {0};
    long length = (long)job->used_count * job->count;
    enum spt_status status = SPT_OK;
    if (job->used_count)
        status = spt_random_sobol(job->uncertainty->seed, job->count, job->used_count,
                                  job->workspace->design, length);
    if (!status)
        status = spt_uncertain_begin_hub(job, &hub, result);
    if (status)
        return status;
    spt_uncertain_run(job, result);
    if (job->used_count)
        status = rank_drivers(job, job->workspace->scratch, result);
    if (!status && job->workspace->shares && job->used_count)
        status = share_variance(job, result);
    spt_spall_strata(job->system_lives, job->bearing_lives, job->question->bearing_count,
                     job->count, job->workspace->scratch, result);
    sum_up(job, result);
    return status ? status : spt_spall_times(result);
}

enum spt_status spt_uncertainty(const struct spt_case *question,
                                const struct spt_uncertainty *uncertainty,
                                const struct spt_uncertainty_workspace *workspace,
                                struct spt_uncertainty_result *result)
{
    struct spt_uncertain_job job = {.question = question,
                                    .uncertainty = uncertainty,
                                    .workspace = workspace,
                                    .count = uncertainty->samples,
                                    .swapped = -1,
                                    .system_lives = workspace->lives};
    double stated_h;
    clear(result);
    if (!workspace->phases || !workspace->results || !workspace->design || !workspace->lives ||
        !workspace->scratch || job.count < SPT_UNCERTAIN_SAMPLES_MIN ||
        job.count > SPT_UNCERTAIN_SAMPLES_MAX || workspace->threads < 1 ||
        workspace->threads > SPT_UNCERTAIN_THREADS_MAX)
        return SPT_BAD_ARGUMENT;
    enum spt_status status = list_used(&job);
    if (!status)
        status = spt_case_life(question, workspace->results, &stated_h);
    if (!status)
        status =
            spt_life_reliability_factor(question->reliability_percent, &result->reliability_factor);
    if (status)
        return status;
    job.stride = job.used_count;
    for (int i = 0; i < question->bearing_count; i++)
        job.bearing_lives[i] = workspace->lives + (long)(1 + i) * job.count;
    result->samples = job.count;
    result->seed = uncertainty->seed;
    for (int i = 0; i < job.used_count; i++) {
        struct spt_driver *driver = &result->drivers[job.used[i]];
        driver->spread = true;
        driver->unmoved = count_unmoved(&job, job.used[i]);
    }
    return work_out(&job, result);
}
