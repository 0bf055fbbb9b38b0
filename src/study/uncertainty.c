/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/uncertainty.h"

#include <float.h>
#include <math.h>
#include <pthread.h>
#include <stdlib.h>
#include <string.h>

#include "spalltime/adjust.h"
#include "study/setting_table.h"
#include "study/spall_time.h"

#define NONE ((double)NAN)
#define COLDEST_C (-60.0)
#define HOTTEST_C 300.0
#define RANKED_SAMPLES 16384
#define TAIL 2e-4        /* of an unbounded spread, on either side: left to direct solves */
#define LOADS_WITHIN 8.0 /* highest load of the table over its lowest */
#define CHECKS SPT_UNCERTAIN_SETTING_CHECKS

/* How the setting factors of a hub follow the samples. */
struct settling {
    struct spt_setting_table table;
    double running_mm;                                       /* as stated */
    struct spt_hub_bench benches[SPT_UNCERTAIN_THREADS_MAX]; /* one for each thread */
    double bench_loads[SPT_UNCERTAIN_THREADS_MAX];           /* the factor each stands at */
};

/* One set of samples to work out. */
struct job {
    const struct spt_case *question;
    const struct spt_uncertainty *uncertainty;
    const struct spt_uncertainty_room *room;
    int used[SPT_UNCERTAIN_COUNT]; /* the inputs that are spread */
    int used_count;
    int count;                               /* samples */
    int stride;                              /* columns of a row of the design */
    bool second;                             /* the columns behind the first `used_count` */
    int swapped;                             /* that column from the second half; -1: none */
    struct settling *settling;               /* NULL: the setting factors of the case */
    bool solve;                              /* directly, not by the table */
    double *system_lives;                    /* count */
    double *bearing_lives[SPT_BEARINGS_MAX]; /* NULL: not wanted */
};

/* A thread's part of it. */
struct part {
    const struct job *job;
    int first, last; /* samples (or nodes) first .. last - 1 */
    int number;      /* of the thread */
    struct spt_phase *phases;
    struct spt_phase_result *results;
    int held, direct, unsettled;
    pthread_t thread;
    bool started;
};

const char *spt_uncertain_name(enum spt_uncertain input)
{
    static const char *const names[SPT_UNCERTAIN_COUNT] = {
        [SPT_UNCERTAIN_LOAD] = "load",
        [SPT_UNCERTAIN_SPEED] = "speed",
        [SPT_UNCERTAIN_TEMPERATURE] = "temperature",
        [SPT_UNCERTAIN_WATER] = "water",
        [SPT_UNCERTAIN_CLEANLINESS] = "cleanliness",
        [SPT_UNCERTAIN_RATING] = "rating",
        [SPT_UNCERTAIN_END_PLAY] = "end play",
    };
    return (int)input >= 0 && input < SPT_UNCERTAIN_COUNT ? names[input] : "unknown input";
}

static double design_at(const struct job *job, int sample, int column)
{
    bool behind = job->second != (column == job->swapped);
    return job->room->design[(long)sample * job->stride + column + (behind ? job->used_count : 0)];
}

static bool is_factor(int input)
{
    return input != SPT_UNCERTAIN_TEMPERATURE && input != SPT_UNCERTAIN_CLEANLINESS &&
           input != SPT_UNCERTAIN_END_PLAY;
}

/* What has to be taken off a drawn end play to make it a change of the stated one. */
static double setting_of_spread(const struct spt_random_input *input)
{
    return input->spread == SPT_RANDOM_LOGNORMAL ? input->centre : 0;
}

