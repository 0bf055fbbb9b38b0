/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A bearing list of any bytes: refused with a place and a reason, or rows of which each is a
 * bearing or is refused at its cell. */
#include <stdlib.h>

#include "fuzz/fuzz.h"
#include "scenario/build/build.h"
#include "scenario/catalog/sheet.h"

#define ROWS_TRIED 64

static void build_rows(const struct spt_sheet *sheet, struct spt_arena *arena)
{
    for (int i = 0; i < sheet->count && i < ROWS_TRIED; i++) {
        struct spt_diagnostics diags = {0};
        struct spt_build build = {.arena = arena, .diags = &diags};
        struct spt_bearing bearing;
        struct spt_notes notes = {0};
        spt_build_bearing(&build, sheet->rows[i].node, "the row", &bearing);
        for (int d = 0; d < diags.count; d++)
            fuzz_require(diags.list[d].mark.line > 0 && diags.list[d].text[0]);
        if (spt_diagnostics_any(&diags))
            continue;
        fuzz_require(bearing.dynamic_load_rating_n > 0 && bearing.bore_mm > 0);
        spt_bearing_doubts(&bearing, &notes);
        fuzz_require(spt_bearing_load_centre(&bearing, NULL) > 0);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t size)
{
    struct spt_diagnostics diags = {0};
    struct spt_arena arena = {0};
    struct spt_sheet sheet;
    struct fuzz_text gathered;
    const struct spt_source source = {"list.csv", spt_arena_text(&arena, (const char *)bytes, size),
                                      size};
    fuzz_require(source.text != NULL);
    bool fine = spt_sheet_read(&source, &arena, &sheet, &diags);
    fuzz_require(fine == !spt_diagnostics_any(&diags));
    fuzz_require(!fine || sheet.count > 0);
    for (int i = 0; i < diags.count; i++)
        fuzz_require(diags.list[i].mark.source == &source && diags.list[i].mark.line >= 1);
    fuzz_text_begin(&gathered);
    spt_diagnostics_print(&diags, gathered.stream);
    free(fuzz_text_end(&gathered));
    if (fine)
        build_rows(&sheet, &arena);
    return spt_arena_free(&arena), 0;
}
