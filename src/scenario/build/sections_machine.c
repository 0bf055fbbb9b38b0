/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>

#include "scenario/build/section_fields.h"
#include "scenario/build/sections.h"
#include "spalltime/machine.h"
#include "words/words.h"

#define TURN (2 * M_PI + 1e-9)
#define PLACE_MAX_MM 1e5
#define MASS_MAX_KG 1e6

#define S struct raw_support
static const struct spt_field support_fields[] = {
    NEEDED_TEXT("support", support, "left", "name of the support"),
    NAMED("bearing", bearing, true, &spt_section_bearing, "roller 60-110", "its bearing"),
    NEEDED_SPAN("at", at_mm, SPT_LENGTH, -PLACE_MAX_MM, PLACE_MAX_MM, "0 mm",
                "middle of the bearing, along the shaft, to the right above 0"),
    CHOICE("takes_thrust", takes_thrust, &spt_locating_words, "both ways",
           "thrust of the shaft that it stops; none: free to slide"),
    QUANTITY("load_centre", load_centre_mm, SPT_LENGTH, -1000, 1000, "20 mm",
             "tapered and angular contact: from the back face of the outer ring to where the load "
             "line meets the axis, a; from the contact angle where absent, and said so"),
    NAMED("condition", condition, false, &spt_section_condition, "{cleanliness: severe}",
          "what differs from the scenario's condition in this bearing"),
    QUANTITY("warmer", warmer_k, SPT_TEMPERATURE_DIFFERENCE, -100, 200, "8 K",
             "this bearing than its phases say, or its surroundings where they are estimated"),
    ABOVE("stiffness", stiffness_n_mm, SPT_STIFFNESS, 0, 1e9, "300 kN/mm",
          "of bearing and seat together, across the shaft; rigid where absent"),
    QUANTITY("seat_up", seat_up_mm, SPT_LENGTH, -10, 10, "0.01 mm",
             "three supports and more: how far the seat lies above the line of the others"),
    QUANTITY("seat_across", seat_across_mm, SPT_LENGTH, -10, 10, "0.01 mm",
             "the same across, towards 9 o'clock above 0"),
};
const struct spt_section spt_section_support = {"the support", "one bearing of a shaft",
                                                support_fields, COUNT(support_fields), sizeof(S)};
#undef S

#define S struct raw_piece
static const struct spt_field piece_fields[] = {
    NEEDED_SPAN("to", to_mm, SPT_LENGTH, -PLACE_MAX_MM, PLACE_MAX_MM, "120 mm",
                "where this piece ends, along the shaft"),
    NEEDED("diameter", diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "55 mm", "outside diameter"),
    QUANTITY("bore", bore_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "20 mm", "of a hollow shaft"),
};
const struct spt_section spt_section_piece = {"the section", "a piece of a shaft", piece_fields,
                                              COUNT(piece_fields), sizeof(S)};
#undef S

