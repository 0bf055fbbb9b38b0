/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/loss.h"

#include <math.h>
#include <stddef.h>

#include "sentence/causes.h"
#include "sentence/sentence.h"

#define BAR_WIDTH 20
#define SMALL_LOSS 1.1     /* a loss by a smaller factor is not drawn as bars */
#define LEAST_SHARE 0.0005 /* a smaller one would be printed as -0.0 */

struct cause_row {
    const char *name, *gain;
    double share, bar, life_h;
};

#define AT(member) .at = offsetof(struct cause_row, member)
static const struct spt_column columns[] = {
    {.head = "cause", .kind = SPT_WORDS, .width = 12, AT(name)},
    {.head = "share",
     .kind = SPT_PERCENT,
     .digits = 1,
     .unit = " %",
     .none = "-  ",
     .width = 7,
     AT(share)},
    {.head = "", .kind = SPT_BAR, .width = BAR_WIDTH, .gap = 1, AT(bar)},
    {.head = "life", .kind = SPT_LIFE, .width = 11, .gap = 2, AT(life_h)},
    {.head = "gain", .kind = SPT_WORDS, .width = 11, .gap = 2, AT(gain)},
};

static struct cause_row cause_row(struct spt_page *page, const struct spt_bearing_result *bearing,
                                  int cause)
{
    char gain[SPT_HOURS_LENGTH];
    const struct spt_cause_share *share = &bearing->loss.causes[cause];
    const double whole = spt_causes_whole(&bearing->loss);
    const double part = share->log_life_share / whole;
    const double times = spt_causes_gain(bearing, cause);
    return (struct cause_row){
        .name = spt_cause_name((enum spt_cause)cause),
        .gain = times > 0 ? spt_page_words(page, "x %s", spt_text_ratio(times, gain)) : "",
        .share = fabs(part) < LEAST_SHARE ? 0 : part,
        .bar = whole < -log(SMALL_LOSS) && part * BAR_WIDTH >= 0.5 ? part : 0,
        .life_h = share->life_if_cured_h};
}

static void show_causes(struct spt_page *page, const struct spt_bearing_result *bearing,
                        const int *order, int count)
{
    struct cause_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = cause_row(page, bearing, order[i]);
    spt_page_table(page, "causes", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
}

void spt_page_loss(struct spt_page *page, const struct spt_bearing_result *bearing, bool with_cures)
{
    const struct spt_loss *loss = &bearing->loss;
    int order[SPT_CAUSE_COUNT];
    const int count = spt_causes_by_gain(loss, order);
    if (!count) {
        spt_page_say(page, SPT_BODY, "", "%s", spt_causes_none(bearing));
        return;
    }
    spt_page_say(page, SPT_BODY, "",
                 "With all of this put right from new the fatigue life would be %s. Share of the "
                 "loss (of its logarithm), and the life with only this put right, the best single "
                 "remedy first:",
                 spt_page_life(page, loss->reference_life_h));
    show_causes(page, bearing, order, count);
    if (spt_share_footnote(loss))
        spt_page_say(page, SPT_BODY, "", "%s", spt_share_footnote(loss));
    if (with_cures)
        spt_page_say(page, SPT_BODY, "", "Put right means:");
    for (int i = 0; with_cures && i < count; i++)
        spt_page_say(page, SPT_BODY, "- ", "%s: %s", spt_cause_name((enum spt_cause)order[i]),
                     spt_cure((enum spt_cause)order[i]));
}

void spt_life_loss_json(struct spt_json *json, const struct spt_loss *loss)
{
    spt_json_open(json, "loss", '{');
    spt_json_number(json, "reference_life_h", loss->reference_life_h);
    spt_json_open(json, "causes", '[');
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        if (!loss->causes[i].applies)
            continue;
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "cause", spt_cause_name((enum spt_cause)i));
        spt_json_number(json, "log_life_share", loss->causes[i].log_life_share);
        spt_json_number(json, "life_if_cured_h", loss->causes[i].life_if_cured_h);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}
