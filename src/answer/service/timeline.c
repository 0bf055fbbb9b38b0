/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/timeline.h"

#include <math.h>
#include <stddef.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "answer/service/greasing.h"
#include "answer/service/oil.h"
#include "chart/figure.h"
#include "sentence/dents.h"
#include "sentence/sentence.h"
#include "sentence/together.h"

#define BAR_WIDTH 30
#define PLACE_LENGTH 440

/* The reason why no life can be stated any more, by the flags of the state just after that time. */
static const char *tell_end(const struct spt_notes *notes)
{
    if (spt_notes_has(notes, SPT_FLAG_GREASE_EXHAUSTED))
        return "the grease is worn out by then and makes no film; regrease sooner (the grease has "
               "its stated age at the start)";
    if (spt_notes_has(notes, SPT_FLAG_FILM_TOO_THIN))
        return "the oil film is far too thin by then";
    if (spt_notes_has(notes, SPT_FLAG_TOO_HOT))
        return "it is too hot by then for the models";
    return "the lubricant no longer makes a film, or the temperature leaves the range of the "
           "models";
}

/* The bounds that dents of dirt that is gone leave. */
static void say_dents(struct spt_page *page, const struct spt_timeline *timeline)
{
    char words[SPT_DENTS_LENGTH];
    if (spt_dents_words(&timeline->dents, timeline->life_h, timeline->until_h, words))
        spt_page_say(page, SPT_BODY, "", "%s", words);
}

static void say_undisturbed(struct spt_page *page, const struct spt_timeline *timeline)
{
    if (isnan(timeline->undisturbed_h))
        spt_page_say(page, SPT_BODY, "",
                     "Without any event or drift no life could be stated from %s h on%s: %s.",
                     spt_page_hours(page, timeline->undisturbed_stopped_h),
                     isnan(timeline->life_h) ? " either" : "",
                     tell_end(&timeline->undisturbed_notes));
    else if (isinf(timeline->undisturbed_h))
        spt_page_say(page, SPT_BODY, "", "Without any event or drift it would last beyond %s h.",
                     spt_page_hours(page, timeline->until_h));
    else
        spt_page_say(page, SPT_BODY, "", "Without any event or drift: %s h.",
                     spt_page_hours(page, timeline->undisturbed_h));
}

/* The bearing whose life it is, where events put in new ones. */
static void say_renewed(struct spt_page *page, const struct spt_timeline *timeline)
{
    double since_h = 0;
    for (int i = 0; i < timeline->stage_count; i++)
        if (timeline->stages[i].renewed)
            since_h = timeline->stages[i].from_h;
    if (since_h > 0)
        spt_page_say(page, SPT_BODY, "",
                     "Hours count from the first hour of the file; what runs then are the bearings "
                     "put in at %s h.",
                     spt_page_hours(page, since_h));
}

static void say_life(struct spt_page *page, const struct spt_case *question,
                     const struct spt_timeline *timeline)
{
    if (isnan(timeline->life_h))
        spt_page_say(page, SPT_BODY, "",
                     "From %s h on no life can be stated: %s. %.3g %% of the life was spent by "
                     "then.",
                     spt_page_hours(page, timeline->stopped_h),
                     tell_end(&timeline->stages[timeline->stage_count - 1].placed.notes),
                     100 * timeline->damage_at_end);
    else if (isinf(timeline->life_h))
        spt_page_say(page, SPT_BODY, "", "The life is not spent by %s h; %.3g %% of it is.",
                     spt_page_hours(page, timeline->until_h), 100 * timeline->damage_at_end);
    else
        spt_page_say(page, SPT_BODY, "", "Life reached: %s h at %.6g %% reliability.",
                     spt_page_hours(page, timeline->life_h), question->reliability_percent);
}

/* A row of events and drifts. */
struct influence_row {
    const char *name;
    double at_h, damage_before, life_without_h;
    const char *beyond; /* in place of a life beyond the hours looked at; NULL: it is not */
};

