/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/compare/compare_parts.h"
#include "spalltime/vehicle.h"

/* What limits a case. */
struct limit_row {
    const char *name, *bearing;
    double share;
};

static const struct spt_column columns[] = {
    {.head = "limited in",
     .kind = SPT_WORDS,
     .width = SPT_COMPARE_NAME_WIDTH,
     .at = offsetof(struct limit_row, name)},
    {.head = "by",
     .key = "limiting",
     .kind = SPT_WORDS,
     .width = 36,
     .gap = 1,
     .at = offsetof(struct limit_row, bearing)},
    {.head = "risk %",
     .kind = SPT_PERCENT,
     .digits = 1,
     .none = "-",
     .width = 6,
     .gap = 1,
     .at = offsetof(struct limit_row, share)},
    {.key = "risk_share", .kind = SPT_NUMBER, .at = offsetof(struct limit_row, share)},
};

/* The bearing, with its wheel where it is one of a vehicle. */
static const char *name_limiting(struct spt_page *page, const struct spt_assessment *assessment)
{
    const struct spt_vehicle_case *vehicle = assessment->question->vehicle;
    const char *bearing =
        assessment->limiting < 0
            ? "none"
            : assessment->bearings[assessment->limiting].bearing_case->bearing.name;
    char wheel[SPT_WHEEL_NAME_LENGTH];
    return vehicle
               ? spt_page_words(page, "%s, %s",
                                spt_vehicle_wheel_name(&vehicle->vehicle, vehicle->wheel, wheel),
                                bearing)
               : bearing;
}

static bool is_machine(const struct spt_compared *compared)
{
    return compared->assessment.question->machine || compared->assessment.question->vehicle;
}

void spt_compare_limits(struct spt_page *page, const struct spt_compared *cases, int count)
{
    struct limit_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    bool any = false, wheels = false;
    for (int i = 0; rows && i < count; i++) {
        const struct spt_assessment *assessment = &cases[i].assessment;
        rows[i] = (struct limit_row){
            cases[i].name, name_limiting(page, assessment),
            assessment->limiting < 0 ? (double)NAN : assessment->risk_shares[assessment->limiting]};
        any = any || is_machine(&cases[i]);
        wheels = wheels || assessment->question->vehicle;
    }
    if (!any)
        return;
    spt_page_open(page, "What limits each case");
    spt_page_table(page, "limits", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_say(page, SPT_BODY, "",
                 "risk: its share in the chance that the first %s fails before the life of all.",
                 wheels ? "row of this wheel" : "bearing");
    spt_page_close(page);
}
