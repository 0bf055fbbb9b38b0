/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/machine/beam.h"

#include <math.h>

#include "model/numeric.h"

#define YOUNG_MPA 206e3    /* steel */
#define SAME_PLACE_MM 1e-6 /* nodes that are nearer are one node; ours */
#define UNKNOWNS (2 * SPT_BEAM_NODES_MAX)

struct beam {
    struct spt_beam_line *line;
    double band[UNKNOWNS * SPT_BEAM_BAND];  /* [i][k]: row i + k of column i */
    double whole[UNKNOWNS * SPT_BEAM_BAND]; /* without supports */
    double load[UNKNOWNS];
};

static int find_node(const struct spt_beam_line *line, double at_mm)
{
    for (int i = 0; i < line->count; i++)
        if (fabs(line->at_mm[i] - at_mm) < SAME_PLACE_MM)
            return i;
    return -1;
}

/* Inserts a node in ascending order. */
static void add_node(struct spt_beam_line *line, double at_mm)
{
    if (find_node(line, at_mm) >= 0 || line->count == SPT_BEAM_NODES_MAX)
        return;
    int i = line->count++;
    for (; i > 0 && line->at_mm[i - 1] > at_mm; i--)
        line->at_mm[i] = line->at_mm[i - 1];
    line->at_mm[i] = at_mm;
}

static void place_nodes(const struct spt_machine_shaft *shaft, const struct spt_beam_load *loads,
                        int count, struct spt_beam_line *line)
{
    line->count = 0;
    for (int i = 0; i < count; i++)
        add_node(line, loads[i].at_mm);
    for (int i = 0; i < shaft->support_count; i++)
        add_node(line, shaft->supports[i].centre_mm);
    double first = line->at_mm[0], last = line->at_mm[line->count - 1];
    for (int i = 0; i < shaft->piece_count; i++)
        if (shaft->pieces[i].to_mm > first && shaft->pieces[i].to_mm < last)
            add_node(line, shaft->pieces[i].to_mm);
}

/* Bending stiffness of the piece that holds a place; 0 outside all. */
static double stiffness_at(const struct spt_machine_shaft *shaft, double at_mm)
{
    if (at_mm < shaft->start_mm - SAME_PLACE_MM)
        return 0;
    for (int i = 0; i < shaft->piece_count; i++)
        if (at_mm <= shaft->pieces[i].to_mm + SAME_PLACE_MM)
            return YOUNG_MPA * acos(-1.0) / 64 *
                   (pow(shaft->pieces[i].diameter_mm, 4) - pow(shaft->pieces[i].bore_mm, 4));
    return 0;
}

static void add_element(double *band, int node, double ei, double h)
{
    const double k[4][4] = {{12, 6 * h, -12, 6 * h},
                            {6 * h, 4 * h * h, -6 * h, 2 * h * h},
                            {-12, -6 * h, 12, -6 * h},
                            {6 * h, 2 * h * h, -6 * h, 4 * h * h}};
    for (int column = 0; column < 4; column++)
        for (int row = column; row < 4; row++)
            band[(2 * node + column) * SPT_BEAM_BAND + row - column] +=
                ei / (h * h * h) * k[row][column];
}

static bool assemble(const struct spt_machine_shaft *shaft, struct beam *beam)
{
    for (int i = 0; i + 1 < beam->line->count; i++) {
        double from = beam->line->at_mm[i], to = beam->line->at_mm[i + 1];
        double ei = stiffness_at(shaft, (from + to) / 2);
        if (!(ei > 0))
            return false;
        add_element(beam->whole, i, ei, to - from);
    }
    for (int i = 0; i < 2 * beam->line->count * SPT_BEAM_BAND; i++)
        beam->band[i] = beam->whole[i];
    return true;
}

/* Row i of the stiffness times the unknowns. */
static double row_times(const struct beam *beam, const double *unknown, int i)
{
    int n = 2 * beam->line->count;
    double sum = 0;
    for (int k = 0; k < SPT_BEAM_BAND; k++) {
        if (i + k < n)
            sum += beam->whole[i * SPT_BEAM_BAND + k] * unknown[i + k];
        if (k > 0 && i - k >= 0)
            sum += beam->whole[(i - k) * SPT_BEAM_BAND + k] * unknown[i - k];
    }
    return sum;
}

/* A rigid support: its row and column become those of the identity. */
static void fix(struct beam *beam, int i, double moved_mm)
{
    int n = 2 * beam->line->count;
    for (int k = 1; k < SPT_BEAM_BAND; k++) {
        if (i + k < n) {
            beam->load[i + k] -= beam->band[i * SPT_BEAM_BAND + k] * moved_mm;
            beam->band[i * SPT_BEAM_BAND + k] = 0;
        }
        if (i - k >= 0) {
            beam->load[i - k] -= beam->band[(i - k) * SPT_BEAM_BAND + k] * moved_mm;
            beam->band[(i - k) * SPT_BEAM_BAND + k] = 0;
        }
    }
    beam->band[i * SPT_BEAM_BAND] = 1;
    beam->load[i] = moved_mm;
}

static void support(const struct spt_machine_shaft *shaft, int plane, struct beam *beam)
{
    for (int s = 0; s < shaft->support_count; s++) {
        const struct spt_support *at = &shaft->supports[s];
        int i = 2 * find_node(beam->line, at->centre_mm);
        if (isinf(at->stiffness_n_mm))
            continue;
        beam->band[i * SPT_BEAM_BAND] += at->stiffness_n_mm;
        beam->load[i] += at->stiffness_n_mm * at->offset_mm[plane];
    }
    for (int s = 0; s < shaft->support_count; s++)
        if (isinf(shaft->supports[s].stiffness_n_mm))
            fix(beam, 2 * find_node(beam->line, shaft->supports[s].centre_mm),
                shaft->supports[s].offset_mm[plane]);
}

static double applied(const struct spt_beam_load *loads, int count, double at_mm)
{
    double sum = 0;
    for (int i = 0; i < count; i++)
        if (fabs(loads[i].at_mm - at_mm) < SAME_PLACE_MM)
            sum += loads[i].force_n;
    return sum;
}

enum spt_status spt_beam_line(const struct spt_machine_shaft *shaft,
                              const struct spt_beam_load *loads, int count, int plane,
                              struct spt_beam_line *line, double *reactions_n)
{
    struct beam beam = {.line = line};
    place_nodes(shaft, loads, count, line);
    if (!assemble(shaft, &beam))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++) {
        int node = find_node(line, loads[i].at_mm);
        beam.load[2 * node] += loads[i].force_n;
        beam.load[2 * node + 1] += loads[i].moment_nmm;
    }
    support(shaft, plane, &beam);
    enum spt_status status =
        spt_numeric_band_solve(beam.band, SPT_BEAM_BAND, 2 * line->count, beam.load);
    if (status)
        return status;
    for (int i = 0; i < 2 * line->count; i++)
        line->unknown[i] = beam.load[i];
    for (int s = 0; s < shaft->support_count; s++) {
        double at = shaft->supports[s].centre_mm;
        reactions_n[s] =
            row_times(&beam, line->unknown, 2 * find_node(line, at)) - applied(loads, count, at);
    }
    return SPT_OK;
}

double spt_beam_slope(const struct spt_beam_line *line, double at_mm)
{
    int node = find_node(line, at_mm);
    return node < 0 ? (double)NAN : line->unknown[2 * node + 1];
}
