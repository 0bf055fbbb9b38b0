/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/choose.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "spalltime/hub.h"
#include "spalltime/statistics.h"
#include "study/life/assess_notes.h"

#define HALF_RATING 0.5

/* What every trial uses again. */
struct bench {
    struct spt_case work; /* the bearings and phases of which are exchanged */
    const struct spt_hub_case *hub;
    struct spt_hub_handbook handbook;
    double shoulders_mm[2]; /* where the outer rings lean */
    struct spt_phase *phases[2];
    struct spt_phase_result *results[2];
    double needed_h; /* NaN: no target */
    bool one_sided;  /* the bearing of the case takes thrust one way alone */
    double target_h;
};

static double side_of(const struct bench *b, int row)
{
    return -spt_hub_row_sign(&b->hub->hub, row);
}

static bool is_one_sided(const struct spt_bearing *bearing)
{
    const bool angled =
        bearing->type == SPT_TAPERED_ROLLER || bearing->type == SPT_ANGULAR_CONTACT_BALL;
    return angled && spt_bearing_rows(bearing->type, bearing->rows) == 1;
}

static bool make_bench(const struct spt_case *question, double margin, struct spt_arena *arena,
                       struct bench *b)
{
    b->work = *question;
    b->hub = question->hub ? question->hub : question->sheet_hub;
    b->work.hub = NULL;
    b->work.sheet_hub = b->hub;
    b->target_h = question->target_life_h;
    b->one_sided = b->hub || is_one_sided(&question->bearings[0].bearing);
    b->needed_h = margin * question->target_life_h;
    for (int row = 0; row < question->bearing_count; row++) {
        const struct spt_bearing_case *part = &question->bearings[row];
        size_t count = (size_t)part->phase_count;
        b->phases[row] = spt_arena_allocate(arena, count * sizeof *b->phases[row]);
        b->results[row] = spt_arena_allocate(arena, count * sizeof *b->results[row]);
        if (!b->phases[row] || !b->results[row])
            return false;
        memcpy(b->phases[row], part->phases, count * sizeof *b->phases[row]);
        for (size_t i = 0; i < count; i++)
            b->phases[row][i].setting_factor = b->phases[row][i].cured_setting_factor = 1;
        b->work.bearings[row].phases = b->phases[row];
    }
    if (!b->hub)
        return true;
    b->handbook = b->hub->handbook;
    for (int row = 0; row < 2; row++)
        b->shoulders_mm[row] =
            b->handbook.rows[row].load_centre_mm -
            side_of(b, row) * spt_bearing_load_centre(&question->bearings[row].bearing, NULL);
    return true;
}

/* Puts a candidate into a row; false where it can have no axial factors. */
static bool put_row(struct bench *b, int row, const struct spt_bearing *candidate)
{
    struct spt_bearing *bearing = &b->work.bearings[row].bearing;
    struct spt_equivalent_load load;
    const bool outer_turns = bearing->outer_turns;
    *bearing = *candidate;
    bearing->outer_turns = outer_turns;
    if (!b->hub)
        return true;
    if (spt_load_equivalent(bearing, 1, 1e3, &load, NULL))
        return false;
    b->handbook.rows[row] = (struct spt_hub_handbook_row){
        .load_centre_mm =
            b->shoulders_mm[row] + side_of(b, row) * spt_bearing_load_centre(bearing, NULL),
        .axial_factor = load.axial_factor,
        .limit_ratio = load.limit_ratio,
        .dynamic_load_rating_n = bearing->dynamic_load_rating_n,
    };
    return true;
}

static bool share_loads(struct bench *b)
{
    for (int i = 0; b->hub && i < b->work.bearings[0].phase_count; i++) {
        struct spt_hub_load load = spt_hub_wheel_load(&b->hub->wheels[i]);
        struct spt_hub_handbook_result shared;
        if (spt_hub_handbook_reactions(&b->handbook, &load, &shared))
            return false;
        for (int row = 0; row < 2; row++) {
            b->phases[row][i].radial_load_n = shared.radial_n[row];
            b->phases[row][i].axial_load_n = shared.axial_n[row];
        }
    }
    return true;
}

