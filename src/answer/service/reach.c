/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/reach.h"

#include <math.h>
#include <stddef.h>
#include <stdlib.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "answer/service/greasing.h"
#include "base/table.h"
#include "sentence/findings.h"
#include "sentence/notes.h"
#include "sentence/sentence.h"
#include "spalltime/vehicle.h"

#define VALUE_LENGTH 48
#define END_PLAY_DECIMALS 3 /* of a mm */
/* digits of a large water content, so that it is printed without exponent */
#define WATER_DIGITS 7

static const char *const outcomes[] = {
    [SPT_LEVER_REACHES] = "reaches",
    [SPT_LEVER_CANNOT] = "cannot reach it alone",
    [SPT_LEVER_ALWAYS] = "reaches over the whole range",
    [SPT_LEVER_NOT_HERE] = "no such lever here",
};

/* Number of significant digits printed; 0: a fixed step. */
static int digits_of(enum spt_lever lever)
{
    return lever == SPT_LEVER_TEMPERATURE || lever == SPT_LEVER_REGREASING ? 3
           : lever == SPT_LEVER_END_PLAY                                   ? 0
                                                                           : 4;
}

/* A value as printed: rounded towards the best end of the lever, so that the printed value reaches
 * the target too. */
static double round_safely(enum spt_lever lever, const struct spt_lever_result *result)
{
    double value = result->value, towards = result->best - value;
    if (result->outcome != SPT_LEVER_REACHES || value == 0 || towards == 0)
        return value;
    int digits = digits_of(lever);
    int decimals = digits ? digits - 1 - (int)floor(log10(fabs(value))) : END_PLAY_DECIMALS;
    double scale = pow(10, abs(decimals));
    double steps = decimals >= 0 ? value * scale : value / scale;
    steps = towards > 0 ? ceil(steps) : floor(steps);
    return decimals >= 0 ? steps / scale : steps * scale;
}

static const char *unit_of(enum spt_lever lever)
{
    static const char *const units[] = {
        [SPT_LEVER_CLEANLINESS] = "class", [SPT_LEVER_WATER] = "ppm",
        [SPT_LEVER_GRADE] = "grade",       [SPT_LEVER_TEMPERATURE] = "K",
        [SPT_LEVER_LOAD] = "factor",       [SPT_LEVER_REGREASING] = "h",
        [SPT_LEVER_RATING] = "factor",     [SPT_LEVER_END_PLAY] = "mm",
        [SPT_LEVER_POWER] = "factor",      [SPT_LEVER_PAYLOAD] = "kg",
        [SPT_LEVER_BEND_SPEED] = "km/h",   [SPT_LEVER_BEND_RADIUS] = "m",
    };
    SPT_ONE_EACH(units, SPT_LEVER_COUNT);
    return units[lever];
}

/* A value of a lever in words: "normal", "VG 150", "at most 220 ppm". */
static const char *say(enum spt_lever lever, double value, char *buffer)
{
    char hours[SPT_HOURS_LENGTH];
    switch (lever) {
    case SPT_LEVER_CLEANLINESS:
        return spt_cleanliness_name((enum spt_cleanliness)value);
    case SPT_LEVER_GRADE:
        snprintf(buffer, VALUE_LENGTH, "VG %d", spt_viscosity_grade((int)value)->number);
        break;
    case SPT_LEVER_WATER:
        snprintf(buffer, VALUE_LENGTH, "%.*g ppm", value < 1e4 ? digits_of(lever) : WATER_DIGITS,
                 value);
        break;
    case SPT_LEVER_TEMPERATURE:
        snprintf(buffer, VALUE_LENGTH, "%+.*g K", digits_of(lever), value);
        break;
    case SPT_LEVER_REGREASING:
        snprintf(buffer, VALUE_LENGTH, "%s h", spt_text_hours(value, hours));
        break;
    case SPT_LEVER_END_PLAY:
        snprintf(buffer, VALUE_LENGTH, "%+.*f mm", END_PLAY_DECIMALS, value);
        break;
    case SPT_LEVER_PAYLOAD:
    case SPT_LEVER_BEND_SPEED:
    case SPT_LEVER_BEND_RADIUS:
        snprintf(buffer, VALUE_LENGTH, "%.*g %s", value < 1e4 ? digits_of(lever) : 6, value,
                 unit_of(lever));
        break;
    case SPT_LEVER_LOAD:
    case SPT_LEVER_RATING:
    case SPT_LEVER_POWER:
    case SPT_LEVER_COUNT:
        snprintf(buffer, VALUE_LENGTH, "x %.*g", digits_of(lever), value);
        break;
    }
    return buffer;
}

