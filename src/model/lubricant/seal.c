/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/seal.h"

#include <math.h>

#include "base/table.h"

#define LIP_YEARS 3.0
#define LIP_H 10000.0
#define LIP_ABRASIVE_YEARS 2.0
#define ABRASIVE 3
#define HOSED 4
#define HOSED_PPM 5000.0 /* the floor of the water factor */
#define DIRTIEST 4
#define WETTEST 3

static const int seal_offsets[] = {
    [SPT_SEAL_NONE] = 1,      [SPT_SEAL_TORN] = 1,       [SPT_SEAL_SHIELD] = 0,
    [SPT_SEAL_GAP] = 0,       [SPT_SEAL_FELT] = -1,      [SPT_SEAL_ONE_LIP] = -1,
    [SPT_SEAL_TWO_LIPS] = -2, [SPT_SEAL_LABYRINTH] = -2, [SPT_SEAL_CASSETTE] = -3,
    [SPT_SEAL_FACE] = -3};
SPT_ONE_EACH(seal_offsets, SPT_SEAL_COUNT);

static const int breather_offsets[] = {[SPT_BREATHER_OPEN] = 0,
                                       [SPT_BREATHER_FILTER] = -1,
                                       [SPT_BREATHER_DRYING] = -1,
                                       [SPT_BREATHER_CLOSED] = -3};
SPT_ONE_EACH(breather_offsets, SPT_BREATHER_COUNT);

/* Dirt of a place, and the water that it may bring where none is stated. */
static const struct {
    int dirt, wet;
} places[] = {
    [SPT_PLACE_CLEAN_ROOM] = {0, SPT_WET_DRY},    [SPT_PLACE_WORKSHOP] = {1, SPT_WET_HUMID},
    [SPT_PLACE_ROAD] = {2, SPT_WET_RAIN},         [SPT_PLACE_DUSTY_FIELD] = {2, SPT_WET_RAIN},
    [SPT_PLACE_DUSTY_PLANT] = {2, SPT_WET_HUMID}, [SPT_PLACE_QUARRY] = {3, SPT_WET_RAIN},
    [SPT_PLACE_SAND] = {3, SPT_WET_RAIN},         [SPT_PLACE_MUD] = {4, SPT_WET_HOSE},
    [SPT_PLACE_SLURRY] = {4, SPT_WET_HOSE}};
SPT_ONE_EACH(places, SPT_PLACE_COUNT);

static const int wets[] = {[SPT_WET_DRY] = 0,  [SPT_WET_HUMID] = 1, [SPT_WET_OUTDOORS] = 2,
                           [SPT_WET_RAIN] = 3, [SPT_WET_HOSE] = 4,  [SPT_WET_IMMERSION] = 4};
SPT_ONE_EACH(wets, SPT_WET_COUNT);

static int clamp(int value, int least, int most)
{
    return value < least ? least : value > most ? most : value;
}

static bool is_word(int word, int count)
{
    return word >= -1 && word < count;
}

static bool is_worn(const struct spt_sealing *sealing)
{
    const bool lip = sealing->seal == SPT_SEAL_ONE_LIP || sealing->seal == SPT_SEAL_TWO_LIPS;
    const bool abrasive = sealing->place >= 0 && places[sealing->place].dirt >= ABRASIVE;
    return lip && (sealing->age_h > LIP_H || sealing->age_years > LIP_YEARS ||
                   (abrasive && sealing->age_years > LIP_ABRASIVE_YEARS));
}

/* The worse of seal and breather; nothing where neither is stated. */
static int find_offset(const struct spt_sealing *sealing, bool worn)
{
    const int seal = sealing->seal < 0 ? -DIRTIEST : seal_offsets[sealing->seal] + worn;
    const int breather = sealing->breather < 0 ? -DIRTIEST : breather_offsets[sealing->breather];
    if (sealing->seal < 0 && sealing->breather < 0)
        return seal_offsets[SPT_SEAL_NONE];
    return seal > breather ? seal : breather;
}

static void find_moisture(const struct spt_sealing *sealing, int offset, struct spt_inflow *inflow)
{
    static const double ppm[] = {100, 200, 400, 1000};
    if (inflow->wet < 0)
        return;
    const int wet = wets[inflow->wet];
    if (wet >= HOSED && sealing->seal == SPT_SEAL_LABYRINTH && offset < 0)
        offset = 0;
    inflow->moisture = clamp(wet + offset, 0, WETTEST);
    inflow->water_ppm = wet >= HOSED && offset >= -1 ? HOSED_PPM : ppm[inflow->moisture];
}

struct spt_inflow spt_seal_inflow(const struct spt_sealing *sealing)
{
    struct spt_inflow inflow = {-1, -1, (double)NAN, -1, false};
    if (!sealing->stated || !is_word(sealing->seal, SPT_SEAL_COUNT) ||
        !is_word(sealing->place, SPT_PLACE_COUNT) ||
        !is_word(sealing->breather, SPT_BREATHER_COUNT) || !is_word(sealing->wet, SPT_WET_COUNT))
        return inflow;
    inflow.worn = is_worn(sealing);
    const int offset = find_offset(sealing, inflow.worn);
    inflow.wet = sealing->wet;
    if (sealing->place >= 0) {
        inflow.class_index = clamp(places[sealing->place].dirt + offset,
                                   sealing->greased_for_life ? 0 : 1, DIRTIEST);
        if (inflow.wet < 0)
            inflow.wet = places[sealing->place].wet;
    }
    find_moisture(sealing, offset, &inflow);
    return inflow;
}
