/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/explain.h"

#include <math.h>
#include <stdarg.h>

#include "answer/life/hub.h"
#include "answer/life/machine.h"
#include "answer/vehicle/vehicle.h"
#include "spalltime/bearing.h"
#include "spalltime/lubricant.h"

#define NUMBERS_LENGTH 240

void spt_explain_step(const struct spt_step_sink *sink, const char *symbol, const char *formula,
                      double value, const char *unit, const char *source, const char *numbers, ...)
{
    char text[NUMBERS_LENGTH];
    va_list arguments;
    va_start(arguments, numbers);
    vsnprintf(text, sizeof text, numbers, arguments);
    va_end(arguments);
    const struct spt_step step = {symbol, formula, text, value, unit, source};
    sink->step(sink->context, &step);
}

const char *spt_explain_life(double life_h, int digits, char *buffer)
{
    if (isnan(life_h))
        return "none";
    if (isinf(life_h))
        return "no limit";
    snprintf(buffer, SPT_HOURS_LENGTH, "%.*g", digits, life_h);
    return buffer;
}

/* Formats the limit ratio; types that carry no axial load have none. */
static const char *write_limit_ratio(const struct spt_equivalent_load *load, char *buffer)
{
    if (isnan(load->limit_ratio))
        return "not used";
    snprintf(buffer, SPT_HOURS_LENGTH, "%.4g", load->limit_ratio);
    return buffer;
}

/* Explains P0; unused factors (pure radial or pure axial load) are left out. */
static void explain_static_load(const struct spt_phase_result *r, const struct spt_step_sink *sink)
{
    const struct spt_equivalent_load *load = &r->resting;
    const struct spt_phase *phase = r->phase;
    if (!isnan(phase->equivalent_load_n))
        spt_explain_step(sink, "P_0", "given, as P", load->load_n, "N", "scenario", "%.6g",
                         phase->equivalent_load_n);
    else if (isnan(load->axial_factor) || isnan(load->radial_factor))
        spt_explain_step(sink, "P_0", "Fr or Fa alone", load->load_n, "N", "ISO 76:2006",
                         "Fr %.6g, Fa %.6g", phase->radial_load_n, phase->axial_load_n);
    else
        spt_explain_step(sink, "P_0", "X_0 Fr + Y_0 Fa (radial types: at least Fr)", load->load_n,
                         "N", "ISO 76:2006, tables of X_0, Y_0 (from memory), or the given Y_0",
                         "%.4g x %.6g + %.4g x %.6g", load->radial_factor, phase->radial_load_n,
                         load->axial_factor, phase->axial_load_n);
}

static void explain_load(const struct spt_phase_result *r, const struct spt_case *question,
                         const struct spt_bearing *bearing, const struct spt_step_sink *sink)
{
    char limit[SPT_HOURS_LENGTH], ratio[SPT_HOURS_LENGTH];
    const struct spt_equivalent_load *load = &r->dynamic;
    const struct spt_phase *phase = r->phase;
    if (!isnan(phase->equivalent_load_n))
        spt_explain_step(sink, "P", "given", load->load_n, "N", "scenario", "%.6g",
                         phase->equivalent_load_n);
    else if (isnan(load->axial_factor) || isnan(load->radial_factor) || isnan(load->limit_ratio))
        spt_explain_step(sink, "P", "Fr or Fa alone", load->load_n, "N",
                         "ISO 281:2007, clauses 5 to 8", "Fr %.6g, Fa %.6g", phase->radial_load_n,
                         phase->axial_load_n);
    else
        spt_explain_step(sink, "P", "X Fr + Y Fa (radial types: at least Fr)", load->load_n, "N",
                         "ISO 281:2007, tables of X, Y, or the given factors",
                         "%.4g x %.6g + %.4g x %.6g (Fa/Fr %s, e %s)", load->radial_factor,
                         phase->radial_load_n, load->axial_factor, phase->axial_load_n,
                         isnan(load->ratio) ? "-" : spt_explain_life(load->ratio, 4, ratio),
                         write_limit_ratio(load, limit));
    explain_static_load(r, sink);
    if (r->resting.load_n > 0)
        spt_explain_step(sink, "s_0", "C_0 / P_0", r->static_safety_factor, "",
                         "ISO 76:2006; guide value from memory", "%.6g / %.6g (%s running: %.3g)",
                         bearing->static_load_rating_n, r->resting.load_n,
                         spt_running_name(question->running), r->static_safety_guide);
}