static bool stays_as_it_is(const struct spt_lever_result *result)
{
    return result->outcome == SPT_LEVER_CANNOT && result->value == result->present;
}

/* The present value; an oil that fits no grade (ISO 3448: within 10 %) by its viscosity. */
static const char *say_present(const struct spt_reach *reach, enum spt_lever lever, char *buffer)
{
    double value = reach->levers[lever].present;
    if (lever != SPT_LEVER_GRADE || reach->present_grade_fits)
        return say(lever, value, buffer);
    snprintf(buffer, VALUE_LENGTH, "%.3g mm2/s", reach->present_viscosity_40_mm2_s);
    return buffer;
}

/* The required value; where nothing better was found, the present value. */
static const char *say_value(const struct spt_reach *reach, enum spt_lever lever, char *buffer)
{
    const struct spt_lever_result *result = &reach->levers[lever];
    return stays_as_it_is(result) ? say_present(reach, lever, buffer)
                                  : say(lever, round_safely(lever, result), buffer);
}

/* Name of the lever for the first column. */
static const char *title(enum spt_lever lever, bool slipping)
{
    static const char *const titles[][2] = {
        [SPT_LEVER_CLEANLINESS] = {"dirt, no phase dirtier than", "dirt in every phase up to"},
        [SPT_LEVER_WATER] = {"water, no phase wetter than", "water in every phase up to"},
        [SPT_LEVER_GRADE] = {"oil grade, same index", "oil grade, same index"},
        [SPT_LEVER_TEMPERATURE] = {"temperature of all phases", "temperature of all phases"},
        [SPT_LEVER_LOAD] = {"load of all phases", "load of all phases"},
        [SPT_LEVER_REGREASING] = {"grease, no phase older than", "grease in every phase up to"},
        [SPT_LEVER_RATING] = {"ratings C, C0 and C_u", "ratings C, C0 and C_u"},
        [SPT_LEVER_END_PLAY] = {"end play (preload below 0)", "end play (preload below 0)"},
        [SPT_LEVER_POWER] = {"power of all phases", "power of all phases"},
        [SPT_LEVER_PAYLOAD] = {"payload, no phase above", "payload in every phase up to"},
        [SPT_LEVER_BEND_SPEED] = {"bends driven no faster than", "bends driven as fast as"},
        [SPT_LEVER_BEND_RADIUS] = {"bends no tighter than", "bends as tight as"},
    };
    SPT_ONE_EACH(titles, SPT_LEVER_COUNT);
    return titles[lever][slipping];
}

/* True where something other than fatigue may end the life at this value. */
static bool in_doubt(const struct spt_lever_result *result)
{
    for (int i = 0; i < result->notes.count && !isnan(result->life_h); i++)
        if (spt_reservation(result->notes.list[i].flag))
            return true;
    return false;
}

static bool is_overdue(const struct spt_lever_result *result)
{
    return spt_notes_has(&result->notes, SPT_FLAG_GREASE_OVERDUE);
}

/* A row of levers. */
struct lever_row {
    const char *lever, *outcome, *title, *now, *wanted, *mark, *verdict, *codes;
    double present, value, life_h;
    const char *present_name, *value_name; /* of a class or grade; NULL: it is a number */
};

/* True for a lever whose values are names. */
static bool has_names(enum spt_lever lever)
{
    return lever == SPT_LEVER_CLEANLINESS || lever == SPT_LEVER_GRADE;
}

/* The levers of an answer: those that the case has, or of them the one that is asked for. */
static bool is_shown(const struct spt_reached *answer, int lever)
{
    return (answer->only < 0 || answer->only == lever) &&
           answer->reach->levers[lever].outcome != SPT_LEVER_NOT_HERE;
}

/* True where the value now is at the end of the range or beyond it, so that there is none to go. */
static bool is_beyond(const struct spt_lever_result *result)
{
    return result->outcome == SPT_LEVER_ALWAYS && !(result->value < result->present) &&
           !(result->value > result->present);
}

