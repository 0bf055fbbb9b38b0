/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/reach.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <string.h>

#include "model/numeric.h"
#include "study/life/lever.h"
#include "study/life/lever_machine.h"
#include "study/life/reach_work.h"

#define LEAST_GAIN 1e-9  /* relative gain of life; less counts as none */
#define MACHINE_STEPS 48 /* of the search with a lever of a machine; our choice */

/* Adds the flags that a case raises, except those in `known` (may be NULL). */
static void gather_notes(const struct spt_case *question,
                         const struct spt_reach_workspace *workspace, const struct spt_notes *known,
                         struct spt_notes *notes)
{
    struct spt_notes setting = {0};
    spt_case_setting_notes(question, &setting);
    for (int i = 0; i < setting.count; i++)
        if (!known || !spt_notes_has(known, setting.list[i].flag))
            spt_notes_add(notes, setting.list[i].flag, setting.list[i].value,
                          setting.list[i].limit);
    for (int i = 0; i < question->bearing_count; i++) {
        struct spt_bearing_result bearing;
        if (spt_assess_bearing(question, i, 0, workspace->results, &bearing))
            continue;
        for (int j = 0; j < bearing.phase_count; j++)
            for (int k = 0; k < bearing.phases[j].notes.count; k++) {
                const struct spt_note *note = &bearing.phases[j].notes.list[k];
                if (!known || !spt_notes_has(known, note->flag))
                    spt_notes_add(notes, note->flag, note->value, note->limit);
            }
    }
}

static void look_at_ends(struct spt_reach_work *work, double best, double worst,
                         struct spt_lever_result *result)
{
    result->best = best;
    result->worst = worst;
    result->best_life_h = spt_reach_life_at(work, best);
    result->worst_life_h = spt_reach_life_at(work, worst);
}

/* True where the lever gains nothing, so that the present value is kept, unless it is a preload. */
static bool stays(const struct spt_reach_work *work, const struct spt_lever_result *result)
{
    if (work->lever == SPT_LEVER_END_PLAY &&
        spt_hub_bench_preload(work->workspace->bench, result->present) > 0)
        return false;
    return result->best_life_h <= work->present_life_h * (1 + LEAST_GAIN);
}

/* The value between the best and the worst end at which the life equals the target, on the side
 * that reaches it. */
static void solve_continuous(struct spt_reach_work *work, struct spt_lever_result *result)
{
    struct spt_lever_range range = spt_reach_range(work, result->present);
    gsl_function function = {spt_reach_margin, work};
    double root = (double)NAN;
    result->value = range.best;
    look_at_ends(work, range.best, range.worst, result);
    if (spt_reach_margin_of(result->best_life_h, work->target_h) < 0) {
        result->outcome = SPT_LEVER_CANNOT;
        if (stays(work, result))
            result->value = result->present;
    } else if (spt_reach_margin_of(result->worst_life_h, work->target_h) >= 0) {
        /* a preloaded hub may reach the target at any end play, though not at its present preload
         */
        result->outcome = work->relaxing ? SPT_LEVER_ALWAYS : SPT_LEVER_REACHES;
        result->value = range.worst;
    } else {
        result->outcome = SPT_LEVER_REACHES;
        if (!spt_numeric_root(&function, fmin(range.best, range.worst),
                              fmax(range.best, range.worst), &root))
            result->value = root;
        /* the root may be beyond the target by round-off, or at a jump to "no life" */
        if (spt_reach_margin(result->value, work) < 0)
            result->value = spt_reach_last(work, 0, range.best, result->value);
    }
    result->life_h = spt_reach_life_at(work, result->value);
}

/* Step `k` of the way from the present value to the end of the search: by equal ratios, or to
 * nothing by equal parts. */
static double step_between(double present, double end, int k)
{
    return k == MACHINE_STEPS ? end
           : end > 0          ? present * pow(end / present, (double)k / MACHINE_STEPS)
                              : present + (end - present) * k / MACHINE_STEPS;
}

/* Life may rise and fall with a lever of a machine: the first step that changes the outcome, and
 * within it the last value that reaches the target. Where no step does, the best of them. */
