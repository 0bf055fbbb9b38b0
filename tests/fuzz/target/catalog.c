/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A catalog file of any bytes, read from a folder and shown in every format. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "answer/catalog/catalog.h"
#include "fuzz/fuzz.h"
#include "support/json_text.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char folder[] = "/tmp/spalltime-fuzz-XXXXXX", path[64];
    if (!*path && mkdtemp(folder))
        snprintf(path, sizeof path, "%s/input.yaml", folder);
    FILE *file = fopen(path, "wb");
    fuzz_require(file && fwrite(data, 1, size, file) == size && !fclose(file));
    struct spt_catalog catalog = {0};
    struct spt_diagnostics diags = {0};
    struct fuzz_text gathered;
    const struct spt_catalog_question all = {.all_kinds = true};
    fuzz_text_begin(&gathered);
    spt_catalog_add_folder(&catalog, folder, &diags);
    spt_catalog_json(gathered.stream, &catalog, &all, &diags);
    char *json = fuzz_text_end(&gathered);
    fuzz_require(json_skip(json) != NULL);
    free(json);
    fuzz_text_begin(&gathered);
    const struct spt_text text = {gathered.stream, true, 0};
    spt_catalog_text(&text, &catalog, &all, &diags);
    spt_catalog_csv(gathered.stream, &catalog, &all, &diags);
    spt_diagnostics_print(&diags, gathered.stream);
    free(fuzz_text_end(&gathered));
    spt_catalog_free(&catalog);
    unlink(path);
    rmdir(folder); /* made anew by the next input, so that nothing is left behind */
    *path = 0;
    memcpy(folder + sizeof folder - 7, "XXXXXX", 6);
    return 0;
}
