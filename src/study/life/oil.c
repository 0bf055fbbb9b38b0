/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

struct spt_oil spt_case_oil(const struct spt_case *question)
{
    const struct spt_lubricant *lubricant = &question->lubricant;
    const bool circulating = spt_lubrication_like(lubricant->kind) == SPT_LUBRICATION_CIRCULATING;
    struct spt_oil oil = {lubricant->base_oil, SPT_INHIBITION_EP_GEAR,
                          circulating && lubricant->sampled};
    if (lubricant->oil_life_stated)
        oil.inhibition = lubricant->oil_life;
    else if (circulating)
        oil.inhibition = SPT_INHIBITION_HYDRAULIC;
    return oil;
}
