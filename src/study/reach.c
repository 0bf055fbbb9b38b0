/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/reach.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <string.h>

#include "model/numeric.h"
#include "spalltime/adjust.h"

/* ln(life/target) where no life can be stated; far below any other */
#define NO_LIFE (-100.0)

/* A lever at work on one case. */
struct reach_work {
    const struct spt_case *question;
    const struct spt_reach_room *room;
    enum spt_lever lever;
    double target_h;
    bool relaxing; /* the target is reached already: how far may it slip */
};

/* Range of a continuous lever, from its best end to its worst. */
struct lever_range {
    double best;
    double worst;
};

const char *spt_lever_name(enum spt_lever lever)
{
    static const char *const names[SPT_LEVER_COUNT] = {
        [SPT_LEVER_CLEANLINESS] = "cleanliness",
        [SPT_LEVER_WATER] = "water",
        [SPT_LEVER_GRADE] = "grade",
        [SPT_LEVER_TEMPERATURE] = "temperature",
        [SPT_LEVER_LOAD] = "load",
        [SPT_LEVER_REGREASING] = "regreasing",
        [SPT_LEVER_RATING] = "rating",
    };
    return (int)lever >= 0 && lever < SPT_LEVER_COUNT ? names[lever] : "unknown lever";
}

static enum spt_status set_grade(struct spt_case *question, int grade)
{
    struct spt_lubricant *oil = &question->lubricant;
    oil->viscosity_40_mm2_s = spt_viscosity_grade(grade)->nu40_mm2_s;
    enum spt_status status = spt_viscosity_100_from_index(
        oil->viscosity_40_mm2_s, oil->viscosity_index, &oil->viscosity_100_mm2_s);
    if (!status)
        status = spt_viscosity_line(40, oil->viscosity_40_mm2_s, 100, oil->viscosity_100_mm2_s,
                                    &oil->line);
    return status;
}

static void scale_ratings(struct spt_case *question, double factor)
{
    for (int i = 0; i < question->bearing_count; i++) {
        struct spt_bearing *bearing = &question->bearings[i].bearing;
        bearing->dynamic_load_rating_n *= factor;
        bearing->static_load_rating_n *= factor;
        bearing->fatigue_load_limit_n *= factor;
    }
}

static struct spt_adjustment adjustment_for(enum spt_lever lever, double value, bool relaxing)
{
    struct spt_adjustment change = spt_adjustment_none();
    if (lever == SPT_LEVER_CLEANLINESS)
        *(relaxing ? &change.cleanest : &change.dirtiest) = (int)value;
    else if (lever == SPT_LEVER_WATER)
        *(relaxing ? &change.least_water_ppm : &change.most_water_ppm) = value;
    else if (lever == SPT_LEVER_REGREASING)
        *(relaxing ? &change.least_age_h : &change.most_age_h) = value;
    else if (lever == SPT_LEVER_TEMPERATURE)
        change.temperature_rise_k = value;
    else if (lever == SPT_LEVER_LOAD)
        change.load_factor = value;
    return change;
}

enum spt_status spt_reach_life(const struct spt_case *question, enum spt_lever lever, double value,
                               bool relaxing, const struct spt_reach_room *room, double *life_h)
{
    struct spt_case changed;
    struct spt_adjustment change = adjustment_for(lever, value, relaxing);
    enum spt_status status = SPT_OK;
    spt_adjust_case(question, &change, room->phases, &changed);
    if (lever == SPT_LEVER_GRADE)
        status = set_grade(&changed, (int)value);
    if (lever == SPT_LEVER_RATING)
        scale_ratings(&changed, value);
    return status ? status : spt_case_life(&changed, room->results, life_h);
}

/* ln(life/target) at a value of the lever; NO_LIFE where there is none. */
static double margin(double value, void *context)
{
    struct reach_work *work = context;
    double life_h = (double)NAN;
    if (spt_reach_life(work->question, work->lever, value, work->relaxing, work->room, &life_h) ||
        isnan(life_h))
        return NO_LIFE;
    return fmax(fmin(log(life_h / work->target_h), -NO_LIFE), NO_LIFE);
}

static double life_at(struct reach_work *work, double value)
{
    double life_h = (double)NAN;
    spt_reach_life(work->question, work->lever, value, work->relaxing, work->room, &life_h);
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

/* The worst of the quantity over all phases, which a remedy improves; when relaxing the best, which
 * slips first. */
static double telling_value(const struct spt_case *question, enum spt_lever lever, bool relaxing)
{
    double value = quantity_of(&question->bearings[0].phases[0], lever);
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            double other = quantity_of(&question->bearings[i].phases[j], lever);
            value = relaxing ? fmin(value, other) : fmax(value, other);
        }
    return value;
}