static void explain_film(const struct spt_phase_result *r, const struct spt_case *question,
                         const struct spt_bearing *bearing, const struct spt_step_sink *sink)
{
    double n = r->phase->speed_rpm;
    if (isnan(r->phase->temperature_c))
        spt_explain_step(sink, "T", "friction heat = heat carried off", r->temperature_c, "degC",
                         "Palmgren 1957; ISO 15312:2018 (from memory)",
                         "ambient %.4g degC, friction %.4g W + %.4g W, %.4g W/K",
                         r->phase->ambient_c, r->heat.heat_w, r->phase->extra_heat_w,
                         r->heat.conductance_w_k);
    spt_explain_step(sink, "nu", "10^10^(A - B lg T) - 0.7", r->viscosity_mm2_s, "mm2/s",
                     "ASTM D341, engineering form", "A %.7g, B %.7g, T %.6g K",
                     question->lubricant.line.a, question->lubricant.line.b,
                     r->temperature_c + 273.15);
    if (!(n > 0))
        return;
    spt_explain_step(sink, "nu_1", n < 1000 ? "45000 n^-0.83 D_pw^-0.5" : "4500 n^-0.5 D_pw^-0.5",
                     r->reference_viscosity_mm2_s, "mm2/s", "ISO 281:2007, eq. (28), (29)",
                     "n %.6g r/min, D_pw %.6g mm", n, bearing->pitch_diameter_mm);
    spt_explain_step(sink, "kappa", "nu / nu_1 (x density factor)", r->viscosity_ratio, "",
                     "ISO 281:2007, 9.3.3.3", "%.5g / %.5g x %.5g", r->viscosity_mm2_s,
                     r->reference_viscosity_mm2_s, r->density_factor);
}

static void explain_grease(const struct spt_phase_result *r, double duty_interval_h,
                           const struct spt_bearing *bearing, const struct spt_step_sink *sink)
{
    const struct spt_grease_interval *i = &r->interval;
    if (isnan(i->interval_h))
        return;
    spt_explain_step(sink, "F_t", "2^((70 - T)/15), at most 1", i->temperature_factor, "",
                     "catalogue practice (an alternative to the levels of that formula)",
                     "T %.6g degC%s", r->temperature_c,
                     isnan(r->phase->temperature_c) ? " + 10 K, as it is an estimate" : "");
    if (bearing->outer_turns)
        spt_explain_step(sink, "n_e", "n 2 D/(d + D), as the outer ring turns", i->ring_speed_rpm,
                         "r/min", "catalogue practice: n D in place of n d_m",
                         "%.6g x 2 x %.6g/(%.6g + %.6g)", r->phase->speed_rpm,
                         bearing->outside_diameter_mm, bearing->bore_mm,
                         bearing->outside_diameter_mm);
    spt_explain_step(sink, "F_L", "log-linear in P/C through the table of the type", i->load_factor,
                     "",
                     spt_bearing_is_ball(bearing->type)
                         ? "trade practice for sealed ball bearings; interpolation ours"
                         : "worksheet of a lubrication society (from memory); interpolation ours",
                     "P/C %.4g", r->dynamic.load_n / bearing->dynamic_load_rating_n);
    spt_explain_step(sink, "t_f",
                     "K (14e6/(n_e sqrt d) - 4 d), K = F_d F_t F_c F_m F_v F_p F_L F_S",
                     i->interval_h, "h",
                     "common practice: a formula reprinted in trade magazines; the levels of "
                     "F_c, F_m, F_v, F_p from memory; good to a factor of 2",
                     "K = %.3g x %.3g x %.3g x %.3g x %.3g x %.3g x %.3g x %.3g, n_e %.6g r/min, d "
                     "%.6g mm",
                     i->type_factor, i->temperature_factor, i->dust_factor, i->moisture_factor,
                     i->vibration_factor, i->shaft_factor, i->load_factor, i->size_factor,
                     i->ring_speed_rpm, bearing->bore_mm);
    if (isnan(r->grease.tau))
        return;
    spt_explain_step(sink, "tau", "age / t_f of the whole duty", r->grease.tau, "",
                     "model of this tool", "%.6g / %.6g", r->phase->condition.grease_age_h,
                     duty_interval_h);
    spt_explain_step(sink, "theta", "0.5^(tau/5.99), the oil left in the grease",
                     r->grease.oil_left, "",
                     "model of this tool: half the oil is gone at the median grease life",
                     "0.5^(%.5g/5.99)", r->grease.tau);
    spt_explain_step(sink, "phi", "g(4 (2 theta - 1))/g(4), g(r) = r/(1 + r^3)^(1/3), at least 0",
                     r->grease.film_ratio, "",
                     "model of this tool: starvation law of Chevalier et al. 1998 (from memory), 4 "
                     "our choice",
                     "g(4 (2 x %.5g - 1))/g(4)", r->grease.oil_left);
    spt_explain_step(sink, "kappa_eff", "kappa phi^1.3", r->effective_viscosity_ratio, "",
                     "kappa = Lambda^1.3 of ISO 281:2007, 9.3.3.3, read backwards",
                     "%.5g x %.5g^1.3", r->viscosity_ratio, r->grease.film_ratio);
}

