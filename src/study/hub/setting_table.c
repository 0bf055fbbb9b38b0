/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/hub/setting_table.h"

#include <math.h>

#define LOAD_EXPONENT (10.0 / 3.0)
#define DEFLECTION_POWER 0.9 /* of a line contact, Q = c delta^(10/9) (ISO 16281, from memory) */
#define COARSEST_MM 8        /* finest intervals to one at the start: 16 intervals */
#define COARSEST_LOAD 4      /* 4 intervals */
#define LOADS_MAX (SPT_SETTING_TABLE_FINEST_LOAD + 1)
#define UNKNOWN (-1.0)
#define EDGE 1e-9 /* tolerance for round-off at the ends of the table, over its width */

size_t spt_setting_table_length(int phases)
{
    return (size_t)(SPT_SETTING_TABLE_FINEST_MM + 1) * LOADS_MAX * 2 * (size_t)phases;
}

void spt_setting_table_begin(struct spt_setting_table *table, double *values, int phases,
                             const double settings_mm[2], const double loads[2])
{
    bool wide = settings_mm[0] < settings_mm[1], loaded = loads[0] < loads[1];
    *table = (struct spt_setting_table){
        .values = values,
        .entries = 2 * phases,
        .log_low = log(loads[0]),
        .log_high = log(loads[1]),
        .power = wide && loaded ? DEFLECTION_POWER : 0,
        .setting_step = wide ? COARSEST_MM : 0,
        .load_step = loaded ? COARSEST_LOAD : 0,
    };
    double most = pow(loads[0], -table->power), least = pow(loads[1], -table->power);
    table->low_mm = fmin(settings_mm[0] * most, settings_mm[0] * least);
    table->high_mm = fmax(settings_mm[1] * most, settings_mm[1] * least);
    for (size_t i = 0; i < spt_setting_table_length(phases); i++)
        values[i] = UNKNOWN;
}

static int count_settings(const struct spt_setting_table *table)
{
    return table->setting_step ? SPT_SETTING_TABLE_FINEST_MM / table->setting_step + 1 : 1;
}

static int count_loads(const struct spt_setting_table *table)
{
    return table->load_step ? SPT_SETTING_TABLE_FINEST_LOAD / table->load_step + 1 : 1;
}

int spt_setting_table_count(const struct spt_setting_table *table)
{
    return count_settings(table) * count_loads(table);
}

static double *node_at(const struct spt_setting_table *table, int setting, int load)
{
    long place = (long)setting * table->setting_step * LOADS_MAX + (long)load * table->load_step;
    return table->values + place * table->entries;
}

/* Chebyshev points of the second kind on -1 to 1, nested between steps. */
static double place_of_load(const struct spt_setting_table *table, int load)
{
    return -cos(M_PI * load * table->load_step / SPT_SETTING_TABLE_FINEST_LOAD);
}

static double load_of(const struct spt_setting_table *table, int load)
{
    double part = (place_of_load(table, load) + 1) / 2;
    return table->load_step ? exp(table->log_low + part * (table->log_high - table->log_low))
                            : exp(table->log_low);
}

static void fill_node(const struct spt_setting_table *table, const struct spt_hub_bench *bench,
                      double running_mm, bool loaded, double *node)
{
    double(*factors)[2] = bench->workspace->factors;
    bool solved = loaded && !spt_hub_bench_factors(bench, false, running_mm - bench->thermal_mm,
                                                   factors, NULL);
    for (int i = 0; i < table->entries; i++)
        node[i] = solved ? pow(factors[i / 2][i % 2], -1 / LOAD_EXPONENT) : (double)NAN;
}

void spt_setting_table_fill(const struct spt_setting_table *table, struct spt_hub_bench *bench,
                            int first, int last)
{
    int settings = count_settings(table), at_load = -1;
    bool loaded = false;
    for (int i = first; i < last; i++) {
        int load = i / settings, setting = i % settings;
        double *node = node_at(table, setting, load);
        if (*node != UNKNOWN)
            continue;
        double factor = load_of(table, load);
        if (load != at_load)
            loaded = !spt_hub_bench_load(bench, factor, NULL);
        at_load = load;
        double part = settings > 1 ? (double)setting / (settings - 1) : 0;
        double scaled_mm = table->low_mm + part * (table->high_mm - table->low_mm);
        fill_node(table, bench, scaled_mm * pow(factor, table->power), loaded, node);
    }
}

