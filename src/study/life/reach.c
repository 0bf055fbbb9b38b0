/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/reach.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <string.h>

#include "model/numeric.h"
#include "study/life/lever.h"
#include "study/life/lever_machine.h"

/* ln(life/target) where no life can be stated; far below any other */
#define NO_LIFE (-100.0)
#define LEAST_FACTOR 0.01 /* smallest factor on loads and ratings that is tried */
#define MOST_FACTOR 100.0
#define MOST_LOAD_SHARE 0.5 /* P/C to which ISO 281 a_ISO holds (from memory) */
#define MOST_AGE_H 1e6
#define MOST_WARMING_K 100.0
#define LEAST_GAIN 1e-9 /* relative gain of life; less counts as none */
#define GRADE_LIMIT 0.9 /* lower limit of an ISO 3448 grade over its middle */
#define GRADE_UPPER 1.1
#define MACHINE_STEPS 48   /* of the search with a lever of a machine; our choice */
#define WARMING_STEP_K 1.0 /* step of the search for the warming that gives a life */

/* State of the search with one lever on one case. */
struct reach_work {
    const struct spt_case *question;
    const struct spt_reach_workspace *workspace;
    enum spt_lever lever;
    double target_h;
    double present_life_h;
    bool relaxing;   /* the target is reached already: how far the value may worsen */
    double best_mm;  /* best setting of a hub that is allowed; NaN: no such lever */
    double least_mm; /* no setting below it is advised; -INFINITY: preload is allowed */
};

/* Range of a continuous lever, from its best end to its worst. */
struct lever_range {
    double best;
    double worst;
};

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

static double margin_of(double life_h, double target_h)
{
    return isnan(life_h) ? NO_LIFE : fmax(fmin(log(life_h / target_h), -NO_LIFE), NO_LIFE);
}

/* ln(life/target) at a value of the lever; NO_LIFE where there is none. */
static double margin(double value, void *context)
{
    struct reach_work *work = context;
    double life_h = (double)NAN;
    if (spt_reach_life(work->question, work->lever, value, work->relaxing, work->workspace,
                       &life_h))
        return NO_LIFE;
    return margin_of(life_h, work->target_h);
}

static double life_at(struct reach_work *work, double value)
{
    double life_h = (double)NAN;
    spt_reach_life(work->question, work->lever, value, work->relaxing, work->workspace, &life_h);
    return life_h;
}

/* Water, grease age or class of one phase. */
static double quantity_of(const struct spt_phase *phase, enum spt_lever lever)
{
    if (lever == SPT_LEVER_WATER)
        return phase->condition.water_ppm;
    if (lever == SPT_LEVER_REGREASING)
        return phase->condition.grease_age_h;
    return (double)phase->condition.cleanliness;
}

/* False for the cleanliness class of a phase that states e_C instead. */
static bool has_quantity(const struct spt_phase *phase, enum spt_lever lever)
{
    return lever != SPT_LEVER_CLEANLINESS || isnan(phase->condition.contamination_factor);
}

/* The worst value of the quantity over all phases, which a remedy improves; when relaxing the best,
 * which worsens first. NaN where no phase has the quantity. */
static double find_relevant_value(const struct spt_case *question, enum spt_lever lever,
                                  bool relaxing)
{
    double value = (double)NAN;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_phase *phase = &question->bearings[i].phases[j];
            double other = quantity_of(phase, lever);
            if (has_quantity(phase, lever))
                value = relaxing ? fmin(value, other) : fmax(value, other);
        }
    return value;
}

/* The largest cooling of all phases with which none falls below 0 degC. */
static double find_largest_cooling_k(const struct spt_case *question)
{
    double least_c = (double)INFINITY;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_phase *phase = &question->bearings[i].phases[j];
            least_c = fmin(least_c,
                           isnan(phase->temperature_c) ? phase->ambient_c : phase->temperature_c);
        }
    return fmax(least_c, 0);
}

static bool exists_here(const struct reach_work *work, enum spt_lever lever)
{
    if (lever == SPT_LEVER_REGREASING)
        return work->question->lubricant.kind == SPT_LUBRICATION_GREASE;
    if (lever == SPT_LEVER_CLEANLINESS)
        return !isnan(find_relevant_value(work->question, lever, false));
    if (lever == SPT_LEVER_END_PLAY)
        return !isnan(work->best_mm);
    if (spt_machine_lever_is(lever))
        return !isnan(spt_machine_lever_present(work->question, lever, work->relaxing));
    return true;
}

