/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/build/build.h"

#define LEAST_SPREAD_MM 1.0       /* least distance between the load centres; ours */
#define INDUCED_FACTOR 0.5        /* S = 0.5 Fr/Y, ISO 281 practice */
#define ONE_ROLLER_DOWN (-M_PI_2) /* a roller on the line of action of the wheel load */

static const char *const row_names[2] = {"inboard", "outboard"};

/* Position of the row in the scenario; its members may come from a catalog. */
static struct spt_mark mark_of_row(const struct spt_node *hub, int row)
{
    for (int i = 0; i < hub->count; i++)
        if (!strcmp(hub->keys[i]->text, row_names[row]))
            return hub->keys[i]->mark;
    return hub->mark;
}

/* Builds a row, which must be of tapered rollers with stated geometry for the load distribution. */
static void build_row(struct spt_build *build, const struct raw_hub *raw, int row,
                      struct spt_bearing *bearing)
{
    static const char *const sections[2] = {"`inboard`", "`outboard`"};
    const struct spt_node *node = row ? raw->outboard : raw->inboard;
    int before = build->diags->raised;
    if (!node || node->kind != SPT_NODE_MAPPING)
        return; /* absent or an unknown name: reported already */
    spt_build_bearing(build, node, sections[row], bearing);
    if (build->diags->raised > before)
        return;
    const struct spt_mark mark = mark_of_row(raw->at, row);
    if (bearing->type != SPT_TAPERED_ROLLER)
        spt_diagnostics_add(build->diags, mark,
                            "the type of the %s row is %s; both rows of a hub are tapered roller "
                            "bearings",
                            row_names[row], spt_bearing_type_name(bearing->type));
    else if (spt_node_find(node, "turning"))
        spt_diagnostics_add(build->diags, spt_node_mark(node, "turning"),
                            "the %s row states which ring turns; state `turning` once, in `hub`",
                            row_names[row]);
    else if (bearing->rows != 1)
        spt_diagnostics_add(build->diags, mark,
                            "the %s row has %d rows of rollers; each row of a hub has one",
                            row_names[row], bearing->rows);
}

/* Gives two rows of the same catalog entry different names. */
static void name_rows(struct spt_build *build, struct spt_case *question)
{
    const char *shared = question->bearings[0].bearing.name;
    if (!shared || !question->bearings[1].bearing.name ||
        strcmp(shared, question->bearings[1].bearing.name) != 0)
        return;
    for (int i = 0; i < 2; i++) {
        char name[240];
        int length = snprintf(name, sizeof name, "%.200s, %s", shared, row_names[i]);
        question->bearings[i].bearing.name = spt_arena_text(build->arena, name, (size_t)length);
        if (!question->bearings[i].bearing.name)
            build->diags->out_of_memory = true;
    }
}

static void read_setting(struct spt_build *build, const struct raw_hub *raw,
                         struct spt_hub_case *hub)
{
    static const char *const keys[] = {"end_play", "preload", "preload_force"};
    const double values[] = {raw->end_play_mm, raw->preload_mm, raw->preload_force_n};
    int stated = 0;
    for (int i = 0; i < 3; i++) {
        if (!spt_node_find(raw->at, keys[i]))
            continue;
        hub->setting_kind = (enum spt_hub_setting_kind)i;
        hub->setting_value = values[i];
        if (stated++)
            spt_diagnostics_add(build->diags, spt_node_mark(raw->at, keys[i]),
                                "`%s` is a second setting; keep one of `end_play`, `preload` and "
                                "`preload_force`",
                                keys[i]);
    }
    if (!stated)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`hub` lacks its setting; add `end_play: 0.05 mm`, `preload: 0.02 mm` "
                            "or `preload_force: 2 kN`");
}

static void read_range(struct spt_build *build, const struct raw_setting_range *raw,
                       struct spt_hub_case *hub)
{
    hub->lowest_mm = raw->at ? raw->lowest_mm : SPT_HUB_SEARCH_LOW_MM;
    hub->highest_mm = raw->at ? raw->highest_mm : SPT_HUB_SEARCH_HIGH_MM;
    if (raw->at && raw->lowest_mm >= raw->highest_mm)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the range of settings ends (%.6g mm) before it starts (%.6g mm)",
                            raw->highest_mm, raw->lowest_mm);
}

static double or_zero(double value)
{
    return isnan(value) ? 0 : value;
}

/* +1 where the load line meets the axis outboard of the row: load centres outside the rows are
 * back-to-back. */
static int side_of(const struct raw_hub *raw, int row)
{
    return (row == 1) == (raw->mounting != (int)SPT_HUB_FACE_TO_FACE) ? 1 : -1;
}

/* Where the middle of the rollers is: as stated, or so that the load centre lies `a` from the
 * shoulder of the outer ring. */
