/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/inputs.h"

#include <math.h>
#include <stddef.h>

#include "answer/field/history.h"
#include "spalltime/hub.h"
#include "words/words.h"

#define PI 3.14159265358979323846
#define DIGITS 6      /* inputs are shown as they were stated */
#define DUTY_DIGITS 5 /* as many as the line has room for */
#define ROWS_MAX 32

/* One quantity; a number, or words in its place. */
struct quantity_row {
    const char *name;
    double value;
    const char *words;
    const char *unit;
    const char *from; /* where it comes from, unless it was stated */
};

/* The rows of a table as they are gathered. */
struct quantities {
    struct spt_page *page;
    struct quantity_row *rows; /* NULL: memory is out */
    int count;
};

static struct quantities begin(struct spt_page *page)
{
    struct quantity_row *rows = spt_page_allocate(page, ROWS_MAX * sizeof *rows);
    return (struct quantities){page, rows, 0};
}

/* A number that is not known has no row. */
static void add(struct quantities *list, const char *name, double value, const char *unit,
                const char *from)
{
    if (list->rows && list->count < ROWS_MAX && !isnan(value))
        list->rows[list->count++] = (struct quantity_row){name, value, NULL, unit, from};
}

static void add_words(struct quantities *list, const char *name, const char *words,
                      const char *from)
{
    if (list->rows && list->count < ROWS_MAX)
        list->rows[list->count++] = (struct quantity_row){name, (double)NAN, words, "", from};
}

#define AT(member) .at = offsetof(struct quantity_row, member)
static void show(const struct quantities *list, const char *id)
{
    static const struct spt_column columns[] = {
        {.head = "quantity", .kind = SPT_WORDS, .width = 30, AT(name)},
        {.head = "value",
         .kind = SPT_GENERAL,
         .digits = DIGITS,
         .width = 16,
         .gap = 1,
         .instead = offsetof(struct quantity_row, words),
         AT(value)},
        {.head = "unit", .kind = SPT_WORDS, .width = 6, .gap = 1, AT(unit)},
        {.head = "remark", .kind = SPT_WORDS, .width = 0, .gap = 1, AT(from)},
    };
    spt_page_table(list->page, id,
                   &(struct spt_table){SPT_TABLE_OF(columns, list->rows, list->count)});
}
#undef AT

/* A member of which not above 0 means not given. */
static void add_given(struct quantities *list, const char *name, double value, const char *unit)
{
    if (value > 0)
        add(list, name, value, unit, "");
}

static void add_factors(struct quantities *list, const struct spt_bearing *bearing)
{
    add(list, "limit ratio e", bearing->limit_ratio, "", "");
    add(list, "radial factor X", bearing->radial_factor, "", "");
    add_given(list, "axial factor Y1 up to e", bearing->low_axial_factor, "");
    add(list, "axial factor Y", bearing->axial_factor, "", "");
    add(list, "static axial factor Y0", bearing->static_axial_factor, "", "");
    add(list, "factor f0", bearing->f0, "", "");
    add_given(list, "load centre a, from outer back face", bearing->load_centre_mm, "mm");
    add_given(list, "speed limit", bearing->speed_limit_rpm, "rpm");
}

static void add_inside(struct quantities *list, const struct spt_bearing *bearing)
{
    const struct spt_geometry *inside = &bearing->geometry;
    const bool balls = spt_bearing_is_ball(bearing->type);
    if (!bearing->has_geometry) {
        add(list, "contact angle", bearing->contact_angle_rad * 180 / PI, "deg", "");
        return;
    }
    add(list, balls ? "balls" : "rollers", inside->elements, "", "");
    add(list, "diameter of each", inside->element_diameter_mm, "mm", "");
    if (!balls)
        add(list, "length of each", inside->element_length_mm, "mm", "");
    add(list, "contact angle", inside->contact_angle_rad * 180 / PI, "deg", "");
}

