/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/spread_drivers.h"

#include <math.h>
#include <stddef.h>

#include "answer/field/spread.h"

#define BAR_WIDTH 24

/* Strength by the share of the variance where known: a rank correlation misses an input for which
 * life falls on both sides of an optimum. */
static double strength_of(const struct spt_driver *driver)
{
    return isnan(driver->share.total) ? fabs(driver->rank_correlation) : driver->share.total;
}

/* Lists the uncertain inputs, the strongest first. Result: their number. */
static int rank_drivers(const struct spt_uncertainty_result *result, int *order)
{
    int count = 0;
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++) {
        if (!result->drivers[i].spread)
            continue;
        int at = count++;
        double strength = strength_of(&result->drivers[i]);
        while (at > 0 && strength_of(&result->drivers[order[at - 1]]) < strength) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = i;
    }
    return count;
}

/* A row of uncertain inputs. */
struct driver_row {
    enum spt_uncertain input;
    const char *name;
    double correlation;
    double shown; /* the same without the sign of what rounds to 0 */
    double bar;   /* no mark for less than half of one */
    double alone, with_all;
    int unmoved; /* phases */
};

static struct driver_row make_driver(const struct spt_uncertainty_result *result,
                                     enum spt_uncertain input)
{
    const struct spt_driver *driver = &result->drivers[input];
    const double size = fabs(driver->rank_correlation);
    return (struct driver_row){.input = input,
                               .name = spt_uncertain_name(input),
                               .correlation = driver->rank_correlation,
                               .shown = size < 0.005 ? 0 : driver->rank_correlation,
                               .bar = size * BAR_WIDTH < 0.5 ? 0 : size,
                               .alone = driver->share.first,
                               .with_all = driver->share.total,
                               .unmoved = driver->unmoved.phases};
}

/* The columns of the uncertain inputs; those of shares are shown only where `shares`. */
static struct spt_column *make_driver_columns(struct spt_page *page, bool shares, int *count)
{
    static const struct spt_column columns[] = {
        {.head = "input",
         .key = "name",
         .kind = SPT_WORDS,
         .width = 12,
         .at = offsetof(struct driver_row, name)},
        {.key = "rank_correlation",
         .kind = SPT_NUMBER,
         .at = offsetof(struct driver_row, correlation)},
        {.head = "rank correlation",
         .kind = SPT_FIXED,
         .digits = 2,
         .width = 16,
         .gap = 2,
         .at = offsetof(struct driver_row, shown)},
        {.head = "",
         .kind = SPT_BAR,
         .width = BAR_WIDTH,
         .gap = 2,
         .at = offsetof(struct driver_row, bar)},
        {.head = "alone %",
         .key = "variance_share_alone",
         .kind = SPT_PERCENT,
         .digits = 1,
         .width = 8,
         .gap = 2,
         .at = offsetof(struct driver_row, alone)},
        {.head = "with all %",
         .key = "variance_share_with_all",
         .kind = SPT_PERCENT,
         .digits = 1,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct driver_row, with_all)},
        {.key = "phases_not_moved", .kind = SPT_COUNT, .at = offsetof(struct driver_row, unmoved)},
    };
    *count = (int)(sizeof columns / sizeof *columns);
    struct spt_column *copy = spt_page_columns(page, columns, *count);
    if (copy && !shares)
        copy[4].head = copy[5].head = NULL;
    return copy;
}

static bool has_shares(const struct spt_uncertainty_result *result)
{
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++)
        if (result->drivers[i].spread && !isnan(result->drivers[i].share.first))
            return true;
    return false;
}

static void say_what_drivers_mean(struct spt_page *page,
                                  const struct spt_uncertainty_result *result)
{
    const bool shares = has_shares(result);
    spt_page_say(page, SPT_BODY, "",
                 "Near 1: more of it, longer life; near -1: shorter; near 0: it hardly matters "
                 "within its spread, or life falls on both sides of a best value.");
    if (result->drivers[SPT_UNCERTAIN_END_PLAY].spread)
        spt_page_say(page, SPT_BODY, "",
                     "So it is with end play: a setting that is too tight and one that is too "
                     "loose both cost life%s.",
                     shares ? "; go by the shares" : ", and --shares tells how much");
    if (shares)
        spt_page_say(page, SPT_BODY, "",
                     "Shares of the variance of ln(life): what an input explains by itself, and "
                     "with all it does together with others.");
}

void spt_spread_page_drivers(struct spt_page *page, const struct spt_case *question,
                             const struct spt_uncertainty_result *result)
{
    int order[SPT_UNCERTAIN_COUNT];
    const int count = rank_drivers(result, order);
    struct driver_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    struct spt_table table = {.rows = rows, .row_size = sizeof *rows, .row_count = count};
    table.columns = make_driver_columns(page, has_shares(result), &table.column_count);
    for (int i = 0; rows && i < count; i++)
        rows[i] = make_driver(result, (enum spt_uncertain)order[i]);
    spt_page_open(page, "What makes it unsure");
    spt_page_table(page, "inputs", &table);
    if (count)
        say_what_drivers_mean(page, result);
    spt_spread_unmoved_page(page, NULL, question, result);
    spt_page_close(page);
}

/* The rows of the uncertain inputs, in the order of the inputs. */
void spt_spread_json_drivers(struct spt_json *json, const struct spt_table *table)
{
    const struct driver_row *rows = table->rows;
    spt_json_open(json, "inputs", '[');
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++)
        for (int row = 0; row < table->row_count; row++) {
            if ((int)rows[row].input != i)
                continue;
            spt_json_open(json, NULL, '{');
            spt_table_json_row(table, row, json);
            spt_json_close(json, '}');
        }
    spt_json_close(json, ']');
}