/* Index of the grade nearest to the oil by the ratio of viscosities. */
static int present_grade(const struct spt_case *question)
{
    int best = 0;
    double nearest = (double)INFINITY;
    for (int i = 0; i < SPT_VISCOSITY_GRADE_COUNT; i++) {
        double distance =
            fabs(log(spt_viscosity_grade(i)->nu40_mm2_s / question->lubricant.viscosity_40_mm2_s));
        if (distance < nearest) {
            nearest = distance;
            best = i;
        }
    }
    return best;
}

/* Thinnest grade that the oil is not already of: its lower limit, 10 % below the middle (ISO 3448),
 * is above the oil. SPT_VISCOSITY_GRADE_COUNT where there is none. */
static int first_thicker(const struct spt_case *question)
{
    int grade = 0;
    while (grade < SPT_VISCOSITY_GRADE_COUNT &&
           GRADE_LIMIT * spt_viscosity_grade(grade)->nu40_mm2_s <=
               question->lubricant.viscosity_40_mm2_s)
        grade++;
    return grade;
}

/* Thickest grade whose upper limit, 10 % above the middle (ISO 3448), is below the oil; -1 where
 * there is none. */
static int first_thinner(const struct spt_case *question)
{
    int grade = SPT_VISCOSITY_GRADE_COUNT - 1;
    while (grade >= 0 && GRADE_UPPER * spt_viscosity_grade(grade)->nu40_mm2_s >=
                             question->lubricant.viscosity_40_mm2_s)
        grade--;
    return grade;
}

/* Thinnest grade whose middle is no thinner than the oil; -1 where there is none. */
static int first_not_thinner(const struct spt_case *question)
{
    for (int grade = 0; grade < SPT_VISCOSITY_GRADE_COUNT; grade++)
        if (spt_viscosity_grade(grade)->nu40_mm2_s >=
            question->lubricant.viscosity_40_mm2_s * (1 - 1e-9))
            return grade;
    return -1;
}

static double present_value(const struct reach_work *work)
{
    switch (work->lever) {
    case SPT_LEVER_CLEANLINESS:
    case SPT_LEVER_WATER:
    case SPT_LEVER_REGREASING:
        return find_relevant_value(work->question, work->lever, work->relaxing);
    case SPT_LEVER_GRADE:
        return present_grade(work->question);
    case SPT_LEVER_TEMPERATURE:
        return 0;
    case SPT_LEVER_END_PLAY:
        return work->workspace->bench->mounted_mm;
    case SPT_LEVER_POWER:
    case SPT_LEVER_PAYLOAD:
    case SPT_LEVER_BEND_SPEED:
    case SPT_LEVER_BEND_RADIUS:
        return spt_machine_lever_present(work->question, work->lever, work->relaxing);
    case SPT_LEVER_LOAD:
    case SPT_LEVER_RATING:
    case SPT_LEVER_COUNT:
        return 1;
    }
    return (double)NAN;
}

/* Life falls on either side of the best setting, so that the lever is limited to the side of the
 * present one. A remedy avoids preload, and a slipping end play ends where preload begins, except
 * for a hub that is preloaded already. */
static struct lever_range setting_range(const struct reach_work *work, double present)
{
    const struct spt_hub_case *hub = work->question->hub;
    if (!work->relaxing)
        return (struct lever_range){work->best_mm, fmax(present, work->least_mm)};
    double lowest_mm =
        present < work->least_mm ? hub->lowest_mm : fmax(hub->lowest_mm, work->least_mm);
    return (struct lever_range){present, present < work->best_mm ? fmin(present, lowest_mm)
                                                                 : fmax(present, hub->highest_mm)};
}

/* The end on the side of `reaches` of the last bracket between a value whose margin is `least` or
 * more and one whose margin is less. */
static double last_that_reaches(struct reach_work *work, double least, double reaches, double fails)
{
    for (int i = 0; i < 200; i++) {
        double middle = reaches + (fails - reaches) / 2;
        if (middle == reaches || middle == fails)
            break;
        if (margin(middle, work) >= least)
            reaches = middle;
        else
            fails = middle;
    }
    return reaches;
}

/* Where no life can be stated now the oil may be too stiff: the least warming that gives a life,
 * which is the longest that warming gives; 0 where none does. */
static double find_warming(struct reach_work *work)
{
    for (int step = 1; step * WARMING_STEP_K <= MOST_WARMING_K; step++)
        if (!isnan(life_at(work, step * WARMING_STEP_K)))
            return last_that_reaches(work, nextafter(NO_LIFE, 0), step * WARMING_STEP_K,
                                     (step - 1) * WARMING_STEP_K);
    return 0;
}