/* How far every phase may be cooled without any of them falling below 0 degC. */
static double deepest_cooling_k(const struct spt_case *question)
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

static bool states_a_class(const struct spt_case *question)
{
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++)
            if (isnan(question->bearings[i].phases[j].condition.contamination_factor))
                return true;
    return false;
}

static bool exists_here(const struct spt_case *question, enum spt_lever lever)
{
    if (lever == SPT_LEVER_REGREASING)
        return question->lubricant.kind == SPT_LUBRICATION_GREASE;
    if (lever == SPT_LEVER_CLEANLINESS)
        return states_a_class(question);
    return true;
}

/* Index of the grade nearest to the oil, by ratio of viscosities. */
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

static double present_value(const struct spt_case *question, enum spt_lever lever, bool relaxing)
{
    switch (lever) {
    case SPT_LEVER_CLEANLINESS:
    case SPT_LEVER_WATER:
    case SPT_LEVER_REGREASING:
        return telling_value(question, lever, relaxing);
    case SPT_LEVER_GRADE:
        return present_grade(question);
    case SPT_LEVER_TEMPERATURE:
        return 0;
    case SPT_LEVER_LOAD:
    case SPT_LEVER_RATING:
    case SPT_LEVER_COUNT:
        return 1;
    }
    return (double)NAN;
}

static struct lever_range range_of(const struct reach_work *work, double present)
{
    switch (work->lever) {
    case SPT_LEVER_WATER:
        return (struct lever_range){work->relaxing ? present
                                                   : fmin(present, SPT_WATER_REFERENCE_PPM),
                                    work->relaxing ? 1e6 : present};
    case SPT_LEVER_TEMPERATURE:
        return (struct lever_range){work->relaxing ? 0 : -deepest_cooling_k(work->question),
                                    work->relaxing ? 100 : 0};
    case SPT_LEVER_LOAD:
        return (struct lever_range){work->relaxing ? 1 : 0.01, work->relaxing ? 100 : 1};
    case SPT_LEVER_REGREASING:
        return (struct lever_range){work->relaxing ? present : 0,
                                    work->relaxing ? fmax(1e6, present) : present};
    case SPT_LEVER_RATING:
        return (struct lever_range){work->relaxing ? 1 : 100, work->relaxing ? 0.01 : 1};
    case SPT_LEVER_CLEANLINESS:
    case SPT_LEVER_GRADE:
    case SPT_LEVER_COUNT:
        break;
    }
    return (struct lever_range){present, present};
}

/* The value between best and worst end at which the life meets the target, on the side that does.
 */
static void solve_continuous(struct reach_work *work, struct spt_lever_result *result)
{
    struct lever_range range = range_of(work, result->present);
    gsl_function function = {margin, work};
    double root = (double)NAN;
    result->value = range.best;
    if (margin(range.best, work) < 0) {
        result->outcome = SPT_LEVER_CANNOT;
    } else if (margin(range.worst, work) >= 0) {
        result->outcome = SPT_LEVER_ALWAYS;
        result->value = range.worst;
    } else {
        result->outcome = SPT_LEVER_REACHES;
        if (!spt_numeric_root(&function, fmin(range.best, range.worst),
                              fmax(range.best, range.worst), &root))
            result->value = root;
        /* the root may lie a rounding beyond the target, or at a jump to "no life" */
        double step = 1e-12 * (fabs(root) + 1) * (range.best > range.worst ? 1 : -1);
        for (int i = 0; i < 40 && margin(result->value, work) < -1e-9; i++, step *= 2)
            result->value = root + step;
    }
    result->life_h = life_at(work, result->value);
}

/* Walks the classes from the cleanest to the dirtiest and keeps the dirtiest that reaches. */
static void walk_classes(struct reach_work *work, struct spt_lever_result *result)
{
    enum spt_lubrication kind = work->question->lubricant.kind;
    int first = (int)spt_cleanliness_first(kind), last = first + spt_cleanliness_count(kind) - 1;
    int stop = work->relaxing ? last : (int)result->present;
    result->outcome = SPT_LEVER_CANNOT;
    result->value = first;
    for (int class = first; class <= stop; class ++)
        if (margin(class, work) >= 0) {
            result->outcome = SPT_LEVER_REACHES;
            result->value = class;
        }
    if (work->relaxing && (int)result->value == last && result->outcome == SPT_LEVER_REACHES)
        result->outcome = SPT_LEVER_ALWAYS;
    result->life_h = life_at(work, result->value);
}