/* The drawn values; an input that is known exactly keeps the value that changes nothing. */
static enum spt_status draw(struct part *part, int sample, double *values)
{
    static const double unchanged[SPT_UNCERTAIN_COUNT] = {1, 1, 0, 1, -1, 1, 0};
    const struct job *job = part->job;
    bool held = false;
    memcpy(values, unchanged, sizeof unchanged);
    for (int i = 0; i < job->used_count; i++) {
        int input = job->used[i];
        enum spt_status status = spt_random_value(&job->uncertainty->inputs[input],
                                                  design_at(job, sample, i), &values[input]);
        if (status)
            return status;
        if (input == SPT_UNCERTAIN_END_PLAY)
            values[input] -= setting_of_spread(&job->uncertainty->inputs[input]);
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
                                : fmin(fmax(temperature_c + rise_k, COLDEST_C), HOTTEST_C);
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

static struct spt_unmoved count_unmoved(const struct job *job, int input)
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
        moves(uncertainty, SPT_UNCERTAIN_CLEANLINESS, stated))
        phase->condition.cleanliness = (enum spt_cleanliness)(
            (int)uncertainty->class_first + (int)values[SPT_UNCERTAIN_CLEANLINESS]);
}

static void change_rating(double factor, const struct spt_bearing *stated,
                          struct spt_bearing *bearing)
{
    bearing->dynamic_load_rating_n = factor * stated->dynamic_load_rating_n;
    bearing->static_load_rating_n = factor * stated->static_load_rating_n;
    bearing->fatigue_load_limit_n = factor * stated->fatigue_load_limit_n;
}

/* Setting factors straight from the load distribution. */
static bool solve_setting(struct part *part, double running_mm, double load, double (*factors)[2])
{
    struct settling *settling = part->job->settling;
    struct spt_hub_bench *bench = &settling->benches[part->number];
    double *at_load = &settling->bench_loads[part->number];
    if (*at_load != load && spt_hub_bench_load(bench, load, NULL)) {
        *at_load = NONE;
        return false;
    }
    *at_load = load;
    return !spt_hub_bench_factors(bench, false, running_mm - bench->thermal_mm, factors, NULL);
}

/* Setting factors of a sample; false where the hub has no answer. */
static bool settle(struct part *part, const double *values, double (*factors)[2])
{
    const struct settling *settling = part->job->settling;
    double running_mm = settling->running_mm + values[SPT_UNCERTAIN_END_PLAY];
    double load = values[SPT_UNCERTAIN_LOAD];
    if (!part->job->solve && spt_setting_table_read(&settling->table, running_mm, load, factors))
        return true;
    part->direct++;
    if (solve_setting(part, running_mm, load, factors))
        return true;
    part->unsettled++;
    return false;
}

