/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/timeline.h"

#include <math.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "format/csv.h"
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

static void write_undisturbed(const struct spt_text *text, const struct spt_timeline *timeline)
{
    char hours[SPT_HOURS_LENGTH];
    if (isnan(timeline->undisturbed_h))
        spt_text_wrapf(
            text, "", "Without any event or drift no life could be stated from %s h on%s: %s.",
            spt_text_hours(timeline->undisturbed_stopped_h, hours),
            isnan(timeline->life_h) ? " either" : "", tell_end(&timeline->undisturbed_notes));
    else if (isinf(timeline->undisturbed_h))
        spt_text_wrapf(text, "", "Without any event or drift it would last beyond %s h.",
                       spt_text_hours(timeline->until_h, hours));
    else
        spt_text_wrapf(text, "", "Without any event or drift: %s h.",
                       spt_text_hours(timeline->undisturbed_h, hours));
}

static void write_verdict(const struct spt_text *text, const struct spt_case *question,
                          const struct spt_timeline *timeline)
{
    char life[SPT_HOURS_LENGTH], target[SPT_HOURS_LENGTH];
    spt_text_hours(timeline->life_h, life);
    if (isnan(timeline->life_h))
        spt_text_wrapf(
            text, "",
            "From %s h on no life can be stated: %s. %.3g %% of the life was spent by then.",
            spt_text_hours(timeline->stopped_h, life),
            tell_end(&timeline->stages[timeline->stage_count - 1].placed.notes),
            100 * timeline->damage_at_end);
    else if (isinf(timeline->life_h))
        spt_text_wrapf(text, "", "The life is not spent by %s h; %.3g %% of it is.",
                       spt_text_hours(timeline->until_h, life), 100 * timeline->damage_at_end);
    else
        spt_text_wrapf(text, "", "Life reached: %s h at %.6g %% reliability.", life,
                       question->reliability_percent);
    if (timeline->influence_count)
        write_undisturbed(text, timeline);
    if (!isnan(question->target_life_h))
        spt_text_wrapf(text, "", "Target: %s h, %s.",
                       spt_text_hours(question->target_life_h, target),
                       isinf(timeline->life_h) && timeline->until_h < question->target_life_h
                           ? "beyond the hours looked at"
                       : timeline->life_h >= question->target_life_h ? "met"
                                                                     : "MISSED");
}

/* "120 000 h or more" beyond the horizon, else the hours. */
static void write_life_without(const struct spt_text *text, const struct spt_timeline *timeline,
                               double life_h)
{
    char cell[SPT_HOURS_LENGTH];
    if (isinf(life_h))
        fprintf(text->out, " >%10s\n", spt_text_hours(timeline->until_h, cell));
    else
        fprintf(text->out, " %11s\n", spt_text_hours(life_h, cell));
}

static void write_influences(const struct spt_text *text, const struct spt_timeline *timeline)
{
    char cell[SPT_HOURS_LENGTH];
    bool none = false;
    if (!timeline->influence_count)
        return;
    spt_text_heading(text, "EVENTS AND DRIFTS");
    fputs("what                                     from h  spent before  life without it h\n",
          text->out);
    for (int i = 0; i < timeline->influence_count; i++) {
        const struct spt_influence_result *influence = &timeline->influences[i];
        spt_text_fit(text, influence->name, 36);
        fprintf(text->out, " %10s", spt_text_hours(influence->at_h, cell));
        if (isnan(influence->damage_at))
            fprintf(text->out, " %13s", "not reached");
        else
            fprintf(text->out, " %11.1f %%", 100 * influence->damage_at);
        fputs("      ", text->out);
        write_life_without(text, timeline, influence->life_without_h);
        none = none || isnan(influence->life_without_h);
    }
    if (none)
        spt_text_wrap(text, "",
                      "none: without it the film goes, or the temperature leaves the models, "
                      "before fatigue ends the life, and no life can be stated.");
}