/* How it is seated, as far as that is stated. */
static void add_seat(struct quantities *list, const struct spt_bearing *bearing)
{
    const struct spt_seat *seat = &bearing->seat;
    if (!bearing->has_seat)
        return;
    add_words(list, "clearance class", spt_word(&spt_clearance_words, seat->clearance), "");
    if (seat->shaft_fit >= 0)
        add_words(list, "fit on the shaft", spt_word(&spt_shaft_fit_words, seat->shaft_fit), "");
    if (seat->housing_fit >= 0)
        add_words(list, "fit in the housing", spt_word(&spt_housing_fit_words, seat->housing_fit),
                  "");
    add(list, "inner ring warmer by", seat->inner_warmer_k, "K", "");
    add_given(list, "bore of the hollow shaft", seat->shaft_bore_mm, "mm");
    add_given(list, "housing, outside diameter", seat->housing_outside_mm, "mm");
}

static void show_bearing(struct spt_page *page, const struct spt_bearing *bearing, int index)
{
    const char *inside = bearing->ratings_from_geometry ? "from the geometry inside" : "";
    struct quantities list = begin(page);
    add_words(&list, "type", spt_bearing_type_name(bearing->type), "");
    add(&list, "rows", bearing->rows ? bearing->rows : (double)NAN, "", "");
    add(&list, "bore", bearing->bore_mm, "mm", "");
    add(&list, "outside diameter", bearing->outside_diameter_mm, "mm", "");
    add(&list, "width", bearing->width_mm, "mm", "");
    add(&list, "pitch diameter D_pw", bearing->pitch_diameter_mm, "mm",
        bearing->pitch_assumed ? "mean of bore and outside diameter" : "");
    add(&list, "dynamic load rating C", bearing->dynamic_load_rating_n / 1e3, "kN", inside);
    add(&list, "static load rating C0", bearing->static_load_rating_n / 1e3, "kN", inside);
    add(&list, "fatigue load limit C_u", bearing->fatigue_load_limit_n / 1e3, "kN",
        bearing->fatigue_limit_assumed ? "simplified rule from C0" : inside);
    add_factors(&list, bearing);
    add_inside(&list, bearing);
    add_seat(&list, bearing);
    spt_page_open(page, "Bearing: %s", spt_page_name(page, bearing->name));
    show(&list, spt_page_words(page, "bearing %d", index));
    spt_page_close(page);
}

static void show_lubricant(struct spt_page *page, const struct spt_lubricant *oil)
{
    const char *base = oil->kind == SPT_LUBRICATION_GREASE ? "base oil" : "";
    struct quantities list = begin(page);
    add_words(&list, "way of lubricating", spt_word(&spt_lubrication_words, (int)oil->kind), "");
    add(&list, "viscosity at 40 degC", oil->viscosity_40_mm2_s, "mm2/s", base);
    add(&list, "viscosity at 100 degC", oil->viscosity_100_mm2_s, "mm2/s", base);
    add(&list, "viscosity index", round(oil->viscosity_index), "",
        oil->index_assumed ? "assumed" : "");
    add_words(&list, "EP additive", oil->ep_additive ? "proven effective" : "no", "");
    add(&list, "density", oil->density_g_cm3, "g/cm3", "");
    spt_page_open(page, "Lubricant: %s", spt_page_name(page, oil->name));
    show(&list, "lubricant");
    spt_page_close(page);
}

struct wheel_row {
    const char *phase;
    double radial_kn, offset_mm, side_kn, radius_mm;
};

#define AT(member) .at = offsetof(struct wheel_row, member)
static void show_wheels(struct spt_page *page, const struct spt_hub_case *hub,
                        const struct spt_bearing_result *bearing)
{
    static const struct spt_column columns[] = {
        {.head = "phase", .kind = SPT_WORDS, .width = 22, AT(phase)},
        {.head = "wheel load kN",
         .kind = SPT_GENERAL,
         .digits = DIGITS,
         .width = 14,
         AT(radial_kn)},
        {.head = "offset mm", .kind = SPT_GENERAL, .digits = DIGITS, .width = 11, AT(offset_mm)},
        {.head = "side force kN", .kind = SPT_GENERAL, .digits = DIGITS, .width = 15, AT(side_kn)},
        {.head = "at radius mm", .kind = SPT_GENERAL, .digits = DIGITS, .width = 14, AT(radius_mm)},
    };
    const int count = bearing->phase_count;
    struct wheel_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++) {
        const struct spt_hub_wheel *wheel = &hub->wheels[i];
        rows[i] =
            (struct wheel_row){bearing->phases[i].phase->name, wheel->radial_n / 1e3,
                               wheel->offset_mm, wheel->side_n / 1e3, wheel->rolling_radius_mm};
    }
    spt_page_table(page, "wheels",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count), .apart = true});
}
#undef AT