/* The lives of one sample; NaN where it has none. `changed` is the thread's copy of the case. */
static void live_one(struct part *part, int sample, struct spt_case *changed)
{
    const struct job *job = part->job;
    double values[SPT_UNCERTAIN_COUNT], lives_h[SPT_BEARINGS_MAX] = {0};
    struct spt_phase *phases = part->phases;
    double factors[SPT_HUB_PHASES_MAX][2];
    enum spt_status status = draw(part, sample, values);
    if (!status && job->settling && !settle(part, values, factors))
        status = SPT_NOT_APPLICABLE;
    for (int i = 0; i < changed->bearing_count; i++) {
        const struct spt_bearing_case *stated = &job->question->bearings[i];
        struct spt_bearing_result bearing;
        for (int j = 0; j < stated->phase_count; j++)
            change_phase(job->uncertainty, values, &stated->phases[j], &phases[j]);
        for (int j = 0; j < stated->phase_count && job->settling && !status; j++)
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
        changed->bearing_count == 1
            ? lives_h[0]
            : spt_life_system(lives_h, changed->bearing_count, SPT_WEIBULL_SLOPE);
}

static void *live_all(void *context)
{
    struct part *part = context;
    struct spt_case changed = *part->job->question;
    for (int i = part->first; i < part->last; i++)
        live_one(part, i, &changed);
    return NULL;
}

static void *fill_nodes(void *context)
{
    struct part *part = context;
    struct settling *settling = part->job->settling;
    settling->bench_loads[part->number] = NONE; /* the table moves it */
    spt_setting_table_fill(&settling->table, &settling->benches[part->number], part->first,
                           part->last);
    return NULL;
}

/* Works `count` samples or nodes of a job out on all threads; each has its own place, so the split
 * leaves no trace. What was counted is added to `result`, which may be NULL. */
static void share_out(const struct job *job, int count, void *(*work)(void *),
                      struct spt_uncertainty_result *result)
{
    struct part parts[SPT_UNCERTAIN_THREADS_MAX] = {{0}};
    int threads = job->room->threads, phases = spt_case_phase_count(job->question);
    for (int i = 0; i < threads; i++) {
        struct part *part = &parts[i];
        *part = (struct part){.job = job,
                              .first = (int)((long)count * i / threads),
                              .last = (int)((long)count * (i + 1) / threads),
                              .number = i,
                              .phases = job->room->phases + (long)i * phases,
                              .results = job->room->results + (long)i * phases};
        part->started = i > 0 && !pthread_create(&part->thread, NULL, work, part);
    }
    for (int i = 0; i < threads; i++)
        if (!parts[i].started)
            work(&parts[i]);
    for (int i = 0; i < threads; i++) {
        if (parts[i].started)
            pthread_join(parts[i].thread, NULL);
        if (!result)
            continue;
        result->held += parts[i].held;
        result->setting.direct += parts[i].direct;
        result->setting.unsettled += parts[i].unsettled;
    }
}

static void run_job(const struct job *job, struct spt_uncertainty_result *result)
{
    share_out(job, job->count, live_all, result);
}

static int compare_numbers(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* Sorts lives, those without one first, as 0; gives their number. */
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

/* Order statistic p of sorted lives, between neighbours by a straight line. */
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
static enum spt_status rank_drivers(const struct job *job, double *scratch,
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

/* Turns lives into their logarithms; false where one is not finite. */
static bool take_logarithms(double *lives, int count)
{
    bool finite = true;
    for (int i = 0; i < count; i++) {
        lives[i] = log(lives[i]);
        finite = finite && isfinite(lives[i]);
    }
    return finite;
}

static enum spt_status share_variance(const struct job *plain,
                                      struct spt_uncertainty_result *result)
{
    const int n = SPT_UNCERTAIN_SHARE_SAMPLES;
    struct job job = *plain;
    double *a = job.room->shares, *b = a + n, *mixed = b + n;
    job.count = n;
    job.stride = 2 * job.used_count;
    job.bearing_lives[0] = job.bearing_lives[1] = NULL;
    enum spt_status status = spt_random_sobol(job.uncertainty->seed, n, job.stride,
                                              job.room->design, (long)n * job.stride);
    if (status)
        return status;
    job.system_lives = a;
    run_job(&job, NULL);
    job.second = true;
    job.system_lives = b;
    run_job(&job, NULL);
    job.second = false;
    job.system_lives = mixed;
    if (!take_logarithms(a, n) || !take_logarithms(b, n))
        return SPT_OK;
    for (int i = 0; i < job.used_count; i++) {
        struct spt_random_share *share = &result->drivers[job.used[i]].share;
        job.swapped = i;
        run_job(&job, NULL);
        if (!take_logarithms(mixed, n) || spt_random_variance_share(a, b, mixed, n, share))
            *share = (struct spt_random_share){NONE, NONE};
    }
    return SPT_OK;
}

/* The inputs that are spread, checked. */
static enum spt_status list_used(struct job *job)
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
            (i == SPT_UNCERTAIN_END_PLAY && (!job->question->hub || !job->room->hub_rooms)))
            return SPT_BAD_ARGUMENT;
        job->used[job->used_count++] = i;
    }
    return SPT_OK;
}

static void sum_up(const struct job *job, struct spt_uncertainty_result *result)
{
    int count = job->count, reached = 0;
    double target_h = job->question->target_life_h;
    for (int i = 0; i < count; i++)
        reached += job->system_lives[i] >= target_h;
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
    result->share_without_life = result->share_at_target = NONE;
    result->time_to_spall = no_lives;
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++)
        result->drivers[i] = (struct spt_driver){false, NONE, {NONE, NONE}, {0, -1}};
}

