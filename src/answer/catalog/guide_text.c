/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>
#include <strings.h>

#include "answer/catalog/guide.h"
#include "base/table.h"
#include "sentence/sentence.h"
#include "spalltime/hub.h"

#define WHO_LENGTH 240
#define WORDS_LENGTH 600

static void write_group(const struct spt_text *text, const char *group)
{
    char heading[64];
    size_t i = 0;
    for (; group[i] && i + 1 < sizeof heading; i++)
        heading[i] = (char)(group[i] >= 'a' && group[i] <= 'z' ? group[i] - 'a' + 'A' : group[i]);
    heading[i] = 0;
    spt_text_heading(text, heading);
}

static void write_row(const struct spt_text *text, const struct spt_guide_entry *entry)
{
    char causes[SPT_GUIDE_CAUSES_LENGTH], mark[WHO_LENGTH];
    snprintf(mark, sizeof mark, "%-25.80s %c%-9.9s%-7s%-8s", entry->name,
             entry->pattern ? '*' : ' ', entry->clause,
             spt_guide_quantified_name(entry->quantified),
             entry->goes_back == SPT_RETURN_NO ? "no" : "inspect");
    spt_text_wrap(text, mark, spt_guide_causes(entry->model_causes, causes));
}

void spt_guide_list_text(const struct spt_text *text, const struct spt_guide *guide)
{
    fputs("mode                        clause   rated  back    causes of lost life\n", text->out);
    for (int i = 0; i < guide->count; i++) {
        const char *group = guide->entries[i].group;
        bool written = false;
        for (int j = 0; j < i; j++)
            written = written || !strcmp(guide->entries[j].group, group);
        if (written)
            continue;
        write_group(text, group);
        for (int j = i; j < guide->count; j++)
            if (!strcmp(guide->entries[j].group, group))
                write_row(text, &guide->entries[j]);
    }
    fputc('\n', text->out);
    spt_text_wrap(
        text, "",
        "clause: of ISO 15243:2017, numbers from memory; * is a pattern of the trade, filed "
        "under that clause. rated: whether the model can quantify the mode. back: whether "
        "the bearing may go back (inspect: only after inspection).");
    spt_text_wrap(
        text, "",
        "`spalltime damage MODE` shows one, `spalltime damage \"what you see\"` finds it, "
        "`spalltime damage MODE FILE` works out what its cause costs in a scenario.");
}

static void write_part(const struct spt_text *text, const char *heading,
                       const struct spt_guide_entry *entry, enum spt_guide_part part)
{
    const struct spt_lines *lines = &entry->parts[part];
    spt_text_heading(text, heading);
    for (int i = 0; i < lines->count; i++)
        spt_text_wrap(text, "- ", lines->lines[i]);
}

static void write_words(const struct spt_text *text, const struct spt_guide_entry *entry)
{
    char words[WORDS_LENGTH];
    size_t used = 0;
    const struct spt_lines *lines = &entry->parts[SPT_GUIDE_WORDS];
    for (int i = 0; i < lines->count && used + strlen(lines->lines[i]) + 3 < sizeof words; i++)
        used += (size_t)snprintf(words + used, sizeof words - used, "%s%s", used ? ", " : "",
                                 lines->lines[i]);
    spt_text_wrap(text, "Also called: ", words);
}

static void write_names(const struct spt_text *text, const struct spt_guide_entry *entry)
{
    spt_text_wrap(text, "", entry->name);
    bool whole_group = !strcasecmp(entry->iso_name, entry->group);
    spt_text_wrapf(text, "", "%sISO 15243:2017 %s %s%s%s%s",
                   entry->pattern ? "A pattern of the trade, filed under " : "", entry->clause,
                   entry->iso_name, whole_group ? "" : " (", whole_group ? "" : entry->group,
                   whole_group ? "" : ")");
    write_words(text, entry);
}

static const char *tell_quantified(enum spt_guide_quantified quantified)
{
    static const char *const sentences[] = {
        [SPT_QUANTIFIED_NO] = "The model cannot quantify this mode.",
        [SPT_QUANTIFIED_PARTLY] = "The model quantifies this mode only in part.",
        [SPT_QUANTIFIED_YES] = "The model quantifies this mode: it is what a rating life is about.",
    };
    SPT_ONE_EACH(sentences, SPT_QUANTIFIED_COUNT);
    return sentences[quantified];
}