/* Cooling lengthens the life until the oil is too stiff for one to be stated. */
static struct lever_range cooling_range(struct reach_work *work)
{
    double cooling_k = find_largest_cooling_k(work->question);
    double coldest_k = cooling_k > 0 ? -cooling_k : 0;
    bool life_there = !isnan(life_at(work, coldest_k));
    if (!life_there && isnan(work->present_life_h))
        return (struct lever_range){find_warming(work), 0};
    if (!life_there)
        coldest_k = last_that_reaches(work, nextafter(NO_LIFE, 0), 0, coldest_k);
    return (struct lever_range){coldest_k, 0};
}

/* The factor on all loads at which the first bearing that turns has P = C/2, where the life factor
 * ends; 1 where it is there already. */
static double most_load_factor(const struct reach_work *work)
{
    double most = MOST_FACTOR;
    for (int i = 0; i < work->question->bearing_count; i++) {
        struct spt_bearing_result bearing;
        if (spt_assess_bearing(work->question, i, 0, work->workspace->results, &bearing))
            continue;
        for (int j = 0; j < bearing.phase_count; j++) {
            const struct spt_phase_result *result = &bearing.phases[j];
            if (result->phase->speed_rpm > 0 && result->phase->time_share > 0)
                most = fmin(most, MOST_LOAD_SHARE * result->dynamic_load_rating_n /
                                      result->dynamic.load_n);
        }
    }
    return fmax(most, 1);
}

static struct lever_range range_of(struct reach_work *work, double present)
{
    bool relaxing = work->relaxing;
    switch (work->lever) {
    case SPT_LEVER_WATER:
        return relaxing ? (struct lever_range){present, fmax(present, SPT_WATER_TESTED_PPM)}
                        : (struct lever_range){fmin(present, SPT_WATER_REFERENCE_PPM), present};
    case SPT_LEVER_TEMPERATURE:
        return relaxing ? (struct lever_range){0, MOST_WARMING_K} : cooling_range(work);
    case SPT_LEVER_LOAD:
        return relaxing ? (struct lever_range){1, most_load_factor(work)}
                        : (struct lever_range){LEAST_FACTOR, 1};
    case SPT_LEVER_REGREASING:
        return relaxing ? (struct lever_range){present, fmax(MOST_AGE_H, present)}
                        : (struct lever_range){0, present};
    case SPT_LEVER_RATING:
        return relaxing ? (struct lever_range){1, 1 / most_load_factor(work)}
                        : (struct lever_range){MOST_FACTOR, 1};
    case SPT_LEVER_END_PLAY:
        return setting_range(work, present);
    case SPT_LEVER_CLEANLINESS:
    case SPT_LEVER_GRADE:
    case SPT_LEVER_POWER:
    case SPT_LEVER_PAYLOAD:
    case SPT_LEVER_BEND_SPEED:
    case SPT_LEVER_BEND_RADIUS:
    case SPT_LEVER_COUNT:
        break;
    }
    return (struct lever_range){present, present};
}

static void look_at_ends(struct reach_work *work, double best, double worst,
                         struct spt_lever_result *result)
{
    result->best = best;
    result->worst = worst;
    result->best_life_h = life_at(work, best);
    result->worst_life_h = life_at(work, worst);
}

/* True where the lever gains nothing, so that the present value is kept, unless it is a preload. */
static bool stays(const struct reach_work *work, const struct spt_lever_result *result)
{
    if (work->lever == SPT_LEVER_END_PLAY &&
        spt_hub_bench_preload(work->workspace->bench, result->present) > 0)
        return false;
    return result->best_life_h <= work->present_life_h * (1 + LEAST_GAIN);
}

/* The value between the best and the worst end at which the life equals the target, on the side
 * that reaches it. */
