/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/course/run.h"

#include <math.h>
#include <string.h>

#include "spalltime/lubricant.h"
#include "study/life/dents.h"

/* Dents stay in the raceways, so a state uses its own dirt or the dirtiest that has ruled before,
 * whichever is dirtier. That is counted by phase: the lives of the phases of one duty stay those of
 * the standard, each with its own dirt. */

#define VISITS_MAX ((SPT_EVENTS_MAX + 1) * SPT_RUN_DIRT_LEVELS)

/* A case and a class of the drifts under which the bearing has run. */
struct visit {
    const struct spt_bearing_case *part;
    int cleanest; /* enum spt_cleanliness; -1: no class */
    double hours; /* running hours, standing phases included */
    /* part of these hours in which phases turn that are at least as dirty as this class, counted
     * from the first of the way of lubricating; the last: in which any phase turns */
    double share[SPT_RUN_DIRT_LEVELS];
};

struct visits {
    int count, first; /* first: class of the way of lubricating */
    struct visit list[VISITS_MAX];
};

/* The class of a phase, -1 where it has an e_C instead. */
static int class_of(const struct spt_phase *phase, int cleanest)
{
    if (!isnan(phase->condition.contamination_factor))
        return -1;
    return (int)phase->condition.cleanliness > cleanest ? (int)phase->condition.cleanliness
                                                        : cleanest;
}

static void fill_shares(struct visit *visit, int first)
{
    for (int i = 0; i < visit->part->phase_count; i++) {
        const struct spt_phase *phase = &visit->part->phases[i];
        const int class = class_of(phase, visit->cleanest);
        if (!(phase->speed_rpm > 0))
            continue;
        visit->share[SPT_RUN_DIRT_LEVELS - 1] += phase->time_share;
        for (int level = 0; class >= 0 && level <= class - first; level++)
            visit->share[level] += phase->time_share;
    }
}

static void collect(const struct spt_run *run, int bearing, struct visits *visits)
{
    visits->count = 0;
    visits->first = (int)spt_cleanliness_first(run->question->lubricant.kind);
    for (int i = 0; i <= SPT_EVENTS_MAX; i++)
        for (int j = 0; j < SPT_RUN_DIRT_LEVELS; j++) {
            if (!(run->ruled_h[i][j] > 0))
                continue;
            struct visit *visit = &visits->list[visits->count++];
            *visit = (struct visit){.part = &spt_run_case_at(run, i)->bearings[bearing],
                                    .cleanest = j ? visits->first + j - 1 : -1,
                                    .hours = run->ruled_h[i][j]};
            fill_shares(visit, visits->first);
        }
}

static int level_of(const struct spt_run *run, double start_h, double time_h)
{
    const struct spt_adjustment change = spt_run_adjustment(run, start_h, time_h);
    return change.cleanest < 0
               ? 0
               : 1 + change.cleanest - (int)spt_cleanliness_first(run->question->lubricant.kind);
}

/* The phase as it was then, of the same name; NULL: there was none. */
static const struct spt_phase *find_then(const struct visit *visit, int index,
                                         const struct spt_phase *now)
{
    const struct spt_bearing_case *part = visit->part;
    if (index < part->phase_count && part->phases[index].name == now->name)
        return &part->phases[index];
    for (int i = 0; i < part->phase_count; i++)
        if (now->name && part->phases[i].name && !strcmp(part->phases[i].name, now->name))
            return &part->phases[i];
    return NULL;
}

/* The dirtiest class of the phase then, of all phases where it was not part of that duty. */
static int class_then(const struct visit *visit, int index, const struct spt_phase *now)
{
    const struct spt_phase *then = find_then(visit, index, now);
    int class = -1;
    if (then)
        return class_of(then, visit->cleanest);
    for (int i = 0; i < visit->part->phase_count; i++)
        if (class_of(&visit->part->phases[i], visit->cleanest) > class)
            class = class_of(&visit->part->phases[i], visit->cleanest);
    return class;
}

