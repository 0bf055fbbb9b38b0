/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/build/build_machine.h"

#include <gsl/gsl_math.h>
#include <stdio.h>
#include <string.h>

#define USUAL_PRESSURE_RAD (20 * M_PI / 180) /* ISO 53 basic rack (from memory) */
#define USUAL_CHAIN_FACTOR 1.1 /* sag of the slack strand: common practice, no source */
#define WRAP_TOLERANCE_RAD (2 * M_PI / 180) /* stated wrap against that of the strands; ours */
#define DEGREES (180 / M_PI)

#define KIND(kind) (1u << SPT_PART_##kind)
#define TOOTHED (KIND(GEAR) | KIND(BEVEL_GEAR) | KIND(WORM) | KIND(WORM_WHEEL))
#define BELTS (KIND(BELT) | KIND(DRUM))

/* The keys that some kinds alone may have. */
static const struct {
    const char *key;
    unsigned kinds;
} uses[] = {
    {"pitch_diameter", TOOTHED | KIND(CHAIN)},
    {"teeth", TOOTHED | KIND(CHAIN)},
    {"normal_module", KIND(GEAR)},
    {"pressure_angle", TOOTHED},
    {"helix_angle", KIND(GEAR) | KIND(BEVEL_GEAR)},
    {"hand", TOOTHED},
    {"double_helical", KIND(GEAR)},
    {"inside_teeth", KIND(GEAR)},
    {"cone_angle", KIND(BEVEL_GEAR)},
    {"face_width", KIND(BEVEL_GEAR)},
    {"large_end", KIND(BEVEL_GEAR)},
    {"lead_angle", KIND(WORM) | KIND(WORM_WHEEL)},
    {"mate", TOOTHED},
    {"mate_towards", TOOTHED},
    {"efficiency", TOOTHED},
    {"machine_factor", TOOTHED},
    {"tooth_factor", TOOTHED},
    {"friction", BELTS | KIND(WORM) | KIND(WORM_WHEEL)},
    {"pulley_diameter", KIND(BELT)},
    {"other_pulley", KIND(BELT) | KIND(CHAIN)},
    {"centre_distance", KIND(BELT) | KIND(CHAIN)},
    {"towards", KIND(BELT) | KIND(CHAIN) | KIND(FORCE)},
    {"tight_side", BELTS | KIND(CHAIN)},
    {"slack_side", BELTS | KIND(CHAIN)},
    {"wrap", BELTS},
    {"groove", KIND(BELT)},
    {"pull_factor", KIND(BELT) | KIND(CHAIN)},
    {"pretension", BELTS},
    {"slack_pull", BELTS},
    {"tensioner", BELTS},
    {"pitch", KIND(CHAIN)},
    {"diameter", KIND(DRUM) | KIND(COUPLING)},
    {"start_factor", BELTS},
    {"reaction_share", KIND(COUPLING)},
    {"arm", KIND(DRIVE)},
    {"arm_towards", KIND(DRIVE)},
    {"radius", KIND(CRANK)},
    {"pull", KIND(FORCE)},
    {"role", ~(KIND(WEIGHT) | KIND(FORCE))},
    {"power_share", ~(KIND(WEIGHT) | KIND(FORCE))},
    {"takes_the_rest", ~(KIND(WEIGHT) | KIND(FORCE))},
};

static bool states(const struct raw_part *raw, const char *key)
{
    return spt_node_find(raw->at, key) != NULL;
}

const char *spt_build_part_name(const struct spt_part *part, char *name)
{
    snprintf(name, SPT_PART_NAME_LENGTH, "%s `%.60s`", spt_word(&spt_part_kind_words, part->kind),
             part->name ? part->name : "");
    return name;
}