static void step_machine(struct spt_reach_work *work, struct spt_lever_result *result)
{
    const double present = result->present;
    const double end = spt_machine_lever_end(work->question, work->lever, work->relaxing);
    double before = present, best = present, best_h = work->present_life_h;
    for (int k = 1; k <= MACHINE_STEPS; k++) {
        const double value = step_between(present, end, k), life_h = spt_reach_life_at(work, value);
        const bool reaches = spt_reach_margin_of(life_h, work->target_h) >= 0;
        if (reaches != work->relaxing) {
            result->outcome = SPT_LEVER_REACHES;
            result->value =
                spt_reach_last(work, 0, reaches ? value : before, reaches ? before : value);
            look_at_ends(work, reaches ? value : present, reaches ? present : value, result);
            result->life_h = spt_reach_life_at(work, result->value);
            return;
        }
        if (life_h > best_h * (1 + LEAST_GAIN) || (isnan(best_h) && !isnan(life_h))) {
            best = value;
            best_h = life_h;
        }
        before = value;
    }
    result->outcome = work->relaxing ? SPT_LEVER_ALWAYS : SPT_LEVER_CANNOT;
    result->value = work->relaxing ? end : best;
    look_at_ends(work, work->relaxing ? present : end, work->relaxing ? end : present, result);
    result->life_h = spt_reach_life_at(work, result->value);
}

/* Tries the classes from the cleanest to the dirtiest; the result is the dirtiest that reaches the
 * target. */
static void walk_classes(struct spt_reach_work *work, struct spt_lever_result *result)
{
    enum spt_lubrication kind = work->question->lubricant.kind;
    int first = (int)spt_cleanliness_first(kind), last = first + spt_cleanliness_count(kind) - 1;
    int stop = work->relaxing ? last : (int)result->present;
    result->outcome = SPT_LEVER_CANNOT;
    result->value = first;
    look_at_ends(work, first, stop, result);
    for (int class = first; class <= stop; class ++)
        if (spt_reach_margin(class, work) >= 0) {
            result->outcome = SPT_LEVER_REACHES;
            result->value = class;
        }
    if (work->relaxing && (int)result->value == last && result->outcome == SPT_LEVER_REACHES)
        result->outcome = SPT_LEVER_ALWAYS;
    result->life_h = spt_reach_life_at(work, result->value);
}

/* Tries the thicker (step 1) or thinner (-1) grades up to the first that reaches the target; the
 * result is the best one where none does. */
static void walk_better(struct spt_reach_work *work, int step, struct spt_lever_result *result)
{
    double best = spt_reach_margin_of(work->present_life_h, work->target_h);
    int first = step > 0 ? spt_reach_thicker(work->question) : spt_reach_thinner(work->question);
    for (int grade = first; grade >= 0 && grade < SPT_VISCOSITY_GRADE_COUNT; grade += step) {
        double reached = spt_reach_margin(grade, work);
        if (reached <= best)
            continue;
        best = reached;
        result->value = grade;
        if (reached < 0)
            continue;
        result->outcome = SPT_LEVER_REACHES;
        return;
    }
}

/* Tries the thinner grades up to the last before one fails; the range ends where the viscosity
 * index gives no oil of a grade. */
static void walk_thinner(struct spt_reach_work *work, struct spt_lever_result *result)
{
    for (int grade = spt_reach_not_thinner(work->question); grade >= 0; grade--) {
        double life_h;
        if (spt_reach_life(work->question, SPT_LEVER_GRADE, grade, true, work->workspace, &life_h))
            break;
        if (spt_reach_margin_of(life_h, work->target_h) < 0)
            return;
        result->value = grade;
        result->outcome = SPT_LEVER_REACHES;
    }
    if (result->outcome == SPT_LEVER_REACHES)
        result->outcome = SPT_LEVER_ALWAYS;
}

/* Where no grade is better the oil stays as it is, though it need not be the middle of a grade. An
 * oil that is too stiff for a life to be stated must be replaced by a thinner one. */
static void walk_grades(struct spt_reach_work *work, struct spt_lever_result *result)
{
    result->outcome = SPT_LEVER_CANNOT;
    result->value = (double)NAN;
    look_at_ends(work, SPT_VISCOSITY_GRADE_COUNT - 1, 0, result);
    if (work->relaxing)
        walk_thinner(work, result);
    else
        walk_better(work, 1, result);
    if (isnan(result->value) && isnan(work->present_life_h))
        walk_better(work, -1, result);
    result->life_h =
        isnan(result->value) ? work->present_life_h : spt_reach_life_at(work, result->value);
    if (isnan(result->value))
        result->value = result->present;
}