static void solve_continuous(struct reach_work *work, struct spt_lever_result *result)
{
    struct lever_range range = range_of(work, result->present);
    gsl_function function = {margin, work};
    double root = (double)NAN;
    result->value = range.best;
    look_at_ends(work, range.best, range.worst, result);
    if (margin_of(result->best_life_h, work->target_h) < 0) {
        result->outcome = SPT_LEVER_CANNOT;
        if (stays(work, result))
            result->value = result->present;
    } else if (margin_of(result->worst_life_h, work->target_h) >= 0) {
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
        if (margin(result->value, work) < 0)
            result->value = last_that_reaches(work, 0, range.best, result->value);
    }
    result->life_h = life_at(work, result->value);
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
static void step_machine(struct reach_work *work, struct spt_lever_result *result)
{
    const double present = result->present;
    const double end = spt_machine_lever_end(work->question, work->lever, work->relaxing);
    double before = present, best = present, best_h = work->present_life_h;
    for (int k = 1; k <= MACHINE_STEPS; k++) {
        const double value = step_between(present, end, k), life_h = life_at(work, value);
        const bool reaches = margin_of(life_h, work->target_h) >= 0;
        if (reaches != work->relaxing) {
            result->outcome = SPT_LEVER_REACHES;
            result->value =
                last_that_reaches(work, 0, reaches ? value : before, reaches ? before : value);
            look_at_ends(work, reaches ? value : present, reaches ? present : value, result);
            result->life_h = life_at(work, result->value);
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
    result->life_h = life_at(work, result->value);
}

/* Tries the classes from the cleanest to the dirtiest; the result is the dirtiest that reaches the
 * target. */
static void walk_classes(struct reach_work *work, struct spt_lever_result *result)
{
    enum spt_lubrication kind = work->question->lubricant.kind;
    int first = (int)spt_cleanliness_first(kind), last = first + spt_cleanliness_count(kind) - 1;
    int stop = work->relaxing ? last : (int)result->present;
    result->outcome = SPT_LEVER_CANNOT;
    result->value = first;
    look_at_ends(work, first, stop, result);
    for (int class = first; class <= stop; class ++)
        if (margin(class, work) >= 0) {
            result->outcome = SPT_LEVER_REACHES;
            result->value = class;
        }
    if (work->relaxing && (int)result->value == last && result->outcome == SPT_LEVER_REACHES)
        result->outcome = SPT_LEVER_ALWAYS;
    result->life_h = life_at(work, result->value);
}

/* Tries the thicker (step 1) or thinner (-1) grades up to the first that reaches the target; the
 * result is the best one where none does. */
static void walk_better(struct reach_work *work, int step, struct spt_lever_result *result)
{
    double best = margin_of(work->present_life_h, work->target_h);
    int first = step > 0 ? first_thicker(work->question) : first_thinner(work->question);
    for (int grade = first; grade >= 0 && grade < SPT_VISCOSITY_GRADE_COUNT; grade += step) {
        double reached = margin(grade, work);
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
static void walk_thinner(struct reach_work *work, struct spt_lever_result *result)
{
    for (int grade = first_not_thinner(work->question); grade >= 0; grade--) {
        double life_h;
        if (spt_reach_life(work->question, SPT_LEVER_GRADE, grade, true, work->workspace, &life_h))
            break;
        if (margin_of(life_h, work->target_h) < 0)
            return;
        result->value = grade;
        result->outcome = SPT_LEVER_REACHES;
    }
    if (result->outcome == SPT_LEVER_REACHES)
        result->outcome = SPT_LEVER_ALWAYS;
}

/* Where no grade is better the oil stays as it is, though it need not be the middle of a grade. An
 * oil that is too stiff for a life to be stated must be replaced by a thinner one. */
static void walk_grades(struct reach_work *work, struct spt_lever_result *result)
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
    result->life_h = isnan(result->value) ? work->present_life_h : life_at(work, result->value);
    if (isnan(result->value))
        result->value = result->present;
}

static double pair_life(struct reach_work *work, int class, int grade)
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
static void find_pair(struct reach_work *work, struct spt_reach *result)
{
    int first = (int)spt_cleanliness_first(work->question->lubricant.kind);
    int class = (int)result->levers[SPT_LEVER_CLEANLINESS].present;
    bool thinner = isnan(work->present_life_h) &&
                   result->levers[SPT_LEVER_GRADE].value < result->levers[SPT_LEVER_GRADE].present;
    int step = thinner ? -1 : 1;
    int grade = (thinner ? first_thinner(work->question) : first_thicker(work->question)) - step;
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
static void note_value(struct reach_work *work, struct spt_lever_result *result)
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

static void work_lever(struct reach_work *work, struct spt_lever_result *result)
{
    if (!exists_here(work, work->lever)) {
        clear_lever(result);
        return;
    }
    result->present = present_value(work);
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
static void find_best_setting(struct reach_work *work)
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
    double middle = spt_viscosity_grade(present_grade(question))->nu40_mm2_s;
    result->present_grade_fits =
        fabs(result->present_viscosity_40_mm2_s / middle - 1) <= 1 - GRADE_LIMIT + 1e-12;
    result->reached_already = result->present_life_h >= target_h;
    struct reach_work work = {question,
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
    if (!work.relaxing && !alone && exists_here(&work, SPT_LEVER_CLEANLINESS))
        find_pair(&work, result);
    return SPT_OK;
}
