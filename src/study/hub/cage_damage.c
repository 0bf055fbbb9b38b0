/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/hub/cage_damage.h"

#include <math.h>
#include <string.h>

#include "model/hub/hub_balance.h"
#include "model/hub/hub_lives.h"

_Static_assert(SPT_HUB_TRAIL_STEPS >= SPT_HUB_PLACES, "every place has its step of the trail");

/* State of one average. */
struct work {
    const struct spt_cage_question *question;
    struct spt_hub_trail *trail;
    struct spt_cage_damage *damage;
    struct spt_hub_lamina_law laws[2]; /* of modified lives */
    bool modified[2];                  /* that row has a law */
    enum spt_status lives;             /* whether the rows can have lives at all */
    int last;                          /* step of the trail taken last; -1: none yet */
};

static void make_laws(struct work *work)
{
    const struct spt_cage_question *q = work->question;
    for (int row = 0; row < q->model->hub.row_count && row < 2; row++) {
        const struct spt_hub_lubrication *oil = q->lubrication ? &q->lubrication[row] : NULL;
        const struct spt_hub_lubrication *usable = spt_hub_usable(oil);
        if ((oil && oil->viscosity_ratio <= 0) ||
            !spt_hub_life_is_possible(&q->model->hub.rows[row], usable))
            work->lives = SPT_BAD_ARGUMENT;
        else if (usable)
            work->laws[row] = spt_hub_lamina_law(q->model, row, usable);
        work->modified[row] = usable && work->lives == SPT_OK;
        if (work->modified[row])
            work->damage->modified[row] = 0;
    }
}

/* Where the solver starts: at the last balance of this step, along its slope; else at that of the
 * step before. False: from statics. */
static bool find_start(const struct work *work, int step, double start_mm[SPT_HUB_UNKNOWNS])
{
    const struct spt_hub_trail *trail = work->trail;
    int from = trail->known[step] ? step : work->last;
    if (from < 0)
        return false;
    double change_mm = work->question->setting_mm - trail->setting_mm[from];
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++)
        start_mm[i] = trail->x_mm[from][i] + change_mm * trail->slope[from][i];
    return true;
}

static void take_step(struct work *work, int step, const struct spt_hub_balance *balance)
{
    struct spt_hub_trail *trail = work->trail;
    trail->known[step] = true;
    trail->setting_mm[step] = work->question->setting_mm;
    memcpy(trail->x_mm[step], balance->x_mm, sizeof balance->x_mm);
    memcpy(trail->slope[step], balance->slope, sizeof balance->slope);
    work->last = step;
}

/* Adds the damage of the rollers in a place, which have this share of the revolutions. */
static enum spt_status add_place(struct work *work, int place, int step, double share)
{
    const struct spt_cage_question *q = work->question;
    struct spt_hub_balance balance;
    double start_mm[SPT_HUB_UNKNOWNS];
    bool started = find_start(work, step, start_mm);
    const struct spt_hub_problem problem = {
        .model = q->model,
        .place = place,
        .setting_mm = q->setting_mm,
        .load = q->load,
        .start_mm = started ? start_mm : NULL,
        .lives = true,
        .laws = work->modified[0] || work->modified[1] ? work->laws : NULL,
    };
    enum spt_status status = spt_hub_balance(&problem, &balance);
    work->trail->solves++;
    work->trail->passes += balance.passes;
    if (status != SPT_OK)
        return status == SPT_FREE ? SPT_OK : status;
    take_step(work, step, &balance);
    for (int row = 0; row < q->model->hub.row_count; row++) {
        work->damage->basic[row] += share / spt_hub_life_of(balance.damage[row].basic);
        if (work->modified[row])
            work->damage->modified[row] += share / spt_hub_life_of(balance.damage[row].modified);
    }
    return work->lives;
}

/* Where load and rollers are their own mirror image, the second half of the positions is the mirror
 * image of the first. */
static enum spt_status add_places(struct work *work)
{
    const struct spt_cage_question *q = work->question;
    int positions = q->positions > 1 ? q->positions : 1;
    bool roomy = positions <= SPT_HUB_PLACES;
    bool mirrored =
        spt_hub_load_is_symmetric(q->model, q->load) && spt_hub_place_is_symmetric(q->model, 0);
    if (roomy)
        spt_hub_place_cages(q->model, positions);
    for (int i = 0; i < (mirrored ? positions / 2 + 1 : positions); i++) {
        bool its_own_image = 2 * i % positions == 0;
        int place = roomy ? i : i > 0;
        if (!roomy && place)
            spt_hub_place_rollers(q->model, place, (double)i / positions);
        double share = (mirrored && !its_own_image ? 2.0 : 1.0) / positions;
        enum spt_status status = add_place(work, place, i % SPT_HUB_TRAIL_STEPS, share);
        if (status != SPT_OK)
            return status;
    }
    return SPT_OK;
}

enum spt_status spt_cage_damage(const struct spt_cage_question *question,
                                struct spt_hub_trail *trail, struct spt_cage_damage *damage)
{
    struct work work = {.question = question, .trail = trail, .damage = damage, .last = -1};
    *damage = (struct spt_cage_damage){{0, 0}, {(double)NAN, (double)NAN}};
    if (!spt_hub_is_solvable(question->model, question->setting_mm, question->load))
        return SPT_BAD_ARGUMENT;
    make_laws(&work);
    return add_places(&work);
}
