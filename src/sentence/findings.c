/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/findings.h"

#include <math.h>
#include <stdarg.h>
#include <string.h>

#include "base/quotient.h"
#include "format/text.h"
#include "sentence/band.h"
#include "sentence/causes.h"
#include "sentence/dents.h"
#include "sentence/greasing.h"
#include "sentence/notes.h"
#include "sentence/sentence.h"
#include "sentence/together.h"

#define LEAST_GAIN 1.01 /* of the life: less is no remedy to speak of */
#define WORDS_LENGTH 1200
#define WHO_LENGTH 260
#define WHOLE (-1) /* used as index of a phase: all phases */

void spt_finding_say(const struct spt_finding_sink *sink, const char *who, const char *format, ...)
{
    char words[WORDS_LENGTH];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(words, sizeof words, format, arguments);
    va_end(arguments);
    sink->say(sink->context, who, words);
}

static void say_life(const struct spt_assessment *assessment, const struct spt_finding_sink *sink)
{
    char life[SPT_HOURS_LENGTH];
    const double hours = assessment->modified_rating_life_h;
    if (isnan(hours))
        spt_finding_say(sink, NULL,
                        "In the condition as stated no life can be stated: see the flags for the "
                        "reason.");
    else if (isinf(hours))
        spt_finding_say(sink, NULL, "In the condition as stated fatigue sets no limit.");
    else
        spt_finding_say(sink, NULL,
                        "In the condition as stated the life is %s at %.6g %% reliability.",
                        spt_text_life(hours, life), assessment->question->reliability_percent);
}

/* How much longer a bearing that has run already may run. */
static void say_remaining(const struct spt_assessment *assessment,
                          const struct spt_finding_sink *sink)
{
    const struct spt_remaining *remaining = &assessment->remaining;
    char run[SPT_HOURS_LENGTH], life[SPT_HOURS_LENGTH];
    if (!(remaining->hours_run > 0))
        return;
    if (isnan(remaining->life_h)) {
        spt_finding_say(sink, NULL,
                        "How much longer it may run cannot be said: no life can be stated now or "
                        "in the condition of the past; state in `past` what differed then, such as "
                        "`condition: {grease_age: 0 h}`.");
        return;
    }
    spt_finding_say(sink, NULL,
                    "It has run %s h and has not failed (%.3g %% get so far): from now on %.6g %% "
                    "of those that got so far run another %s. A target counts from new.",
                    spt_text_stated(remaining->hours_run, run), 100 * remaining->survival,
                    assessment->question->reliability_percent,
                    spt_text_life(remaining->life_h, life));
}

/* Reports the conditions under which the life is valid. */
static void say_limits(const struct spt_assessment *assessment, const struct spt_finding_sink *sink)
{
    char band[SPT_BAND_LENGTH];
    struct spt_notes notes;
    spt_assessment_notes(assessment, &notes);
    if (assessment->spread)
        spt_finding_say(
            sink, NULL, "%s",
            spt_band_words(&assessment->spread->system, assessment->spread->samples, band));
    if (assessment->spread && spt_preloaded_words(assessment->spread, band))
        spt_finding_say(sink, NULL, "%s", band);
    if (spt_notes_has(&notes, SPT_FLAG_GREASE_OVERDUE) &&
        !isnan(assessment->modified_rating_life_h))
        spt_finding_say(sink, NULL,
                        "It holds for the %.0f %% whose grease still works at its age; the others "
                        "fail sooner.",
                        100 * spt_greasing_working(assessment));
    if (assessment->question->service_apart)
        spt_finding_say(sink, NULL,
                        "The drifts and events of `service` are not in that life; they are in the "
                        "life under the plan, and `timeline` follows them.");
}

/* "debris, 62 % of the loss; with only this put right the life would be 122 000 h (x 3.00)." */
static void say_cause(const struct spt_bearing_result *bearing, const char *what, int cause,
                      bool shared, const struct spt_finding_sink *sink)
{
    char life[SPT_HOURS_LENGTH], gain[SPT_HOURS_LENGTH], share[32] = "";
    const struct spt_cause_share *of = &bearing->loss.causes[cause];
    if (shared)
        snprintf(share, sizeof share, ", %.3g %% of the loss",
                 100 * of->log_life_share / spt_causes_whole(&bearing->loss));
    spt_finding_say(sink, NULL, "%s: %s%s; with only this put right the life would be %s (x %s).",
                    what, spt_cause_name((enum spt_cause)cause), share,
                    spt_text_life(of->life_if_cured_h, life),
                    spt_text_ratio(spt_causes_gain(bearing, cause), gain));
}

