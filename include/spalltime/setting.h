/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SETTING_H
#define SPT_SETTING_H

#include <stdbool.h>

#include "spalltime/hub.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How the life of a hub under a duty cycle depends on its setting: end play (> 0) or preload (< 0).
 * Life means fatigue of rigid rings; see hub.h for what is left out. */

#define SPT_SETTING_CASES_MAX 64
#define SPT_SETTING_CAGE_MAX 16      /* cage positions */
#define SPT_SETTING_SCAN_MM 0.01     /* step of the coarse scan */
#define SPT_SETTING_RANGE_MAX_MM 5.0 /* highest less lowest setting of a study */
#define SPT_SETTING_KEPT 0.8         /* share of the best life that the good range keeps */
#define SPT_SETTING_MARGIN 2 /* deviations that an aim stays above the least setting; ours */
#define SPT_SETTING_NODES 17 /* of the scatter, half a deviation apart, to +-4 deviations */

/* One phase of the duty. */
struct spt_setting_case {
    struct spt_hub_load load;
    double time_share; /* >= 0; all together 1 within 1e-6 */
    double speed_rpm;  /* >= 0 */
    struct spt_hub_lubrication lubrication[2];
    double
        life_factor[2]; /* further factors on the life of each row (a1, water); > 0, 1 for none */
};

struct spt_setting_duty {
    const struct spt_setting_case *cases;
    int count;          /* 1 to SPT_SETTING_CASES_MAX */
    bool modified;      /* modified instead of basic reference life */
    int cage_positions; /* damage averaged over so many, up to _CAGE_MAX, within a roller pitch; 0
                           or 1: no average. 2 to 4 take the ripple out where the load zone is
                           narrow */
    double reliability_percent; /* 90 to 99.95, that of the lives with their factors: the two rows
                                 are put together by spt_survival_series; 0: reference lives
                                 alone, by slope 9/8 as in hub.h */
};

/* Positions of the last setting, one per case, to start the next from. Zero-initialise. */
struct spt_setting_trail {
    bool known[SPT_SETTING_CASES_MAX];
    struct spt_hub_position positions[SPT_SETTING_CASES_MAX];
};

/* Lives of the whole duty at one setting. INFINITY for what carries nothing. */
struct spt_setting_point {
    double setting_mm;
    double row_mrev[2];
    double life_mrev; /* both rows */
    double row_h[2];
    double life_h;
    double relative; /* of the best life of the study; NaN outside one */
};

/* Lives at one setting: Miner per row over the revolutions, then both rows by the slope.
 * In:     trail: a warm start that is brought up to date, or NULL.
 * Result: point; failed_case the number of the case that has no answer, else -1 (may be NULL).
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where nothing turns or a modified life has no value;
 *         those of spt_hub_solve except SPT_FREE: an idle case does no damage. All NaN then. */
enum spt_status spt_setting_life(const struct spt_hub_model *model,
                                 const struct spt_setting_duty *duty, double setting_mm,
                                 struct spt_setting_trail *trail, struct spt_setting_point *point,
                                 int *failed_case);

/* Lives at `count` settings (2 or more) evenly from lowest to highest, both included.
 * Status: as above, of the first setting that fails; the points from there on are NaN. */
enum spt_status spt_setting_curve(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty, double lowest_mm,
                                  double highest_mm, int count, struct spt_setting_point *points);

enum spt_setting_cliff {
    SPT_SETTING_CLIFF_NONE,    /* the good range has no end on either side of what was searched */
    SPT_SETTING_CLIFF_PRELOAD, /* life is lost sooner towards preload */
    SPT_SETTING_CLIFF_PLAY
};

struct spt_setting_question {
    double lowest_mm; /* searched range; at most SPT_SETTING_RANGE_MAX_MM wide */
    double highest_mm;
    double setting_mm; /* the setting asked about */
    double scatter_mm; /* standard deviation of the settings made in a workshop, 0 to 1 */
    bool limited;      /* what is advised stays at or above least_mm; else anywhere in the range */
    double least_mm;   /* the trade's range: no preload below it, cold or running */
};

struct spt_setting_study {
    struct spt_setting_point best;
    bool best_at_limit;               /* the best lies at an end of the searched range */
    struct spt_setting_point advised; /* the best that is not below least_mm, the same as `best`
                                         where nothing limits it; all NaN where the searched range
                                         ends below least_mm */
    struct spt_setting_point asked;
    struct spt_setting_point zero;
    struct spt_setting_point play_low;  /* SPT_HUB_PLAY_LOW_MM */
    struct spt_setting_point play_high; /* SPT_HUB_PLAY_HIGH_MM */
    double kept_from_mm;                /* range that keeps SPT_SETTING_KEPT of the best life */
    double kept_to_mm;
    bool kept_from_open; /* the range goes on beyond what was searched */
    bool kept_to_open;
    enum spt_setting_cliff cliff;
    double preload_best_n;  /* of the unloaded pair at the best setting */
    double preload_asked_n; /* and at the one asked about */
    double expected_mrev;   /* mean life over the scatter about the setting asked about */
    double aim_mm;          /* setting to aim at: highest mean life over the scatter, but at least
                               SPT_SETTING_MARGIN deviations above least_mm, so that about 2 % of
                               the settings made lie below that */
    double aim_mrev;        /* that mean life */
    bool aim_limited;       /* the highest mean life lies below that */
    int failed_case;        /* -1, or the case that has no answer, at failed_mm */
    double failed_mm;
};

/* The whole question.
 * Method: scan in SPT_SETTING_SCAN_MM, then the minimum of -ln L by Brent; ends of the good range
 *         by bisection to 1e-6 mm; mean life by the trapezoidal rule on SPT_SETTING_NODES nodes of
 *         a normal distribution, weights scaled to a sum of 1 (0.006 % of the settings lie beyond);
 *         the aim by Brent within three deviations below and five above the best. aim_mm is NaN
 *         where no maximum lies there. Where the study is limited, `advised` is searched like the
 *         best, from least_mm on, and the aim is moved up where it is too low.
 * Status: as spt_setting_life; SPT_FREE where no case carries any load. All NaN then. */
enum spt_status spt_setting_study(const struct spt_hub_model *model,
                                  const struct spt_setting_duty *duty,
                                  const struct spt_setting_question *question,
                                  struct spt_setting_study *study);

#ifdef __cplusplus
}
#endif

#endif
