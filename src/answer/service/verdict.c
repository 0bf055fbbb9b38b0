/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/verdict.h"

#include <math.h>
#include <string.h>

#include "sentence/verdict.h"
#include "spalltime/vehicle.h"

struct part_row {
    const char *part, *verdict, *text;
};

static const struct spt_column part_columns[] = {
    {.head = "part",
     .key = "part",
     .kind = SPT_WORDS,
     .width = 12,
     .at = offsetof(struct part_row, part)},
    {.head = "verdict",
     .key = "verdict",
     .kind = SPT_WORDS,
     .width = 8,
     .gap = 1,
     .at = offsetof(struct part_row, verdict)},
    {.head = "why",
     .key = "text",
     .kind = SPT_WORDS,
     .gap = 1,
     .at = offsetof(struct part_row, text)},
};

/* The wheel that a case is about. */
static const char *name_wheel(struct spt_page *page, const struct spt_vehicle_case *vehicle)
{
    char name[SPT_WHEEL_NAME_LENGTH];
    return spt_page_words(page, "%s",
                          spt_vehicle_wheel_name(&vehicle->vehicle, vehicle->wheel, name));
}

void spt_verdict_page(struct spt_page *page, const struct spt_judgement *judgement)
{
    char headline[SPT_HEADLINE_LENGTH], text[SPT_CONCERN_LENGTH];
    struct part_row *rows = spt_page_allocate(page, SPT_CONCERN_COUNT * sizeof *rows);
    int count = 0;
    for (int i = 0; rows && i < SPT_CONCERN_COUNT; i++)
        if (judgement->parts[i].grade != SPT_GRADE_ABSENT)
            rows[count++] = (struct part_row){
                spt_part_name((enum spt_concern)i), spt_grade_name(judgement->parts[i].grade),
                spt_page_words(page, "%s", spt_verdict_part(judgement, (enum spt_concern)i, text))};
    spt_page_open(page, "Verdict");
    spt_page_judge(page, spt_verdict_mark(judgement), "%s",
                   spt_verdict_headline(judgement, headline));
    spt_page_table(page, "verdict", &(struct spt_table){SPT_TABLE_OF(part_columns, rows, count)});
    if (judgement->question->vehicle)
        spt_page_say(page, SPT_BODY, "",
                     "All of this is about the hub of %s; `life` shows the other wheels.",
                     spt_page_name(page, name_wheel(page, judgement->question->vehicle)));
    spt_page_close(page);
}

struct stair_row {
    const char *step;
    double factor, life_h;
};

static const struct spt_column stair_columns[] = {
    {.head = "step",
     .key = "step",
     .kind = SPT_WORDS,
     .width = 30,
     .at = offsetof(struct stair_row, step)},
    {.head = "factor",
     .key = "factor",
     .kind = SPT_RATIO,
     .width = 9,
     .gap = 1,
     .none = "-",
     .at = offsetof(struct stair_row, factor)},
    {.head = "life h",
     .key = "life_h",
     .kind = SPT_HOURS,
     .width = 12,
     .gap = 1,
     .at = offsetof(struct stair_row, life_h)},
};

/* The life under the renewals that the service states, where the plan renews otherwise. */
static void say_to_the_letter(struct spt_page *page, const struct spt_judgement *judgement)
{
    const double life_h = judgement->stated_renewals_h;
    const char *life = spt_page_life(page, life_h);
    if (isnan(life_h) || !strcmp(life, spt_page_life(page, judgement->life_h)))
        return;
    spt_page_say(page, SPT_BODY, "",
                 judgement->stated_renewals_stop
                     ? "If the lubricant were renewed as `service` states and not as planned "
                       "here, no life could be stated from %s on."
                     : "If the lubricant were renewed as `service` states and not as planned "
                       "here, the life would be %s.",
                 life);
}

void spt_stairs_page(struct spt_page *page, const struct spt_judgement *judgement)
{
    const struct spt_stairs *stairs = &judgement->stairs;
    struct stair_row *rows = spt_page_allocate(page, SPT_STAIR_COUNT * sizeof *rows);
    for (int i = 0; rows && i < stairs->count; i++)
        rows[i] =
            (struct stair_row){spt_stair_name(stairs->steps[i].what),
                               i ? stairs->steps[i].factor : (double)NAN, stairs->steps[i].life_h};
    spt_page_open(page, "From the rating life to the life under this plan");
    spt_page_table(page, "stairs",
                   &(struct spt_table){SPT_TABLE_OF(stair_columns, rows, stairs->count)});
    say_to_the_letter(page, judgement);
    spt_page_close(page);
}

static void write_parts(struct spt_json *json, const struct spt_judgement *judgement)
{
    char text[SPT_CONCERN_LENGTH];
    spt_json_open(json, "parts", '[');
    for (int i = 0; i < SPT_CONCERN_COUNT; i++) {
        if (judgement->parts[i].grade == SPT_GRADE_ABSENT)
            continue;
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "part", spt_part_name((enum spt_concern)i));
        spt_json_text(json, "verdict", spt_grade_name(judgement->parts[i].grade));
        spt_json_text(json, "text", spt_verdict_part(judgement, (enum spt_concern)i, text));
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_verdict_json(struct spt_json *json, const struct spt_judgement *judgement)
{
    char headline[SPT_HEADLINE_LENGTH], wheel[SPT_WHEEL_NAME_LENGTH];
    spt_json_open(json, "verdict", '{');
    spt_json_text(json, "verdict", spt_verdict_name(judgement));
    write_parts(json, judgement);
    spt_json_text(json, "headline", spt_verdict_headline(judgement, headline));
    if (judgement->question->vehicle)
        spt_json_text(json, "wheel",
                      spt_vehicle_wheel_name(&judgement->question->vehicle->vehicle,
                                             judgement->question->vehicle->wheel, wheel));
    spt_json_number(json, "life_under_plan_h", judgement->life_h);
    spt_json_number(json, "regrease_every_h", spt_verdict_regrease_h(judgement));
    spt_json_number(json, "life_with_stated_renewals_h",
                    judgement->stated_renewals_stop ? (double)NAN : judgement->stated_renewals_h);
    spt_json_open(json, "stairs", '[');
    for (int i = 0; i < judgement->stairs.count; i++) {
        const struct spt_stair_step *step = &judgement->stairs.steps[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "step", spt_stair_name(step->what));
        spt_json_number(json, "factor", step->factor);
        spt_json_number(json, "life_h", step->life_h);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}