static void explain_contamination(const struct spt_phase_result *r,
                                  const struct spt_bearing *bearing,
                                  const struct spt_step_sink *sink)
{
    const struct spt_condition *state = &r->phase->condition;
    if (isnan(r->contamination_factor))
        return;
    if (!isnan(state->contamination_factor)) {
        spt_explain_step(sink, "e_C", "given", r->contamination_factor, "", "scenario", "%.4g",
                         state->contamination_factor);
        return;
    }
    struct spt_cleanliness_constants k =
        spt_cleanliness_constants(state->cleanliness, bearing->pitch_diameter_mm);
    spt_explain_step(sink, "e_C",
                     r->contamination_factor > 0
                         ? "a (1 - b/D_pw^(1/3)), a = min(1, c kappa^0.68 D_pw^0.55)"
                         : "a (1 - b/D_pw^(1/3)), a = min(1, c kappa^0.68 D_pw^0.55), at least 0",
                     r->contamination_factor, "", "ISO 281:2007, Annex A (constants from memory)",
                     "class %s: c %.5g, b %.5g, kappa %.4g, D_pw %.6g mm",
                     spt_cleanliness_name(state->cleanliness), k.c, k.b,
                     fmin(r->effective_viscosity_ratio, SPT_KAPPA_MAX), bearing->pitch_diameter_mm);
}

/* Formats a_ISO with the limit that applies, if any. */
static const char *write_life_factor(bool ball, const struct spt_life_factor *factor, char *formula)
{
    snprintf(formula, NUMBERS_LENGTH, "%s%s",
             ball ? "0.1 [1 - (2.5671 - A)^0.83 x^(1/3)]^-9.3"
                  : "0.1 [1 - (1.5859 - B) x^0.4]^-9.185",
             !factor->capped       ? ""
             : factor->ep_applied  ? ", at most 3 with the EP rule"
             : factor->bracket > 0 ? ", at most 50"
                                   : ", and 50 where the bracket is 0 or less");
    return formula;
}

/* The load zone at the clearance at work. */
static void explain_zone(const struct spt_phase_result *r, const struct spt_bearing *bearing,
                         const struct spt_step_sink *sink)
{
    struct spt_geometry g;
    if (isnan(r->zone.extent) || spt_bearing_insides(bearing, &g))
        return;
    spt_explain_step(sink, "eps", "(1 - G/(2 d_r))/2, d_r from the balance of single elements",
                     r->zone.extent, "",
                     "load distribution of rigid rings (textbooks, from memory), c of a contact "
                     "from ISO 16281 (from memory)",
                     "%d %s in a row%s, c %.5g N/mm^n; half zone %.4g deg, hardest %.5g N",
                     g.elements, spt_bearing_is_ball(bearing->type) ? "balls" : "rollers",
                     bearing->has_geometry ? "" : " (estimated)", bearing->seat.stiffness,
                     r->zone.half_deg, r->zone.most_n);
    spt_explain_step(sink, "f_G", "L(G)/L(0), at most 1; fading to 1 at Fa/Fr = e", r->zone.factor,
                     "",
                     "lives from single loads: ISO/TS 16281:2008 without laminae (from memory); "
                     "held against no clearance: our choice",
                     "eps %.5g", r->zone.extent);
}

