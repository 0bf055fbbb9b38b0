/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SUPPORT_GREASE_CASE_H
#define SUPPORT_GREASE_CASE_H

#include "spalltime/lubricant.h"

/* The mildest surroundings. */
#define GREASE_MILD                                                                                \
    {                                                                                              \
        SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL                  \
    }

/* The interval of a bearing with a light load (P = 0.04 C), the inner ring turning. */
enum spt_status grease_interval_of(enum spt_bearing_type type, double bore_mm, double speed_rpm,
                                   double temperature_c, const struct spt_surroundings *around,
                                   struct spt_grease_interval *got);

#endif
