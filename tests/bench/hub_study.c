/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times of the load distributions behind `setting`, `sweep` and `life` of a hub, as ratios to the
 * plain way (tests/support/hub_plain.h) in the same run; CPU time, best of some rounds. */
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "bench/hub_study.h"
#include "model/hub/hub_kernel.h"
#include "model/numeric.h"
#include "spalltime/statistics.h"
#include "study/hub/cage_damage.h"
#include "study/hub/setting_store.h"
#include "support/hub_plain.h"

#define PHASES 4
#define CAGES 4
#define POINTS 131
#define ROUNDS 5

/* The hub of scenarios/trailer_hub_setting.yaml, its rings aligned or tilted, and its duty. */
struct trailer {
    double workspace[16384];
    struct spt_hub_model model;
    struct spt_setting_case cases[PHASES];
    struct spt_setting_duty duty, reference;
    struct spt_hub_position trail[PHASES]; /* of the plain way */
    bool started[PHASES];
    bool failed;
    long solves, passes;
};

static struct spt_hub_row make_row(int rollers, double diameter, double length, double pitch,
                                   double position, double degrees)
{
    struct spt_hub_row row = {
        .geometry = {.elements = rollers,
                     .rows = 1,
                     .element_diameter_mm = diameter,
                     .element_length_mm = length,
                     .contact_angle_rad = degrees * acos(-1.0) / 180,
                     .pitch_diameter_mm = pitch},
        .position_mm = position,
        .phase_rad = -0.5 * acos(-1.0),
    };
    struct spt_rating rating;
    spt_rating_from_geometry(SPT_TAPERED_ROLLER, &row.geometry, &rating);
    row.dynamic_load_rating_n = rating.dynamic_load_rating_n;
    row.fatigue_load_limit_n = rating.fatigue_load_limit_n;
    return row;
}

static void make_trailer(bool tilted, struct trailer *t)
{
    static const struct {
        double radial_n, side_n, share, rpm;
    } phases[PHASES] = {{13000, 0, 0.8, 558},
                        {15000, -2250, 0.06, 349},
                        {11000, 1650, 0.06, 349},
                        {14000, 1000, 0.08, 105}};
    struct spt_hub hub = {
        .rows = {make_row(18, 12.5, 14.5, 85.5, -8, 16), make_row(18, 9.5, 13, 65.5, 52, 12)},
        .row_count = 2,
        .laminae = SPT_HUB_LAMINAE,
        .profile_factor = 1,
        .edge_function = true,
    };
    memset(t, 0, sizeof *t);
    if (tilted) {
        hub.rows[0].misalignment_x_rad = 1e-3;
        hub.rows[0].misalignment_y_rad = 7e-4;
    }
    t->failed = spt_hub_prepare(&hub, t->workspace, 16384, &t->model) != SPT_OK;
    for (int i = 0; i < PHASES; i++) {
        struct spt_hub_wheel wheel = {
            .radial_n = phases[i].radial_n, .side_n = phases[i].side_n, .rolling_radius_mm = 380};
        t->cases[i] = (struct spt_setting_case){.load = spt_hub_wheel_load(&wheel),
                                                .time_share = phases[i].share,
                                                .speed_rpm = phases[i].rpm,
                                                .lubrication = {{0.5, 1.2}, {0.5, 1.2}},
                                                .life_factor = {1, 1}};
    }
    t->duty =
        (struct spt_setting_duty){.cases = t->cases, .count = PHASES, .cage_positions = CAGES};
    t->reference = t->duty;
    t->reference.modified = true;
}

static double read_cpu_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return 1e3 * (double)now.tv_sec + 1e-6 * (double)now.tv_nsec;
}

static double time_call(void (*call)(struct trailer *), struct trailer *t, int repeat)
{
    double best = HUGE_VAL;
    for (int round = 0; round < ROUNDS; round++) {
        double start = read_cpu_ms();
        for (int i = 0; i < repeat; i++)
            call(t);
        best = fmin(best, (read_cpu_ms() - start) / repeat);
    }
    return best;
}

/* ---- the plain way ---- */

