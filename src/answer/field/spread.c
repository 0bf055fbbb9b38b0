/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/spread.h"

#include <math.h>
#include <stdlib.h>

#include "answer/field/history.h"
#include "base/table.h"

#define BAR_WIDTH 24

void spt_band_text(const struct spt_text *text, const struct spt_uncertainty_result *result)
{
    char words[SPT_BAND_LENGTH];
    spt_text_wrap(text, "", spt_band_words(&result->system, result->samples, words));
    if (spt_preloaded_words(result, words))
        spt_text_wrap(text, "", words);
}

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

void spt_csv_band_heads(struct spt_csv *csv)
{
    spt_csv_text(csv, "band_p5_h");
    spt_csv_text(csv, "band_p95_h");
}

void spt_csv_band(struct spt_csv *csv, const struct spt_band *band)
{
    spt_csv_number(csv, band ? band->p5_h : (double)NAN);
    spt_csv_number(csv, band ? band->p95_h : (double)NAN);
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

void spt_spread_unmoved_text(const struct spt_text *text, const char *who,
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
        spt_text_wrapf(text, who ? "- " : "",
                       "%s%sThe spread of %s does not move \"%s\"%s (%d of %d phases): %s.",
                       who ? who : "", who ? ": " : "", spt_uncertain_name((enum spt_uncertain)i),
                       question->bearings[0].phases[unmoved->first].name, more, unmoved->phases,
                       question->bearings[0].phase_count, explain_unmoved((enum spt_uncertain)i));
    }
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
                     question->bearings[0].phases[unmoved->first].name, more, unmoved->phases,
                     question->bearings[0].phase_count, explain_unmoved((enum spt_uncertain)i));
    }
}