static double factor_then(const struct visit *visit, int index, const struct spt_phase *now)
{
    const struct spt_phase *then = find_then(visit, index, now);
    double factor = (double)NAN;
    if (then)
        return then->condition.contamination_factor;
    for (int i = 0; i < visit->part->phase_count; i++)
        factor = fmin(factor, visit->part->phases[i].condition.contamination_factor);
    return factor;
}

static void add_class(const struct visits *visits, int index, const struct spt_phase *now,
                      struct spt_dents *dents)
{
    for (int level = SPT_RUN_DIRT_LEVELS - 2; level >= 0; level--) {
        double hours = 0;
        for (int i = 0; i < visits->count; i++)
            if (class_then(&visits->list[i], index, now) >= visits->first + level)
                hours += visits->list[i].hours * visits->list[i].share[level];
        if (hours < SPT_DENTS_AFTER_H)
            continue;
        spt_dents_add_class(dents, (enum spt_cleanliness)(visits->first + level));
        return;
    }
}

/* Hours with an e_C at most `factor` in the phase, whichever phases turned in them. */
static double hours_below(const struct visits *visits, int index, const struct spt_phase *now,
                          double factor)
{
    double hours = 0;
    for (int i = 0; i < visits->count; i++)
        if (factor_then(&visits->list[i], index, now) <= factor)
            hours += visits->list[i].hours * visits->list[i].share[SPT_RUN_DIRT_LEVELS - 1];
    return hours;
}

static void add_factor(const struct visits *visits, int index, const struct spt_phase *now,
                       struct spt_dents *dents)
{
    for (int i = 0; i < visits->count; i++) {
        const double factor = factor_then(&visits->list[i], index, now);
        if (!isnan(factor) && hours_below(visits, index, now, factor) >= SPT_DENTS_AFTER_H)
            spt_dents_add_factor(dents, factor);
    }
}

void spt_run_renew(struct spt_run *run)
{
    const struct spt_service *service = run->service;
    for (; run->renewals_seen < service->event_count; run->renewals_seen++) {
        const int i = run->renewals_seen;
        if (!spt_run_has_come(service->events[i].at_h, run->time_h))
            return;
        if (!service->events[i].new_bearing || spt_run_skips(run, i))
            continue;
        run->is_new = true;
        memset(run->ruled_h, 0, sizeof run->ruled_h);
        for (int b = 0; b < SPT_BEARINGS_MAX; b++) {
            run->replaced[b] += run->damage[b];
            run->damage[b] = 0;
        }
    }
}

void spt_run_rule(struct spt_run *run, double to_h)
{
    const double middle_h = run->time_h + (to_h - run->time_h) / 2;
    if (run->dents == SPT_RUN_DENTS_CURED || !(to_h > run->time_h))
        return;
    run->ruled_h[spt_run_case_index(run, run->time_h)][level_of(run, run->time_h, middle_h)] +=
        to_h - run->time_h;
}

/* The first phase of a bearing in the phases of all, which stand one bearing after the other. */
static int first_phase(const struct spt_case *question, int bearing)
{
    int first = 0;
    for (int b = 0; b < bearing; b++)
        first += question->bearings[b].phase_count;
    return first;
}

void spt_run_lay_dents(const struct spt_run *run, int bearing, struct spt_case *changed,
                       struct spt_phase *phases)
{
    const bool forgets = run->dents == SPT_RUN_DENTS_CURED || run->is_new;
    struct spt_phase *own = phases + first_phase(changed, bearing);
    struct visits visits;
    if (forgets)
        changed->past.dents = (struct spt_dents){.of_class = false};
    for (int i = 0; forgets && i < changed->bearings[bearing].phase_count; i++)
        own[i].condition.dents = (struct spt_dents){.of_class = false};
    if (run->dents == SPT_RUN_DENTS_CURED)
        return;
    collect(run, bearing, &visits);
    if (visits.count == 0)
        return;
    for (int i = 0; i < changed->bearings[bearing].phase_count; i++) {
        add_class(&visits, i, &own[i], &own[i].condition.dents);
        add_factor(&visits, i, &own[i], &own[i].condition.dents);
    }
}

