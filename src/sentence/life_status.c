/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/life_status.h"

#include <math.h>

#include "base/table.h"

enum spt_life_status spt_life_status(double life_h)
{
    return isnan(life_h) ? SPT_LIFE_NONE : isinf(life_h) ? SPT_LIFE_UNLIMITED : SPT_LIFE_RATED;
}

const char *spt_life_status_name(enum spt_life_status status)
{
    static const char *const names[] = {"rated", "unlimited", "none"};
    SPT_ONE_EACH(names, SPT_LIFE_STATUS_COUNT);
    return names[status];
}
