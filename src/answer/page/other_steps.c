/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/page/other_steps.h"

#include <string.h>

#include "answer/life/explain.h"

/* A step that is known. Formula and source are constants of the program. */
struct known_step {
    const struct known_step *next;
    const char *symbol, *numbers, *formula, *source;
    double value;
};

#define HEADS 512 /* lists of known steps, by a hash of their symbol */

struct other_steps {
    struct spt_page *page;
    const struct known_step *known[HEADS];
    const char *bearing, *phase; /* of the place that is explained */
    bool opened;                 /* the section of that place */
};

static unsigned find_list(const char *symbol)
{
    unsigned hash = 5381;
    for (; *symbol; symbol++)
        hash = hash * 33 + (unsigned char)*symbol;
    return hash % HEADS;
}

static void ignore_place(void *context, const char *bearing, const char *phase)
{
    (void)context;
    (void)bearing;
    (void)phase;
}

static void keep_step(void *context, const struct spt_step *step)
{
    struct other_steps *steps = context;
    struct known_step *known = spt_page_allocate(steps->page, sizeof *known);
    const unsigned list = find_list(step->symbol);
    if (!known)
        return;
    *known = (struct known_step){steps->known[list],
                                 spt_page_words(steps->page, "%s", step->symbol),
                                 spt_page_words(steps->page, "%s", step->numbers),
                                 step->formula,
                                 step->source,
                                 step->value};
    steps->known[list] = known;
}

static bool is_known(const struct other_steps *steps, const struct spt_step *step)
{
    const struct known_step *known = steps->known[find_list(step->symbol)];
    for (; known; known = known->next)
        if (!strcmp(known->symbol, step->symbol) && !strcmp(known->numbers, step->numbers) &&
            !memcmp(&known->value, &step->value, sizeof step->value))
            return true;
    return false;
}

/* True where the scenario as written has the quantity by the same formula, with other numbers. */
static bool has_formula(const struct other_steps *steps, const struct spt_step *step)
{
    const struct known_step *known = steps->known[find_list(step->symbol)];
    for (; known; known = known->next)
        if (!strcmp(known->symbol, step->symbol) && !strcmp(known->formula, step->formula) &&
            !strcmp(known->source, step->source))
            return true;
    return false;
}

static void end_place(struct other_steps *steps)
{
    if (steps->opened)
        spt_page_close(steps->page);
    steps->opened = false;
}

static void take_place(void *context, const char *bearing, const char *phase)
{
    struct other_steps *steps = context;
    end_place(steps);
    steps->bearing = spt_page_words(steps->page, "%s", bearing);
    steps->phase = spt_page_words(steps->page, "%s", phase);
}

static void show_step(void *context, const struct spt_step *step)
{
    struct other_steps *steps = context;
    struct spt_page *page = steps->page;
    if (is_known(steps, step))
        return;
    if (!steps->opened)
        spt_page_open(page, "%s%s%s", *steps->bearing ? spt_page_name(page, steps->bearing) : "",
                      *steps->bearing ? ": " : "", spt_page_name(page, steps->phase));
    steps->opened = true;
    struct spt_step shown = *step;
    if (has_formula(steps, step))
        shown.formula = shown.source = "";
    spt_page_step(page, &shown);
}

void spt_other_steps_page(struct spt_page *page, const struct spt_assessment *known,
                          const struct spt_assessment *assessment)
{
    struct other_steps *steps = spt_page_allocate(page, sizeof *steps);
    if (!steps)
        return;
    *steps = (struct other_steps){.page = page, .bearing = "", .phase = ""};
    spt_page_say(page, SPT_BODY, "",
                 "Formula and source where none stands: as in the steps of the scenario as "
                 "written.");
    spt_explain_assessment(known, &(struct spt_step_sink){ignore_place, keep_step, steps});
    spt_explain_assessment(assessment, &(struct spt_step_sink){take_place, show_step, steps});
    end_place(steps);
}