int spt_build_part_kind(struct spt_build *build, const struct raw_part *raw, const char **name)
{
    int kind = -1;
    for (int i = 0; i < spt_part_kind_words.count; i++) {
        const struct spt_node *node = spt_node_find(raw->at, spt_part_kind_words.list[i]);
        if (!node)
            continue;
        if (kind >= 0) {
            spt_diagnostics_add(build->diags, node->mark,
                                "the part is a `%s` already; give a `%s` its own entry",
                                spt_part_kind_words.list[kind], spt_part_kind_words.list[i]);
            return -1;
        }
        kind = i;
        *name = node->text;
    }
    if (kind < 0)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the part lacks its kind and name; begin it with one of: gear, "
                            "bevel_gear, worm, worm_wheel, belt, chain, drum, coupling, impeller, "
                            "drive, crank, weight, force (such as `- gear: wheel`)");
    return kind;
}

static void refuse_foreign_keys(struct spt_build *build, const struct raw_part *raw,
                                const struct spt_part *part)
{
    for (size_t i = 0; i < sizeof uses / sizeof *uses; i++)
        if (states(raw, uses[i].key) && !(uses[i].kinds >> part->kind & 1u))
            spt_diagnostics_add(build->diags, spt_node_mark(raw->at, uses[i].key),
                                "`%s` does not belong to a %s; leave it out", uses[i].key,
                                spt_word(&spt_part_kind_words, part->kind));
}

/* Asks for a key of a part. */
static bool need(struct spt_build *build, const struct raw_part *raw, const struct spt_part *part,
                 const char *key, const char *example)
{
    char name[SPT_PART_NAME_LENGTH];
    if (states(raw, key))
        return true;
    spt_diagnostics_add(build->diags, raw->at->mark, "the %s lacks `%s`; add it, such as `%s: %s`",
                        spt_build_part_name(part, name), key, key, example);
    return false;
}

static double or_usual(double value, double usual)
{
    return isnan(value) ? usual : value;
}

/* Angles are written clockwise from straight up. */
static double to_phi(double angle_rad)
{
    return angle_rad + M_PI_2;
}

static double sign_of(int word)
{
    return word == 1 ? -1 : 1;
}

static void fill_gear_diameter(struct spt_build *build, const struct raw_part *raw,
                               struct spt_part *part)
{
    double helix = or_usual(raw->helix_rad, 0);
    part->diameter_mm = raw->pitch_diameter_mm;
    if (!states(raw, "pitch_diameter") && states(raw, "teeth") && states(raw, "normal_module"))
        part->diameter_mm = raw->teeth * raw->normal_module_mm / cos(helix);
    else if (states(raw, "pitch_diameter") && states(raw, "normal_module"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "normal_module"),
                            "`pitch_diameter` and `normal_module` say the same thing twice; keep "
                            "the pitch diameter of the working circle, or `teeth` and "
                            "`normal_module`");
    else if (!states(raw, "pitch_diameter"))
        need(build, raw, part, "pitch_diameter", "240 mm");
}

static void fill_teeth(struct spt_build *build, const struct raw_part *raw, struct spt_part *part,
                       struct spt_part_source *source)
{
    part->pressure_rad = or_usual(raw->pressure_rad, USUAL_PRESSURE_RAD);
    part->helix_rad = or_usual(raw->helix_rad, 0);
    part->hand = raw->hand < 0 ? 0 : sign_of(raw->hand);
    part->double_helical = raw->double_helical == 1;
    part->inside_teeth = raw->inside_teeth == 1;
    part->load_factor = or_usual(raw->machine_factor, 1) * or_usual(raw->tooth_factor, 1);
    part->towards_rad = to_phi(raw->mate_towards_rad);
    source->mate = raw->mate;
    source->towards_stated = states(raw, "mate_towards");
    source->efficiency = raw->efficiency;
    fill_gear_diameter(build, raw, part);
    bool slanted = part->helix_rad > 0 && !part->double_helical;
    bool worm = part->kind == SPT_PART_WORM || part->kind == SPT_PART_WORM_WHEEL;
    if (slanted || worm)
        need(build, raw, part, "hand", "right");
    if (worm && !raw->mate) {
        need(build, raw, part, "lead_angle", "6 deg");
        need(build, raw, part, "friction", "0.05");
    }
    part->lead_rad = raw->lead_rad;
    part->friction = raw->friction;
}