static const char *judge_lever(enum spt_lever lever, const struct spt_lever_result *result)
{
    return lever == SPT_LEVER_REGREASING && is_overdue(result) ? "OVERDUE"
           : result->outcome == SPT_LEVER_CANNOT               ? "not enough"
           : is_beyond(result)                                 ? "beyond"
           : result->outcome == SPT_LEVER_ALWAYS               ? "always"
                                                               : "reaches";
}

static struct lever_row make_row(struct spt_page *page, const struct spt_reach *reach,
                                 enum spt_lever lever)
{
    const struct spt_lever_result *result = &reach->levers[lever];
    char now[VALUE_LENGTH], value[VALUE_LENGTH];
    struct lever_row row = {
        .lever = spt_lever_name(lever),
        .outcome = outcomes[result->outcome],
        .title = title(lever, reach->reached_already),
        .now = spt_page_words(page, "%s", say_present(reach, lever, now)),
        .wanted = spt_page_words(page, "%s", say_value(reach, lever, value)),
        .mark = in_doubt(result) ? "!" : "",
        .verdict = judge_lever(lever, result),
        .codes = spt_page_codes(page, &result->notes, NULL),
        .present = result->present,
        .value = result->value,
        .life_h = result->life_h,
    };
    if (has_names(lever)) {
        row.present_name = row.now;
        row.value_name = row.wanted;
        row.present = row.value = (double)NAN;
    }
    return row;
}

static const struct spt_column lever_columns[] = {
    {.head = "lever", .kind = SPT_WORDS, .width = 30, .at = offsetof(struct lever_row, title)},
    {.head = "now",
     .kind = SPT_WORDS,
     .width = 11,
     .gap = 1,
     .at = offsetof(struct lever_row, now)},
    {.head = "wanted",
     .kind = SPT_WORDS,
     .width = 12,
     .gap = 1,
     .at = offsetof(struct lever_row, wanted)},
    {.key = "lever", .kind = SPT_WORDS, .at = offsetof(struct lever_row, lever)},
    {.key = "outcome", .kind = SPT_WORDS, .at = offsetof(struct lever_row, outcome)},
    {.key = "present",
     .kind = SPT_NUMBER,
     .at = offsetof(struct lever_row, present),
     .instead = offsetof(struct lever_row, present_name)},
    {.key = "value",
     .kind = SPT_NUMBER,
     .at = offsetof(struct lever_row, value),
     .instead = offsetof(struct lever_row, value_name)},
    {.head = "life h",
     .key = "life_h",
     .kind = SPT_HOURS,
     .width = 10,
     .gap = 1,
     .at = offsetof(struct lever_row, life_h)},
    {.head = "", .kind = SPT_MARK, .width = 1, .at = offsetof(struct lever_row, mark)},
    {.head = "",
     .kind = SPT_WORDS,
     .width = 10,
     .gap = 1,
     .at = offsetof(struct lever_row, verdict)},
    {.key = "warnings", .kind = SPT_WORDS, .at = offsetof(struct lever_row, codes)},
};
#define WANTED 2 /* the column whose head says what its values are */

static void show_levers(struct spt_page *page, const struct spt_reached *answer)
{
    const int column_count = (int)(sizeof lever_columns / sizeof *lever_columns);
    struct lever_row *rows = spt_page_allocate(page, SPT_LEVER_COUNT * sizeof *rows);
    struct spt_column *columns = spt_page_columns(page, lever_columns, column_count);
    int count = 0;
    if (columns && answer->reach->reached_already)
        columns[WANTED].head = "limit";
    for (int lever = 0; rows && lever < SPT_LEVER_COUNT; lever++)
        if (is_shown(answer, lever))
            rows[count++] = make_row(page, answer->reach, (enum spt_lever)lever);
    spt_page_table(page, "levers",
                   &(struct spt_table){.columns = columns,
                                       .column_count = column_count,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = count,
                                       .is_data = true});
}

static void say_pair(struct spt_page *page, const struct spt_reach *reach)
{
    if (reach->pair_found)
        spt_page_say(page, SPT_BODY, "",
                     "Fewest steps of two together: cleanliness %s and VG %d give %s h.",
                     spt_cleanliness_name((enum spt_cleanliness)reach->pair_cleanliness),
                     spt_viscosity_grade(reach->pair_grade)->number,
                     spt_page_hours(page, reach->pair_life_h));
    else if (!reach->reached_already &&
             reach->levers[SPT_LEVER_CLEANLINESS].outcome == SPT_LEVER_CANNOT &&
             reach->levers[SPT_LEVER_GRADE].outcome == SPT_LEVER_CANNOT)
        spt_page_say(page, SPT_BODY, "",
                     "No cleaner class and better grade together reach it either.");
}