bool spt_setting_table_refine(struct spt_setting_table *table, bool along_load)
{
    int *step = along_load ? &table->load_step : &table->setting_step;
    if (*step <= 1)
        return false;
    *step /= 2;
    return true;
}

/* Nodes used for the interpolation at a point, and their weights. */
struct stencil {
    int first, count;
    double weights[LOADS_MAX];
};

/* Cubic interpolation through the four nodes around the point; false outside the table. */
static bool weigh_settings(const struct spt_setting_table *table, double scaled_mm,
                           struct stencil *to)
{
    int count = count_settings(table);
    double width_mm = table->high_mm - table->low_mm, slack_mm = EDGE * (width_mm + 1e-3);
    *to = (struct stencil){0, 1, {1}};
    if (!(scaled_mm >= table->low_mm - slack_mm) || !(scaled_mm <= table->high_mm + slack_mm))
        return false;
    if (count == 1)
        return true;
    double place = (scaled_mm - table->low_mm) / width_mm * (count - 1);
    int first = (int)floor(place) - 1;
    to->first = first < 0 ? 0 : first > count - 4 ? count - 4 : first;
    to->count = 4;
    double t = place - to->first;
    to->weights[0] = -(t - 1) * (t - 2) * (t - 3) / 6;
    to->weights[1] = t * (t - 2) * (t - 3) / 2;
    to->weights[2] = -t * (t - 1) * (t - 3) / 2;
    to->weights[3] = t * (t - 1) * (t - 2) / 6;
    return true;
}

/* The polynomial through all loads, by the barycentric formula (Berrut and Trefethen 2004). */
static bool weigh_loads(const struct spt_setting_table *table, double load, struct stencil *to)
{
    double x = 0, sum = 0;
    int count = count_loads(table);
    *to = (struct stencil){0, count, {1}};
    double width = table->log_high - table->log_low;
    x = width > 0 ? 2 * (log(load) - table->log_low) / width - 1 : log(load) - table->log_low;
    if (!(fabs(x) <= 1 + EDGE) || (count == 1 && fabs(x) > EDGE))
        return false;
    for (int i = 0; i < count && count > 1; i++) {
        double apart = x - place_of_load(table, i);
        if (apart == 0) {
            *to = (struct stencil){i, 1, {1}};
            return true;
        }
        to->weights[i] = (i % 2 ? -1 : 1) * (i == 0 || i == count - 1 ? 0.5 : 1) / apart;
        sum += to->weights[i];
    }
    for (int i = 0; i < count && count > 1; i++)
        to->weights[i] /= sum;
    return true;
}

bool spt_setting_table_read(const struct spt_setting_table *table, double running_mm, double load,
                            double (*factors)[2])
{
    struct stencil settings, loads;
    double ratios[2 * SPT_HUB_PHASES_MAX] = {0};
    double scaled_mm = table->power > 0 ? running_mm * pow(load, -table->power) : running_mm;
    if (!weigh_loads(table, load, &loads) || !weigh_settings(table, scaled_mm, &settings))
        return false;
    for (int i = 0; i < settings.count; i++)
        for (int j = 0; j < loads.count; j++) {
            double weight = settings.weights[i] * loads.weights[j];
            const double *node = node_at(table, settings.first + i, loads.first + j);
            for (int k = 0; k < table->entries; k++)
                ratios[k] += weight * node[k];
        }
    for (int k = 0; k < table->entries; k++) {
        if (isnan(ratios[k]))
            return false;
        /* interpolation may give a slightly negative value for a nearly unloaded row */
        factors[k / 2][k % 2] = ratios[k] > 0 ? pow(ratios[k], -LOAD_EXPONENT) : (double)INFINITY;
    }
    return true;
}
