/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/compare/compare_parts.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/compare/compare_flags.h"
#include "answer/field/spread.h"
#include "answer/life/explain.h"
#include "answer/life/hub.h"
#include "answer/life/loss.h"
#include "answer/life/phases.h"
#include "base/quotient.h"
#include "sentence/life_status.h"
#include "sentence/notes.h"
#include "sentence/sentence.h"
#include "sentence/verdict.h"

#define KEY_LENGTH 64
#define STATED_WIDTH 9

/* The bearing with the shortest life; one without a life counts as the shortest. */
static const struct spt_bearing_result *weakest(const struct spt_assessment *assessment)
{
    const struct spt_bearing_result *worst = &assessment->bearings[0];
    for (int i = 1; i < assessment->bearing_count && !isnan(worst->modified_rating_life_h); i++)
        if (!(assessment->bearings[i].modified_rating_life_h >= worst->modified_rating_life_h))
            worst = &assessment->bearings[i];
    return worst;
}

/* The phase of a bearing with most damage; where there is no life, the first phase without one. */
static const struct spt_phase_result *costliest_phase(const struct spt_bearing_result *bearing)
{
    if (bearing->worst_phase >= 0)
        return &bearing->phases[bearing->worst_phase];
    for (int i = 0; i < bearing->phase_count; i++)
        if (isnan(bearing->phases[i].modified_rating_life_h))
            return &bearing->phases[i];
    return &bearing->phases[0];
}

struct spt_shown_phase spt_compare_costliest(const struct spt_assessment *assessment)
{
    const struct spt_bearing_result *bearing = weakest(assessment);
    return (struct spt_shown_phase){bearing, costliest_phase(bearing), false};
}

/* The phase shown for a case: the one with the name of the phase with most damage in the base, else
 * its own. Of two bearings the one with the same index is shown. */
struct spt_shown_phase spt_compare_shown(const struct spt_compared *cases, int i)
{
    const struct spt_assessment *base = &cases[0].assessment, *assessment = &cases[i].assessment;
    struct spt_shown_phase of_base = spt_compare_costliest(base),
                           own = spt_compare_costliest(assessment);
    if (assessment->bearing_count == base->bearing_count)
        own.bearing = &assessment->bearings[of_base.bearing - base->bearings];
    for (int j = 0; j < own.bearing->phase_count; j++)
        if (!strcmp(own.bearing->phases[j].phase->name, of_base.phase->phase->name))
            return (struct spt_shown_phase){own.bearing, &own.bearing->phases[j], true};
    return spt_compare_costliest(assessment);
}

double spt_compare_life_h(const struct spt_compared *compared)
{
    return compared->plan ? compared->plan->hours_run + compared->plan->lower_h
                          : compared->assessment.modified_rating_life_h;
}

double spt_compare_regrease_h(const struct spt_compared *compared)
{
    return compared->plan ? spt_verdict_regrease_h(compared->plan)
                          : compared->assessment.greasing.every_h;
}

static double ratio_to_base(const struct spt_compared *cases, int i)
{
    return spt_quotient(spt_compare_life_h(&cases[i]), spt_compare_life_h(&cases[0]));
}

/* A case; numbers that are not known are NaN. `shown_` are those of the phase that all cases are
 * compared in. */
struct case_row {
    const char *name, *note, *life_status, *mark, *costliest, *shown_bearing, *shown_phase, *codes;
    double plan_life_h, life_h, ratio, basic_h;
    double effective_viscosity_ratio, contamination_factor, a_iso, water_factor;
    double grease_interval_h, regrease_every_h;
    double shares[SPT_CAUSE_COUNT]; /* of the loss of the weakest bearing, logarithms */
    double shown_viscosity_ratio, shown_contamination_factor, shown_a_iso, shown_water_factor;
    double band_p5_h, band_p95_h;
};

