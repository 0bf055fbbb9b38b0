/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Any bytes as a history: refused with a reason, or bins that have its time and its damage. */
#include <math.h>
#include <stdlib.h>

#include "fuzz/fuzz.h"
#include "history/history_file.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static struct spt_history_bin bins[SPT_PHASES_MAX];
    static struct history_file file;
    const struct spt_history_terms terms = {
        .kind = SPT_HISTORY_ALONE, .exponent = 3, .has_temperature = true, .bins = {1, 2, 1, 1}};
    const struct history_fixed fixed = {10, 0, 1, 20, (double)NAN, 3};
    struct spt_diagnostics diags = {0};
    struct spt_history_summary rows = {0}, summary;
    struct spt_history history;
    size_t needed = spt_history_size(&terms);
    void *memory = malloc(needed);
    FILE *in = fmemopen((void *)(uintptr_t)data, size ? size : 1, "rb");
    fuzz_require(memory && in && !spt_history_begin(&terms, memory, needed, &history));
    bool fine = spt_history_file_head(&file, in, "fuzz", &diags) &&
                spt_history_file_rows(&file, &fixed, &history, &rows);
    fuzz_require(fine != spt_diagnostics_any(&diags));
    if (fine) {
        double hours = 0;
        int count = 0;
        spt_history_summarise(&history, NULL, &summary);
        fuzz_require(!spt_history_bins(&history, terms.bins, bins, SPT_PHASES_MAX, &count));
        fuzz_require(count > 0 && rows.samples == summary.samples);
        for (int i = 0; i < count; i++) {
            hours += bins[i].time_h;
            fuzz_require(bins[i].load_n >= 0 && bins[i].load_n <= summary.largest_n * 1.000001);
        }
        fuzz_require(fabs(hours - summary.hours) <= 1e-9 * summary.hours);
    }
    fclose(in);
    return free(memory), 0;
}