/* Keeps a reason where it is worse than those before. `severity`: what there is over what is
 * needed. */
static void blame(struct spt_choice *choice, enum spt_choose_reason why, double severity,
                  double value, double limit)
{
    if (!(severity < choice->severity) || (severity >= 1))
        return;
    choice->why = why;
    choice->severity = severity;
    choice->value = value;
    choice->limit = limit;
}

static double value_of(const struct spt_notes *notes, enum spt_flag flag, double *limit)
{
    for (int i = 0; i < notes->count; i++)
        if (notes->list[i].flag == flag) {
            *limit = notes->list[i].limit;
            return notes->list[i].value;
        }
    return (double)NAN;
}

/* Faults that the chain has flagged, of which `share` is value over limit or its inverse. */
static void judge_notes(const struct spt_phase_result *result, struct spt_choice *choice)
{
    static const struct {
        enum spt_flag flag;
        enum spt_choose_reason why;
        bool most; /* the limit is the most that is allowed */
    } rows[] = {
        {SPT_FLAG_SPEED_LIMIT, SPT_CHOOSE_SPEED, true},
        {SPT_FLAG_GREASE_SPEED, SPT_CHOOSE_LUBRICATED_SPEED, true},
        {SPT_FLAG_OIL_SPEED, SPT_CHOOSE_LUBRICATED_SPEED, true},
        {SPT_FLAG_LIGHT_LOAD, SPT_CHOOSE_LIGHT_LOAD, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double limit = (double)NAN, value = value_of(&result->notes, rows[i].flag, &limit);
        if (!isnan(value))
            blame(choice, rows[i].why, fmin(rows[i].most ? limit / value : value / limit, 0.9999),
                  value, limit);
    }
    if (spt_notes_has(&result->notes, SPT_FLAG_RADIAL_NOT_RATED) ||
        spt_notes_has(&result->notes, SPT_FLAG_AXIAL_NOT_RATED))
        blame(choice, SPT_CHOOSE_CANNOT_CARRY, 0, (double)NAN, (double)NAN);
}

static void judge_phase(const struct spt_phase_result *result, struct spt_choice *choice)
{
    const double safety = result->static_safety_factor / result->static_safety_guide;
    const double share = result->dynamic.load_n / result->dynamic_load_rating_n;
    if (safety < choice->static_safety)
        choice->static_safety = safety;
    blame(choice, SPT_CHOOSE_STATIC, safety, result->static_safety_factor,
          result->static_safety_guide);
    if (result->phase->speed_rpm > 0) {
        choice->load_share = fmax(choice->load_share, share);
        blame(choice, SPT_CHOOSE_OVERLOAD, HALF_RATING / share, share, HALF_RATING);
    }
    judge_notes(result, choice);
}

static enum spt_status judge_row(struct bench *b, int row, struct spt_choice *choice)
{
    struct spt_bearing_result result;
    struct spt_notes doubts = {0};
    const double before = choice->severity;
    enum spt_status status = spt_assess_bearing(&b->work, row, 0, b->results[row], &result);
    if (status == SPT_NOT_APPLICABLE) {
        blame(choice, SPT_CHOOSE_CANNOT_CARRY, 0, (double)NAN, (double)NAN);
        choice->row = row;
        return SPT_OK;
    }
    if (status)
        return status;
    spt_assess_notes(&b->work, row, &result);
    for (int i = 0; i < result.phase_count; i++)
        judge_phase(&result.phases[i], choice);
    choice->row_life_h[row] = result.modified_rating_life_h;
    if (isnan(result.modified_rating_life_h))
        blame(choice, SPT_CHOOSE_NO_LIFE, 1e-9, (double)NAN, (double)NAN);
    if (!b->one_sided && is_one_sided(&b->work.bearings[row].bearing))
        blame(choice, SPT_CHOOSE_ONE_SIDED, 1e-6, (double)NAN, (double)NAN);
    if (b->work.bearings[row].bearing.stock == 0)
        blame(choice, SPT_CHOOSE_NO_STOCK, 0.99995, (double)NAN, (double)NAN);
    if (choice->severity < before)
        choice->row = row;
    spt_bearing_doubts(&b->work.bearings[row].bearing, &doubts);
    choice->doubted = choice->doubted || doubts.count > 0;
    return SPT_OK;
}

static enum spt_status try_one(struct bench *b, const struct spt_bearing *candidates,
                               struct spt_choice *choice)
{
    enum spt_status status = SPT_OK;
    choice->life_h = choice->margin = (double)NAN;
    choice->row_life_h[0] = choice->row_life_h[1] = (double)NAN;
    choice->static_safety = choice->severity = (double)INFINITY;
    bool carried = true;
    for (int row = 0; row < b->work.bearing_count; row++)
        carried = put_row(b, row, &candidates[choice->candidates[row]]) && carried;
    if (!carried || !share_loads(b)) {
        blame(choice, SPT_CHOOSE_CANNOT_CARRY, 0, (double)NAN, (double)NAN);
        return SPT_OK;
    }
    for (int row = 0; row < b->work.bearing_count && !status; row++)
        status = judge_row(b, row, choice);
    if (status)
        return status;
    choice->life_h =
        spt_survival_series(choice->row_life_h, b->work.bearing_count, b->work.reliability_percent);
    choice->margin = choice->life_h / b->target_h;
    if (choice->life_h < b->needed_h)
        blame(choice, SPT_CHOOSE_SHORT_LIFE, choice->life_h / b->needed_h, choice->life_h,
              b->needed_h);
    return SPT_OK;
}

/* ---- order ---------------------------------------------------------------------------------- */

static double cost_of(const struct spt_bearing *bearing, enum spt_choose_order order)
{
    if (order == SPT_CHOOSE_BY_PRICE)
        return bearing->price >= 0 ? bearing->price : (double)NAN;
    if (order == SPT_CHOOSE_BY_MASS)
        return bearing->mass_kg > 0 ? bearing->mass_kg : (double)NAN;
    return M_PI_4 * (gsl_pow_2(bearing->outside_diameter_mm) - gsl_pow_2(bearing->bore_mm)) *
           bearing->width_mm;
}

/* Gives each trial its cost; false where one that passes has none. */
static bool set_costs(struct spt_choosing *choosing, enum spt_choose_order order)
{
    bool known = true;
    choosing->order = order;
    for (long i = 0; i < choosing->count; i++) {
        struct spt_choice *choice = &choosing->choices[i];
        choice->cost = 0;
        for (int row = 0; row < (choosing->pairs ? 2 : 1); row++)
            choice->cost += cost_of(&choosing->candidates[choice->candidates[row]], order);
        known = known && (choice->why != SPT_CHOOSE_PASSES || !isnan(choice->cost));
    }
    return known;
}

static int compare_numbers(double a, double b)
{
    return (a > b) - (a < b);
}

static int compare_choices(const void *one, const void *other)
{
    const struct spt_choice *a = one, *b = other;
    const bool fails_a = a->why != SPT_CHOOSE_PASSES, fails_b = b->why != SPT_CHOOSE_PASSES;
    int order = (int)fails_a - (int)fails_b;
    if (!order)
        order =
            fails_a ? compare_numbers(b->severity, a->severity) : compare_numbers(a->cost, b->cost);
    for (int row = 0; row < 2 && !order; row++)
        order = a->candidates[row] - b->candidates[row];
    return order;
}

static void sort_choices(struct spt_choosing *choosing)
{
    if (!set_costs(choosing, SPT_CHOOSE_BY_PRICE) && !set_costs(choosing, SPT_CHOOSE_BY_MASS))
        set_costs(choosing, SPT_CHOOSE_BY_SIZE);
    qsort(choosing->choices, (size_t)choosing->count, sizeof *choosing->choices, compare_choices);
    while (choosing->passing < choosing->count &&
           choosing->choices[choosing->passing].why == SPT_CHOOSE_PASSES)
        choosing->passing++;
}

/* ---- the call ------------------------------------------------------------------------------- */

static bool fits_row(const struct spt_bearing *bearing)
{
    return bearing->type == SPT_TAPERED_ROLLER &&
           spt_bearing_rows(bearing->type, bearing->rows) == 1;
}

/* Lists what is tried: each candidate, or each pair of tapered rows. */
static void list_trials(struct spt_choosing *choosing)
{
    const int n = choosing->candidate_count;
    choosing->count = 0;
    for (int i = 0; i < n; i++) {
        if (!choosing->pairs) {
            choosing->choices[choosing->count++] = (struct spt_choice){.candidates = {i, -1}};
            continue;
        }
        for (int j = 0; j < n && fits_row(&choosing->candidates[i]); j++)
            if (fits_row(&choosing->candidates[j]))
                choosing->choices[choosing->count++] = (struct spt_choice){.candidates = {i, j}};
    }
}

static long count_trials(const struct spt_choosing *choosing)
{
    long rows = 0;
    for (int i = 0; i < choosing->candidate_count; i++)
        rows += fits_row(&choosing->candidates[i]);
    return choosing->pairs ? rows * rows : choosing->candidate_count;
}

static enum spt_status refuse(const struct spt_choosing *choosing, struct spt_error *error)
{
    const struct spt_case *question = choosing->question;
    if (question->bearing_count > 2 || (question->bearing_count == 2 && !choosing->pairs))
        return spt_error_say(
            error, SPT_NOT_APPLICABLE, true, question->title,
            "bearings are chosen for one `bearing` or for the two rows of a `hub`; for a "
            "support of a shaft write its speeds and loads, as `life` lists them, as the "
            "duty of a `bearing`");
    if (!count_trials(choosing))
        return spt_error_say(error, SPT_NOT_APPLICABLE, true, question->title,
                             "no bearing of the list is a tapered roller with one row, as the rows "
                             "of a hub are");
    if (count_trials(choosing) > SPT_CHOOSE_TRIALS_MAX)
        return spt_error_say(error, SPT_NOT_APPLICABLE, true, question->title,
                             "the list makes %ld pairs, more than %ld; shorten it",
                             count_trials(choosing), SPT_CHOOSE_TRIALS_MAX);
    return SPT_OK;
}

enum spt_status spt_ask_choose(const struct spt_case *question,
                               const struct spt_bearing *candidates, int count, double margin,
                               struct spt_arena *arena, struct spt_choosing *choosing,
                               struct spt_error *error)
{
    *choosing = (struct spt_choosing){.question = question,
                                      .candidates = candidates,
                                      .candidate_count = count,
                                      .pairs = question->hub || question->sheet_hub,
                                      .margin = margin};
    if (!candidates || count < 1 || !(margin > 0))
        return spt_error_set(error, SPT_BAD_ARGUMENT, question->title);
    enum spt_status status = refuse(choosing, error);
    if (status)
        return status;
    struct bench *b = spt_arena_allocate(arena, sizeof *b);
    choosing->choices =
        spt_arena_allocate(arena, (size_t)count_trials(choosing) * sizeof *choosing->choices);
    if (!b || !choosing->choices || !make_bench(question, margin, arena, b))
        return spt_error_set(error, SPT_NO_MEMORY, question->title);
    list_trials(choosing);
    for (long i = 0; i < choosing->count && !status; i++)
        status = try_one(b, candidates, &choosing->choices[i]);
    if (status)
        return spt_error_set(error, status, question->title);
    sort_choices(choosing);
    return SPT_OK;
}
