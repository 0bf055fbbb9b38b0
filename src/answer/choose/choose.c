/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/choose/choose.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "base/table.h"
#include "format/json.h"
#include "sentence/sentence.h"

#define PASSING_SHOWN 12
#define FAILING_SHOWN 10
#define DOUBTS_SHOWN 8
#define MM3_PER_CM3 1e3

static const char *const codes[] = {
    "passes",        "cannot_carry", "one_sided",       "no_life",    "short_life", "overload",
    "static_safety", "speed_limit",  "lubricant_speed", "light_load", "no_stock"};
SPT_ONE_EACH(codes, SPT_CHOOSE_REASON_COUNT);

struct choice_row {
    const char *first, *second, *size, *mark, *why, *code;
    double life_h, margin, safety, share, cost, price, mass_kg;
    bool passes, doubted;
    int rank;
};

static const struct spt_bearing *candidate(const struct spt_choosing *c,
                                           const struct spt_choice *choice, int row)
{
    return &c->candidates[choice->candidates[row]];
}

static const char *tell_size(struct spt_page *page, const struct spt_bearing *b)
{
    return spt_page_words(page, "%.6g x %.6g x %.6g", b->bore_mm, b->outside_diameter_mm,
                          b->width_mm);
}

/* The worst reason in words. */
static const char *tell_why(struct spt_page *page, const struct spt_choosing *c,
                            const struct spt_choice *choice)
{
    const double v = choice->value, l = choice->limit;
    const char *row = !c->pairs                              ? ""
                      : choice->why == SPT_CHOOSE_SHORT_LIFE ? "both rows: "
                      : choice->row                          ? "outboard: "
                                                             : "inboard: ";
    switch (choice->why) {
    case SPT_CHOOSE_PASSES:
        return "";
    case SPT_CHOOSE_CANNOT_CARRY:
        return spt_page_words(page, "%scannot carry these loads", row);
    case SPT_CHOOSE_ONE_SIDED:
        return "takes thrust one way only: it needs an opposed bearing";
    case SPT_CHOOSE_NO_LIFE:
        return spt_page_words(page, "%sno life can be stated (film, heat or grease)", row);
    case SPT_CHOOSE_SHORT_LIFE:
        return spt_page_words(page, "%slife %s, %s needed", row, spt_page_life(page, v),
                              spt_page_life(page, l));
    case SPT_CHOOSE_OVERLOAD:
        return spt_page_words(page, "%sP is %.3g of C, %.3g at most", row, v, l);
    case SPT_CHOOSE_STATIC:
        return spt_page_words(page, "%sstatic safety %.3g, %.3g needed", row, v, l);
    case SPT_CHOOSE_SPEED:
        return spt_page_words(page, "%s%.5g rpm, its sheet allows %.5g", row, v, l);
    case SPT_CHOOSE_LUBRICATED_SPEED:
        return spt_page_words(page, "%sn d_m %.3g mm r/min, %.3g usual for the lubricant", row, v,
                              l);
    case SPT_CHOOSE_LIGHT_LOAD:
        return spt_page_words(page, "%smay skid: P is %.3g of C, %.3g needed", row, v, l);
    case SPT_CHOOSE_NO_STOCK:
        return spt_page_words(page, "%snone in stock", row);
    case SPT_CHOOSE_REASON_COUNT:
        break;
    }
    return "";
}

static double sum_of(const struct spt_choosing *c, const struct spt_choice *choice, bool price)
{
    double sum = 0;
    for (int row = 0; row < (c->pairs ? 2 : 1); row++) {
        const struct spt_bearing *b = candidate(c, choice, row);
        double value = price ? b->price : b->mass_kg;
        sum += value > 0 ? value : (double)NAN;
    }
    return sum;
}

static struct choice_row make_row(struct spt_page *page, const struct spt_choosing *c, long i)
{
    const struct spt_choice *choice = &c->choices[i];
    const double scale = c->order == SPT_CHOOSE_BY_SIZE ? MM3_PER_CM3 : 1;
    return (struct choice_row){
        .first = candidate(c, choice, 0)->name,
        .second = c->pairs ? candidate(c, choice, 1)->name : "",
        .size = c->pairs ? "" : tell_size(page, candidate(c, choice, 0)),
        .mark = choice->doubted ? "!" : "",
        .why = tell_why(page, c, choice),
        .code = codes[choice->why],
        .life_h = choice->life_h,
        .margin = choice->margin,
        .safety = isinf(choice->static_safety) ? (double)NAN : choice->static_safety,
        .share = choice->load_share,
        .cost = choice->cost / scale,
        .price = sum_of(c, choice, true),
        .mass_kg = sum_of(c, choice, false),
        .passes = choice->why == SPT_CHOOSE_PASSES,
        .doubted = choice->doubted,
        .rank = (int)i + 1,
    };
}

