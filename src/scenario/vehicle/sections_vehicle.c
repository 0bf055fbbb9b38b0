/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>

#include "scenario/build/section_fields.h"
#include "scenario/build/sections.h"
#include "words/words.h"

#define PLACE_MAX_MM 1e5
#define TRAILER_MASS_MAX_KG 1e6
#define TURN (2 * M_PI)

#define S struct raw_trailer_mass
static const struct spt_field mass_fields[] = {
    NEEDED_TEXT("name", name, "load", "name of the mass; the last one is the payload"),
    NEEDED_SPAN("mass", mass_kg, SPT_MASS, 0, TRAILER_MASS_MAX_KG, "8000 kg", "its mass"),
    NEEDED_SPAN("behind_eye", behind_mm, SPT_LENGTH, -PLACE_MAX_MM, PLACE_MAX_MM, "4.0 m",
                "its centre, rearwards from the eye"),
    NEEDED_SPAN("height", height_mm, SPT_LENGTH, 0, PLACE_MAX_MM, "1.5 m",
                "its centre above the ground"),
    QUANTITY("left_of_middle", left_mm, SPT_LENGTH, -PLACE_MAX_MM, PLACE_MAX_MM, "0.1 m",
             "its centre to the left of the middle; 0 m where absent"),
};
const struct spt_section spt_section_trailer_mass = {
    "the mass", "a mass of a trailer and its place", mass_fields, COUNT(mass_fields), sizeof(S)};
#undef S

#define S struct raw_axle
static const struct spt_field axle_fields[] = {
    TEXT("axle", axle, "rear", "name of the axle; its number where absent"),
    NEEDED_SPAN("behind_eye", behind_mm, SPT_LENGTH, -PLACE_MAX_MM, PLACE_MAX_MM, "3.62 m",
                "rearwards from the eye"),
};
const struct spt_section spt_section_axle = {"the axle", "an axle of a trailer", axle_fields,
                                             COUNT(axle_fields), sizeof(S)};
#undef S

#define S struct raw_tyre
static const struct spt_field tyre_fields[] = {
    NEEDED("rolling_radius", rolling_radius_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "520 mm",
           "distance covered in a turn over 2 pi, for the speed: about 97 % of the free radius "
           "(from memory)"),
    ABOVE("loaded_radius", loaded_radius_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "505 mm",
          "height of the axis above the road, the lever of the side force: about 94 % of the free "
          "radius (from memory); the rolling radius where absent"),
    QUANTITY("scrub_stiffness", scrub_stiffness, SPT_NO_DIMENSION, 0, 20, "6",
             "side force over load for a slip of 1 rad, 5 to 8 (from memory): axles in a row drag "
             "sideways in a tight bend; not counted where absent, and said so"),
    QUANTITY("grip", grip, SPT_NO_DIMENSION, 0, 1.5, "0.7",
             "with it: side force over load at which the tyre slides; 0.7 where absent"),
    QUANTITY("camber", camber_rad, SPT_ANGLE, -0.2, 0.2, "1 deg",
             "top of the wheel leans outwards above 0; 0 deg where absent"),
    QUANTITY("offset", offset_mm, SPT_LENGTH, -1000, 1000, "20 mm",
             "of the plane of the tyre (twins: middle of the pair) from the zero of the hub, "
             "outwards above 0; 0 mm where absent"),
};
static const struct spt_section section_tyre = {"`tyre`", "the tyres of a trailer", tyre_fields,
                                                COUNT(tyre_fields), sizeof(S)};
#undef S

#define S struct raw_brake
static const struct spt_field brake_fields[] = {
    NEEDED("disc_radius", disc_radius_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "190 mm",
           "middle of the pads of a disc brake, whose caliper pushes the hub"),
    NEEDED_SPAN("caliper_towards", caliper_rad, SPT_ANGLE, -TURN, TURN, "-90 deg",
                "where the caliper sits, from straight up towards the front of the vehicle"),
    QUANTITY("disc_at", disc_at_mm, SPT_LENGTH, -2000, 2000, "-60 mm",
             "the disc along the axis, outwards above 0; 0 mm where absent"),
};
static const struct spt_section section_brake = {
    "`brake`", "a disc brake; drums, whose forces cancel in the hub, where absent", brake_fields,
    COUNT(brake_fields), sizeof(S)};
#undef S

#define S struct raw_trailer
static const struct spt_field trailer_fields[] = {
    CHOICE("kind", kind, &spt_vehicle_kind_words, "centre-axle",
           "centre-axle: the eye carries weight; semi-trailer: a coupling plate carries weight and "
           "its share of the roll; drawbar: the first axle is steered, the eye carries no weight "
           "(so too a wagon on two axles)"),
    LIST("masses", masses, true, &spt_section_trailer_mass, "a list of masses",
         "what weighs, the payload last"),
    QUANTITY("eye_height", eye_height_mm, SPT_LENGTH, 0, PLACE_MAX_MM, "0.45 m",
             "of the eye or the coupling plate above the ground"),
    QUANTITY("pivot_height", pivot_height_mm, SPT_LENGTH, 0, PLACE_MAX_MM, "0.6 m",
             "drawbar: of its pivot on the trailer above the ground"),
    NEEDED("track", track_mm, SPT_LENGTH, 0, PLACE_MAX_MM, "1.8 m",
           "between the wheels of an axle; twins: between the middles of the pairs"),
    LIST("axles", axles, true, &spt_section_axle, "a list of axles", "from front to rear"),
    YES_NO("equalised", equalised,
           "the axles of a group share their load alike, by rockers or air; needed with two and "
           "more in a group"),
    SECTION("tyre", tyre, &section_tyre, "radii and stiffness"),
    SECTION("brake", brake, &section_brake, "where it pushes the hub"),
    MAPPING("hub", hub, &spt_section_wheel_hub, "a mapping",
            "the hub of each wheel; its zero is the plane of the wheel"),
    TEXT("wheel", wheel, "axle 2 right",
         "the wheel that the answer is about; the one with the shortest life where absent"),
};
const struct spt_section spt_section_trailer = {"`trailer`", "masses on axles, and one of its hubs",
                                                trailer_fields, COUNT(trailer_fields), sizeof(S)};
#undef S
