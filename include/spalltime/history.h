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
 * phase of a duty cycle. Samples are added one at a time and not stored, so that memory use does
 * not grow with the history; their order does not matter.
 *
 * Fatigue of a rolling bearing depends on the revolutions at each load (Palmgren-Miner with L ~
 * P^-p), so a bin holds time and revolutions. Closed load cycles are not counted (rainflow counting
 * is for structures whose cycles are those of the load; here every passing rolling element is a
 * cycle).
 *
 * For a hub, a bin preserves the damage of both rows together; two factors close to 1 on the loads
 * of all bins then restore the damage of each row over the whole duty, where such factors exist.
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
    SPT_HISTORY_ALONE  /* two loads without a bearing: each has its own power mean */
};

#define SPT_HISTORY_ROWS 2      /* a history is of one bearing, or of the two rows of a hub */
#define SPT_HISTORY_BINS_MAX 64 /* of one axis */
#define SPT_HISTORY_LOAD_MAX_N 1e9
#define SPT_HISTORY_HOURS_MAX 1e9
#define SPT_HISTORY_HOURS_MIN 1e-12 /* of one sample: 4 ns */
/* below it the bearing counts as standing: a revolution takes a thousand years */
#define SPT_HISTORY_STILL_RPM 1e-9

struct spt_history_terms {
    enum spt_history_kind kind;
    const struct spt_bearing *bearing;       /* SPT_HISTORY_PARTS */
    const struct spt_hub_handbook *handbook; /* SPT_HISTORY_WHEEL */
    double rolling_radius_mm;                /* SPT_HISTORY_WHEEL, > 0 */
    double exponent;                         /* p, above 0 */
    bool signed_side;                        /* the sign of the side load is kept (WHEEL: always) */
    double standing_rpm;                     /* at or below it the bearing stands still; >= 0,
                                                  also below SPT_HISTORY_STILL_RPM */
    bool has_temperature;                    /* false: temperatures are ignored */
    /* largest numbers that will be requested; 1 to SPT_HISTORY_BINS_MAX */
    int bins[SPT_HISTORY_AXES];
};

struct spt_history_sample {
    double duration_h;    /* SPT_HISTORY_HOURS_MIN to _MAX */
    double speed_rpm;     /* up to 1e6 in absolute value, which is used */
    double load_n;        /* radial, equivalent or wheel load; the absolute value is used */
    double side_n;        /* axial load (absolute value) or side force (with its sign); 0: none */
    double temperature_c; /* -273.15 to 1000 */
};

/* Compensated sum (Neumaier 1974). */
struct spt_history_sum {
    double value, rest;
};

struct spt_history_sums {
    long long samples;
    struct spt_history_sum time_h, revolutions, temperature; /* times revolutions */
    struct spt_history_sum load, side;                       /* load^p times revolutions */
    struct spt_history_sum damage[SPT_HISTORY_ROWS];         /* P^p times revolutions */
};

/* One non-empty bin. */
struct spt_history_bin {
    bool standing; /* the time without revolutions; its loads are the largest of that time */
    int at[SPT_HISTORY_AXES]; /* index of the bin along each axis, from 0 */
    struct spt_history_sums sums;
    double time_h, speed_rpm, temperature_c; /* temperature NaN where not looked at */
    double load_n, side_n; /* as the samples state them: they make the equivalent loads below */
    double equivalent_n[SPT_HISTORY_ROWS]; /* power means of the rows; 0 for no second row */
};

/* The grid of one axis; opaque. */
struct spt_history_grid {
    bool used;
    bool any;
    int cells;          /* number of cells over the range */
    int level;          /* a cell is 2^level wide */
    double scale;       /* 2^-level */
    double least, most; /* range of the values so far */
};

struct spt_history {
    struct spt_history_terms terms;
    int rows; /* rows of rolling elements: 2 for a hub */
    struct spt_history_grid grids[SPT_HISTORY_AXES];
    struct spt_history_sums *cells, *spare; /* in the caller's memory */
    size_t cell_count;
    struct spt_history_sums total; /* samples with revolutions */
    struct spt_history_sum standing_h, standing_temperature, standing_revolutions;
    struct spt_history_sample stillest; /* sample with the largest load at standstill */
    struct spt_history_sample hardest;  /* sample with the largest load of all */
    double stillest_n, hardest_n; /* these loads: P of the more heavily loaded row; -1: none */
    long long standing_samples;
    long long reversed_samples; /* with any of the next three */
    long long reversed_speeds, reversed_loads, reversed_sides;
};

/* Size in bytes of the memory that spt_history_begin needs; 0 where the terms are not valid. */
size_t spt_history_size(const struct spt_history_terms *terms);

/* In:     terms (the bearing or handbook is borrowed); `memory`: memory of `size` bytes, aligned
 * for any object. Status: SPT_BAD_ARGUMENT; SPT_TOO_SMALL. */