/* The ends of a spread; an unbounded one is cut where its tails begin. */
static enum spt_status find_ends(const struct spt_random_input *input, double ends[2])
{
    ends[0] = input->low;
    ends[1] = input->high;
    if (input->spread != SPT_RANDOM_NORMAL && input->spread != SPT_RANDOM_LOGNORMAL)
        return SPT_OK;
    enum spt_status status = spt_random_value(input, TAIL, &ends[0]);
    return status ? status : spt_random_value(input, 1 - TAIL, &ends[1]);
}

static enum spt_status begin_table(const struct job *job, struct settling *settling)
{
    const struct spt_random_input *inputs = job->uncertainty->inputs;
    const struct spt_random_input *play = &inputs[SPT_UNCERTAIN_END_PLAY];
    double settings_mm[2] = {0, 0}, loads[2] = {1, 1};
    enum spt_status status = SPT_OK;
    if (play->spread != SPT_RANDOM_FIXED)
        status = find_ends(play, settings_mm);
    if (!status && inputs[SPT_UNCERTAIN_LOAD].spread != SPT_RANDOM_FIXED) {
        status = find_ends(&inputs[SPT_UNCERTAIN_LOAD], loads);
        loads[0] = fmax(loads[0], loads[1] / LOADS_WITHIN);
    }
    for (int i = 0; i < 2; i++)
        settings_mm[i] += settling->running_mm - setting_of_spread(play);
    if (!status)
        spt_setting_table_begin(&settling->table, job->room->setting_table,
                                job->question->bearings[0].phase_count, settings_mm, loads);
    return status;
}

/* Largest difference of two sets of lives, relative; a sample that neither has a life for counts as
 * alike. */
static double compare_lives(const double *lives, const double *wanted, int count)
{
    double worst = 0;
    for (int i = 0; i < count; i++) {
        bool alike = lives[i] == wanted[i] || (isnan(lives[i]) && isnan(wanted[i]));
        double apart = fabs(lives[i] / wanted[i] - 1);
        if (!alike)
            worst = fmax(worst, isnan(apart) ? (double)INFINITY : apart);
    }
    return worst;
}

/* How much the lives of the first samples change where the table is read with every second node
 * only. */
static double try_coarser(struct job *check, const double *lives, bool along_load)
{
    double coarser[CHECKS] = {0};
    struct spt_setting_table *table = &check->settling->table, kept = *table;
    int *step = along_load ? &table->load_step : &table->setting_step;
    *step *= 2;
    check->system_lives = coarser;
    run_job(check, NULL);
    *table = kept;
    return compare_lives(coarser, lives, check->count);
}

/* Doubles the nodes along the setting or the load, whichever matters more. */
static bool refine(struct job *check, const double *lives)
{
    struct spt_setting_table *table = &check->settling->table;
    bool along_load =
        table->load_step && (!table->setting_step ||
                             try_coarser(check, lives, true) > try_coarser(check, lives, false));
    return spt_setting_table_refine(table, along_load) ||
           spt_setting_table_refine(table, !along_load);
}

/* Fills the table and refines it until it agrees with direct solves. */
static void check_table(const struct job *plain, struct spt_uncertainty_result *result)
{
    double solved[CHECKS], lives[CHECKS];
    struct job check = *plain;
    struct spt_setting_table *table = &plain->settling->table;
    check.count = plain->count < CHECKS ? plain->count : CHECKS;
    check.bearing_lives[0] = check.bearing_lives[1] = NULL;
    check.system_lives = solved;
    check.solve = true;
    run_job(&check, NULL);
    check.solve = false;
    do {
        share_out(&check, spt_setting_table_count(table), fill_nodes, NULL);
        check.system_lives = lives;
        run_job(&check, NULL);
        result->setting.error = compare_lives(lives, solved, check.count);
    } while (result->setting.error > SPT_UNCERTAIN_SETTING_ALLOWED && refine(&check, lives));
    result->setting.checked = check.count;
    result->setting.nodes = spt_setting_table_count(table);
}

