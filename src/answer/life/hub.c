/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/hub.h"

#include <math.h>

void spt_hub_loose_text(const struct spt_text *text, double setting_mm)
{
    if (setting_mm > SPT_HUB_PLAY_HIGH_MM)
        spt_text_wrapf(text, "",
                       "That is more than the %.3g mm of common practice: ask the maker, and set "
                       "closer if the scatter can be made less.",
                       SPT_HUB_PLAY_HIGH_MM);
}

static void write_setting(const struct spt_text *text, const struct spt_hub_answer *hub)
{
    char mounted[SPT_SETTING_LENGTH], running[SPT_SETTING_LENGTH], best[SPT_SETTING_LENGTH];
    spt_text_wrapf(text, "",
                   "Set to %s; running, with the inner part %.3g K warmer: %s, %.3g kN in the "
                   "unloaded pair.",
                   spt_text_setting(hub->mounted_mm, mounted), hub->hub->temperature_difference_k,
                   spt_text_setting(hub->setting_mm, running), hub->preload_n / 1e3);
    if (!isnan(hub->best_mm))
        spt_text_wrapf(text, "",
                       "Longest life with aligned rings%s: set to %s; `spalltime setting` shows "
                       "the curve.",
                       hub->hub->preload_allowed ? ""
                       : hub->hub->scatter_mm > 0
                           ? " and, for settings that scatter as stated, without preload"
                           : " and without preload, cold or running",
                       spt_text_setting(hub->best_mm, best));
    spt_hub_loose_text(text, hub->best_mm);
    if (hub->cure_keeps)
        spt_text_wrap(
            text, "",
            "By fatigue alone the hub lasts longer as it is set, so the cause \"setting\" "
            "leaves the setting as it is.");
}

/* Writes a life in a column of nine characters: grouped digits, or an exponent where they do not
 * fit. */
static void write_life(const struct spt_text *text, double life_h)
{
    char cell[SPT_HOURS_LENGTH];
    if (isnan(life_h))
        fprintf(text->out, " %9s", "-");
    else if (life_h >= 1e6 && isfinite(life_h))
        fprintf(text->out, " %9.3g", life_h);
    else
        fprintf(text->out, " %9s", spt_text_hours(life_h, cell));
}

static void write_row(const struct spt_text *text, const struct spt_hub_phase_answer *phase,
                      int row)
{
    const struct spt_hub_row_answer *r = &phase->rows[row];
    char cell[SPT_HOURS_LENGTH];
    spt_text_fit(text, row ? "" : phase->phase, 13);
    fprintf(text->out, row ? " out" : " in ");
    fprintf(text->out, " %4s", spt_text_number(r->contact.zone_deg, cell));
    fprintf(text->out, " %4s", spt_text_cell(r->contact.max_roller_load_n / 1e3, cell));
    fprintf(text->out, " %5s", spt_text_cell(r->contact.max_pressure_mpa, cell));
    fprintf(text->out, " %5s", spt_text_cell(r->contact.tilt_rad * 1e3, cell));
    write_life(text, r->l10r_h);
    fprintf(text->out, " %5s", spt_text_cell(r->relative_factor, cell));
    write_life(text, r->relative_life_h);
    write_life(text, r->modified_reference_h);
    fputc('\n', text->out);
}

static void write_legend(const struct spt_text *text, const struct spt_hub_answer *hub)
{
    char handbook[SPT_HOURS_LENGTH], reference[SPT_HOURS_LENGTH];
    spt_text_wrapf(text, "",
                   "zone: arc of loaded rollers; Qmax, pmax: most loaded roller and its highest "
                   "pressure, a roller on the line of the wheel load; L10r: basic reference rating "
                   "life (ISO/TS 16281, %d laminae); K: L10r over that of half the rollers "
                   "loaded, aligned, same Fr; K L10: K times the ISO 281 life at P = Fr; L_nmr: "
                   "modified reference life.",
                   hub->hub->hub.laminae);
    spt_text_wrapf(text, "",
                   "L10r lies about three times above ISO 281 lives: compare it with L10r only. "
                   "The verdict uses the handbook life times the setting factor, L10r as set over "
                   "L10r with no end play and aligned rings.");
    spt_text_wrapf(text, "",
                   "Both rows, whole duty: handbook life without setting factors %s; L10r %s.",
                   spt_text_life(hub->handbook_life_h, handbook),
                   spt_text_life(hub->reference_life_h, reference));
}