#define S struct raw_part
static const struct spt_field part_fields[] = {
    PART_NAMES,
    NEEDED_SPAN("at", at_mm, SPT_LENGTH, -PLACE_MAX_MM, PLACE_MAX_MM, "90 mm",
                "middle of the part, along the shaft"),
    CHOICE("role", role, &spt_part_role_words, "driven",
           "driven: brings power to this shaft; driver: takes power from it; idle"),
    QUANTITY("power_share", power_share, SPT_SHARE, 0, 1, "60 %",
             "of the power, where several parts of a role share it"),
    YES_NO("takes_the_rest", takes_the_rest,
           "brings or takes the torque that the others leave; yes of a coupling, impeller, drive "
           "and crank where absent"),
    ABOVE("pitch_diameter", pitch_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "240 mm",
          "working pitch circle; of a bevel gear at the large end"),
    INTEGER("teeth", teeth, 1, 10000, "60", "number of teeth, with `normal_module` or `pitch`"),
    ABOVE("normal_module", normal_module_mm, SPT_LENGTH, 0, 200, "4 mm",
          "module in the normal section"),
    QUANTITY("pressure_angle", pressure_rad, SPT_ANGLE, 0, 0.785, "20 deg",
             "in the normal section; 20 deg where absent"),
    QUANTITY("helix_angle", helix_rad, SPT_ANGLE, 0, 1.2, "12 deg",
             "helix of the teeth, spiral of a bevel gear; 0 deg where absent"),
    CHOICE("hand", hand, &spt_hands_words, "right", "hand of helix, spiral or worm"),
    YES_NO("double_helical", double_helical, "both hands side by side: no axial force"),
    YES_NO("inside_teeth", inside_teeth, "ring with teeth inside"),
    ABOVE("cone_angle", cone_rad, SPT_ANGLE, 0, M_PI_2 + 1e-9, "45 deg",
          "pitch cone angle of a bevel gear"),
    QUANTITY("face_width", face_width_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "30 mm",
             "of a bevel gear, to find its middle; 0 mm where absent"),
    CHOICE("large_end", large_end, &spt_hands_words, "right",
           "side of the large end of a bevel gear, away from the apex"),
    ABOVE("lead_angle", lead_rad, SPT_ANGLE, 0, 1.2, "6 deg", "of a worm, and of its wheel"),
    TEXT("mate", mate, "drum wheel", "name of the part of another shaft that it meshes with"),
    QUANTITY("mate_towards", mate_towards_rad, SPT_ANGLE, -TURN, TURN, "110 deg",
             "where the mate lies, clockwise from straight up, seen from the left end"),
    QUANTITY("efficiency", efficiency, SPT_SHARE, 0.1, 1, "98 %",
             "of the mesh with `mate`; 100 % where absent, that of a worm follows from its "
             "friction"),
    QUANTITY("machine_factor", machine_factor, SPT_NO_DIMENSION, 1, 5, "1.25",
             "on the forces of teeth: shocks of driver and driven machine; 1 where absent"),
    QUANTITY("tooth_factor", tooth_factor, SPT_NO_DIMENSION, 1, 5, "1.1",
             "on the forces of teeth: their own errors; 1 where absent"),
    QUANTITY("friction", friction, SPT_NO_DIMENSION, 0, 5, "0.5",
             "belt and pulley, drum, or worm and wheel"),
    ABOVE("pulley_diameter", pulley_diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "180 mm",
          "of a belt pulley, at the middle of the belt"),
    ABOVE("other_pulley", other_pulley_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "423 mm",
          "diameter of the other pulley or sprocket, with `centre_distance` and `towards`"),
    ABOVE("centre_distance", centre_distance_mm, SPT_LENGTH, 0, PLACE_MAX_MM, "700 mm",
          "between the axes of both pulleys"),
    QUANTITY("towards", towards_rad, SPT_ANGLE, -TURN, TURN, "-20 deg",
             "where the other pulley lies, or where a `pull` points: clockwise from straight up"),
    QUANTITY("tight_side", tight_rad, SPT_ANGLE, -TURN, TURN, "-10 deg",
             "direction in which the tight strand leaves, clockwise from straight up"),
    QUANTITY("slack_side", slack_rad, SPT_ANGLE, -TURN, TURN, "-30 deg", "the same, slack strand"),
    ABOVE("wrap", wrap_rad, SPT_ANGLE, 0, 2 * TURN, "200 deg",
          "angle of contact of the belt on this pulley"),
    ABOVE("groove", groove_rad, SPT_ANGLE, 0, 1.6, "38 deg", "angle of the groove of a V belt"),
    QUANTITY("pull_factor", pull_factor, SPT_NO_DIMENSION, 1, 10, "2.0",
             "pull on the shaft over 2T/d: V belts 1.5 to 2.5, flat 2 to 3.5, toothed 1.1 to 1.5, "
             "chains 1 to 1.2"),
    ABOVE("pretension", pretension_n, SPT_FORCE, 0, FORCE_MAX_N, "6 kN",
          "sum of the pulls of both strands, as measured at rest"),
    QUANTITY("slack_pull", slack_pull_n, SPT_FORCE, 0, FORCE_MAX_N, "1.2 kN",
             "pull of the slack strand, kept by a weight or spring; of an idle drum, of both"),
    CHOICE("tensioner", tensioner, &spt_tensioner_words, "fixed",
           "fixed centres, where the sum of both strands stays (belts where absent), or a weight "
           "or spring that keeps the slack one (drums where absent)"),
    ABOVE("pitch", pitch_mm, SPT_LENGTH, 0, 1000, "25.4 mm", "of a chain, with `teeth`"),
    ABOVE("diameter", diameter_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "500 mm",
          "of a drum; of the circle of bolts of a coupling"),
    QUANTITY("start_factor", start_factor, SPT_NO_DIMENSION, 1, 3, "1.4",
             "torque when starting over that of running, which the friction has to carry"),
    QUANTITY("reaction_share", reaction_share, SPT_SHARE, 0, 1, "20 %",
             "coupling: pull of misalignment over 2T/d, in the worst direction; 10 to 30 % is "
             "usual; 0 % where absent"),
    QUANTITY("mass", mass_kg, SPT_MASS, 0, MASS_MAX_KG, "28 kg", "its weight acts downwards"),
    QUANTITY("balance_grade", balance_m_s, SPT_BALANCE_GRADE, 0, 4000, "6.3 mm/s",
             "balance quality G of the mass, e w"),
    QUANTITY("unbalance", unbalance_g_mm, SPT_UNBALANCE, 0, 1e9, "500 g mm", "m e, instead"),
    QUANTITY("thrust", thrust_n, SPT_FORCE, 0, FORCE_MAX_N, "300 N", "axial force on the shaft"),
    CHOICE("thrust_towards", thrust_towards, &spt_hands_words, "left", "its direction"),
    ABOVE("arm", arm_mm, SPT_LENGTH, 0, PLACE_MAX_MM, "600 mm",
          "from the shaft to where the housing of a drive is held"),
    QUANTITY("arm_towards", arm_towards_rad, SPT_ANGLE, -TURN, TURN, "90 deg",
             "where it is held, clockwise from straight up"),
    ABOVE("radius", radius_mm, SPT_LENGTH, 0, LENGTH_MAX_MM, "350 mm", "of a crank"),
    QUANTITY("pull", pull_n, SPT_FORCE, 0, FORCE_MAX_N, "2 kN", "a force across, `towards`"),
};
const struct spt_section spt_section_part = {"the part", "something that the shaft carries",
                                             part_fields, COUNT(part_fields), sizeof(S)};