static double pair_life(struct spt_reach_work *work, int class, int grade)
{
    struct spt_case changed;
    double life_h = (double)NAN;
    struct spt_adjustment change = spt_lever_adjustment(SPT_LEVER_CLEANLINESS, class, false);
    spt_adjust_case(work->question, &change, work->workspace->phases, &changed);
    if (spt_lever_set_grade(&changed, grade) ||
        spt_lever_life(work->question, &changed, work->workspace->results, &life_h))
        return (double)NAN;
    return life_h;
}

/* Fewest steps in all: cleaner classes from the present one, grades from the present oil to the
 * thicker side, or to the thinner where that alone gives a life; of as many steps the pair that
 * lasts longest. */
static void find_pair(struct spt_reach_work *work, struct spt_reach *result)
{
    int first = (int)spt_cleanliness_first(work->question->lubricant.kind);
    int class = (int)result->levers[SPT_LEVER_CLEANLINESS].present;
    bool thinner = isnan(work->present_life_h) &&
                   result->levers[SPT_LEVER_GRADE].value < result->levers[SPT_LEVER_GRADE].present;
    int step = thinner ? -1 : 1;
    int grade =
        (thinner ? spt_reach_thinner(work->question) : spt_reach_thicker(work->question)) - step;
    int most = class - first + (thinner ? grade : SPT_VISCOSITY_GRADE_COUNT - 1 - grade);
    for (int steps = 2; steps <= most && !result->pair_found; steps++)
        for (int cleaner = 1; cleaner < steps && class - cleaner >= first; cleaner++) {
            int other = grade + step * (steps - cleaner);
            if (other < 0 || other >= SPT_VISCOSITY_GRADE_COUNT)
                continue;
            double life_h = pair_life(work, class - cleaner, other);
            bool better =
                life_h >= work->target_h && (!result->pair_found || life_h > result->pair_life_h);
            if (!better)
                continue;
            result->pair_found = true;
            result->pair_cleanliness = class - cleaner;
            result->pair_grade = other;
            result->pair_life_h = life_h;
        }
}

/* True for the flag that a lever affects most: it is reported at the required value even if the
 * case raises it already, so that old grease or a higher load is never recommended without it. */
static bool bears_on(enum spt_lever lever, enum spt_flag flag)
{
    static const bool borne[SPT_LEVER_COUNT][SPT_FLAG_COUNT] = {
        [SPT_LEVER_CLEANLINESS] = {[SPT_FLAG_HEAVY_CONTAMINATION] = true},
        [SPT_LEVER_WATER] = {[SPT_FLAG_WATER_SATURATED] = true, [SPT_FLAG_WATER_COLD] = true},
        [SPT_LEVER_GRADE] = {[SPT_FLAG_FILM_THIN] = true},
        [SPT_LEVER_TEMPERATURE] = {[SPT_FLAG_FILM_THIN] = true, [SPT_FLAG_GREASE_HOT] = true},
        [SPT_LEVER_LOAD] = {[SPT_FLAG_OVERLOAD] = true,
                            [SPT_FLAG_ABOVE_STATIC] = true,
                            [SPT_FLAG_STATIC_SAFETY] = true},
        [SPT_LEVER_REGREASING] = {[SPT_FLAG_GREASE_OVERDUE] = true},
        [SPT_LEVER_RATING] = {[SPT_FLAG_OVERLOAD] = true,
                              [SPT_FLAG_ABOVE_STATIC] = true,
                              [SPT_FLAG_STATIC_SAFETY] = true},
        [SPT_LEVER_END_PLAY] = {[SPT_FLAG_PRELOAD] = true, [SPT_FLAG_END_PLAY] = true},
        [SPT_LEVER_POWER] = {[SPT_FLAG_OVERLOAD] = true,
                             [SPT_FLAG_ABOVE_STATIC] = true,
                             [SPT_FLAG_STATIC_SAFETY] = true},
        [SPT_LEVER_PAYLOAD] = {[SPT_FLAG_OVERLOAD] = true, [SPT_FLAG_STATIC_SAFETY] = true},
        [SPT_LEVER_BEND_SPEED] = {[SPT_FLAG_OVERLOAD] = true, [SPT_FLAG_STATIC_SAFETY] = true},
        [SPT_LEVER_BEND_RADIUS] = {[SPT_FLAG_OVERLOAD] = true, [SPT_FLAG_STATIC_SAFETY] = true},
    };
    return borne[lever][flag];
}