static void fill_bevel(struct spt_build *build, const struct raw_part *raw, struct spt_part *part)
{
    if (!need(build, raw, part, "cone_angle", "45 deg") ||
        !need(build, raw, part, "large_end", "right"))
        return;
    part->cone_rad = raw->cone_rad;
    part->back = sign_of(raw->large_end);
    part->diameter_mm -= or_usual(raw->face_width_mm, 0) * sin(part->cone_rad);
    if (part->diameter_mm <= 0)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "face_width"),
                            "a face of %.6g mm reaches past the apex of this gear; state the width "
                            "along the teeth",
                            raw->face_width_mm);
}

/* The wrap of two strands, and the other one if they were exchanged. */
static void check_wrap(struct spt_build *build, const struct raw_part *raw, double found_rad)
{
    if (isnan(raw->wrap_rad) || fabs(raw->wrap_rad - found_rad) <= WRAP_TOLERANCE_RAD)
        return;
    bool swapped = fabs(raw->wrap_rad - (2 * M_PI - found_rad)) <= WRAP_TOLERANCE_RAD;
    spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "wrap"),
                        "the strands leave this pulley with a wrap of %.4g deg, but `wrap` says "
                        "%.4g deg; %s",
                        found_rad * DEGREES, raw->wrap_rad * DEGREES,
                        swapped ? "exchange `tight_side` and `slack_side`, or turn the `role` or "
                                  "the direction of the shaft round"
                                : "measure the directions of the strands again");
}

/* The strands as they are written; the tight one gives the torque that the role asks for. */
static void fill_stated_strands(struct spt_build *build, const struct raw_part *raw,
                                double torque_sign, struct spt_part *part)
{
    bool tight = states(raw, "tight_side"), slack = states(raw, "slack_side");
    if (tight != slack) {
        need(build, raw, part, tight ? "slack_side" : "tight_side", "-30 deg");
        return;
    }
    part->plus_rad = to_phi(torque_sign > 0 ? raw->tight_rad : raw->slack_rad);
    part->minus_rad = to_phi(torque_sign > 0 ? raw->slack_rad : raw->tight_rad);
    double wrap = M_PI + remainder(part->plus_rad - part->minus_rad, 2 * M_PI);
    if (part->role != SPT_PART_ROLE_IDLE)
        check_wrap(build, raw, wrap);
    part->wrap_rad = part->kind == SPT_PART_DRUM ? wrap : fmin(wrap, 2 * M_PI - wrap);
}

static void fill_strands_of_pulleys(struct spt_build *build, const struct raw_part *raw,
                                    struct spt_part *part)
{
    if (!need(build, raw, part, "centre_distance", "700 mm") ||
        !need(build, raw, part, "towards", "-20 deg") || isnan(part->diameter_mm) ||
        isnan(raw->other_pulley_mm) || isnan(raw->centre_distance_mm))
        return;
    double smaller =
        spt_belt_wrap(part->diameter_mm, raw->other_pulley_mm, raw->centre_distance_mm);
    if (isnan(smaller)) {
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "centre_distance"),
                            "pulleys of %.6g mm and %.6g mm touch at a distance of %.6g mm between "
                            "their axes",
                            part->diameter_mm, raw->other_pulley_mm, raw->centre_distance_mm);
        return;
    }
    double wrap = part->diameter_mm <= raw->other_pulley_mm ? smaller : 2 * M_PI - smaller;
    part->plus_rad = to_phi(raw->towards_rad) + (wrap - M_PI) / 2;
    part->minus_rad = to_phi(raw->towards_rad) - (wrap - M_PI) / 2;
    part->wrap_rad = smaller;
    check_wrap(build, raw, wrap);
}

static void fill_strands(struct spt_build *build, const struct raw_part *raw, double torque_sign,
                         struct spt_part *part)
{
    bool sides = states(raw, "tight_side") || states(raw, "slack_side");
    bool pulleys = states(raw, "other_pulley");
    if (sides && pulleys)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "other_pulley"),
                            "the strands follow from the two pulleys, or from `tight_side` and "
                            "`slack_side`; keep one of the two ways");
    else if (sides)
        fill_stated_strands(build, raw, torque_sign, part);
    else if (pulleys)
        fill_strands_of_pulleys(build, raw, part);
    else
        need(build, raw, part, "towards", "-20 deg");
}