static void write_stages(const struct spt_text *text, const struct spt_timeline *timeline)
{
    char from[SPT_HOURS_LENGTH], to[SPT_HOURS_LENGTH];
    spt_text_heading(text, "STAGES");
    fputs("    from h       to h   spent %\n", text->out);
    for (int i = 0; i < timeline->stage_count; i++) {
        const struct spt_stage *stage = &timeline->stages[i];
        fprintf(text->out, "%10s %10s %9.1f  ", spt_text_hours(stage->from_h, from),
                spt_text_hours(stage->to_h, to), 100 * stage->damage);
        spt_text_bar(text, stage->damage, 1, BAR_WIDTH);
        fputs(i == timeline->worst_stage && timeline->stage_count > 1 ? " most\n" : "\n",
              text->out);
    }
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
static const char *tell_place(const struct spt_note_place *place, const struct spt_case *question,
                              char *words)
{
    const bool rows = question->bearing_count > 1;
    char who[PLACE_LENGTH / 2];
    int used = snprintf(
        words, PLACE_LENGTH, ", %s%s%.120s",
        rows ? spt_together_of(question, place->others | 1u << place->bearing, who, sizeof who)
             : "",
        rows && place->phase ? ", " : "", place->phase ? place->phase : "");
    if (place->more)
        snprintf(words + used, PLACE_LENGTH - (size_t)used, " (and %d more)", place->more);
    return words;
}

/* Writes a note at the first stage that raises it. */
static void write_flag(const struct spt_text *text, const struct spt_case *question,
                       const struct spt_stage *stage, int index)
{
    const struct spt_note *note = &stage->placed.notes.list[index];
    const bool by_end = !spt_notes_has(&stage->start_notes, note->flag);
    char hours[SPT_HOURS_LENGTH], sentence[SPT_SENTENCE_LENGTH], place[PLACE_LENGTH];
    spt_sentence(note, sentence, sizeof sentence);
    spt_text_wrapf(text, "- ", "%s %s h%s: %s", by_end ? "by" : "from",
                   spt_text_hours(by_end ? stage->to_h : stage->from_h, hours),
                   tell_place(&stage->placed.places[index], question, place), sentence);
}

static void write_flags(const struct spt_text *text, const struct spt_case *question,
                        const struct spt_timeline *timeline)
{
    bool headed = false;
    for (int i = 0; i < timeline->stage_count; i++)
        for (int j = 0; j < timeline->stages[i].placed.notes.count; j++) {
            if (!is_first(timeline, i, timeline->stages[i].placed.notes.list[j].flag))
                continue;
            if (!headed)
                spt_text_heading(text, "FLAGS");
            headed = true;
            write_flag(text, question, &timeline->stages[i], j);
        }
}

/* Writes the band of the initial life; the service life itself is for the inputs as stated. */
static void write_band(const struct spt_text *text, const struct spt_service_life *life)
{
    char stated[SPT_HOURS_LENGTH];
    if (!life->spread)
        return;
    if (isinf(life->stated_h))
        spt_text_wrap(text, "",
                      "In the condition as stated, without the service, fatigue sets no limit.");
    else
        spt_text_wrapf(text, "",
                       "In the condition as stated, without the service, the life is %s; the lives "
                       "above shift about as it does.",
                       spt_text_life(life->stated_h, stated));
    spt_band_text(text, life->spread);
}

void spt_timeline_text(const struct spt_text *text, const struct spt_service_life *life, bool quiet)
{
    const struct spt_case *question = &life->question;
    const struct spt_timeline *timeline = &life->timeline;
    spt_text_wrap(text, "", question->title);
    spt_history_text(text, question);
    spt_text_heading(text, "VERDICT");
    write_verdict(text, question, timeline);
    write_band(text, life);
    write_influences(text, timeline);
    write_stages(text, timeline);
    if (!quiet)
        write_flags(text, question, timeline);
}

static void write_json_lists(struct spt_json *json, const struct spt_timeline *timeline)
{
    spt_json_open(json, "stages", '[');
    for (int i = 0; i < timeline->stage_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_number(json, "from_h", timeline->stages[i].from_h);
        spt_json_number(json, "to_h", timeline->stages[i].to_h);
        spt_json_number(json, "damage", timeline->stages[i].damage);
        spt_json_number(json, "start_life_h", timeline->stages[i].start_life_h);
        spt_json_number(json, "end_life_h", timeline->stages[i].end_life_h);
        spt_json_notes(json, &timeline->stages[i].placed.notes);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_open(json, "influences", '[');
    for (int i = 0; i < timeline->influence_count; i++) {
        const struct spt_influence_result *influence = &timeline->influences[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", influence->name);
        spt_json_number(json, "at_h", influence->at_h);
        spt_json_number(json, "damage_before", influence->damage_at);
        spt_json_number(json, "life_without_h", influence->life_without_h);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
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

void spt_timeline_json(struct spt_json *json, const struct spt_service_life *life)
{
    const struct spt_case *question = &life->question;
    const struct spt_timeline *timeline = &life->timeline;
    const struct spt_damage_curve *curve = &life->curve;
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
    if (life->spread) {
        spt_json_number(json, "stated_life_h", life->stated_h);
        spt_band_json(json, &life->spread->system);
    }
    write_json_lists(json, timeline);
    write_json_warnings(json, timeline);
    spt_json_open(json, "curve", '[');
    for (int i = 0; i < curve->count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_number(json, "time_h", curve->times_h[i]);
        spt_json_number(json, "damage", curve->damage[i]);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_timeline_csv(FILE *out, const struct spt_damage_curve *curve)
{
    struct spt_csv csv = {out, false};
    spt_csv_text(&csv, "time_h");
    spt_csv_text(&csv, "damage");
    spt_csv_end(&csv);
    for (int i = 0; i < curve->count; i++) {
        spt_csv_number(&csv, curve->times_h[i]);
        spt_csv_number(&csv, curve->damage[i]);
        spt_csv_end(&csv);
    }
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

void spt_timeline_explain_text(const struct spt_text *text, const struct spt_timeline *timeline)
{
    spt_explain_in_text(text, tell_timeline, timeline);
}

void spt_timeline_explain_json(struct spt_json *json, const struct spt_timeline *timeline)
{
    spt_explain_in_json(json, tell_timeline, timeline);
}