static void write_factors(const struct spt_text *text, const struct spt_hub_answer *hub)
{
    char cell[SPT_HOURS_LENGTH], life[SPT_HOURS_LENGTH];
    fputs("phase                               setting factor     handbook life without it\n"
          "                                  inboard outboard      inboard     outboard\n",
          text->out);
    for (int i = 0; i < hub->phase_count; i++) {
        const struct spt_hub_row_answer *rows = hub->phases[i].rows;
        spt_text_fit(text, hub->phases[i].phase, 33);
        for (int row = 0; row < 2; row++)
            fprintf(text->out, " %8s", spt_text_ratio(rows[row].setting_factor, cell));
        for (int row = 0; row < 2; row++)
            fprintf(text->out, " %12s", spt_text_life(rows[row].handbook_life_h, life));
        fputc('\n', text->out);
    }
}

void spt_hub_text(const struct spt_text *text, const struct spt_hub_answer *hub)
{
    spt_text_heading(text, "LOAD DISTRIBUTION");
    write_setting(text, hub);
    fputs("phase         row zone Qmax  pmax  tilt      L10r     K     K L10     L_nmr\n"
          "                   deg   kN   MPa  mrad         h               h         h\n",
          text->out);
    for (int i = 0; i < hub->phase_count; i++)
        for (int row = 0; row < 2; row++)
            write_row(text, &hub->phases[i], row);
    write_legend(text, hub);
    fputc('\n', text->out);
    write_factors(text, hub);
}

static void write_json_row(struct spt_json *json, const struct spt_hub_phase_answer *phase, int row)
{
    const struct spt_hub_row_answer *r = &phase->rows[row];
    const struct {
        const char *key;
        double value;
    } numbers[] = {
        {"handbook_radial_load_n", phase->handbook.radial_n[row]},
        {"handbook_induced_thrust_n", phase->handbook.induced_n[row]},
        {"handbook_axial_load_n", phase->handbook.axial_n[row]},
        {"handbook_equivalent_load_n", phase->handbook.equivalent_n[row]},
        {"handbook_modified_rating_life_h", r->handbook_life_h},
        {"setting_factor", r->setting_factor},
        {"radial_reaction_n", r->radial_n},
        {"axial_reaction_n", r->axial_n},
        {"load_zone_deg", r->contact.zone_deg},
        {"max_roller_load_n", r->contact.max_roller_load_n},
        {"max_pressure_mpa", r->contact.max_pressure_mpa},
        {"tilt_rad", r->contact.tilt_rad},
        {"basic_reference_life_h", r->l10r_h},
        {"relative_factor", r->relative_factor},
        {"relative_life_h", r->relative_life_h},
        {"modified_reference_life_h", r->modified_reference_h},
    };
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "row", spt_hub_row_name(row));
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        spt_json_number(json, numbers[i].key, numbers[i].value);
    spt_json_number(json, "loaded_rollers", r->contact.loaded_rollers);
    spt_json_close(json, '}');
}

static void write_json_phase(struct spt_json *json, const struct spt_hub_phase_answer *phase)
{
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "name", phase->phase);
    spt_json_number(json, "wheel_load_n", phase->wheel.radial_n);
    spt_json_number(json, "side_force_n", phase->wheel.side_n);
    spt_json_number(json, "residual_n", phase->solution.residual_n);
    spt_json_open(json, "rows", '[');
    for (int row = 0; row < 2; row++)
        write_json_row(json, phase, row);
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

void spt_hub_json(struct spt_json *json, const struct spt_hub_answer *hub)
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
        write_json_phase(json, &hub->phases[i]);
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}