/* How the belt is tightened: one statement, or by friction. */
static void fill_tension(struct spt_build *build, const struct raw_part *raw, struct spt_part *part)
{
    static const char *const keys[] = {"pull_factor", "pretension", "slack_pull", NULL};
    const char *first = NULL;
    for (int i = 0; keys[i]; i++) {
        if (!states(raw, keys[i]))
            continue;
        if (first)
            spt_diagnostics_add(build->diags, spt_node_mark(raw->at, keys[i]),
                                "`%s` and `%s` say the same thing twice; keep one", first, keys[i]);
        first = keys[i];
    }
    bool weight = raw->tensioner >= 0 ? raw->tensioner == SPT_TENSIONER_WEIGHT
                                      : part->kind == SPT_PART_DRUM || states(raw, "slack_pull");
    part->tensioner = weight ? SPT_TENSIONER_WEIGHT : SPT_TENSIONER_FIXED;
    part->pull_factor = raw->pull_factor;
    part->pretension_n = weight ? raw->slack_pull_n : raw->pretension_n;
    if (states(raw, weight ? "pretension" : "slack_pull"))
        spt_diagnostics_add(build->diags,
                            spt_node_mark(raw->at, weight ? "pretension" : "slack_pull"),
                            "a belt tightened by a weight or spring states `slack_pull`, one of "
                            "fixed centres `pretension`");
    part->start_factor = or_usual(raw->start_factor, 1);
    part->groove_rad = raw->groove_rad;
    part->friction = raw->friction;
    if (part->role == SPT_PART_ROLE_IDLE && !first)
        need(build, raw, part, "slack_pull", "6 kN");
    else if (!first && isnan(part->wrap_rad) &&
             (states(raw, "other_pulley") || !states(raw, "towards")))
        return; /* the strands are missing, which was reported */
    else if (!first && isnan(part->wrap_rad))
        need(build, raw, part, "pull_factor", "2.0");
    else if (!first)
        need(build, raw, part, "friction", "0.5");
}

static void fill_belt(struct spt_build *build, const struct raw_part *raw, double turns,
                      struct spt_part *part)
{
    bool drum = part->kind == SPT_PART_DRUM;
    part->diameter_mm = drum ? raw->diameter_mm : raw->pulley_diameter_mm;
    need(build, raw, part, drum ? "diameter" : "pulley_diameter", drum ? "500 mm" : "180 mm");
    part->towards_rad = to_phi(raw->towards_rad);
    fill_strands(build, raw, part->role == SPT_PART_ROLE_DRIVER ? -turns : turns, part);
    fill_tension(build, raw, part);
    if (!isnan(part->pull_factor))
        part->plus_rad = part->minus_rad =
            (double)NAN; /* the pull lies along the line of centres */
    if (!isnan(part->pull_factor))
        need(build, raw, part, "towards", "-20 deg");
}

static void fill_chain(struct spt_build *build, const struct raw_part *raw, double turns,
                       struct spt_part *part)
{
    part->diameter_mm = raw->pitch_diameter_mm;
    if (!states(raw, "pitch_diameter") && states(raw, "pitch") && states(raw, "teeth"))
        part->diameter_mm = raw->pitch_mm / sin(M_PI / raw->teeth);
    else
        need(build, raw, part, "pitch_diameter", "200 mm");
    part->pull_factor = or_usual(raw->pull_factor, USUAL_CHAIN_FACTOR);
    part->towards_rad = to_phi(raw->towards_rad);
    fill_strands(build, raw, part->role == SPT_PART_ROLE_DRIVER ? -turns : turns, part);
}

