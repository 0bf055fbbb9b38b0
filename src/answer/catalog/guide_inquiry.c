/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/catalog/guide_parts.h"
#include "base/table.h"
#include "sentence/sentence.h"
#include "spalltime/hub.h"

/* The case in words: variant, and which bearing of several. */
static const char *tell_case(struct spt_page *page, const struct spt_guide_case *one)
{
    const char *variant = spt_page_words(page, "%.80s", one->variant ? one->variant : "");
    const char *bearing = spt_page_words(page, "%.80s", one->bearing->bearing_case->bearing.name);
    return spt_page_words(page, "%s%s%s%s", one->variant ? "variant: " : "as stated",
                          one->variant ? spt_page_name(page, variant) : "",
                          one->one_of_two ? ", " : "",
                          one->one_of_two ? spt_page_name(page, bearing) : "");
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

/* What a cause costs in a case, and what text and HTML have in place of numbers where it costs
 * nothing. */
struct cause_row {
    const char *mode, *quantified, *variant, *bearing, *cause;
    bool weighed, applies;
    double life_h, cured_h, ratio, share;
    const char *label, *gain, *idle;
    const char *blank;
};

static struct cause_row make_row(struct spt_page *page, const struct spt_guide_inquiry *inquiry,
                                 const struct spt_guide_case *one, enum spt_cause cause)
{
    const struct spt_suspicion *suspicion = &one->suspicions[cause];
    const bool applies = suspicion->applies;
    char ratio[SPT_HOURS_LENGTH];
    return (struct cause_row){
        .mode = inquiry->entry->name,
        .quantified = spt_guide_quantified_name(inquiry->entry->quantified),
        .variant = one->variant,
        .bearing = one->bearing->bearing_case->bearing.name,
        .cause = spt_cause_name(cause),
        .weighed = suspicion->weighed,
        .applies = applies,
        .life_h = suspicion->life_h,
        .cured_h = suspicion->life_if_cured_h,
        .ratio = suspicion->life_ratio,
        .share = suspicion->loss_share,
        .label = spt_page_words(page, "  %s", spt_cause_name(suspicion->cause)),
        .gain = applies ? spt_page_words(page, "x %s", spt_text_ratio(suspicion->life_ratio, ratio))
                        : "",
        .idle = applies ? NULL : tell_idle(inquiry->entry, one, suspicion),
        .blank = applies ? NULL : "",
    };
}

/* A mode without a cause in the model has one row for a case, with the life and no cause. */
static struct cause_row make_bare_row(const struct spt_guide_inquiry *inquiry,
                                      const struct spt_guide_case *one)
{
    return (struct cause_row){
        .mode = inquiry->entry->name,
        .quantified = spt_guide_quantified_name(inquiry->entry->quantified),
        .variant = one->variant,
        .bearing = one->bearing->bearing_case->bearing.name,
        .cause = "none",
        .life_h = one->bearing->modified_rating_life_h,
        .cured_h = (double)NAN,
        .ratio = (double)NAN,
        .share = (double)NAN,
    };
}

static int count_causes(const struct spt_guide_entry *entry)
{
    int count = 0;
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
        count += (int)(entry->model_causes >> cause & 1u);
    return count;
}

#define SHOWN(title, of, wide, apart, member, words)                                               \
    .head = (title), .kind = (of), .width = (wide), .gap = (apart),                                \
    .at = offsetof(struct cause_row, member), .instead = offsetof(struct cause_row, words)
static const struct spt_column shown[] = {
    {.head = "cause", .kind = SPT_WORDS, .width = 16, .at = offsetof(struct cause_row, label)},
    {SHOWN("life now h", SPT_HOURS, 13, 0, life_h, idle)},
    {SHOWN("if cured h", SPT_HOURS, 13, 0, cured_h, blank)},
    {.head = "gain",
     .kind = SPT_WORDS,
     .width = 11,
     .gap = 4,
     .at = offsetof(struct cause_row, gain)},
    {SHOWN("% of loss", SPT_PERCENT, 8, 0, share, blank), .digits = 1},
};
#undef SHOWN

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

/* What holds for all rows of a case. */
static void say_of_case(struct spt_page *page, const struct spt_guide_entry *entry,
                        const struct spt_guide_case *one)
{
    const bool set = one->setting && one->suspicions[SPT_CAUSE_SETTING].applies;
    if (set && one->setting->tilted && tell_shared_cure(entry->setting_side))
        spt_page_say(page, SPT_BODY, "  ", "%s", tell_shared_cure(entry->setting_side));
    if (set && entry->setting_side == SPT_SETTING_SIDE_PLAY && !one->setting->tilted &&
        one->setting->end_play_mm <= SPT_HUB_PLAY_HIGH_MM)
        spt_page_say(
            page, SPT_BODY, "  ",
            "This end play is within common practice (no more than %.3g mm, no source): what it "
            "costs is the price of staying off preload, no fault.",
            SPT_HUB_PLAY_HIGH_MM);
    if (shows_odd_share(entry, one))
        spt_page_say(page, SPT_BODY, "  ", "%s", spt_share_footnote(&one->bearing->loss));
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
static void say_idle_causes(struct spt_page *page, const struct spt_guide_inquiry *inquiry)
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
            spt_page_say(page, SPT_BODY, "", "%s", reasons[cause]);
}

/* Rows of all cases, those of a case one after the other. Result: their number. */
static int fill_rows(struct spt_page *page, const struct spt_guide_inquiry *inquiry,
                     struct cause_row *rows)
{
    int count = 0;
    for (int i = 0; i < inquiry->count; i++) {
        const struct spt_guide_case *one = &inquiry->cases[i];
        if (!inquiry->entry->model_causes)
            rows[count++] = make_bare_row(inquiry, one);
        for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
            if (inquiry->entry->model_causes >> cause & 1u)
                rows[count++] = make_row(page, inquiry, one, (enum spt_cause)cause);
    }
    return count;
}

static void show_cases(struct spt_page *page, const struct spt_guide_inquiry *inquiry,
                       const struct cause_row *rows)
{
    const int causes = count_causes(inquiry->entry);
    spt_page_table(
        page, "heads",
        &(struct spt_table){SPT_TABLE_OF(shown, rows, 0), .apart = true, .heads = SPT_HEADS_ALONE});
    for (int i = 0; i < inquiry->count; i++) {
        const struct cause_row *own = rows ? rows + i * causes : NULL;
        spt_page_say(page, SPT_BODY, "", "%s", tell_case(page, &inquiry->cases[i]));
        spt_page_table(
            page, "case",
            &(struct spt_table){SPT_TABLE_OF(shown, own, causes), .heads = SPT_HEADS_ABOVE});
        say_of_case(page, inquiry->entry, &inquiry->cases[i]);
    }
    say_idle_causes(page, inquiry);
}

static void show_cost(struct spt_page *page, const struct spt_guide_inquiry *inquiry,
                      const struct cause_row *rows)
{
    const struct spt_guide_entry *entry = inquiry->entry;
    const struct spt_bearing_result *first = inquiry->cases[0].bearing;
    spt_page_open(page, "What the cause costs here");
    spt_guide_say_quantified(page, entry);
    if (entry->model_causes && entry->quantified != SPT_QUANTIFIED_YES)
        spt_page_say(page, SPT_BODY, "",
                     "The figures are what the causes behind it cost in rolling fatigue life; the "
                     "damage itself comes on top.");
    if (entry->model_causes)
        show_cases(page, inquiry, rows);
    else
        spt_page_say(page, SPT_BODY, "",
                     "No cause of lost life that the model knows is behind it, so there is nothing "
                     "to work out: the life of %s h (%s) says nothing of this mode.",
                     spt_page_hours(page, first->modified_rating_life_h),
                     spt_page_name(page, first->bearing_case->bearing.name));
    spt_page_close(page);
}

static void say_flags(struct spt_page *page, const struct spt_guide_inquiry *inquiry)
{
    spt_page_open(page, "Flags that speak of this mode");
    for (int i = 0; i < inquiry->count; i++) {
        const char *phase;
        const struct spt_note *note;
        const struct spt_guide_case *one = &inquiry->cases[i];
        for (int at = 0; (note = spt_guide_next_note(inquiry->entry, one, &at, &phase));) {
            char sentence[SPT_SENTENCE_LENGTH];
            spt_sentence(note, sentence, sizeof sentence);
            spt_page_say(page, SPT_BODY, "- ", "%s%s%s: %s", tell_case(page, one),
                         phase ? ", " : "", phase ? spt_page_name(page, phase) : "", sentence);
        }
    }
    spt_page_close(page);
}

static void keep_rows(struct spt_page *page, const struct cause_row *rows, int count)
{
#define KEPT(name, of, member)                                                                     \
    {                                                                                              \
        .key = (name), .kind = (of), .at = offsetof(struct cause_row, member)                      \
    }
    static const struct spt_column columns[] = {
        KEPT("mode", SPT_WORDS, mode),
        KEPT("quantified", SPT_WORDS, quantified),
        KEPT("variant", SPT_WORDS, variant),
        KEPT("bearing", SPT_WORDS, bearing),
        KEPT("cause", SPT_WORDS, cause),
        KEPT("weighed", SPT_YES, weighed),
        KEPT("applies", SPT_YES, applies),
        KEPT("life_h", SPT_HOURS, life_h),
        KEPT("life_if_cured_h", SPT_HOURS, cured_h),
        KEPT("life_ratio", SPT_RATIO, ratio),
        KEPT("loss_share", SPT_PERCENT, share),
    };
#undef KEPT
    spt_page_table(page, "causes",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count), .is_data = true});
}

void spt_guide_inquiry_page(struct spt_page *page, const struct spt_guide_inquiry *inquiry)
{
    const struct spt_guide_entry *entry = inquiry->entry;
    const int most = inquiry->count * (entry->model_causes ? count_causes(entry) : 1);
    struct cause_row *rows = spt_page_allocate(page, (size_t)most * sizeof *rows);
    const int count = rows ? fill_rows(page, inquiry, rows) : 0;
    spt_guide_say_names(page, entry);
    spt_page_say(page, SPT_BODY, "", "Scenario: %s", spt_page_name(page, inquiry->title));
    show_cost(page, inquiry, rows);
    say_flags(page, inquiry);
    spt_guide_say_part(page, "What the model cannot say", entry, SPT_GUIDE_MODEL_CANNOT);
    spt_guide_say_part(page, "Check next", entry, SPT_GUIDE_CHECKS);
    spt_guide_say_part(page, "May the bearing go back", entry, SPT_GUIDE_BACK);
    keep_rows(page, rows, count);
}
