/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>

#include "spalltime/fit.h"

/* The law of a fit: as fitted, or with the assumed slope. */
static struct spt_weibull law_of(const struct spt_fit *fit)
{
    return fit->basis == SPT_FIT_LIKELIHOOD
               ? (struct spt_weibull){fit->slope.estimate, fit->scale.estimate}
               : (struct spt_weibull){fit->assumed.shape, fit->assumed.scale_estimate};
}

static int compare_ages(const void *a, const void *b)
{
    const double x = ((const struct spt_fit_running *)a)->age;
    const double y = ((const struct spt_fit_running *)b)->age;
    return (x < y) - (x > y);
}

/* The rows that still run, the oldest first, those of one age together. */
static int collect(const struct spt_weibull_data *data, struct spt_fit_running *units)
{
    int count = 0, kept = 0;
    for (int i = 0; i < data->n; i++)
        if (data->failed && !data->failed[i])
            units[count++] = (struct spt_fit_running){.age = data->times[i],
                                                      .count = data->counts ? data->counts[i] : 1};
    qsort(units, (size_t)count, sizeof *units, compare_ages);
    for (int i = 0; i < count; i++) {
        if (kept && units[kept - 1].age == units[i].age)
            units[kept - 1].count += units[i].count;
        else
            units[kept++] = units[i];
    }
    return kept;
}

int spt_fit_running(const struct spt_weibull_data *data, const struct spt_fit *fit,
                    struct spt_fit_running *units)
{
    const struct spt_weibull law = law_of(fit);
    int count;
    if (!data->times || !units || !(law.scale > 0))
        return 0;
    count = collect(data, units);
    for (int i = 0; i < count; i++) {
        spt_weibull_remaining(&law, units[i].age, 0.9, &units[i].left_90);
        spt_weibull_remaining(&law, units[i].age, 0.5, &units[i].left_50);
    }
    return count;
}