static void write_model(const struct spt_text *text, const struct spt_guide_entry *entry)
{
    char causes[SPT_GUIDE_CAUSES_LENGTH];
    spt_text_heading(text, "WHAT THE MODEL CAN SAY");
    spt_text_wrap(text, "", tell_quantified(entry->quantified));
    for (int i = 0; i < entry->parts[SPT_GUIDE_MODEL_CAN].count; i++)
        spt_text_wrap(text, "- ", entry->parts[SPT_GUIDE_MODEL_CAN].lines[i]);
    spt_text_wrapf(text, "", "Causes of lost life behind it: %s.",
                   spt_guide_causes(entry->model_causes, causes));
    write_part(text, "WHAT IT CANNOT SAY", entry, SPT_GUIDE_MODEL_CANNOT);
}

static void write_back(const struct spt_text *text, const struct spt_guide_entry *entry)
{
    write_part(text, "MAY THE BEARING GO BACK", entry, SPT_GUIDE_BACK);
}

void spt_guide_entry_text(const struct spt_text *text, const struct spt_guide_entry *entry)
{
    write_names(text, entry);
    write_part(text, "WHAT IT LOOKS LIKE", entry, SPT_GUIDE_LOOKS);
    write_part(text, "WHERE IT SHOWS FIRST", entry, SPT_GUIDE_PLACES);
    write_part(text, "USUAL CAUSES", entry, SPT_GUIDE_CAUSES);
    write_part(text, "CHECK NEXT", entry, SPT_GUIDE_CHECKS);
    write_back(text, entry);
    write_model(text, entry);
    spt_text_heading(text, "SOURCE");
    spt_text_wrap(text, "", entry->source);
}

/* "rust (words), pitch (looks)" */
static void write_why(const struct spt_text *text, const struct spt_guide_answer *answer,
                      const struct spt_guide_hit *hit)
{
    char why[WORDS_LENGTH] = "";
    size_t used = 0;
    for (int i = 0; i < answer->query.count; i++) {
        if (!hit->found[i] || used + SPT_QUERY_WORD_LENGTH + 24 > sizeof why)
            continue;
        used += (size_t)snprintf(why + used, sizeof why - used, "%s%s (%s)", used ? ", " : "",
                                 answer->query.words[i], spt_guide_part_name(hit->parts[i]));
    }
    spt_text_wrap(text, "   matched: ", why);
}

void spt_guide_answer_text(const struct spt_text *text, const struct spt_guide_answer *answer)
{
    if (!answer->count) {
        spt_text_wrapf(text, "", "Nothing in the guide fits \"%s\".", answer->asked);
        return;
    }
    spt_text_wrapf(text, "", "Modes that fit \"%s\", the best first:", answer->asked);
    for (int i = 0; i < answer->count; i++) {
        const struct spt_guide_hit *hit = &answer->hits[i];
        fprintf(text->out, "\n%d. %s  (%.1f)\n", i + 1, hit->entry->name, hit->score);
        spt_text_wrapf(text, "   ", "%s: %s", spt_guide_part_name(hit->line_part), hit->line);
        write_why(text, answer, hit);
    }
    fputc('\n', text->out);
    spt_text_wrapf(text, "", "`spalltime damage \"%s\"` shows the first.",
                   answer->hits[0].entry->name);
}

static const char *tell_case(const struct spt_guide_case *one, char *who)
{
    snprintf(who, WHO_LENGTH, "%s%.80s%s%.80s", one->variant ? "variant: " : "as stated",
             one->variant ? one->variant : "", one->one_of_two ? ", " : "",
             one->one_of_two ? one->bearing->bearing_case->bearing.name : "");
    return who;
}

/* The reason why a setting that does not deviate to the side of the mode costs nothing. */
static const char *tell_other_side(const struct spt_guide_case *one, enum spt_setting_side side)
{
    bool preloaded = one->setting && one->setting->preload_mm > 0;
    if (side == SPT_SETTING_SIDE_TILT)
        return "no ring is stated to be out of true: costs nothing here";
    if (side == SPT_SETTING_SIDE_PRELOAD)
        return preloaded ? "none that it may have lasts longer by fatigue; heat not counted"
                         : "this hub is not preloaded as set: costs nothing here";
    return preloaded ? "this hub is preloaded as set: costs nothing here"
                     : "this hub is no looser than its best setting: costs nothing here";
}