static double position_of(const struct raw_hub *raw, int row, const struct spt_bearing *bearing)
{
    const double stated_mm = row ? raw->outboard_position_mm : raw->inboard_position_mm;
    const double shoulder_mm = row ? raw->outboard_shoulder_mm : raw->inboard_shoulder_mm;
    if (!isnan(stated_mm))
        return stated_mm;
    double reach_mm = bearing->pitch_diameter_mm / 2 * tan(spt_bearing_angle(bearing));
    return shoulder_mm + side_of(raw, row) * (spt_bearing_load_centre(bearing, NULL) - reach_mm);
}

/* Each row needs one of two places. */
static void check_places(struct spt_build *build, const struct raw_hub *raw)
{
    static const char *const keys[2][2] = {{"inboard_position", "inboard_shoulder"},
                                           {"outboard_position", "outboard_shoulder"}};
    static const char *const examples[2] = {"-25 mm", "60 mm"};
    for (int row = 0; row < 2; row++) {
        const struct spt_node *position = spt_node_find(raw->at, keys[row][0]);
        const struct spt_node *shoulder = spt_node_find(raw->at, keys[row][1]);
        if (position && shoulder)
            spt_diagnostics_add(build->diags, shoulder->mark,
                                "`%s` and `%s` say twice where the %s row is; keep one of them",
                                keys[row][0], keys[row][1], row_names[row]);
        else if (!position && !shoulder)
            spt_diagnostics_add(build->diags, raw->at->mark,
                                "`hub` lacks `%s`; add it, such as `%s: %s`, or `%s`, with the "
                                "load centre of the sheet",
                                keys[row][0], keys[row][0], examples[row], keys[row][1]);
    }
}

static struct spt_hub_row make_row(const struct spt_bearing *bearing, double position_mm,
                                   const struct raw_misalignment *tilt)
{
    struct spt_geometry insides; /* without a count where it cannot be estimated */
    spt_bearing_insides(bearing, &insides);
    return (struct spt_hub_row){
        .geometry = insides,
        .position_mm = position_mm,
        .dynamic_load_rating_n = bearing->dynamic_load_rating_n,
        .fatigue_load_limit_n = bearing->fatigue_load_limit_n,
        .misalignment_x_rad = tilt->at ? or_zero(tilt->about_x_rad) : 0,
        .misalignment_y_rad = tilt->at ? or_zero(tilt->about_y_rad) : 0,
        .phase_rad = ONE_ROLLER_DOWN,
    };
}

static void fill_hub(const struct raw_hub *raw, const struct spt_case *question,
                     struct spt_hub_case *hub)
{
    hub->hub = (struct spt_hub){
        .rows = {make_row(&question->bearings[0].bearing,
                          position_of(raw, 0, &question->bearings[0].bearing),
                          &raw->inboard_misalignment),
                 make_row(&question->bearings[1].bearing,
                          position_of(raw, 1, &question->bearings[1].bearing),
                          &raw->outboard_misalignment)},
        .row_count = 2,
        .mounting = raw->mounting == 1 ? SPT_HUB_FACE_TO_FACE : SPT_HUB_BACK_TO_BACK,
        .turning = raw->turning == 1 ? SPT_HUB_INNER_TURNS : SPT_HUB_OUTER_TURNS,
        .laminae = raw->laminae > 0 ? raw->laminae : SPT_HUB_LAMINAE,
        .profile_factor = 1,
        .edge_function = true,
    };
    hub->temperature_difference_k = or_zero(raw->temperature_difference_k);
    hub->scatter_mm = or_zero(raw->setting_scatter_mm);
    hub->rolling_radius_mm = raw->rolling_radius_mm;
    hub->preload_allowed = raw->preload_allowed == 1;
    hub->insides_estimated =
        !question->bearings[0].bearing.has_geometry || !question->bearings[1].bearing.has_geometry;
}

/* Half the width of the rollers along the axis. */
static double half_width(const struct spt_geometry *rollers)
{
    if (rollers->elements == 0)
        return 0; /* not stated, and not to be estimated */
    return rollers->element_length_mm / 2 * cos(rollers->contact_angle_rad);
}

/* Checks that rows do not overlap, and limits of the model: contact angle, load centres that
 * (nearly) coincide. */