static void show_influences(struct spt_page *page, const struct spt_timeline *timeline)
{
    static const struct spt_column columns[] = {
        {.head = "what",
         .key = "name",
         .kind = SPT_WORDS,
         .width = 36,
         .at = offsetof(struct influence_row, name)},
        {.head = "from h",
         .key = "at_h",
         .kind = SPT_HOURS,
         .width = 10,
         .gap = 1,
         .at = offsetof(struct influence_row, at_h)},
        {.head = "spent before",
         .key = "damage_before",
         .kind = SPT_PERCENT,
         .digits = 1,
         .width = 13,
         .gap = 1,
         .none = "not reached",
         .unit = " %",
         .at = offsetof(struct influence_row, damage_before)},
        {.head = "life without it h",
         .key = "life_without_h",
         .kind = SPT_HOURS,
         .width = 17,
         .gap = 2,
         .at = offsetof(struct influence_row, life_without_h),
         .instead = offsetof(struct influence_row, beyond)},
    };
    const int count = timeline->influence_count;
    struct influence_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    bool none = false;
    for (int i = 0; rows && i < count; i++) {
        const struct spt_influence_result *influence = &timeline->influences[i];
        rows[i] = (struct influence_row){
            influence->name, influence->at_h, influence->damage_at, influence->life_without_h,
            isinf(influence->life_without_h)
                ? spt_page_words(page, ">%10s", spt_page_hours(page, timeline->until_h))
                : NULL};
        none = none || isnan(influence->life_without_h);
    }
    spt_page_open(page, "Events and drifts");
    spt_page_table(page, "influences", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    if (none)
        spt_page_say(page, SPT_BODY, "",
                     "none: without it the film goes, or the temperature leaves the models, "
                     "before fatigue ends the life, and no life can be stated.");
    spt_page_close(page);
}

struct stage_row {
    double from_h, to_h, damage, start_life_h, end_life_h;
    const char *most;
};

static void show_stages(struct spt_page *page, const struct spt_timeline *timeline)
{
    static const struct spt_column columns[] = {
        {.head = "from h",
         .key = "from_h",
         .kind = SPT_HOURS,
         .width = 10,
         .at = offsetof(struct stage_row, from_h)},
        {.head = "to h",
         .key = "to_h",
         .kind = SPT_HOURS,
         .width = 10,
         .gap = 1,
         .at = offsetof(struct stage_row, to_h)},
        {.head = "spent %",
         .key = "damage",
         .kind = SPT_PERCENT,
         .digits = 1,
         .width = 9,
         .gap = 1,
         .at = offsetof(struct stage_row, damage)},
        {.head = "",
         .kind = SPT_BAR,
         .width = BAR_WIDTH,
         .gap = 2,
         .at = offsetof(struct stage_row, damage)},
        {.key = "start_life_h", .kind = SPT_HOURS, .at = offsetof(struct stage_row, start_life_h)},
        {.key = "end_life_h", .kind = SPT_HOURS, .at = offsetof(struct stage_row, end_life_h)},
        {.head = "",
         .kind = SPT_WORDS,
         .width = 4,
         .gap = 1,
         .at = offsetof(struct stage_row, most)},
    };
    const int count = timeline->stage_count;
    struct stage_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++) {
        const struct spt_stage *stage = &timeline->stages[i];
        rows[i] = (struct stage_row){
            stage->from_h,
            stage->to_h,
            stage->damage,
            stage->start_life_h,
            stage->end_life_h,
            i == timeline->worst_stage && count > 1 ? "most" : stage->renewed ? "new" : ""};
    }
    spt_page_open(page, "Stages");
    spt_page_table(page, "stages", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_close(page);
}

struct curve_row {
    double time_h, damage;
};

static void keep_curve(struct spt_page *page, const struct spt_damage_curve *curve)
{
    static const struct spt_column columns[] = {
        {.key = "time_h", .kind = SPT_HOURS, .at = offsetof(struct curve_row, time_h)},
        {.key = "damage", .kind = SPT_NUMBER, .at = offsetof(struct curve_row, damage)},
    };
    struct curve_row *rows = spt_page_allocate(page, (size_t)curve->count * sizeof *rows);
    for (int i = 0; rows && i < curve->count; i++)
        rows[i] = (struct curve_row){curve->times_h[i], curve->damage[i]};
    spt_page_table(page, "curve",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, curve->count), .is_data = true});
}

/* True where no earlier stage raises the flag. */
static bool is_first(const struct spt_timeline *timeline, int stage, enum spt_flag flag)
{
    for (int i = 0; i < stage; i++)
        if (spt_notes_has(&timeline->stages[i].placed.notes, flag))
            return false;
    return true;
}

/* ", parked (and 1 more)", with the row where there are two. */
static const char *tell_place(struct spt_page *page, const struct spt_note_place *place,
                              const struct spt_case *question)
{
    const bool rows = question->bearing_count > 1;
    char who[PLACE_LENGTH];
    const char *row =
        rows ? spt_together_of(question, place->others | 1u << place->bearing, who, sizeof who)
             : "";
    const char *words = spt_page_words(page, ", %s%s%s", rows ? spt_page_name(page, row) : "",
                                       rows && place->phase ? ", " : "",
                                       place->phase ? spt_page_name(page, place->phase) : "");
    return place->more ? spt_page_words(page, "%s (and %d more)", words, place->more) : words;
}