/* The reason why there are no numbers for a cause. */
static const char *tell_idle(const struct spt_guide_entry *entry, const struct spt_guide_case *one,
                             const struct spt_suspicion *suspicion)
{
    if (!suspicion->weighed && suspicion->cause == SPT_CAUSE_WORN_GREASE)
        return "not weighed: the bearing runs in oil";
    if (!suspicion->weighed && suspicion->cause == SPT_CAUSE_OVERLOAD)
        return "not weighed: no `reference_load` is stated";
    if (!suspicion->weighed)
        return "not weighed: no hub with a setting is stated";
    if (isnan(suspicion->life_h))
        return "not weighed: no life can be stated";
    if (isinf(suspicion->life_h))
        return "costs nothing: this duty does no damage";
    return suspicion->other_side ? tell_other_side(one, entry->setting_side) : "costs nothing here";
}

static void write_suspicion(const struct spt_text *text, const struct spt_guide_entry *entry,
                            const struct spt_guide_case *one, int cause)
{
    const struct spt_suspicion *suspicion = &one->suspicions[cause];
    char cell[SPT_HOURS_LENGTH];
    fputs("  ", text->out);
    spt_text_fit(text, spt_cause_name(suspicion->cause), 14);
    if (!suspicion->applies) {
        fprintf(text->out, "%s\n", tell_idle(entry, one, suspicion));
        return;
    }
    fprintf(text->out, "%13s", spt_text_hours(suspicion->life_h, cell));
    fprintf(text->out, "%13s", spt_text_hours(suspicion->life_if_cured_h, cell));
    fprintf(text->out, "    x %-9s", spt_text_ratio(suspicion->life_ratio, cell));
    if (isnan(suspicion->loss_share))
        fputs("       -\n", text->out);
    else
        fprintf(text->out, "%8.1f\n", 100 * suspicion->loss_share);
}

/* True where a share of the causes of this mode is below 0 or above 100 %. */
static bool shows_odd_share(const struct spt_guide_entry *entry, const struct spt_guide_case *one)
{
    bool odd = false;
    const char *footnote = spt_share_footnote(&one->bearing->loss);
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
        const struct spt_suspicion *suspicion = &one->suspicions[cause];
        if (entry->model_causes >> cause & 1u && suspicion->applies)
            odd = odd || suspicion->loss_share < 0 || suspicion->loss_share > 1 ||
                  suspicion->life_ratio < 1;
    }
    return odd && footnote;
}

/* What else the cure of the setting corrects; NULL where that does not matter. */
static const char *tell_shared_cure(enum spt_setting_side side)
{
    static const char *const words[] = {
        [SPT_SETTING_SIDE_EITHER] = NULL,
        [SPT_SETTING_SIDE_PRELOAD] =
            "This holds what a ring out of true costs as well: the cure of the setting puts the "
            "rings true.",
        [SPT_SETTING_SIDE_PLAY] =
            "This holds what a ring out of true costs as well: the cure of the setting puts the "
            "rings true.",
        [SPT_SETTING_SIDE_TILT] =
            "This holds what the end play or preload costs as well: the cure puts the rings true "
            "and sets the pair.",
    };
    return words[side];
}

static void write_case(const struct spt_text *text, const struct spt_guide_entry *entry,
                       const struct spt_guide_case *one)
{
    char who[WHO_LENGTH];
    spt_text_wrap(text, "", tell_case(one, who));
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
        if (entry->model_causes >> cause & 1u)
            write_suspicion(text, entry, one, cause);
    if (one->setting && one->setting->tilted && one->suspicions[SPT_CAUSE_SETTING].applies &&
        tell_shared_cure(entry->setting_side))
        spt_text_wrap(text, "  ", tell_shared_cure(entry->setting_side));
    if (entry->setting_side == SPT_SETTING_SIDE_PLAY && one->setting && !one->setting->tilted &&
        one->suspicions[SPT_CAUSE_SETTING].applies &&
        one->setting->end_play_mm <= SPT_HUB_PLAY_HIGH_MM)
        spt_text_wrapf(text, "  ",
                       "This end play is within common practice (no more than %.3g mm, no source): "
                       "what it costs is the price of staying off preload, no fault.",
                       SPT_HUB_PLAY_HIGH_MM);
    if (shows_odd_share(entry, one))
        spt_text_wrap(text, "  ", spt_share_footnote(&one->bearing->loss));
}

/* True for a cause that could be evaluated for a finite life in some case and costs nothing in
 * any. */
