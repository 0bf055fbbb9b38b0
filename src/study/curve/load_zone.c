/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/curve/load_zone.h"

#include <math.h>
#include <string.h>

#define PI 3.14159265358979323846

size_t spt_load_zones_length(const struct spt_hub_case *hub)
{
    size_t rollers = 0;
    for (int row = 0; row < 2; row++)
        rollers += (size_t)hub->hub.rows[row].geometry.elements;
    return 2 * SPT_LOAD_ZONES_MAX * rollers;
}

/* Damage share of a phase: the larger one of the two rows. */
static double find_damage(const struct spt_assessment *assessment, int phase)
{
    double most = 0;
    for (int row = 0; row < 2; row++)
        most = fmax(most, assessment->bearings[row].phases[phase].damage_share);
    return most;
}

static bool is_costly(const struct spt_assessment *assessment, int phase)
{
    int costlier = 0;
    double damage = find_damage(assessment, phase);
    for (int i = 0; i < assessment->bearings[0].phase_count; i++) {
        double other = find_damage(assessment, i);
        costlier += other > damage || (i < phase && other == damage);
    }
    return costlier < SPT_LOAD_ZONES_MAX;
}

static void fill_row(const struct spt_hub_bench *bench, const struct spt_hub_solution *solution,
                     int row, struct spt_load_zone_row *to)
{
    const struct spt_hub_row *of = &bench->model.hub.rows[row];
    spt_hub_contact(&bench->model, solution, row, &to->contact);
    for (int i = 0; i < to->roller_count; i++) {
        to->angle_rad[i] = of->phase_rad + 2 * PI * i / to->roller_count;
        to->load_n[i] = bench->model.tables[row].roller_load_n[i];
    }
}

static enum spt_status fill_zone(const struct spt_hub_bench *bench, double setting_mm,
                                 struct spt_load_zone *zone)
{
    struct spt_hub_solution solution;
    enum spt_status status = spt_hub_solve(
        &bench->model, setting_mm, &bench->workspace->cases[zone->phase].load, NULL, &solution);
    if (status == SPT_FREE)
        return SPT_OK;
    zone->carries = !status;
    for (int row = 0; row < 2 && !status; row++)
        fill_row(bench, &solution, row, &zone->rows[row]);
    return status;
}

/* Gives the rows of a zone their part of the buffer. Result: the rest of the buffer. */
static double *assign_rows(const struct spt_hub_case *hub, double *buffer,
                           struct spt_load_zone *zone)
{
    for (int row = 0; row < 2; row++) {
        int count = hub->hub.rows[row].geometry.elements;
        zone->rows[row].roller_count = count;
        zone->rows[row].angle_rad = buffer;
        zone->rows[row].load_n = buffer + count;
        buffer += 2 * count;
    }
    return buffer;
}

enum spt_status spt_load_zones(const struct spt_hub_bench *bench,
                               const struct spt_assessment *assessment, double *buffer,
                               struct spt_load_zones *zones)
{
    const struct spt_hub_case *hub = bench->question->hub;
    enum spt_status status = SPT_OK;
    memset(zones, 0, sizeof *zones);
    memset(buffer, 0, spt_load_zones_length(hub) * sizeof *buffer);
    zones->phase_count = assessment->bearings[0].phase_count;
    zones->setting_mm = bench->mounted_mm + bench->thermal_mm;
    for (int i = 0; i < zones->phase_count && !status; i++) {
        if (!is_costly(assessment, i))
            continue;
        struct spt_load_zone *zone = &zones->zones[zones->count++];
        zone->phase = i;
        buffer = assign_rows(hub, buffer, zone);
        status = fill_zone(bench, zones->setting_mm, zone);
        for (int row = 0; row < 2; row++)
            zones->highest_n = fmax(zones->highest_n, zone->rows[row].contact.max_roller_load_n);
    }
    return status;
}
