/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/hub/hub_internal.h"

static void clear(const struct spt_hub_model *model, struct spt_hub_result *result)
{
    const double none = (double)NAN;
    for (int i = 0; i < 2; i++) {
        result->contact[i] = (struct spt_hub_contact){none, 0, none, none, none};
        result->life[i] = (struct spt_hub_life){none, none, none, none, none, none};
    }
    result->preload_n = none;
    result->laminae = model->hub.laminae;
    result->edge_function = model->hub.edge_function;
}

enum spt_status spt_hub_assess(const struct spt_hub_model *model, double setting_mm,
                               const struct spt_hub_load *load,
                               const struct spt_hub_lubrication *lubrication,
                               struct spt_hub_result *result)
{
    clear(model, result);
    enum spt_status status = spt_hub_solve(model, setting_mm, load, NULL, &result->solution);
    for (int i = 0; status == SPT_OK && i < model->hub.row_count; i++) {
        spt_hub_contact(model, &result->solution, i, &result->contact[i]);
        status = spt_hub_life(model, &result->solution, i, lubrication ? &lubrication[i] : NULL,
                              &result->life[i]);
    }
    if (status == SPT_OK && model->hub.row_count == 2)
        status = spt_hub_preload_force(model, setting_mm, &result->preload_n);
    if (status != SPT_OK)
        clear(model, result);
    return status;
}