static void fill_others(struct spt_build *build, const struct raw_part *raw, struct spt_part *part)
{
    if (part->kind == SPT_PART_COUPLING) {
        part->reaction_share = or_usual(raw->reaction_share, 0);
        part->diameter_mm = raw->diameter_mm;
        if (part->reaction_share > 0)
            need(build, raw, part, "diameter", "120 mm");
    } else if (part->kind == SPT_PART_DRIVE) {
        part->lever_mm = raw->arm_mm;
        part->towards_rad = to_phi(raw->arm_towards_rad);
        if (states(raw, "arm"))
            need(build, raw, part, "arm_towards", "90 deg");
    } else if (part->kind == SPT_PART_CRANK) {
        part->lever_mm = raw->radius_mm;
        need(build, raw, part, "radius", "350 mm");
    } else if (part->kind == SPT_PART_WEIGHT) {
        need(build, raw, part, "mass", "28 kg");
    } else if (part->kind == SPT_PART_FORCE) {
        part->radial_n = or_usual(raw->pull_n, 0);
        part->towards_rad = to_phi(raw->towards_rad);
        if (states(raw, "pull"))
            need(build, raw, part, "towards", "180 deg");
        else if (!states(raw, "thrust"))
            need(build, raw, part, "pull", "2 kN");
    }
}

/* What any part may have. */
static void fill_common(struct spt_build *build, const struct raw_part *raw, struct spt_part *part)
{
    part->mass_kg = or_usual(raw->mass_kg, 0);
    part->unbalance_kg_m = or_usual(raw->unbalance_g_mm, 0) / 1e6;
    part->balance_m_s = raw->balance_m_s / 1e3;
    if (states(raw, "balance_grade"))
        need(build, raw, part, "mass", "85 kg");
    if (states(raw, "balance_grade") && states(raw, "unbalance"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "unbalance"),
                            "`balance_grade` and `unbalance` say the same thing twice; keep one");
    if (states(raw, "thrust") && need(build, raw, part, "thrust_towards", "left"))
        part->axial_n = or_usual(raw->thrust_n, 0) * sign_of(raw->thrust_towards);
}

static void fill_role(struct spt_build *build, const struct raw_part *raw, struct spt_part *part)
{
    unsigned resters = KIND(COUPLING) | KIND(IMPELLER) | KIND(DRIVE) | KIND(CRANK);
    unsigned silent = KIND(WEIGHT) | KIND(FORCE);
    bool rests = resters >> part->kind & 1u;
    part->role = raw->role < 0 ? SPT_PART_ROLE_IDLE : (enum spt_part_role)raw->role;
    part->takes_rest = raw->takes_the_rest == 1 || (raw->takes_the_rest < 0 && rests &&
                                                    raw->role < 0 && isnan(raw->power_share));
    part->power_share = raw->power_share;
    /* whether teeth have a mate that tells it is known later */
    if (raw->role < 0 && !part->takes_rest && !((silent | TOOTHED) >> part->kind & 1u))
        need(build, raw, part, "role", "driven");
}

void spt_build_part(struct spt_build *build, const struct spt_node *node, double turns,
                    struct spt_part *part, struct spt_part_source *source)
{
    struct raw_part raw;
    double none = (double)NAN;
    spt_section_read(&spt_section_part, node, &raw, build->diags);
    *part = (struct spt_part){.diameter_mm = none,
                              .towards_rad = none,
                              .plus_rad = none,
                              .minus_rad = none,
                              .wrap_rad = none,
                              .groove_rad = none,
                              .pull_factor = none,
                              .pretension_n = none,
                              .balance_m_s = none,
                              .lever_mm = none,
                              .load_factor = 1,
                              .start_factor = 1};
    *source = (struct spt_part_source){.at = node, .part = part, .efficiency = none};
    int kind = spt_build_part_kind(build, &raw, &part->name);
    if (kind < 0)
        return;
    part->kind = (enum spt_part_kind)kind;
    part->at_mm = raw.at_mm;
    source->role_stated = raw.role >= 0;
    refuse_foreign_keys(build, &raw, part);
    fill_role(build, &raw, part);
    fill_common(build, &raw, part);
    if (TOOTHED >> kind & 1u)
        fill_teeth(build, &raw, part, source);
    if (kind == SPT_PART_BEVEL_GEAR)
        fill_bevel(build, &raw, part);
    else if (BELTS >> kind & 1u)
        fill_belt(build, &raw, turns, part);
    else if (kind == SPT_PART_CHAIN)
        fill_chain(build, &raw, turns, part);
    else
        fill_others(build, &raw, part);
}
