/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_place.h"

#include <math.h>

#define MISFIT 1e-12 /* of angles that count as symmetric, rad */

/* A place of one row: the number of rollers that are their own image, that number with one of each
 * pair (0: not symmetric), the cosines, the sines. Before the first place stands for how many
 * positions of the cages the places are filled (0: the first alone). */
enum { SINGLE, HALF, NUMBERS };

static size_t measure_place(int elements)
{
    return NUMBERS + 2 * (size_t)elements;
}

size_t spt_hub_places_length(int elements)
{
    return 1 + SPT_HUB_PLACES * measure_place(elements);
}

static double *place_of(const struct spt_hub_model *model, int row, int place)
{
    size_t length = measure_place(model->hub.rows[row].geometry.elements);
    return model->tables[row].places + 1 + (size_t)place * length;
}

/* What a roller is to its mirror image. */
enum side { ITS_OWN_IMAGE, COUNTED, IMAGE, SIDE_COUNT };

/* The image of roller j is roller sum - j. */
static enum side find_side(int j, long sum, int z)
{
    int image = (int)(((sum - j) % z + z) % z);
    return image == j ? ITS_OWN_IMAGE : j < image ? COUNTED : IMAGE;
}

static void place_row(const struct spt_hub_row *row, double share, double *place)
{
    int z = row->geometry.elements, count = 0;
    double pitch = 2 * SPT_HUB_PI / z, phase = row->phase_rad + share * pitch;
    double sum = (SPT_HUB_PI - 2 * phase) / pitch, whole = nearbyint(sum);
    bool symmetric = fabs(sum - whole) * pitch <= MISFIT;
    double *cosine = place + NUMBERS, *sine = cosine + z;
    place[SINGLE] = place[HALF] = 0;
    for (int side = 0; side < SIDE_COUNT; side++) {
        for (int j = 0; j < z; j++) {
            if (symmetric ? (int)find_side(j, lround(fmod(whole, z)), z) != side : side > 0)
                continue;
            cosine[count] = cos(phase + j * pitch);
            sine[count++] = sin(phase + j * pitch);
        }
        if (symmetric && side != IMAGE)
            place[side == COUNTED ? HALF : SINGLE] = count;
    }
}

void spt_hub_place_rollers(const struct spt_hub_model *model, int place, double share)
{
    for (int row = 0; row < model->hub.row_count; row++)
        place_row(&model->hub.rows[row], share, place_of(model, row, place));
    model->tables[0].places[0] = 0;
}

void spt_hub_place_cages(const struct spt_hub_model *model, int positions)
{
    if (positions <= 1 || model->tables[0].places[0] == positions)
        return;
    for (int i = 0; i < positions; i++)
        spt_hub_place_rollers(model, i, (double)i / positions);
    model->tables[0].places[0] = positions;
}

bool spt_hub_place_is_symmetric(const struct spt_hub_model *model, int place)
{
    for (int row = 0; row < model->hub.row_count; row++)
        if (place_of(model, row, place)[HALF] == 0)
            return false;
    return true;
}

bool spt_hub_load_is_symmetric(const struct spt_hub_model *model, const struct spt_hub_load *load)
{
    for (int row = 0; row < model->hub.row_count; row++)
        if (model->hub.rows[row].misalignment_y_rad != 0)
            return false;
    return load->force_x_n == 0 && load->moment_y_nmm == 0;
}

struct spt_hub_rollers spt_hub_place_row(const struct spt_hub_model *model, int row, int place,
                                         bool halved)
{
    int z = model->hub.rows[row].geometry.elements;
    const double *from = place_of(model, row, place);
    return (struct spt_hub_rollers){
        .cosine = from + NUMBERS,
        .sine = from + NUMBERS + z,
        .count = halved ? (int)from[HALF] : z,
        .single = halved ? (int)from[SINGLE] : z,
        .weight = 2,
    };
}