#define AT(member) .at = offsetof(struct choice_row, member)
static const struct spt_column data_columns[] = {
    {.key = "rank", .kind = SPT_COUNT, AT(rank)},
    {.key = "bearing", .kind = SPT_WORDS, AT(first)},
    {.key = "outboard", .kind = SPT_WORDS, AT(second)},
    {.key = "passes", .kind = SPT_YES, AT(passes)},
    {.key = "reason", .kind = SPT_WORDS, AT(code)},
    {.key = "reason_text", .kind = SPT_WORDS, AT(why)},
    {.key = "life_h", .kind = SPT_HOURS, AT(life_h)},
    {.key = "life_over_target", .kind = SPT_RATIO, AT(margin)},
    {.key = "static_safety_over_guide", .kind = SPT_RATIO, AT(safety)},
    {.key = "load_over_rating", .kind = SPT_NUMBER, AT(share)},
    {.key = "price", .kind = SPT_NUMBER, AT(price)},
    {.key = "mass_kg", .kind = SPT_NUMBER, AT(mass_kg)},
    {.key = "sheet_doubted", .kind = SPT_YES, AT(doubted)},
};

/* The columns of a table; which of them are shown depends on what is chosen. */
enum { FIRST, DOUBT, SECOND, SIZE, LIFE, MARGIN, SAFETY, SHARE, COST, WHY, SHOWN_COUNT };
static const struct spt_column shown_columns[SHOWN_COUNT] = {
    [FIRST] = {.head = "bearing", .kind = SPT_WORDS, .width = 22, AT(first)},
    [DOUBT] = {.head = "", .kind = SPT_MARK, .width = 1, AT(mark)},
    [SECOND] = {.head = "outboard", .kind = SPT_WORDS, .width = 20, .gap = 1, AT(second)},
    [SIZE] = {.head = "d x D x B mm", .kind = SPT_WORDS, .width = 17, .gap = 1, AT(size)},
    [LIFE] = {.head = "life", .kind = SPT_LIFE, .width = 11, .gap = 1, AT(life_h)},
    [MARGIN] = {.head = "x target", .kind = SPT_RATIO, .width = 8, .gap = 1, AT(margin)},
    [SAFETY] = {.head = "s0/guide", .kind = SPT_RATIO, .width = 8, .gap = 1, AT(safety)},
    [SHARE] = {.head = "P/C", .kind = SPT_FIXED, .digits = 3, .width = 6, .gap = 1, AT(share)},
    [COST] = {.head = "price", .kind = SPT_FIXED, .digits = 2, .width = 9, .gap = 1, AT(cost)},
    [WHY] = {.head = "why not", .kind = SPT_WORDS, .width = 0, .gap = 2, AT(why)},
};
#undef AT

static const char *cost_head(enum spt_choose_order order)
{
    return order == SPT_CHOOSE_BY_PRICE ? "price" : order == SPT_CHOOSE_BY_MASS ? "kg" : "cm3";
}

/* The columns for those that pass, or fail. */
static struct spt_column *choose_columns(struct spt_page *page, const struct spt_choosing *c,
                                         bool passing)
{
    struct spt_column *columns = spt_page_columns(page, shown_columns, SHOWN_COUNT);
    if (!columns)
        return NULL;
    columns[FIRST].head = c->pairs ? "inboard" : "bearing";
    columns[c->pairs ? SIZE : SECOND].head = NULL;
    columns[SHARE].extra = true; /* names need its place */
    columns[COST].head = cost_head(c->order);
    if (isnan(c->question->target_life_h))
        columns[MARGIN].head = NULL;
    if (passing)
        columns[WHY].head = NULL;
    else
        columns[SIZE].head = columns[MARGIN].head = columns[SAFETY].head = columns[SHARE].head =
            columns[COST].head = columns[LIFE].head = NULL;
    return columns;
}

static void show_part(struct spt_page *page, const struct spt_choosing *c,
                      const struct choice_row *rows, bool passing)
{
    const long from = passing ? 0 : c->passing, to = passing ? c->passing : c->count;
    const long most = passing ? PASSING_SHOWN : FAILING_SHOWN;
    const long shown = to - from < most ? to - from : most;
    const struct spt_column *columns = choose_columns(page, c, passing);
    if (!rows || !columns || !shown)
        return;
    spt_page_table(page, passing ? "passing" : "failing",
                   &(struct spt_table){.columns = columns,
                                       .column_count = SHOWN_COUNT,
                                       .rows = rows + from,
                                       .row_size = sizeof *rows,
                                       .row_count = (int)shown});
    if (to - from > shown)
        spt_page_say(page, SPT_BODY, "", "%ld more are in the CSV and JSON.", to - from - shown);
}

static const char *tell_names(struct spt_page *page, const struct spt_choosing *c,
                              const struct spt_choice *choice)
{
    if (!c->pairs)
        return spt_page_name(page, candidate(c, choice, 0)->name);
    return spt_page_words(page, "%s inboard with %s outboard",
                          spt_page_name(page, candidate(c, choice, 0)->name),
                          spt_page_name(page, candidate(c, choice, 1)->name));
}