static bool gains_anything(const struct spt_bearing_result *bearing, int cause)
{
    return cause >= 0 && bearing->loss.causes[cause].life_if_cured_h >=
                             LEAST_GAIN * bearing->modified_rating_life_h;
}

static void say_causes(const struct spt_bearing_result *bearing,
                       const struct spt_finding_sink *sink)
{
    int costliest = spt_causes_costliest(&bearing->loss);
    int best = spt_causes_best_remedy(bearing);
    if (bearing->loss.reference_life_h < bearing->modified_rating_life_h &&
        !gains_anything(bearing, best)) {
        spt_finding_say(sink, NULL,
                        "No single remedy gains this row even 1 %% of life: the setting is put "
                        "right for both rows together, and what helps the other costs this one.");
        return;
    }
    if (costliest >= 0 && costliest == best)
        say_cause(bearing, "Costliest cause and best single remedy", costliest, false, sink);
    else if (costliest >= 0)
        say_cause(bearing, "Costliest cause", costliest, true, sink);
    if (best >= 0 && best != costliest)
        say_cause(bearing, "Best single remedy", best, false, sink);
}

/* The remedies after this are for one row each; this is the gain where both rows get one. */
static void say_whole(const struct spt_assessment *assessment, const struct spt_finding_sink *sink)
{
    char life[SPT_HOURS_LENGTH], gain[SPT_HOURS_LENGTH];
    int best = -1;
    double best_h = LEAST_GAIN * assessment->modified_rating_life_h;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        if (assessment->cured_life_h[i] > best_h ||
            (isnan(best_h) && !isnan(assessment->cured_life_h[i])))
            best_h = assessment->cured_life_h[best = i];
    if (best < 0)
        return;
    double ratio = spt_quotient(best_h, assessment->modified_rating_life_h);
    spt_text_ratio(ratio, gain);
    spt_finding_say(sink, spt_together(assessment->question),
                    "Best single remedy: %s; with only this put right in %s the life would be "
                    "%s%s%s%s.",
                    spt_cause_name((enum spt_cause)best),
                    assessment->bearing_count == 2 ? "both" : "all of them",
                    spt_text_life(best_h, life), isnan(ratio) ? "" : " (x ",
                    isnan(ratio) ? "" : gain, isnan(ratio) ? "" : ")");
}

static void say_worst(const struct spt_bearing_result *bearing, bool named,
                      const struct spt_finding_sink *sink)
{
    char life[SPT_HOURS_LENGTH];
    if (named)
        spt_finding_say(sink, bearing->bearing_case->bearing.name, "%s.",
                        spt_text_life(bearing->modified_rating_life_h, life));
    if (bearing->worst_phase >= 0)
        spt_finding_say(sink, NULL, "Costliest phase: " SPT_NAMED ", %.3g %% of the damage.",
                        bearing->phases[bearing->worst_phase].phase->name,
                        100 * bearing->phases[bearing->worst_phase].damage_share);
    say_causes(bearing, sink);
}

void spt_findings_stated(const struct spt_assessment *assessment,
                         const struct spt_finding_sink *sink)
{
    say_life(assessment, sink);
    char dents[SPT_DENTS_LENGTH];
    if (spt_dents_words(&assessment->dents, assessment->modified_rating_life_h, (double)NAN, dents))
        spt_finding_say(sink, NULL, "%s", dents);
    say_remaining(assessment, sink);
    say_limits(assessment, sink);
    if (assessment->bearing_count > 1)
        say_whole(assessment, sink);
    for (int i = 0; i < assessment->bearing_count; i++)
        say_worst(&assessment->bearings[i], assessment->bearing_count > 1, sink);
}

static int count_phases_with(const struct spt_bearing_result *bearing, int from, int to,
                             enum spt_flag flag)
{
    int count = 0;
    for (int i = from; i < to; i++)
        count += spt_notes_has(&bearing->phases[i].notes, flag);
    return count;
}