/* Adds one phase at one place of the cages, which has this share of the revolutions. */
static void add_plainly(struct trailer *t, const struct spt_hub_model *model, int phase,
                        double setting_mm, bool modified, double share, double damage[2])
{
    const struct spt_setting_case *c = &t->cases[phase];
    struct spt_hub_position *near = &t->trail[phase];
    int passes;
    t->failed |= hub_plain_solve(model, setting_mm, &c->load, t->started[phase] ? near : NULL, near,
                                 &passes) != SPT_OK;
    t->started[phase] = true;
    t->solves++;
    t->passes += passes;
    for (int row = 0; row < 2; row++) {
        double basic, other;
        hub_plain_lives(model, setting_mm, near, row, modified ? &c->lubrication[row] : NULL,
                        &basic, &other);
        damage[row] += share / (modified ? other : basic);
    }
}

static double look_plainly(struct trailer *t, double setting_mm, bool modified)
{
    double damage[2] = {0, 0}, mean_rpm = 0, lives[2];
    struct spt_hub_model turned = t->model;
    for (int i = 0; i < PHASES; i++)
        mean_rpm += t->cases[i].time_share * t->cases[i].speed_rpm;
    for (int cage = 0; cage < CAGES; cage++) {
        turned.hub = t->model.hub;
        spt_hub_turn_cage(&turned, (double)cage / CAGES);
        for (int i = 0; i < PHASES; i++)
            add_plainly(t, &turned, i, setting_mm, modified,
                        t->cases[i].time_share * t->cases[i].speed_rpm / mean_rpm / CAGES, damage);
    }
    turned.hub = t->model.hub;
    spt_hub_turn_cage(&turned, 0);
    lives[0] = 1 / damage[0];
    lives[1] = 1 / damage[1];
    return spt_survival_series(lives, 2, SPT_BASIC_RELIABILITY);
}

static double rate(double setting_mm, void *t)
{
    return -log(look_plainly(t, setting_mm, false));
}

static double rate_modified(double setting_mm, void *t)
{
    return -log(look_plainly(t, setting_mm, true));
}

static double rate_mean(double setting_mm, void *t)
{
    double life = 0, weights = 0;
    for (int i = -8; i <= 8; i++) {
        double weight = exp(-0.125 * i * i);
        life += weight * look_plainly(t, setting_mm + 0.01 * i, false);
        weights += weight;
    }
    return -log(life / weights);
}

static double minimise(double (*rating)(double, void *), struct trailer *t, double middle,
                       double width)
{
    gsl_function function = {rating, t};
    double found = middle;
    (void)spt_numeric_minimum(&function, middle - width, middle, middle + width, &found);
    return found;
}

static double find_end(struct trailer *t, double kept, double way, double least)
{
    double lost = kept + way;
    for (; rate(lost, t) <= least; lost += way)
        kept = lost;
    while (fabs(lost - kept) > 1e-6)
        *(rate(0.5 * (kept + lost), t) <= least ? &kept : &lost) = 0.5 * (kept + lost);
    return kept;
}

/* All that `setting` shows, each part solved for itself: scan and best, the best without preload,
 * ends of the kept range, settings side by side, the mean as set, the aim, the curve, the modified
 * curve and its best. */
static void study_plainly(struct trailer *t)
{
    double best = 0, least = HUGE_VAL, best_modified = 0, least_modified = HUGE_VAL;
    memset(t->started, 0, sizeof t->started);
    t->solves = t->passes = 0;
    for (int i = 0; i <= 65; i++) {
        double rating = rate(-0.15 + 0.01 * i, t);
        if (rating < least) {
            least = rating;
            best = -0.15 + 0.01 * i;
        }
    }
    best = minimise(rate, t, best, 0.01);
    least = rate(best, t) - log(0.8);
    (void)(find_end(t, best, -0.01, least) + find_end(t, best, 0.01, least));
    for (int i = 0; i <= 50; i++)
        rate(0.01 * i, t);
    for (int i = 0; i < 6; i++)
        rate(0.02 * i, t);
    double middle = best, highest = rate_mean(0.05, t);
    for (int i = -2; i <= 4; i++) {
        double rating = rate_mean(best + 0.02 * i, t);
        if (rating < highest) {
            highest = rating;
            middle = best + 0.02 * i;
        }
    }
    rate_mean(minimise(rate_mean, t, middle, 0.02), t);
    for (int i = 0; i < POINTS; i++) {
        memset(t->started, 0, sizeof t->started); /* each point was solved for itself */
        rate(-0.15 + 0.005 * i, t);
    }
    for (int i = 0; i < POINTS; i++) {
        double rating = rate_modified(-0.15 + 0.005 * i, t);
        if (rating < least_modified) {
            least_modified = rating;
            best_modified = -0.15 + 0.005 * i;
        }
    }
    (void)minimise(rate_modified, t, best_modified, 0.005);
}

