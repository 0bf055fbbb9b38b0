/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/spread.h"

#include <math.h>
#include <stddef.h>

#include "answer/field/history.h"
#include "answer/field/spread_drivers.h"

#define PERCENTILES 99

void spt_band_page(struct spt_page *page, const struct spt_uncertainty_result *result)
{
    char words[SPT_BAND_LENGTH];
    spt_page_say(page, SPT_BODY, "", "%s", spt_band_words(&result->system, result->samples, words));
    if (spt_preloaded_words(result, words))
        spt_page_say(page, SPT_BODY, "", "%s", words);
}

void spt_band_json(struct spt_json *json, const struct spt_band *band)
{
    spt_json_open(json, "band", '{');
    spt_json_number(json, "p5_h", band->p5_h);
    spt_json_number(json, "p50_h", band->p50_h);
    spt_json_number(json, "p95_h", band->p95_h);
    spt_json_close(json, '}');
}

/* Why a phase does not follow an input. */
static const char *explain_unmoved(enum spt_uncertain input)
{
    static const char *const words[SPT_UNCERTAIN_COUNT] = {
        /* others have none */
        [SPT_UNCERTAIN_LOAD] = "without load, which a factor leaves at 0",
        [SPT_UNCERTAIN_SPEED] = "standing, which a factor leaves so",
        [SPT_UNCERTAIN_WATER] = "without water, which a factor leaves at 0",
        [SPT_UNCERTAIN_CLEANLINESS] =
            "with a class or e_C of its own, not that of the scenario's `condition`",
    };
    return words[input] ? words[input] : "";
}

void spt_spread_unmoved_page(struct spt_page *page, const char *who,
                             const struct spt_case *question,
                             const struct spt_uncertainty_result *result)
{
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++) {
        const struct spt_unmoved *unmoved = &result->drivers[i].unmoved;
        char more[32] = "";
        if (!unmoved->phases)
            continue;
        if (unmoved->phases > 1)
            snprintf(more, sizeof more, " and %d more", unmoved->phases - 1);
        spt_page_say(page, SPT_BODY, who ? "- " : "",
                     "%s%sThe spread of %s does not move \"%s\"%s (%d of %d phases): %s.",
                     who ? who : "", who ? ": " : "", spt_uncertain_name((enum spt_uncertain)i),
                     spt_page_name(page, question->bearings[0].phases[unmoved->first].name), more,
                     unmoved->phases, question->bearings[0].phase_count,
                     explain_unmoved((enum spt_uncertain)i));
    }
}

static void say_share(struct spt_page *page, const struct spt_case *question,
                      const struct spt_uncertainty_result *result)
{
    if (!isnan(result->share_at_target))
        spt_page_say(page, SPT_BODY, "", "%.3g %% of the samples reach the target of %s.",
                     100 * result->share_at_target, spt_page_life(page, question->target_life_h));
}

static void say_lives(struct spt_page *page, const struct spt_case *question, double stated_h,
                      const struct spt_uncertainty_result *result)
{
    char words[SPT_BAND_LENGTH];
    spt_page_say(page, SPT_BODY, "",
                 "Rated life at %.6g %% reliability: %s to %s, median %s (5, 95 and 50 %% of "
                 "%d samples, seed %.0f).",
                 question->reliability_percent, spt_page_life(page, result->system.p5_h),
                 spt_page_life(page, result->system.p95_h),
                 spt_page_life(page, result->system.p50_h), result->samples, (double)result->seed);
    spt_page_say(page, SPT_BODY, "", "In the condition as stated, with every input known: %s.",
                 spt_page_life(page, stated_h));
    say_share(page, question, result);
    if (spt_preloaded_words(result, words))
        spt_page_say(page, SPT_BODY, "", "%s", words);
    if (result->share_without_life > 0)
        spt_page_say(page, SPT_BODY, "",
                     "For %.3g %% of the samples no life can be stated (the film is too thin, or "
                     "it is too hot); they count as the shortest.",
                     100 * result->share_without_life);
    if (result->held > 0)
        spt_page_say(page, SPT_BODY, "",
                     "In %d samples a factor came out below %.3g and was held there: the spread "
                     "is too wide for its form.",
                     result->held, SPT_UNCERTAIN_FACTOR_MIN);
}

/* How the setting factors of the samples were found, and their accuracy. */
static void say_setting(struct spt_page *page, const struct spt_uncertainty_result *result)
{
    const struct spt_uncertain_setting *setting = &result->setting;
    spt_page_say(page, SPT_BODY, "",
                 "Each sample has the load distribution of its own setting and loads, out of a "
                 "table of %d; %d samples solved directly have the same life within %.1g %%.",
                 setting->nodes, setting->checked, 100 * fmax(setting->error, 1e-6));
    if (!(setting->error <= SPT_UNCERTAIN_SETTING_ALLOWED))
        spt_page_say(page, SPT_BODY, "",
                     "CAUTION: that is more than the %.2g %% that a table should keep to; take a "
                     "narrower spread of end play and load.",
                     100 * SPT_UNCERTAIN_SETTING_ALLOWED);
    if (setting->unsettled > 0)
        spt_page_say(page, SPT_BODY, "",
                     "In %d samples the hub has no load distribution (see `setting`); they have "
                     "no life.",
                     setting->unsettled);
}