static void explain_life(const struct spt_phase_result *r, double a1,
                         const struct spt_bearing *bearing, const struct spt_step_sink *sink)
{
    bool ball = spt_bearing_is_ball(bearing->type);
    double kappa = r->factor.viscosity_ratio;
    char formula[NUMBERS_LENGTH];
    if (isnan(r->basic_rating_life_mrev)) {
        spt_explain_step(sink, "L_10", "(f_T C/P)^p", r->basic_rating_life_mrev, "million rev",
                         "ISO 281:2007, clauses 5 to 8; f_T beside it",
                         "none: a radial load of %.6g N, which P of a thrust bearing does not "
                         "cover",
                         r->phase->radial_load_n);
        return;
    }
    if (r->factor.ep_applied)
        spt_explain_step(sink, "kappa", "1, for the proven EP additive", kappa, "",
                         "ISO 281:2007, 9.3.3.4 (clause from memory)", "kappa %.5g, e_C %.4g",
                         r->effective_viscosity_ratio, r->contamination_factor);
    if (!isnan(r->factor.a_iso))
        spt_explain_step(sink, ball ? "A" : "B",
                         kappa < 0.4 ? ball ? "2.2649/kappa^0.054381" : "1.3993/kappa^0.054381"
                         : kappa < 1 ? ball ? "1.9987/kappa^0.19087" : "1.2348/kappa^0.19087"
                         : ball      ? "1.9987/kappa^0.071739"
                                     : "1.2348/kappa^0.071739",
                         r->factor.film_term, "", "ISO 281:2007, 9.3.3", "kappa %.5g", kappa);
    if (!isnan(r->factor.a_iso))
        spt_explain_step(sink, "a_ISO", write_life_factor(ball, &r->factor, formula),
                         r->factor.a_iso, "", "ISO 281:2007, 9.3.3",
                         "%s %.5g, x = e_C C_u/P%s = %.5g", ball ? "A" : "B", r->factor.film_term,
                         !spt_bearing_is_thrust(bearing->type) ? ""
                         : ball                                ? "/3"
                                                               : "/2.5",
                         r->factor.x);
    spt_explain_step(
        sink, "a_w", "(100/X)^0.6 above 100 ppm, at least 1/11", r->water_factor, "",
        "curve: Cantley 1977 (25 to 400 ppm); floor of 1/11: bearing chapter of the US "
        "Navy handbook of mechanical reliability (from memory); a model, not in ISO "
        "281",
        "X %.6g ppm", r->phase->condition.water_ppm);
    spt_explain_step(sink, "f_T",
                     "1 to 150 degC, 0.95 at 175, 0.9 at 200, 0.75 at 250, 0.6 at 300, linear "
                     "between",
                     r->temperature_factor, "",
                     "catalogue practice, not in ISO 281 (300 degC from memory)", "T %.6g degC",
                     r->temperature_c);
    spt_explain_step(sink, "L_10", "(f_T C/P)^p", r->basic_rating_life_mrev, "million rev",
                     "ISO 281:2007, clauses 5 to 8; f_T beside it", "(%.4g x %.6g / %.6g)^%.4g",
                     r->temperature_factor, bearing->dynamic_load_rating_n, r->dynamic.load_n,
                     spt_life_exponent(bearing->type));
    spt_explain_step(sink, "L_10h", "L_10 10^6 / (60 n)", r->basic_rating_life_h, "h",
                     "hours at constant speed", "%.6g x 10^6 / (60 x %.6g)",
                     r->basic_rating_life_mrev, r->phase->speed_rpm);
    explain_zone(r, bearing, sink);
    const double first = bearing->has_seat ? r->zone.factor : r->basic_rating_life_h;
    const double second = bearing->has_seat ? r->basic_rating_life_h : r->phase->setting_factor;
    if (!isnan(r->modified_rating_life_h))
        spt_explain_step(sink, "L_nmh",
                         bearing->has_seat ? "a_1 a_ISO a_w f_G L_10h"
                                           : "a_1 a_ISO a_w L_10h (x setting factor)",
                         r->modified_rating_life_h, "h",
                         bearing->has_seat ? "ISO 281:2007, 9.3.1; a_w and f_G beside it"
                                           : "ISO 281:2007, 9.3.1; a_w beside it",
                         "%.4g x %.5g x %.4g x %.6g x %.6g", a1, r->factor.a_iso, r->water_factor,
                         first, second);
}

