/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/hub.h"

#include <math.h>
#include <stddef.h>

#define ROWS 2

void spt_page_hub_loose(struct spt_page *page, double setting_mm)
{
    if (setting_mm > SPT_HUB_PLAY_HIGH_MM)
        spt_page_say(page, SPT_BODY, "",
                     "That is more than the %.3g mm of common practice: ask the maker, and set "
                     "closer if the scatter can be made less.",
                     SPT_HUB_PLAY_HIGH_MM);
}

static void say_setting(struct spt_page *page, const struct spt_hub_answer *hub)
{
    char mounted[SPT_SETTING_LENGTH], running[SPT_SETTING_LENGTH], best[SPT_SETTING_LENGTH];
    spt_page_say(page, SPT_BODY, "",
                 "Set to %s; running, with the inner part %.3g K warmer: %s, %.3g kN in the "
                 "unloaded pair.",
                 spt_text_setting(hub->mounted_mm, mounted), hub->hub->temperature_difference_k,
                 spt_text_setting(hub->setting_mm, running), hub->preload_n / 1e3);
    if (!isnan(hub->best_mm))
        spt_page_say(page, SPT_BODY, "",
                     "Longest life with aligned rings%s: set to %s; `spalltime setting` shows "
                     "the curve.",
                     hub->hub->preload_allowed ? ""
                     : hub->hub->scatter_mm > 0
                         ? " and, for settings that scatter as stated, without preload"
                         : " and without preload, cold or running",
                     spt_text_setting(hub->best_mm, best));
    spt_page_hub_loose(page, hub->best_mm);
    if (hub->cure_keeps)
        spt_page_say(page, SPT_BODY, "",
                     "By fatigue alone the hub lasts longer as it is set, so the cause \"setting\" "
                     "leaves the setting as it is.");
}

/* One row of bearings in one phase. */
struct contact_row {
    const char *phase, *row, *place;
    double handbook_radial_n, handbook_induced_n, handbook_axial_n, handbook_equivalent_n;
    double handbook_life_h, setting_factor, radial_n, axial_n, zone_deg;
    double roller_load_n, roller_load_kn, pressure_mpa, tilt_rad, tilt_mrad;
    double l10r_h, relative_factor, relative_life_h, modified_reference_h;
    const char *l10r, *relative_life, *modified_reference; /* where the digits do not fit */
    int loaded_rollers;
};

#define AT(member) .at = offsetof(struct contact_row, member)
static const struct spt_column contact_columns[] = {
    {.head = "phase", .kind = SPT_WORDS, .width = 13, .once = true, AT(phase)},
    {.head = "row", .kind = SPT_WORDS, .width = 3, .gap = 1, AT(place)},
    {.key = "row", .kind = SPT_WORDS, AT(row)},
    {.key = "handbook_radial_load_n", .kind = SPT_NUMBER, AT(handbook_radial_n)},
    {.key = "handbook_induced_thrust_n", .kind = SPT_NUMBER, AT(handbook_induced_n)},
    {.key = "handbook_axial_load_n", .kind = SPT_NUMBER, AT(handbook_axial_n)},
    {.key = "handbook_equivalent_load_n", .kind = SPT_NUMBER, AT(handbook_equivalent_n)},
    {.key = "handbook_modified_rating_life_h", .kind = SPT_HOURS, AT(handbook_life_h)},
    {.key = "setting_factor", .kind = SPT_RATIO, AT(setting_factor)},
    {.key = "radial_reaction_n", .kind = SPT_NUMBER, AT(radial_n)},
    {.key = "axial_reaction_n", .kind = SPT_NUMBER, AT(axial_n)},
    {.head = "zone",
     .under = "deg",
     .key = "load_zone_deg",
     .kind = SPT_NUMBER,
     .width = 4,
     .gap = 1,
     AT(zone_deg)},
    {.head = "Qmax", .under = "kN", .kind = SPT_CELL, .width = 5, .gap = 1, AT(roller_load_kn)},
    {.key = "max_roller_load_n", .kind = SPT_NUMBER, AT(roller_load_n)},
    {.head = "pmax",
     .under = "MPa",
     .key = "max_pressure_mpa",
     .kind = SPT_CELL,
     .width = 5,
     .gap = 1,
     AT(pressure_mpa)},
    {.head = "tilt", .under = "mrad", .kind = SPT_CELL, .width = 5, .gap = 1, AT(tilt_mrad)},
    {.key = "tilt_rad", .kind = SPT_NUMBER, AT(tilt_rad)},
    {.head = "L10r",
     .under = "h",
     .key = "basic_reference_life_h",
     .kind = SPT_HOURS,
     .none = "-",
     .width = 9,
     .gap = 1,
     AT(l10r_h),
     .instead = offsetof(struct contact_row, l10r)},
    {.head = "K",
     .key = "relative_factor",
     .kind = SPT_CELL,
     .width = 5,
     .gap = 1,
     AT(relative_factor)},
    {.head = "K L10",
     .under = "h",
     .key = "relative_life_h",
     .kind = SPT_HOURS,
     .none = "-",
     .width = 9,
     .gap = 1,
     AT(relative_life_h),
     .instead = offsetof(struct contact_row, relative_life)},
    {.head = "L_nmr",
     .under = "h",
     .key = "modified_reference_life_h",
     .kind = SPT_HOURS,
     .none = "-",
     .width = 9,
     .gap = 1,
     AT(modified_reference_h),
     .instead = offsetof(struct contact_row, modified_reference)},
    {.key = "loaded_rollers", .kind = SPT_COUNT, AT(loaded_rollers)},
};
#undef AT