#define AT(member) .at = offsetof(struct case_row, member)
static const struct spt_column first_columns[] = {
    {.head = "case",
     .key = "case",
     .only = SPT_ONLY_CSV,
     .kind = SPT_WORDS,
     .width = SPT_COMPARE_NAME_WIDTH,
     AT(name)},
    {.key = "name", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(name)},
    {.key = "note", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(note)},
    {.key = "basic_rating_life_h", .only = SPT_ONLY_JSON, .kind = SPT_HOURS, AT(basic_h)},
    {.key = "modified_rating_life_h", .kind = SPT_HOURS, AT(life_h)},
    {.head = "life h",
     .key = "life_under_plan_h",
     .kind = SPT_HOURS,
     .width = 9,
     .gap = 1,
     AT(plan_life_h)},
    {.head = "", .kind = SPT_MARK, .width = 1, AT(mark)},
    {.kind = SPT_HOURS, .width = STATED_WIDTH, .gap = 1, AT(life_h)},
    {.key = "life_status", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(life_status)},
    {.head = "ratio",
     .key = "ratio_to_base",
     .kind = SPT_RATIO,
     .endless = "-",
     .width = 7,
     AT(ratio)},
    {.head = "basic life h",
     .key = "basic_rating_life_h",
     .only = SPT_ONLY_CSV,
     .kind = SPT_HOURS,
     .extra = true,
     .width = 12,
     .gap = 1,
     AT(basic_h)},
    {.key = "costliest_phase", .kind = SPT_WORDS, AT(costliest)},
    {.key = "effective_viscosity_ratio", .kind = SPT_NUMBER, AT(effective_viscosity_ratio)},
    {.key = "contamination_factor", .kind = SPT_NUMBER, AT(contamination_factor)},
    {.key = "life_modification_factor", .kind = SPT_NUMBER, AT(a_iso)},
    {.key = "water_factor", .kind = SPT_NUMBER, AT(water_factor)},
    {.key = "grease_interval_h", .kind = SPT_HOURS, AT(grease_interval_h)},
    {.key = "regrease_every_h", .kind = SPT_HOURS, AT(regrease_every_h)},
};
static const struct spt_column last_columns[] = {
    {.key = "shown_bearing", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(shown_bearing)},
    {.key = "shown_phase", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(shown_phase)},
    {.head = "kappa",
     .key = "shown_effective_viscosity_ratio",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 5,
     .gap = 1,
     AT(shown_viscosity_ratio)},
    {.head = "e_C",
     .key = "shown_contamination_factor",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 7,
     .gap = 1,
     AT(shown_contamination_factor)},
    {.head = "a_ISO",
     .key = "shown_life_modification_factor",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 5,
     .gap = 1,
     AT(shown_a_iso)},
    {.head = "a_w",
     .key = "shown_water_factor",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 5,
     .gap = 1,
     AT(shown_water_factor)},
    {.key = "warnings", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(codes)},
};
static const struct spt_column band_columns[] = {
    {.key = "band_p5_h", .only = SPT_ONLY_CSV, .kind = SPT_HOURS, AT(band_p5_h)},
    {.key = "band_p95_h", .only = SPT_ONLY_CSV, .kind = SPT_HOURS, AT(band_p95_h)},
};
#undef AT
#define COUNT_OF(array) (int)(sizeof(array) / sizeof(array)[0])
#define COLUMNS_MAX                                                                                \
    (COUNT_OF(first_columns) + SPT_CAUSE_COUNT + COUNT_OF(last_columns) + COUNT_OF(band_columns))

/* The share of the loss of one cause. */
static struct spt_column share_column(struct spt_page *page, int cause)
{
    char key[KEY_LENGTH];
    snprintf(key, sizeof key, "log_life_share_%s", spt_cause_name((enum spt_cause)cause));
    for (char *at = key; *at; at++)
        if (*at == ' ')
            *at = '_';
    return (struct spt_column){.key = spt_page_words(page, "%s", key),
                               .only = SPT_ONLY_CSV,
                               .kind = SPT_NUMBER,
                               .at = offsetof(struct case_row, shares) +
                                     (size_t)cause * sizeof(double)};
}

/* Lists the columns of the cases. Result: their number. */
static int list_columns(struct spt_page *page, bool with_band, struct spt_column *columns)
{
    int count = COUNT_OF(first_columns);
    memcpy(columns, first_columns, sizeof first_columns);
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        columns[count++] = share_column(page, i);
    memcpy(columns + count, last_columns, sizeof last_columns);
    count += COUNT_OF(last_columns);
    if (!with_band)
        return count;
    memcpy(columns + count, band_columns, sizeof band_columns);
    return count + COUNT_OF(band_columns);
}