/* A flag at the first stage that raises it. */
static void say_flag(struct spt_page *page, const struct spt_case *question,
                     const struct spt_stage *stage, int index)
{
    const struct spt_note *note = &stage->placed.notes.list[index];
    const bool by_end = !spt_notes_has(&stage->start_notes, note->flag);
    char sentence[SPT_SENTENCE_LENGTH];
    spt_sentence(note, sentence, sizeof sentence);
    spt_page_say(page, spt_flag_role(note->flag), "- ", "%s %s h%s: %s", by_end ? "by" : "from",
                 spt_page_hours(page, by_end ? stage->to_h : stage->from_h),
                 tell_place(page, &stage->placed.places[index], question), sentence);
}

/* Phases of unequal dirt, which each count with their own. */
static void say_phase_dents(struct spt_page *page, const struct spt_service_life *life)
{
    char sentence[SPT_SENTENCE_LENGTH];
    if (!life->phase_dents.tells)
        return;
    spt_sentence(&(struct spt_note){SPT_FLAG_PHASE_DENTS, life->phase_dents.life_h, life->stated_h},
                 sentence, sizeof sentence);
    spt_page_say(page, spt_flag_role(SPT_FLAG_PHASE_DENTS), "- ", "in the condition as stated: %s",
                 sentence);
}

/* Free water that has gone again has left its mark, until a new bearing is put in. */
static void say_rust(struct spt_page *page, const struct spt_timeline *timeline)
{
    bool wet = false, dry = false;
    for (int i = 0; i < timeline->stage_count; i++) {
        const bool free_water =
            spt_notes_has(&timeline->stages[i].placed.notes, SPT_FLAG_WATER_SATURATED);
        wet = (wet && !timeline->stages[i].renewed) || free_water;
        dry = wet && !free_water;
    }
    if (dry)
        spt_page_say(page, SPT_CHANGES_NUMBER, "- ",
                     "Rust pits stay: free water has stood in the bearing, and its pits do not go "
                     "with it. They are not in the life.");
}

static void say_flags(struct spt_page *page, const struct spt_service_life *life)
{
    const struct spt_case *question = &life->question;
    const struct spt_timeline *timeline = &life->timeline;
    spt_page_open(page, "Flags");
    say_phase_dents(page, life);
    for (int i = 0; i < timeline->stage_count; i++)
        for (int j = 0; j < timeline->stages[i].placed.notes.count; j++)
            if (is_first(timeline, i, timeline->stages[i].placed.notes.list[j].flag))
                say_flag(page, question, &timeline->stages[i], j);
    say_rust(page, timeline);
    spt_page_close(page);
}

/* The band of the initial life; the service life itself is for the inputs as stated. */
static void say_band(struct spt_page *page, const struct spt_service_life *life)
{
    if (!life->spread)
        return;
    if (isinf(life->stated_h))
        spt_page_say(page, SPT_BODY, "",
                     "In the condition as stated, without the service, fatigue sets no limit.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "In the condition as stated, without the service, the life is %s; the lives "
                     "above shift about as it does.",
                     spt_page_life(page, life->stated_h));
    spt_band_page(page, life->spread);
}

static void explain_stages(const struct spt_timeline *timeline, const struct spt_step_sink *sink)
{
    sink->place(sink->context, "", "stages");
    for (int i = 0; i < timeline->stage_count; i++) {
        const struct spt_stage *stage = &timeline->stages[i];
        spt_explain_step(sink, "D", "integral of dt/L over the stage", stage->damage, "",
                         "Palmgren 1924, Miner 1945, read as an integral",
                         "%.6g h to %.6g h; 1/L is 1/%.6g at its start, 1/%.6g at its end, per h",
                         stage->from_h, stage->to_h, stage->start_life_h, stage->end_life_h);
    }
    spt_explain_step(sink, "D", "sum over the stages", timeline->damage_at_end, "",
                     "life is spent at 1", "stages: %d", timeline->stage_count);
    spt_explain_step(sink, "L", "time at which D = 1", timeline->life_h, "h",
                     "root of D(t) - 1 by Brent's method", "looked up to %.6g h",
                     timeline->until_h);
}

static void tell_timeline(const void *subject, const struct spt_step_sink *sink)
{
    const struct spt_timeline *timeline = subject;
    explain_stages(timeline, sink);
    sink->place(sink->context, "", "without events and drifts");
    spt_explain_step(sink, "L", "life with renewals alone", timeline->undisturbed_h, "h",
                     "the same integral", "no event, no drift");
    for (int i = 0; i < timeline->influence_count; i++)
        spt_explain_step(sink, "L", "life without this one", timeline->influences[i].life_without_h,
                         "h", "the same integral, the others kept", "%s",
                         timeline->influences[i].name);
}