static void say_hub(struct spt_page *page, const struct spt_case *question, bool slipping)
{
    spt_page_say(page, SPT_BODY, "",
                 "The hub is solved again for each load and each end play; end play slips on "
                 "the side of the best setting that it is on.");
    if (question->setting.preload_mm > 0)
        spt_page_say(page, SPT_BODY, "",
                     "The hub is preloaded by %.3g mm as it stands, cold or running. %s",
                     question->setting.preload_mm, spt_preload_practice());
    if (question->hub->preload_allowed)
        spt_page_say(page, SPT_BODY, "",
                     "The scenario allows preload, so end play is sought there as well.");
    else
        spt_page_say(page, SPT_BODY, "",
                     "No preload is wanted of it, cold or running: end play stops where that "
                     "begins%s, whatever the rating life.",
                     question->hub->scatter_mm > 0 && !slipping
                         ? ", or so far before it that the stated scatter keeps off it"
                         : "");
}

/* What the levers of a machine change, and what they leave. */
static void say_machine(struct spt_page *page, const struct spt_case *question)
{
    char name[SPT_WHEEL_NAME_LENGTH];
    if (question->machine)
        spt_page_say(page, SPT_BODY, "",
                     "Power: the forces of every part are worked out anew; weights stay, and the "
                     "tension of a belt follows the hardest phase unless it is stated. Load: every "
                     "bearing load alike.");
    else if (question->sheet_hub)
        spt_page_say(
            page, SPT_BODY, "",
            "Payload and bends: the loads of the wheels are worked out anew, up to where "
            "the trailer tips; the table stays with the wheel %s, so look with `life` "
            "whether another is worse then.",
            spt_vehicle_wheel_name(&question->vehicle->vehicle, question->vehicle->wheel, name));
    else
        spt_page_say(page, SPT_BODY, "",
                     "Payload and bends are no levers of a hub with rollers inside: change the "
                     "scenario, or sweep `payload` and `road_speed`.");
}

/* The band of the present life; the lives in the table are for the inputs as stated. */
static void say_band(struct spt_page *page, const struct spt_uncertainty_result *spread)
{
    if (!spread)
        return;
    spt_band_page(page, spread);
    spt_page_say(page, SPT_BODY, "", "The table takes every input as stated.");
}

/* Beginning of the sentence about the target. */
static const char *tell_life(struct spt_page *page, double hours)
{
    return isinf(hours) ? "fatigue sets no limit"
                        : spt_page_words(page, "the life is %s h", spt_page_hours(page, hours));
}

#define SAME_LIFE 0.01 /* a smaller difference of two lives is not told */

/* The levers start from the condition as stated, without the drifts and events of a service and the
 * renewals of the plan, by which the verdict goes. */
static void say_plan(struct spt_page *page, const struct spt_reached *answer)
{
    const double present_h = answer->reach->present_life_h, plan_h = answer->plan_life_h;
    if (isnan(plan_h) || isnan(present_h) || present_h == plan_h ||
        fabs(present_h - plan_h) <= SAME_LIFE * plan_h)
        return;
    spt_page_say(page, SPT_BODY, "",
                 "The verdict goes by the life under the plan, %s, with its renewals, events and "
                 "drifts: the levers are tried without these.",
                 spt_page_life(page, plan_h));
}

static void say_start(struct spt_page *page, const struct spt_reach *reach)
{
    char target[SPT_HOURS_LENGTH];
    spt_text_stated(reach->target_h, target);
    if (isnan(reach->present_life_h))
        spt_page_say(page, SPT_BODY, "",
                     "In the condition as stated no life can be stated; %s h are wanted.", target);
    else
        spt_page_say(page, SPT_BODY, "", "In the condition as stated %s and %s h are wanted%s",
                     tell_life(page, reach->present_life_h), target,
                     reach->reached_already
                         ? ": the table says how far each thing alone may slip before they are not "
                           "reached."
                         : ". The table says what each thing alone must come to.");
}