static void put_shares(struct case_row *row, const struct spt_assessment *assessment)
{
    const struct spt_loss *loss = &weakest(assessment)->loss;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        row->shares[i] = loss->causes[i].applies ? loss->causes[i].log_life_share : 0;
}

static struct case_row case_row(struct spt_page *page, const struct spt_compared *cases, int i)
{
    const struct spt_assessment *assessment = &cases[i].assessment;
    const struct spt_shown_phase shown = spt_compare_shown(cases, i);
    const struct spt_phase_result *phase = spt_compare_costliest(assessment).phase;
    const struct spt_band *band = assessment->spread ? &assessment->spread->system : NULL;
    struct case_row row = {
        .name = cases[i].name,
        .note = cases[i].note,
        .plan_life_h = spt_compare_life_h(&cases[i]),
        .life_h = assessment->modified_rating_life_h,
        .life_status = spt_life_status_name(spt_life_status(assessment->modified_rating_life_h)),
        .mark = spt_compare_in_doubt(&cases[i]) ? "!" : "",
        .ratio = ratio_to_base(cases, i),
        .basic_h = assessment->basic_rating_life_h,
        .costliest = phase->phase->name,
        .effective_viscosity_ratio = phase->effective_viscosity_ratio,
        .contamination_factor = phase->contamination_factor,
        .a_iso = phase->factor.a_iso,
        .water_factor = phase->water_factor,
        .grease_interval_h = assessment->greasing.interval_h,
        .regrease_every_h = spt_compare_regrease_h(&cases[i]),
        .shown_bearing = shown.bearing->bearing_case->bearing.name,
        .shown_phase = shown.phase->phase->name,
        .shown_viscosity_ratio = shown.phase->effective_viscosity_ratio,
        .shown_contamination_factor = shown.phase->contamination_factor,
        .shown_a_iso = shown.phase->factor.a_iso,
        .shown_water_factor = shown.phase->water_factor,
        .codes = spt_page_codes(page, &cases[i].notes, NULL),
        .band_p5_h = band ? band->p5_h : (double)NAN,
        .band_p95_h = band ? band->p95_h : (double)NAN,
    };
    put_shares(&row, assessment);
    return row;
}

/* True where the life as stated is another one than under the plan, as both are shown. */
static bool differ_lives(struct spt_page *page, const struct spt_compared *cases, int count)
{
    for (int i = 0; i < count; i++)
        if (strcmp(spt_page_hours(page, spt_compare_life_h(&cases[i])),
                   spt_page_hours(page, cases[i].assessment.modified_rating_life_h)) != 0)
            return true;
    return false;
}

/* Gives the life as stated a head, so that it is shown, and the room of the names. */
static void show_stated(struct spt_column *columns, int count)
{
    for (int i = 0; i < count; i++) {
        if (columns[i].at == offsetof(struct case_row, name) && columns[i].head)
            columns[i].width -= STATED_WIDTH + 1;
        if (columns[i].at == offsetof(struct case_row, life_h) && !columns[i].key)
            columns[i].head = "as stated";
    }
}

static bool any_band(const struct spt_compared *cases, int count)
{
    for (int i = 0; i < count; i++)
        if (cases[i].assessment.spread)
            return true;
    return false;
}

void spt_compare_table(struct spt_page *page, const struct spt_compared *cases, int count)
{
    struct spt_column *columns = spt_page_allocate(page, (size_t)COLUMNS_MAX * sizeof *columns);
    struct case_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    struct spt_table table = {.caption = "Side by side",
                              .columns = columns,
                              .rows = rows,
                              .row_size = sizeof *rows,
                              .row_count = count,
                              .is_data = true};
    for (int i = 0; rows && i < count; i++)
        rows[i] = case_row(page, cases, i);
    if (columns)
        table.column_count = list_columns(page, any_band(cases, count), columns);
    if (columns && differ_lives(page, cases, count))
        show_stated(columns, table.column_count);
    spt_page_table(page, "cases", &table);
}
