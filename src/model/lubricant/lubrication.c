/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "base/table.h"
#include "spalltime/lubricant.h"

/* What a way of lubricating decides in the models. */
static const struct {
    enum spt_lubrication like;
    double rib_limit_m_s;
} ways[] = {
    [SPT_LUBRICATION_GREASE] = {SPT_LUBRICATION_GREASE, 5},
    [SPT_LUBRICATION_OIL_BATH] = {SPT_LUBRICATION_OIL_BATH, 13},
    [SPT_LUBRICATION_CIRCULATING] = {SPT_LUBRICATION_CIRCULATING, 25},
};
SPT_ONE_EACH(ways, SPT_LUBRICATION_COUNT);

bool spt_lubrication_is_known(enum spt_lubrication kind)
{
    return (int)kind >= 0 && kind < SPT_LUBRICATION_COUNT;
}

enum spt_lubrication spt_lubrication_like(enum spt_lubrication kind)
{
    return spt_lubrication_is_known(kind) ? ways[kind].like : SPT_LUBRICATION_GREASE;
}

double spt_lubrication_rib_limit_m_s(enum spt_lubrication kind)
{
    return spt_lubrication_is_known(kind) ? ways[kind].rib_limit_m_s : (double)NAN;
}