static void check_hub(struct spt_build *build, const struct raw_hub *raw,
                      const struct spt_case *question, const struct spt_hub_case *hub)
{
    double widest_mm = fmax(question->bearings[0].bearing.outside_diameter_mm,
                            question->bearings[1].bearing.outside_diameter_mm);
    double room_mm = half_width(&question->bearings[0].bearing.geometry) +
                     half_width(&question->bearings[1].bearing.geometry);
    double apart_mm = spt_hub_load_centre(&hub->hub, 1) - spt_hub_load_centre(&hub->hub, 0);
    const double inboard_mm = hub->hub.rows[0].position_mm;
    const double outboard_mm = hub->hub.rows[1].position_mm;
    if (inboard_mm >= outboard_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "outboard_position"),
                            "the outboard row (%.6g mm) should lie farther out than the inboard "
                            "one (%.6g mm)",
                            outboard_mm, inboard_mm);
    else if (outboard_mm - inboard_mm <= room_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "outboard_position"),
                            "the middles of the rows are %.6g mm apart, but their rollers take up "
                            "%.4g mm between them: state where the middles of the rollers lie",
                            outboard_mm - inboard_mm, room_mm);
    else if (!isnan(raw->rolling_radius_mm) && 2 * raw->rolling_radius_mm <= widest_mm)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "rolling_radius"),
                            "a wheel of %.6g mm radius is smaller than its bearing (%.6g mm in "
                            "diameter); state the radius of the tyre, such as `480 mm`",
                            raw->rolling_radius_mm, widest_mm);
    else if (!hub->insides_estimated && !spt_hub_workspace_length(&hub->hub))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "no load distribution can be worked out for these rows: the contact "
                            "angles must be 0.6 to 68 deg");
    else if (fabs(apart_mm) < LEAST_SPREAD_MM)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the load lines of the rows meet the axis only %.2g mm apart, so the "
                            "pair carries no tilting moment; set the rows farther apart or mount "
                            "them back-to-back",
                            fabs(apart_mm));
}

struct spt_hub_case *spt_build_hub(struct spt_build *build, const struct spt_node *mapping,
                                   double rolling_radius_mm, struct spt_case *question)
{
    struct raw_hub raw;
    struct spt_hub_case *hub = spt_arena_allocate(build->arena, sizeof *hub);
    if (!hub) {
        build->diags->out_of_memory = true;
        return NULL;
    }
    int before = build->diags->raised;
    question->bearing_count = 2;
    spt_section_read(isnan(rolling_radius_mm) ? &spt_section_hub : &spt_section_wheel_hub, mapping,
                     &raw, build->diags);
    if (!isnan(rolling_radius_mm))
        raw.rolling_radius_mm = rolling_radius_mm;
    check_places(build, &raw);
    build_row(build, &raw, 0, &question->bearings[0].bearing);
    build_row(build, &raw, 1, &question->bearings[1].bearing);
    name_rows(build, question);
    read_setting(build, &raw, hub);
    read_range(build, &raw.setting_range, hub);
    if (build->diags->raised > before)
        return hub;
    fill_hub(&raw, question, hub);
    for (int row = 0; row < 2; row++)
        question->bearings[row].bearing.outer_turns = hub->hub.turning == SPT_HUB_OUTER_TURNS;
    check_hub(build, &raw, question, hub);
    if (hub->insides_estimated)
        question->sheet_hub = hub;
    else
        question->hub = hub;
    return hub;
}

/* Y and e of a row, as the equivalent load uses them: obtained from a load above e. */
static struct spt_hub_handbook_row make_handbook_row(const struct spt_hub *hub, int row,
                                                     const struct spt_bearing *bearing)
{
    struct spt_equivalent_load load;
    spt_load_equivalent(bearing, 1, 1e3, &load, NULL);
    return (struct spt_hub_handbook_row){
        .load_centre_mm = spt_hub_load_centre(hub, row),
        .axial_factor = load.axial_factor,
        .limit_ratio = load.limit_ratio,
        .dynamic_load_rating_n = bearing->dynamic_load_rating_n,
    };
}

static void fill_handbook(struct spt_hub_case *hub, const struct spt_case *question)
{
    hub->handbook = (struct spt_hub_handbook){
        .rows = {make_handbook_row(&hub->hub, 0, &question->bearings[0].bearing),
                 make_handbook_row(&hub->hub, 1, &question->bearings[1].bearing)},
        .mounting = hub->hub.mounting,
        .turning = hub->hub.turning,
        .induced_factor = INDUCED_FACTOR,
    };
}

void spt_build_hub_loads(struct spt_build *build, const struct spt_duty_terms *terms,
                         struct spt_hub_case *hub, struct spt_case *question)
{
    const struct spt_phase *phases = question->bearings[0].phases;
    int count = question->bearings[0].phase_count;
    struct spt_phase *rows = spt_arena_allocate(build->arena, 2 * (size_t)count * sizeof *rows);
    if (!rows) {
        build->diags->out_of_memory = true;
        return;
    }
    hub->wheels = terms->wheels;
    fill_handbook(hub, question);
    for (int i = 0; i < count; i++) {
        struct spt_hub_load load = spt_hub_wheel_load(&terms->wheels[i]);
        struct spt_hub_handbook_result shared;
        if (spt_hub_handbook_reactions(&hub->handbook, &load, &shared))
            spt_diagnostics_add(build->diags, terms->duty->items[i]->mark,
                                "the rows cannot share the loads of the phase `%.60s`",
                                phases[i].name);
        for (int row = 0; row < 2; row++) {
            rows[row * count + i] = phases[i];
            rows[row * count + i].radial_load_n = shared.radial_n[row];
            rows[row * count + i].axial_load_n = shared.axial_n[row];
        }
    }
    for (int row = 0; row < 2; row++) {
        question->bearings[row].phases = &rows[row * count];
        question->bearings[row].phase_count = count;
    }
}
