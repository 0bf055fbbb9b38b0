/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "base/table.h"
#include "spalltime/diagnosis.h"

enum spt_ring spt_path_standing(enum spt_ring turning, bool load_turns)
{
    return (turning == SPT_RING_INNER) != load_turns ? SPT_RING_OUTER : SPT_RING_INNER;
}

/* Inner and outer ring where the load stands to the outer one, then where it stands to the inner.
 */
struct paths {
    enum spt_path outer_stands[SPT_RING_COUNT], inner_stands[SPT_RING_COUNT];
};

static const struct paths paths[] = {
    [SPT_PATH_NORMAL] = {{SPT_PATH_ROUND, SPT_PATH_ARC}, {SPT_PATH_ARC, SPT_PATH_ROUND}},
    [SPT_PATH_LOOSE] = {{SPT_PATH_ROUND, SPT_PATH_SHORT}, {SPT_PATH_SHORT, SPT_PATH_ROUND}},
    [SPT_PATH_TIGHT] = {{SPT_PATH_ROUND, SPT_PATH_ROUND_WIDE},
                        {SPT_PATH_ROUND_WIDE, SPT_PATH_ROUND}},
    [SPT_PATH_THRUST] = {{SPT_PATH_ROUND, SPT_PATH_ROUND}, {SPT_PATH_ROUND, SPT_PATH_ROUND}},
    [SPT_PATH_BENT] = {{SPT_PATH_EDGE_ROUND, SPT_PATH_EDGE}, {SPT_PATH_EDGE, SPT_PATH_EDGE_ROUND}},
    [SPT_PATH_INNER_ASKEW] = {{SPT_PATH_SLANTED, SPT_PATH_BROAD},
                              {SPT_PATH_EDGE, SPT_PATH_EDGE_ROUND}},
    [SPT_PATH_OUTER_ASKEW] = {{SPT_PATH_EDGE_ROUND, SPT_PATH_EDGE},
                              {SPT_PATH_BROAD, SPT_PATH_SLANTED}},
    [SPT_PATH_INNER_OVAL] = {{SPT_PATH_TWO, SPT_PATH_LONG}, {SPT_PATH_TWO, SPT_PATH_ROUND}},
    [SPT_PATH_OUTER_OVAL] = {{SPT_PATH_ROUND, SPT_PATH_TWO}, {SPT_PATH_LONG, SPT_PATH_TWO}},
};
SPT_ONE_EACH(paths, SPT_PATH_CONDITION_COUNT);

enum spt_path spt_path_expected(enum spt_path_condition condition, enum spt_ring standing,
                                enum spt_ring ring)
{
    return standing == SPT_RING_OUTER ? paths[condition].outer_stands[ring]
                                      : paths[condition].inner_stands[ring];
}

double spt_path_zone(double arc_rad)
{
    const double whole = 2 * acos(-1);
    return arc_rad >= 0 && arc_rad <= whole * (1 + 1e-12) ? (1 - cos(arc_rad / 2)) / 2
                                                          : (double)NAN;
}
