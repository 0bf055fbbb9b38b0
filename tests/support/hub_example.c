/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hub_example.h"

#include <stdlib.h>

#include "spalltime/bearing.h"

static struct spt_hub_row make_row(int rollers, double diameter, double length, double pitch,
                                   double position)
{
    struct spt_hub_row row = {
        .geometry = {.elements = rollers,
                     .rows = 1,
                     .element_diameter_mm = diameter,
                     .element_length_mm = length,
                     .contact_angle_rad = 15 * 3.14159265358979323846 / 180,
                     .pitch_diameter_mm = pitch},
        .position_mm = position,
    };
    struct spt_rating rating;
    if (spt_rating_from_geometry(SPT_TAPERED_ROLLER, &row.geometry, &rating) != SPT_OK)
        abort();
    row.dynamic_load_rating_n = rating.dynamic_load_rating_n;
    row.fatigue_load_limit_n = rating.fatigue_load_limit_n;
    return row;
}

struct spt_hub example_hub(void)
{
    return (struct spt_hub){
        .rows = {make_row(23, 13, 22, 105, -33), make_row(20, 11.5, 18, 80, 62)},
        .row_count = 2,
        .mounting = SPT_HUB_BACK_TO_BACK,
        .turning = SPT_HUB_OUTER_TURNS,
        .laminae = SPT_HUB_LAMINAE,
        .profile_factor = 1,
        .edge_function = true,
    };
}

struct spt_hub_load example_load(double side_share)
{
    struct spt_hub_wheel wheel = {
        .radial_n = 45000, .offset_mm = 0, .side_n = side_share * 45000, .rolling_radius_mm = 500};
    return spt_hub_wheel_load(&wheel);
}

struct spt_hub_model example_model(const struct spt_hub *hub)
{
    static double workspace[EXAMPLE_LENGTH];
    struct spt_hub_model model;
    if (spt_hub_prepare(hub, workspace, EXAMPLE_LENGTH, &model) != SPT_OK)
        abort();
    return model;
}
