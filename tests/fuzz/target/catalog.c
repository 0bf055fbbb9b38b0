/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A catalog file of any bytes, read from a folder and shown in every format. */
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "answer/catalog/catalog.h"
#include "fuzz/fuzz.h"
#include "support/json_text.h"

/* The answer in every format. */
static void show(const struct spt_catalog_answer *answer, struct spt_arena *arena)
{
    struct fuzz_text gathered;
    struct spt_page *page = spt_page_new(arena, "Catalog");
    fuzz_require(page != NULL);
    spt_catalog_page(page, answer);
    fuzz_text_begin(&gathered);
    struct spt_json json = spt_json_begin(gathered.stream);
    spt_json_open(&json, NULL, '{');
    spt_catalog_json(&json, answer);
    spt_json_close(&json, '}');
    char *text = fuzz_text_end(&gathered);
    fuzz_require(json_skip(text) != NULL);
    free(text);
    fuzz_text_begin(&gathered);
    spt_page_text(page, &(struct spt_text){gathered.stream, true, 0}, false);
    spt_page_csv(page, gathered.stream);
    spt_page_html(page, gathered.stream, false);
    free(fuzz_text_end(&gathered));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static char folder[] = "/tmp/spalltime-fuzz-XXXXXX", path[64];
    if (!*path && mkdtemp(folder))
        snprintf(path, sizeof path, "%s/input.yaml", folder);
    FILE *file = fopen(path, "wb");
    fuzz_require(file && fwrite(data, 1, size, file) == size && !fclose(file));
    struct spt_catalog catalog = {0};
    struct spt_diagnostics diags = {0};
    struct spt_arena arena = {0};
    struct spt_catalog_answer answer;
    struct fuzz_text gathered;
    const struct spt_catalog_question all = {.all_kinds = true};
    spt_catalog_add_folder(&catalog, folder, &diags);
    spt_catalog_list(&catalog, &all, &arena, &answer, &diags);
    show(&answer, &arena);
    fuzz_text_begin(&gathered);
    spt_diagnostics_print(&diags, gathered.stream);
    free(fuzz_text_end(&gathered));
    spt_arena_free(&arena);
    spt_catalog_free(&catalog);
    unlink(path);
    rmdir(folder); /* made anew by the next input, so that nothing is left behind */
    *path = 0;
    memcpy(folder + sizeof folder - 7, "XXXXXX", 6);
    return 0;
}
