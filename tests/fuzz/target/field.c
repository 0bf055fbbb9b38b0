/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Field data of any bytes: refused with a place and a reason, or numbers that a fit takes. */
#include <math.h>

#include "fuzz/fuzz.h"
#include "scenario/field_data.h"
#include "spalltime/fit.h"

static void fit_rows(const struct spt_field_data *data)
{
    const struct spt_fit_inputs in = {.data = {data->rows, data->times, data->counts, data->failed,
                                               data->last_good, data->known_from},
                                      .confidence = 0.9,
                                      .assumed_slope = 1.5,
                                      .estimated_l10 = (double)NAN};
    struct spt_fit fit;
    if (spt_fit(&in, &(struct spt_fit_workspace){0}, &fit))
        return; /* lives too far apart */
    const struct spt_fit_quantity *l10 = &fit.l10;
    fuzz_require(fit.failures + fit.censored == data->bearings);
    fuzz_require(fit.basis != SPT_FIT_LIKELIHOOD ||
                 (l10->ratio.low <= l10->estimate && l10->estimate <= l10->ratio.high));
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    struct spt_diagnostics diags = {0};
    struct spt_field_data data;
    FILE *in = size ? fmemopen((void *)(uintptr_t)bytes, size, "r") : NULL;
    if (!in)
        return 0;
    bool fine = spt_field_data_read(in, "field.csv", &data, &diags);
    fuzz_require(fine == !spt_diagnostics_any(&diags));
    for (int i = 0; fine && i < data.rows; i++)
        fuzz_require(isfinite(data.times[i]) && data.times[i] > 0 && data.counts[i] > 0);
    if (fine)
        fit_rows(&data);
    return spt_field_data_free(&data), fclose(in), 0;
}
