/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/hub_internal.h"

#define TRIES_MAX 200

enum spt_status spt_hub_preload_force(const struct spt_hub_model *model, double setting_mm,
                                      double *preload_n)
{
    static const struct spt_hub_load none = {0, 0, 0, 0, 0};
    struct spt_hub_solution solution;
    *preload_n = (double)NAN;
    if (model->hub.row_count != 2)
        return SPT_NOT_APPLICABLE;
    enum spt_status status = spt_hub_solve(model, setting_mm, &none, NULL, &solution);
    if (status == SPT_OK)
        *preload_n = solution.axial_n[0];
    if (status == SPT_FREE)
        *preload_n = 0;
    return status == SPT_FREE ? SPT_OK : status;
}

/* Two settings with the preload above and below the wanted one, as their differences. */
struct bracket {
    double tight_mm, tight_n; /* >= 0 */
    double loose_mm, loose_n; /* <= 0 */
};

static enum spt_status step_out(const struct spt_hub_model *model, double wanted, struct bracket *b)
{
    double force;
    enum spt_status status = spt_hub_preload_force(model, 0, &force);
    if (status != SPT_OK)
        return status;
    double way = force >= wanted ? 1 : -1, last = 0, last_n = force - wanted;
    for (double e = 0.01; e <= SPT_HUB_SETTING_MAX_MM; e *= 2) {
        status = spt_hub_preload_force(model, way * e, &force);
        if (status != SPT_OK)
            return status;
        double difference = force - wanted;
        if ((difference >= 0) != (last_n >= 0)) {
            *b = way > 0 ? (struct bracket){last, last_n, e, difference}
                         : (struct bracket){-e, difference, last, last_n};
            return SPT_OK;
        }
        last = way * e;
        last_n = difference;
    }
    return SPT_NOT_APPLICABLE;
}

/* Regula falsi with the Illinois weights, every fourth step a bisection. */
static double choose(const struct bracket *b, int tries)
{
    if (tries % 4 == 3)
        return 0.5 * (b->tight_mm + b->loose_mm);
    return b->loose_mm - b->loose_n * (b->tight_mm - b->loose_mm) / (b->tight_n - b->loose_n);
}

static void narrow(struct bracket *b, double setting, double difference)
{
    if (difference >= 0) {
        b->tight_mm = setting;
        b->tight_n = difference;
        b->loose_n *= 0.5;
    } else {
        b->loose_mm = setting;
        b->loose_n = difference;
        b->tight_n *= 0.5;
    }
}

enum spt_status spt_hub_preload_setting(const struct spt_hub_model *model, double preload_n,
                                        double *setting_mm)
{
    struct bracket b;
    *setting_mm = (double)NAN;
    if (!(preload_n > 0) || isinf(preload_n))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = step_out(model, preload_n, &b);
    for (int tries = 0; status == SPT_OK && tries < TRIES_MAX; tries++) {
        double force, setting = choose(&b, tries);
        status = spt_hub_preload_force(model, setting, &force);
        if (status != SPT_OK)
            return status;
        if (fabs(force - preload_n) <= 1e-9 * preload_n) {
            *setting_mm = setting;
            return SPT_OK;
        }
        narrow(&b, setting, force - preload_n);
    }
    return status == SPT_OK ? SPT_NOT_CONVERGED : status;
}
