/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/field/fit_parts.h"

struct mode_row {
    const char *name;
    int failures;
    double slope;
    const char *mark; /* "*" where the slope is assumed */
    double l10, low, high;
};

static struct mode_row make_row(const struct spt_fit_mode *mode)
{
    const struct spt_fit *fit = &mode->fit;
    const struct spt_interval bounds = spt_fit_l10_bounds(fit);
    const bool fitted = fit->basis == SPT_FIT_LIKELIHOOD;
    return (struct mode_row){mode->name,
                             fit->failures,
                             fitted ? fit->slope.estimate : fit->assumed.shape,
                             fitted ? "" : "*",
                             fitted ? fit->l10.estimate : (double)NAN,
                             bounds.low,
                             bounds.high};
}

static struct spt_column *make_columns(struct spt_page *page, const struct spt_fit_report *report,
                                       int *count)
{
    static const struct spt_column columns[] = {
        {.head = "mode", .kind = SPT_WORDS, .width = 24, .at = offsetof(struct mode_row, name)},
        {.head = "failed",
         .kind = SPT_COUNT,
         .width = 6,
         .gap = 1,
         .at = offsetof(struct mode_row, failures)},
        {.head = "slope",
         .kind = SPT_NUMBER,
         .width = 7,
         .gap = 1,
         .at = offsetof(struct mode_row, slope)},
        {.head = "", .kind = SPT_MARK, .width = 1, .at = offsetof(struct mode_row, mark)},
        {.kind = SPT_AMOUNT,
         .width = 10,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct mode_row, l10)},
        {.head = "bounds",
         .group = true,
         .kind = SPT_AMOUNT,
         .width = 10,
         .gap = 1,
         .at = offsetof(struct mode_row, low)},
        {.head = "",
         .kind = SPT_AMOUNT,
         .width = 10,
         .gap = 1,
         .at = offsetof(struct mode_row, high)},
    };
    *count = (int)(sizeof columns / sizeof *columns);
    struct spt_column *copy = spt_page_columns(page, columns, *count);
    if (copy)
        copy[4].head = spt_page_words(page, "L10 %s", report->unit);
    return copy;
}

static void show_modes(struct spt_page *page, const struct spt_fit_report *report)
{
    const int count = report->mode_count;
    struct mode_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    struct spt_table table = {.rows = rows, .row_size = sizeof *rows, .row_count = count};
    bool assumed = false;
    table.columns = make_columns(page, report, &table.column_count);
    for (int i = 0; rows && i < count; i++) {
        rows[i] = make_row(&report->modes[i]);
        assumed = assumed || *rows[i].mark;
    }
    spt_page_table(page, "modes", &table);
    if (assumed)
        spt_page_say(page, SPT_BODY, "",
                     "*: too few failures, or none that tells it: the slope is ASSUMED.");
}

void spt_fit_page_modes(struct spt_page *page, const struct spt_fit_report *report)
{
    if (!report->modes)
        return;
    spt_page_open(page, "By what ended them");
    spt_page_say(page, SPT_BODY, "",
                 "The answer above is for all %d modes together, whichever comes first. Each for "
                 "itself, those that failed otherwise taken as running until then (`--mode NAME` "
                 "gives all of it):",
                 report->mode_count);
    show_modes(page, report);
    spt_page_close(page);
}