static void show_hub(struct spt_page *page, const struct spt_assessment *assessment)
{
    static const char *const settings[] = {[SPT_HUB_SET_END_PLAY] = "end play as set",
                                           [SPT_HUB_SET_PRELOAD] = "preload as set",
                                           [SPT_HUB_SET_PRELOAD_FORCE] = "preload force as set"};
    const struct spt_hub_case *hub =
        assessment->question->hub ? assessment->question->hub : assessment->question->sheet_hub;
    struct quantities list = begin(page);
    const bool force = hub->setting_kind == SPT_HUB_SET_PRELOAD_FORCE;
    add(&list, settings[hub->setting_kind], hub->setting_value, force ? "N" : "mm", "");
    add(&list, "inner body warmer by", hub->temperature_difference_k, "K", "");
    if (hub->scatter_mm > 0)
        add(&list, "scatter of the setting", hub->scatter_mm, "mm", "");
    add_words(&list, "preload allowed", hub->preload_allowed ? "yes" : "no", "");
    spt_page_open(page, "Hub");
    show(&list, "hub");
    show_wheels(page, hub, &assessment->bearings[0]);
    spt_page_close(page);
}

static void show_question(struct spt_page *page, const struct spt_case *question)
{
    struct quantities list = begin(page);
    add(&list, "reliability", question->reliability_percent, "%", "");
    if (question->past.hours_run > 0)
        add(&list, "hours run so far", question->past.hours_run, "h",
            question->past.as_run ? "in the condition of `past`" : "");
    if (question->past.dents.of_class)
        add_words(&list, "dirtiest class so far",
                  spt_cleanliness_name(question->past.dents.cleanliness), "");
    add(&list, "life to reach", question->target_life_h, "h", "");
    add_words(&list, "running", spt_running_name(question->running),
              question->running_stated ? "" : "assumed");
    add(&list, "reference load", question->reference_load_n / 1e3, "kN", "");
    add(&list, "running in a year", question->yearly_use_h, "h", "");
    if (question->grease_risk_limit > 0)
        add(&list, "grease may fail in a year", 100 * question->grease_risk_limit, "%", "");
    add(&list, "age limit", question->age_limit_h / (24 * SPT_DAYS_PER_YEAR), "years", "");
    if (question->season.months > 0)
        add(&list,
            spt_page_words(page, "season from %s on",
                           spt_word(&spt_month_words, question->season.month)),
            question->season.months, "months", "");
    if (question->fleet > 0)
        add(&list, "machines", question->fleet, "", "");
    if (question->units > 0)
        add(&list, "units in a machine", question->units, "", "");
    if (question->road_speed_km_h > 0)
        add(&list, "distance in a running hour", question->road_speed_km_h, "km", "");
    spt_page_open(page, "What is asked");
    show(&list, "question");
    spt_page_close(page);
}

struct duty_row {
    const char *phase, *given, *none; /* words in place of the two loads, or NULL */
    double share, speed_rpm, radial_kn, axial_kn, temperature_c;
    const char *estimated;
    const char *dirt;
    const char *dirt_inferred;
    double water_ppm;
    const char *water_assumed;
    double age_h;
    const char *age_assumed;
};

/* The class of cleanliness, or the e_C that was stated. */
static const char *tell_dirt(struct spt_page *page, const struct spt_condition *state)
{
    if (spt_condition_is_unknown(state))
        return "not known";
    if (isnan(state->contamination_factor))
        return spt_page_words(page, "%s%s", spt_cleanliness_name(state->cleanliness),
                              state->code_rounded ? "+" : "");
    return spt_page_words(page, "e_C %.4g", state->contamination_factor);
}

