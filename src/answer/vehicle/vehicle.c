/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/vehicle/vehicle.h"

#include <math.h>
#include <stddef.h>

/* One wheel with its hub. */
struct wheel_life {
    const char *wheel, *about;
    double life_h, basic_h, inboard_h, outboard_h;
};

#define AT(member) .at = offsetof(struct wheel_life, member)
static const struct spt_column life_columns[] = {
    {.head = "wheel", .key = "wheel", .kind = SPT_WORDS, .width = 18, AT(wheel)},
    {.head = "life",
     .under = "h",
     .key = "modified_rating_life_h",
     .kind = SPT_HOURS,
     .none = "none",
     .endless = "no limit",
     .width = 10,
     .gap = 1,
     AT(life_h)},
    {.head = "inboard",
     .under = "h",
     .key = "inboard_modified_rating_life_h",
     .kind = SPT_HOURS,
     .none = "none",
     .endless = "no limit",
     .width = 10,
     .gap = 1,
     AT(inboard_h)},
    {.head = "outboard",
     .under = "h",
     .key = "outboard_modified_rating_life_h",
     .kind = SPT_HOURS,
     .none = "none",
     .endless = "no limit",
     .width = 10,
     .gap = 1,
     AT(outboard_h)},
    {.head = "basic",
     .under = "h",
     .key = "basic_rating_life_h",
     .kind = SPT_HOURS,
     .none = "none",
     .endless = "no limit",
     .width = 10,
     .gap = 1,
     AT(basic_h)},
    {.head = "", .kind = SPT_WORDS, .width = 12, .gap = 1, AT(about)},
};
#undef AT

/* What the ground does to a wheel in a phase. */
struct wheel_load {
    const char *phase, *wheel;
    double load_kn, side_kn, rearward_kn, speed_rpm, tip_percent;
    double load_n, side_n, rearward_n;
};

#define AT(member) .at = offsetof(struct wheel_load, member)
static const struct spt_column load_columns[] = {
    {.head = "phase", .key = "phase", .kind = SPT_WORDS, .width = 16, .once = true, AT(phase)},
    {.head = "wheel", .key = "wheel", .kind = SPT_WORDS, .width = 16, .gap = 1, AT(wheel)},
    {.head = "load", .under = "kN", .kind = SPT_NUMBER, .width = 7, .gap = 1, AT(load_kn)},
    {.head = "side", .under = "kN", .kind = SPT_NUMBER, .width = 8, .gap = 1, AT(side_kn)},
    {.head = "drag", .under = "kN", .kind = SPT_NUMBER, .width = 7, .gap = 1, AT(rearward_kn)},
    {.head = "speed", .under = "rpm", .kind = SPT_AMOUNT, .width = 6, .gap = 1, AT(speed_rpm)},
    {.head = "tips",
     .under = "at %",
     .kind = SPT_FIXED,
     .digits = 0,
     .none = "-",
     .width = 5,
     .gap = 1,
     AT(tip_percent)},
    {.key = "wheel_load_n", .kind = SPT_NUMBER, AT(load_n)},
    {.key = "side_force_n", .kind = SPT_NUMBER, AT(side_n)},
    {.key = "rearward_force_n", .kind = SPT_NUMBER, AT(rearward_n)},
    {.key = "speed_rpm", .kind = SPT_NUMBER, AT(speed_rpm)},
};
#undef AT

static const char *name_wheel(struct spt_page *page, const struct spt_vehicle *vehicle, int wheel)
{
    char name[SPT_WHEEL_NAME_LENGTH];
    return spt_page_words(page, "%s", spt_vehicle_wheel_name(vehicle, wheel, name));
}

static void show_lives(struct spt_page *page, const struct spt_assessment *assessment)
{
    const struct spt_vehicle_case *vehicle = assessment->question->vehicle;
    const struct spt_vehicle_answer *answer = assessment->vehicle;
    struct wheel_life *rows = spt_page_allocate(page, (size_t)answer->wheel_count * sizeof *rows);
    for (int i = 0; rows && i < answer->wheel_count; i++) {
        const struct spt_vehicle_life *life = &answer->wheels[i];
        rows[i] = (struct wheel_life){name_wheel(page, &vehicle->vehicle, i),
                                      i == vehicle->wheel ? "this answer" : "",
                                      life->modified_h,
                                      life->basic_h,
                                      life->rows_h[0],
                                      life->rows_h[1]};
    }
    spt_page_table(page, "wheels_lives",
                   &(struct spt_table){SPT_TABLE_OF(life_columns, rows, answer->wheel_count)});
    spt_page_say(page, SPT_BODY, "",
                 "Everything below, and the verdict, is about the hub of %s%s. Mean of all wheels, "
                 "for a fleet (averaged in damage): %s. Until the first of all %d rows fails: %s.",
                 spt_page_name(page, name_wheel(page, &vehicle->vehicle, vehicle->wheel)),
                 vehicle->wheel == answer->worst ? ", the worst wheel" : "",
                 spt_page_life(page, answer->mean_h), 2 * answer->wheel_count,
                 spt_page_life(page, answer->first_h));
}