static bool is_idle(const struct spt_guide_inquiry *inquiry, int cause)
{
    bool weighed = false;
    for (int i = 0; i < inquiry->count; i++) {
        const struct spt_suspicion *suspicion = &inquiry->cases[i].suspicions[cause];
        if (suspicion->applies || suspicion->other_side)
            return false;
        weighed = weighed || (suspicion->weighed && isfinite(suspicion->life_h));
    }
    return weighed;
}

/* Writes why causes of the mode cost nothing. */
static void write_idle_causes(const struct spt_text *text, const struct spt_guide_inquiry *inquiry)
{
    static const char *const reasons[] = {
        [SPT_CAUSE_DEBRIS] = "Debris: a cleaner lubricant would not lengthen this life; it is as "
                             "clean as counts, or the life factor stands at its limit.",
        [SPT_CAUSE_WATER] = "Water: no phase that turns under load states more than the 100 ppm to "
                            "which no loss is counted.",
        [SPT_CAUSE_WORN_GREASE] =
            "Worn grease: the grease is fresh, or has no interval by the rule.",
        [SPT_CAUSE_THIN_FILM] = "Thin film: kappa is 1 or more in every phase that turns under "
                                "load, or is credited as 1 for its EP additive.",
        [SPT_CAUSE_OVERLOAD] = "Overload: no phase is above the reference load.",
        [SPT_CAUSE_SETTING] = "Setting: by fatigue the hub stands at the best setting that it may "
                              "have; no heat of preload is counted.",
    };
    SPT_ONE_EACH(reasons, SPT_CAUSE_COUNT);
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
        if (inquiry->entry->model_causes >> cause & 1u && is_idle(inquiry, cause))
            spt_text_wrap(text, "", reasons[cause]);
}

static void write_cost(const struct spt_text *text, const struct spt_guide_inquiry *inquiry)
{
    char life[SPT_HOURS_LENGTH];
    const struct spt_guide_entry *entry = inquiry->entry;
    spt_text_heading(text, "WHAT THE CAUSE COSTS HERE");
    spt_text_wrap(text, "", tell_quantified(entry->quantified));
    if (!entry->model_causes) {
        spt_text_wrapf(
            text, "",
            "No cause of lost life that the model knows is behind it, so there is nothing "
            "to work out: the life of %s h (%s) says nothing of this mode.",
            spt_text_hours(inquiry->cases[0].bearing->modified_rating_life_h, life),
            inquiry->cases[0].bearing->bearing_case->bearing.name);
        return;
    }
    if (entry->quantified != SPT_QUANTIFIED_YES)
        spt_text_wrap(text, "",
                      "The figures are what the causes behind it cost in rolling fatigue life; the "
                      "damage itself comes on top.");
    fputs("\ncause              life now h   if cured h    gain       % of loss\n", text->out);
    for (int i = 0; i < inquiry->count; i++)
        write_case(text, entry, &inquiry->cases[i]);
    write_idle_causes(text, inquiry);
}

static void write_flags(const struct spt_text *text, const struct spt_guide_inquiry *inquiry)
{
    bool headed = false;
    for (int i = 0; i < inquiry->count; i++) {
        const char *phase;
        const struct spt_note *note;
        const struct spt_guide_case *one = &inquiry->cases[i];
        for (int at = 0; (note = spt_guide_next_note(inquiry->entry, one, &at, &phase));) {
            char who[WHO_LENGTH], sentence[SPT_SENTENCE_LENGTH];
            if (!headed)
                spt_text_heading(text, "FLAGS THAT SPEAK OF THIS MODE");
            headed = true;
            spt_sentence(note, sentence, sizeof sentence);
            spt_text_wrapf(text, "- ", "%s%s%s: %s", tell_case(one, who), phase ? ", " : "",
                           phase ? phase : "", sentence);
        }
    }
}

void spt_guide_inquiry_text(const struct spt_text *text, const struct spt_guide_inquiry *inquiry)
{
    write_names(text, inquiry->entry);
    spt_text_wrapf(text, "", "Scenario: %s", inquiry->title);
    write_cost(text, inquiry);
    write_flags(text, inquiry);
    write_part(text, "WHAT THE MODEL CANNOT SAY", inquiry->entry, SPT_GUIDE_MODEL_CANNOT);
    write_part(text, "CHECK NEXT", inquiry->entry, SPT_GUIDE_CHECKS);
    write_back(text, inquiry->entry);
}