static void say_target(struct spt_page *page, const struct spt_reached *answer)
{
    spt_page_open(page, "Target");
    say_start(page, answer->reach);
    say_plan(page, answer);
    if (answer->assessment->remaining.hours_run > 0)
        spt_page_say(page, SPT_BODY, "",
                     "The bearing has run %s h and has not failed: lives here count those hours, "
                     "as the target does, and a lever changes only those to come.",
                     spt_page_hours(page, answer->assessment->remaining.hours_run));
    say_band(page, answer->spread);
    spt_greasing_page(page, &answer->assessment->greasing);
    spt_page_close(page);
}

/* What the words and marks of the table mean. */
static void say_legend(struct spt_page *page, const struct spt_reached *answer)
{
    const struct spt_reach *reach = answer->reach;
    bool doubt = false, beyond = false;
    spt_page_say(page, SPT_BODY, "",
                 "\"Not enough\": the value shown is the best this lever has, with the life it "
                 "gives; where that is the present one the lever gains nothing. \"Always\": the "
                 "target holds to the end of the range. Values that reach "
                 "it are rounded to the safe side.");
    for (int lever = 0; lever < SPT_LEVER_COUNT && !beyond; lever++)
        beyond = is_shown(answer, lever) && is_beyond(&reach->levers[lever]);
    if (beyond)
        spt_page_say(page, SPT_BODY, "",
                     "\"Beyond\": it stands at the end of the range or beyond it already.");
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++)
        doubt = doubt || (is_shown(answer, lever) && in_doubt(&reach->levers[lever]));
    if (doubt)
        spt_page_say(page, SPT_BODY, "", "%s",
                     reach->reached_already
                         ? "!: at this value something else than fatigue is likely to end it "
                           "first (see the flags at these values): do not go so far."
                         : "!: at this value something else than fatigue is still likely to end "
                           "it first (see the flags at these values).");
    if (is_shown(answer, SPT_LEVER_REGREASING) && is_overdue(&reach->levers[SPT_LEVER_REGREASING]))
        spt_page_say(page, SPT_BODY, "",
                     "\"OVERDUE\": fatigue life would allow it, but the grease is then past its "
                     "relubrication interval, and a growing share no longer works: regrease at "
                     "the interval.");
}

/* The flags that only the wanted values raise. */
static void say_flags(struct spt_page *page, const struct spt_reached *answer)
{
    spt_page_open(page, "Flags at these values");
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++) {
        char value[VALUE_LENGTH], who[2 * VALUE_LENGTH];
        if (!is_shown(answer, lever))
            continue;
        snprintf(who, sizeof who, "%s %s", spt_lever_name((enum spt_lever)lever),
                 say_value(answer->reach, (enum spt_lever)lever, value));
        spt_page_notes(page, &answer->reach->levers[lever].notes, who);
    }
    spt_page_close(page);
}

static void write_json_lever(struct spt_json *json, const struct spt_reach *reach,
                             enum spt_lever lever)
{
    const struct spt_lever_result *result = &reach->levers[lever];
    char now[VALUE_LENGTH], value[VALUE_LENGTH];
    bool here = result->outcome != SPT_LEVER_NOT_HERE;
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "lever", spt_lever_name(lever));
    spt_json_text(json, "outcome", outcomes[result->outcome]);
    spt_json_text(json, "unit", unit_of(lever));
    if (here && has_names(lever)) {
        spt_json_text(json, "present", say_present(reach, lever, now));
        spt_json_text(json, "value", say_value(reach, lever, value));
    } else {
        spt_json_number(json, "present", result->present);
        spt_json_number(json, "value", result->value);
    }
    spt_json_number(json, "life_h", result->life_h);
    spt_json_notes(json, &result->notes);
    spt_json_close(json, '}');
}

static void write_json_pair(struct spt_json *json, const struct spt_reach *reach)
{
    spt_json_open(json, "pair", '{');
    if (reach->pair_found) {
        spt_json_text(json, "cleanliness",
                      spt_cleanliness_name((enum spt_cleanliness)reach->pair_cleanliness));
        spt_json_number(json, "grade", spt_viscosity_grade(reach->pair_grade)->number);
        spt_json_number(json, "life_h", reach->pair_life_h);
    }
    spt_json_close(json, '}');
}

/* Input of the explanation of `reach`. */
struct told_reach {
    const struct spt_reach *reach;
    int only;
};