static struct wheel_load wheel_load(struct spt_page *page, const struct spt_assessment *assessment,
                                    int phase, int wheel)
{
    const struct spt_vehicle_case *vehicle = assessment->question->vehicle;
    const struct spt_vehicle_loads *loads = &vehicle->phases[phase];
    const struct spt_vehicle_wheel *at = &loads->wheels[wheel];
    return (struct wheel_load){
        .phase = assessment->bearings[0].phases[phase].phase->name,
        .wheel = name_wheel(page, &vehicle->vehicle, wheel),
        .load_kn = at->load_n / 1e3,
        .side_kn = at->side_n / 1e3,
        .rearward_kn = at->rearward_n / 1e3,
        .speed_rpm = at->speed_rpm,
        .tip_percent = vehicle->runs[phase].bend == 0 ? (double)NAN
                                                      : 100 * fabs(loads->lateral_g) / loads->tip_g,
        .load_n = at->load_n,
        .side_n = at->side_n,
        .rearward_n = at->rearward_n,
    };
}

static void show_loads(struct spt_page *page, const struct spt_assessment *assessment)
{
    const struct spt_vehicle_case *vehicle = assessment->question->vehicle;
    const int count = vehicle->phase_count * vehicle->wheel_count;
    struct wheel_load *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = wheel_load(page, assessment, i / vehicle->wheel_count, i % vehicle->wheel_count);
    spt_page_table(page, "wheels_loads",
                   &(struct spt_table){SPT_TABLE_OF(load_columns, rows, count), .apart = true});
    spt_page_say(page, SPT_BODY, "",
                 "load: up from the ground. side: of the ground along the axis, above 0 pulls the "
                 "wheel away from the trailer. drag: backwards, of braking and rolling. tips: what "
                 "the bend asks, of what lifts the inner wheels.");
}

void spt_page_vehicle(struct spt_page *page, const struct spt_assessment *assessment)
{
    spt_page_open(page, "Wheels of the trailer");
    if (assessment->vehicle)
        show_lives(page, assessment);
    show_loads(page, assessment);
    spt_page_say(page, SPT_CAUTION, "",
                 "Statics on a plane road: kerbs, potholes, springs (roll adds 5 to 15 %% to the "
                 "outer wheels) and overload are not in it; brakes that drag heat the hub.");
    spt_page_close(page);
}

static void write_phase(struct spt_json *json, const char *name,
                        const struct spt_vehicle_loads *loads)
{
    const struct {
        const char *key;
        double value;
    } members[] = {
        {"lateral_g", loads->lateral_g},   {"tips_at_g", loads->tip_g},
        {"weight_n", loads->weight_n},     {"group_load_n", loads->group_n},
        {"front_load_n", loads->front_n},  {"eye_load_n", loads->eye_n},
        {"eye_side_n", loads->eye_side_n}, {"eye_pull_n", loads->eye_pull_n},
    };
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "phase", name);
    for (size_t i = 0; i < sizeof members / sizeof *members; i++)
        spt_json_number(json, members[i].key, members[i].value);
    spt_json_close(json, '}');
}

void spt_vehicle_json(struct spt_json *json, const struct spt_page *page,
                      const struct spt_assessment *assessment)
{
    const struct spt_vehicle_case *vehicle = assessment->question->vehicle;
    const struct spt_vehicle_answer *answer = assessment->vehicle;
    char name[SPT_WHEEL_NAME_LENGTH];
    if (!answer)
        return;
    spt_json_open(json, "vehicle", '{');
    spt_json_text(json, "wheel", spt_vehicle_wheel_name(&vehicle->vehicle, vehicle->wheel, name));
    spt_json_text(json, "worst_wheel",
                  spt_vehicle_wheel_name(&vehicle->vehicle, answer->worst, name));
    spt_json_number(json, "mean_modified_rating_life_h", answer->mean_h);
    spt_json_number(json, "first_failure_life_h", answer->first_h);
    spt_table_json(spt_page_find(page, "wheels_lives"), "wheels", json);
    spt_table_json(spt_page_find(page, "wheels_loads"), "wheel_loads", json);
    spt_json_open(json, "phases", '[');
    for (int i = 0; i < vehicle->phase_count; i++)
        write_phase(json, assessment->bearings[0].phases[i].phase->name, &vehicle->phases[i]);
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}
