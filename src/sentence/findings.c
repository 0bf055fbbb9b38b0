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
#define ALMOST 0.995    /* of the target: its ratio would be told as 1.00 */
#define MARGIN_LENGTH 48
#define SO_FAR_LENGTH 96
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

/* "x 1.10"; a target that is nearly reached: "short by 0.0016 %". */
static const char *say_margin(double hours, double target_h, char *words)
{
    double ratio = hours / target_h;
    char share[SPT_HOURS_LENGTH];
    if (ratio < 1 && ratio >= ALMOST)
        snprintf(words, MARGIN_LENGTH, "short by %.2g %%", 100 * (1 - ratio));
    else
        snprintf(words, MARGIN_LENGTH, "x %s", spt_text_ratio(ratio, share));
    return words;
}

static void say_no_life(double target_h, const struct spt_finding_sink *sink)
{
    char target[SPT_HOURS_LENGTH];
    if (isnan(target_h))
        spt_finding_say(sink, NULL, "No life can be stated: see the flags for the reason.");
    else
        spt_finding_say(sink, NULL,
                        "No life can be stated, so nothing shows that the target of %s h is met: "
                        "see the flags for the reason.",
                        spt_text_stated(target_h, target));
}

/* ", 17 700 h for one that has got so far"; nothing for a new bearing. */
static const char *tell_so_far(const struct spt_assessment *assessment, char *words)
{
    char life[SPT_HOURS_LENGTH];
    *words = 0;
    if (assessment->remaining.hours_run > 0)
        snprintf(words, SO_FAR_LENGTH, ", %s from new for one that has got so far",
                 spt_text_life(assessment->judged_life_h, life));
    return words;
}

static void say_against_target(const struct spt_assessment *assessment,
                               const struct spt_finding_sink *sink)
{
    char life[SPT_HOURS_LENGTH], target[SPT_HOURS_LENGTH], margin[MARGIN_LENGTH];
    char years[SPT_HOURS_LENGTH], so_far[SO_FAR_LENGTH];
    const struct spt_case *question = assessment->question;
    double hours = assessment->modified_rating_life_h;
    spt_text_life(hours, life);
    spt_text_stated(question->target_life_h, target);
    if (isnan(hours))
        say_no_life(question->target_life_h, sink);
    else if (isinf(hours))
        spt_finding_say(sink, NULL, "Fatigue sets no limit at %.6g %% reliability%s%s%s.",
                        question->reliability_percent,
                        isnan(question->target_life_h) ? "" : ": meets the target of ",
                        isnan(question->target_life_h) ? "" : target,
                        isnan(question->target_life_h) ? "" : " h");
    else if (isnan(question->target_life_h))
        spt_finding_say(sink, NULL, "Fatigue life %s at %.6g %% reliability.", life,
                        question->reliability_percent);
    else
        spt_finding_say(
            sink, NULL, "Fatigue life %s at %.6g %% reliability%s: %s the target of %s h (%s).",
            life, question->reliability_percent, tell_so_far(assessment, so_far),
            assessment->judged_life_h < question->target_life_h ? "MISSES" : "meets", target,
            say_margin(assessment->judged_life_h, question->target_life_h, margin));
    if (isfinite(hours) && !isnan(question->yearly_use_h))
        spt_finding_say(sink, NULL, "At %.4g h of running a year that is %s years.",
                        question->yearly_use_h,
                        spt_text_amount(hours / question->yearly_use_h, years));
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

/* Share of the machines whose grease still works at its stated age; 1 where none is overdue. */
static double find_greased(const struct spt_assessment *assessment)
{
    double share = 1;
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        double row = 1;
        for (int j = 0; j < bearing->phase_count; j++)
            if (spt_notes_has(&bearing->phases[j].notes, SPT_FLAG_GREASE_OVERDUE))
                row = fmin(row, bearing->phases[j].grease.survival);
        share *= row;
    }
    return share;
}

/* A life longer than the relubrication interval is valid only if the grease is renewed. */
static void say_regreasing(const struct spt_assessment *assessment,
                           const struct spt_finding_sink *sink)
{
    const struct spt_greasing *greasing = &assessment->greasing;
    char interval[SPT_HOURS_LENGTH], words[SPT_GREASING_LENGTH];
    const char *every = spt_greasing_every(greasing, words);
    const char *demand = spt_greasing_demand(greasing);
    if (greasing->state == SPT_GREASING_NONE)
        return;
    if (isnan(greasing->interval_h))
        spt_finding_say(sink, NULL, "Greasing: %s.", demand);
    else
        spt_finding_say(
            sink, NULL, "It counts on grease that is renewed in time, %s%s(interval %s)%s%s.",
            every ? every : "", every ? " " : "", spt_text_life(greasing->interval_h, interval),
            demand ? "; " : "", demand ? demand : "");
}