/* Makes ready for setting factors that differ between samples. */
static enum spt_status begin_settling(struct job *job, struct settling *settling,
                                      struct spt_uncertainty_result *result)
{
    const struct spt_random_input *inputs = job->uncertainty->inputs;
    if (!job->question->hub || !job->room->hub_rooms ||
        (inputs[SPT_UNCERTAIN_END_PLAY].spread == SPT_RANDOM_FIXED &&
         inputs[SPT_UNCERTAIN_LOAD].spread == SPT_RANDOM_FIXED))
        return SPT_OK;
    for (int i = 0; i < job->room->threads; i++) {
        enum spt_status status =
            spt_hub_bench_set(job->question, &job->room->hub_rooms[i], &settling->benches[i], NULL);
        if (status)
            return status;
        settling->bench_loads[i] = 1;
    }
    settling->running_mm = settling->benches[0].mounted_mm + settling->benches[0].thermal_mm;
    enum spt_status status = begin_table(job, settling);
    if (status)
        return status;
    job->settling = settling;
    result->setting.varies = true;
    check_table(job, result);
    return SPT_OK;
}

size_t spt_uncertainty_table_length(const struct spt_case *question)
{
    return question->hub ? spt_setting_table_length(question->bearings[0].phase_count) : 0;
}

/* Order matters: the shares use the design's room, so the ranks come first. */
static enum spt_status work_out(struct job *job, struct spt_uncertainty_result *result)
{
    struct settling settling = {0};
    long room = (long)job->used_count * job->count;
    enum spt_status status = SPT_OK;
    if (job->used_count)
        status = spt_random_sobol(job->uncertainty->seed, job->count, job->used_count,
                                  job->room->design, room);
    if (!status)
        status = begin_settling(job, &settling, result);
    if (status)
        return status;
    run_job(job, result);
    if (job->used_count)
        status = rank_drivers(job, job->room->scratch, result);
    if (!status && job->room->shares && job->used_count)
        status = share_variance(job, result);
    spt_spall_strata(job->system_lives, job->bearing_lives, job->question->bearing_count,
                     job->count, job->room->scratch, result);
    sum_up(job, result);
    return status ? status : spt_spall_times(result);
}

enum spt_status spt_uncertainty(const struct spt_case *question,
                                const struct spt_uncertainty *uncertainty,
                                const struct spt_uncertainty_room *room,
                                struct spt_uncertainty_result *result)
{
    struct job job = {.question = question,
                      .uncertainty = uncertainty,
                      .room = room,
                      .count = uncertainty->samples,
                      .swapped = -1,
                      .system_lives = room->lives};
    double stated_h;
    clear(result);
    if (job.count < SPT_UNCERTAIN_SAMPLES_MIN || job.count > SPT_UNCERTAIN_SAMPLES_MAX ||
        room->threads < 1 || room->threads > SPT_UNCERTAIN_THREADS_MAX)
        return SPT_BAD_ARGUMENT;
    enum spt_status status = list_used(&job);
    if (!status)
        status = spt_case_life(question, room->results, &stated_h);
    if (!status)
        status =
            spt_life_reliability_factor(question->reliability_percent, &result->reliability_factor);
    if (status)
        return status;
    job.stride = job.used_count;
    for (int i = 0; i < question->bearing_count; i++)
        job.bearing_lives[i] = room->lives + (long)(1 + i) * job.count;
    result->samples = job.count;
    result->seed = uncertainty->seed;
    for (int i = 0; i < job.used_count; i++) {
        struct spt_driver *driver = &result->drivers[job.used[i]];
        driver->spread = true;
        driver->unmoved = count_unmoved(&job, job.used[i]);
    }
    return work_out(&job, result);
}
