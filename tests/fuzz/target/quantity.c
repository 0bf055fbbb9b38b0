/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A quantity with a unit: the first byte picks the dimension, the rest is the text. A finite number
 * comes out, or a problem. */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fuzz/fuzz.h"
#include "scenario/text/units.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    double value = 0, again = 0;
    if (!size)
        return 0;
    enum spt_dimension dimension = (enum spt_dimension)(data[0] % (SPT_NO_DIMENSION + 1));
    char *text = malloc(size);
    fuzz_require(text != NULL);
    memcpy(text, data + 1, size - 1);
    text[size - 1] = 0;
    enum spt_quantity_problem problem = spt_quantity_read(text, dimension, &value);
    free(text);
    if (problem != SPT_QUANTITY_FINE)
        return 0;
    fuzz_require(isfinite(value));
    const char *unit = dimension == SPT_NO_DIMENSION ? "" : spt_dimension_unit(dimension);
    char written[64];
    /* a calendar time is kept in hours, which are hours of running where they are read */
    if (dimension == SPT_CALENDAR)
        snprintf(written, sizeof written, "%.17e days", value / 24);
    else
        snprintf(written, sizeof written, "%.17e %s", value, unit);
    problem = spt_quantity_read(written, dimension, &again);
    fuzz_require(problem == SPT_QUANTITY_FINE);
    fuzz_require(fabs(again - value) <= 1e-15 * fabs(value) || dimension == SPT_SHARE);
    return 0;
}
