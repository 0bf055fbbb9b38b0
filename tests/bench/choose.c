/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Bearings tried in the place of that of a case, beside the plain way: the whole answer of `life`
 * for each, with the split of its loss. */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "bench/bench.h"
#include "spalltime/choose.h"

#define CANDIDATES 2000

static struct spt_bearing candidates[CANDIDATES];
static struct spt_case question;

static void fill_candidates(void)
{
    for (int i = 0; i < CANDIDATES; i++) {
        double size = 1 + 0.5 * i / CANDIDATES;
        candidates[i] = (struct spt_bearing){.name = "candidate",
                                             .type = SPT_SPHERICAL_ROLLER,
                                             .bore_mm = 50 * size,
                                             .outside_diameter_mm = 95 * size,
                                             .width_mm = 26 * size,
                                             .pitch_diameter_mm = 72.5 * size,
                                             .dynamic_load_rating_n = 110e3 * pow(size, 1.8),
                                             .static_load_rating_n = 120e3 * size * size,
                                             .fatigue_load_limit_n = 14e3 * size * size,
                                             .contact_angle_rad = 0.19,
                                             .limit_ratio = (double)NAN,
                                             .radial_factor = (double)NAN,
                                             .axial_factor = (double)NAN,
                                             .static_axial_factor = (double)NAN,
                                             .f0 = (double)NAN,
                                             .rib_diameter_mm = (double)NAN,
                                             .stock = -1};
    }
}

/* Three phases of a greased bearing. */
static void fill_question(void)
{
    static struct spt_phase phases[3];
    for (int i = 0; i < 3; i++)
        phases[i] = (struct spt_phase){.name = "phase",
                                       .time_share = i ? 0.25 : 0.5,
                                       .speed_rpm = 400 + 300 * i,
                                       .radial_load_n = 14e3 - 2e3 * i,
                                       .axial_load_n = 1.5e3,
                                       .equivalent_load_n = (double)NAN,
                                       .temperature_c = 60 + 5 * i,
                                       .ambient_c = 20,
                                       .cooling_factor = 1,
                                       .setting_factor = 1,
                                       .cured_setting_factor = 1,
                                       .condition = {.cleanliness = SPT_CLEANLINESS_GREASE_NORMAL,
                                                     .contamination_factor = (double)NAN,
                                                     .water_ppm = 200,
                                                     .grease_age_h = 300,
                                                     .coldest_c = 0}};
    question = (struct spt_case){.title = "bench",
                                 .lubricant = {.kind = SPT_LUBRICATION_GREASE,
                                               .viscosity_40_mm2_s = 150,
                                               .viscosity_100_mm2_s = 14.5,
                                               .density_g_cm3 = (double)NAN},
                                 .bearing_count = 1,
                                 .reliability_percent = 90,
                                 .target_life_h = 20000,
                                 .reference_load_n = (double)NAN,
                                 .yearly_use_h = (double)NAN,
                                 .age_limit_h = (double)NAN,
                                 .road_speed_km_h = (double)NAN};
    spt_viscosity_line(40, 150, 100, 14.5, &question.lubricant.line);
    question.bearings[0] = (struct spt_bearing_case){candidates[0], phases, 3};
}

static void fail(const char *what)
{
    fprintf(stderr, "bench: %s\n", what);
    exit(1);
}

double time_choose(void)
{
    struct spt_arena arena = {0};
    struct spt_choosing choosing;
    struct spt_error error;
    fill_candidates();
    fill_question();
    double start = now();
    if (spt_ask_choose(&question, candidates, CANDIDATES, 1.3, &arena, &choosing, &error))
        fail(error.text);
    double ns = 1e9 * (now() - start) / CANDIDATES;
    spt_arena_free(&arena);
    return ns;
}

double time_choose_plainly(void)
{
    fill_candidates();
    fill_question();
    double start = now();
    for (int i = 0; i < CANDIDATES; i++) {
        struct spt_arena arena = {0};
        struct spt_assessment assessment;
        struct spt_error error;
        struct spt_case one = question;
        one.bearings[0].bearing = candidates[i];
        if (spt_ask_life(&one, &arena, &assessment, &error))
            fail(error.text);
        spt_arena_free(&arena);
    }
    return 1e9 * (now() - start) / CANDIDATES;
}
