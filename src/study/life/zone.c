/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "study/life/phase.h"

#define NARROW_DEG                                                                                 \
    45.0 /* half zone in which few elements carry all (common practice, no source)                 \
          */

/* How much of the clearance the thrust leaves: 1 without thrust, 0 from Fa/Fr = e on. */
static double share_left(const struct spt_equivalent_load *load)
{
    return load->limit_ratio > 0 && load->ratio > 0 ? fmax(0, 1 - load->ratio / load->limit_ratio)
                                                    : 1;
}

enum spt_status spt_phase_zone(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    struct spt_clearance clearance;
    const double stated_n = w->phase->equivalent_load_n;
    const double radial_n = isnan(stated_n) ? w->phase->radial_load_n : stated_n;
    const double left = share_left(&out->dynamic);
    if (!w->bearing->has_seat || !(radial_n > 0) || left == 0 ||
        spt_clearance_at_work(w->bearing, &clearance))
        return SPT_OK;
    enum spt_status status =
        spt_clearance_zone(w->bearing, clearance.work.middle_mm, radial_n, &out->zone);
    if (status) {
        out->zone.factor = 1;
        return status == SPT_NOT_APPLICABLE ? SPT_OK : status;
    }
    out->zone.factor = 1 - left * (1 - out->zone.factor);
    if (out->zone.half_deg < NARROW_DEG)
        spt_notes_add(&out->notes, SPT_FLAG_ZONE_NARROW, out->zone.half_deg, out->zone.factor);
    return SPT_OK;
}