/* Walks the thicker grades to the first that reaches; when relaxing, the thinner ones to the last
 * that still does. The best is kept where none reaches. */
static void walk_grades(struct reach_work *work, struct spt_lever_result *result)
{
    int present = (int)result->present, step = work->relaxing ? -1 : 1;
    double best = NO_LIFE;
    result->outcome = SPT_LEVER_CANNOT;
    result->value = present;
    for (int grade = present + step; grade >= 0 && grade < SPT_VISCOSITY_GRADE_COUNT;
         grade += step) {
        double reached = margin(grade, work);
        if (work->relaxing && reached < 0)
            break;
        if (!work->relaxing && reached <= best)
            continue;
        best = reached;
        result->value = grade;
        if (!work->relaxing && reached >= 0)
            break;
    }
    if (work->relaxing || best >= 0)
        result->outcome = SPT_LEVER_REACHES;
    result->life_h = life_at(work, result->value);
}

static double pair_life(struct reach_work *work, int class, int grade)
{
    struct spt_case changed;
    double life_h = (double)NAN;
    struct spt_adjustment change = adjustment_for(SPT_LEVER_CLEANLINESS, class, false);
    spt_adjust_case(work->question, &change, work->room->phases, &changed);
    if (set_grade(&changed, grade) || spt_case_life(&changed, work->room->results, &life_h))
        return (double)NAN;
    return life_h;
}

/* Fewest steps in all: cleaner classes from the present one, thicker grades from the present one.
 */
static void find_pair(struct reach_work *work, struct spt_reach *result)
{
    int first = (int)spt_cleanliness_first(work->question->lubricant.kind);
    int class = (int)result->levers[SPT_LEVER_CLEANLINESS].present;
    int grade = (int)result->levers[SPT_LEVER_GRADE].present;
    int most = class - first + SPT_VISCOSITY_GRADE_COUNT - 1 - grade;
    for (int steps = 2; steps <= most && !result->pair_found; steps++)
        for (int cleaner = 1; cleaner < steps && class - cleaner >= first; cleaner++) {
            int thicker = grade + steps - cleaner;
            if (thicker >= SPT_VISCOSITY_GRADE_COUNT)
                continue;
            double life_h = pair_life(work, class - cleaner, thicker);
            bool better =
                life_h >= work->target_h && (!result->pair_found || life_h > result->pair_life_h);
            if (!better)
                continue;
            result->pair_found = true;
            result->pair_cleanliness = class - cleaner;
            result->pair_grade = thicker;
            result->pair_life_h = life_h;
        }
}

static void work_lever(struct reach_work *work, struct spt_lever_result *result)
{
    result->present = present_value(work->question, work->lever, work->relaxing);
    if (!exists_here(work->question, work->lever)) {
        *result =
            (struct spt_lever_result){SPT_LEVER_NOT_HERE, (double)NAN, (double)NAN, (double)NAN};
    } else if (work->lever == SPT_LEVER_CLEANLINESS) {
        walk_classes(work, result);
    } else if (work->lever == SPT_LEVER_GRADE) {
        walk_grades(work, result);
    } else {
        solve_continuous(work, result);
    }
}

enum spt_status spt_reach(const struct spt_case *question, double target_h,
                          const struct spt_reach_room *room, struct spt_reach *result)
{
    memset(result, 0, sizeof *result);
    if (!(target_h > 0) || isinf(target_h))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = spt_case_life(question, room->results, &result->present_life_h);
    if (status)
        return status;
    result->target_h = target_h;
    result->reached_already = result->present_life_h >= target_h;
    struct reach_work work = {question, room, SPT_LEVER_CLEANLINESS, target_h,
                              result->reached_already};
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++) {
        work.lever = (enum spt_lever)lever;
        work_lever(&work, &result->levers[lever]);
    }
    bool alone = result->levers[SPT_LEVER_CLEANLINESS].outcome == SPT_LEVER_REACHES ||
                 result->levers[SPT_LEVER_GRADE].outcome == SPT_LEVER_REACHES;
    if (!work.relaxing && !alone && exists_here(question, SPT_LEVER_CLEANLINESS))
        find_pair(&work, result);
    return SPT_OK;
}