static struct duty_row duty_row(struct spt_page *page, const struct spt_phase_result *result,
                                bool grease)
{
    const struct spt_phase *phase = result->phase;
    const struct spt_condition *state = &phase->condition;
    const bool given = !isnan(phase->equivalent_load_n);
    return (struct duty_row){
        .phase = phase->name,
        .given = given ? spt_page_words(page, "P %.5g", phase->equivalent_load_n / 1e3) : NULL,
        .none = given ? "-" : NULL,
        .share = phase->time_share,
        .speed_rpm = phase->speed_rpm,
        .radial_kn = phase->radial_load_n / 1e3,
        .axial_kn = phase->axial_load_n / 1e3,
        .temperature_c = isnan(phase->temperature_c) ? round(10 * result->temperature_c) / 10
                                                     : phase->temperature_c,
        .estimated = isnan(phase->temperature_c) ? "*" : "",
        .dirt = tell_dirt(page, state),
        .dirt_inferred = state->class_source != SPT_CLASS_STATED ? "*" : "",
        .water_ppm = state->water_ppm,
        .water_assumed = state->water_assumed ? "*" : "",
        .age_h = grease ? state->grease_age_h : (double)NAN,
        .age_assumed = grease && state->age_assumed ? "*" : "",
    };
}

#define AT(member) .at = offsetof(struct duty_row, member)
#define INSTEAD(member) .instead = offsetof(struct duty_row, member)
static const struct spt_column duty_columns[] = {
    {.head = "phase", .kind = SPT_WORDS, .width = 14, AT(phase)},
    {.head = "time", .under = "%", .kind = SPT_PERCENT, .digits = 2, .width = 7, AT(share)},
    {.head = "speed",
     .under = "rpm",
     .kind = SPT_GENERAL,
     .digits = DUTY_DIGITS,
     .width = 6,
     .gap = 1,
     AT(speed_rpm)},
    {.head = "Fr",
     .under = "kN",
     .kind = SPT_GENERAL,
     .digits = DUTY_DIGITS,
     .width = 7,
     .gap = 1,
     INSTEAD(given),
     AT(radial_kn)},
    {.head = "Fa",
     .under = "kN",
     .kind = SPT_GENERAL,
     .digits = DUTY_DIGITS,
     .width = 7,
     .gap = 1,
     INSTEAD(none),
     AT(axial_kn)},
    {.head = "temp",
     .under = "degC",
     .kind = SPT_GENERAL,
     .digits = DUTY_DIGITS,
     .width = 6,
     .gap = 1,
     AT(temperature_c)},
    {.head = "", .kind = SPT_MARK, .width = 1, AT(estimated)},
    {.head = "dirt", .kind = SPT_WORDS, .width = 11, .gap = 1, AT(dirt)},
    {.head = "", .kind = SPT_MARK, .width = 1, AT(dirt_inferred)},
    {.head = "water",
     .under = "ppm",
     .kind = SPT_GENERAL,
     .digits = DUTY_DIGITS,
     .width = 6,
     .gap = 0,
     AT(water_ppm)},
    {.head = "", .kind = SPT_MARK, .width = 1, AT(water_assumed)},
    {.head = "grease",
     .under = "age h",
     .kind = SPT_GENERAL,
     .digits = DUTY_DIGITS,
     .width = 7,
     AT(age_h)},
    {.head = "", .kind = SPT_MARK, .width = 1, AT(age_assumed)},
};
#undef AT
#undef INSTEAD

static bool any_marked(const struct duty_row *rows, int count)
{
    for (int i = 0; rows && i < count; i++)
        if (*rows[i].estimated || *rows[i].water_assumed || *rows[i].age_assumed ||
            *rows[i].dirt_inferred)
            return true;
    return false;
}

static bool any_rounded(const struct spt_bearing_result *bearing)
{
    for (int i = 0; i < bearing->phase_count; i++)
        if (bearing->phases[i].phase->condition.code_rounded)
            return true;
    return false;
}

static void show_duty(struct spt_page *page, const struct spt_assessment *assessment, int index)
{
    const struct spt_bearing_result *bearing = &assessment->bearings[index];
    const bool grease = assessment->question->lubricant.kind == SPT_LUBRICATION_GREASE;
    const int count = bearing->phase_count;
    struct duty_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = duty_row(page, &bearing->phases[i], grease);
    if (assessment->bearing_count > 1)
        spt_page_open(page, "Duty and condition of %s",
                      spt_page_name(page, bearing->bearing_case->bearing.name));
    else
        spt_page_open(page, "Duty and condition");
    spt_page_table(page, spt_page_words(page, "duty %d", index),
                   &(struct spt_table){SPT_TABLE_OF(duty_columns, rows, count)});
    if (any_marked(rows, count))
        spt_page_say(page, SPT_BODY, "", "*: not stated, but assumed or estimated.");
    if (any_rounded(bearing))
        spt_page_say(page, SPT_BODY, "",
                     "+: the standard does not list this code; it is the next dirtier class.");
    spt_page_close(page);
}