#undef S

#define S struct raw_shaft
static const struct spt_field shaft_fields[] = {
    TEXT("shaft", shaft, "input", "name of the shaft, in a list of `shafts`"),
    CHOICE("turns", turns, &spt_turns_words, "clockwise", "as seen from the left end"),
    CHOICE("mounting", mounting, &spt_hub_mounting_words, "back-to-back",
           "of the two adjusted single-row bearings, in place of `takes_thrust` of each"),
    CHOICE("position", position, &spt_position_words, "left end up", "level where absent"),
    LIST("supports", supports, true, &spt_section_support, "a list of supports",
         "the bearings, from left to right"),
    LIST("carries", carries, true, &spt_section_part, "a list of parts",
         "what sits on the shaft; each part begins with its kind and its name"),
    QUANTITY("starts_at", starts_at_mm, SPT_LENGTH, -PLACE_MAX_MM, PLACE_MAX_MM, "-200 mm",
             "left end of the first section; the leftmost thing on the shaft where absent"),
    LIST("sections", sections, false, &spt_section_piece, "a list of sections",
         "diameters of the shaft, for slopes at the bearings; needed with three supports"),
    YES_NO("own_weight", own_weight, "the weight of the sections counts, 7850 kg/m3"),
};
const struct spt_section spt_section_shaft = {"the shaft", "one shaft with its bearings",
                                              shaft_fields, COUNT(shaft_fields), sizeof(S)};
#undef S

#define S struct raw_machine
static const struct spt_field machine_fields[] = {
    MAPPING("shaft", shaft, &spt_section_shaft, "a mapping", "the only shaft"),
    LIST("shafts", shafts, false, &spt_section_shaft, "a list of shafts",
         "several shafts of one gearbox, each with its name"),
    MAPPING("trailer", trailer, &spt_section_trailer, "a mapping",
            "masses on axles instead of shafts; the duty is pieces of road"),
    TEXT("driven_at", driven_at, "input",
         "the shaft that speed, power and torque of the duty are about; the first where absent"),
};
const struct spt_section spt_section_machine = {"`machine`",
                                                "shafts with their bearings and what they carry",
                                                machine_fields, COUNT(machine_fields), sizeof(S)};
#undef S