static void explain_phase(const struct spt_assessment *assessment,
                          const struct spt_bearing_result *result, int index,
                          const struct spt_step_sink *sink)
{
    const struct spt_phase_result *r = &result->phases[index];
    const struct spt_bearing *bearing = &result->bearing_case->bearing;
    sink->place(sink->context, bearing->name, r->phase->name);
    explain_load(r, assessment->question, bearing, sink);
    if (isnan(r->temperature_c) || isnan(r->viscosity_mm2_s))
        return;
    explain_film(r, assessment->question, bearing, sink);
    if (isinf(r->modified_rating_life_h) || isnan(r->temperature_factor))
        return;
    explain_grease(r, result->grease_interval_h, bearing, sink);
    explain_contamination(r, bearing, sink);
    explain_life(r, assessment->reliability_factor, bearing, sink);
}

/* Sends the split of a loss to a sink. */
typedef void loss_teller(const struct spt_loss *loss, const struct spt_step_sink *sink);

static void explain_duty(const struct spt_bearing_result *result, loss_teller *tell_loss,
                         const struct spt_step_sink *sink)
{
    char terms[NUMBERS_LENGTH] = "";
    int used = 0;
    for (int i = 0; i < result->phase_count && used < NUMBERS_LENGTH - 40; i++) {
        char life[SPT_HOURS_LENGTH];
        used += snprintf(terms + used, sizeof terms - (size_t)used, "%s%.4g/%s", i ? " + " : "1/(",
                         result->phases[i].phase->time_share,
                         spt_explain_life(result->phases[i].modified_rating_life_h, 5, life));
    }
    snprintf(terms + used, sizeof terms - (size_t)used,
             used < NUMBERS_LENGTH - 40 ? ")" : " + ...)");
    sink->place(sink->context, result->bearing_case->bearing.name, "whole duty");
    spt_explain_step(sink, "L_nmh", "1 / sum(q_i / L_i)", result->modified_rating_life_h, "h",
                     "Palmgren 1924, Miner 1945", "%s", terms);
    tell_loss(&result->loss, sink);
}

/* Explains the Walther line of the oil through its two viscosities. */
static void explain_viscosity(const struct spt_lubricant *oil, const struct spt_step_sink *sink)
{
    static const char source[] = "ASTM D341, engineering form (nu of 2 mm2/s and more)";
    sink->place(sink->context, "", "lubricant");
    if (isnan(oil->viscosity_40_mm2_s) || isnan(oil->viscosity_100_mm2_s))
        return;
    spt_explain_step(sink, "B",
                     "[lg lg(nu_40 + 0.7) - lg lg(nu_100 + 0.7)] / (lg 373.15 - lg 313.15)",
                     oil->line.b, "", source, "nu_40 %.6g mm2/s, nu_100 %.6g mm2/s",
                     oil->viscosity_40_mm2_s, oil->viscosity_100_mm2_s);
    spt_explain_step(sink, "A", "lg lg(nu_40 + 0.7) + B lg 313.15", oil->line.a, "", source,
                     "lg lg(%.6g + 0.7) + %.7g lg 313.15", oil->viscosity_40_mm2_s, oil->line.b);
}

/* Several bearings together. */
static void explain_system(const struct spt_assessment *assessment,
                           const struct spt_step_sink *sink)
{
    char lives[SPT_BEARINGS_MAX * SPT_HOURS_LENGTH], life[SPT_HOURS_LENGTH];
    size_t used = 0;
    for (int i = 0; i < assessment->bearing_count; i++)
        used += (size_t)snprintf(
            lives + used, sizeof lives - used, "%s%s", i ? ", " : "",
            spt_explain_life(assessment->bearings[i].modified_rating_life_h, 6, life));
    sink->place(sink->context, "", "system");
    spt_explain_step(sink, "L_nmh",
                     assessment->bearing_count == 2
                         ? "L where R_1(L) R_2(L) = R, R_i(t) = 0.9^{[(t/L_10,i - "
                           "0.05)/0.95]^1.5}"
                         : "L where R_1(L) R_2(L) ... R_k(L) = R, R_i(t) = 0.9^{[(t/L_10,i - "
                           "0.05)/0.95]^1.5}",
                     assessment->modified_rating_life_h, "h",
                     "product of survivals by the law behind a_1 of ISO 281:2007", "%s", lives);
}

