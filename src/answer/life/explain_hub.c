/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/life/hub.h"

static void explain_setting(const struct spt_hub_answer *hub, const struct spt_step_sink *sink)
{
    const struct spt_hub_case *stated = hub->hub;
    static const char *const kinds[] = {"end play", "preload", "preload force"};
    static const char *const units[] = {"mm", "mm", "N"};
    sink->place(sink->context, "hub", "setting");
    spt_explain_step(sink, "E_0", "as set, end play above 0", hub->mounted_mm, "mm",
                     stated->setting_kind == SPT_HUB_SET_PRELOAD_FORCE
                         ? "load distribution of the unloaded pair, solved for the force"
                         : "scenario",
                     "%s %.6g %s", kinds[stated->setting_kind], stated->setting_value,
                     units[stated->setting_kind]);
    spt_explain_step(sink, "dE", "expansion x difference x (-(R_o1 cot a1 + R_o2 cot a2) +- L)",
                     hub->thermal_mm, "mm", "geometry of the raceways; expansion: common practice",
                     "%.3g/K x %.4g K", SPT_HUB_STEEL_EXPANSION_K,
                     stated->temperature_difference_k);
    spt_explain_step(sink, "E", "E_0 + dE", hub->setting_mm, "mm", "running setting", "%.6g + %.6g",
                     hub->mounted_mm, hub->thermal_mm);
    spt_explain_step(sink, "F_0", "axial force of the unloaded pair", hub->preload_n, "N",
                     "ISO/TS 16281:2008 lamina method (from memory)", "at E = %.6g mm",
                     hub->setting_mm);
    spt_explain_step(sink, "E_min", "max(0, -dE)", fmax(0, -hub->thermal_mm), "mm",
                     "no preload, cold or running: common practice, no source", "dE %.6g mm",
                     hub->thermal_mm);
    if (!isnan(hub->best_mm))
        spt_explain_step(sink, "E_cure", "setting with the longest life of the duty, rings aligned",
                         hub->best_mm, "mm", "scan in 0.01 mm, then Brent's method",
                         "from %.6g to %.6g mm, cold%s",
                         stated->preload_allowed
                             ? stated->lowest_mm
                             : fmax(stated->lowest_mm, fmax(0, -hub->thermal_mm)),
                         stated->highest_mm,
                         hub->cure_keeps ? "; E_0 lasts longer, so the cure keeps that" : "");
    for (int row = 0; row < 2; row++)
        spt_explain_step(
            sink, row ? "a_out" : "a_in", "z of the row - s (D_pw/2) tan alpha",
            stated->handbook.rows[row].load_centre_mm, "mm", "where the load line meets the axis",
            "z %.6g mm, D_pw %.6g mm, alpha "
            "%.4g deg, s %+.0f",
            stated->hub.rows[row].position_mm, stated->hub.rows[row].geometry.pitch_diameter_mm,
            stated->hub.rows[row].geometry.contact_angle_rad * 180 / acos(-1.0),
            spt_hub_row_sign(&stated->hub, row));
}

static void explain_handbook(const struct spt_hub_case *hub, const struct spt_hub_wheel *wheel,
                             const struct spt_hub_handbook_result *h,
                             const struct spt_step_sink *sink)
{
    for (int row = 0; row < 2; row++)
        spt_explain_step(sink, row ? "Fr_out" : "Fr_in", "reaction at the load centre, by statics",
                         h->radial_n[row], "N", "equilibrium of forces and moments",
                         "wheel %.6g N up at z = 0, side %.6g N at radius %.6g mm, centres at "
                         "%.5g and %.5g mm",
                         wheel->radial_n, wheel->side_n, wheel->rolling_radius_mm,
                         hub->handbook.rows[0].load_centre_mm,
                         hub->handbook.rows[1].load_centre_mm);
    if (wheel->rearward_n != 0 || wheel->pad_up_n != 0 || wheel->pad_rearward_n != 0)
        spt_explain_step(sink, "Fx", "backwards on the hub", wheel->rearward_n, "N",
                         "braking and rolling; counts in both Fr",
                         "caliper %.6g N backwards, %.6g N up at z = %.5g mm",
                         wheel->pad_rearward_n, wheel->pad_up_n, wheel->pad_offset_mm);
    for (int row = 0; row < 2; row++)
        spt_explain_step(sink, row ? "S_out" : "S_in", "0.5 Fr/Y", h->induced_n[row], "N",
                         "induced thrust, ISO 281 practice", "0.5 x %.6g / %.4g", h->radial_n[row],
                         hub->handbook.rows[row].axial_factor);
    for (int row = 0; row < 2; row++)
        spt_explain_step(sink, row ? "Fa_out" : "Fa_in",
                         "squeezed row: max(S, S_other + K); other row: max(S, S_squeezed - K)",
                         h->axial_n[row], "N",
                         "induced-thrust rule (Shigley, Mechanical Engineering Design, 11-9)",
                         "S_in %.6g, S_out %.6g, K %.6g N", h->induced_n[0], h->induced_n[1],
                         fabs(wheel->side_n));
}

