/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "fuzz/fuzz.h"
#include "support/golden.h"

const char *fuzz_shown = "";
size_t fuzz_shown_length;

void fuzz_judge(const char *what, const char *file, int line)
{
    fprintf(stderr, "%.*s\n%s:%d: does not hold: %s\n", (int)fuzz_shown_length, fuzz_shown, file,
            line, what);
    abort();
}

void fuzz_text_begin(struct fuzz_text *gathered)
{
    *gathered = (struct fuzz_text){0};
    gathered->stream = open_memstream(&gathered->text, &gathered->length);
    fuzz_require(gathered->stream != NULL);
}

char *fuzz_text_end(struct fuzz_text *gathered)
{
    fuzz_require(!fclose(gathered->stream));
    fuzz_require(strlen(gathered->text) == gathered->length);
    return gathered->text;
}

const struct spt_catalog *fuzz_catalog(void)
{
    static struct spt_catalog catalog;
    if (catalog.count)
        return &catalog;
    struct spt_diagnostics diags = {0};
    if (!spt_catalog_add_folder(&catalog, "catalogs", &diags))
        spt_diagnostics_print(&diags, stderr);
    fuzz_require(catalog.count > 0); /* run from the top of the source tree */
    return &catalog;
}

const struct spt_case *fuzz_question(void)
{
    static struct spt_scenario scenario;
    struct spt_diagnostics diags = {0};
    size_t length = 0;
    if (scenario.base.question.title)
        return &scenario.base.question;
    static char *text; /* the scenario lends from it */
    text = golden_read("scenarios/fan_spindle_sweep.yaml", &length);
    fuzz_require(text != NULL);
    const struct spt_source source = {"sweep", text, length};
    fuzz_require(spt_scenario_load(&source, fuzz_catalog(), &scenario, &diags));
    return &scenario.base.question;
}

unsigned fuzz_byte(struct fuzz_bytes *bytes)
{
    if (!bytes->size)
        return 0;
    bytes->size--;
    return *bytes->data++;
}

double fuzz_number(struct fuzz_bytes *bytes)
{
    double number = 0;
    uint8_t image[sizeof number];
    for (size_t i = 0; i < sizeof image; i++)
        image[i] = (uint8_t)fuzz_byte(bytes);
    memcpy(&number, image, sizeof number);
    return number;
}

double fuzz_between(struct fuzz_bytes *bytes, double low, double high)
{
    double share = (fuzz_byte(bytes) * 256.0 + fuzz_byte(bytes)) / 65535.0;
    if (low > 0 && high / low > 100)
        return fmin(fmax(low * pow(high / low, share), low), high);
    return low + (high - low) * share;
}