/* A life whose grouped digits do not fit the column, with an exponent; else NULL. */
static const char *shorten(struct spt_page *page, double life_h)
{
    return life_h >= 1e6 && isfinite(life_h) ? spt_page_words(page, "%.3g", life_h) : NULL;
}

static struct contact_row contact_row(struct spt_page *page,
                                      const struct spt_hub_phase_answer *phase, int row)
{
    const struct spt_hub_row_answer *r = &phase->rows[row];
    return (struct contact_row){.phase = phase->phase,
                                .row = spt_hub_row_name(row),
                                .place = row ? "out" : "in",
                                .handbook_radial_n = phase->handbook.radial_n[row],
                                .handbook_induced_n = phase->handbook.induced_n[row],
                                .handbook_axial_n = phase->handbook.axial_n[row],
                                .handbook_equivalent_n = phase->handbook.equivalent_n[row],
                                .handbook_life_h = r->handbook_life_h,
                                .setting_factor = r->setting_factor,
                                .radial_n = r->radial_n,
                                .axial_n = r->axial_n,
                                .zone_deg = r->contact.zone_deg,
                                .roller_load_n = r->contact.max_roller_load_n,
                                .roller_load_kn = r->contact.max_roller_load_n / 1e3,
                                .pressure_mpa = r->contact.max_pressure_mpa,
                                .tilt_rad = r->contact.tilt_rad,
                                .tilt_mrad = r->contact.tilt_rad * 1e3,
                                .l10r_h = r->l10r_h,
                                .relative_factor = r->relative_factor,
                                .relative_life_h = r->relative_life_h,
                                .modified_reference_h = r->modified_reference_h,
                                .l10r = shorten(page, r->l10r_h),
                                .relative_life = shorten(page, r->relative_life_h),
                                .modified_reference = shorten(page, r->modified_reference_h),
                                .loaded_rollers = r->contact.loaded_rollers};
}

void spt_page_contacts(struct spt_page *page, const char *id, const struct spt_hub_answer *hub,
                       bool shown)
{
    const int count = hub->phase_count * ROWS;
    struct contact_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = contact_row(page, &hub->phases[i / ROWS], i % ROWS);
    spt_page_table(page, id,
                   &(struct spt_table){SPT_TABLE_OF(contact_columns, rows, count),
                                       .left_out = shown ? 0 : count});
}

static void say_legend(struct spt_page *page, const struct spt_hub_answer *hub)
{
    spt_page_say(page, SPT_BODY, "",
                 "zone: arc of loaded rollers; Qmax, pmax: most loaded roller and its highest "
                 "pressure, a roller on the line of the wheel load; L10r: basic reference rating "
                 "life (ISO/TS 16281, %d laminae); K: L10r over that of half the rollers "
                 "loaded, aligned, same Fr; K L10: K times the ISO 281 life at P = Fr; L_nmr: "
                 "modified reference life.",
                 hub->hub->hub.laminae);
    spt_page_say(page, SPT_BODY, "",
                 "L10r lies about three times above ISO 281 lives: compare it with L10r only. "
                 "The verdict uses the handbook life times the setting factor, L10r as set over "
                 "L10r with no end play and aligned rings.");
    spt_page_say(page, SPT_BODY, "",
                 "Both rows, whole duty: handbook life without setting factors %s; L10r %s.",
                 spt_page_life(page, hub->handbook_life_h),
                 spt_page_life(page, hub->reference_life_h));
}

