/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_HISTORY_H
#define SPT_HISTORY_H

#include <stdbool.h>
#include <stddef.h>

#include "spalltime/assess.h"
#include "spalltime/hub.h"

#ifdef __cplusplus
extern "C" {
#endif

/* A measured load history put into bins of load, speed and temperature, each of which becomes one
 * phase of a duty cycle. Samples come one at a time and are not kept, so the memory does not grow
 * with the history; their order does not matter.
 *
 * Fatigue of a rolling bearing goes by revolutions at a level of load (Palmgren-Miner with
 * L ~ P^-p), so a bin holds time and revolutions at its level. Closed load cycles are not counted
 * (rainflow is for structures whose cycles come from the load itself; here every passing rolling
 * element is a cycle).
 *
 * Of the two rows of a hub a bin has the damage of both together; two factors close to 1 on the
 * bins' loads then give each row its damage over the whole duty, wherever they exist.
 *
 * What a bin keeps: its time; its revolutions (mean speed = revolutions over time); the power mean
 * of the equivalent load with the exponent p of the bearing, weighted by revolutions, hence its
 * basic damage; the temperature as the mean over revolutions, because damage comes with
 * revolutions. Source of the mean load: Palmgren's rule as in the textbooks,
 * P_m = (sum n_i t_i P_i^p / sum n_i t_i)^(1/p). */

enum spt_history_axis {
    SPT_HISTORY_LOAD,        /* equivalent load; wheel load of a hub */
    SPT_HISTORY_SIDE,        /* side force of a hub, with its sign; axial load without a bearing */
    SPT_HISTORY_SPEED,       /* r/min */
    SPT_HISTORY_TEMPERATURE, /* degC */
    SPT_HISTORY_AXES
};

enum spt_history_kind {
    SPT_HISTORY_PARTS, /* radial and axial load of a bearing */
    SPT_HISTORY_WHOLE, /* equivalent load */
    SPT_HISTORY_WHEEL, /* wheel load and side force of a hub */
    SPT_HISTORY_ALONE  /* two loads and no bearing: each has a power mean of its own */
};

#define SPT_HISTORY_ROWS 2      /* a history is of one bearing, or of the two rows of a hub */
#define SPT_HISTORY_BINS_MAX 64 /* of one axis */
#define SPT_HISTORY_LOAD_MAX_N 1e9
#define SPT_HISTORY_HOURS_MAX 1e9
#define SPT_HISTORY_HOURS_MIN 1e-12 /* of one sample: 4 ns */
#define SPT_HISTORY_STILL_RPM 1e-9  /* below it nothing turns: a turn takes a thousand years */

struct spt_history_terms {
    enum spt_history_kind kind;
    const struct spt_bearing *bearing;       /* SPT_HISTORY_PARTS */
    const struct spt_hub_handbook *handbook; /* SPT_HISTORY_WHEEL */
    double rolling_radius_mm;                /* SPT_HISTORY_WHEEL, > 0 */
    double exponent;                         /* p, above 0 */
    bool signed_side;                        /* the sign of the side load counts (WHEEL: always) */
    double standing_rpm;                     /* at or below it the bearing stands still; >= 0,
                                                  also below SPT_HISTORY_STILL_RPM */
    bool has_temperature;                    /* false: temperatures are not looked at */
    int bins[SPT_HISTORY_AXES];              /* the most that will be asked for; 1 to the max */
};

struct spt_history_sample {
    double duration_h;    /* SPT_HISTORY_HOURS_MIN to _MAX */
    double speed_rpm;     /* to 1e6, of either sign: the magnitude counts */
    double load_n;        /* radial, equivalent or wheel load; the magnitude counts */
    double side_n;        /* axial load (magnitude) or side force (with its sign); 0 for none */
    double temperature_c; /* -273.15 to 1000 */
};

/* A sum that does not lose its small members (Neumaier 1974). */
struct spt_history_sum {
    double value, rest;
};

struct spt_history_sums {
    long long samples;
    struct spt_history_sum time_h, revolutions, temperature; /* times revolutions */
    struct spt_history_sum load, side;                       /* load^p times revolutions */
    struct spt_history_sum damage[SPT_HISTORY_ROWS];         /* P^p times revolutions */
};

/* One bin that holds something. */
struct spt_history_bin {
    bool standing; /* all time without revolutions; its loads are the largest seen then */
    int at[SPT_HISTORY_AXES]; /* number of the bin in each axis, from 0 */
    struct spt_history_sums sums;
    double time_h, speed_rpm, temperature_c; /* temperature NaN where not looked at */
    double load_n, side_n; /* as the samples state them: they make the equivalent loads below */
    double equivalent_n[SPT_HISTORY_ROWS]; /* power means of the rows; 0 for no second row */
};

/* The grid of one axis; opaque. */
struct spt_history_grid {
    bool used;
    bool any;
    int cells;          /* kept across the range */
    int level;          /* a cell is 2^level wide */
    double scale;       /* 2^-level */
    double least, most; /* seen */
};

struct spt_history {
    struct spt_history_terms terms;
    int rows; /* of rolling elements: 2 of a hub */
    struct spt_history_grid grids[SPT_HISTORY_AXES];
    struct spt_history_sums *cells, *spare; /* in the caller's room */
    size_t cell_count;
    struct spt_history_sums total; /* of what turns */
    struct spt_history_sum standing_h, standing_temperature, standing_revolutions;
    struct spt_history_sample stillest; /* with the largest load of those that stand */
    struct spt_history_sample hardest;  /* with the largest load of all */
    double stillest_n, hardest_n;       /* that load: P of the row that carries more; -1: none */
    long long standing_samples;
    long long reversed_samples; /* with any of the next three */
    long long reversed_speeds, reversed_loads, reversed_sides;
};

/* Bytes that spt_history_begin needs; 0 where the terms are not valid. */
size_t spt_history_room(const struct spt_history_terms *terms);

/* In:     terms (the bearing or handbook is borrowed); `room` aligned for any object.
 * Status: SPT_BAD_ARGUMENT; SPT_NO_ROOM. */
enum spt_status spt_history_begin(const struct spt_history_terms *terms, void *room, size_t size,
                                  struct spt_history *history);

/* Takes one sample.
 * Status: SPT_BAD_ARGUMENT for a number that is not finite or outside the ranges above (nothing is
 *         taken then); of the load functions where the loads make no equivalent load. */
enum spt_status spt_history_add(struct spt_history *history,
                                const struct spt_history_sample *sample);

/* The bins that hold something, in the order of their numbers, the standing one last; as many of
 * each axis as asked for (1 to twice what the terms name) over the range that was seen, fewer where
 * the range has no width. An axis with values of both signs has an even number, so that no bin
 * mixes them.
 * Status: SPT_NO_ROOM where there are more than `most`; SPT_BAD_ARGUMENT. */
enum spt_status spt_history_bins(const struct spt_history *history,
                                 const int bins[SPT_HISTORY_AXES], struct spt_history_bin *list,
                                 int most, int *count);

/* Bins that an axis is divided into where `bins` are asked for: see above. */
int spt_history_bins_used(const struct spt_history *history, enum spt_history_axis axis, int bins);

/* Edges of bin `number` of `bins` of an axis. */
void spt_history_edges(const struct spt_history *history, enum spt_history_axis axis, int bins,
                       int number, double *low, double *high);

/* Equivalent loads of the rows for a pair of loads; the second is 0 where there is one row. */
enum spt_status spt_history_equivalent(const struct spt_history_terms *terms, double load_n,
                                       double side_n, double equivalent_n[SPT_HISTORY_ROWS]);

/* Basic rating life in hours, by (C/P_m)^p at the mean speed, from the samples and from bins whose
 * equivalent loads are worked out anew from their loads: the error of binning.
 * In:     C of each row in N (> 0). Result: INFINITY where there is no damage. Two rows:
 * at 90 % by spt_survival_series. Status: SPT_BAD_ARGUMENT. */
struct spt_history_basic {
    double samples_h, bins_h;
};
enum spt_status spt_history_basic_life(const struct spt_history *history,
                                       const struct spt_history_bin *bins, int count,
                                       const double rating_n[SPT_HISTORY_ROWS],
                                       struct spt_history_basic *life);

/* Modified rating life of a case whose phases are replaced by bins, other things (condition,
 * ambient, a temperature or setting that the history does not tell) as in its first phase; no
 * setting of a hub. `phases` and `results` have room for `count`.
 * Status: of spt_assess_bearing; SPT_NO_ROOM above SPT_PHASES_MAX. */
enum spt_status spt_history_modified_life(const struct spt_history *history,
                                          const struct spt_case *question,
                                          const struct spt_history_bin *bins, int count,
                                          struct spt_phase *phases,
                                          struct spt_phase_result *results, double *life_h);

/* What a case says of the history behind its duty. */
struct spt_history_summary {
    const char *source;
    long long rows;    /* of the file, the one that only ends the record too */
    long long samples; /* that count */
    double hours, turning_h, standing_h;
    bool stamped;   /* time stamps, not durations */
    double gap_h;   /* what counts as a gap; NaN: nothing does */
    long long gaps; /* left out, and the hours in them */
    double gaps_h;
    double longest_h; /* the longest time that one sample stands for, and its row */
    int longest_line;
    double usual_h; /* the median of these times, within a few percent; NaN: not known */
    double standing_rpm, standing_revolutions; /* not counted: below the threshold */
    long long reversed_samples;                /* with any of the next three */
    long long reversed_speeds, reversed_loads, reversed_sides;
    int bins[SPT_HISTORY_AXES];
    int phases;
    bool coarsened; /* fewer bins than usual, to keep within the limit */
    double exponent;
    double mean_speed_rpm, mean_load_n; /* power mean of the row that carries more */
    double largest_n;                   /* equivalent load of the hardest sample */
    double resting_n[SPT_HISTORY_ROWS]; /* P0 of that sample; NaN: not known */
    struct spt_history_basic basic;     /* NaN without a bearing */
    double modified_h, refined_h;       /* with these bins, with twice as many; NaN: not known */
    int refined_phases;
};

/* Fills in what the history itself knows: times, magnitudes taken, means, the hardest sample; for
 * P0 also from the bearings of a case (may be NULL). The rest is set to 0 and NaN. */
void spt_history_summarise(const struct spt_history *history, const struct spt_case *question,
                           struct spt_history_summary *summary);

/* Adds the flag of a step between two stamps that is far longer than is usual: a gap, perhaps. */
void spt_history_note_hold(const struct spt_history_summary *summary, struct spt_notes *notes);

/* Adds what a person has to know of the history behind a case: SPT_FLAG_HISTORY_... */
void spt_history_notes(const struct spt_history_summary *summary, const struct spt_case *question,
                       struct spt_notes *notes);

#ifdef __cplusplus
}
#endif

#endif
