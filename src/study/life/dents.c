/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/dents.h"

#include <math.h>
#include <stddef.h>

#include "spalltime/statistics.h"
#include "study/life/check.h"

#define NONE ((double)NAN)

void spt_dents_add_class(struct spt_dents *dents, enum spt_cleanliness cleanliness)
{
    if (!dents->of_class || (int)cleanliness > (int)dents->cleanliness)
        dents->cleanliness = cleanliness;
    dents->of_class = true;
}

void spt_dents_add_factor(struct spt_dents *dents, double contamination_factor)
{
    if (!dents->of_factor || contamination_factor < dents->contamination_factor)
        dents->contamination_factor = contamination_factor;
    dents->of_factor = true;
}

static bool are_there(const struct spt_dents *dents)
{
    return dents->of_class || dents->of_factor;
}

bool spt_dents_any(const struct spt_case *question)
{
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; question->bearings[i].phases && j < question->bearings[i].phase_count; j++)
            if (are_there(&question->bearings[i].phases[j].condition.dents))
                return true;
    return are_there(&question->past.dents);
}

bool spt_dents_same(const struct spt_dents *one, const struct spt_dents *other)
{
    return one->of_class == other->of_class && one->of_factor == other->of_factor &&
           (!one->of_class || one->cleanliness == other->cleanliness) &&
           (!one->of_factor || one->contamination_factor == other->contamination_factor);
}

/* True where the dirt of one phase is worse; of a class and an e_C the one met first stays. */
static bool is_dirtier(const struct spt_condition *one, const struct spt_condition *other)
{
    if (isnan(one->contamination_factor) != isnan(other->contamination_factor))
        return false;
    return isnan(one->contamination_factor)
               ? one->cleanliness > other->cleanliness
               : one->contamination_factor < other->contamination_factor;
}

/* Adds the dirt of all phases that have time.
 * Result: the name of the dirtiest phase, NULL where all are alike. */
static const char *add_phases(const struct spt_bearing_case *part, struct spt_dents *dents)
{
    const struct spt_phase *worst = NULL;
    bool alike = true;
    for (int i = 0; i < part->phase_count; i++) {
        const struct spt_phase *phase = &part->phases[i];
        if (!(phase->time_share > 0))
            continue;
        if (isnan(phase->condition.contamination_factor))
            spt_dents_add_class(dents, phase->condition.cleanliness);
        else
            spt_dents_add_factor(dents, phase->condition.contamination_factor);
        alike = alike && (!worst || (!is_dirtier(&phase->condition, &worst->condition) &&
                                     !is_dirtier(&worst->condition, &phase->condition)));
        if (!worst || is_dirtier(&phase->condition, &worst->condition))
            worst = phase;
    }
    alike = alike && !(dents->of_class && dents->of_factor);
    return worst && !alike ? worst->name : NULL;
}

enum spt_status spt_phase_dents(const struct spt_case *question, struct spt_phase_result *results,
                                struct spt_phase_dents *dents)
{
    struct spt_case dented = *question;
    struct spt_dents of_phases = {.of_class = false};
    *dents = (struct spt_phase_dents){.life_h = NONE};
    enum spt_status status = spt_check_bearing(question, 0);
    const char *phase = status ? NULL : add_phases(&question->bearings[0], &of_phases);
    if (!phase)
        return status;
    if (of_phases.of_class)
        spt_dents_add_class(&dented.past.dents, of_phases.cleanliness);
    if (of_phases.of_factor)
        spt_dents_add_factor(&dented.past.dents, of_phases.contamination_factor);
    dents->phase = phase;
    return spt_case_life(&dented, results, &dents->life_h);
}

void spt_phase_dents_judge(const struct spt_case *question, double life_h,
                           struct spt_phase_dents *dents)
{
    dents->tells = dents->life_h < SPT_PHASE_DENTS_TELL * life_h;
    dents->changes = dents->phase && life_h >= question->target_life_h &&
                     !(dents->life_h >= question->target_life_h);
}

/* The life of each bearing, with or without dents. */
static enum spt_status find_lives(const struct spt_case *question, bool cured,
                                  struct spt_phase_result *results,
                                  double lives_h[SPT_BEARINGS_MAX])
{
    struct spt_case as_asked = *question;
    as_asked.past.cured = cured;
    for (int i = 0; i < question->bearing_count; i++) {
        struct spt_bearing_result bearing;
        enum spt_status status = spt_assess_bearing(&as_asked, i, 0, results, &bearing);
        if (status)
            return status;
        lives_h[i] = bearing.modified_rating_life_h;
    }
    return SPT_OK;
}

enum spt_status spt_past_dents(const struct spt_case *question, struct spt_phase_result *results,
                               struct spt_dent_bounds *dents)
{
    double stay_h[SPT_BEARINGS_MAX] = {0}, lives_h[SPT_BEARINGS_MAX] = {0};
    const int count = question->bearing_count;
    *dents = (struct spt_dent_bounds){.if_cured_h = NONE, .half_credit_h = NONE};
    if (!spt_dents_any(question))
        return SPT_OK;
    enum spt_status status = find_lives(question, false, results, stay_h);
    if (!status)
        status = find_lives(question, true, results, lives_h);
    if (status)
        return status;
    dents->if_cured_h = spt_survival_series(lives_h, count, question->reliability_percent);
    for (int i = 0; i < count; i++)
        lives_h[i] = sqrt(stay_h[i]) * sqrt(lives_h[i]);
    dents->half_credit_h = spt_survival_series(lives_h, count, question->reliability_percent);
    dents->differ =
        dents->if_cured_h > spt_survival_series(stay_h, count, question->reliability_percent);
    return SPT_OK;
}
