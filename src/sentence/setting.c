/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/setting.h"

#include <math.h>
#include <stdio.h>

const char *spt_hub_row_name(int row)
{
    static const char *const names[2] = {"inboard", "outboard"};
    return names[row];
}

const char *spt_text_setting(double setting_mm, char *buffer)
{
    if (isnan(setting_mm))
        snprintf(buffer, SPT_SETTING_LENGTH, "none");
    else if (fabs(setting_mm) < 5e-5)
        snprintf(buffer, SPT_SETTING_LENGTH, "no end play");
    else
        snprintf(buffer, SPT_SETTING_LENGTH, "%.3g mm %s", fabs(setting_mm),
                 setting_mm < 0 ? "preload" : "end play");
    return buffer;
}

bool spt_setting_has_other_best(const struct spt_hub_curve *curve)
{
    return curve->study.advised.setting_mm > curve->study.best.setting_mm;
}

bool spt_setting_is_preloaded(const struct spt_hub_curve *curve, double mounted_mm)
{
    return mounted_mm < curve->least_mm - SPT_HUB_PRELOAD_LEAST_MM;
}