void spt_timeline_page(struct spt_page *page, const struct spt_service_life *life, bool explain)
{
    const struct spt_case *question = &life->question;
    const struct spt_timeline *timeline = &life->timeline;
    spt_history_page(page, question);
    spt_page_open(page, "Life with the service");
    if (timeline->hours_run > 0)
        spt_page_say(page, SPT_BODY, "",
                     "The bearing has run %s h and has not failed; all hours here count from now, "
                     "those of the target from new.",
                     spt_page_hours(page, timeline->hours_run));
    say_life(page, question, timeline);
    say_renewed(page, timeline);
    say_dents(page, timeline);
    if (timeline->influence_count)
        say_undisturbed(page, timeline);
    say_band(page, life);
    spt_greasing_page(page, &life->greasing);
    if (life->plan)
        spt_oil_page(page, life->plan);
    spt_page_close(page);
    spt_figure_page(page, "timeline", &(struct spt_report){.title = question->title, .life = life},
                    &(struct spt_report_case){0}, NULL);
    show_influences(page, timeline);
    show_stages(page, timeline);
    say_flags(page, life);
    keep_curve(page, &life->curve);
    if (explain)
        spt_explain_page(page, tell_timeline, timeline);
}

static void write_json_lists(struct spt_json *json, const struct spt_page *page,
                             const struct spt_timeline *timeline)
{
    const struct spt_table *stages = spt_page_find(page, "stages");
    const struct spt_table *influences = spt_page_find(page, "influences");
    spt_json_open(json, "stages", '[');
    for (int i = 0; i < stages->row_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_table_json_row(stages, i, json);
        spt_json_notes(json, &timeline->stages[i].placed.notes);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_table_json(influences, "influences", json);
}

/* Writes each flag once, at the first stage that raises it. */
static void write_json_warnings(struct spt_json *json, const struct spt_timeline *timeline)
{
    spt_json_open(json, "warnings", '[');
    for (int i = 0; i < timeline->stage_count; i++)
        for (int j = 0; j < timeline->stages[i].placed.notes.count; j++) {
            const struct spt_note *note = &timeline->stages[i].placed.notes.list[j];
            char sentence[SPT_SENTENCE_LENGTH];
            if (!is_first(timeline, i, note->flag))
                continue;
            spt_sentence(note, sentence, sizeof sentence);
            spt_json_open(json, NULL, '{');
            spt_json_text(json, "code", spt_flag_code(note->flag));
            spt_json_text(json, "text", sentence);
            spt_json_text(json, "phase", timeline->stages[i].placed.places[j].phase);
            spt_json_number(json, "from_h", timeline->stages[i].from_h);
            spt_json_number(json, "at_h",
                            spt_notes_has(&timeline->stages[i].start_notes, note->flag)
                                ? timeline->stages[i].from_h
                                : timeline->stages[i].to_h);
            spt_json_close(json, '}');
        }
    spt_json_close(json, ']');
}

void spt_timeline_json(struct spt_json *json, const struct spt_page *page,
                       const struct spt_service_life *life, bool explain)
{
    const struct spt_case *question = &life->question;
    const struct spt_timeline *timeline = &life->timeline;
    spt_json_text(json, "title", question->title);
    spt_history_json(json, question->history);
    spt_json_number(json, "target_life_h", question->target_life_h);
    spt_json_number(json, "life_h", timeline->life_h);
    spt_json_bool(json, "outlives_horizon", isinf(timeline->life_h));
    spt_json_number(json, "until_h", timeline->until_h);
    spt_json_number(json, "no_life_from_h", timeline->stopped_h);
    spt_json_number(json, "damage_at_end", timeline->damage_at_end);
    spt_json_number(json, "undisturbed_life_h", timeline->undisturbed_h);
    spt_json_number(json, "undisturbed_no_life_from_h", timeline->undisturbed_stopped_h);
    if (timeline->hours_run > 0)
        spt_json_number(json, "hours_run_h", timeline->hours_run);
    spt_json_number(json, "life_if_cured_h", timeline->dents.if_cured_h);
    spt_json_number(json, "life_half_credit_h", timeline->dents.half_credit_h);
    if (life->spread) {
        spt_json_number(json, "stated_life_h", life->stated_h);
        spt_band_json(json, &life->spread->system);
    }
    spt_greasing_json(json, &life->greasing);
    if (life->plan)
        spt_oil_json(json, &life->plan->oil);
    write_json_lists(json, page, timeline);
    write_json_warnings(json, timeline);
    spt_table_json(spt_page_find(page, "curve"), "curve", json);
    if (explain)
        spt_explain_in_json(json, tell_timeline, timeline);
}