struct heat_row {
    const char *phase;
    double ambient_c;
    const char *assumed;
    double extra_w, conductance_w_k;
};

/* What a temperature is estimated from. */
#define AT(member) .at = offsetof(struct heat_row, member)
static void show_heat(struct spt_page *page, const struct spt_bearing_result *bearing)
{
    static const struct spt_column columns[] = {
        {.head = "phase", .kind = SPT_WORDS, .width = 22, AT(phase)},
        {.head = "ambient degC", .kind = SPT_GENERAL, .digits = DIGITS, .width = 13, AT(ambient_c)},
        {.head = "", .kind = SPT_MARK, .width = 1, AT(assumed)},
        {.head = "heat from outside W",
         .kind = SPT_GENERAL,
         .digits = DIGITS,
         .width = 20,
         AT(extra_w)},
        {.head = "carried off W/K", .kind = SPT_NUMBER, .width = 17, AT(conductance_w_k)},
    };
    struct heat_row *rows = spt_page_allocate(page, (size_t)bearing->phase_count * sizeof *rows);
    int count = 0;
    bool assumed = false;
    for (int i = 0; rows && i < bearing->phase_count; i++) {
        const struct spt_phase_result *result = &bearing->phases[i];
        if (!isnan(result->phase->temperature_c))
            continue;
        assumed = assumed || result->phase->ambient_assumed;
        rows[count++] =
            (struct heat_row){result->phase->name, result->phase->ambient_c,
                              result->phase->ambient_assumed ? "*" : "",
                              result->phase->extra_heat_w, result->heat.conductance_w_k};
    }
    spt_page_open(page, "Estimate of the temperature of %s",
                  spt_page_name(page, bearing->bearing_case->bearing.name));
    spt_page_table(page, "heat", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    if (assumed)
        spt_page_say(page, SPT_BODY, "", "*: not stated, but assumed.");
    spt_page_close(page);
}
#undef AT

struct around_row {
    const char *phase, *dust, *moisture, *vibration, *shaft, *assumed;
};

/* Surroundings affect the relubrication interval alone. */
#define AT(member) .at = offsetof(struct around_row, member)
static void show_surroundings(struct spt_page *page, const struct spt_bearing_result *bearing)
{
    static const struct spt_column columns[] = {
        {.head = "phase", .kind = SPT_WORDS, .width = 22, AT(phase)},
        {.head = "dust", .kind = SPT_WORDS, .width = 14, .gap = 1, AT(dust)},
        {.head = "moisture", .kind = SPT_WORDS, .width = 12, .gap = 1, AT(moisture)},
        {.head = "vibration", .kind = SPT_WORDS, .width = 9, .gap = 1, AT(vibration)},
        {.head = "shaft", .kind = SPT_WORDS, .width = 10, .gap = 1, AT(shaft)},
        {.head = "", .kind = SPT_MARK, .width = 1, AT(assumed)},
    };
    struct around_row *rows = spt_page_allocate(page, (size_t)bearing->phase_count * sizeof *rows);
    unsigned assumed = 0;
    for (int i = 0; rows && i < bearing->phase_count; i++) {
        const struct spt_phase *phase = bearing->phases[i].phase;
        const struct spt_surroundings *around = &bearing->phases[i].surroundings;
        assumed |= phase->condition.surroundings_assumed;
        rows[i] = (struct around_row){
            phase->name,
            spt_word(&spt_dust_words, (int)around->dust),
            spt_word(&spt_moisture_words, (int)around->moisture),
            spt_word(&spt_vibration_words, (int)around->vibration),
            spt_word(&spt_shaft_words, (int)around->shaft),
            phase->condition.surroundings_assumed ? "*" : "",
        };
    }
    spt_page_open(page, "Surroundings of the grease");
    spt_page_table(page, "surroundings",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, bearing->phase_count)});
    if (assumed)
        spt_page_say(page, SPT_BODY, "",
                     "*: what was not stated is inferred from the dirt, the water, seal and "
                     "surroundings, and the machine (rules of this tool).");
    spt_page_close(page);
}
#undef AT

