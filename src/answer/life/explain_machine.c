/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "answer/life/machine.h"
#include "words/words.h"

#define SYMBOL_LENGTH 120

/* A shaft in a phase. */
struct view {
    const struct spt_step_sink *sink;
    const struct spt_machine_shaft *shaft;
    const struct spt_part_load *loads;
    const double *torques_nmm;
    const struct spt_support_load *supports;
    const struct spt_shaft_balance *balance;
    double speed_rpm;
};

/* "Ft (wheel)" */
static const char *symbol_of(const char *symbol, const char *name, char *words)
{
    snprintf(words, SYMBOL_LENGTH, "%s (%.80s)", symbol, name ? name : "");
    return words;
}

static void explain_teeth(const struct view *v, int i)
{
    const struct spt_part *part = &v->shaft->parts[i];
    const struct spt_part_load *load = &v->loads[i];
    const double deg = 180 / acos(-1.0);
    char words[SYMBOL_LENGTH];
    bool worm = part->kind == SPT_PART_WORM || part->kind == SPT_PART_WORM_WHEEL;
    bool bevel = part->kind == SPT_PART_BEVEL_GEAR;
    const char *source = "forces of teeth, derived here; Shigley, Mechanical Engineering Design, "
                         "13-14 to 13-16, 13-41 (from memory)";
    spt_explain_step(v->sink, symbol_of("Ft", part->name, words), "2 T/d", load->tangential_n, "N",
                     source, "2 x %.6g N m / %.6g mm", fabs(v->torques_nmm[i]) / 1e3,
                     part->diameter_mm);
    spt_explain_step(v->sink, symbol_of("Fr", part->name, words),
                     worm    ? "W sin alpha_n"
                     : bevel ? "Ft/cos psi (tan alpha_n cos delta +- sin psi sin delta)"
                             : "Ft tan alpha_n/cos beta",
                     load->radial_n, "N", source,
                     "alpha_n %.4g deg, beta %.4g deg, towards %.4g deg", part->pressure_rad * deg,
                     part->helix_rad * deg, spt_machine_clock_deg(part->towards_rad));
    spt_explain_step(v->sink, symbol_of("Fa", part->name, words),
                     worm    ? "W (cos alpha_n cos gamma - mu sin gamma)"
                     : bevel ? "Ft/cos psi (tan alpha_n sin delta -+ sin psi cos delta)"
                             : "Ft tan beta",
                     load->axial_n, "N", source, "to the %s",
                     load->force_n[2] < 0 ? "left" : "right");
}

static void explain_belt(const struct view *v, int i)
{
    const struct spt_part *part = &v->shaft->parts[i];
    const struct spt_part_load *load = &v->loads[i];
    const double deg = 180 / acos(-1.0);
    const char *source =
        isnan(part->pretension_n)
            ? "Eytelwein and Euler (from memory); tension of the hardest phase kept"
            : "as stated; kept in every phase";
    char words[SYMBOL_LENGTH];
    if (!isnan(part->pull_factor)) {
        spt_explain_step(v->sink, symbol_of("F", part->name, words),
                         part->kind == SPT_PART_CHAIN ? "k 2T/d" : "k 2T/d of the hardest phase",
                         hypot(load->force_n[0], load->force_n[1]), "N",
                         "pull as a factor: common practice, no source", "k %.4g, d %.6g mm",
                         part->pull_factor, part->diameter_mm);
        return;
    }
    spt_explain_step(v->sink, symbol_of("F1", part->name, words), "F2 + 2T/d", load->tight_n, "N",
                     source, "T %.6g N m, d %.6g mm, mu %.3g, wrap %.5g deg",
                     fabs(v->torques_nmm[i]) / 1e3, part->diameter_mm, part->friction,
                     part->wrap_rad * deg);
    spt_explain_step(v->sink, symbol_of("F2", part->name, words),
                     part->tensioner == SPT_TENSIONER_WEIGHT ? "kept by a weight or spring"
                                                             : "(F1 + F2)/2 - T/d",
                     load->slack_n, "N", source, "F1 + F2 %.6g N", load->tight_n + load->slack_n);
}

static void explain_others(const struct view *v, int i)
{
    const struct spt_part *part = &v->shaft->parts[i];
    const struct spt_part_load *load = &v->loads[i];
    char words[SYMBOL_LENGTH];
    if (load->weight_n > 0)
        spt_explain_step(v->sink, symbol_of("G", part->name, words), "m g", load->weight_n, "N",
                         "weight", "%.6g kg x 9.80665 m/s2", part->mass_kg);
    if (!isnan(load->tangential_n) && part->kind >= SPT_PART_DRIVE)
        spt_explain_step(v->sink, symbol_of("F", part->name, words),
                         part->kind == SPT_PART_DRIVE ? "T/arm" : "T/radius", load->tangential_n,
                         "N", "derived here", "%.6g N m / %.6g mm", fabs(v->torques_nmm[i]) / 1e3,
                         part->lever_mm);
    if (load->turning_n > 0 && part->kind != SPT_PART_CRANK)
        spt_explain_step(v->sink, symbol_of("Fu", part->name, words),
                         isnan(part->balance_m_s) ? "m e w^2" : "m G w", load->turning_n, "N",
                         "ISO 21940-11 (from memory); turns with the shaft", "%.6g rpm",
                         v->speed_rpm);
    if (load->any_n > 0)
        spt_explain_step(v->sink, symbol_of("Fc", part->name, words), "share 2T/d", load->any_n,
                         "N", "misalignment: common practice, no source; worst direction",
                         "share %.4g", part->reaction_share);
}