static void sweep_plainly(struct trailer *t)
{
    for (int i = 0; i < 20; i++)
        (void)look_plainly(t, -0.1 + 0.02 * i, false);
}

static void solve_plainly(struct trailer *t)
{
    double damage[2] = {0, 0};
    t->started[0] = false;
    add_plainly(t, &t->model, 0, 0.05, false, 1, damage);
}

static void follow_plainly(struct trailer *t)
{
    double damage[2] = {0, 0};
    add_plainly(t, &t->model, 0, t->solves % 2 ? 0.05 : 0.055, false, 1, damage);
}

/* ---- the library ---- */

static void study(struct trailer *t)
{
    static struct spt_setting_store store;
    const struct spt_setting_terms terms = {&t->model, &t->duty, &t->reference};
    const struct spt_setting_inputs question = {-0.15, 0.5, 0.05, 0.02, true, 0};
    struct spt_setting_study result;
    struct spt_setting_point point;
    spt_setting_store_begin(&store, &terms);
    for (int i = 0; i < POINTS; i++)
        t->failed |= spt_setting_store_find(&store, -0.15 + 0.005 * i, &point) != SPT_OK;
    t->failed |= spt_setting_study_of(&store, &question, &result) != SPT_OK;
    for (int i = 0; i < 15; i++) /* the search for the best of the modified curve */
        t->failed |=
            spt_setting_store_find_reference(&store, -0.0368 + 0.0003 * i, &point) != SPT_OK;
    t->solves = spt_setting_store_solves(&store);
    t->passes = spt_setting_store_passes(&store);
}

/* Rows of a sweep, 20 um apart. */
static void sweep(struct trailer *t)
{
    struct spt_setting_trail trail;
    struct spt_setting_point point;
    memset(&trail, 0, sizeof trail);
    for (int i = 0; i < 20; i++)
        t->failed |=
            spt_setting_life(&t->model, &t->duty, -0.1 + 0.02 * i, &trail, &point, NULL) != SPT_OK;
}

static struct spt_hub_trail warm;

static void follow(struct trailer *t)
{
    struct spt_cage_damage damage;
    const struct spt_cage_question question = {
        .model = &t->model,
        .setting_mm = warm.known[0] && warm.setting_mm[0] == 0.05 ? 0.055 : 0.05,
        .load = &t->cases[0].load};
    t->failed |= spt_cage_damage(&question, &warm, &damage) != SPT_OK;
}

static void solve(struct trailer *t)
{
    memset(&warm, 0, sizeof warm);
    follow(t);
}

static void report(const char *what, double plain_ms, double ms)
{
    printf("  %-46s plain %9.4f ms, now %8.4f ms: %.1f times faster\n", what, plain_ms, ms,
           plain_ms / ms);
}

static void report_rings(bool tilted)
{
    static struct trailer t;
    const char *rings = tilted ? "tilted" : "aligned";
    char what[80];
    make_trailer(tilted, &t);
    snprintf(what, sizeof what, "%s, cold solve with both lives", rings);
    double plain_ms = time_call(solve_plainly, &t, 100);
    report(what, plain_ms, time_call(solve, &t, 1000));
    snprintf(what, sizeof what, "%s, warm solve 5 um on with both lives", rings);
    plain_ms = time_call(follow_plainly, &t, 100);
    report(what, plain_ms, time_call(follow, &t, 1000));
    snprintf(what, sizeof what, "%s, row of a sweep, 4 phases", rings);
    plain_ms = time_call(sweep_plainly, &t, 1) / 20;
    report(what, plain_ms, time_call(sweep, &t, 5) / 20);
    snprintf(what, sizeof what, "%s, everything that setting solves", rings);
    plain_ms = time_call(study_plainly, &t, 1);
    long solves = t.solves, passes = t.passes;
    report(what, plain_ms, time_call(study, &t, 3));
    printf("    %ld load distributions in %ld passes, plain %ld in %ld%s\n", t.solves, t.passes,
           solves, passes, t.failed ? "  FAILED" : "");
}

void hub_study_bench(void)
{
    static struct trailer t;
    make_trailer(false, &t);
    printf("trailer hub, %d doubles at a time, against the plain way (CPU time)\n",
           t.model.kernel->lanes);
    report_rings(false);
    report_rings(true);
}