/* Notes of a phase, or of the row itself where `phase` is WHOLE. */
static const struct spt_notes *notes_of(const struct spt_bearing_result *bearing, int phase)
{
    return phase == WHOLE ? &bearing->notes : &bearing->phases[phase].notes;
}

/* True where the row raises this flag first in this phase, with the same sentence and the same
 * number of later phases. */
static bool says_so(const struct spt_bearing_result *bearing, int phase, enum spt_flag flag,
                    const char *sentence, int more)
{
    const struct spt_notes *notes = notes_of(bearing, phase);
    char own[SPT_SENTENCE_LENGTH];
    if (phase != WHOLE &&
        (count_phases_with(bearing, 0, phase, flag) ||
         count_phases_with(bearing, phase + 1, bearing->phase_count, flag) != more))
        return false;
    for (int i = 0; i < notes->count; i++) {
        if (notes->list[i].flag != flag)
            continue;
        spt_sentence(&notes->list[i], own, sizeof own);
        return !strcmp(own, sentence);
    }
    return false;
}

/* Writes the row where there are two, the phase, and how many later phases share the flag. */
static void write_who(const char *row, const struct spt_bearing_result *bearing, int phase,
                      int more, char *who, size_t size)
{
    bool named = row != NULL && phase != WHOLE;
    int used = snprintf(who, size, "%.100s%s%.120s", row ? row : "", named ? ", " : "",
                        phase == WHOLE ? "" : bearing->phases[phase].phase->name);
    if (more)
        snprintf(who + used, size - (size_t)used, " (and %d more)", more);
}

/* Every other bearing says so too. */
static bool all_say_so(const struct spt_assessment *assessment, int row, int phase,
                       enum spt_flag flag, const char *sentence, int more)
{
    for (int i = 0; i < assessment->bearing_count; i++)
        if (i != row && !says_so(&assessment->bearings[i], phase, flag, sentence, more))
            return false;
    return assessment->bearing_count > 1;
}

/* What all bearings say alike is said once. */
static void say_row_note(const struct spt_assessment *assessment, int row, int phase,
                         const struct spt_note *note, struct spt_page *page)
{
    const struct spt_bearing_result *bearing = &assessment->bearings[row];
    char who[WHO_LENGTH], sentence[SPT_SENTENCE_LENGTH];
    int more = phase == WHOLE
                   ? 0
                   : count_phases_with(bearing, phase + 1, bearing->phase_count, note->flag);
    spt_sentence(note, sentence, sizeof sentence);
    bool all = all_say_so(assessment, row, phase, note->flag, sentence, more);
    if (all && row > 0)
        return;
    const char *name = all                             ? spt_together(assessment->question)
                       : assessment->bearing_count > 1 ? bearing->bearing_case->bearing.name
                                                       : NULL;
    write_who(name, bearing, phase, more, who, sizeof who);
    spt_page_note(page, note, *who ? who : NULL);
}

static bool has_effect(const struct spt_note *note, unsigned effects)
{
    return effects >> spt_flag_effect(note->flag) & 1u;
}

static void say_row(const struct spt_assessment *assessment, int row, unsigned effects,
                    struct spt_page *page)
{
    const struct spt_bearing_result *bearing = &assessment->bearings[row];
    for (int phase = WHOLE; phase < bearing->phase_count; phase++) {
        const struct spt_notes *notes = notes_of(bearing, phase);
        for (int i = 0; i < notes->count; i++)
            if (has_effect(&notes->list[i], effects) &&
                (phase == WHOLE || !count_phases_with(bearing, 0, phase, notes->list[i].flag)))
                say_row_note(assessment, row, phase, &notes->list[i], page);
    }
}

void spt_page_flags_of(struct spt_page *page, const struct spt_assessment *assessment,
                       unsigned effects)
{
    for (int i = 0; i < assessment->notes.count; i++)
        if (has_effect(&assessment->notes.list[i], effects))
            spt_page_note(page, &assessment->notes.list[i], NULL);
    for (int i = 0; i < assessment->bearing_count; i++)
        say_row(assessment, i, effects, page);
}

void spt_page_flags(struct spt_page *page, const struct spt_assessment *assessment)
{
    spt_page_open(page, "Flags");
    spt_page_flags_of(page, assessment, SPT_EFFECTS_ALL);
    spt_page_close(page);
}