/* A couple in N m without its round-off. */
static double tidy(double moment_nmm, double most_nmm)
{
    return fabs(moment_nmm) < 1e-9 * most_nmm ? 0 : moment_nmm / 1e3;
}

static void explain_part(const struct view *v, int i)
{
    const struct spt_part *part = &v->shaft->parts[i];
    const struct spt_part_load *load = &v->loads[i];
    char words[SYMBOL_LENGTH];
    if (v->torques_nmm[i] != 0)
        spt_explain_step(
            v->sink, symbol_of("T", part->name, words), "torque on the shaft, clockwise above 0",
            v->torques_nmm[i] / 1e3, "N m", "balance of power", "%s, %s",
            spt_word(&spt_part_kind_words, (int)part->kind),
            part->takes_rest ? "takes the rest" : spt_word(&spt_part_role_words, (int)part->role));
    if (part->kind <= SPT_PART_WORM_WHEEL)
        explain_teeth(v, i);
    else if (part->kind <= SPT_PART_DRUM)
        explain_belt(v, i);
    explain_others(v, i);
    spt_explain_step(v->sink, symbol_of("F", part->name, words), "hypot(Fx, Fy)",
                     hypot(load->force_n[0], load->force_n[1]), "N", "at its place on the shaft",
                     "at %.6g mm: x %.6g, y %.6g, z %.6g N; couple x %.6g, y %.6g N m", load->at_mm,
                     load->force_n[0], load->force_n[1], load->force_n[2],
                     tidy(load->moment_nmm[0], hypot(load->moment_nmm[0], load->moment_nmm[1])),
                     tidy(load->moment_nmm[1], hypot(load->moment_nmm[0], load->moment_nmm[1])));
}

static void explain_support(const struct view *v, int i)
{
    const struct spt_support *support = &v->shaft->supports[i];
    const struct spt_support_load *load = &v->supports[i];
    char words[SYMBOL_LENGTH];
    spt_explain_step(
        v->sink, symbol_of("Fr", support->name, words),
        load->turning_n > 0 ? "mean of |K0 + K1 e^it| over a turn, exponent p" : "hypot(x, y)",
        load->radial_n, "N",
        v->shaft->support_count > 2
            ? "elastic line, Hermite beam elements, E 206 GPa; rigid supports unless stated"
            : "equilibrium of forces and moments",
        "load centre %.6g mm: x %.6g, y %.6g N%s", support->centre_mm, load->x_n, load->y_n,
        support->centre_estimated ? " (centre estimated)" : "");
    spt_explain_step(v->sink, symbol_of("Fa", support->name, words),
                     load->induced_n > 0 ? "squeezed: max(S, S_other + K); other: Fa_squeezed - K"
                                         : "K where it takes the thrust",
                     load->axial_n, "N",
                     "induced-thrust rule (Shigley, Mechanical Engineering Design, 11-9)",
                     "S %.6g N, K %.6g N (to the right above 0), stops %s", load->induced_n,
                     v->balance->force_n[2], spt_word(&spt_locating_words, (int)support->locating));
    if (!isnan(load->slope_rad))
        spt_explain_step(v->sink, symbol_of("theta", support->name, words),
                         "slope of the shaft in the bearing", load->slope_rad * 1e3, "mrad",
                         "elastic line, Hermite beam elements, E 206 GPa", "%d sections",
                         v->shaft->piece_count);
}

static void explain_shaft(const struct view *v)
{
    for (int i = 0; i < v->shaft->part_count; i++)
        explain_part(v, i);
    for (int i = 0; i < v->shaft->support_count; i++)
        explain_support(v, i);
    const struct spt_shaft_balance *b = v->balance;
    spt_explain_step(v->sink, "sum F", "forces of parts and bearings, over the largest force",
                     b->force_error, "", "balance of forces",
                     "parts x %.6g, y %.6g, z %.6g N; largest force %.6g N", b->force_n[0],
                     b->force_n[1], b->force_n[2], b->most_force_n);
    spt_explain_step(v->sink, "sum M",
                     "moments about an unrelated point, over the largest force times length",
                     b->moment_error, "", "balance of moments",
                     "parts about the zero of the shaft x %.6g, y %.6g N m; torque %.6g N m",
                     b->moment_nmm[0] / 1e3, b->moment_nmm[1] / 1e3, b->moment_nmm[2] / 1e3);
}

void spt_explain_machine(const struct spt_assessment *assessment, const struct spt_step_sink *sink)
{
    const struct spt_machine_case *machine = assessment->question->machine;
    for (int i = 0; i < machine->phase_count; i++) {
        const struct spt_machine_loads *loads = &machine->phases[i];
        int part = 0, support = 0;
        for (int s = 0; s < machine->machine.shaft_count; s++) {
            const struct spt_machine_shaft *shaft = &machine->machine.shafts[s];
            const struct view v = {sink,
                                   shaft,
                                   &loads->parts[part],
                                   &loads->torques_nmm[part],
                                   &loads->supports[support],
                                   &loads->balances[s],
                                   loads->speeds_rpm[s]};
            sink->place(sink->context, shaft->name ? shaft->name : "shaft",
                        assessment->bearings[0].phases[i].phase->name);
            explain_shaft(&v);
            part += shaft->part_count;
            support += shaft->support_count;
        }
    }
}
