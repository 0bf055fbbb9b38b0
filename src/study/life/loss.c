/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <math.h>
#include <string.h>

#include "study/life/check.h"

#define SUBSETS (1u << SPT_CAUSE_COUNT)
#define NEGLIGIBLE 1e-12 /* of ln(life): a cause that changes less does not apply */

static double factorial(int n)
{
    double product = 1;
    for (; n > 1; n--)
        product *= n;
    return product;
}

static int count_members(unsigned set)
{
    int count = 0;
    for (; set; set &= set - 1)
        count++;
    return count;
}

/* Exact Shapley value of one player: value[s] is the worth of the set s, players are the bits of
 * `all`. Sum over sets without the player of |s|!(n-|s|-1)!/n! times what it adds. */
static double shapley(const double *value, unsigned all, unsigned player)
{
    int n = count_members(all);
    double sum = 0;
    for (unsigned set = 0; set <= all; set++) {
        if ((set & player) || (set & ~all))
            continue;
        int size = count_members(set);
        double weight = factorial(size) * factorial(n - size - 1) / factorial(n);
        sum += weight * (value[set | player] - value[set]);
    }
    return sum;
}

/* Causes that this case can have at all; the others are never cured. */
static unsigned possible_causes(const struct spt_case *question, int bearing_index)
{
    const struct spt_bearing_case *part = &question->bearings[bearing_index];
    unsigned set = 1u << SPT_CAUSE_DEBRIS | 1u << SPT_CAUSE_WATER | 1u << SPT_CAUSE_THIN_FILM;
    if (question->lubricant.kind == SPT_LUBRICATION_GREASE)
        set |= 1u << SPT_CAUSE_WORN_GREASE;
    if (!isnan(question->reference_load_n))
        set |= 1u << SPT_CAUSE_OVERLOAD;
    for (int i = 0; i < part->phase_count; i++)
        if (part->phases[i].setting_factor != part->phases[i].cured_setting_factor)
            set |= 1u << SPT_CAUSE_SETTING;
    return set;
}

static double life_with(const struct spt_case *question, int bearing_index, unsigned cured,
                        struct spt_phase_result *scratch, enum spt_status *status)
{
    struct spt_bearing_result result;
    *status = spt_assess_bearing(question, bearing_index, cured, scratch, &result);
    return *status ? (double)NAN : result.modified_rating_life_h;
}

/* A cause applies where curing it changes the life, whichever of the others are cured. */
static unsigned applying_causes(const double *life_h, unsigned possible)
{
    unsigned set = 0;
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
        unsigned bit = 1u << cause;
        if (!(possible & bit))
            continue;
        for (unsigned others = 0; others < SUBSETS; others++) {
            if ((others & bit) || (others & ~possible))
                continue;
            double change = fabs(log(life_h[others | bit]) - log(life_h[others]));
            bool appears = isnan(life_h[others]) && !isnan(life_h[others | bit]);
            if (change > NEGLIGIBLE || appears)
                set |= bit;
        }
    }
    return set;
}

static void clear(struct spt_loss *loss)
{
    memset(loss, 0, sizeof *loss);
    loss->reference_life_h = (double)NAN;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        loss->causes[i] = (struct spt_cause_share){false, (double)NAN, (double)NAN};
}

enum spt_status spt_loss_split(const struct spt_case *question, int bearing_index,
                               struct spt_phase_result *scratch, struct spt_loss *loss)
{
    double life_h[SUBSETS], ruin[SUBSETS];
    clear(loss);
    enum spt_status status = spt_check_bearing(question, bearing_index);
    if (status)
        return status;
    unsigned possible = possible_causes(question, bearing_index);
    for (unsigned cured = 0; cured < SUBSETS && !status; cured++)
        if (!(cured & ~possible))
            life_h[cured] = life_with(question, bearing_index, cured, scratch, &status);
    if (status)
        return status;
    unsigned applying = applying_causes(life_h, possible);
    /* worth of a set of causes present: ln life with all the others cured */
    for (unsigned present = 0; present <= applying; present++)
        if (!(present & ~applying))
            ruin[present] = log(life_h[applying & ~present]);
    loss->reference_life_h = life_h[applying];
    loss->applying = applying;
    for (unsigned cured = 0; cured < SUBSETS; cured++)
        loss->cured_life_h[cured] = cured & ~applying ? (double)NAN : life_h[cured];
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
        unsigned bit = 1u << cause;
        struct spt_cause_share *share = &loss->causes[cause];
        *share = (struct spt_cause_share){false, 0, life_h[0]};
        if (!(applying & bit))
            continue;
        share->applies = true;
        share->log_life_share = shapley(ruin, applying, bit);
        share->life_if_cured_h = life_h[bit];
    }
    return SPT_OK;
}