static void say_verdict(struct spt_page *page, const struct spt_choose_answer *answer)
{
    static const char *const firsts[] = {"cheapest", "lightest", "smallest"};
    const struct spt_choosing *c = answer->choosing;
    const char *what = c->pairs ? "pairs" : "bearings";
    spt_page_open(page, "Verdict");
    if (c->passing)
        spt_page_judge(page, SPT_MET, "%ld of %ld %s of %s %s. The %s: %s, %s%s.", c->passing,
                       c->count, what, spt_page_name(page, answer->from),
                       c->passing == 1 ? "passes" : "pass", firsts[c->order],
                       tell_names(page, c, &c->choices[0]),
                       spt_page_life(page, c->choices[0].life_h),
                       isnan(c->question->target_life_h)
                           ? ""
                           : spt_page_words(page, ", %.3g times the target", c->choices[0].margin));
    else
        spt_page_judge(page, SPT_MISSED, "None of %ld %s of %s passes. The nearest: %s (%s).",
                       c->count, what, spt_page_name(page, answer->from),
                       tell_names(page, c, &c->choices[0]), tell_why(page, c, &c->choices[0]));
    if (isnan(c->question->target_life_h))
        spt_page_say(page, SPT_BODY, "",
                     "No `target_life` is stated, so no life is judged: state one.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "Needed: %.3g times the target of %s, static safety of the guide value, P of "
                     "at most half of C, a speed within the limits, no load light enough to skid.",
                     c->margin, spt_page_life(page, c->question->target_life_h));
    spt_page_close(page);
}

static void say_doubts(struct spt_page *page, const struct spt_choose_answer *answer)
{
    const struct spt_choosing *c = answer->choosing;
    int told = 0;
    spt_page_open(page, "Doubts about the sheets");
    for (int i = 0; i < c->candidate_count; i++) {
        struct spt_notes notes = {0};
        spt_bearing_doubts(&c->candidates[i], &notes);
        for (int k = 0; k < notes.count; k++) {
            char sentence[SPT_SENTENCE_LENGTH];
            if (told++ >= DOUBTS_SHOWN)
                continue;
            spt_sentence(&notes.list[k], sentence, sizeof sentence);
            spt_page_say(page, SPT_CHANGES_NUMBER, "! ", "%s (%s): %s",
                         spt_page_name(page, c->candidates[i].name),
                         answer->sources[i] ? spt_page_name(page, answer->sources[i]) : "no source",
                         sentence);
        }
    }
    if (told > DOUBTS_SHOWN)
        spt_page_say(page, SPT_CHANGES_NUMBER, "", "%d more of this kind.", told - DOUBTS_SHOWN);
    spt_page_close(page);
}

static void say_limits(struct spt_page *page, const struct spt_choosing *c)
{
    spt_page_open(page, "What this leaves out");
    spt_page_say(page, SPT_NOTE, "",
                 "Whether a bearing fits shaft, housing and seal, takes the thrust both ways or "
                 "bears the tilt of the shaft is not judged here, nor whether the prices hold.%s",
                 c->pairs ? " Outer rings keep their shoulders, rows share the loads by the "
                            "handbook, and the setting is not in these lives: see `spalltime "
                            "setting` with the pair that is taken."
                          : "");
    spt_page_close(page);
}

void spt_choose_page(struct spt_page *page, const struct spt_choose_answer *answer)
{
    const struct spt_choosing *c = answer->choosing;
    struct choice_row *rows = spt_page_allocate(page, (size_t)c->count * sizeof *rows);
    for (long i = 0; rows && i < c->count; i++)
        rows[i] = make_row(page, c, i);
    say_verdict(page, answer);
    spt_page_open(page, "Those that pass");
    show_part(page, c, rows, true);
    spt_page_close(page);
    spt_page_open(page, "Those that fail, the nearest first");
    show_part(page, c, rows, false);
    spt_page_close(page);
    say_doubts(page, answer);
    say_limits(page, c);
    spt_page_table(
        page, "choices",
        &(struct spt_table){SPT_TABLE_OF(data_columns, rows, (int)c->count), .is_data = true});
}

void spt_choose_json(struct spt_json *json, const struct spt_page *page,
                     const struct spt_choose_answer *answer)
{
    static const char *const orders[] = {"price", "mass", "size"};
    const struct spt_choosing *c = answer->choosing;
    spt_json_text(json, "title", c->question->title);
    spt_json_text(json, "from", answer->from);
    spt_json_number(json, "target_life_h", c->question->target_life_h);
    spt_json_number(json, "margin", c->margin);
    spt_json_bool(json, "pairs", c->pairs);
    spt_json_text(json, "order", orders[c->order]);
    spt_json_number(json, "tried", (double)c->count);
    spt_json_number(json, "passing", (double)c->passing);
    spt_table_json(spt_page_find(page, "choices"), "choices", json);
}
