/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/grease_case.h"

enum spt_status grease_interval_of(enum spt_bearing_type type, double bore_mm, double speed_rpm,
                                   double temperature_c, const struct spt_surroundings *around,
                                   struct spt_grease_interval *got)
{
    const struct spt_grease_inputs in = {.type = type,
                                         .bore_mm = bore_mm,
                                         .speed_rpm = speed_rpm,
                                         .load_share = 0.04,
                                         .temperature_c = temperature_c,
                                         .around = *around};
    return spt_grease_interval(&in, got);
}
