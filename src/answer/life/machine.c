/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/machine.h"

#include <math.h>
#include <stddef.h>

#define PI 3.14159265358979323846

double spt_machine_clock_deg(double phi_rad)
{
    double deg = fmod(phi_rad * 180 / PI - 90, 360);
    return deg < 0 ? deg + 360 : deg;
}

/* One bearing of the machine. */
struct share_row {
    const char *bearing, *limits;
    double life_h, risk_share;
};

#define AT(member) .at = offsetof(struct share_row, member)
static const struct spt_column share_columns[] = {
    {.head = "bearing", .key = "bearing", .kind = SPT_WORDS, .width = 36, AT(bearing)},
    {.head = "life",
     .under = "h",
     .key = "modified_rating_life_h",
     .kind = SPT_HOURS,
     .none = "none",
     .endless = "no limit",
     .width = 11,
     .gap = 1,
     AT(life_h)},
    {.head = "risk",
     .under = "%",
     .kind = SPT_PERCENT,
     .digits = 1,
     .none = "-",
     .width = 6,
     .gap = 1,
     AT(risk_share)},
    {.key = "risk_share", .kind = SPT_NUMBER, AT(risk_share)},
    {.head = "", .kind = SPT_WORDS, .width = 8, .gap = 1, AT(limits)},
};
#undef AT

/* What a support carries in a phase. */
struct support_row {
    const char *phase, *bearing;
    double speed_rpm, x_n, y_n, turning_n, radial_kn, axial_kn, direction_deg, slope_rad;
    double slope_mrad;
};

#define AT(member) .at = offsetof(struct support_row, member)
static const struct spt_column support_columns[] = {
    {.head = "phase", .kind = SPT_WORDS, .width = 16, .once = true, AT(phase)},
    {.head = "bearing", .kind = SPT_WORDS, .width = 18, .gap = 1, AT(bearing)},
    {.head = "speed", .under = "rpm", .kind = SPT_AMOUNT, .width = 7, .gap = 1, AT(speed_rpm)},
    {.head = "Fr", .under = "kN", .kind = SPT_NUMBER, .width = 8, .gap = 1, AT(radial_kn)},
    {.head = "Fa", .under = "kN", .kind = SPT_NUMBER, .width = 8, .gap = 1, AT(axial_kn)},
    {.head = "towards",
     .under = "deg",
     .kind = SPT_FIXED,
     .digits = 0,
     .none = "-",
     .width = 7,
     .gap = 1,
     AT(direction_deg)},
    {.head = "slope",
     .under = "mrad",
     .kind = SPT_NUMBER,
     .none = "-",
     .width = 6,
     .gap = 1,
     AT(slope_mrad)},
    {.key = "radial_x_n", .kind = SPT_NUMBER, AT(x_n)},
    {.key = "radial_y_n", .kind = SPT_NUMBER, AT(y_n)},
    {.key = "turning_load_n", .kind = SPT_NUMBER, AT(turning_n)},
    {.key = "load_direction_deg", .kind = SPT_NUMBER, AT(direction_deg)},
    {.key = "slope_rad", .kind = SPT_NUMBER, AT(slope_rad)},
};
#undef AT

/* The names of the supports, one shaft after the other. */
static const struct spt_support *find_support(const struct spt_machine_case *machine, int bearing)
{
    int s = 0;
    while (bearing >= machine->machine.shafts[s].support_count)
        bearing -= machine->machine.shafts[s++].support_count;
    return &machine->machine.shafts[s].supports[bearing];
}

static struct support_row support_row(const struct spt_assessment *assessment, int phase,
                                      int bearing)
{
    const struct spt_machine_case *machine = assessment->question->machine;
    const struct spt_bearing_result *result = &assessment->bearings[bearing];
    const struct spt_support_load *load = &machine->phases[phase].supports[bearing];
    const struct spt_phase *stated = result->phases[phase].phase;
    bool steady = hypot(load->x_n, load->y_n) > 0;
    return (struct support_row){
        .phase = stated->name,
        .bearing = find_support(machine, bearing)->name,
        .speed_rpm = stated->speed_rpm,
        .x_n = load->x_n,
        .y_n = load->y_n,
        .turning_n = load->turning_n,
        .radial_kn = stated->radial_load_n / 1e3,
        .axial_kn = stated->axial_load_n / 1e3,
        .direction_deg = steady ? spt_machine_clock_deg(load->direction_rad) : (double)NAN,
        .slope_rad = load->slope_rad,
        .slope_mrad = load->slope_rad * 1e3,
    };
}

static void show_shares(struct spt_page *page, const struct spt_assessment *assessment)
{
    const int count = assessment->bearing_count;
    struct share_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = (struct share_row){assessment->bearings[i].bearing_case->bearing.name,
                                     i == assessment->limiting ? "limits" : "",
                                     assessment->bearings[i].modified_rating_life_h,
                                     assessment->risk_shares[i]};
    spt_page_table(page, "machine", &(struct spt_table){SPT_TABLE_OF(share_columns, rows, count)});
    if (assessment->limiting >= 0)
        spt_page_say(page, SPT_BODY, "",
                     "risk: share in the chance that the first of them fails before the life of "
                     "all.");
}

static void show_supports(struct spt_page *page, const struct spt_assessment *assessment)
{
    const struct spt_machine_case *machine = assessment->question->machine;
    const int count = machine->phase_count * assessment->bearing_count;
    struct support_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    int row = 0;
    bool turning = false;
    for (int i = 0; rows && i < machine->phase_count; i++)
        for (int b = 0; b < assessment->bearing_count; b++) {
            rows[row] = support_row(assessment, i, b);
            turning |= rows[row++].turning_n > 0;
        }
    spt_page_table(page, "supports",
                   &(struct spt_table){SPT_TABLE_OF(support_columns, rows, count), .apart = true});
    spt_page_say(page, SPT_BODY, "",
                 "towards: direction of the load on the bearing, clockwise from straight up, seen "
                 "from the left end.%s",
                 turning ? " Fr: mean of the load that stands still and the one that turns with "
                           "the shaft."
                         : "");
}

void spt_page_machine(struct spt_page *page, const struct spt_assessment *assessment)
{
    spt_page_open(page, "Bearings of the machine");
    show_shares(page, assessment);
    show_supports(page, assessment);
    spt_page_say(page, SPT_CAUTION, "",
                 "Straight, rigid housing, aligned seats and nominal loads: starting, jamming and "
                 "shocks are only what the factors say. Arms of drives, gear separation and "
                 "over-tight belts are the usual reasons why a measured load differs.");
    spt_page_close(page);
}

void spt_machine_bearing_json(struct spt_json *json, const struct spt_machine_case *machine,
                              int bearing)
{
    const char *shaft = machine->machine.shafts[machine->support_shaft[bearing]].name;
    spt_json_text(json, "support", find_support(machine, bearing)->name);
    if (shaft)
        spt_json_text(json, "shaft", shaft);
}

void spt_machine_phase_json(struct spt_json *json, const struct spt_page *page,
                            const struct spt_assessment *assessment, int bearing, int phase)
{
    spt_table_json_row(spt_page_find(page, "supports"), phase * assessment->bearing_count + bearing,
                       json);
}

void spt_machine_system_json(struct spt_json *json, const struct spt_page *page,
                             const struct spt_assessment *assessment)
{
    int limiting = assessment->limiting;
    spt_json_text(json, "limiting",
                  limiting < 0 ? NULL
                               : find_support(assessment->question->machine, limiting)->name);
    spt_table_json(spt_page_find(page, "machine"), "risk_shares", json);
}