struct seal_row {
    const char *phase, *seal, *place, *wet, *wet_assumed, *class, *moisture;
    double water_ppm;
};

static struct seal_row seal_row(struct spt_page *page, const struct spt_phase *phase)
{
    const struct spt_sealing *sealing = &phase->condition.sealing;
    const struct spt_inflow inflow = spt_seal_inflow(sealing);
    const int first =
        (int)spt_cleanliness_first(spt_cleanliness_kind(phase->condition.cleanliness));
    return (struct seal_row){
        .phase = phase->name,
        .seal = spt_page_words(page, "%s%s",
                               sealing->seal < 0 ? "-" : spt_word(&spt_seal_words, sealing->seal),
                               inflow.worn ? ", worn" : ""),
        .place = sealing->place < 0 ? "-" : spt_word(&spt_place_words, sealing->place),
        .wet = inflow.wet < 0 ? "-" : spt_word(&spt_wet_words, inflow.wet),
        .wet_assumed = sealing->wet < 0 && inflow.wet >= 0 ? "*" : "",
        .class = inflow.class_index < 0
                     ? "-"
                     : spt_cleanliness_name((enum spt_cleanliness)(first + inflow.class_index)),
        .moisture = inflow.moisture < 0 ? "-" : spt_word(&spt_moisture_words, inflow.moisture),
        .water_ppm = inflow.water_ppm,
    };
}

/* What seal and surroundings speak for, whether it counts or something is stated. */
#define AT(member) .at = offsetof(struct seal_row, member)
static void show_sealing(struct spt_page *page, const struct spt_bearing_result *bearing)
{
    static const struct spt_column columns[] = {
        {.head = "phase", .kind = SPT_WORDS, .width = 16, AT(phase)},
        {.head = "seal", .kind = SPT_WORDS, .width = 14, .gap = 1, AT(seal)},
        {.head = "surroundings", .kind = SPT_WORDS, .width = 12, .gap = 1, AT(place)},
        {.head = "wet", .kind = SPT_WORDS, .width = 9, .gap = 1, AT(wet)},
        {.head = "", .kind = SPT_MARK, .width = 1, AT(wet_assumed)},
        {.head = "class", .kind = SPT_WORDS, .width = 11, .gap = 1, AT(class)},
        {.head = "moisture", .kind = SPT_WORDS, .width = 12, .gap = 1, AT(moisture)},
        {.head = "ppm",
         .kind = SPT_GENERAL,
         .digits = DIGITS,
         .width = 5,
         .none = "-",
         AT(water_ppm)},
    };
    struct seal_row *rows = spt_page_allocate(page, (size_t)bearing->phase_count * sizeof *rows);
    int count = 0;
    for (int i = 0; rows && i < bearing->phase_count; i++)
        if (bearing->phases[i].phase->condition.sealing.stated)
            rows[count++] = seal_row(page, bearing->phases[i].phase);
    if (!count)
        return;
    spt_page_open(page, "What seal and surroundings speak for");
    spt_page_table(page, "sealing", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_say(page, SPT_BODY, "",
                 "Rules of this tool. A class, a moisture or a water content that is stated counts "
                 "in their place; of the water the life counts 100 ppm where none is stated.");
    spt_page_close(page);
}
#undef AT

void spt_page_inputs(struct spt_page *page, const struct spt_assessment *assessment)
{
    const struct spt_case *question = assessment->question;
    spt_page_open(page, "Inputs");
    spt_history_page(page, question);
    for (int i = 0; i < assessment->bearing_count; i++)
        show_bearing(page, &assessment->bearings[i].bearing_case->bearing, i);
    show_lubricant(page, &question->lubricant);
    if (question->hub || question->sheet_hub)
        show_hub(page, assessment);
    show_question(page, question);
    for (int i = 0; i < assessment->bearing_count; i++)
        show_duty(page, assessment, i);
    for (int i = 0; i < assessment->bearing_count; i++)
        show_heat(page, &assessment->bearings[i]);
    if (question->lubricant.kind == SPT_LUBRICATION_GREASE)
        show_surroundings(page, &assessment->bearings[0]);
    show_sealing(page, &assessment->bearings[0]);
    spt_page_close(page);
}