static void say_bearings(struct spt_page *page, const struct spt_case *question,
                         const struct spt_uncertainty_result *result)
{
    for (int i = 0; question->bearing_count > 1 && i < question->bearing_count; i++)
        spt_page_say(page, SPT_BODY, "", "%s: %s to %s.",
                     spt_page_name(page, question->bearings[i].bearing.name),
                     spt_page_life(page, result->bearings[i].p5_h),
                     spt_page_life(page, result->bearings[i].p95_h));
    if (question->hub && !result->setting.varies)
        spt_page_say(page, SPT_BODY, "",
                     "The setting factors of the hub stay as they are in every sample, and the "
                     "loads of both rows move together.");
    else if (question->hub)
        say_setting(page, result);
}

static void show_spall_times(struct spt_page *page, const struct spt_uncertainty_result *result)
{
    struct time_row {
        const char *label;
        double l1_h, l5_h, l10_h, l50_h;
        const char *unit;
    };
    static const struct spt_column columns[] = {
        {.head = "reached by",
         .kind = SPT_WORDS,
         .width = 12,
         .at = offsetof(struct time_row, label)},
        {.head = "99 %",
         .key = "l1_h",
         .kind = SPT_HOURS,
         .width = 9,
         .gap = 1,
         .at = offsetof(struct time_row, l1_h)},
        {.head = "95 %",
         .key = "l5_h",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct time_row, l5_h)},
        {.head = "90 %",
         .key = "l10_h",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct time_row, l10_h)},
        {.head = "50 %",
         .key = "l50_h",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct time_row, l50_h)},
        {.head = "",
         .kind = SPT_WORDS,
         .width = 1,
         .gap = 1,
         .at = offsetof(struct time_row, unit)},
    };
    const struct spt_survival_lives *lives = &result->time_to_spall;
    struct time_row *row = spt_page_allocate(page, sizeof *row);
    if (row)
        *row = (struct time_row){"", lives->l1_h, lives->l5_h, lives->l10_h, lives->l50_h, "h"};
    spt_page_open(page, "Time to spall");
    spt_page_table(page, "time_to_spall", &(struct spt_table){SPT_TABLE_OF(columns, row, 1)});
    spt_page_say(page, SPT_BODY, "",
                 "One bearing picked from all these: the scatter of the inputs and the scatter of "
                 "fatigue lives together.");
    spt_page_close(page);
}

/* Both distributions: the percentiles 1 to 99 % of rated life and time to spall. */
static void keep_percentiles(struct spt_page *page, const struct spt_uncertainty_result *result)
{
    struct percent_row {
        int percent;
        double rated_h, spall_h;
    };
    static const struct spt_column columns[] = {
        {.key = "percent", .kind = SPT_COUNT, .at = offsetof(struct percent_row, percent)},
        {.key = "rated_life_h", .kind = SPT_HOURS, .at = offsetof(struct percent_row, rated_h)},
        {.key = "time_to_spall_h", .kind = SPT_HOURS, .at = offsetof(struct percent_row, spall_h)},
    };
    struct percent_row *rows = spt_page_allocate(page, PERCENTILES * sizeof *rows);
    for (int i = 0; rows && i < PERCENTILES; i++) {
        rows[i].percent = i + 1;
        rows[i].rated_h = spt_uncertainty_quantile(result, (i + 1) / 100.0);
        spt_uncertainty_spall_time(result, (i + 1) / 100.0, &rows[i].spall_h);
    }
    spt_page_table(page, "percentiles",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, PERCENTILES), .is_data = true});
}

void spt_spread_page(struct spt_page *page, const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result)
{
    spt_history_page(page, question);
    spt_page_open(page, "Spread of the life");
    say_lives(page, question, stated_h, result);
    say_bearings(page, question, result);
    spt_page_close(page);
    spt_spread_page_drivers(page, question, result);
    show_spall_times(page, result);
    keep_percentiles(page, result);
}

static void write_json_setting(struct spt_json *json, const struct spt_uncertain_setting *setting)
{
    spt_json_open(json, "setting_table", '{');
    spt_json_number(json, "nodes", setting->nodes);
    spt_json_number(json, "samples_checked", setting->checked);
    spt_json_number(json, "largest_error_of_life", setting->error);
    spt_json_number(json, "samples_solved_directly", setting->direct);
    spt_json_number(json, "samples_unsettled", setting->unsettled);
    spt_json_close(json, '}');
}

static void write_json_bearings(struct spt_json *json, const struct spt_case *question,
                                const struct spt_uncertainty_result *result)
{
    spt_json_open(json, "bearings", '[');
    for (int i = 0; i < question->bearing_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", question->bearings[i].bearing.name);
        spt_band_json(json, &result->bearings[i]);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_spread_json(struct spt_json *json, const struct spt_page *page,
                     const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result)
{
    spt_json_text(json, "title", question->title);
    spt_history_json(json, question->history);
    spt_json_number(json, "reliability_percent", question->reliability_percent);
    spt_json_number(json, "target_life_h", question->target_life_h);
    spt_json_number(json, "samples", result->samples);
    spt_json_number(json, "seed", (double)result->seed);
    spt_json_number(json, "stated_life_h", stated_h);
    spt_band_json(json, &result->system);
    spt_json_number(json, "share_at_target", result->share_at_target);
    spt_json_number(json, "share_without_life", result->share_without_life);
    spt_json_number(json, "share_preloaded", result->share_preloaded);
    spt_json_number(json, "samples_held", result->held);
    if (result->setting.varies)
        write_json_setting(json, &result->setting);
    write_json_bearings(json, question, result);
    spt_json_open(json, "time_to_spall", '{');
    spt_table_json_row(spt_page_find(page, "time_to_spall"), 0, json);
    spt_json_close(json, '}');
    spt_spread_json_drivers(json, spt_page_find(page, "inputs"));
}
