/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/field/fit_parts.h"

#define NUMBERS 5 /* estimate and two pairs of bounds */

/* A quantity of the law; words stand in place of numbers where they are not NULL. */
struct quantity_row {
    const char *name;
    double numbers[NUMBERS];
    const char *words[NUMBERS];
};

static struct quantity_row make_life(const char *name, const struct spt_fit_quantity *quantity)
{
    return (struct quantity_row){.name = name,
                                 .numbers = {quantity->estimate, quantity->ratio.low,
                                             quantity->ratio.high, quantity->wald.low,
                                             quantity->wald.high}};
}

/* The slope, which is no life. */
static struct quantity_row make_slope(struct spt_page *page,
                                      const struct spt_fit_quantity *quantity)
{
    struct quantity_row row = make_life("slope", quantity);
    for (int i = 0; i < NUMBERS; i++) {
        char number[SPT_HOURS_LENGTH];
        row.words[i] = spt_page_words(page, "%s", spt_text_number(row.numbers[i], number));
    }
    return row;
}

static void show_quantities(struct spt_page *page, const struct spt_fit_report *report)
{
#define BOUND(index, gaps)                                                                         \
    .kind = SPT_AMOUNT, .width = 11, .gap = (gaps),                                                \
    .at = offsetof(struct quantity_row, numbers[index]),                                           \
    .instead = offsetof(struct quantity_row, words[index])
    static const struct spt_column columns[] = {
        {.head = "", .kind = SPT_WORDS, .width = 12, .at = offsetof(struct quantity_row, name)},
        {.head = "estimate", BOUND(0, 1)},
        {.head = "likelihood ratio bounds", .group = true, BOUND(1, 3)},
        {.head = "", BOUND(2, 1)},
        {.head = "Wald bounds", .group = true, BOUND(3, 3)},
        {.head = "", BOUND(4, 1)},
    };
#undef BOUND
    const struct spt_fit *fit = &report->fit;
    const struct quantity_row made[] = {
        make_slope(page, &fit->slope),
        {.name = spt_page_words(page, "in %s:", report->unit), .words = {"", "", "", "", ""}},
        make_life("scale", &fit->scale),
        make_life("L10", &fit->l10),
        make_life("L50", &fit->l50),
    };
    struct quantity_row *rows = spt_page_allocate(page, sizeof made);
    if (rows)
        memcpy(rows, made, sizeof made);
    spt_page_table(
        page, "quantities",
        &(struct spt_table){SPT_TABLE_OF(columns, rows, (int)(sizeof made / sizeof *made))});
}

bool spt_fit_is_turnbull(const struct spt_fit *fit)
{
    return fit->found || fit->entered;
}

static void say_rank_line(struct spt_page *page, const struct spt_fit_report *report)
{
    const struct spt_fit *fit = &report->fit;
    const bool turnbull = spt_fit_is_turnbull(fit);
    if (isnan(fit->life_on_rank.weibull.shape))
        return;
    spt_page_say(page, SPT_BODY, "",
                 "For comparison, a line through the %s ranks%s: slope %.3g, scale %s, r squared "
                 "%.3f.",
                 turnbull ? "mean" : "median",
                 turnbull                                        ? " of Turnbull's estimate"
                 : report->inputs.rank_method == SPT_RANK_BENARD ? " (Benard's formula)"
                                                                 : "",
                 fit->life_on_rank.weibull.shape,
                 spt_fit_life(page, report, fit->life_on_rank.weibull.scale),
                 fit->life_on_rank.r_squared);
}

void spt_fit_page_law(struct spt_page *page, const struct spt_fit_report *report)
{
    if (report->fit.basis != SPT_FIT_LIKELIHOOD) {
        say_rank_line(page, report);
        return;
    }
    spt_page_open(page, "Maximum likelihood");
    show_quantities(page, report);
    spt_page_say(page, SPT_BODY, "",
                 "Quote the likelihood ratio bounds; the Wald bounds are too narrow with few "
                 "failures.");
    say_rank_line(page, report);
    spt_page_close(page);
}

void spt_fit_keep_points(struct spt_page *page, const struct spt_fit_report *report)
{
    static const struct spt_column columns[] = {
        {.kind = SPT_NUMBER, .at = offsetof(struct spt_rank_point, time)},
        {.key = "rank", .kind = SPT_NUMBER, .at = offsetof(struct spt_rank_point, rank)},
        {.key = "failed_fraction",
         .kind = SPT_NUMBER,
         .at = offsetof(struct spt_rank_point, fraction)},
        {.key = "ln_life", .kind = SPT_NUMBER, .at = offsetof(struct spt_rank_point, x)},
        {.key = "ln_minus_ln_survival",
         .kind = SPT_NUMBER,
         .at = offsetof(struct spt_rank_point, y)},
    };
    const int count = (int)(sizeof columns / sizeof *columns);
    struct spt_column *copy = spt_page_columns(page, columns, count);
    if (copy)
        copy[0].key = spt_page_words(page, "life_%s", report->unit);
    spt_page_table(page, "points",
                   &(struct spt_table){.columns = copy,
                                       .column_count = count,
                                       .rows = report->points,
                                       .row_size = sizeof *report->points,
                                       .row_count = report->fit.point_count,
                                       .is_data = true});
}
