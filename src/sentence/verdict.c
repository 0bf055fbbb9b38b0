/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/verdict.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "format/text.h"
#include "sentence/greasing.h"
#include "sentence/sentence.h"

#define LEAST_SHARE 1e-4
#define SHARE_LENGTH 40

/* Words that grow, always with room for their end. */
struct words {
    char *text;
    size_t used, size;
};

static void add(struct words *words, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void add(struct words *words, const char *format, ...)
{
    const size_t room = words->size - words->used;
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(words->text + words->used, room, format, arguments);
    va_end(arguments);
    if (length > 0)
        words->used += (size_t)length < room ? (size_t)length : room - 1;
}

/* When the service makes it so, after words that tell what; nothing where it is so as stated. */
static void add_when(struct words *words, double at_h)
{
    char hours[SPT_HOURS_LENGTH];
    if (at_h > 0)
        add(words, " (by %s h of the service)", spt_text_hours(at_h, hours));
    else if (!isnan(at_h))
        add(words, " (as the service begins)");
}

/* The hours at which the service raises a flag; NaN where it stands as stated or not at all. */
static double find_when(const struct spt_judgement *judgement, enum spt_flag flag)
{
    const struct spt_worst_state *worst = &judgement->worst;
    if (spt_notes_has(&judgement->notes, flag))
        return (double)NAN;
    for (int i = 0; i < worst->notes.count; i++)
        if (worst->notes.list[i].flag == flag)
            return worst->noted_h[i];
    return (double)NAN;
}

/* True where a flag stands as stated, or the service raises it. */
static bool has_flag(const struct spt_judgement *judgement, enum spt_flag flag)
{
    return spt_notes_has(&judgement->notes, flag) || !isnan(find_when(judgement, flag));
}

/* Joins the reservations of the flags that speak of a part, those of one grade or worse. */
static void add_flags(struct words *words, const struct spt_judgement *judgement,
                      enum spt_concern part, enum spt_grade least, const char *before)
{
    for (int i = 0; i < SPT_FLAG_COUNT; i++) {
        const struct spt_verdict_rule rule = spt_verdict_rule_of((enum spt_flag)i);
        const char *reservation = spt_reservation((enum spt_flag)i);
        if (!reservation || rule.part != part || rule.grade < least ||
            !has_flag(judgement, (enum spt_flag)i) ||
            strstr(words->text, reservation)) /* another flag says the same */
            continue;
        add(words, "%s%s", before, reservation);
        add_when(words, find_when(judgement, (enum spt_flag)i));
        before = "; ";
    }
}

/* A share in percent; a negligible one in words. */
static const char *tell_share(double share, char *text)
{
    snprintf(text, SHARE_LENGTH, share < LEAST_SHARE ? "below %.2g %%" : "%.2g %%",
             100 * fmax(share, LEAST_SHARE));
    return text;
}

static const char *tell_period(const struct spt_judgement *judgement, char *text)
{
    snprintf(text, SHARE_LENGTH, judgement->question->yearly_use_h > 0 ? "a year" : "in %d h",
             SPT_GREASE_RISK_H);
    return text;
}

/* ---- fatigue ---- */

/* What other than fatigue governs the replacement; NULL: nothing. */
static const char *tell_governor(const struct spt_judgement *judgement)
{
    return judgement->replace_governor == SPT_GOVERNOR_AGE_LIMIT     ? " (age limit)"
           : judgement->replace_governor == SPT_GOVERNOR_LIFE_GREASE ? " (life of its grease)"
           : judgement->replace_governor == SPT_GOVERNOR_LIFE_AGE    ? " (age of its grease)"
           : judgement->replace_governor == SPT_GOVERNOR_COSTS       ? " (costs)"
                                                                     : NULL;
}

/* True where the headline ends with the life, as the age of replacement. */
static bool replaces_by_life(const struct spt_judgement *judgement)
{
    return !tell_governor(judgement) && judgement->replace_h > 0 &&
           judgement->replace_governor != SPT_GOVERNOR_FATIGUE_FAR;
}

/* What the hours of a bearing that has run already count from. */
static const char *tell_from(const struct spt_judgement *judgement)
{
    return judgement->hours_run > 0 ? " from now" : "";
}

static void add_fatigue(struct words *words, const struct spt_judgement *judgement)
{
    const double target_h = judgement->question->target_life_h - judgement->hours_run;
    const double life_h = judgement->lower_h;
    const char *from = tell_from(judgement);
    const char *from_new = *from ? " from new" : "";
    char new_life[SPT_HOURS_LENGTH], target[SPT_HOURS_LENGTH] = "", life[SPT_HOURS_LENGTH];
    if (judgement->has_target)
        spt_text_stated(judgement->question->target_life_h, target);
    spt_text_life(life_h, life);
    spt_text_life(judgement->hours_run + life_h, new_life);
    if (isnan(life_h) && judgement->has_target)
        add(words, "No life can be stated, so nothing shows that %s h are met", target);
    else if (isnan(life_h))
        add(words, "No life can be stated");
    else if (isinf(life_h) && judgement->has_target)
        add(words, "Fatigue sets no limit: it meets %s h", target);
    else if (isinf(life_h))
        add(words, "Fatigue sets no limit");
    else if (!judgement->has_target)
        add(words, "Fatigue life %s%s", life, from);
    else if (life_h >= target_h && replaces_by_life(judgement))
        add(words, "Fatigue meets %s h", target);
    else if (life_h >= target_h)
        add(words, "Fatigue meets %s h with a life of %s%s", target, new_life, from_new);
    else
        add(words, "Fatigue MISSES %s h with a life of %s%s", target, new_life, from_new);
    if (judgement->has_target && life_h < target_h && judgement->upper_h >= target_h)
        add(words, ", if the dents stay");
    if (judgement->dented_phase)
        add(words, ", missed if the dents of \"%s\" stay", judgement->dented_phase);
}

static void tell_fatigue(struct words *words, const struct spt_judgement *judgement)
{
    char life[SPT_HOURS_LENGTH], years[SPT_HOURS_LENGTH];
    const double life_h = judgement->lower_h, year_h = judgement->question->yearly_use_h;
    if (isnan(life_h)) {
        add(words, "no life can be stated: see the flags for the reason");
        return;
    }
    add(words, "%s%s at %.6g %% reliability under this plan", spt_text_life(life_h, life),
        tell_from(judgement), judgement->question->reliability_percent);
    if (isfinite(life_h) && year_h > 0)
        add(words, ", %s years at %.4g h a year", spt_text_amount(life_h / year_h, years), year_h);
    if (judgement->life_stops)
        add(words, "; from then on no life can be stated");
    if (judgement->hours_run > 0)
        add(words, "; it has run %s h already", spt_text_hours(judgement->hours_run, years));
    if (judgement->dented_phase)
        add(words, "; missed if the dents of \"%s\" stay", judgement->dented_phase);
}

/* ---- greasing ---- */

/* "every 400 h or 3 months"; false where there is no interval to keep. */
static bool add_every(struct words *words, const struct spt_judgement *judgement)
{
    const struct spt_greasing *greasing = &judgement->greasing;
    char hours[SPT_HOURS_LENGTH], span[SPT_SPAN_LENGTH];
    if (judgement->regrease_own)
        add(words, "every %s h, as the service states",
            spt_text_hours(judgement->regrease_h, hours));
    else if (isnan(greasing->kept_h))
        return false;
    else
        add(words, "every %s h or %s", spt_text_hours(greasing->every_h, hours),
            spt_greasing_span_of(greasing, span));
    return true;
}

/* What a state ahead needs in place of the interval of the plan; false: nothing. */
static bool add_greasing_ahead(struct words *words, const struct spt_judgement *judgement,
                               const char *before)
{
    const struct spt_greasing *worst = &judgement->worst.greasing;
    const char *demand = spt_greasing_demand(worst);
    char hours[SPT_HOURS_LENGTH], span[SPT_SPAN_LENGTH];
    const bool other = !isnan(judgement->parts[SPT_CONCERN_GREASING].at_h) &&
                       judgement->parts[SPT_CONCERN_GREASING].flag == SPT_FLAG_COUNT;
    if (!other)
        return false;
    if (isnan(worst->kept_h))
        add(words, "%sthe service brings a state that no greasing keeps up with", before);
    else
        add(words, "%sthe service brings a state that needs it every %s h or %s", before,
            spt_text_hours(worst->every_h, hours), spt_greasing_span_of(worst, span));
    add_when(words, judgement->worst.greasing_at_h);
    if (demand && worst->state != judgement->greasing.state)
        add(words, "; %s", demand);
    return true;
}

double spt_verdict_regrease_h(const struct spt_judgement *judgement)
{
    return judgement->regrease_own ? judgement->regrease_h : judgement->greasing.every_h;
}

static void add_greasing(struct words *words, const struct spt_judgement *judgement)
{
    struct words after = *words;
    if (judgement->question->lubricant.greased_for_life)
        return; /* its end is the replacement */
    add(&after, "; grease ");
    if (add_every(&after, judgement))
        *words = after;
    else
        add(words, "; no greasing interval that can be kept");
}

static void tell_greasing(struct words *words, const struct spt_judgement *judgement)
{
    const char *demand = spt_greasing_demand(&judgement->greasing);
    if (judgement->question->lubricant.greased_for_life) {
        add(words, "greased for life: it is replaced with its grease%s",
            judgement->parts[SPT_CONCERN_GREASING].grade >= SPT_GRADE_MISSED
                ? ", which ends before the target"
                : "");
        return;
    }
    if (!add_every(words, judgement))
        words->used = 0;
    if (demand)
        add(words, "%s%s", words->used ? "; " : "", demand);
    add_greasing_ahead(words, judgement, words->used ? "; " : "");
    add_flags(words, judgement, SPT_CONCERN_GREASING, SPT_GRADE_NOTE, words->used ? "; " : "");
}

/* ---- grease risk ---- */

static void add_risk(struct words *words, const struct spt_judgement *judgement)
{
    const struct spt_grease_risk *risk = &judgement->grease_risk;
    char share[SHARE_LENGTH], low[SHARE_LENGTH], high[SHARE_LENGTH], period[SHARE_LENGTH];
    add(words, "; grease risk %s %s (%s to %s)", tell_share(risk->share, share),
        tell_period(judgement, period), tell_share(risk->low, low), tell_share(risk->high, high));
}

/* The limit stated, and where it is passed the interval that would meet it, rounded down to what a
 * workshop keeps, where it is as long as that. */
static void tell_limit(struct words *words, const struct spt_judgement *judgement)
{
    const double within_h = judgement->grease_risk.within_h;
    const double kept_h = spt_regreasing_kept_h(within_h);
    char limit[SHARE_LENGTH], hours[SPT_HOURS_LENGTH];
    snprintf(limit, sizeof limit, "%.2g %%", 100 * judgement->question->grease_risk_limit);
    add(words, ", where %s is allowed", limit); /* as stated, however small */
    if (judgement->parts[SPT_CONCERN_GREASE_RISK].grade < SPT_GRADE_MISSED)
        return;
    if (!isnan(within_h))
        add(words, ": grease every %s h to meet it, or seal better",
            isnan(kept_h) ? spt_text_stated(within_h, hours) : spt_text_hours(kept_h, hours));
    add(words, "; a new bearing changes nothing");
}

static void tell_risk(struct words *words, const struct spt_judgement *judgement)
{
    const struct spt_grease_risk *risk = &judgement->grease_risk;
    char share[SHARE_LENGTH], period[SHARE_LENGTH];
    const struct spt_concern_verdict *part = &judgement->parts[SPT_CONCERN_GREASE_RISK];
    add(words, "the grease fails in %s of the machines %s", tell_share(risk->share, share),
        tell_period(judgement, period));
    if (!isnan(part->at_h)) {
        add(words, ", in %s as the service leaves it",
            tell_share(judgement->worst.grease_risk.share, share));
        add_when(words, part->at_h);
    }
    if (judgement->question->grease_risk_limit > 0) {
        tell_limit(words, judgement);
        return;
    }
    if (part->grade > SPT_GRADE_MET && !(judgement->question->yearly_use_h > 0))
        add(words, "; not judged without the yearly hours of `usage`");
    else if (part->grade > SPT_GRADE_MET)
        add(words, ": grease sooner or seal better; a new bearing changes nothing");
}

/* ---- water ---- */

static void tell_water(struct words *words, const struct spt_judgement *judgement)
{
    const struct spt_concern_verdict *part = &judgement->parts[SPT_CONCERN_WATER];
    if (part->flag == SPT_FLAG_WATER_SATURATED)
        add(words, part->grade == SPT_GRADE_UNFIT
                       ? "free water in the oil while it runs: drain it and find the leak"
                       : "free water in the grease while it runs: purge now");
    else if (part->flag == SPT_FLAG_WATER_FLOOR)
        add(words, "the grease is soaked: renew it and mend the seal");
    else if (part->flag == SPT_FLAG_WATER_COLD)
        add(words, part->grade == SPT_GRADE_NOTE
                       ? "at the coldest standstill the oil holds little more water than this"
                       : "rust at standstill is not in the life");
    else if (part->flag == SPT_FLAG_WATER_ASSUMED)
        add(words, "wet surroundings, and the water is not stated: measure it%s",
            part->grade == SPT_GRADE_NOTE ? "" : "; rust at standstill is not in the life");
    else
        add(words, "none falls out");
    add_when(words, part->at_h);
}

/* ---- heat, limits, inputs ---- */

static void add_oil(struct words *words, const struct spt_judgement *judgement)
{
    char hours[SPT_HOURS_LENGTH], span[SPT_SPAN_LENGTH];
    if (isnan(judgement->oil_every_h))
        return;
    add(words, "; change the oil every %s h", spt_text_hours(judgement->oil_every_h, hours));
    if (!isnan(judgement->oil_every_days))
        add(words, " or %s", spt_greasing_span(judgement->oil_every_days, span));
}

static void tell_heat(struct words *words, const struct spt_judgement *judgement)
{
    add_flags(words, judgement, SPT_CONCERN_OIL_HEAT, SPT_GRADE_NOTE, "");
    const struct spt_concern_verdict *part = &judgement->parts[SPT_CONCERN_OIL_HEAT];
    char hours[SPT_HOURS_LENGTH];
    if (part->flag == SPT_FLAG_OIL_WARM)
        add(words, "warm for long oil changes");
    if (judgement->worst.oil_kept_h < judgement->oil_change_h) {
        add(words, "%sthe service brings a state that needs an oil change every %s h",
            words->used ? "; " : "", spt_text_hours(judgement->worst.oil_kept_h, hours));
        add_when(words, judgement->worst.oil_at_h);
    }
    if (!words->used)
        add(words, "cool enough for the oil");
}

static void tell_limits(struct words *words, const struct spt_judgement *judgement)
{
    add_flags(words, judgement, SPT_CONCERN_LIMITS, SPT_GRADE_NOTE, "");
    if (!words->used)
        add(words, "nothing found that ends it sooner");
}

/* What speaks against the inputs. */
static void add_contradictions(struct words *words, const struct spt_judgement *judgement)
{
    const bool dust = has_flag(judgement, SPT_FLAG_DUST_CONTRADICTED);
    const bool wet = has_flag(judgement, SPT_FLAG_WET_CONTRADICTED);
    const bool said = dust || wet;
    if (dust) {
        add(words, "the dust stated contradicts the dirt inside");
        add_when(words, find_when(judgement, SPT_FLAG_DUST_CONTRADICTED));
    }
    if (wet) {
        add(words, "%sthe moisture stated contradicts the water inside", dust ? "; " : "");
        add_when(words, find_when(judgement, SPT_FLAG_WET_CONTRADICTED));
    }
    add_flags(words, judgement, SPT_CONCERN_INPUTS, SPT_GRADE_CAUTION, said ? "; " : "");
}

static void tell_inputs(struct words *words, const struct spt_judgement *judgement)
{
    int assumed = 0;
    for (int i = 0; i < judgement->notes.count; i++)
        assumed += spt_flag_effect(judgement->notes.list[i].flag) == SPT_FLAG_ASSUMES;
    add_contradictions(words, judgement);
    if (spt_notes_has(&judgement->notes, SPT_FLAG_SEALS_TRUSTED))
        add(words, "%sthe class inside rests on seals that hold", words->used ? "; " : "");
    if (assumed)
        add(words, "%swhat is not stated was assumed, see the flags", words->used ? "; " : "");
    if (!words->used)
        add(words, "all stated");
}

/* One row a part: its name, its place in the headline, its sentence. */
static const struct {
    const char *name;
    void (*head)(struct words *words, const struct spt_judgement *judgement); /* NULL: only where
                                                                                it is a caution */
    void (*tell)(struct words *words, const struct spt_judgement *judgement);
} parts[] = {
    [SPT_CONCERN_FATIGUE] = {"fatigue", add_fatigue, tell_fatigue},
    [SPT_CONCERN_GREASING] = {"greasing", add_greasing, tell_greasing},
    [SPT_CONCERN_GREASE_RISK] = {"grease risk", add_risk, tell_risk},
    [SPT_CONCERN_WATER] = {"water", NULL, tell_water},
    [SPT_CONCERN_OIL_HEAT] = {"oil heat", add_oil, tell_heat},
    [SPT_CONCERN_LIMITS] = {"other ends", NULL, tell_limits},
    [SPT_CONCERN_INPUTS] = {"inputs", NULL, tell_inputs},
};
SPT_ONE_EACH(parts, SPT_CONCERN_COUNT);

static void add_replacement(struct words *words, const struct spt_judgement *judgement)
{
    char hours[SPT_HOURS_LENGTH];
    const char *governor = tell_governor(judgement);
    if (judgement->replace_governor == SPT_GOVERNOR_FATIGUE_FAR)
        add(words, "; fatigue asks for no replacement");
    else if (judgement->replace_h > 0 && (governor || replaces_by_life(judgement)))
        add(words, "; replace at %s h%s%s", spt_text_hours(judgement->replace_h, hours),
            tell_from(judgement), governor ? governor : "");
}

/* What it takes to keep the greasing, and what is wrong with the grease now. */
static void add_demands(struct words *words, const struct spt_judgement *judgement)
{
    const char *demand = judgement->question->lubricant.greased_for_life
                             ? "its grease ends before the target"
                             : spt_greasing_demand(&judgement->greasing);
    bool said = demand != NULL;
    add(words, "%s", demand ? demand : "");
    said = add_greasing_ahead(words, judgement, said ? "; " : "") || said;
    add_flags(words, judgement, SPT_CONCERN_GREASING, SPT_GRADE_CAUTION, said ? "; " : "");
}

/* What the parts of one grade add to the headline; fatigue stands in it already. */
static void add_concerns(struct words *words, const struct spt_judgement *judgement,
                         enum spt_grade grade)
{
    char text[SPT_CONCERN_LENGTH];
    bool said = false;
    for (int i = SPT_CONCERN_FATIGUE + 1; i < SPT_CONCERN_COUNT; i++) {
        if (judgement->parts[i].grade != grade)
            continue;
        add(words, "; %s%s", said ? "" : spt_grade_name(grade), said ? "" : ": ");
        said = true;
        if (i == SPT_CONCERN_GREASING)
            add_demands(words, judgement);
        else if (i == SPT_CONCERN_INPUTS)
            add_contradictions(words, judgement);
        else
            add(words, "%s", spt_verdict_part(judgement, (enum spt_concern)i, text));
    }
}

const char *spt_verdict_headline(const struct spt_judgement *judgement, char *text)
{
    struct words words = {text, 0, SPT_HEADLINE_LENGTH};
    *text = 0;
    add_fatigue(&words, judgement);
    for (int i = SPT_CONCERN_FATIGUE + 1; i < SPT_CONCERN_COUNT; i++)
        if (parts[i].head && judgement->parts[i].grade != SPT_GRADE_ABSENT)
            parts[i].head(&words, judgement);
    add_replacement(&words, judgement);
    for (int grade = SPT_GRADE_UNFIT; grade >= (int)SPT_GRADE_CAUTION; grade--)
        add_concerns(&words, judgement, (enum spt_grade)grade);
    add(&words, ".");
    return text;
}

const char *spt_verdict_part(const struct spt_judgement *judgement, enum spt_concern part,
                             char *text)
{
    struct words words = {text, 0, SPT_CONCERN_LENGTH};
    *text = 0;
    parts[part].tell(&words, judgement);
    return text;
}

const char *spt_part_name(enum spt_concern part)
{
    return parts[part].name;
}

const char *spt_grade_name(enum spt_grade grade)
{
    static const char *const names[] = {
        [SPT_GRADE_ABSENT] = "not judged", [SPT_GRADE_MET] = "met",
        [SPT_GRADE_NOTE] = "note",         [SPT_GRADE_CAUTION] = "caution",
        [SPT_GRADE_MISSED] = "missed",     [SPT_GRADE_UNFIT] = "unfit",
    };
    SPT_ONE_EACH(names, SPT_GRADE_COUNT);
    return names[grade];
}

const char *spt_stair_name(enum spt_stair step)
{
    static const char *const names[] = {
        [SPT_STAIR_RATING] = "basic rating life L10",
        [SPT_STAIR_RELIABILITY] = "reliability wanted (a1)",
        [SPT_STAIR_SETTING] = "setting of the hub",
        [SPT_STAIR_CLEARANCE] = "clearance at work",
        [SPT_STAIR_FILM] = "film and cleanliness (a_ISO)",
        [SPT_STAIR_WATER] = "water (a_w)",
        [SPT_STAIR_PAST] = "hours run already",
        [SPT_STAIR_GREASE] = "grease, renewed as planned",
        [SPT_STAIR_SERVICE] = "events and drifts",
    };
    SPT_ONE_EACH(names, SPT_STAIR_COUNT);
    return names[step];
}

const char *spt_verdict_name(const struct spt_judgement *judgement)
{
    return !judgement->has_target && judgement->grade == SPT_GRADE_MET
               ? NULL
               : spt_grade_name(judgement->grade);
}

enum spt_verdict spt_verdict_mark(const struct spt_judgement *judgement)
{
    if (!spt_verdict_name(judgement))
        return SPT_UNJUDGED;
    if (spt_verdict_fails(judgement))
        return SPT_MISSED;
    return judgement->grade == SPT_GRADE_CAUTION ? SPT_DOUBTFUL : SPT_MET;
}