static void explain(const struct spt_assessment *assessment, loss_teller *tell_loss,
                    const struct spt_step_sink *sink)
{
    sink->place(sink->context, "", "reliability");
    spt_explain_step(sink, "a_1", "0.95 [ln(100/S)/ln(100/90)]^(1/1.5) + 0.05",
                     assessment->reliability_factor, "",
                     "form behind ISO 281:2007, table 12 (ISO/TR 1281-2)", "S %.6g %%",
                     assessment->question->reliability_percent);
    explain_viscosity(&assessment->question->lubricant, sink);
    if (assessment->question->vehicle)
        spt_explain_vehicle(assessment, sink);
    if (assessment->hub)
        spt_explain_hub(assessment, sink);
    if (assessment->question->machine)
        spt_explain_machine(assessment, sink);
    else if (assessment->question->sheet_hub)
        spt_explain_sheet_hub(assessment, sink);
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        sink->place(sink->context, bearing->bearing_case->bearing.name, "ratings");
        spt_explain_ratings(&bearing->bearing_case->bearing, sink);
        for (int j = 0; j < bearing->phase_count; j++)
            explain_phase(assessment, bearing, j, sink);
        explain_duty(bearing, tell_loss, sink);
    }
    if (assessment->bearing_count > 1)
        explain_system(assessment, sink);
}

void spt_explain_assessment(const struct spt_assessment *assessment,
                            const struct spt_step_sink *sink)
{
    explain(assessment, spt_explain_loss, sink);
}

/* The page of the steps; each place is a section. */
struct page_steps {
    struct spt_page *page;
    bool placed;
};

static void place_on_page(void *context, const char *bearing, const char *phase)
{
    struct page_steps *steps = context;
    if (steps->placed)
        spt_page_close(steps->page);
    steps->placed = true;
    spt_page_open(steps->page, "%s%s%s", *bearing ? spt_page_name(steps->page, bearing) : "",
                  *bearing ? ": " : "", spt_page_name(steps->page, phase));
}

static void step_on_page(void *context, const struct spt_step *step)
{
    const struct page_steps *steps = context;
    spt_page_step(steps->page, step);
}

/* The subsets of a loss as a table in place of a step for each. */
static void show_loss(const struct spt_loss *loss, const struct spt_step_sink *sink)
{
    const struct page_steps *steps = sink->context;
    spt_explain_loss_page(steps->page, loss);
}

void spt_explain_page(struct spt_page *page, spt_teller *tell, const void *subject)
{
    struct page_steps steps = {page, false};
    const struct spt_step_sink sink = {place_on_page, step_on_page, &steps};
    spt_page_open(page, "Working");
    tell(subject, &sink);
    if (steps.placed)
        spt_page_close(page);
    spt_page_close(page);
}

void spt_explain_assessment_steps(struct spt_page *page, const struct spt_assessment *assessment)
{
    struct page_steps steps = {page, false};
    const struct spt_step_sink sink = {place_on_page, step_on_page, &steps};
    explain(assessment, show_loss, &sink);
    if (steps.placed)
        spt_page_close(page);
}

void spt_explain_assessment_page(struct spt_page *page, const struct spt_assessment *assessment)
{
    spt_page_open(page, "Working");
    spt_explain_assessment_steps(page, assessment);
    spt_page_close(page);
}

/* The place is repeated in each JSON step, so that it is stored between the calls. */
struct json_steps {
    struct spt_json *json;
    const char *bearing;
    const char *phase;
};

static void place_in_json(void *context, const char *bearing, const char *phase)
{
    struct json_steps *steps = context;
    steps->bearing = bearing;
    steps->phase = phase;
}

static void step_in_json(void *context, const struct spt_step *step)
{
    struct json_steps *steps = context;
    spt_json_open(steps->json, NULL, '{');
    spt_json_text(steps->json, "bearing", steps->bearing);
    spt_json_text(steps->json, "phase", steps->phase);
    spt_json_text(steps->json, "symbol", step->symbol);
    spt_json_text(steps->json, "formula", step->formula);
    spt_json_text(steps->json, "numbers", step->numbers);
    spt_json_number(steps->json, "value", step->value);
    spt_json_text(steps->json, "unit", step->unit);
    spt_json_text(steps->json, "source", step->source);
    spt_json_close(steps->json, '}');
}

void spt_explain_in_json(struct spt_json *json, spt_teller *tell, const void *subject)
{
    struct json_steps steps = {json, "", ""};
    const struct spt_step_sink sink = {place_in_json, step_in_json, &steps};
    spt_json_open(json, "working", '[');
    tell(subject, &sink);
    spt_json_close(json, ']');
}

static void tell_assessment(const void *assessment, const struct spt_step_sink *sink)
{
    spt_explain_assessment(assessment, sink);
}

void spt_explain_json(struct spt_json *json, const struct spt_assessment *assessment)
{
    spt_explain_in_json(json, tell_assessment, assessment);
}