/* The dents of a phase by the dirt in `visits` alone. */
static struct spt_dents dents_of(const struct visits *visits, int index,
                                 const struct spt_phase *phase)
{
    struct spt_dents dents = {.of_class = false};
    add_class(visits, index, phase, &dents);
    add_factor(visits, index, phase, &dents);
    return dents;
}

bool spt_run_same_dents(const struct spt_run *run, const struct spt_run *other)
{
    const struct spt_case *now = spt_run_case(run, run->time_h);
    for (int b = 0; b < now->bearing_count; b++) {
        struct visits one, two;
        collect(run, b, &one);
        collect(other, b, &two);
        for (int i = 0; i < now->bearings[b].phase_count; i++) {
            const struct spt_dents first = dents_of(&one, i, &now->bearings[b].phases[i]);
            const struct spt_dents second = dents_of(&two, i, &now->bearings[b].phases[i]);
            if (!spt_dents_same(&first, &second))
                return false;
        }
    }
    return true;
}

static uint64_t mix(uint64_t state, uint64_t more)
{
    return (state ^ more) * 1099511628211u; /* FNV-1a over words; any good hash will do */
}

static uint64_t mix_number(uint64_t state, double number)
{
    uint64_t bits;
    memcpy(&bits, &number, sizeof bits);
    return mix(state, bits);
}

uint64_t spt_run_dents_state(const struct spt_run *run, int bearing)
{
    const struct spt_bearing_case *part = &spt_run_case(run, run->time_h)->bearings[bearing];
    uint64_t state = mix(14695981039346656037u, (uint64_t)spt_run_case_index(run, run->time_h));
    struct visits visits;
    state = mix(state, 2 * (uint64_t)run->dents + run->is_new);
    state = mix(state, (uint64_t)(run->skipped + 2)); /* cases follow from it */
    if (run->dents == SPT_RUN_DENTS_CURED)
        return state;
    collect(run, bearing, &visits);
    for (int i = 0; i < part->phase_count; i++) {
        const struct spt_dents dents = dents_of(&visits, i, &part->phases[i]);
        state = mix(state, dents.of_class ? 2 + (uint64_t)dents.cleanliness : 1);
        state = mix_number(state, dents.of_factor ? dents.contamination_factor : -1);
    }
    return state;
}

bool spt_run_may_clean_up(const struct spt_case *question, const struct spt_service *service)
{
    bool changes = service->event_count > 0;
    for (int i = 0; i < service->drift_count; i++)
        changes = changes || service->drifts[i].class_from >= 0;
    return changes || spt_dents_any(question);
}

void spt_run_name_dirt(const struct spt_run *run, struct spt_dent_bounds *dents)
{
    const struct spt_dents *past = &run->question->past.dents;
    struct visits visits;
    dents->of_class = false;
    collect(run, 0, &visits);
    for (int level = SPT_RUN_DIRT_LEVELS - 2; level >= 0 && !dents->of_class; level--) {
        dents->hours = 0;
        for (int i = 0; i < visits.count; i++)
            dents->hours += visits.list[i].hours * visits.list[i].share[level];
        dents->cleanliness = (enum spt_cleanliness)(visits.first + level);
        dents->of_class = dents->hours >= SPT_DENTS_AFTER_H;
    }
    double all = 0;
    for (int i = 0; i < visits.count; i++)
        all += visits.list[i].hours * visits.list[i].share[SPT_RUN_DIRT_LEVELS - 1];
    if (dents->hours >= all * (1 - SPT_RUN_SAME_TIME))
        dents->of_class = false; /* it rules still: other dirt has gone */
    if (!run->is_new && past->of_class && past->cleanliness > dents->cleanliness)
        dents->of_class = false; /* that dirt was worse, for hours that nobody stated */
}