/* Reports the conditions under which the life is valid. */
static void say_limits(const struct spt_assessment *assessment, const struct spt_finding_sink *sink)
{
    char band[SPT_BAND_LENGTH];
    double greased = find_greased(assessment);
    if (assessment->spread)
        spt_finding_say(
            sink, NULL, "%s",
            spt_band_words(&assessment->spread->system, assessment->spread->samples, band));
    if (assessment->spread && spt_preloaded_words(assessment->spread, band))
        spt_finding_say(sink, NULL, "%s", band);
    if (greased < 1 && !isnan(assessment->modified_rating_life_h))
        spt_finding_say(sink, NULL,
                        "It holds for the %.0f %% whose grease still works at its age; the others "
                        "fail sooner.",
                        100 * greased);
    say_regreasing(assessment, sink);
    if (assessment->question->service_apart)
        spt_finding_say(sink, NULL,
                        "It is the life in the condition as stated: the drifts and events of "
                        "`service` are not in it; `timeline` follows them.");
}

static bool any_has(const struct spt_assessment *assessment, enum spt_flag flag)
{
    if (spt_notes_has(&assessment->notes, flag))
        return true;
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        if (spt_notes_has(&bearing->notes, flag))
            return true;
        for (int j = 0; j < bearing->phase_count; j++)
            if (spt_notes_has(&bearing->phases[j].notes, flag))
                return true;
    }
    return false;
}

bool spt_findings_reservations(const struct spt_assessment *assessment, const bool *left_out,
                               char *words)
{
    size_t used = 0;
    *words = 0;
    for (int i = 0; i < SPT_FLAG_COUNT; i++) {
        const char *reservation = spt_reservation((enum spt_flag)i);
        if (!reservation || (left_out && left_out[i]) || !any_has(assessment, (enum spt_flag)i) ||
            used + strlen(reservation) + 3 > SPT_RESERVATIONS_LENGTH)
            continue;
        if (strstr(words, reservation))
            continue; /* another flag says the same */
        used += (size_t)snprintf(words + used, SPT_RESERVATIONS_LENGTH - used, "%s%s",
                                 used ? "; " : "", reservation);
    }
    if (assessment->phase_dents.changes && used + 120 < SPT_RESERVATIONS_LENGTH)
        used += (size_t)snprintf(words + used, SPT_RESERVATIONS_LENGTH - used,
                                 "%sit is missed if the dents of " SPT_NAMED " stay",
                                 used ? "; " : "", assessment->phase_dents.phase);
    return used > 0;
}

enum spt_verdict spt_findings_judge(const struct spt_assessment *assessment)
{
    char words[SPT_RESERVATIONS_LENGTH];
    const double target_h = assessment->question->target_life_h;
    if (isnan(target_h))
        return SPT_UNJUDGED;
    if (!(assessment->judged_life_h >= target_h))
        return SPT_MISSED;
    return spt_findings_reservations(assessment, NULL, words) ? SPT_DOUBTFUL : SPT_MET;
}

const char *spt_findings_joint(double life_h)
{
    return isnan(life_h) ? "Besides," : "But";
}

static void say_reservations(const struct spt_assessment *assessment,
                             const struct spt_finding_sink *sink)
{
    char words[SPT_RESERVATIONS_LENGTH];
    if (spt_findings_reservations(assessment, NULL, words))
        spt_finding_say(sink, NULL, "%s %s (see the flags).",
                        spt_findings_joint(assessment->modified_rating_life_h), words);
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

void spt_findings_verdict(const struct spt_assessment *assessment,
                          const struct spt_finding_sink *sink)
{
    char dents[SPT_DENTS_LENGTH];
    say_against_target(assessment, sink);
    if (spt_dents_words(&assessment->dents, assessment->modified_rating_life_h, (double)NAN, dents))
        spt_finding_say(sink, NULL, "%s", dents);
    say_remaining(assessment, sink);
    say_limits(assessment, sink);
    say_reservations(assessment, sink);
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

void spt_findings_collect(const struct spt_assessment *assessment, struct spt_notes *notes)
{
    *notes = (struct spt_notes){0};
    spt_notes_add_all(notes, &assessment->notes);
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        spt_notes_add_all(notes, &bearing->notes);
        for (int j = 0; j < bearing->phase_count; j++)
            spt_notes_add_all(notes, &bearing->phases[j].notes);
    }
}