enum spt_status spt_history_begin(const struct spt_history_terms *terms, void *memory, size_t size,
                                  struct spt_history *history);

/* Adds one sample.
 * Status: SPT_BAD_ARGUMENT for a number that is not finite or outside the ranges above (the sample
 *         is then not added); as the load functions where the loads have no equivalent load. */
enum spt_status spt_history_add(struct spt_history *history,
                                const struct spt_history_sample *sample);

/* The non-empty bins in the order of their indices, the one for standstill last. Each axis is
 * divided into the requested number of bins (1 to twice that of the terms) over the range of the
 * samples, fewer where that range has no width. An axis with values of both signs has an even
 * number, so that no bin mixes signs.
 * Status: SPT_TOO_SMALL where there are more than `most`; SPT_BAD_ARGUMENT. */
enum spt_status spt_history_bins(const struct spt_history *history,
                                 const int bins[SPT_HISTORY_AXES], struct spt_history_bin *list,
                                 int most, int *count);

/* Number of bins that an axis is divided into where `bins` are requested: see above. */
int spt_history_bins_used(const struct spt_history *history, enum spt_history_axis axis, int bins);

/* Edges of bin `number` of `bins` of an axis. */
void spt_history_edges(const struct spt_history *history, enum spt_history_axis axis, int bins,
                       int number, double *low, double *high);

/* Equivalent load of each row for a pair of loads; the second is 0 where there is only one row. */
enum spt_status spt_history_equivalent(const struct spt_history_terms *terms, double load_n,
                                       double side_n, double equivalent_n[SPT_HISTORY_ROWS]);

/* Basic rating life in hours, by (C/P_m)^p at the mean speed, from the samples, and from the bins
 * with equivalent loads recomputed from the loads of the bins; the difference is the error of
 * binning.
 * In:     C of each row in N (> 0).
 * Result: INFINITY where there is no damage. Two rows: at 90 % by spt_survival_series.
 * Status: SPT_BAD_ARGUMENT. */
struct spt_history_basic {
    double samples_h, bins_h;
};
enum spt_status spt_history_basic_life(const struct spt_history *history,
                                       const struct spt_history_bin *bins, int count,
                                       const double rating_n[SPT_HISTORY_ROWS],
                                       struct spt_history_basic *life);

/* Modified rating life of a case whose phases are replaced by bins; everything else (condition,
 * ambient, a temperature that the history does not contain) is as in its first phase; setting
 * factors of a hub are not included. `phases` and `results`: buffers for `count` each.
 * Status: as spt_assess_bearing; SPT_TOO_SMALL above SPT_PHASES_MAX. */
enum spt_status spt_history_modified_life(const struct spt_history *history,
                                          const struct spt_case *question,
                                          const struct spt_history_bin *bins, int count,
                                          struct spt_phase *phases,
                                          struct spt_phase_result *results, double *life_h);

/* Summary of the history that the duty of a case was binned from. */
struct spt_history_summary {
    const char *source;
    long long rows;    /* rows of the file, including a last one that only ends the record */
    long long samples; /* samples used */
    double hours, turning_h, standing_h;
    bool stamped;   /* the file has time stamps, not durations */
    double gap_h;   /* longer steps count as gaps; NaN: none do */
    long long gaps; /* gaps left out, and below the hours in them */
    double gaps_h;
    double longest_h; /* longest duration of one sample, and below its row */
    int longest_line;
    double usual_h; /* median duration of a sample, within a few percent; NaN: not known */
    double standing_rpm, standing_revolutions; /* threshold; revolutions ignored below it */
    long long reversed_samples;                /* with any of the next three */
    long long reversed_speeds, reversed_loads, reversed_sides;
    int bins[SPT_HISTORY_AXES];
    int phases;
    bool coarsened; /* fewer bins than usual, to stay within the limit */
    double exponent;
    double mean_speed_rpm, mean_load_n; /* power mean of the row that carries more */
    double largest_n;                   /* equivalent load of the hardest sample */
    double resting_n[SPT_HISTORY_ROWS]; /* P0 of that sample; NaN: not known */
    struct spt_history_basic basic;     /* NaN without a bearing */
    double modified_h, refined_h; /* life with these bins, with twice as many; NaN: not known */
    int refined_phases;
};

/* Fills in what follows from the history itself: times, negative values, means, the sample with the
 * largest load; P0 also needs the bearings of a case (may be NULL). The rest is set to 0 and
 * NaN. */
void spt_history_summarise(const struct spt_history *history, const struct spt_case *question,
                           struct spt_history_summary *summary);

/* Adds the flag for a step between two time stamps that is far longer than usual and may be a
 * gap. */
void spt_history_note_hold(const struct spt_history_summary *summary, struct spt_notes *notes);

/* Adds the flags SPT_FLAG_HISTORY_... of the history behind a case. */
void spt_history_notes(const struct spt_history_summary *summary, const struct spt_case *question,
                       struct spt_notes *notes);

#ifdef __cplusplus
}
#endif

#endif