static void explain_distribution(const struct spt_hub_phase_answer *phase,
                                 const struct spt_step_sink *sink)
{
    spt_explain_step(sink, "residual", "|reactions + load| of the balance, moments over L0",
                     phase->solution.residual_n, "N",
                     "damped Newton on the convex energy, checked contact by contact",
                     "allowed %.3g N, %d iterations", phase->solution.allowed_n,
                     phase->solution.iterations);
    for (int row = 0; row < 2; row++) {
        const struct spt_hub_row_answer *r = &phase->rows[row];
        if (isnan(r->l10r_h))
            continue;
        spt_explain_step(sink, row ? "K_out" : "K_in", "L10r / L10r(half the rollers, aligned)",
                         r->relative_factor, "", "ISO/TS 16281:2008 lamina method (from memory)",
                         "L10r %.6g h, zone %.4g deg, Q_max %.6g N", r->l10r_h, r->contact.zone_deg,
                         r->contact.max_roller_load_n);
        spt_explain_step(sink, row ? "f_out" : "f_in",
                         "L10r(E) / L10r(no end play, aligned), averaged over cage positions",
                         r->setting_factor, "", "setting factor of this tool",
                         "row %s, %d cage positions", spt_hub_row_name(row),
                         SPT_HUB_CAGE_POSITIONS);
    }
}

void spt_explain_hub(const struct spt_assessment *assessment, const struct spt_step_sink *sink)
{
    const struct spt_hub_answer *hub = assessment->hub;
    explain_setting(hub, sink);
    for (int i = 0; i < hub->phase_count; i++) {
        sink->place(sink->context, "hub", hub->phases[i].phase);
        explain_handbook(hub->hub, &hub->phases[i].wheel, &hub->phases[i].handbook, sink);
        explain_distribution(&hub->phases[i], sink);
    }
}

/* Load centres that follow from the sheets. */
static void explain_centres(const struct spt_case *question, const struct spt_step_sink *sink)
{
    const struct spt_hub_case *hub = question->sheet_hub;
    sink->place(sink->context, "hub", "load centres");
    for (int row = 0; row < 2; row++) {
        bool estimated;
        double a_mm = spt_bearing_load_centre(&question->bearings[row].bearing, &estimated);
        spt_explain_step(
            sink, row ? "z_out" : "z_in",
            estimated ? "a = T/2 + (D_pw/2) tan alpha, estimated"
                      : "a of the sheet, from the back face of the outer ring",
            hub->handbook.rows[row].load_centre_mm, "mm", "where the load line meets the axis",
            "a %.6g mm, outer ring's back at "
            "%.6g mm",
            a_mm, hub->handbook.rows[row].load_centre_mm + spt_hub_row_sign(&hub->hub, row) * a_mm);
    }
}

void spt_explain_sheet_hub(const struct spt_assessment *assessment,
                           const struct spt_step_sink *sink)
{
    const struct spt_hub_case *hub = assessment->question->sheet_hub;
    explain_centres(assessment->question, sink);
    for (int i = 0; i < assessment->bearings[0].phase_count; i++) {
        struct spt_hub_load load = spt_hub_wheel_load(&hub->wheels[i]);
        struct spt_hub_handbook_result shared;
        sink->place(sink->context, "hub", assessment->bearings[0].phases[i].phase->name);
        if (!spt_hub_handbook_reactions(&hub->handbook, &load, &shared))
            explain_handbook(hub, &hub->wheels[i], &shared, sink);
    }
}