static void note_borne(const struct spt_case *changed, enum spt_lever lever,
                       const struct spt_reach_workspace *workspace, struct spt_notes *notes)
{
    struct spt_notes all = {0};
    gather_notes(changed, workspace, NULL, &all);
    for (int i = 0; i < all.count; i++)
        if (bears_on(lever, all.list[i].flag))
            spt_notes_add(notes, all.list[i].flag, all.list[i].value, all.list[i].limit);
}

/* Adds the flags that the value raises and the present case does not, and those the lever affects.
 */
static void note_value(struct spt_reach_work *work, struct spt_lever_result *result)
{
    struct spt_case changed;
    struct spt_notes now = {0};
    if (result->outcome == SPT_LEVER_NOT_HERE ||
        spt_lever_change(work->question, work->lever, result->value, work->relaxing,
                         work->workspace, &changed) ||
        !spt_case_within_temperatures(&changed))
        return;
    gather_notes(work->question, work->workspace, NULL, &now);
    gather_notes(&changed, work->workspace, &now, &result->notes);
    note_borne(&changed, work->lever, work->workspace, &result->notes);
}

static void clear_lever(struct spt_lever_result *result)
{
    result->outcome = SPT_LEVER_NOT_HERE;
    result->present = result->value = result->life_h = (double)NAN;
    result->best = result->worst = result->best_life_h = result->worst_life_h = (double)NAN;
}

static void clear(struct spt_reach *result)
{
    memset(result, 0, sizeof *result);
    result->target_h = result->present_life_h = (double)NAN;
    result->present_viscosity_40_mm2_s = result->pair_life_h = (double)NAN;
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++)
        clear_lever(&result->levers[lever]);
}

static void work_lever(struct spt_reach_work *work, struct spt_lever_result *result)
{
    if (!spt_reach_has(work, work->lever)) {
        clear_lever(result);
        return;
    }
    result->present = spt_reach_present(work);
    if (work->lever == SPT_LEVER_CLEANLINESS) {
        walk_classes(work, result);
    } else if (work->lever == SPT_LEVER_GRADE) {
        walk_grades(work, result);
    } else if (spt_machine_lever_is(work->lever)) {
        step_machine(work, result);
    } else {
        solve_continuous(work, result);
    }
}

/* A remedy avoids preload with a stated scatter; a setting that may worsen need not. */
static void find_best_setting(struct spt_reach_work *work)
{
    struct spt_hub_bench *bench = work->workspace->bench;
    if (!bench)
        return;
    double least_mm =
        work->relaxing ? spt_hub_bench_least(bench) : spt_hub_bench_least_advised(bench);
    if (bench->rated && spt_hub_bench_best(bench, false, least_mm, &work->best_mm, NULL))
        work->best_mm = (double)NAN;
    if (!work->question->hub->preload_allowed)
        work->least_mm = least_mm;
}

enum spt_status spt_reach(const struct spt_case *question, double target_h,
                          const struct spt_reach_workspace *workspace, struct spt_reach *result)
{
    clear(result);
    if (!(target_h > 0) || isinf(target_h) || !workspace->phases || !workspace->results)
        return SPT_BAD_ARGUMENT;
    enum spt_status status =
        spt_lever_life(question, question, workspace->results, &result->present_life_h);
    if (status)
        return status;
    result->target_h = target_h;
    result->present_viscosity_40_mm2_s = question->lubricant.viscosity_40_mm2_s;
    double middle = spt_viscosity_grade(spt_reach_grade(question))->nu40_mm2_s;
    result->present_grade_fits =
        fabs(result->present_viscosity_40_mm2_s / middle - 1) <= 1 - SPT_REACH_GRADE_LIMIT + 1e-12;
    result->reached_already = result->present_life_h >= target_h;
    struct spt_reach_work work = {question,
                                  workspace,
                                  SPT_LEVER_CLEANLINESS,
                                  target_h,
                                  result->present_life_h,
                                  result->reached_already,
                                  (double)NAN,
                                  -(double)INFINITY};
    find_best_setting(&work);
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++) {
        work.lever = (enum spt_lever)lever;
        work_lever(&work, &result->levers[lever]);
        note_value(&work, &result->levers[lever]);
    }
    bool alone = result->levers[SPT_LEVER_CLEANLINESS].outcome == SPT_LEVER_REACHES ||
                 result->levers[SPT_LEVER_GRADE].outcome == SPT_LEVER_REACHES;
    if (!work.relaxing && !alone && spt_reach_has(&work, SPT_LEVER_CLEANLINESS))
        find_pair(&work, result);
    return SPT_OK;
}