static void write_verdict(const struct spt_text *text, const struct spt_case *question,
                          double stated_h, const struct spt_uncertainty_result *result)
{
    char low[SPT_HOURS_LENGTH], middle[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    spt_text_wrapf(text, "",
                   "Rated life at %.6g %% reliability: %s to %s, median %s (5, 95 and 50 %% of "
                   "%d samples, seed %.0f).",
                   question->reliability_percent, spt_text_life(result->system.p5_h, low),
                   spt_text_life(result->system.p95_h, high),
                   spt_text_life(result->system.p50_h, middle), result->samples,
                   (double)result->seed);
    spt_text_wrapf(text, "", "As stated, with every input known: %s.",
                   spt_text_life(stated_h, middle));
    if (!isnan(result->share_at_target))
        spt_text_wrapf(text, "", "%.3g %% of the samples reach the target of %s.",
                       100 * result->share_at_target, spt_text_life(question->target_life_h, low));
    char words[SPT_BAND_LENGTH];
    if (spt_preloaded_words(result, words))
        spt_text_wrap(text, "", words);
    if (result->share_without_life > 0)
        spt_text_wrapf(text, "",
                       "For %.3g %% of the samples no life can be stated (the film is too thin, "
                       "or it is too hot); they count as the shortest.",
                       100 * result->share_without_life);
    if (result->held > 0)
        spt_text_wrapf(text, "",
                       "In %d samples a factor came out below %.3g and was held there: the spread "
                       "is too wide for its form.",
                       result->held, SPT_UNCERTAIN_FACTOR_MIN);
}

/* Writes how the setting factors of the samples were found, and their accuracy. */
static void write_setting(const struct spt_text *text, const struct spt_uncertainty_result *result)
{
    const struct spt_uncertain_setting *setting = &result->setting;
    spt_text_wrapf(text, "",
                   "Each sample has the load distribution of its own setting and loads, out of a "
                   "table of %d; %d samples solved directly have the same life within %.1g %%.",
                   setting->nodes, setting->checked, 100 * fmax(setting->error, 1e-6));
    if (!(setting->error <= SPT_UNCERTAIN_SETTING_ALLOWED))
        spt_text_wrapf(text, "",
                       "CAUTION: that is more than the %.2g %% that a table should keep to; take a "
                       "narrower spread of end play and load.",
                       100 * SPT_UNCERTAIN_SETTING_ALLOWED);
    if (setting->unsettled > 0)
        spt_text_wrapf(text, "",
                       "In %d samples the hub has no load distribution (see `setting`); they have "
                       "no life.",
                       setting->unsettled);
}

static void write_bearings(const struct spt_text *text, const struct spt_case *question,
                           const struct spt_uncertainty_result *result)
{
    char low[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    for (int i = 0; question->bearing_count > 1 && i < question->bearing_count; i++)
        spt_text_wrapf(text, "", "%s: %s to %s.", question->bearings[i].bearing.name,
                       spt_text_life(result->bearings[i].p5_h, low),
                       spt_text_life(result->bearings[i].p95_h, high));
    if (question->hub && !result->setting.varies)
        spt_text_wrap(
            text, "",
            "The setting factors of the hub stay as they are in every sample, and the loads of "
            "both rows move together.");
    else if (question->hub)
        write_setting(text, result);
}

/* Rounds to two decimals without -0.00. */
static double round_to_hundredths(double number)
{
    return fabs(number) < 0.005 ? 0 : number;
}

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

static void write_drivers(const struct spt_text *text, const struct spt_uncertainty_result *result)
{
    int order[SPT_UNCERTAIN_COUNT];
    int count = rank_drivers(result, order);
    bool shares = false;
    if (!count)
        return;
    for (int i = 0; i < count; i++)
        shares = shares || !isnan(result->drivers[order[i]].share.first);
    spt_text_heading(text, "WHAT MAKES IT UNSURE");
    fprintf(text->out, "input         rank correlation%s\n",
            shares ? "                          alone %  with all %" : "");
    for (int i = 0; i < count; i++) {
        const struct spt_driver *driver = &result->drivers[order[i]];
        char bar[BAR_WIDTH + 1];
        int marks = isnan(driver->rank_correlation)
                        ? 0
                        : (int)round(fabs(driver->rank_correlation) * BAR_WIDTH);
        for (int j = 0; j < BAR_WIDTH; j++)
            bar[j] = j < marks ? '#' : ' ';
        bar[marks < BAR_WIDTH && !shares ? marks : BAR_WIDTH] = 0;
        fprintf(text->out, "%-12s", spt_uncertain_name((enum spt_uncertain)order[i]));
        if (isnan(driver->rank_correlation))
            fputs("         -", text->out);
        else
            fprintf(text->out, " %9.2f", round_to_hundredths(driver->rank_correlation));
        fprintf(text->out, "%s%s", *bar ? "  " : "", bar);
        if (shares)
            fprintf(text->out, " %17.1f %11.1f", 100 * driver->share.first,
                    100 * driver->share.total);
        fputc('\n', text->out);
    }
    spt_text_wrap(text, "",
                  "Near 1: more of it, longer life; near -1: shorter; near 0: it hardly "
                  "matters within its spread, or life falls on both sides of a best value.");
    if (result->drivers[SPT_UNCERTAIN_END_PLAY].spread)
        spt_text_wrapf(text, "",
                       "So it is with end play: a setting that is too tight and one that is too "
                       "loose both cost life%s.",
                       shares ? "; go by the shares" : ", and --shares tells how much");
    if (shares)
        spt_text_wrap(text, "",
                      "Shares of the variance of ln(life): what an input explains by "
                      "itself, and with all it does together with others.");
}

static void write_spall_times(const struct spt_text *text,
                              const struct spt_uncertainty_result *result)
{
    const struct spt_survival_lives *lives = &result->time_to_spall;
    const double times_h[] = {lives->l1_h, lives->l5_h, lives->l10_h, lives->l50_h};
    spt_text_heading(text, "TIME TO SPALL");
    fputs("reached by        99 %        95 %        90 %        50 %\n            ", text->out);
    for (int i = 0; i < 4; i++) {
        char cell[SPT_HOURS_LENGTH];
        fprintf(text->out, i ? " %11s" : " %9s", spt_text_hours(times_h[i], cell));
    }
    fputs(" h\n", text->out);
    spt_text_wrap(text, "",
                  "One bearing picked from all these: the scatter of the inputs and the "
                  "scatter of fatigue lives together.");
}

void spt_spread_text(const struct spt_text *text, const struct spt_case *question, double stated_h,
                     const struct spt_uncertainty_result *result)
{
    spt_text_wrap(text, "", question->title);
    spt_history_text(text, question);
    spt_text_heading(text, "VERDICT");
    write_verdict(text, question, stated_h, result);
    write_bearings(text, question, result);
    write_drivers(text, result);
    spt_spread_unmoved_text(text, NULL, question, result);
    write_spall_times(text, result);
}

void spt_spread_json(struct spt_json *json, const struct spt_case *question, double stated_h,
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
    if (result->setting.varies) {
        spt_json_open(json, "setting_table", '{');
        spt_json_number(json, "nodes", result->setting.nodes);
        spt_json_number(json, "samples_checked", result->setting.checked);
        spt_json_number(json, "largest_error_of_life", result->setting.error);
        spt_json_number(json, "samples_solved_directly", result->setting.direct);
        spt_json_number(json, "samples_unsettled", result->setting.unsettled);
        spt_json_close(json, '}');
    }
    spt_json_open(json, "bearings", '[');
    for (int i = 0; i < question->bearing_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", question->bearings[i].bearing.name);
        spt_band_json(json, &result->bearings[i]);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_open(json, "time_to_spall", '{');
    spt_json_number(json, "l1_h", result->time_to_spall.l1_h);
    spt_json_number(json, "l5_h", result->time_to_spall.l5_h);
    spt_json_number(json, "l10_h", result->time_to_spall.l10_h);
    spt_json_number(json, "l50_h", result->time_to_spall.l50_h);
    spt_json_close(json, '}');
    spt_json_open(json, "inputs", '[');
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++) {
        const struct spt_driver *driver = &result->drivers[i];
        if (!driver->spread)
            continue;
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", spt_uncertain_name((enum spt_uncertain)i));
        spt_json_number(json, "rank_correlation", driver->rank_correlation);
        spt_json_number(json, "variance_share_alone", driver->share.first);
        spt_json_number(json, "variance_share_with_all", driver->share.total);
        spt_json_number(json, "phases_not_moved", driver->unmoved.phases);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_spread_csv(FILE *out, const struct spt_uncertainty_result *result)
{
    struct spt_csv csv = {out, false};
    spt_csv_text(&csv, "percent");
    spt_csv_text(&csv, "rated_life_h");
    spt_csv_text(&csv, "time_to_spall_h");
    spt_csv_end(&csv);
    for (int percent = 1; percent < 100; percent++) {
        double time_h;
        spt_uncertainty_spall_time(result, percent / 100.0, &time_h);
        spt_csv_number(&csv, percent);
        spt_csv_number(&csv, spt_uncertainty_quantile(result, percent / 100.0));
        spt_csv_number(&csv, time_h);
        spt_csv_end(&csv);
    }
}