struct factor_row {
    const char *phase;
    double factors[ROWS], lives_h[ROWS];
};

static void show_factors(struct spt_page *page, const struct spt_hub_answer *hub)
{
    static const struct spt_column columns[] = {
        {.head = "phase", .kind = SPT_WORDS, .width = 33, .at = offsetof(struct factor_row, phase)},
        {.head = "setting factor",
         .under = "inboard",
         .kind = SPT_RATIO,
         .group = true,
         .width = 8,
         .gap = 1,
         .at = offsetof(struct factor_row, factors[0])},
        {.head = "",
         .under = "outboard",
         .kind = SPT_RATIO,
         .width = 8,
         .gap = 1,
         .at = offsetof(struct factor_row, factors[1])},
        {.head = "handbook life without it",
         .under = "inboard",
         .kind = SPT_LIFE,
         .group = true,
         .width = 12,
         .gap = 1,
         .at = offsetof(struct factor_row, lives_h[0])},
        {.head = "",
         .under = "outboard",
         .kind = SPT_LIFE,
         .width = 12,
         .gap = 1,
         .at = offsetof(struct factor_row, lives_h[1])},
    };
    const int count = hub->phase_count;
    struct factor_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++) {
        const struct spt_hub_row_answer *of = hub->phases[i].rows;
        rows[i] = (struct factor_row){hub->phases[i].phase,
                                      {of[0].setting_factor, of[1].setting_factor},
                                      {of[0].handbook_life_h, of[1].handbook_life_h}};
    }
    spt_page_table(page, "factors",
                   &(struct spt_table){SPT_TABLE_OF(columns, rows, count),
                                       .caption = "Setting factors", .apart = true});
}

void spt_page_hub(struct spt_page *page, const struct spt_hub_answer *hub)
{
    spt_page_open(page, "Load distribution");
    say_setting(page, hub);
    spt_page_contacts(page, "contacts", hub, true);
    say_legend(page, hub);
    show_factors(page, hub);
    spt_page_close(page);
}

static void write_json_phase(struct spt_json *json, const struct spt_table *contacts,
                             const struct spt_hub_phase_answer *phase, int index)
{
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "name", phase->phase);
    spt_json_number(json, "wheel_load_n", phase->wheel.radial_n);
    spt_json_number(json, "side_force_n", phase->wheel.side_n);
    spt_json_number(json, "residual_n", phase->solution.residual_n);
    spt_json_open(json, "rows", '[');
    for (int row = 0; row < ROWS; row++) {
        spt_json_open(json, NULL, '{');
        spt_table_json_row(contacts, index * ROWS + row, json);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

void spt_hub_json(struct spt_json *json, const struct spt_table *contacts,
                  const struct spt_hub_answer *hub)
{
    spt_json_open(json, "hub", '{');
    spt_json_number(json, "mounted_setting_mm", hub->mounted_mm);
    spt_json_number(json, "thermal_change_mm", hub->thermal_mm);
    spt_json_number(json, "running_setting_mm", hub->setting_mm);
    spt_json_number(json, "preload_force_n", hub->preload_n);
    spt_json_number(json, "best_aligned_setting_mm", hub->best_mm);
    spt_json_bool(json, "preload_allowed", hub->hub->preload_allowed);
    spt_json_bool(json, "cure_keeps_setting", hub->cure_keeps);
    spt_json_number(json, "handbook_modified_rating_life_h", hub->handbook_life_h);
    spt_json_number(json, "basic_reference_life_h", hub->reference_life_h);
    spt_json_number(json, "laminae", hub->hub->hub.laminae);
    spt_json_open(json, "phases", '[');
    for (int i = 0; i < hub->phase_count; i++)
        write_json_phase(json, contacts, &hub->phases[i], i);
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}
