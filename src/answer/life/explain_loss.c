/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/life/explain.h"

#define WORDS_LENGTH 240

/* Formats a set of causes as "debris, water"; "nothing" for none. */
static const char *tell_causes(unsigned set, char *text, size_t size)
{
    size_t used = (size_t)snprintf(text, size, set ? "" : "nothing");
    for (int i = 0; i < SPT_CAUSE_COUNT && used < size; i++)
        if (set >> i & 1u)
            used += (size_t)snprintf(text + used, size - used, "%s%s", used ? ", " : "",
                                     spt_cause_name((enum spt_cause)i));
    return text;
}

/* The next set of causes that apply, from `set` on; past the last one it is above `applying`. */
static unsigned find_set(unsigned applying, unsigned set)
{
    while (set <= applying && set & ~applying)
        set++;
    return set;
}

void spt_explain_loss(const struct spt_loss *loss, const struct spt_step_sink *sink)
{
    const unsigned all = loss->applying;
    char formula[WORDS_LENGTH], causes[WORDS_LENGTH / 2], life[SPT_HOURS_LENGTH];
    for (unsigned set = 0; all && set <= all; set = find_set(all, set + 1)) {
        const double life_h = loss->cured_life_h[all & ~set];
        snprintf(formula, sizeof formula, "ln(life) with %s there, the rest put right",
                 tell_causes(set, causes, sizeof causes));
        spt_explain_step(sink, "v", formula, log(life_h), "", "worked out with these put right",
                         "ln %s", spt_explain_life(life_h, 6, life));
    }
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        if (loss->causes[i].applies)
            spt_explain_step(sink, spt_cause_name((enum spt_cause)i),
                             "its Shapley value on ln(life)", loss->causes[i].log_life_share, "",
                             "Shapley 1953, over every subset of the causes",
                             "life if only this is put right: %s%s",
                             spt_explain_life(loss->causes[i].life_if_cured_h, 6, life),
                             isfinite(loss->causes[i].life_if_cured_h) ? " h" : "");
}

struct set_row {
    const char *causes;
    double life_h, log_life;
};

#define AT(member) .at = offsetof(struct set_row, member)
static void show_sets(struct spt_page *page, const struct spt_loss *loss)
{
    static const struct spt_column columns[] = {
        {.head = "causes that stay", .kind = SPT_WORDS, .width = 40, AT(causes)},
        {.head = "life",
         .under = "h",
         .kind = SPT_GENERAL,
         .digits = 6,
         .none = "none",
         .endless = "no limit",
         .width = 12,
         AT(life_h)},
        {.head = "ln(life)",
         .kind = SPT_GENERAL,
         .digits = 5,
         .none = "none",
         .endless = "no limit",
         .width = 10,
         AT(log_life)},
    };
    const unsigned all = loss->applying;
    struct set_row *rows = spt_page_allocate(page, ((size_t)all + 1) * sizeof *rows);
    int count = 0;
    for (unsigned set = 0; rows && set <= all; set = find_set(all, set + 1)) {
        char causes[WORDS_LENGTH];
        const double life_h = loss->cured_life_h[all & ~set];
        rows[count++] =
            (struct set_row){spt_page_words(page, "%s", tell_causes(set, causes, sizeof causes)),
                             life_h, log(life_h)};
    }
    spt_page_say(page, SPT_BODY, "",
                 "The life with each set of the causes left as it is, worked out anew with the "
                 "rest put right:");
    spt_page_table(page, "sets", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
}
#undef AT

struct value_row {
    const char *cause;
    double value, life_h;
};

#define AT(member) .at = offsetof(struct value_row, member)
static void show_values(struct spt_page *page, const struct spt_loss *loss)
{
    static const struct spt_column columns[] = {
        {.head = "cause", .kind = SPT_WORDS, .width = 16, AT(cause)},
        {.head = "its value",
         .under = "in ln(life)",
         .kind = SPT_GENERAL,
         .digits = 5,
         .none = "none",
         .width = 14,
         AT(value)},
        {.head = "life if only this",
         .under = "is put right, h",
         .kind = SPT_GENERAL,
         .digits = 6,
         .none = "none",
         .endless = "no limit",
         .width = 19,
         AT(life_h)},
    };
    struct value_row *rows = spt_page_allocate(page, SPT_CAUSE_COUNT * sizeof *rows);
    int count = 0;
    for (int i = 0; rows && i < SPT_CAUSE_COUNT; i++)
        if (loss->causes[i].applies)
            rows[count++] =
                (struct value_row){spt_cause_name((enum spt_cause)i),
                                   loss->causes[i].log_life_share, loss->causes[i].life_if_cured_h};
    spt_page_say(page, SPT_BODY, "",
                 "The Shapley value of each cause on ln(life), over every one of these sets "
                 "(Shapley 1953):");
    spt_page_table(page, "values", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
}
#undef AT

void spt_explain_loss_page(struct spt_page *page, const struct spt_loss *loss)
{
    if (!loss->applying)
        return;
    show_sets(page, loss);
    show_values(page, loss);
}