/* A value with the full accuracy of the root, for checking it. */
static const char *say_exactly(enum spt_lever lever, double value, char *buffer)
{
    bool factor = lever == SPT_LEVER_LOAD || lever == SPT_LEVER_RATING || lever == SPT_LEVER_POWER;
    snprintf(buffer, VALUE_LENGTH, "%s%.9g%s%s", factor ? "x " : "", value, factor ? "" : " ",
             factor ? "" : unit_of(lever));
    return buffer;
}

static void explain_lever(const struct spt_reach *reach, enum spt_lever lever,
                          const struct spt_step_sink *sink)
{
    const struct spt_lever_result *result = &reach->levers[lever];
    char best[VALUE_LENGTH], worst[VALUE_LENGTH], value[VALUE_LENGTH], formula[3 * VALUE_LENGTH];
    bool walked = lever == SPT_LEVER_CLEANLINESS || lever == SPT_LEVER_GRADE;
    if (result->outcome == SPT_LEVER_NOT_HERE)
        return;
    sink->place(sink->context, "", title(lever, reach->reached_already));
    spt_explain_step(sink, "best", "life at the best end looked at", result->best_life_h, "h",
                     "assessed anew", "%s", say(lever, result->best, best));
    spt_explain_step(sink, "worst", "life at the worst end looked at", result->worst_life_h, "h",
                     "assessed anew", "%s", say(lever, result->worst, worst));
    snprintf(formula, sizeof formula, "life at %s",
             walked ? say_value(reach, lever, value) : say_exactly(lever, result->value, value));
    spt_explain_step(sink, "check", formula, result->life_h, "h",
                     walked ? "each step assessed in turn"
                            : "root of ln(life/target) by Brent's method; assessed anew",
                     "%s; life/target = %.6g / %.6g = %.10g", outcomes[result->outcome],
                     result->life_h, reach->target_h, result->life_h / reach->target_h);
}

static void tell_reach(const void *subject, const struct spt_step_sink *sink)
{
    const struct told_reach *told = subject;
    sink->place(sink->context, "", "now");
    spt_explain_step(sink, "L", "life of the case as it stands", told->reach->present_life_h, "h",
                     "see `spalltime life --explain`", "target %.6g h", told->reach->target_h);
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++)
        if (told->only < 0 || told->only == lever)
            explain_lever(told->reach, (enum spt_lever)lever, sink);
}

void spt_reach_page(struct spt_page *page, const struct spt_reached *answer, bool explain)
{
    const struct told_reach told = {answer->reach, answer->only};
    const struct spt_case *question = answer->question;
    spt_history_page(page, question);
    say_target(page, answer);
    spt_page_open(page, "One thing alone");
    show_levers(page, answer);
    if (answer->only < 0 || is_shown(answer, answer->only))
        say_legend(page, answer);
    else
        spt_page_say(page, SPT_BODY, "", "This case has no lever `%s`.",
                     spt_lever_name((enum spt_lever)answer->only));
    if (question->hub)
        say_hub(page, question, answer->reach->reached_already);
    if (question->machine || question->vehicle)
        say_machine(page, question);
    if (answer->only < 0)
        say_pair(page, answer->reach);
    spt_page_close(page);
    if (explain)
        spt_explain_page(page, tell_reach, &told);
    say_flags(page, answer);
}

void spt_reach_json(struct spt_json *json, const struct spt_reached *answer, bool explain)
{
    const struct told_reach told = {answer->reach, answer->only};
    const struct spt_case *question = answer->question;
    const struct spt_reach *reach = answer->reach;
    spt_json_text(json, "title", question->title);
    spt_history_json(json, question->history);
    spt_json_number(json, "target_life_h", reach->target_h);
    spt_json_number(json, "present_life_h", reach->present_life_h);
    if (answer->assessment->remaining.hours_run > 0)
        spt_json_number(json, "hours_run_h", answer->assessment->remaining.hours_run);
    if (answer->spread)
        spt_band_json(json, &answer->spread->system);
    spt_json_bool(json, "reached_already", reach->reached_already);
    spt_greasing_json(json, &answer->assessment->greasing);
    spt_json_open(json, "levers", '[');
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++)
        if (answer->only == lever ||
            (answer->only < 0 && (lever < (int)SPT_LEVER_POWER || is_shown(answer, lever))))
            write_json_lever(json, reach, (enum spt_lever)lever);
    spt_json_close(json, ']');
    write_json_pair(json, reach);
    if (explain)
        spt_explain_in_json(json, tell_reach, &told);
}
